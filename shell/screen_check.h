// "This screen": a walk that checks the screen by eye, what was found, and the correction by it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/json.h"
#include "field_gl.h"
#include "look.h"
#include "screen/check_json.h"
#include "screen/compensation.h"
#include "screen/unshown.h"

namespace proofleaf::shell {

struct App;

enum class CheckStep { tint, rows, dark, light, red, green, blue, neutral, turning, white, result };
inline constexpr int kCheckSteps = 10;  // before the result
// Of the three steps that compare a channel's tones: 0, 1, 2.
inline size_t channel_of(CheckStep step) { return size_t(step) - size_t(CheckStep::red); }

struct ScreenCheck {
  // The walk under way.
  bool open = false;
  bool opened = false;  // in this frame
  CheckStep step = CheckStep::tint;
  int match = 0;          // which comparison of the channel
  int solid = 128;        // the square's code
  screen::Neutral moved;  // the grey
  screen::Answers answers;
  std::string trouble;  // what was wrong with the channel's comparisons
  bool to_top = false;

  std::optional<screen::KeptCheck> kept;             // the last one that was walked to its end
  std::optional<screen::Compensation> compensation;  // by it; empty where it cannot correct
  screen::Price price;                               // of that
  std::string kept_trouble;                          // why what was kept could not be used
  screen::Platform platform;                         // at present

  Rect words, field;  // of the walk [CSS pixels]
  std::vector<Patch> patches;
  FieldGl gl;

  std::string share_key;  // what the share was found for
  std::optional<screen::Unshown> share;
};

// screen_check.cpp
void recall_check(App& app);
void forget_check(App& app);
// What the page tells of its screen, as screen/check_json.h has it.
void take_platform(App& app, const std::string& json);
void open_check(App& app, CheckStep step);
void finish_check(App& app);         // keeps the answers
bool check_applies(const App& app);  // the kept check is of the present screen
bool screen_corrected(const App& app);
bool can_correct(const App& app);
void set_corrected(App& app, bool on);
// The check by which cubes are corrected; null where none is.
Json screen_correction(const App& app);
// 8-bit R, G, B, A for the screen, made without it.
void correct_bytes(const App& app, std::vector<uint8_t>& rgba);
Json check_json(const App& app);

// screen_walk.cpp
void close_check(App& app);
void draw_check(App& app);
bool check_key(App& app, const std::string& key, int modifiers);
// Answers near black or near white: one of the eight squares, 0..7, or 8 for none of them.
void answer_step(App& app, int place);

// screen_field.cpp
void lay_field(App& app);   // the patches of the present step
void draw_field(App& app);  // into the window that is being drawn, and what is tapped there

// screen_result.cpp
void draw_screen_section(App& app);  // on the look leaf
void draw_check_result(App& app);
void draw_true_size(App& app);  // what is known of it, and the way to measure it
Words grade_words(screen::Grade grade);
Words grade_help(screen::Grade grade);
screen::Verdict screen_verdict(const App& app);

}  // namespace proofleaf::shell
