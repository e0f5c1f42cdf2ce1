// Tetrahedral interpolation in a packed cube.
//
// A colour's place between nodes has three fractions. Walking from the cell's first node along the
// axis of the largest fraction, then the middle, then the smallest, meets the four nodes of its
// tetrahedron; their weights are 1-max, max-mid, mid-min, min. Weights have 14 bits, so that a
// weight of one fits a signed 16-bit factor, and node codes are signed for the same reason: two
// multiply-adds of 16-bit pairs make all four lanes.
#include <algorithm>
#include <array>

#include "proof/cube.h"

#if defined(__SSE2__)
#include <emmintrin.h>
#elif defined(__wasm_simd128__)
#include <wasm_simd128.h>
#endif

namespace proofleaf {
namespace {

constexpr int kWeightBits = 14;
constexpr int32_t kOne = 1 << kWeightBits;

// Which cell along one axis, and how far into it.
struct Place {
  uint32_t node;
  int32_t fraction;  // 0..kOne, kOne only at the very end
};

inline Place place_of(uint32_t position, uint32_t cells) {
  // 0..65535 to 0..65536, so that the last code lands on the last node.
  const uint32_t t = (position + (position >> 15)) * cells;
  const uint32_t node = std::min(t >> 16, cells - 1);
  return {node, static_cast<int32_t>((t - (node << 16)) >> 2)};
}

// The four nodes of a colour's tetrahedron and their weights.
struct Tetrahedron {
  const int16_t *a, *b, *c, *d;
  int32_t wa, wb, wc, wd;
};

// How far apart neighbours are along each axis, and the ways from a cell's first node to its last.
// Steps are in samples: 4 lanes a node.
struct Steps {
  explicit Steps(uint32_t grid) : red(grid * grid * 4), green(grid * 4) {
    const uint32_t r = red, g = green, b = blue;
    // Indexed by (r>=g)*4 + (g>=b)*2 + (r>=b): the first node on the way, then the second.
    first = {b, b, g, g, b, r, r, r};
    second = {g + b, g + b, g + b, r + g, r + b, r + b, r + g, r + g};
    last = r + g + b;
  }
  uint32_t red, green, blue = 4, last;
  std::array<uint32_t, 8> first, second;
};

// One pixel's walk through the cube.
class Walker {
 public:
  explicit Walker(const Cube& cube)
      : nodes_(cube.nodes.data()),
        fine_(cube.fine.data()),
        shaper_(cube.shaper.data()),
        block_at_(cube.block_at.empty() ? nullptr : cube.block_at.data()),
        cells_(cube.grid - 1),
        steps_(cube.grid),
        fine_steps_(kBlockNodes) {}

  Tetrahedron walk(const uint16_t* rgb) const {
    const uint32_t r = shaper_[rgb[0]], g = shaper_[rgb[1]], b = shaper_[rgb[2]];
    if (block_at_ != nullptr) {
      const Place fr = place_of(r, kFineCells), fg = place_of(g, kFineCells),
                  fb = place_of(b, kFineCells);
      const uint32_t block =
          block_at_[((fr.node / kBlockCells) * kBlocks + fg.node / kBlockCells) * kBlocks +
                    fb.node / kBlockCells];
      if (block != 0) {
        return step(fine_ + (block - 1) * kBlockSamples, fine_steps_, inside(fr), inside(fg),
                    inside(fb));
      }
    }
    return step(nodes_, steps_, place_of(r, cells_), place_of(g, cells_), place_of(b, cells_));
  }

 private:
  static constexpr uint32_t kFineCells = kBlocks * kBlockCells;
  static constexpr size_t kBlockSamples = size_t{kBlockNodes} * kBlockNodes * kBlockNodes * 4;

  static Place inside(Place place) { return {place.node % kBlockCells, place.fraction}; }

  static Tetrahedron step(const int16_t* nodes, const Steps& steps, Place r, Place g, Place b) {
    const int16_t* base = nodes + (r.node * steps.red + g.node * steps.green + b.node * steps.blue);
    const auto order =
        static_cast<size_t>((r.fraction >= g.fraction) * 4 + (g.fraction >= b.fraction) * 2 +
                            (r.fraction >= b.fraction));
    const int32_t rg_max = std::max(r.fraction, g.fraction),
                  rg_min = std::min(r.fraction, g.fraction);
    const int32_t most = std::max(rg_max, b.fraction), least = std::min(rg_min, b.fraction);
    const int32_t middle = r.fraction + g.fraction + b.fraction - most - least;
    return {base,
            base + steps.first[order],
            base + steps.second[order],
            base + steps.last,
            kOne - most,
            most - middle,
            middle - least,
            least};
  }

  const int16_t *nodes_, *fine_;
  const uint16_t* shaper_;
  const uint32_t* block_at_;
  uint32_t cells_;
  Steps steps_, fine_steps_;
};

inline int32_t blend_lane(const Tetrahedron& t, size_t lane) {
  return (t.a[lane] * t.wa + t.b[lane] * t.wb + t.c[lane] * t.wc + t.d[lane] * t.wd + kOne / 2) >>
         kWeightBits;
}

#if defined(__SSE2__)

inline __m128i pair(int32_t low, int32_t high) {
  return _mm_set1_epi32(
      static_cast<int32_t>(static_cast<uint32_t>(low) | static_cast<uint32_t>(high) << 16));
}
inline __m128i lanes(const int16_t* node) {
  return _mm_loadl_epi64(reinterpret_cast<const __m128i*>(node));
}
// Four 32-bit lanes of one pixel.
inline __m128i blend(const Tetrahedron& t) {
  const __m128i ab = _mm_madd_epi16(_mm_unpacklo_epi16(lanes(t.a), lanes(t.b)), pair(t.wa, t.wb));
  const __m128i cd = _mm_madd_epi16(_mm_unpacklo_epi16(lanes(t.c), lanes(t.d)), pair(t.wc, t.wd));
  return _mm_srai_epi32(_mm_add_epi32(_mm_add_epi32(ab, cd), _mm_set1_epi32(kOne / 2)),
                        kWeightBits);
}
inline void store16(const Tetrahedron& t, uint16_t* out) {
  const __m128i codes = _mm_xor_si128(_mm_packs_epi32(blend(t), _mm_setzero_si128()),
                                      _mm_set1_epi16(static_cast<int16_t>(0x8000)));
  _mm_storel_epi64(reinterpret_cast<__m128i*>(out), codes);
}
inline void store8x4(const std::array<Tetrahedron, 4>& t, uint8_t* out) {
  const __m128i half = _mm_set1_epi16(16384 + 64);
  const __m128i one =
      _mm_srai_epi16(_mm_adds_epi16(_mm_packs_epi32(blend(t[0]), blend(t[1])), half), 7);
  const __m128i two =
      _mm_srai_epi16(_mm_adds_epi16(_mm_packs_epi32(blend(t[2]), blend(t[3])), half), 7);
  _mm_storeu_si128(reinterpret_cast<__m128i*>(out), _mm_packus_epi16(one, two));
}

#elif defined(__wasm_simd128__)

inline v128_t pair(int32_t low, int32_t high) {
  return wasm_i32x4_splat(
      static_cast<int32_t>(static_cast<uint32_t>(low) | static_cast<uint32_t>(high) << 16));
}
inline v128_t interleave(const int16_t* one, const int16_t* two) {
  const v128_t a = wasm_v128_load64_zero(one), b = wasm_v128_load64_zero(two);
  return wasm_i16x8_shuffle(a, b, 0, 8, 1, 9, 2, 10, 3, 11);
}
inline v128_t blend(const Tetrahedron& t) {
  const v128_t ab = wasm_i32x4_dot_i16x8(interleave(t.a, t.b), pair(t.wa, t.wb));
  const v128_t cd = wasm_i32x4_dot_i16x8(interleave(t.c, t.d), pair(t.wc, t.wd));
  return wasm_i32x4_shr(wasm_i32x4_add(wasm_i32x4_add(ab, cd), wasm_i32x4_splat(kOne / 2)),
                        kWeightBits);
}
inline void store16(const Tetrahedron& t, uint16_t* out) {
  const v128_t lanes = blend(t);
  const v128_t codes =
      wasm_v128_xor(wasm_i16x8_narrow_i32x4(lanes, lanes), wasm_i16x8_splat(-32768));
  wasm_v128_store64_lane(out, codes, 0);
}
inline void store8x4(const std::array<Tetrahedron, 4>& t, uint8_t* out) {
  const v128_t half = wasm_i16x8_splat(16384 + 64);
  const v128_t one = wasm_i16x8_shr(
      wasm_i16x8_add_sat(wasm_i16x8_narrow_i32x4(blend(t[0]), blend(t[1])), half), 7);
  const v128_t two = wasm_i16x8_shr(
      wasm_i16x8_add_sat(wasm_i16x8_narrow_i32x4(blend(t[2]), blend(t[3])), half), 7);
  wasm_v128_store(out, wasm_u8x16_narrow_i16x8(one, two));
}

#else

inline void store16(const Tetrahedron& t, uint16_t* out) {
  for (size_t lane = 0; lane < 4; ++lane)
    out[lane] = static_cast<uint16_t>(blend_lane(t, lane) + 32768);
}
inline void store8x4(const std::array<Tetrahedron, 4>& t, uint8_t* out) {
  for (size_t i = 0; i < 16; ++i) {
    const int32_t code = std::min(blend_lane(t[i / 4], i % 4) + 16384 + 64, 32767) >> 7;
    out[i] = static_cast<uint8_t>(std::clamp(code, 0, 255));
  }
}

#endif

}  // namespace

void apply_cube(const Cube& cube, std::span<const uint16_t> rgb, std::span<uint16_t> out) {
  const Walker walker(cube);
  const size_t count = rgb.size() / 3;
  for (size_t i = 0; i < count; ++i) store16(walker.walk(&rgb[i * 3]), &out[i * 4]);
}

void apply_cube_plain(const Cube& cube, std::span<const uint16_t> rgb, std::span<uint16_t> out) {
  const Walker walker(cube);
  for (size_t i = 0; i < rgb.size() / 3; ++i) {
    const Tetrahedron t = walker.walk(&rgb[i * 3]);
    for (size_t lane = 0; lane < 4; ++lane) {
      out[i * 4 + lane] = static_cast<uint16_t>(blend_lane(t, lane) + 32768);
    }
  }
}

void proof_to_screen8(const Cube& cube, std::span<const uint16_t> rgb, std::span<uint8_t> rgba) {
  const Walker walker(cube);
  const size_t count = rgb.size() / 3;
  size_t i = 0;
  for (; i + 4 <= count; i += 4) {
    const uint16_t* in = &rgb[i * 3];
    store8x4({walker.walk(in), walker.walk(in + 3), walker.walk(in + 6), walker.walk(in + 9)},
             &rgba[i * 4]);
  }
  for (; i < count; ++i) {
    const Tetrahedron t = walker.walk(&rgb[i * 3]);
    std::array<uint8_t, 16> four{};
    store8x4({t, t, t, t}, four.data());
    std::copy_n(four.begin(), 4, &rgba[i * 4]);
  }
}

}  // namespace proofleaf
