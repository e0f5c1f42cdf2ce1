// Rates on a shared, noisy machine: contenders take turns over the same pieces of a picture, and
// each piece counts with the least time it ever took. The output buffer is one piece long and used
// again, as in a picture streamed by rows.
#pragma once

#include <algorithm>
#include <cstddef>
#include <ctime>
#include <functional>
#include <vector>

namespace bench {

inline constexpr size_t kPiece = 32768;  // [pixels]

// [seconds] of this process' own time; of the wall clock where there is no other.
inline double seconds() {
  timespec now{};
#if defined(__EMSCRIPTEN__)
  clock_gettime(CLOCK_MONOTONIC, &now);
#else
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
#endif
  return double(now.tv_sec) + double(now.tv_nsec) * 1e-9;
}

// Runs pixels first .. first + count - 1.
using Contender = std::function<void(size_t first, size_t count)>;

// Megapixels a second of each contender over `pixels` pixels.
inline std::vector<double> rates(const std::vector<Contender>& contenders, size_t pixels,
                                 int rounds) {
  const size_t pieces = pixels / kPiece;
  std::vector<std::vector<double>> least(contenders.size(), std::vector<double>(pieces, 1e9));
  for (int round = 0; round < rounds; ++round) {
    for (size_t c = 0; c < contenders.size(); ++c) {
      for (size_t piece = 0; piece < pieces; ++piece) {
        const double begin = seconds();
        contenders[c](piece * kPiece, kPiece);
        least[c][piece] = std::min(least[c][piece], seconds() - begin);
      }
    }
  }
  std::vector<double> found;
  for (const auto& times : least) {
    double sum = 0;
    for (const double time : times) sum += time;
    found.push_back(double(pieces * kPiece) / sum / 1e6);
  }
  return found;
}

// For telling whether two builds give the same picture (FNV-1a).
inline unsigned long long mark(const std::vector<unsigned char>& bytes) {
  unsigned long long hash = 14695981039346656037ull;
  for (const unsigned char byte : bytes) hash = (hash ^ byte) * 1099511628211ull;
  return hash;
}

}  // namespace bench
