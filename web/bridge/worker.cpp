// What a worker's JavaScript calls: name the files, then perform one request.
#include <emscripten/emscripten.h>

#include "blob.h"
#include "imports.h"
#include "job/work.h"

namespace proofleaf::web {
namespace {

WorkFiles files;  // of the request to come

std::shared_ptr<ByteSource>* slot(const std::string& name) {
  if (name == "master") return &files.master;
  if (name == "paper") return &files.paper;
  if (name == "profile") return &files.profile;
  if (name == "assume") return &files.assume;
  if (name == "blocks") return &files.blocks;
  if (name == "picture") return &files.picture;
  if (name == "facts") return &files.facts;
  return nullptr;
}

void run(const std::string& request) {
  DeliverySink sink;
  files.sink = &sink;
  files.reopen = [&sink]() -> Result<std::shared_ptr<ByteSource>> {
    return {std::make_shared<BlobSource>("delivery", sink_finish(), sink.size())};
  };
  auto answer = perform(request, files, [](double share) {
    tell_progress(share);
    return true;  // a request is stopped by ending its worker
  });
  if (!answer) return answer_failed(answer.error().message.c_str());
  for (const NamedBuffer& buffer : answer.value().buffers) {
    answer_buffer(buffer.name.c_str(), buffer.bytes.data(), buffer.bytes.size());
  }
  answer_json(answer.value().json.c_str());
}

}  // namespace
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
  proofleaf::web::run(request);
  proofleaf::web::files = {};
}

}  // extern "C"
