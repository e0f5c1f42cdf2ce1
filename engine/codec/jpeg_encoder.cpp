#include "codec/jpeg_encoder.h"

#include <algorithm>
#include <cmath>

#include "codec/writers.h"

namespace proofleaf {
namespace {

constexpr size_t kFirstRoom = 256 << 10;  // [bytes]

void set_sampling(j_compress_ptr cinfo, const WriteSpec& spec) {
  for (int c = 0; c < cinfo->num_components; ++c) {
    const bool fine = spec.full_colour_detail || c == 0 || c == 3;  // Y, and K of YCCK
    cinfo->comp_info[c].h_samp_factor = cinfo->comp_info[c].v_samp_factor =
        fine && !spec.full_colour_detail && cinfo->num_components > 1 ? 2 : 1;
  }
}

// libjpeg-turbo passes over a fourth byte by itself.
void set_lanes(j_compress_ptr cinfo, uint32_t lanes) {
  if (cinfo->in_color_space != JCS_RGB && cinfo->in_color_space != JCS_EXT_RGBX) return;
  cinfo->in_color_space = lanes == 4 ? JCS_EXT_RGBX : JCS_RGB;
  cinfo->input_components = static_cast<int>(lanes);
}

void set_colour(j_compress_ptr cinfo, const WriteSpec& spec) {
  const bool cmyk = spec.model == ColourModel::cmyk;
  cinfo->input_components = static_cast<int>(channels_of(spec.model));
  cinfo->in_color_space = cmyk                              ? JCS_CMYK
                          : spec.model == ColourModel::grey ? JCS_GRAYSCALE
                                                            : JCS_RGB;
  jpeg_set_defaults(cinfo);
  // Inks keep their own planes at full detail; only YCCK has colour that can be thinned out.
  if (cmyk) jpeg_set_colorspace(cinfo, spec.full_colour_detail ? JCS_CMYK : JCS_YCCK);
  set_sampling(cinfo, spec);
}

// Blocks in one band, all components of a place counted as one (T.81: an MCU).
unsigned restart_interval(j_compress_ptr cinfo) {
  int most = 1;
  for (int c = 0; c < cinfo->num_components; ++c)
    most = std::max(most, cinfo->comp_info[c].h_samp_factor);
  const unsigned side = 8u * static_cast<unsigned>(most);
  return (cinfo->image_width + side - 1) / side * (kBandRows / side);
}

}  // namespace

void JpegEncoder::begin(j_compress_ptr cinfo) {
  auto* output = reinterpret_cast<Output*>(cinfo->dest);
  output->manager.next_output_byte = output->coded.data();
  output->manager.free_in_buffer = output->coded.size();
}

boolean JpegEncoder::flush(j_compress_ptr cinfo) {
  auto* output = reinterpret_cast<Output*>(cinfo->dest);
  const size_t full = output->coded.size();
  output->coded.resize(full * 2);
  output->manager.next_output_byte = output->coded.data() + full;
  output->manager.free_in_buffer = full;
  return TRUE;
}

void JpegEncoder::create(j_compress_ptr cinfo, const WriteSpec* spec) {
  jpeg_create_compress(cinfo);
  cinfo->image_width = spec->width;
  cinfo->image_height = spec->height;
  set_colour(cinfo, *spec);
  jpeg_set_quality(cinfo, spec->quality, TRUE);
  cinfo->dct_method = JDCT_ISLOW;
  // JFIF 1.02 knows grey and YCbCr only; CMYK carries its resolution in Exif.
  cinfo->density_unit = 1;
  cinfo->X_density = cinfo->Y_density = static_cast<UINT16>(std::lround(spec->ppi));
}

void JpegEncoder::write(j_compress_ptr cinfo, const Task* task) {
  cinfo->image_height = task->height;
  const bool whole = task->exif != nullptr;
  set_lanes(cinfo, task->lanes);
  cinfo->restart_interval = whole ? restart_interval(cinfo) : 0;
  if (!whole) jpeg_suppress_tables(cinfo, TRUE);
  jpeg_start_compress(cinfo, whole ? TRUE : FALSE);
  if (whole) {
    jpeg_write_marker(cinfo, JPEG_APP0 + 1, task->exif->data(),
                      static_cast<unsigned>(task->exif->size()));
    const Bytes& icc = task->spec->icc;
    if (!icc.empty()) jpeg_write_icc_profile(cinfo, icc.data(), static_cast<unsigned>(icc.size()));
  }
  while (cinfo->next_scanline < task->count) {
    jpeg_write_scanlines(cinfo, task->rows + cinfo->next_scanline,
                         task->count - cinfo->next_scanline);
  }
  if (!whole) return jpeg_finish_compress(cinfo);
  jpeg_abort_compress(cinfo);
}

JpegEncoder::JpegEncoder(const WriteSpec& spec) : spec_(spec), fault_{}, output_{}, cinfo_{} {
  prepare(fault_);
  cinfo_.err = &fault_.manager;
  created_ = guarded(fault_, create, &cinfo_, static_cast<const WriteSpec*>(&spec_));
  output_.coded.resize(kFirstRoom);
  output_.manager.init_destination = begin;
  output_.manager.empty_output_buffer = flush;
  output_.manager.term_destination = [](j_compress_ptr) {};
  cinfo_.dest = &output_.manager;
}

JpegEncoder::~JpegEncoder() { jpeg_destroy_compress(&cinfo_); }

ByteView JpegEncoder::run(const Task& task) {
  if (created_ && guarded(fault_, write, &cinfo_, &task)) {
    return {output_.coded.data(), output_.manager.next_output_byte};
  }
  jpeg_abort_compress(&cinfo_);
  return {};
}

ByteView JpegEncoder::picture(std::span<const uint8_t> samples, uint32_t count) {
  const size_t row = samples.size() / std::max(count, 1u);
  // Only ever read, though libjpeg's type does not say so.
  auto* first = const_cast<uint8_t*>(samples.data());
  if (spec_.model == ColourModel::cmyk) {
    // The habit that goes with the Adobe marker: 255 is no ink.
    samples_.resize(samples.size());
    std::transform(samples.begin(), samples.end(), samples_.begin(),
                   [](uint8_t v) { return static_cast<uint8_t>(255 - v); });
    first = samples_.data();
  }
  rows_.resize(count);
  for (size_t y = 0; y < count; ++y) rows_[y] = first + y * row;
  const auto lanes = static_cast<uint32_t>(row / spec_.width);
  return run({&spec_, count, lanes, nullptr, rows_.data(), count});
}

Bytes JpegEncoder::head(const Bytes& exif) {
  // Frame and scan header come with the first row; its data is not wanted.
  samples_.assign(size_t{spec_.width} * channels_of(spec_.model), 0);
  rows_.assign(1, samples_.data());
  const ByteView coded =
      run({&spec_, spec_.height, channels_of(spec_.model), &exif, rows_.data(), 1});
  return {coded.begin(), coded.end()};
}

}  // namespace proofleaf
