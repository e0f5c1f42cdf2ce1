#include "picture.h"

#include <algorithm>

#include "clock.h"

namespace proofleaf::shell {

const uint16_t* Picture::at(double px, double py, bool as_printed) const {
  if (empty() || px < x || py < y || px >= x + width || py >= y + height) return nullptr;
  const auto column = std::min(columns - 1, uint32_t((px - x) / width * columns));
  const auto row = std::min(rows - 1, uint32_t((py - y) / height * rows));
  const auto& samples = as_printed ? samples_of(proof).rgb : rgb;
  return &samples[(size_t{row} * columns + column) * 3];
}

static void begin_layer(const Picture& picture, const ScreenCube& cube, Layer& layer) {
  layer.making.resize(size_t{picture.columns} * picture.rows * 4);
  layer.making_key = cube.key;
  layer.making_grid = cube.grid();
  layer.rows_made = 0;
}

static void finish_layer(Layer& layer) {
  layer.shown.swap(layer.making);
  layer.making = {};
  layer.key = layer.making_key;
  layer.grid = layer.making_grid;
  layer.making_key.clear();
}

bool run_layer(const Picture& picture, const ScreenCube& cube, Layer& layer, double budget) {
  if (picture.empty() || cube.grid() == 0 || layer.shows(cube)) return false;
  if (layer.making_key != cube.key || layer.making_grid != cube.grid() || layer.making.empty())
    begin_layer(picture, cube, layer);
  const std::vector<uint16_t>& samples = picture.samples_of(layer).rgb;
  const double end = now() + budget;
  const size_t row_in = size_t{picture.columns} * 3, row_out = size_t{picture.columns} * 4;
  do {
    const uint32_t count = std::min<uint32_t>(64, picture.rows - layer.rows_made);
    proof_to_screen8(cube.cube,
                     std::span(samples).subspan(layer.rows_made * row_in, count * row_in),
                     std::span(layer.making).subspan(layer.rows_made * row_out, count * row_out));
    layer.rows_made += count;
  } while (layer.rows_made < picture.rows && now() < end);
  if (layer.rows_made < picture.rows) return false;
  finish_layer(layer);
  return true;
}

}  // namespace proofleaf::shell
