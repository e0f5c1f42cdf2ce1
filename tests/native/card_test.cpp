// The paper card against numbers found in other ways.
#include "paper/card.h"

#include <algorithm>
#include <fstream>
#include <map>
#include <sstream>

#include "rank_papers.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

using Matrix = std::array<std::array<double, 3>, 3>;

Matrix inverse(const Matrix& m) {
  Matrix out{};
  auto at = [&](size_t r, size_t c) { return m[r % 3][c % 3]; };
  double det = 0;
  for (size_t c = 0; c < 3; ++c) {
    det += m[0][c] * (at(1, c + 1) * at(2, c + 2) - at(1, c + 2) * at(2, c + 1));
  }
  for (size_t r = 0; r < 3; ++r) {
    for (size_t c = 0; c < 3; ++c) {
      out[c][r] = (at(r + 1, c + 1) * at(r + 2, c + 2) - at(r + 1, c + 2) * at(r + 2, c + 1)) / det;
    }
  }
  return out;
}

Matrix times(const Matrix& p, const Matrix& q) {
  Matrix out{};
  for (size_t r = 0; r < 3; ++r) {
    for (size_t c = 0; c < 3; ++c) {
      for (size_t k = 0; k < 3; ++k) out[r][c] += p[r][k] * q[k][c];
    }
  }
  return out;
}

using Column = std::array<double, 3>;
Column applied(const Matrix& m, const Column& v) {
  Column out{};
  for (size_t r = 0; r < 3; ++r) {
    for (size_t k = 0; k < 3; ++k) out[r] += m[r][k] * v[k];
  }
  return out;
}

struct Primaries {
  const char* id;
  double xy[4][2];  // red, green, blue, white
};

// Linear RGB from XYZ D50, from published chromaticities and the Bradford adaptation (ICC.1:2022
// annex E), without the colour engine under test.
Matrix rgb_from_d50(const Primaries& p) {
  auto column = [](const double* xy) {
    return Column{xy[0] / xy[1], 1, (1 - xy[0] - xy[1]) / xy[1]};
  };
  Matrix to_xyz{};
  for (size_t c = 0; c < 3; ++c) {
    const auto xyz = column(p.xy[c]);
    for (size_t r = 0; r < 3; ++r) to_xyz[r][c] = xyz[r];
  }
  const auto white = column(p.xy[3]);
  const Column scale = applied(inverse(to_xyz), white);
  for (auto& row : to_xyz) {
    for (size_t c = 0; c < 3; ++c) row[c] *= scale[c];
  }
  const Matrix bradford{
      {{0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}}};
  const Column from = applied(bradford, white), to = applied(bradford, {0.9642, 1, 0.8249});
  Matrix cones{};
  for (size_t i = 0; i < 3; ++i) cones[i][i] = to[i] / from[i];
  const Matrix adapt = times(inverse(bradford), times(cones, bradford));
  return inverse(times(adapt, to_xyz));
}

// Cells of an even grid in L*a*b* whose middles lie inside 0..1 of linear RGB.
double counted_volume(const Primaries& primaries) {
  const Matrix to_rgb = rgb_from_d50(primaries);
  constexpr double kStepL = 1, kStepAb = 2;
  size_t inside = 0;
  for (double l = kStepL / 2; l < 100; l += kStepL) {
    for (double a = -299; a < 300; a += kStepAb) {
      for (double b = -299; b < 300; b += kStepAb) {
        const XYZ xyz = xyz_from_lab({l, a, b});
        bool in = true;
        for (double v : applied(to_rgb, {xyz.x, xyz.y, xyz.z})) in = in && v >= 0 && v <= 1;
        inside += in;
      }
    }
  }
  return double(inside) * kStepL * kStepAb * kStepAb;
}

PaperCard card_of(const Paper& paper) {
  auto card = read_card(paper, {});
  REQUIRE_MESSAGE(card.ok(), (card.ok() ? "" : card.error().message));
  return card.take();
}

bool mentions(const std::vector<std::string>& sentences, const std::string& words) {
  return std::any_of(sentences.begin(), sentences.end(), [&](const std::string& sentence) {
    return sentence.find(words) != std::string::npos;
  });
}

struct Patch {
  std::array<double, 4> inks{};  // [per cent]
  XYZ xyz;                       // 0..1
  Lab lab;
};

// Characterisation data as packaged in icc-profiles-free: lines of numbers under a line of names.
std::vector<Patch> patches_of(const std::string& name) {
  std::ifstream file("/usr/share/color/icc/" + name + ".ti3");
  REQUIRE_MESSAGE(file.good(), "package icc-profiles-free is missing");
  std::string line, word;
  std::vector<std::string> names;
  std::vector<Patch> patches;
  while (std::getline(file, line)) {
    std::istringstream words(line);
    if (line.starts_with("BEGIN_DATA_FORMAT")) {
      std::getline(file, line);
      std::istringstream fields(line);
      while (fields >> word) names.push_back(word);
      continue;
    }
    std::map<std::string, double> values;
    size_t field = 0;
    while (words >> word && field < names.size()) values[names[field++]] = std::atof(word.c_str());
    if (field != names.size() || names.empty() || !std::isdigit(line[0])) continue;
    patches.push_back({{values["CMYK_C"], values["CMYK_M"], values["CMYK_Y"], values["CMYK_K"]},
                       {values["XYZ_X"] / 100, values["XYZ_Y"] / 100, values["XYZ_Z"] / 100},
                       {values["LAB_L"], values["LAB_A"], values["LAB_B"]}});
  }
  return patches;
}

}  // namespace

TEST_CASE("gamut volumes of standard spaces agree with counting cells through the inverse") {
  const Primaries spaces[] = {
      {"srgb", {{0.64, 0.33}, {0.30, 0.60}, {0.15, 0.06}, {0.3127, 0.3290}}},
      {"oprgb", {{0.64, 0.33}, {0.21, 0.71}, {0.15, 0.06}, {0.3127, 0.3290}}},
      {"romm", {{0.7347, 0.2653}, {0.1596, 0.8404}, {0.0366, 0.0001}, {0.3457, 0.3585}}}};
  std::map<std::string, double> found;
  for (const Primaries& space : spaces) {
    const double expected = counted_volume(space);
    found[space.id] = card_of(space_paper(space.id)).gamut_volume;
    INFO(space.id << " counted " << expected << " found " << found[space.id]);
    CHECK(found[space.id] == doctest::Approx(expected).epsilon(0.01));
  }
  // Pascale, "A review of RGB color spaces" (2003): about 832 900 for sRGB (from memory), and 52.1
  // to 35.9 for the space opRGB has its primaries of, as quoted in public encyclopaedias.
  CHECK(found["srgb"] == doctest::Approx(832900).epsilon(0.01));
  CHECK(found["oprgb"] / found["srgb"] == doctest::Approx(52.1 / 35.9).epsilon(0.01));
}

TEST_CASE("gamut volumes of published RGB spaces are the published ones") {
  // Volumes in L*a*b* D50 of B. Lindbloom's table of RGB working spaces (from memory); the spaces
  // as packaged in colord-data.
  const std::pair<const char*, double> published[] = {
      {"AppleRGB", 798403},    {"BestRGB", 2050725},     {"BetaRGB", 1717450},
      {"BruceRGB", 988939},    {"CIE-RGB", 1725261},     {"ColorMatchRGB", 836975},
      {"DonRGB4", 1802358},    {"ECI-RGBv1", 1331362},   {"EktaSpacePS5", 1623899},
      {"NTSC-RGB", 1300252},   {"PAL-RGB", 849831},      {"ProPhotoRGB", 2879568},
      {"SMPTE-C-RGB", 758857}, {"WideGamutRGB", 2164221}};
  for (const auto& [name, volume] : published) {
    const std::string file = std::string("/usr/share/color/icc/colord/") + name + ".icc";
    const Paper paper = paper_at(file);
    INFO(file);
    CHECK(card_of(paper).gamut_volume == doctest::Approx(volume).epsilon(0.001));
  }
}

TEST_CASE("the gamut volume of four inks agrees with the segment maxima method") {
  // Morovic and Luo, "Calculating medium and image gamut boundaries for gamut mapping", Color Res.
  // Appl. 25 (2000): the furthest colour from the grey axis in each segment, here of lightness and
  // hue, over a grid of inks. A maximum over a segment is a little too far, one over few colours
  // not far enough.
  const Paper paper = paper_at(kCmykProfile);
  const Transform way = to_lab(paper.profile, INTENT_ABSOLUTE_COLORIMETRIC);
  constexpr int kSide = 37, kSegments = 100;  // of L* and of hue
  std::vector<double> furthest(size_t{kSegments} * kSegments);
  std::vector<float> inks(size_t{kSide} * kSide * 4), lab(size_t{kSide} * kSide * 3);
  for (int i = 0; i < kSide * kSide; ++i) {
    for (int j = 0; j < kSide * kSide; ++j) {
      const int places[4] = {i / kSide, i % kSide, j / kSide, j % kSide};
      for (size_t c = 0; c < 4; ++c) {
        inks[size_t(j) * 4 + c] = 100.0f * float(places[c]) / (kSide - 1);
      }
    }
    cmsDoTransform(way.get(), inks.data(), lab.data(), kSide * kSide);
    for (size_t j = 0; j < lab.size(); j += 3) {
      const double turn = std::atan2(lab[j + 2], lab[j + 1]) / 6.283185307 + 0.5;
      const int row = std::clamp(int(lab[j]), 0, kSegments - 1);
      double& most =
          furthest[size_t(row * kSegments + std::min(int(turn * kSegments), kSegments - 1))];
      most = std::max(most, std::hypot(double(lab[j + 1]), double(lab[j + 2])));
    }
  }
  double expected = 0;
  for (const double r : furthest) expected += r * r / 2 * (6.283185307 / kSegments);
  const double found = card_of(paper).gamut_volume;
  INFO("segments " << expected << ", found " << found);
  CHECK(found == doctest::Approx(expected).epsilon(0.03));
}

TEST_CASE("the mesh is closed, turns one way, and its slices fill its volume") {
  for (const char* file : {"papers/owlbrook-pearl.icc", ""}) {
    const Paper paper = *file ? paper_at(kDemo + file) : paper_at(kCmykProfile);
    const GamutMesh mesh = gamut_mesh(paper).take();
    CHECK(mesh.colours.size() / 4 == mesh.vertices.size() / 3);
    // Closed: every edge is walked exactly once each way.
    std::map<std::pair<uint32_t, uint32_t>, int> walked;
    for (size_t i = 0; i < mesh.triangles.size(); ++i) {
      const uint32_t p = mesh.triangles[i], q = mesh.triangles[i % 3 == 2 ? i - 2 : i + 1];
      REQUIRE(p < mesh.vertices.size() / 3);
      ++walked[{p, q}];
    }
    bool closed = true;
    for (const auto& [edge, count] : walked) {
      closed = closed && count == 1 && walked.contains({edge.second, edge.first});
    }
    CHECK(closed);
    // Cavalieri: the areas of slices one L* apart add up to the volume.
    double sum = 0;
    for (double l = 0.5; l < 100; ++l) {
      const auto outline = gamut_slice(mesh, l);
      double twice = 0;
      for (size_t i = 0; i < outline.size(); ++i) {
        const auto &p = outline[i], &q = outline[(i + 1) % outline.size()];
        twice += p[0] * q[1] - p[1] * q[0];
      }
      sum += std::abs(twice) / 2;
    }
    CHECK(sum == doctest::Approx(gamut_volume(mesh)).epsilon(0.01));
    CHECK(gamut_slice(mesh, 101).empty());
    CHECK(gamut_slice(mesh, -1).empty());
  }
}

TEST_CASE("densities follow the CIE and ISO 5-3 formulae") {
  // D = -log10 Y: Y 0.1 is 1 and Y 0.01 is 2. L* 50 is Y 0.1842 (CIE 15:2018), 18 % grey L* 49.5.
  CHECK(density_of_lightness(100) == doctest::Approx(0).epsilon(1e-9));
  CHECK(density_of_lightness(lab_from_xyz({0, 0.1, 0}).l) == doctest::Approx(1));
  CHECK(density_of_lightness(lab_from_xyz({0, 0.01, 0}).l) == doctest::Approx(2));
  CHECK(density_of_lightness(50) == doctest::Approx(0.7347).epsilon(0.0005));
  CHECK(density_of_lightness(49.496) == doctest::Approx(-std::log10(0.18)).epsilon(0.0005));
  CHECK(std::isfinite(density_of_lightness(0)));
  CHECK(std::isfinite(density_of_lightness(-5)));
  // FOGRA39L's own Y of every light enough patch (two decimals of Y and of L*).
  for (const Patch& patch : patches_of("FOGRA39L")) {
    if (patch.xyz.y < 0.05) continue;
    CHECK(std::abs(density_of_lightness(patch.lab.l) + std::log10(patch.xyz.y)) < 0.002);
  }
}

TEST_CASE("a press profile's card agrees with the measurements of its printing condition") {
  // default_cmyk.icc of libgs-common is a SWOP profile; of the data sets in icc-profiles-free its
  // A2B table is nearest to CGATS TR 005 (SWOP coated 5): mean 1.3, largest 2.4 dE00.
  const Paper paper = paper_at(kCmykProfile);
  const PaperCard card = card_of(paper);
  const auto patches = patches_of("TR005");
  CHECK(patches.size() == 1617);
  double darkest = 100;
  const GamutMesh& mesh = card.gamut;
  int solids = 0;
  for (const Patch& patch : patches) {
    darkest = std::min(darkest, patch.lab.l);
    bool full = true;
    for (double ink : patch.inks) full = full && (ink == 0 || ink == 100);
    if (!full || patch.inks[3] > 0 || patch.inks[0] + patch.inks[1] + patch.inks[2] > 200) continue;
    ++solids;  // paper, C, M, Y, and pairs of them are corners of the gamut's surface
    double nearest = 1e9;
    for (size_t i = 0; i < mesh.vertices.size(); i += 3) {
      const Lab vertex{mesh.vertices[i], mesh.vertices[i + 1], mesh.vertices[i + 2]};
      nearest = std::min(nearest, delta_e_2000(patch.lab, vertex));
    }
    INFO("C " << patch.inks[0] << " M " << patch.inks[1] << " Y " << patch.inks[2]);
    CHECK(nearest < 2.5);
    if (patch.inks[0] + patch.inks[1] + patch.inks[2] == 0) {
      CHECK(delta_e_2000(paper.white, patch.lab) < 2.5);
      CHECK(std::abs(card.white_density + std::log10(patch.xyz.y)) < 0.03);
    }
  }
  CHECK(solids >= 7);
  // The tables stop at an ink limit, so the darkest they ask for is somewhat lighter than the
  // darkest patch of 400 % ink.
  CHECK(paper.black.l > darkest - 1.5);
  CHECK(paper.black.l < darkest + 6);
  CHECK(card.contrast_ratio ==
        doctest::Approx(std::pow(10, card.black_density - card.white_density)));
  CHECK(card.round_trip.mean < 1);
  CHECK(card.round_trip.colours > 500);
}

TEST_CASE("a broken grey ramp is counted step by step") {
  // Equal steps of L* but for code 100, which is 2 L* too dark: going down, one step of 0.392 + 2
  // and one of 0.392 - 2, which is a reversal.
  std::vector<float> luminance(256);
  for (size_t i = 0; i < 256; ++i) {
    luminance[i] = float(xyz_from_lab({100.0 * double(i) / 255 - (i == 100 ? 2 : 0), 0, 0}).y);
  }
  const Curve broken(cmsBuildTabulatedToneCurveFloat(nullptr, 256, luminance.data()));
  const Paper paper =
      paper_from_profile(neutral_rgb_profile(broken.get(), "broken").take(), "broken").take();
  const PaperCard card = card_of(paper);
  CHECK(card.device_ramp.steps == 256);
  CHECK(card.device_ramp.reversals == 1);
  CHECK(card.device_ramp.largest_reversal == doctest::Approx(2 - 100.0 / 255).epsilon(0.02));
  CHECK(card.device_ramp.jumps == 1);
  CHECK(card.device_ramp.largest_step == doctest::Approx(2 + 100.0 / 255).epsilon(0.02));
  CHECK(mentions(card.faults, "turn back"));
  const PaperCard sound = card_of(space_paper("srgb"));
  CHECK(sound.device_ramp.reversals == 0);
  CHECK(sound.printed_ramp.reversals == 0);
  CHECK(sound.printed_ramp.largest_step == doctest::Approx(100.0 / 255).epsilon(0.02));
  CHECK(sound.faults.empty());
}

TEST_CASE("a known cast and a known black are found") {
  const Paper plain = test_paper({12, 0, 0});
  CHECK(plain.black.l == doctest::Approx(12).epsilon(0.03));
  const PaperCard card = card_of(plain);
  const double y = xyz_from_lab({12, 0, 0}).y;
  CHECK(card.density_range == doctest::Approx(-std::log10(y)).epsilon(0.03));
  CHECK(card.contrast_ratio == doctest::Approx(1 / y).epsilon(0.06));
  CHECK(card.cast_chroma < 0.6);
  CHECK(card.round_trip.mean < 0.5);
  CHECK(card.faults.empty());
  const PaperCard tinted = card_of(test_paper({12, 0, 8}));
  CHECK(tinted.cast_chroma == doctest::Approx(8).epsilon(0.08));
  CHECK(tinted.cast.b == doctest::Approx(8).epsilon(0.08));
  CHECK(mentions(tinted.faults, "not grey"));
  // Its two tables disagree by the cast, and its bare paper is not its white.
  CHECK(tinted.round_trip.mean > 2.5);
  CHECK(mentions(tinted.faults, "directions disagree"));
  CHECK(mentions(tinted.faults, "bare paper"));
  // A volume shrinks with the black: the lifted gamut is a scaled copy in XYZ.
  CHECK(card.gamut_volume < card_of(test_paper({4, 0, 0})).gamut_volume);
}

TEST_CASE("the demo papers' cards hold together") {
  for (const char* name :
       {"tarnsea-baryta", "owlbrook-pearl", "quillmoor-cotton-smooth", "plainside-office"}) {
    const Paper paper = paper_at(kDemo + "papers/" + name + ".icc");
    const PaperCard card = card_of(paper);
    INFO(name);
    CHECK(card.density_range > 0.8);
    CHECK(card.density_range < 2.6);
    CHECK(card.gamut_volume > 100'000);
    CHECK(card.gamut_volume < 1'000'000);
    CHECK_FALSE(mentions(card.faults, "damaged"));
  }
}

TEST_CASE("damaged profiles give a card or a sentence, never a crash") {
  for (const std::string& path : {kDemo + "papers/owlbrook-pearl.icc", kCmykProfile}) {
    const Bytes good = file_bytes(path);
    uint32_t state = 88172645u;
    auto random = [&] {
      state ^= state << 13, state ^= state >> 17, state ^= state << 5;
      return state;
    };
    for (int round = 0; round < 60; ++round) {
      Bytes bad = good;
      const size_t reach = round % 2 ? 1400 : bad.size();
      for (int hit = 0; hit < (round % 2 ? 6 : 400); ++hit) {
        bad[132 + random() % (reach - 132)] = static_cast<uint8_t>(random());
      }
      const auto paper = read_paper(std::move(bad), "bad.icc");
      if (!paper) continue;
      const auto card = read_card(paper.value(), {});
      if (card) {
        CHECK(std::isfinite(card.value().gamut_volume));
        CHECK(std::isfinite(card.value().round_trip.max));
      } else {
        CHECK(card.error().message.ends_with("."));
      }
    }
  }
}

TEST_CASE("reading a card can be stopped") {
  CHECK_FALSE(read_card(space_paper("srgb"), [](double) { return false; }).ok());
}
