#include "codec_files.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <random>

namespace proofleaf::testing {

Codes picture(uint32_t width, uint32_t height, uint32_t channels, uint32_t bits) {
  std::mt19937 random(width * 31 + height * 7 + channels + bits);
  const double top = (1 << bits) - 1;
  Codes samples;
  for (uint32_t y = 0; y < height; ++y) {
    for (uint32_t x = 0; x < width; ++x) {
      for (uint32_t c = 0; c < channels; ++c) {
        const double smooth = 0.5 + 0.4 * std::sin(x * 0.11 * (c + 1) + y * 0.07);
        const double noise = static_cast<double>(random() % 1000) / 1000 * 0.1;
        samples.push_back(static_cast<uint16_t>(std::min(top, (smooth + noise) * top)));
      }
    }
  }
  return samples;
}

Bytes raw_jpeg(const JpegRecipe& recipe, const Codes& samples) {
  jpeg_compress_struct cinfo;
  jpeg_error_mgr errors;
  cinfo.err = jpeg_std_error(&errors);
  jpeg_create_compress(&cinfo);
  unsigned char* memory = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&cinfo, &memory, &size);
  cinfo.image_width = recipe.width;
  cinfo.image_height = recipe.height;
  cinfo.input_components = recipe.channels;
  cinfo.in_color_space = recipe.channels == 1   ? JCS_GRAYSCALE
                         : recipe.channels == 3 ? JCS_RGB
                                                : JCS_CMYK;
  jpeg_set_defaults(&cinfo);
  jpeg_set_colorspace(&cinfo, recipe.stored);
  if (recipe.stored == JCS_CMYK) cinfo.write_Adobe_marker = recipe.adobe;
  jpeg_set_quality(&cinfo, recipe.quality, TRUE);
  for (int c = 0; c < cinfo.num_components; ++c) {
    const int factor = recipe.thinned && (c == 0 || c == 3) ? 2 : 1;
    cinfo.comp_info[c].h_samp_factor = cinfo.comp_info[c].v_samp_factor = factor;
  }
  if (recipe.progressive) jpeg_simple_progression(&cinfo);
  cinfo.restart_in_rows = recipe.restart_rows;
  cinfo.restart_interval = recipe.restart_mcus;
  cinfo.optimize_coding = recipe.own_codes;
  cinfo.density_unit = static_cast<UINT8>(recipe.density_unit);
  cinfo.X_density = cinfo.Y_density = static_cast<UINT16>(recipe.density);
  jpeg_start_compress(&cinfo, TRUE);
  for (const Segment& segment : recipe.segments) {
    jpeg_write_marker(&cinfo, segment.marker, segment.body.data(),
                      static_cast<unsigned>(segment.body.size()));
  }
  Bytes row(recipe.width * static_cast<size_t>(recipe.channels));
  for (uint32_t y = 0; y < recipe.height; ++y) {
    for (size_t i = 0; i < row.size(); ++i) {
      row[i] = static_cast<uint8_t>(samples[y * row.size() + i]);
    }
    JSAMPROW rows = row.data();
    jpeg_write_scanlines(&cinfo, &rows, 1);
  }
  jpeg_finish_compress(&cinfo);
  Bytes file(memory, memory + size);
  jpeg_destroy_compress(&cinfo);
  std::free(memory);
  return file;
}

Codes decode_jpeg(const Bytes& file, unsigned shrink) {
  jpeg_decompress_struct cinfo;
  jpeg_error_mgr errors;
  cinfo.err = jpeg_std_error(&errors);
  jpeg_create_decompress(&cinfo);
  jpeg_mem_src(&cinfo, file.data(), file.size());
  jpeg_read_header(&cinfo, TRUE);
  if (cinfo.num_components == 4) cinfo.out_color_space = JCS_CMYK;
  cinfo.scale_num = 1;
  cinfo.scale_denom = shrink;
  jpeg_start_decompress(&cinfo);
  Codes samples;
  Bytes row(cinfo.output_width * static_cast<size_t>(cinfo.output_components));
  while (cinfo.output_scanline < cinfo.output_height) {
    JSAMPROW rows = row.data();
    jpeg_read_scanlines(&cinfo, &rows, 1);
    samples.insert(samples.end(), row.begin(), row.end());
  }
  jpeg_finish_decompress(&cinfo);
  jpeg_destroy_decompress(&cinfo);
  return samples;
}

Bytes raw_png(const PngRecipe& recipe, const Codes& samples) {
  png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
  png_infop info = png_create_info_struct(png);
  Bytes file;
  png_set_write_fn(
      png, &file,
      [](png_structp p, png_bytep data, size_t size) {
        auto* out = static_cast<Bytes*>(png_get_io_ptr(p));
        out->insert(out->end(), data, data + size);
      },
      nullptr);
  png_set_IHDR(png, info, recipe.width, recipe.height, recipe.depth, recipe.type,
               recipe.interlaced ? PNG_INTERLACE_ADAM7 : PNG_INTERLACE_NONE,
               PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
  if (recipe.more) recipe.more(png, info);
  png_write_info(png, info);
  const size_t row_bytes = png_get_rowbytes(png, info);
  const size_t row_samples = samples.size() / recipe.height;
  std::vector<Bytes> rows(recipe.height, Bytes(row_bytes));
  std::vector<png_bytep> pointers;
  for (uint32_t y = 0; y < recipe.height; ++y) {
    for (size_t i = 0; i < row_samples; ++i) {
      const uint16_t value = samples[y * row_samples + i];
      if (recipe.depth == 16) {
        rows[y][2 * i] = static_cast<uint8_t>(value >> 8);
        rows[y][2 * i + 1] = static_cast<uint8_t>(value);
      } else {
        const size_t bit = i * static_cast<size_t>(recipe.depth);
        const size_t shift = 8 - static_cast<size_t>(recipe.depth) - bit % 8;
        rows[y][bit / 8] = static_cast<uint8_t>(rows[y][bit / 8] | value << shift);
      }
    }
    pointers.push_back(rows[y].data());
  }
  png_write_image(png, pointers.data());
  png_write_end(png, info);
  png_destroy_write_struct(&png, &info);
  return file;
}

namespace {

struct Memory {
  Bytes bytes;
  uint64_t at = 0;
};

TIFF* open_memory(Memory& memory, const char* mode) {
  return TIFFClientOpen(
      "memory", mode, &memory,
      [](thandle_t h, void* into, tmsize_t count) -> tmsize_t {
        auto* m = static_cast<Memory*>(h);
        if (m->at >= m->bytes.size()) return 0;
        const size_t take = std::min<size_t>(static_cast<size_t>(count), m->bytes.size() - m->at);
        std::memcpy(into, m->bytes.data() + m->at, take);
        m->at += take;
        return static_cast<tmsize_t>(take);
      },
      [](thandle_t h, void* from, tmsize_t count) -> tmsize_t {
        auto* m = static_cast<Memory*>(h);
        const size_t end = m->at + static_cast<size_t>(count);
        if (end > m->bytes.size()) m->bytes.resize(end);
        std::memcpy(m->bytes.data() + m->at, from, static_cast<size_t>(count));
        m->at = end;
        return count;
      },
      [](thandle_t h, toff_t offset, int whence) -> toff_t {
        auto* m = static_cast<Memory*>(h);
        m->at = offset + (whence == SEEK_CUR ? m->at : whence == SEEK_END ? m->bytes.size() : 0);
        return m->at;
      },
      [](thandle_t) { return 0; },
      [](thandle_t h) -> toff_t { return static_cast<Memory*>(h)->bytes.size(); }, nullptr,
      nullptr);
}

// A block of w x h pixels from (x, y) of `count` samples each, as the file holds them, host order.
Bytes cut(const TiffRecipe& r, const Codes& samples, uint32_t x0, uint32_t y0, uint32_t w,
          uint32_t h, uint32_t first, uint32_t count) {
  Bytes out;
  for (uint32_t y = y0; y < y0 + h; ++y) {
    for (uint32_t x = x0; x < x0 + w; ++x) {
      for (uint32_t c = first; c < first + count; ++c) {
        const bool inside = x < r.width && y < r.height;
        const uint16_t v = inside ? samples[(size_t{y} * r.width + x) * r.samples + c] : 0;
        out.push_back(static_cast<uint8_t>(v));
        if (r.bits == 16) out.push_back(static_cast<uint8_t>(v >> 8));
      }
    }
  }
  return out;
}

}  // namespace

Bytes raw_tiff(const TiffRecipe& r, const Codes& samples) {
  Memory memory;
  TIFFSetWarningHandler(nullptr);
  TIFF* tiff = open_memory(memory, r.mode);
  TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, r.width);
  TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, r.height);
  TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, r.bits);
  TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, r.samples);
  TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, r.photometric);
  TIFFSetField(tiff, TIFFTAG_PLANARCONFIG, r.planar);
  TIFFSetField(tiff, TIFFTAG_COMPRESSION, r.compression);
  if (r.predictor) TIFFSetField(tiff, TIFFTAG_PREDICTOR, PREDICTOR_HORIZONTAL);
  if (!r.extra.empty()) TIFFSetField(tiff, TIFFTAG_EXTRASAMPLES, r.extra.size(), r.extra.data());
  if (r.tiled) {
    TIFFSetField(tiff, TIFFTAG_TILEWIDTH, 16);
    TIFFSetField(tiff, TIFFTAG_TILELENGTH, 16);
  } else {
    TIFFSetField(tiff, TIFFTAG_ROWSPERSTRIP, r.rows_per_strip);
  }
  if (r.more) r.more(tiff);
  const bool separate = r.planar == PLANARCONFIG_SEPARATE;
  const uint32_t planes = separate ? r.samples : 1;
  uint32_t index = 0;
  for (uint32_t p = 0; p < planes; ++p) {
    const uint32_t count = separate ? 1 : r.samples;
    const uint32_t step = r.tiled ? 16 : r.rows_per_strip;
    for (uint32_t y = 0; y < r.height; y += step) {
      const uint32_t rows = r.tiled ? 16 : std::min(step, r.height - y);
      for (uint32_t x = 0; x < r.width; x += r.tiled ? 16 : r.width) {
        Bytes block = cut(r, samples, x, y, r.tiled ? 16 : r.width, rows, p, count);
        const auto size = static_cast<tmsize_t>(block.size());
        if (r.tiled) {
          TIFFWriteEncodedTile(tiff, index++, block.data(), size);
        } else {
          TIFFWriteEncodedStrip(tiff, index++, block.data(), size);
        }
      }
    }
  }
  TIFFClose(tiff);
  return memory.bytes;
}

std::shared_ptr<ByteSource> source_of(Bytes bytes, std::string name) {
  return std::make_shared<MemorySource>(std::move(name), std::move(bytes));
}

Result<Codes> read_picture(Master& master, uint32_t step, uint32_t shrink) {
  auto rows = master.open_rows(shrink);
  if (!rows) return rows.error();
  const RowFormat format = rows.value()->format();
  Codes samples(format.row_samples() * format.height);
  for (uint32_t y = 0; y < format.height; y += step) {
    const uint32_t count = std::min(step, format.height - y);
    Status got = rows.value()->read(
        y, count,
        std::span(samples).subspan(y * format.row_samples(), count * format.row_samples()));
    if (!got) return got.error();
  }
  return samples;
}

Result<Codes> read_file_rows(const Bytes& file, uint32_t step) {
  auto master = open_master(source_of(file));
  if (!master) return master.error();
  return read_picture(*master.value(), step);
}

bool survives(const Bytes& file) {
  auto master = open_master(source_of(file));
  if (!master) return false;
  const MasterInfo& info = master.value()->info();
  if (uint64_t{info.width} * info.height > 1'000'000) {
    // A flipped bit made it huge: the first rows are enough.
    auto rows = master.value()->open_rows();
    if (!rows) return false;
    Codes row(rows.value()->format().row_samples());
    return rows.value()->format().height > 0 && rows.value()->read(0, 1, row).ok();
  }
  return read_picture(*master.value()).ok();
}

Codes widened(Codes samples) {
  for (uint16_t& v : samples) v = static_cast<uint16_t>(v * 257);
  return samples;
}

Codes inverted(Codes samples) {
  for (uint16_t& v : samples) v = static_cast<uint16_t>(65535 - v);
  return samples;
}

Bytes raw_exif(bool big_endian, const std::vector<ExifField>& image,
               const std::vector<ExifField>& photo, const std::vector<ExifField>& gps,
               const std::vector<ExifField>& interop) {
  Bytes out = big_endian ? Bytes{'M', 'M', 0, 42, 0, 0, 0, 8} : Bytes{'I', 'I', 42, 0, 8, 0, 0, 0};
  const auto put = [&](size_t at, uint32_t value, size_t size) {
    if (out.size() < at + size) out.resize(at + size);
    for (size_t i = 0; i < size; ++i) {
      out[at + i] = static_cast<uint8_t>(value >> 8 * (big_endian ? size - 1 - i : i));
    }
  };
  const auto directory = [&](const std::vector<ExifField>& fields, size_t pointers) {
    const size_t start = out.size();
    put(start, static_cast<uint32_t>(fields.size() + pointers), 2);
    out.resize(start + 2 + 12 * (fields.size() + pointers) + 4);
    size_t entry = start + 2;
    for (const ExifField& field : fields) {
      Bytes value;
      const size_t unit = field.type == 3 ? 2 : 4;
      const size_t count = field.type == 2   ? field.text.size() + 1
                           : field.type == 5 ? field.numbers.size() / 2
                                             : field.numbers.size();
      const size_t bytes = field.type == 2 ? count : field.numbers.size() * unit;
      put(entry, field.tag, 2);
      put(entry + 2, field.type, 2);
      put(entry + 4, static_cast<uint32_t>(count), 4);
      size_t where = entry + 8;
      if (bytes > 4) {
        where = out.size();
        put(entry + 8, static_cast<uint32_t>(where), 4);
        out.resize(where + bytes);
      }
      for (size_t i = 0; field.type == 2 && i < field.text.size(); ++i) {
        out[where + i] = static_cast<uint8_t>(field.text[i]);
      }
      for (size_t i = 0; i < field.numbers.size(); ++i)
        put(where + i * unit, field.numbers[i], unit);
      entry += 12;
    }
    return entry;
  };
  const auto point = [&](size_t& entry, uint16_t tag) {
    put(entry, tag, 2);
    put(entry + 2, 4, 2);
    put(entry + 4, 1, 4);
    put(entry + 8, static_cast<uint32_t>(out.size()), 4);
    entry += 12;
  };
  size_t entry = directory(image, (photo.empty() ? 0u : 1u) + (gps.empty() ? 0u : 1u));
  if (!photo.empty()) {
    point(entry, 0x8769);
    size_t inner = directory(photo, interop.empty() ? 0 : 1);
    if (!interop.empty()) {
      point(inner, 0xA005);
      directory(interop, 0);
    }
  }
  if (!gps.empty()) {
    point(entry, 0x8825);
    directory(gps, 0);
  }
  return out;
}

bool contains(const Bytes& bytes, const std::string& text) {
  return std::search(bytes.begin(), bytes.end(), text.begin(), text.end()) != bytes.end();
}

}  // namespace proofleaf::testing
