// Writes JPEGs of generated pictures and reads them again, whole and at an eighth, and prints a
// checksum of every file, picture and band. Built natively and for WASM, where libjpeg-turbo runs
// other inner loops: both must print the same (jpeg.test.mjs).
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <random>

#include "base/sha256.h"
#include "codec/bands.h"
#include "codec/master.h"
#include "codec/writer.h"

using namespace proofleaf;

namespace {

enum class Kind { smooth, noise, extremes, flat };

Bytes picture(Kind kind, uint32_t width, uint32_t height) {
  std::mt19937 random(width * 31 + height);
  Bytes samples;
  for (uint32_t y = 0; y < height; ++y) {
    for (uint32_t x = 0; x < width * 3; ++x) {
      const uint32_t any = static_cast<uint32_t>(random());
      const double wave = 127.5 + 127 * std::sin(x * 0.031 + y * 0.017 * (x % 3 + 1));
      const int smooth = static_cast<int>(wave) + static_cast<int>(any % 5) - 2;
      switch (kind) {
        case Kind::smooth:
          samples.push_back(static_cast<uint8_t>(std::min(255, std::max(0, smooth))));
          break;
        case Kind::noise:
          samples.push_back(static_cast<uint8_t>(any));
          break;
        case Kind::extremes:
          samples.push_back(any % 2 == 0 ? 0 : 255);
          break;
        case Kind::flat:
          samples.push_back(static_cast<uint8_t>(x / 3 / 8 * 37 + y / 8 * 59));
          break;
      }
    }
  }
  return samples;
}

void print_sum(const char* what, ByteView bytes) {
  Sha256 sum;
  sum.add(bytes);
  std::printf(" %s %s", what, sum.finish().c_str());
}

bool print_rows(const std::shared_ptr<ByteSource>& file, uint32_t shrink) {
  auto master = open_master(file);
  if (!master) return false;
  auto rows = master.value()->open_rows(shrink);
  if (!rows) return false;
  const RowFormat format = rows.value()->format();
  std::vector<uint16_t> samples(format.row_samples() * format.height);
  if (!rows.value()->read(0, format.height, samples)) return false;
  Bytes eight;
  for (const uint16_t sample : samples) eight.push_back(static_cast<uint8_t>(sample / 257));
  print_sum(shrink == 1 ? "read" : "an eighth", eight);
  return true;
}

// One band whose pixels have a fourth lane, as a delivery's cube leaves them.
bool print_band(const WriteSpec& spec, const Bytes& samples) {
  const uint32_t rows = std::min(spec.height, kBandRows);
  Bytes lanes(size_t{4} * spec.width * rows, 7);
  for (size_t i = 0; i < lanes.size() / 4; ++i) std::copy_n(&samples[i * 3], 3, &lanes[i * 4]);
  auto encoder = open_band_encoder(spec);
  if (!encoder) return false;
  const auto band = encoder.value()->encode8(lanes, rows);
  if (!band) return false;
  print_sum("a band", band.value());
  return true;
}

bool print_sums(Kind kind, uint32_t width, uint32_t height, int quality, bool full_detail) {
  WriteSpec spec;
  spec.width = width;
  spec.height = height;
  spec.quality = quality;
  spec.full_colour_detail = full_detail;
  MemorySink sink;
  auto writer = open_writer(spec, sink);
  if (!writer) return false;
  if (!writer.value()->write8(picture(kind, width, height), height)) return false;
  if (!writer.value()->finish()) return false;
  std::printf("%d %ux%u %d %d:", static_cast<int>(kind), width, height, quality, full_detail);
  print_sum("picture", picture(kind, width, height));
  print_sum("file", sink.bytes());
  const auto file = std::make_shared<MemorySource>("picture.jpg", sink.bytes());
  const bool read =
      print_rows(file, 1) && print_rows(file, 8) && print_band(spec, picture(kind, width, height));
  std::printf("\n");
  return read;
}

}  // namespace

int main() {
  for (const Kind kind : {Kind::smooth, Kind::noise, Kind::extremes, Kind::flat}) {
    for (const int quality : {1, 30, 75, 92, 95, 99, 100}) {
      if (!print_sums(kind, 131, 150, quality, true)) return 1;
      if (!print_sums(kind, 131, 150, quality, false)) return 1;
    }
    for (uint32_t width = 1; width <= 50; width += 3) {
      if (!print_sums(kind, width, 11, 95, true)) return 1;
    }
  }
  return 0;
}
