// The outline of a gamut at one lightness: the plane's cuts through the triangles, joined end to
// end over the edges that two triangles share.
#include <cmath>
#include <unordered_map>

#include "paper/gamut.h"

namespace proofleaf {
namespace {

using Point = std::array<double, 2>;

uint64_t edge_key(uint32_t p, uint32_t q) {
  return p < q ? uint64_t{p} << 32 | q : uint64_t{q} << 32 | p;
}

// Where the plane cuts an edge whose ends lie on either side of it.
Point cut_of(const GamutMesh& mesh, uint64_t edge, double lightness) {
  const float* p = &mesh.vertices[(edge >> 32) * 3];
  const float* q = &mesh.vertices[(edge & 0xffffffff) * 3];
  const double t = (lightness - p[0]) / (double(q[0]) - p[0]);
  return {p[1] + t * (q[1] - p[1]), p[2] + t * (q[2] - p[2])};
}

// From the edge at which the outline enters a triangle to that at which it leaves. Every crossed
// edge is entered once: the surface is closed and turns one way.
using Steps = std::unordered_map<uint64_t, uint64_t>;

Steps steps_at(const GamutMesh& mesh, double lightness) {
  Steps steps;
  for (size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
    uint64_t in = 0, out = 0;
    bool crossed = false;
    for (size_t side = 0; side < 3; ++side) {
      const uint32_t p = mesh.triangles[i + side], q = mesh.triangles[i + (side + 1) % 3];
      const bool p_above = mesh.vertices[size_t{p} * 3] >= lightness,
                 q_above = mesh.vertices[size_t{q} * 3] >= lightness;
      if (p_above == q_above) continue;
      (p_above ? out : in) = edge_key(p, q);
      crossed = true;
    }
    if (crossed) steps[in] = out;
  }
  return steps;
}

double area_of(const std::vector<Point>& outline) {
  double twice = 0;
  for (size_t i = 0; i < outline.size(); ++i) {
    const Point &p = outline[i], &q = outline[(i + 1) % outline.size()];
    twice += p[0] * q[1] - p[1] * q[0];
  }
  return std::abs(twice) / 2;
}

}  // namespace

std::vector<Point> gamut_slice(const GamutMesh& mesh, double lightness) {
  Steps steps = steps_at(mesh, lightness);
  std::vector<Point> largest;
  double largest_area = -1;
  while (!steps.empty()) {
    std::vector<Point> outline;
    for (auto step = steps.begin(); step != steps.end();) {
      const uint64_t next = step->second;
      outline.push_back(cut_of(mesh, step->first, lightness));
      steps.erase(step);
      step = steps.find(next);
    }
    const double area = area_of(outline);
    if (area > largest_area) {
      largest_area = area;
      largest = std::move(outline);
    }
  }
  return largest;
}

}  // namespace proofleaf
