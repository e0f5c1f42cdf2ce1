// Rows far down in a JPEG, which are begun at a restart marker above them, held against what
// libjpeg makes of the whole file.
#include <random>

#include "codec_files.h"
#include "doctest.h"

using namespace proofleaf;
using namespace proofleaf::testing;

namespace {

constexpr uint32_t kHeight = 1801;

std::vector<JpegRecipe> restart_recipes() {
  std::vector<JpegRecipe> all;
  for (const int restart_rows : {1, 2, 5, 100}) {
    all.push_back({.width = 61, .height = kHeight, .restart_rows = restart_rows, .quality = 85});
    all.push_back({.width = 61,
                   .height = kHeight,
                   .thinned = true,
                   .restart_rows = restart_rows,
                   .quality = 85});
    all.push_back({.width = 61,
                   .height = kHeight,
                   .channels = 1,
                   .stored = JCS_GRAYSCALE,
                   .restart_rows = restart_rows});
    all.push_back({.width = 61,
                   .height = kHeight,
                   .channels = 4,
                   .stored = JCS_CMYK,
                   .restart_rows = restart_rows});
  }
  // Nowhere to begin but at the top.
  all.push_back({.width = 61, .height = kHeight, .restart_mcus = 3});
  all.push_back({.width = 61, .height = kHeight, .thinned = true, .restart_mcus = 1});
  all.push_back({.width = 61, .height = kHeight});
  all.push_back({.width = 61, .height = kHeight, .progressive = true, .restart_rows = 1});
  return all;
}

Bytes file_of(const JpegRecipe& recipe) {
  return raw_jpeg(recipe,
                  picture(recipe.width, recipe.height, static_cast<uint32_t>(recipe.channels), 8));
}

std::vector<size_t> restarts_of(const Bytes& file) {
  std::vector<size_t> places;
  for (size_t at = 0; at + 1 < file.size(); ++at)
    if (file[at] == 0xFF && file[at + 1] >= 0xD0 && file[at + 1] <= 0xD7) places.push_back(at);
  return places;
}

Result<Codes> row_of(const Bytes& file, uint32_t first) {
  auto master = open_master(source_of(file));
  if (!master) return master.error();
  auto rows = master.value()->open_rows();
  if (!rows) return rows.error();
  Codes row(rows.value()->format().row_samples());
  if (auto got = rows.value()->read(first, 1, row); !got) return got.error();
  return row;
}

// As libjpeg's own faults are told, of the whole file and not of the part of it that was begun.
bool told(const std::string& message) {
  if (message.find("its picture") != std::string::npos) return true;
  return message.find("of " + std::to_string(kHeight) + " rows are") != std::string::npos;
}

}  // namespace

TEST_CASE("rows of a JPEG with restart markers, from anywhere and in any order") {
  for (const JpegRecipe& recipe : restart_recipes()) {
    CAPTURE(recipe.channels);
    CAPTURE(recipe.thinned);
    CAPTURE(recipe.restart_rows);
    const Bytes file = file_of(recipe);
    auto master = open_master(source_of(file));
    REQUIRE(master.ok());
    const auto whole = read_picture(*master.value());
    REQUIRE(whole.ok());
    if (recipe.channels == 3) CHECK(whole.value() == widened(decode_jpeg(file)));
    auto rows = master.value()->open_rows();
    REQUIRE(rows.ok());
    const size_t row = rows.value()->format().row_samples();
    // Near and far, at markers and beside them, back, and to the last row.
    for (const uint32_t first : {600u, 1023u, 1024u, 1025u, 1799u, 3u, 1600u, 512u, 1280u, 0u}) {
      CAPTURE(first);
      const uint32_t count = std::min(40u, kHeight - first);
      Codes part(row * count);
      REQUIRE(rows.value()->read(first, count, part).ok());
      CHECK(std::equal(part.begin(), part.end(),
                       whole.value().begin() + static_cast<std::ptrdiff_t>(first * row)));
    }
  }
}

TEST_CASE("what lies above the marker is not decoded") {
  const JpegRecipe recipe{.width = 61, .height = kHeight, .restart_rows = 2, .quality = 85};
  const Bytes sound = file_of(recipe);
  const auto places = restarts_of(sound);
  REQUIRE(places.size() == (kHeight + 15) / 16 - 1);
  Bytes file = sound;
  // The third stretch becomes one that holds no code.
  std::fill(file.begin() + static_cast<std::ptrdiff_t>(places[2]) + 2,
            file.begin() + static_cast<std::ptrdiff_t>(places[3]), uint8_t{0xFE});
  REQUIRE_FALSE(row_of(file, 100).ok());
  const auto found = row_of(file, 1000), expected = row_of(sound, 1000);
  REQUIRE(found.ok());
  CHECK(found.value() == expected.value());
}

TEST_CASE("markers that are missing, too many or out of turn are not trusted") {
  const JpegRecipe recipe{.width = 61, .height = kHeight, .restart_rows = 2, .quality = 85};
  const Bytes sound = file_of(recipe);
  const auto places = restarts_of(sound);
  const auto at = [&](size_t place) { return static_cast<std::ptrdiff_t>(places[place]); };
  Bytes missing = sound, doubled = sound, turned = sound, cut = sound;
  missing.erase(missing.begin() + at(20), missing.begin() + at(20) + 2);
  doubled.insert(doubled.begin() + at(20), {0xFF, 0xD0});
  turned[places[20] + 1] = static_cast<uint8_t>(0xD0 + (turned[places[20] + 1] + 3) % 8);
  cut.resize(places[30]);
  for (const Bytes& file : {missing, doubled, turned, cut}) {
    auto master = open_master(source_of(file));
    REQUIRE(master.ok());
    const auto in_turn = read_picture(*master.value());
    const auto far = row_of(file, 1700);
    CHECK_FALSE(in_turn.ok());
    REQUIRE_FALSE(far.ok());
    CHECK(told(far.error().message));
  }
}

TEST_CASE("damage below a marker is found where the whole file's rows find it") {
  const JpegRecipe recipe{.width = 61, .height = kHeight, .restart_rows = 2, .quality = 85};
  const Bytes sound = file_of(recipe);
  std::mt19937 random(11);
  int read = 0, refused = 0;
  for (int round = 0; round < 200; ++round) {
    Bytes file = sound;
    const size_t at = file.size() / 2 + random() % (file.size() / 2);
    file[at] = static_cast<uint8_t>(file[at] ^ (1u << random() % 8));
    auto master = open_master(source_of(file));
    if (!master) continue;
    auto rows = master.value()->open_rows();
    REQUIRE(rows.ok());
    CAPTURE(round);
    const size_t row = rows.value()->format().row_samples();
    Codes whole(row * kHeight), far(row * (kHeight - 900));
    const Status in_turn = rows.value()->read(0, kHeight, whole);
    auto again = master.value()->open_rows();
    const Status below = again.value()->read(900, kHeight - 900, far);
    REQUIRE(below.ok() == in_turn.ok());
    if (below.ok())
      CHECK(std::equal(far.begin(), far.end(),
                       whole.begin() + static_cast<std::ptrdiff_t>(900 * row)));
    else
      CHECK(told(below.error().message));
    ++(below.ok() ? read : refused);
  }
  CHECK(read > 10);
  CHECK(refused > 10);
}
