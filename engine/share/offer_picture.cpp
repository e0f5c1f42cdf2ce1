#include "share/offer_picture.h"

#include <algorithm>
#include <array>
#include <cstdlib>

#include "codec/jpeg_decoder.h"
#include "colour/lcms.h"
#include "raster/picture_rows.h"
#include "raster/preview.h"

namespace proofleaf {
namespace {

constexpr float kBeyond = 0.01f;  // of the range past 0..1 that still counts as inside
// A wide space costs more than it saves: its 8-bit steps and its JPEG's losses are larger. Measured
// on the demo, 3 % of it beyond sRGB: mean 2.8 dE00 from the full proof in sRGB, 3.4 in ROMM RGB.
constexpr double kMostCut = 0.05;

// Pixels of `small` in a space, unclipped, 0..1.
Result<std::vector<float>> in_space(const Profile& master, const Picture& small,
                                    const std::string& id) {
  auto space = standard_profile(id);
  if (!space) return space.error();
  const Transform transform(cmsCreateTransform(master.handle(), TYPE_RGB_FLT,
                                               space.value().handle(), TYPE_RGB_FLT,
                                               INTENT_RELATIVE_COLORIMETRIC, kExact));
  if (!transform) return Error{"The picture's colours could not be brought into the offer."};
  std::vector<float> from(small.rgb.size()), to(small.rgb.size());
  std::transform(small.rgb.begin(), small.rgb.end(), from.begin(),
                 [](uint16_t code) { return static_cast<float>(code) / 65535; });
  cmsDoTransform(transform.get(), from.data(), to.data(),
                 static_cast<cmsUInt32Number>(from.size() / 3));
  return to;
}

double share_cut(const std::vector<float>& rgb) {
  size_t cut = 0;
  for (size_t i = 0; i + 2 < rgb.size(); i += 3)
    cut += std::any_of(&rgb[i], &rgb[i] + 3,
                       [](float v) { return !(v >= -kBeyond && v <= 1 + kBeyond); });
  return 3 * double(cut) / double(std::max<size_t>(1, rgb.size()));
}

uint8_t code8(float value) {
  return value > 0 ? static_cast<uint8_t>(std::min(value, 1.0f) * 255 + 0.5f) : 0;
}

struct Encoding {
  const OfferPicture* picture;
  int quality;
  unsigned char* bytes;  // libjpeg's own, by malloc
  unsigned long size;
};

void encode(j_compress_ptr cinfo, Encoding* task) {
  jpeg_create_compress(cinfo);
  jpeg_mem_dest(cinfo, &task->bytes, &task->size);
  cinfo->image_width = task->picture->width;
  cinfo->image_height = task->picture->height;
  cinfo->input_components = 3;
  cinfo->in_color_space = JCS_RGB;
  jpeg_set_defaults(cinfo);  // 4:2:0
  jpeg_set_quality(cinfo, task->quality, TRUE);
  cinfo->write_JFIF_header = FALSE;
  cinfo->arith_code = TRUE;
  jpeg_simple_progression(cinfo);
  jpeg_start_compress(cinfo, TRUE);
  while (cinfo->next_scanline < cinfo->image_height) {
    // Only ever read, though libjpeg's type does not say so.
    auto* row = const_cast<uint8_t*>(task->picture->rgb.data()) +
                size_t{cinfo->next_scanline} * task->picture->width * 3;
    jpeg_write_scanlines(cinfo, &row, 1);
  }
  jpeg_finish_compress(cinfo);
}

}  // namespace

Result<OfferPicture> offer_picture(const Profile& master, std::span<const uint16_t> rgb,
                                   uint32_t width, uint32_t height, uint32_t side) {
  if (width == 0 || height == 0 || side == 0 || rgb.size() != size_t{width} * height * 3)
    return Error{"There is no picture to offer."};
  PictureRows rows(rgb, width, height);
  auto small = shrink(rows, (std::max(width, height) + side - 1) / side, {});
  if (!small) return small.error();
  for (const char* id : kOfferSpaces) {
    auto floats = in_space(master, small.value(), id);
    if (!floats) return floats.error();
    const bool last = id == kOfferSpaces.back();
    if (!last && share_cut(floats.value()) > kMostCut) continue;
    OfferPicture picture{id, small.value().width, small.value().height, {}};
    picture.rgb.resize(floats.value().size());
    std::transform(floats.value().begin(), floats.value().end(), picture.rgb.begin(), code8);
    return picture;
  }
  return Error{"The picture's colours could not be brought into the offer."};
}

Bytes small_jpeg(const OfferPicture& picture, int quality) {
  JpegFault fault{};
  prepare(fault);
  jpeg_compress_struct cinfo{};
  cinfo.err = &fault.manager;
  Encoding task{&picture, quality, nullptr, 0};
  const bool whole = guarded(fault, encode, &cinfo, &task);
  jpeg_destroy_compress(&cinfo);
  Bytes bytes;
  if (whole && task.bytes != nullptr) bytes.assign(task.bytes, task.bytes + task.size);
  std::free(task.bytes);
  return bytes;
}

Result<OfferPicture> read_small_jpeg(ByteView jpeg, const std::string& space,
                                     const OfferForm& form) {
  const Error damaged{"The picture in this offer is damaged."};
  if (std::find(kOfferSpaces.begin(), kOfferSpaces.end(), space) == kOfferSpaces.end())
    return damaged;
  // The decoder alone, so that a client's page needs no more of the engine.
  JpegDecoder decoder(std::make_shared<MemorySource>("The offer", Bytes(jpeg.begin(), jpeg.end())));
  if (!decoder.open()) return damaged;
  OfferPicture picture{space, decoder.width(), decoder.height(), {}};
  if (decoder.channels() != 3 || std::max(picture.width, picture.height) > form.side)
    return damaged;
  if (!decoder.start(1)) return damaged;
  const size_t row = size_t{picture.width} * 3;
  picture.rgb.resize(row * picture.height);
  for (uint32_t y = 0; y < picture.height; ++y)
    if (!decoder.read_row(&picture.rgb[y * row])) return damaged;
  return picture;
}

}  // namespace proofleaf
