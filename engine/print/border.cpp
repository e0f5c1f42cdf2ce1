#include "print/border.h"

#include <algorithm>
#include <cmath>

#include "print/row_window.h"

namespace proofleaf::print {
namespace {

constexpr uint16_t kWhite = 65535;

class Bordered final : public RowSource {
 public:
  Bordered(std::unique_ptr<RowSource> rows, const Light& light, const PrintPlan& plan)
      : rows_(std::move(rows)),
        plan_(plan),
        from_(rows_->format()),
        to_{plan.sheet_width, plan.sheet_height, 3},
        line_(signature_line(plan)),
        line_code_(light.neutral(kSignatureLightness)),
        mirrored_(plan.edge_kind != EdgeKind::bleed_extended),
        window_(from_.row_samples(), mirrored_ ? std::max(1u, plan.edge) : 1) {}
  RowFormat format() const override { return to_; }

  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    for (uint32_t i = 0; i < count; ++i) {
      const auto out = into.subspan(to_.row_samples() * i, to_.row_samples());
      if (auto made = make_row(first + i, out); !made) return made;
    }
    return done();
  }

 private:
  Status make_row(uint32_t y, std::span<uint16_t> out) {
    const uint32_t white = plan_.border + plan_.mat;
    if (y < white || y >= to_.height - white) {
      std::fill(out.begin(), out.end(), kWhite);
      draw_line(y, out);
      return done();
    }
    const int64_t row = int64_t{y} - white - plan_.edge;
    const auto make = [this](uint32_t at, uint16_t* codes) {
      return rows_->read(at, 1, std::span(codes, from_.row_samples()));
    };
    const uint32_t wanted = source(row, from_.height);
    uint32_t first = wanted, end = wanted + 1;
    if (mirrored_ && row < 0) first = 0, end = plan_.edge;  // all that is mirrored, once
    if (mirrored_ && row >= from_.height) {
      first = from_.height - plan_.edge;
      end = from_.height;
    }
    if (auto held = window_.hold(first, end, make); !held) return held;
    const uint16_t* in = window_.row(wanted);
    std::fill_n(out.begin(), size_t{white} * 3, kWhite);
    uint16_t* at = &out[size_t{white} * 3];
    for (int64_t x = -int64_t{plan_.edge}; x < 0; ++x) at = put(in, x, at);
    at = std::copy_n(in, from_.row_samples(), at);
    for (int64_t x = from_.width; x < int64_t{from_.width} + plan_.edge; ++x) at = put(in, x, at);
    std::fill_n(at, size_t{white} * 3, kWhite);
    return done();
  }

  // The row or column of the picture that stands at a place past its edge.
  uint32_t source(int64_t at, uint32_t size) const {
    const int64_t last = int64_t{size} - 1;
    if (mirrored_ && at < 0) at = -1 - at;
    if (mirrored_ && at > last) at = 2 * last + 1 - at;
    return static_cast<uint32_t>(std::clamp<int64_t>(at, 0, last));
  }
  uint16_t* put(const uint16_t* in, int64_t x, uint16_t* out) const {
    return std::copy_n(in + size_t{source(x, from_.width)} * 3, 3, out);
  }

  void draw_line(uint32_t y, std::span<uint16_t> out) const {
    if (y < line_.y || y >= line_.y + line_.height) return;
    for (uint32_t x = line_.x; x < line_.x + line_.width; ++x) {
      std::copy_n(line_code_.begin(), 3, &out[size_t{x} * 3]);
    }
  }

  std::unique_ptr<RowSource> rows_;
  PrintPlan plan_;
  RowFormat from_, to_;
  PixelRect line_;
  std::array<uint16_t, 3> line_code_;
  bool mirrored_;
  RowWindow<uint16_t> window_;
};

}  // namespace

PixelRect signature_line(const PrintPlan& plan) {
  if (!plan.signature_line || plan.border == 0) return {};
  const auto pixels = [&](double mm) {
    return static_cast<uint32_t>(std::max(1L, std::lround(mm / kMmPerInch * plan.ppi)));
  };
  const uint32_t left = plan.mat + plan.border;
  PixelRect line;
  line.width = std::clamp(plan.width / 3, 1u, pixels(kSignatureLengthMm));
  line.height = std::min(pixels(kSignatureLineMm), plan.border);
  line.y = left + plan.height + (plan.border - line.height) * 3 / 5;
  const uint32_t spare = plan.width - line.width;
  switch (plan.signature_place) {
    case SignaturePlace::left:
      line.x = left;
      break;
    case SignaturePlace::middle:
      line.x = left + spare / 2;
      break;
    case SignaturePlace::right:
      line.x = left + spare;
      break;
  }
  return line;
}

Result<std::unique_ptr<RowSource>> bordered(std::unique_ptr<RowSource> rows, const Light& light,
                                            const PrintPlan& plan) {
  const RowFormat format = rows->format();
  const uint32_t margin = 2 * (plan.edge + plan.border + plan.mat);
  if (format.width != plan.width || format.height != plan.height ||
      plan.sheet_width != plan.width + margin || plan.sheet_height != plan.height + margin ||
      plan.edge > std::min(plan.width, plan.height)) {
    return Error{"The picture has another size than was planned for this print."};
  }
  if (margin == 0) return rows;
  return std::unique_ptr<RowSource>(std::make_unique<Bordered>(std::move(rows), light, plan));
}

}  // namespace proofleaf::print
