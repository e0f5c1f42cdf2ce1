#include "picture_file.h"

#include <png.h>

#include <algorithm>
#include <bit>
#include <csetjmp>
#include <cstdio>
#include <memory>
#include <vector>

#include "codec/writer.h"

namespace proofleaf::demo {
namespace {

constexpr uint32_t kStrip = 64;  // rows rendered at a time

struct Closer {
  void operator()(std::FILE* f) const { std::fclose(f); }
};
using File = std::unique_ptr<std::FILE, Closer>;

Error refused(const std::string& path) {
  return Error{path + " could not be written: the disk refused."};
}

Result<File> create(const std::string& path) {
  File file(std::fopen(path.c_str(), "wbx"));
  if (!file) return Error{path + " cannot be created: the name is taken or the folder refuses."};
  return file;
}

// Rounds 0..65535 to 0..255; exact for values that came from 8 bits.
uint8_t to8(uint16_t v) { return static_cast<uint8_t>((uint32_t{v} + 128) / 257); }

// libpng reports errors by longjmp: nothing with a destructor lives in these two functions.
bool begin_png(png_structp png, png_infop info, std::FILE* file, const RowFormat& f,
               const PictureSpec& spec) {
  if (setjmp(png_jmpbuf(png))) return false;
  png_init_io(png, file);
  png_set_IHDR(png, info, f.width, f.height, static_cast<int>(spec.bits),
               f.channels == 1 ? PNG_COLOR_TYPE_GRAY : PNG_COLOR_TYPE_RGB, PNG_INTERLACE_NONE,
               PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
  // Small pictures are kept in the project and pressed hard; large ones are made to be used now.
  png_set_compression_level(png, uint64_t{f.width} * f.height < 4'000'000 ? 9 : 3);
  png_set_iCCP(png, info, "ICC profile", PNG_COMPRESSION_TYPE_BASE, spec.icc.data(),
               static_cast<png_uint_32>(spec.icc.size()));
  png_write_info(png, info);
  if (spec.bits == 16 && std::endian::native == std::endian::little) png_set_swap(png);
  return true;
}

bool put_png(png_structp png, const uint8_t* bytes, size_t row_bytes, uint32_t count) {
  if (setjmp(png_jmpbuf(png))) return false;
  for (uint32_t i = 0; i < count; ++i) png_write_row(png, bytes + i * row_bytes);
  return true;
}

bool end_png(png_structp png, png_infop info) {
  if (setjmp(png_jmpbuf(png))) return false;
  png_write_end(png, info);
  return true;
}

// Calls put(first sample, rows) for each strip; put returns false when the file refuses.
template <class Put>
Status each_strip(RowSource& rows, const std::string& path, Put put) {
  const RowFormat f = rows.format();
  std::vector<uint16_t> strip(f.row_samples() * kStrip);
  for (uint32_t y = 0; y < f.height; y += kStrip) {
    const uint32_t count = std::min(kStrip, f.height - y);
    const std::span<uint16_t> part(strip.data(), count * f.row_samples());
    if (Status s = rows.read(y, count, part); !s) return s;
    if (!put(part, count)) return refused(path);
  }
  return done();
}

Status write_png(RowSource& rows, const PictureSpec& spec, const std::string& path) {
  Result<File> file = create(path);
  if (!file) return file.error();
  png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
  png_infop info = png ? png_create_info_struct(png) : nullptr;
  const RowFormat f = rows.format();
  Status result =
      info && begin_png(png, info, file.value().get(), f, spec) ? done() : refused(path);
  std::vector<uint8_t> narrow(spec.bits == 8 ? f.row_samples() * kStrip : 0);
  if (result)
    result = each_strip(rows, path, [&](std::span<const uint16_t> part, uint32_t count) {
      if (spec.bits == 16)
        return put_png(png, reinterpret_cast<const uint8_t*>(part.data()), 2 * f.row_samples(),
                       count);
      std::transform(part.begin(), part.end(), narrow.begin(), to8);
      return put_png(png, narrow.data(), f.row_samples(), count);
    });
  if (result && !end_png(png, info)) result = refused(path);
  png_destroy_write_struct(&png, &info);
  if (std::fflush(file.value().get()) != 0 && result) result = refused(path);
  return result;
}

// A sink over a plain file.
class DiskSink final : public ByteSink {
 public:
  explicit DiskSink(File file) : file_(std::move(file)) {}
  Status write_at(uint64_t offset, ByteView bytes) override {
    if (fseeko(file_.get(), static_cast<off_t>(offset), SEEK_SET) != 0 ||
        std::fwrite(bytes.data(), 1, bytes.size(), file_.get()) != bytes.size())
      return Error{"The disk refused to take more."};
    size_ = std::max(size_, offset + bytes.size());
    return done();
  }
  uint64_t size() const override { return size_; }
  bool flush() { return std::fflush(file_.get()) == 0; }

 private:
  File file_;
  uint64_t size_ = 0;
};

Status write_print_file(RowSource& rows, const PictureSpec& spec, const std::string& path) {
  const RowFormat f = rows.format();
  WriteSpec w;
  w.container = spec.kind == FileKind::jpeg ? Container::jpeg : Container::tiff;
  w.model = f.channels == 1 ? ColourModel::grey : ColourModel::rgb;
  w.width = f.width;
  w.height = f.height;
  w.bits = spec.bits;
  w.icc = spec.icc;
  Result<File> file = create(path);
  if (!file) return file.error();
  DiskSink sink(file.take());
  Result<std::unique_ptr<ImageWriter>> writer = open_writer(w, sink);
  if (!writer) return writer.error();
  std::vector<uint8_t> narrow(spec.bits == 8 ? f.row_samples() * kStrip : 0);
  Status said = done();
  Status result = each_strip(rows, path, [&](std::span<const uint16_t> part, uint32_t count) {
    if (spec.bits == 16) {
      said = writer.value()->write16(part, count);
    } else {
      std::transform(part.begin(), part.end(), narrow.begin(), to8);
      said = writer.value()->write8({narrow.data(), part.size()}, count);
    }
    return said.ok();
  });
  if (!said) return said;
  if (result) result = writer.value()->finish();
  if (result && !sink.flush()) result = refused(path);
  return result;
}

}  // namespace

Status write_picture(RowSource& rows, const PictureSpec& spec, const std::string& path) {
  if (spec.bits != 8 && (spec.bits != 16 || spec.kind == FileKind::jpeg))
    return Error{"JPEG holds 8 bits; PNG and TIFF hold 8 or 16."};
  return spec.kind == FileKind::png ? write_png(rows, spec, path)
                                    : write_print_file(rows, spec, path);
}

Status write_bytes(ByteView bytes, const std::string& path) {
  Result<File> file = create(path);
  if (!file) return file.error();
  if (std::fwrite(bytes.data(), 1, bytes.size(), file.value().get()) != bytes.size() ||
      std::fflush(file.value().get()) != 0)
    return refused(path);
  return done();
}

}  // namespace proofleaf::demo
