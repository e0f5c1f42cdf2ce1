// The inner loops of libjpeg-turbo for WASM SIMD, which the library does not have itself: built
// with WITH_SIMD (.ci/libraries) it asks for them by these names (its jsimd.h, jsimddct.h). Each
// gives the same bits as the library's own way (jccolor.c, jdcolor.c, jcdctmgr.c, jfdctint.c,
// jidctint.c) for what an encoder can write, so that a file made in a page is the file made
// anywhere.
//
// The DCTs are those of C. Loeffler, A. Ligtenberg and G. Moschytz, "Practical fast 1-D DCT
// algorithms with 11 multiplications", ICASSP 1989, in 13-bit fixed point as the library's; the
// colours those of JFIF 1.02 (ITU-T T.871), in 16-bit fixed point.
#if defined(__wasm_simd128__)
#include <wasm_simd128.h>

#include <cstring>

#include "codec/jpeg_common.h"

namespace {

using Eight = v128_t;  // eight int16
using Four = v128_t;   // four int32

// Eight sums of two products each: a * ka + b * kb, as two times four int32.
struct Sums {
  Four low, high;
};

Eight pair(int16_t first, int16_t second) {
  return wasm_i16x8_make(first, second, first, second, first, second, first, second);
}

struct Pairs {
  Eight low, high;
};

Pairs interleave(Eight a, Eight b) {
  return {wasm_i16x8_shuffle(a, b, 0, 8, 1, 9, 2, 10, 3, 11),
          wasm_i16x8_shuffle(a, b, 4, 12, 5, 13, 6, 14, 7, 15)};
}

Sums weigh(const Pairs& ab, Eight weights) {
  return {wasm_i32x4_dot_i16x8(ab.low, weights), wasm_i32x4_dot_i16x8(ab.high, weights)};
}

Sums operator+(const Sums& a, const Sums& b) {
  return {wasm_i32x4_add(a.low, b.low), wasm_i32x4_add(a.high, b.high)};
}
Sums operator-(const Sums& a, const Sums& b) {
  return {wasm_i32x4_sub(a.low, b.low), wasm_i32x4_sub(a.high, b.high)};
}
Sums operator+(const Sums& a, Four b) {
  return {wasm_i32x4_add(a.low, b), wasm_i32x4_add(a.high, b)};
}

template <int kBits>
Eight shifted(const Sums& sums) {
  return wasm_i16x8_narrow_i32x4(wasm_i32x4_shr(sums.low, kBits), wasm_i32x4_shr(sums.high, kBits));
}

template <int kBits>
Eight rounded(const Sums& sums) {
  return shifted<kBits>(sums + wasm_i32x4_const_splat(1 << (kBits - 1)));
}

// Discrete cosine transforms.

constexpr int kConstBits = 13;
constexpr int kPass1Bits = 2;

constexpr int16_t fix(double value) {
  return static_cast<int16_t>(value * (1 << kConstBits) + 0.5);
}

// Round halves away from zero alike for negative constants.
constexpr int16_t fix_sum(double a, double b) {
  return static_cast<int16_t>((a < 0 ? -fix(-a) : fix(a)) + (b < 0 ? -fix(-b) : fix(b)));
}

void transpose(Eight (&row)[8]) {
  Eight a[8], b[8];
  for (int i = 0; i < 4; ++i) {
    const Pairs pairs = interleave(row[i], row[i + 4]);
    a[2 * i] = pairs.low;
    a[2 * i + 1] = pairs.high;
  }
  for (int i = 0; i < 4; ++i) {
    const Pairs pairs = interleave(a[i], a[i + 4]);
    b[2 * i] = pairs.low;
    b[2 * i + 1] = pairs.high;
  }
  for (int i = 0; i < 4; ++i) {
    const Pairs pairs = interleave(b[i], b[i + 4]);
    row[2 * i] = pairs.low;
    row[2 * i + 1] = pairs.high;
  }
}

struct Odd {
  Sums y1, y3, y5, y7;
};

// The four odd outputs of both transforms: the rotations are the same, transposed.
Odd turn(Eight t0, Eight t1, Eight t2, Eight t3) {
  const Eight z3 = wasm_i16x8_add(t0, t2), z4 = wasm_i16x8_add(t1, t3);
  const Pairs both = interleave(z3, z4);
  const Sums s3 = weigh(both, pair(fix_sum(1.175875602, -1.961570560), fix(1.175875602)));
  const Sums s4 = weigh(both, pair(fix(1.175875602), fix_sum(1.175875602, -0.390180644)));
  const Pairs outer = interleave(t0, t3), inner = interleave(t1, t2);
  const int16_t k1 = static_cast<int16_t>(-fix(0.899976223));
  const int16_t k2 = static_cast<int16_t>(-fix(2.562915447));
  return {weigh(outer, pair(k1, fix_sum(1.501321110, -0.899976223))) + s4,
          weigh(inner, pair(k2, fix_sum(3.072711026, -2.562915447))) + s3,
          weigh(inner, pair(fix_sum(2.053119869, -2.562915447), k2)) + s4,
          weigh(outer, pair(fix_sum(0.298631336, -0.899976223), k1)) + s3};
}

template <int kBits>
void inverse_pass(Eight (&v)[8]) {
  const Pairs z = interleave(v[2], v[6]);
  const Sums t2 = weigh(z, pair(fix(0.541196100), fix_sum(0.541196100, -1.847759065)));
  const Sums t3 = weigh(z, pair(fix_sum(0.541196100, 0.765366865), fix(0.541196100)));
  const Pairs ends = interleave(v[0], v[4]);
  const Sums t0 = weigh(ends, pair(1 << kConstBits, 1 << kConstBits));
  const Sums t1 = weigh(ends, pair(1 << kConstBits, -(1 << kConstBits)));
  const Sums e0 = t0 + t3, e3 = t0 - t3, e1 = t1 + t2, e2 = t1 - t2;
  const Odd odd = turn(v[7], v[5], v[3], v[1]);
  v[0] = rounded<kBits>(e0 + odd.y1);
  v[7] = rounded<kBits>(e0 - odd.y1);
  v[1] = rounded<kBits>(e1 + odd.y3);
  v[6] = rounded<kBits>(e1 - odd.y3);
  v[2] = rounded<kBits>(e2 + odd.y5);
  v[5] = rounded<kBits>(e2 - odd.y5);
  v[3] = rounded<kBits>(e3 + odd.y7);
  v[4] = rounded<kBits>(e3 - odd.y7);
}

// kFirst: the sums of the ends stay scaled up; else they are rounded down.
template <int kBits, bool kFirst>
void forward_pass(Eight (&v)[8]) {
  const Eight t0 = wasm_i16x8_add(v[0], v[7]), t7 = wasm_i16x8_sub(v[0], v[7]);
  const Eight t1 = wasm_i16x8_add(v[1], v[6]), t6 = wasm_i16x8_sub(v[1], v[6]);
  const Eight t2 = wasm_i16x8_add(v[2], v[5]), t5 = wasm_i16x8_sub(v[2], v[5]);
  const Eight t3 = wasm_i16x8_add(v[3], v[4]), t4 = wasm_i16x8_sub(v[3], v[4]);
  const Eight t10 = wasm_i16x8_add(t0, t3), t13 = wasm_i16x8_sub(t0, t3);
  const Eight t11 = wasm_i16x8_add(t1, t2), t12 = wasm_i16x8_sub(t1, t2);
  const Eight sum = wasm_i16x8_add(t10, t11), difference = wasm_i16x8_sub(t10, t11);
  if constexpr (kFirst) {
    v[0] = wasm_i16x8_shl(sum, kPass1Bits);
    v[4] = wasm_i16x8_shl(difference, kPass1Bits);
  } else {
    const Eight half = wasm_i16x8_const_splat(1 << (kPass1Bits - 1));
    v[0] = wasm_i16x8_shr(wasm_i16x8_add(sum, half), kPass1Bits);
    v[4] = wasm_i16x8_shr(wasm_i16x8_add(difference, half), kPass1Bits);
  }
  const Pairs z = interleave(t12, t13);
  v[2] = rounded<kBits>(weigh(z, pair(fix(0.541196100), fix_sum(0.541196100, 0.765366865))));
  v[6] = rounded<kBits>(weigh(z, pair(fix_sum(0.541196100, -1.847759065), fix(0.541196100))));
  const Odd odd = turn(t4, t5, t6, t7);
  v[7] = rounded<kBits>(odd.y7);
  v[5] = rounded<kBits>(odd.y5);
  v[3] = rounded<kBits>(odd.y3);
  v[1] = rounded<kBits>(odd.y1);
}

// Colours.

Eight low_half(v128_t bytes) { return wasm_u16x8_extend_low_u8x16(bytes); }
Eight high_half(v128_t bytes) { return wasm_u16x8_extend_high_u8x16(bytes); }

struct Colour {
  Eight a, b, c;
};

// Y, Cb - 128 and Cr - 128 to R, G and B. 1.402 is 1 + 26345 / 65536, 1.772 is 2 - 14942 / 65536,
// and 0.71414 is 1 - 18734 / 65536.
Colour to_rgb(Eight y, Eight cb, Eight cr) {
  const Eight twos = wasm_i16x8_const_splat(2);
  const Eight more_red = shifted<16>(weigh(interleave(cr, twos), pair(26345, 16384)));
  const Eight less_blue = shifted<16>(weigh(interleave(cb, twos), pair(-14942, 16384)));
  const Eight green = rounded<16>(weigh(interleave(cb, cr), pair(-22554, 18734)));
  return {wasm_i16x8_add(wasm_i16x8_add(y, cr), more_red),
          wasm_i16x8_add(y, wasm_i16x8_sub(green, cr)),
          wasm_i16x8_add(wasm_i16x8_add(y, wasm_i16x8_shl(cb, 1)), less_blue)};
}

// R, G and B to Y, Cb and Cr; 0.587 is taken in two parts, since 38470 is more than an int16 holds.
Colour to_ycc(Eight r, Eight g, Eight b) {
  const Pairs rg = interleave(r, g), bg = interleave(b, g), gb = interleave(g, b);
  const Pairs rr = interleave(r, r), bb = interleave(b, b);
  const Eight half = pair(16384, 16384);
  const Four middle = wasm_i32x4_const_splat((128 << 16) + 32767);
  return {rounded<16>(weigh(rg, pair(19595, 22086)) + weigh(bg, pair(7471, 16384))),
          shifted<16>(weigh(rg, pair(-11059, -21709)) + weigh(bb, half) + middle),
          shifted<16>(weigh(gb, pair(-27439, -5329)) + weigh(rr, half) + middle)};
}

struct Bytes {
  v128_t a, b, c;
};

// Sixteen pixels of three interleaved bytes, taken apart and put together; of four bytes, of which
// the last does not count, taken apart.
template <int lanes>
Bytes apart(const uint8_t* rgb);

template <>
Bytes apart<4>(const uint8_t* rgbx) {
  const v128_t x = wasm_v128_load(rgbx), y = wasm_v128_load(rgbx + 16),
               z = wasm_v128_load(rgbx + 32), w = wasm_v128_load(rgbx + 48);
  // Even and odd bytes of the first and the second half: R and B, G and the one that is left.
  const auto even = [](v128_t a, v128_t b) {
    return wasm_i8x16_shuffle(a, b, 0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30);
  };
  const auto odd = [](v128_t a, v128_t b) {
    return wasm_i8x16_shuffle(a, b, 1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23, 25, 27, 29, 31);
  };
  const v128_t rb = even(x, y), rb2 = even(z, w);
  return {even(rb, rb2), even(odd(x, y), odd(z, w)), odd(rb, rb2)};
}

template <>
Bytes apart<3>(const uint8_t* rgb) {
  const v128_t x = wasm_v128_load(rgb), y = wasm_v128_load(rgb + 16), z = wasm_v128_load(rgb + 32);
  const v128_t r = wasm_i8x16_shuffle(x, y, 0, 3, 6, 9, 12, 15, 18, 21, 24, 27, 30, 0, 0, 0, 0, 0);
  const v128_t g = wasm_i8x16_shuffle(x, y, 1, 4, 7, 10, 13, 16, 19, 22, 25, 28, 31, 0, 0, 0, 0, 0);
  const v128_t b = wasm_i8x16_shuffle(x, y, 2, 5, 8, 11, 14, 17, 20, 23, 26, 29, 0, 0, 0, 0, 0, 0);
  return {wasm_i8x16_shuffle(r, z, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 17, 20, 23, 26, 29),
          wasm_i8x16_shuffle(g, z, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 18, 21, 24, 27, 30),
          wasm_i8x16_shuffle(b, z, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 16, 19, 22, 25, 28, 31)};
}

void together(const Bytes& p, uint8_t* rgb) {
  const v128_t low =
      wasm_i8x16_shuffle(p.a, p.b, 0, 16, 1, 17, 2, 18, 3, 19, 4, 20, 5, 21, 6, 22, 7, 23);
  const v128_t high =
      wasm_i8x16_shuffle(p.a, p.b, 8, 24, 9, 25, 10, 26, 11, 27, 12, 28, 13, 29, 14, 30, 15, 31);
  const v128_t middle =
      wasm_i8x16_shuffle(low, high, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24, 25);
  wasm_v128_store(
      rgb, wasm_i8x16_shuffle(low, p.c, 0, 1, 16, 2, 3, 17, 4, 5, 18, 6, 7, 19, 8, 9, 20, 10));
  wasm_v128_store(rgb + 16, wasm_i8x16_shuffle(middle, p.c, 1, 21, 2, 3, 22, 4, 5, 23, 6, 7, 24, 8,
                                               9, 25, 10, 11));
  wasm_v128_store(rgb + 32, wasm_i8x16_shuffle(high, p.c, 26, 6, 7, 27, 8, 9, 28, 10, 11, 29, 12,
                                               13, 30, 14, 15, 31));
}

constexpr uint32_t kAtOnce = 16;

// y, cb, cr: sixteen samples each. rgb: sixteen pixels.
void sixteen_to_rgb(const uint8_t* y, const uint8_t* cb, const uint8_t* cr, uint8_t* rgb) {
  const Eight middle = wasm_i16x8_const_splat(128);
  const v128_t ys = wasm_v128_load(y), cbs = wasm_v128_load(cb), crs = wasm_v128_load(cr);
  const Colour low = to_rgb(low_half(ys), wasm_i16x8_sub(low_half(cbs), middle),
                            wasm_i16x8_sub(low_half(crs), middle));
  const Colour high = to_rgb(high_half(ys), wasm_i16x8_sub(high_half(cbs), middle),
                             wasm_i16x8_sub(high_half(crs), middle));
  together({wasm_u8x16_narrow_i16x8(low.a, high.a), wasm_u8x16_narrow_i16x8(low.b, high.b),
            wasm_u8x16_narrow_i16x8(low.c, high.c)},
           rgb);
}

template <int lanes>
void sixteen_to_ycc(const uint8_t* rgb, uint8_t* y, uint8_t* cb, uint8_t* cr) {
  const Bytes p = apart<lanes>(rgb);
  const Colour low = to_ycc(low_half(p.a), low_half(p.b), low_half(p.c));
  const Colour high = to_ycc(high_half(p.a), high_half(p.b), high_half(p.c));
  wasm_v128_store(y, wasm_u8x16_narrow_i16x8(low.a, high.a));
  wasm_v128_store(cb, wasm_u8x16_narrow_i16x8(low.b, high.b));
  wasm_v128_store(cr, wasm_u8x16_narrow_i16x8(low.c, high.c));
}

// A row's end of fewer than sixteen pixels goes by way of here: rows end where their pixels do.
struct RowEnd {
  uint8_t y[kAtOnce] = {}, cb[kAtOnce] = {}, cr[kAtOnce] = {}, rgb[4 * kAtOnce] = {};
};

void row_to_rgb(const uint8_t* y, const uint8_t* cb, const uint8_t* cr, uint8_t* rgb,
                uint32_t width) {
  uint32_t x = 0;
  for (; x + kAtOnce <= width; x += kAtOnce)
    sixteen_to_rgb(y + x, cb + x, cr + x, rgb + size_t{3} * x);
  if (x == width) return;
  RowEnd end;
  std::memcpy(end.y, y + x, width - x);
  std::memcpy(end.cb, cb + x, width - x);
  std::memcpy(end.cr, cr + x, width - x);
  sixteen_to_rgb(end.y, end.cb, end.cr, end.rgb);
  std::memcpy(rgb + size_t{3} * x, end.rgb, size_t{3} * (width - x));
}

template <int lanes>
void row_to_ycc(const uint8_t* rgb, uint8_t* y, uint8_t* cb, uint8_t* cr, uint32_t width) {
  uint32_t x = 0;
  for (; x + kAtOnce <= width; x += kAtOnce)
    sixteen_to_ycc<lanes>(rgb + size_t{lanes} * x, y + x, cb + x, cr + x);
  if (x == width) return;
  RowEnd end;
  std::memcpy(end.rgb, rgb + size_t{lanes} * x, size_t{lanes} * (width - x));
  sixteen_to_ycc<lanes>(end.rgb, end.y, end.cb, end.cr);
  std::memcpy(y + x, end.y, width - x);
  std::memcpy(cb + x, end.cb, width - x);
  std::memcpy(cr + x, end.cr, width - x);
}

// The upper sixteen bits of eight unsigned products.
Eight upper(Eight a, Eight b) {
  return wasm_i16x8_shuffle(wasm_u32x4_extmul_low_u16x8(a, b), wasm_u32x4_extmul_high_u16x8(a, b),
                            1, 3, 5, 7, 9, 11, 13, 15);
}

bool flat(const JCOEF* block) {
  v128_t any = wasm_i16x8_replace_lane(wasm_v128_load(block), 0, 0);
  for (int i = 1; i < DCTSIZE; ++i) any = wasm_v128_or(any, wasm_v128_load(block + i * DCTSIZE));
  return !wasm_v128_any_true(any);
}

uint8_t sample(int value) {
  return static_cast<uint8_t>(value < -128 ? 0 : value > 127 ? 255 : value + 128);
}

}  // namespace

extern "C" {

int jsimd_can_rgb_ycc() { return 1; }
int jsimd_can_ycc_rgb() { return 1; }
int jsimd_can_convsamp() { return 1; }
int jsimd_can_fdct_islow() { return 1; }
int jsimd_can_quantize() { return 1; }
int jsimd_can_idct_islow() { return 1; }

void jsimd_rgb_ycc_convert(j_compress_ptr cinfo, JSAMPARRAY input, JSAMPIMAGE output,
                           JDIMENSION row, int rows) {
  const bool spare = cinfo->in_color_space == JCS_EXT_RGBX;
  if (!spare && cinfo->in_color_space != JCS_RGB) __builtin_trap();  // JpegEncoder's two
  const auto to_ycc = spare ? row_to_ycc<4> : row_to_ycc<3>;
  for (int i = 0; i < rows; ++i, ++row) {
    to_ycc(input[i], output[0][row], output[1][row], output[2][row], cinfo->image_width);
  }
}

void jsimd_ycc_rgb_convert(j_decompress_ptr cinfo, JSAMPIMAGE input, JDIMENSION row,
                           JSAMPARRAY output, int rows) {
  if (cinfo->out_color_space != JCS_RGB) __builtin_trap();  // nor does JpegDecoder
  for (int i = 0; i < rows; ++i, ++row) {
    row_to_rgb(input[0][row], input[1][row], input[2][row], output[i], cinfo->output_width);
  }
}

void jsimd_convsamp(JSAMPARRAY samples, JDIMENSION column, int16_t* workspace) {
  const Eight middle = wasm_i16x8_const_splat(CENTERJSAMPLE);
  for (int y = 0; y < DCTSIZE; ++y) {
    wasm_v128_store(workspace + y * DCTSIZE,
                    wasm_i16x8_sub(wasm_u16x8_load8x8(samples[y] + column), middle));
  }
}

void jsimd_fdct_islow(int16_t* data) {
  Eight v[DCTSIZE];
  for (int i = 0; i < DCTSIZE; ++i) v[i] = wasm_v128_load(data + i * DCTSIZE);
  transpose(v);
  forward_pass<kConstBits - kPass1Bits, true>(v);
  transpose(v);
  forward_pass<kConstBits + kPass1Bits, false>(v);
  for (int i = 0; i < DCTSIZE; ++i) wasm_v128_store(data + i * DCTSIZE, v[i]);
}

// divisors: reciprocals, corrections and scales, 64 of each (jcdctmgr.c, compute_reciprocal).
void jsimd_quantize(JCOEFPTR coefficients, int16_t* divisors, int16_t* workspace) {
  for (int i = 0; i < DCTSIZE2; i += DCTSIZE) {
    const Eight value = wasm_v128_load(workspace + i);
    const Eight magnitude =
        wasm_i16x8_add(wasm_i16x8_abs(value), wasm_v128_load(divisors + DCTSIZE2 + i));
    const Eight divided = upper(upper(magnitude, wasm_v128_load(divisors + i)),
                                wasm_v128_load(divisors + 2 * DCTSIZE2 + i));
    const Eight negative = wasm_i16x8_shr(value, 15);
    wasm_v128_store(coefficients + i, wasm_i16x8_sub(wasm_v128_xor(divided, negative), negative));
  }
}

void jsimd_idct_islow(j_decompress_ptr, jpeg_component_info* component, JCOEFPTR block,
                      JSAMPARRAY output, JDIMENSION column) {
  const auto* quantisers = static_cast<const int16_t*>(component->dct_table);
  if (flat(block)) {
    const int16_t dc = static_cast<int16_t>(block[0] * quantisers[0]);
    const v128_t all = wasm_i8x16_splat(static_cast<int8_t>(sample((dc * 4 + 16) >> 5)));
    for (int y = 0; y < DCTSIZE; ++y) wasm_v128_store64_lane(output[y] + column, all, 0);
    return;
  }
  Eight v[DCTSIZE];
  for (int i = 0; i < DCTSIZE; ++i) {
    v[i] = wasm_i16x8_mul(wasm_v128_load(block + i * DCTSIZE),
                          wasm_v128_load(quantisers + i * DCTSIZE));
  }
  inverse_pass<kConstBits - kPass1Bits>(v);
  transpose(v);
  inverse_pass<kConstBits + kPass1Bits + 3>(v);
  transpose(v);
  const v128_t middle = wasm_i8x16_const_splat(static_cast<int8_t>(0x80));
  for (int y = 0; y < DCTSIZE; y += 2) {
    const v128_t two = wasm_v128_xor(wasm_i8x16_narrow_i16x8(v[y], v[y + 1]), middle);
    wasm_v128_store64_lane(output[y] + column, two, 0);
    wasm_v128_store64_lane(output[y + 1] + column, two, 1);
  }
}
}
#endif
