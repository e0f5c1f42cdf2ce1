// Parcels of papers: zip files made here byte by byte (PKWARE APPNOTE 6.3: 4.3.7 local
// header, 4.3.12 central directory, 4.3.16 its end), whole, odd and hostile.
#include "paper/parcel.h"

#include <zlib.h>

#include <random>

#include "base/json.h"
#include "job/work.h"
#include "pictures.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

struct Item {
  std::string name;
  Bytes bytes;
  bool deflated = true;
  uint16_t flags = 0;
  uint32_t said_size = 0;     // unpacked; 0: the true one
  uint32_t checksum_off = 0;  // added to the true one
};

void put(Bytes& out, uint64_t value, int bytes) {
  for (int i = 0; i < bytes; ++i) out.push_back(uint8_t(value >> (8 * i)));
}

Bytes raw_deflate(const Bytes& bytes) {
  z_stream z{};
  REQUIRE(deflateInit2(&z, 9, Z_DEFLATED, -MAX_WBITS, 9, Z_DEFAULT_STRATEGY) == Z_OK);
  Bytes out(deflateBound(&z, uLong(bytes.size())));
  z.next_in = const_cast<Bytef*>(bytes.data());
  z.avail_in = uInt(bytes.size());
  z.next_out = out.data();
  z.avail_out = uInt(out.size());
  REQUIRE(deflate(&z, Z_FINISH) == Z_STREAM_END);
  out.resize(z.total_out);
  deflateEnd(&z);
  return out;
}

// What local header and central directory share.
void put_common(Bytes& out, const Item& item, const Bytes& packed) {
  put(out, 20, 2);
  put(out, item.flags, 2);
  put(out, item.deflated ? 8 : 0, 2);
  put(out, 0, 4);
  put(out, crc32(0, item.bytes.data(), uInt(item.bytes.size())) + item.checksum_off, 4);
  put(out, packed.size(), 4);
  put(out, item.said_size ? item.said_size : item.bytes.size(), 4);
  put(out, item.name.size(), 2);
  put(out, 0, 2);
}

Bytes zip(const std::vector<Item>& items) {
  Bytes out, directory;
  for (const Item& item : items) {
    const Bytes packed = item.deflated ? raw_deflate(item.bytes) : item.bytes;
    put(directory, 0x02014b50, 4);
    put(directory, 20, 2);
    put_common(directory, item, packed);
    put(directory, 0, 2);           // comment
    put(directory, 0, 2);           // disk
    put(directory, 0, 2);           // internal attributes
    put(directory, 0, 4);           // external attributes
    put(directory, out.size(), 4);  // local header
    directory.insert(directory.end(), item.name.begin(), item.name.end());
    put(out, 0x04034b50, 4);
    put_common(out, item, packed);
    out.insert(out.end(), item.name.begin(), item.name.end());
    out.insert(out.end(), packed.begin(), packed.end());
  }
  const size_t start = out.size();
  out.insert(out.end(), directory.begin(), directory.end());
  put(out, 0x06054b50, 4);
  put(out, 0, 4);
  put(out, items.size(), 2);
  put(out, items.size(), 2);
  put(out, directory.size(), 4);
  put(out, start, 4);
  put(out, 0, 2);
  return out;
}

const Bytes& profile() {
  static const Bytes bytes = standard_profile("srgb").take().bytes();
  return bytes;
}

Result<Parcel> opened(Bytes bytes) {
  MemorySource source("papers.zip", std::move(bytes));
  return open_parcel(source, {});
}

Bytes text_bytes(const std::string& text) { return {text.begin(), text.end()}; }

// A profile's head, and then nothing but zeros.
Bytes empty_profile(size_t size) {
  Bytes bytes(size);
  std::copy_n(profile().begin(), 128, bytes.begin());
  return bytes;
}

}  // namespace

TEST_CASE("profiles come out of a parcel as they went in, stored or deflated") {
  const Bytes cmyk = file_bytes(kCmykProfile);
  const auto parcel = opened(zip(
      {{"House papers/readme.txt", text_bytes("Please read this first, then print on our papers.")},
       {"House papers/", {}, false},
       {"House papers/Matt.icc", profile()},
       {"House papers/Pearl", cmyk, false}}));
  REQUIRE(parcel.ok());
  REQUIRE(parcel.value().profiles.size() == 2);
  CHECK(parcel.value().profiles[0].name == "Matt.icc");
  CHECK(parcel.value().profiles[0].bytes == profile());
  CHECK(parcel.value().profiles[1].name == "Pearl");
  CHECK(parcel.value().profiles[1].bytes == cmyk);
  CHECK(parcel.value().notes.empty());
}

TEST_CASE("names out of a parcel are only names") {
  CHECK(plain_name("../../etc/passwd") == "passwd");
  CHECK(plain_name("C:\\papers\\Matt.icc") == "Matt.icc");
  CHECK(plain_name("a\x01\x1B[2Jb") == "a--[2Jb");
  CHECK(plain_name("gl\xE4nzend") == "gl-nzend");  // a byte of another encoding
  CHECK(plain_name("glänzend.icc") == "glänzend.icc");
  CHECK(plain_name("..") == "profile");
  CHECK(plain_name("") == "profile");
  std::string long_name(119, 'a');
  long_name += "ä";
  CHECK(plain_name(long_name).size() == 119);  // no half letter at the end
  CHECK(plain_name(std::string(70000, 'x')).size() == 120);
}

TEST_CASE("a parcel without a profile says so") {
  const auto none =
      opened(zip({{"readme.txt", text_bytes("no profile, only words, and some more of them")}}));
  REQUIRE_FALSE(none.ok());
  CHECK(none.error().message == "There is no paper's profile in papers.zip.");
  for (const Bytes& bad : {Bytes{}, text_bytes("PK"),
                           text_bytes("PK\3\4 and then nothing of the kind"), profile(), zip({})})
    CHECK_FALSE(opened(bad).ok());
}

TEST_CASE("what cannot be taken is left aside with a sentence, and the rest is taken") {
  Item damaged{"Damaged.icc", profile()};
  damaged.checksum_off = 1;
  Item locked{"Locked.icc", profile()};
  locked.flags = 1;
  Item shorter{"Shorter.icc", profile()};
  shorter.said_size = uint32_t(profile().size()) + 5000;
  const auto parcel = opened(zip({damaged, locked, shorter, {"Good.icc", profile()}}));
  REQUIRE(parcel.ok());
  REQUIRE(parcel.value().profiles.size() == 1);
  CHECK(parcel.value().profiles[0].name == "Good.icc");
  REQUIRE(parcel.value().notes.size() == 3);
  for (const std::string& note : parcel.value().notes) CHECK(note.ends_with("."));
}

TEST_CASE("parcels that unpack to far more than they are get refused") {
  // 30 MiB of almost nothing packs about 1000 times.
  const auto bomb = opened(zip({{"Bomb.icc", empty_profile(30u << 20)}}));
  REQUIRE_FALSE(bomb.ok());
  CHECK(bomb.error().message.find("more than a profile can be") != std::string::npos);
  CHECK_FALSE(
      opened(zip({{"Large.icc", empty_profile(size_t{kLargestParcelProfile} + 1), false}})).ok());
  // A size that is a lie costs what is there, not what is said.
  Item liar{"Liar.icc", profile(), false};
  liar.said_size = 0x7FFFFFFF;
  CHECK_FALSE(opened(zip({liar})).ok());
}

TEST_CASE("the number of entries and of profiles is bounded") {
  const std::vector<Item> many(kMostParcelEntries + 1, Item{"a", text_bytes("a"), false});
  CHECK_FALSE(opened(zip(many)).ok());
  const std::vector<Item> profiles(kMostParcelProfiles + 5,
                                   Item{"p.icc", empty_profile(200), false});
  const auto parcel = opened(zip(profiles));
  REQUIRE(parcel.ok());
  CHECK(parcel.value().profiles.size() == kMostParcelProfiles);
  CHECK(parcel.value().notes.size() == 1);
}

TEST_CASE("a parcel can be stopped") {
  MemorySource source("papers.zip", zip({{"Matt.icc", profile()}}));
  CHECK_FALSE(open_parcel(source, [](double) { return false; }).ok());
}

TEST_CASE("cut and flipped parcels never crash, nor unpack beyond the limits") {
  const Bytes whole = zip({{"Matt.icc", profile()},
                           {"notes.txt", text_bytes(std::string(300, 'n'))},
                           {"Pearl.icc", empty_profile(3000), false}});
  for (size_t length = 0; length < whole.size(); length += 7)
    (void)opened(Bytes(whole.begin(), whole.begin() + std::ptrdiff_t(length)));
  std::mt19937 random(20261125);
  for (int turn = 0; turn < 4000; ++turn) {
    Bytes broken = whole;
    // Headers and directory matter more than the packed bytes.
    const size_t from = turn % 2 ? 0 : whole.size() - std::min<size_t>(whole.size(), 260);
    for (unsigned i = 0; i < 1 + random() % 4; ++i)
      broken[from + random() % (whole.size() - from)] = uint8_t(random());
    const auto parcel = opened(broken);
    if (!parcel) continue;
    for (const auto& each : parcel.value().profiles) {
      CHECK(each.bytes.size() <= kLargestParcelProfile);
      CHECK_FALSE(each.name.empty());
    }
  }
}

TEST_CASE("the request unpack answers names and bytes") {
  WorkFiles files;
  files.paper = memory("papers.zip", zip({{"a/Matt.icc", profile()}}));
  const auto answer = perform(R"({"op":"unpack"})", files, {});
  REQUIRE(answer.ok());
  const Json json = parse_json(answer.value().json);
  CHECK(text_of(json, "kind") == "unpacked");
  CHECK(json["names"][0] == "Matt.icc");
  REQUIRE(answer.value().buffers.size() == 1);
  CHECK(answer.value().buffers[0].name == "0");
  CHECK(answer.value().buffers[0].bytes == profile());
  CHECK_FALSE(perform(R"({"op":"unpack"})", {}, {}).ok());
}
