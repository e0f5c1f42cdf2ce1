// Marks: places where the print departs from its promise by more than registration, blur and noise
// explain. A pixel of the print agrees with its promise where it lies between the darkest and the
// lightest promised tone within two pixels of it, so that edges and texture raise no false alarm;
// what is left is a mark where it stands out from the usual departures around it.
#include <algorithm>
#include <cmath>

#include "returned/compare.h"

namespace proofleaf::returned {
namespace {

constexpr int kReach = 2;             // [pixels] of tolerance
constexpr double kLeastContrast = 3;  // [L*] of a mark
constexpr double kSpreads = 4.5;      // above the usual departures
constexpr double kBandContrast = 1;   // [L*] of a band, which the eye finds sooner
constexpr float kBlown = 0.03f;       // around it nothing is looked at

// The promise as tones come out in the photo.
class ToneMap {
 public:
  explicit ToneMap(const std::vector<ToneFound>& tones) : tones_(tones) {}
  float operator()(float l) const {
    if (tones_.empty()) return l;
    if (l <= tones_.front().l) return l + float(tones_.front().off);
    for (size_t i = 1; i < tones_.size(); ++i) {
      const ToneFound &a = tones_[i - 1], &b = tones_[i];
      if (l > b.l) continue;
      const double part = (l - a.l) / std::max(0.01, b.l - a.l);
      return l + float(a.off + part * (b.off - a.off));
    }
    return l + float(tones_.back().off);
  }

 private:
  const std::vector<ToneFound>& tones_;
};

// The least (or most) within kReach pixels, across then down.
template <class Pick>
Plane nearby(const Plane& plane, const Pick& pick) {
  Plane across = plane, both = plane;
  for (int turn = 0; turn < 2; ++turn) {
    const Plane& in = turn == 0 ? plane : across;
    Plane& out = turn == 0 ? across : both;
    for (uint32_t y = 0; y < plane.height; ++y) {
      for (uint32_t x = 0; x < plane.width; ++x) {
        float value = in.at(x, y);
        for (int d = -kReach; d <= kReach; ++d) {
          const int64_t px = turn == 0 ? int64_t{x} + d : x, py = turn == 0 ? y : int64_t{y} + d;
          if (px < 0 || py < 0 || px >= plane.width || py >= plane.height) continue;
          value = pick(value, in.at(uint32_t(px), uint32_t(py)));
        }
        out.at(x, y) = value;
      }
    }
  }
  return both;
}

struct Departures {
  Plane off;         // [L*] beyond what is promised nearby; 0 within
  Plane plain;       // print minus promise at the very pixel
  Plane range;       // how much the promise varies nearby
  Plane usual;       // how much it departs around here
  Plane looked;      // 1 where marks are looked for
  Plane mirrored;    // 1 where a reflection is blown out
  double glare = 0;  // share of the picture
};

void look(const Promise& promise, const Laid& laid, Departures& d) {
  const uint32_t w = promise.l.width, h = promise.l.height;
  Plane blown = blurred(laid.clipped, std::max(w, h) / 100.0);
  d.looked = d.mirrored = Plane(w, h);
  size_t pictured = 0, lost = 0;
  // Not the picture's own rim either, where the paper is cut and casts a shadow.
  const double rim = 4;
  for (uint32_t y = 0; y < h; ++y) {
    for (uint32_t x = 0; x < w; ++x) {
      const size_t i = size_t{y} * w + x;
      const bool inside = x >= promise.left * w + rim && x < promise.right * w - rim &&
                          y >= promise.top * h + rim && y < promise.bottom * h - rim;
      // Blown out where white was promised is no reflection.
      const bool glare = blown.values[i] > kBlown && promise.l.values[i] < 97;
      pictured += inside ? 1 : 0;
      lost += inside && glare ? 1 : 0;
      d.mirrored.values[i] = inside && glare ? 1.f : 0.f;
      d.looked.values[i] = inside && !laid.outside(i) && !glare ? 1.f : 0.f;
    }
  }
  d.glare = pictured > 0 ? double(lost) / double(pictured) : 0;
}

Departures departures_of(const Promise& promise, const Laid& laid, const Seen& seen,
                         const std::vector<ToneFound>& tones) {
  const uint32_t w = promise.l.width, h = promise.l.height;
  const ToneMap as_seen(tones);
  Plane aim = promise.l;
  for (float& l : aim.values) l = as_seen(l);
  Departures d;
  look(promise, laid, d);
  d.plain = Plane(w, h);
  Plane slow(w, h);
  for (size_t i = 0; i < aim.values.size(); ++i) {
    if (d.looked.values[i] == 0) continue;
    d.plain.values[i] = seen.l.values[i] - aim.values[i];
    slow.values[i] = std::clamp(d.plain.values[i], -4.f, 4.f);
  }
  // What changes slowly is light and tone, not a mark.
  const double wide = std::max(w, h) / 40.0;
  slow = blurred(slow, wide);
  const Plane share = blurred(d.looked, wide);
  const Plane least = nearby(aim, [](float a, float b) { return std::min(a, b); }),
              most = nearby(aim, [](float a, float b) { return std::max(a, b); });
  d.off = d.range = Plane(w, h);
  Plane size(w, h);
  for (size_t i = 0; i < aim.values.size(); ++i) {
    d.range.values[i] = most.values[i] - least.values[i];
    if (d.looked.values[i] == 0) continue;
    const float drift = slow.values[i] / std::max(0.2f, share.values[i]);
    d.plain.values[i] -= drift;
    const float print = seen.l.values[i] - drift;
    d.off.values[i] = print < least.values[i]  ? print - least.values[i]
                      : print > most.values[i] ? print - most.values[i]
                                               : 0;
    size.values[i] = std::min(std::abs(d.off.values[i]), 8.f);
  }
  d.usual = blurred(size, std::max(w, h) / 60.0);
  return d;
}

// Connected pixels of one sign.
struct Blob {
  std::vector<uint32_t> pixels;
  double sum = 0, peak = 0;
};

// From a pixel that stands out on to all around it that stand out half as much, over gaps of one
// pixel, as texture cuts into a scratch.
Blob blob_from(uint32_t start, const Plane& off, const Plane& limit, std::vector<uint8_t>& seen) {
  constexpr size_t kMost = 400'000;
  constexpr int64_t kGap = 2;
  Blob blob;
  const float sign = off.values[start] > 0 ? 1.f : -1.f;
  std::vector<uint32_t> waiting{start};
  seen[start] = 1;
  while (!waiting.empty()) {
    const uint32_t i = waiting.back();
    waiting.pop_back();
    if (blob.pixels.size() < kMost) blob.pixels.push_back(i);
    blob.sum += off.values[i];
    blob.peak = std::max(blob.peak, std::abs(double(off.values[i])));
    const int64_t x = i % off.width, y = i / off.width;
    for (int64_t py = std::max<int64_t>(0, y - kGap);
         py <= std::min<int64_t>(off.height - 1, y + kGap); ++py) {
      for (int64_t px = std::max<int64_t>(0, x - kGap);
           px <= std::min<int64_t>(off.width - 1, x + kGap); ++px) {
        const auto next = static_cast<uint32_t>(py * off.width + px);
        if (seen[next] || sign * off.values[next] <= limit.values[next] / 2) continue;
        seen[next] = 1;
        waiting.push_back(next);
      }
    }
  }
  return blob;
}

// Length and width from second moments: those of an even bar are sqrt(12) spreads.
Mark mark_of(const Blob& blob, const Promise& promise) {
  const uint32_t w = promise.l.width;
  double mx = 0, my = 0, xx = 0, xy = 0, yy = 0;
  double left = 1e9, top = 1e9, right = 0, bottom = 0;
  for (const uint32_t i : blob.pixels) {
    const uint32_t row = i / w;
    const double x = i % w, y = row;
    mx += x, my += y, xx += x * x, xy += x * y, yy += y * y;
    left = std::min(left, x), right = std::max(right, x + 1);
    top = std::min(top, y), bottom = std::max(bottom, y + 1);
  }
  const auto n = double(blob.pixels.size());
  mx /= n, my /= n;
  const double a = xx / n - mx * mx + 1.0 / 12, b = xy / n - mx * my,
               c = yy / n - my * my + 1.0 / 12;
  const double middle = (a + c) / 2, half = std::sqrt((a - c) * (a - c) / 4 + b * b);
  Mark mark;
  mark.length_mm = std::sqrt(12 * (middle + half)) * promise.mm_per_pixel();
  mark.width_mm = std::sqrt(12 * std::max(1.0 / 12, middle - half)) * promise.mm_per_pixel();
  mark.kind = mark.length_mm > 4 * mark.width_mm ? MarkKind::scratch : MarkKind::spot;
  mark.contrast = (blob.sum > 0 ? 1 : -1) * blob.peak;
  mark.x = left / w, mark.w = (right - left) / w;
  mark.y = top / promise.l.height, mark.h = (bottom - top) / promise.l.height;
  return mark;
}

void add_blobs(const Departures& d, const Promise& promise, double mark_mm,
               std::vector<Mark>& marks) {
  const double pixels = mark_mm / promise.mm_per_pixel();
  // What is lighter, and broad or around a reflection, is light that the surface mirrors.
  const Plane around = blurred(d.mirrored, std::max(d.off.width, d.off.height) / 25.0);
  const double broad = 0.05 * std::max(promise.width_mm, promise.height_mm);
  const Plane off = blurred(d.off, std::min(2.0, pixels / 5));
  Plane limit(off.width, off.height);
  for (size_t i = 0; i < limit.values.size(); ++i) {
    limit.values[i] = float(std::max(kLeastContrast, kSpreads * double(d.usual.values[i])));
  }
  std::vector<uint8_t> seen(off.values.size());
  for (uint32_t i = 0; i < off.values.size(); ++i) {
    if (seen[i] || std::abs(off.values[i]) <= limit.values[i]) continue;
    const Blob blob = blob_from(i, off, limit, seen);
    const Mark mark = mark_of(blob, promise);
    const double least = mark.kind == MarkKind::scratch ? 3 * mark_mm : mark_mm * 0.8;
    const bool mirrored =
        mark.contrast > 0 && (mark.width_mm > broad ||
                              std::any_of(blob.pixels.begin(), blob.pixels.end(),
                                          [&](uint32_t p) { return around.values[p] > 0.01f; }));
    if (mark.length_mm >= least && blob.pixels.size() >= 4 && !mirrored) marks.push_back(mark);
  }
}

// Lines right across the picture, lighter or darker than promised in the middle of their pixels.
void add_bands(const Departures& d, const Promise& promise, bool down, std::vector<Mark>& marks) {
  const uint32_t across = down ? d.plain.width : d.plain.height,
                 along = down ? d.plain.height : d.plain.width;
  Plane line(across, 1), known(across, 1);
  std::vector<float> values;
  for (uint32_t x = 0; x < across; ++x) {
    values.clear();
    for (uint32_t y = 0; y < along; ++y) {
      const uint32_t px = down ? x : y, py = down ? y : x;
      if (d.looked.at(px, py) > 0 && d.range.at(px, py) < 2) values.push_back(d.plain.at(px, py));
    }
    if (values.size() < along * 2 / 5) continue;
    known.at(x, 0) = 1;
    line.at(x, 0) = static_cast<float>(median_of(values));
  }
  const double wide = across / 50.0;
  const Plane slow = blurred(line, wide), share = blurred(known, wide);
  std::vector<float> sizes;
  for (uint32_t x = 0; x < across; ++x) {
    line.at(x, 0) =
        known.at(x, 0) > 0 ? line.at(x, 0) - slow.at(x, 0) / std::max(0.2f, share.at(x, 0)) : 0;
    if (known.at(x, 0) > 0) sizes.push_back(std::abs(line.at(x, 0)));
  }
  const double limit = std::max(kBandContrast, 6 * 1.4826 * median_of(sizes));
  for (uint32_t x = 0; x < across; ++x) {
    if (std::abs(line.at(x, 0)) <= limit) continue;
    uint32_t end = x;
    double peak = 0;
    while (end < across && std::abs(line.at(end, 0)) > limit / 2 &&
           line.at(end, 0) * line.at(x, 0) > 0) {
      if (std::abs(line.at(end, 0)) > std::abs(peak)) peak = line.at(end, 0);
      ++end;
    }
    Mark mark{MarkKind::band,
              promise.left,
              promise.top,
              promise.right - promise.left,
              promise.bottom - promise.top,
              0,
              0,
              peak};
    (down ? mark.x : mark.y) = double(x) / across;
    (down ? mark.w : mark.h) = double(end - x) / across;
    mark.width_mm = (end - x) * promise.mm_per_pixel();
    mark.length_mm = along * promise.mm_per_pixel();
    marks.push_back(mark);
    x = end;
  }
}

double weight_of(const Mark& mark) {
  return std::abs(mark.contrast) * std::sqrt(mark.length_mm * std::max(0.2, mark.width_mm));
}

}  // namespace

MarksFound find_marks(const Promise& promise, const Laid& laid, const Seen& seen,
                      const std::vector<ToneFound>& tones, double mark_mm) {
  constexpr double kPlain = 6;  // [L*] nobody overlooks
  // Below two pixels of the promise nothing is told from noise.
  MarksFound found;
  found.least_mm = std::max(mark_mm, 2 * promise.mm_per_pixel());
  const Departures d = departures_of(promise, laid, seen, tones);
  found.glare = d.glare;
  add_blobs(d, promise, found.least_mm, found.marks);
  add_bands(d, promise, true, found.marks);
  add_bands(d, promise, false, found.marks);
  std::sort(found.marks.begin(), found.marks.end(),
            [](const Mark& p, const Mark& q) { return weight_of(p) > weight_of(q); });
  if (found.marks.size() > kMostMarks) found.marks.resize(kMostMarks);
  const bool plain = std::any_of(found.marks.begin(), found.marks.end(), [](const Mark& mark) {
    return std::abs(mark.contrast) >= kPlain || mark.kind == MarkKind::band;
  });
  found.verdict = found.marks.empty() ? Found::fine : plain ? Found::wrong : Found::look;
  return found;
}

}  // namespace proofleaf::returned
