// The kernel with AVX2: sixteen places at a time, eight pixels blended at a time.
// Compiled with -mavx2 on x86-64 (CMakeLists.txt), and empty elsewhere.
#include "proof/kernel_body.h"

#if defined(__AVX2__)
#include <immintrin.h>

namespace proofleaf::kernel {
namespace {

struct Avx2 {
  using W = __m256i;
  static constexpr size_t kWords = 16;

  static W words(uint16_t v) { return _mm256_set1_epi16(static_cast<int16_t>(v)); }
  static W pairs(uint16_t low_word, uint16_t high_word) {
    return _mm256_set1_epi32(low_word | high_word << 16);
  }
  static W table(uint16_t v0, uint16_t v1, uint16_t v2) {
    return _mm256_set1_epi64x(static_cast<int64_t>(v0 | uint64_t{v1} << 16 | uint64_t{v2} << 32));
  }
  // Positions are kept in the order 0-3 8-11 4-7 12-15, which low() and high() bring back to pixels
  // in order.
  static size_t slot(size_t pixel) {
    return (pixel & ~size_t{12}) | (pixel & 4) << 1 | (pixel & 8) >> 1;
  }
  static W load(const uint16_t* p) { return _mm256_load_si256(reinterpret_cast<const W*>(p)); }
  static void store16(uint16_t* p, W v) { _mm256_store_si256(reinterpret_cast<W*>(p), v); }
  static W load32(const uint32_t* p) { return _mm256_load_si256(reinterpret_cast<const W*>(p)); }
  static void store32(uint32_t* p, W v) { _mm256_store_si256(reinterpret_cast<W*>(p), v); }
  static W mul_high(W a, W b) { return _mm256_mulhi_epu16(a, b); }
  static W mul_low(W a, W b) { return _mm256_mullo_epi16(a, b); }
  static W add_saturated(W a, W b) { return _mm256_adds_epu16(a, b); }
  static W add(W a, W b) { return _mm256_add_epi16(a, b); }
  static W sub(W a, W b) { return _mm256_sub_epi16(a, b); }
  static W both(W a, W b) { return _mm256_and_si256(a, b); }
  static W either(W a, W b) { return _mm256_or_si256(a, b); }
  static W min(W a, W b) { return _mm256_min_epu16(a, b); }
  static W max(W a, W b) { return _mm256_max_epu16(a, b); }
  template <int bits>
  static W shift_right(W v) {
    return _mm256_srli_epi16(v, bits);
  }
  static W low(W a, W b) { return _mm256_unpacklo_epi16(a, b); }
  static W high(W a, W b) { return _mm256_unpackhi_epi16(a, b); }
  static W multiply_add(W a, W b) { return _mm256_madd_epi16(a, b); }
  static W add32(W a, W b) { return _mm256_add_epi32(a, b); }
  // Entry 0..2 of a table by the two lowest bits of each word.
  static W look_up(W entries, W key) {
    const W at = _mm256_mullo_epi16(both(key, words(3)), words(0x0202));
    return _mm256_shuffle_epi8(entries, add(at, words(0x0100)));
  }

  static __m128i first16(const uint16_t* p) { return _mm_cvtsi32_si128(*p); }
  template <int lane>
  static __m128i put16(__m128i all, const uint16_t* p) {
    return _mm_insert_epi16(all, *p, lane);
  }
  // Of pixels 0-3 and 8-11, and of 4-7 and 12-15.
  template <class Code>
  static W positions(const uint16_t* shaper, const Code* code) {
    return two(eight_positions<Avx2, 24>(shaper, code),
               eight_positions<Avx2, 24>(shaper, code + 12));
  }

  static __m128i node(const int16_t* p) {
    return _mm_loadl_epi64(reinterpret_cast<const __m128i*>(p));
  }
  static W two(__m128i one, __m128i other) {
    return _mm256_inserti128_si256(_mm256_castsi128_si256(one), other, 1);
  }

  // lanes[j] holds pixel j and, in its upper half, pixel j + 4.
  static void blend4(const int16_t* nodes, const int16_t* lasts, const uint32_t* base,
                     const uint32_t* first, const uint32_t* second, const uint32_t* ab,
                     const uint32_t* cd, W* lanes) {
    const W ab8 = load32(ab), cd8 = load32(cd);
    const auto pair_ab = [&](size_t j) {
      return _mm_unpacklo_epi16(node(nodes + size_t{base[j]} * 4),
                                node(nodes + size_t{first[j]} * 4));
    };
    const auto pair_cd = [&](size_t j) {
      return _mm_unpacklo_epi16(node(nodes + size_t{second[j]} * 4),
                                node(lasts + size_t{base[j]} * 4));
    };
    const auto pixels = [&](size_t j, W weights_ab, W weights_cd) {
      const W sum = add32(multiply_add(two(pair_ab(j), pair_ab(j + 4)), weights_ab),
                          multiply_add(two(pair_cd(j), pair_cd(j + 4)), weights_cd));
      lanes[j] = _mm256_srai_epi32(add32(sum, _mm256_set1_epi32(kOne / 2)), kWeightBits);
    };
    pixels(0, _mm256_shuffle_epi32(ab8, 0x00), _mm256_shuffle_epi32(cd8, 0x00));
    pixels(1, _mm256_shuffle_epi32(ab8, 0x55), _mm256_shuffle_epi32(cd8, 0x55));
    pixels(2, _mm256_shuffle_epi32(ab8, 0xAA), _mm256_shuffle_epi32(cd8, 0xAA));
    pixels(3, _mm256_shuffle_epi32(ab8, 0xFF), _mm256_shuffle_epi32(cd8, 0xFF));
  }

  // The least of this and four vectors of lanes, each in its place of the four.
  static W least(W before, const W* lanes) {
    return _mm256_min_epi16(before, _mm256_min_epi16(_mm256_packs_epi32(lanes[0], lanes[1]),
                                                     _mm256_packs_epi32(lanes[2], lanes[3])));
  }

  template <Output output>
  static void store(Sample<output>* out, const W* lanes, [[maybe_unused]] const uint16_t* lifts) {
    const W even = _mm256_packs_epi32(lanes[0], lanes[1]);  // pixels 0 1 4 5
    const W odd = _mm256_packs_epi32(lanes[2], lanes[3]);   // pixels 2 3 6 7
    if constexpr (output == Output::codes) {
      const W a = code(even), b = code(odd);
      auto* p = reinterpret_cast<__m128i*>(out);
      _mm_storeu_si128(p, _mm256_castsi256_si128(a));
      _mm_storeu_si128(p + 1, _mm256_castsi256_si128(b));
      _mm_storeu_si128(p + 2, _mm256_extracti128_si256(a, 1));
      _mm_storeu_si128(p + 3, _mm256_extracti128_si256(b, 1));
    } else {
      W eight;
      if constexpr (output == Output::screen) {
        eight = _mm256_packus_epi16(level(even), level(odd));
      } else if constexpr (output == Output::device) {
        eight = _mm256_packus_epi16(device(even, words(128)), device(odd, words(128)));
      } else {
        const auto* p = reinterpret_cast<const W*>(lifts);
        const W pixels0 = _mm256_loadu_si256(p), pixels4 = _mm256_loadu_si256(p + 1);
        eight = _mm256_packus_epi16(device(even, _mm256_permute2x128_si256(pixels0, pixels4, 0x20)),
                                    device(odd, _mm256_permute2x128_si256(pixels0, pixels4, 0x31)));
      }
      _mm256_storeu_si256(reinterpret_cast<W*>(out), eight);
    }
  }
  static W code(W lane) { return _mm256_xor_si256(lane, words(0x8000)); }
  static W level(W lane) {
    return _mm256_srai_epi16(_mm256_adds_epi16(lane, words(16384 + 64)), 7);
  }
  static W device(W lane, W lift) {
    // (code + lift) / 257, as a multiplication that is exact for 16 bits.
    return shift_right<8>(mul_high(add_saturated(code(lane), lift), words(65281)));
  }
};

}  // namespace

const Routines* avx2_routines() { return &kRoutines<Avx2>; }

}  // namespace proofleaf::kernel

#else
namespace proofleaf::kernel {
const Routines* avx2_routines() { return nullptr; }
}  // namespace proofleaf::kernel
#endif
