// libjpeg over a ByteSource, one picture from the top down.
//
// Memory: 256 KiB of file, the decoder's own few rows of blocks; a progressive file also keeps its
// coefficients, two bytes a sample of the file, up to 1 GiB, past which it is refused.
#pragma once

#include <memory>

#include "codec/block_reader.h"
#include "codec/jpeg_common.h"
#include "codec/jpeg_eighth.h"
#include "codec/jpeg_restarts.h"
#include "codec/master.h"

namespace proofleaf {

class JpegDecoder {
 public:
  explicit JpegDecoder(std::shared_ptr<ByteSource> source);
  JpegDecoder(const JpegDecoder&) = delete;
  JpegDecoder& operator=(const JpegDecoder&) = delete;
  ~JpegDecoder();

  // Reads up to the picture's own data; then the four facts below are known.
  Status open();
  uint32_t width() const { return cinfo_.image_width; }
  uint32_t height() const { return cinfo_.image_height; }
  // 1, 3 or 4, after open() said yes.
  uint32_t channels() const { return static_cast<uint32_t>(cinfo_.out_color_components); }
  // CMYK stored as 255 = no ink, the habit that goes with the Adobe marker.
  bool inverted_ink() const { return channels() == 4 && cinfo_.saw_Adobe_marker; }

  // The quantisation tables the components use, the first component's first, each once.
  std::vector<JpegTable> tables() const;

  // A quicker way to the picture at an eighth of its size, after open(); null where there is none.
  std::unique_ptr<JpegEighth> eighth() const;

  // Places further down where a decoder can begin, after open(); goes through the whole file.
  std::optional<JpegRestarts> restarts() const;

  // Begins the picture at 1/shrink of its size (1, 2, 4, 8).
  Status start(uint32_t shrink);
  uint32_t out_width() const { return cinfo_.output_width; }
  uint32_t out_height() const { return cinfo_.output_height; }
  uint32_t next_row() const { return cinfo_.output_scanline; }

  // Passes over rows; at least one row must be left to read.
  Status skip(uint32_t rows);
  // Decodes one row of out_width() * channels() samples.
  Status read_row(uint8_t* into);

 private:
  // What libjpeg's callbacks see; the two members come first in their structs.
  struct Input {
    jpeg_source_mgr manager;
    BlockReader* reader;
    uint64_t offset;
    uint8_t* block;
  };
  struct Patience {
    jpeg_progress_mgr manager;
  };

  // Restart markers, which libjpeg-turbo is told of only where one comes: as long as it knows of
  // any, it takes the slower of its two ways with Huffman codes for the whole picture.
  struct Markers {
    boolean (*decode)(j_decompress_ptr cinfo, JBLOCKROW* blocks);
    unsigned interval;  // of MCUs (ITU-T T.81) from one marker to the next
    unsigned since;     // MCUs since the last one
  };

  static boolean decode_mcu(j_decompress_ptr cinfo, JBLOCKROW* blocks);
  static void start_picture(j_decompress_ptr cinfo, uint32_t shrink);
  static void fill_nothing(j_decompress_ptr) {}
  static boolean fill(j_decompress_ptr cinfo);
  static void pass_over(j_decompress_ptr cinfo, long count);
  static void watch_scans(j_common_ptr cinfo);
  Error explain() const;

  BlockReader reader_;
  std::vector<uint8_t> block_;
  JpegFault fault_;
  Input input_;
  Patience patience_;
  Markers markers_;
  jpeg_decompress_struct cinfo_;
  uint64_t data_ = 0;  // where the scan's data begin [bytes]
  bool created_ = false;
};

}  // namespace proofleaf
