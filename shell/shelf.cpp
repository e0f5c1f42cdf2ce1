// Papers on their way in, one after another, and what of them is kept for the next visit.
#include "shelf.h"

#include <algorithm>

#include "app.h"
#include "json_read.h"
#include "words_shelf.h"

namespace proofleaf::shell {
namespace {

bool reads_a_paper(const App& app) {
  return std::any_of(app.tasks.begin(), app.tasks.end(),
                     [](const Task& task) { return task.kind == TaskKind::paper; });
}

bool has_own_papers(const App& app) {
  return std::any_of(app.job.papers.begin(), app.job.papers.end(),
                     [](const PaperState& paper) { return paper.own; });
}

void end_parcel(App& app) {
  app.host.drop_file(app.shelf.parcel);
  app.shelf.parcel = 0;
  app.shelf.unpacking = 0;
}

void say_how_many(App& app, int count, const std::string& where) {
  tell(app, count == 1 ? text(words::kUnpackedOne, where.c_str())
                       : text(words::kUnpacked, count, where.c_str()));
}

}  // namespace

std::string shelf_key(const std::vector<uint8_t>& profile) {
  uint64_t hash = 0xcbf29ce484222325;  // FNV-1a, RFC 9923
  for (const uint8_t byte : profile) hash = (hash ^ byte) * 0x100000001b3;
  return text("%016llx", static_cast<unsigned long long>(hash));
}

void paper_arrived(App& app, ArrivedPaper paper) {
  app.shelf.waiting.push_back(std::move(paper));
  update_shelf(app);  // at once: the next frame may take a moment
}

void parcel_arrived(App& app, FileId file, const std::string& name) {
  ShelfState& shelf = app.shelf;
  if (shelf.unpacking != 0) {
    app.host.cancel(shelf.unpacking);
    end_parcel(app);
  }
  shelf.parcel = file;
  shelf.parcel_name = name;
  shelf.unpacking = app.host.start(dump_json({{"op", "unpack"}}), {{"paper", file}});
  tell(app, text(words::kUnpacking, name.c_str()));
}

void update_shelf(App& app) {
  ShelfState& shelf = app.shelf;
  if (shelf.waiting.empty() || reads_a_paper(app)) return;
  shelf.reading = std::move(shelf.waiting.front());
  shelf.waiting.pop_front();
  read_paper_file(app, shelf.reading.file, shelf.reading.name, shelf.reading.choose);
}

bool parcel_answered(App& app, int work, const std::string& json_text,
                     std::vector<Buffer>& buffers) {
  if (work == 0 || work != app.shelf.unpacking) return false;
  const Json json = parse_json(json_text);
  const std::vector<std::string> names = texts_of(json, "names");
  for (size_t i = 0; i < names.size(); ++i)
    for (const Buffer& buffer : buffers)
      if (buffer.name == std::to_string(i))
        paper_arrived(app, {app.host.keep_bytes(names[i], buffer.bytes), names[i],
                            names.size() == 1, true, false});
  for (const std::string& note : texts_of(json, "notes")) notice(app, note);
  say_how_many(app, int(names.size()), app.shelf.parcel_name);
  end_parcel(app);
  return true;
}

bool parcel_failed(App& app, int work, const std::string& sentence) {
  if (work == 0 || work != app.shelf.unpacking) return false;
  end_parcel(app);
  notice(app, sentence);
  return true;
}

void shelve(App& app, FileId file, PaperState& paper) {
  const ArrivedPaper& arrived = app.shelf.reading;
  if (file == 0 || file != arrived.file || !arrived.own) return;
  paper.own = true;
  if (!arrived.kept) app.host.shelf_put(paper.key, paper.own_title, file);
}

void folder_seen(App& app, const std::string& name, int papers, bool cut) {
  if (cut) notice(app, text(words::kFolderCut, name.c_str()));
  if (papers == 0) return notice(app, text(words::kFolderEmpty, name.c_str()));
  say_how_many(app, papers, name);
}

void shelf_told(App& app, const std::string& outcome, int count) {
  ShelfState& shelf = app.shelf;
  shelf.kept = count;
  if (outcome == "kept") shelf.refused = false;
  if (outcome == "full") notice(app, words::kShelfFull);
  if (outcome == "cleared") tell(app, words::kForgotten);
  if (outcome != "refused") return;
  shelf.refused = true;
  if (has_own_papers(app)) notice(app, words::kShelfRefused);
}

}  // namespace proofleaf::shell
