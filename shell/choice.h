// Which paper for this picture: what is known of each paper at hand, and what is being found out.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/json.h"
#include "host.h"
#include "look.h"
#include "paper/gamut.h"
#include "rank/rank.h"

namespace proofleaf::shell {

struct App;
struct Task;
struct Buffer;
struct PaperState;

// Somewhere in the picture the print differs much from the master.
struct WorstPlace {
  double x = 0, y = 0;  // 0..1 of the picture
  double delta_e = 0;   // [dE00] mean of a small neighbourhood
};

// The picture tried on one paper.
struct Tried {
  FileId paper = 0;
  std::string trouble;  // why it could not be tried; the rest is empty then
  Judged judged;
  unsigned thumbnail = 0;  // texture
  uint32_t thumbnail_width = 0, thumbnail_height = 0;
  Bytes proof;  // the thumbnail in sRGB, R G B, for the saved report
};

// Where the print differs, for one paper and one way of printing on it.
struct Differences {
  std::string key;  // differences_key(); empty: none
  std::string trouble;
  uint32_t width = 0, height = 0;
  std::vector<uint8_t> tenths;    // of dE00
  std::vector<WorstPlace> worst;  // the worst first
};

// A paper's card, or that of a standard space set beside it.
struct Card {
  std::string trouble;
  Json numbers;  // as engine/job/work.h words them
  GamutMesh mesh;
  double cut_at = -1;  // L* of `cut`
  std::vector<std::array<double, 2>> cut;
};

enum class ChoicePage { papers, card, client };
enum class SortBy { score, paper, tone, gamut, difference, hue, skin, grey };

// A greys' way through the present settings, for the charts.
struct GreyCurve {
  std::string key;  // of the settings it stands for
  std::vector<double> master;
  std::vector<Lab> printed;  // absolute L*a*b* D50
};

struct Choice {
  bool open = false;  // the wide sheet is out
  bool opened = false;
  ChoicePage page = ChoicePage::papers;
  Rect rect;  // of the wide sheet, as drawn last
  bool scroll_to_top = false;
  bool explain = false;  // the formula is shown

  std::string language;    // its sentences are in
  int master_version = 0;  // the picture all of this stands for
  FileId facts_file = 0;
  std::string facts_trouble;
  bool rests = false;  // the person stopped the trying
  std::vector<Tried> tried;
  std::vector<Standing> order;  // of `tried`, those without trouble
  bool reorder = false;         // names changed
  SortBy sort = SortBy::score;

  std::map<std::string, Card> cards;  // by card_key()
  std::string beside = "srgb";        // key of the card set beside in the slice chart
  int cut_lightness = 50;
  float turn = 0.6f, tilt = 0.35f;  // of the solid [rad]
  GreyCurve greys;

  std::vector<std::string> card_lines;  // the card in words, as drawn last

  std::map<std::string, double> cursors;  // where charts are read, by id
  std::string chart_at;                   // the chart the keyboard is at; empty: none
  int steps_x = 0, steps_y = 0;           // arrow keys not yet taken by it

  bool rings = false;
  Differences differences;  // what the rings show
  bool rings_sent = false;  // to their texture

  FileId renaming = 0;  // the paper whose name is being changed
  std::string new_name;
  FileId removing = 0;  // taken off once the frame is drawn
};

// choosing.cpp: requests and answers
void update_choice(App& app);       // asks for what is wanted next once nothing more urgent waits
bool choice_waits(const App& app);  // something is wanted and could be asked for in a next frame
bool is_choice_work(const Task& task);
const PaperState* paper_of(const App& app, FileId file);  // nullptr: gone
void drop_kept(App& app, FileId& file);
void put_in_order(Choice& choice, const App& app);  // ranks what was tried

// choice_answers.cpp
std::vector<uint8_t> buffer_of(std::vector<Buffer>& buffers, const char* name);
void rebuild_thumbnails(App& app);  // their textures went with the context
bool take_difference(App& app, const Task& task, const Json& json, std::vector<Buffer>& buffers);
bool take_choice(App& app, const Task& task, const Json& json, std::vector<Buffer>& buffers);
void choice_failed(App& app, const Task& task, const std::string& sentence);

// choosing.cpp: what is known
void rest_choice(App& app);         // the person stops it
int papers_to_try(const App& app);  // how many papers take part
int papers_tried(const App& app);
double choice_progress(const App& app);  // 0..1
const Tried* tried_on(const App& app, FileId paper);
const Standing* standing_of(const App& app, const Tried& tried);
void print_on(App& app, FileId paper);  // chooses it, and the best way of printing on it
std::string card_key(const PaperState& paper);
Card* card_for(App& app, const std::string& key);
const GreyCurve* grey_curve(App& app);

// paper_names.cpp: names and the list
void recall_paper_name(App& app, PaperState& paper);
void rename_paper(App& app, FileId paper, const std::string& name);
void remove_paper(App& app, FileId paper);

// choice_sheet.cpp and its pages
void open_choice(App& app, ChoicePage page);
void close_choice(App& app);
void draw_choice(App& app);
bool choice_scrolls(const App& app);  // a finger's scrolling belongs to the wide sheet
bool choice_key(App& app, const std::string& key);
void draw_papers_page(App& app);  // choice_table.cpp
void draw_card_page(App& app);    // choice_card.cpp
void draw_slice(App& app, Card& card, float width);
void draw_solid(App& app, const Card& card, float width);

// choice_leaf.cpp: on the paper leaf
void draw_best_paper(App& app);
void draw_trying(App& app);  // how far the trying is, and a way to stop it
void draw_paper_tools(App& app, const PaperState& paper);
// Its score and best way of printing; empty while it has not been tried.
std::string score_words(const App& app, const PaperState& paper);
// "relative colorimetric with black point compensation"
std::string way_words(const PrintIntent& print);
bool same_print(const PrintIntent& one, const PrintIntent& two);  // on paper it makes no difference

// rings.cpp: over the proof
std::string differences_key(const App& app);  // of the present settings; empty: none
bool rings_shown(const App& app);
void draw_rings(App& app);         // OpenGL
void draw_rings_legend(App& app);  // into the background list
void draw_rings_controls(App& app);

// choice_voice.cpp
std::string choice_words(const App& app);
Json choice_json(const App& app);
Words verdict_words(Verdict verdict);

}  // namespace proofleaf::shell
