// A client's link: how much room it takes, how true its proofs are, what it does with damage.
#include <algorithm>
#include <array>

#include "pictures.h"
#include "proof/view.h"
#include "raster/picture_rows.h"
#include "raster/preview.h"
#include "share/make_offer.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

const char* const kDemoPapers[] = {"tarnsea-baryta", "owlbrook-pearl", "quillmoor-cotton-smooth",
                                   "plainside-office"};

struct Opened {
  Profile profile;
  Picture picture;
};

Opened open_demo(const std::string& name) {
  auto master = open_master(memory(name, file_bytes(kDemo + name)));
  REQUIRE(master);
  auto colour = master_colour(master.value()->info(), name, "", {});
  REQUIRE(colour);
  auto rows = as_rgb(master.value()->open_rows().take(), master.value()->info(), colour.value());
  REQUIRE(rows);
  return {colour.value().profile, shrink(*rows.value(), 1, {}).take()};
}

std::vector<PaperToOffer> papers_of(const std::vector<std::string>& paths) {
  std::vector<PaperToOffer> papers;
  for (const auto& path : paths) {
    papers.push_back(
        {"Paper " + std::to_string(papers.size()), "Smooth, white, 300 g.", paper_at(path), {}});
  }
  return papers;
}

std::vector<std::string> demo_papers() {
  std::vector<std::string> paths;
  for (const char* name : kDemoPapers) paths.push_back(kDemo + "papers/" + name + ".icc");
  return paths;
}

const OfferTexts kTexts{"Saltings at dusk",
                        "Two prints, as we said at the fair; the frame is yours to choose.",
                        {{"40 x 30 cm", "180"}, {"80 x 60 cm", "420"}, {"120 x 90 cm", "760"}},
                        20819};

MadeOffer made_of(const Opened& opened, const std::vector<PaperToOffer>& papers,
                  const Recipe& recipe = {}, const OfferForm& form = kLinkForm) {
  auto made = make_offer(opened.profile, opened.picture.rgb, opened.picture.width,
                         opened.picture.height, recipe, papers, kTexts, form, {});
  REQUIRE_MESSAGE(made.ok(), (made.ok() ? "" : made.error().message));
  return made.take();
}

Lab lab_of(const ScreenEncoder& screen, const float* rgb) {
  std::array<double, 3> level{};
  for (size_t c = 0; c < 3; ++c) level[c] = std::clamp(double(rgb[c]), 0.0, 1.0);
  return lab_from_xyz(screen.decode(level));
}

struct Off {
  double mean = 0, p95 = 0, max = 0;
};
Off off_of(std::vector<double> all) {
  std::sort(all.begin(), all.end());
  double sum = 0;
  for (const double each : all) sum += each;
  return {sum / double(all.size()), all[all.size() * 95 / 100], all.back()};
}

}  // namespace

TEST_CASE("four papers and a picture fit into a link, and the proofs stay true") {
  const ScreenEncoder screen = ScreenEncoder::make(Screen::srgb).take();
  auto with_inks = demo_papers();
  with_inks[3] = kCmykProfile;  // Debian's libgs-common
  for (const char* name : {"saltings.png", "stairwell.png"}) {
    const Opened opened = open_demo(name);
    for (const auto& paths : {demo_papers(), with_inks}) {
      const auto papers = papers_of(paths);
      const MadeOffer made = made_of(opened, papers);
      const std::string link = link_of(made.packed);
      MESSAGE(name << ": " << link.size() << " letters, " << made.offer.space << " " << made.width
                   << " x " << made.height << ", quality " << made.quality << ", JPEG "
                   << made.offer.jpeg.size() << " bytes, grid " << made.offer.set.grid);
      CHECK(link.size() <= kOfferLetters);
      CHECK(std::max(made.width, made.height) <= kOfferSide);
      auto offer = offer_of(link);
      REQUIRE(offer);
      auto shown = read_small_jpeg(offer.value().jpeg, offer.value().space);
      REQUIRE(shown);
      const Profile space = standard_profile(offer.value().space).take();
      PictureRows rows(opened.picture.rgb, opened.picture.width, opened.picture.height);
      const uint32_t factor =
          (std::max(opened.picture.width, opened.picture.height) + kOfferSide - 1) / kOfferSide;
      const Picture small = shrink(rows, factor, {}).take();
      const bool same_size = small.width == made.width;
      const size_t count = shown.value().rgb.size() / 3;
      std::vector<float> from(count * 3), exact(count * 3), master(count * 3), whole(count * 3);
      std::vector<uint16_t> codes(count * 3), lanes(count * 4);
      for (size_t i = 0; i < from.size(); ++i) {
        codes[i] = static_cast<uint16_t>(shown.value().rgb[i] * 257);
        from[i] = static_cast<float>(shown.value().rgb[i]) / 255;
        if (same_size) master[i] = static_cast<float>(small.rgb[i]) / 65535;
      }
      // The same pixels in the offer's space before they became a JPEG.
      const auto before = offer_picture(opened.profile, opened.picture.rgb, opened.picture.width,
                                        opened.picture.height, kOfferSide);
      REQUIRE(before);
      REQUIRE(before.value().rgb.size() == from.size());
      std::vector<float> before_jpeg(count * 3), cut(count * 3);
      std::transform(before.value().rgb.begin(), before.value().rgb.end(), before_jpeg.begin(),
                     [](uint8_t code) { return static_cast<float>(code) / 255; });
      for (size_t p = 0; p < papers.size(); ++p) {
        // The truth: LittleCMS's own evaluation of the profiles, colour by colour.
        const ProofView view{true, true, Screen::srgb};
        ProofChain::make(space, papers[p].paper, papers[p].print, view)
            .value()
            ->to_screen(from, exact);
        ProofChain::make(opened.profile, papers[p].paper, papers[p].print, view)
            .value()
            ->to_screen(master, whole);
        ProofChain::make(space, papers[p].paper, papers[p].print, view)
            .value()
            ->to_screen(before_jpeg, cut);
        apply_cube(cube_of(offer.value().set, offer.value().papers[p].nodes), codes, lanes);
        std::vector<double> cube_off(count), all_off(count), cut_off(count);
        for (size_t i = 0; i < count; ++i) {
          float shows[3];
          for (size_t c = 0; c < 3; ++c) shows[c] = (float(lanes[i * 4 + c]) / 128 - 128) / 255;
          const Lab seen = lab_of(screen, shows);
          cut_off[i] = delta_e_2000(lab_of(screen, &cut[i * 3]), lab_of(screen, &whole[i * 3]));
          cube_off[i] = delta_e_2000(seen, lab_of(screen, &exact[i * 3]));
          all_off[i] = delta_e_2000(seen, lab_of(screen, &whole[i * 3]));
        }
        const Off off = off_of(cube_off), with_jpeg = off_of(all_off), space_off = off_of(cut_off);
        MESSAGE("  paper " << p << ": proof off by mean " << off.mean << ", p95 " << off.p95
                           << ", max " << off.max << " dE00; with the JPEG's own loss mean "
                           << with_jpeg.mean << ", p95 " << with_jpeg.p95
                           << "; the space alone mean " << space_off.mean << ", p95 "
                           << space_off.p95 << ", max " << space_off.max);
        CHECK(off.mean <= 1.0);
        CHECK(off.max <= 3.0);
        if (same_size) CHECK(with_jpeg.mean <= 3.0);
      }
    }
  }
}

TEST_CASE("a file holds the picture large, and its proofs are as true") {
  const Opened opened = open_demo("saltings.png");
  const auto papers = papers_of({demo_papers()[0], demo_papers()[2]});
  const MadeOffer made = made_of(opened, papers, {}, kFileForm);
  MESSAGE(link_of(made.packed).size()
          << " letters, " << made.width << " x " << made.height << ", quality " << made.quality);
  CHECK(link_of(made.packed).size() <= kFileForm.letters);
  CHECK(std::max(made.width, made.height) > kLinkForm.side * 3 / 2);
  CHECK(std::max(made.width, made.height) <= kFileForm.side);
  CHECK_FALSE(unpack_offer(made.packed));
  auto offer = unpack_offer(made.packed, kFileForm);
  REQUIRE(offer);
  auto picture = read_small_jpeg(offer.value().jpeg, offer.value().space, kFileForm);
  REQUIRE(picture);
  CHECK(picture.value().width == made.width);
  for (const CompactAccuracy& each : made.accuracy) {
    MESSAGE("mean " << each.mean << ", max " << each.max);
    CHECK(each.mean <= 1.0);
    CHECK(each.max <= 3.0);
  }
}
