// The exact proof of single colours, in floating point through LittleCMS: the truth the cube is
// built from and checked against.
//
//   master RGB --correction--> RGB --intent, BPC--> paper device --A2B--> colour on paper --view-->
//   screen RGB
#pragma once

#include <array>
#include <memory>
#include <span>

#include "colour/colour_map.h"
#include "paper/paper.h"
#include "paper/reading.h"

namespace proofleaf {

enum class Screen { srgb, display_p3 };

// How the master goes to the paper.
struct PrintIntent {
  Intent intent = Intent::relative;
  bool black_point_compensation = true;  // ISO 18619; has no meaning for absolute
  bool operator==(const PrintIntent&) const = default;
};

// How the paper is shown on the screen.
struct ProofView {
  bool paper_white = true;  // show the paper's own white, else it is the screen's white
  bool paper_black = true;  // show the paper's own black, else it is the screen's black
  Screen screen = Screen::srgb;
  bool operator==(const ProofView&) const = default;
};

// One colour, all the way.
struct ProofPoint {
  Lab master;     // media-relative L*a*b* D50 of the master, uncorrected
  Lab corrected;  // the same after the correction; `master` without one
  Lab on_paper;   // L*a*b* D50 as the view shows it (with white / black or without)
  std::array<double, 4> device{};  // paper device values 0..1 (CMYK: 0 = no ink)
  std::array<double, 3> screen{};  // encoded screen RGB, may pass 0..1 where the screen falls short
  double delta_e = 0;              // CIEDE2000 between master and on_paper
  double off_gamut = 0;            // CIEDE2000 from the corrected colour to the nearest the paper's
                                   // own relative colorimetric tables come; near 0 inside the gamut
  double ink = 0;                  // total ink [per cent], CMYK only
  bool clipped = false;            // a device channel stands at its end and the colour is off gamut
  bool ink_limited = false;        // total ink is at the paper's limit (within 2 per cent)
};

// Keeps LittleCMS transforms for one master space and one paper. Once made, several threads may ask
// at the same time: the transforms keep no cache (cmsFLAGS_NOCACHE).
class ProofChain {
 public:
  // before: corrects the master's colours ahead of everything else; none where empty.
  // reading: how the paper was seen to come out, laid over on_paper and screen with its white and
  // black; device values never follow it.
  // Error: the two profiles cannot be joined.
  static Result<std::shared_ptr<ProofChain>> make(const Profile& master, const Paper& paper,
                                                  PrintIntent print, ProofView view,
                                                  std::shared_ptr<const ColourMap> before = {},
                                                  const PaperReading& reading = {});
  virtual ~ProofChain() = default;
  virtual uint32_t device_channels() const = 0;
  // Whether the paper's tables want a cube of more nodes: those to inks, which bend where one ink
  // takes over from another, and those of 8 bits, which are staircases.
  virtual bool stepped() const = 0;

  // rgb: encoded master RGB 0..1, three to a colour, uncorrected here and below.
  virtual void points(std::span<const float> rgb, std::span<ProofPoint> out) const = 0;
  ProofPoint point(float r, float g, float b) const;

  // Only one end of the chain, for many colours at once; each allocation-free apart from scratch.
  // screen: three to a colour, may pass 0..1. device: device_channels() to a colour, 0..1.
  virtual void to_screen(std::span<const float> rgb, std::span<float> screen) const = 0;
  virtual void to_device(std::span<const float> rgb, std::span<float> device) const = 0;
  // The master's own lightness L* of neutrals, one level 0..1 (all channels equal) to a value.
  virtual void lightness(std::span<const float> levels, std::span<float> l) const = 0;
  // CIEDE2000 off the gamut, one to a colour.
  virtual void off_gamut(std::span<const float> rgb, std::span<float> delta_e) const = 0;
};

}  // namespace proofleaf
