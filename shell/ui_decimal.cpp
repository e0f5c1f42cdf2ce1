// A number with a decimal point, taken when the person leaves the field or presses Enter.
#include <algorithm>

#include "ui.h"
#include "words.h"

namespace proofleaf::shell {

bool Ui::amount(const std::string& id, const std::string& label, const std::string& help_line,
                double* value, double low, double high, double usual) {
  const double before = *value;
  decimal(id + "-field", label, "", value, low, high, usual);
  ImGui::SetNextItemWidth(width());
  ImGui::PushStyleVar(ImGuiStyleVar_FramePadding,
                      ImVec2(2, ImGui::GetStyle().FramePadding.y - (look.touch() ? 0.f : 3.f)));
  ImGui::SliderScalar(("##" + id).c_str(), ImGuiDataType_Double, value, &low, &high, "",
                      ImGuiSliderFlags_AlwaysClamp);
  ImGui::PopStyleVar();
  note(id, label + ", " + text("%.4g", *value) + ". " + help_line);
  help(help_line);
  return *value != before;
}

bool Ui::decimal(const std::string& id, const std::string& label, const std::string& help_line,
                 double* value, double low, double high, double usual) {
  const double before = *value;
  if (number_head(id, label, *value == usual)) *value = usual;
  double typed = typing_.count(id) ? typing_[id] : *value;
  ImGui::InputDouble(("##" + id).c_str(), &typed, 0, 0, "%.4g");
  note(id, label + ", " + text("%.4g", *value) + ". " + help_line);
  if (ImGui::IsItemDeactivatedAfterEdit()) *value = std::clamp(typed, low, high);
  if (ImGui::IsItemActive())
    typing_[id] = typed;
  else
    typing_.erase(id);
  if (!help_line.empty()) help(help_line);
  return *value != before;
}

}  // namespace proofleaf::shell
