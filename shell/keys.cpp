// Keys: those of the picture and the sheet as a whole here, the rest to Dear ImGui.
#include <algorithm>
#include <utility>

#include "app.h"
#include "imgui_internal.h"
#include "words_spoken.h"

namespace proofleaf::shell {
namespace {

constexpr int kShift = 1, kCtrl = 2, kAlt = 4, kMeta = 8;
constexpr float kPanStep = 64;  // [CSS px]
constexpr double kDividerStep = 0.02;

ImGuiKey imgui_key(const std::string& key) {
  static constexpr std::pair<const char*, ImGuiKey> kKeys[] = {{"Tab", ImGuiKey_Tab},
                                                               {"ArrowLeft", ImGuiKey_LeftArrow},
                                                               {"ArrowRight", ImGuiKey_RightArrow},
                                                               {"ArrowUp", ImGuiKey_UpArrow},
                                                               {"ArrowDown", ImGuiKey_DownArrow},
                                                               {"Enter", ImGuiKey_Enter},
                                                               {" ", ImGuiKey_Space},
                                                               {"Escape", ImGuiKey_Escape},
                                                               {"Backspace", ImGuiKey_Backspace},
                                                               {"Delete", ImGuiKey_Delete},
                                                               {"Home", ImGuiKey_Home},
                                                               {"End", ImGuiKey_End},
                                                               {"PageUp", ImGuiKey_PageUp},
                                                               {"PageDown", ImGuiKey_PageDown},
                                                               {"a", ImGuiKey_A},
                                                               {"c", ImGuiKey_C},
                                                               {"v", ImGuiKey_V},
                                                               {"x", ImGuiKey_X},
                                                               {"y", ImGuiKey_Y},
                                                               {"z", ImGuiKey_Z}};
  for (const auto& [name, value] : kKeys)
    if (key == name) return value;
  return ImGuiKey_None;
}

void step_compare(App& app) { app.job.compare = Compare((int(app.job.compare) + 1) % 3); }

void move_cross(App& app, int dx, int dy, bool far) {
  View& view = app.job.view;
  const double step = (far ? 32 : 1) * std::max(1.0, 1 / zoom_of(app, panes(app).front()) * 2);
  const double w = app.job.master.width, h = app.job.master.height;
  view.cross_x = std::clamp(view.cross_x + dx * step / w, 0.0, 1 - 0.5 / w);
  view.cross_y = std::clamp(view.cross_y + dy * step / h, 0.0, 1 - 0.5 / h);
}

bool arrows(App& app, const std::string& key, int modifiers) {
  const bool far = (modifiers & kShift) != 0;
  const int dx = key == "ArrowLeft" ? -1 : key == "ArrowRight" ? 1 : 0;
  const int dy = key == "ArrowUp" ? -1 : key == "ArrowDown" ? 1 : 0;
  if (dx == 0 && dy == 0) return false;
  if (!app.gestures.picture_focus && !(far && !app.job.view.cross)) return false;
  if (app.job.view.cross)
    move_cross(app, dx, dy, far);
  else
    pan_by(app, -float(dx) * kPanStep, -float(dy) * kPanStep);
  return true;
}

void zoom_step(App& app, double factor) {
  const Pane pane = panes(app).front();
  zoom_to(app, zoom_of(app, pane) * factor, pane.rect.x + pane.rect.w / 2,
          pane.rect.y + pane.rect.h / 2);
}

// From the sheet to the picture, to the foot line, and round again.
void change_focus(App& app) {
  Gestures& g = app.gestures;
  const ImGuiWindow* at = ImGui::GetCurrentContext()->NavWindow;
  const bool on_foot = at && std::string(at->Name) == "foot";
  if (g.picture_focus) {
    g.picture_focus = false;
    app.gestures.focus_wanted = "foot";
  } else if (on_foot) {
    app.gestures.focus_wanted = "sheet";
  } else if (app.choice.open) {
    const bool on_choice = at && std::string(at->RootWindow->Name) == "paper-choice";
    app.gestures.focus_wanted = on_choice ? "sheet" : "paper-choice";
  } else {
    g.picture_focus = true;
    ImGui::SetWindowFocus(nullptr);
    tell(app, words::kPictureFocus);
  }
}

bool view_key(App& app, const std::string& key) {
  const Pane pane = panes(app).front();
  View& view = app.job.view;
  if (key == "w")
    show_whole(app);
  else if (key == "o")
    show_exact(app, pane.rect.x + pane.rect.w / 2, pane.rect.y + pane.rect.h / 2);
  else if (key == "+" || key == "=")
    zoom_step(app, 1.25);
  else if (key == "-")
    zoom_step(app, 0.8);
  else if (key == ",")
    view.divider = std::max(0.0, view.divider - kDividerStep);
  else if (key == ".")
    view.divider = std::min(1.0, view.divider + kDividerStep);
  else if (key == "c")
    step_compare(app);
  else if (key == "r") {
    view.cross = !view.cross;
    if (view.cross) {
      app.gestures.picture_focus = true;
      ImGui::SetWindowFocus(nullptr);
    }
  } else
    return false;
  return true;
}

bool job_key(App& app, const std::string& key) {
  if (key >= "1" && key <= "6" && key.size() == 1) {
    app.job.leaf = Leaf(key[0] - '1');
    app.job.sheet_raised = true;
  } else if (key == "v")
    app.job.marking.on = !app.job.marking.on;
  else if (key == "i")
    cycle_intent(app);
  else if (key == "b")
    app.job.print.black_point_compensation = !app.job.print.black_point_compensation;
  else if (key == "k")
    app.job.key_card = !app.job.key_card;
  else if (key == "p")
    app.choice.open ? close_choice(app) : open_choice(app, ChoicePage::papers);
  else if (key == "d")
    app.choice.rings = !app.choice.rings;
  else
    return false;
  return true;
}

// Escape closes a card, else ends the walk through a finding's places, else stops what is under
// way, else puts a notice away, newest first; with nothing left to do, the next Tab leaves the
// page.
void escape(App& app) {
  auto& notices = app.job.notices;
  if (app.job.key_card)
    app.job.key_card = false;
  else if (app.screen.measuring)
    app.screen.measuring = false;
  else if (app.check.open)
    close_check(app);
  else if (app.choice.open)
    close_choice(app);
  else if (!app.condition.walk.empty())
    end_walk(app);
  else if (!app.tasks.empty() && !is_choice_work(app.tasks.back()) &&
           app.tasks.back().kind != TaskKind::cube)
    stop_task(app, app.tasks.back().work);
  else if (!notices.empty())
    notices.pop_back();
  else
    app.gestures.leaving = true;
}

bool own_key(App& app, const std::string& key, int modifiers) {
  if (modifiers & (kCtrl | kAlt | kMeta)) return false;
  if (app.check.open && key != "Escape") return false;
  if (key == "F6") {
    change_focus(app);
    return true;
  }
  if (key == "Escape") {
    escape(app);
    return false;  // Dear ImGui may use it too
  }
  return arrows(app, key, modifiers) || view_key(app, key) || job_key(app, key) ||
         walk_key(app, key);
}

void feed_imgui(const std::string& key, bool down, int modifiers) {
  ImGuiIO& io = ImGui::GetIO();
  io.AddKeyEvent(ImGuiMod_Shift, (modifiers & kShift) != 0);
  io.AddKeyEvent(ImGuiMod_Ctrl, (modifiers & (kCtrl | kMeta)) != 0);
  io.AddKeyEvent(ImGuiMod_Alt, (modifiers & kAlt) != 0);
  if (const ImGuiKey known = imgui_key(key); known != ImGuiKey_None) io.AddKeyEvent(known, down);
}

std::string lower(std::string key) {
  if (key.size() == 1 && key[0] >= 'A' && key[0] <= 'Z') key[0] = char(key[0] + 32);
  return key;
}

}  // namespace

void apply_focus(App& app) {
  ImGuiContext& g = *ImGui::GetCurrentContext();
  if (std::exchange(app.gestures.focus_gone, false) && g.NavWindow)
    ImGui::NavInitWindow(g.NavWindow, true);
  const char* name = std::exchange(app.gestures.focus_wanted, nullptr);
  ImGuiWindow* window = name ? ImGui::FindWindowByName(name) : nullptr;
  if (!window) return;
  ImGui::FocusWindow(window);
  ImGui::NavInitWindow(window, true);
  ImGui::GetCurrentContext()->NavDisableHighlight = false;
}

// Dear ImGui holds on to it, and Tab would lead nowhere from there.
void look_after_focus(App& app) {
  const ImGuiContext& g = *ImGui::GetCurrentContext();
  if (!g.NavWindow || g.NavId == 0 || g.NavIdIsAlive || g.NavAnyRequest) return;
  app.gestures.focus_gone = true;
  app.host.request_frame();
}

bool on_key(App& app, bool down, const std::string& raw, const std::string&, int modifiers) {
  const std::string key = lower(raw);
  const bool typing = ImGui::GetIO().WantTextInput;
  if (key == "m" && !typing && !(modifiers & (kCtrl | kAlt | kMeta))) {
    app.job.view.master_held = down;
    return true;
  }
  if (!down) {
    feed_imgui(key, false, modifiers);
    return false;
  }
  if (key == "Tab" && app.gestures.leaving) return false;
  app.gestures.leaving = false;
  if (!typing && !app.check.open && key == "z" && (modifiers & (kCtrl | kMeta))) {
    modifiers& kShift ? step_forward(app) : step_back(app);
    return true;
  }
  if (!typing && choice_key(app, key)) return true;
  if (!typing && check_key(app, key, modifiers)) return true;
  if (!typing && own_key(app, key, modifiers)) return true;
  if (key == "Tab" && app.gestures.picture_focus) app.gestures.picture_focus = false;
  if (key == "Tab" && !ImGui::GetCurrentContext()->NavWindow) ImGui::SetWindowFocus("sheet");
  feed_imgui(key, true, modifiers);
  const bool editing = typing && (modifiers & (kCtrl | kMeta)) != 0;
  if (modifiers & (kCtrl | kAlt | kMeta)) return editing && key != "v";
  return imgui_key(key) != ImGuiKey_None && (raw.size() > 1 || (raw == " " && !typing));
}

}  // namespace proofleaf::shell
