// A first guess of where the print lies in a photo.
#include <algorithm>
#include <cmath>

#include "returned/align.h"
#include "returned/refine_at.h"

namespace proofleaf::returned {
namespace {

constexpr uint32_t kSmall = 320;  // [pixels] the longer side edges are looked for at
constexpr size_t kMostLines = 12;
constexpr double kLean = 0.35;      // of the photo's side, the most a line may lean
constexpr double kLeastArea = 0.1;  // of the photo
constexpr size_t kRefined = 10;     // candidates

// A line from one end of the photo to the other, by its places there [0..1].
struct Line {
  double from = 0, to = 0, strength = 0;
};

// The strongest lines down the plane; slope: how L* changes across.
std::vector<Line> lines_down(const Plane& slope) {
  constexpr uint32_t kStep = 2;
  const uint32_t w = slope.width, h = slope.height;
  std::vector<Line> found;
  const double rows = std::floor(h / 2.0);
  for (uint32_t from = 1; from + 1 < w; from += kStep) {
    for (uint32_t to = 1; to + 1 < w; to += kStep) {
      if (std::abs(double(to) - from) > kLean * w) continue;
      double sum = 0;
      for (uint32_t y = 0; y < h; y += 2) {
        sum += slope.at(static_cast<uint32_t>(from + (double(to) - from) * y / h + 0.5), y);
      }
      found.push_back({(from + 0.5) / w, (to + 0.5) / w, sum / rows});
    }
  }
  std::sort(found.begin(), found.end(),
            [](const Line& p, const Line& q) { return p.strength > q.strength; });
  std::vector<Line> kept;
  for (const Line& line : found) {
    const bool near = std::any_of(kept.begin(), kept.end(), [&](const Line& other) {
      return std::abs(line.from - other.from) + std::abs(line.to - other.to) < 0.04;
    });
    if (!near) kept.push_back(line);
    if (kept.size() == kMostLines) break;
  }
  for (const double edge : {0.0, 1.0}) kept.push_back({edge, edge, 0});
  return kept;
}

Plane turned(const Plane& plane) {
  Plane out(plane.height, plane.width);
  for (uint32_t y = 0; y < plane.height; ++y) {
    for (uint32_t x = 0; x < plane.width; ++x) out.at(y, x) = plane.at(x, y);
  }
  return out;
}

// How L* changes across, held so that one hard edge does not drown the rest.
Plane slope_across(const Plane& l) {
  constexpr float kMost = 12;  // [L*]
  Plane slope(l.width, l.height);
  for (uint32_t y = 0; y < l.height; ++y) {
    for (uint32_t x = 1; x + 1 < l.width; ++x) {
      slope.at(x, y) = std::min(kMost, std::abs(l.at(x + 1, y) - l.at(x - 1, y)));
    }
  }
  return slope;
}

// Where a line down and a line across meet: x = a + (b - a) y, y = c + (d - c) x.
Point meeting(const Line& down, const Line& across) {
  const double lean = down.to - down.from, rise = across.to - across.from;
  const double x = (down.from + lean * across.from) / (1 - lean * rise);
  return {x, across.from + rise * x};
}

Corners between(const Line& left, const Line& right, const Line& top, const Line& bottom) {
  return {meeting(left, top), meeting(right, top), meeting(right, bottom), meeting(left, bottom)};
}

// All that could be the print's outline, going round from the photo's top left.
std::vector<Corners> outlines(const Plane& small) {
  auto down = lines_down(slope_across(small)), across = lines_down(slope_across(turned(small)));
  const auto by_place = [](const Line& p, const Line& q) { return p.from + p.to < q.from + q.to; };
  std::sort(down.begin(), down.end(), by_place);
  std::sort(across.begin(), across.end(), by_place);
  std::vector<Corners> found;
  for (size_t l = 0; l < down.size(); ++l) {
    for (size_t r = l + 1; r < down.size(); ++r) {
      for (size_t t = 0; t < across.size(); ++t) {
        for (size_t b = t + 1; b < across.size(); ++b) {
          const Corners corners = between(down[l], down[r], across[t], across[b]);
          if (is_convex(corners) && area_of(corners) >= kLeastArea) found.push_back(corners);
        }
      }
    }
  }
  for (const double side : {1.0, 0.9, 0.8, 0.7, 0.6, 0.5}) {
    const double a = (1 - side) / 2, b = 1 - a;
    found.push_back({{{a, a}, {b, a}, {b, b}, {a, b}}});
  }
  return found;
}

struct Candidate {
  Homography place;
  double match = 0;
};

// Correlation of two small pictures' L* at a grid of places.
class QuickMatch {
 public:
  QuickMatch(const Plane& photo, const Plane& promise) : photo_(photo) {
    const double longer = std::max(promise.width, promise.height);
    const auto side = [&](uint32_t s) {
      return std::max(6u, uint32_t(std::lround(26 * s / longer)));
    };
    small_ = shrunk(promise, side(promise.width), side(promise.height));
    for (const float value : small_.values) mean_ += value;
    mean_ /= double(small_.values.size());
  }
  double operator()(const Homography& place) const {
    double sum = 0, square = 0, both = 0, own = 0;
    for (uint32_t y = 0; y < small_.height; ++y) {
      for (uint32_t x = 0; x < small_.width; ++x) {
        const Point at = place({(x + 0.5) / small_.width, (y + 0.5) / small_.height});
        if (at.x < -0.05 || at.y < -0.05 || at.x > 1.05 || at.y > 1.05) return -1;
        const double value = photo_.sample(at.x, at.y), off = double(small_.at(x, y)) - mean_;
        sum += value, square += value * value, both += value * off, own += off * off;
      }
    }
    const double count = double(small_.values.size()), spread = square - sum * sum / count;
    return spread > 0 && own > 0 ? both / std::sqrt(spread * own) : 0;
  }

 private:
  const Plane& photo_;
  Plane small_;
  double mean_ = 0;
};

// The front whose picture, inside its border, has the corners of `picture_place`.
Homography front_of(const Homography& picture_place, const std::array<double, 4>& p) {
  const double w = p[2] - p[0], h = p[3] - p[1];
  return picture_place.after(Homography({1 / w, 0, -p[0] / w, 0, 1 / h, -p[1] / h, 0, 0, 1}));
}

// The best first, no two of them nearly the same.
void keep_best(std::vector<Candidate>& candidates) {
  std::sort(candidates.begin(), candidates.end(),
            [](const Candidate& p, const Candidate& q) { return p.match > q.match; });
  std::vector<Candidate> kept;
  for (const Candidate& each : candidates) {
    const Corners mine = each.place.corners();
    const bool near = std::any_of(kept.begin(), kept.end(), [&](const Candidate& other) {
      const Corners its = other.place.corners();
      double far = 0;
      for (size_t i = 0; i < 4; ++i) far += std::hypot(mine[i].x - its[i].x, mine[i].y - its[i].y);
      return far < 0.06;
    });
    if (!near) kept.push_back(each);
    if (kept.size() == kRefined) break;
  }
  candidates = std::move(kept);
}

}  // namespace

Result<Alignment> find_print(const Pyramid& photo, const Plane& promise_l,
                             const std::array<double, 4>& picture, const Watch& watch) {
  size_t level = 0;
  while (level + 1 < photo.size() &&
         std::max(photo[level].width, photo[level].height) > kSmall * 1.4) {
    ++level;
  }
  const Plane small = blurred(photo[level], 1);
  const QuickMatch match(small, promise_l);
  const double wanted = double(promise_l.width) / promise_l.height,
               photo_ratio = double(photo[0].width) / photo[0].height;
  std::vector<Candidate> candidates;
  const auto all = outlines(small);
  for (size_t i = 0; i < all.size(); ++i) {
    if (i % 512 == 0 && !keep_going(watch, 0.4 * double(i) / double(all.size()))) return stopped();
    for (size_t turn = 0; turn < 4; ++turn) {
      Corners corners;
      for (size_t k = 0; k < 4; ++k) corners[k] = all[i][(k + turn) % 4];
      const auto place = Homography::to(corners);
      if (!place) continue;
      // Some shapes are out of the question however the photo was taken.
      const double apart = std::abs(std::log(shape_seen(*place, photo_ratio, true).ratio / wanted));
      if (apart > std::log(1.6)) continue;
      candidates.push_back({*place, match(*place)});
      if (picture[2] - picture[0] >= 1) continue;
      const Homography front = front_of(*place, picture);
      candidates.push_back({front, match(front)});
    }
    if (candidates.size() > 4000) keep_best(candidates);
  }
  keep_best(candidates);
  const Template coarse = template_of(promise_l, 64), finer = template_of(promise_l, 128),
                 whole = template_of(promise_l, kMatched);
  for (size_t i = 0; i < candidates.size(); ++i) {
    if (!keep_going(watch, 0.4 + 0.4 * double(i) / double(candidates.size()))) return stopped();
    Homography& place = candidates[i].place;
    refine_at(place, photo, coarse, 12);
    refine_at(place, photo, finer, 8);
    candidates[i].match = match_with(place, photo, whole);
  }
  keep_best(candidates);
  if (candidates.empty()) return Alignment{};
  Alignment best{candidates[0].place, candidates[0].match};
  const Alignment fine = refine(best.print_to_photo, photo, promise_l);
  return fine.match > best.match ? fine : best;
}

}  // namespace proofleaf::returned
