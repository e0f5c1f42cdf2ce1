// Local contrast against the guided filter's closed form, and corrected rows against the exact map.
#include <random>

#include "colour/lcms.h"
#include "fit/corrected_rows.h"
#include "fit/master_space.h"
#include "fit/monochrome.h"
#include "fit_maps.h"
#include "rank_papers.h"
#include "raster/picture_rows.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

// The guided filter on a step from `low` to `high` at `edge`, worked out window by window on one
// row: the share p of each window on the high side gives mean and variance in closed form (He, Sun
// and Tang 2013, equations 5, 6 and 8 with the picture as guide).
std::vector<double> step_base(int length, int edge, int radius, double eps, double low,
                              double high) {
  const double h = high - low;
  auto window = [&](int k) {
    const int first = std::max(0, k - radius), end = std::min(length, k + radius + 1);
    const double p = double(std::clamp(end - edge, 0, end - first)) / (end - first);
    const double scale = p * (1 - p) * h * h / (p * (1 - p) * h * h + eps);
    return std::array<double, 2>{scale, (1 - scale) * (low + p * h)};
  };
  std::vector<double> base;
  for (int i = 0; i < length; ++i) {
    double scale = 0, offset = 0;
    int count = 0;
    for (int k = std::max(0, i - radius); k < std::min(length, i + radius + 1); ++k, ++count) {
      scale += window(k)[0];
      offset += window(k)[1];
    }
    base.push_back((scale * (i < edge ? low : high) + offset) / count);
  }
  return base;
}

TestPicture step_picture(uint32_t width, uint32_t height, double low, double high) {
  return picture_of("srgb", width, height, [&](uint32_t x, uint32_t) {
    const double code = grey_code(x < width / 2 ? low : high);
    return Pixel{code, code, code};
  });
}

// Texture and edges, colours too.
TestPicture textured(uint32_t width, uint32_t height) {
  return picture_of("romm", width, height, [&](uint32_t px, uint32_t py) {
    const double x = (px + 0.5) / width, y = (py + 0.5) / height;
    const double light = 0.45 + 0.25 * std::sin(9 * x) + (y > 0.5 ? 0.12 : -0.12) +
                         0.05 * std::sin(60 * x) * std::cos(45 * y);
    return Pixel{light, light * (0.9 + 0.1 * std::sin(4 * y)), light * 0.95};
  });
}

std::unique_ptr<RowSource> rows_of(const TestPicture& picture) {
  return std::make_unique<PictureRows>(picture.rgb, picture.width, picture.height);
}

std::shared_ptr<const LocalContrast> guide_of(const TestPicture& picture) {
  auto guide =
      find_local_contrast(picture.master, {picture.width, picture.height, picture.rgb}, {});
  REQUIRE_MESSAGE(guide.ok(), (guide.ok() ? "" : guide.error().message));
  return std::make_shared<const LocalContrast>(guide.take());
}

std::vector<uint16_t> read_all_rows(RowSource& rows, uint32_t strip) {
  const RowFormat format = rows.format();
  std::vector<uint16_t> all(format.row_samples() * format.height);
  for (uint32_t y = 0; y < format.height; y += strip) {
    const uint32_t count = std::min(strip, format.height - y);
    REQUIRE(rows.read(
        y, count, std::span(all).subspan(y * format.row_samples(), count * format.row_samples())));
  }
  return all;
}

std::vector<Lab> colours_of(const Profile& master, const std::vector<uint16_t>& codes) {
  std::vector<float> rgb(codes.begin(), codes.end());
  for (float& code : rgb) code /= 65535;
  return MasterSpace::make(master).take()->colours(rgb);
}

TestPicture with_local(const TestPicture& picture, double amount, PicturePart part = {},
                       std::shared_ptr<const LocalContrast> guide = {}) {
  auto rows = local_contrast_rows(rows_of(picture), picture.master,
                                  guide ? guide : guide_of(picture), amount, part);
  REQUIRE(rows);
  return {picture.width, picture.height, picture.master, read_all_rows(*rows.value(), 16)};
}

Correction strong_correction() {
  Correction c;
  c.curve = {{25, 30}, {75, 78}};
  c.shadows = 4;
  c.highlights = -3;
  c.contrast = 20;
  c.saturation = 20;
  c.bands[1] = {20, 6};
  c.bands[5] = {-30, -8};
  c.neutral[1] = {1, -2};
  return c;
}

}  // namespace

TEST_CASE("fit: the guided filter of a step is its closed form") {
  constexpr int kLength = 96, kEdge = 48, kRadius = 7;
  for (double high : {35.0, 45.0, 90.0}) {
    std::vector<float> values;
    for (int y = 0; y < 20; ++y) {
      for (int x = 0; x < kLength; ++x) values.push_back(x < kEdge ? 30.0f : float(high));
    }
    const GuidedPlane plane = guided_plane(values, kLength, 20, kRadius, 36);
    const std::vector<double> wanted = step_base(kLength, kEdge, kRadius, 36, 30, high);
    for (int y : {0, 9, 19}) {
      for (int x = 0; x < kLength; ++x) {
        const size_t at = size_t(y) * kLength + size_t(x);
        CHECK(plane.scale[at] * values[at] + plane.offset[at] ==
              doctest::Approx(wanted[size_t(x)]).epsilon(1e-5));
      }
    }
  }
}

TEST_CASE("fit: no step gets a halo above the stated one") {
  // The closed form over all heights at the guide's own size and radius, before the fading.
  double worst = 0;
  for (double h = 0.5; h <= 100; h += 0.5) {
    const std::vector<double> base = step_base(256, 128, 13, 36, 0, h);
    for (int x = 0; x < 256; ++x) {
      const double detail = (x < 128 ? 0 : h) - base[size_t(x)];
      worst = std::max(worst, std::abs(detail) / (1 + std::abs(detail) / kMostDetail));
    }
  }
  MESSAGE("largest halo of a step, closed form [L*]: " << worst);
  CHECK(worst <= kMostHalo);
  // And in rows, at twice the guide's size.
  for (double high : {36.0, 42.0, 50.0, 70.0, 90.0}) {
    const TestPicture step = step_picture(512, 64, 30, high);
    const TestPicture after = with_local(step, 100);
    const auto lab = colours_of(step.master, after.rgb);
    for (uint32_t x = 0; x < 512; ++x) {
      const double l = lab[size_t{32} * 512 + x].l, flat = x < 256 ? 30 : high;
      INFO("to " << high << " at " << x);
      CHECK(std::abs(l - flat) <= kMostHalo + 0.1);
    }
  }
}

TEST_CASE("fit: local contrast works up texture and lets strong edges stand") {
  const TestPicture picture = picture_of("srgb", 256, 256, [](uint32_t x, uint32_t y) {
    const double code = grey_code(50 + 3 * std::sin(0.5 * x) * std::cos(0.4 * y));
    return Pixel{code, code, code};
  });
  auto deviation = [&](const TestPicture& p) {
    double sum = 0;
    for (const Lab& lab : colours_of(p.master, p.rgb)) sum += (lab.l - 50) * (lab.l - 50);
    return std::sqrt(sum / (256 * 256));
  };
  const double before = deviation(picture);
  CHECK(deviation(with_local(picture, 50)) > 1.2 * before);
  CHECK(deviation(with_local(picture, -50)) < 0.8 * before);
}

TEST_CASE("fit: local contrast of none gives the rows back, and keeps white, black and hue") {
  const TestPicture picture = textured(300, 200);
  auto rows = rows_of(picture);
  const RowSource* own = rows.get();
  auto same = local_contrast_rows(std::move(rows), picture.master, guide_of(picture), 0);
  REQUIRE(same);
  CHECK(same.value().get() == own);
  CHECK(read_all_rows(*same.value(), 64) == picture.rgb);
  const TestPicture ends = picture_of("srgb", 64, 64, [](uint32_t x, uint32_t y) {
    const double code = y < 20 ? 0.0 : y < 40 ? 1.0 : x / 64.0;
    return Pixel{code, code, code};
  });
  const TestPicture after = with_local(ends, 100);
  CHECK(after.rgb[0] == 0);
  CHECK(after.rgb[size_t{30} * 64 * 3] == 65535);
  const auto from = colours_of(picture.master, picture.rgb);
  const auto to = colours_of(picture.master, with_local(picture, 100).rgb);
  for (size_t i = 0; i < from.size(); i += 7) {
    CHECK(std::abs(to[i].l - from[i].l) <= kMostDetail);
    const double turn = std::atan2(from[i].a * to[i].b - from[i].b * to[i].a,
                                   from[i].a * to[i].a + from[i].b * to[i].b);
    CHECK(std::abs(turn) * std::hypot(to[i].a, to[i].b) < 0.5);
  }
}

TEST_CASE("fit: local contrast looks the same at any size, in any part") {
  const TestPicture small = textured(240, 160), large = textured(960, 640);
  const auto guide = guide_of(small);
  const auto wanted = colours_of(small.master, with_local(small, 80, {}, guide).rgb);
  const TestPicture big = with_local(large, 80, {}, guide);
  PictureRows rows(big.rgb, big.width, big.height);
  auto shrunk = shrink(rows, 4, {});
  REQUIRE(shrunk);
  const auto got = colours_of(small.master, shrunk.value().rgb);
  double worst = 0, mean = 0;
  for (size_t i = 0; i < wanted.size(); ++i) {
    const double off = delta_e_2000(wanted[i], got[i]);
    worst = std::max(worst, off);
    mean += off / double(wanted.size());
  }
  MESSAGE("large against small: mean " << mean << ", worst " << worst << " dE00");
  CHECK(mean < 0.1);
  CHECK(worst < 1.5);
  // A part of the large picture, told where it lies, is the same part of the whole.
  PictureRows whole(large.rgb, large.width, large.height);
  auto part = cut(whole, 480, 160, 240, 320, {});
  REQUIRE(part);
  const TestPicture piece{240, 320, large.master, part.value().rgb};
  const TestPicture cut_out = with_local(piece, 80, {0.5, 0.25, 0.25, 0.5}, guide);
  PictureRows done_whole(big.rgb, big.width, big.height);
  const auto expected = cut(done_whole, 480, 160, 240, 320, {});
  REQUIRE(expected);
  int most = 0;
  for (size_t i = 0; i < cut_out.rgb.size(); ++i) {
    most = std::max(most, std::abs(int(cut_out.rgb[i]) - int(expected.value().rgb[i])));
  }
  CHECK(most <= 1);
}

TEST_CASE("fit: a guide is passed on whole, and a damaged one refused") {
  const TestPicture picture = textured(300, 200);
  const auto guide = guide_of(picture);
  const Bytes bytes = pack_local_contrast(*guide);
  const auto back = unpack_local_contrast(bytes);
  REQUIRE(back);
  CHECK(back.value().width == guide->width);
  CHECK(back.value().scale == guide->scale);
  CHECK(back.value().offset == guide->offset);
  CHECK_FALSE(unpack_local_contrast(ByteView(bytes).first(bytes.size() - 1)).ok());
  CHECK_FALSE(unpack_local_contrast({}).ok());
  CHECK_FALSE(local_contrast_rows(rows_of(picture), picture.master, {}, 10).ok());
  CHECK_FALSE(local_contrast_rows(rows_of(picture), picture.master, guide, 101).ok());
  CHECK_FALSE(find_local_contrast(picture.master, {}, {}).ok());
}

TEST_CASE("fit: corrected rows are the same in strips of any height") {
  for (const bool large : {false, true}) {
    const TestPicture picture = textured(large ? 700 : 300, large ? 500 : 200);
    const auto map = map_of(picture.master, strong_correction());
    const LocalContrastUse local{guide_of(picture), 60, {}};
    std::vector<uint16_t> first;
    for (uint32_t strip : {1u, 7u, 64u, picture.height}) {
      auto rows = corrected(rows_of(picture), picture.master, map, local);
      REQUIRE(rows);
      auto all = read_all_rows(*rows.value(), strip);
      if (first.empty()) first = all;
      CHECK(all == first);
    }
    CHECK(first != picture.rgb);
    // Without anything to do the rows come through as they are.
    for (const auto& nothing : {std::shared_ptr<const ColourMap>(), map_of(picture.master, {})}) {
      auto rows = corrected(rows_of(picture), picture.master, nothing);
      REQUIRE(rows);
      CHECK(read_all_rows(*rows.value(), 64) == picture.rgb);
    }
  }
}

TEST_CASE("fit: large pictures are corrected as exactly as the eye needs") {
  const TestPicture picture = picture_at(kDemo + "saltings.png");
  const Correction strong = strong_correction();
  Correction modest;
  modest.shadows = 3;
  modest.saturation = 8;
  modest.curve = {{50, 53}};
  Monochrome mono;
  mono.on = true;
  mono.shadows = {250, 6};
  mono.highlights = {80, 6};
  struct Wanted {
    std::string name;
    Correction correction;
    Monochrome monochrome;
  };
  for (const Wanted& wanted : {Wanted{"modest", modest, {}}, Wanted{"strong", strong, {}},
                               Wanted{"monochrome", modest, mono}}) {
    const auto map = map_of(picture.master, wanted.correction, wanted.monochrome);
    auto rows = corrected(rows_of(picture), picture.master, map);
    REQUIRE(rows);
    const auto got = colours_of(picture.master, read_all_rows(*rows.value(), 64));
    std::vector<float> exact(picture.rgb.begin(), picture.rgb.end());
    for (float& code : exact) code /= 65535;
    map->apply(exact);
    const auto expected = MasterSpace::make(picture.master).take()->colours(exact);
    double worst = 0, mean = 0;
    std::vector<double> errors;
    for (size_t i = 0; i < got.size(); ++i) {
      errors.push_back(delta_e_2000(got[i], expected[i]));
      worst = std::max(worst, errors.back());
      mean += errors.back() / double(got.size());
    }
    std::nth_element(errors.begin(), errors.begin() + long(errors.size() * 999 / 1000),
                     errors.end());
    MESSAGE(wanted.name << ": mean " << mean << ", 99.9 % below "
                        << errors[errors.size() * 999 / 1000] << ", worst " << worst << " dE00");
    CHECK(mean < 0.06);
    CHECK(worst < 1);
  }
}
