// The print that came back, seen in photos whose every fault is known.
#include "returned_photos.h"

using namespace proofleaf;
using namespace proofleaf::test;
using namespace proofleaf::returned;

namespace {

Comparison compared(const Promise& promise, const Scene& scene, Settings settings = {}) {
  const Photo photo = seen_photo(photo_of_print(promise, scene));
  auto found = compare(promise, photo, settings, {});
  REQUIRE_MESSAGE(found.ok(), (found.ok() ? "" : found.error().message));
  return found.take();
}

// As a person sets the corners, about right.
Settings near(const Scene& scene, Settings settings = {}) {
  settings.corners = scene.corners;
  for (size_t i = 0; i < 4; ++i) {
    (*settings.corners)[i].x += i % 2 == 0 ? 0.006 : -0.005;
    (*settings.corners)[i].y += i < 2 ? 0.005 : -0.006;
  }
  return settings;
}

// Falls to about two thirds towards one corner.
double slanted(double u, double v) {
  return std::exp(-0.25 * (u - 0.5) - 0.15 * (v - 0.5) - 0.3 * (u - 0.5) * (u - 0.5));
}

}  // namespace

TEST_CASE("returned: a homography goes there and back") {
  const Corners corners{{{0.1, 0.2}, {0.8, 0.15}, {0.9, 0.95}, {0.05, 0.7}}};
  const auto place = Homography::to(corners);
  REQUIRE(place);
  const Corners again = place->corners();
  for (size_t i = 0; i < 4; ++i) {
    CHECK(again[i].x == doctest::Approx(corners[i].x).epsilon(1e-9));
    CHECK(again[i].y == doctest::Approx(corners[i].y).epsilon(1e-9));
  }
  const auto back = place->inverse();
  REQUIRE(back);
  const Point p = (*back)((*place)({0.37, 0.81}));
  CHECK(p.x == doctest::Approx(0.37));
  CHECK(p.y == doctest::Approx(0.81));
  CHECK_FALSE(Homography::to({{{0, 0}, {0.5, 0}, {1, 0}, {0, 1}}}));
  CHECK_FALSE(Homography::to({{{0, 0}, {std::nan(""), 0}, {1, 1}, {0, 1}}}));
  CHECK(is_convex(corners));
  CHECK_FALSE(is_convex({{{0, 0}, {1, 1}, {1, 0}, {0, 1}}}));
}

TEST_CASE("returned: the shape of a thing seen at a slant is its own") {
  // A pinhole camera of focal length f [longer side], in front of a plane of 3 : 2 turned about
  // both axes: textbook perspective (Hartley and Zisserman 6.1, from memory).
  for (const double f : {0.75, 1.5}) {
    for (const double turn : {0.0, 0.3, 0.5}) {
      Corners corners;
      const std::array<Point, 4> plane{{{-1.5, -1}, {1.5, -1}, {1.5, 1}, {-1.5, 1}}};
      for (size_t i = 0; i < 4; ++i) {
        const double x = plane[i].x * std::cos(turn), z = plane[i].x * std::sin(turn);
        const double y = plane[i].y * std::cos(turn / 2) - z * std::sin(turn / 2),
                     far = plane[i].y * std::sin(turn / 2) + z * std::cos(turn / 2) + 4 * f + 2;
        corners[i] = {0.5 + f * x / far, 0.5 + f * y / far * 4 / 3};
      }
      const auto place = Homography::to(corners);
      REQUIRE(place);
      const ShapeSeen shape = shape_seen(*place, 4.0 / 3, false);
      MESSAGE("f " << f << ", turned by " << turn << ": " << shape.ratio << " within "
                   << shape.within * 100 << " %");
      CHECK(std::abs(shape.ratio / 1.5 - 1) <= shape.within + 0.001);
    }
  }
}

TEST_CASE("returned: the print is found in photos of it") {
  const Promise &bordered = demo_promise(20), &plain = demo_promise(0);
  struct Case {
    const char* what;
    const Promise& promise;
    Scene scene;
  };
  Scene slant, flat, turned, dim;
  flat.corners = {{{0.02, 0.03}, {0.97, 0.02}, {0.98, 0.96}, {0.03, 0.97}}};
  turned.width = 960, turned.height = 1280;
  turned.corners = {{{0.85, 0.1}, {0.88, 0.9}, {0.12, 0.86}, {0.16, 0.14}}};
  dim.light = slanted;
  dim.gamma = 1.2;
  dim.balance = {1.1, 1, 0.7};
  dim.corners = {{{0.25, 0.3}, {0.7, 0.25}, {0.75, 0.68}, {0.22, 0.66}}};
  for (const Case& each :
       {Case{"at a slant, bordered", bordered, slant}, Case{"nearly filling", plain, flat},
        Case{"turned by a quarter", plain, turned}, Case{"small, uneven light", bordered, dim}}) {
    const Comparison found = compared(each.promise, each.scene);
    const double off = corners_off(found.print_to_photo.corners(), each.scene.corners, each.scene);
    MESSAGE(std::string(each.what) << ": match " << found.match << ", worst corner off by " << off
                                   << " pixels, bend " << found.bend);
    CHECK(found.match > kFound);
    CHECK(off < 3);
  }
}

TEST_CASE("returned: corners set by hand are refined, and kept where they are to be") {
  const Promise& promise = demo_promise(20);
  const Scene scene;
  Settings rough;
  rough.corners = scene.corners;
  for (size_t i = 0; i < 4; ++i) {
    (*rough.corners)[i].x += i % 2 == 0 ? 0.02 : -0.015;
    (*rough.corners)[i].y += i < 2 ? 0.015 : -0.02;
  }
  const Comparison fine = compared(promise, scene, rough);
  CHECK(fine.refined);
  CHECK(corners_off(fine.print_to_photo.corners(), scene.corners, scene) < 3);
  rough.refine = false;
  const Comparison kept = compared(promise, scene, rough);
  CHECK_FALSE(kept.refined);
  CHECK(corners_off(kept.print_to_photo.corners(), *rough.corners, scene) < 1e-6);
  // Another picture is not taken for the print.
  const Promise& other = demo_promise(0, "stairwell.png");
  const Comparison none = compared(other, scene);
  MESSAGE("another picture: match " << none.match);
  CHECK(none.match < kFound);
  CHECK(none.cast.verdict == Found::untold);
  CHECK(none.marks.verdict == Found::untold);
}

TEST_CASE("returned: a cast of greys is told against the paper's white border") {
  const Promise& promise = demo_promise(20);
  for (const auto& leaning : {std::pair{0.0, 0.0}, {4.0, 3.0}, {-3.0, 6.0}}) {
    const double a = leaning.first, b = leaning.second;  // clang 14 captures no structured bindings
    Scene scene;
    scene.light = slanted;
    scene.balance = {1.15, 1, 0.75};  // lamplight, not balanced away
    // All but the paper's own white leans.
    scene.printed = [&](const Lab& lab, double, double) {
      const double inked = std::fmin(1, std::fmax(0, (promise.paper_white.l - lab.l) / 12));
      return Lab{lab.l, lab.a + a * inked, lab.b + b * inked};
    };
    const Comparison found = compared(promise, scene, near(scene));
    REQUIRE(found.cast.white == WhiteFrom::border);
    CHECK_FALSE(found.cast.mixed_light);
    CHECK(found.light_falls < 0.85);
    size_t told = 0;
    for (const GreyFound& grey : found.cast.greys) {
      if (grey.share == 0) continue;
      ++told;
      MESSAGE("cast a* " << a << ", b* " << b << " at L* " << grey.l << ": found " << grey.a << ", "
                         << grey.b);
      // Relative to the paper's white the same step is a little larger than absolute.
      CHECK(std::hypot(grey.a - a, grey.b - b) < 1.2);
    }
    CHECK(told >= 2);
    CHECK(found.cast.verdict == (a == 0                   ? Found::fine
                                 : std::hypot(a, b) > 5.5 ? Found::wrong
                                                          : found.cast.verdict));
    CHECK((a == 0) == (found.cast.verdict == Found::fine));
  }
}

TEST_CASE("returned: without white or a neutral no cast is judged from a photo") {
  const Promise& promise = demo_promise(0);
  Scene scene;
  scene.balance = {1.2, 1, 0.7};
  scene.printed = [](const Lab& lab, double, double) { return Lab{lab.l, lab.a + 5, lab.b}; };
  const Comparison none = compared(promise, scene, near(scene));
  CHECK(none.cast.white == WhiteFrom::none);
  CHECK(none.cast.verdict == Found::untold);
  // With a grey card beside it, it is.
  scene.card = {0.5, 0.93};
  scene.card_radius = 0.03;
  Settings settings;
  settings.neutral = scene.card;
  const Comparison beside = compared(promise, scene, near(scene, settings));
  CHECK(beside.cast.white == WhiteFrom::neutral);
  for (const GreyFound& grey : beside.cast.greys) {
    if (grey.share == 0) continue;
    MESSAGE("by the card, at L* " << grey.l << ": " << grey.a << ", " << grey.b);
    CHECK(std::hypot(grey.a - 5, grey.b) < 1.5);
  }
  CHECK((beside.cast.verdict == Found::wrong || beside.cast.verdict == Found::look));
}

TEST_CASE("returned: two lights at once are no ground to judge a cast on") {
  const Promise& promise = demo_promise(20);
  Scene scene;
  scene.printed = [](const Lab& lab, double u, double) {
    return Lab{lab.l, lab.a, lab.b + 12 * (u - 0.5)};
  };
  const Comparison found = compared(promise, scene, near(scene));
  CHECK(found.cast.mixed_light);
  CHECK(found.cast.verdict == Found::untold);
}

TEST_CASE("returned: closed shadows are told from open ones") {
  const Promise& promise = demo_promise(20, "stairwell.png");
  Scene scene;
  scene.noise = 0.003;
  scene.width = 960, scene.height = 1280;
  scene.corners = {{{0.12, 0.1}, {0.86, 0.12}, {0.9, 0.9}, {0.08, 0.87}}};
  const Comparison open = compared(promise, scene, near(scene));
  CHECK(open.shadow.verdict == Found::fine);
  CHECK_FALSE(open.shadow.closed_until);
  // All below L* 18 (absolute) printed as one.
  scene.printed = [](const Lab& lab, double, double) {
    return Lab{std::fmax(lab.l, 18), lab.a, lab.b};
  };
  const Comparison closed = compared(promise, scene, near(scene));
  for (const ShadowStep& step : closed.shadow.steps) {
    MESSAGE("step at L* " << step.l << ": " << step.kept << ", " << int(step.is));
  }
  REQUIRE(closed.shadow.closed_until);
  MESSAGE("closed until L* " << *closed.shadow.closed_until);
  CHECK(std::abs(*closed.shadow.closed_until - 18) <= 3);
  CHECK(closed.shadow.verdict != Found::fine);
  CHECK(closed.shadow.place);
}

TEST_CASE("returned: planted marks are found, and textures raise no alarm") {
  const Promise &promise = demo_promise(0), &stairs = demo_promise(0, "stairwell.png");
  struct Planted {
    double x, y, w, h, contrast;  // shares of the front; [L*]
  };
  // Spots of 3 to 5 mm, a scratch of 60 mm by 0.8 mm, on 400 mm.
  const std::vector<Planted> planted{
      {0.2, 0.25, 0.010, 0.015, -14}, {0.7, 0.2, 0.008, 0.012, 12}, {0.5, 0.6, 0.012, 0.018, -18},
      {0.82, 0.75, 0.010, 0.015, 16}, {0.3, 0.45, 0.15, 0.003, 18}, {0.12, 0.8, 0.0125, 0.018, 15}};
  const auto marked = [&](const Lab& lab, double u, double v) {
    Lab out = lab;
    for (const Planted& p : planted) {
      const double dx = (u - p.x) / p.w * 2, dy = (v - p.y) / p.h * 2;
      const bool bar = p.w > 5 * p.h;
      if (bar ? std::fmax(std::abs(dx), std::abs(dy)) < 1 : std::hypot(dx, dy) < 1) {
        out.l = std::fmin(98, std::fmax(2, out.l + p.contrast));
      }
    }
    return out;
  };
  Settings settings;
  settings.mark_mm = 2;
  for (const Promise* each : {&promise, &stairs}) {
    Scene scene;
    scene.light = slanted;
    if (each == &stairs) {
      scene.width = 960, scene.height = 1280;
      scene.corners = {{{0.12, 0.1}, {0.86, 0.12}, {0.9, 0.9}, {0.08, 0.87}}};
    }
    const Comparison clean = compared(*each, scene, near(scene, settings));
    MESSAGE("false alarms on a clean print: " << clean.marks.marks.size());
    CHECK(clean.marks.marks.size() <= 1);
    scene.printed = marked;
    const Comparison found = compared(*each, scene, near(scene, settings));
    size_t hit = 0;
    for (const Planted& p : planted) {
      hit += std::any_of(found.marks.marks.begin(), found.marks.marks.end(), [&](const Mark& mark) {
        return mark.x < p.x + p.w / 2 && mark.x + mark.w > p.x - p.w / 2 &&
               mark.y < p.y + p.h / 2 && mark.y + mark.h > p.y - p.h / 2 &&
               mark.contrast * p.contrast > 0;
      });
    }
    size_t own = 0;
    for (const Mark& mark : found.marks.marks) {
      own += std::any_of(planted.begin(), planted.end(), [&](const Planted& p) {
        return mark.x < p.x + p.w && mark.x + mark.w > p.x - p.w && mark.y < p.y + p.h &&
               mark.y + mark.h > p.y - p.h;
      });
      MESSAGE("  mark " << int(mark.kind) << " at " << mark.x << ", " << mark.y << ": "
                        << mark.length_mm << " by " << mark.width_mm << " mm, " << mark.contrast);
    }
    const double recall = double(hit) / double(planted.size()),
                 precision = double(own) / std::fmax(1, double(found.marks.marks.size()));
    MESSAGE("recall " << recall << ", precision " << precision);
    CHECK(recall >= 0.8);
    CHECK(precision >= 0.8);
    CHECK(found.marks.verdict == Found::wrong);
  }
}

TEST_CASE("returned: a band across the print is a mark, a reflection is none") {
  const Promise& promise = demo_promise(0);
  Scene scene;
  scene.printed = [](const Lab& lab, double, double v) {
    return Lab{lab.l - (std::abs(v - 0.4) < 0.004 ? 3 : 0), lab.a, lab.b};
  };
  const Comparison banded = compared(promise, scene, near(scene));
  const auto band = std::find_if(banded.marks.marks.begin(), banded.marks.marks.end(),
                                 [](const Mark& mark) { return mark.kind == MarkKind::band; });
  REQUIRE(band != banded.marks.marks.end());
  CHECK(band->y + band->h / 2 == doctest::Approx(0.4).epsilon(0.02));
  CHECK(band->contrast < 0);
  // A lamp mirrored in the surface, blown out in its middle.
  Scene glossy;
  glossy.light = [](double u, double v) {
    const double r = std::hypot(u - 0.6, v - 0.3) / 0.05;
    return 1 + 12 * std::exp(-r * r);
  };
  const Comparison glare = compared(promise, glossy, near(glossy));
  MESSAGE("glare " << glare.marks.glare << ", marks " << glare.marks.marks.size());
  CHECK(glare.marks.glare > 0.003);
  CHECK(glare.marks.marks.size() <= 1);
}

TEST_CASE("returned: the shape, and what was cut off") {
  const Promise& promise = demo_promise(20);
  Scene scene;
  scene.width = 1400, scene.height = 980;
  scene.corners = {{{0.1, 0.1}, {0.9, 0.1}, {0.9, 0.9}, {0.1, 0.9}}};
  // The photo's own shape for the front, seen straight on.
  const double ratio = promise.width_mm / promise.height_mm;
  const double high = 0.8 * scene.width / scene.height / ratio;
  for (auto& corner : scene.corners) corner.y = corner.y < 0.5 ? 0.5 - high / 2 : 0.5 + high / 2;
  Settings flat;
  flat.scan = true;
  flat.photo_ppi = scene.width * 0.8 / (promise.width_mm / 25.4);
  const Comparison right = compared(promise, scene, near(scene, flat));
  MESSAGE("as ordered: " << right.size.wider << " % within " << right.size.wider_within << ", "
                         << *right.size.width_mm << " mm");
  CHECK(std::abs(right.size.wider) < 0.3);
  CHECK(std::abs(*right.size.width_mm - promise.width_mm) < 2);
  CHECK(right.size.verdict == Found::fine);
  for (const auto& cut : right.size.cut) {
    REQUIRE(cut);
    CHECK(std::abs(*cut) < 1.5);
  }
  // Stretched by 3 per cent.
  Scene wide = scene;
  for (auto& corner : wide.corners) corner.x = 0.5 + (corner.x - 0.5) * 1.03;
  const Comparison stretched = compared(promise, wide, near(wide, flat));
  MESSAGE("stretched: " << stretched.size.wider << " %");
  CHECK(stretched.size.wider == doctest::Approx(3).epsilon(0.15));
  CHECK(stretched.size.verdict == Found::wrong);
  // The left 8 mm of the sheet are gone.
  Scene cut = scene;
  const double gone = 8 / promise.width_mm;
  cut.surface = [gone](Point p) { return Point{gone + p.x * (1 - gone), p.y}; };
  cut.corners[0].x += 0.8 * gone;
  cut.corners[3].x += 0.8 * gone;
  const Comparison less = compared(promise, cut, near(cut, flat));
  REQUIRE(less.size.cut[0]);
  MESSAGE("cut by 8 mm: " << *less.size.cut[0] << " mm at the left");
  CHECK(std::abs(*less.size.cut[0] - 8) < 1.5);
  CHECK(less.size.verdict == Found::wrong);
}

TEST_CASE("returned: what cannot be compared is refused in words") {
  const Promise& promise = demo_promise(0);
  CHECK_FALSE(
      photo_of(Picture{10, 10, std::vector<uint16_t>(300)}, standard_profile("srgb").value(), {})
          .ok());
  const Photo photo = seen_photo(photo_of_print(promise, Scene{}));
  Settings crossed;
  crossed.corners = Corners{{{0.1, 0.1}, {0.9, 0.9}, {0.9, 0.1}, {0.1, 0.9}}};
  CHECK_FALSE(compare(promise, photo, crossed, {}).ok());
  crossed.corners = Corners{{{0.1, 0.1}, {0.11, 0.1}, {0.11, 0.11}, {0.1, 0.11}}};
  CHECK_FALSE(compare(promise, photo, crossed, {}).ok());
  CHECK_FALSE(compare(promise, photo, Settings{}, [](double) { return false; }).ok());
}
