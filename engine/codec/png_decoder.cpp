#include "codec/png_decoder.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <csetjmp>
#include <cstring>

namespace proofleaf {

namespace {

// Runs step(png, argument) where libpng's errors can jump back to; false if it gave up. Nothing in
// here needs a destructor.
template <class Argument>
bool guarded(png_structp png, void (*step)(png_structp, Argument), Argument argument) {
  if (setjmp(png_jmpbuf(png))) return false;
  step(png, argument);
  return true;
}

// Deflate makes at most 1032 bytes of one (zlib's technical notes). header: the IHDR chunk's data.
uint64_t least_bytes(const uint8_t* header) {
  constexpr uint64_t kMostOfOne = 1032;
  constexpr std::array<uint64_t, 7> kSamples{1, 1, 3, 1, 2, 1, 4};  // by colour type
  const uint64_t bits = header[8] * kSamples[std::min<size_t>(header[9], 6)];
  return png_get_uint_32(header) * uint64_t{png_get_uint_32(header + 4)} * bits / 8 / kMostOfOne;
}

void read_info(png_structp png, png_infop info) {
  png_read_info(png, info);
  png_set_expand(png);  // palette to RGB, low bit depths to 8, tRNS to alpha
  if (std::endian::native == std::endian::little) png_set_swap(png);
  png_set_interlace_handling(png);
  png_read_update_info(png, info);
}

void read_one(png_structp png, uint8_t* into) { png_read_row(png, into, nullptr); }

void read_image(png_structp png, png_bytepp rows) { png_read_image(png, rows); }

}  // namespace

PngDecoder::~PngDecoder() {
  if (png_) png_destroy_read_struct(&png_, &info_, nullptr);
}

void PngDecoder::on_error(png_structp png, png_const_charp) { png_longjmp(png, 1); }

void PngDecoder::on_warning(png_structp png, png_const_charp text) {
  auto* self = static_cast<PngDecoder*>(png_get_error_ptr(png));
  if (text && std::strstr(text, "iCCP")) self->profile_refused_ = true;
}

void PngDecoder::on_read(png_structp png, png_bytep into, size_t count) {
  auto* self = static_cast<PngDecoder*>(png_get_io_ptr(png));
  const size_t got = self->reader_.read_at(self->offset_, into, count);
  self->offset_ += got;
  if (got == count) return;
  self->ended_ = true;
  png_error(png, "end");
}

Error PngDecoder::explain() const {
  const std::string& name = reader_.name();
  if (!reader_.failure().empty()) return Error{reader_.failure()};
  if (!in_pixels_) {
    return ended_ ? Error{"{} ends too soon, before its picture begins.", name}
                  : Error{"{} is damaged: its headers make no sense.", name};
  }
  if (interlaced_) {
    return ended_ ? Error{"{} ends too soon; its picture is not complete.", name}
                  : Error{"{} is damaged: its picture cannot be decoded.", name};
  }
  return ended_ ? Error{"{} ends too soon; only the first {} of {} rows are there.", name,
                        next_row_, height_}
                : Error{"{} is damaged: only the first {} of {} rows are sound.", name, next_row_,
                        height_};
}

// The IHDR chunk comes first and has 13 bytes (PNG specification, third edition, 11.2.1).
Status PngDecoder::check_header() {
  std::array<uint8_t, 29> head{};
  const bool there = reader_.read_all_at(0, head.data(), head.size());
  if (!reader_.failure().empty()) return Error{reader_.failure()};
  if (!there) return Error{"{} ends too soon, before its picture begins.", reader_.name()};
  if (std::memcmp(head.data() + 12, "IHDR", 4) != 0) {
    return Error{"{} is damaged: its headers make no sense.", reader_.name()};
  }
  const uint8_t* header = head.data() + 16;
  Status sizes =
      check_dimensions(reader_.name(), png_get_uint_32(header), png_get_uint_32(header + 4));
  if (!sizes) return sizes;
  return check_length(reader_.name(), reader_.size(), least_bytes(header));
}

Status PngDecoder::open() {
  if (Status got = check_header(); !got) return got;
  png_ = png_create_read_struct(PNG_LIBPNG_VER_STRING, this, on_error, on_warning);
  if (png_) info_ = png_create_info_struct(png_);
  if (!info_) return Error{"There is not enough memory to open {}.", reader_.name()};
  png_set_read_fn(png_, this, on_read);
  png_set_user_limits(png_, kLongestSide, kLongestSide);
  png_set_chunk_malloc_max(png_, kLargestProfile);
  png_set_chunk_cache_max(png_, 256);
  if (!guarded(png_, read_info, info_)) return explain();
  width_ = png_get_image_width(png_, info_);
  height_ = png_get_image_height(png_, info_);
  bits_ = png_get_bit_depth(png_, info_);
  samples_ = png_get_channels(png_, info_);
  interlaced_ = png_get_interlace_type(png_, info_) != PNG_INTERLACE_NONE;
  const bool known = (bits_ == 8 || bits_ == 16) && samples_ >= 1 && samples_ <= 4;
  if (!known || png_get_rowbytes(png_, info_) != row_bytes()) {
    return Error{"{} is damaged: its headers make no sense.", reader_.name()};
  }
  if (interlaced_ && row_bytes() * uint64_t{height_} > kLargestWhole) {
    return Error{
        "{} is an interlaced PNG too large to be opened here; save it without interlacing.",
        reader_.name()};
  }
  return done();
}

Bytes PngDecoder::profile() {
  png_charp title = nullptr;
  png_bytep data = nullptr;
  png_uint_32 size = 0;
  int method = 0;
  if (!png_get_iCCP(png_, info_, &title, &method, &data, &size) || !data) return {};
  return Bytes(data, data + size);
}

Bytes PngDecoder::exif() {
  png_uint_32 size = 0;
  png_bytep data = nullptr;
  if (png_get_eXIf_1(png_, info_, &size, &data) && data) {
    return size <= kLargestExif ? Bytes(data, data + size) : Bytes();
  }
  return {};
}

std::optional<double> PngDecoder::ppi() {
  png_uint_32 x = 0, y = 0;
  int unit = PNG_RESOLUTION_UNKNOWN;
  if (!png_get_pHYs(png_, info_, &x, &y, &unit) || unit != PNG_RESOLUTION_METER || x == 0) {
    return std::nullopt;
  }
  // A whole number of pixels a metre is 0.0254 ppi coarse; 11811 means 300.
  const double ppi = x * 0.0254;
  const double whole = std::round(ppi);
  if (whole >= 1 && std::abs(ppi - whole) <= 0.0127) return whole;
  if (!(ppi >= 1 && ppi <= 100'000)) return std::nullopt;
  return ppi;
}

bool PngDecoder::says_srgb() { return png_get_valid(png_, info_, PNG_INFO_sRGB) != 0; }

bool PngDecoder::says_gamma_or_primaries() {
  return png_get_valid(png_, info_, PNG_INFO_gAMA | PNG_INFO_cHRM) != 0;
}

Status PngDecoder::read_whole() {
  whole_.resize(row_bytes() * height_);
  std::vector<png_bytep> rows(height_);
  for (uint32_t y = 0; y < height_; ++y) rows[y] = whole_.data() + y * row_bytes();
  if (!guarded(png_, read_image, rows.data())) return explain();
  return done();
}

bool PngDecoder::can_go_to(uint32_t row) {
  if (row < next_row_ && !whole_.empty()) next_row_ = row;
  return row >= next_row_;
}

Status PngDecoder::read_row(uint8_t* into) {
  in_pixels_ = true;
  if (interlaced_) {
    if (whole_.empty()) {
      if (Status got = read_whole(); !got) return got;
    }
    std::memcpy(into, whole_.data() + next_row_ * row_bytes(), row_bytes());
  } else if (!guarded(png_, read_one, into)) {
    return explain();
  }
  ++next_row_;
  return done();
}

}  // namespace proofleaf
