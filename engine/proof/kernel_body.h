// The kernel, once for all instruction sets. `Simd` brings the instructions and lives in an unnamed
// namespace, so each file gets functions of its own. A picture is run in tiles of a few kilobytes:
// first where each pixel stands in the cube, then the loads and the blending, so that many pixels'
// loads are under way together.
#pragma once

#include "proof/kernel.h"

namespace proofleaf::kernel {

inline constexpr size_t kTile = 128;  // [pixels], whole vectors on every path
static_assert(kTile % kLiftPeriod == 0);

template <class Simd>
struct Tile {
  alignas(64) uint16_t position[3][kTile];  // pixel i at Simd::slot(i)
  // First, second and third node of the tetrahedron, counted in nodes; the fourth is always as far
  // from the first.
  alignas(64) uint32_t base[kTile];
  alignas(64) uint32_t first[kTile], second[kTile];
  alignas(64) uint32_t ab[kTile], cd[kTile];  // two 16-bit weights each
  size_t missing_count;
  uint8_t missing[kTile];  // pixels outside of all fine blocks
  typename Simd::W least;  // of all dithered lanes so far, as 16 bits
};

// Positions of eight pixels in one channel, whose codes are three apart; the last four of them may
// be further on. Loads one at a time are quicker than gathers, which processors take apart into
// more of their own steps.
template <class Simd, size_t last_four = 12, class Code>
inline auto eight_positions(const uint16_t* shaper, const Code* code) {
  auto all = Simd::first16(shaper + code[0]);
  all = Simd::template put16<1>(all, shaper + code[3]);
  all = Simd::template put16<2>(all, shaper + code[6]);
  all = Simd::template put16<3>(all, shaper + code[9]);
  all = Simd::template put16<4>(all, shaper + code[last_four]);
  all = Simd::template put16<5>(all, shaper + code[last_four + 3]);
  all = Simd::template put16<6>(all, shaper + code[last_four + 6]);
  return Simd::template put16<7>(all, shaper + code[last_four + 9]);
}

template <class Simd, class Code>
inline void shape(const uint16_t* shaper, const Code* rgb, size_t count, Tile<Simd>& tile) {
  if (count == kTile) {
    for (size_t i = 0; i < kTile; i += Simd::kWords, rgb += Simd::kWords * 3) {
      for (size_t axis = 0; axis < 3; ++axis) {
        Simd::store16(tile.position[axis] + i, Simd::positions(shaper, rgb + axis));
      }
    }
    return;
  }
  for (size_t i = 0; i < count; ++i, rgb += 3) {
    tile.position[0][Simd::slot(i)] = shaper[rgb[0]];
    tile.position[1][Simd::slot(i)] = shaper[rgb[1]];
    tile.position[2][Simd::slot(i)] = shaper[rgb[2]];
  }
  for (size_t i = count; i < kTile; ++i) {  // like the last one, so that they need no other nodes
    for (auto& axis : tile.position) axis[Simd::slot(i)] = axis[Simd::slot(count - 1)];
  }
}

// Where each pixel's fine block begins. A pixel without one is given the first block for the time
// being and is put right afterwards.
template <class Simd>
inline void find_blocks(const Plan& plan, size_t count, Tile<Simd>& tile) {
  const uint32_t nodes_in_block = plan.grid * plan.grid * plan.grid;
  size_t missing = 0;
  for (size_t i = 0; i < count; ++i) {
    const size_t at = Simd::slot(i);
    const size_t r = tile.position[0][at] >> kBlockShift, g = tile.position[1][at] >> kBlockShift,
                 b = tile.position[2][at] >> kBlockShift;
    const uint32_t block = plan.block_at[(r << kBlockBits | g) << kBlockBits | b];
    tile.missing[missing] = static_cast<uint8_t>(i);
    missing += block == 0;
    tile.base[i] = (block - (block != 0)) * nodes_in_block;
  }
  for (size_t i = count; i < kTile; ++i) tile.base[i] = 0;
  tile.missing_count = missing;
}

// A key's 14 bits, made to end in 16384 instead of 16383.
template <class Simd>
inline typename Simd::W fraction_of(typename Simd::W key) {
  return Simd::add(Simd::template shift_right<2>(key), Simd::template shift_right<15>(key));
}

// Pixels' places in the cube: nodes and weights. Everything has 16 bits up to the node numbers.
template <class Simd, bool refined>
inline void place(const Plan& plan, Tile<Simd>& tile) {
  using W = typename Simd::W;
  const auto grid = static_cast<uint16_t>(plan.grid);
  const auto plane = static_cast<uint16_t>(grid * grid);
  const uint16_t last = static_cast<uint16_t>(plane + grid + 1);
  const W cells = Simd::words(static_cast<uint16_t>(plan.cells)), zero = Simd::words(0);
  [[maybe_unused]] const W block_cells = Simd::words(static_cast<uint16_t>(plan.grid - 1));
  const W high = Simd::words(0xfffc), one = Simd::words(kOne);
  // By axis, which the two lowest bits of a key hold: red 0, green 1, blue 2.
  const W steps = Simd::table(plane, grid, 1);
  const W rests = Simd::table(static_cast<uint16_t>(last - plane),
                              static_cast<uint16_t>(last - grid), static_cast<uint16_t>(last - 1));
  const W strides = Simd::pairs(plane, grid);
  for (size_t i = 0; i < kTile; i += Simd::kWords) {
    W node[3], key[3];
    for (size_t axis = 0; axis < 3; ++axis) {
      const W position = Simd::load(tile.position[axis] + i);
      node[axis] = Simd::mul_high(position, cells);
      const W in_cell = Simd::add_saturated(Simd::mul_low(position, cells), node[axis]);
      key[axis] = Simd::either(Simd::both(in_cell, high), Simd::words(static_cast<uint16_t>(axis)));
      if constexpr (refined) {
        const W block = Simd::template shift_right<kBlockShift>(position);
        node[axis] = Simd::sub(node[axis], Simd::mul_low(block, block_cells));
      }
    }
    const W larger = Simd::max(key[0], key[1]), smaller = Simd::min(key[0], key[1]);
    W most = Simd::max(larger, key[2]), least = Simd::min(smaller, key[2]);
    W middle = Simd::min(larger, Simd::max(smaller, key[2]));
    const W step = Simd::look_up(steps, most), rest = Simd::look_up(rests, least);
    most = fraction_of<Simd>(most);
    middle = fraction_of<Simd>(middle);
    least = fraction_of<Simd>(least);
    const W a = Simd::sub(one, most), b = Simd::sub(most, middle), c = Simd::sub(middle, least);
    const auto put = [&](size_t at, W red_green, W blue, W to_first, W to_second, W ab, W cd) {
      W base = Simd::add32(Simd::multiply_add(red_green, strides), blue);
      if constexpr (refined) base = Simd::add32(base, Simd::load32(tile.base + at));
      Simd::store32(tile.base + at, base);
      Simd::store32(tile.first + at, Simd::add32(base, to_first));
      Simd::store32(tile.second + at, Simd::add32(base, to_second));
      Simd::store32(tile.ab + at, ab);
      Simd::store32(tile.cd + at, cd);
    };
    put(i, Simd::low(node[0], node[1]), Simd::low(node[2], zero), Simd::low(step, zero),
        Simd::low(rest, zero), Simd::low(a, b), Simd::low(c, least));
    put(i + Simd::kWords / 2, Simd::high(node[0], node[1]), Simd::high(node[2], zero),
        Simd::high(step, zero), Simd::high(rest, zero), Simd::high(a, b), Simd::high(c, least));
  }
}

template <class Simd, Output output>
inline void blend(const Plan& plan, Tile<Simd>& tile, Sample<output>* out) {
  using W = typename Simd::W;
  [[maybe_unused]] W least = tile.least;
  const size_t to_last = (size_t{plan.grid} * plan.grid + plan.grid + 1) * 4;
  for (size_t i = 0; i < kTile; i += Simd::kWords / 2) {
    W lanes[4];
    Simd::blend4(plan.nodes, plan.nodes + to_last, tile.base + i, tile.first + i, tile.second + i,
                 tile.ab + i, tile.cd + i, lanes);
    const uint16_t* lifts = output == Output::dithered ? plan.lifts + i % kLiftPeriod * 4 : nullptr;
    if constexpr (output == Output::dithered) least = Simd::least(least, lanes);
    Simd::template store<output>(out + i * 4, lanes, lifts);
  }
  if constexpr (output == Output::dithered) tile.least = least;
}

// A whole tile, of which `count` pixels count.
template <class Simd, Output output, class Code>
inline void run_tile(const Plan& plan, const Code* rgb, size_t count, Tile<Simd>& tile,
                     Sample<output>* out) {
  shape<Simd>(plan.shaper, rgb, count, tile);
  if (plan.block_at == nullptr) {
    place<Simd, false>(plan, tile);
    return blend<Simd, output>(plan, tile, out);
  }
  find_blocks<Simd>(plan, count, tile);
  place<Simd, true>(plan, tile);
  blend<Simd, output>(plan, tile, out);
  for (size_t m = 0; m < tile.missing_count; ++m) {
    const size_t i = tile.missing[m];
    const size_t at = Simd::slot(i);
    const uint16_t position[3] = {tile.position[0][at], tile.position[1][at], tile.position[2][at]};
    int32_t lanes[4];
    plain_lanes(plan, position, lanes);
    for (size_t lane = 0; lane < 4; ++lane) {
      out[i * 4 + lane] = finish<output>(plan, i, lane, lanes[lane]);
    }
  }
}

// Has a whole tile's codes brought while the one before it is run: waiting for them took a fifth of
// all.
template <class Code>
inline void fetch([[maybe_unused]] const Code* rgb) {
#if defined(__GNUC__)
  constexpr size_t kLine = 64;  // bytes that come together
  for (size_t at = 0; at < kTile * 3; at += kLine / sizeof(Code)) __builtin_prefetch(rgb + at);
#endif
}

// Whether the fourth lane of each of these pixels is full.
template <class Simd>
inline bool all_full(typename Simd::W least) {
  alignas(64) uint16_t lanes[Simd::kWords];
  Simd::store16(lanes, least);
  bool full = true;
  for (size_t at = 3; at < Simd::kWords; at += 4) full = full && lanes[at] == kFull;
  return full;
}

template <class Simd, Output output, class Code>
Answer<output> run(const Plan& plan, const Code* rgb, size_t count, Sample<output>* out) {
  Tile<Simd> tile{};
  tile.least = Simd::words(kFull);
  size_t i = 0;
  for (; i + kTile <= count; i += kTile) {
    if (i + 2 * kTile <= count) fetch(rgb + (i + kTile) * 3);
    run_tile<Simd, output>(plan, rgb + i * 3, kTile, tile, out + i * 4);
  }
  if (i < count) {
    alignas(64) Sample<output> rest[kTile * 4];
    run_tile<Simd, output>(plan, rgb + i * 3, count - i, tile, rest);
    for (size_t k = 0; k < (count - i) * 4; ++k) out[i * 4 + k] = rest[k];
  }
  if constexpr (output == Output::dithered) return all_full<Simd>(tile.least);
}

template <class Simd>
inline constexpr Routines kRoutines{
    run<Simd, Output::codes, uint16_t>,    run<Simd, Output::screen, uint16_t>,
    run<Simd, Output::screen, uint8_t>,    run<Simd, Output::device, uint8_t>,
    run<Simd, Output::dithered, uint16_t>, run<Simd, Output::dithered, uint8_t>};

}  // namespace proofleaf::kernel
