// Judging and ranking, against papers and pictures whose losses are known.
#include <algorithm>
#include <random>

#include "rank/judge.h"
#include "rank/lanes.h"
#include "rank_papers.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

Pixel grey(double l) {
  const double code = grey_code(l);
  return {code, code, code};
}

// Soft shapes of all tones and colours, with texture.
Pixel varied_scene(uint32_t x, uint32_t y) {
  const double light = 0.5 + 0.5 * std::sin(0.011 * x + 0.004 * y);
  const double hue = 0.02 * y + 0.5 * std::sin(0.013 * x);
  const double texture = 0.03 * std::sin(0.9 * x) * std::cos(0.7 * y);
  const double chroma = 0.3 * light * (1 - 0.7 * light);
  return {light + chroma * std::cos(hue) + texture, light + chroma * std::cos(hue + 2.1) + texture,
          light + chroma * std::cos(hue + 4.2) + texture};
}

TestPicture with_noise(TestPicture picture, double deviation, uint32_t seed) {
  std::mt19937 random(seed);
  std::normal_distribution<double> noise(0, deviation * 65535);
  for (uint16_t& sample : picture.rgb) {
    sample = static_cast<uint16_t>(std::lround(std::clamp(sample + noise(random), 0.0, 65535.0)));
  }
  return picture;
}

const Variant& with_compensation(const Judged& judged, bool compensated) {
  for (const Variant& variant : judged.variants) {
    if (variant.print == PrintIntent{Intent::relative, compensated}) return variant;
  }
  FAIL("no such variant");
  return judged.variants[0];
}

}  // namespace

TEST_CASE("a picture wholly inside the gamut loses nothing") {
  const TestPicture flat = picture_of("srgb", 60, 40, [](auto, auto) {
    return Pixel{0.55, 0.4, 0.35};
  });
  const TestPicture varied = picture_of("srgb", 300, 200, varied_scene);
  for (const TestPicture* picture : {&flat, &varied}) {
    const PictureFacts facts = facts_of(*picture);
    for (const char* space : {"srgb", "oprgb", "romm"}) {
      const Judged judged = judged_on(*picture, facts, space_paper(space)).judged;
      INFO(space);
      CHECK(judged.off_gamut == 0);
      CHECK(judged.best().mean < 0.1);
      CHECK(judged.best().tone_share > 0.99);
      CHECK(judged.best().score > 99);
      CHECK(judged.verdict == Verdict::good);
      CHECK(judged.off_gamut_boxes.empty());
    }
  }
}

TEST_CASE("the share off the gamut, and where, are those of a picture made for it") {
  // The left three tenths are the green of ROMM RGB, far outside sRGB; the rest is a grey.
  const TestPicture picture = picture_of("romm", 200, 100, [](auto x, auto) {
    return x < 60 ? Pixel{0.1, 0.9, 0.1} : Pixel{0.5, 0.5, 0.5};
  });
  const PictureFacts facts = facts_of(picture);
  const Judgement judgement = judged_on(picture, facts, space_paper("srgb"));
  const Judged& judged = judgement.judged;
  CHECK(judged.off_gamut == doctest::Approx(0.3));
  CHECK(judged.too_dark == 0);
  REQUIRE(judged.off_gamut_boxes.size() == 1);
  const Box& box = judged.off_gamut_boxes[0];
  CHECK(box.x == 0);
  CHECK(box.y == 0);
  CHECK(box.height == 1);
  CHECK(box.width == doctest::Approx(0.3).epsilon(0.06));
  const auto& map = judgement.pictures.off_gamut;
  REQUIRE(map.size() == size_t{kMapSide} * kMapSide);
  double sum = 0;
  for (const uint8_t part : map) sum += part / 255.0;
  CHECK(sum / double(map.size()) == doctest::Approx(0.3).epsilon(0.02));
  CHECK(map[0] == 255);
  CHECK(map[kMapSide - 1] == 0);
  // The difference map shows the same: nothing on the right, much on the left.
  const auto& difference = judgement.pictures.difference;
  const uint32_t width = judgement.pictures.difference_width;
  CHECK(difference.size() == size_t{width} * judgement.pictures.difference_height);
  CHECK(difference[width - 1] <= 1);
  CHECK(difference[0] > 30);
  CHECK(with_compensation(judged, true).hue.has_value());
}

TEST_CASE("known turns of hue and known casts are found") {
  const TestPicture colours = picture_of("srgb", 200, 120, [](auto x, auto y) {
    const double hue = 0.0314159 * x;
    const double chroma = 0.16 * y / 120;
    return Pixel{0.5 + chroma * std::cos(hue), 0.5 + chroma * std::cos(hue + 2.1),
                 0.5 + chroma * std::cos(hue + 4.2)};
  });
  const PictureFacts facts = facts_of(colours);
  REQUIRE(facts.accents.share > 0.01);
  for (double turn : {0.0, 10.0, 25.0}) {
    const Judged judged = judged_on(colours, facts, test_paper({0, turn, 0})).judged;
    const Variant& variant = with_compensation(judged, false);
    REQUIRE(variant.hue.has_value());
    INFO("turn " << turn << " found " << variant.hue->mean);
    CHECK(std::abs(variant.hue->mean - turn) < 0.7);
  }
  REQUIRE(facts.neutrals.share > 0.01);
  for (double cast : {0.0, 2.0, 5.0}) {
    const Judged judged = judged_on(colours, facts, test_paper({0, 0, cast})).judged;
    const Variant& variant = with_compensation(judged, false);
    REQUIRE(variant.neutral.has_value());
    CHECK(std::abs(variant.neutral->b - cast) < 0.3);
    CHECK(std::abs(variant.neutral->a) < 0.3);
  }
}

TEST_CASE("greys alone have no accents and no skin") {
  const TestPicture ramp = picture_of("srgb", 256, 32, [](auto x, auto) { return grey(x / 2.55); });
  const PictureFacts facts = facts_of(ramp);
  const Judged judged = judged_on(ramp, facts, test_paper({10, 0, 0})).judged;
  CHECK_FALSE(judged.best().hue.has_value());
  CHECK_FALSE(judged.best().skin.has_value());
  CHECK(judged.best().neutral.has_value());
  // L* below the paper's black of 10: the first tenth of an even ramp, less the step of tolerance.
  CHECK(judged.too_dark == doctest::Approx(0.09).epsilon(0.1));
}

TEST_CASE("a paper with a lighter black never keeps more shadow steps") {
  const TestPicture dark = picture_of("srgb", 320, 240, [](auto x, auto y) {
    return grey(35.0 * x / 320 + 2.5 * std::sin(0.5 * y) * std::sin(0.4 * x) + 2.5);
  });
  const TestPicture whole = picture_of("srgb", 320, 240, varied_scene);
  for (const TestPicture* picture : {&dark, &whole}) {
    const PictureFacts facts = facts_of(*picture);
    for (const bool compensated : {true, false}) {
      double last = 1e9, last_score = 1e9, before_all = 0;
      for (double black : {0.0, 4.0, 8.0, 12.0, 16.0, 22.0, 30.0}) {
        const Judged judged = judged_on(*picture, facts, test_paper({black, 0, 0})).judged;
        const Variant& variant = with_compensation(judged, compensated);
        INFO("black " << black << " kept " << variant.tone[0].kept << " before " << last);
        CHECK(variant.tone[0].kept <= last + 0.02);
        CHECK(variant.score <= last_score + 0.1);
        last = variant.tone[0].kept;
        if (black == 0) before_all = 0.8 * last;
        last_score = variant.score;
      }
      CHECK(last < before_all);
    }
  }
}

TEST_CASE("without compensation deep shadows are gone, with it they are flatter") {
  // Texture of +-2 L* around 6 on a paper whose black is 14: nothing of it is left when clipped.
  const TestPicture deep = picture_of("srgb", 128, 128, [](auto x, auto y) {
    return grey(6 + 2 * std::sin(1.1 * x) * std::sin(0.9 * y));
  });
  const Judged judged = judged_on(deep, facts_of(deep), test_paper({14, 0, 0})).judged;
  const Variant &with = with_compensation(judged, true),
                &without = with_compensation(judged, false);
  CHECK(without.tone_share < 0.02);
  CHECK(without.tone_gone > 0.95);
  CHECK(with.tone_share > without.tone_share);
  CHECK(judged.too_dark == 1);
  CHECK(judged.best().print.black_point_compensation);
}

TEST_CASE("the quick way agrees with the exact chain colour by colour") {
  // LittleCMS' own evaluation of single colours through ProofChain, as the judge.
  const TestPicture picture = picture_at(kDemo + "saltings.png");
  const PictureFacts facts = facts_of(picture);
  for (const std::string& file : {kDemo + "papers/quillmoor-cotton-smooth.icc", kCmykProfile}) {
    const Paper paper = paper_at(file);
    const Judged judged = judged_on(picture, facts, paper).judged;
    for (const Variant& variant : judged.variants) {
      auto chain =
          ProofChain::make(picture.master, paper, variant.print, {false, true, Screen::srgb});
      REQUIRE(chain);
      std::vector<float> rgb;
      for (size_t i = 0; i + 2 < facts.colour.rgb.size(); i += 3 * 31) {
        for (size_t c = 0; c < 3; ++c) rgb.push_back(facts.colour.rgb[i + c] / 65535.0f);
      }
      std::vector<ProofPoint> points(rgb.size() / 3);
      chain.value()->points(rgb, points);
      std::vector<double> exact;
      double mean = 0;
      for (const ProofPoint& point : points) {
        exact.push_back(point.delta_e);
        mean += point.delta_e / double(points.size());
      }
      std::sort(exact.begin(), exact.end());
      INFO(file << " exact mean " << mean << ", 95 % " << exact[exact.size() * 95 / 100]
                << "; quick " << variant.mean << ", " << variant.p95);
      CHECK(std::abs(mean - variant.mean) < 0.1);
      CHECK(std::abs(exact[exact.size() * 95 / 100] - variant.p95) < 0.35);
    }
    // The share of area is that of the master's single pixels.
    std::vector<float> rgb;
    for (size_t i = 0; i + 2 < picture.rgb.size(); i += 3 * 11) {
      for (size_t c = 0; c < 3; ++c) rgb.push_back(picture.rgb[i + c] / 65535.0f);
    }
    std::vector<float> far(rgb.size() / 3);
    auto nearest = ProofChain::make(picture.master, paper, {Intent::relative, false}, {});
    REQUIRE(nearest);
    nearest.value()->off_gamut(rgb, far);
    const auto off = std::count_if(far.begin(), far.end(), [](float d) { return d > kOffGamut; });
    INFO(file << " exact share " << double(off) / double(far.size()) << ", quick "
              << judged.off_gamut);
    CHECK(std::abs(double(off) / double(far.size()) - judged.off_gamut) < 0.006);
  }
}

TEST_CASE("noise of 1 per cent leaves the order as it is") {
  std::vector<Paper> papers;
  for (const char* name :
       {"tarnsea-baryta", "owlbrook-pearl", "quillmoor-cotton-smooth", "plainside-office"}) {
    papers.push_back(paper_at(kDemo + "papers/" + name + ".icc"));
  }
  papers.push_back(paper_at(kCmykProfile));
  for (double black : {3.0, 9.0, 18.0}) papers.push_back(test_paper({black, 0, 0}));
  for (const char* space : {"srgb", "oprgb"}) papers.push_back(space_paper(space));
  std::vector<TestPicture> pictures{
      picture_at(kDemo + "saltings.png"), picture_at(kDemo + "stairwell.png"),
      picture_of("romm", 480, 320, varied_scene), picture_of("srgb", 480, 320, varied_scene)};
  auto judge_all = [&](const TestPicture& picture) {
    const PictureFacts facts = facts_of(picture);
    std::vector<Judged> judged;
    for (const Paper& paper : papers) judged.push_back(judged_on(picture, facts, paper).judged);
    return judged;
  };
  for (size_t p = 0; p < pictures.size(); ++p) {
    const auto plain = judge_all(pictures[p]);
    const auto order = rank(plain);
    for (uint32_t seed : {1u, 2u}) {
      const auto noisy = judge_all(with_noise(pictures[p], 0.01, seed));
      const auto noisy_order = rank(noisy);
      double largest = 0;
      for (size_t i = 0; i < papers.size(); ++i) {
        largest = std::max(largest, std::abs(noisy[i].best().score - plain[i].best().score));
      }
      MESSAGE("picture " << p << ": scores move by up to " << largest);
      // Papers may only change places where the ranking itself calls them equal.
      for (size_t i = 0; i < order.size(); ++i) {
        for (size_t j = i + 1; j < order.size(); ++j) {
          if (order[i].score - order[j].score < 1) continue;
          auto place = [&](size_t index) {
            return std::find_if(noisy_order.begin(), noisy_order.end(),
                                [&](const Standing& s) { return s.index == index; });
          };
          CHECK(place(order[i].index) < place(order[j].index));
        }
      }
    }
  }
}

TEST_CASE("facts pass between workers unharmed, and damaged ones are refused") {
  const TestPicture picture = picture_of("oprgb", 90, 70, varied_scene);
  const PictureFacts facts = facts_of(picture);
  const Bytes packed = pack_facts(facts);
  auto back = unpack_facts(packed);
  REQUIRE(back);
  CHECK(pack_facts(back.value()) == packed);
  CHECK(back.value().nodes == facts.nodes);
  CHECK(back.value().tone.rgb == facts.tone.rgb);
  CHECK(back.value().skin.share == facts.skin.share);
  for (size_t length = 0; length < packed.size(); length += 997) {
    CHECK_FALSE(unpack_facts(ByteView(packed).first(length)).ok());
  }
  std::mt19937 random(5);
  for (int round = 0; round < 300; ++round) {
    Bytes bad = packed;
    bad[random() % 100] = static_cast<uint8_t>(random());
    const auto opened = unpack_facts(bad);
    if (opened) judged_on(picture, opened.value(), space_paper("srgb"));
  }
}

TEST_CASE("facts want a picture of the size said and an RGB profile") {
  const TestPicture picture = picture_of("srgb", 20, 10, varied_scene);
  CHECK_FALSE(find_facts(picture.master, picture.rgb, 10, 10, {}).ok());
  CHECK_FALSE(find_facts(picture.master, {}, 0, 0, {}).ok());
  const Profile inks = Profile::open(file_bytes(kCmykProfile), "inks").take();
  CHECK_FALSE(find_facts(inks, picture.rgb, 20, 10, {}).ok());
  CHECK_FALSE(find_facts(picture.master, picture.rgb, 20, 10, [](double) { return false; }).ok());
  const PictureFacts facts = facts_of(picture);
  CHECK_FALSE(judge(picture.master, facts, master_tone(facts), space_paper("srgb"), {}, [](double) {
                return false;
              }).ok());
  for (const auto& [w, h] : {std::pair<uint32_t, uint32_t>{1, 1}, {1, 700}, {700, 1}, {2, 3}}) {
    const TestPicture small = picture_of("srgb", w, h, varied_scene);
    const Judgement judged = judged_on(small, facts_of(small), test_paper({8, 0, 0}));
    CHECK(judged.pictures.thumbnail.size() ==
          size_t{judged.pictures.thumbnail_width} * judged.pictures.thumbnail_height * 4);
  }
}

TEST_CASE("a picture of all colours at once is judged on a coarser cube") {
  std::mt19937 random(3);
  TestPicture noise = picture_of("romm", 400, 300, [](auto, auto) { return Pixel{}; });
  for (uint16_t& sample : noise.rgb) sample = static_cast<uint16_t>(random());
  const PictureFacts facts = facts_of(noise);
  CHECK(facts.nodes.size() <= 12000);
  CHECK(facts.grid == 17);
  const Judged judged = judged_on(noise, facts, space_paper("srgb")).judged;
  CHECK(judged.off_gamut > 0.3);
}

TEST_CASE("damaged papers are judged or refused with a sentence") {
  const TestPicture picture = picture_of("srgb", 40, 30, varied_scene);
  const PictureFacts facts = facts_of(picture);
  const Bytes good = file_bytes(kDemo + "papers/owlbrook-pearl.icc");
  std::mt19937 random(11);
  for (int round = 0; round < 80; ++round) {
    Bytes bad = good;
    const size_t reach = round % 2 ? 1400 : bad.size();
    for (int hit = 0; hit < (round % 2 ? 6 : 500); ++hit) {
      bad[132 + random() % (reach - 132)] = static_cast<uint8_t>(random());
    }
    const auto paper = read_paper(std::move(bad), "bad.icc");
    if (!paper) continue;
    const auto judged = judge(picture.master, facts, master_tone(facts), paper.value(), {}, {});
    if (judged) {
      CHECK(std::isfinite(judged.value().judged.best().score));
    } else {
      CHECK(judged.error().message.ends_with("."));
    }
  }
}
