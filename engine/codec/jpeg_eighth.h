// A JPEG at an eighth of its size: one pixel for each block of 8 x 8, which is the block's mean and
// the first number told of it (ITU-T T.81 A.3.3). The others are passed over without being decoded,
// several at a step, so that a first look at a large master takes a fraction of what decoding it
// takes. Gives what libjpeg gives at that size, to the bit. Internal to this folder.
#pragma once

#include <array>
#include <memory>
#include <vector>

#include "codec/block_reader.h"
#include "codec/jpeg_codes.h"
#include "codec/jpeg_common.h"

namespace proofleaf {

class JpegEighth {
 public:
  // cinfo: after jpeg_read_header; start: where the scan's data begin [bytes]. Null where the file
  // is of another kind (progressive, arithmetic, several scans, subsampled, CMYK): ask libjpeg
  // then.
  static std::unique_ptr<JpegEighth> of(BlockReader reader, const jpeg_decompress_struct& cinfo,
                                        uint64_t start);

  uint32_t width() const { return width_; }    // an eighth, rounded up [pixels]
  uint32_t height() const { return height_; }  // the same
  uint32_t next_row() const { return row_; }
  // One row of width() grey or RGB pixels. No: the data are damaged or end too soon, or the file
  // cannot be read; libjpeg finds the same and has words for it.
  bool read_row(uint8_t* into);

 private:
  struct Component {
    std::shared_ptr<const JpegCodes> dc, ac;
    int quantiser = 0;
    uint32_t last = 0;
    std::vector<uint8_t> means;
  };

  JpegEighth(BlockReader reader, uint64_t start) : bits_(std::move(reader), start) {}
  bool take(const jpeg_decompress_struct& cinfo, const jpeg_component_info& info);
  bool restart();
  bool decode(Component& component, uint8_t& mean);

  JpegBits bits_;
  std::vector<Component> components_;
  bool ycc_ = false;
  uint32_t width_ = 0, height_ = 0, row_ = 0;
  uint32_t interval_ = 0, to_restart_ = 0;  // blocks of each component; 0: there are no restarts
  int restarts_ = 0;
};

}  // namespace proofleaf
