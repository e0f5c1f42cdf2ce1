// Print files out: JPEG or TIFF, written row after row.
#pragma once

#include <memory>
#include <span>

#include "base/bytes.h"
#include "codec/master.h"

namespace proofleaf {

struct WriteSpec {
  Container container = Container::jpeg;  // jpeg or tiff
  ColourModel model = ColourModel::rgb;
  uint32_t width = 0;              // [pixels]
  uint32_t height = 0;             // [pixels]
  uint32_t bits = 8;               // 8, or 16 with TIFF
  int quality = 95;                // JPEG 1..100
  bool full_colour_detail = true;  // JPEG: 4:4:4 when true, 4:2:0 when false
  double ppi = 300;                // written as JFIF density (whole numbers) / TIFF resolution
  Bytes icc = {};                  // embedded as it is
  ExifColourSpace exif_space = ExifColourSpace::uncalibrated;
  // An Exif block to keep, as cleaned by clean_exif(); empty: a minimal one is written.
  Bytes exif = {};
};

class BandEncoder;
class BandJoiner;

// Takes rows from the top down, any number at a time; the sink holds a whole file only after
// finish() returned done(). Memory: one band of codec/bands.h.
class ImageWriter {
 public:
  ImageWriter(const WriteSpec& spec, std::unique_ptr<BandEncoder> encoder,
              std::unique_ptr<BandJoiner> joiner);
  ~ImageWriter();
  // count whole rows of interleaved samples of spec.bits each; 16-bit samples in host byte order.
  // CMYK: 0 = no ink, whatever the container's own habit. Error: another depth or width, more rows
  // than the picture has, or the sink's own.
  Status write8(std::span<const uint8_t> samples, uint32_t count);
  Status write16(std::span<const uint16_t> samples, uint32_t count);
  // Error: rows are missing, or the sink's own.
  Status finish();

 private:
  Status check_rows(uint32_t bits, size_t samples, uint32_t count) const;
  template <class Sample>
  Status take(std::span<const Sample> samples, uint32_t count, std::vector<Sample>& band);
  Status put_band(uint32_t count);

  WriteSpec spec_;
  std::unique_ptr<BandEncoder> encoder_;
  std::unique_ptr<BandJoiner> joiner_;
  std::vector<uint8_t> eight_;  // of the band being filled
  std::vector<uint16_t> wide_;
  uint32_t written_ = 0;  // [rows]
};

// Error: a spec the container cannot hold (16-bit JPEG, a side too long, a profile too large).
Result<std::unique_ptr<ImageWriter>> open_writer(const WriteSpec& spec, ByteSink& sink);

// Rewrites an Exif block so that it is right for the delivered file: orientation 1, new pixel size,
// resolution and colour space, no thumbnail, no maker note; with keep_private false also without
// place, serial numbers and names. Never fails: a damaged block comes back as a minimal one.
struct ExifEdit {
  uint32_t width = 0;
  uint32_t height = 0;
  double ppi = 300;
  ExifColourSpace space = ExifColourSpace::uncalibrated;
  bool keep_private = false;
};
Bytes clean_exif(ByteView exif, const ExifEdit& edit);

}  // namespace proofleaf
