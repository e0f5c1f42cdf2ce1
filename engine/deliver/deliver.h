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
#include "raster/pixels.h"

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
  // JPEG: the file stays within so many bytes, at a lower quality if need be (file_limit.h); 0:
  // any.
  uint64_t largest_bytes = 0;
};

// The written file against the proof, CIEDE2000 on paper, over pixels spread evenly.
struct DeliveryCheck {
  double mean = 0, p95 = 0, max = 0;  // dE00
  size_t samples = 0;
};

struct Delivery {
  uint32_t width = 0, height = 0;  // [pixels]
  uint64_t bytes = 0;              // of the written file
  std::string sha256;              // of the same, in hexadecimal
  int quality = 0;                 // JPEG: as it was written; TIFF: 0
  DeliveryCheck check;
  std::string sentence;  // the check in words, and the quality where a limit lowered it
};

// Opens what was written, for the check.
using Reopen = std::function<Result<std::shared_ptr<ByteSource>>()>;

// The two ends of a delivery that cannot be shared out: the master read from the top down, and the
// bands that makers (band_maker.h) made of it joined into the file. deliver() below runs it on
// threads; a page runs it with makers in workers.
class PrintFile {
 public:
  virtual ~PrintFile() = default;
  virtual uint32_t bands() const = 0;
  // What the bands' makers need to know of the file.
  virtual const WriteSpec& spec() const = 0;
  virtual std::shared_ptr<const ProofChain> chain() const = 0;
  // A band's pixels, RGB in the master's space. Going forward is what it is fast at.
  // Error: the master ends too soon, is damaged or went away.
  virtual Status read(uint32_t band, Pixels& rgb) = 0;
  // The next band from the top, as made. Error: damaged, one too many, past the limit of bytes, or
  // the sink's own.
  virtual Status join(ByteView made) = 0;
  // Closes the file, reads it back and checks it. Error: bands are missing, stopped, or the file
  // does not hold what was promised (mean or 95th percentile past the limits in check.cpp).
  virtual Result<Delivery> finish(const Reopen& reopen, const Watch& watch) = 0;
};

inline constexpr double kWritingShare = 0.8;  // of a delivery's time; the rest is finish()

// What is printed in place of the master's rows as they are.
struct PrintSource {
  std::unique_ptr<RowSource> rows;          // RGB in the master's space; empty: the master's own
  std::shared_ptr<const ColourMap> before;  // corrects the rows' colours; may be empty
};

// master, colour, paper and sink must outlive the print file. With a limit of bytes, parts of the
// rows are read and encoded here to find the quality. Error: settings the container cannot hold,
// profiles that cannot be joined, a master that cannot be read, as quality_within().
Result<std::unique_ptr<PrintFile>> open_print_file(Master& master, const MasterColour& colour,
                                                   const Paper& paper,
                                                   const DeliverySettings& settings, ByteSink& sink,
                                                   PrintSource source = {});

// The spec of a print file for a picture of that size, without Exif.
WriteSpec print_spec(uint32_t width, uint32_t height, const Paper& paper,
                     const DeliverySettings& settings);

// Streams the master through; never holds more than some rows of it. Error: as above, or stopped;
// the sink's content is then to be thrown away.
Result<Delivery> deliver(Master& master, const MasterColour& colour, const Paper& paper,
                         const DeliverySettings& settings, ByteSink& sink, const Reopen& reopen,
                         const Watch& watch, PrintSource source = {});

}  // namespace proofleaf
