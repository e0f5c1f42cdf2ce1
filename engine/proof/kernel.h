// What the kernel's instruction sets share. Internal to this folder and its tests.
//
// Numbers, the same on every path:
//   position   0..65535, from the shaper; the whole side of the cube
//   node       position * cells / 65536, 0..cells-1
//   fraction   the rest, 14 bits, 0..16384; the last position of all comes out as 16384 exactly
//   weight     14 bits: 1-most, most-middle, middle-least, least of the three fractions
//   lane       a node's 16-bit code less 32768, so that it is a signed factor
// The files of single instruction sets are compiled with flags of their own, so they include
// nothing whose inline functions another file could pick up: no standard containers.
#pragma once

#include <cstddef>
#include <cstdint>
#include <type_traits>

namespace proofleaf {
struct Cube;
}

namespace proofleaf::kernel {

inline constexpr int kWeightBits = 14;
inline constexpr int32_t kOne = 1 << kWeightBits;

// Fine blocks as cube.h has them: 64 along a side.
inline constexpr int kBlockBits = 6, kBlockShift = 16 - kBlockBits;

// A cube laid out for a run. With refinement `nodes` are the fine blocks', else the cube's.
struct Plan {
  const uint16_t* shaper;    // position of each 8- or 16-bit code
  const int16_t* nodes;      // four lanes each; blue fastest, then green, then red
  uint32_t grid;             // of `nodes`: how many along a side lie together in memory
  uint32_t cells;            // along the whole side
  const uint32_t* block_at;  // nullptr without refinement
  const int16_t* whole;      // the cube's own nodes, for colours outside of all fine blocks
  uint32_t whole_grid;
  // Of Output::dithered: 0..256, added to a code before it is divided by 257; four lanes for each
  // of kLiftPeriod pixels, again and again.
  const uint16_t* lifts = nullptr;
};
inline constexpr size_t kLiftPeriod = 64;  // cube.h's kLiftPixels

// shaper: 65536 or 256 positions, by the codes to come; both it and the cube must outlive the plan.
Plan plan_for(const Cube& cube, const uint16_t* shaper);

// What becomes of a lane.
enum class Output {
  codes,     // 16 bits
  screen,    // 8 bits of a screen cube, clipped
  device,    // 8 bits of a device cube, rounded
  dithered,  // 8 bits of a device cube, rounded up or down by the plan's lifts
};

template <Output>
struct SampleOf {
  using Type = uint8_t;
};
template <>
struct SampleOf<Output::codes> {
  using Type = uint16_t;
};
template <Output output>
using Sample = typename SampleOf<output>::Type;

// What a routine answers, see Routines.
template <Output output>
using Answer = std::conditional_t<output == Output::dithered, bool, void>;

// What the fourth lane comes out as where all nodes that count have it at its end: of weights that
// add up to kOne, any to another node makes it less.
inline constexpr int16_t kFull = 32767;

// One instruction set's ways; `count` pixels, three codes in, four samples out, no overlap. Those
// that dither answer whether all fourth lanes came out full.
struct Routines {
  void (*codes)(const Plan& plan, const uint16_t* rgb, size_t count, uint16_t* out);
  void (*screen)(const Plan& plan, const uint16_t* rgb, size_t count, uint8_t* out);
  void (*screen_of8)(const Plan& plan, const uint8_t* rgb, size_t count, uint8_t* out);
  void (*device_of8)(const Plan& plan, const uint8_t* rgb, size_t count, uint8_t* out);
  bool (*dithered)(const Plan& plan, const uint16_t* rgb, size_t count, uint8_t* out);
  bool (*dithered_of8)(const Plan& plan, const uint8_t* rgb, size_t count, uint8_t* out);
};

enum class Path { plain, sse41, avx2, wasm };

// Each is nullptr in a build without such instructions; routines() also where the machine has none.
const Routines* plain_routines();
const Routines* sse41_routines();
const Routines* avx2_routines();
const Routines* wasm_routines();
const Routines* routines(Path path);
// What the public functions run.
const Routines& fastest();

// One colour, one lane after the other: the definition of the result.
void plain_lanes(const Plan& plan, const uint16_t* position, int32_t* lanes);

// The last step of a pixel's lane.
template <Output output>
inline Sample<output> finish(const Plan& plan, size_t pixel, size_t at, int32_t lane) {
  if constexpr (output == Output::codes) {
    return static_cast<uint16_t>(lane + 32768);
  } else if constexpr (output == Output::screen) {
    // 128 codes to a level, and 128 levels below zero: see cube.h.
    const int32_t level = (lane + 16384 + 64) >> 7;
    return static_cast<uint8_t>(level < 0 ? 0 : level > 255 ? 255 : level);
  } else {
    const int32_t lift = output == Output::device ? 128 : plan.lifts[pixel % kLiftPeriod * 4 + at];
    const int32_t lifted = lane + 32768 + lift;
    return static_cast<uint8_t>((lifted > 65535 ? 65535 : lifted) / 257);
  }
}

}  // namespace proofleaf::kernel
