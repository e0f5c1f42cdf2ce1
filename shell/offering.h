// The client's part on the panel: an offer put together and made, and the answer that comes back.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/json.h"
#include "host.h"
#include "share/answer.h"

namespace proofleaf::shell {

struct App;
struct Task;
struct Buffer;
struct PaperState;

// What was made last.
struct MadeLink {
  std::string key;  // offer_key() of what it was made from
  std::string link;
  bool locked = false;
  size_t letters = 0;  // of the whole link
  uint32_t width = 0, height = 0;
  double mean = 0, max = 0;  // [dE00] the proofs in it to the full ones, the worst paper's
};

// An offer made at some time, as it is kept in the browser: no pixels.
struct KeptOffer {
  Offer offer;                    // texts, names and checksum only
  uint32_t state = 0;             // of what it was made from: link and file of it are one state
  std::vector<std::string> keys;  // shelf_key() of the papers
  std::string master, made;       // its name; a day, 2026-12-31
};

// What an answer says, worked out once.
struct ReadAnswer {
  std::string choice, note;
  std::vector<std::string> remarks;
  std::string paper, key;  // the chosen one's name and shelf_key(); empty: not known
  std::string trouble;
};

struct Offering {
  bool begun = false;  // the fields have been filled in for the first time
  FileId master = 0;   // the one the title was made for
  std::string title, note, expires, passphrase;
  std::vector<OfferSize> sizes;
  std::vector<FileId> papers;                       // those offered, in their order
  bool papers_settled = false;                      // by the person; else the best of those tried
  std::map<std::string, std::string> descriptions;  // by shelf_key()
  std::optional<MadeLink> link;
  bool copied = false;    // the link, since it was made
  std::string file_made;  // its name
  std::string pasted;     // an answer on its way in
  std::optional<ReadAnswer> answer;
};

enum class OfferUse { link, file };

// offering.cpp
// [{"size","price"},..] and back; what is no list has none.
Json sizes_json(const std::vector<OfferSize>& sizes);
std::vector<OfferSize> sizes_in(const Json& list);
PrintIntent offered_print(const App& app, FileId paper);  // its best way, once it was tried
void begin_offering(App& app);  // fills in what is known, once for each master
bool is_offered(const App& app, FileId paper);
void offer_paper(App& app, FileId paper, bool on);
std::string& description_of(App& app, const PaperState& paper);
std::string offer_key(const App& app);
void start_offer(App& app, OfferUse use);
bool is_offer_work(const Task& task);
bool take_offer_work(App& app, const Task& task, const Json& json, std::vector<Buffer>& buffers);

// offer_answers.cpp
void keep_offer(App& app, const KeptOffer& made);
void read_answer(App& app, const std::string& message);
FileId paper_of_answer(const App& app);                     // the chosen one; 0: not at hand
void answer_arrived(App& app, const std::string& message);  // by a link to this page

// offering_page.cpp
void draw_offer_page(App& app);
Json offering_json(const App& app);

}  // namespace proofleaf::shell
