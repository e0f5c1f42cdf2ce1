#include "job/offer_work.h"

#include <array>
#include <cstring>

#include "job/opening.h"
#include "share/make_offer.h"
#include "share/offer_json.h"

namespace proofleaf {
namespace {

constexpr int64_t kLargestSide = 1 << 20;
constexpr int64_t kFewestLetters = 4096;
constexpr double kAnyPpi = 300;  // a crop is the same at any

Json list_of(const Json& request, const char* key) {
  const Json* list = member(request, key);
  return list != nullptr && list->is_array() ? *list : Json::array();
}

Result<std::vector<PaperToOffer>> papers_of(const Json& request, const WorkFiles& files) {
  std::vector<PaperToOffer> papers;
  for (const Json& each : list_of(request, "papers")) {
    if (papers.size() == files.papers.size()) return Error{"An offer holds at most four papers."};
    WorkFiles one;
    one.paper = files.papers[papers.size()];
    auto paper = open_paper(Json::object(), one);
    if (!paper) return paper.error();
    auto print = print_of(each);
    if (!print) return print.error();
    papers.push_back(
        {text_of(each, "name"), text_of(each, "description"), paper.take(), print.value()});
  }
  return papers;
}

Result<OfferTexts> texts_of(const Json& request) {
  OfferTexts texts{text_of(request, "title"), text_of(request, "note"), {}, 0};
  for (const Json& each : list_of(request, "sizes"))
    texts.sizes.push_back({text_of(each, "size"), text_of(each, "price")});
  if (const std::string date = text_of(request, "expires"); !date.empty()) {
    auto day = day_of(date);
    if (!day) return day.error();
    texts.expires = day.value();
  }
  return texts;
}

// The part of the picture that is printed.
struct Printed {
  std::vector<uint16_t> rgb;
  uint32_t width = 0, height = 0;
};
Result<Printed> printed_part(const Recipe& recipe, std::vector<uint16_t> rgb, uint32_t width,
                             uint32_t height) {
  if (width == 0 || height == 0 || rgb.size() != size_t{width} * height * 3)
    return Error{"There is no picture to offer."};
  const auto plan = plan_of(recipe, width, height, kAnyPpi);
  if (!recipe.sized || !plan) return Printed{std::move(rgb), width, height};
  const print::PixelRect& crop = plan.value().crop;
  Printed part{{}, crop.width, crop.height};
  for (uint32_t y = crop.y; y < crop.y + crop.height; ++y) {
    const std::span<const uint16_t> whole(rgb);
    const auto row = whole.subspan((size_t{y} * width + crop.x) * 3, size_t{crop.width} * 3);
    part.rgb.insert(part.rgb.end(), row.begin(), row.end());
  }
  return part;
}

Bytes wide_samples(const std::vector<uint8_t>& rgb) {
  Bytes bytes(rgb.size() * 2);
  for (size_t i = 0; i < rgb.size(); ++i) {
    const auto code = static_cast<uint16_t>(rgb[i] * 257);
    std::memcpy(&bytes[i * 2], &code, 2);
  }
  return bytes;
}

}  // namespace

Result<Answer> offer_work(const Json& request, const WorkFiles& files, const Watch& watch) {
  auto master = open_master_profile(files);
  if (!master) return master.error();
  auto rgb = read_picture(files);
  if (!rgb) return rgb.error();
  auto recipe = recipe_of(request);
  if (!recipe) return recipe.error();
  auto papers = papers_of(request, files);
  if (!papers) return papers.error();
  auto texts = texts_of(request);
  if (!texts) return texts.error();
  const auto side = [&](const char* key) {
    return static_cast<uint32_t>(whole_of(request, key, 0, 0, kLargestSide));
  };
  OfferForm room = text_of(request, "form") == "file" ? kFileForm : kLinkForm;
  const auto most = static_cast<int64_t>(room.letters);
  room.letters = static_cast<size_t>(whole_of(request, "letters", most, kFewestLetters, most));
  auto part = printed_part(recipe.value(), rgb.take(), side("width"), side("height"));
  if (!part) return part.error();
  auto made = make_offer(master.value(), part.value().rgb, part.value().width, part.value().height,
                         recipe.value(), papers.value(), texts.value(), room, watch);
  if (!made) return made.error();
  const MadeOffer& found = made.value();
  const size_t letters = link_of(found.packed).size();
  Json accuracy = Json::array();
  for (const CompactAccuracy& each : found.accuracy)
    accuracy.push_back({{"mean", each.mean}, {"max", each.max}});
  return Answer{dump_json({{"kind", "offer"},
                           {"letters", letters},
                           {"checksum", hex_of(found.offer.checksum)},
                           {"space", found.offer.space},
                           {"width", found.width},
                           {"height", found.height},
                           {"quality", found.quality},
                           {"grid", found.offer.set.grid},
                           {"papers", accuracy}}),
                {{"packed", found.packed}}};
}

Result<Answer> open_offer_work(const Json& request) {
  auto opened = offer_of(text_of(request, "link"));
  if (!opened) return opened.error();
  const Offer& offer = opened.value();
  auto picture = read_small_jpeg(offer.jpeg, offer.space);
  if (!picture) return picture.error();
  auto profile = standard_profile(offer.space);
  if (!profile) return profile.error();
  uint32_t day = 0;
  if (const std::string date = text_of(request, "today"); !date.empty()) {
    auto today = day_of(date);
    if (!today) return today.error();
    day = today.value();
  }
  Answer answer;
  answer.buffers.push_back({"picture", wide_samples(picture.value().rgb)});
  answer.buffers.push_back({"profile", profile.value().bytes()});
  for (size_t i = 0; i < offer.papers.size(); ++i)
    answer.buffers.push_back(
        {"cube" + std::to_string(i), pack_cube(cube_of(offer.set, offer.papers[i].nodes))});
  Json json = json_of(offer, day);
  json["kind"] = "opened_offer";
  json["width"] = picture.value().width;
  json["height"] = picture.value().height;
  answer.json = dump_json(json);
  return answer;
}

}  // namespace proofleaf
