// The score's arithmetic, and papers put in order with words.
#include <cmath>

#include "doctest.h"
#include "rank/rank.h"

using namespace proofleaf;

TEST_CASE("the score is what its weights say") {
  PictureFacts facts;
  facts.accents.share = 0.005;
  facts.skin.share = 0.5;
  facts.neutrals.share = 0.05;
  Variant variant;
  variant.picture_mean = 2.5;
  variant.picture_p95 = 5;
  variant.tone_share = 0.9;
  variant.tone_gone = 0.02;
  variant.tone[0] = {20, 14, 0.7, 0.1, 0.05};
  variant.hue = Variant::Hue{5, 9, 1.5};
  variant.skin = Variant::Skin{2, 1};
  variant.neutral = Variant::Neutral{0.8, 0, 0};
  const ScoreWeights w;
  const Losses losses = losses_of(variant, 0.2, facts, w);
  CHECK(losses.colour == doctest::Approx(w.mean * 2.5 + w.p95 * 5));
  CHECK(losses.gamut == doctest::Approx(w.gamut * 0.2));
  // The shadows are half the area that counts in full.
  CHECK(losses.tone == doctest::Approx(w.tone * 0.1 + w.gone * 0.02 + w.worst_zone * 0.3 * 0.5));
  CHECK(losses.hue == doctest::Approx(w.hue * 1.5 * 0.5));
  CHECK(losses.skin == doctest::Approx(w.skin * 1));
  CHECK(losses.neutral == doctest::Approx(w.neutral * 0.8 * 0.5));
  const double points =
      losses.colour + losses.gamut + losses.tone + losses.hue + losses.skin + losses.neutral;
  CHECK(losses.score() == doctest::Approx(100 * std::exp(-points / 100)));
  CHECK(Losses{}.score() == 100);
  // kL = 2 halves a difference of lightness and leaves one of chroma alone.
  CHECK(picture_difference({50, 0, 0}, {54, 0, 0}) ==
        doctest::Approx(delta_e_2000({50, 0, 0}, {54, 0, 0}) / 2));
  CHECK(picture_difference({50, 20, 0}, {50, 25, 0}) ==
        doctest::Approx(delta_e_2000({50, 20, 0}, {50, 25, 0})));
}

TEST_CASE("ranking puts the best first, and says why") {
  auto made = [](const std::string& name, double mean, double shadows) {
    Judged judged;
    judged.paper = name;
    Variant variant;
    variant.mean = variant.picture_mean = mean;
    variant.tone[0] = {20, 20 * shadows, shadows, 0, 0.4};
    variant.tone_share = shadows;
    variant.losses = losses_of(variant, 0, {}, {});
    variant.score = variant.losses.score();
    judged.variants.push_back(variant);
    return judged;
  };
  const auto order = rank({made("Rough", 1, 0.5), made("Smooth", 1, 0.95), made("Twin", 1, 0.95)});
  REQUIRE(order.size() == 3);
  CHECK(order[0].index == 1);
  CHECK(order[1].index == 2);  // equal scores stay in the order given
  CHECK(order[1].equal);
  CHECK_FALSE(order[2].equal);
  CHECK(order[2].index == 0);
  CHECK(order[2].sentence == "Compared with Smooth, Rough keeps 9 fewer shadow steps.");
  CHECK(order[1].sentence == "Twin does this picture about as well as Smooth.");
  CHECK(rank({}).empty());
  CHECK(rank({Judged{}, made("Any", 1, 1)})[0].index == 1);
  const auto two = rank({made("Near", 1, 0.5), made("Far", 6, 0.9)});
  CHECK(two[0].sentence ==
        "Compared with Near, Far keeps 8 more shadow steps, but is on the whole further from the "
        "master (ΔE00 6.0 against 1.0).");
}
