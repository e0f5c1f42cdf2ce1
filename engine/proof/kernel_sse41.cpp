// The kernel with SSE4.1: eight places at a time, four pixels blended at a time.
// Compiled with -msse4.1 on x86-64 (CMakeLists.txt), and empty elsewhere.
#include "proof/kernel_body.h"

#if defined(__SSE4_1__) && !defined(__EMSCRIPTEN__)
#include <smmintrin.h>

namespace proofleaf::kernel {
namespace {

struct Sse41 {
  using W = __m128i;
  static constexpr size_t kWords = 8;

  static W words(uint16_t v) { return _mm_set1_epi16(static_cast<int16_t>(v)); }
  static W pairs(uint16_t low_word, uint16_t high_word) {
    return _mm_set1_epi32(low_word | high_word << 16);
  }
  static W table(uint16_t v0, uint16_t v1, uint16_t v2) {
    return _mm_set1_epi64x(static_cast<int64_t>(v0 | uint64_t{v1} << 16 | uint64_t{v2} << 32));
  }
  static size_t slot(size_t pixel) { return pixel; }
  static W load(const uint16_t* p) { return _mm_load_si128(reinterpret_cast<const W*>(p)); }
  static void store16(uint16_t* p, W v) { _mm_store_si128(reinterpret_cast<W*>(p), v); }
  static W load32(const uint32_t* p) { return _mm_load_si128(reinterpret_cast<const W*>(p)); }
  static void store32(uint32_t* p, W v) { _mm_store_si128(reinterpret_cast<W*>(p), v); }
  static W mul_high(W a, W b) { return _mm_mulhi_epu16(a, b); }
  static W mul_low(W a, W b) { return _mm_mullo_epi16(a, b); }
  static W add_saturated(W a, W b) { return _mm_adds_epu16(a, b); }
  static W add(W a, W b) { return _mm_add_epi16(a, b); }
  static W sub(W a, W b) { return _mm_sub_epi16(a, b); }
  static W both(W a, W b) { return _mm_and_si128(a, b); }
  static W either(W a, W b) { return _mm_or_si128(a, b); }
  static W min(W a, W b) { return _mm_min_epu16(a, b); }
  static W max(W a, W b) { return _mm_max_epu16(a, b); }
  template <int bits>
  static W shift_right(W v) {
    return _mm_srli_epi16(v, bits);
  }
  static W low(W a, W b) { return _mm_unpacklo_epi16(a, b); }
  static W high(W a, W b) { return _mm_unpackhi_epi16(a, b); }
  static W multiply_add(W a, W b) { return _mm_madd_epi16(a, b); }
  static W add32(W a, W b) { return _mm_add_epi32(a, b); }
  // Entry 0..2 of a table by the two lowest bits of each word.
  static W look_up(W entries, W key) {
    const W at = _mm_mullo_epi16(both(key, words(3)), words(0x0202));
    return _mm_shuffle_epi8(entries, add(at, words(0x0100)));
  }

  static W first16(const uint16_t* p) { return _mm_cvtsi32_si128(*p); }
  template <int lane>
  static W put16(W all, const uint16_t* p) {
    return _mm_insert_epi16(all, *p, lane);
  }
  template <class Code>
  static W positions(const uint16_t* shaper, const Code* code) {
    return eight_positions<Sse41>(shaper, code);
  }

  static W node(const int16_t* p) { return _mm_loadl_epi64(reinterpret_cast<const W*>(p)); }

  // lanes[j] holds pixel j.
  static void blend4(const int16_t* nodes, const int16_t* lasts, const uint32_t* base,
                     const uint32_t* first, const uint32_t* second, const uint32_t* ab,
                     const uint32_t* cd, W* lanes) {
    const W ab4 = load32(ab), cd4 = load32(cd);
    const auto pixel = [&](size_t j, W weights_ab, W weights_cd) {
      const W a = node(nodes + size_t{base[j]} * 4), b = node(nodes + size_t{first[j]} * 4);
      const W c = node(nodes + size_t{second[j]} * 4), d = node(lasts + size_t{base[j]} * 4);
      const W sum = add32(multiply_add(low(a, b), weights_ab), multiply_add(low(c, d), weights_cd));
      lanes[j] = _mm_srai_epi32(add32(sum, _mm_set1_epi32(kOne / 2)), kWeightBits);
    };
    pixel(0, _mm_shuffle_epi32(ab4, 0x00), _mm_shuffle_epi32(cd4, 0x00));
    pixel(1, _mm_shuffle_epi32(ab4, 0x55), _mm_shuffle_epi32(cd4, 0x55));
    pixel(2, _mm_shuffle_epi32(ab4, 0xAA), _mm_shuffle_epi32(cd4, 0xAA));
    pixel(3, _mm_shuffle_epi32(ab4, 0xFF), _mm_shuffle_epi32(cd4, 0xFF));
  }

  // The least of this and four vectors of lanes, each in its place of the four.
  static W least(W before, const W* lanes) {
    return _mm_min_epi16(before, _mm_min_epi16(_mm_packs_epi32(lanes[0], lanes[1]),
                                               _mm_packs_epi32(lanes[2], lanes[3])));
  }

  template <Output output>
  static void store(Sample<output>* out, const W* lanes, [[maybe_unused]] const uint16_t* lifts) {
    const W one = _mm_packs_epi32(lanes[0], lanes[1]), two = _mm_packs_epi32(lanes[2], lanes[3]);
    auto* p = reinterpret_cast<W*>(out);
    if constexpr (output == Output::codes) {
      _mm_storeu_si128(p, code(one));
      _mm_storeu_si128(p + 1, code(two));
    } else if constexpr (output == Output::screen) {
      _mm_storeu_si128(p, _mm_packus_epi16(level(one), level(two)));
    } else if constexpr (output == Output::device) {
      _mm_storeu_si128(p, _mm_packus_epi16(device(one, words(128)), device(two, words(128))));
    } else {
      const auto* by = reinterpret_cast<const W*>(lifts);
      _mm_storeu_si128(p, _mm_packus_epi16(device(one, _mm_loadu_si128(by)),
                                           device(two, _mm_loadu_si128(by + 1))));
    }
  }
  static W code(W lane) { return _mm_xor_si128(lane, words(0x8000)); }
  static W level(W lane) { return _mm_srai_epi16(_mm_adds_epi16(lane, words(16384 + 64)), 7); }
  static W device(W lane, W lift) {
    // (code + lift) / 257, as a multiplication that is exact for 16 bits.
    return shift_right<8>(mul_high(add_saturated(code(lane), lift), words(65281)));
  }
};

}  // namespace

const Routines* sse41_routines() { return &kRoutines<Sse41>; }

}  // namespace proofleaf::kernel

#else
namespace proofleaf::kernel {
const Routines* sse41_routines() { return nullptr; }
}  // namespace proofleaf::kernel
#endif
