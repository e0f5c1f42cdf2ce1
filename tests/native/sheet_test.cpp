// Jobs: kept as JSON and printed as a page.
#include <functional>

#include "base/sha256.h"
#include "job/work.h"
#include "pictures.h"
#include "sheet/job.h"
#include "strip_files.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

const std::string kDigest(64, 'a');
constexpr char kHostile[] = "<script>alert('x')</script>&\"\x01.tif";

Job full_job() {
  Job job;
  job.date = "25 November 2026";
  job.master = {"hillside.tif", 11664, 8750, 16, kDigest};
  job.paper = {"Tarnsea Baryta", kDigest};
  job.intent = {Intent::perceptual, true};
  job.recipe = sized_recipe();
  job.recipe.correction.saturation = 8;
  job.print = {Container::tiff, 16, 90, false, 240.5, true};
  job.deliveries.push_back(
      {"hillside-print.tif", "Owlbrook Pearl", 3'000'000'123, kDigest, 1200, 900.5, 0.1, 0.3, 2});
  job.edition = JobEdition{3, 12};
  job.currency = "EUR";
  job.costs = {{"print", 480.5}, {"frame", 210}, {"discount", -20.25}, {"stamp", 1.5, 12}};
  job.notes = "Call before sending.\nRoll, not flat.";
  JobReturned returned;
  returned.size = {Looked::ok, "1 mm over"};
  returned.marks = {Looked::wrong, "a nick, lower left"};
  JobSeen seen;
  seen.name = "back.jpg";
  seen.match = 0.875;
  seen.size.verdict = returned::Found::wrong;
  seen.size.wider = 1.5, seen.size.wider_within = 0.5;
  seen.size.cut = {8.5, std::nullopt, -0.5, std::nullopt};
  seen.size.cut_within = 1;
  seen.cast.verdict = returned::Found::look;
  seen.cast.white = returned::WhiteFrom::border;
  seen.cast.greys[1] = {50, 2.5, -1.25, 0.25};
  seen.cast.largest = 2.75;
  seen.shadow.verdict = returned::Found::look;
  seen.shadow.closed_until = 14;
  seen.marks.verdict = returned::Found::wrong;
  seen.marks.least_mm = 1.5;
  seen.marks.marks = {{returned::MarkKind::scratch, 0.25, 0.5, 0.125, 0.0625, 40, 1, -9}};
  returned.seen = seen;
  returned.measured = JobMeasured{31, 1.25, 2.5, 4, Verdict::good};
  print::PaperCorrection reading;
  reading.offsets = {{5, 1, 0.5, -0.5}, {95, -1, 0, 0}};
  reading.sentences = {"Its white measures as predicted."};
  returned.reading = reading;
  job.returned = returned;
  return job;
}

std::string refusal(const std::string& text) {
  const auto job = job_from_text(text);
  REQUIRE_FALSE_MESSAGE(job.ok(), text.substr(0, 200));
  return job.error().message;
}

std::string spoiled(const std::function<void(Json&)>& spoil) {
  Json json = json_of(full_job());
  spoil(json);
  return refusal(dump_json(json));
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("job: as text and back it is the same, in full and as small as can be") {
  const std::string text = job_text(full_job());
  const auto again = job_from_text(text);
  REQUIRE_MESSAGE(again.ok(), (again.ok() ? "" : again.error().message));
  CHECK(job_text(again.value()) == text);
  CHECK(again.value().deliveries[0].bytes == 3'000'000'123);
  CHECK(again.value().recipe.size.width_mm == 120);
  CHECK(again.value().returned->marks.found == Looked::wrong);
  CHECK(again.value().returned->reading->offsets[1].dl == -1);

  const auto least =
      job_from_text(R"({"proofleaf_job":1,"master":{"name":"a.tif"},"paper":{"name":"matte"}})");
  REQUIRE_MESSAGE(least.ok(), (least.ok() ? "" : least.error().message));
  const auto least_again = job_from_text(job_text(least.value()));
  REQUIRE_MESSAGE(least_again.ok(), (least_again.ok() ? "" : least_again.error().message));
  CHECK(job_text(least_again.value()) == job_text(least.value()));
  CHECK_FALSE(least.value().edition);
  CHECK_FALSE(least.value().returned);
}

TEST_CASE("job: what is wrong with one is said") {
  for (const char* text : {"", "[]", "7", "{}", "{\"proofleaf_job\":\"1\"}", "\xFF\xFE"}) {
    CHECK(refusal(text) == "This is not a job of Proofleaf's.");
  }
  CHECK(refusal(std::string(kLargestJob + 1, ' ')) == "This file is larger than a job can be.");
  CHECK_FALSE(refusal(std::string(200'000, '[')).empty());
  CHECK_FALSE(refusal("{\"proofleaf_job\":1,\"master\":" + std::string(200'000, '[')).empty());
  CHECK(holds(refusal(R"({"proofleaf_job":3})"), "version"));
  CHECK(holds(refusal(R"({"proofleaf_job":1e99})"), "not a job"));
  CHECK(holds(refusal(R"({"proofleaf_job":1,"paper":{"name":"m"}})"), "master"));
  CHECK(holds(refusal(R"({"proofleaf_job":1,"master":{"name":"m"}})"), "paper"));

  CHECK(holds(spoiled([](Json& j) { j["glow"] = 1; }), "glow"));
  CHECK(holds(spoiled([](Json& j) { j["master"] = 1; }), "master"));
  CHECK(holds(spoiled([](Json& j) { j["master"]["name"] = 5; }), "name"));
  CHECK(holds(spoiled([](Json& j) { j["master"]["width"] = 1e300; }), "width"));
  CHECK(holds(spoiled([](Json& j) { j["master"]["width"] = 10.5; }), "width"));
  CHECK(holds(spoiled([](Json& j) { j["master"]["height"] = -1; }), "height"));
  CHECK(holds(spoiled([](Json& j) { j["master"]["sha256"] = "12AB"; }), "sha256"));
  CHECK(holds(spoiled([](Json& j) { j["master"]["sha256"] = std::string(64, 'g'); }), "sha256"));
  CHECK(holds(spoiled([](Json& j) { j["master"]["pixels"] = "AAAA"; }), "pixels"));
  CHECK(holds(spoiled([](Json& j) { j["paper"]["name"] = std::string(256, 'x'); }), "name"));
  CHECK(holds(spoiled([](Json& j) { j["intent"] = "best"; }), "intent"));
  CHECK(holds(spoiled([](Json& j) { j["recipe"]["grain"]["seed"] = "x"; }), "seed"));
  CHECK(holds(spoiled([](Json& j) { j["recipe"]["proofleaf_recipe"] = 9; }), "version"));
  CHECK(holds(spoiled([](Json& j) { j["print"]["bits"] = 12; }), "bits"));
  CHECK(holds(spoiled([](Json& j) { j["print"]["format"] = "png"; }), "format"));
  CHECK(holds(spoiled([](Json& j) { j["deliveries"] = "all"; }), "deliveries"));
  CHECK(holds(spoiled([](Json& j) { j["deliveries"] = Json::array({1}); }), "delivery"));
  CHECK(holds(spoiled([](Json& j) { j["deliveries"][0]["bytes"] = 1e20; }), "bytes"));
  CHECK(holds(spoiled([](Json& j) { j["deliveries"][0]["width_mm"] = 1e9; }), "width_mm"));
  CHECK(holds(spoiled([](Json& j) { j["costs"] = Json::array_t(101, {{"what", "x"}}); }), "costs"));
  CHECK(holds(spoiled([](Json& j) { j["costs"][1]["amount"] = "210"; }), "amount"));
  CHECK(holds(spoiled([](Json& j) { j["edition"]["number"] = 13; }), "edition of 12"));
  CHECK(holds(spoiled([](Json& j) { j["notes"] = std::string(10'001, 'x'); }), "notes"));
  CHECK(holds(spoiled([](Json& j) { j["currency"] = std::string(41, 'x'); }), "currency"));
  CHECK(holds(spoiled([](Json& j) { j["returned"] = false; }), "returned"));
  CHECK(holds(spoiled([](Json& j) { j["returned"]["size"]["found"] = true; }), "found"));
  CHECK(holds(spoiled([](Json& j) { j["returned"]["measured"]["mean"] = nullptr; }), "mean"));
  CHECK(holds(spoiled([](Json& j) { j["returned"]["reading"]["offsets"] = 1; }), "offsets"));
  const auto spoiled_seen = [](const std::function<void(Json&)>& spoil) {
    return spoiled([&](Json& j) { spoil(j["returned"]["seen"]); });
  };
  CHECK(holds(spoiled_seen([](Json& j) { j = 7; }), "print seen"));
  CHECK(holds(spoiled_seen([](Json& j) { j["name"] = ""; }), "no name"));
  CHECK(holds(spoiled_seen([](Json& j) { j["pixels"] = "AAAA"; }), "pixels"));
  CHECK(holds(spoiled_seen([](Json& j) { j["match"] = 1.5; }), "match"));
  CHECK(holds(spoiled_seen([](Json& j) { j["size"]["verdict"] = "best"; }), "verdict"));
  CHECK(holds(spoiled_seen([](Json& j) { j["size"]["cut"][0] = "all"; }), "cut"));
  CHECK(holds(spoiled_seen([](Json& j) { j["size"]["cut"][0] = 1e300; }), "cut"));
  CHECK(holds(spoiled_seen([](Json& j) { j["size"]["cut"] = Json::array_t(5, 1); }), "cut"));
  CHECK(holds(spoiled_seen([](Json& j) { j["cast"]["greys"][0] = 1; }), "grey"));
  CHECK(holds(spoiled_seen([](Json& j) { j["cast"]["white"] = "snow"; }), "white"));
  CHECK(holds(spoiled_seen([](Json& j) { j["shadow"]["closed_until"] = -3; }), "closed_until"));
  CHECK(holds(spoiled_seen([](Json& j) { j["marks"]["marks"][0]["x"] = 2; }), "x"));
  CHECK(holds(spoiled_seen([](Json& j) { j["marks"]["marks"] = Json::array_t(101, Json()); }),
              "marks"));
}

TEST_CASE("job: one of the version before is read, too") {
  Json old = json_of(full_job());
  old["proofleaf_job"] = 1;
  old["returned"].erase("seen");
  const auto job = job_from_json(old);
  REQUIRE_MESSAGE(job.ok(), (job.ok() ? "" : job.error().message));
  CHECK_FALSE(job.value().returned->seen);
  CHECK(job.value().returned->marks.note == "a nick, lower left");
}

TEST_CASE("job: no shortened or altered text crashes the reader") {
  const std::string text = job_text(full_job());
  size_t refused = 0;
  for (size_t length = 0; length + 2 < text.size(); length += 7) {
    refused += !job_from_text(text.substr(0, length)).ok();
  }
  CHECK(refused == (text.size() - 3) / 7 + 1);
  for (size_t at = 0; at < text.size(); at += 3) {
    std::string other = text;
    other[at] = static_cast<char>(other[at] ^ 0x15);
    const auto job = job_from_text(other);
    CHECK((job.ok() || job.error().message.back() == '.'));
  }
}

TEST_CASE("job sheet: it says what the job holds") {
  const std::string page = job_sheet_html(full_job());
  for (const char* part : {"hillside.tif",
                           "Tarnsea Baryta",
                           "Number 3 of 12",
                           "25 November 2026",
                           "perceptual",
                           "TIFF, 16 bits, 240.5 pixels per inch",
                           "hillside-print.tif",
                           "3000000123",
                           "Costs",
                           "12\u00a0×\u00a01.50\u00a0EUR = 18.00\u00a0EUR",
                           "688.25\u00a0EUR",
                           "Owlbrook Pearl",
                           "1 mm over",
                           "a nick, lower left",
                           "31 patches",
                           "Call before sending.",
                           "Its white measures as predicted.",
                           "corrected, sized",
                           "back.jpg",
                           "8.5 mm missing at the left",
                           "up to 2.8 C*",
                           "one tone up to L* 14",
                           "1 of 1.5 mm or more"}) {
    CHECK_MESSAGE(holds(page, part), part);
  }
  CHECK(holds(page, "default-src 'none'"));
  // A new job has no empty sections.
  Job fresh;
  fresh.master.name = "a.tif";
  fresh.paper.name = "matte";
  const std::string small = job_sheet_html(fresh);
  for (const char* part : {"Costs", "Handed over", "came back", "Notes", "SHA-256"}) {
    CHECK_FALSE(holds(small, part));
  }
}

TEST_CASE("job sheet: no text of a job becomes markup") {
  Job job = full_job();
  job.date = job.master.name = job.paper.name = job.currency = job.notes = kHostile;
  job.master.sha256 = job.paper.sha256 = kHostile;
  job.deliveries[0].name = job.deliveries[0].sha256 = job.costs[0].what = kHostile;
  job.returned->cast.note = job.returned->reading->sentences[0] = kHostile;
  job.returned->seen->name = kHostile;
  const std::string page = job_sheet_html(job);
  CHECK_FALSE(holds(page, "<script"));
  CHECK_FALSE(holds(page, "alert('"));
  CHECK_FALSE(holds(page, "\x01"));
  CHECK(holds(page, "&lt;script&gt;"));
}

TEST_CASE("digest: the master's and the written file's") {
  StripFiles files(60, 50, "papers/tarnsea-baryta.icc");
  const auto answer = perform(R"({"op":"digest"})", files.files(), {});
  REQUIRE(answer);
  const Json json = parse_json(answer.value().json);
  Sha256 sum;
  sum.add(ramp_tiff(60, 50, standard_profile("srgb").value().bytes()));
  CHECK(text_of(json, "kind") == "digest");
  CHECK(text_of(json, "name") == "ramps.tif");
  CHECK(text_of(json, "sha256") == sum.finish());
  const Json delivered = files.deliver({{"op", "deliver"}, {"format", "jpeg"}});
  Sha256 written;
  written.add(files.written());
  CHECK(text_of(delivered, "sha256") == written.finish());
  CHECK_FALSE(perform(R"({"op":"digest"})", {}, {}).ok());
}
