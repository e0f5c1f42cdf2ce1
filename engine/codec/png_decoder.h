// libpng over a ByteSource, one picture from the top down, or whole if it is interlaced.
//
// Memory: 256 KiB of file and two rows; an interlaced file's decoded pixels, up to 512 MiB.
#pragma once

#include <png.h>

#include <memory>
#include <optional>

#include "codec/block_reader.h"
#include "codec/exif.h"

namespace proofleaf {

class PngDecoder {
 public:
  explicit PngDecoder(std::shared_ptr<ByteSource> source) : reader_(std::move(source)) {}
  PngDecoder(const PngDecoder&) = delete;
  PngDecoder& operator=(const PngDecoder&) = delete;
  ~PngDecoder();

  // Reads up to the picture's own data; then the facts below are known. Palette and low bit depths
  // are expanded, transparency becomes an alpha channel.
  Status open();
  uint32_t width() const { return width_; }
  uint32_t height() const { return height_; }
  uint32_t bits() const { return bits_; }        // 8 or 16
  uint32_t samples() const { return samples_; }  // 1..4 a pixel: grey, grey+alpha, RGB, RGB+alpha
  uint32_t next_row() const { return next_row_; }
  size_t row_bytes() const { return size_t{width_} * samples_ * (bits_ / 8); }

  // What the chunks before the picture say.
  Bytes profile();  // iCCP, empty if none
  bool profile_refused() const { return profile_refused_; }
  Bytes exif();                    // eXIf, empty if none
  std::optional<double> ppi();     // pHYs in metres
  bool says_srgb();                // sRGB chunk
  bool says_gamma_or_primaries();  // gAMA or cHRM

  // True if the next row can be this one without starting again: later, or anywhere in an
  // interlaced picture that is held whole.
  bool can_go_to(uint32_t row);
  // Decodes the next row into row_bytes() bytes; 16-bit samples in host order.
  Status read_row(uint8_t* into);

 private:
  static void on_error(png_structp png, png_const_charp text);
  static void on_warning(png_structp png, png_const_charp text);
  static void on_read(png_structp png, png_bytep into, size_t count);
  Status check_header();
  Status read_whole();
  Error explain() const;

  BlockReader reader_;
  uint64_t offset_ = 0;
  png_structp png_ = nullptr;
  png_infop info_ = nullptr;
  uint32_t width_ = 0, height_ = 0, bits_ = 8, samples_ = 0, next_row_ = 0;
  bool interlaced_ = false;
  bool ended_ = false;
  bool in_pixels_ = false;
  bool profile_refused_ = false;
  std::vector<uint8_t> whole_;
};

}  // namespace proofleaf
