#include "returned/promise.h"

#include <algorithm>
#include <cmath>

#include "fit/corrected_rows.h"
#include "print/border.h"
#include "proof/cube_build.h"
#include "rank/lanes.h"
#include "rank/printed.h"
#include "raster/picture_rows.h"

namespace proofleaf::returned {
namespace {

constexpr uint32_t kGrid = 33;  // a photo tells no finer

// The master's small picture as the recipe corrects it, local contrast with it.
Result<Picture> corrected_picture(const Picture& picture, const Profile& master,
                                  const Recipe& recipe, const Watch& watch) {
  auto map = colours_of(recipe, master);
  if (!map) return map.error();
  LocalContrastUse local{nullptr, recipe.correction.local_contrast, {}};
  if (local.amount != 0) {
    auto guide = find_local_contrast(master, picture, watch);
    if (!guide) return guide.error();
    local.guide = std::make_shared<const LocalContrast>(guide.take());
  }
  auto rows = corrected(std::make_unique<PictureRows>(picture.rgb, picture.width, picture.height),
                        master, map.value(), local);
  if (!rows) return rows.error();
  return cut(*rows.value(), 0, 0, picture.width, picture.height, watch);
}

// From the master's codes to L*a*b* on paper, in the lanes of rank/lanes.h.
Result<Cube> paper_cube(const Profile& master, const Paper& paper, PrintIntent print,
                        const Watch& watch) {
  auto chain = ProofChain::make(master, paper, print, {});
  if (!chain) return chain.error();
  auto on_paper = PaperColours::make(master, paper, print);
  if (!on_paper) return on_paper.error();
  Cube cube = empty_cube(*chain.value(), kGrid, 3);
  const std::vector<float> levels = node_levels(cube.shaper, kGrid);
  std::vector<float> rgb(size_t{kGrid} * kGrid * 3);
  for (uint32_t red = 0; red < kGrid; ++red) {
    if (!keep_going(watch, double(red) / kGrid)) return stopped();
    for (size_t i = 0; i < size_t{kGrid} * kGrid; ++i) {
      rgb[i * 3] = levels[red];
      rgb[i * 3 + 1] = levels[i / kGrid];
      rgb[i * 3 + 2] = levels[i % kGrid];
    }
    auto colours = on_paper.value().colours(rgb);
    if (!colours) return colours.error();
    int16_t* node = &cube.nodes[size_t{red} * kGrid * kGrid * 4];
    for (const Lab& lab : colours.value()) {
      node[0] = node_code(code_of_lightness(lab.l));
      node[1] = node_code(code_of_chroma(lab.a));
      node[2] = node_code(code_of_chroma(lab.b));
      node += 4;
    }
  }
  return cube;
}

// Pixels of the print a pixel of the promise stands for, along a side.
double scale_of(const print::PrintPlan& plan, const Picture& picture, uint32_t master_width,
                double front_width, double front_height) {
  const double seen = double(plan.crop.width) * picture.width / std::max(1u, master_width);
  const double own = plan.width / std::max(1.0, seen);
  return std::max({own, std::sqrt(front_width * front_height / double(kMostPromised)),
                   std::max(front_width, front_height) / 4000});
}

struct Front {
  double around = 0, width = 0, height = 0;  // [print pixels]
};

void draw_signature_line(const print::PrintPlan& plan, const Front& front, Promise& promise) {
  const print::PixelRect line = print::signature_line(plan);
  if (line.height == 0) return;
  const double sx = promise.l.width / front.width, sy = promise.l.height / front.height;
  const auto top = static_cast<uint32_t>(line.y * sy), left = static_cast<uint32_t>(line.x * sx);
  const auto right = static_cast<uint32_t>((line.x + line.width) * sx);
  for (uint32_t x = left; x < right && x < promise.l.width && top < promise.l.height; ++x) {
    promise.l.at(x, top) = static_cast<float>(print::kSignatureLightness);
  }
}

}  // namespace

Result<Promise> promise_of(const Picture& picture, const Profile& master, uint32_t master_width,
                           uint32_t master_height, const Recipe& recipe, double ppi,
                           const Paper& paper, PrintIntent print, const Watch& watch) {
  if (picture.width == 0 || picture.height == 0 ||
      picture.rgb.size() != size_t{picture.width} * picture.height * 3) {
    return Error{"There is no picture to compare with."};
  }
  auto planned = plan_of(recipe, master_width, master_height, ppi);
  if (!planned) return planned.error();
  const print::PrintPlan& plan = planned.value();
  auto small = corrected_picture(picture, master, recipe, watch);
  if (!small) return small.error();
  auto cube = paper_cube(master, paper, print, watch);
  if (!cube) return cube.error();

  Plane own[3];
  for (Plane& plane : own) plane = Plane(picture.width, picture.height);
  run_lanes(cube.value(), small.value().rgb, [&](size_t first, std::span<const uint16_t> lanes) {
    for (size_t i = 0; i < lanes.size() / 4; ++i) {
      const Lab lab = lab_of(&lanes[i * 4]);
      own[0].values[first + i] = static_cast<float>(lab.l);
      own[1].values[first + i] = static_cast<float>(lab.a);
      own[2].values[first + i] = static_cast<float>(lab.b);
    }
  });

  Promise promise;
  promise.paper_white = paper.white;
  const Front front{double(plan.border) + plan.mat, plan.width + 2.0 * (plan.border + plan.mat),
                    plan.height + 2.0 * (plan.border + plan.mat)};
  const double mm = print::kMmPerInch / plan.ppi;
  promise.width_mm = front.width * mm;
  promise.height_mm = front.height * mm;
  promise.left = front.around / front.width;
  promise.right = 1 - promise.left;
  promise.top = front.around / front.height;
  promise.bottom = 1 - promise.top;
  promise.crop = {double(plan.crop.x) / master_width, double(plan.crop.y) / master_height,
                  double(plan.crop.width) / master_width, double(plan.crop.height) / master_height};
  const double scale = scale_of(plan, picture, master_width, front.width, front.height);
  const auto side = [&](double pixels) {
    return static_cast<uint32_t>(std::max(8.0, std::round(pixels / scale)));
  };
  const uint32_t width = side(front.width), height = side(front.height);
  Plane* const into[3] = {&promise.l, &promise.a, &promise.b};
  constexpr float kWhite[3] = {100, 0, 0};
  for (size_t c = 0; c < 3; ++c) {
    Plane& plane = *into[c] = Plane(width, height, kWhite[c]);
    for (uint32_t y = 0; y < height; ++y) {
      const double v = ((y + 0.5) / height - promise.top) / (promise.bottom - promise.top);
      if (v < 0 || v > 1) continue;
      for (uint32_t x = 0; x < width; ++x) {
        const double u = ((x + 0.5) / width - promise.left) / (promise.right - promise.left);
        if (u < 0 || u > 1) continue;
        plane.at(x, y) = own[c].sample(promise.crop.x + u * promise.crop.width,
                                       promise.crop.y + v * promise.crop.height);
      }
    }
  }
  draw_signature_line(plan, front, promise);
  return promise;
}

}  // namespace proofleaf::returned
