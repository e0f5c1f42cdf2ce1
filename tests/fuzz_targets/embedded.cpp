// An ICC profile inside a master: what the colours mean, the rows as RGB, the master proofed.
#include "codec/writers.h"
#include "colour/profile.h"
#include "fit/master_space.h"
#include "proof/cube.h"
#include "target.h"

using namespace proofleaf;
using namespace proofleaf::fuzz;

namespace {

class Ramp final : public RowSource {
 public:
  explicit Ramp(uint32_t channels) : channels_(channels) {}
  RowFormat format() const override { return {5, 2, channels_}; }
  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    for (size_t i = 0; i < count * format().row_samples(); ++i) {
      into[i] = static_cast<uint16_t>((first + i) * 7919);
    }
    return done();
  }

 private:
  uint32_t channels_;
};

void show(const Profile& master) {
  static const Paper paper = paper_from_profile(standard_profile("p3").take(), "Display").take();
  auto space = MasterSpace::make(master);
  value_of(space);
  auto chain = ProofChain::make(master, paper, {}, {});
  if (value_of(chain) == nullptr) return;
  auto cube = build_screen_cube(*chain.value(), 3, {});
  value_of(cube);
}

void look_at(ColourModel model, const Bytes& icc) {
  MasterInfo info;
  info.model = model;
  info.icc = icc;
  auto colour = master_colour(info, "picture.bin", "", {});
  if (value_of(colour) == nullptr) return;
  auto rows = as_rgb(std::make_unique<Ramp>(channels_of(model)), info, colour.value());
  if (value_of(rows) == nullptr) return;
  std::array<uint16_t, 30> rgb{};
  expect(rows.value()->read(0, 2, rgb).ok());
  // A profile that was left aside leaves a standard space.
  if (colour.value().note.empty()) show(colour.value().profile);
}

}  // namespace

void proofleaf::fuzz::take(const uint8_t* data, size_t size) {
  const Bytes icc = bytes_of(data, size);
  for (const ColourModel model : {ColourModel::grey, ColourModel::rgb, ColourModel::cmyk}) {
    look_at(model, icc);
  }
}
