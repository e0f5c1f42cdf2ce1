// The public functions: lays a cube out for a run and chooses the machine's best instructions.
#include "proof/kernel.h"

#include <array>

#include "proof/cube.h"
#include "raster/pixels.h"

namespace proofleaf {
namespace kernel {

static_assert(kBlocks == 1u << kBlockBits);
static_assert(kLiftPixels == kLiftPeriod);

const Routines* routines(Path path) {
  switch (path) {
    case Path::plain:
      return plain_routines();
#if defined(__x86_64__)
    case Path::sse41:
      return __builtin_cpu_supports("sse4.1") ? sse41_routines() : nullptr;
    case Path::avx2:
      return __builtin_cpu_supports("avx2") ? avx2_routines() : nullptr;
#endif
    case Path::wasm:
      return wasm_routines();
    default:
      return nullptr;
  }
}

const Routines& fastest() {
  static const Routines* const best = [] {
    for (const Path path : {Path::wasm, Path::avx2, Path::sse41}) {
      if (const Routines* found = routines(path)) return found;
    }
    return plain_routines();
  }();
  return *best;
}

Plan plan_for(const Cube& cube, const uint16_t* shaper) {
  if (cube.block_at.empty() || cube.fine.empty()) {
    return {shaper,  cube.nodes.data(), cube.grid, cube.grid - 1,
            nullptr, cube.nodes.data(), cube.grid};
  }
  return {shaper,
          cube.fine.data(),
          cube.block_cells + 1,
          kBlocks * cube.block_cells,
          cube.block_at.data(),
          cube.nodes.data(),
          cube.grid};
}

}  // namespace kernel

ByteShaper byte_shaper(const Cube& cube) {
  ByteShaper table{};
  for (size_t v = 0; v < table.size(); ++v) table[v] = cube.shaper[as_sixteen(uint8_t(v))];
  return table;
}

void apply_cube(const Cube& cube, std::span<const uint16_t> rgb, std::span<uint16_t> out) {
  kernel::fastest().codes(kernel::plan_for(cube, cube.shaper.data()), rgb.data(), rgb.size() / 3,
                          out.data());
}

void apply_cube_plain(const Cube& cube, std::span<const uint16_t> rgb, std::span<uint16_t> out) {
  kernel::plain_routines()->codes(kernel::plan_for(cube, cube.shaper.data()), rgb.data(),
                                  rgb.size() / 3, out.data());
}

bool apply_cube_dithered(const Cube& cube, std::span<const uint16_t> rgb, DitherLifts lifts,
                         std::span<uint8_t> out) {
  kernel::Plan plan = kernel::plan_for(cube, cube.shaper.data());
  plan.lifts = lifts.data();
  return kernel::fastest().dithered(plan, rgb.data(), rgb.size() / 3, out.data());
}

bool apply_cube_dithered(const Cube& cube, const ByteShaper& shaper, std::span<const uint8_t> rgb,
                         DitherLifts lifts, std::span<uint8_t> out) {
  kernel::Plan plan = kernel::plan_for(cube, shaper.data());
  plan.lifts = lifts.data();
  return kernel::fastest().dithered_of8(plan, rgb.data(), rgb.size() / 3, out.data());
}

void apply_cube8(const Cube& cube, std::span<const uint8_t> rgb, std::span<uint8_t> out) {
  const ByteShaper shaper = byte_shaper(cube);
  kernel::fastest().device_of8(kernel::plan_for(cube, shaper.data()), rgb.data(), rgb.size() / 3,
                               out.data());
}

void proof_to_screen8(const Cube& cube, std::span<const uint16_t> rgb, std::span<uint8_t> rgba) {
  kernel::fastest().screen(kernel::plan_for(cube, cube.shaper.data()), rgb.data(), rgb.size() / 3,
                           rgba.data());
}

void proof_to_screen8(const Cube& cube, std::span<const uint8_t> rgb, std::span<uint8_t> rgba) {
  const ByteShaper shaper = byte_shaper(cube);
  kernel::fastest().screen_of8(kernel::plan_for(cube, shaper.data()), rgb.data(), rgb.size() / 3,
                               rgba.data());
}

}  // namespace proofleaf
