#include <algorithm>

#include "print/dot_letters.h"
#include "print/strip.h"

namespace proofleaf::print {
namespace {

constexpr uint16_t kWhite = 65535;
constexpr double kLetterLightness = 25;  // [L*] dark enough to read, no large black to smear

bool crosses(const PixelRect& box, uint32_t y) { return y >= box.y && y < box.y + box.height; }

class StripRows final : public RowSource {
 public:
  StripRows(const StripLayout& layout, const Light& light, std::vector<Picture> pictures)
      : layout_(layout), light_(light), pictures_(std::move(pictures)) {}
  RowFormat format() const override { return {layout_.width, layout_.height, 3}; }

  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    const size_t samples = format().row_samples();
    for (uint32_t i = 0; i < count; ++i) {
      const uint32_t y = first + i;
      const auto out = into.subspan(samples * i, samples);
      std::fill(out.begin(), out.end(), kWhite);
      for (size_t t = 0; t < layout_.tiles.size(); ++t) draw_tile(t, y, out);
      for (const StripPatch& patch : layout_.patches) {
        fill(patch.ground_at, y, patch.ground, out);
        fill(patch.at, y, patch.lightness, out);
      }
      for (const StripLabel& label : layout_.labels) draw_label(label, y, out);
    }
    return done();
  }

 private:
  void draw_tile(size_t which, uint32_t y, std::span<uint16_t> out) const {
    const PixelRect& at = layout_.tiles[which].at;
    if (!crosses(at, y)) return;
    const size_t row = size_t{at.width} * 3;
    std::copy_n(&pictures_[which].rgb[(y - at.y) * row], row, &out[size_t{at.x} * 3]);
  }

  void fill(const PixelRect& box, uint32_t y, double lightness, std::span<uint16_t> out) const {
    if (!crosses(box, y)) return;
    const std::array<uint16_t, 3> code = light_.neutral(lightness);
    for (uint32_t x = box.x; x < box.x + box.width; ++x) {
      std::copy_n(code.begin(), 3, &out[size_t{x} * 3]);
    }
  }

  void draw_label(const StripLabel& label, uint32_t y, std::span<uint16_t> out) const {
    if (y < label.y || y >= label.y + label.dot * kDotsHigh) return;
    const uint32_t row = (y - label.y) / label.dot;
    uint32_t x = label.x;
    for (const char letter : label.text) {
      for (uint32_t column = 0; column < kDotsWide; ++column) {
        if (!dot_at(letter, column, row)) continue;
        const uint32_t left = x + column * label.dot;
        if (left + label.dot > layout_.width) return;
        fill({left, y, label.dot, 1}, y, kLetterLightness, out);
      }
      x += (kDotsWide + kDotsApart) * label.dot;
    }
  }

  StripLayout layout_;
  Light light_;
  std::vector<Picture> pictures_;
};

bool inside(const PixelRect& box, uint32_t width, uint32_t height) {
  return box.width > 0 && box.height > 0 && uint64_t{box.x} + box.width <= width &&
         uint64_t{box.y} + box.height <= height;
}

}  // namespace

Result<std::vector<Picture>> cut_parts(RowSource& rows, std::span<const PixelRect> parts,
                                       const Watch& watch) {
  const RowFormat format = rows.format();
  std::vector<Picture> pictures;
  uint32_t top = format.height, bottom = 0;
  for (const PixelRect& part : parts) {
    if (!inside(part, format.width, format.height)) {
      return Error{"That part does not lie inside the picture."};
    }
    top = std::min(top, part.y);
    bottom = std::max(bottom, part.y + part.height);
    pictures.push_back(
        {part.width, part.height, std::vector<uint16_t>(size_t{part.width} * part.height * 3)});
  }
  std::vector<uint16_t> row(format.row_samples());
  for (uint32_t y = top; y < bottom; ++y) {
    if (std::none_of(parts.begin(), parts.end(),
                     [&](const PixelRect& part) { return crosses(part, y); })) {
      continue;
    }
    if (!keep_going(watch, double(y - top) / (bottom - top))) return stopped();
    if (auto got = rows.read(y, 1, row); !got) return got.error();
    for (size_t i = 0; i < parts.size(); ++i) {
      const PixelRect& part = parts[i];
      if (!crosses(part, y)) continue;
      const size_t samples = size_t{part.width} * 3;
      std::copy_n(&row[size_t{part.x} * 3], samples, &pictures[i].rgb[(y - part.y) * samples]);
    }
  }
  return pictures;
}

Result<std::unique_ptr<RowSource>> strip_rows(const StripLayout& layout, const Light& light,
                                              std::vector<Picture> pictures) {
  bool sound = pictures.size() == layout.tiles.size();
  for (size_t i = 0; sound && i < pictures.size(); ++i) {
    const PixelRect& at = layout.tiles[i].at;
    sound = inside(at, layout.width, layout.height) && pictures[i].width == at.width &&
            pictures[i].height == at.height &&
            pictures[i].rgb.size() == size_t{at.width} * at.height * 3;
  }
  for (const StripPatch& patch : layout.patches) {
    sound = sound && inside(patch.at, layout.width, layout.height) &&
            inside(patch.ground_at, layout.width, layout.height);
  }
  if (!sound) return Error{"The strip's pictures do not fit its sheet."};
  return std::unique_ptr<RowSource>(
      std::make_unique<StripRows>(layout, light, std::move(pictures)));
}

}  // namespace proofleaf::print
