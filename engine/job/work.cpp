#include "job/work.h"

#include <cstring>

#include "base/sha256.h"
#include "job/choice_work.h"
#include "job/condition_work.h"
#include "job/contrast_work.h"
#include "job/delivery_work.h"
#include "job/fit_work.h"
#include "job/offer_work.h"
#include "job/open_work.h"
#include "job/opening.h"
#include "job/parcel_work.h"
#include "job/read_back_work.h"
#include "job/returned_work.h"
#include "job/sample_work.h"
#include "job/strip_work.h"
#include "proof/cube.h"
#include "proof/off_gamut.h"
#include "proof/words.h"
#include "screen/check_json.h"
#include "screen/compensation.h"
#include "sheet/job.h"

namespace proofleaf {
namespace {

constexpr double kBaseShare = 0.2;                // of a refined cube's time, for its whole
constexpr uint64_t kLargestRecipe = kLargestJob;  // [bytes]

Json json_of(const Lab& lab) { return Json::array({lab.l, lab.a, lab.b}); }

Result<Answer> profile(const Json& request, const WorkFiles& files) {
  auto opened = open_with_colour(request, files);
  if (!opened) return opened.error();
  return Answer{dump_json({{"kind", "profile"}}),
                {{"profile", opened.value().colour.profile.bytes()}}};
}

Result<Answer> paper(const Json& request, const WorkFiles& files) {
  auto opened = open_paper(request, files);
  if (!opened) return opened.error();
  const Paper& found = opened.value();
  const Json json{{"kind", "paper"},
                  {"name", found.name},
                  {"model", word_for(found.model)},
                  {"working_space", found.working_space},
                  {"white", json_of(found.white)},
                  {"black", json_of(found.black)},
                  {"ink_limit", found.ink_limit},
                  {"own_table", found.own_table},
                  {"notes", found.notes}};
  return Answer{dump_json(json), {{"profile", found.profile.bytes()}}};
}

// Without a paper the screen itself stands in: the master as the screen can show it.
Result<std::shared_ptr<ProofChain>> chain_of(const Json& request, const WorkFiles& files) {
  auto master = open_master_profile(files);
  if (!master) return master.error();
  const auto screen = screen_of(text_of(request, "screen", "srgb"));
  if (!screen) return Error{"There is no screen of that kind."};
  if (!files.paper) {
    auto own = paper_from_profile(standard_profile(word_for(*screen)).take(), said("The screen"));
    if (!own) return own.error();
    return ProofChain::make(master.value(), own.value(), {Intent::relative, false},
                            {true, true, *screen});
  }
  auto paper = open_paper(request, files);
  if (!paper) return paper.error();
  auto print = print_of(request);
  if (!print) return print.error();
  auto recipe = recipe_of(request);
  if (!recipe) return recipe.error();
  auto before = colours_of(recipe.value(), master.value());
  if (!before) return before.error();
  auto reading = reading_of(request);
  if (!reading) return reading.error();
  return ProofChain::make(
      master.value(), paper.value(), print.value(),
      {flag_of(request, "paper_white", true), flag_of(request, "paper_black", true), *screen},
      before.value(), reading.value());
}

// Makes up for a screen that was checked, where the request says so.
Status fold_screen(const Json& request, Cube& built) {
  const Json* asked = member(request, "screen_answers");
  if (asked == nullptr) return done();
  const auto canvas = screen_of(text_of(request, "screen", "srgb"));
  const auto answers = screen::answers_from_json(*asked);
  if (!answers) return answers.error();
  const auto compensation =
      screen::Compensation::from(answers.value(), canvas.value_or(Screen::srgb));
  if (!compensation) return compensation.error();
  screen::fold(compensation.value(), built);
  return done();
}

Result<Answer> cube(const Json& request, const WorkFiles& files, const Watch& watch) {
  auto chain = chain_of(request, files);
  if (!chain) return chain.error();
  const double whole = files.blocks ? kBaseShare : 1;
  const auto grid = static_cast<uint32_t>(whole_of(request, "grid", kQuickGrid, 2, kLargestGrid));
  const auto build = files.paper ? build_screen_cube : build_master_cube;
  auto built =
      build(*chain.value(), grid, [&](double share) { return keep_going(watch, whole * share); });
  if (!built) return built.error();
  if (files.blocks) {
    auto used = read_all(*files.blocks, kLargestProfileFile);
    if (!used) return used.error();
    auto refined = refine_screen_cube(
        *chain.value(), used.value(), built.value(),
        [&](double share) { return keep_going(watch, whole + (1 - whole) * share); });
    if (!refined) return refined.error();
  }
  if (auto folded = fold_screen(request, built.value()); !folded) return folded.error();
  Json json{{"kind", "cube"}, {"grid", grid}, {"refined", files.blocks != nullptr}};
  if (files.picture) {
    auto rgb = read_picture(files);
    if (!rgb) return rgb.error();
    json["off_gamut"] = count_off_gamut(built.value(), rgb.value()).at_least;
  }
  return Answer{dump_json(json), {{"cube", pack_cube(built.value())}}};
}

Result<Answer> read_recipe(const WorkFiles& files) {
  if (!files.master) return Error{"No recipe was given."};
  auto text = read_all(*files.master, kLargestRecipe);
  if (!text) return text.error();
  const Json json = parse_json({text.value().begin(), text.value().end()});
  if (member(json, "proofleaf_job") != nullptr) {
    auto job = job_from_json(json);
    if (!job) return Error{files.master->name() + ": " + job.error().message};
    return Answer{dump_json({{"kind", "job"}, {"job", json_of(job.value())}}), {}};
  }
  auto recipe = recipe_from_json(json);
  if (!recipe) return Error{files.master->name() + ": " + recipe.error().message};
  return Answer{dump_json({{"kind", "recipe"}, {"recipe", json_of(recipe.value())}}), {}};
}

Result<Answer> crop(const Json& request, const WorkFiles& files, const Watch& watch) {
  auto opened = open_with_colour(request, files);
  if (!opened) return opened.error();
  auto rows = master_rows(opened.value());
  if (!rows) return rows.error();
  const uint32_t x = side_of(request, "x"), y = side_of(request, "y"),
                 width = side_of(request, "width"), height = side_of(request, "height");
  if (uint64_t{width} * height > uint64_t{kMostPicturePixels}) {
    return Error{"That part of the picture is too large to look at closely."};
  }
  auto picture = cut(*rows.value(), x, y, width, height, watch);
  if (!picture) return picture.error();
  Answer answer{
      dump_json({{"kind", "crop"}, {"x", x}, {"y", y}, {"width", width}, {"height", height}}),
      {{"pixels", bytes_of(picture.value().rgb)}}};
  const double amount = number_of(request, "local_contrast", 0);
  if (amount == 0) return answer;
  auto guide = read_guide(files);
  if (!guide) return guide.error();
  const RowFormat whole = rows.value()->format();
  const PicturePart part{double(x) / whole.width, double(y) / whole.height,
                         double(width) / whole.width, double(height) / whole.height};
  auto printed = with_local_contrast(picture.value(), opened.value().colour.profile, guide.take(),
                                     amount, part, watch);
  if (!printed) return printed.error();
  answer.buffers.push_back({"printed", bytes_of(printed.value())});
  return answer;
}

Result<Answer> digest(const WorkFiles& files, const Watch& watch) {
  if (!files.master) return Error{"No master was given."};
  auto sum = sha256_of(*files.master, watch);
  if (!sum) return sum.error();
  return Answer{dump_json({{"kind", "digest"},
                           {"name", files.master->name()},
                           {"bytes", files.master->size()},
                           {"sha256", sum.value()}}),
                {}};
}

}  // namespace

Result<Answer> perform(const std::string& request, const WorkFiles& files, const Watch& watch) {
  const Json json = parse_json(request);
  if (!json.is_object()) return Error{"The request could not be understood."};
  const std::string op = text_of(json, "op");
  if (op == "open") return open_work(json, files, watch);
  if (op == "profile") return profile(json, files);
  if (op == "paper") return paper(json, files);
  if (op == "cube") return cube(json, files, watch);
  if (op == "crop") return crop(json, files, watch);
  if (op == "local_contrast") return local_contrast_work(json, files, watch);
  if (op == "card") return card_work(json, files, watch);
  if (op == "picture_facts") return facts_work(json, files, watch);
  if (op == "judge") return judge_work(json, files, watch);
  if (op == "difference") return difference_work(json, files);
  if (op == "sample") return sample_work(json, files, watch);
  if (op == "recipe") return read_recipe(files);
  if (op == "fit") return fit_work(json, files, watch);
  if (op == "effect") return effect_work(json, files);
  if (op == "deliver") return delivery(json, files, watch);
  if (op == "read_back") return read_back_work(json, files);
  if (op == "eye_reading") return eye_reading_work(json);
  if (op == "returned") return returned_work(json, files, watch);
  if (op == "returned_readings") return returned_readings_work(json, files);
  if (op == "strip_places") return strip_places_work(json, files, watch);
  if (op == "digest") return digest(files, watch);
  if (op == "unpack") return unpack_work(files, watch);
  if (op == "condition") return condition_work(json, files, watch);
  if (op == "offer") return offer_work(json, files, watch);
  if (op == "open_offer") return open_offer_work(json);
  return Error{"There is no work called {}.", op};
}

}  // namespace proofleaf
