#include "codec/tiff_layout.h"

#include <algorithm>
#include <array>

namespace proofleaf {

namespace {

constexpr uint32_t kMostSamples = 64;

Status check_kind(TiffInput& input) {
  const std::string& name = input.name();
  static constexpr std::array<uint16_t, 5> kCompressions = {
      COMPRESSION_NONE, COMPRESSION_LZW, COMPRESSION_ADOBE_DEFLATE, COMPRESSION_DEFLATE,
      COMPRESSION_PACKBITS};
  const uint16_t compression = input.short_field(TIFFTAG_COMPRESSION, COMPRESSION_NONE);
  if (std::find(kCompressions.begin(), kCompressions.end(), compression) == kCompressions.end()) {
    return Error{
        "{} is compressed in a way that cannot be opened here; save it with LZW, ZIP or no "
        "compression.",
        name};
  }
  if (input.long_field(TIFFTAG_SUBFILETYPE, 0) & FILETYPE_REDUCEDIMAGE) {
    return Error{"{} begins with a small preview instead of its picture; save it as a plain TIFF.",
                 name};
  }
  const uint16_t format = input.short_field(TIFFTAG_SAMPLEFORMAT, SAMPLEFORMAT_UINT);
  if (format == SAMPLEFORMAT_IEEEFP || format == SAMPLEFORMAT_COMPLEXIEEEFP) {
    return Error{"{} holds floating-point samples; save it with 16 bits per channel.", name};
  }
  if (format != SAMPLEFORMAT_UINT && format != SAMPLEFORMAT_VOID) {
    return Error{"{} holds signed samples; save it with 16 bits per channel.", name};
  }
  const uint16_t bits = input.short_field(TIFFTAG_BITSPERSAMPLE, 1);
  if (bits != 8 && bits != 16) {
    return Error{"{} has {} bits per channel; 8 and 16 can be opened.", name, bits};
  }
  return done();
}

// Sets colours and what zero means from PhotometricInterpretation.
Status take_model(TiffInput& input, TiffLayout& layout) {
  const std::string& name = input.name();
  uint16_t photometric = 0;
  if (!TIFFGetField(input.tiff(), TIFFTAG_PHOTOMETRIC, &photometric)) {
    return Error{"{} does not say what its channels mean.", name};
  }
  layout.out.colours = 1;
  switch (photometric) {
    case PHOTOMETRIC_MINISWHITE:
      layout.min_is_white = layout.out.zero_is_white = true;
      break;
    case PHOTOMETRIC_MINISBLACK:
      break;
    case PHOTOMETRIC_RGB:
      layout.out.colours = 3;
      break;
    case PHOTOMETRIC_PALETTE:
      layout.palette = true;
      if (layout.bits != 8) return Error{"{} has a colour table of a size never used.", name};
      break;
    case PHOTOMETRIC_SEPARATED:
      layout.out.colours = 4;
      layout.out.zero_is_white = true;
      if (input.short_field(TIFFTAG_INKSET, INKSET_CMYK) != INKSET_CMYK) {
        return Error{"{} is separated into other inks than CMYK, which cannot be opened here.",
                     name};
      }
      break;
    case PHOTOMETRIC_CIELAB:
    case PHOTOMETRIC_ICCLAB:
    case PHOTOMETRIC_ITULAB:
      return Error{"{} is in Lab; convert it to RGB first.", name};
    default:
      return Error{"{} has neither grey, RGB nor CMYK channels.", name};
  }
  if (layout.samples < layout.out.colours) {
    return Error{"{} is damaged: it has fewer channels than its colours need.", name};
  }
  return done();
}

// TIFF 6.0 ExtraSamples: 1 associated alpha, 2 unassociated alpha, 0 anything.
void take_extra(TiffInput& input, TiffLayout& layout) {
  const uint32_t extra = layout.samples - layout.out.colours;
  layout.extra_ignored = extra;
  uint16_t count = 0;
  uint16_t* kinds = nullptr;
  if (!TIFFGetField(input.tiff(), TIFFTAG_EXTRASAMPLES, &count, &kinds) || !kinds) return;
  for (uint32_t i = 0; i < std::min<uint32_t>(count, extra); ++i) {
    if (kinds[i] != EXTRASAMPLE_ASSOCALPHA && kinds[i] != EXTRASAMPLE_UNASSALPHA) continue;
    if (layout.palette) return;
    layout.out.alpha = true;
    layout.out.associated = kinds[i] == EXTRASAMPLE_ASSOCALPHA;
    layout.alpha_sample = layout.out.colours + i;
    layout.extra_ignored = extra - 1;
    return;
  }
}

Status check_units(TiffInput& input, const TiffLayout& layout) {
  const std::string& name = input.name();
  const uint64_t sample_bytes = uint64_t{layout.plane_samples()} * (layout.bits / 8);
  if (layout.width * sample_bytes > kLargestUnit) {
    return Error{"{} has rows too long to be opened here.", name};
  }
  if (!layout.tiled) {
    if (TIFFScanlineSize64(input.tiff()) == layout.plane_row_bytes()) return done();
    return Error{"{} is damaged: its channels do not fit its rows.", name};
  }
  const uint64_t tile = uint64_t{layout.tile_width} * layout.tile_height;
  if (tile == 0 || layout.tile_width > (1u << 20) || layout.tile_height > (1u << 20)) {
    return Error{"{} is damaged: its tiles have no sensible size.", name};
  }
  if (tile * sample_bytes > kLargestUnit ||
      layout.plane_row_bytes() * uint64_t{layout.tile_height} * layout.planes() > kLargestBand) {
    return Error{"{} has tiles too large to be opened here.", name};
  }
  if (TIFFTileSize64(input.tiff()) != tile * sample_bytes) {
    return Error{"{} is damaged: its channels do not fit its tiles.", name};
  }
  return done();
}

}  // namespace

Result<TiffLayout> read_layout(TiffInput& input) {
  TiffLayout layout;
  layout.width = input.long_field(TIFFTAG_IMAGEWIDTH, 0);
  layout.height = input.long_field(TIFFTAG_IMAGELENGTH, 0);
  if (Status ok = check_dimensions(input.name(), layout.width, layout.height); !ok) {
    return ok.error();
  }
  if (Status ok = check_kind(input); !ok) return ok.error();
  layout.bits = input.short_field(TIFFTAG_BITSPERSAMPLE, 1);
  layout.samples = input.short_field(TIFFTAG_SAMPLESPERPIXEL, 1);
  if (layout.samples == 0 || layout.samples > kMostSamples) {
    return Error{"{} has {} channels, which is not sensible.", input.name(), layout.samples};
  }
  if (Status ok = take_model(input, layout); !ok) return ok.error();
  take_extra(input, layout);
  layout.separate =
      layout.samples > 1 && input.short_field(TIFFTAG_PLANARCONFIG, 1) == PLANARCONFIG_SEPARATE;
  layout.tiled = TIFFIsTiled(input.tiff()) != 0;
  layout.tile_width = layout.tiled ? input.long_field(TIFFTAG_TILEWIDTH, 0) : 0;
  layout.tile_height = layout.tiled ? input.long_field(TIFFTAG_TILELENGTH, 0) : 0;
  if (Status ok = check_units(input, layout); !ok) return ok.error();
  return layout;
}

}  // namespace proofleaf
