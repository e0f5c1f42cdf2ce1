// JPEGs within a limit of bytes.
#include "deliver/file_limit.h"

#include <cmath>
#include <random>

#include "deliver/deliver.h"
#include "job/delivery_work.h"
#include "print_rows.h"
#include "strip_files.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

constexpr char kPaper[] = "papers/tarnsea-baryta.icc";

Json request_within(double bytes, int quality = 95) {
  Recipe recipe;
  recipe.limits.largest_file_bytes = bytes;
  return {{"op", "deliver"}, {"format", "jpeg"}, {"quality", quality}, {"recipe", json_of(recipe)}};
}

// Noise whose strength differs from one height to the next, as a picture with a sky has it.
std::unique_ptr<RowSource> uneven_rows(uint32_t width, uint32_t height) {
  auto random = std::make_shared<std::mt19937>(7);
  return rows_of(width, height, [random, height](uint32_t, uint32_t y, uint32_t) {
    const double strength = y < height / 3 ? 300 : 4000 + 6000 * std::sin(y * 0.004);
    return 30000 + strength * (double((*random)() % 2001) / 1000 - 1);
  });
}

// The whole file at a quality, encoded in one go.
uint64_t bytes_of(RowSource& rows, const Paper& paper, int quality) {
  const RowFormat format = rows.format();
  auto chain = ProofChain::make(space("srgb"), paper, {}, {});
  REQUIRE(chain);
  DeliverySettings settings;
  settings.quality = quality;
  const WriteSpec spec = print_spec(format.width, format.height, paper, settings);
  auto maker = BandMaker::make(chain.value(), spec, 1);
  REQUIRE(maker);
  MemorySink sink;
  auto joiner = open_band_joiner(spec, sink);
  REQUIRE(joiner);
  test::Codes rgb;
  for (uint32_t band = 0; band < bands_in(format.height); ++band) {
    rgb.resize(band_rows(format.height, band) * format.row_samples());
    REQUIRE(rows.read(band * kBandRows, band_rows(format.height, band), rgb).ok());
    REQUIRE(joiner.value()->join(maker.value()->make(band, rgb).take()).ok());
  }
  REQUIRE(joiner.value()->finish().ok());
  return sink.size();
}

Result<int> quality_for(RowSource& rows, const Paper& paper, uint64_t limit, int highest = 95) {
  const RowFormat format = rows.format();
  auto chain = ProofChain::make(space("srgb"), paper, {}, {});
  REQUIRE(chain);
  DeliverySettings settings;
  settings.quality = highest;
  return quality_within(rows, chain.value(),
                        print_spec(format.width, format.height, paper, settings), 1, limit);
}

}  // namespace

TEST_CASE("file limit: of a small print the highest quality that fits, to the byte") {
  const auto rows = uneven_rows(400, 700);
  const Paper paper = paper_at(kDemo + kPaper);
  for (const int quality : {60, 77, 92}) {
    const uint64_t bytes = bytes_of(*rows, paper, quality);
    CHECK(quality_for(*rows, paper, bytes).value() == quality);
    CHECK(quality_for(*rows, paper, bytes - 1).value() == quality - 1);
  }
  CHECK(quality_for(*rows, paper, uint64_t{1} << 40).value() == 95);
}

TEST_CASE("file limit: an estimated one never is too large, nor far too small") {
  const auto rows = uneven_rows(120, 64 * 90 + 13);
  const Paper paper = paper_at(kDemo + kPaper);
  for (const int wanted : {65, 80, 90}) {
    const uint64_t limit = bytes_of(*rows, paper, wanted);
    const auto quality = quality_for(*rows, paper, limit);
    REQUIRE_MESSAGE(quality.ok(), (quality.ok() ? "" : quality.error().message));
    const uint64_t bytes = bytes_of(*rows, paper, quality.value());
    MESSAGE("limit " << limit << ", quality " << quality.value() << " for " << wanted << ", "
                     << bytes << " bytes");
    CHECK(bytes <= limit);
    CHECK(double(bytes) > 0.75 * double(limit));
  }
}

TEST_CASE("file limit: a delivery stays within it and says so; without need it is as asked") {
  StripFiles files(900, 1100, kPaper);
  const Json free = files.deliver(request_within(2e9));
  CAPTURE(dump_json(free));
  CHECK(number_of(free, "quality") == 95);
  CHECK(text_of(free, "sentence").find("quality") == std::string::npos);
  files.deliver(request_within(2e9, 70));
  const auto limit = double(files.written().size());
  const Json less = files.deliver(request_within(limit));
  CHECK(double(files.written().size()) <= limit);
  CHECK(number_of(less, "bytes") == double(files.written().size()));
  const double quality = number_of(less, "quality");
  CHECK(quality < 95);
  CHECK(quality >= 70);  // exact, since the print has few bands
  CHECK(text_of(less, "sentence").find("quality " + std::to_string(int(quality))) !=
        std::string::npos);
  // It is the file that quality gives by itself.
  const Bytes written = files.written();
  files.deliver(request_within(2e9, int(quality)));
  CHECK(files.written() == written);
  // A TIFF has no quality.
  Json tiff = request_within(1e5);
  tiff["format"] = "tiff";
  CHECK(files.deliver(tiff)["quality"].is_null());
}

TEST_CASE("file limit: makers in other workers make the same file") {
  StripFiles alone(900, 1100, kPaper), shared(900, 1100, kPaper);
  alone.deliver(request_within(2e9, 70));
  const Json request = request_within(double(alone.written().size()));
  const Json at_once = alone.deliver(request);
  CHECK(deliver_shared(shared, request, kPaper, false) == at_once);
  CHECK(shared.written() == alone.written());
}

TEST_CASE("file limit: one that no quality keeps is refused before anything is written") {
  StripFiles files(900, 1100, kPaper);
  files.deliver(request_within(2e9, kLeastQuality));
  const Json request = request_within(double(files.written().size()) - 1);
  StripFiles other(900, 1100, kPaper);
  const auto answer = perform(dump_json(request), other.files(), {});
  REQUIRE_FALSE(answer.ok());
  CHECK(answer.error().message.find("quality 50") != std::string::npos);
  CHECK(other.written().empty());
  const auto rows = uneven_rows(400, 300);
  const auto refused = quality_for(*rows, paper_at(kDemo + kPaper), 30'000);
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.error().message.find("0.03 MB") != std::string::npos);
}
