// A JPEG's restart markers (ITU-T T.81 B.2.1, E.1.4): places within the picture where decoding can
// begin, so that rows far down need not wait for all above them. Internal to this folder.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "codec/block_reader.h"
#include "codec/jpeg_common.h"

namespace proofleaf {

class JpegRestarts {
 public:
  // The lower rows of the picture, as a file of its own.
  struct Part {
    std::shared_ptr<ByteSource> file;
    uint32_t first_row = 0;  // of the whole picture [pixels]
  };

  // cinfo: after jpeg_read_header; start: where the scan's data begin [bytes]. Goes through the
  // file to its end. Nothing where there is no such place or no trusting it: progressive,
  // arithmetic, several scans, markers within rows of blocks, too few, too many or out of turn.
  static std::optional<JpegRestarts> of(BlockReader reader, const jpeg_decompress_struct& cinfo,
                                        uint64_t start);

  // The part that begins nearest above `row` and gives it as the whole file does: a row of blocks
  // more, since colour of half the detail is spread over its neighbours. Nothing: begin at the top.
  std::optional<Part> part_above(uint32_t row, const std::shared_ptr<ByteSource>& source) const;

 private:
  bool find(BlockReader reader, size_t expected);

  uint64_t height_at_ = 0;        // where the picture's height stands in the file [bytes]
  uint64_t start_ = 0;            // of the scan's data
  uint32_t height_ = 0;           // [pixels]
  uint32_t block_rows_ = 0;       // rows of pixels in one row of blocks
  uint32_t rows_apart_ = 0;       // rows of pixels from one marker to the next
  std::vector<uint64_t> places_;  // of the markers in the file
};

}  // namespace proofleaf
