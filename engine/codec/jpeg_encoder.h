// libjpeg writing into memory, as a WriteSpec asks. Internal to this folder.
#pragma once

#include "codec/jpeg_common.h"
#include "codec/writer.h"

namespace proofleaf {

// One jpeg_compress_struct for pictures of a spec's width and settings.
class JpegEncoder {
 public:
  explicit JpegEncoder(const WriteSpec& spec);
  JpegEncoder(const JpegEncoder&) = delete;
  JpegEncoder& operator=(const JpegEncoder&) = delete;
  ~JpegEncoder();

  // A coded picture of `count` rows without tables, profile or Exif: frame header, scan header,
  // entropy-coded data, end. RGB may stand in four lanes a pixel, as BandEncoder::encode8() takes
  // it. Good until the next call; empty when libjpeg gave up.
  ByteView picture(std::span<const uint8_t> samples, uint32_t count);
  // All that stands before the entropy-coded data of the whole file. exif: a whole APP1 body.
  // Empty when libjpeg gave up.
  Bytes head(const Bytes& exif);

 private:
  struct Output {
    jpeg_destination_mgr manager;  // first, so that cinfo->dest is also the output
    Bytes coded;                   // its room is kept from picture to picture
  };
  struct Task {
    const WriteSpec* spec;
    uint32_t height;
    uint32_t lanes;     // bytes a pixel
    const Bytes* exif;  // nullptr: a picture without tables
    JSAMPARRAY rows;
    uint32_t count;  // of rows there are to write
  };
  static void begin(j_compress_ptr cinfo);
  static boolean flush(j_compress_ptr cinfo);
  static void create(j_compress_ptr cinfo, const WriteSpec* spec);
  static void write(j_compress_ptr cinfo, const Task* task);
  ByteView run(const Task& task);

  WriteSpec spec_;
  std::vector<uint8_t> samples_;
  std::vector<JSAMPROW> rows_;
  JpegFault fault_;
  Output output_;
  jpeg_compress_struct cinfo_;
  bool created_ = false;
};

}  // namespace proofleaf
