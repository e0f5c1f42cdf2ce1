// From measures to verdicts. All limits below are common practice, no source, unless one is named.
#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "colour/lcms.h"
#include "condition/measures.h"

namespace proofleaf::condition {
namespace {

// From `look` on the finding is worth a look, from `act` on it wants mending.
struct Limits {
  double look, act;
};
constexpr double kNever = 1e30;

constexpr Limits kWhite{0.02, 1};     // [% of the picture]
constexpr double kWhiteRegion = 0.5;  // [%] one blown region this large wants mending
constexpr Limits kBlack{0.5, 10};     // [%]
constexpr Limits kColour{0.1, 3};     // [%]
constexpr Limits kComb{5, 25};        // [% of levels unused]
constexpr double kEightBits = 8.5, kFewBits = 10;
constexpr double kBandingLook = 0.5, kBandingAct = 3;  // [%]
constexpr double kBandingStep = 1;     // [L*] smaller steps are never more than a look
constexpr Limits kNoise{2.5, kNever};  // [L*]
constexpr Limits kRise{2.6, 5};        // [pixels]
constexpr Limits kHalo{5, 12};         // [% of the step]
constexpr double kLevel = 0.15;        // [degrees] tells as 0.1 or less
constexpr Limits kBlocks{4, 15};       // [%]
constexpr int kGoodQuality = 90, kPoorQuality = 75;
constexpr double kFinePpi = 240, kCoarsePpi = 150;

Severity severity_of(double value, const Limits& limits) {
  return value >= limits.act    ? Severity::act
         : value >= limits.look ? Severity::look
                                : Severity::good;
}

using Numbers = std::vector<std::pair<std::string, double>>;

class Judge {
 public:
  Judge(const Measures& measures, const MasterInfo& info, ConditionReport& report)
      : m_(measures), info_(info), report_(report) {}

  void all() {
    highlights();
    shadows();
    colours();
    levels();
    banding();
    noise();
    sharpness();
    halos();
    dust();
    edges();
    tilt();
    blocking();
    compression();
    profile();
    bits();
    traces();
    size();
    std::stable_sort(report_.findings.begin(), report_.findings.end(),
                     [](const Finding& a, const Finding& b) { return a.severity < b.severity; });
  }

 private:
  double percent(uint64_t pixels) const { return 100.0 * double(pixels) / double(m_.pixels); }

  void say(Finding finding) { report_.findings.push_back(std::move(finding)); }
  void unsaid(const char* id) { report_.unsaid.emplace_back(id); }

  void highlights() {
    const Clipping& c = m_.clipping;
    const double blown = percent(c.white - c.specular), largest = percent(c.whites.largest());
    Severity severity = severity_of(blown, kWhite);
    if (largest >= kWhiteRegion) severity = Severity::act;
    say({"highlights",
         severity,
         severity == Severity::good && c.specular > 0 ? "specular" : "",
         blown,
         "%",
         c.whites.places(),
         {{"blown_percent", blown},
          {"specular_percent", percent(c.specular)},
          {"red_percent", percent(c.top[0])},
          {"green_percent", percent(c.top[1])},
          {"blue_percent", percent(c.top[2])},
          {"largest_percent", largest},
          {"border_percent", percent(c.border_white)}}});
  }

  void shadows() {
    const Clipping& c = m_.clipping;
    const double black = percent(c.black);
    say({"shadows",
         severity_of(black, kBlack),
         "",
         black,
         "%",
         c.blacks.places(),
         {{"red_percent", percent(c.bottom[0])},
          {"green_percent", percent(c.bottom[1])},
          {"blue_percent", percent(c.bottom[2])},
          {"largest_percent", percent(c.blacks.largest())},
          {"border_percent", percent(c.border_black)}}});
  }

  void colours() {
    if (info_.model != ColourModel::rgb) return;
    const double share = percent(m_.clipping.colour);
    say({"colours",
         severity_of(share, kColour),
         "",
         share,
         "%",
         m_.clipping.colours.places(),
         {{"largest_percent", percent(m_.clipping.colours.largest())}}});
  }

  void levels() {
    const Levels& l = m_.levels;
    if (!l.enough) return unsaid("levels");
    const bool comb = info_.bits <= 8;
    Severity severity = severity_of(100 * l.gap_share, kComb);
    std::string variant = severity == Severity::good ? "eight" : "comb";
    if (!comb) {
      variant = l.bits <= kEightBits ? "eight" : l.bits < kFewBits ? "few" : "";
      severity = variant.empty() ? Severity::good : Severity::look;
    }
    say({"levels",
         severity,
         variant,
         l.bits,
         phrase("bits"),
         {},
         {{"used_levels", double(l.used)},
          {"gaps", double(l.gaps)},
          {"gap_percent", 100 * l.gap_share}}});
  }

  void banding() {
    const Banding& b = m_.banding;
    const double share = 100 * b.share;
    Severity severity = share >= kBandingLook ? Severity::look : Severity::good;
    if (share >= kBandingAct && b.step_l >= kBandingStep) severity = Severity::act;
    const bool any = severity != Severity::good;
    Finding finding{"banding", severity, "", share, "%", {}};
    if (any) {
      finding.places = b.places.places();
      finding.numbers = {{"step_l", b.step_l}, {"width_px", b.width}};
    }
    say(std::move(finding));
  }

  void noise() {
    const double largest = m_.noise.largest();
    if (largest < 0) return unsaid("noise");
    Numbers numbers;
    const char* const names[] = {"shadows_l", "mids_l", "highlights_l"};
    for (size_t i = 0; i < 3; ++i) {
      if (m_.noise.sigma[i] >= 0) numbers.emplace_back(names[i], m_.noise.sigma[i]);
    }
    say({"noise", severity_of(largest, kNoise), "", largest, "L*", {}, std::move(numbers)});
  }

  void sharpness() {
    const Sharpness& s = m_.sharpness;
    if (s.edges == 0) return unsaid("sharpness");
    say({"sharpness",
         severity_of(s.sharpest, kRise),
         "",
         s.sharpest,
         "px",
         s.sharp,
         {{"median_px", s.median},
          {"edges", double(s.edges)},
          {"mm_on_print", s.sharpest * 25.4 / report_.print_ppi}}});
  }

  void halos() {
    const Sharpness& s = m_.sharpness;
    constexpr size_t kFewest = 5;
    if (s.halo_edges < kFewest) return unsaid("halos");
    const double both = 100 * s.both;
    const Severity severity = severity_of(both, kHalo);
    Finding finding{"halos", severity, "", both, "%", {}};
    if (severity != Severity::good) finding.places = s.halos;
    finding.numbers = {{"bright_percent", 100 * s.bright},
                       {"dark_percent", 100 * s.dark},
                       {"edges", double(s.halo_edges)}};
    say(std::move(finding));
  }

  void dust() {
    const size_t count = m_.spots.size();
    Finding finding{"dust",
                    count > 0 ? Severity::look : Severity::good,
                    count == 1 ? "one" : "",
                    double(count),
                    phrase("spots"),
                    {}};
    for (size_t i = 0; i < std::min(kMostPlaces, count); ++i)
      finding.places.push_back(box_of(m_.spots[i]));
    say(std::move(finding));
  }

  Place box_of(const Spot& spot) const {
    const double half = spot.diameter;
    const auto clip = [](double v, uint32_t most) {
      return static_cast<uint32_t>(std::clamp(v, 0.0, double(most)));
    };
    const uint32_t x = clip(spot.x - half, info_.width), y = clip(spot.y - half, info_.height);
    return {x, y, clip(spot.x + half + 1, info_.width) - x,
            clip(spot.y + half + 1, info_.height) - y};
  }

  void edges() {
    if (!m_.sides_judged) return unsaid("edges");
    const size_t count = m_.cut_off.size();
    Finding finding{"edges",
                    count > 0 ? Severity::look : Severity::good,
                    count == 1 ? "one" : "",
                    double(count),
                    phrase("places"),
                    {}};
    for (const CutOff& one : m_.cut_off) {
      finding.places.push_back(one.place);
      finding.sides.emplace_back(one.side);
    }
    say(std::move(finding));
  }

  void tilt() {
    const Tilt& t = m_.tilt;
    if (!t.known) return unsaid("tilt");
    const bool off = std::abs(t.degrees) >= kLevel;
    const Lean& shown = t.degrees == t.level.degrees ? t.level : t.upright;
    Finding finding{"tilt",
                    off ? Severity::look : Severity::good,
                    !off            ? ""
                    : t.degrees > 0 ? "right"
                                    : "left",
                    t.degrees,
                    phrase("degrees"),
                    shown.places};
    finding.numbers = {{"confidence", t.confidence},
                       {"size_deg", std::abs(t.degrees)},
                       {"lines", double(shown.lines)}};
    if (t.level.lines > 0) finding.numbers.emplace_back("horizontal_deg", t.level.degrees);
    if (t.upright.lines > 0) finding.numbers.emplace_back("vertical_deg", t.upright.degrees);
    say(std::move(finding));
  }

  void blocking() {
    const Blocking& b = m_.blocking;
    if (!b.enough) return unsaid("blocking");
    const double excess = std::max(0.0, 100 * b.excess);
    say({"blocking", severity_of(excess, kBlocks), "", excess, "%", {}, {{"step_l", b.step_l}}});
  }

  void compression() {
    if (!m_.compression) return;
    const int quality = m_.compression->quality;
    const Severity severity = quality >= kGoodQuality   ? Severity::good
                              : quality >= kPoorQuality ? Severity::look
                                                        : Severity::act;
    say({"compression",
         severity,
         m_.compression->exact ? "" : "about",
         double(quality),
         phrase("of 100"),
         {},
         {{"exact", m_.compression->exact ? 1.0 : 0.0}}});
  }

  void profile() {
    struct State {
      Severity severity;
      const char* variant;
    };
    const State states[] = {{Severity::good, ""},
                            {Severity::good, "exif"},
                            {Severity::act, "missing"},
                            {Severity::act, "unusable"},
                            {Severity::look, "odd"}};
    const State& state = states[static_cast<size_t>(m_.profile)];
    say({"profile", state.severity, state.variant, {}, "", {}});
  }

  void bits() {
    const bool deep = info_.bits > 8;
    say({"bits",
         deep ? Severity::good : Severity::look,
         "",
         double(info_.bits),
         phrase("bits"),
         {}});
  }

  void traces() {
    const PrivateTraces& t = info_.traces;
    say({"traces",
         t.any() ? Severity::look : Severity::good,
         t.place ? "place" : "",
         double(t.place) + t.serial + t.owner,
         "kinds",
         {},
         {{"place", double(t.place)}, {"serial", double(t.serial)}, {"owner", double(t.owner)}}});
  }

  void size() {
    const double inches = std::max(info_.width, info_.height) / kUsualPpi;
    Finding finding{"size", Severity::good, "", inches * 2.54, "cm", {}};
    finding.numbers = {{"long_in", inches}};
    if (report_.settings.print_width_mm) {
      const double ppi = report_.print_ppi;
      finding.variant = "print";
      finding.severity = ppi >= kFinePpi     ? Severity::good
                         : ppi >= kCoarsePpi ? Severity::look
                                             : Severity::act;
      finding.numbers.emplace_back("ppi", ppi);
      finding.numbers.emplace_back("distance_cm", viewing_distance_mm(ppi) / 10);
    }
    say(std::move(finding));
  }

  const Measures& m_;
  const MasterInfo& info_;
  ConditionReport& report_;
};

}  // namespace

bool keeps_neutrals(const Profile& profile) {
  constexpr double kNeutral = 2;
  if (profile.device_class() == cmsSigOutputClass) return false;
  const Transform transform = to_lab(profile, INTENT_RELATIVE_COLORIMETRIC);
  if (!transform) return false;
  const float grey[3] = {0.5f, 0.5f, 0.5f};
  float lab[3] = {};
  cmsDoTransform(transform.get(), grey, lab, 1);
  return std::hypot(double(lab[1]), double(lab[2])) <= kNeutral;
}

void judge(const Measures& measures, const MasterInfo& info, ConditionReport& report) {
  Judge(measures, info, report).all();
}

}  // namespace proofleaf::condition
