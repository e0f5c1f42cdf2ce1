// What a client's page calls: an offer's letters or bytes in, its texts, pictures and the answer
// out. Bytes come through client_room(); what is answered holds until the next call of its kind.
#include <emscripten/emscripten.h>

#include "share/answer.h"
#include "share/offer_json.h"
#include "share/shown_offer.h"

using namespace proofleaf;

namespace {

Bytes room;
Bytes packed;  // the offer as it came, locked or not
Bytes shown;
Offer offer;
OfferPicture picture;
OfferForm form = kLinkForm;
std::string said;

const char* say(const Json& json) {
  said = dump_json(json);
  return said.c_str();
}

const char* refuse(const Error& error) {
  return say({{"kind", "refused"}, {"sentence", error.message}});
}

const char* open_packed(const char* today) {
  auto opened = unpack_offer(packed, form);
  if (!opened) return refuse(opened.error());
  auto read = read_small_jpeg(opened.value().jpeg, opened.value().space, form);
  if (!read) return refuse(read.error());
  offer = opened.take();
  picture = read.take();
  const auto day = day_of(today);
  Json json = json_of(offer, day ? day.value() : 0);
  json["kind"] = "opened";
  json["width"] = picture.width;
  json["height"] = picture.height;
  for (size_t i = 0; i < offer.papers.size(); ++i)
    json["papers"][i]["screen_white"] = screen_white(offer.papers[i]);
  return say(json);
}

}  // namespace

extern "C" {

EMSCRIPTEN_KEEPALIVE uint8_t* client_room(size_t length) {
  room.resize(length);
  return room.data();
}

// Takes the room: an offer's letters, as they come in a link or stand in a file. Answers
// {"kind":"opened",..}, {"kind":"locked"} or {"kind":"refused","sentence"}.
EMSCRIPTEN_KEEPALIVE const char* client_open(bool from_file, const char* today) {
  form = from_file ? kFileForm : kLinkForm;
  auto bytes = packed_of({reinterpret_cast<const char*>(room.data()), room.size()}, form);
  room = {};
  if (!bytes) return refuse(bytes.error());
  packed = bytes.take();
  return locked(packed) ? say({{"kind", "locked"}}) : open_packed(today);
}

// The locked offer's bytes.
EMSCRIPTEN_KEEPALIVE const uint8_t* client_packed() { return packed.data(); }
EMSCRIPTEN_KEEPALIVE size_t client_packed_length() { return packed.size(); }

// Takes the room: what was locked. Answers as client_open().
EMSCRIPTEN_KEEPALIVE const char* client_unlocked(const char* today) {
  packed = std::move(room);
  room = {};
  return open_packed(today);
}

// R, G, B, A of the whole picture on a paper; null where there is no such paper.
EMSCRIPTEN_KEEPALIVE const uint8_t* client_show(uint32_t paper, bool paper_white) {
  shown = shown_on(offer, picture, paper, paper_white);
  return shown.empty() ? nullptr : shown.data();
}

// size: -1 where the offer has none. Takes the room: the note, UTF-8. Answers {"text"} or
// {"kind":"refused","sentence"}.
EMSCRIPTEN_KEEPALIVE const char* client_answer(uint32_t paper, int size) {
  OfferAnswer answer{offer.checksum, paper, std::nullopt, std::string(room.begin(), room.end())};
  if (size >= 0) answer.size = static_cast<uint32_t>(size);
  if (const Status fits = belongs(answer, offer); !fits) return refuse(fits.error());
  const auto text = text_of_answer(answer);
  return text ? say({{"text", marked(text.value())}}) : refuse(text.error());
}

}  // extern "C"
