// The saved report: gathered from what the panel knows, written by the engine, handed to the page.
#include <ctime>

#include "app.h"
#include "report/report.h"
#include "words_condition.h"

namespace proofleaf::shell {
namespace {

constexpr uint32_t kPictureSide = 760;  // [pixels]; about the width of the page

std::string today() {
  const std::time_t present = std::time(nullptr);
  char buffer[64] = "";
  if (const std::tm* local = std::localtime(&present))
    std::strftime(buffer, sizeof buffer, "%d %B %Y", local);
  return buffer[0] == '0' ? buffer + 1 : buffer;
}

ReportContent content_of(const App& app) {
  const MasterState& m = app.job.master;
  ReportContent content{today(), m.name, m.width, m.height, m.profile_title, {}, {}, {}};
  if (app.condition.report) content.condition = app.condition.answer;
  auto picture = report_picture(m.profile, app.preview.rgb, app.preview.columns, app.preview.rows,
                                kPictureSide);
  if (picture) content.picture = picture.take();
  return content;
}

std::string report_name(const App& app, const char* ending) {
  const std::string& name = app.job.master.name;
  const size_t dot = name.rfind('.');
  return (dot == std::string::npos || dot == 0 ? name : name.substr(0, dot)) + "-report" + ending;
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
