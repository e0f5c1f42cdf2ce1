// The requests and the command that choose a paper, as the page and a person make them.
#include <sys/wait.h>

#include <cstdlib>
#include <cstring>
#include <filesystem>

#include "job/choice_work.h"
#include "rank_papers.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

const Bytes& buffer_of(const Result<Answer>& answer, const std::string& name) {
  for (const auto& buffer : answer.value().buffers) {
    if (buffer.name == name) return buffer.bytes;
  }
  FAIL("no buffer " << name);
  return answer.value().buffers[0].bytes;
}

Json json_of(const Result<Answer>& answer) {
  REQUIRE_MESSAGE(answer.ok(), (answer.ok() ? "" : answer.error().message));
  return parse_json(answer.value().json);
}

// Opened, and its facts found, as the page does.
WorkFiles looked_at(const Bytes& master) {
  WorkFiles files;
  files.master = memory("picture.tif", master);
  const auto opened = perform(R"({"op":"open"})", files, {});
  const Json json = json_of(opened);
  WorkFiles next;
  next.profile = memory("profile", buffer_of(opened, "profile"));
  next.picture = memory("picture", buffer_of(opened, "preview"));
  const Json request{{"op", "picture_facts"},
                     {"width", json["preview_width"]},
                     {"height", json["preview_height"]}};
  const auto facts = perform(dump_json(request), next, {});
  CHECK(text_of(json_of(facts), "kind") == "picture_facts");
  next.facts = memory("facts", buffer_of(facts, "facts"));
  return next;
}

}  // namespace

TEST_CASE("card: numbers and a mesh whose buffers fit together") {
  WorkFiles files;
  files.paper = memory("paper.icc", file_bytes(kDemo + "papers/tarnsea-baryta.icc"));
  const auto answer = perform(R"({"op":"card"})", files, {});
  const Json json = json_of(answer);
  CHECK(text_of(json, "kind") == "card");
  CHECK(number_of(json, "density_range") ==
        doctest::Approx(number_of(json, "black_density") - number_of(json, "white_density")));
  CHECK(number_of(json, "gamut_volume") > 100'000);
  CHECK(json["slices"].size() == 3);
  CHECK(json["slices"][1]["polygon"].size() > 20);
  const size_t vertices = buffer_of(answer, "vertices").size() / 12;
  CHECK(buffer_of(answer, "colours").size() == vertices * 4);
  const Bytes& triangles = buffer_of(answer, "triangles");
  REQUIRE(triangles.size() % 12 == 0);
  bool inside = true;
  for (size_t i = 0; i < triangles.size(); i += 4) {
    uint32_t vertex;
    std::memcpy(&vertex, &triangles[i], 4);
    inside = inside && vertex < vertices;
  }
  CHECK(inside);
  const Json space = json_of(perform(R"({"op":"card","space":"p3"})", {}, {}));
  CHECK(flag_of(space, "working_space"));
  CHECK(space["faults"].empty());
  CHECK_FALSE(perform(R"({"op":"card"})", {}, {}).ok());
}

TEST_CASE("judge: what is answered can be read back and ranked") {
  WorkFiles files = looked_at(ramp_tiff(160, 120, standard_profile("oprgb").value().bytes()));
  std::vector<Judged> judged;
  for (const std::string name : {"plainside-office", "tarnsea-baryta"}) {
    files.paper = memory(name, file_bytes(kDemo + "papers/" + name + ".icc"));
    const auto answer = perform(R"({"op":"judge"})", files, {});
    const Json json = json_of(answer);
    CHECK(text_of(json, "kind") == "judged");
    CHECK(json["variants"].size() == 3);
    CHECK(buffer_of(answer, "thumbnail").size() ==
          size_t(json["thumbnail"]["width"]) * size_t(json["thumbnail"]["height"]) * 4);
    CHECK(buffer_of(answer, "difference").size() ==
          size_t(json["difference"]["width"]) * size_t(json["difference"]["height"]));
    CHECK(buffer_of(answer, "off_gamut").size() == 64 * 64);
    auto back = judged_from_json(json);
    REQUIRE(back);
    // There and back again is the same, but for the sizes of the pictures.
    Json again = proofleaf::json_of(Judgement{back.value(), {}});
    again["thumbnail"] = json["thumbnail"];
    again["difference"] = json["difference"];
    CHECK(again == json);
    judged.push_back(back.take());
  }
  CHECK(rank(judged)[0].index == 1);
  const Json grey = json_of(perform(R"({"op":"judge","space":"srgb"})", files, {}));
  CHECK(grey["variants"].size() == 2);
}

TEST_CASE("a grey and a CMYK master are looked at like any other") {
  const Bytes grey_icc = file_bytes("/usr/share/color/icc/ghostscript/sgray.icc");
  for (const Bytes& master : {ramp_tiff(60, 40, grey_icc, {}, ColourModel::grey),
                              ramp_tiff(60, 40, file_bytes(kCmykProfile), {}, ColourModel::cmyk)}) {
    WorkFiles files = looked_at(master);
    files.paper = memory("press.icc", file_bytes(kCmykProfile));
    const Json json = json_of(perform(R"({"op":"judge"})", files, {}));
    CHECK(text_of(json, "model") == "CMYK");
  }
}

TEST_CASE("what cannot be looked at or judged is a sentence") {
  WorkFiles files = looked_at(ramp_tiff(30, 20, standard_profile("srgb").value().bytes()));
  for (const char* bad :
       {R"({"op":"picture_facts"})", R"({"op":"picture_facts","width":30,"height":21})",
        R"({"op":"picture_facts","width":-1,"height":"x"})", R"({"op":"judge"})",
        R"({"op":"judge","space":"nowhere"})"}) {
    const auto answer = perform(bad, files, {});
    REQUIRE_FALSE(answer.ok());
    CHECK(answer.error().message.ends_with("."));
  }
  files.facts = memory("facts", Bytes(1000));
  CHECK_FALSE(perform(R"({"op":"judge","space":"srgb"})", files, {}).ok());
  files.facts = nullptr;
  CHECK_FALSE(perform(R"({"op":"judge","space":"srgb"})", files, {}).ok());
  CHECK_FALSE(perform(R"({"op":"judge","space":"srgb"})", {}, {}).ok());
  for (const char* wrong : {"{}", R"({"kind":"judged"})", R"({"kind":"judged","variants":[]})",
                            R"({"kind":"judged","variants":7})", "[1]"}) {
    CHECK_FALSE(judged_from_json(parse_json(wrong)).ok());
  }
  const auto odd =
      judged_from_json(parse_json(R"({"kind":"judged","variants":[{},3],"best":9,"paper":4})"));
  REQUIRE(odd);
  CHECK(odd.value().best_at == 1);
}

TEST_CASE("the command ranks papers in a table and in JSON") {
  namespace fs = std::filesystem;
  const fs::path out = fs::temp_directory_path() / "proofleaf-rank.txt";
  auto run = [&](const std::string& words) {
    const int status = std::system(
        (std::string(PROOFLEAF_TOOL) + " rank " + words + " >" + out.string() + " 2>&1").c_str());
    const Bytes bytes = file_bytes(out.string());
    fs::remove(out);
    return std::pair(WEXITSTATUS(status), std::string(bytes.begin(), bytes.end()));
  };
  const std::string picture = kDemo + "stairwell.png", papers = kDemo + "papers/";
  const auto [status, text] =
      run(picture + " " + papers + "plainside-office.icc " + papers + "tarnsea-baryta.icc");
  CHECK(status == 0);
  CHECK(text.find("Tarnsea Baryta") < text.find("Plainside Office"));
  CHECK(text.find("shadow") != std::string::npos);
  const auto [json_status, json_text] =
      run(picture + " srgb " + papers + "owlbrook-pearl.icc --json");
  CHECK(json_status == 0);
  CHECK(parse_json(json_text)["order"].size() == 2);
  // One bad paper does not keep the others from being ranked.
  const auto [bad_status, bad_text] = run(picture + " " + picture + " srgb");
  CHECK(bad_status == 1);
  CHECK(bad_text.find("stairwell.png") != std::string::npos);
  CHECK(bad_text.find("sRGB") != std::string::npos);
  CHECK(run(picture).first == 2);
}

TEST_CASE("difference: of the best way it is the one judge() answers, of others another") {
  WorkFiles files = looked_at(ramp_tiff(160, 120, standard_profile("oprgb").value().bytes()));
  files.paper = memory("paper.icc", file_bytes(kDemo + "papers/tarnsea-baryta.icc"));
  const auto judged = perform(R"({"op":"judge"})", files, {});
  const Json json = json_of(judged);
  for (size_t i = 0; i < json["variants"].size(); ++i) {
    const Json request{
        {"op", "difference"},
        {"intent", json["variants"][i]["intent"]},
        {"black_point_compensation", json["variants"][i]["black_point_compensation"]}};
    const auto answer = perform(dump_json(request), files, {});
    CHECK(json_of(answer)["difference"] == json["difference"]);
    const bool same = buffer_of(answer, "difference") == buffer_of(judged, "difference");
    CHECK(same == (i == size_t(json["best"])));
  }
  CHECK_FALSE(perform(R"({"op":"difference","intent":"vivid"})", files, {}).ok());
  files.facts = nullptr;
  CHECK_FALSE(perform(R"({"op":"difference"})", files, {}).ok());
}
