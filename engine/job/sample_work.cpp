#include "job/sample_work.h"

#include <algorithm>
#include <cmath>

#include "job/opening.h"
#include "print/as_seen.h"
#include "print/ranges.h"
#include "proof/view.h"
#include "proof/words.h"

namespace proofleaf {
namespace {

constexpr int64_t kLargestSample = 1024;  // [pixels] a side

struct Wanted {
  uint32_t x = 0, y = 0, width = 0, height = 0;  // [pixels] of the printed picture
};

// A stretch around a place of the picture, kept inside of it.
Wanted around(const Json& request, uint32_t width, uint32_t height) {
  const auto side = [&](const char* key, uint32_t most) {
    return static_cast<uint32_t>(
        std::min<int64_t>(whole_of(request, key, 256, 1, kLargestSample), most));
  };
  const auto first = [](double share, uint32_t whole, uint32_t part) {
    const double at = std::clamp(share, 0.0, 1.0) * whole - part / 2.0;
    return static_cast<uint32_t>(std::clamp(at, 0.0, double(whole - part)));
  };
  Wanted wanted;
  wanted.width = side("width", width);
  wanted.height = side("height", height);
  wanted.x = first(number_of(request, "x", 0.5), width, wanted.width);
  wanted.y = first(number_of(request, "y", 0.5), height, wanted.height);
  return wanted;
}

struct Prepared {
  Picture picture;
  Wanted wanted;
  double ppi = 0;
};

// How the piece is to be looked at.
struct Look {
  double distance_mm = 0;    // from there; 0: pixel for pixel
  double pixels_per_mm = 0;  // of the screen, at true size; 0: a print pixel to a screen pixel
  uint32_t width = 0, height = 0;  // on the screen [pixels]
};

Look look_of(const Json& request, const Wanted& at, double ppi) {
  Look look{number_of(request, "distance_mm", 0), number_of(request, "pixels_per_mm", 0), at.width,
            at.height};
  if (!(look.pixels_per_mm > 0)) return look;
  const auto side = [&](uint32_t pixels) {
    const double on_screen = pixels * print::kMmPerInch / ppi * look.pixels_per_mm;
    return static_cast<uint32_t>(std::clamp(std::round(on_screen), 1.0, double(kLargestSample)));
  };
  look.width = side(at.width);
  look.height = side(at.height);
  return look;
}

// Linear light of the screen, three channels a pixel.
Result<std::vector<float>> looked_at(std::vector<float> light, const Wanted& at, double ppi,
                                     const Look& look) {
  if (look.distance_mm > 0) {
    auto seen = print::seen_from(light, at.width, at.height, ppi, look.distance_mm);
    if (!seen) return seen.error();
    light = seen.take();
  }
  if (look.width == at.width && look.height == at.height) return light;
  return print::on_pixels(light, at.width, at.height, look.width, look.height);
}

// Screen R, G, B, A of a piece in the master's space.
Result<Bytes> on_screen(const ProofChain& chain, const Prepared& piece, const Look& look) {
  std::vector<float> rgb(piece.picture.rgb.size()), screen(piece.picture.rgb.size());
  std::transform(piece.picture.rgb.begin(), piece.picture.rgb.end(), rgb.begin(),
                 [](uint16_t v) { return float(v) / 65535; });
  chain.to_screen(rgb, screen);
  for (float& code : screen) code = static_cast<float>(srgb_decode(std::clamp(code, 0.0f, 1.0f)));
  auto light = looked_at(std::move(screen), piece.wanted, piece.ppi, look);
  if (!light) return light.error();
  Bytes rgba;
  rgba.reserve(light.value().size() / 3 * 4);
  for (size_t i = 0; i < light.value().size(); i += 3) {
    for (size_t c = 0; c < 3; ++c) {
      const double held = std::clamp(double(light.value()[i + c]), 0.0, 1.0);
      rgba.push_back(static_cast<uint8_t>(srgb_encode(held) * 255 + 0.5));
    }
    rgba.push_back(255);
  }
  return rgba;
}

// The recipe's rows; the crop is the master's part that is printed, borders are left out.
Result<Prepared> prepare(OpenedMaster& opened, Recipe recipe, const Json& request,
                         const Watch& watch) {
  recipe.size.border_mm = recipe.size.mat_mm = recipe.size.edge_mm = 0;
  recipe.size.edge = print::EdgeKind::none;
  recipe.size.signature_line = false;
  const MasterInfo& info = opened.master->info();
  const double ppi = number_of(request, "ppi", 300);
  auto ready = prepared_master(opened, recipe, ppi, watch);
  if (!ready) return ready.error();
  const RowFormat format = ready.value()->format();
  const Wanted wanted = around(request, format.width, format.height);
  auto picture = cut(*ready.value(), wanted.x, wanted.y, wanted.width, wanted.height, watch);
  if (!picture) return picture.error();
  auto plan = plan_of(recipe, info.width, info.height, ppi);
  if (!plan) return plan.error();
  return Prepared{picture.take(), wanted, plan.value().ppi};
}

}  // namespace

Result<Answer> sample_work(const Json& request, const WorkFiles& files, const Watch& watch) {
  auto recipe = recipe_of(request);
  if (!recipe) return recipe.error();
  auto print = print_of(request);
  if (!print) return print.error();
  const auto screen = screen_of(text_of(request, "screen", "srgb"));
  if (!screen) return Error{"There is no screen of that kind."};
  auto opened = open_with_colour(request, files);
  if (!opened) return opened.error();
  auto paper = open_paper(request, files);
  if (!paper) return paper.error();
  auto chain = ProofChain::make(
      opened.value().colour.profile, paper.value(), print.value(),
      {flag_of(request, "paper_white", true), flag_of(request, "paper_black", true), *screen});
  if (!chain) return chain.error();
  auto with = prepare(opened.value(), recipe.value(), request, watch);
  if (!with) return with.error();
  Recipe plain = recipe.value();
  plain.sharpening.on = plain.grain.on = false;
  auto without = prepare(opened.value(), plain, request, watch);
  if (!without) return without.error();
  const Wanted& at = with.value().wanted;
  const Look look = look_of(request, at, with.value().ppi);
  auto shown = on_screen(*chain.value(), with.value(), look);
  if (!shown) return shown.error();
  auto bare = on_screen(*chain.value(), without.value(), look);
  if (!bare) return bare.error();
  return Answer{dump_json({{"kind", "sample"},
                           {"x", at.x},
                           {"y", at.y},
                           {"width", at.width},
                           {"height", at.height},
                           {"shown_width", look.width},
                           {"shown_height", look.height},
                           {"ppi", with.value().ppi}}),
                {{"with", shown.take()}, {"without", bare.take()}}};
}

}  // namespace proofleaf
