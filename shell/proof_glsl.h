// The kernel once more for the graphics card: the same whole numbers as proof/kernel.h, so that the
// result is the same bit for bit. proof_trial.h tries it out before it is used.
#pragma once

namespace proofleaf::shell {

// Tables are longer than a texture is wide, so they lie in rows of this many entries.
inline constexpr int kTableBits = 12, kTableWidth = 1 << kTableBits;
inline constexpr int kShaperBits = 8, kShaperWidth = 1 << kShaperBits;

// One triangle over the whole target.
inline constexpr char kWholeVertex[] = R"(#version 300 es
void main() {
  gl_Position = vec4(gl_VertexID == 1 ? 3.0 : -1.0, gl_VertexID == 2 ? 3.0 : -1.0, 0.0, 1.0);
})";

// See kernel_plain.cpp: place_of, blend and plain_lanes, then finish<Output::screen>.
inline constexpr char kProofFragment[] = R"(#version 300 es
precision highp float;
precision highp int;
precision highp usampler2D;
precision highp isampler2D;
uniform usampler2D picture;
uniform usampler2D shaper;
uniform usampler2D block_at;
uniform isampler2D nodes;
uniform isampler2D fine;
uniform int grid;
uniform int block_cells;  // 0 without refinement
out vec4 colour;

const int kBlocks = 64;

struct Places {
  ivec3 node, fraction;
};

Places places_in(ivec3 position, int cells) {
  ivec3 t = position * cells, node = t >> 16;
  ivec3 in_cell = min((t & 0xffff) + node, 0xffff);
  return Places(node, (in_cell >> 2) + (in_cell >> 15));
}

ivec2 entry(int index) { return ivec2(index & 4095, index >> 12); }

ivec4 blend(isampler2D table, int first, int side, Places places) {
  ivec3 most = places.fraction, way = ivec3(side * side, side, 1);
  int a = first + places.node.x * way.x + places.node.y * way.y + places.node.z;
  if (most.x < most.y) { most = most.yxz; way = way.yxz; }
  if (most.y < most.z) { most = most.xzy; way = way.xzy; }
  if (most.x < most.y) { most = most.yxz; way = way.yxz; }
  int b = a + way.x, c = b + way.y, d = c + way.z;
  return (texelFetch(table, entry(a), 0) * (16384 - most.x) +
          texelFetch(table, entry(b), 0) * (most.x - most.y) +
          texelFetch(table, entry(c), 0) * (most.y - most.z) +
          texelFetch(table, entry(d), 0) * most.z + 8192) >> 14;
}

int shaped(uint code) {
  return int(texelFetch(shaper, ivec2(int(code) & 255, int(code) >> 8), 0).r);
}

ivec4 lanes_of(ivec3 position) {
  if (block_cells > 0) {
    Places places = places_in(position, kBlocks * block_cells);
    ivec3 block = places.node / block_cells;
    places.node -= block * block_cells;
    int at = (block.x * kBlocks + block.y) * kBlocks + block.z;
    int number = int(texelFetch(block_at, entry(at), 0).r);
    if (number > 0) {
      int side = block_cells + 1, first = (number - 1) * side * side * side;
      return blend(fine, first, side, places);
    }
  }
  return blend(nodes, 0, grid, places_in(position, grid - 1));
}

void main() {
  uvec3 code = texelFetch(picture, ivec2(gl_FragCoord.xy), 0).rgb;
  ivec4 lanes = lanes_of(ivec3(shaped(code.r), shaped(code.g), shaped(code.b)));
  ivec4 level = clamp((lanes + 16384 + 64) >> 7, 0, 255);
  colour = vec4(level) / 255.0;
})";

}  // namespace proofleaf::shell
