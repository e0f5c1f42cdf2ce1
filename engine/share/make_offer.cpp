#include "share/make_offer.h"

#include <algorithm>
#include <array>
#include <optional>

#include "proof/view.h"

namespace proofleaf {
namespace {

constexpr std::array<uint32_t, 6> kGrids{7, 9, 11, 13, 17, 21};
constexpr std::array<uint32_t, 4> kSides{6, 5, 4, 3};  // sixths of the form's
constexpr int kBestQuality = 92, kFairQuality = 35, kPoorestQuality = 10;
constexpr size_t kProofShare = 3;  // cubes and texts may take one in so many bytes
constexpr int kTries = 6;
constexpr size_t kMostFitted = 1 << 18;  // colours; a link's picture has no more pixels
constexpr size_t kMargin = 16;           // [bytes]
constexpr size_t kLooseFrom = 32;        // one part in so many left over is worth another try

using Chains = std::vector<std::shared_ptr<ProofChain>>;

Result<Chains> chains_of(const std::string& space, const Recipe& recipe,
                         const std::vector<PaperToOffer>& papers) {
  auto profile = standard_profile(space);
  if (!profile) return profile.error();
  auto before = colours_of(recipe, profile.value());
  if (!before) return before.error();
  Chains chains;
  for (const PaperToOffer& each : papers) {
    auto chain = ProofChain::make(profile.value(), each.paper, each.print,
                                  {true, true, Screen::srgb}, before.value());
    if (!chain) return chain.error();
    chains.push_back(chain.take());
  }
  return chains;
}

// A picture, and what each paper makes of its colours.
struct Truth {
  std::span<const uint8_t> picture;
  ColourCounts colours;                    // kMostFitted at most, evenly out of all
  std::vector<std::vector<float>> screen;  // by paper, three to a colour
};

ColourCounts thinned(ColourCounts all) {
  const size_t step = (all.pixels.size() + kMostFitted - 1) / kMostFitted;
  if (step <= 1) return all;
  ColourCounts some;
  for (size_t i = 0; i < all.pixels.size(); i += step) {
    some.rgb.insert(some.rgb.end(), &all.rgb[i * 3], &all.rgb[i * 3] + 3);
    some.pixels.push_back(all.pixels[i]);
  }
  return some;
}

Truth truth_of(const Chains& chains, const OfferPicture& picture) {
  Truth truth{picture.rgb, thinned(count_colours(picture.rgb)), {}};
  std::vector<float> rgb(truth.colours.rgb.size());
  std::transform(truth.colours.rgb.begin(), truth.colours.rgb.end(), rgb.begin(),
                 [](uint8_t code) { return static_cast<float>(code) / 255; });
  for (const auto& chain : chains) {
    truth.screen.emplace_back(rgb.size());
    chain->to_screen(rgb, truth.screen.back());
  }
  return truth;
}

// Fills in the offer's nodes for a grid; says how far off they are.
std::vector<CompactAccuracy> fit(const Chains& chains, const Truth& truth, uint32_t grid,
                                 Offer& offer) {
  offer.set = nodes_between(truth.picture, grid);
  const std::vector<float> at_nodes = node_colours(grid);
  std::vector<float> start(at_nodes.size());
  std::vector<CompactAccuracy> accuracy;
  for (size_t i = 0; i < chains.size(); ++i) {
    chains[i]->to_screen(at_nodes, start);
    OfferPaper& paper = offer.papers[i];
    paper.nodes = fit_nodes(offer.set, truth.colours, truth.screen[i], start);
    accuracy.push_back(
        accuracy_of(cube_of(offer.set, paper.nodes), truth.colours, truth.screen[i]));
  }
  return accuracy;
}

double worst(const std::vector<CompactAccuracy>& accuracy) {
  double most = 0;
  for (const CompactAccuracy& each : accuracy)
    most = std::max({most, each.mean / kWantedAccuracy.mean, each.max / kWantedAccuracy.max});
  return most;
}

// Bytes of an offer beside its picture.
Result<size_t> bytes_without_picture(Offer offer) {
  offer.jpeg = {0};
  auto packed = pack_offer(offer);
  if (!packed) return packed.error();
  return packed.value().size() - 1;
}

// The best picture of at most `room` bytes; a quality of 0 where there is none.
struct Fitted {
  int quality = 0;
  Bytes jpeg;
};
Fitted best_jpeg(const OfferPicture& picture, size_t room) {
  Fitted best{kBestQuality, small_jpeg(picture, kBestQuality)};
  if (!best.jpeg.empty() && best.jpeg.size() <= room) return best;
  best = {};
  int low = kPoorestQuality, high = kBestQuality - 1;
  while (low <= high) {
    const int quality = (low + high) / 2;
    Bytes jpeg = small_jpeg(picture, quality);
    if (!jpeg.empty() && jpeg.size() <= room) {
      best = {quality, std::move(jpeg)};
      low = quality + 1;
    } else {
      high = quality - 1;
    }
  }
  return best;
}

// The coarsest grid that is good enough, or the best that fits beside a picture.
Result<uint32_t> choose_grid(const Chains& chains, const Truth& truth, size_t limit, Offer& offer) {
  uint32_t best = kGrids.front();
  double least = -1;
  for (const uint32_t grid : kGrids) {
    const double off = worst(fit(chains, truth, grid, offer));
    auto bytes = bytes_without_picture(offer);
    if (!bytes) return bytes.error();
    if (bytes.value() > limit / kProofShare && least >= 0) break;
    if (least < 0 || off < least) {
      best = grid;
      least = off;
    }
    if (off <= 1) break;
  }
  return best;
}

// The picture within `room` bytes at the largest side that keeps a fair quality.
Result<OfferPicture> choose_picture(const Profile& master, std::span<const uint16_t> rgb,
                                    uint32_t width, uint32_t height, uint32_t longest, size_t room,
                                    Fitted& fitted) {
  for (const uint32_t side : kSides) {
    auto picture = offer_picture(master, rgb, width, height, longest * side / kSides.front());
    if (!picture) return picture.error();
    fitted = best_jpeg(picture.value(), room);
    if (fitted.quality >= kFairQuality || (side == kSides.back() && fitted.quality > 0))
      return picture;
  }
  return Error{"The texts leave no room for the picture in the link; please shorten them."};
}

}  // namespace

CompactAccuracy accuracy_of(const Cube& cube, const ColourCounts& colours,
                            std::span<const float> screen) {
  const auto encoder = ScreenEncoder::make(Screen::srgb);
  const size_t count = colours.pixels.size();
  std::vector<uint16_t> codes(count * 3), lanes(count * 4);
  for (size_t i = 0; i < codes.size(); ++i) codes[i] = static_cast<uint16_t>(colours.rgb[i] * 257);
  apply_cube(cube, codes, lanes);
  const auto lab = [&](double r, double g, double b) {
    return lab_from_xyz(encoder.value().decode(
        {std::clamp(r, 0.0, 1.0), std::clamp(g, 0.0, 1.0), std::clamp(b, 0.0, 1.0)}));
  };
  const auto level = [](uint16_t code) { return (code / 128.0 - 128) / 255; };
  CompactAccuracy found;
  double pixels = 0;
  for (size_t i = 0; i < count; ++i) {
    const double off =
        delta_e_2000(lab(screen[i * 3], screen[i * 3 + 1], screen[i * 3 + 2]),
                     lab(level(lanes[i * 4]), level(lanes[i * 4 + 1]), level(lanes[i * 4 + 2])));
    found.mean += off * colours.pixels[i];
    found.max = std::max(found.max, off);
    pixels += colours.pixels[i];
  }
  found.mean /= std::max(1.0, pixels);
  return found;
}

Result<MadeOffer> make_offer(const Profile& master, std::span<const uint16_t> rgb, uint32_t width,
                             uint32_t height, const Recipe& recipe,
                             const std::vector<PaperToOffer>& papers, const OfferTexts& texts,
                             const OfferForm& room, const Watch& watch) {
  const size_t limit = std::min(room.letters / 4 * 3, room.picture);
  MadeOffer made;
  Offer& offer = made.offer;
  offer.title = texts.title;
  offer.note = texts.note;
  offer.sizes = texts.sizes;
  offer.expires = texts.expires;
  for (const PaperToOffer& each : papers)
    offer.papers.push_back({each.name, each.description, each.paper.white, each.paper.black, {}});

  // The cubes are fitted to the picture as the link holds it, its size depends on theirs: first
  // with a guess, then again.
  Fitted fitted;
  auto picture = choose_picture(master, rgb, width, height, room.side, limit * 2 / 3, fitted);
  if (!picture) return picture.error();
  offer.space = picture.value().space;
  auto chains = chains_of(offer.space, recipe, papers);
  if (!chains) return chains.error();
  auto shown = read_small_jpeg(fitted.jpeg, offer.space, room);
  if (!shown) return shown.error();
  if (!keep_going(watch, 0.2)) return stopped();
  auto grid = choose_grid(chains.value(), truth_of(chains.value(), shown.value()), limit, offer);
  if (!grid) return grid.error();
  if (!keep_going(watch, 0.5)) return stopped();
  auto beside = bytes_without_picture(offer);
  if (!beside) return beside.error();

  size_t taken = beside.value();
  std::optional<MadeOffer> best;
  for (int turn = 0; turn < kTries && taken < limit; ++turn) {
    if (!keep_going(watch, 0.5 + 0.08 * turn)) return stopped();
    picture = choose_picture(master, rgb, width, height, room.side, limit - taken, fitted);
    if (!picture) return picture.error();
    offer.jpeg = fitted.jpeg;
    shown = read_small_jpeg(fitted.jpeg, offer.space, room);
    if (!shown) return shown.error();
    made.accuracy =
        fit(chains.value(), truth_of(chains.value(), shown.value()), grid.value(), offer);
    auto packed = pack_offer(offer);
    if (!packed) return packed.error();
    made.packed = packed.take();
    made.quality = fitted.quality;
    made.width = picture.value().width;
    made.height = picture.value().height;
    const size_t size = made.packed.size(), before = best ? best->offer.jpeg.size() : 0;
    if (size > limit) {
      if (best) break;
      taken += size - limit + kMargin;
      continue;
    }
    if (offer.jpeg.size() <= before) break;
    best = made;
    if (limit - size < limit / kLooseFrom || made.quality == kBestQuality) break;
    taken = size - offer.jpeg.size() + kMargin;  // the cubes came out smaller than foretold
  }
  if (best) return *std::move(best);
  return Error{"The texts leave no room for the picture in the link; please shorten them."};
}

}  // namespace proofleaf
