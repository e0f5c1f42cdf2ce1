#include "codec/tiff_handle.h"

#include <cstdarg>
#include <cstdio>

namespace proofleaf {

namespace {

// The largest tile, and a few bytes more where compression made it longer.
constexpr tmsize_t kSingleAllocation = static_cast<tmsize_t>(kLargestUnit + kLargestUnit / 4);
constexpr tmsize_t kAllAllocations = static_cast<tmsize_t>(3 * kLargestUnit);

int keep_quiet(TIFF*, void*, const char*, const char*, va_list) { return 1; }
int no_close(thandle_t) { return 0; }

struct OptionsDeleter {
  void operator()(TIFFOpenOptions* options) const { TIFFOpenOptionsFree(options); }
};

std::unique_ptr<TIFFOpenOptions, OptionsDeleter> quiet_options() {
  std::unique_ptr<TIFFOpenOptions, OptionsDeleter> options(TIFFOpenOptionsAlloc());
  if (!options) return options;
  TIFFOpenOptionsSetErrorHandlerExtR(options.get(), keep_quiet, nullptr);
  TIFFOpenOptionsSetWarningHandlerExtR(options.get(), keep_quiet, nullptr);
  return options;
}

toff_t moved(uint64_t at, uint64_t end, toff_t offset, int whence) {
  if (whence == SEEK_CUR) return at + offset;
  if (whence == SEEK_END) return end + offset;
  return offset;
}

}  // namespace

tmsize_t TiffInput::on_read(thandle_t handle, void* into, tmsize_t count) {
  auto* self = static_cast<TiffInput*>(handle);
  if (count <= 0) return 0;
  const size_t got =
      self->reader_.read_at(self->at_, static_cast<uint8_t*>(into), static_cast<size_t>(count));
  self->at_ += got;
  return static_cast<tmsize_t>(got);
}

toff_t TiffInput::on_seek(thandle_t handle, toff_t offset, int whence) {
  auto* self = static_cast<TiffInput*>(handle);
  self->at_ = moved(self->at_, self->reader_.size(), offset, whence);
  return self->at_;
}

toff_t TiffInput::on_size(thandle_t handle) {
  return static_cast<TiffInput*>(handle)->reader_.size();
}

Result<std::unique_ptr<TiffInput>> TiffInput::open(std::shared_ptr<ByteSource> source) {
  std::unique_ptr<TiffInput> input(new TiffInput(std::move(source)));
  const auto options = quiet_options();
  if (options) {
    TIFFOpenOptionsSetMaxSingleMemAlloc(options.get(), kSingleAllocation);
    TIFFOpenOptionsSetMaxCumulatedMemAlloc(options.get(), kAllAllocations);
    // "m": no memory mapping.
    input->tiff_ = TIFFClientOpenExt(input->name().c_str(), "rm", input.get(), on_read, on_write,
                                     on_seek, no_close, on_size, nullptr, nullptr, options.get());
  }
  if (input->tiff_) return input;
  if (!input->failure().empty()) return Error{input->failure()};
  return Error{"{} is damaged or ends too soon: what it says of its picture cannot be read.",
               input->name()};
}

TiffInput::~TiffInput() {
  if (tiff_) TIFFClose(tiff_);
}

uint16_t TiffInput::short_field(uint32_t tag, uint16_t otherwise) {
  uint16_t value = 0;
  return TIFFGetFieldDefaulted(tiff_, tag, &value) ? value : otherwise;
}

uint32_t TiffInput::long_field(uint32_t tag, uint32_t otherwise) {
  uint32_t value = 0;
  return TIFFGetFieldDefaulted(tiff_, tag, &value) ? value : otherwise;
}

tmsize_t TiffOutput::on_write(thandle_t handle, void* from, tmsize_t count) {
  auto* self = static_cast<TiffOutput*>(handle);
  if (self->abandoned_ || count < 0) return 0;
  const auto size = static_cast<size_t>(count);
  Status put = self->sink_.write_at(self->at_, {static_cast<const uint8_t*>(from), size});
  if (!put) {
    if (self->failure_.empty()) self->failure_ = put.error().message;
    return 0;
  }
  self->at_ += size;
  return count;
}

toff_t TiffOutput::on_seek(thandle_t handle, toff_t offset, int whence) {
  auto* self = static_cast<TiffOutput*>(handle);
  self->at_ = moved(self->at_, self->sink_.size(), offset, whence);
  return self->at_;
}

toff_t TiffOutput::on_size(thandle_t handle) {
  return static_cast<TiffOutput*>(handle)->sink_.size();
}

Result<std::unique_ptr<TiffOutput>> TiffOutput::open(ByteSink& sink, bool big) {
  std::unique_ptr<TiffOutput> output(new TiffOutput(sink));
  const auto options = quiet_options();
  if (options) {
    // "l": little-endian on every machine; "8": BigTIFF.
    output->tiff_ =
        TIFFClientOpenExt("print file", big ? "wl8" : "wl", output.get(), on_read, on_write,
                          on_seek, no_close, on_size, nullptr, nullptr, options.get());
  }
  if (!output->tiff_) return output->explain();
  return output;
}

TiffOutput::~TiffOutput() {
  abandoned_ = true;
  if (tiff_) TIFFClose(tiff_);
}

Status TiffOutput::finish() {
  const bool written = TIFFWriteDirectory(tiff_) != 0;
  abandoned_ = true;  // the directory is out; closing must add nothing
  TIFFClose(std::exchange(tiff_, nullptr));
  if (!written || !failure_.empty()) return explain();
  return done();
}

Error TiffOutput::explain() const {
  return failure_.empty() ? Error{"The TIFF file could not be written."} : Error{failure_};
}

}  // namespace proofleaf
