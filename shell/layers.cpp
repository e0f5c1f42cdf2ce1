// Runs the pictures through the cubes: on the graphics card where it may, else by the kernel.
#include <algorithm>

#include "app.h"

namespace proofleaf::shell {
namespace {

constexpr double kSlice = 0.020;  // of one frame, for the kernel [s]

bool layer_current(const CubeSlot& slot, const Layer& layer) {
  return !slot.cube || layer.shows(*slot.cube);
}

// True when the layer has just become whole.
bool bring_up(App& app, Picture& picture, const CubeSlot& slot, Layer& layer, double end) {
  if (!slot.cube || layer_current(slot, layer) || picture.empty()) return false;
  if (app.proof_gl.takes(picture, *slot.cube)) return app.proof_gl.run(picture, slot.cube, layer);
  if (!run_layer(picture, *slot.cube, layer, end - now())) return false;
  app.gl.upload(picture, layer);
  return true;
}

// The proof wins over the master: it is what changes while choosing.
void run_picture(App& app, Picture& picture, double end) {
  for (const bool proof : {true, false}) {
    Layer& layer = proof ? picture.proof : picture.master;
    if (now() < end) bring_up(app, picture, proof ? app.proof_cube : app.master_cube, layer, end);
  }
}

// What the preview's proof takes is kept account of.
void run_preview_proof(App& app, double end) {
  if (app.preview.empty() || layer_current(app.proof_cube, app.preview.proof)) return;
  const CostOfScope cost(app.proof_cost);
  bring_up(app, app.preview, app.proof_cube, app.preview.proof, end);
}

// Its bytes are not asked for again.
void run_tile(App& app, Picture& picture, double end) {
  run_picture(app, picture, end);
  for (Layer* layer : {&picture.master, &picture.proof}) layer->shown = {};
}

void forget_layers(Picture& picture) {
  picture.master = picture.proof = Layer{};
  picture.source = picture.source_rows = 0;
  picture.printed.source = picture.printed.source_rows = 0;
}

// Their textures are gone with the context.
void forget_all_layers(App& app) {
  forget_returned_layers(app);
  forget_layers(app.preview);
  for (const auto& tile : app.detail.tiles) forget_layers(tile->picture);
}

}  // namespace

void update_layers(App& app) {
  app.proof_gl.update();
  const double end = now() + kSlice;
  run_preview_proof(app, end);
  run_picture(app, app.preview, end);
  for (const auto& tile : app.detail.tiles)
    if (tile->in_view) run_tile(app, tile->picture, end);
}

bool picture_current(const App& app, const Picture& picture) {
  return picture.empty() || (layer_current(app.proof_cube, picture.proof) &&
                             layer_current(app.master_cube, picture.master));
}

std::optional<double> off_gamut_share(const App& app) {
  const CubeSlot& slot = app.proof_cube;
  if (slot.wanted.empty() || app.preview.proof.key != slot.wanted || !slot.cube)
    return std::nullopt;
  return slot.cube->off_gamut.share(app.job.marking.threshold);
}

void drop_picture(App& app, Picture& picture) {
  app.gl.drop(picture.master);
  app.gl.drop(picture.proof);
  ProofGl::drop(picture);
  ProofGl::drop(picture.printed);
  picture = Picture{};
}

void graphics_lost(App& app) {
  app.proof_gl.lost();
  forget_all_layers(app);
}

void graphics_restored(App& app) {
  app.gl.rebuild();
  rebuild_thumbnails(app);
  drop_sample(app);
  app.check.gl.forget();
  app.rings_gl.rebuild();
  app.choice.rings_sent = false;
  app.look.rebuild();
  app.proof_gl.rebuild();
  forget_all_layers(app);
}

std::vector<uint8_t> shown_bytes(const App& app, const Layer& layer) {
  if (!layer.shown.empty() || layer.texture == 0) return layer.shown;
  return app.proof_gl.read(app.preview, layer);
}

}  // namespace proofleaf::shell
