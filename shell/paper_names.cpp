// The list of papers: names of the person's own, and taking a paper off.
#include <algorithm>

#include "app.h"
#include "json_read.h"
#include "words_choice.h"

namespace proofleaf::shell {
namespace {

constexpr char kNames[] = "paper-names";  // setting: {"name by the profile's print": "name"}
constexpr size_t kMostNames = 200;
constexpr size_t kLongestName = 80;  // [bytes]

Json names(const App& app) {
  Json json = parse_json(app.host.recall(kNames));
  return json.is_object() ? json : Json::object();
}

std::string trimmed(std::string name) {
  const size_t first = name.find_first_not_of(' ');
  if (first == std::string::npos) return "";
  name = name.substr(first, name.find_last_not_of(' ') - first + 1);
  if (name.size() > kLongestName) {
    size_t end = kLongestName;  // not inside a letter of several bytes
    while (end > 0 && (uint8_t(name[end]) & 0xC0) == 0x80) --end;
    name.resize(end);
  }
  return name;
}

}  // namespace

void recall_paper_name(App& app, PaperState& paper) {
  paper.own_title = paper.name;
  const std::string given = text_of(names(app), paper.key.c_str());
  if (!given.empty()) paper.name = given;
}

void rename_paper(App& app, FileId file, const std::string& wanted) {
  for (PaperState& paper : app.job.papers) {
    if (paper.file != file) continue;
    const std::string name = trimmed(wanted);
    paper.name = name.empty() ? paper.own_title : name;
    Json all = names(app);
    const std::string key = paper.key;
    if (paper.name == paper.own_title)
      all.erase(key);
    else if (all.size() < kMostNames || all.contains(key))
      all[key] = paper.name;
    app.host.remember(kNames, dump_json(all));
    app.choice.reorder = true;  // the sentences name the papers
    app.host.request_frame();
    return;
  }
}

void remove_paper(App& app, FileId file) {
  auto& papers = app.job.papers;
  const auto found = std::find_if(papers.begin(), papers.end(),
                                  [&](const PaperState& paper) { return paper.file == file; });
  if (found == papers.end()) return;
  const int at = int(found - papers.begin());
  tell(app, text(words::kRemoved, found->name.c_str()));
  if (found->own && !app.shelf.refused) app.host.shelf_drop(found->key);
  app.choice.cards.erase(card_key(*found));
  if (app.choice.beside == card_key(*found)) app.choice.beside = "srgb";
  papers.erase(found);
  app.host.drop_file(file);
  for (int* index : {&app.job.paper, &app.shown.paper})
    if (*index > at || *index == int(papers.size())) --*index;
}

}  // namespace proofleaf::shell
