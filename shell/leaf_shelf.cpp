// The person's own papers on leaf 2: what is kept of them.
#include "app.h"
#include "words_shelf.h"

namespace proofleaf::shell {
namespace {

void draw_forget(App& app) {
  Ui& ui = app.ui;
  ShelfState& shelf = app.shelf;
  if (!shelf.asking) {
    shelf.asking = ui.button("forget", words::kForget, false);
    return;
  }
  ui.words(Face::body, words::kForgetAsk);
  if (ui.button("forget-yes", words::kForgetYes, true)) {
    app.host.shelf_clear();
    shelf.asking = false;
  }
  if (ui.button("forget-no", words::kForgetNo, false)) shelf.asking = false;
}

}  // namespace

void draw_shelf(App& app) {
  Ui& ui = app.ui;
  const ShelfState& shelf = app.shelf;
  if (ui.button("bring-folder", words::kBringFolder, false)) app.host.pick_folder();
  ui.help(words::kBringManyHelp);
  if (shelf.kept == 0 && !shelf.refused) return;
  ui.section(words::kShelf);
  if (shelf.refused) return ui.help(words::kShelfRefused);
  ui.help(shelf.kept == 1 ? words::kShelfKeptOne : text(words::kShelfKept, shelf.kept));
  draw_forget(app);
}

Json shelf_json(const App& app) {
  const ShelfState& shelf = app.shelf;
  return {{"kept", shelf.kept},
          {"refused", shelf.refused},
          {"waiting", shelf.waiting.size()},
          {"unpacking", shelf.unpacking != 0}};
}

}  // namespace proofleaf::shell
