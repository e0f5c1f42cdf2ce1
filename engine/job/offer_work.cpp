#include "job/offer_work.h"

#include "job/opening.h"
#include "raster/picture_rows.h"
#include "share/make_offer.h"
#include "share/offer_json.h"

namespace proofleaf {
namespace {

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
Result<Picture> printed_part(const Recipe& recipe, Picture picture) {
  const auto& [width, height, rgb] = picture;
  if (width == 0 || height == 0 || rgb.size() != size_t{width} * height * 3)
    return Error{"There is no picture to offer."};
  const auto plan = plan_of(recipe, width, height, kAnyPpi);
  if (!recipe.sized || !plan) return picture;
  const print::PixelRect& crop = plan.value().crop;
  PictureRows rows(rgb, width, height);
  return cut(rows, crop.x, crop.y, crop.width, crop.height, {});
}

Bytes wide_samples(const std::vector<uint8_t>& rgb) {
  std::vector<uint16_t> wide(rgb.begin(), rgb.end());
  for (uint16_t& code : wide) code = static_cast<uint16_t>(code * 257);
  return bytes_of(wide);
}

}  // namespace

Result<Answer> offer_work(const Json& request, const WorkFiles& files, const Watch& watch) {
  auto master = open_master_profile(files);
  if (!master) return master.error();
  auto preview = read_preview_picture(request, files);
  if (!preview) return preview.error();
  auto recipe = recipe_of(request);
  if (!recipe) return recipe.error();
  auto papers = papers_of(request, files);
  if (!papers) return papers.error();
  auto texts = texts_of(request);
  if (!texts) return texts.error();
  OfferForm room = text_of(request, "form") == "file" ? kFileForm : kLinkForm;
  const auto most = static_cast<int64_t>(room.letters);
  room.letters = static_cast<size_t>(whole_of(request, "letters", most, kFewestLetters, most));
  auto part = printed_part(recipe.value(), preview.take());
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
