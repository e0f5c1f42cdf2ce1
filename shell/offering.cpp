// Puts an offer together, and has it made, locked and kept.
#include "offering.h"

#include <algorithm>

#include "app.h"
#include "json_read.h"
#include "proof/words.h"
#include "share/base64url.h"
#include "share/offer_json.h"
#include "words.h"
#include "words_offer.h"

namespace proofleaf::shell {
namespace {

constexpr char kSizes[] = "offer-sizes";                // setting: [{"size","price"},..]
constexpr char kDescriptions[] = "offer-descriptions";  // setting: {"shelf_key": "text"}
constexpr size_t kMostDescriptions = 200;
constexpr int kHolds = 30;  // days an offer holds, as it is filled in at first

std::string day_from_now(int days) {
  const auto today = day_of(today_as_date());
  return today ? date_of(today.value() + uint32_t(days)) : "";
}

void recall_fields(App& app) {
  Offering& offering = app.offering;
  offering.sizes = sizes_in(parse_json(app.host.recall(kSizes)));
  offering.sizes.resize(std::clamp<size_t>(offering.sizes.size(), 1, kMostOfferSizes));
  const Json descriptions = parse_json(app.host.recall(kDescriptions));
  if (descriptions.is_object())
    for (const auto& [key, text] : descriptions.items())
      if (text.is_string()) offering.descriptions[key] = text.get<std::string>();
  offering.expires = day_from_now(kHolds);
}

// Those that are filled in.
Json offered_sizes(const Offering& offering) {
  std::vector<OfferSize> sizes = offering.sizes;
  std::erase_if(sizes, [](const OfferSize& each) { return each.size.empty(); });
  return sizes_json(sizes);
}

void remember_fields(App& app) {
  const Offering& offering = app.offering;
  app.host.remember(kSizes, dump_json(offered_sizes(offering)));
  Json descriptions = Json::object();
  for (const auto& [key, text] : offering.descriptions)
    if (descriptions.size() < kMostDescriptions) descriptions[key] = text;
  app.host.remember(kDescriptions, dump_json(descriptions));
}

Json offer_request(const App& app) {
  const Offering& offering = app.offering;
  Json papers = Json::array();
  for (const FileId file : offering.papers) {
    const PaperState* paper = paper_of(app, file);
    if (!paper) continue;
    const PrintIntent print = offered_print(app, file);
    const auto found = offering.descriptions.find(paper->key);
    papers.push_back({{"name", paper->name},
                      {"description", found == offering.descriptions.end() ? "" : found->second},
                      {"intent", word_for(print.intent)},
                      {"black_point_compensation", print.black_point_compensation}});
  }
  Json request{{"op", "offer"},
               {"title", offering.title},
               {"note", offering.note},
               {"sizes", offered_sizes(offering)},
               {"papers", papers},
               {"expires", offering.expires},
               {"width", app.preview.columns},
               {"height", app.preview.rows}};
  if (const Json recipe = whole_recipe(app); !recipe.is_null()) request["recipe"] = recipe;
  return request;
}

std::string file_name(const App& app) {
  return without_ending(app.job.master.name) + "-for-client.html";
}

void take_best_papers(App& app) {
  auto& papers = app.offering.papers;
  papers.clear();
  for (const Standing& each : app.choice.order)
    if (papers.size() < kMostOfferPapers) papers.push_back(app.choice.tried[each.index].paper);
  if (papers.empty() && app.job.chosen_paper() && app.job.chosen_paper()->space.empty())
    papers.push_back(app.job.chosen_paper()->file);
}

// What is kept of the offer that was just made, from the request it was made with.
void keep_made(App& app, const Task& task, const Json& json) {
  const Json request = parse_json(task.key);
  KeptOffer kept;
  kept.state = crc32_of(Bytes(task.key.begin(), task.key.end()));
  kept.master = app.job.master.name;
  kept.made = today_as_date();
  kept.offer.title = text_of(request, "title");
  kept.offer.checksum = uint32_t(std::strtoul(text_of(json, "checksum").c_str(), nullptr, 16));
  if (const auto day = day_of(text_of(request, "expires")); day) kept.offer.expires = day.value();
  if (const Json* sizes = member(request, "sizes")) kept.offer.sizes = sizes_in(*sizes);
  for (const FileId file : app.offering.papers)
    if (const PaperState* paper = paper_of(app, file)) {
      kept.offer.papers.push_back({paper->name, "", paper->white, paper->black, {}});
      kept.keys.push_back(paper->key);
    }
  keep_offer(app, kept);
}

// The bytes are as they are to go out.
void hand_out(App& app, const Task& task, const Bytes& packed) {
  const std::string letters = link_of(packed);
  if (task.space == "file") {
    Task wrap;
    wrap.kind = TaskKind::wrap;
    wrap.name = file_name(app);
    wrap.file = app.host.keep_bytes("offer", Bytes(letters.begin(), letters.end()));
    return add_task(app, wrap, {{"op", "wrap"}, {"name", wrap.name}}, {{"letters", wrap.file}});
  }
  MadeLink& made = *app.offering.link;
  made.link = app.host.client_address() + "#" + letters;
  made.letters = made.link.size();
  app.offering.copied = false;
  tell(app, text(words::kLinkReady, int(made.letters), int(kOfferLetters)));
}

bool take_made(App& app, const Task& task, const Json& json, const Bytes& packed) {
  if (packed.empty()) return false;
  MadeLink made;
  made.key = task.assume;
  made.width = count_of(json, "width");
  made.height = count_of(json, "height");
  if (const Json* papers = member(json, "papers"))
    for (const Json& each : *papers) {
      made.mean = std::max(made.mean, number_of(each, "mean"));
      made.max = std::max(made.max, number_of(each, "max"));
    }
  made.locked = !task.lock.empty();
  if (task.space != "file") app.offering.link = made;
  keep_made(app, task, json);
  if (!made.locked) {
    hand_out(app, task, packed);
    return true;
  }
  Task lock = task;
  lock.kind = TaskKind::seal;
  lock.words = words::kLocking;
  lock.share = 0;
  lock.file = app.host.keep_bytes("offer", packed);
  add_task(app, lock, {{"op", "seal"}, {"passphrase", task.lock}}, {{"packed", lock.file}});
  return true;
}

}  // namespace

Json sizes_json(const std::vector<OfferSize>& sizes) {
  Json list = Json::array();
  for (const OfferSize& each : sizes) list.push_back({{"size", each.size}, {"price", each.price}});
  return list;
}

std::vector<OfferSize> sizes_in(const Json& list) {
  std::vector<OfferSize> sizes;
  if (list.is_array())
    for (const Json& each : list) sizes.push_back({text_of(each, "size"), text_of(each, "price")});
  return sizes;
}

PrintIntent offered_print(const App& app, FileId paper) {
  const Tried* tried = tried_on(app, paper);
  return tried && tried->trouble.empty() ? tried->judged.best().print : app.job.print;
}

void begin_offering(App& app) {
  Offering& offering = app.offering;
  if (!offering.begun) recall_fields(app);
  offering.begun = true;
  std::erase_if(offering.papers, [&](FileId file) { return paper_of(app, file) == nullptr; });
  if (!offering.papers_settled) take_best_papers(app);
  if (offering.master == app.job.master.file) return;
  offering.master = app.job.master.file;
  offering.title = without_ending(app.job.master.name);
}

bool is_offered(const App& app, FileId paper) {
  const auto& papers = app.offering.papers;
  return std::find(papers.begin(), papers.end(), paper) != papers.end();
}

void offer_paper(App& app, FileId paper, bool on) {
  auto& papers = app.offering.papers;
  app.offering.papers_settled = true;
  std::erase(papers, paper);
  if (on && papers.size() < kMostOfferPapers) papers.push_back(paper);
}

std::string& description_of(App& app, const PaperState& paper) {
  auto& all = app.offering.descriptions;
  const std::string key = paper.key;
  if (!all.contains(key)) all[key] = white_and_black(paper) + ".";
  return all[key];
}

std::string offer_key(const App& app) {
  return dump_json(offer_request(app)) + app.offering.passphrase +
         std::to_string(app.job.master.version);
}

void start_offer(App& app, OfferUse use) {
  if (find_task(app, TaskKind::offer) || find_task(app, TaskKind::seal)) return;
  remember_fields(app);
  app.offering.papers_settled = true;
  Json request = offer_request(app);
  Task task;
  task.kind = TaskKind::offer;
  task.words = words::kMakingOffer;
  task.name = app.offering.title;
  task.key = dump_json(request);
  task.assume = offer_key(app);
  task.lock = app.offering.passphrase;
  task.space = use == OfferUse::file ? "file" : "link";
  request["form"] = task.space;
  if (use == OfferUse::link) {
    // The address and a lock are part of the link.
    const size_t beside = app.host.client_address().size() + 1 +
                          (task.lock.empty() ? 0 : (kLockedOfferBytes + 2) / 3 * 4);
    request["letters"] = kOfferLetters - std::min(beside, kOfferLetters / 2);
  }
  std::vector<FileUse> files{{"profile", app.job.master.profile_file},
                             {"picture", app.job.master.picture_file}};
  for (size_t i = 0; i < app.offering.papers.size(); ++i)
    files.push_back({"paper" + std::to_string(i), app.offering.papers[i]});
  add_task(app, task, request, files);
}

bool is_offer_work(const Task& task) {
  return task.kind == TaskKind::offer || task.kind == TaskKind::seal || task.kind == TaskKind::wrap;
}

bool take_offer_work(App& app, const Task& task, const Json& json, std::vector<Buffer>& buffers) {
  const Bytes packed = buffer_of(buffers, "packed");
  switch (task.kind) {
    case TaskKind::offer:
      return take_made(app, task, json, packed);
    case TaskKind::seal:
      app.host.drop_file(task.file);
      if (!locked(packed)) return false;
      hand_out(app, task, packed);
      return true;
    default:
      app.host.drop_file(task.file);
      app.offering.file_made = task.name;
      tell(app, text(words::kOfferFileMade, task.name.c_str()));
      return true;
  }
}

}  // namespace proofleaf::shell
