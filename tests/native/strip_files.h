// Requests for test strips, and the files they work on.
#pragma once

#include "job/delivery_work.h"
#include "job/work.h"
#include "pictures.h"
#include "print/proofing_json.h"
#include "recipe/recipe.h"

namespace proofleaf::test {

// 120 mm wide at 200 pixels per inch, nothing else.
inline Recipe sized_recipe() {
  Recipe recipe;
  recipe.sized = true;
  recipe.size.width_mm = 120;
  recipe.size.ppi = 200;
  return recipe;
}

// A TIFF of 16 bits with two parts, by sized_recipe() under each name.
inline Json strip_request(const std::vector<std::string>& variants) {
  const std::vector<print::StripPlace> places{{print::PlaceReason::deepest, 0.1, 0.1, 0.2, 0.2},
                                              {print::PlaceReason::chosen, 0.6, 0.5, 0.2, 0.2}};
  Json strip{{"sheet", {{"width_mm", 150}, {"height_mm", 110}}},
             {"places", print::to_json(places)},
             {"variants", Json::array()}};
  for (const auto& name : variants) {
    strip["variants"].push_back({{"name", name}, {"recipe", json_of(sized_recipe())}});
  }
  return {{"op", "deliver"},
          {"intent", "relative"},
          {"format", "tiff"},
          {"bits", 16},
          {"strip", strip}};
}

// A master of ramps in sRGB, a demo paper and a sink.
class StripFiles {
 public:
  StripFiles(uint32_t width, uint32_t height, const std::string& paper) {
    files_.master =
        memory("ramps.tif", ramp_tiff(width, height, standard_profile("srgb").value().bytes()));
    files_.paper = memory("paper.icc", file_bytes(kDemo + paper));
    files_.reopen = [this]() -> Result<std::shared_ptr<ByteSource>> {
      return memory("print", sink_.bytes());
    };
    files_.sink = &sink_;
  }
  StripFiles(const StripFiles&) = delete;
  StripFiles& operator=(const StripFiles&) = delete;

  const WorkFiles& files() const { return files_; }
  const Bytes& written() const { return sink_.bytes(); }
  // The answer; what was written earlier is gone.
  Json deliver(const Json& request) {
    sink_ = MemorySink();
    const auto answer = perform(dump_json(request), files_, {});
    REQUIRE_MESSAGE(answer.ok(), (answer.ok() ? "" : answer.error().message));
    return parse_json(answer.value().json);
  }

 private:
  MemorySink sink_;
  WorkFiles files_;
};

// The same delivery shared out as a page does it: bands made by a maker of another worker, every
// second one here if `some_here`. What was written earlier stays.
inline Json deliver_shared(StripFiles& files, const Json& request, const std::string& paper,
                           bool some_here) {
  auto opened = SharedDelivery::open(dump_json(request), files.files());
  REQUIRE_MESSAGE(opened.ok(), (opened.ok() ? "" : opened.error().message));
  auto& delivery = *opened.value();
  WorkFiles maker_files;
  maker_files.profile = memory("master.icc", delivery.master_profile());
  maker_files.paper = memory("paper.icc", file_bytes(kDemo + paper));
  auto maker = open_maker(delivery.maker_request(), maker_files);
  REQUIRE(maker);
  for (uint32_t band = 0; band < delivery.bands(); ++band) {
    auto rgb = delivery.read(band);
    REQUIRE(rgb);
    const bool here = some_here && band % 2 == 1;
    auto made = here ? delivery.make() : maker.value()->make(band, rgb.value());
    REQUIRE(made);
    REQUIRE(delivery.join(made.value()).ok());
  }
  auto answer = delivery.finish(0, {});
  REQUIRE(answer);
  return parse_json(answer.value().json);
}

}  // namespace proofleaf::test
