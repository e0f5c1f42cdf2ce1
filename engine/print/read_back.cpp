#include "print/read_back.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numeric>

namespace proofleaf::print {
namespace {

std::string one(double value) { return plain_number(value, 1); }

std::string sentence_for(const ReadBack& back) {
  constexpr std::array<const char*, 3> kVerdicts{
      phrase("The print agrees with its prediction as closely as a contract proof must (mean {}, "
             "95 % of the patches within {}, most {} ΔE00; its limits are 2.5 and 5)."),
      phrase("The print is near its prediction, but not as near as a contract proof must be (mean "
             "{}, 95 % of the patches within {}, most {} ΔE00; its limits are 2.5 and 5)."),
      phrase("The print is not what was predicted (mean {}, 95 % of the patches within {}, most {} "
             "ΔE00; its limits are 2.5 and 5).")};
  return said(kVerdicts[static_cast<size_t>(back.verdict)], one(back.mean), one(back.p95),
              one(back.max));
}

// For each aim, which reading is its own.
Result<std::vector<size_t>> matched(std::span<const PatchAim> aims, const Readings& readings,
                                    const std::string& file) {
  std::map<std::string, size_t> by_name;
  for (size_t i = 0; i < readings.patches(); ++i) by_name.emplace(readings.names[i], i);
  std::vector<size_t> order;
  for (const PatchAim& aim : aims) {
    const auto found = by_name.find(aim.name);
    if (found != by_name.end()) order.push_back(found->second);
  }
  if (order.size() == aims.size()) return order;
  if (readings.patches() != aims.size()) {
    return Error{
        "{} holds {} patches, but {} were printed; name them as on the sheet or measure them all "
        "in order.",
        file, readings.patches(), aims.size()};
  }
  order.resize(aims.size());
  std::iota(order.begin(), order.end(), size_t{0});
  return order;
}

// Neutrals of one lightness taken together, rising.
std::vector<ToneOffset> gathered(std::span<const PatchDifference> neutrals) {
  std::vector<ToneOffset> all;
  for (const PatchDifference& patch : neutrals) {
    all.push_back({patch.aim.l, patch.measured.l - patch.aim.l, patch.measured.a - patch.aim.a,
                   patch.measured.b - patch.aim.b});
  }
  std::sort(all.begin(), all.end(),
            [](const ToneOffset& p, const ToneOffset& q) { return p.l < q.l; });
  constexpr double kTogether = 0.5;  // [L*]
  std::vector<ToneOffset> groups;
  for (size_t i = 0; i < all.size();) {
    ToneOffset sum{};
    size_t end = i;
    for (; end < all.size() && all[end].l - all[i].l < kTogether; ++end) {
      sum.l += all[end].l, sum.dl += all[end].dl, sum.da += all[end].da, sum.db += all[end].db;
    }
    const auto count = static_cast<double>(end - i);
    groups.push_back({sum.l / count, sum.dl / count, sum.da / count, sum.db / count});
    i = end;
  }
  return groups;
}

// One part of either neighbour to two of its own against the noise of single readings; the ends,
// black and white, stay as measured.
std::vector<ToneOffset> smoothed(const std::vector<ToneOffset>& offsets) {
  std::vector<ToneOffset> smooth = offsets;
  for (size_t i = 1; i + 1 < offsets.size(); ++i) {
    for (const auto part : {&ToneOffset::dl, &ToneOffset::da, &ToneOffset::db}) {
      smooth[i].*part = (offsets[i - 1].*part + 2 * (offsets[i].*part) + offsets[i + 1].*part) / 4;
    }
  }
  return smooth;
}

constexpr double kWorthSaying = 0.5;  // [L*, dE00] below it no eye tells

void describe_end(const char* end, const Lab& aim, const Lab& measured, PaperCorrection& model) {
  const double off = delta_e_2000(aim, measured);
  const std::string l = one(measured.l), a = one(measured.a), b = one(measured.b);
  model.sentences.push_back(
      off < kWorthSaying
          ? said("Its {} measures L* {}, a* {}, b* {}, as predicted.", said(end), l, a, b)
          : said("Its {} measures L* {}, a* {}, b* {}, {} ΔE00 from the prediction of L* {}.",
                 said(end), l, a, b, one(off), one(aim.l)));
}

void describe_tones(const char* zone, double from, double to, PaperCorrection& model) {
  double dl = 0, da = 0, db = 0, count = 0;
  for (const ToneOffset& offset : model.offsets) {
    if (offset.l < from || offset.l >= to) continue;
    dl += offset.dl, da += offset.da, db += offset.db, ++count;
  }
  if (count == 0) return;
  dl /= count, da /= count, db /= count;
  const char* where = said(zone);
  if (std::abs(dl) >= kWorthSaying) {
    model.sentences.push_back(said(dl > 0 ? phrase("Its {} come out {} L* lighter than predicted.")
                                          : phrase("Its {} come out {} L* darker than predicted."),
                                   where, one(std::abs(dl))));
  }
  constexpr double kCast = 1;  // [a* b*]
  if (std::hypot(da, db) >= kCast) {
    const bool green_red = std::abs(da) >= std::abs(db);
    const char* hue = green_red ? (da > 0 ? phrase("red") : phrase("green"))
                                : (db > 0 ? phrase("yellow") : phrase("blue"));
    model.sentences.push_back(
        said("Its {} lean to {} by {} in a* and b*.", where, said(hue), one(std::hypot(da, db))));
  }
}

}  // namespace

Result<ReadBack> read_back(std::span<const PatchAim> aims, const Readings& readings,
                           const std::string& file) {
  if (aims.empty()) return Error{"There are no predicted patches to compare the print with."};
  auto colours = lab_readings(readings, file);
  if (!colours) return colours.error();
  auto order = matched(aims, readings, file);
  if (!order) return order.error();
  ReadBack back;
  std::vector<double> differences;
  for (size_t i = 0; i < aims.size(); ++i) {
    const Lab& measured = colours.value()[order.value()[i]];
    const double off = delta_e_2000(aims[i].lab, measured);
    back.patches.push_back({aims[i].name, aims[i].lab, measured, off});
    differences.push_back(off);
    back.mean += off / double(aims.size());
  }
  std::sort(differences.begin(), differences.end());
  back.max = differences.back();
  const auto rank = static_cast<size_t>(std::ceil(0.95 * double(differences.size())));
  back.p95 = differences[std::max<size_t>(rank, 1) - 1];
  back.verdict = verdict_of(back.mean, back.p95);
  back.sentence = sentence_for(back);
  return back;
}

Result<PaperCorrection> paper_correction(std::span<const PatchDifference> neutrals) {
  PaperCorrection model;
  model.offsets = gathered(neutrals);
  if (model.offsets.size() < 2) {
    return Error{"At least two neutral patches of different lightness must be measured."};
  }
  model.offsets = smoothed(model.offsets);
  const auto [darkest, lightest] = std::minmax_element(
      neutrals.begin(), neutrals.end(),
      [](const PatchDifference& p, const PatchDifference& q) { return p.aim.l < q.aim.l; });
  model.white_aim = lightest->aim;
  model.white = lightest->measured;
  model.black_aim = darkest->aim;
  model.black = darkest->measured;
  describe_end(phrase("white"), model.white_aim, model.white, model);
  describe_end(phrase("black"), model.black_aim, model.black, model);
  const size_t ends = model.sentences.size();
  describe_tones(phrase("shadows"), -10, kShadowsEnd, model);
  describe_tones(phrase("middle tones"), kShadowsEnd, kMidtonesEnd, model);
  describe_tones(phrase("highlights"), kMidtonesEnd, 200, model);
  if (model.sentences.size() == ends) {
    model.sentences.emplace_back(
        said("Its tones come out as predicted; nothing needs correcting."));
  }
  return model;
}

Result<EyeFinding> by_eye(const EyeReading& reading) {
  constexpr double kStep = 1;  // [L*] between the wedge's steps
  EyeFinding finding;
  if (reading.first_from_black) {
    if (auto sound = within(kFirstFromBlack, *reading.first_from_black); !sound)
      return sound.error();
    finding.black_until = *reading.first_from_black;
  } else {
    finding.black_until = kFirstFromBlack.high + kStep;
  }
  if (reading.first_from_white) {
    if (auto sound = within(kFirstFromWhite, *reading.first_from_white); !sound)
      return sound.error();
    finding.white_from = *reading.first_from_white;
  } else {
    finding.white_from = kFirstFromWhite.low - kStep;
  }
  const bool black_lost = finding.black_until > kStep,
             white_lost = finding.white_from < 100 - kStep;
  finding.sentences = {
      black_lost
          ? said("Everything in the file below L* {} prints as one black; lift the shadows by "
                 "as much to keep them apart.",
                 one(finding.black_until))
          : said("Every step next to black can be told from it; nothing is lost there."),
      white_lost ? said("Everything in the file above L* {} prints as one white; bring the "
                        "highlights down below it to keep them apart.",
                        one(finding.white_from))
                 : said("Every step next to white can be told from it; nothing is lost there.")};
  return finding;
}

}  // namespace proofleaf::print
