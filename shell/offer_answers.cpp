// The offers made, as this browser remembers them, and what an answer says against them.
#include <algorithm>

#include "app.h"
#include "json_read.h"
#include "share/offer_json.h"
#include "words.h"
#include "words_offer.h"

namespace proofleaf::shell {
namespace {

constexpr char kOffers[] = "offers";  // setting: what json_of() makes of each, the newest last
constexpr size_t kMostKept = 40;

Json json_of(const KeptOffer& kept) {
  Json papers = Json::array();
  for (size_t i = 0; i < kept.offer.papers.size(); ++i)
    papers.push_back({{"name", kept.offer.papers[i].name}, {"key", kept.keys[i]}});
  return {{"checksum", hex_of(kept.offer.checksum)},
          {"state", kept.state},
          {"title", kept.offer.title},
          {"expires", kept.offer.expires},
          {"master", kept.master},
          {"made", kept.made},
          {"papers", papers},
          {"sizes", sizes_json(kept.offer.sizes)}};
}

KeptOffer kept_of(const Json& json) {
  KeptOffer kept;
  kept.master = text_of(json, "master");
  kept.made = text_of(json, "made");
  kept.state = count_of(json, "state");
  kept.offer.checksum = uint32_t(std::strtoul(text_of(json, "checksum").c_str(), nullptr, 16));
  kept.offer.title = text_of(json, "title");
  kept.offer.expires = count_of(json, "expires");
  if (const Json* papers = member(json, "papers"); papers && papers->is_array())
    for (const Json& each : *papers) {
      kept.offer.papers.push_back({text_of(each, "name"), "", {}, {}, {}});
      kept.keys.push_back(text_of(each, "key"));
    }
  if (const Json* sizes = member(json, "sizes")) kept.offer.sizes = sizes_in(*sizes);
  return kept;
}

std::vector<KeptOffer> kept_offers(const App& app) {
  std::vector<KeptOffer> all;
  const Json json = parse_json(app.host.recall(kOffers));
  if (json.is_array())
    for (const Json& each : json) all.push_back(kept_of(each));
  return all;
}

// Made later of the same picture or under the same title.
const KeptOffer& newest_of(const std::vector<KeptOffer>& all, const KeptOffer& one) {
  const KeptOffer* newest = &one;
  for (const KeptOffer& each : all)
    if (each.offer.title == one.offer.title || each.master == one.master) newest = &each;
  return *newest;
}

bool same(const OfferSize& one, const OfferSize& other) {
  return one.size == other.size && one.price == other.price;
}

std::string size_words(const OfferSize& size) {
  return size.price.empty() ? size.size
                            : text(words::kSizeFor, size.size.c_str(), size.price.c_str());
}

// How the choice stands against the offer it answers and the newest state of it.
void weigh(const OfferAnswer& answer, const KeptOffer& to, const KeptOffer& newest,
           ReadAnswer& read) {
  const OfferPaper& paper = to.offer.papers[answer.paper];
  const std::string& key = to.keys[answer.paper];
  read.choice = read.paper = paper.name;
  read.key = key;
  auto& remarks = read.remarks;
  if (newest.state == to.state) {
    remarks.push_back(text(words::kAnswerFits, to.made.c_str()));
  } else {
    remarks.push_back(text(words::kAnswerOld, to.made.c_str(), newest.made.c_str()));
    if (std::find(newest.keys.begin(), newest.keys.end(), key) == newest.keys.end())
      remarks.push_back(text(words::kAnswerWithdrawn, paper.name.c_str()));
  }
  if (answer.size) {
    const OfferSize& size = to.offer.sizes[*answer.size];
    read.choice += ", " + size_words(size);
    const auto& sizes = newest.offer.sizes;
    if (std::none_of(sizes.begin(), sizes.end(),
                     [&](const OfferSize& each) { return same(each, size); }))
      remarks.push_back(text(words::kAnswerWithdrawn, size_words(size).c_str()));
  }
  const auto today = day_of(today_as_date());
  if (today && expired(to.offer, today.value()))
    remarks.push_back(text(words::kAnswerLate, date_of(to.offer.expires).c_str()));
}

ReadAnswer read_of(const App& app, const OfferAnswer& answer) {
  ReadAnswer read;
  read.note = answer.note;
  const std::vector<KeptOffer> all = kept_offers(app);
  for (const KeptOffer& each : all) {
    if (each.offer.checksum != answer.checksum) continue;
    if (const Status fits = belongs(answer, each.offer); !fits) {
      read.trouble = fits.error().message;
      return read;
    }
    weigh(answer, each, newest_of(all, each), read);
    return read;
  }
  const std::string size =
      answer.size ? text(words::kAnswerStrangerSize, int(*answer.size) + 1) : "";
  read.trouble = text(words::kAnswerStranger, int(answer.paper) + 1, size.c_str());
  return read;
}

}  // namespace

void keep_offer(App& app, const KeptOffer& made) {
  std::vector<KeptOffer> all = kept_offers(app);
  std::erase_if(all,
                [&](const KeptOffer& each) { return each.offer.checksum == made.offer.checksum; });
  all.push_back(made);
  Json json = Json::array();
  for (size_t i = all.size() - std::min(all.size(), kMostKept); i < all.size(); ++i)
    json.push_back(json_of(all[i]));
  app.host.remember(kOffers, dump_json(json));
}

FileId paper_of_answer(const App& app) {
  if (!app.offering.answer) return 0;
  for (const PaperState& paper : app.job.papers)
    if (paper.loaded && paper.key == app.offering.answer->key) return paper.file;
  return 0;
}

void read_answer(App& app, const std::string& message) {
  const auto answer = answer_within(message);
  ReadAnswer read;
  if (answer)
    read = read_of(app, answer.value());
  else
    read.trouble = answer.error().message;
  if (!read.choice.empty()) tell(app, text(words::kAnswerChoice, read.choice.c_str()));
  for (const std::string& remark : read.remarks) tell(app, remark);
  if (!read.trouble.empty()) tell(app, read.trouble);
  app.offering.answer = std::move(read);
  app.offering.pasted.clear();
}

void answer_arrived(App& app, const std::string& message) {
  read_answer(app, message);
  open_choice(app, ChoicePage::client);
}

}  // namespace proofleaf::shell
