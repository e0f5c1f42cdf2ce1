// libtiff over a ByteSource or a ByteSink, its messages kept with the handle and out of the
// console, its allocations bounded.
#pragma once

#include <tiffio.h>

#include <memory>
#include <string>

#include "codec/block_reader.h"

namespace proofleaf {

// A TIFF being read; its first directory is current.
class TiffInput {
 public:
  // Error: no TIFF directory can be read.
  static Result<std::unique_ptr<TiffInput>> open(std::shared_ptr<ByteSource> source);
  TiffInput(const TiffInput&) = delete;
  TiffInput& operator=(const TiffInput&) = delete;
  ~TiffInput();

  TIFF* tiff() { return tiff_; }
  const std::string& name() const { return reader_.name(); }
  // The source's own error message, empty while all is well.
  const std::string& failure() const { return reader_.failure(); }

  // A field of one number, or what TIFF 6.0 says when it is absent (or `otherwise`).
  uint16_t short_field(uint32_t tag, uint16_t otherwise);
  uint32_t long_field(uint32_t tag, uint32_t otherwise);

 private:
  explicit TiffInput(std::shared_ptr<ByteSource> source) : reader_(std::move(source)) {}
  static tmsize_t on_read(thandle_t handle, void* into, tmsize_t count);
  static tmsize_t on_write(thandle_t, void*, tmsize_t) { return 0; }
  static toff_t on_seek(thandle_t handle, toff_t offset, int whence);
  static toff_t on_size(thandle_t handle);

  BlockReader reader_;
  uint64_t at_ = 0;
  TIFF* tiff_ = nullptr;
};

// A TIFF being written, sequentially but for the header's pointer to the directory.
class TiffOutput {
 public:
  // big: BigTIFF, for files past 4 GiB.
  static Result<std::unique_ptr<TiffOutput>> open(ByteSink& sink, bool big);
  TiffOutput(const TiffOutput&) = delete;
  TiffOutput& operator=(const TiffOutput&) = delete;
  ~TiffOutput();

  TIFF* tiff() { return tiff_; }
  // Writes the directory and lets go of the handle.
  Status finish();
  // What went wrong, as a sentence.
  Error explain() const;

 private:
  explicit TiffOutput(ByteSink& sink) : sink_(sink) {}
  static tmsize_t on_read(thandle_t, void*, tmsize_t) { return 0; }
  static tmsize_t on_write(thandle_t handle, void* from, tmsize_t count);
  static toff_t on_seek(thandle_t handle, toff_t offset, int whence);
  static toff_t on_size(thandle_t handle);

  ByteSink& sink_;
  uint64_t at_ = 0;
  bool abandoned_ = false;
  std::string failure_;
  TIFF* tiff_ = nullptr;
};

}  // namespace proofleaf
