#include <algorithm>
#include <cmath>
#include <functional>

#include "print/strip.h"

namespace proofleaf::print {
namespace {

// Sums over any box of a picture in four look-ups.
class BoxSums {
 public:
  BoxSums(uint32_t width, uint32_t height, const std::function<double(uint32_t, uint32_t)>& of)
      : stride_(size_t{width} + 1), sums_(stride_ * (size_t{height} + 1)) {
    for (uint32_t y = 0; y < height; ++y) {
      double row = 0;
      for (uint32_t x = 0; x < width; ++x) {
        row += of(x, y);
        sums_[(y + 1) * stride_ + x + 1] = sums_[y * stride_ + x + 1] + row;
      }
    }
  }
  double of(const PixelRect& box) const {
    const size_t top = box.y * stride_, bottom = (size_t{box.y} + box.height) * stride_;
    const size_t left = box.x, right = size_t{box.x} + box.width;
    return sums_[bottom + right] - sums_[bottom + left] - sums_[top + right] + sums_[top + left];
  }

 private:
  size_t stride_;
  std::vector<double> sums_;
};

bool apart(const PixelRect& a, const PixelRect& b) {
  return a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y ||
         b.y + b.height <= a.y;
}

bool apart(const StripPlace& a, const StripPlace& b) {
  constexpr double kTouch = 1e-9;
  return a.x + a.width <= b.x + kTouch || b.x + b.width <= a.x + kTouch ||
         a.y + a.height <= b.y + kTouch || b.y + b.height <= a.y + kTouch;
}

// What a picture has of interest at a pixel, by reason. Ends of tones are common practice, no
// source: where prints close up and wash out.
class Interest {
 public:
  Interest(const Picture& picture, const Light& light, std::span<const uint8_t> map, uint32_t side)
      : width_(picture.width), height_(picture.height), map_(map), side_(side) {
    l_.resize(size_t{width_} * height_);
    for (size_t i = 0; i < l_.size(); ++i) l_[i] = light.lightness(&picture.rgb[i * 3]);
  }
  double at(PlaceReason reason, uint32_t x, uint32_t y) const {
    constexpr double kDeep = 20, kBright = 86, kMostStep = 6;  // [L*]
    const double l = value(x, y);
    switch (reason) {
      case PlaceReason::deepest:
        return l < kDeep ? std::min(step(x, y), kMostStep) : 0;
      case PlaceReason::brightest:
        return l > kBright ? std::min(step(x, y), kMostStep) : 0;
      case PlaceReason::off_gamut:
        if (map_.empty()) return 0;
        return map_[size_t{y} * side_ / height_ * side_ + size_t{x} * side_ / width_];
      default:
        return std::abs(4 * l - value(x - 1, y) - value(x + 1, y) - value(x, y - 1) -
                        value(x, y + 1));
    }
  }

 private:
  // Past the edge, the last pixel; -1 wraps round to a large number.
  double value(uint32_t x, uint32_t y) const {
    x = x > UINT32_MAX / 2 ? 0 : std::min(x, width_ - 1);
    y = y > UINT32_MAX / 2 ? 0 : std::min(y, height_ - 1);
    return l_[size_t{y} * width_ + x];
  }
  double step(uint32_t x, uint32_t y) const {
    return std::hypot(value(x + 1, y) - value(x - 1, y), value(x, y + 1) - value(x, y - 1)) / 2;
  }

  uint32_t width_, height_;
  std::vector<float> l_;
  std::span<const uint8_t> map_;
  uint32_t side_;
};

// Too little of it to be worth a part: means over the part, in what Interest counts in.
double least_interest(PlaceReason reason) { return reason == PlaceReason::off_gamut ? 8 : 0.02; }

}  // namespace

const char* word_for(PlaceReason reason) {
  switch (reason) {
    case PlaceReason::deepest:
      return phrase("deep shadows");
    case PlaceReason::brightest:
      return phrase("bright detail");
    case PlaceReason::off_gamut:
      return phrase("off gamut");
    case PlaceReason::finest:
      return phrase("fine texture");
    case PlaceReason::chosen:
      break;
  }
  return phrase("chosen");
}

Result<std::vector<StripPlace>> pick_places(const Picture& preview, const Light& light,
                                            std::span<const uint8_t> off_gamut, uint32_t map_side,
                                            double width, double height) {
  if (preview.width == 0 || preview.height == 0 ||
      preview.rgb.size() != size_t{preview.width} * preview.height * 3 ||
      (!off_gamut.empty() && off_gamut.size() != size_t{map_side} * map_side)) {
    return Error{"The preview to choose parts from is incomplete."};
  }
  if (!(width > 0 && width <= 1 && height > 0 && height <= 1)) {
    return Error{"A part of the strip must be between nothing and the whole of the picture."};
  }
  const auto pixels = [](double share, uint32_t side) {
    return std::clamp(static_cast<uint32_t>(std::lround(share * side)), 1u, side);
  };
  const uint32_t across = pixels(width, preview.width), down = pixels(height, preview.height);
  const Interest interest(preview, light, off_gamut, map_side);
  std::vector<StripPlace> places;
  std::vector<PixelRect> taken;
  for (const PlaceReason reason : {PlaceReason::deepest, PlaceReason::brightest,
                                   PlaceReason::off_gamut, PlaceReason::finest}) {
    const BoxSums sums(preview.width, preview.height,
                       [&](uint32_t x, uint32_t y) { return interest.at(reason, x, y); });
    const double area = double(across) * down;
    double most = least_interest(reason) * area;
    PixelRect best;
    for (uint32_t y = 0; y + down <= preview.height; y += std::max(1u, down / 8)) {
      for (uint32_t x = 0; x + across <= preview.width; x += std::max(1u, across / 8)) {
        const PixelRect box{x, y, across, down};
        const double sum = sums.of(box);
        if (sum <= most) continue;
        if (std::all_of(taken.begin(), taken.end(),
                        [&](const PixelRect& other) { return apart(box, other); })) {
          most = sum;
          best = box;
        }
      }
    }
    if (best.width == 0) continue;
    taken.push_back(best);
    places.push_back({reason, std::min(double(best.x) / preview.width, 1 - width),
                      std::min(double(best.y) / preview.height, 1 - height), width, height});
    // Rounding to the preview's pixels must not make neighbours overlap by a hair.
    const StripPlace& last = places.back();
    if (!std::all_of(places.begin(), places.end() - 1,
                     [&](const StripPlace& other) { return apart(last, other); })) {
      places.pop_back();
      taken.pop_back();
    }
  }
  return places;
}

Result<std::vector<StripPlace>> move_place(std::vector<StripPlace> places, size_t which, double x,
                                           double y) {
  if (which >= places.size()) return Error{"The strip has no such part."};
  if (!std::isfinite(x) || !std::isfinite(y)) return Error{"A part's place must be a number."};
  StripPlace& place = places[which];
  place.x = std::clamp(x, 0.0, std::max(0.0, 1 - place.width));
  place.y = std::clamp(y, 0.0, std::max(0.0, 1 - place.height));
  place.reason = PlaceReason::chosen;
  for (size_t i = 0; i < places.size(); ++i) {
    if (i != which && !apart(place, places[i])) {
      return Error{"That part would lie over another one; move the other first."};
    }
  }
  return places;
}

}  // namespace proofleaf::print
