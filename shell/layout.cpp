// Where the sheet, the caption, the picture and the foot line lie on the table.
#include <algorithm>

#include "app.h"
#include "words.h"

namespace proofleaf::shell {
namespace {

constexpr float kSheetWide = 360;
constexpr float kNarrow = 760;  // below it, the sheet lies at the bottom

float strip_height(const App& app) { return app.look.target() + k24; }

void place_sheet(App& app) {
  Layout& l = app.layout;
  if (!l.narrow) {
    l.sheet = {k12, k12, kSheetWide, l.height - 2 * k12};
    l.strip = {};
    return;
  }
  const float strip = strip_height(app);
  const float raised = std::max(strip + 120, std::min(l.height * 0.56f, l.height - 220));
  const float high = app.job.sheet_raised ? raised : strip;
  l.sheet = {0, l.height - high, l.width, high + kRound};
  l.strip = {0, l.sheet.y, l.width, strip};
}

float foot_height(const App& app) {
  // Buttons, and beneath them a line for the reading where there is room for one.
  return app.layout.narrow ? app.look.target()
                           : app.look.target() + app.look.size(Face::small) + k12;
}

}  // namespace

void lay_out(App& app, float width, float height) {
  Layout& l = app.layout;
  l.width = width;
  l.height = height;
  l.narrow = width < kNarrow;
  place_sheet(app);
  const float gap = l.narrow ? k8 : k12;
  const float left = l.narrow ? gap : l.sheet.right() + gap;
  const float bottom = l.narrow ? l.sheet.y - gap : height - gap;
  const float wide = std::max(80.f, width - gap - left);
  l.caption_words = caption_words(app);
  const float wrapped = app.look.measure(Face::body, l.caption_words, wide - 2 * k16).y;
  // The slip does not shrink while the words change, so that the picture stays where it is.
  const bool same = l.caption.w == wide && l.caption_paper == app.job.paper;
  l.caption_paper = app.job.paper;
  const float high = wrapped + 2 * (l.narrow ? k8 : k12);
  l.caption = {left, gap, wide, same ? std::max(l.caption.h, high) : high};
  const float foot = foot_height(app);
  l.foot = {left, bottom - foot, wide, foot};
  const float air = l.narrow ? k8 : k24;
  const float top = l.caption.bottom() + air;
  l.stage = {left + (l.narrow ? 0 : k12), top, wide - (l.narrow ? 0 : 2 * k12),
             std::max(60.f, l.foot.y - walk_room(app) - air - top)};
  l.blockers = {l.sheet, l.caption, l.foot};
}

}  // namespace proofleaf::shell
