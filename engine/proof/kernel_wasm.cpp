// The kernel with WebAssembly's 128-bit SIMD: eight places at a time, four pixels blended at a
// time.
#include "proof/kernel_body.h"

#if defined(__wasm_simd128__)
#include <wasm_simd128.h>

namespace proofleaf::kernel {
namespace {

struct Wasm {
  using W = v128_t;
  static constexpr size_t kWords = 8;

  static W words(uint16_t v) { return wasm_i16x8_splat(static_cast<int16_t>(v)); }
  static W pairs(uint16_t low_word, uint16_t high_word) {
    return wasm_i32x4_splat(low_word | high_word << 16);
  }
  static W table(uint16_t v0, uint16_t v1, uint16_t v2) {
    return wasm_i64x2_splat(static_cast<int64_t>(v0 | uint64_t{v1} << 16 | uint64_t{v2} << 32));
  }
  static size_t slot(size_t pixel) { return pixel; }
  static W load(const uint16_t* p) { return wasm_v128_load(p); }
  static void store16(uint16_t* p, W v) { wasm_v128_store(p, v); }
  static W load32(const uint32_t* p) { return wasm_v128_load(p); }
  static void store32(uint32_t* p, W v) { wasm_v128_store(p, v); }
  static W mul_high(W a, W b) {
    return wasm_i16x8_shuffle(wasm_u32x4_extmul_low_u16x8(a, b), wasm_u32x4_extmul_high_u16x8(a, b),
                              1, 3, 5, 7, 9, 11, 13, 15);
  }
  static W mul_low(W a, W b) { return wasm_i16x8_mul(a, b); }
  static W add_saturated(W a, W b) { return wasm_u16x8_add_sat(a, b); }
  static W add(W a, W b) { return wasm_i16x8_add(a, b); }
  static W sub(W a, W b) { return wasm_i16x8_sub(a, b); }
  static W both(W a, W b) { return wasm_v128_and(a, b); }
  static W either(W a, W b) { return wasm_v128_or(a, b); }
  static W min(W a, W b) { return wasm_u16x8_min(a, b); }
  static W max(W a, W b) { return wasm_u16x8_max(a, b); }
  template <int bits>
  static W shift_right(W v) {
    return wasm_u16x8_shr(v, bits);
  }
  static W low(W a, W b) { return wasm_i16x8_shuffle(a, b, 0, 8, 1, 9, 2, 10, 3, 11); }
  static W high(W a, W b) { return wasm_i16x8_shuffle(a, b, 4, 12, 5, 13, 6, 14, 7, 15); }
  static W multiply_add(W a, W b) { return wasm_i32x4_dot_i16x8(a, b); }
  static W add32(W a, W b) { return wasm_i32x4_add(a, b); }
  // Entry 0..2 of a table by the two lowest bits of each word.
  static W look_up(W entries, W key) {
    const W at = wasm_i16x8_mul(both(key, words(3)), words(0x0202));
    return wasm_i8x16_swizzle(entries, add(at, words(0x0100)));
  }

  static W first16(const uint16_t* p) { return wasm_v128_load16_splat(p); }
  template <int lane>
  static W put16(W all, const uint16_t* p) {
    return wasm_v128_load16_lane(p, all, lane);
  }
  template <class Code>
  static W positions(const uint16_t* shaper, const Code* code) {
    return eight_positions<Wasm>(shaper, code);
  }

  static W node(const int16_t* p) { return wasm_v128_load64_zero(p); }

  // lanes[j] holds pixel j.
  static void blend4(const int16_t* nodes, const int16_t* lasts, const uint32_t* base,
                     const uint32_t* first, const uint32_t* second, const uint32_t* ab,
                     const uint32_t* cd, W* lanes) {
    for (size_t j = 0; j < 4; ++j) {
      const W a = node(nodes + size_t{base[j]} * 4), b = node(nodes + size_t{first[j]} * 4);
      const W c = node(nodes + size_t{second[j]} * 4), d = node(lasts + size_t{base[j]} * 4);
      const W sum = add32(multiply_add(low(a, b), wasm_v128_load32_splat(ab + j)),
                          multiply_add(low(c, d), wasm_v128_load32_splat(cd + j)));
      lanes[j] = wasm_i32x4_shr(add32(sum, wasm_i32x4_splat(kOne / 2)), kWeightBits);
    }
  }

  // The least of this and four vectors of lanes, each in its place of the four.
  static W least(W before, const W* lanes) {
    return wasm_i16x8_min(before, wasm_i16x8_min(wasm_i16x8_narrow_i32x4(lanes[0], lanes[1]),
                                                 wasm_i16x8_narrow_i32x4(lanes[2], lanes[3])));
  }

  template <Output output>
  static void store(Sample<output>* out, const W* lanes, [[maybe_unused]] const uint16_t* lifts) {
    const W one = wasm_i16x8_narrow_i32x4(lanes[0], lanes[1]);
    const W two = wasm_i16x8_narrow_i32x4(lanes[2], lanes[3]);
    if constexpr (output == Output::codes) {
      wasm_v128_store(out, code(one));
      wasm_v128_store(out + 8, code(two));
    } else if constexpr (output == Output::screen) {
      wasm_v128_store(out, wasm_u8x16_narrow_i16x8(level(one), level(two)));
    } else if constexpr (output == Output::device) {
      wasm_v128_store(out,
                      wasm_u8x16_narrow_i16x8(device(one, words(128)), device(two, words(128))));
    } else {
      wasm_v128_store(out, wasm_u8x16_narrow_i16x8(device(one, wasm_v128_load(lifts)),
                                                   device(two, wasm_v128_load(lifts + 8))));
    }
  }
  static W code(W lane) { return wasm_v128_xor(lane, words(0x8000)); }
  static W level(W lane) { return wasm_i16x8_shr(wasm_i16x8_add_sat(lane, words(16384 + 64)), 7); }
  static W device(W lane, W lift) {
    // (code + lift) / 257, as a multiplication that is exact for 16 bits.
    return shift_right<8>(mul_high(add_saturated(code(lane), lift), words(65281)));
  }
};

}  // namespace

const Routines* wasm_routines() { return &kRoutines<Wasm>; }

}  // namespace proofleaf::kernel

#else
namespace proofleaf::kernel {
const Routines* wasm_routines() { return nullptr; }
}  // namespace proofleaf::kernel
#endif
