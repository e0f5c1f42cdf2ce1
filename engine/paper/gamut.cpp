#include "paper/gamut.h"

#include <cmath>
#include <unordered_map>

#include "colour/lcms.h"

namespace proofleaf {
namespace {

constexpr uint32_t kCells = 24;  // along each side of a face
using Levels = std::array<uint8_t, 4>;
using Vector = std::array<int, 3>;

// What each channel does to colour, up to a turn of the whole: three of their own, and black ink
// as the sum of the coloured ones.
constexpr std::array<Vector, 4> kDirections{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {1, 1, 1}}};

Vector cross(const Vector& p, const Vector& q) {
  return {p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0]};
}
int dot(const Vector& p, const Vector& q) { return p[0] * q[0] + p[1] * q[1] + p[2] * q[2]; }

// Collects the faces over the device's channels; vertices of shared edges are one.
class Builder {
 public:
  explicit Builder(uint32_t channels) : channels_(channels) {
    for (uint32_t u = 0; u < channels; ++u) {
      for (uint32_t v = u + 1; v < channels; ++v) {
        add_face(u, v, true);
        add_face(u, v, false);
      }
    }
  }
  std::vector<Levels> levels;
  std::vector<uint32_t> triangles;

 private:
  // The face of the hull over u and v that lies furthest along (or against) their cross product.
  void add_face(uint32_t u, uint32_t v, bool along) {
    const Vector normal = cross(kDirections[u], kDirections[v]);
    Levels corner{};
    for (uint32_t c = 0; c < corner.size(); ++c) {
      if (c >= channels_ || c == u || c == v) continue;
      if ((dot(normal, kDirections[c]) > 0) == along) corner[c] = kCells;
    }
    auto at = [&](uint32_t i, uint32_t j) {
      Levels place = corner;
      place[u] = static_cast<uint8_t>(i);
      place[v] = static_cast<uint8_t>(j);
      return vertex(place);
    };
    for (uint32_t i = 0; i < kCells; ++i) {
      for (uint32_t j = 0; j < kCells; ++j) {
        const uint32_t a = at(i, j), b = at(i + 1, j), c = at(i + 1, j + 1), d = at(i, j + 1);
        if (along) {
          triangles.insert(triangles.end(), {a, b, c, a, c, d});
        } else {
          triangles.insert(triangles.end(), {a, c, b, a, d, c});
        }
      }
    }
  }

  uint32_t vertex(const Levels& place) {
    const uint32_t key =
        uint32_t{place[0]} << 24 | uint32_t{place[1]} << 16 | uint32_t{place[2]} << 8 | place[3];
    const auto [found, fresh] = known_.try_emplace(key, static_cast<uint32_t>(levels.size()));
    if (fresh) levels.push_back(place);
    return found->second;
  }

  uint32_t channels_;
  std::unordered_map<uint32_t, uint32_t> known_;
};

std::vector<float> device_values(const std::vector<Levels>& levels, const Profile& profile) {
  const uint32_t channels = profile.channels();
  const float top = float_scale(profile.colour_space());
  std::vector<float> device;
  device.reserve(levels.size() * channels);
  for (const Levels& place : levels) {
    for (uint32_t c = 0; c < channels; ++c) {
      device.push_back(top * static_cast<float>(place[c]) / kCells);
    }
  }
  return device;
}

std::vector<uint8_t> screen_colours(const std::vector<float>& lab) {
  std::vector<uint8_t> colours(lab.size() / 3 * 4, 255);
  auto screen = standard_profile("srgb");
  if (!screen) return colours;
  cmsHPROFILE pcs = cmsCreateLab4Profile(nullptr);
  const Transform transform(cmsCreateTransform(pcs, TYPE_Lab_FLT, screen.value().handle(),
                                               TYPE_RGBA_8, INTENT_RELATIVE_COLORIMETRIC,
                                               cmsFLAGS_NOCACHE));
  cmsCloseProfile(pcs);
  if (transform) {
    cmsDoTransform(transform.get(), lab.data(), colours.data(),
                   static_cast<cmsUInt32Number>(lab.size() / 3));
  }
  return colours;
}

}  // namespace

Result<GamutMesh> gamut_mesh(const Paper& paper) {
  GamutMesh mesh;
  if (paper.model == ColourModel::grey) return mesh;
  Builder builder(paper.profile.channels());
  const auto intent =
      paper.working_space ? INTENT_RELATIVE_COLORIMETRIC : INTENT_ABSOLUTE_COLORIMETRIC;
  const Transform transform = to_lab(paper.profile, intent);
  if (!transform) return Error{"{} has no usable way from ink to colour.", paper.name};
  mesh.vertices.resize(builder.levels.size() * 3);
  cmsDoTransform(transform.get(), device_values(builder.levels, paper.profile).data(),
                 mesh.vertices.data(), static_cast<cmsUInt32Number>(builder.levels.size()));
  for (float value : mesh.vertices) {
    if (!std::isfinite(value)) return Error{"A table of {} gives no numbers.", paper.name};
  }
  mesh.triangles = std::move(builder.triangles);
  if (gamut_volume(mesh) < 0) {
    for (size_t i = 0; i < mesh.triangles.size(); i += 3) {
      std::swap(mesh.triangles[i + 1], mesh.triangles[i + 2]);
    }
  }
  mesh.colours = screen_colours(mesh.vertices);
  return mesh;
}

double gamut_volume(const GamutMesh& mesh) {
  double six_times = 0;
  auto at = [&](uint32_t vertex) { return &mesh.vertices[size_t{vertex} * 3]; };
  for (size_t i = 0; i < mesh.triangles.size(); i += 3) {
    const float *p = at(mesh.triangles[i]), *q = at(mesh.triangles[i + 1]),
                *r = at(mesh.triangles[i + 2]);
    six_times += double(p[0]) * (double(q[1]) * r[2] - double(q[2]) * r[1]) +
                 double(p[1]) * (double(q[2]) * r[0] - double(q[0]) * r[2]) +
                 double(p[2]) * (double(q[0]) * r[1] - double(q[1]) * r[0]);
  }
  return six_times / 6;
}

}  // namespace proofleaf
