// A delivery as a request: done at once, or in steps by a worker that shares its bands out to
// makers in other workers.
#pragma once

#include "deliver/band_maker.h"
#include "deliver/deliver.h"
#include "job/opening.h"
#include "job/work.h"

namespace proofleaf {

// The "deliver" request of work.h.
Result<Answer> delivery(const Json& request, const WorkFiles& files, const Watch& watch);

// The same in steps. Its makers are opened by open_maker() with maker_request() and the same paper.
class SharedDelivery {
 public:
  // request: as text. files must outlive it. A test strip's parts are cut here, which watch is told
  // of. Error: as "deliver".
  static Result<std::unique_ptr<SharedDelivery>> open(const std::string& request,
                                                      const WorkFiles& files,
                                                      const Watch& watch = {});
  uint32_t bands() const { return file_->bands(); }
  // For open_maker(), with the files "profile" (master_profile()) and "paper".
  std::string maker_request() const { return maker_request_; }
  const Bytes& master_profile() const { return opened_.colour.profile.bytes(); }

  // A band's pixels, RGB, good until the next call. Error: as PrintFile::read().
  Result<PixelView> read(uint32_t band);
  // Makes the band that was read last here.
  Result<Bytes> make();
  Status join(ByteView made) { return file_->join(made); }
  // lost: how many makers died on the way and were replaced; told in the answer's sentence. watch
  // is told shares from kWritingShare on. Error: as PrintFile::finish(), or the master's file
  // changed since it was opened.
  Result<Answer> finish(uint32_t lost, const Watch& watch);

 private:
  SharedDelivery() = default;

  OpenedMaster opened_;
  Paper paper_;
  std::string maker_request_;
  Json strip_;  // what to tell of a test strip; null for a picture
  uint32_t seed_ = 1;
  std::function<Result<std::shared_ptr<ByteSource>>()> reopen_;
  std::unique_ptr<PrintFile> file_;
  std::unique_ptr<BandMaker> maker_;  // made when first needed
  uint32_t band_ = 0;                 // read last
  Pixels rgb_;
};

// A maker for another worker's delivery: request from maker_request(), files profile and paper.
Result<std::unique_ptr<BandMaker>> open_maker(const std::string& request, const WorkFiles& files);

}  // namespace proofleaf
