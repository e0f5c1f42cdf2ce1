#include "returned/compare.h"

#include <algorithm>
#include <cmath>

namespace proofleaf::returned {
namespace {

Result<Comparison> placed(const Promise& promise, const Pyramid& pyramid, const Settings& settings,
                          const Watch& watch) {
  Comparison found;
  if (!settings.corners) {
    auto place = find_print(pyramid, promise.l,
                            {promise.left, promise.top, promise.right, promise.bottom}, watch);
    if (!place) return place.error();
    found.print_to_photo = place.value().print_to_photo;
    found.match = place.value().match;
    found.refined = place.value().found();
    if (!place.value().found()) {
      // A quadrilateral to begin dragging from.
      found.print_to_photo =
          *Homography::to({{{0.15, 0.15}, {0.85, 0.15}, {0.85, 0.85}, {0.15, 0.85}}});
      found.match = match_at(found.print_to_photo, pyramid, promise.l);
    }
    return found;
  }
  const auto start = Homography::to(*settings.corners);
  if (!start || !is_convex(*settings.corners) || std::abs(area_of(*settings.corners)) < 0.005) {
    return Error{"These four corners do not go round a print."};
  }
  found.print_to_photo = *start;
  if (!settings.refine) {
    found.match = match_at(*start, pyramid, promise.l);
    return found;
  }
  const Alignment fine = refine(*start, pyramid, promise.l);
  found.refined = fine.found() && fine.print_to_photo.rows() != start->rows();
  found.print_to_photo = found.refined ? fine.print_to_photo : *start;
  found.match = found.refined ? fine.match : match_at(*start, pyramid, promise.l);
  return found;
}

Laid laid_flat(const Photo& photo, const Homography& place, const Bend& bend,
               const Promise& promise) {
  const uint32_t w = promise.l.width, h = promise.l.height;
  // Photos are mostly finer than the promise; means of whole pixels then keep noise down.
  const double pixels = std::abs(area_of(place.corners())) * photo.width() * photo.height();
  const bool finer = std::sqrt(pixels / (double(w) * h)) >= 2;
  Laid laid;
  for (size_t c = 0; c < 3; ++c) {
    const Plane& plane = photo.xyz[c];
    laid.xyz[c] = flattened(finer ? halved(plane) : plane, place, bend, w, h, -1);
  }
  laid.clipped = flattened(photo.clipped, place, bend, w, h, 0);
  return laid;
}

// The light around a neutral place, evened by the fall carried on to there.
std::optional<XYZ> light_at(const Photo& photo, const Point& at, const Homography& place,
                            const Fall& fall) {
  constexpr double kReach = 0.006;  // of the photo's sides
  std::array<std::vector<float>, 3> values;
  float blown = 0;
  for (int y = -6; y <= 6; ++y) {
    for (int x = -6; x <= 6; ++x) {
      const double u = at.x + x * kReach / 6, v = at.y + y * kReach / 6;
      if (u < 0 || v < 0 || u > 1 || v > 1) return std::nullopt;
      for (size_t c = 0; c < 3; ++c) values[c].push_back(photo.xyz[c].sample(u, v));
      blown += photo.clipped.sample(u, v) / 169;
    }
  }
  const auto back = place.inverse();
  if (!back || blown > 0.2f) return std::nullopt;
  const Point on_print = (*back)(at);
  const double gain =
      std::exp(-fall.at(std::clamp(on_print.x, -0.3, 1.3), std::clamp(on_print.y, -0.3, 1.3)));
  const XYZ light{median_of(values[0]) * gain, median_of(values[1]) * gain,
                  median_of(values[2]) * gain};
  if (!(light.x > 0.01 && light.y > 0.01 && light.z > 0.01)) return std::nullopt;
  return light;
}

}  // namespace

Result<Comparison> compare(const Promise& promise, const Photo& photo, const Settings& settings,
                           const Watch& watch) {
  const Pyramid pyramid = pyramid_of(photo.l);
  auto place = placed(promise, pyramid, settings,
                      [&](double share) { return keep_going(watch, 0.5 * share); });
  if (!place) return place.error();
  Comparison found = place.take();
  if (found.match < kFound) return found;  // nothing is judged
  if (!keep_going(watch, 0.55)) return stopped();

  const Bend bend = find_bend(found.print_to_photo, pyramid, promise.l);
  found.bend = bend.rms;
  Laid laid = laid_flat(photo, found.print_to_photo, bend, promise);
  auto evened = even_out(laid, promise);
  if (!evened) return evened.error();
  apply(evened.value().fall, laid);
  found.light_falls = evened.value().fall.darkest();
  if (!keep_going(watch, 0.65)) return stopped();

  White white = fitted_white(laid, promise);
  if (auto border = border_white(laid, promise)) white = *border;
  if (settings.neutral) {
    const auto light =
        light_at(photo, *settings.neutral, found.print_to_photo, evened.value().fall);
    if (light) white = neutral_white(*light, promise, evened.value());
  }
  found.seen = seen_under(white, laid);
  found.size = find_size(promise, photo, found, settings, bend);
  if (!keep_going(watch, 0.75)) return stopped();
  found.cast = find_cast(promise, laid, found.seen, white);
  found.tones = find_tones(promise, laid, found.seen);
  found.shadow = find_shadow(promise, laid, found.seen);
  if (!keep_going(watch, 0.85)) return stopped();
  found.marks = find_marks(promise, laid, found.seen, found.tones, settings.mark_mm);
  return found;
}

}  // namespace proofleaf::returned
