// A check of a screen by eye: what was answered, what the browser tells, and what follows.
#pragma once

#include <optional>
#include <vector>

#include "proof/chain.h"
#include "screen/response.h"

namespace proofleaf::screen {

enum class Tint { unanswered, off, on, unsure };            // a night tint laid over the screen
enum class Rows { unanswered, even, uneven };               // how fine patterns look
enum class Turning { unanswered, steady, a_little, much };  // what moving the head does
enum class White { unanswered, darker, alike, lighter };    // the screen's beside a lit sheet

// How the grey of kNeutralL was moved until it had the paper's tint [L*a*b* D50].
struct Neutral {
  double a = 0, b = 0;
  bool operator==(const Neutral&) const = default;
};

struct Answers {
  Tint tint = Tint::unanswered;
  Rows rows = Rows::unanswered;
  int first_dark = 0;  // the first dark step that shows, its code; kNoDarkStep; 0: unanswered
  int last_light = 0;  // the same for the light ones
  std::array<ToneAnswers, 3> tone{};
  std::optional<Neutral> neutral;
  Turning turning = Turning::unanswered;
  White white = White::unanswered;
  bool operator==(const Answers&) const = default;
};

// What the browser says of the screen; it cannot tell a night tint.
enum class Range { unknown, srgb, p3, rec2020 };  // CSS Media Queries 5, color-gamut
struct Platform {
  Range gamut = Range::unknown;
  Screen canvas = Screen::srgb;  // the colour space the picture is really drawn in
  bool high_dynamic = false;     // dynamic-range: high
  bool forced_colours = false;   // forced-colors: active
  bool inverted = false;         // inverted-colors: inverted
  bool contrast = false;         // prefers-contrast: anything but no-preference
  double pixel_ratio = 1;        // device pixels to a CSS pixel
  bool whole_pixels = true;      // one pixel drawn is one of the screen's, as far as is known
  int width = 0, height = 0;     // of the screen [CSS pixels]; 0: not told
  bool operator==(const Platform&) const = default;
};

// The codes 0..255 of the grey moved by `neutral`, in that colour space; cut off at its ends.
std::array<int, 3> neutral_codes(const Neutral& neutral, Screen canvas);

// All three channels. Error: one of them has none, or an unsound one; see Response::from.
Result<std::array<Response, 3>> responses_of(const Answers& answers);

// What the screen is good for, the best last.
enum class Grade { unknown, composition, tone, colour };

enum class Topic {
  tint,
  inverted,
  forced_colours,
  contrast,
  rows,
  pixels,
  dark,
  light,
  tone_unknown,
  tone,
  grey,
  neutral,
  turning,
  white,
  gamut
};

// One thing that was looked at and how far it lets the screen be trusted.
struct Reason {
  Topic topic;
  Grade allows = Grade::colour;
  bool answered = true;    // else it is open yet
  bool corrected = false;  // the screen's own fault is made good while the proof is corrected
  double value = 0;        // dark, light: the code; tone: L* off at most; grey, neutral: C*
};

struct Verdict {
  Grade grade = Grade::unknown;
  std::vector<Reason> reasons;  // the worst first
};

// corrected: the proof is drawn through the compensation. Limits: where a standard gives none, they
// are common practice without a source; see check.cpp.
Verdict judge(const Answers& answers, const Platform& platform, bool corrected);

// Largest difference in L* between what the screen shows and what it is taken for, over greys of
// the three channels, and the chroma C* that a middle grey gets from their being unlike.
struct ToneError {
  double lightness = 0, chroma = 0;
};
ToneError tone_error(const std::array<Response, 3>& responses);

}  // namespace proofleaf::screen
