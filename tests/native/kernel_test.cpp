// The kernel's instruction sets against the plain one, bit for bit, and the plain one against
// linear maths. Cubes here are made of numbers, not of profiles; proof_test.cpp holds the accuracy.
#include "proof/kernel.h"

#include <cmath>
#include <random>

#include "doctest.h"
#include "proof/cube.h"

using namespace proofleaf;
using namespace proofleaf::kernel;

namespace {

// A shaper that rises unevenly from 0 to 65535.
std::vector<uint16_t> uneven_shaper() {
  std::vector<uint16_t> shaper(65536);
  for (size_t code = 0; code < shaper.size(); ++code) {
    shaper[code] = static_cast<uint16_t>(std::lround(std::pow(double(code) / 65535, 0.45) * 65535));
  }
  return shaper;
}

Cube random_cube(uint32_t grid, std::mt19937& random) {
  Cube cube{grid, 4, uneven_shaper(), {}, {}, {}};
  cube.nodes.resize(size_t{grid} * grid * grid * 4);
  for (auto& node : cube.nodes) node = static_cast<int16_t>(random());
  return cube;
}

// Every second block of the cube has finer nodes.
void refine_half(Cube& cube, uint32_t cells, std::mt19937& random) {
  cube.block_cells = cells;
  cube.block_at.assign(size_t{kBlocks} * kBlocks * kBlocks, 0);
  constexpr uint32_t kMade = 300;
  for (auto& block : cube.block_at) block = random() % 2 * (1 + random() % kMade);
  cube.block_at.back() = kMade;
  cube.fine.resize(kMade * block_samples(cells));
  for (auto& node : cube.fine) node = static_cast<int16_t>(random());
}

// Codes of every kind: the two ends, greys, and noise.
template <class Code>
std::vector<Code> codes(size_t pixels, std::mt19937& random) {
  std::vector<Code> rgb(pixels * 3);
  for (size_t i = 0; i < rgb.size(); ++i) {
    const size_t kind = i / 3 % 4;
    const auto v = static_cast<Code>(random());
    rgb[i] = kind == 0                ? static_cast<Code>(random() % 2 ? ~Code{0} : 0)
             : kind == 1 && i % 3 > 0 ? rgb[i - 1]
                                      : v;
  }
  return rgb;
}

// Runs both over the first `pixels` and says in how many samples they differ; a sample written past
// the end counts too.
template <class Answer, class Code, class Sample>
size_t differences(Answer (*one)(const Plan&, const Code*, size_t, Sample*),
                   Answer (*other)(const Plan&, const Code*, size_t, Sample*), const Plan& plan,
                   const std::vector<Code>& rgb, size_t pixels) {
  constexpr size_t kPast = 64;
  std::vector<Sample> a(pixels * 4 + kPast, 77), b(pixels * 4 + kPast, 77);
  // Exactly as much memory as is promised, so that a sanitizer sees any reading past it.
  const std::vector<Code> in(rgb.begin(), rgb.begin() + static_cast<ptrdiff_t>(pixels * 3));
  one(plan, in.data(), pixels, a.data());
  other(plan, in.data(), pixels, b.data());
  size_t found = 0;
  for (size_t i = 0; i < a.size(); ++i) found += a[i] != b[i];
  return found;
}

}  // namespace

TEST_CASE("every instruction set gives the plain kernel's values bit for bit") {
  std::mt19937 random(11);
  const auto wide = codes<uint16_t>(40013, random);
  const auto narrow = codes<uint8_t>(40013, random);
  std::vector<uint16_t> lifts(kLiftPeriod * 4);
  for (auto& lift : lifts) lift = static_cast<uint16_t>(random() % 257);
  const Routines& plain = *plain_routines();
  size_t paths = 0;
  for (const Path path : {Path::sse41, Path::avx2, Path::wasm}) {
    const Routines* fast = routines(path);
    if (fast == nullptr) continue;
    ++paths;
    for (const uint32_t grid : {2u, 3u, 33u, 64u, kLargestGrid}) {
      for (const uint32_t cells : {0u, 1u, 3u, kMostBlockCells}) {
        Cube cube = random_cube(grid, random);
        if (cells > 0) refine_half(cube, cells, random);
        const ByteShaper shaper8 = byte_shaper(cube);
        Plan plan = plan_for(cube, cube.shaper.data());
        plan.lifts = lifts.data();
        Plan plan8 = plan_for(cube, shaper8.data());
        plan8.lifts = lifts.data();
        for (const size_t pixels : {size_t{0}, size_t{1}, size_t{7}, size_t{64}, size_t{127},
                                    size_t{128}, size_t{129}, size_t{1000}, size_t{40013}}) {
          CAPTURE(int(path));
          CAPTURE(grid);
          CAPTURE(cells);
          CAPTURE(pixels);
          CHECK(differences(fast->codes, plain.codes, plan, wide, pixels) == 0);
          CHECK(differences(fast->screen, plain.screen, plan, wide, pixels) == 0);
          CHECK(differences(fast->screen_of8, plain.screen_of8, plan8, narrow, pixels) == 0);
          CHECK(differences(fast->dithered, plain.dithered, plan, wide, pixels) == 0);
          CHECK(differences(fast->dithered_of8, plain.dithered_of8, plan8, narrow, pixels) == 0);
          CHECK(differences(fast->device_of8, plain.device_of8, plan8, narrow, pixels) == 0);
        }
      }
    }
  }
  MESSAGE(paths << " instruction sets beside the plain one");
}

TEST_CASE("dithering tells whether all nodes that count are full, on every instruction set") {
  std::mt19937 random(17);
  constexpr uint32_t kGrid = 33;
  Cube cube = random_cube(kGrid, random);
  for (size_t at = 3; at < cube.nodes.size(); at += 4) cube.nodes[at] = kFull;
  const std::vector<uint16_t> lifts(kLiftPeriod * 4, 128);
  Plan plan = plan_for(cube, cube.shaper.data());
  plan.lifts = lifts.data();
  const auto rgb = codes<uint16_t>(1000, random);
  std::vector<uint8_t> out(rgb.size() / 3 * 4);
  const auto said_full = [&](const Routines& ways, size_t first, size_t pixels) {
    return ways.dithered(plan, &rgb[first * 3], pixels, out.data());
  };
  size_t full = 0, empty = 0;
  for (int round = 0; round < 40; ++round) {
    // One more empty node in each round; 16-bit codes say for which pixels such nodes count.
    const size_t node = random() % (cube.nodes.size() / 4);
    cube.nodes[node * 4 + 3] = static_cast<int16_t>(round % 2 ? 0 : -32768);
    std::vector<uint16_t> wide(out.size());
    plain_routines()->codes(plan, rgb.data(), rgb.size() / 3, wide.data());
    for (const Path path : {Path::plain, Path::sse41, Path::avx2, Path::wasm}) {
      const Routines* ways = routines(path);
      if (ways == nullptr) continue;
      CAPTURE(int(path));
      for (size_t first = 0; first < 1000; first += 1 + random() % 300) {
        const size_t pixels = 1 + random() % (1000 - first);
        bool expected = true;
        for (size_t i = first; i < first + pixels; ++i) expected &= wide[i * 4 + 3] == 65535;
        CHECK(said_full(*ways, first, pixels) == expected);
        ++(expected ? full : empty);
      }
    }
  }
  CHECK(full > 10);
  CHECK(empty > 10);
  // The least weight there is still shows: the first node counts for 1 of 16384.
  cube = Cube{2, 4, std::vector<uint16_t>(65536), {}, {}, {}};
  for (size_t v = 0; v < 65536; ++v) cube.shaper[v] = static_cast<uint16_t>(v);
  cube.nodes.assign(8 * 4, kFull);
  cube.nodes[3] = 0;
  plan = plan_for(cube, cube.shaper.data());
  plan.lifts = lifts.data();
  const std::vector<uint16_t> nearly{65531, 65531, 65531}, white{65535, 65535, 65535};
  for (const Path path : {Path::plain, Path::sse41, Path::avx2, Path::wasm}) {
    const Routines* ways = routines(path);
    if (ways == nullptr) continue;
    CHECK_FALSE(ways->dithered(plan, nearly.data(), 1, out.data()));
    CHECK(ways->dithered(plan, white.data(), 1, out.data()));
  }
}

TEST_CASE("a straight cube gives straight values at every position") {
  // Linear maths as the judge: nodes that lie on a plane must interpolate to that plane.
  Cube cube{17, 4, std::vector<uint16_t>(65536), {}, {}, {}};
  for (size_t code = 0; code < 65536; ++code) cube.shaper[code] = static_cast<uint16_t>(code);
  const auto plane = [](double r, double g, double b) {
    return 65535 * (0.5 * r + 0.3 * g + 0.2 * b) - 32768;
  };
  for (int r = 0; r < 17; ++r) {
    for (int g = 0; g < 17; ++g) {
      for (int b = 0; b < 17; ++b) {
        const auto node = static_cast<int16_t>(std::lround(plane(r / 16.0, g / 16.0, b / 16.0)));
        cube.nodes.insert(cube.nodes.end(), 4, node);
      }
    }
  }
  std::mt19937 random(3);
  const auto rgb = codes<uint16_t>(50000, random);
  std::vector<uint16_t> out(rgb.size() / 3 * 4);
  apply_cube_plain(cube, rgb, out);
  double worst = 0;
  for (size_t i = 0; i < rgb.size() / 3; ++i) {
    const double wanted =
        plane(rgb[i * 3] / 65535.0, rgb[i * 3 + 1] / 65535.0, rgb[i * 3 + 2] / 65535.0) + 32768;
    worst = std::max(worst, std::abs(out[i * 4] - wanted));
  }
  MESSAGE("at worst " << worst << " of 65535 away");
  CHECK(worst <= 2);  // half a code for the node, half for the result, one for the position
}

TEST_CASE("eight bits of a device code are the nearest ones") {
  size_t wrong = 0;
  for (int32_t code = 0; code < 65536; ++code) {
    const auto nearest = static_cast<int>(std::lround(code * 255.0 / 65535));
    wrong += finish<Output::device>({}, 0, 0, code - 32768) != nearest;
  }
  CHECK(wrong == 0);
}

TEST_CASE("8-bit pictures are proofed as the same picture in 16 bits") {
  std::mt19937 random(5);
  const Cube cube = random_cube(33, random);
  const auto narrow = codes<uint8_t>(5000, random);
  std::vector<uint16_t> wide(narrow.size());
  for (size_t i = 0; i < wide.size(); ++i) wide[i] = static_cast<uint16_t>(narrow[i] * 257);
  std::vector<uint8_t> one(narrow.size() / 3 * 4), other(one.size());
  proof_to_screen8(cube, std::span<const uint8_t>(narrow), one);
  proof_to_screen8(cube, std::span<const uint16_t>(wide), other);
  CHECK(one == other);
}
