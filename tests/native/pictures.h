// Small pictures and places the tests share.
#pragma once

#include <cmath>
#include <functional>
#include <memory>
#include <string>

#include "base/files.h"
#include "codec/writer.h"
#include "doctest.h"
#include "paper/paper.h"

namespace proofleaf::test {

inline const std::string kDemo = std::string(REPOSITORY) + "/demo-images/";
inline const std::string kCmykProfile = "/usr/share/color/icc/ghostscript/default_cmyk.icc";

inline Bytes file_bytes(const std::string& path) {
  auto bytes = read_file(path, uint64_t{1} << 30);
  REQUIRE_MESSAGE(bytes.ok(), path);
  return bytes.take();
}

inline Paper paper_at(const std::string& path) {
  auto paper = read_paper(file_bytes(path), path.substr(path.find_last_of('/') + 1));
  REQUIRE_MESSAGE(paper.ok(), path);
  return paper.take();
}

// Smooth colour ramps with some texture, 16 bits.
inline uint16_t ramp_sample(uint32_t x, uint32_t y, uint32_t channel) {
  const double v =
      0.5 + 0.33 * std::sin(0.031 * x + 1.7 * channel) + 0.15 * std::cos(0.023 * y + channel);
  return static_cast<uint16_t>(65535 * std::fmin(1, std::fmax(0, v)));
}

// A TIFF in memory of ramp_sample()s.
inline Bytes ramp_tiff(uint32_t width, uint32_t height, const Bytes& icc, const Bytes& exif = {},
                       ColourModel model = ColourModel::rgb) {
  WriteSpec spec;
  spec.container = Container::tiff;
  spec.model = model;
  spec.width = width;
  spec.height = height;
  spec.bits = 16;
  spec.icc = icc;
  spec.exif = exif;
  MemorySink sink;
  auto writer = open_writer(spec, sink);
  REQUIRE(writer);
  const uint32_t channels = model == ColourModel::rgb ? 3 : model == ColourModel::cmyk ? 4 : 1;
  std::vector<uint16_t> row(size_t{width} * channels);
  for (uint32_t y = 0; y < height; ++y) {
    for (uint32_t x = 0; x < width; ++x) {
      for (uint32_t c = 0; c < channels; ++c) row[x * channels + c] = ramp_sample(x, y, c);
    }
    REQUIRE(writer.value()->write16(row, 1).ok());
  }
  REQUIRE(writer.value()->finish().ok());
  return sink.take();
}

inline std::shared_ptr<ByteSource> memory(const std::string& name, Bytes bytes) {
  return std::make_shared<MemorySource>(name, std::move(bytes));
}

}  // namespace proofleaf::test
