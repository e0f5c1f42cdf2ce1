// Leaf 6, last: the print that came back, what a photo of it tells, and the four checks.
#include <algorithm>
#include <cmath>

#include "app.h"
#include "returned.h"
#include "words.h"
#include "words_returned.h"

namespace proofleaf::shell {
namespace {

using returned::Found;
using returned::WhiteFrom;

Words found_words(Found found) {
  constexpr Words kWords[] = {words::kFoundFine, words::kFoundLook, words::kFoundWrong,
                              words::kFoundUntold};
  return kWords[int(found)];
}

void draw_bringing(App& app) {
  Ui& ui = app.ui;
  ReturnedState& r = app.returned;
  if (!r.expecting) {
    if (ui.button("bring-print", words::kBringPrint, false, ui.width())) expect_print(app);
    if (r.file == 0) ui.help(words::kPhotoHelp);
    return;
  }
  ui.words(Face::body, words::kExpecting);
  if (ui.button("not-expecting", words::kNotExpecting, false)) r.expecting = false;
}

// Which of the three lies on the table, and what can be done to the photo.
void draw_photo_tools(App& app) {
  Ui& ui = app.ui;
  ReturnedState& r = app.returned;
  ui.toggle("fit-corners", words::kFitCorners, words::kFitCornersHelp, &r.refine);
  if (r.set && ui.button("find-print", words::kFindAgain, false)) r.set.reset();
  if (r.choosing_neutral) ui.words(Face::body, words::kMarkNeutralNow);
  if (r.neutral) {
    if (ui.button("forget-neutral", words::kForgetNeutral, false)) r.neutral.reset();
  } else if (!r.choosing_neutral && ui.button("mark-neutral", words::kMarkNeutral, false)) {
    r.choosing_neutral = true;
  }
}

void draw_photo_settings(App& app) {
  Ui& ui = app.ui;
  ReturnedState& r = app.returned;
  ui.words(Face::bold, r.name);
  r.scan = ui.options("brought-as", words::kBroughtAs, {words::kAsPhoto, words::kAsScan},
                      r.scan ? 1 : 0) == 1;
  ui.space(k8);
  ui.words(Face::body, words::kOnTable);
  const auto before = r.show;
  r.show = ReturnedState::Show(
      ui.options("returned-show", words::kOnTable,
                 {words::kShowPicture, words::kShowPhoto, words::kShowPrint}, int(r.show)));
  if (r.show == ReturnedState::Show::print && r.print.empty()) r.show = ReturnedState::Show::photo;
  if (r.show != before && app.condition.walk == kReturnedWalk &&
      r.show == ReturnedState::Show::photo)
    end_walk(app);
  constexpr Words kHelp[] = {words::kShowPictureHelp, words::kShowPhotoHelp, words::kShowPrintHelp};
  ui.help(kHelp[int(r.show)]);
  if (r.show == ReturnedState::Show::photo) draw_photo_tools(app);
  ui.decimal("mark-size", words::kMarkSize, words::kMarkSizeHelp, &r.mark_mm, 0.2, 50, 1.5);
}

void draw_size(App& app, const JobSeen& seen) {
  Ui& ui = app.ui;
  const returned::SizeFound& size = seen.size;
  if (size.verdict == Found::untold) return;
  ui.words(Face::small, std::fabs(size.wider) <= size.wider_within
                            ? text(words::kShapeAsOrdered, size.wider_within)
                            : text(size.wider > 0 ? words::kShapeWider : words::kShapeNarrower,
                                   std::fabs(size.wider), size.wider_within));
  int told = 0;
  bool off = false;
  for (size_t i = 0; i < size.cut.size(); ++i) {
    if (!size.cut[i]) continue;
    ++told;
    if (std::fabs(*size.cut[i]) <= std::max(1.0, size.cut_within)) continue;
    off = true;
    const Words* which = *size.cut[i] > 0 ? words::kMissingAt : words::kMoreAt;
    ui.words(Face::small, text(which[i], std::fabs(*size.cut[i])));
  }
  ui.words(Face::small, off ? text(words::kEdgesTold, told)
                            : text(words::kEdgesAsOrdered, told, std::max(1.0, size.cut_within)));
  if (size.width_mm && size.height_mm)
    ui.words(Face::small, text(words::kScanSize, *size.width_mm, *size.height_mm));
  ui.help(!seen.scan      ? words::kSizeHides
          : size.width_mm ? words::kScanSizeHides
                          : words::kScanNoSize);
}

Words white_words(const returned::CastFound& cast) {
  if (cast.white == WhiteFrom::none) return words::kCastNoWhite;
  if (cast.mixed_light) return words::kCastMixed;
  return cast.white == WhiteFrom::border ? words::kCastByBorder : words::kCastByNeutral;
}

void draw_cast(App& app, const JobSeen& seen) {
  Ui& ui = app.ui;
  const returned::CastFound& cast = seen.cast;
  constexpr Words kGreys[] = {words::kGreyDark, words::kGreyMiddle, words::kGreyLight};
  const bool judged = cast.white != WhiteFrom::none && !cast.mixed_light;
  bool any = false;
  for (size_t i = 0; judged && i < cast.greys.size(); ++i) {
    if (cast.greys[i].share == 0) continue;
    any = true;
    ui.words(Face::small, text(kGreys[i], signed_number(cast.greys[i].a).c_str(),
                               signed_number(cast.greys[i].b).c_str()));
  }
  ui.help(white_words(cast));
  if (judged) ui.help(any ? words::kCastHides : words::kCastNoGreys);
  if (seen.scan && app.returned.answered)
    ui.help(app.returned.profile_assumed
                ? std::string(words::kScanNoProfile)
                : text(words::kScanCastHides, app.returned.profile.c_str()));
}

void draw_tones(App& app) {
  struct Tone {
    double l;
    Words words;
  };
  constexpr Tone kTones[] = {
      {20, words::kDarkPrinted}, {50, words::kMiddlePrinted}, {80, words::kLightPrinted}};
  bool any = false;
  for (const Tone& tone : kTones) {
    const returned::ToneFound* nearest = nullptr;
    for (const returned::ToneFound& each : app.returned.tones)
      if (std::fabs(each.l - tone.l) < 8 &&
          (!nearest || std::fabs(each.l - tone.l) < std::fabs(nearest->l - tone.l)))
        nearest = &each;
    if (!nearest) continue;
    any = true;
    app.ui.words(Face::small, text(tone.words, signed_number(nearest->off).c_str()));
  }
  if (any) app.ui.help(words::kToneHides);
}

void draw_shadow(App& app, const JobSeen& seen) {
  Ui& ui = app.ui;
  const returned::ShadowFound& shadow = seen.shadow;
  ui.words(Face::small, shadow.closed_until ? text(words::kShadowsClosed, *shadow.closed_until)
                        : shadow.verdict == Found::untold ? std::string(words::kShadowsUntold)
                                                          : std::string(words::kShadowsApart));
  if (shadow.closed_until) ui.help(words::kShadowHides);
  if (app.returned.shadow_place && ui.button("shadow-go", words::kShadowGo, false)) {
    const Box& box = *app.returned.shadow_place;
    const Rect front = front_on(app, {0, 0, 1, 1});
    if (app.returned.show == ReturnedState::Show::photo)
      app.returned.show = ReturnedState::Show::print;
    go_to(app, front.x + (box.x + box.w / 2) * front.w, front.y + (box.y + box.h / 2) * front.h);
  }
  draw_tones(app);
}

void draw_marks(App& app, const JobSeen& seen) {
  Ui& ui = app.ui;
  const returned::MarksFound& marks = seen.marks;
  const int count = int(marks.marks.size());
  if (marks.verdict == Found::untold) return;
  ui.words(Face::small, count == 0   ? text(words::kNoMarks, marks.least_mm)
                        : count == 1 ? text(words::kOneMark, marks.least_mm)
                                     : text(words::kMarks, count, marks.least_mm));
  if (marks.glare >= 0.005) ui.words(Face::small, text(words::kGlare, marks.glare * 100));
  ui.help(words::kMarksHide);
  if (count > 0 && ui.button("walk-marks", words::kMarkWalk, false)) {
    if (!app.returned.print.empty()) app.returned.show = ReturnedState::Show::print;
    walk_to(app, kReturnedWalk, 0);
  }
}

// One check: what was found, then the person's own tick and note.
template <class Findings>
void draw_check(App& app, const char* id, const Words& label, JobCheck& check, JobCheck& ticked,
                const std::optional<Found>& found, const Findings& findings) {
  Ui& ui = app.ui;
  ui.space(k12);
  ui.words(Face::bold, label);
  if (found) {
    ui.words(Face::body, found_words(*found));
    findings();
    ui.space(k4);
  }
  const Looked before = check.found;
  check.found = Looked(
      ui.options(id, label, {words::kNotLooked, words::kFine, words::kWrong}, int(check.found)));
  if (check.found != before) ticked.found = Looked::unknown;  // the person's own from now on
  if (check.found == Looked::unknown && check.note.empty()) return;
  ui.help(words::kNote);
  ui.text_field(std::string(id) + "-note", text("%s, %s", label, words::kNote), &check.note, 255);
}

}  // namespace

void draw_returned(App& app) {
  Ui& ui = app.ui;
  ReturnedState& r = app.returned;
  JobReturned& mine = app.sheet.returned;
  ui.section(words::kReturned);
  ui.help(words::kReturnedHelp);
  draw_bringing(app);
  if (r.answered) draw_photo_settings(app);
  if (!r.measured_sentence.empty()) ui.words(Face::body, r.measured_sentence);
  const JobSeen* seen = mine.seen ? &*mine.seen : nullptr;
  if (seen && r.answered && r.light_falls < 0.97)
    ui.help(text(words::kLightTaken, (1 - r.light_falls) * 100));
  const auto of = [&](Found found) { return seen ? std::optional(found) : std::nullopt; };
  draw_check(app, "back-size", words::kBackSize, mine.size, r.ticked.size,
             of(seen ? seen->size.verdict : Found::untold), [&] { draw_size(app, *seen); });
  draw_check(app, "back-cast", words::kBackCast, mine.cast, r.ticked.cast,
             of(seen ? seen->cast.verdict : Found::untold), [&] { draw_cast(app, *seen); });
  draw_check(app, "back-shadow", words::kBackShadow, mine.shadow_step, r.ticked.shadow_step,
             of(seen ? seen->shadow.verdict : Found::untold), [&] { draw_shadow(app, *seen); });
  draw_check(app, "back-marks", words::kBackMarks, mine.marks, r.ticked.marks,
             of(seen ? seen->marks.verdict : Found::untold), [&] { draw_marks(app, *seen); });
}

}  // namespace proofleaf::shell
