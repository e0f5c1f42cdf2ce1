// The local contrast the screen shows against the one a print file gets. There is no outside source
// for their agreement: the delivery is the measure, read back from its own file.
#include "base/json.h"
#include "colour/lcms.h"
#include "fit/master_space.h"
#include "job/opening.h"
#include "job/work.h"
#include "pictures.h"
#include "recipe/recipe.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

constexpr uint32_t kWidth = 2100, kHeight = 1400;  // shown at half the size

// Edges, shapes and texture of several sizes, 16 bits.
Bytes textured_tiff(const Bytes& icc) {
  WriteSpec spec;
  spec.container = Container::tiff;
  spec.width = kWidth;
  spec.height = kHeight;
  spec.bits = 16;
  spec.icc = icc;
  MemorySink sink;
  auto writer = open_writer(spec, sink);
  REQUIRE(writer);
  std::vector<uint16_t> row(size_t{kWidth} * 3);
  for (uint32_t y = 0; y < kHeight; ++y) {
    for (uint32_t x = 0; x < kWidth; ++x) {
      const double light = 0.45 + 0.2 * std::sin(x / 190.0) + (y > kHeight / 2 ? 0.1 : -0.1) +
                           0.05 * std::sin(x / 13.0) * std::cos(y / 17.0) +
                           0.02 * std::sin(x / 3.1 + y / 2.3);
      const double warm = 0.05 * std::sin(y / 260.0);
      const double rgb[3] = {light + warm, light, light - warm};
      for (size_t c = 0; c < 3; ++c) row[x * 3 + c] = uint16_t(65535 * rgb[c] + 0.5);
    }
    REQUIRE(writer.value()->write16(row, 1).ok());
  }
  REQUIRE(writer.value()->finish().ok());
  return sink.take();
}

Bytes named(const Answer& answer, const std::string& name) {
  for (const auto& buffer : answer.buffers) {
    if (buffer.name == name) return buffer.bytes;
  }
  FAIL("no buffer " << name);
  return {};
}

std::vector<uint16_t> samples_of(const Bytes& bytes) {
  std::vector<uint16_t> samples(bytes.size() / 2);
  std::memcpy(samples.data(), bytes.data(), bytes.size());
  return samples;
}

Answer performed(const Json& request, const WorkFiles& files) {
  auto answer = perform(dump_json(request), files, {});
  REQUIRE_MESSAGE(answer.ok(), (answer.ok() ? "" : answer.error().message));
  return answer.take();
}

std::vector<Lab> colours_of(const Profile& master, const std::vector<uint16_t>& codes) {
  std::vector<float> rgb(codes.begin(), codes.end());
  for (float& code : rgb) code /= 65535;
  return MasterSpace::make(master).take()->colours(rgb);
}

struct Off {
  double mean = 0, worst = 0;  // [dE00]
};
Off difference(const std::vector<Lab>& one, const std::vector<Lab>& other) {
  REQUIRE(one.size() == other.size());
  Off off;
  for (size_t i = 0; i < one.size(); ++i) {
    const double each = delta_e_2000(one[i], other[i]);
    off.mean += each / double(one.size());
    off.worst = std::max(off.worst, each);
  }
  return off;
}

}  // namespace

TEST_CASE("local contrast: the preview and the tiles show what the print file gets") {
  const Profile srgb = standard_profile("srgb").take();
  WorkFiles files;
  files.master = memory("shapes.tif", textured_tiff(srgb.bytes()));
  const Answer opened = performed({{"op", "open"}}, files);
  const Json told = parse_json(opened.json);
  const auto columns = uint32_t(number_of(told, "preview_width")),
             rows = uint32_t(number_of(told, "preview_height"));
  REQUIRE(columns == kWidth / 2);
  files.profile = memory("profile", named(opened, "profile"));
  files.picture = memory("picture", named(opened, "preview"));
  constexpr double kAmount = 70;
  const Answer shown = performed(
      {{"op", "local_contrast"}, {"width", columns}, {"height", rows}, {"amount", kAmount}}, files);

  // The print file, in the master's own space and 16 bits, so that nothing else changes.
  Recipe recipe;
  recipe.correction.local_contrast = kAmount;
  MemorySink sink;
  files.paper = memory("paper", srgb.bytes());
  files.sink = &sink;
  files.reopen = [&]() -> Result<std::shared_ptr<ByteSource>> {
    return memory("print.tif", sink.bytes());
  };
  performed({{"op", "deliver"},
             {"intent", "relative"},
             {"black_point_compensation", false},
             {"format", "tiff"},
             {"bits", 16},
             {"recipe", json_of(recipe)}},
            files);
  WorkFiles written;
  written.master = memory("print.tif", sink.bytes());
  auto print = open_with_colour({}, written);
  REQUIRE(print);
  auto print_rows = master_rows(print.value());
  REQUIRE(print_rows);
  const auto half = shrink(*print_rows.value(), 2, {});
  REQUIRE(half);

  const auto printed = colours_of(srgb, half.value().rgb);
  const Off with = difference(colours_of(srgb, samples_of(named(shown, "picture"))), printed);
  const Off without = difference(colours_of(srgb, samples_of(named(opened, "preview"))), printed);
  MESSAGE("preview against print file: mean " << with.mean << ", worst " << with.worst
                                              << " dE00; without it " << without.mean << ", "
                                              << without.worst);
  CHECK(with.mean < 0.05);
  CHECK(with.worst < 1);  // where a pixel of the preview lies over a step between two tones
  CHECK(without.mean > 10 * with.mean);

  // A tile is the print file's own pixels.
  files.guide = memory("guide", named(shown, "guide"));
  const Json tile{{"op", "crop"}, {"x", 900},      {"y", 500},
                  {"width", 300}, {"height", 200}, {"local_contrast", kAmount}};
  const Answer cut_out = performed(tile, files);
  auto again = master_rows(print.value());
  REQUIRE(again);
  const auto part = cut(*again.value(), 900, 500, 300, 200, {});
  REQUIRE(part);
  const Off near = difference(colours_of(srgb, samples_of(named(cut_out, "printed"))),
                              colours_of(srgb, part.value().rgb));
  MESSAGE("tile against print file: mean " << near.mean << ", worst " << near.worst << " dE00");
  CHECK(near.worst < 0.05);
}

TEST_CASE("local contrast: a request that cannot be is refused in words") {
  WorkFiles files;
  files.profile = memory("profile", standard_profile("srgb").value().bytes());
  files.picture = memory("picture", Bytes(60));
  const auto refusal = [&](const Json& request) {
    const auto answer = perform(dump_json(request), files, {});
    REQUIRE_FALSE(answer.ok());
    return answer.error().message;
  };
  const Json sound{{"op", "local_contrast"}, {"width", 5}, {"height", 2}, {"amount", 20}};
  CHECK(perform(dump_json(sound), files, {}).ok());
  for (const char* field : {"width", "height"}) {
    Json wrong = sound;
    wrong[field] = 1000;
    CHECK(refusal(wrong) == "The picture and its size do not agree.");
  }
  Json strong = sound;
  strong["amount"] = 101;
  CHECK(refusal(strong).find("local contrast") != std::string::npos);
  files.master = memory("ramps.tif", ramp_tiff(50, 40, standard_profile("srgb").value().bytes()));
  Json tile{{"op", "crop"}, {"width", 10}, {"height", 10}, {"local_contrast", 20}};
  CHECK(refusal(tile) == "No guide of the local contrast was given.");
  files.guide = memory("guide", Bytes(50));
  CHECK(refusal(tile).find("damaged") != std::string::npos);
}
