// What a worker's JavaScript calls to share a delivery's bands out to other workers: shared_* in
// the worker that reads the master and writes the file, maker_* in those that help.
#include <emscripten/emscripten.h>

#include "blob.h"
#include "job/delivery_work.h"
#include "worker.h"

namespace proofleaf::web {
namespace {

// One delivery at a time; a worker ends with it or begins anew.
struct Shared {
  WorkFiles files;
  DeliverySink sink;
  std::unique_ptr<SharedDelivery> delivery;
};
std::unique_ptr<Shared> shared;
std::unique_ptr<BandMaker> maker;
Bytes room;

void give(const char* name, const void* bytes, size_t length) {
  answer_buffer(name, static_cast<const uint8_t*>(bytes), length);
}

void give_band(const Result<Bytes>& band) {
  if (!band) return tell(band.error());
  give("band", band.value().data(), band.value().size());
}

}  // namespace
}  // namespace proofleaf::web

using namespace proofleaf;
using namespace proofleaf::web;

extern "C" {

// Room for `length` bytes, good until the next call that takes them.
EMSCRIPTEN_KEEPALIVE uint8_t* band_room(size_t length) {
  room.resize(length);
  return room.data();
}

// Answers {"bands", "maker": request, "writing_share"} and the buffer "profile".
EMSCRIPTEN_KEEPALIVE void shared_begin(const char* request) {
  shared = std::make_unique<Shared>();
  shared->files = std::exchange(request_files(), {});
  shared->files.sink = &shared->sink;
  shared->files.reopen = []() -> Result<std::shared_ptr<ByteSource>> {
    return {std::make_shared<BlobSource>("delivery", sink_finish(), shared->sink.size())};
  };
  auto opened = SharedDelivery::open(request, shared->files);
  if (!opened) return tell(opened.error());
  shared->delivery = opened.take();
  const SharedDelivery& delivery = *shared->delivery;
  give("profile", delivery.master_profile().data(), delivery.master_profile().size());
  answer_json(dump_json({{"bands", delivery.bands()},
                         {"maker", delivery.maker_request()},
                         {"writing_share", kWritingShare}})
                  .c_str());
}

// Reads a band; with hand_out its pixels are given as the buffer "pixels".
EMSCRIPTEN_KEEPALIVE void shared_read(uint32_t band, bool hand_out) {
  const auto rgb = shared->delivery->read(band);
  if (!rgb) return tell(rgb.error());
  const ByteView pixels = bytes_of(rgb.value());
  if (hand_out) give("pixels", pixels.data(), pixels.size());
}

// Makes the band read last; gives the buffer "band".
EMSCRIPTEN_KEEPALIVE void shared_make() { give_band(shared->delivery->make()); }

// Takes the room.
EMSCRIPTEN_KEEPALIVE void shared_join() {
  if (const Status joined = shared->delivery->join(room); !joined) tell(joined.error());
}

// Answers as the request "deliver" does.
EMSCRIPTEN_KEEPALIVE void shared_finish(uint32_t lost) {
  tell(shared->delivery->finish(lost, [](double share) {
    tell_progress(share);
    return true;
  }));
  shared.reset();
}

EMSCRIPTEN_KEEPALIVE void maker_begin(const char* request) {
  auto opened = open_maker(request, request_files());
  request_files() = {};
  if (!opened) return tell(opened.error());
  maker = opened.take();
}

// Takes the room: the band's pixels. Gives the buffer "band".
EMSCRIPTEN_KEEPALIVE void maker_make(uint32_t band) {
  give_band(maker->make(band, pixels_of(room, maker->samples_of(band))));
}

}  // extern "C"
