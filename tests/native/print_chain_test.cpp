// Border, edges, and the whole way from master to sheet.
#include "print/recipe_stages.h"
#include "print_rows.h"

using namespace proofleaf;
using namespace proofleaf::test;
using namespace proofleaf::print;

namespace {

PrintPlan planned(const PrintSize& size, uint32_t width, uint32_t height) {
  auto plan = plan_print(width, height, size, {});
  REQUIRE_MESSAGE(plan.ok(), plan.error().message);
  return plan.take();
}

// 100 x 80 pixels on 25.4 mm, so that 10 mm are 39 pixels.
PrintSize small_size() {
  PrintSize size;
  size.width_mm = 25.4;
  size.ppi = 100;
  return size;
}

std::unique_ptr<RowSource> sheet(const PrintPlan& plan, Reads* reads = nullptr) {
  auto made = bordered(ramp_rows(plan.width, plan.height, reads), light_of(space("srgb")), plan);
  REQUIRE(made.ok());
  return made.take();
}

}  // namespace

TEST_CASE("border: the picture is untouched within paper white") {
  PrintSize size = small_size();
  size.border_mm = 10;
  size.mat_mm = 5;
  const PrintPlan plan = planned(size, 100, 80);
  CHECK(plan.border == 39);
  CHECK(plan.mat == 20);
  const auto rows = sheet(plan);
  const Codes samples = all_of(*rows);
  const uint32_t margin = 59, width = 100 + 2 * margin;
  REQUIRE(samples.size() == size_t{width} * (80 + 2 * margin) * 3);
  size_t wrong = 0;
  for (uint32_t y = 0; y < 80 + 2 * margin; ++y) {
    for (uint32_t x = 0; x < width; ++x) {
      const bool in = x >= margin && x < margin + 100 && y >= margin && y < margin + 80;
      for (uint32_t c = 0; c < 3; ++c) {
        const uint16_t expected = in ? ramp_sample(x - margin, y - margin, c) : 65535;
        wrong += samples[(size_t{y} * width + x) * 3 + c] != expected;
      }
    }
  }
  CHECK(wrong == 0);
}

TEST_CASE("border: edges are mirrored or drawn out") {
  for (const EdgeKind kind :
       {EdgeKind::wrapped, EdgeKind::bleed_mirrored, EdgeKind::bleed_extended}) {
    PrintSize size = small_size();
    size.edge = kind;
    size.edge_mm = 5;
    const PrintPlan plan = planned(size, 100, 80);
    REQUIRE(plan.edge == 20);
    auto place = [&](int64_t at, int64_t length) {
      if (kind == EdgeKind::bleed_extended) return std::clamp<int64_t>(at, 0, length - 1);
      return at < 0 ? -1 - at : at >= length ? 2 * length - 1 - at : at;
    };
    const Codes samples = all_of(*sheet(plan));
    size_t wrong = 0;
    for (int64_t y = 0; y < 120; ++y) {
      for (int64_t x = 0; x < 140; ++x) {
        const auto px = static_cast<uint32_t>(place(x - 20, 100)),
                   py = static_cast<uint32_t>(place(y - 20, 80));
        wrong += samples[static_cast<size_t>((y * 140 + x) * 3)] != ramp_sample(px, py, 0);
      }
    }
    CHECK(wrong == 0);
    check_strips([&] { return sheet(plan); });
    Reads reads;
    all_of(*sheet(plan, &reads), 7);
    CHECK(reads.backwards == 0);
    CHECK(reads.rows == 80);
  }
}

TEST_CASE("border: an edge as wide as the picture still has enough of it") {
  PrintSize size = small_size();
  size.edge = EdgeKind::wrapped;
  size.edge_mm = 20.3;
  const PrintPlan plan = planned(size, 100, 80);
  CHECK(plan.edge == 80);
  check_strips([&] { return sheet(plan); });
  size.edge_mm = 22;
  CHECK_FALSE(plan_print(100, 80, size, {}).ok());
}

TEST_CASE("border: the signature line lies in the lower border and nowhere else") {
  for (const SignaturePlace place :
       {SignaturePlace::left, SignaturePlace::middle, SignaturePlace::right}) {
    PrintSize size = small_size();
    size.border_mm = 10;
    size.signature_line = true;
    size.signature_place = place;
    const PrintPlan plan = planned(size, 100, 80);
    const PixelRect line = signature_line(plan);
    CHECK(line.width == 33);
    CHECK(line.height == 1);
    CHECK(line.y > 39 + 80);
    CHECK(line.y + line.height < plan.sheet_height);
    CHECK(line.x >= 39);
    CHECK(line.x + line.width <= 139);
    if (place == SignaturePlace::left) CHECK(line.x == 39);
    if (place == SignaturePlace::right) CHECK(line.x + line.width == 139);
    const Codes samples = all_of(*sheet(plan));
    size_t dark = 0;
    for (uint32_t y = 39 + 80; y < plan.sheet_height; ++y) {
      for (uint32_t x = 0; x < plan.sheet_width; ++x) {
        const uint16_t code = samples[(size_t{y} * plan.sheet_width + x) * 3];
        if (code == 65535) continue;
        ++dark;
        CHECK(l_of_srgb(code) == doctest::Approx(60).epsilon(0.001));
      }
    }
    CHECK(dark == 33);
    check_strips([&] { return sheet(plan); });
  }
}

TEST_CASE("print chain: master to sheet, the same in strips of any height, each row read once") {
  Grain grain;
  grain.on = true;
  Sharpening sharpening;
  sharpening.mask = 0.1;
  for (const double ppi : {70.0, 300.0}) {
    PrintSize size;
    size.width_mm = 25.4;
    size.ppi = ppi;
    size.crop = {0.1, 0.05, 0.7, 0.9};
    size.border_mm = 9;
    size.signature_line = true;
    const PrintPlan plan = planned(size, 150, 110);
    const auto make = [&](Reads* reads) {
      auto made = prepared(ramp_rows(150, 110, reads), space("oprgb"), plan, sharpening, grain,
                           PaperClass::matte);
      REQUIRE(made.ok());
      CHECK(made.value()->format().width == plan.sheet_width);
      CHECK(made.value()->format().height == plan.sheet_height);
      return made.take();
    };
    check_strips([&] { return make(nullptr); });
    Reads reads;
    all_of(*make(&reads), 13);
    CHECK(reads.rows == plan.crop.height);
    CHECK(reads.most == 1);
    CHECK(reads.backwards == 1);  // the crop begins below the top
  }
}

TEST_CASE("print chain: nothing to do hands the master's own rows on") {
  PrintSize size = small_size();
  const PrintPlan plan = planned(size, 100, 80);
  Sharpening off;
  off.on = false;
  auto rows = ramp_rows(100, 80);
  const RowSource* master = rows.get();
  const auto made = prepared(std::move(rows), space("srgb"), plan, off, {}, PaperClass::gloss);
  REQUIRE(made);
  CHECK(made.value().get() == master);
}

TEST_CASE("print chain: a damaged master's error comes through, and so does a wrong plan") {
  class Broken final : public RowSource {
   public:
    RowFormat format() const override { return {100, 80, 3}; }
    Status read(uint32_t first, uint32_t, std::span<uint16_t> into) override {
      std::fill(into.begin(), into.end(), uint16_t{9});
      if (first >= 40) return Error{"The file ends too soon."};
      return done();
    }
  };
  PrintSize size = small_size();
  size.ppi = 200;
  const PrintPlan plan = planned(size, 100, 80);
  auto made = prepared(std::make_unique<Broken>(), space("srgb"), plan, {}, {}, PaperClass::gloss);
  REQUIRE(made);
  Codes samples(made.value()->format().row_samples() * 160);
  const auto got = made.value()->read(0, 160, samples);
  REQUIRE_FALSE(got.ok());
  CHECK(got.error().message == "The file ends too soon.");
  CHECK_FALSE(prepared(ramp_rows(50, 50), space("srgb"), plan, {}, {}, PaperClass::gloss).ok());
}
