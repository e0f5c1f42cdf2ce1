// What a worker's JavaScript calls: name the files, then perform one request, or open in steps.
#include "worker.h"

#include <emscripten/emscripten.h>

#include "base/json.h"
#include "blob.h"
#include "job/open_work.h"

namespace proofleaf::web {
namespace {

WorkFiles files;  // of the request to come
std::unique_ptr<Opening> opening;

std::shared_ptr<ByteSource>* slot(const std::string& name) {
  if (name == "master") return &files.master;
  if (name == "paper") return &files.paper;
  if (name == "profile") return &files.profile;
  if (name == "assume") return &files.assume;
  if (name == "blocks") return &files.blocks;
  if (name == "picture") return &files.picture;
  if (name == "facts") return &files.facts;
  if (name == "off_gamut") return &files.off_gamut;
  if (name == "guide") return &files.guide;
  if (name == "readings") return &files.readings;
  for (size_t i = 0; i < files.papers.size(); ++i)
    if (name == "paper" + std::to_string(i)) return &files.papers[i];
  return nullptr;
}

}  // namespace

WorkFiles& request_files() { return files; }

void tell(const Error& error) { answer_failed(error.message.c_str()); }

void tell(const Result<Answer>& answer) {
  if (!answer) return tell(answer.error());
  for (const NamedBuffer& buffer : answer.value().buffers) {
    answer_buffer(buffer.name.c_str(), buffer.bytes.data(), buffer.bytes.size());
  }
  answer_json(answer.value().json.c_str());
}

}  // namespace proofleaf::web

extern "C" {

EMSCRIPTEN_KEEPALIVE void worker_file(const char* name, int file, const char* file_name,
                                      double size) {
  if (auto* source = proofleaf::web::slot(name)) {
    *source =
        std::make_shared<proofleaf::web::BlobSource>(file_name, file, static_cast<uint64_t>(size));
  }
}

EMSCRIPTEN_KEEPALIVE void worker_perform(const char* request) {
  // A request is stopped by ending its worker.
  const auto watch = [](double share) {
    tell_progress(share);
    return true;
  };
  proofleaf::web::tell(proofleaf::perform(request, proofleaf::web::files, watch));
  proofleaf::web::files = {};
}

// Opens a master in steps, for the request "open"; the files are those given before, as for
// perform.
EMSCRIPTEN_KEEPALIVE void open_begin(const char* request) {
  auto begun = proofleaf::Opening::begin(proofleaf::parse_json(request), proofleaf::web::files);
  proofleaf::web::files = {};
  if (!begun) return proofleaf::web::tell(begun.error());
  proofleaf::web::opening = begun.take();
}

// A row further. Answers as the request "open" does once there are no more.
EMSCRIPTEN_KEEPALIVE void open_step() {
  using proofleaf::web::opening;
  if (opening->finished()) {
    proofleaf::web::tell(opening->answer());
    return opening.reset();
  }
  tell_progress(opening->share());
  if (const auto got = opening->step(); !got) {
    proofleaf::web::tell(got.error());
    opening.reset();
  }
}

}  // extern "C"
