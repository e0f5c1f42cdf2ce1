#include "screen/check_json.h"

#include <algorithm>
#include <cmath>

#include "proof/words.h"

namespace proofleaf::screen {
namespace {

constexpr size_t kLongest = 4096;  // [bytes] of a kept check
constexpr int kVersion = 1;
constexpr const char* kRanges[] = {"unknown", "srgb", "p3", "rec2020"};

Error damaged() {
  return Error{"What was kept of the check of this screen is damaged; please make it anew."};
}

// A whole number within low..high into `value`; false where it is none.
template <class T>
bool read_whole(const Json* json, int low, int high, T& value) {
  if (json == nullptr || !json->is_number_integer()) return false;
  const auto number = json->get<int64_t>();
  if (number < low || number > high) return false;
  value = static_cast<T>(number);
  return true;
}

bool read_within(const Json* json, double most, double& value) {
  if (json == nullptr || !json->is_number()) return false;
  value = json->get<double>();
  return std::isfinite(value) && std::abs(value) <= most;
}

bool read_tone(const Json* json, std::array<ToneAnswers, 3>& tone) {
  if (json == nullptr || !json->is_array() || json->size() != 3) return false;
  for (size_t c = 0; c < 3; ++c) {
    const Json& channel = (*json)[c];
    if (!channel.is_array() || channel.size() != kToneSteps) return false;
    for (size_t i = 0; i < kToneSteps; ++i)
      if (!read_whole(&channel[i], 0, 254, tone[c][i])) return false;
    if (all_answered(tone[c]) && !Response::from(tone[c])) return false;
  }
  return true;
}

bool read_neutral(const Json* json, std::optional<Neutral>& neutral) {
  if (json == nullptr) return false;
  if (json->is_null()) return true;
  Neutral found;
  if (!read_within(member(*json, "a"), kMostA, found.a) ||
      !read_within(member(*json, "b"), kMostB, found.b))
    return false;
  neutral = found;
  return true;
}

}  // namespace

Json json_of(const Answers& answers) {
  Json neutral;
  if (answers.neutral) neutral = {{"a", answers.neutral->a}, {"b", answers.neutral->b}};
  return {{"tint", int(answers.tint)},
          {"rows", int(answers.rows)},
          {"first_dark", answers.first_dark},
          {"last_light", answers.last_light},
          {"tone", answers.tone},
          {"neutral", neutral},
          {"turning", int(answers.turning)},
          {"white", int(answers.white)}};
}

Result<Answers> answers_from_json(const Json& json) {
  Answers answers;
  const bool sound = read_whole(member(json, "tint"), 0, int(Tint::unsure), answers.tint) &&
                     read_whole(member(json, "rows"), 0, int(Rows::uneven), answers.rows) &&
                     read_whole(member(json, "first_dark"), 0, kNoDarkStep, answers.first_dark) &&
                     read_whole(member(json, "last_light"), 0, 254, answers.last_light) &&
                     (answers.last_light == 0 || answers.last_light >= kNoLightStep) &&
                     read_tone(member(json, "tone"), answers.tone) &&
                     read_neutral(member(json, "neutral"), answers.neutral) &&
                     read_whole(member(json, "turning"), 0, int(Turning::much), answers.turning) &&
                     read_whole(member(json, "white"), 0, int(White::lighter), answers.white);
  if (!sound) return damaged();
  return answers;
}

Json json_of(const Platform& platform) {
  return {{"gamut", kRanges[int(platform.gamut)]},
          {"canvas", word_for(platform.canvas)},
          {"high_dynamic", platform.high_dynamic},
          {"forced_colours", platform.forced_colours},
          {"inverted", platform.inverted},
          {"contrast", platform.contrast},
          {"pixel_ratio", platform.pixel_ratio},
          {"whole_pixels", platform.whole_pixels},
          {"width", platform.width},
          {"height", platform.height}};
}

Platform platform_from_json(const Json& json) {
  Platform platform;
  const std::string gamut = text_of(json, "gamut");
  for (int i = 0; i < 4; ++i)
    if (gamut == kRanges[i]) platform.gamut = Range(i);
  platform.canvas = screen_of(text_of(json, "canvas")).value_or(Screen::srgb);
  platform.high_dynamic = flag_of(json, "high_dynamic");
  platform.forced_colours = flag_of(json, "forced_colours");
  platform.inverted = flag_of(json, "inverted");
  platform.contrast = flag_of(json, "contrast");
  const double ratio = number_of(json, "pixel_ratio", 1);
  platform.pixel_ratio = ratio > 0.05 && ratio < 50 ? ratio : 1;
  platform.whole_pixels = flag_of(json, "whole_pixels", true);
  platform.width = int(whole_of(json, "width", 0, 0, 100000));
  platform.height = int(whole_of(json, "height", 0, 0, 100000));
  return platform;
}

std::string check_to_text(const KeptCheck& check) {
  return dump_json({{"proofleaf_screen", kVersion},
                    {"answers", json_of(check.answers)},
                    {"platform", json_of(check.platform)},
                    {"made", check.made},
                    {"correct", check.correct}});
}

Result<KeptCheck> check_from_text(const std::string& text) {
  if (text.size() > kLongest) return damaged();
  const Json json = parse_json(text);
  int version = 0;
  if (!read_whole(member(json, "proofleaf_screen"), kVersion, kVersion, version)) return damaged();
  const Json* answers = member(json, "answers");
  if (answers == nullptr) return damaged();
  auto read = answers_from_json(*answers);
  if (!read) return read.error();
  KeptCheck check{read.take(), {}, text_of(json, "made"), flag_of(json, "correct")};
  if (const Json* platform = member(json, "platform"))
    check.platform = platform_from_json(*platform);
  if (check.made.size() != 10) check.made.clear();
  // Nothing to correct by: as if it had not been asked for.
  check.correct = check.correct && responses_of(check.answers).ok();
  return check;
}

}  // namespace proofleaf::screen
