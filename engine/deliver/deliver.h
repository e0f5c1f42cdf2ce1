// The print file: the master converted to the paper, written under a new name, read back and held
// against the proof.
#pragma once

#include <functional>
#include <memory>
#include <string>

#include "base/bytes.h"
#include "base/watch.h"
#include "codec/writer.h"
#include "colour/profile.h"
#include "paper/paper.h"
#include "proof/chain.h"

namespace proofleaf {

struct DeliverySettings {
  PrintIntent print;
  Container container = Container::jpeg;  // jpeg or tiff
  uint32_t bits = 8;                      // 8, or 16 with TIFF
  int quality = 95;                       // JPEG 1..100
  bool full_colour_detail = true;         // JPEG 4:4:4
  double ppi = 300;                       // pixels per inch, 1..10000
  bool keep_private = false;              // keep place, names and serial numbers
  uint32_t seed = 1;                      // of the dithering
};

// The written file against the proof, CIEDE2000 on paper, over pixels spread evenly.
struct DeliveryCheck {
  double mean = 0, p95 = 0, max = 0;  // dE00
  size_t samples = 0;
};

struct Delivery {
  uint32_t width = 0, height = 0;  // [pixels]
  uint64_t bytes = 0;              // of the written file
  DeliveryCheck check;
  std::string sentence;  // the check in words
};

// Opens what was written, for the check.
using Reopen = std::function<Result<std::shared_ptr<ByteSource>>()>;

// Streams the master through; never holds more than some rows of it. Error: stopped, a file that
// ends too soon, a sink that refuses, or a written file that does not hold what was promised (mean
// or 95th percentile past the limits in check.cpp); the sink's content is then to be thrown away.
Result<Delivery> deliver(Master& master, const MasterColour& colour, const Paper& paper,
                         const DeliverySettings& settings, ByteSink& sink, const Reopen& reopen,
                         const Watch& watch);

}  // namespace proofleaf
