// The gamut of a paper as a closed surface in L*a*b*.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "paper/paper.h"

namespace proofleaf {

// Absolute L*a*b* D50 (of a standard space: relative to its own white), for drawing and measuring.
struct GamutMesh {
  std::vector<float> vertices;      // L*, a*, b* each
  std::vector<uint32_t> triangles;  // three vertices each; turning so that the volume is positive
  std::vector<uint8_t> colours;     // R, G, B, A of each vertex: sRGB, clipped; A is 255
};

// The surface of all colours the paper's A2B table gives for channels 0..1.
//
//   RGB   the six faces of the device cube
//   CMYK  the twelve faces on which two inks vary and the other two stand at none or full: those of
//         the hull of four ink vectors of which black is the sum of the others. Two varying inks
//         make the gamut's boundary after Mahy, "Calculation of color gamuts based on the
//         Neugebauer model", Color Res. Appl. 22 (1997) (from memory). The ink limit is left aside.
//   grey  no surface; an empty mesh
//
// Error: the tables give no numbers.
Result<GamutMesh> gamut_mesh(const Paper& paper);

// Volume in cubic units of L*a*b* (cubic dE*ab), as the sum of the signed tetrahedra of all
// triangles and the origin (divergence theorem). Of a folded surface, folds count against it.
double gamut_volume(const GamutMesh& mesh);

// Where the plane of one L* cuts the surface: the largest outline as a*, b* points, closed (the
// last joins the first). Empty where the plane misses it.
std::vector<std::array<double, 2>> gamut_slice(const GamutMesh& mesh, double lightness);

}  // namespace proofleaf
