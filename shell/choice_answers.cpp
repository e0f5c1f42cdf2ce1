// Takes what the workers find out about papers and pictures.
#include <GLES3/gl3.h>

#include <algorithm>
#include <cmath>
#include <cstring>

#include "app.h"
#include "job/choice_work.h"
#include "json_read.h"
#include "proof/view.h"
#include "words_choice.h"

namespace proofleaf::shell {
namespace {

template <class T>
std::vector<T> values_of(const Bytes& bytes) {
  std::vector<T> values(bytes.size() / sizeof(T));
  if (!values.empty()) std::memcpy(values.data(), bytes.data(), values.size() * sizeof(T));
  return values;
}

bool take_facts(App& app, const Json& json, std::vector<Buffer>& buffers) {
  const Bytes facts = buffer_of(buffers, "facts");
  if (text_of(json, "kind") != "picture_facts" || facts.empty()) return false;
  app.choice.facts_file = app.host.keep_bytes("facts", facts);
  return true;
}

// Linear sRGB to linear Display P3, both D65 (from the primaries of IEC 61966-2-1 and SMPTE EG
// 432-1); both have the same curve.
void to_p3(uint8_t* rgba) {
  const auto decode = [](uint8_t code) {
    const double v = code / 255.0;
    return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
  };
  const double r = decode(rgba[0]), g = decode(rgba[1]), b = decode(rgba[2]);
  const double p3[3] = {0.8225 * r + 0.1775 * g, 0.0332 * r + 0.9668 * g,
                        0.0171 * r + 0.0724 * g + 0.9105 * b};
  for (int i = 0; i < 3; ++i)
    rgba[i] = uint8_t(std::lround(std::clamp(srgb_encode(p3[i]), 0.0, 1.0) * 255));
}

void for_this_screen(const App& app, std::vector<uint8_t>& rgba) {
  if (!app.surroundings.display_p3) return;
  for (size_t i = 0; i + 3 < rgba.size(); i += 4) to_p3(&rgba[i]);
}

Bytes without_alpha(const std::vector<uint8_t>& rgba) {
  Bytes rgb;
  rgb.reserve(rgba.size() / 4 * 3);
  for (size_t i = 0; i + 3 < rgba.size(); i += 4) rgb.insert(rgb.end(), &rgba[i], &rgba[i] + 3);
  return rgb;
}

unsigned thumbnail_texture(const std::vector<uint8_t>& rgba, uint32_t width, uint32_t height) {
  unsigned texture = 0;
  glGenTextures(1, &texture);
  glBindTexture(GL_TEXTURE_2D, texture);
  glPixelStorei(GL_UNPACK_ALIGNMENT, 4);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, GLsizei(width), GLsizei(height), 0, GL_RGBA,
               GL_UNSIGNED_BYTE, rgba.data());
  glGenerateMipmap(GL_TEXTURE_2D);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR_MIPMAP_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
  texture_changed();
  return texture;
}

bool take_trial(App& app, const Task& task, const Json& json, std::vector<Buffer>& buffers) {
  Result<Judged> judged = judged_from_json(json);
  if (!judged) return false;
  Tried tried;
  tried.paper = task.file;
  tried.judged = judged.take();
  if (const Json* size = member(json, "thumbnail")) {
    tried.thumbnail_width = count_of(*size, "width");
    tried.thumbnail_height = count_of(*size, "height");
  }
  Bytes rgba = buffer_of(buffers, "thumbnail");
  const uint64_t pixels = uint64_t{tried.thumbnail_width} * tried.thumbnail_height;
  if (pixels > 0 && pixels * 4 == rgba.size()) {
    tried.proof = without_alpha(rgba);
    for_this_screen(app, rgba);
    tried.thumbnail = thumbnail_texture(rgba, tried.thumbnail_width, tried.thumbnail_height);
  }
  app.choice.tried.push_back(std::move(tried));
  put_in_order(app.choice, app);
  if (papers_tried(app) == papers_to_try(app)) tell(app, choice_words(app));
  return true;
}

// Numbers of vertices past the end would be read from foreign memory.
bool sound_mesh(const GamutMesh& mesh) {
  const size_t vertices = mesh.vertices.size() / 3;
  return mesh.vertices.size() % 3 == 0 && mesh.triangles.size() % 3 == 0 &&
         mesh.colours.size() == vertices * 4 &&
         std::all_of(mesh.triangles.begin(), mesh.triangles.end(),
                     [&](uint32_t vertex) { return vertex < vertices; });
}

bool take_card(App& app, const Task& task, const Json& json, std::vector<Buffer>& buffers) {
  if (text_of(json, "kind") != "card") return false;
  Card card;
  card.numbers = json;
  card.numbers.erase("slices");  // any lightness is cut from the mesh
  card.mesh.vertices = values_of<float>(buffer_of(buffers, "vertices"));
  card.mesh.triangles = values_of<uint32_t>(buffer_of(buffers, "triangles"));
  card.mesh.colours = buffer_of(buffers, "colours");
  if (!sound_mesh(card.mesh)) card.mesh = {};
  for_this_screen(app, card.mesh.colours);
  app.choice.cards[task.key] = std::move(card);
  return true;
}

}  // namespace

void rebuild_thumbnails(App& app) {
  for (Tried& tried : app.choice.tried) {
    if (tried.proof.empty()) continue;
    std::vector<uint8_t> rgba;
    rgba.reserve(tried.proof.size() / 3 * 4);
    for (size_t i = 0; i + 2 < tried.proof.size(); i += 3)
      rgba.insert(rgba.end(), {tried.proof[i], tried.proof[i + 1], tried.proof[i + 2], 255});
    for_this_screen(app, rgba);
    tried.thumbnail = thumbnail_texture(rgba, tried.thumbnail_width, tried.thumbnail_height);
  }
}

Bytes buffer_of(std::vector<Buffer>& buffers, const char* name) {
  for (Buffer& buffer : buffers)
    if (buffer.name == name) return std::move(buffer.bytes);
  return {};
}

bool take_choice(App& app, const Task& task, const Json& json, std::vector<Buffer>& buffers) {
  if (task.kind == TaskKind::facts) return take_facts(app, json, buffers);
  if (task.kind == TaskKind::judge) return take_trial(app, task, json, buffers);
  if (task.kind == TaskKind::difference) return take_difference(app, task, json, buffers);
  return take_card(app, task, json, buffers);
}

// Nobody asked for it, so it is told where the ranking stands rather than in a notice.
void choice_failed(App& app, const Task& task, const std::string& sentence) {
  if (task.kind == TaskKind::facts) {
    app.choice.facts_trouble = sentence;
  } else if (task.kind == TaskKind::judge) {
    Tried tried;
    tried.paper = task.file;
    tried.trouble = sentence;
    app.choice.tried.push_back(std::move(tried));
  } else if (task.kind == TaskKind::difference) {
    app.choice.differences = {task.key, sentence, 0, 0, {}, {}};
  } else {
    app.choice.cards[task.key].trouble = sentence;
  }
}

}  // namespace proofleaf::shell
