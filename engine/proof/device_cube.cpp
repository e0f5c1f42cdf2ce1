#include "proof/device_cube.h"

#include <algorithm>
#include <bitset>
#include <numeric>

#include "proof/cube_build.h"

namespace proofleaf {
namespace {

// Along a side; a block is a few cells and the nodes around them.
constexpr uint32_t kBlockCount = 32;
constexpr int kShift = 16 - 5;
constexpr size_t kBlocksInAll = size_t{kBlockCount} * kBlockCount * kBlockCount;
constexpr size_t kBatch = 512;      // about as many colours are asked of the chain at once
constexpr size_t kRunPixels = 512;  // at once, so that few are run again for an empty node
static_assert(kRunPixels % kLiftPixels == 0);

}  // namespace

Result<std::shared_ptr<DeviceCube>> DeviceCube::make(std::shared_ptr<const ProofChain> chain,
                                                     uint32_t grid) {
  if (grid <= kBlockCount || grid > kLargestGrid || (grid - 1) % kBlockCount != 0) {
    return Error{"A proof cube of that size cannot be built."};
  }
  return std::shared_ptr<DeviceCube>(new DeviceCube(std::move(chain), grid));
}

DeviceCube::DeviceCube(std::shared_ptr<const ProofChain> chain, uint32_t grid)
    : chain_(std::move(chain)),
      cube_(empty_cube(*chain_, grid, chain_->device_channels())),
      byte_shaper_(byte_shaper(cube_)),
      levels_(node_levels(cube_.shaper, grid)),
      covered_(kBlocksInAll),
      claimed_(size_t{grid} * grid * grid, 0) {
  along_.resize(cube_.shaper.size());
  std::transform(cube_.shaper.begin(), cube_.shaper.end(), along_.begin(),
                 [](uint16_t position) { return static_cast<uint8_t>(position >> kShift); });
}

void DeviceCube::claim(uint32_t block, std::vector<uint32_t>& nodes) {
  const uint32_t grid = cube_.grid, cells = (grid - 1) / kBlockCount;
  const uint32_t red = block / (kBlockCount * kBlockCount) * cells;
  const uint32_t green = block / kBlockCount % kBlockCount * cells;
  const uint32_t blue = block % kBlockCount * cells;
  for (uint32_t r = red; r <= red + cells; ++r) {
    for (uint32_t g = green; g <= green + cells; ++g) {
      for (uint32_t b = blue; b <= blue + cells; ++b) {
        const uint32_t node = (r * grid + g) * grid + b;
        if (claimed_[node] == 0) nodes.push_back(node);
        claimed_[node] = 1;
      }
    }
  }
}

void DeviceCube::fill_nodes(std::span<const uint32_t> nodes) {
  const uint32_t grid = cube_.grid, channels = cube_.lanes;
  std::vector<float> rgb, device(nodes.size() * channels);
  rgb.reserve(nodes.size() * 3);
  for (const uint32_t node : nodes) {
    const float colour[]{levels_[node / (grid * grid)], levels_[node / grid % grid],
                         levels_[node % grid]};
    rgb.insert(rgb.end(), std::begin(colour), std::end(colour));
  }
  chain_->to_device(rgb, device);
  const std::lock_guard lock(changing_);
  for (size_t i = 0; i < nodes.size(); ++i) {
    int16_t* lanes = &cube_.nodes[size_t{nodes[i]} * 4];
    if (tells_filled()) lanes[3] = node_code(65535);
    for (uint32_t c = 0; c < channels; ++c) {
      lanes[c] = node_code(65535.0 * device[i * channels + c]);
    }
  }
}

void DeviceCube::apply(std::span<const uint16_t> rgb, std::span<uint16_t> out) {
  cover(rgb);
  const std::shared_lock lock(changing_);
  apply_cube(cube_, rgb, out);
}

// Looking whether all nodes are there costs more than half as much as running the pixels, and after
// a picture's first rows they nearly always are. So some pixels are run, and looked at only where a
// fourth lane came out of a node that is empty.
void DeviceCube::apply_dithered(PixelView rgb, DitherLifts lifts, std::span<uint8_t> out) {
  const size_t pixels = samples_in(rgb) / 3;
  for (size_t first = 0; first < pixels; first += kRunPixels) {
    const size_t count = std::min(kRunPixels, pixels - first);
    const PixelView some = part_of(rgb, first * 3, count * 3);
    const auto into = out.subspan(first * 4, count * 4);
    if (tells_filled() && run(some, lifts, into)) continue;
    cover(some);
    run(some, lifts, into);
  }
}

bool DeviceCube::run(PixelView rgb, DitherLifts lifts, std::span<uint8_t> out) {
  const std::shared_lock lock(changing_);
  const auto* eight = std::get_if<std::span<const uint8_t>>(&rgb);
  return eight != nullptr
             ? apply_cube_dithered(cube_, byte_shaper_, *eight, lifts, out)
             : apply_cube_dithered(cube_, std::get<std::span<const uint16_t>>(rgb), lifts, out);
}

void DeviceCube::cover(PixelView rgb) {
  std::bitset<kBlocksInAll> seen;
  std::vector<uint32_t> missing;
  const auto look_at = [&](auto codes) {
    const auto along = [&](size_t at) { return along_[as_sixteen(codes[at])]; };
    for (size_t i = 0; i + 3 <= codes.size(); i += 3) {
      const uint32_t block = (along(i) * kBlockCount + along(i + 1)) * kBlockCount + along(i + 2);
      if (covered_[block].load(std::memory_order_acquire) || seen[block]) continue;
      seen[block] = true;
      missing.push_back(block);
    }
  };
  std::visit(look_at, rgb);
  if (!missing.empty()) fill(missing);
}

void DeviceCube::cover_all() {
  std::vector<uint32_t> blocks(covered_.size());
  std::iota(blocks.begin(), blocks.end(), 0u);
  fill(blocks);
}

// Each thread fills nodes that no other has claimed, some at a time, so that several which need the
// same blocks share the work. A block counts as covered only once all its nodes are filled: by this
// thread, and by those that claimed some of them and are not done.
void DeviceCube::fill(const std::vector<uint32_t>& blocks) {
  std::vector<uint32_t> nodes;
  std::unique_lock lock(claiming_);
  for (size_t next = 0; next < blocks.size();) {
    nodes.clear();
    for (; next < blocks.size() && nodes.size() < kBatch; ++next) {
      if (!covered_[blocks[next]].load(std::memory_order_relaxed)) claim(blocks[next], nodes);
    }
    if (nodes.empty()) break;  // others are at what is left
    const uint64_t turn = turns_++;
    under_way_.insert(turn);
    filled_count_ += nodes.size();
    lock.unlock();
    fill_nodes(nodes);
    lock.lock();
    under_way_.erase(turn);
    filled_some_.notify_all();
  }
  filled_some_.wait(lock, [this, claimed = turns_] {
    return under_way_.empty() || *under_way_.begin() >= claimed;
  });
  for (const uint32_t block : blocks) covered_[block].store(true, std::memory_order_release);
}

}  // namespace proofleaf
