// The wide sheet's page for a client: what is offered, the link, the answer.
#include <algorithm>
#include <utility>

#include "app.h"
#include "words.h"
#include "words_choice.h"
#include "words_offer.h"

namespace proofleaf::shell {
namespace {

constexpr float kColumn = 560;  // [CSS px] the most that is read with ease

void field(App& app, const char* id, const Words& label, const Words& help, std::string* value,
           size_t most) {
  app.ui.words(Face::body, label);
  app.ui.text_field(id, label, value, most);
  if (*help.english) app.ui.help(help);
  app.ui.space(k8);
}

void draw_paper(App& app, const PaperState& paper, int index) {
  Ui& ui = app.ui;
  bool on = is_offered(app, paper.file);
  const bool full = !on && app.offering.papers.size() == kMostOfferPapers;
  const std::string help =
      full ? words::kOfferFull
           : text(words::kOfferPaperHelp, way_words(offered_print(app, paper.file)).c_str());
  const std::string id = "offer-paper-" + std::to_string(index);
  if (ui.toggle(id, paper.name, help, &on, !full)) offer_paper(app, paper.file, on);
  if (!is_offered(app, paper.file)) return;
  ui.text_field(id + "-words", words::kOfferDescription, &description_of(app, paper),
                kLongestDescription);
  ui.space(k4);
}

void draw_papers(App& app) {
  app.ui.words(Face::bold, words::kOfferPapers);
  for (size_t i = 0; i < app.job.papers.size(); ++i) {
    const PaperState& paper = app.job.papers[i];
    if (paper.loaded && paper.space.empty()) draw_paper(app, paper, int(i));
  }
}

void draw_sizes(App& app) {
  Ui& ui = app.ui;
  auto& sizes = app.offering.sizes;
  ui.words(Face::body, words::kOfferSizes);
  const float whole = ui.width();
  for (size_t i = 0; i < sizes.size(); ++i) {
    const std::string number = std::to_string(i);
    const float before = std::exchange(ui.room, whole * 0.62f - k8);
    ui.text_field("offer-size-" + number, text(words::kOfferSize, int(i) + 1), &sizes[i].size,
                  kLongestSize);
    ImGui::SameLine(0, k8);
    ui.room = whole * 0.38f;
    ui.text_field("offer-price-" + number, text(words::kOfferPrice, int(i) + 1), &sizes[i].price,
                  kLongestPrice);
    ui.room = before;
  }
  ui.help(words::kOfferSizesHelp);
  if (sizes.size() < kMostOfferSizes && ui.word_button("offer-add-size", words::kAddSize))
    sizes.emplace_back();
  if (sizes.size() > 1) {
    ImGui::SameLine(0, k4);
    if (ui.word_button("offer-drop-size", words::kDropSize)) sizes.pop_back();
  }
  ui.space(k8);
}

void draw_fields(App& app) {
  Offering& offering = app.offering;
  app.ui.section(words::kOfferTexts);
  field(app, "offer-title", words::kOfferTitle, "", &offering.title, kLongestTitle);
  field(app, "offer-note", words::kOfferNote, "", &offering.note, kLongestNote);
  draw_sizes(app);
  field(app, "offer-ends", words::kOfferEnds, words::kOfferEndsHelp, &offering.expires, 10);
  field(app, "offer-lock", words::kOfferLock, words::kOfferLockHelp, &offering.passphrase, 200);
}

const Task* work_under_way(const App& app) {
  const auto found = std::find_if(app.tasks.begin(), app.tasks.end(), is_offer_work);
  return found == app.tasks.end() ? nullptr : &*found;
}

bool only_here(const std::string& address) {
  for (const char* host : {"://127.", "://localhost", "://[::1]"})
    if (address.find(host) != std::string::npos) return true;
  return false;
}

void draw_link(App& app, const MadeLink& made) {
  Ui& ui = app.ui;
  if (made.link.empty()) return;  // still being locked
  ui.space(k8);
  ui.words(Face::bold, text(words::kLinkReady, int(made.letters), int(kOfferLetters)));
  if (made.key != offer_key(app)) ui.words(Face::bold, words::kLinkOld);
  ui.words(Face::body, text(words::kLinkHolds, made.width, made.height, made.mean, made.max) +
                           (made.locked ? words::kLinkLocked : ""));
  if (only_here(made.link)) ui.words(Face::body, words::kLinkOnlyHere);
  ui.help(words::kLinkBreaks);
  if (ui.button("copy-offer", words::kCopyLink, true)) app.host.copy_text(made.link);
  if (app.offering.copied) ui.words(Face::body, words::kCopied);
}

void draw_making(App& app) {
  Ui& ui = app.ui;
  const Offering& offering = app.offering;
  const Task* work = work_under_way(app);
  const bool ready = !work && !offering.papers.empty();
  const float whole = ui.width();
  if (ui.button("make-offer", work ? words::kOfferBusy : words::kMakeLink, ready, whole) && ready)
    start_offer(app, OfferUse::link);
  if (ui.button("make-offer-file", words::kMakeOfferFile, false, whole) && ready)
    start_offer(app, OfferUse::file);
  if (work) {
    ui.words(Face::body, text("%s, %.0f %%", work->words.c_str(), work->share * 100));
    ui.bar(float(work->share), whole);
    const int number = work->work;
    if (ui.button("stop-offer", words::kStop, false)) stop_task(app, number);
  }
  if (offering.link) draw_link(app, *offering.link);
  if (!offering.file_made.empty())
    ui.words(Face::body, text(words::kOfferFileMade, offering.file_made.c_str()));
}

void draw_answer(App& app) {
  Ui& ui = app.ui;
  Offering& offering = app.offering;
  ui.section(words::kAnswerBack);
  if (offering.answer) {
    const ReadAnswer& read = *offering.answer;
    if (!read.choice.empty()) ui.words(Face::bold, text(words::kAnswerChoice, read.choice.c_str()));
    if (!read.trouble.empty()) ui.words(Face::bold, read.trouble);
    if (!read.note.empty()) ui.words(Face::body, text(words::kAnswerNote, read.note.c_str()));
    for (const std::string& remark : read.remarks) ui.words(Face::body, remark);
    const FileId paper = paper_of_answer(app);
    if (paper == 0 && !read.paper.empty())
      ui.words(Face::body, text(words::kAnswerGone, read.paper.c_str()));
    if (paper != 0 &&
        ui.button("print-on-choice", text(words::kPrintOnChoice, read.paper.c_str()), true))
      print_on(app, paper);
    ui.space(k8);
  }
  ui.help(words::kAnswerHelp);
  ui.text_field("offer-answer", words::kAnswerField, &offering.pasted, 8000);
  if (ui.button("read-answer", words::kReadAnswer, false) && !offering.pasted.empty())
    read_answer(app, offering.pasted);
}

}  // namespace

void draw_offer_page(App& app) {
  Ui& ui = app.ui;
  const float before = std::exchange(ui.room, kColumn);
  begin_offering(app);
  const bool answer_first = app.offering.answer.has_value();
  if (answer_first) draw_answer(app);
  if (answer_first) ui.section(words::kForClient);
  ui.help(words::kOfferHelp);
  if (app.job.master.file == 0 || papers_to_try(app) == 0) {
    ui.words(Face::body, words::kOfferNeeds);
  } else {
    ui.space(k8);
    draw_papers(app);
    draw_fields(app);
    draw_making(app);
  }
  if (!answer_first) draw_answer(app);
  ui.room = before;
}

Json offering_json(const App& app) {
  const Offering& offering = app.offering;
  Json sizes = Json::array();
  for (const OfferSize& each : offering.sizes) sizes.push_back({each.size, each.price});
  Json json{{"papers", offering.papers.size()},
            {"title", offering.title},
            {"note", offering.note},
            {"expires", offering.expires},
            {"sizes", sizes},
            {"link", offering.link ? offering.link->link : ""},
            {"letters", offering.link ? offering.link->letters : 0},
            {"file", offering.file_made},
            {"answer", Json()}};
  if (offering.answer)
    json["answer"] = {{"choice", offering.answer->choice},
                      {"note", offering.answer->note},
                      {"remarks", offering.answer->remarks},
                      {"trouble", offering.answer->trouble}};
  return json;
}

}  // namespace proofleaf::shell
