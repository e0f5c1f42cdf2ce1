// The saved report: gathered from what the panel knows, written by the engine, handed to the page.
#include "app.h"
#include "job/choice_work.h"
#include "report/report.h"
#include "words_condition.h"

namespace proofleaf::shell {
namespace {

constexpr uint32_t kPictureSide = 760;  // [pixels]; about the width of the page

// Months have names in English alone.
std::string today() {
  if (language() != "en-GB") return today_as_date();
  const std::string date = today_as("%d %B %Y");
  return date.starts_with('0') ? date.substr(1) : date;
}

// The papers in the order of the ranking, as far as the picture was tried on them.
std::vector<ReportPaper> papers_of(const App& app) {
  std::vector<ReportPaper> papers;
  for (const Standing& standing : app.choice.order) {
    const Tried& tried = app.choice.tried[standing.index];
    const PaperState* paper = paper_of(app, tried.paper);
    if (paper == nullptr) continue;
    ReportPaper entry{paper->name, standing.sentence, json_of({tried.judged, {}}), {}, {}};
    const auto card = app.choice.cards.find(card_key(*paper));
    if (card != app.choice.cards.end()) entry.card = card->second.numbers;
    if (!tried.proof.empty())
      entry.proof = ReportPicture{tried.thumbnail_width, tried.thumbnail_height, tried.proof};
    papers.push_back(std::move(entry));
  }
  return papers;
}

ReportContent content_of(const App& app) {
  const MasterState& m = app.job.master;
  ReportContent content{today(), m.name, m.width, m.height, m.profile_title, {}, {}, {}};
  if (app.condition.report) content.condition = app.condition.answer;
  content.papers = papers_of(app);
  auto picture = report_picture(m.profile, app.preview.rgb, app.preview.columns, app.preview.rows,
                                kPictureSide);
  if (picture) content.picture = picture.take();
  return content;
}

std::string report_name(const App& app, const char* ending) {
  return without_ending(app.job.master.name) + "-report" + ending;
}

}  // namespace

void save_report(App& app, ReportKind kind) {
  const bool page = kind == ReportKind::page;
  const ReportContent content = content_of(app);
  const std::string made = page ? report_html(content) : report_json(content);
  const std::string name = report_name(app, page ? ".html" : ".json");
  app.host.save_text(name, page ? "text/html" : "application/json", made);
  tell(app, text(words::kReportSaved, name.c_str()));
}

}  // namespace proofleaf::shell
