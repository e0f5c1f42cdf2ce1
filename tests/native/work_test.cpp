// Requests as the page and the command line make them.
#include "job/work.h"

#include <cstring>

#include "base/files.h"
#include "base/json.h"
#include "colour/lab.h"
#include "colour/lcms.h"
#include "job/delivery_work.h"
#include "pictures.h"
#include "proof/cube.h"
#include "proof/off_gamut.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

Json answer_of(const Result<Answer>& answer) {
  REQUIRE_MESSAGE(answer.ok(), (answer.ok() ? "" : answer.error().message));
  return parse_json(answer.value().json);
}

const Bytes& buffer_of(const Result<Answer>& answer, const std::string& name) {
  for (const auto& buffer : answer.value().buffers) {
    if (buffer.name == name) return buffer.bytes;
  }
  FAIL("no buffer " << name);
  return answer.value().buffers[0].bytes;
}

// L* of a level of all channels, by LittleCMS.
float lightness(const Bytes& icc, cmsUInt32Number format, float level) {
  const Profile profile = Profile::open(icc, "profile").take();
  cmsHPROFILE lab = cmsCreateLab4Profile(nullptr);
  const Transform transform(cmsCreateTransform(profile.handle(), format, lab, TYPE_Lab_FLT,
                                               INTENT_RELATIVE_COLORIMETRIC, kExact));
  cmsCloseProfile(lab);
  const float in[3] = {level, level, level};
  float out[3]{};
  cmsDoTransform(transform.get(), in, out, 1);
  return out[0];
}

WorkFiles with_master(Bytes bytes, const std::string& name = "picture.tif") {
  WorkFiles files;
  files.master = memory(name, std::move(bytes));
  return files;
}

}  // namespace

TEST_CASE("open tells what the master is and gives its preview and profile") {
  const Bytes romm = standard_profile("romm").value().bytes();
  const auto answer =
      perform(R"({"op":"open","preview_pixels":1000})", with_master(ramp_tiff(100, 80, romm)), {});
  const Json json = answer_of(answer);
  CHECK(text_of(json, "kind") == "master");
  CHECK(number_of(json, "width", 0) == 100);
  CHECK(number_of(json, "bits", 0) == 16);
  CHECK(text_of(json, "container") == "TIFF");
  CHECK_FALSE(flag_of(json, "assumed", true));
  const auto w = size_t(number_of(json, "preview_width", 0)),
             h = size_t(number_of(json, "preview_height", 0));
  CHECK(w == 34);  // a third of each side
  CHECK(h == 27);
  CHECK(buffer_of(answer, "preview").size() == w * h * 6);
  CHECK(buffer_of(answer, "profile") == romm);
}

TEST_CASE("a small master's preview is the master, sample for sample") {
  const auto answer =
      perform(R"({"op":"open"})",
              with_master(ramp_tiff(50, 40, standard_profile("srgb").value().bytes())), {});
  answer_of(answer);
  const Bytes& preview = buffer_of(answer, "preview");
  for (uint32_t i = 0; i < 50 * 40 * 3; ++i) {
    uint16_t sample;
    std::memcpy(&sample, &preview[i * 2], 2);
    REQUIRE(sample == ramp_sample(i / 3 % 50, i / 150, i % 3));
  }
}

TEST_CASE("a master without a profile is taken for sRGB, says so, and can be taken for another") {
  const Bytes bare = ramp_tiff(20, 20, {});
  const Json plain = answer_of(perform(R"({"op":"open"})", with_master(bare), {}));
  for (const char* assume : {"", R"(,"assume":"romm")"}) {
    // Its colours alone, without the picture, are the same.
    const std::string more = std::string(assume) + "}";
    const auto opened = perform(R"({"op":"open")" + more, with_master(bare), {});
    const auto told = perform(R"({"op":"profile")" + more, with_master(bare), {});
    REQUIRE(told);
    REQUIRE(told.value().buffers.size() == 1);
    CHECK(told.value().buffers[0].bytes == opened.value().buffers[1].bytes);
  }
  CHECK(flag_of(plain, "assumed", false));
  CHECK(text_of(plain, "profile").find("sRGB") == 0);
  const Json wide = answer_of(perform(R"({"op":"open","assume":"romm"})", with_master(bare), {}));
  CHECK(text_of(wide, "profile").find("ROMM") == 0);
  CHECK_FALSE(perform(R"({"op":"open","assume":"nowhere"})", with_master(bare), {}).ok());
}

TEST_CASE("grey masters keep their tone curve; CMYK ones need a profile") {
  // sgray.icc of libgs-common, read by LittleCMS directly: the same L* must come through the
  // carrier.
  const Bytes grey_icc = file_bytes("/usr/share/color/icc/ghostscript/sgray.icc");
  const auto grey = perform(R"({"op":"open"})",
                            with_master(ramp_tiff(30, 20, grey_icc, {}, ColourModel::grey)), {});
  CHECK(text_of(answer_of(grey), "model") == "grey");
  const Bytes& preview = buffer_of(grey, "preview");
  uint16_t rgb[3];
  std::memcpy(rgb, preview.data(), 6);
  CHECK(rgb[0] == rgb[1]);
  CHECK(rgb[1] == rgb[2]);
  CHECK(lightness(buffer_of(grey, "profile"), TYPE_RGB_FLT, 0.3f) ==
        doctest::Approx(lightness(grey_icc, TYPE_GRAY_FLT, 0.3f)).epsilon(0.002));

  const Bytes inks = ramp_tiff(30, 20, {}, {}, ColourModel::cmyk);
  const auto refused = perform(R"({"op":"open"})", with_master(inks, "inks.tif"), {});
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.error().message.find("inks.tif") != std::string::npos);
  WorkFiles files = with_master(inks);
  files.assume = memory("press.icc", file_bytes(kCmykProfile));
  const Json taken = answer_of(perform(R"({"op":"open"})", files, {}));
  CHECK(text_of(taken, "model") == "CMYK");
  CHECK(flag_of(taken, "assumed", false));
}

TEST_CASE("CMYK masters keep their colours in the RGB carrier") {
  // LittleCMS' float way from the file's inks to L*a*b* as the judge.
  const Profile inks = Profile::open(file_bytes(kCmykProfile), "inks").take();
  const auto opened =
      perform(R"({"op":"open"})",
              with_master(ramp_tiff(40, 30, inks.bytes(), {}, ColourModel::cmyk), "inks.tif"), {});
  CHECK_FALSE(flag_of(answer_of(opened), "assumed", true));
  const Profile carrier = Profile::open(buffer_of(opened, "profile"), "carrier").take();
  cmsHPROFILE lab = cmsCreateLab4Profile(nullptr);
  const Transform from_inks(cmsCreateTransform(inks.handle(), TYPE_CMYK_FLT, lab, TYPE_Lab_FLT,
                                               INTENT_RELATIVE_COLORIMETRIC, kExact));
  const Transform from_carrier(cmsCreateTransform(carrier.handle(), TYPE_RGB_FLT, lab, TYPE_Lab_FLT,
                                                  INTENT_RELATIVE_COLORIMETRIC, kExact));
  cmsCloseProfile(lab);
  double worst = 0;
  for (uint32_t i = 0; i < 40 * 30; ++i) {
    uint16_t rgb[3];
    std::memcpy(rgb, &buffer_of(opened, "preview")[i * 6], 6);
    const float carried[3] = {rgb[0] / 65535.0f, rgb[1] / 65535.0f, rgb[2] / 65535.0f};
    float ink[4], one[3], two[3];
    for (uint32_t c = 0; c < 4; ++c) ink[c] = float(ramp_sample(i % 40, i / 40, c)) / 655.35f;
    cmsDoTransform(from_inks.get(), ink, one, 1);
    cmsDoTransform(from_carrier.get(), carried, two, 1);
    worst = std::max(worst, delta_e_2000({one[0], one[1], one[2]}, {two[0], two[1], two[2]}));
  }
  INFO("worst dE00 " << worst);
  CHECK(worst < 0.5);
}

TEST_CASE("a profile for another kind of picture is left aside, and that is said") {
  const Bytes wrong = ramp_tiff(20, 20, file_bytes(kCmykProfile));
  const Json json = answer_of(perform(R"({"op":"open"})", with_master(wrong), {}));
  CHECK(flag_of(json, "assumed", false));
  CHECK(dump_json(json["notes"]).find("left aside") != std::string::npos);
}

TEST_CASE("cubes: quick, refined for the picture, and of the master alone") {
  auto files = with_master(ramp_tiff(60, 40, standard_profile("oprgb").value().bytes()));
  const auto opened = perform(R"({"op":"open"})", files, {});
  answer_of(opened);
  files.profile = memory("profile", buffer_of(opened, "profile"));
  const auto alone = perform(R"({"op":"cube","grid":17})", files, {});
  CHECK(number_of(answer_of(alone), "grid", 0) == 17);
  files.paper = memory("paper.icc", file_bytes(kDemo + "papers/tarnsea-baryta.icc"));
  const auto quick = perform(R"({"op":"cube","grid":33,"intent":"perceptual"})", files, {});
  answer_of(quick);
  auto cube = unpack_cube(buffer_of(quick, "cube"));
  REQUIRE(cube);
  std::vector<uint16_t> rgb(60 * 40 * 3);
  std::memcpy(rgb.data(), buffer_of(opened, "preview").data(), rgb.size() * 2);
  files.blocks = memory("blocks", blocks_used(cube.value(), rgb));
  files.picture = memory("picture", buffer_of(opened, "preview"));
  const auto fine = perform(R"({"op":"cube","grid":65,"intent":"perceptual"})", files, {});
  const Json said = answer_of(fine);
  CHECK(flag_of(said, "refined", false));
  // The counts are those of the proof's own fourth byte.
  auto refined = unpack_cube(buffer_of(fine, "cube"));
  REQUIRE(refined);
  std::vector<uint8_t> shown(rgb.size() / 3 * 4);
  proof_to_screen8(refined.value(), std::span<const uint16_t>(rgb), shown);
  for (size_t threshold = 0; threshold <= OffGamut::kMost; ++threshold) {
    uint32_t off = 0;
    for (size_t i = 3; i < shown.size(); i += 4) off += shown[i] >= threshold * 10 ? 1 : 0;
    CHECK(said["off_gamut"][threshold] == off);
  }
  CHECK(said["off_gamut"][0] == 60 * 40);
  CHECK(count_off_gamut(refined.value(), rgb, 7).at_least[0] == (60 * 40 + 6) / 7);
  files.blocks = memory("blocks", Bytes(5));
  CHECK_FALSE(perform(R"({"op":"cube","grid":65})", files, {}).ok());
}

TEST_CASE("a crop is the master's own pixels, and only inside of it") {
  auto files = with_master(ramp_tiff(90, 70, standard_profile("srgb").value().bytes()));
  const auto crop = perform(R"({"op":"crop","x":11,"y":23,"width":30,"height":20})", files, {});
  answer_of(crop);
  const Bytes& pixels = buffer_of(crop, "pixels");
  REQUIRE(pixels.size() == 30 * 20 * 6);
  uint16_t sample;
  std::memcpy(&sample, &pixels[(5 * 30 + 7) * 6 + 2], 2);
  CHECK(sample == ramp_sample(18, 28, 1));
  for (const char* bad : {R"({"op":"crop","x":80,"y":0,"width":30,"height":20})",
                          R"({"op":"crop","x":0,"y":0,"width":0,"height":20})",
                          R"({"op":"crop","x":4294967295,"y":0,"width":2,"height":2})"}) {
    CHECK_FALSE(perform(bad, files, {}).ok());
  }
}

TEST_CASE("requests that make no sense are sentences, never a crash") {
  const WorkFiles files = with_master(ramp_tiff(10, 10, {}));
  for (const char* bad :
       {"", "{", "[]", "17", R"({"op":7})", R"({"op":"fly"})", R"({"op":"deliver"})",
        R"({"op":"cube"})", R"({"op":"paper"})", R"({"op":"paper","space":"nowhere"})",
        R"({"op":"deliver","format":"gif"})", R"({"op":"deliver","intent":"vivid"})",
        R"({"op":"deliver","format":"jpeg","bits":16})"}) {
    const auto answer = perform(bad, files, {});
    REQUIRE_FALSE(answer.ok());
    CHECK(answer.error().message.ends_with("."));
  }
  CHECK_FALSE(perform(R"({"op":"open"})", {}, {}).ok());
  CHECK_FALSE(perform(R"({"op":"open"})", with_master(Bytes{'h', 'i'}, "hi.jpg"), {}).ok());
}

TEST_CASE("a delivery shared out to makers is the same file, whoever made which band") {
  const Bytes paper = read_file(kDemo + "papers/tarnsea-baryta.icc", 1 << 24).take();
  // More pixels than the delivery's cube has nodes, and a last band that is not whole.
  const Bytes master = ramp_tiff(1100, 900, standard_profile("romm").value().bytes());
  for (const std::string request :
       {R"({"op":"deliver","intent":"perceptual","seed":3})",
        R"({"op":"deliver","format":"tiff","bits":16,"intent":"perceptual"})"}) {
    const auto files_for = [&](MemorySink& sink) {
      WorkFiles files = with_master(master);
      files.paper = memory("paper.icc", paper);
      files.sink = &sink;
      files.reopen = [&sink]() -> Result<std::shared_ptr<ByteSource>> {
        return memory("print", sink.bytes());
      };
      return files;
    };
    MemorySink at_once, in_steps;
    const WorkFiles files = files_for(at_once), again = files_for(in_steps);
    const Json expected = answer_of(perform(request, files, {}));

    auto shared = SharedDelivery::open(request, again);
    REQUIRE(shared);
    WorkFiles for_makers;
    for_makers.profile = memory("profile", shared.value()->master_profile());
    for_makers.paper = memory("paper.icc", paper);
    auto one = open_maker(shared.value()->maker_request(), for_makers);
    auto two = open_maker(shared.value()->maker_request(), for_makers);
    REQUIRE(one);
    REQUIRE(two);
    const uint32_t bands = shared.value()->bands();
    REQUIRE(bands == 29);
    std::vector<Bytes> made(bands);
    for (uint32_t band = 0; band < bands; ++band) {
      const auto rgb = shared.value()->read(band);
      REQUIRE(rgb);
      auto result = band % 3 == 0   ? shared.value()->make()
                    : band % 3 == 1 ? one.value()->make(band, rgb.value())
                                    : two.value()->make(band, rgb.value());
      REQUIRE(result);
      made[band] = result.take();
    }
    // A band whose maker was lost is read again and made here.
    REQUIRE(shared.value()->read(4));
    CHECK(shared.value()->make().value() == made[4]);
    for (const Bytes& band : made) REQUIRE(shared.value()->join(band).ok());
    std::vector<double> told;
    const Json found = answer_of(shared.value()->finish(1, [&](double share) {
      told.push_back(share);
      return true;
    }));
    // Goes on where writing ended, and never back.
    REQUIRE(told.size() > 2);
    CHECK(told.front() >= kWritingShare);
    CHECK(std::is_sorted(told.begin(), told.end()));
    CHECK(told.back() <= 1);
    CHECK(in_steps.bytes() == at_once.bytes());
    CHECK(number_of(found, "mean", -1) == number_of(expected, "mean", -2));
    CHECK(number_of(found, "samples", -1) == number_of(expected, "samples", -2));
    CHECK(text_of(found, "sentence").find("stopped on the way") != std::string::npos);
  }
}

TEST_CASE("what was read of a master that changed meanwhile is neither shown nor delivered") {
  class Changed final : public ByteSource {
   public:
    explicit Changed(std::shared_ptr<ByteSource> was) : was_(std::move(was)) {}
    const std::string& name() const override { return was_->name(); }
    uint64_t size() const override { return was_->size(); }
    Result<size_t> read_at(uint64_t offset, std::span<uint8_t> into) override {
      return was_->read_at(offset, into);
    }
    Status unchanged() override { return Error{std::string("It changed.")}; }

   private:
    std::shared_ptr<ByteSource> was_;
  };
  WorkFiles files = with_master(ramp_tiff(100, 80, standard_profile("romm").value().bytes()));
  files.master = std::make_shared<Changed>(files.master);
  files.paper = memory("paper.icc", standard_profile("srgb").value().bytes());
  MemorySink sink;
  files.sink = &sink;
  files.reopen = [&sink]() -> Result<std::shared_ptr<ByteSource>> {
    return memory("print", sink.bytes());
  };
  for (const char* request : {R"({"op":"open"})", R"({"op":"deliver"})"}) {
    const auto answer = perform(request, files, {});
    REQUIRE_FALSE(answer.ok());
    CHECK(answer.error().message == "It changed.");
  }
  auto shared = SharedDelivery::open(R"({"op":"deliver"})", files);
  REQUIRE(shared);
  for (uint32_t band = 0; band < shared.value()->bands(); ++band) {
    REQUIRE(shared.value()->read(band));
    REQUIRE(shared.value()->join(shared.value()->make().value()).ok());
  }
  const auto finished = shared.value()->finish(0, {});
  REQUIRE_FALSE(finished.ok());
  CHECK(finished.error().message == "It changed.");
}

TEST_CASE("a maker that is asked for nonsense says so") {
  const WorkFiles none;
  for (const char* request : {"", "{}", R"({"op":"deliver","width":10,"height":10})"}) {
    CHECK_FALSE(open_maker(request, none).ok());
    CHECK_FALSE(SharedDelivery::open(request, none).ok());
  }
  WorkFiles files;
  files.profile = memory("profile", standard_profile("romm").value().bytes());
  files.paper = memory("paper.icc", standard_profile("srgb").value().bytes());
  CHECK_FALSE(open_maker(R"({"width":0,"height":10})", files).ok());
  CHECK_FALSE(open_maker(R"({"width":1e9,"height":1e9})", files).ok());
  auto maker = open_maker(R"({"width":10,"height":38})", files);
  REQUIRE(maker);
  CHECK_FALSE(maker.value()->make(2, std::vector<uint16_t>(300)).ok());
  CHECK_FALSE(maker.value()->make(1, std::vector<uint16_t>(300)).ok());
  CHECK(maker.value()->make(1, std::vector<uint16_t>(180)).ok());
}
