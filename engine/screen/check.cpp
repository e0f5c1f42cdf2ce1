#include "screen/check.h"

#include <algorithm>
#include <cmath>

#include "proof/view.h"

namespace proofleaf::screen {
namespace {

// Common practice, no source, unless said.
constexpr int kDarkFine = 8, kDarkFair = 16;        // codes; sRGB's 8 has an L* of 2.2
constexpr int kLightFine = 251, kLightFair = 245;   // codes
constexpr double kToneFine = 3, kToneFair = 8;      // [L*] an exponent off by 0.2, by 0.5
constexpr double kGreyFine = 3, kGreyFair = 8;      // [C*]
constexpr double kNeutralFine = 5;                  // [C*] the eye settles on less
constexpr double kDarkest = 0.1, kLightest = 0.95;  // codes between which tones are judged

Grade below(double value, double fine, double fair) {
  return value <= fine ? Grade::colour : value <= fair ? Grade::tone : Grade::composition;
}

Reason open(Topic topic, Grade allows) { return {topic, allows, false, false, 0}; }

Reason tint_reason(Tint tint) {
  if (tint == Tint::unanswered || tint == Tint::unsure) return open(Topic::tint, Grade::tone);
  return {Topic::tint, tint == Tint::on ? Grade::composition : Grade::colour};
}

Reason turning_reason(Turning turning) {
  if (turning == Turning::unanswered) return open(Topic::turning, Grade::tone);
  return {Topic::turning, turning == Turning::much ? Grade::composition : Grade::colour, true,
          false, turning == Turning::steady ? 0.0 : 1.0};
}

Reason white_reason(White white) {
  if (white == White::unanswered) return open(Topic::white, Grade::tone);
  const double side = white == White::darker ? -1 : white == White::lighter ? 1 : 0;
  return {Topic::white, side == 0 ? Grade::colour : Grade::tone, true, false, side};
}

Reason rows_reason(Rows rows) {
  if (rows == Rows::unanswered) return open(Topic::rows, Grade::tone);
  return {Topic::rows, rows == Rows::even ? Grade::colour : Grade::composition};
}

void add_steps(const Answers& answers, std::vector<Reason>& reasons) {
  if (answers.first_dark == 0)
    reasons.push_back(open(Topic::dark, Grade::composition));
  else
    reasons.push_back({Topic::dark, below(answers.first_dark, kDarkFine, kDarkFair), true, false,
                       double(answers.first_dark)});
  if (answers.last_light == 0)
    reasons.push_back(open(Topic::light, Grade::composition));
  else
    reasons.push_back({Topic::light, below(-answers.last_light, -kLightFine, -kLightFair), true,
                       false, double(answers.last_light)});
}

void add_tones(const Answers& answers, bool corrected, std::vector<Reason>& reasons) {
  const auto responses = responses_of(answers);
  if (!responses) return reasons.push_back(open(Topic::tone_unknown, Grade::composition));
  const ToneError error = tone_error(responses.value());
  for (const auto& [topic, value, fine, fair] :
       {std::tuple{Topic::tone, error.lightness, kToneFine, kToneFair},
        std::tuple{Topic::grey, error.chroma, kGreyFine, kGreyFair}}) {
    const Grade by_itself = below(value, fine, fair);
    reasons.push_back({topic, corrected ? Grade::colour : by_itself, true,
                       corrected && by_itself != Grade::colour, value});
  }
}

Reason neutral_reason(const Answers& answers, bool corrected) {
  if (!answers.neutral) return open(Topic::neutral, Grade::tone);
  const double chroma = std::hypot(answers.neutral->a, answers.neutral->b);
  const bool off = chroma > kNeutralFine;
  return {Topic::neutral, off && !corrected ? Grade::tone : Grade::colour, true, off && corrected,
          chroma};
}

void add_platform(const Platform& platform, std::vector<Reason>& reasons) {
  if (platform.inverted) reasons.push_back({Topic::inverted, Grade::composition});
  if (platform.forced_colours) reasons.push_back({Topic::forced_colours, Grade::tone});
  if (platform.contrast) reasons.push_back({Topic::contrast, Grade::tone});
  if (!platform.whole_pixels) reasons.push_back({Topic::pixels, Grade::tone});
  if (platform.gamut == Range::unknown)
    reasons.push_back(open(Topic::gamut, Grade::tone));
  else
    reasons.push_back({Topic::gamut, Grade::colour});
}

bool nothing_answered(const Answers& answers) {
  Answers none;
  none.tint = answers.tint;
  return answers == none;
}

}  // namespace

std::array<int, 3> neutral_codes(const Neutral& neutral, Screen canvas) {
  const auto made = ScreenEncoder::make(canvas);
  const ScreenEncoder encoder = made ? made.value() : ScreenEncoder::srgb();
  const auto rgb = encoder.encode(xyz_from_lab({kNeutralL, neutral.a, neutral.b}));
  std::array<int, 3> codes{};
  for (size_t c = 0; c < 3; ++c) codes[c] = int(std::lround(255 * std::clamp(rgb[c], 0.0, 1.0)));
  return codes;
}

Result<std::array<Response, 3>> responses_of(const Answers& answers) {
  std::array<Response, 3> responses;
  for (size_t c = 0; c < 3; ++c) {
    auto found = Response::from(answers.tone[c]);
    if (!found) return found.error();
    responses[c] = found.take();
  }
  return responses;
}

// Greys in XYZ through sRGB's primaries; a wider canvas changes C* by little.
ToneError tone_error(const std::array<Response, 3>& responses) {
  const ScreenEncoder encoder = ScreenEncoder::srgb();
  ToneError error;
  for (double code = kDarkest; code <= kLightest + 1e-9; code += 0.05) {
    std::array<double, 3> shown{};
    for (size_t c = 0; c < 3; ++c) shown[c] = responses[c].shown(code);
    const Lab seen = lab_from_xyz(encoder.decode(shown));
    const Lab meant = lab_from_xyz(encoder.decode({code, code, code}));
    error.lightness = std::max(error.lightness, std::abs(seen.l - meant.l));
    error.chroma = std::max(error.chroma, std::hypot(seen.a - meant.a, seen.b - meant.b));
  }
  return error;
}

Verdict judge(const Answers& answers, const Platform& platform, bool corrected) {
  Verdict verdict;
  auto& reasons = verdict.reasons;
  reasons.push_back(tint_reason(answers.tint));
  reasons.push_back(rows_reason(answers.rows));
  add_steps(answers, reasons);
  add_tones(answers, corrected, reasons);
  reasons.push_back(neutral_reason(answers, corrected));
  reasons.push_back(turning_reason(answers.turning));
  reasons.push_back(white_reason(answers.white));
  add_platform(platform, reasons);
  std::stable_sort(reasons.begin(), reasons.end(),
                   [](const Reason& p, const Reason& q) { return p.allows < q.allows; });
  if (!nothing_answered(answers)) verdict.grade = reasons.front().allows;
  return verdict;
}

}  // namespace proofleaf::screen
