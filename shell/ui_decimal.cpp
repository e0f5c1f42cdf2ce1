// A number with decimals, taken when the person leaves the field or presses Enter.
#include <algorithm>
#include <cstring>

#include "ui.h"
#include "words.h"

namespace proofleaf::shell {
namespace {

// Point and comma are one key to a person: either becomes the decimal sign of the language.
int only_numbers(ImGuiInputTextCallbackData* data) {
  const ImWchar letter = data->EventChar;
  if (letter == '.' || letter == ',') data->EventChar = ImWchar(decimal_sign());
  const bool taken = (letter >= '0' && letter <= '9') || letter == '.' || letter == ',' ||
                     letter == '-' || letter == '+';
  return taken ? 0 : 1;
}

}  // namespace

bool Ui::amount(const std::string& id, const std::string& label, const std::string& help_line,
                double* value, double low, double high, double usual) {
  const double before = *value;
  decimal(id + "-field", label, "", value, low, high, usual);
  ImGui::SetNextItemWidth(width());
  ImGui::PushStyleVar(ImGuiStyleVar_FramePadding,
                      ImVec2(2, ImGui::GetStyle().FramePadding.y - (look.touch() ? 0.f : 3.f)));
  ImGui::SliderScalar(("##" + id).c_str(), ImGuiDataType_Double, value, &low, &high, "",
                      ImGuiSliderFlags_AlwaysClamp | ImGuiSliderFlags_NoInput);
  ImGui::PopStyleVar();
  note(id, label + ", " + text("%.4g", *value) + ". " + help_line);
  help(help_line);
  return *value != before;
}

bool Ui::decimal(const std::string& id, const std::string& label, const std::string& help_line,
                 double* value, double low, double high, double usual) {
  const double before = *value;
  if (number_head(id, label, *value == usual)) *value = usual;
  const std::string shown = text("%.4g", *value);  // may have fewer digits than the value
  std::string typed = typing_.count(id) ? typing_[id] : shown;
  typed.resize(kLongestNumber + 1);
  ImGui::InputText(("##" + id).c_str(), typed.data(), typed.size(),
                   ImGuiInputTextFlags_AutoSelectAll | ImGuiInputTextFlags_CallbackCharFilter,
                   only_numbers);
  typed.resize(std::strlen(typed.c_str()));
  note(id, label + ", " + text("%.4g", *value) + ". " + help_line);
  if (ImGui::IsItemDeactivatedAfterEdit() && typed != shown)
    *value = std::clamp(typed_number(typed).value_or(*value), low, high);
  if (ImGui::IsItemActive()) {
    typing_[id] = typed;
    typing = low < 0 ? Typing::text : Typing::decimals;
  } else {
    typing_.erase(id);
  }
  if (!help_line.empty()) help(help_line);
  return *value != before;
}

}  // namespace proofleaf::shell
