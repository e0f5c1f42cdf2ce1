#include "ui.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "imgui_internal.h"
#include "words.h"
#include "words_spoken.h"

namespace proofleaf::shell {
namespace {

Rect last_item() {
  const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
  return {low.x, low.y, high.x - low.x, high.y - low.y};
}

bool keyboard_here() {
  return ImGui::IsItemFocused() && !ImGui::GetCurrentContext()->NavDisableHighlight;
}

void ring(const Rect& rect) {
  ImGui::GetWindowDrawList()->AddRect({rect.x - 1, rect.y - 1},
                                      {rect.right() + 1, rect.bottom() + 1}, kAccent, kRound, 0, 2);
}

}  // namespace

Ui::Item Ui::item(const std::string& id, float width, float height, const std::string& spoken) {
  Item result;
  result.pressed =
      ImGui::InvisibleButton(id.c_str(), {std::max(1.f, width), std::max(1.f, height)});
  result.hovered = ImGui::IsItemHovered() && !look.touch();
  result.held = ImGui::IsItemActive();
  result.rect = last_item();
  note(id, spoken);
  return result;
}

void Ui::note(const std::string& id, const std::string& spoken) {
  const Rect rect = last_item();
  if (ImGui::IsItemVisible()) {
    const ImRect clip = ImGui::GetCurrentWindow()->ClipRect;
    const float top = std::max(rect.y, clip.Min.y), bottom = std::min(rect.bottom(), clip.Max.y);
    if (bottom - top > 4) rects[id] = {rect.x, top, rect.w, bottom - top};
  }
  if (!keyboard_here()) return;
  focused = spoken;
  ring(rect);
}

float Ui::width() const {
  const float line = ImGui::GetContentRegionAvail().x;
  return room > 0 ? std::min(room, line) : line;
}

void Ui::words(Face face, const std::string& said, ImU32 colour) {
  const float wrap = width();
  const ImVec2 size = look.measure(face, said, wrap);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  look.put(ImGui::GetWindowDrawList(), face, at, colour, said, wrap);
  ImGui::Dummy({wrap, size.y});
}

void Ui::section(const std::string& said) {
  space(k8);
  words(Face::bold, said);
}

void Ui::space(float height) {
  ImGui::Dummy({1, std::max(0.f, height - ImGui::GetStyle().ItemSpacing.y)});
}

bool Ui::button(const std::string& id, const std::string& label, bool primary, float wide) {
  const ImVec2 size = look.measure(Face::bold, label);
  const float height = std::max(look.target(), 36.f);
  const Item it = item(id, wide > 0 ? wide : size.x + 2 * k16, height, label);
  ImDrawList* list = ImGui::GetWindowDrawList();
  const ImU32 fill = primary ? (it.held || it.hovered ? kAccentLit : kAccent)
                             : (it.held      ? grey::kPressed
                                : it.hovered ? grey::kField
                                             : 0u);
  list->AddRectFilled(it.rect.min(), it.rect.max(), fill, kRound);
  if (!primary) list->AddRect(it.rect.min(), it.rect.max(), grey::kEdge, kRound);
  look.put(list, Face::bold,
           {it.rect.x + (it.rect.w - size.x) / 2, it.rect.y + (it.rect.h - size.y) / 2},
           primary ? grey::kPale : grey::kInk, label);
  return it.pressed;
}

bool Ui::word_button(const std::string& id, const std::string& label, bool chosen) {
  const ImVec2 size = look.measure(Face::small, label);
  const Item it = item(id, std::max(look.target(), size.x + 2 * k8), look.target(), label);
  ImDrawList* list = ImGui::GetWindowDrawList();
  if (it.held || it.hovered)
    list->AddRectFilled(it.rect.min(), it.rect.max(), it.held ? grey::kPressed : grey::kField, 4);
  const float left = it.rect.x + (it.rect.w - size.x) / 2;
  const float top = it.rect.y + (it.rect.h - size.y) / 2;
  look.put(list, Face::small, {left, top}, grey::kInk, label);
  list->AddLine({left, top + size.y + 2}, {left + size.x, top + size.y + 2},
                chosen ? grey::kInk : grey::kHairline, chosen ? 2.f : 1.f);
  return it.pressed;
}

bool Ui::choice(const std::string& id, const std::string& label, const std::string& help_line,
                bool chosen, float right_room) {
  const float wide = width(), wrap = wide - k16 - k8 - right_room;
  const Face face = chosen ? Face::bold : Face::body;
  const ImVec2 label_size = look.measure(face, label, wrap);
  const float help_height =
      help_line.empty() ? 0 : k4 / 2 + look.measure(Face::small, help_line, wrap).y;
  const float height = std::max(look.target(), label_size.y + help_height + 2 * k8);
  const Item it = item(id, wide, height,
                       label + (chosen ? std::string(words::kChosen) : "") + ". " + help_line);
  ImDrawList* list = ImGui::GetWindowDrawList();
  if (chosen || it.hovered || it.held)
    list->AddRectFilled(it.rect.min(), it.rect.max(), it.held ? grey::kPressed : grey::kField, 4);
  if (chosen)
    list->AddRectFilled({it.rect.x, it.rect.y + 6}, {it.rect.x + 3, it.rect.bottom() - 6}, kAccent,
                        1.5f);
  const float top = it.rect.y + (height - label_size.y - help_height) / 2;
  look.put(list, face, {it.rect.x + k16, top}, grey::kInk, label, wrap);
  if (!help_line.empty())
    look.put(list, Face::small, {it.rect.x + k16, top + label_size.y + k4 / 2}, grey::kFaintInk,
             help_line, wrap);
  return it.pressed;
}

int Ui::options(const std::string& id, const std::string& label, std::initializer_list<Words> names,
                int chosen) {
  const float each = width() / float(names.size());
  const ImVec2 start = ImGui::GetCursorScreenPos();
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float height = look.target();
  list->AddRectFilled(start, {start.x + each * float(names.size()), start.y + height}, grey::kField,
                      kRound);
  list->AddRect(start, {start.x + each * float(names.size()), start.y + height}, grey::kEdge,
                kRound);
  int index = 0, result = chosen;
  for (const std::string name : names) {
    if (index > 0) ImGui::SameLine(0, 0);
    const bool on = index == chosen;
    const Item it = item(id + "-" + std::to_string(index), each, height,
                         label + ": " + name + (on ? std::string(words::kChosen) : ""));
    if (it.pressed) result = index;
    if (on)
      list->AddRectFilled({it.rect.x + 3, it.rect.y + 3},
                          {it.rect.right() - 3, it.rect.bottom() - 3}, grey::kFaintInk, 4);
    const Face face = on ? Face::bold : Face::body;
    const ImVec2 size = look.measure(face, name);
    look.put(list, face, {it.rect.x + (each - size.x) / 2, it.rect.y + (height - size.y) / 2},
             on ? grey::kPale : grey::kInk, name);
    ++index;
  }
  return result;
}

bool Ui::toggle(const std::string& id, const std::string& label, const std::string& help_line,
                bool* on, bool enabled) {
  const float pill = 46, wide = width(), wrap = wide - pill - k12;
  const ImVec2 label_size = look.measure(Face::body, label, wrap);
  const float help_height =
      help_line.empty() ? 0 : look.measure(Face::small, help_line, wrap).y + k4 / 2;
  const float height = std::max(look.target(), label_size.y + help_height + k8);
  const std::string value = *on ? words::kOn : words::kOff;
  const Item it = item(id, wide, height, label + ", " + value + ". " + help_line);
  const bool changed = it.pressed && enabled;
  if (changed) *on = !*on;
  ImDrawList* list = ImGui::GetWindowDrawList();
  if (it.hovered || it.held)
    list->AddRectFilled({it.rect.x - k4, it.rect.y}, {it.rect.right() + k4, it.rect.bottom()},
                        it.held ? grey::kPressed : grey::kField, 4);
  look.put(list, Face::body, {it.rect.x, it.rect.y + k4}, grey::kInk, label, wrap);
  look.put(list, Face::small, {it.rect.x, it.rect.y + k4 + label_size.y + k4 / 2}, grey::kFaintInk,
           help_line, wrap);
  const Rect box{it.rect.right() - pill, it.rect.y + k4, pill, 24};
  if (*on && enabled) list->AddRectFilled(box.min(), box.max(), grey::kFaintInk, kRound);
  list->AddRect(box.min(), box.max(), grey::kEdge, kRound);
  const ImVec2 size = look.measure(Face::small, *on ? words::kOn : words::kOff);
  look.put(list, Face::small, {box.x + (pill - size.x) / 2, box.y + (box.h - size.y) / 2},
           *on && enabled ? grey::kPale : grey::kInk, *on ? words::kOn : words::kOff);
  return changed;
}

bool Ui::number_head(const std::string& id, const std::string& label, bool as_usual) {
  const ImVec2 start = ImGui::GetCursorScreenPos();
  const float wide = width(), field = 76;
  const float reset = as_usual ? 0 : look.measure(Face::small, words::kReset).x + 2 * k8 + k4;
  look.put_clipped(ImGui::GetWindowDrawList(), Face::body,
                   {start.x, start.y + (look.target() - look.size(Face::body)) / 2},
                   wide - field - reset - k4, grey::kInk, label);
  bool pressed = false;
  if (!as_usual) {
    ImGui::SetCursorScreenPos({start.x + wide - field - reset, start.y});
    pressed = word_button(id + "-reset", words::kReset);
    ImGui::SameLine();
  }
  ImGui::SetCursorScreenPos({start.x + wide - field, start.y});
  ImGui::SetNextItemWidth(field);
  return pressed;
}

bool Ui::number(const std::string& id, const std::string& label, const std::string& help_line,
                int* value, int low, int high, int usual) {
  const int before = *value;
  if (number_head(id, label, *value == usual)) *value = usual;
  ImGui::InputInt(("##" + id + "-field").c_str(), value, 0, 0);
  // Keyboards of digits alone often have no minus.
  if (ImGui::IsItemActive()) typing = low < 0 ? Typing::text : Typing::digits;
  note(id + "-field", text(words::kAsNumber, label.c_str(), *value));
  if (high - low < 10000) {
    ImGui::SetNextItemWidth(width());
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding,
                        ImVec2(2, ImGui::GetStyle().FramePadding.y - (look.touch() ? 0.f : 3.f)));
    ImGui::SliderInt(("##" + id).c_str(), value, low, high, "", ImGuiSliderFlags_AlwaysClamp);
    ImGui::PopStyleVar();
    note(id, label + ", " + std::to_string(*value) + ". " + help_line);
  }
  *value = std::clamp(*value, low, high);
  help(help_line);
  return *value != before;
}

bool Ui::text_field(const std::string& id, const std::string& label, std::string* value,
                    size_t most) {
  std::vector<char> buffer(most + 1);
  value->copy(buffer.data(), buffer.size() - 1);
  ImGui::SetNextItemWidth(width());
  const bool changed = ImGui::InputText(("##" + id).c_str(), buffer.data(), buffer.size());
  if (ImGui::IsItemActive()) typing = Typing::text;
  note(id, label + ", " + *value);
  if (changed) *value = buffer.data();
  return changed;
}

void Ui::bar(float share, float wide) {
  const ImVec2 at = ImGui::GetCursorScreenPos();
  ImDrawList* list = ImGui::GetWindowDrawList();
  list->AddRectFilled(at, {at.x + wide, at.y + 6}, grey::kHairline, 3);
  list->AddRectFilled(at, {at.x + std::max(6.f, wide * std::clamp(share, 0.f, 1.f)), at.y + 6},
                      grey::kInk, 3);
  ImGui::Dummy({wide, 6});
}

}  // namespace proofleaf::shell
