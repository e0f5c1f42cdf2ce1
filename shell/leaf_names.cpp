// Leaf 6: how print files are called and where they go.
#include "app.h"
#include "words.h"
#include "words_batch.h"

namespace proofleaf::shell {
namespace {

constexpr const char* kFields[] = {"{master}", "{paper}",   "{width}", "{height}",
                                   "{ppi}",    "{edition}", "{date}"};

// Each puts its field at the end of the pattern; as many to a line as fit.
void draw_fields(App& app, std::string& pattern) {
  const float right = ImGui::GetCursorScreenPos().x + app.ui.width();
  for (const char* field : kFields) {
    const float wide = app.look.measure(Face::small, field).x + 2 * k8;
    if (field != kFields[0] && ImGui::GetItemRectMax().x + k4 + wide <= right)
      ImGui::SameLine(0, k4);
    const std::string id = "name-" + std::string(field + 1, std::string(field).size() - 2);
    if (!app.ui.word_button(id, field)) continue;
    if (!pattern.empty() && pattern.back() != '-' && pattern.back() != '_') pattern += '-';
    pattern += field;
  }
}

}  // namespace

void draw_names(App& app) {
  Ui& ui = app.ui;
  DeliverySettings& d = app.job.delivery;
  ui.section(words::kNames);
  ui.text_field("name-pattern", words::kPattern, &d.pattern);
  draw_fields(app, d.pattern);
  ui.help(words::kPatternHelp);
  if (const auto name = pattern_name(app); !name) ui.words(Face::bold, name.error().message);
  if (d.pattern != words::kUsualPattern && ui.button("usual-pattern", words::kUsual, false))
    d.pattern = words::kUsualPattern;
  if (d.name_edited && ui.button("as-pattern", words::kAsPattern, false)) d.name_edited = false;
}

void draw_folder(App& app) {
  Ui& ui = app.ui;
  ui.section(words::kWhereTo);
  if (!app.host.writes_folders()) return ui.help(words::kNoFolders);
  const FolderState& folder = app.folder;
  ui.help(folder.chosen ? text(words::kToFolder, folder.name.c_str()) : words::kToDownloads);
  if (ui.button("choose-folder", words::kChooseFolder, false)) app.host.choose_folder();
  if (folder.chosen && ui.button("leave-folder", words::kLeaveFolder, false)) {
    app.host.leave_folder();
    app.folder = {};
  }
}

}  // namespace proofleaf::shell
