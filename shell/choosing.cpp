// Finds out which paper suits the picture: the picture's facts once, then each paper by itself, in
// the time the proof leaves.
#include <GLES3/gl3.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "app.h"
#include "json_read.h"
#include "proof/words.h"
#include "words.h"
#include "words_choice.h"
#include "words_spoken.h"

namespace proofleaf::shell {
namespace {

bool takes_part(const PaperState& paper) { return paper.loaded && !paper.working_space; }

template <class Test>
void cancel_choice(App& app, Test test) {
  std::erase_if(app.tasks, [&](const Task& task) {
    const bool gone = is_choice_work(task) && test(task);
    if (gone) app.host.cancel(task.work);
    return gone;
  });
}

void drop_thumbnail(Tried& tried) {
  if (tried.thumbnail != 0) glDeleteTextures(1, &tried.thumbnail);
  tried.thumbnail = 0;
}

// Another picture, or language, makes all of it void; a paper that went away takes its own with it.
void forget_old(App& app) {
  Choice& choice = app.choice;
  if (choice.language != language()) choice.cards.clear();
  if (choice.master_version != app.job.master.version || choice.language != language()) {
    cancel_choice(app, [](const Task& task) { return task.kind != TaskKind::card; });
    for (Tried& tried : choice.tried) drop_thumbnail(tried);
    choice.tried.clear();
    choice.order.clear();
    drop_kept(app, choice.facts_file);
    choice.facts_trouble.clear();
    choice.rests = false;
    choice.differences = {};
    choice.master_version = app.job.master.version;
    choice.language = language();
  }
  const auto gone = [&](FileId paper) { return paper != 0 && !paper_of(app, paper); };
  cancel_choice(app, [&](const Task& task) { return gone(task.file); });
  const size_t removed = std::erase_if(choice.tried, [&](Tried& tried) {
    if (!gone(tried.paper)) return false;
    drop_thumbnail(tried);
    return true;
  });
  if (removed > 0 || choice.reorder) put_in_order(choice, app);
  choice.reorder = false;
}

constexpr ptrdiff_t kSideBySide = 2;

ptrdiff_t choice_work_count(const App& app) {
  return std::count_if(app.tasks.begin(), app.tasks.end(), is_choice_work);
}

// Anything else has the machine to itself: a proof never waits for this.
bool others_work(const App& app) {
  return std::any_of(app.tasks.begin(), app.tasks.end(),
                     [](const Task& task) { return !is_choice_work(task); });
}

bool proof_settled(const App& app) {
  if (app.job.master.file == 0 || !app.job.chosen_paper()) return true;
  return proof_ready(app) || app.proof_cube.failed == app.proof_cube.wanted;
}

void begin(App& app, Task task, const Json& request, const std::vector<FileUse>& files) {
  task.since = now();
  task.work = app.host.start(dump_json(request), files);
  if (task.work > 0) app.tasks.push_back(std::move(task));
}

void ask_facts(App& app) {
  const Picture& preview = app.preview;
  Task task;
  task.kind = TaskKind::facts;
  begin(app, task, {{"op", "picture_facts"}, {"width", preview.columns}, {"height", preview.rows}},
        {{"profile", app.job.master.profile_file}, {"picture", app.job.master.picture_file}});
}

void ask_judge(App& app, const PaperState& paper) {
  Task task;
  task.kind = TaskKind::judge;
  task.file = paper.file;
  task.name = paper.name;
  begin(app, task, {{"op", "judge"}},
        {{"profile", app.job.master.profile_file},
         {"facts", app.choice.facts_file},
         {"paper", paper.file}});
}

void ask_difference(App& app, const std::string& key) {
  const PaperState& paper = *app.job.chosen_paper();
  Task task;
  task.kind = TaskKind::difference;
  task.file = paper.file;
  task.name = paper.name;
  task.key = key;
  begin(app, task,
        {{"op", "difference"},
         {"intent", word_for(app.job.print.intent)},
         {"black_point_compensation", app.job.print.black_point_compensation}},
        {{"profile", app.job.master.profile_file},
         {"facts", app.choice.facts_file},
         {"paper", paper.file}});
}

void ask_card(App& app, const std::string& key) {
  Task task;
  task.kind = TaskKind::card;
  task.key = key;
  Json request = {{"op", "card"}};
  std::vector<FileUse> files;
  for (const PaperState& paper : app.job.papers)
    if (card_key(paper) == key && paper.space.empty()) {
      task.file = paper.file;
      task.name = paper.name;
      files.push_back({"paper", paper.file});
    }
  if (files.empty()) request["space"] = task.name = key;
  task.words = text(words::kMeasuring, task.name.c_str());
  begin(app, task, request, files);
}

// The key of a card that is looked for and not there yet; empty: none.
std::string wanted_card(const App& app) {
  const Choice& choice = app.choice;
  const PaperState* paper = app.job.chosen_paper();
  if (!choice.open || choice.page != ChoicePage::card || !paper) return "";
  for (const std::string& key : {card_key(*paper), choice.beside})
    if (!key.empty() && !choice.cards.count(key)) return key;
  return "";
}

bool is_being_tried(const App& app, FileId paper) {
  return std::any_of(app.tasks.begin(), app.tasks.end(), [&](const Task& task) {
    return task.kind == TaskKind::judge && task.file == paper;
  });
}

// The paper to be tried next; nullptr: none. The one in use comes first.
const PaperState* next_paper(const App& app) {
  const PaperState* next = nullptr;
  for (const PaperState& paper : app.job.papers) {
    if (app.choice.rests || !takes_part(paper) || tried_on(app, paper.file)) continue;
    if (is_being_tried(app, paper.file)) continue;
    if (!next || &paper == app.job.chosen_paper()) next = &paper;
  }
  return next;
}

bool rings_wanted(const App& app) {
  const std::string key = differences_key(app);
  return app.choice.rings && !key.empty() && app.choice.differences.key != key;
}

bool picture_usable(const App& app) {
  return !app.preview.empty() && app.choice.facts_trouble.empty();
}

// Papers are tried side by side, one to each of the page's quick workers; all else by itself.
void ask_next(App& app) {
  if (choice_work_count(app) > 0) {
    const PaperState* next = next_paper(app);
    if (next && app.choice.facts_file != 0) ask_judge(app, *next);
    return;
  }
  if (effect_wanted(app)) return ask_effect(app);
  if (sample_wanted(app)) return ask_sample(app);
  if (digest_wanted(app)) return ask_digest(app);
  if (const std::string card = wanted_card(app); !card.empty()) return ask_card(app, card);
  const PaperState* next = next_paper(app);
  const bool rings = rings_wanted(app);
  if (!picture_usable(app) || (!next && !rings)) return;
  if (app.choice.facts_file == 0) return ask_facts(app);
  if (rings) return ask_difference(app, differences_key(app));
  ask_judge(app, *next);
}

bool has_turn(const App& app) {
  const bool only_papers = std::all_of(app.tasks.begin(), app.tasks.end(), [](const Task& task) {
    return task.kind == TaskKind::judge || !is_choice_work(task);
  });
  return !others_work(app) && proof_settled(app) && only_papers &&
         choice_work_count(app) < kSideBySide;
}

}  // namespace

const PaperState* paper_of(const App& app, FileId file) {
  for (const PaperState& paper : app.job.papers)
    if (paper.file == file) return &paper;
  return nullptr;
}

void drop_kept(App& app, FileId& file) {
  if (file != 0) app.host.drop_file(file);
  file = 0;
}

void put_in_order(Choice& choice, const App& app) {
  std::vector<Judged> sound;
  std::vector<size_t> places;
  for (size_t i = 0; i < choice.tried.size(); ++i) {
    Tried& tried = choice.tried[i];
    if (!tried.trouble.empty()) continue;
    if (const PaperState* paper = paper_of(app, tried.paper)) tried.judged.paper = paper->name;
    sound.push_back(tried.judged);
    places.push_back(i);
  }
  choice.order = rank(sound);
  for (Standing& standing : choice.order) standing.index = places[standing.index];
}

bool is_choice_work(const Task& task) {
  return task.kind == TaskKind::effect || task.kind == TaskKind::sample ||
         task.kind == TaskKind::digest || task.kind == TaskKind::facts ||
         task.kind == TaskKind::judge || task.kind == TaskKind::card ||
         task.kind == TaskKind::difference;
}

void update_choice(App& app) {
  if (app.choice.removing != 0) remove_paper(app, std::exchange(app.choice.removing, 0));
  forget_old(app);
  if (others_work(app)) return cancel_choice(app, [](const Task&) { return true; });
  if (has_turn(app)) ask_next(app);
}

bool choice_waits(const App& app) {
  if (!has_turn(app)) return false;
  if (choice_work_count(app) > 0) return app.choice.facts_file != 0 && next_paper(app);
  return !wanted_card(app).empty() || effect_wanted(app) || sample_wanted(app) ||
         digest_wanted(app) || (picture_usable(app) && (next_paper(app) || rings_wanted(app)));
}

void rest_choice(App& app) {
  app.choice.rests = true;
  cancel_choice(app, [](const Task& task) { return task.kind == TaskKind::judge; });
}

int papers_to_try(const App& app) {
  return int(std::count_if(app.job.papers.begin(), app.job.papers.end(), takes_part));
}

int papers_tried(const App& app) { return int(app.choice.tried.size()); }

double choice_progress(const App& app) {
  double done = papers_tried(app);
  for (const Task& task : app.tasks)
    if (task.kind == TaskKind::judge) done += task.share;
  return done / std::max(1, papers_to_try(app));
}

const Tried* tried_on(const App& app, FileId paper) {
  for (const Tried& tried : app.choice.tried)
    if (tried.paper == paper) return &tried;
  return nullptr;
}

const Standing* standing_of(const App& app, const Tried& tried) {
  for (const Standing& standing : app.choice.order)
    if (&app.choice.tried[standing.index] == &tried) return &standing;
  return nullptr;
}

void print_on(App& app, FileId file) {
  const PaperState* paper = paper_of(app, file);
  if (!paper) return;
  app.job.paper = int(paper - app.job.papers.data());
  const Tried* tried = tried_on(app, file);
  if (tried && tried->trouble.empty()) app.job.print = tried->judged.best().print;
  tell(app, text(words::kPaperChosenWay, paper->name.c_str(),
                 lower_first(intent_words(app.job.print.intent)).c_str()));
}

std::string card_key(const PaperState& paper) {
  return paper.space.empty() ? "paper-" + std::to_string(paper.file) : paper.space;
}

Card* card_for(App& app, const std::string& key) {
  const auto found = app.choice.cards.find(key);
  return found == app.choice.cards.end() ? nullptr : &found->second;
}

const GreyCurve* grey_curve(App& app) {
  constexpr int kSteps = 100;
  GreyCurve& curve = app.choice.greys;
  if (app.proof_cube.wanted.empty() || !app.job.master.profile) return nullptr;
  if (curve.key == app.proof_cube.wanted) return curve.master.empty() ? nullptr : &curve;
  curve = {app.proof_cube.wanted, {}, {}};
  const Paper* paper = read_chosen_paper(app);
  if (!paper) return nullptr;
  const auto chain =
      ProofChain::make(app.job.master.profile, *paper, app.job.print, {}, recipe_map(app));
  if (!chain) return nullptr;
  std::vector<float> rgb;
  for (int i = 0; i <= kSteps; ++i) rgb.insert(rgb.end(), 3, float(i) / kSteps);
  std::vector<ProofPoint> points(kSteps + 1);
  chain.value()->points(rgb, points);
  for (const ProofPoint& point : points) {
    curve.master.push_back(point.master.l);
    curve.printed.push_back(point.on_paper);
  }
  return &curve;
}

}  // namespace proofleaf::shell
