#include "rank/facts.h"

#include <cmath>
#include <numbers>

#include "colour/lcms.h"
#include "proof/cube_build.h"
#include "rank/lanes.h"
#include "raster/picture_rows.h"

namespace proofleaf {
namespace {

constexpr uint32_t kThumbnailSide = 320;
constexpr size_t kMostNodes = 12000;                   // bounds the work on each paper
constexpr std::array<uint32_t, 3> kGrids{33, 25, 17};  // the finest that stays below it is taken

// The curve every cube over this master has: it depends on the master alone.
Result<std::vector<uint16_t>> shaper_of(const Profile& master) {
  auto screen = paper_from_profile(standard_profile("srgb").take(), said("The screen"));
  if (!screen) return screen.error();
  auto chain = ProofChain::make(master, screen.value(), {Intent::relative, false}, {});
  if (!chain) return chain.error();
  return std::move(empty_cube(*chain.value(), 2, 3).shaper);
}

// Which nodes the kernel reads for these pixels: the corners of their cells.
void mark_nodes(std::span<const uint16_t> rgb, const std::vector<uint16_t>& shaper, uint32_t grid,
                std::vector<uint8_t>& marks) {
  const uint32_t cells = grid - 1;
  std::vector<uint8_t> used(size_t{cells} * cells * cells);
  auto cell = [&](uint16_t code) { return uint32_t{shaper[code]} * cells >> 16; };
  for (size_t i = 0; i < rgb.size(); i += 3) {
    used[(size_t{cell(rgb[i])} * cells + cell(rgb[i + 1])) * cells + cell(rgb[i + 2])] = 1;
  }
  for (size_t i = 0; i < used.size(); ++i) {
    if (!used[i]) continue;
    const size_t r = i / (size_t{cells} * cells), g = i / cells % cells, b = i % cells;
    for (size_t corner = 0; corner < 8; ++corner) {
      marks[((r + (corner >> 2)) * grid + g + (corner >> 1 & 1)) * grid + b + (corner & 1)] = 1;
    }
  }
}

void choose_nodes(PictureFacts& facts) {
  for (const uint32_t grid : kGrids) {
    std::vector<uint8_t> marks(size_t{grid} * grid * grid);
    for (const auto* rgb :
         {&facts.tone.rgb, &facts.colour.rgb, &facts.thumbnail.rgb, &facts.spread}) {
      mark_nodes(*rgb, facts.shaper, grid, marks);
    }
    facts.grid = grid;
    facts.nodes.clear();
    for (size_t i = 0; i < marks.size(); ++i) {
      if (marks[i]) facts.nodes.push_back(static_cast<uint32_t>(i));
    }
    if (facts.nodes.size() <= kMostNodes) return;
  }
}

Status find_colours(const Profile& master, PictureFacts& facts) {
  const Transform transform = to_lab(master, INTENT_RELATIVE_COLORIMETRIC);
  if (!transform) return Error{"The master's profile cannot be used."};
  const std::vector<float> rgb = node_rgb(facts);
  std::vector<float> lab(rgb.size());
  cmsDoTransform(transform.get(), rgb.data(), lab.data(),
                 static_cast<cmsUInt32Number>(rgb.size() / 3));
  facts.colours.resize(rgb.size() / 3);
  for (size_t i = 0; i < facts.colours.size(); ++i) {
    facts.colours[i] = {lab[i * 3], lab[i * 3 + 1], lab[i * 3 + 2]};
    if (!std::isfinite(lab[i * 3] + lab[i * 3 + 1] + lab[i * 3 + 2])) {
      return Error{"The master's profile gives no numbers."};
    }
  }
  return done();
}

// Colours such as skin has. From memory, after the L*a*b* ranges of skin databases (Xiao et al.,
// "Characterising the variations in ethnic skin colours", Skin Research and Technology 23, 2017),
// widened for light and shade. Sand and light wood lie in it too.
bool like_skin(const Lab& lab, double chroma) {
  const double hue = std::atan2(lab.b, lab.a) * 180 / std::numbers::pi;
  return lab.l > 25 && lab.l < 88 && chroma > 10 && chroma < 36 && hue > 35 && hue < 80;
}
bool neutral(const Lab& lab, double chroma) { return chroma < 4 && lab.l > 5 && lab.l < 98; }

enum class Kind : uint8_t { other, neutral, skin, accent };

// The C* that 2 % of the picture pass, at least 25.
uint32_t accent_chroma(const std::vector<uint32_t>& by_chroma, size_t pixels) {
  constexpr size_t kOneIn = 50;
  constexpr uint32_t kLeast = 25;
  size_t above = 0;
  auto chroma = static_cast<uint32_t>(by_chroma.size());
  while (chroma > kLeast && above * kOneIn < pixels) above += by_chroma[--chroma];
  return std::max(chroma, kLeast);
}

Samples choose_samples(const PictureFacts& facts, const std::vector<Kind>& kinds, Kind kind,
                       const Cube& cube) {
  std::vector<size_t> found;
  for (size_t i = 0; i < kinds.size(); ++i) {
    if (kinds[i] == kind) found.push_back(i);
  }
  Samples samples;
  samples.share = double(found.size()) / double(kinds.size());
  const size_t count = std::min(found.size(), kMostSamples);
  for (size_t i = 0; i < count; ++i) {
    const uint16_t* pixel = &facts.colour.rgb[found[i * found.size() / count] * 3];
    samples.rgb.insert(samples.rgb.end(), pixel, pixel + 3);
  }
  run_lanes(cube, samples.rgb, [&](size_t, std::span<const uint16_t> lanes) {
    for (size_t i = 0; i < lanes.size(); i += 4) samples.lab.push_back(lab_of(&lanes[i]));
  });
  return samples;
}

std::vector<uint16_t> lightness_codes(const Cube& cube, const Picture& picture) {
  std::vector<uint16_t> codes(picture.rgb.size() / 3);
  run_lanes(cube, picture.rgb, [&](size_t first, std::span<const uint16_t> lanes) {
    for (size_t i = 0; i < lanes.size() / 4; ++i) codes[first + i] = lanes[i * 4];
  });
  return codes;
}

// Lightness of every pixel, and samples of the kinds of colour that are looked at by themselves.
void sort_pixels(PictureFacts& facts) {
  const Cube cube = lab_cube(facts, facts.colours);
  facts.tone_lightness = lightness_codes(cube, facts.tone);
  const size_t pixels = facts.colour.rgb.size() / 3;
  facts.colour_lightness.resize(pixels);
  std::vector<Kind> kinds(pixels);
  std::vector<uint8_t> chromas(pixels);
  std::vector<uint32_t> by_chroma(256);
  run_lanes(cube, facts.colour.rgb, [&](size_t first, std::span<const uint16_t> lanes) {
    for (size_t i = 0; i < lanes.size() / 4; ++i) {
      const Lab lab = lab_of(&lanes[i * 4]);
      const double chroma = std::sqrt(lab.a * lab.a + lab.b * lab.b);
      facts.colour_lightness[first + i] = lanes[i * 4];
      chromas[first + i] = static_cast<uint8_t>(std::min(chroma, 255.0));
      ++by_chroma[chromas[first + i]];
      if (neutral(lab, chroma)) kinds[first + i] = Kind::neutral;
      if (like_skin(lab, chroma)) kinds[first + i] = Kind::skin;
    }
  });
  facts.neutrals = choose_samples(facts, kinds, Kind::neutral, cube);
  facts.skin = choose_samples(facts, kinds, Kind::skin, cube);
  const uint32_t least = accent_chroma(by_chroma, pixels);
  for (size_t i = 0; i < pixels; ++i) {
    if (chromas[i] >= least) kinds[i] = Kind::accent;
  }
  facts.accents = choose_samples(facts, kinds, Kind::accent, cube);
}

// One pixel of each stretch, at a place in it that changes by the golden ratio (H. Weyl's equally
// distributed sequence), so that no column of the picture is passed over.
std::vector<uint16_t> spread_pixels(std::span<const uint16_t> rgb) {
  const uint64_t pixels = rgb.size() / 3, count = std::min<uint64_t>(pixels, kMostSpread);
  const double stretch = double(pixels) / double(count);
  std::vector<uint16_t> spread;
  spread.reserve(count * 3);
  for (uint64_t i = 0; i < count; ++i) {
    const double turn = double(i) * std::numbers::phi;
    const auto at = static_cast<uint64_t>((double(i) + turn - std::floor(turn)) * stretch);
    const uint16_t* pixel = &rgb[std::min(at, pixels - 1) * 3];
    spread.insert(spread.end(), pixel, pixel + 3);
  }
  return spread;
}

Status take_pictures(std::span<const uint16_t> rgb, uint32_t width, uint32_t height,
                     const Watch& watch, PictureFacts& facts) {
  PictureRows rows(rgb, width, height);
  const Watch half = [&](double share) { return keep_going(watch, 0.4 * share); };
  auto tone = shrink(rows, shrink_factor(width, height, kMostTonePixels), half);
  if (!tone) return tone.error();
  facts.tone = tone.take();
  const uint32_t w = facts.tone.width, h = facts.tone.height;
  PictureRows tone_rows(facts.tone.rgb, w, h);
  auto colour = shrink(tone_rows, shrink_factor(w, h, kMostColourPixels), {});
  if (!colour) return colour.error();
  facts.colour = colour.take();
  auto thumbnail = shrink(tone_rows, (std::max(w, h) + kThumbnailSide - 1) / kThumbnailSide, {});
  if (!thumbnail) return thumbnail.error();
  facts.thumbnail = thumbnail.take();
  return done();
}

}  // namespace

std::vector<float> lightness_values(std::span<const uint16_t> codes) {
  std::vector<float> values(codes.size());
  for (size_t i = 0; i < codes.size(); ++i) values[i] = quick_lightness(codes[i]);
  return values;
}

std::vector<float> node_rgb(const PictureFacts& facts) {
  std::vector<float> levels(facts.grid);
  for (uint32_t node = 0; node < facts.grid; ++node) {
    levels[node] = level_at(facts.shaper, 65535.0 * node / (facts.grid - 1));
  }
  std::vector<float> rgb;
  rgb.reserve(facts.nodes.size() * 3);
  for (const uint32_t node : facts.nodes) {
    rgb.push_back(levels[node / (facts.grid * facts.grid)]);
    rgb.push_back(levels[node / facts.grid % facts.grid]);
    rgb.push_back(levels[node % facts.grid]);
  }
  return rgb;
}

Cube lab_cube(const PictureFacts& facts, std::span<const Lab> colours) {
  Cube cube{facts.grid, 4, facts.shaper, {}, {}, {}};
  cube.nodes.assign(size_t{facts.grid} * facts.grid * facts.grid * 4, 0);
  for (size_t i = 0; i < facts.nodes.size(); ++i) {
    int16_t* lanes = &cube.nodes[size_t{facts.nodes[i]} * 4];
    lanes[0] = node_code(code_of_lightness(colours[i].l));
    lanes[1] = node_code(code_of_chroma(colours[i].a));
    lanes[2] = node_code(code_of_chroma(colours[i].b));
    lanes[3] = node_code(code_of_difference(delta_e_2000(facts.colours[i], colours[i])));
  }
  return cube;
}

Result<PictureFacts> find_facts(const Profile& master, std::span<const uint16_t> rgb,
                                uint32_t width, uint32_t height, const Watch& watch) {
  if (width == 0 || height == 0 || rgb.size() != uint64_t{width} * height * 3) {
    return Error{"The picture and its size do not agree."};
  }
  if (master.colour_space() != cmsSigRgbData) return Error{"The master's profile is not RGB."};
  PictureFacts facts;
  auto shaper = shaper_of(master);
  if (!shaper) return shaper.error();
  facts.shaper = shaper.take();
  if (auto taken = take_pictures(rgb, width, height, watch, facts); !taken) return taken.error();
  facts.spread = spread_pixels(rgb);
  choose_nodes(facts);
  if (auto found = find_colours(master, facts); !found) return found.error();
  if (!keep_going(watch, 0.6)) return stopped();
  sort_pixels(facts);
  if (!keep_going(watch, 1)) return stopped();
  return facts;
}

}  // namespace proofleaf
