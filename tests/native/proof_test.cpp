// The proof against LittleCMS' own chains, ISO 18619 and the accuracy that is promised.
#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>

#include "base/files.h"
#include "codec/master.h"
#include "colour/lcms.h"
#include "doctest.h"
#include "pictures.h"
#include "proof/cube_build.h"
#include "proof/device_cube.h"
#include "proof/view.h"
#include "raster/preview.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

Paper cmyk_paper() { return paper_at(kCmykProfile); }
Paper rgb_paper() { return paper_at(kDemo + "papers/tarnsea-baryta.icc"); }

// The same paper as a profile of 8-bit tables: LittleCMS rounds them.
Paper byte_paper() {
  const Profile profile =
      Profile::open(file_bytes(kDemo + "papers/tarnsea-baryta.icc"), "bytes").take();
  for (const auto tag : {cmsSigAToB0Tag, cmsSigAToB1Tag, cmsSigAToB2Tag, cmsSigBToA0Tag,
                         cmsSigBToA1Tag, cmsSigBToA2Tag, cmsSigGamutTag}) {
    cmsPipeline* table =
        cmsPipelineDup(static_cast<cmsPipeline*>(cmsReadTag(profile.handle(), tag)));
    REQUIRE(table != nullptr);
    cmsPipelineSetSaveAs8bitsFlag(table, TRUE);
    REQUIRE(cmsWriteTag(profile.handle(), tag, table));
    cmsPipelineFree(table);
  }
  cmsUInt32Number size = 0;
  REQUIRE(cmsSaveProfileToMem(profile.handle(), nullptr, &size));
  Bytes bytes(size);
  REQUIRE(cmsSaveProfileToMem(profile.handle(), bytes.data(), &size));
  return read_paper(std::move(bytes), "bytes.icc").take();
}

std::shared_ptr<ProofChain> chain_for(const Profile& master, const Paper& paper, PrintIntent print,
                                      ProofView view = {}) {
  auto chain = ProofChain::make(master, paper, print, view);
  REQUIRE(chain);
  return chain.take();
}

std::vector<float> colour_grid(int side) {
  std::vector<float> rgb;
  for (int i = 0; i < side * side * side; ++i) {
    for (int step : {side * side, side, 1}) rgb.push_back(float(i / step % side) / float(side - 1));
  }
  return rgb;
}

Lab screen_lab(const ScreenEncoder& screen, std::array<double, 3> rgb) {
  for (double& channel : rgb) channel = std::clamp(channel, 0.0, 1.0);
  return lab_from_xyz(screen.decode(rgb));
}

// LittleCMS' own chain master -> paper -> sRGB in float, for the views it knows.
std::vector<float> reference_screen(const Profile& master, const Paper& paper, PrintIntent print,
                                    cmsUInt32Number back_intent, bool back_bpc,
                                    const std::vector<float>& rgb, const char* screen = "srgb") {
  const Profile srgb = standard_profile(screen).take();
  cmsHPROFILE profiles[4] = {master.handle(), paper.profile.handle(), paper.profile.handle(),
                             srgb.handle()};
  const auto intent = static_cast<cmsUInt32Number>(print.intent);
  cmsBool bpc[4] = {print.black_point_compensation, print.black_point_compensation, back_bpc,
                    back_bpc};
  cmsUInt32Number intents[4] = {intent, intent, back_intent, back_intent};
  cmsFloat64Number adaptation[4] = {1, 1, 1, 1};
  const Transform transform(cmsCreateExtendedTransform(nullptr, 4, profiles, bpc, intents,
                                                       adaptation, nullptr, 0, TYPE_RGB_FLT,
                                                       TYPE_RGB_FLT, kExact));
  REQUIRE(transform);
  std::vector<float> out(rgb.size());
  cmsDoTransform(transform.get(), rgb.data(), out.data(),
                 static_cast<cmsUInt32Number>(rgb.size() / 3));
  return out;
}

struct Spread {
  double mean = 0, max = 0;
};
Spread spread(const std::vector<double>& errors) {
  return {std::accumulate(errors.begin(), errors.end(), 0.0) / double(errors.size()),
          *std::max_element(errors.begin(), errors.end())};
}

}  // namespace

TEST_CASE("the chain is LittleCMS' own four-profile chain, for each view it knows") {
  // LittleCMS 2.16 as the judge: absolute shows white and black, relative shows black only,
  // relative with black point compensation shows neither.
  struct Case {
    ProofView view;
    cmsUInt32Number back;
    bool back_bpc;
  };
  const std::vector<Case> cases{{{true, true, Screen::srgb}, INTENT_ABSOLUTE_COLORIMETRIC, false},
                                {{false, true, Screen::srgb}, INTENT_RELATIVE_COLORIMETRIC, false},
                                {{false, false, Screen::srgb}, INTENT_RELATIVE_COLORIMETRIC, true}};
  const Profile master = standard_profile("oprgb").take();
  const auto rgb = colour_grid(17);
  const auto screen = ScreenEncoder::make(Screen::srgb).take();
  for (const Paper& paper : {rgb_paper(), cmyk_paper()}) {
    for (int intent = 0; intent < 4; ++intent) {
      for (const bool compensate : {false, true}) {
        if (compensate && intent == 3) continue;
        const PrintIntent print{static_cast<Intent>(intent), compensate};
        for (const Case& c : cases) {
          std::vector<float> ours(rgb.size());
          chain_for(master, paper, print, c.view)->to_screen(rgb, ours);
          const auto theirs = reference_screen(master, paper, print, c.back, c.back_bpc, rgb);
          std::vector<double> errors(rgb.size() / 3);
          for (size_t i = 0; i < errors.size(); ++i) {
            errors[i] = delta_e_2000(
                screen_lab(screen, {ours[i * 3], ours[i * 3 + 1], ours[i * 3 + 2]}),
                screen_lab(screen, {theirs[i * 3], theirs[i * 3 + 1], theirs[i * 3 + 2]}));
          }
          INFO(paper.name << " intent " << intent << " bpc " << compensate << " back " << c.back
                          << " max " << spread(errors).max);
          CHECK(spread(errors).max < 0.1);
        }
      }
    }
  }
}

TEST_CASE("a Display P3 screen shows the same colours, by its own primaries") {
  const Profile master = standard_profile("romm").take();
  const auto rgb = colour_grid(9);
  const auto screen = ScreenEncoder::make(Screen::display_p3).take();
  const Paper paper = rgb_paper();
  std::vector<float> ours(rgb.size());
  chain_for(master, paper, {Intent::relative, true}, {true, true, Screen::display_p3})
      ->to_screen(rgb, ours);
  const auto theirs = reference_screen(master, paper, {Intent::relative, true},
                                       INTENT_ABSOLUTE_COLORIMETRIC, false, rgb, "p3");
  std::vector<double> errors(rgb.size() / 3);
  for (size_t i = 0; i < errors.size(); ++i) {
    errors[i] =
        delta_e_2000(screen_lab(screen, {ours[i * 3], ours[i * 3 + 1], ours[i * 3 + 2]}),
                     screen_lab(screen, {theirs[i * 3], theirs[i * 3 + 1], theirs[i * 3 + 2]}));
  }
  CHECK(spread(errors).max < 0.1);
}

TEST_CASE("the view's black is the linear XYZ scaling of ISO 18619") {
  // ISO 18619:2015: black to black, white to white, straight in each of X, Y, Z between.
  const XYZ black{0.02, 0.021, 0.017};
  const View view({false, false, Screen::srgb}, kD50, black);
  CHECK(view.shown(black).y == doctest::Approx(0).epsilon(1e-12));
  CHECK(view.shown(black).x == doctest::Approx(0).epsilon(1e-12));
  CHECK(view.shown(kD50).x == doctest::Approx(kD50.x));
  CHECK(view.shown(kD50).z == doctest::Approx(kD50.z));
  const XYZ middle{(black.x + kD50.x) / 2, (black.y + kD50.y) / 2, (black.z + kD50.z) / 2};
  CHECK(view.shown(middle).y == doctest::Approx(0.5));
}

TEST_CASE("paper white shown is the paper's white, hidden is the screen's") {
  const Profile master = standard_profile("srgb").take();
  const Paper paper = cmyk_paper();
  const auto shown = chain_for(master, paper, {}, {true, true, Screen::srgb})->point(1, 1, 1);
  CHECK(delta_e_2000(shown.on_paper, paper.white) < 0.3);
  const auto hidden = chain_for(master, paper, {}, {false, true, Screen::srgb})->point(1, 1, 1);
  CHECK(hidden.on_paper.l == doctest::Approx(100).epsilon(0.003));
  CHECK(hidden.screen[0] == doctest::Approx(1).epsilon(0.01));
  CHECK(hidden.off_gamut < 0.5);
  CHECK(hidden.ink < 2);
}

TEST_CASE("a colour beyond the paper says so, and what stops it") {
  const Profile master = standard_profile("romm").take();
  const auto chain = chain_for(master, cmyk_paper(), {});
  const auto green = chain->point(0, 1, 0);
  CHECK(green.off_gamut > 10);
  CHECK(green.clipped);
  const auto grey = chain->point(0.5f, 0.5f, 0.5f);
  CHECK(grey.off_gamut < 1.5);
  CHECK_FALSE(grey.clipped);
  CHECK(std::abs(grey.on_paper.l - grey.master.l) < 12);
}

namespace {

// A screen cube with the nodes around these colours alone, which is what they are made from; those
// of a whole one take a hundred times as long.
Cube cube_around(const ProofChain& chain, uint32_t grid, const std::vector<uint16_t>& rgb) {
  Cube cube = empty_cube(chain, grid, 4);
  const std::vector<float> levels = node_levels(cube.shaper, grid);
  std::vector<size_t> nodes;
  for (size_t i = 0; i < rgb.size(); i += 3) {
    for (size_t corner = 0; corner < 8; ++corner) {
      size_t node = 0;
      for (size_t c = 0; c < 3; ++c) {
        const size_t below = size_t{cube.shaper[rgb[i + c]]} * (grid - 1) / 65536;
        node = node * grid + below + (corner >> c & 1);
      }
      nodes.push_back(node);
    }
  }
  std::sort(nodes.begin(), nodes.end());
  nodes.erase(std::unique(nodes.begin(), nodes.end()), nodes.end());
  std::vector<float> colours, screen(nodes.size() * 3);
  for (size_t node : nodes)
    colours.insert(colours.end(),
                   {levels[node / grid / grid], levels[node / grid % grid], levels[node % grid]});
  chain.to_screen(colours, screen);
  std::vector<int16_t> lanes(nodes.size() * 4);
  put_screen_lanes(screen, lanes.data());
  for (size_t i = 0; i < nodes.size(); ++i)
    std::copy_n(&lanes[i * 4], 4, &cube.nodes[nodes[i] * 4]);
  return cube;
}

// CIEDE2000 on the screen between the cube and LittleCMS' float evaluation, for every colour of a
// set.
Spread cube_against_truth(const Profile& master, const Paper& paper, Intent intent,
                          const std::vector<uint16_t>& rgb, bool refined) {
  const auto screen = ScreenEncoder::make(Screen::srgb).take();
  const auto chain = chain_for(master, paper, {intent, true});
  Cube cube = refined ? build_screen_cube(*chain, kProofGrid, {}).take()
                      : cube_around(*chain, delivery_grid(chain->stepped()), rgb);
  if (refined) {
    const auto used = blocks_used(cube, rgb);
    MESSAGE(std::count(used.begin(), used.end(), 1) << " blocks refined");
    REQUIRE(refine_screen_cube(*chain, used, cube, {}).ok());
  }
  std::vector<uint16_t> codes(rgb.size() / 3 * 4);
  apply_cube(cube, rgb, codes);
  std::vector<float> in(rgb.size()), truth(rgb.size());
  std::transform(rgb.begin(), rgb.end(), in.begin(), [](uint16_t v) { return float(v) / 65535; });
  chain->to_screen(in, truth);
  std::vector<double> errors(rgb.size() / 3);
  for (size_t i = 0; i < errors.size(); ++i) {
    std::array<double, 3> ours{}, theirs{};
    for (size_t c = 0; c < 3; ++c) {
      ours[c] = (codes[i * 4 + c] / 128.0 - 128) / 255;
      theirs[c] = truth[i * 3 + c];
    }
    errors[i] = delta_e_2000(screen_lab(screen, ours), screen_lab(screen, theirs));
  }
  return spread(errors);
}

struct DemoPicture {
  Profile profile;
  std::vector<uint16_t> rgb;
};

DemoPicture demo_picture() {
  auto file = open_file(kDemo + "saltings.png");
  REQUIRE(file);
  auto master = open_master(file.take());
  REQUIRE(master);
  auto colour = master_colour(master.value()->info(), "saltings.png", "", {});
  REQUIRE(colour);
  auto rows = master.value()->open_rows();
  REQUIRE(rows);
  auto picture = shrink(*rows.value(), 3, {});
  REQUIRE(picture);
  return {colour.value().profile, picture.value().rgb};
}

DemoPicture in_srgb(const DemoPicture& picture) {
  DemoPicture out{standard_profile("srgb").take(), std::vector<uint16_t>(picture.rgb.size())};
  const Transform transform(cmsCreateTransform(picture.profile.handle(), TYPE_RGB_16,
                                               out.profile.handle(), TYPE_RGB_16,
                                               INTENT_RELATIVE_COLORIMETRIC, kExact));
  cmsDoTransform(transform.get(), picture.rgb.data(), out.rgb.data(),
                 static_cast<cmsUInt32Number>(out.rgb.size() / 3));
  return out;
}

}  // namespace

TEST_CASE("the cube keeps to the promised accuracy for every intent") {
  // The truth is LittleCMS' float evaluation; promised: max dE00 <= 0.5, mean <= 0.05, on a dense
  // set of colours (33 x 33 x 33, off the cube's nodes), in sRGB and ROMM RGB, and on a picture, in
  // sRGB and in its own ROMM RGB, on RGB papers with tables of 16 and of 8 bits and on a CMYK one.
  std::vector<uint16_t> dense;
  for (float v : colour_grid(33)) {
    dense.push_back(
        static_cast<uint16_t>(std::min(v * 65535.0f + (v < 1 ? 171.0f : 0.0f), 65535.0f)));
  }
  const DemoPicture wide = demo_picture(), narrow = in_srgb(wide);
  const Profile srgb = standard_profile("srgb").take(), romm = standard_profile("romm").take();
  const Paper rgb = rgb_paper(), bytes = byte_paper(), cmyk = cmyk_paper();
  const Paper matte = paper_at(kDemo + "papers/quillmoor-cotton-smooth.icc");
  struct Case {
    std::string name;
    const Profile& profile;
    const std::vector<uint16_t>& colours;
    const Paper& paper;
    bool refined;
  };
  const std::vector<Case> cases{
      {"dense set, RGB paper", srgb, dense, rgb, false},
      {"dense set in ROMM RGB, matte RGB paper", romm, dense, matte, false},
      {"dense set, 8-bit RGB paper", srgb, dense, bytes, false},
      {"dense set, CMYK paper", srgb, dense, cmyk, false},
      {"sRGB picture, RGB paper", srgb, narrow.rgb, rgb, true},
      {"sRGB picture, 8-bit RGB paper", srgb, narrow.rgb, bytes, true},
      {"sRGB picture, CMYK paper", srgb, narrow.rgb, cmyk, true},
      {"ROMM picture, RGB paper", wide.profile, wide.rgb, rgb, true},
      {"ROMM picture, 8-bit RGB paper", wide.profile, wide.rgb, bytes, true},
      {"ROMM picture, CMYK paper", wide.profile, wide.rgb, cmyk, true}};
  for (const Case& c : cases) {
    for (int intent = 0; intent < 4; ++intent) {
      const Spread found =
          cube_against_truth(c.profile, c.paper, static_cast<Intent>(intent), c.colours, c.refined);
      MESSAGE(c.name << ", intent " << intent << ": mean " << found.mean << ", max " << found.max);
      CHECK(found.mean <= 0.05);
      CHECK(found.max <= 0.5);
    }
  }
}

TEST_CASE("a master is on the screen what it is on a paper that is the screen") {
  // A master's cube goes straight to the screen's values; through the screen as a paper it comes to
  // the same, as LittleCMS' float chains do.
  for (const std::string screen : {"srgb", "p3"}) {
    for (const std::string space : {"srgb", "romm"}) {
      const Paper own = paper_from_profile(standard_profile(screen).take(), "screen").take();
      const auto chain =
          chain_for(standard_profile(space).take(), own, {Intent::relative, false},
                    {true, true, screen == "p3" ? Screen::display_p3 : Screen::srgb});
      const auto around = build_screen_cube(*chain, 17, {}),
                 straight = build_master_cube(*chain, 17, {});
      REQUIRE(around);
      REQUIRE(straight);
      double worst = 0;
      for (size_t i = 0; i < around.value().nodes.size(); ++i) {
        if (i % 4 == 3) continue;
        const int off = around.value().nodes[i] - straight.value().nodes[i];
        worst = std::max(worst, std::abs(off) / 128.0);
      }
      INFO(space << " on " << screen << ": " << worst << " of 255");
      CHECK(worst < 0.05);
      std::vector<uint16_t> white{65535, 65535, 65535}, lanes(4);
      apply_cube(straight.value(), white, lanes);
      CHECK(lanes[3] == 128 * 128);
    }
  }
  const auto inks = chain_for(standard_profile("srgb").take(), cmyk_paper(), {});
  CHECK_FALSE(build_master_cube(*inks, 17, {}).ok());
}

TEST_CASE("the fast kernel gives the plain one's values bit for bit") {
  const auto chain = chain_for(standard_profile("srgb").take(), rgb_paper(), {});
  std::mt19937 random(7);
  for (const uint32_t grid : {2u, 3u, 17u, 33u, 65u}) {
    auto cube = build_screen_cube(*chain, grid, {});
    REQUIRE(cube);
    std::vector<uint16_t> rgb(3 * 100003);
    for (auto& v : rgb) v = static_cast<uint16_t>(random());
    for (size_t i = 0; i < 3000; ++i) rgb[i] = i % 2 ? 65535 : 0;  // the corners
    std::vector<uint16_t> fast(rgb.size() / 3 * 4), plain(fast.size());
    apply_cube(cube.value(), rgb, fast);
    apply_cube_plain(cube.value(), rgb, plain);
    CHECK(fast == plain);
    std::vector<uint8_t> eight(fast.size()), expected(fast.size());
    proof_to_screen8(cube.value(), rgb, eight);
    for (size_t i = 0; i < plain.size(); ++i) {
      expected[i] =
          static_cast<uint8_t>(std::clamp(std::min((plain[i] + 64) / 128, 511) - 128, 0, 255));
    }
    size_t different = 0;
    for (size_t i = 0; i < eight.size(); ++i) different += eight[i] != expected[i];
    CHECK(different == 0);
  }
}

TEST_CASE("a cube hits its own nodes, and white and black exactly") {
  const auto chain = chain_for(standard_profile("oprgb").take(), cmyk_paper(), {});
  auto filled = DeviceCube::make(chain, 33);
  REQUIRE(filled);
  filled.value()->cover_all();
  const Cube& cube = filled.value()->cube();
  CHECK(cube.lanes == 4);
  const std::vector<uint16_t> ends{0, 0, 0, 65535, 65535, 65535, 65535, 0, 65535};
  std::vector<uint16_t> out(12);
  apply_cube(cube, ends, out);
  std::vector<float> in(ends.begin(), ends.end()), exact(12);
  for (float& v : in) v /= 65535;
  chain->to_device(in, exact);
  for (size_t i = 0; i < 12; ++i) CHECK(std::abs(out[i] - exact[i] * 65535) <= 1.0);
}

TEST_CASE("cubes pass between workers unharmed, and rubbish does not pass for one") {
  const auto chain = chain_for(standard_profile("srgb").take(), rgb_paper(), {});
  auto cube = build_screen_cube(*chain, 5, {});
  REQUIRE(cube);
  Bytes plain = pack_cube(cube.value());
  CHECK(unpack_cube(plain).ok());
  plain[12] = 3;  // cells of blocks that are not there
  CHECK_FALSE(unpack_cube(plain).ok());
  const std::vector<uint16_t> two_colours{0, 0, 0, 65535, 30000, 9000};
  REQUIRE(
      refine_screen_cube(*chain, blocks_used(cube.value(), two_colours), cube.value(), {}).ok());
  const Bytes packed = pack_cube(cube.value());
  auto again = unpack_cube(packed);
  REQUIRE(again);
  CHECK(again.value().nodes == cube.value().nodes);
  CHECK(again.value().shaper == cube.value().shaper);
  CHECK(again.value().block_at == cube.value().block_at);
  CHECK(again.value().fine == cube.value().fine);
  CHECK(again.value().block_cells == 3);
  for (const uint8_t cells : {0, 2, 4, 200}) {
    Bytes changed = packed;
    changed[12] = cells;  // the fourth word of the head
    CHECK_FALSE(unpack_cube(changed).ok());
  }
  for (size_t length : {size_t{0}, size_t{7}, size_t{8}, packed.size() - 1}) {
    CHECK_FALSE(unpack_cube(ByteView(packed).first(length)).ok());
  }
  Bytes wrong = packed;
  wrong[0] = 200;
  CHECK_FALSE(unpack_cube(wrong).ok());
  CHECK_FALSE(build_screen_cube(*chain, 1, {}).ok());
  CHECK_FALSE(build_screen_cube(*chain, 33, [](double share) { return share < 0.5; }).ok());
}
