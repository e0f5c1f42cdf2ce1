// The working size: where it begins and how it goes down.
#include "raster/working_size.h"

#include <doctest.h>

#include <limits>

#include "raster/preview.h"

using namespace proofleaf;

// W3C Device Memory: the platform tells 0.25, 0.5, 1, 2, 4 or 8 [GiB], or nothing (from memory).
TEST_CASE("working size: it begins lower where the platform tells of little memory") {
  CHECK(working_pixels_for(8) == kUsualWorkingPixels);
  CHECK(working_pixels_for(4) == kUsualWorkingPixels);
  CHECK(working_pixels_for(2) == kUsualWorkingPixels / 2);
  CHECK(working_pixels_for(1) == kUsualWorkingPixels / 4);
  CHECK(working_pixels_for(0.5) == kSmallestWorkingPixels);
  CHECK(working_pixels_for(0.25) == kSmallestWorkingPixels);
}

TEST_CASE("working size: whatever a platform tells, it lies between the smallest and the usual") {
  for (double told : {0.0, -1.0, 1e-300, 1e300, std::numeric_limits<double>::infinity(),
                      std::numeric_limits<double>::quiet_NaN()}) {
    CAPTURE(told);
    const uint32_t pixels = working_pixels_for(told);
    CHECK(pixels >= kSmallestWorkingPixels);
    CHECK(pixels <= kUsualWorkingPixels);
  }
}

TEST_CASE("working size: half each time, down to the smallest, then nothing") {
  uint32_t pixels = kUsualWorkingPixels;
  int steps = 0;
  for (uint32_t next = 0; (next = smaller_working_pixels(pixels, 0)) != 0; pixels = next, ++steps)
    CHECK(next == pixels / 2);
  CHECK(steps == 3);
  CHECK(pixels == kSmallestWorkingPixels);
  CHECK(smaller_working_pixels(300'000, 0) == kSmallestWorkingPixels);
}

// A whole-number factor often leaves far fewer pixels than were allowed; half of the allowance
// could then give the very same picture again.
TEST_CASE("working size: each step gives a smaller picture, whatever the master") {
  for (uint32_t width : {700u, 1500u, 1999u, 4000u, 7300u, 11656u}) {
    const uint32_t height = width * 2 / 3;
    CAPTURE(width);
    const auto shown_at = [&](uint32_t most) {
      const uint32_t by = shrink_factor(width, height, most);
      return uint64_t((width + by - 1) / by) * ((height + by - 1) / by);
    };
    uint32_t pixels = kUsualWorkingPixels;
    uint64_t shown = shown_at(pixels);
    while (const uint32_t next = smaller_working_pixels(pixels, shown)) {
      const uint64_t now = shown_at(next);
      CHECK(now < shown);
      pixels = next;
      shown = now;
    }
    CHECK(shown <= kSmallestWorkingPixels);
  }
}
