// Names of print files.
#include "sheet/names.h"

#include <set>

#include "pictures.h"
#include "strip_files.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

constexpr char kPattern[] = "{master}-{paper}-{width}x{height}cm-{edition}";

NameValues some_values() {
  NameValues values;
  values.master = "hillside.v2.tif";
  values.paper = "Tarnsea Baryta";
  values.width_cm = 120;
  values.height_cm = 90.3;
  values.edition = "3 of 12";
  return values;
}

std::string named(const std::string& pattern, const NameValues& values = some_values()) {
  const auto name = name_from_pattern(pattern, values);
  REQUIRE_MESSAGE(name.ok(), (name.ok() ? "" : name.error().message));
  return name.value();
}

std::string of_master(const std::string& master) {
  NameValues values;
  values.master = master;
  return named("{master}", values);
}

std::string refusal(const std::string& pattern) {
  const auto name = name_from_pattern(pattern, some_values());
  REQUIRE_FALSE(name.ok());
  return name.error().message;
}

BatchItem item_on(const std::string& paper, double width_mm) {
  BatchItem item{paper, "", sized_recipe()};
  item.recipe.size.width_mm = width_mm;
  return item;
}

Job hillside() {
  Job job;
  job.master.name = "hillside.tif";
  job.master.width = 4000;
  job.master.height = 3000;
  return job;
}

}  // namespace

TEST_CASE("names: a pattern is filled in") {
  CHECK(named(kPattern) == "hillside.v2-Tarnsea-Baryta-120x90.3cm-3-of-12");
  NameValues values = some_values();
  values.edition.clear();  // leaves no stroke behind
  CHECK(named(kPattern, values) == "hillside.v2-Tarnsea-Baryta-120x90.3cm");
  CHECK(named("plain") == "plain");
  CHECK(named("{variant}{ppi}{date}x") == "x");
}

TEST_CASE("names: whatever they are made of, they are safe") {
  CHECK(of_master("../../etc/passwd.tif") == "etc-passwd");
  CHECK(of_master("a\\b:c*d?e\"f<g>h|i.tif") == "a-b-c-d-e-f-g-h-i");
  CHECK(of_master(std::string("a\0b\n\x7F c.tif", 11)) == "a-b-c");
  CHECK(of_master("Mühle 丘.tif") == "Mühle-丘");
  CHECK(of_master("x\u202Egnp.tif") == "x-gnp");  // right-to-left override
  CHECK(of_master("bad\xFF\xC3.tif") == "bad");
  CHECK(of_master("con.tif") == "_con");
  CHECK(of_master("COM1.x.tif") == "_COM1.x");
  CHECK(of_master("...hidden.tif") == "hidden");
  const std::string many = of_master("ü" + std::string(400, 'a'));
  CHECK(many.size() <= kLongestFileName);
  std::string wide;
  for (int i = 0; i < 200; ++i) wide += "丘";
  CHECK(of_master(wide).size() == kLongestFileName);  // three bytes each, none cut in half
}

TEST_CASE("names: a wrong pattern is said") {
  CHECK(refusal("{master}-{glow}").find("{glow}") != std::string::npos);
  CHECK(refusal("{Master}").find("{Master}") != std::string::npos);
  CHECK(refusal("{}").find("{}") != std::string::npos);
  CHECK(refusal("{master").find("{ ") != std::string::npos);
  CHECK(refusal("master}").find("} ") != std::string::npos);
  CHECK(refusal(std::string(501, 'a')).find("too long") != std::string::npos);
  CHECK(refusal("").find("nothing") != std::string::npos);
  CHECK(refusal("///").find("nothing") != std::string::npos);
}

TEST_CASE("batch: names never collide and sizes are the plans'") {
  Job job = hillside();
  const std::vector<BatchItem> items{item_on("Matte", 300), item_on("matte", 300),
                                     item_on("Baryta", 300), item_on("Matte", 400),
                                     item_on("Matte", 300)};
  const auto batch = plan_batch("{master}-{paper}-{width}", job, items);
  REQUIRE_MESSAGE(batch.ok(), (batch.ok() ? "" : batch.error().message));
  std::vector<std::string> names;
  for (const BatchPrint& each : batch.value()) names.push_back(each.name);
  CHECK(names == std::vector<std::string>{"hillside-Matte-30.jpg", "hillside-matte-30-2.jpg",
                                          "hillside-Baryta-30.jpg", "hillside-Matte-40.jpg",
                                          "hillside-Matte-30-3.jpg"});
  CHECK(batch.value()[3].plan.width == std::lround(400 / 25.4 * 200));
  job.print.container = Container::tiff;
  const std::vector<std::string> taken{"HILLSIDE.tif", "hillside-2.tif"};
  const auto again = plan_batch("{master}", job, std::span(items).first(2), taken);
  REQUIRE(again);
  CHECK(again.value()[0].name == "hillside-3.tif");
  CHECK(again.value()[1].name == "hillside-4.tif");
  job.edition = JobEdition{2, 9};
  const auto edition = plan_batch("{master}-{edition}", job, std::span(items).first(1));
  REQUIRE(edition);
  CHECK(edition.value()[0].name == "hillside-2-of-9.tif");
}

TEST_CASE("batch: what cannot be is said") {
  const Job job = hillside();
  CHECK_FALSE(plan_batch("{master}", job, {}).ok());
  CHECK_FALSE(plan_batch("{master}", job, std::vector<BatchItem>(101, item_on("Matte", 300))).ok());
  const std::vector<BatchItem> items{item_on("Matte", 300), item_on("Huge", 19000)};
  const auto refused = plan_batch("{master}", job, items);
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.error().message.find("Print 2, on Huge") == 0);
  CHECK_FALSE(plan_batch("{sun}", job, std::span(items).first(1)).ok());
}
