#include "detail.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <utility>

#include "app.h"
#include "json_read.h"
#include "words.h"

namespace proofleaf::shell {
namespace {

constexpr double kStill = 0.2;       // the view rests that long before tiles are asked for [s]
constexpr double kFarAway = 1e9;     // [tiles] of what is not in view
constexpr double kCutSlice = 0.004;  // of one frame, for cutting an answer up [s]
constexpr size_t kTileSamples =
    size_t{kTileSide + 2 * kTileApron} * (kTileSide + 2 * kTileApron) * 3;
constexpr size_t kMostTiles = kMostTileBytes / (kTileSamples * sizeof(uint16_t));
// A TIFF is read where it is wanted; other files from their first row down, each time anew.
constexpr uint32_t kAtOnce = 6, kAtOnceFromTop = 20;

struct Place {
  uint32_t column, row;
  double far;  // from the view's middle [tiles]
};

struct Stretch {
  double left, top, right, bottom;  // [master pixels]
};

Stretch in_view(const App& app) {
  Stretch all{1e9, 1e9, 0, 0};
  const double w = app.job.master.width, h = app.job.master.height;
  for (const Pane& pane : panes(app)) {
    const Rect place = picture_place(app, pane);
    const double scale = w / place.w;
    all.left = std::min(all.left, (pane.rect.x - place.x) * scale);
    all.right = std::max(all.right, (pane.rect.right() - place.x) * scale);
    all.top = std::min(all.top, (pane.rect.y - place.y) * scale);
    all.bottom = std::max(all.bottom, (pane.rect.bottom() - place.y) * scale);
  }
  return {std::clamp(all.left, 0.0, w), std::clamp(all.top, 0.0, h), std::clamp(all.right, 0.0, w),
          std::clamp(all.bottom, 0.0, h)};
}

// The tiles in view, the nearest to its middle first.
std::vector<Place> places_in_view(const App& app) {
  const Stretch view = in_view(app);
  std::vector<Place> places;
  if (view.right <= view.left || view.bottom <= view.top) return places;
  const double x = (view.left + view.right) / 2 / kTileSide - 0.5;
  const double y = (view.top + view.bottom) / 2 / kTileSide - 0.5;
  const auto end = [](double edge) { return uint32_t(std::ceil(edge / kTileSide)); };
  for (auto row = uint32_t(view.top / kTileSide); row < end(view.bottom); ++row)
    for (auto column = uint32_t(view.left / kTileSide); column < end(view.right); ++column)
      places.push_back({column, row, std::hypot(column - x, row - y)});
  std::sort(places.begin(), places.end(),
            [](const Place& a, const Place& b) { return a.far < b.far; });
  return places;
}

// Tiles worth showing: none where the preview is as fine, nor where far more would be in view than
// can be kept.
std::vector<Place> wanted_places(const App& app) {
  if (app.preview.empty() || app.preview.columns >= app.job.master.width) return {};
  const double zoom = zoom_of(app, panes(app).front());
  if (zoom <= double(app.preview.columns) / app.job.master.width * 1.1) return {};
  std::vector<Place> places = places_in_view(app);
  const size_t most = app.contrast.used.empty() ? kMostTiles : kMostTiles / 2;
  if (places.size() > most) places.resize(zoom < 1 ? 0 : most);
  return places;
}

DetailTile* find_tile(const Detail& detail, uint32_t column, uint32_t row) {
  for (const auto& tile : detail.tiles)
    if (tile->column == column && tile->row == row) return tile.get();
  return nullptr;
}

void mark_in_view(Detail& detail, const std::vector<Place>& wanted) {
  ++detail.frame;
  for (const auto& tile : detail.tiles) {
    tile->in_view = false;
    tile->far = kFarAway;
  }
  detail.missing = 0;
  for (const Place& place : wanted) {
    if (DetailTile* tile = find_tile(detail, place.column, place.row)) {
      tile->in_view = true;
      tile->far = place.far;
      tile->used = detail.frame;
    } else {
      ++detail.missing;
    }
  }
  std::sort(detail.tiles.begin(), detail.tiles.end(),
            [](const auto& a, const auto& b) { return a->far < b->far; });
}

void stop_stale(App& app, const std::vector<Place>& wanted) {
  const Task* task = find_task(app, TaskKind::crop);
  const TileBlock& asked = app.detail.asked;
  const bool of_use = std::any_of(wanted.begin(), wanted.end(), [&](const Place& place) {
    return asked.holds(place.column, place.row);
  });
  if (task && !of_use) stop_task(app, task->work);
}

// A block of missing tiles around the nearest one: as many as lie side by side, then as many rows
// of as many.
TileBlock next_block(const Detail& detail, const std::vector<Place>& wanted, uint32_t most) {
  const auto missing = [&](uint32_t column, uint32_t row) {
    return !find_tile(detail, column, row) &&
           std::any_of(wanted.begin(), wanted.end(), [&](const Place& place) {
             return place.column == column && place.row == row;
           });
  };
  const auto first = std::find_if(wanted.begin(), wanted.end(), [&](const Place& place) {
    return !find_tile(detail, place.column, place.row);
  });
  if (first == wanted.end()) return {};
  TileBlock block{first->column, first->row, first->column + 1, first->row + 1};
  const auto row_missing = [&](uint32_t row) {
    for (uint32_t column = block.left; column < block.right; ++column)
      if (!missing(column, row)) return false;
    return true;
  };
  for (bool grown = true; std::exchange(grown, false);) {
    if (block.count() < most && missing(block.right, block.top)) ++block.right, grown = true;
    if (block.count() < most && block.left > 0 && missing(block.left - 1, block.top))
      --block.left, grown = true;
  }
  const auto room = [&] { return block.count() + block.right - block.left <= most; };
  for (bool grown = true; std::exchange(grown, false);) {
    if (room() && row_missing(block.bottom)) ++block.bottom, grown = true;
    if (room() && block.top > 0 && row_missing(block.top - 1)) --block.top, grown = true;
  }
  return block;
}

// A tile's samples with its apron, or a block's; as far as the master goes.
struct SampleRect {
  uint32_t x, y, width, height;
};
SampleRect samples_of(const App& app, const TileBlock& block) {
  const auto from = [](uint32_t tile) { return tile == 0 ? 0 : tile * kTileSide - kTileApron; };
  const uint32_t x = from(block.left), y = from(block.top);
  const uint32_t right = std::min(app.job.master.width, block.right * kTileSide + kTileApron);
  const uint32_t bottom = std::min(app.job.master.height, block.bottom * kTileSide + kTileApron);
  return {x, y, right - x, bottom - y};
}

void ask_block(App& app, const TileBlock& block) {
  put_off_exact_cubes(app);
  const SampleRect wanted = samples_of(app, block);
  Task task;
  task.kind = TaskKind::crop;
  task.words = words::kDetailing;
  task.since = now();
  Json request = {{"op", "crop"},  {"assume", app.job.master.assume}, {"x", wanted.x},
                  {"y", wanted.y}, {"width", wanted.width},           {"height", wanted.height}};
  std::vector<FileUse> files = master_files(app);
  if (!app.contrast.used.empty()) {
    request["local_contrast"] = app.contrast.amount;
    files.push_back({"guide", app.contrast.guide});
  }
  task.work = app.host.start(dump_json(request), files);
  if (task.work <= 0) return;
  app.tasks.push_back(std::move(task));
  app.detail.asked = block;
  app.detail.asked_count += block.count();
}

// The tiles seen longest ago go.
void make_room(App& app) {
  Detail& detail = app.detail;
  while (detail.bytes() > kMostTileBytes) {
    const auto oldest = std::min_element(
        detail.tiles.begin(), detail.tiles.end(), [](const auto& a, const auto& b) {
          return a->used != b->used ? a->used < b->used : a->far > b->far;
        });
    drop_picture(app, (*oldest)->picture);
    detail.tiles.erase(oldest);
  }
}

std::vector<uint16_t> cut_samples(const ArrivedTiles& arrived, const Bytes& of,
                                  const SampleRect& part) {
  std::vector<uint16_t> rgb(size_t{part.width} * part.height * 3);
  for (uint32_t line = 0; line < part.height; ++line) {
    const size_t from = size_t{part.y - arrived.y + line} * arrived.width + part.x - arrived.x;
    std::memcpy(&rgb[size_t{line} * part.width * 3], &of[from * 6], size_t{part.width} * 6);
  }
  return rgb;
}

std::unique_ptr<DetailTile> cut_tile(const App& app, const ArrivedTiles& arrived, uint32_t column,
                                     uint32_t row) {
  const SampleRect part = samples_of(app, {column, row, column + 1, row + 1});
  auto tile = std::make_unique<DetailTile>();
  tile->column = column;
  tile->row = row;
  Picture& picture = tile->picture;
  picture.x = part.x;
  picture.y = part.y;
  picture.width = picture.columns = part.width;
  picture.height = picture.rows = part.height;
  picture.rgb = cut_samples(arrived, arrived.rgb, part);
  if (!arrived.printed.empty()) picture.printed.rgb = cut_samples(arrived, arrived.printed, part);
  return tile;
}

void cut_up(App& app) {
  auto& arrived = app.detail.arrived;
  const double end = now() + kCutSlice;
  while (arrived && now() < end) {
    const uint32_t across = arrived->block.right - arrived->block.left;
    const uint32_t column = arrived->block.left + arrived->next % across;
    const uint32_t row = arrived->block.top + arrived->next / across;
    if (!find_tile(app.detail, column, row)) {
      app.detail.tiles.push_back(cut_tile(app, *arrived, column, row));
      app.detail.tiles.back()->used = app.detail.frame;
      app.detail.tiles.back()->far = kFarAway;
      make_room(app);
    }
    if (++arrived->next == arrived->block.count()) arrived.reset();
  }
}

}  // namespace

size_t Detail::bytes() const {
  size_t sum = 0;
  for (const auto& tile : tiles)
    sum += (tile->picture.rgb.size() + tile->picture.printed.rgb.size()) * sizeof(uint16_t);
  return sum;
}

void update_detail(App& app) {
  cut_up(app);
  const std::vector<Place> wanted = wanted_places(app);
  mark_in_view(app.detail, wanted);
  stop_stale(app, wanted);
  if (app.detail.missing == 0 || app.detail.arrived || find_task(app, TaskKind::crop) ||
      now() - app.view_still_since < kStill || app.detail.failed)
    return;
  const bool in_place = app.job.master.container == "TIFF";
  ask_block(app, next_block(app.detail, wanted, in_place ? kAtOnce : kAtOnceFromTop));
}

bool take_tiles(App& app, const Json& json, Bytes rgb, Bytes printed) {
  const TileBlock& asked = app.detail.asked;
  ArrivedTiles arrived{asked,
                       0,
                       count_of(json, "x"),
                       count_of(json, "y"),
                       count_of(json, "width"),
                       count_of(json, "height"),
                       std::move(rgb),
                       std::move(printed)};
  const SampleRect wanted = samples_of(app, asked);
  const bool fits = arrived.x == wanted.x && arrived.y == wanted.y &&
                    arrived.width == wanted.width && arrived.height == wanted.height &&
                    arrived.rgb.size() == size_t{wanted.width} * wanted.height * 6 &&
                    arrived.printed.empty() == app.contrast.used.empty() &&
                    (arrived.printed.empty() || arrived.printed.size() == arrived.rgb.size());
  if (!fits || asked.count() == 0) return false;
  app.detail.arrived = std::move(arrived);
  return true;
}

void drop_detail(App& app) {
  if (const Task* task = find_task(app, TaskKind::crop)) stop_task(app, task->work);
  for (const auto& tile : app.detail.tiles) drop_picture(app, tile->picture);
  app.detail = Detail{};
}

void detail_failed(App& app) { app.detail.failed = true; }

bool detail_waits(const App& app) {
  if (app.detail.arrived) return true;
  for (const auto& tile : app.detail.tiles)
    if (tile->in_view && !picture_current(app, tile->picture)) return true;
  return app.detail.missing > 0 && !app.detail.failed &&
         now() - app.view_still_since < kStill + 0.05;
}

const uint16_t* detail_at(const App& app, double px, double py, bool as_printed) {
  for (const auto& tile : app.detail.tiles)
    if (const uint16_t* sample = tile->picture.at(px, py, as_printed)) return sample;
  return nullptr;
}

}  // namespace proofleaf::shell
