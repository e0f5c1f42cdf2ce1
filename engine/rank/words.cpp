// A judgement in words.
#include "rank/compare.h"
#include "rank/printed.h"

namespace proofleaf {
namespace {

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 32);
  return text;
}

size_t runner_up(const Judged& judged) {
  size_t found = judged.best_at == 0 ? 1 : 0;
  for (size_t i = 0; i < judged.variants.size(); ++i) {
    if (i != judged.best_at && judged.variants[i].score > judged.variants[found].score) found = i;
  }
  return found;
}

std::string kept_words(const Variant& variant) {
  const ZoneTone& shadows = variant.tone[0];
  if (shadows.steps < 1 || shadows.area < 0.01) {
    return said("keeps {} % of the local contrast", spoken_number(100 * variant.tone_share, 0));
  }
  return said("keeps {} of {} shadow steps", spoken_number(shadows.kept, 0),
              spoken_number(shadows.steps, 0));
}

std::string best_words(const Judged& judged) {
  const Variant& best = judged.best();
  const std::string name = capital(name_of(best.print));
  if (judged.variants.size() < 2) return said("{} {}", name, kept_words(best));
  const Variant& next = judged.variants[runner_up(judged)];
  const std::string why = telling_difference({best, 0}, {next, 0}, true);
  if (best.score - next.score < kEqualPoints || why.empty()) {
    return said("{} and {} print this picture about equally well; the first {}", name,
                name_of(next.print), kept_words(best));
  }
  return said("{} suits this picture best; compared with {}, it {}", name, name_of(next.print),
              why);
}

}  // namespace

Verdict verdict_of(double mean, double p95) {
  if (mean <= kMeanGood && p95 <= kP95Good) return Verdict::good;
  return mean <= 2 * kMeanGood && p95 <= 2 * kP95Good ? Verdict::marginal : Verdict::out;
}

std::string name_of(PrintIntent print) {
  switch (print.intent) {
    case Intent::perceptual:
      return said("perceptual");
    case Intent::saturation:
      return said("saturation");
    case Intent::absolute:
      return said("absolute colorimetric");
    case Intent::relative:
      break;
  }
  return print.black_point_compensation
             ? said("relative colorimetric with black point compensation")
             : said("relative colorimetric without black point compensation");
}

void put_into_words(Judged& judged) {
  const Variant& best = judged.best();
  judged.verdict = verdict_of(best.mean, best.p95);
  constexpr std::array<const char*, 3> kVerdicts{
      phrase("As close to the master as a contract proof must be (mean {}, 95 % of the area below "
             "{} ΔE00; its limits are 2.5 and 5)."),
      phrase("Not as close to the master as a contract proof must be (mean {}, 95 % of the area "
             "below {} ΔE00; its limits are 2.5 and 5)."),
      phrase("More than twice as far from the master as a contract proof may be (mean {}, 95 % of "
             "the area below {} ΔE00; its limits are 2.5 and 5).")};
  judged.verdict_sentence = said(kVerdicts[static_cast<size_t>(judged.verdict)],
                                 spoken_number(best.mean, 1), spoken_number(best.p95, 1));
  judged.sentence = best_words(judged);
  if (judged.off_gamut >= 0.005) {
    judged.sentence += "; " + said("{} % of the picture lies beyond the paper's gamut",
                                   spoken_number(100 * judged.off_gamut, 0));
  }
  if (judged.model == ColourModel::grey)
    judged.sentence += std::string("; ") + said("it prints in greys alone");
  judged.sentence += ".";
}

}  // namespace proofleaf
