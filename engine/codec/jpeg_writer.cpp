// JPEG print files. Memory: one row, the encoder's few rows of blocks, 64 KiB of file.
#include <algorithm>
#include <cmath>

#include "codec/jpeg_common.h"
#include "codec/samples.h"
#include "codec/writers.h"

namespace proofleaf {

namespace {

constexpr size_t kBlock = 64 << 10;
constexpr size_t kLargestSegment = 65533;                   // [bytes] after the marker's length
constexpr size_t kLargestJpegProfile = 255 * (65533 - 14);  // ICC.1:2022 B.4: 255 chunks

struct Output {
  jpeg_destination_mgr manager;  // first, so that cinfo->dest is also the output
  ByteSink* sink;
  std::string* failure;
  uint64_t offset;
  uint8_t* block;
};

void begin(j_compress_ptr cinfo) {
  auto* output = reinterpret_cast<Output*>(cinfo->dest);
  output->manager.next_output_byte = output->block;
  output->manager.free_in_buffer = kBlock;
}

// Apart from flush(), so that nothing with a destructor is in hand when an error jumps.
bool put(Output& output, size_t count) {
  Status written = output.sink->write_at(output.offset, {output.block, count});
  if (!written) *output.failure = written.error().message;
  output.offset += count;
  return written.ok();
}

boolean flush(j_compress_ptr cinfo) {
  if (!put(*reinterpret_cast<Output*>(cinfo->dest), kBlock)) ERREXIT(cinfo, JERR_FILE_WRITE);
  begin(cinfo);
  return TRUE;
}

void flush_last(j_compress_ptr cinfo) {
  auto* output = reinterpret_cast<Output*>(cinfo->dest);
  if (!put(*output, kBlock - output->manager.free_in_buffer)) ERREXIT(cinfo, JERR_FILE_WRITE);
}

// Plain data for the steps below.
struct Plan {
  Output* output;
  const WriteSpec* spec;
  const Bytes* exif;
};

void set_sampling(j_compress_ptr cinfo, const WriteSpec& spec) {
  for (int c = 0; c < cinfo->num_components; ++c) {
    const bool fine = spec.full_colour_detail || c == 0 || c == 3;  // Y, and K of YCCK
    cinfo->comp_info[c].h_samp_factor = cinfo->comp_info[c].v_samp_factor =
        fine && !spec.full_colour_detail && cinfo->num_components > 1 ? 2 : 1;
  }
}

void set_colour(j_compress_ptr cinfo, const WriteSpec& spec) {
  const bool cmyk = spec.model == ColourModel::cmyk;
  cinfo->input_components = static_cast<int>(channels_of(spec.model));
  cinfo->in_color_space = cmyk                              ? JCS_CMYK
                          : spec.model == ColourModel::grey ? JCS_GRAYSCALE
                                                            : JCS_RGB;
  jpeg_set_defaults(cinfo);
  // Inks keep their own planes at full detail; only YCCK has colour that can be thinned out.
  if (cmyk) jpeg_set_colorspace(cinfo, spec.full_colour_detail ? JCS_CMYK : JCS_YCCK);
  set_sampling(cinfo, spec);
}

void start(j_compress_ptr cinfo, const Plan* plan) {
  const WriteSpec& spec = *plan->spec;
  jpeg_create_compress(cinfo);
  cinfo->dest = &plan->output->manager;
  cinfo->image_width = spec.width;
  cinfo->image_height = spec.height;
  set_colour(cinfo, spec);
  jpeg_set_quality(cinfo, spec.quality, TRUE);
  cinfo->dct_method = JDCT_ISLOW;
  // JFIF 1.02 knows grey and YCbCr only; CMYK carries its resolution in Exif.
  cinfo->density_unit = 1;
  cinfo->X_density = cinfo->Y_density = static_cast<UINT16>(std::lround(spec.ppi));
  jpeg_start_compress(cinfo, TRUE);
  jpeg_write_marker(cinfo, JPEG_APP0 + 1, plan->exif->data(),
                    static_cast<unsigned>(plan->exif->size()));
  if (!spec.icc.empty()) {
    jpeg_write_icc_profile(cinfo, spec.icc.data(), static_cast<unsigned>(spec.icc.size()));
  }
}

void write_one(j_compress_ptr cinfo, uint8_t* samples) {
  JSAMPROW row = samples;
  jpeg_write_scanlines(cinfo, &row, 1);
}

void complete(j_compress_ptr cinfo, int) { jpeg_finish_compress(cinfo); }

class JpegWriter final : public ImageWriter {
 public:
  JpegWriter(const WriteSpec& spec, ByteSink& sink)
      : spec_(spec), block_(kBlock), fault_{}, output_{}, cinfo_{} {
    prepare(fault_);
    output_.sink = &sink;
    output_.failure = &failure_;
    output_.block = block_.data();
    output_.manager.init_destination = begin;
    output_.manager.empty_output_buffer = flush;
    output_.manager.term_destination = flush_last;
    cinfo_.err = &fault_.manager;
  }
  JpegWriter(const JpegWriter&) = delete;
  JpegWriter& operator=(const JpegWriter&) = delete;
  ~JpegWriter() override { jpeg_destroy_compress(&cinfo_); }

  // exif: a whole APP1 body, "Exif\0\0" first.
  Status begin_file(const Bytes& exif) {
    const Plan plan{&output_, &spec_, &exif};
    if (!guarded(fault_, start, &cinfo_, &plan)) return explain();
    return done();
  }

  Status write8(std::span<const uint8_t> samples, uint32_t count) override {
    if (broken_) return explain();
    if (Status ok = check_rows(spec_, 8, cinfo_.next_scanline, samples.size(), count); !ok) {
      return ok;
    }
    const size_t row = samples.size() / std::max(count, 1u);
    row_.resize(row);
    for (uint32_t y = 0; y < count; ++y) {
      std::copy_n(samples.begin() + static_cast<std::ptrdiff_t>(y * row), row, row_.begin());
      if (spec_.model == ColourModel::cmyk) {
        // The habit that goes with the Adobe marker: 255 is no ink.
        for (uint8_t& v : row_) v = static_cast<uint8_t>(255 - v);
      }
      if (!guarded(fault_, write_one, &cinfo_, row_.data())) return explain();
    }
    return done();
  }

  Status write16(std::span<const uint16_t>, uint32_t) override {
    return Error{"A JPEG holds 8 bits per channel."};
  }

  Status finish() override {
    if (broken_) return explain();
    if (cinfo_.next_scanline < spec_.height) return too_few_rows();
    if (!guarded(fault_, complete, &cinfo_, 0)) return explain();
    return done();
  }

 private:
  Error explain() {
    broken_ = true;
    return Error{failure_.empty() ? "The JPEG file could not be written." : failure_};
  }

  WriteSpec spec_;
  std::vector<uint8_t> block_;
  std::vector<uint8_t> row_;
  std::string failure_;
  bool broken_ = false;
  JpegFault fault_;
  Output output_;
  jpeg_compress_struct cinfo_;
};

}  // namespace

Result<std::unique_ptr<ImageWriter>> open_jpeg_writer(const WriteSpec& spec, ByteSink& sink) {
  if (spec.bits != 8) return Error{"A JPEG holds 8 bits per channel."};
  if (spec.quality < 1 || spec.quality > 100) return Error{"JPEG quality goes from 1 to 100."};
  if (spec.icc.size() > kLargestJpegProfile) {
    return Error{"The profile is too large to be embedded in a JPEG."};
  }
  Bytes exif = {'E', 'x', 'i', 'f', 0, 0};
  const Bytes block = spec.exif.empty()
                          ? clean_exif({}, {spec.width, spec.height, spec.ppi, spec.exif_space})
                          : spec.exif;
  exif.insert(exif.end(), block.begin(), block.end());
  if (exif.size() > kLargestSegment) return Error{"The Exif block is too large for a JPEG."};
  auto writer = std::make_unique<JpegWriter>(spec, sink);
  if (Status ok = writer->begin_file(exif); !ok) return ok.error();
  return std::unique_ptr<ImageWriter>(std::move(writer));
}

}  // namespace proofleaf
