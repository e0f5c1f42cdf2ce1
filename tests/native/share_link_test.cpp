// Links and answers as text: what comes back, and what damage does.
#include <cstring>
#include <random>

#include "base/json.h"
#include "job/work.h"
#include "pictures.h"
#include "proof/cube.h"
#include "proof/view.h"
#include "share/answer.h"
#include "share/base64url.h"
#include "share/offer_size.h"
#include "share/shown_offer.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

// An offer small enough to be damaged thousands of times.
Offer small_offer() {
  OfferPicture picture{"p3", 24, 16, {}};
  for (uint32_t i = 0; i < 24 * 16 * 3; ++i) picture.rgb.push_back(static_cast<uint8_t>(i * 5));
  Offer offer;
  offer.title = "Dünen, früh";
  offer.note = "One line,\nand another.";
  offer.sizes = {{"40 x 60 cm", "180"}, {"60 x 90 cm", "320"}};
  offer.expires = day_of("2026-12-31").value();
  offer.space = "p3";
  offer.set = nodes_between(picture.rgb, 7);
  offer.jpeg = small_jpeg(picture, 70);
  for (const char* name : {"Quiet Cotton", "Bright Baryta"}) {
    CompactNodes nodes(offer.set.used.size() * 3);
    for (size_t i = 0; i < nodes.size(); ++i)
      nodes[i] = offer.set.used[i / 3] != 0 ? static_cast<int16_t>(i % 37) - 18 : 0;
    offer.papers.push_back({name, "Warm and heavy.", {96.5, 0.25, 3.5}, {14, 0, -1.25}, nodes});
  }
  return offer;
}

Bytes packed_small() {
  Offer offer = small_offer();
  auto packed = pack_offer(offer);
  REQUIRE(packed);
  return packed.take();
}

// Puts a fitting checksum into damaged bytes, so that what lies behind it is reached.
void seal(Bytes& bytes) {
  if (bytes.size() < 5) return;
  const uint32_t crc = crc32_of(ByteView(bytes).subspan(5));
  for (size_t i = 0; i < 4; ++i) bytes[1 + i] = static_cast<uint8_t>(crc >> (8 * i));
}

// Whatever the bytes are, the result is an offer within all limits or a sentence.
bool survives(const Bytes& bytes) {
  auto offer = unpack_offer(bytes);
  if (!offer) return offer.error().message.ends_with('.');
  const Offer& found = offer.value();
  bool sound = !found.papers.empty() && found.papers.size() <= kMostOfferPapers &&
               found.sizes.size() <= kMostOfferSizes && found.title.size() <= kLongestTitle;
  for (const OfferPaper& paper : found.papers) {
    const Cube cube = cube_of(found.set, paper.nodes);
    const std::array<uint16_t, 6> rgb{0, 65535, 32768, 65535, 65535, 65535};
    std::array<uint16_t, 8> out{};
    apply_cube(cube, rgb, out);
    sound = sound && cube.nodes.size() == size_t{cube.grid} * cube.grid * cube.grid * 4;
  }
  auto picture = read_small_jpeg(found.jpeg, found.space);
  if (picture)
    sound = sound && picture.value().width <= kOfferSide && picture.value().height <= kOfferSide;
  return sound;
}

void damage(Bytes& bytes, std::mt19937& random) {
  switch (random() % 5) {
    case 0:
      bytes[random() % bytes.size()] ^= static_cast<uint8_t>(1u << random() % 8);
      break;
    case 1:
      bytes[random() % bytes.size()] = static_cast<uint8_t>(random());
      break;
    case 2:
      bytes.resize(random() % bytes.size() + 1);
      break;
    case 3:
      bytes.insert(bytes.begin() + static_cast<std::ptrdiff_t>(random() % bytes.size()),
                   static_cast<uint8_t>(random()));
      break;
    default:
      bytes.erase(bytes.begin() + static_cast<std::ptrdiff_t>(random() % bytes.size()));
  }
  if (bytes.empty()) bytes.push_back(1);
}

}  // namespace

TEST_CASE("base64url gives RFC 4648's own examples, and back") {
  // RFC 4648 section 10, without padding.
  const std::pair<const char*, const char*> examples[] = {
      {"", ""},           {"f", "Zg"},          {"fo", "Zm8"},         {"foo", "Zm9v"},
      {"foob", "Zm9vYg"}, {"fooba", "Zm9vYmE"}, {"foobar", "Zm9vYmFy"}};
  for (const auto& [plain, coded] : examples) {
    const std::string text = plain;
    CHECK(base64url(Bytes(text.begin(), text.end())) == coded);
    const auto back = from_base64url(coded);
    REQUIRE(back.has_value());
    CHECK(std::string(back->begin(), back->end()) == text);
  }
  CHECK(base64url(Bytes{0xfb, 0xff}) == "-_8");  // section 5: - and _ for 62 and 63
  CHECK(from_base64url("Zm9v\r\n YmFy").value().size() == 6);
  for (const char* wrong : {"Z", "Zg==", "Zm+v", "Zh", "Zm9", "\xff\xff"})
    CHECK_FALSE(from_base64url(wrong));
}

TEST_CASE("an offer comes back from its link as it was") {
  Offer offer = small_offer();
  const std::string link = link_of(pack_offer(offer).value());
  for (const char letter : link)
    CHECK((std::isalnum(letter) != 0 || letter == '-' || letter == '_'));
  auto back = offer_of(link.substr(0, 40) + "\r\n" + link.substr(40));
  REQUIRE(back);
  const Offer& found = back.value();
  CHECK(found.title == offer.title);
  CHECK(found.note == offer.note);
  CHECK(found.expires == offer.expires);
  CHECK(found.space == "p3");
  CHECK(found.checksum == offer.checksum);
  CHECK(found.jpeg == offer.jpeg);
  CHECK(found.set.used == offer.set.used);
  REQUIRE(found.sizes.size() == 2);
  CHECK(found.sizes[1].price == "320");
  REQUIRE(found.papers.size() == 2);
  CHECK(found.papers[0].name == "Quiet Cotton");
  CHECK(found.papers[1].white.b == doctest::Approx(3.5));
  CHECK(found.papers[1].black.b == doctest::Approx(-1.25));
  for (size_t i = 0; i < offer.papers[0].nodes.size(); ++i)
    if (offer.set.used[i / 3] != 0) CHECK(found.papers[0].nodes[i] == offer.papers[0].nodes[i]);
}

TEST_CASE("what does not go into an offer is refused by name") {
  const auto refused = [](const std::function<void(Offer&)>& change, const char* word) {
    Offer offer = small_offer();
    change(offer);
    const auto packed = pack_offer(offer);
    REQUIRE_FALSE(packed);
    CHECK_MESSAGE(packed.error().message.find(word) != std::string::npos, packed.error().message);
  };
  refused([](Offer& o) { o.title.assign(kLongestTitle + 1, 'a'); }, "title");
  refused([](Offer& o) { o.note = "bell \a"; }, "note");
  refused([](Offer& o) { o.sizes[0].price = "\xff"; }, "price");
  refused([](Offer& o) { o.sizes.resize(kMostOfferSizes + 1); }, "twelve");
  refused([](Offer& o) { o.papers.resize(kMostOfferPapers + 1); }, "four");
  refused([](Offer& o) { o.papers.clear(); }, "paper");
  refused([](Offer& o) { o.jpeg.clear(); }, "picture");
}

TEST_CASE("a link of another version is told apart from a damaged one") {
  Bytes bytes = packed_small();
  bytes[0] = kLockedOfferVersion + 1;
  CHECK(unpack_offer(bytes).error().message.find("another version") != std::string::npos);
  CHECK(offer_of("!").error().message.find("damaged") != std::string::npos);
  CHECK_FALSE(offer_of(std::string(10 * kOfferLetters, 'A')));
  CHECK_FALSE(offer_of(""));
}

TEST_CASE("every cut and every flipped bit of a link is noticed") {
  const Bytes whole = packed_small();
  for (size_t length = 0; length < whole.size(); ++length)
    CHECK_FALSE(unpack_offer(ByteView(whole).first(length)));
  // A CRC-32 finds every single wrong bit (ISO/IEC 3309).
  for (size_t bit = 0; bit < whole.size() * 8; ++bit) {
    Bytes bytes = whole;
    bytes[bit / 8] ^= static_cast<uint8_t>(1u << bit % 8);
    CHECK_FALSE(unpack_offer(bytes));
  }
}

TEST_CASE("damage behind a fitting checksum does no harm") {
  const Bytes whole = packed_small();
  std::mt19937 random(2026);
  for (int turn = 0; turn < 6000; ++turn) {
    Bytes bytes = whole;
    for (uint32_t count = 1 + random() % 4; count > 0; --count) damage(bytes, random);
    bytes[0] = kOfferVersion;
    seal(bytes);
    CHECK(survives(bytes));
  }
}

TEST_CASE("damage inside the packed part does no harm") {
  // The same below the compression, where every field is reached.
  const Bytes whole = packed_small();
  Unpacker head(ByteView(whole).subspan(5));
  const Bytes inner = inflated(head.raw(head.number(1 << 20)), 1 << 20);
  const ByteView jpeg = head.rest();
  REQUIRE(inner.size() > 100);
  std::mt19937 random(77);
  int opened = 0;
  for (int turn = 0; turn < 6000; ++turn) {
    Bytes damaged = inner;
    for (uint32_t count = 1 + random() % 3; count > 0; --count) damage(damaged, random);
    const Bytes packed = deflated(damaged);
    Packer body;
    body.byte(kOfferVersion);
    body.fixed32(0);
    body.number(static_cast<uint32_t>(packed.size()));
    body.raw(packed);
    body.raw(jpeg);
    Bytes bytes = body.bytes();
    seal(bytes);
    CHECK(survives(bytes));
    opened += unpack_offer(bytes).ok() ? 1 : 0;
  }
  CHECK(opened > 100);  // wrong numbers of the right kind come through
}

TEST_CASE("a small packed part that swells is refused") {
  Bytes swelling(8 << 20, 0);
  const Bytes packed = deflated(swelling);
  CHECK(packed.size() < 16384);
  CHECK(inflated(packed, 128 * 1024).empty());
  CHECK(inflated(packed, swelling.size()).size() == swelling.size());
}

TEST_CASE("a picture larger than an offer's is refused") {
  OfferPicture large{"srgb", kOfferSide + 1, 2, Bytes((kOfferSide + 1) * 2 * 3, 90)};
  CHECK_FALSE(read_small_jpeg(small_jpeg(large, 50), "srgb"));
  OfferPicture fits{"srgb", kOfferSide, 2, Bytes(kOfferSide * 2 * 3, 90)};
  CHECK(read_small_jpeg(small_jpeg(fits, 50), "srgb").ok());
  CHECK_FALSE(read_small_jpeg(small_jpeg(fits, 50), "elsewhere"));
  CHECK_FALSE(read_small_jpeg(Bytes{}, "srgb"));
}

TEST_CASE("days are days of the calendar") {
  CHECK(day_of("1970-01-01").value() == 0);
  CHECK(day_of("2000-03-01").value() == 11017);  // GNU date -u -d 2000-03-01 +%s is 951868800
  CHECK(day_of("2024-02-29").value() == 19782);  // likewise 1709164800
  for (uint32_t day = 0; day < 60000; day += 17) CHECK(day_of(date_of(day)).value() == day);
  for (const char* wrong :
       {"2026-02-29", "2026-13-01", "26-01-01", "2026-1-01x", "1969-12-31", "2026/12/31", ""})
    CHECK_FALSE(day_of(wrong));
}

TEST_CASE("an offer holds through its last day") {
  const Offer offer = small_offer();
  CHECK_FALSE(expired(offer, day_of("2026-12-31").value()));
  CHECK(expired(offer, day_of("2027-01-01").value()));
  Offer lasting = small_offer();
  lasting.expires = 0;
  CHECK_FALSE(expired(lasting, day_of("9999-12-31").value()));
}

TEST_CASE("an answer finds its offer, and only that") {
  Offer offer = small_offer();
  REQUIRE(pack_offer(offer));
  const OfferAnswer answer{offer.checksum, 1, 0, "With a wide margin, please."};
  const std::string text = text_of_answer(answer).value();
  CHECK(text.size() < 80);
  auto back = answer_of(" " + text.substr(0, 9) + "\n" + text.substr(9));
  REQUIRE(back);
  CHECK(back.value().paper == 1);
  CHECK(back.value().size == 0u);
  CHECK(back.value().note == answer.note);
  CHECK(belongs(back.value(), offer));
  Offer changed = small_offer();
  changed.sizes[0].price = "190";
  REQUIRE(pack_offer(changed));
  CHECK(belongs(back.value(), changed).error().message.find("earlier state") != std::string::npos);
  CHECK_FALSE(belongs({offer.checksum, 2, 0, ""}, offer));
  CHECK_FALSE(belongs({offer.checksum, 0, 2, ""}, offer));
  CHECK_FALSE(belongs({offer.checksum, 0, std::nullopt, ""}, offer));
  CHECK_FALSE(text_of_answer({0, 0, 0, std::string(kLongestAnswerNote + 1, 'a')}));
}

TEST_CASE("a damaged answer is refused") {
  const std::string text = text_of_answer({0x12345678, 3, 11, "Yes"}).value();
  REQUIRE(answer_of(text));
  for (size_t length = 0; length < text.size(); ++length)
    CHECK_FALSE(answer_of(text.substr(0, length)));
  const Bytes whole = *from_base64url(text);
  for (size_t bit = 0; bit < whole.size() * 8; ++bit) {
    Bytes bytes = whole;
    bytes[bit / 8] ^= static_cast<uint8_t>(1u << bit % 8);
    CHECK_FALSE(answer_of(base64url(bytes)));
  }
  std::mt19937 random(5);
  for (int turn = 0; turn < 3000; ++turn) {
    Bytes bytes = whole;
    damage(bytes, random);
    bytes[0] = kOfferAnswerVersion;
    seal(bytes);
    const auto answer = answer_of(base64url(bytes));
    if (answer) CHECK(answer.value().paper < kMostOfferPapers);
  }
}

TEST_CASE("offers are made and opened as work") {
  WorkFiles files;
  files.master = memory("ramp.tif", ramp_tiff(600, 400, standard_profile("p3").value().bytes()));
  auto opened = perform(R"({"op":"open"})", files, {});
  REQUIRE(opened);
  const Json master = parse_json(opened.value().json);
  for (const NamedBuffer& buffer : opened.value().buffers)
    (buffer.name == "preview" ? files.picture : files.profile) = memory(buffer.name, buffer.bytes);
  files.papers[0] = memory("a.icc", file_bytes(kDemo + "papers/tarnsea-baryta.icc"));
  files.papers[1] = memory("b.icc", file_bytes(kCmykProfile));
  Json request{{"op", "offer"},
               {"title", "Ramp"},
               {"note", ""},
               {"expires", "2026-12-01"},
               {"sizes", Json::array({Json{{"size", "A2"}, {"price", "90"}}})},
               {"papers", Json::array({Json{{"name", "One"}, {"intent", "perceptual"}},
                                       Json{{"name", "Two"}}})},
               {"width", master["preview_width"]},
               {"height", master["preview_height"]}};
  auto made = perform(request.dump(), files, {});
  REQUIRE_MESSAGE(made.ok(), (made.ok() ? "" : made.error().message));
  const Json offer = parse_json(made.value().json);
  CHECK(number_of(offer, "letters") <= double(kOfferLetters));
  CHECK(offer["papers"].size() == 2);
  for (const Json& each : offer["papers"]) CHECK(number_of(each, "max", 99) <= 3);
  const Json ask{{"op", "open_offer"},
                 {"link", link_of(made.value().buffers.at(0).bytes)},
                 {"today", "2026-12-02"}};
  auto seen = perform(ask.dump(), {}, {});
  REQUIRE(seen);
  const Json answer = parse_json(seen.value().json);
  CHECK(text_of(answer, "title") == "Ramp");
  CHECK(text_of(answer, "expires") == "2026-12-01");
  CHECK(flag_of(answer, "expired"));
  CHECK(text_of(answer, "checksum") == text_of(offer, "checksum"));
  REQUIRE(seen.value().buffers.size() == 4);
  CHECK(seen.value().buffers[0].bytes.size() ==
        size_t(number_of(answer, "width") * number_of(answer, "height")) * 6);
  CHECK(unpack_cube(seen.value().buffers[3].bytes).ok());
  request["papers"].push_back(Json{{"name", "Three"}});
  CHECK(perform(request.dump(), files, {}).error().message == "No paper was given.");
  request["expires"] = "tomorrow";
  CHECK_FALSE(perform(request.dump(), files, {}));
  CHECK_FALSE(perform(R"({"op":"open_offer","link":"AAAA"})", {}, {}));
}

TEST_CASE("an answer is found in whatever message brings it") {
  const OfferAnswer answer{0x9abcdef0, 2, std::nullopt, "Gern, mit Rand."};
  const std::string text = text_of_answer(answer).value();
  const std::string mark = marked(text);
  const std::string broken = mark.substr(0, 20) + "\r\n " + mark.substr(20);
  for (const std::string& message :
       {text, mark, "https://somewhere.example/tool/#" + mark,
        "My choice is it.\n\n" + broken + "\n\nKind regards", "#answer=" + text,
        "answer=" + text + "\nKind regards", "answer=AAAA. is old, " + mark}) {
    const auto found = answer_within(message);
    REQUIRE_MESSAGE(found.ok(), message);
    CHECK(found.value().checksum == answer.checksum);
    CHECK(found.value().note == answer.note);
  }
  CHECK(answer_within("I like the first one.").error().message.find("no answer") !=
        std::string::npos);
  CHECK(answer_within(mark.substr(0, 24)).error().message.find("damaged") != std::string::npos);
  CHECK(answer_within(std::string(100000, 'A')).error().message.find("too long") !=
        std::string::npos);
  CHECK_FALSE(answer_within(""));
}

TEST_CASE("sizes as people write them are understood") {
  struct Example {
    const char* text;
    double width, height;  // [mm]; an inch is 25.4 mm (ISO/IEC 80000-3, international inch)
  };
  for (const auto& [text, width, height] :
       std::initializer_list<Example>{{"60 x 40 cm", 600, 400},
                                      {"60x40cm", 600, 400},
                                      {"A large one, 84,1 \u00d7 118,9 cm, framed", 841, 1189},
                                      {"16 x 20 in", 406.4, 508},
                                      {"16\" x 20\"", 406.4, 508},
                                      {"8.5 by 11 inches", 215.9, 279.4},
                                      {"300 mm x 0.45 m", 300, 450},
                                      {"No. 3: 24 \u00d7 30 cm", 240, 300}}) {
    const std::string words = text;
    const auto size = size_in_mm(words);
    REQUIRE_MESSAGE(size.has_value(), words);
    CHECK(size->width_mm == doctest::Approx(width));
    CHECK(size->height_mm == doctest::Approx(height));
  }
  for (const char* text : {"", "A2", "60 x 40", "60 cm", "0 x 40 cm", "60 x 40 minutes",
                           "999999 x 3 cm", "x cm", "60 x", "1 x 1 mm"})
    CHECK_MESSAGE(!size_in_mm(text), text);
}

TEST_CASE("a locked offer says so, and is no damaged one") {
  Bytes bytes(200, 7);
  bytes[0] = kLockedOfferVersion;
  CHECK(locked(bytes));
  CHECK(unpack_offer(bytes).error().message.find("passphrase") != std::string::npos);
  CHECK_FALSE(locked(packed_small()));
  CHECK_FALSE(locked(Bytes{kLockedOfferVersion}));
}

TEST_CASE("a file holds a larger picture than a link, and no larger one than it says") {
  const uint32_t side = kFileForm.side;
  const OfferPicture fits{"srgb", side, 2, Bytes(size_t{side} * 6, 90)};
  CHECK(read_small_jpeg(small_jpeg(fits, 50), "srgb", kFileForm).ok());
  const OfferPicture large{"srgb", side + 1, 2, Bytes((size_t{side} + 1) * 6, 90)};
  CHECK_FALSE(read_small_jpeg(small_jpeg(large, 50), "srgb", kFileForm));
  Offer offer = small_offer();
  offer.jpeg.resize(kLinkForm.picture + 1);
  const Bytes packed = pack_offer(offer).value();
  CHECK_FALSE(unpack_offer(packed));
  CHECK(unpack_offer(packed, kFileForm).ok());
}

TEST_CASE("a paper's white is taken off and nothing else") {
  // Against View, the way the full proof does it, colour by colour.
  const Offer offer = small_offer();
  const OfferPicture picture = read_small_jpeg(offer.jpeg, offer.space).value();
  const Bytes with = shown_on(offer, picture, 1, true);
  const Bytes without = shown_on(offer, picture, 1, false);
  REQUIRE(with.size() == picture.rgb.size() / 3 * 4);
  REQUIRE(without.size() == with.size());
  CHECK(shown_on(offer, picture, 2, true).empty());
  const ScreenEncoder screen = ScreenEncoder::make(Screen::srgb).take();
  const XYZ white = xyz_from_lab(offer.papers[1].white);
  double most = 0;
  for (size_t i = 0; i < with.size(); i += 4) {
    const XYZ seen = screen.decode({with[i] / 255.0, with[i + 1] / 255.0, with[i + 2] / 255.0});
    const auto bare = screen.encode(
        {seen.x * kD50.x / white.x, seen.y * kD50.y / white.y, seen.z * kD50.z / white.z});
    for (size_t c = 0; c < 3; ++c)
      if (with[i + c] > 0 && with[i + c] < 255)  // the cube itself goes past the screen's ends
        most = std::max(most, std::abs(std::clamp(bare[c], 0.0, 1.0) * 255 - without[i + c]));
    CHECK(without[i + 3] == 255);
  }
  MESSAGE("off by at most " << most << " of 255");
  CHECK(most <= 2.0);  // both are rounded to whole levels, the first before it is spread
  const auto bare_paper = screen_white(offer.papers[1]);
  const auto exact = screen.encode(white);
  for (size_t c = 0; c < 3; ++c) CHECK(std::abs(bare_paper[c] - exact[c] * 255) <= 0.6);
}
