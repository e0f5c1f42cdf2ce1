// The small pictures of a judgement: where it is off the gamut, how far the print differs, and how
// it looks.
#include <cmath>

#include "proof/cube_build.h"
#include "proof/view.h"
#include "rank/lanes.h"
#include "rank/printed.h"

namespace proofleaf {
namespace {

constexpr size_t kMostBoxes = 5;

// Parts of the map that touch and are mostly off the gamut, as a box each.
class Boxes {
 public:
  explicit Boxes(const std::vector<uint8_t>& map) : map_(map), open_(map.size()) {
    for (size_t i = 0; i < map.size(); ++i) open_[i] = map[i] >= 128;
    for (size_t i = 0; i < map.size(); ++i) {
      if (open_[i]) boxes_.push_back(box_from(i));
    }
    std::stable_sort(boxes_.begin(), boxes_.end(), [](const Box& p, const Box& q) {
      return p.width * p.height * p.share > q.width * q.height * q.share;
    });
    if (boxes_.size() > kMostBoxes) boxes_.resize(kMostBoxes);
  }
  std::vector<Box> take() { return std::move(boxes_); }

 private:
  Box box_from(size_t start) {
    size_t left = kMapSide, right = 0, top = kMapSide, bottom = 0;
    std::vector<size_t> todo{start};
    open_[start] = false;
    while (!todo.empty()) {
      const size_t at = todo.back(), x = at % kMapSide, y = at / kMapSide;
      todo.pop_back();
      left = std::min(left, x), right = std::max(right, x);
      top = std::min(top, y), bottom = std::max(bottom, y);
      auto visit = [&](bool inside, size_t next) {
        if (!inside || !open_[next]) return;
        open_[next] = false;
        todo.push_back(next);
      };
      visit(x > 0, at - 1);
      visit(x + 1 < kMapSide, at + 1);
      visit(y > 0, at - kMapSide);
      visit(y + 1 < kMapSide, at + kMapSide);
    }
    double sum = 0;
    for (size_t y = top; y <= bottom; ++y) {
      for (size_t x = left; x <= right; ++x) sum += map_[y * kMapSide + x] / 255.0;
    }
    const double width = double(right - left + 1), height = double(bottom - top + 1);
    return {double(left) / kMapSide, double(top) / kMapSide, width / kMapSide, height / kMapSide,
            sum / (width * height)};
  }

  const std::vector<uint8_t>& map_;
  std::vector<bool> open_;
  std::vector<Box> boxes_;
};

// Of pixels that lie in no part (small pictures) the map has none: a part then shows its nearest.
std::vector<uint8_t> coarse_map(const PictureFacts& facts,
                                const std::vector<uint16_t>& difference) {
  const auto limit = static_cast<uint16_t>(code_of_difference(kOffGamut));
  std::vector<uint32_t> off(kMapSide * kMapSide), all(off.size());
  for (uint32_t y = 0; y < facts.colour.height; ++y) {
    const size_t row = size_t{y} * kMapSide / facts.colour.height * kMapSide;
    for (uint32_t x = 0; x < facts.colour.width; ++x) {
      const size_t part = row + size_t{x} * kMapSide / facts.colour.width;
      ++all[part];
      off[part] += difference[size_t{y} * facts.colour.width + x] > limit;
    }
  }
  std::vector<uint8_t> map(off.size());
  for (size_t i = 0; i < map.size(); ++i) {
    if (all[i] > 0) {
      map[i] = static_cast<uint8_t>((off[i] * 255 + all[i] / 2) / all[i]);
      continue;
    }
    const size_t x = i % kMapSide * facts.colour.width / kMapSide,
                 y = i / kMapSide * facts.colour.height / kMapSide;
    map[i] = difference[y * facts.colour.width + x] > limit ? 255 : 0;
  }
  return map;
}

}  // namespace

double off_gamut_area(const Printed& printed) {
  const auto limit = static_cast<uint16_t>(code_of_difference(kOffGamut));
  const auto off = std::count_if(printed.difference.begin(), printed.difference.end(),
                                 [&](uint16_t code) { return code > limit; });
  return double(off) / double(printed.difference.size());
}

double off_gamut_share(const PictureFacts& facts, const Cube& cube) {
  const auto limit = static_cast<uint16_t>(code_of_difference(kOffGamut));
  const size_t pixels = facts.spread.size() / 3;
  size_t off = 0;
  run_lanes(cube, facts.spread, [&](size_t, std::span<const uint16_t> lanes) {
    for (size_t i = 3; i < lanes.size(); i += 4) off += lanes[i] > limit;
  });
  return double(off) / double(pixels);
}

void note_off_gamut(const PictureFacts& facts, const Printed& printed, Judged& judged,
                    JudgedPictures& pictures) {
  judged.off_gamut = off_gamut_share(facts, printed.cube);
  pictures.off_gamut = coarse_map(facts, printed.difference);
  judged.off_gamut_boxes = Boxes(pictures.off_gamut).take();
}

void draw_difference(const PictureFacts& facts, const Printed& printed, JudgedPictures& pictures) {
  const uint32_t side = std::max(facts.colour.width, facts.colour.height);
  const uint32_t factor = (side + kDifferenceSide - 1) / kDifferenceSide;
  const uint32_t width = (facts.colour.width + factor - 1) / factor,
                 height = (facts.colour.height + factor - 1) / factor;
  std::vector<uint32_t> sums(size_t{width} * height), counts(sums.size());
  for (uint32_t y = 0; y < facts.colour.height; ++y) {
    for (uint32_t x = 0; x < facts.colour.width; ++x) {
      const size_t at = size_t{y / factor} * width + x / factor;
      sums[at] += printed.difference[size_t{y} * facts.colour.width + x];
      ++counts[at];
    }
  }
  pictures.difference_width = width;
  pictures.difference_height = height;
  pictures.difference.resize(sums.size());
  for (size_t i = 0; i < sums.size(); ++i) {
    const double tenths = 10.0 * sums[i] / counts[i] / 512;
    pictures.difference[i] = static_cast<uint8_t>(std::lround(std::min(tenths, 255.0)));
  }
}

void draw_thumbnail(const PictureFacts& facts, std::span<const Lab> colours, const Paper& paper,
                    JudgedPictures& pictures) {
  auto encoder = ScreenEncoder::make(Screen::srgb);
  if (!encoder) return;
  const View view({true, true, Screen::srgb}, xyz_from_lab(paper.white), {});
  Cube cube{facts.grid, 4, facts.shaper, {}, {}, {}};
  cube.nodes.assign(size_t{facts.grid} * facts.grid * facts.grid * 4, 0);
  std::vector<float> screen(3);
  for (size_t i = 0; i < facts.nodes.size(); ++i) {
    const auto rgb = encoder.value().encode(view.shown(xyz_from_lab(colours[i])));
    for (size_t c = 0; c < 3; ++c) screen[c] = static_cast<float>(rgb[c]);
    put_screen_lanes(screen, &cube.nodes[size_t{facts.nodes[i]} * 4]);
  }
  pictures.thumbnail_width = facts.thumbnail.width;
  pictures.thumbnail_height = facts.thumbnail.height;
  pictures.thumbnail.resize(facts.thumbnail.rgb.size() / 3 * 4);
  proof_to_screen8(cube, std::span<const uint16_t>(facts.thumbnail.rgb), pictures.thumbnail);
  for (size_t i = 3; i < pictures.thumbnail.size(); i += 4) pictures.thumbnail[i] = 255;
}

}  // namespace proofleaf
