#include "codec/master.h"

#include <algorithm>
#include <array>
#include <utility>

#include "codec/containers.h"
#include "codec/limits.h"

namespace proofleaf {

Status check_dimensions(const std::string& name, uint64_t width, uint64_t height) {
  if (width == 0 || height == 0) return Error{"{} says that its picture has no size.", name};
  if (width > kLongestSide || height > kLongestSide) {
    return Error{"{} says it has {} x {} pixels; a side may have up to {}.", name, width, height,
                 kLongestSide};
  }
  if (width * height > kMostPixels) {
    return Error{"{} says it has {} x {} pixels; up to {} megapixels can be opened.", name, width,
                 height, kMostPixels / 1'000'000};
  }
  return done();
}

Status check_length(const std::string& name, uint64_t size, uint64_t least) {
  if (size >= least) return done();
  return Error{
      "{} ends too soon: a picture of the size it says takes at least {} bytes, and it has {}.",
      name, least, size};
}

void take_exif(const ExifTree& tree, MasterInfo& info) {
  const ExifFacts facts = exif_facts(tree);
  info.orientation = facts.orientation;
  info.exif_space = facts.space;
  info.traces = facts.traces;
  if (!info.ppi) info.ppi = facts.ppi;
}

void stand_upright(MasterInfo& info) {
  if (info.orientation >= 5) std::swap(info.width, info.height);
}

Result<std::unique_ptr<Master>> open_master(std::shared_ptr<ByteSource> source) {
  const std::string& name = source->name();
  std::array<uint8_t, 8> head{};
  auto got = source->read_at(0, head);
  if (!got) return got.error();
  if (got.value() == 0) return Error{"{} is empty.", name};

  const auto begins = [&](ByteView magic) {
    return got.value() >= magic.size() && std::equal(magic.begin(), magic.end(), head.begin());
  };
  using Magic4 = std::array<uint8_t, 4>;
  if (begins(std::array<uint8_t, 3>{0xFF, 0xD8, 0xFF})) return open_jpeg(std::move(source));
  if (begins(std::array<uint8_t, 8>{0x89, 'P', 'N', 'G', 13, 10, 26, 10})) {
    return open_png(std::move(source));
  }
  for (const Magic4& magic : {Magic4{'I', 'I', 42, 0}, Magic4{'M', 'M', 0, 42},
                              Magic4{'I', 'I', 43, 0}, Magic4{'M', 'M', 0, 43}}) {
    if (begins(magic)) return open_tiff(std::move(source));
  }
  return Error{"{} is not a JPEG, PNG or TIFF file, whatever its name says.", name};
}

}  // namespace proofleaf
