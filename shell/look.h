// How everything looks: one scale of sizes, one scale of greys, one accent, the faces.
// Sizes are in CSS pixels throughout the shell.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "imgui.h"
#include "said.h"

namespace proofleaf::shell {

struct Rect {
  float x = 0, y = 0, w = 0, h = 0;
  float right() const { return x + w; }
  float bottom() const { return y + h; }
  bool holds(float px, float py) const {
    return px >= x && py >= y && px < right() && py < bottom();
  }
  ImVec2 min() const { return {x, y}; }
  ImVec2 max() const { return {right(), bottom()}; }
};

// Spacing scale.
inline constexpr float k4 = 4, k8 = 8, k12 = 12, k16 = 16, k24 = 24, k32 = 32;
inline constexpr float kRound = 6;

// Greys, all neutral: the surround of a picture that is judged must not colour the eye
// (ISO 3664 and ISO 12646 ask for a neutral surround of middle lightness; values from memory).
// Ink on sheet has a contrast of 9.9:1, faint ink 7.3:1 (WCAG 2.2, 1.4.6 asks for 7:1).
namespace grey {
inline constexpr ImU32 kTable = IM_COL32(0x77, 0x77, 0x77, 255);  // L* 50
inline constexpr ImU32 kTableLine = IM_COL32(0x62, 0x62, 0x62, 255);
inline constexpr ImU32 kSheet = IM_COL32(0xC6, 0xC6, 0xC6, 255);  // L* 80
inline constexpr ImU32 kField = IM_COL32(0xD8, 0xD8, 0xD8, 255);
inline constexpr ImU32 kPressed = IM_COL32(0xB2, 0xB2, 0xB2, 255);
inline constexpr ImU32 kHairline = IM_COL32(0xA6, 0xA6, 0xA6, 255);
inline constexpr ImU32 kEdge = IM_COL32(0x66, 0x66, 0x66, 255);  // edges of controls, 3:1
inline constexpr ImU32 kInk = IM_COL32(0x1C, 0x1C, 0x1C, 255);
inline constexpr ImU32 kFaintInk = IM_COL32(0x33, 0x33, 0x33, 255);
inline constexpr ImU32 kPale = IM_COL32(0xF4, 0xF4, 0xF4, 255);
}  // namespace grey
// The one accent, a grey-green ink, for focus and the next step.
inline constexpr ImU32 kAccent = IM_COL32(0x34, 0x4C, 0x41, 255);
inline constexpr ImU32 kAccentLit = IM_COL32(0x41, 0x5B, 0x4F, 255);

enum class Face { small, body, bold, title, large };

class Look {
 public:
  Look(std::vector<uint8_t> face, std::vector<uint8_t> bold_face);
  // Makes the faces anew when the ratio of device to CSS pixels changed.
  void follow(float ratio);
  // Makes what lies on the graphics card anew; what there was went with an earlier context.
  void rebuild();
  void set_touch(bool touch);

  float ratio() const { return ratio_; }
  float target() const { return touch_ ? 44.f : 32.f; }  // least height of what can be hit
  bool touch() const { return touch_; }

  ImFont* font(Face face) const { return fonts_[int(face)]; }
  float size(Face face) const;  // line height [CSS px]
  // Size of a text, broken into lines at wrap (0: never).
  ImVec2 measure(Face face, const std::string& text, float wrap = 0) const;
  void put(ImDrawList* list, Face face, ImVec2 at, ImU32 colour, const std::string& text,
           float wrap = 0) const;
  // One line, ended with an ellipsis where it would pass `width`.
  void put_clipped(ImDrawList* list, Face face, ImVec2 at, float width, ImU32 colour,
                   const std::string& text) const;
  mutable std::vector<std::string> texts;  // what put() wrote in this frame, for tests

 private:
  std::vector<uint8_t> face_, bold_face_;
  float line_width(Face face, const char* begin, const char* end) const;
  std::string broken(Face face, const std::string& words, float wrap) const;

  float ratio_ = 1, font_ratio_ = 1e-3f;
  bool touch_ = false;
  ImFont* fonts_[5] = {};
};

// A slip of paper: what lies on the table apart from the sheet.
void draw_slip(ImDrawList* list, const Rect& rect);

// Words with a small first letter (ASCII).
std::string lower_first(std::string words);
// A number with a real minus sign.
std::string signed_number(double value);

}  // namespace proofleaf::shell
