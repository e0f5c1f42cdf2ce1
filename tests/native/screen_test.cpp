// A screen checked by eye: simulated screens of known response and cast, looked at by a simulated
// observer. What an observer can tell comes from DICOM PS3.14, the curve of a standard screen from
// IEC 61966-2-1; the share a screen cannot show is counted once more through LittleCMS.
#include <cmath>
#include <random>

#include "base/files.h"
#include "colour/lcms.h"
#include "doctest.h"
#include "job/work.h"
#include "proof/view.h"
#include "screen/check_json.h"
#include "screen/compensation.h"
#include "screen/unshown.h"

using namespace proofleaf;
using namespace proofleaf::screen;

namespace {

// The luminance [cd/m2] of the j-th just noticeable difference, DICOM PS3.14, 7.1 (coefficients
// from memory, held against two values of its table below).
double gsdf(double j) {
  const double x = std::log(j);
  const double above = -1.3011877 + 8.0242636e-2 * x + 1.3646699e-1 * x * x -
                       2.5468404e-2 * std::pow(x, 3) + 1.3635334e-3 * std::pow(x, 4);
  const double below = 1 - 2.5840191e-2 * x - 1.0320229e-1 * x * x + 2.8745620e-2 * std::pow(x, 3) -
                       3.1978977e-3 * std::pow(x, 4) + 1.2992634e-4 * std::pow(x, 5);
  return std::pow(10, above / below);
}

// One just noticeable difference at that luminance [cd/m2].
double just_noticeable(double luminance) {
  double low = 1, high = 1022;
  for (int turn = 0; turn < 40; ++turn) {
    const double middle = (low + high) / 2;
    (gsdf(middle) < luminance ? low : high) = middle;
  }
  return gsdf(low + 1) - gsdf(low);
}

// A screen of 160 cd/m2 with its three exponents, a black that is not quite black, and gains that
// give it a cast. Parts of the white's luminance: the sRGB primaries' (IEC 61966-2-1).
struct Simulated {
  std::array<double, 3> exponent{2.2, 2.2, 2.2};
  std::array<double, 3> gain{1, 1, 1};
  bool as_standard = false;  // the curve of IEC 61966-2-1 instead
  double curve(size_t c, double code) const {
    return as_standard ? srgb_decode(code) : std::pow(code, exponent[c]);
  }
  double luminance(size_t c, double light) const {
    constexpr std::array<double, 3> kPart{0.2126, 0.7152, 0.0722};
    return 160 * (kPart[c] * gain[c] * light + 0.0005);
  }
};

// Stops at a whole code anywhere within one just noticeable difference of the true match.
ToneAnswers observe(const Simulated& screen, size_t c, std::mt19937& random) {
  std::uniform_real_distribution<double> within(-1, 1);
  ToneAnswers answers{};
  for (size_t i = 0; i < kToneSteps; ++i) {
    const ToneStep& step = kTonePlan[i];
    const double bright =
        step.bright < 0 ? 1 : screen.curve(c, answers[size_t(step.bright)] / 255.0);
    const double light = step.pattern.duty() * bright;
    const double luminance = screen.luminance(c, light);
    const double seen = luminance + within(random) * just_noticeable(luminance);
    const double part =
        (seen - screen.luminance(c, 0)) / (screen.luminance(c, 1) - screen.luminance(c, 0));
    int best = 1;
    for (int code = 1; code < 255; ++code)
      if (std::abs(screen.curve(c, code / 255.0) - part) <
          std::abs(screen.curve(c, best / 255.0) - part))
        best = code;
    answers[i] = best;
  }
  return answers;
}

// XYZ of what a screen shows for codes, its white of sRGB's primaries times its gains.
XYZ shown(const Simulated& screen, const ScreenEncoder& encoder, std::array<double, 3> codes) {
  for (size_t c = 0; c < 3; ++c)
    codes[c] = srgb_encode(screen.gain[c] * screen.curve(c, std::clamp(codes[c], 0.0, 1.0)));
  return encoder.decode(codes);
}

// Moves the grey, in steps of half a unit, until it has the tint of a sheet with the standard's
// white: that is, until the screen shows equal parts of its primaries' light.
Neutral match_paper(const Simulated& screen, const ScreenEncoder& encoder) {
  Neutral best;
  double least = 1e9;
  for (double a = -15; a <= 15; a += 0.5)
    for (double b = -30; b <= 30; b += 0.5) {
      const auto codes = neutral_codes({a, b}, Screen::srgb);
      const Lab seen = lab_from_xyz(
          shown(screen, encoder, {codes[0] / 255.0, codes[1] / 255.0, codes[2] / 255.0}));
      if (std::hypot(seen.a, seen.b) < least) {
        least = std::hypot(seen.a, seen.b);
        best = {a, b};
      }
    }
  return best;
}

Answers looked_at(const Simulated& screen, unsigned seed, bool with_neutral) {
  std::mt19937 random(seed);
  Answers answers;
  answers.tint = Tint::off;
  answers.rows = Rows::even;
  answers.first_dark = 4;
  answers.last_light = 253;
  for (size_t c = 0; c < 3; ++c) answers.tone[c] = observe(screen, c, random);
  if (with_neutral) answers.neutral = match_paper(screen, ScreenEncoder::srgb());
  answers.turning = Turning::steady;
  answers.white = White::alike;
  return answers;
}

Platform good_platform() {
  Platform platform;
  platform.gamut = Range::srgb;
  return platform;
}

const Reason& reason(const Verdict& verdict, Topic topic) {
  for (const Reason& each : verdict.reasons)
    if (each.topic == topic) return each;
  FAIL("no reason of that topic");
  return verdict.reasons.front();
}

Paper demo_paper() {
  const std::string path = std::string(REPOSITORY) + "/demo-images/papers/tarnsea-baryta.icc";
  return read_paper(read_file(path, 64u << 20).take(), path).take();
}

std::shared_ptr<ProofChain> demo_chain(const char* master = "srgb") {
  return ProofChain::make(standard_profile(master).take(), demo_paper(), {}, {}).take();
}

std::vector<uint16_t> colour_grid(int side) {
  std::vector<uint16_t> rgb;
  for (int i = 0; i < side * side * side; ++i)
    for (int step : {side * side, side, 1})
      rgb.push_back(uint16_t(i / step % side * 65535 / (side - 1)));
  return rgb;
}

// Mean dE00 of what the screen shows of a proof from what the proof means, relative to the screen's
// own white: an eye adapts to how bright it is.
double mean_error(const Simulated& screen, const Cube& drawn, const Cube& meant) {
  const ScreenEncoder encoder = ScreenEncoder::srgb();
  const std::vector<uint16_t> rgb = colour_grid(9);
  std::vector<uint8_t> ours(rgb.size() / 3 * 4);
  std::vector<uint16_t> right(rgb.size() / 3 * 4);
  proof_to_screen8(drawn, rgb, ours);
  apply_cube(meant, rgb, right);
  const Cube& white_of = drawn;
  std::vector<uint16_t> white{65535, 65535, 65535};
  std::vector<uint8_t> white_drawn(4);
  std::vector<uint16_t> white_meant(4);
  proof_to_screen8(white_of, white, white_drawn);
  apply_cube(meant, white, white_meant);
  const auto meant_xyz = [&](const uint16_t* lanes) {
    std::array<double, 3> codes{};
    for (size_t c = 0; c < 3; ++c) codes[c] = std::clamp((lanes[c] / 128.0 - 128) / 255, 0.0, 1.0);
    return encoder.decode(codes);
  };
  const auto shown_xyz = [&](const uint8_t* codes) {
    return shown(screen, encoder, {codes[0] / 255.0, codes[1] / 255.0, codes[2] / 255.0});
  };
  const double scale = meant_xyz(white_meant.data()).y / shown_xyz(white_drawn.data()).y;
  double sum = 0;
  for (size_t i = 0; i < rgb.size() / 3; ++i) {
    XYZ seen = shown_xyz(&ours[i * 4]);
    seen = {seen.x * scale, seen.y * scale, seen.z * scale};
    sum += delta_e_2000(lab_from_xyz(seen), lab_from_xyz(meant_xyz(&right[i * 4])));
  }
  return sum / double(rgb.size() / 3);
}

}  // namespace

TEST_CASE("screen: the observer's steps are those of DICOM PS3.14") {
  // Its table begins at 0.05 cd/m2 and ends, at 1023, with 3993.4 (annex B, from memory).
  CHECK(gsdf(1) == doctest::Approx(0.05).epsilon(0.002));
  CHECK(gsdf(1023) == doctest::Approx(3993.4).epsilon(0.002));
  CHECK(just_noticeable(100) / 100 == doctest::Approx(0.0077).epsilon(0.1));
}

TEST_CASE("screen: the plan asks for what it says") {
  for (const ToneStep& step : kTonePlan) {
    const double bright = step.bright < 0 ? 1 : kTonePlan[size_t(step.bright)].light;
    CHECK(step.light == doctest::Approx(step.pattern.duty() * bright));
    CHECK(step.pattern.rows <= 4);  // coarser rows are seen as rows
  }
  CHECK(std::is_sorted(kDarkSteps.begin(), kDarkSteps.end()));
  CHECK(std::is_sorted(kLightSteps.rbegin(), kLightSteps.rend()));
  CHECK(kDarkSteps.back() < kNoDarkStep);
  CHECK(kLightSteps.back() > kNoLightStep);
  // A sheet in 500 lx is as bright as the better white of ISO 12646 (Lambert's law).
  CHECK(luminance_of_sheet(kAppraisalLux) == doctest::Approx(kBetterWhite).epsilon(0.01));
}

TEST_CASE("screen: an exponent of 1.8 to 2.6 is recovered within 0.05 in every channel") {
  double worst = 0, squares = 0, within = 0;
  int count = 0;
  for (int tenths = 18; tenths <= 26; ++tenths)
    for (unsigned seed = 0; seed < 60; ++seed) {
      Simulated screen;
      screen.exponent = {tenths / 10.0, (44 - tenths) / 10.0, tenths / 10.0};
      screen.gain = {0.8, 1, 0.9};
      std::mt19937 random(seed * 977 + unsigned(tenths));
      for (size_t c = 0; c < 3; ++c) {
        const auto found = Response::from(observe(screen, c, random));
        REQUIRE(found);
        const double off = std::abs(found.value().exponent() - screen.exponent[c]);
        worst = std::max(worst, off);
        squares += off * off;
        within += off <= 2 * found.value().uncertainty();
        ++count;
      }
    }
  MESSAGE("exponents off by ", std::sqrt(squares / count), " (root mean square), ", worst,
          " at most; ", 100 * within / count, " % within twice what is told");
  CHECK(worst < 0.05);
  CHECK(within / count > 0.9);
}

TEST_CASE("screen: sRGB's own curve comes out as needing nothing") {
  Simulated screen;
  screen.as_standard = true;
  const Answers answers = looked_at(screen, 1, true);
  const auto compensation = Compensation::from(answers, Screen::srgb);
  REQUIRE(compensation);
  for (size_t c = 0; c < 3; ++c) {
    // The exponent nearest to IEC 61966-2-1's curve is about 2.2 (its own annex, from memory).
    CHECK(Response::from(answers.tone[c]).value().exponent() == doctest::Approx(2.2).epsilon(0.04));
    for (double code = 0; code <= 1; code += 1 / 64.0)
      CHECK(std::abs(compensation.value().code(c, code) - code) < 2.5 / 255);
  }
  const Verdict verdict = judge(answers, good_platform(), false);
  CHECK(verdict.grade == Grade::colour);
}

TEST_CASE("screen: contradicting, missing and wild answers are refused") {
  CHECK(!Response::from({0, 137, 224, 72}));
  CHECK(!Response::from({186, 190, 224, 72}));
  CHECK(!Response::from({186, 136, 255, 72}));
  CHECK(!Response::from({250, 249, 252, 248}));
  CHECK(!Response::from({12, 4, 100, 1}));
  CHECK(Response::from({186, 136, 224, 72}));
}

TEST_CASE("screen: a response bends where its answers bend") {
  // An S-shaped screen: dark tones darker, light ones lighter than any exponent makes them.
  const auto bent = Response::from({180, 145, 205, 95});
  REQUIRE(bent);
  CHECK(!bent.value().one_curve());
  CHECK(bent.value().light(180 / 255.0) == doctest::Approx(0.5));
  CHECK(bent.value().light(145 / 255.0) == doctest::Approx(0.25));
  CHECK(bent.value().light(205 / 255.0) == doctest::Approx(0.75));
  CHECK(bent.value().light(95 / 255.0) == doctest::Approx(0.0625));
  CHECK(bent.value().light(0) == 0);
  CHECK(bent.value().light(1) == 1);
}

TEST_CASE("screen: compensation brings a proof's mean dE00 below 1 and to less than half") {
  const auto chain = demo_chain();
  const Cube plain = build_screen_cube(*chain, 33, [](double) { return true; }).take();
  const std::initializer_list<std::pair<const char*, Simulated>> kScreens{
      {"steep", {{2.6, 2.6, 2.6}, {1, 1, 1}}},
      {"flat", {{1.8, 1.8, 1.8}, {1, 1, 1}}},
      {"unlike", {{1.9, 2.2, 2.5}, {1, 1, 1}}},
      {"bluish", {{2.2, 2.3, 2.4}, {0.78, 0.9, 1}}},
  };
  for (const auto& [name, screen] : kScreens) {
    const Answers answers = looked_at(screen, 5, true);
    Cube drawn = plain;
    fold(Compensation::from(answers, Screen::srgb).value(), drawn);
    const double before = mean_error(screen, plain, plain),
                 after = mean_error(screen, drawn, plain);
    MESSAGE(std::string(name), ": mean dE00 ", before, " without, ", after,
            " with; neutral moved by a* ", answers.neutral->a, " b* ", answers.neutral->b);
    CHECK(after < before / 2);
    CHECK(after < 1);
  }
}

TEST_CASE("screen: the neutral is found, and told with the right sign") {
  // Too much blue light: the grey has to be moved towards yellow.
  Simulated screen;
  screen.gain = {0.85, 0.93, 1};
  const Neutral moved = match_paper(screen, ScreenEncoder::srgb());
  CHECK(moved.b > 3);
  Answers answers = looked_at(screen, 2, true);
  const auto compensation = Compensation::from(answers, Screen::srgb).take();
  // Gains that undo the screen's own, up to how bright all of it is.
  for (size_t c = 0; c < 3; ++c)
    CHECK(compensation.gain(c) * screen.gain[c] == doctest::Approx(0.85).epsilon(0.015));
  CHECK(reason(judge(answers, good_platform(), false), Topic::neutral).value ==
        doctest::Approx(std::hypot(moved.a, moved.b)));
}

TEST_CASE("screen: the price of a compensation is told") {
  Simulated screen;
  const Answers alike = looked_at(screen, 3, false);
  const Price none = price_of(Compensation::from(alike, Screen::srgb).value());
  CHECK(none.levels > 240);
  CHECK(none.white == doctest::Approx(1));
  screen.exponent = {1.4, 1.4, 1.4};
  screen.gain = {0.7, 0.85, 1};
  const Compensation strong = Compensation::from(looked_at(screen, 3, true), Screen::srgb).value();
  const Price price = price_of(strong);
  CHECK(price.levels < 230);
  int swallowed = 0;
  for (size_t c = 0; c < 3; ++c) {
    int here = 0;
    for (int code = 1; code < 256; ++code) here += strong.code(c, code / 255.0) < 0.5 / 255;
    swallowed = std::max(swallowed, here);
  }
  CHECK(price.swallowed == swallowed);
  // Light parts of sRGB's primaries, IEC 61966-2-1: 0.2126, 0.7152, 0.0722.
  CHECK(price.white ==
        doctest::Approx(0.2126 * strong.gain(0) + 0.7152 * strong.gain(1) + 0.0722 * strong.gain(2))
            .epsilon(0.02));
  CHECK(price.white < 0.9);
}

TEST_CASE("screen: folded cube and folded bytes agree, the fourth lane stays") {
  const auto chain = demo_chain();
  const Cube plain = build_screen_cube(*chain, 33, [](double) { return true; }).take();
  Simulated screen;
  screen.exponent = {1.9, 2.2, 2.5};
  const Compensation compensation =
      Compensation::from(looked_at(screen, 8, true), Screen::srgb).value();
  Cube folded = plain;
  fold(compensation, folded);
  const std::vector<uint16_t> rgb = colour_grid(17);
  std::vector<uint8_t> through_cube(rgb.size() / 3 * 4), through_bytes(through_cube.size());
  proof_to_screen8(folded, rgb, through_cube);
  proof_to_screen8(plain, rgb, through_bytes);
  std::vector<uint8_t> before = through_bytes;
  compensate(compensation, through_bytes);
  int most = 0;
  for (size_t i = 0; i < before.size(); ++i) {
    if (i % 4 == 3)
      CHECK(through_cube[i] == before[i]);
    else
      most = std::max(most, std::abs(through_cube[i] - through_bytes[i]));
  }
  MESSAGE("cube and bytes at most ", most, " codes apart");
  CHECK(most <= 3);
}

TEST_CASE("screen: the grade follows its worst reason") {
  Simulated screen;
  Answers answers = looked_at(screen, 4, false);
  answers.neutral = Neutral{0.5, -1};
  CHECK(judge(answers, good_platform(), false).grade == Grade::colour);
  CHECK(judge({}, good_platform(), false).grade == Grade::unknown);

  Answers tinted = answers;
  tinted.tint = Tint::on;
  const Verdict worst = judge(tinted, good_platform(), false);
  CHECK(worst.grade == Grade::composition);
  CHECK(worst.reasons.front().topic == Topic::tint);

  Platform inverted = good_platform();
  inverted.inverted = true;
  CHECK(judge(answers, inverted, false).grade == Grade::composition);

  Answers dull = answers;
  dull.first_dark = 12;
  CHECK(judge(dull, good_platform(), false).grade == Grade::tone);
  dull.first_dark = kNoDarkStep;
  CHECK(judge(dull, good_platform(), false).grade == Grade::composition);

  screen.exponent = {2.6, 2.6, 2.6};
  Answers steep = looked_at(screen, 4, false);
  steep.neutral = Neutral{0, 0};
  CHECK(judge(steep, good_platform(), false).grade == Grade::tone);
  const Verdict corrected = judge(steep, good_platform(), true);
  CHECK(corrected.grade == Grade::colour);
  CHECK(reason(corrected, Topic::tone).corrected);

  Answers open = answers;
  open.neutral.reset();
  CHECK(judge(open, good_platform(), false).grade == Grade::tone);
  CHECK(!reason(judge(open, good_platform(), false), Topic::neutral).answered);
}

TEST_CASE("screen: the share that cannot be shown is LittleCMS' own count") {
  const auto chain = demo_chain("romm");
  const Cube cube = build_screen_cube(*chain, 65, [](double) { return true; }).take();
  const std::vector<uint16_t> rgb = colour_grid(21);
  const ShownTones tones{70, 215};
  const Unshown found = unshown(cube, Screen::srgb, tones, rgb, 1).value();

  // The exact chain's XYZ on paper, to sRGB and back in float through LittleCMS, cut off at 0
  // and 1.
  const Profile srgb = standard_profile("srgb").take();
  const cmsHPROFILE connection = cmsCreateLab4Profile(nullptr);
  const Transform to_lab(cmsCreateTransform(srgb.handle(), TYPE_RGB_DBL, connection, TYPE_Lab_DBL,
                                            INTENT_RELATIVE_COLORIMETRIC,
                                            cmsFLAGS_NOOPTIMIZE | cmsFLAGS_NOCACHE));
  cmsCloseProfile(connection);
  double beyond = 0, dark = 0, light = 0, any = 0;
  const size_t count = rgb.size() / 3;
  for (size_t i = 0; i < count; ++i) {
    const ProofPoint point = chain->point(float(rgb[i * 3]) / 65535, float(rgb[i * 3 + 1]) / 65535,
                                          float(rgb[i * 3 + 2]) / 65535);
    std::array<double, 3> drawn{};
    for (size_t c = 0; c < 3; ++c) drawn[c] = std::clamp(point.screen[c], 0.0, 1.0);
    cmsCIELab lab;
    cmsDoTransform(to_lab.get(), drawn.data(), &lab, 1);
    const cmsCIELab wanted{point.on_paper.l, point.on_paper.a, point.on_paper.b};
    const bool is_beyond = cmsCIE2000DeltaE(&wanted, &lab, 1, 1, 1) >= 1;
    const long high = std::lround(255 * *std::max_element(drawn.begin(), drawn.end()));
    const long low = std::lround(255 * *std::min_element(drawn.begin(), drawn.end()));
    const bool is_dark = high > 0 && high < tones.first_dark,
               is_light = low < 255 && low > tones.last_light;
    beyond += is_beyond;
    dark += is_dark;
    light += is_light;
    any += is_beyond || is_dark || is_light;
  }
  MESSAGE("beyond sRGB ", found.beyond, " and ", beyond / double(count), "; dark ", found.dark,
          " and ", dark / double(count), "; light ", found.light, " and ", light / double(count));
  CHECK(found.beyond > 0.05);
  CHECK(found.dark > 0.001);
  CHECK(found.light > 0.001);
  CHECK(found.beyond == doctest::Approx(beyond / double(count)).epsilon(0.02));
  CHECK(found.dark == doctest::Approx(dark / double(count)).epsilon(0.05));
  CHECK(found.light == doctest::Approx(light / double(count)).epsilon(0.05));
  CHECK(found.any == doctest::Approx(any / double(count)).epsilon(0.02));
  // A wider screen shows more of it.
  const auto wide = ProofChain::make(standard_profile("romm").take(), demo_paper(), {},
                                     {true, true, Screen::display_p3})
                        .take();
  const Cube wide_cube = build_screen_cube(*wide, 65, [](double) { return true; }).take();
  CHECK(unshown(wide_cube, Screen::display_p3, {}, rgb, 1).value().beyond < found.beyond / 2);
  CHECK(unshown(cube, Screen::srgb, tones, {}, 1).value().any == 0);
}

TEST_CASE("screen: what is kept comes back; what is damaged is refused") {
  Simulated screen;
  KeptCheck check{looked_at(screen, 6, true), good_platform(), "2026-11-26", true};
  check.platform.pixel_ratio = 1.5;
  const std::string text = check_to_text(check);
  const auto back = check_from_text(text);
  REQUIRE(back);
  CHECK(back.value().answers == check.answers);
  CHECK(back.value().platform == check.platform);
  CHECK(back.value().made == "2026-11-26");
  CHECK(back.value().correct);

  for (size_t end = 0; end + 1 < text.size(); ++end) CHECK(!check_from_text(text.substr(0, end)));
  CHECK(!check_from_text(std::string(10000, '[')));
  const auto changed = [&](auto&& change) {
    Json json = parse_json(text);
    change(json);
    return check_from_text(dump_json(json));
  };
  CHECK(!changed([](Json& j) { j["proofleaf_screen"] = 2; }));
  CHECK(!changed([](Json& j) { j["answers"]["tint"] = 9; }));
  CHECK(!changed([](Json& j) { j["answers"]["tint"] = "off"; }));
  CHECK(!changed([](Json& j) { j["answers"]["first_dark"] = -3; }));
  CHECK(!changed([](Json& j) { j["answers"]["last_light"] = 3; }));
  CHECK(!changed([](Json& j) { j["answers"]["tone"][1][2] = 4000; }));
  CHECK(!changed([](Json& j) { j["answers"]["tone"][1] = {200, 190, 180, 170}; }));
  CHECK(!changed([](Json& j) { j["answers"]["tone"].erase(2); }));
  CHECK(!changed([](Json& j) { j["answers"]["neutral"]["a"] = 1e9; }));
  CHECK(!changed([](Json& j) { j["answers"].erase("white"); }));
  // Without comparisons there is nothing to correct by.
  const auto none = changed([](Json& j) { j["answers"]["tone"][0] = {0, 0, 0, 0}; });
  REQUIRE(none);
  CHECK(!none.value().correct);
}

TEST_CASE(
    "screen: a cube asked for through a check is the folded one, and bad answers are refused") {
  const auto profile = standard_profile("srgb").take();
  WorkFiles files;
  files.profile = std::make_shared<MemorySource>("srgb.icc", profile.bytes());
  Simulated screen;
  screen.exponent = {1.9, 2.2, 2.5};
  const Answers answers = looked_at(screen, 7, true);
  const auto cube_for = [&](Json request) {
    request["op"] = "cube";
    request["grid"] = 9;
    return perform(dump_json(request), files, [](double) { return true; });
  };
  const auto plain = cube_for({{"screen", "srgb"}});
  const auto folded = cube_for({{"screen", "srgb"}, {"screen_answers", json_of(answers)}});
  REQUIRE(plain);
  REQUIRE(folded);
  Cube right = unpack_cube(plain.value().buffers[0].bytes).take();
  fold(Compensation::from(answers, Screen::srgb).value(), right);
  CHECK(pack_cube(right) == folded.value().buffers[0].bytes);
  CHECK(!cube_for({{"screen_answers", json_of(Answers{})}}));
  CHECK(!cube_for({{"screen_answers", "all of them"}}));
}
