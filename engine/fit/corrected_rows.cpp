#include "fit/corrected_rows.h"

#include <algorithm>

#include "fit/master_space.h"
#include "proof/cube_build.h"

namespace proofleaf {
namespace {

class ExactRows final : public RowSource {
 public:
  ExactRows(std::unique_ptr<RowSource> rows, std::shared_ptr<const ColourMap> map)
      : rows_(std::move(rows)), map_(std::move(map)) {}
  RowFormat format() const override { return rows_->format(); }
  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    if (auto got = rows_->read(first, count, into); !got) return got;
    row_.resize(format().row_samples());
    for (size_t at = 0; at < into.size(); at += row_.size()) {
      const auto row = into.subspan(at, row_.size());
      std::transform(row.begin(), row.end(), row_.begin(),
                     [](uint16_t code) { return static_cast<float>(code) / 65535; });
      map_->apply(row_);
      std::transform(row_.begin(), row_.end(), row.begin(), [](float value) {
        return static_cast<uint16_t>(std::clamp(value, 0.0f, 1.0f) * 65535 + 0.5f);
      });
    }
    return done();
  }

 private:
  std::unique_ptr<RowSource> rows_;
  std::shared_ptr<const ColourMap> map_;
  std::vector<float> row_;
};

class CubeRows final : public RowSource {
 public:
  CubeRows(std::unique_ptr<RowSource> rows, Cube cube)
      : rows_(std::move(rows)), cube_(std::move(cube)) {}
  RowFormat format() const override { return rows_->format(); }
  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    if (auto got = rows_->read(first, count, into); !got) return got;
    constexpr size_t kPiece = 4096;  // [pixels], stays in the cache
    lanes_.resize(kPiece * 4);
    for (size_t at = 0; at < into.size(); at += kPiece * 3) {
      const auto rgb = into.subspan(at, std::min(kPiece * 3, into.size() - at));
      apply_cube(cube_, rgb, std::span(lanes_.data(), rgb.size() / 3 * 4));
      for (size_t i = 0; i < rgb.size() / 3; ++i) std::copy_n(&lanes_[i * 4], 3, &rgb[i * 3]);
    }
    return done();
  }

 private:
  std::unique_ptr<RowSource> rows_;
  Cube cube_;
  std::vector<uint16_t> lanes_;
};

}  // namespace

Result<Cube> map_cube(const Profile& master, const ColourMap& map, uint32_t grid,
                      const Watch& watch) {
  if (grid < 2 || grid > kLargestGrid) return Error{"A cube of that size cannot be built."};
  auto space = MasterSpace::make(master);
  if (!space) return space.error();
  Cube cube{grid, 3, space.value()->shaper(), {}, {}, {}};
  cube.nodes.reserve(size_t{grid} * grid * grid * 4);
  const std::vector<float> levels = node_levels(cube.shaper, grid);
  std::vector<float> plane;
  for (uint32_t red = 0; red < grid; ++red) {
    if (!keep_going(watch, double(red) / grid)) return stopped();
    plane.clear();
    for (const float green : levels) {
      for (const float blue : levels) plane.insert(plane.end(), {levels[red], green, blue});
    }
    map.apply(plane);
    for (size_t i = 0; i < plane.size(); i += 3) {
      for (size_t c = 0; c < 3; ++c) cube.nodes.push_back(node_code(65535.0 * plane[i + c]));
      cube.nodes.push_back(0);
    }
  }
  return cube;
}

Result<std::unique_ptr<RowSource>> corrected(std::unique_ptr<RowSource> rows, const Profile& master,
                                             std::shared_ptr<const ColourMap> map,
                                             const LocalContrastUse& local) {
  if (rows->format().channels != 3) return Error{"The picture's rows are not RGB."};
  if (local.guide) {
    auto with = local_contrast_rows(std::move(rows), master, local.guide, local.amount, local.part);
    if (!with) return with.error();
    rows = with.take();
  }
  if (!map || !map->changes()) return rows;
  const uint64_t nodes = uint64_t{kCorrectionGrid} * kCorrectionGrid * kCorrectionGrid;
  if (uint64_t{rows->format().width} * rows->format().height <= nodes) {
    return std::unique_ptr<RowSource>(std::make_unique<ExactRows>(std::move(rows), std::move(map)));
  }
  auto cube = map_cube(master, *map, kCorrectionGrid, {});
  if (!cube) return cube.error();
  return std::unique_ptr<RowSource>(std::make_unique<CubeRows>(std::move(rows), cube.take()));
}

}  // namespace proofleaf
