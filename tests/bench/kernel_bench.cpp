// The proof kernel against LittleCMS' cmsDoTransform with its default optimisation, both on one
// core: kernel_bench FOLDER prints one JSON object a line and leaves cubes and pictures in FOLDER
// for the WebAssembly build.
#include <cmath>
#include <cstdio>
#include <fstream>
#include <random>
#include <string>

#include "colour/lab.h"
#include "colour/lcms.h"
#include "measure.h"
#include "photograph.h"
#include "proof/device_cube.h"

using namespace proofleaf;
using bench::take_or_stop;

namespace {

constexpr int kRounds = 12;

template <class T>
void leave(const std::string& path, const std::vector<T>& values) {
  std::ofstream(path, std::ios::binary)
      .write(reinterpret_cast<const char*>(values.data()),
             static_cast<std::streamsize>(values.size() * sizeof(T)));
}

Paper paper_at(const std::string& path) {
  return take_or_stop(read_paper(take_or_stop(read_file(path, 64u << 20)), path));
}

// The demo landscape, four times with different grain.
std::vector<uint16_t> photograph() {
  const std::vector<uint16_t> once = bench::landscape().rgb;
  std::vector<uint16_t> all;
  std::mt19937 random(3);
  for (int time = 0; time < 4; ++time) {
    for (const uint16_t v : once) {
      const auto first = random(), second = random();
      all.push_back(
          bench::with_grain(v, static_cast<uint32_t>(first), static_cast<uint32_t>(second)));
    }
  }
  return all;
}

std::vector<uint16_t> noise(size_t samples) {
  std::vector<uint16_t> all(samples);
  std::mt19937 random(5);
  for (auto& v : all) v = static_cast<uint16_t>(random());
  return all;
}

std::vector<uint8_t> eight_bits(const std::vector<uint16_t>& wide) {
  std::vector<uint8_t> all(wide.size());
  std::transform(wide.begin(), wide.end(), all.begin(),
                 [](uint16_t v) { return static_cast<uint8_t>((v + 128) / 257); });
  return all;
}

struct Picture8And16 {
  std::string name;
  std::vector<uint16_t> wide;
  std::vector<uint8_t> narrow;
};

struct Paths {
  std::string name;
  const Paper& paper;
  bool proof;     // to the screen, else to the paper's device values
  uint32_t grid;  // of our cube
  bool refined;   // for the photograph, as the page does it
  double goal;    // 0: none
};

// LittleCMS' own way for the same job.
Transform peer(const Paths& paths, const Profile& srgb, bool wide) {
  const cmsUInt32Number in = wide ? TYPE_RGB_16 : TYPE_RGB_8;
  if (paths.proof) {
    return Transform(cmsCreateProofingTransform(
        srgb.handle(), in, srgb.handle(), in, paths.paper.profile.handle(),
        INTENT_RELATIVE_COLORIMETRIC, INTENT_ABSOLUTE_COLORIMETRIC,
        cmsFLAGS_SOFTPROOFING | cmsFLAGS_BLACKPOINTCOMPENSATION));
  }
  const bool cmyk = paths.paper.profile.channels() == 4;
  const cmsUInt32Number out =
      wide ? (cmyk ? TYPE_CMYK_16 : TYPE_RGB_16) : (cmyk ? TYPE_CMYK_8 : TYPE_RGB_8);
  return Transform(cmsCreateTransform(srgb.handle(), in, paths.paper.profile.handle(), out,
                                      INTENT_RELATIVE_COLORIMETRIC,
                                      cmsFLAGS_BLACKPOINTCOMPENSATION));
}

Cube cube_for(const Paths& paths, const std::shared_ptr<ProofChain>& way,
              const std::vector<uint16_t>& picture) {
  const ProofChain& chain = *way;
  if (!paths.proof) {
    auto cube = take_or_stop(DeviceCube::make(way, paths.grid));
    cube->cover_all();
    return cube->cube();
  }
  Cube cube = take_or_stop(build_screen_cube(chain, paths.grid, {}));
  if (paths.refined) {
    const auto used = blocks_used(cube, picture);
    if (!refine_screen_cube(chain, used, cube, {})) std::exit(1);
  }
  return cube;
}

void print_row(const std::string& what, double ours, double theirs, double goal,
               const std::string& note) {
  std::printf("{\"what\":\"%s\",\"ours\":%.2f,\"peer\":%.2f,\"goal\":%.2f,\"note\":\"%s\"}\n",
              what.c_str(), ours, theirs, goal, note.c_str());
  std::fflush(stdout);
}

// Bytes a second that a copying loop moves, as the physical limit of a picture from memory.
double copy_bandwidth() {
  std::vector<unsigned char> from(64u << 20, 1), to(64u << 20);
  double least = 1e9;
  for (int i = 0; i < 8; ++i) {
    const double begin = bench::seconds();
    std::copy(from.begin(), from.end(), to.begin());
    least = std::min(least, bench::seconds() - begin);
  }
  return double(from.size()) / least;
}

void race(const Paths& paths, const Cube& cube, const Profile& srgb, const Picture8And16& picture,
          bool wide, double bandwidth) {
  const Transform transform = peer(paths, srgb, wide);
  std::vector<uint16_t> out16(bench::kPiece * 4), their16(bench::kPiece * 4);
  std::vector<uint8_t> out8(bench::kPiece * 4), their8(bench::kPiece * 4);
  const std::span<const uint16_t> rgb16(picture.wide);
  const std::span<const uint8_t> rgb8(picture.narrow);
  const bench::Contender ours = [&](size_t first, size_t count) {
    if (wide) return apply_cube(cube, rgb16.subspan(first * 3, count * 3), out16);
    const auto part = rgb8.subspan(first * 3, count * 3);
    if (paths.proof) return proof_to_screen8(cube, part, out8);
    apply_cube8(cube, part, out8);
  };
  const bench::Contender theirs = [&](size_t first, size_t count) {
    const void* in = wide ? static_cast<const void*>(&rgb16[first * 3]) : &rgb8[first * 3];
    void* out = wide ? static_cast<void*>(their16.data()) : their8.data();
    cmsDoTransform(transform.get(), in, out, static_cast<cmsUInt32Number>(count));
  };
  const auto found = bench::rates({ours, theirs}, rgb8.size() / 3, kRounds);
  const double bytes = wide ? 14 : 7;
  char note[160];
  std::snprintf(note, sizeof note,
                "Mpx/s; cube of %.1f MB; %.0f bytes a pixel in and out: copying at memory speed "
                "would be %.0f Mpx/s",
                double(cube.nodes.size() + cube.fine.size()) * 2 / 1e6, bytes,
                bandwidth / (bytes / 2) / 1e6);
  print_row(paths.name + ", " + (wide ? "16" : "8") + "-bit, " + picture.name, found[0], found[1],
            paths.goal, note);
}

struct Spread {
  double mean = 0, max = 0;
};

// CIEDE2000 of 0..1 values against the chain's float truth, seen through the last profile.
Spread against(const Profile& last, const std::vector<float>& truth,
               const std::vector<float>& found) {
  const uint32_t channels = last.channels();
  const auto labs = [&](std::vector<float> values) {
    for (float& v : values) v = std::clamp(v, 0.0f, 1.0f) * float_scale(last.colour_space());
    std::vector<float> lab(values.size() / channels * 3);
    cmsHPROFILE pcs = cmsCreateLab4Profile(nullptr);
    const Transform transform(cmsCreateTransform(last.handle(), float_format(last.colour_space()),
                                                 pcs, TYPE_Lab_FLT, INTENT_RELATIVE_COLORIMETRIC,
                                                 kExact));
    cmsCloseProfile(pcs);
    cmsDoTransform(transform.get(), values.data(), lab.data(),
                   static_cast<cmsUInt32Number>(lab.size() / 3));
    return lab;
  };
  const auto a = labs(truth), b = labs(found);
  Spread spread;
  for (size_t i = 0; i < a.size(); i += 3) {
    const double error = delta_e_2000({a[i], a[i + 1], a[i + 2]}, {b[i], b[i + 1], b[i + 2]});
    spread.mean += error / (double(a.size()) / 3);
    spread.max = std::max(spread.max, error);
  }
  return spread;
}

void accuracy(const Paths& paths, const Cube& cube, const ProofChain& chain, const Profile& srgb,
              const Picture8And16& picture) {
  constexpr size_t kPixels = 60000;
  const size_t step = picture.wide.size() / 3 / kPixels;
  std::vector<uint16_t> rgb;
  for (size_t i = 0; i < kPixels; ++i) {
    for (size_t c = 0; c < 3; ++c) rgb.push_back(picture.wide[i * step * 3 + c]);
  }
  const size_t channels = paths.proof ? 3 : chain.device_channels();
  std::vector<float> in(rgb.size()), truth(kPixels * channels), found, their;
  std::transform(rgb.begin(), rgb.end(), in.begin(), [](uint16_t v) { return float(v) / 65535; });
  if (paths.proof) {
    chain.to_screen(in, truth);
  } else {
    chain.to_device(in, truth);
  }
  std::vector<uint16_t> codes(kPixels * 4), their_codes(kPixels * channels);
  apply_cube(cube, rgb, codes);
  cmsDoTransform(peer(paths, srgb, true).get(), rgb.data(), their_codes.data(), kPixels);
  for (size_t i = 0; i < kPixels; ++i) {
    for (size_t c = 0; c < channels; ++c) {
      const float code = codes[i * 4 + c];
      found.push_back(paths.proof ? (code / 128 - 128) / 255 : code / 65535);
      their.push_back(float(their_codes[i * channels + c]) / 65535);
    }
  }
  const Profile& last = paths.proof ? srgb : paths.paper.profile;
  const Spread ours = against(last, truth, found), theirs = against(last, truth, their);
  std::printf(
      "{\"what\":\"%s, accuracy, %s\",\"mean\":%.4f,\"max\":%.3f,\"peer_mean\":%.4f,"
      "\"peer_max\":%.3f}\n",
      paths.name.c_str(), picture.name.c_str(), ours.mean, ours.max, theirs.mean, theirs.max);
  std::fflush(stdout);
}

// What the WebAssembly build is to run, and the picture it must give.
void leave_for_wasm(const std::string& folder, const std::string& id, const Cube& cube,
                    const Picture8And16& picture) {
  leave(folder + "/" + id + ".cube", pack_cube(cube));
  leave(folder + "/" + id + ".rgb8", picture.narrow);
  leave(folder + "/" + id + ".rgb16", picture.wide);
  std::vector<uint8_t> out(picture.narrow.size() / 3 * 4);
  proof_to_screen8(cube, std::span<const uint8_t>(picture.narrow), out);
  std::ofstream(folder + "/" + id + ".mark") << bench::mark(out);
}

// For counting instructions: one contender, some times over the same pixels, nothing else that
// grows.
int count_one(const std::string& who, bool wide, int times) {
  const Profile srgb = take_or_stop(standard_profile("srgb"));
  const Paths paths{
      "", paper_at(REPOSITORY "/demo-images/papers/tarnsea-baryta.icc"), true, 33, false, 0};
  const auto photo = photograph();
  const std::span<const uint16_t> rgb16(photo.data(), bench::kPiece * 3);
  const auto eight = eight_bits({rgb16.begin(), rgb16.end()});
  const auto chain = take_or_stop(ProofChain::make(srgb, paths.paper, {}, {}));
  const Cube cube = cube_for(paths, chain, photo);
  const Transform transform = peer(paths, srgb, wide);
  std::vector<uint16_t> out16(bench::kPiece * 4);
  std::vector<uint8_t> out8(bench::kPiece * 4);
  for (int i = 0; i < times; ++i) {
    if (who == "ours" && wide) apply_cube(cube, rgb16, out16);
    if (who == "ours" && !wide) proof_to_screen8(cube, std::span<const uint8_t>(eight), out8);
    const void* in = wide ? static_cast<const void*>(rgb16.data()) : eight.data();
    void* out = wide ? static_cast<void*>(out16.data()) : out8.data();
    if (who == "peer") cmsDoTransform(transform.get(), in, out, bench::kPiece);
  }
  return 0;
}

}  // namespace

int main(int count, char** words) {
  if (count == 5 && std::string(words[1]) == "--count") {
    return count_one(words[2], std::string(words[3]) == "16", std::atoi(words[4]));
  }
  if (count != 2) {
    std::fprintf(stderr, "usage: kernel_bench FOLDER | --count ours|peer 8|16 TIMES\n");
    return 2;
  }
  const std::string folder = words[1];
  Picture8And16 photo{"photo", photograph(), {}}, random{"noise", noise(photo.wide.size()), {}};
  for (auto* picture : {&photo, &random}) picture->narrow = eight_bits(picture->wide);
  const Paper rgb = paper_at(REPOSITORY "/demo-images/papers/tarnsea-baryta.icc");
  const Paper cmyk = paper_at("/usr/share/color/icc/ghostscript/default_cmyk.icc");
  const Profile srgb = take_or_stop(standard_profile("srgb"));
  const double bandwidth = copy_bandwidth();

  const std::vector<Paths> all{
      {"proof, RGB paper", rgb, true, kProofGrid, false, 8},
      {"proof, CMYK paper", cmyk, true, delivery_grid(true), false, 8},
      {"proof refined as on the page, RGB paper", rgb, true, kProofGrid, true, 8},
      {"proof refined as on the page, CMYK paper", cmyk, true, kProofGrid, true, 8},
      {"delivery, RGB paper", rgb, false, delivery_grid(false), false, 8},
      {"delivery, CMYK paper", cmyk, false, delivery_grid(true), false, 8},
  };
  for (const Paths& paths : all) {
    const auto chain = take_or_stop(ProofChain::make(srgb, paths.paper, {}, {}));
    const Cube cube = cube_for(paths, chain, photo.wide);
    for (const auto* picture : {&photo, &random}) {
      if (paths.refined && picture == &random) continue;
      for (const bool wide : {false, true}) race(paths, cube, srgb, *picture, wide, bandwidth);
      accuracy(paths, cube, *chain, srgb, *picture);
      if (&paths == &all.front()) leave_for_wasm(folder, picture->name, cube, *picture);
    }
  }
  return 0;
}
