#include "codec/jpeg_eighth.h"

#include <algorithm>

namespace proofleaf {
namespace {

constexpr int kMiddle = 128;

uint8_t held_within(int value) { return static_cast<uint8_t>(std::clamp(value, 0, 255)); }

// JFIF 1.02 (ITU-T T.871), in 16-bit fixed point with libjpeg's rounding.
void to_rgb(int y, int cb, int cr, uint8_t* rgb) {
  constexpr int kHalf = 32768;
  rgb[0] = held_within(y + ((91881 * cr + kHalf) >> 16));
  rgb[1] = held_within(y + ((-22554 * cb - 46802 * cr + kHalf) >> 16));
  rgb[2] = held_within(y + ((116130 * cb + kHalf) >> 16));
}

bool known_kind(const jpeg_decompress_struct& cinfo) {
  if (!in_one_huffman_scan(cinfo) || cinfo.data_precision != 8) return false;
  if (cinfo.num_components == 1) return cinfo.jpeg_color_space == JCS_GRAYSCALE;
  if (cinfo.num_components != 3) return false;
  return cinfo.jpeg_color_space == JCS_RGB || cinfo.jpeg_color_space == JCS_YCbCr;
}

std::shared_ptr<const JpegCodes> codes_of(JHUFF_TBL* const (&tables)[NUM_HUFF_TBLS], int number) {
  if (number < 0 || number >= NUM_HUFF_TBLS || tables[number] == nullptr) return nullptr;
  auto codes = JpegCodes::of(tables[number]->bits, tables[number]->huffval);
  return codes ? std::make_shared<const JpegCodes>(std::move(*codes)) : nullptr;
}

}  // namespace

std::unique_ptr<JpegEighth> JpegEighth::of(BlockReader reader, const jpeg_decompress_struct& cinfo,
                                           uint64_t start) {
  if (!known_kind(cinfo)) return nullptr;
  std::unique_ptr<JpegEighth> made(new JpegEighth(std::move(reader), start));
  made->width_ = (cinfo.image_width + DCTSIZE - 1) / DCTSIZE;
  made->height_ = (cinfo.image_height + DCTSIZE - 1) / DCTSIZE;
  made->interval_ = made->to_restart_ = cinfo.restart_interval;
  made->ycc_ = cinfo.jpeg_color_space == JCS_YCbCr;
  for (int c = 0; c < cinfo.num_components; ++c) {
    if (cinfo.cur_comp_info[c] != &cinfo.comp_info[c]) return nullptr;
    if (!made->take(cinfo, cinfo.comp_info[c])) return nullptr;
  }
  return made;
}

bool JpegEighth::take(const jpeg_decompress_struct& cinfo, const jpeg_component_info& info) {
  if (cinfo.num_components > 1 && (info.h_samp_factor != 1 || info.v_samp_factor != 1))
    return false;
  if (info.quant_tbl_no < 0 || info.quant_tbl_no >= NUM_QUANT_TBLS) return false;
  const JQUANT_TBL* quantisers = cinfo.quant_tbl_ptrs[info.quant_tbl_no];
  if (quantisers == nullptr) return false;
  Component component;
  component.dc = codes_of(cinfo.dc_huff_tbl_ptrs, info.dc_tbl_no);
  component.ac = codes_of(cinfo.ac_huff_tbl_ptrs, info.ac_tbl_no);
  component.quantiser = quantisers->quantval[0];
  component.means.resize(width_);
  if (!component.dc || !component.ac) return false;
  // A difference has at most 15 bits, even where no code of the picture says otherwise.
  const auto last =
      component.dc->symbols.begin() + component.dc->index[16] + component.dc->count[16];
  if (std::any_of(component.dc->symbols.begin(), last, [](uint8_t size) { return size > 15; }))
    return false;
  components_.push_back(std::move(component));
  return true;
}

bool JpegEighth::restart() {
  if (!bits_.pass_restart(restarts_)) return false;
  for (Component& component : components_) component.last = 0;
  restarts_ = (restarts_ + 1) % 8;
  to_restart_ = interval_;
  return true;
}

// The mean as libjpeg's jpeg_idct_1x1 has it, which keeps ten bits: a sound file needs no more.
bool JpegEighth::decode(Component& component, uint8_t& mean) {
  const std::optional<int> difference = bits_.difference(*component.dc, *component.ac);
  if (!difference) return false;
  component.last += static_cast<uint32_t>(*difference);
  const int dc = static_cast<int16_t>(component.last) * component.quantiser;
  const int ten_bits = (((dc + DCTSIZE / 2) >> 3 & 0x3FF) ^ 0x200) - 0x200;
  mean = held_within(ten_bits + kMiddle);
  return true;
}

bool JpegEighth::read_row(uint8_t* into) {
  for (uint32_t x = 0; x < width_; ++x) {
    if (interval_ != 0 && to_restart_ == 0 && !restart()) return false;
    for (Component& component : components_) {
      if (!decode(component, component.means[x])) return false;
    }
    if (interval_ != 0) --to_restart_;
  }
  if (bits_.ran_out()) return false;
  const size_t channels = components_.size();
  for (uint32_t x = 0; x < width_; ++x, into += channels) {
    if (ycc_) {
      to_rgb(components_[0].means[x], components_[1].means[x] - kMiddle,
             components_[2].means[x] - kMiddle, into);
    } else {
      for (size_t c = 0; c < channels; ++c) into[c] = components_[c].means[x];
    }
  }
  ++row_;
  return true;
}

}  // namespace proofleaf
