// What lies around the picture: the caption above, the foot line below, work under way, notices.
#include <algorithm>

#include "app.h"
#include "words.h"

namespace proofleaf::shell {
namespace {

constexpr double kQuietFor = 0.3;  // shorter work is not worth a word [s]
constexpr ImGuiWindowFlags kSlip =
    ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
    ImGuiWindowFlags_NoFocusOnAppearing | ImGuiWindowFlags_NoScrollWithMouse |
    ImGuiWindowFlags_NoBackground;

bool begin_slip(const char* id, const Rect& rect) {
  ImGui::SetNextWindowPos(rect.min());
  ImGui::SetNextWindowSize({rect.w, rect.h});
  const bool open = ImGui::Begin(id, nullptr, kSlip);
  draw_slip(ImGui::GetWindowDrawList(), rect);
  return open;
}

void draw_caption(App& app) {
  const Rect& rect = app.layout.caption;
  ImDrawList* list = ImGui::GetBackgroundDrawList();
  draw_slip(list, rect);
  const std::string& said = app.layout.caption_words;
  const ImVec2 size = app.look.measure(Face::body, said, rect.w - 2 * k16);
  app.look.put(list, Face::body, {rect.x + k16, rect.y + (rect.h - size.y) / 2}, grey::kInk, said,
               rect.w - 2 * k16);
}

std::string joined(const std::vector<std::string>& lines) {
  std::string all;
  for (const std::string& line : lines) all += (all.empty() ? "" : "   ") + line;
  return all;
}

// On narrow screens the reading lies over the top of the picture, since a finger hides the rest.
void draw_reading(App& app) {
  const Rect& foot = app.layout.foot;
  ImDrawList* list = ImGui::GetForegroundDrawList();
  if (!app.layout.narrow) {
    const std::string said = app.reading        ? joined(reading_lines(app))
                             : app.look.touch() ? words::kReadIdleTouch
                                                : words::kReadIdle;
    app.look.put_clipped(list, Face::small,
                         {foot.x + k16, foot.bottom() - app.look.size(Face::small) - k8},
                         foot.w - 2 * k16, app.reading ? grey::kInk : grey::kFaintInk, said);
    return;
  }
  if (!app.reading) return;
  const std::vector<std::string> lines = reading_lines(app);
  const float line = app.look.size(Face::small) + 2;
  std::vector<std::string> rows = {lines[0], lines[1], joined({lines.begin() + 2, lines.end()})};
  const Rect& stage = app.layout.stage;
  const Rect slip{stage.x, stage.y, stage.w, line * float(rows.size()) + k16};
  draw_slip(list, slip);
  for (size_t i = 0; i < rows.size(); ++i)
    app.look.put_clipped(list, Face::small, {slip.x + k12, slip.y + k8 + line * float(i)},
                         slip.w - 2 * k12, grey::kInk, rows[i]);
}

// Holding counts while the button is down, so a finger or the space bar will do.
void hold_button(App& app) {
  app.ui.word_button("hold", words::kHold, app.job.view.master_held);
  const bool down = ImGui::IsItemActive();
  if (down != app.hold_down) app.job.view.master_held = down;
  app.hold_down = down;
}

void draw_foot(App& app) {
  const Rect& foot = app.layout.foot;
  begin_slip("foot", foot);
  ImGui::SetCursorPos({app.layout.narrow ? 0.f : k8, app.layout.narrow ? 0.f : k4 / 2});
  const Pane pane = panes(app).front();
  const float mid_x = pane.rect.x + pane.rect.w / 2, mid_y = pane.rect.y + pane.rect.h / 2;
  const double zoom = zoom_of(app, pane);
  if (app.ui.word_button("whole", app.layout.narrow ? words::kWhole : words::kWholeLong,
                         app.job.view.whole))
    show_whole(app);
  ImGui::SameLine(0, k4);
  if (app.ui.word_button("exact", words::kExact, !app.job.view.whole && zoom == 1))
    show_exact(app, mid_x, mid_y);
  if (!app.layout.narrow) {
    ImGui::SameLine(0, k4);
    if (app.ui.word_button("farther", words::kFarther)) zoom_to(app, zoom * 0.8, mid_x, mid_y);
    ImGui::SameLine(0, k4);
    if (app.ui.word_button("closer", words::kCloser)) zoom_to(app, zoom * 1.25, mid_x, mid_y);
  }
  if (app.job.chosen_paper()) {
    ImGui::SameLine(0, k4);
    hold_button(app);
  }
  const std::string scale = text(words::kScale, zoom * 100);
  const float wide = app.look.measure(Face::small, scale).x;
  const float left = foot.right() - wide - k16;
  if (!app.preview.empty() && left > ImGui::GetItemRectMax().x + k8)
    app.look.put(ImGui::GetWindowDrawList(), Face::small,
                 {left, foot.y + (app.layout.narrow ? 0 : k4 / 2) +
                            (app.look.target() - app.look.size(Face::small)) / 2},
                 grey::kFaintInk, scale);
  ImGui::End();
}

bool shown_in_list(const App& app, const Task& task) {
  if (now() - task.since < kQuietFor || is_choice_work(task)) return false;
  const bool file = task.kind == TaskKind::deliver || task.kind == TaskKind::batch;
  const bool on_leaf =
      file && app.job.leaf == Leaf::print && (!app.layout.narrow || app.job.sheet_raised);
  const bool on_page =
      is_offer_work(task) && app.choice.open && app.choice.page == ChoicePage::client;
  return !on_leaf && !on_page;
}

// Work and notices are stacked upwards from the foot line.
float draw_work(App& app, float bottom) {
  const Rect& foot = app.layout.foot;
  const float wide = std::min(foot.w, 420.f), high = std::max(44.f, app.look.target() + k8);
  int stop = 0;
  for (const Task& task : app.tasks) {
    if (!shown_in_list(app, task)) continue;
    const Rect rect{foot.x + (foot.w - wide) / 2, bottom - high, wide, high};
    bottom = rect.y - k8;
    app.layout.blockers.push_back(rect);
    begin_slip(text("work-%d", task.work).c_str(), rect);
    const float button = app.look.measure(Face::small, words::kStop).x + 2 * k8 + k16;
    const float room = wide - k16 - button - k8;
    app.look.put_clipped(ImGui::GetWindowDrawList(), Face::small, {rect.x + k16, rect.y + k8}, room,
                         grey::kInk, text("%s, %.0f %%", task.words.c_str(), task.share * 100));
    ImGui::SetCursorPos({k16, high - k8 - 6});
    app.ui.bar(float(task.share), room);
    ImGui::SetCursorPos({wide - button, (high - app.look.target()) / 2});
    if (app.ui.word_button(text("stop-%d", task.work), words::kStop)) stop = task.work;
    ImGui::End();
  }
  if (stop) stop_task(app, stop);
  return bottom;
}

void draw_notices(App& app, float bottom) {
  const Rect& foot = app.layout.foot;
  const float wide = std::min(foot.w, 560.f);
  const float button = app.look.measure(Face::small, words::kDismiss).x + 2 * k8;
  int dismissed = 0;
  bool reopen = false;
  for (auto it = app.job.notices.rbegin(); it != app.job.notices.rend(); ++it) {
    const float wrap = wide - 2 * k16 - button - k8;
    const float text_high = app.look.measure(Face::body, it->sentence, wrap).y;
    const bool offers = app.smaller && app.smaller->sentence == it->sentence;
    const float said_high = std::max(app.look.target(), text_high);
    const float high = said_high + k16 + (offers ? std::max(app.look.target(), 36.f) + k8 : 0);
    const Rect rect{foot.x + (foot.w - wide) / 2, bottom - high, wide, high};
    bottom = rect.y - k8;
    app.layout.blockers.push_back(rect);
    begin_slip(text("notice-%d", it->id).c_str(), rect);
    ImDrawList* list = ImGui::GetWindowDrawList();
    list->AddRect(rect.min(), rect.max(), grey::kInk, kRound, 0, 1.5f);
    app.look.put(list, Face::body, {rect.x + k16, rect.y + k8 + (said_high - text_high) / 2},
                 grey::kInk, it->sentence, wrap);
    if (offers) {
      ImGui::SetCursorPos({k16, k8 + said_high + k8});
      reopen |= app.ui.button("reopen", smaller_label(*app.smaller), true);
    }
    ImGui::SetCursorPos({wide - button - k8, k8 + (said_high - app.look.target()) / 2});
    if (app.ui.word_button(text("dismiss-%d", it->id), words::kDismiss)) dismissed = it->id;
    ImGui::End();
  }
  if (dismissed)
    std::erase_if(app.job.notices, [&](const Notice& each) { return each.id == dismissed; });
  if (reopen) open_smaller(app);
}

void draw_drop(App& app) {
  ImDrawList* list = ImGui::GetForegroundDrawList();
  const Layout& l = app.layout;
  list->AddRect({k4, k4}, {l.width - k4, l.height - k4}, kAccent, kRound, 0, 4);
  const float wrap = std::min(l.width - 2 * k32, 420.f);
  const ImVec2 size = app.look.measure(Face::title, words::kDrop, wrap);
  const Rect slip{(l.width - size.x) / 2 - k24, (l.height - size.y) / 2 - k24, size.x + 2 * k24,
                  size.y + 2 * k24};
  draw_slip(list, slip);
  app.look.put(list, Face::title, {slip.x + k24, slip.y + k24}, grey::kInk, words::kDrop, wrap);
}

}  // namespace

std::string caption_words(const App& app) {
  const JobState& job = app.job;
  if (job.master.file == 0) return words::kCaptionEmpty;
  const PaperState* paper = job.chosen_paper();
  if (!paper) return text(words::kCaptionMaster, job.master.name.c_str());
  const std::string intent = lower_first(intent_words(job.print.intent));
  const auto share = off_gamut_share(app);
  const bool failed = app.proof_cube.failed == app.proof_cube.wanted;
  if (!share)
    return text(failed ? words::kCaptionNot : words::kCaptionWait, paper->name.c_str(),
                intent.c_str());
  std::string said = text(words::kCaption, paper->name.c_str(), intent.c_str(),
                          percent(*share).c_str(), job.marking.threshold);
  if (!app.proof_cube.exact()) said += failed ? words::kCaptionOnly : words::kCaptionQuick;
  return said;
}

void draw_around(App& app) {
  draw_caption(app);
  if (app.check.open) return;
  if (!app.choice.open && !app.screen.measuring) {
    draw_foot(app);
    draw_reading(app);
    draw_walk(app);
  }
  const float bottom = draw_work(app, app.layout.foot.y - k8 - walk_room(app));
  draw_notices(app, bottom);
}

void draw_cards(App& app) {
  if (app.job.dropping) draw_drop(app);
  if (!app.job.key_card) return;
  const Layout& l = app.layout;
  const float wide = std::min(l.width - 2 * k12, 460.f);
  const float high = std::min(l.height - 2 * k12, std::max(200.f, app.card_height));
  const Rect rect{(l.width - wide) / 2, (l.height - high) / 2, wide, high};
  app.layout.blockers.push_back({0, 0, l.width, l.height});
  ImGui::SetNextWindowFocus();
  begin_slip("key-card", rect);
  ImGui::GetWindowDrawList()->AddRect(rect.min(), rect.max(), grey::kInk, kRound, 0, 1.5f);
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(k24, k16));
  ImGui::BeginChild("card", {wide, high}, ImGuiChildFlags_AlwaysUseWindowPadding,
                    ImGuiWindowFlags_NavFlattened);
  app.ui.words(Face::title, words::kKeyCard);
  app.ui.space(k8);
  const float column = 116;
  for (const words::KeyLine& line : words::kKeyLines) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    app.look.put(ImGui::GetWindowDrawList(), Face::bold, at, grey::kInk, line.key);
    ImGui::Indent(column);
    app.ui.words(Face::body, line.does);
    ImGui::Unindent(column);
  }
  app.ui.space(k12);
  if (app.ui.button("licences", words::kLicences, false)) app.host.show_licences();
  app.ui.space(k8);
  if (app.ui.button("close-card", words::kClose, false)) app.job.key_card = false;
  app.card_height = ImGui::GetCursorPosY() + k16 - k8;
  ImGui::EndChild();
  ImGui::PopStyleVar();
  ImGui::End();
}

}  // namespace proofleaf::shell
