// JPEG, PNG and TIFF masters: headers, Exif, profile, and rows. How long a whole picture takes is
// bounded by the limits of codec/master.h and can be stopped; here the first kMostSamples are read.
#include "codec/master.h"

#include <zlib.h>

#include <algorithm>

#include "codec/exif.h"
#include "target.h"

using namespace proofleaf;
using namespace proofleaf::fuzz;

namespace {

constexpr uint64_t kMostSamples = 1 << 20;
constexpr uint32_t kStep = 7;  // [rows]

// Chunk after chunk gets the checksum that its bytes ask for (PNG specification, third
// edition, 5.3), so that a changed byte is looked at rather than refused for its checksum.
void mend_checksums(Bytes& png) {
  const auto number = [&png](size_t at) {
    return uint32_t{png[at]} << 24 | uint32_t{png[at + 1]} << 16 | uint32_t{png[at + 2]} << 8 |
           png[at + 3];
  };
  for (size_t at = 8; at + 12 <= png.size();) {
    const size_t length = number(at);
    if (length > png.size() - at - 12) return;
    const auto sum = static_cast<uint32_t>(crc32(0, &png[at + 4], static_cast<uInt>(length + 4)));
    for (size_t i = 0; i < 4; ++i) {
      png[at + 8 + length + i] = static_cast<uint8_t>(sum >> (24 - 8 * i));
    }
    at += 12 + length;
  }
}

void read_rows(Master& master, uint32_t shrink) {
  auto opened = master.open_rows(shrink);
  auto* rows = value_of(opened);
  if (rows == nullptr) return;
  const RowFormat format = (*rows)->format();
  const MasterInfo& info = master.info();
  expect(format.width > 0 && format.height > 0 && format.width <= info.width);
  const auto most = static_cast<uint32_t>(
      std::clamp<uint64_t>(kMostSamples / format.row_samples(), 1, format.height));
  std::vector<uint16_t> samples(format.row_samples() * kStep);
  for (uint32_t y = 0; y < most; y += kStep) {
    const uint32_t count = std::min(kStep, most - y);
    auto got = (*rows)->read(y, count, std::span(samples).first(count * format.row_samples()));
    if (value_of(got) == nullptr) break;
  }
  auto again = (*rows)->read(0, 1, std::span(samples).first(format.row_samples()));
  value_of(again);
}

void open_and_read(Bytes bytes) {
  auto opened = open_master(std::make_shared<MemorySource>("picture.bin", std::move(bytes)));
  auto* master = value_of(opened);
  if (master == nullptr) return;
  const MasterInfo& info = (*master)->info();
  // A turned picture is read wholly for its first rows.
  const uint64_t samples = uint64_t{info.width} * info.height * 4;
  if (info.orientation > 2 && samples > kMostSamples) return;
  read_rows(**master, 1);
  if (info.container == Container::jpeg) read_rows(**master, 8);
}

}  // namespace

void proofleaf::fuzz::take(const uint8_t* data, size_t size) {
  Bytes bytes = bytes_of(data, size);
  open_and_read(bytes);
  if (size > 8 && data[0] == 0x89) {
    mend_checksums(bytes);
    open_and_read(std::move(bytes));
  }
}
