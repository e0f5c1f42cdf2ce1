// The parts of the panel and what they share. Each .cpp file is one part.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "batch.h"
#include "choice.h"
#include "clock.h"
#include "condition.h"
#include "contrast.h"
#include "detail.h"
#include "early.h"
#include "host.h"
#include "job_sheet.h"
#include "left_work.h"
#include "offering.h"
#include "picture.h"
#include "picture_gl.h"
#include "proof_gl.h"
#include "recipe_panel.h"
#include "returned.h"
#include "rings_gl.h"
#include "screen_check.h"
#include "shelf.h"
#include "shell.h"
#include "state.h"
#include "strip.h"
#include "ui.h"
#include "wall.h"
#include "working.h"

namespace proofleaf::shell {

enum class TaskKind {
  open,
  paper,
  cube,
  crop,
  deliver,
  facts,
  judge,
  card,
  difference,
  fit,
  effect,
  sample,
  strip_places,
  strip,
  read_back,
  eye,
  digest,
  recipe,
  batch,
  contrast,
  returned,
  returned_readings,
  offer,
  seal,
  wrap
};

// Work under way in a worker.
struct Task {
  int work = 0;
  TaskKind kind = TaskKind::open;
  std::string words;  // what to tell the person
  double share = 0;
  double since = 0;     // when it began [s]
  FileId file = 0;      // open, paper: the file asked about
  std::string name;     // of that file, or of the delivery
  std::string space;    // paper: a standard space's id; offer: "link" or "file"
  bool choose = false;  // paper: becomes the chosen one
  // open: the standard space for a master without a profile; offer: what it is made from
  std::string assume;
  std::string lock;        // offer: the passphrase; empty: none
  FileId assume_file = 0;  // open: the profile for a CMYK master without one
  bool proof_cube = false;
  std::string key;      // cube, offer: what it was asked for
  uint32_t grid = 0;    // cube
  uint32_t pixels = 0;  // open: the working size [pixels]
};

// One of the two screen cubes (the master's own, and the proof's): what is wanted, what is there.
struct CubeSlot {
  bool proof = false;
  std::string wanted;  // key of the present settings; empty: none
  std::string failed;  // a key that is not to be asked for again
  std::shared_ptr<const ScreenCube> cube;
  bool exact() const { return cube && cube->key == wanted && cube->grid() >= kProofGrid; }
};

// What is shown at present, to go back to when a new setting cannot be proofed.
struct ShownSettings {
  int paper = -1;
  PrintIntent print;
  ProofView view;
};

// What the last change of the proof took of the page's own thread.
struct ProofCost {
  double seconds = 0;
};

class CostOfScope {
 public:
  explicit CostOfScope(ProofCost& cost) : cost_(cost), began_(now()) {}
  ~CostOfScope() { cost_.seconds += now() - began_; }
  CostOfScope(const CostOfScope&) = delete;
  CostOfScope& operator=(const CostOfScope&) = delete;

 private:
  ProofCost& cost_;
  double began_;
};

struct Layout {
  float width = 0, height = 0;
  bool narrow = false;  // the sheet lies at the bottom
  Rect sheet, strip, caption, stage, foot;
  std::vector<Rect> blockers;  // what lies over the table and takes the pointer
  std::string caption_words;
  int caption_paper = -1;  // the paper chosen when the caption's height was taken
};

// A view of the picture on the table.
struct Pane {
  Rect rect;
  bool master = false;  // shows the master
  bool proof = false;   // shows the proof; both: divided
};

// Fingers and buttons on the picture, and fingers on the sheet.
struct Gestures {
  struct Finger {
    float x = 0, y = 0, start_x = 0, start_y = 0;
  };
  std::map<int, Finger> on_picture;
  bool moved = false, dividing = false, reading = false;
  double down_at = 0, last_tap = -10;
  float last_tap_x = 0, last_tap_y = 0;
  float hover_x = -1, hover_y = -1;  // the mouse over the picture, or the reading finger
  // A finger on the sheet: it taps, scrolls or drags; which shows only after it moved.
  enum class Sheet { none, waiting, scrolling, passed_on };
  Sheet sheet = Sheet::none;
  int sheet_finger = -1;
  float sheet_x = 0, sheet_y = 0, sheet_start_x = 0, sheet_start_y = 0;
  double sheet_since = 0;
  float scroll = 0, glide = 0;         // [CSS px] not yet scrolled; speed [CSS px/s]
  bool picture_focus = false;          // arrow keys belong to the picture
  const char* focus_wanted = nullptr;  // a window the keyboard goes to in the next frame
  bool focus_gone = false;             // the control the keyboard was at is drawn no more
  bool leaving = false;                // Escape was pressed: the next Tab leaves the page
  bool picture_has_pointer = false;
};

struct Reading {
  ProofPoint point;
  double x = 0, y = 0;  // 0..1 of the picture
};

struct App {
  App(Host& its_host, const Surroundings& its_surroundings, std::vector<uint8_t> font,
      std::vector<uint8_t> bold_font);

  Host& host;
  Surroundings surroundings;
  Look look;
  Ui ui;
  PictureGl gl;
  ProofGl proof_gl;
  JobState job;
  ConditionState condition;
  RecipeState recipe;
  StripState strip;
  JobSheet sheet;
  ReturnedState returned;
  LeftWork left;
  ContrastState contrast;
  WallState wall;
  ScreenState screen;
  ScreenCheck check;
  BatchState batch;
  FolderState folder;
  ShelfState shelf;
  Offering offering;
  Layout layout;
  Gestures gestures;
  std::vector<Task> tasks;

  CubeSlot master_cube, proof_cube;
  EarlyCubes early;
  std::vector<std::shared_ptr<const ScreenCube>> kept_cubes;  // exact ones, the newest last
  FileId blocks_file = 0;               // which blocks of a cube the picture uses, for exact cubes
  std::vector<uint16_t> blocks_shaper;  // of the cube they were found with
  std::string blocks_key;               // of the samples
  ShownSettings shown;
  ProofCost proof_cost;
  Picture preview;
  uint32_t working_pixels;                // the preview's most; masters are opened with it
  std::optional<SmallerOpening> smaller;  // offered
  Detail detail;
  double view_still_since = 0;  // when the view last moved [s]

  std::shared_ptr<ProofChain> chain;
  std::string chain_key;
  Paper read_paper;  // the chain's, from the profile of read_paper_file
  FileId read_paper_file = 0;
  std::optional<Reading> reading;

  Choice choice;
  RingsGl rings_gl;

  int show_leaf_top = 0;           // frames in which the open leaf is scrolled to its top
  Leaf drawn_leaf = Leaf::master;  // the leaf of the last frame
  bool hold_down = false;          // the button to hold is down
  float card_height = 560;         // of the key card, as drawn last [CSS px]
  int settle = 3;                  // frames still to draw after the last event
  int next_notice = 1;
  std::string told_state, told_focus, told_reading, news;
  double told_at = 0;
  bool voice_waits = false;  // the description is out of date, and too soon to renew
};

// tasks.cpp: requests
// pixels: the working size, 0 for the present one.
void open_master(App& app, FileId file, const std::string& name, uint32_t pixels = 0);
void read_paper_file(App& app, FileId file, const std::string& name, bool choose);
void choose_space(App& app, const std::string& id);
// The master's files in a request: itself, and what it was taken for.
std::vector<FileUse> master_files(const App& app);
void add_task(App& app, Task task, const Json& request, const std::vector<FileUse>& files);
void start_delivery(App& app);
void stop_task(App& app, int work);
void let_go_of_file(App& app, const Task& task);  // of work that came to nothing
Json delivery_request(const App& app);            // without a recipe
void notice(App& app, const std::string& sentence);
Task* find_task(App& app, TaskKind kind);

// file_names.cpp
// The name in use: edited, or by the pattern and beside what the folder holds; empty where the
// pattern gives none.
std::string delivery_name(const App& app);

// answers.cpp
DeliveryResult delivery_result(const Task& task, const Json& json);
void take_answer(App& app, int work, const std::string& json, std::vector<Buffer> buffers);
void take_failure(App& app, int work, const std::string& sentence, bool starved);

// proofing.cpp: keeps the cubes up with the job
void update_proof(App& app);
// Everything a cube depends on, apart from its grid, with the master's version; empty: there is
// nothing to make one of.
std::string cube_key(const App& app, const CubeSlot& slot, int version);
Json cube_request(const App& app, const CubeSlot& slot, uint32_t grid);
std::vector<FileUse> cube_files(const App& app, const CubeSlot& slot, FileId master_profile);
// off_gamut: the answer's counts, empty where there are none.
void take_cube(App& app, const Task& task, ByteView packed, const std::vector<uint32_t>& off_gamut);
// Stops the exact cubes, which are asked for again once nothing more urgent waits for their worker.
void put_off_exact_cubes(App& app);
// Goes back to settings that can be shown; without them the present ones stay.
void cube_failed(App& app, const Task& task, bool go_back = true);
// What an answer took before it came here belongs to the proof's cost when it is its cube.
void add_to_proof_cost(App& app, int work, double seconds);
bool proof_ready(const App& app);  // the full-accuracy proof of the present settings is shown
bool proof_busy(const App& app);   // slices are still to be run
Words intent_words(Intent intent);

// layers.cpp: keeps the pictures' layers up with the cubes
void update_layers(App& app);
bool picture_current(const App& app, const Picture& picture);
std::optional<double> off_gamut_share(const App& app);
void drop_picture(App& app, Picture& picture);
// The browser took the context away; it gave a new one.
void graphics_lost(App& app);
void graphics_restored(App& app);
// A layer of the preview as it is drawn: R G B, and tenths of dE00 off the gamut. May wait for the
// graphics card.
std::vector<uint8_t> shown_bytes(const App& app, const Layer& layer);

// detail.cpp: keeps the tiles up with the view
void update_detail(App& app);
// Takes a "crop" answer; false where it is not what was asked for. printed: empty without local
// contrast.
bool take_tiles(App& app, const Json& json, Bytes rgb, Bytes printed);
void detail_failed(App& app);
void drop_detail(App& app);
bool detail_waits(const App& app);  // tiles are still to be asked for, cut up or run
// The sample at a place of the master [master pixels], nullptr where no tile is.
const uint16_t* detail_at(const App& app, double px, double py, bool as_printed);

// reading.cpp: single colours
void update_reading(App& app);
void make_chain(App& app);                 // of the present settings; none where it cannot be
const Paper* read_chosen_paper(App& app);  // nullptr: none, or it cannot be read
std::vector<std::string> reading_lines(const App& app);

// viewer.cpp: geometry and drawing of the picture
std::vector<Pane> panes(const App& app);
double zoom_of(const App& app, const Pane& pane);  // device pixels per master pixel
Rect picture_place(const App& app, const Pane& pane);
bool place_at(const App& app, float sx, float sy, double* px, double* py);  // 0..1
void zoom_to(App& app, double zoom, float sx, float sy);
void pan_by(App& app, float dx, float dy);
void show_whole(App& app);
void go_to(App& app, double x, double y);  // a place of the picture, 0..1, from near
void show_exact(App& app, float sx, float sy);
void draw_picture(App& app);       // OpenGL
void draw_over_picture(App& app);  // line, tags and cross, into the background list
float divider_x(const App& app, const Pane& pane);

// input.cpp
void on_pointer(App& app, Shell::Pointer what, int id, int kind, float x, float y, int button);
void on_wheel(App& app, float dx, float dy, bool pinch);
bool update_gestures(App& app, float seconds);  // true while something glides or waits

// keys.cpp
void apply_focus(App& app);       // within a frame, before anything is drawn
void look_after_focus(App& app);  // within a frame, when all is drawn: its control may have gone
bool on_key(App& app, bool down, const std::string& key, const std::string& code, int modifiers);

// layout.cpp
void lay_out(App& app, float width, float height);

// sheet.cpp and the leaves
void draw_sheet(App& app);
void draw_master_leaf(App& app);
void draw_paper_leaf(App& app);
void draw_look_leaf(App& app);
void draw_print_leaf(App& app);
std::string leaf_summary(const App& app, Leaf leaf);
void cycle_intent(App& app);
std::string white_and_black(const PaperState& paper);  // in words

// around.cpp: what lies around the picture
std::string caption_words(const App& app);
void draw_around(App& app);
void draw_cards(App& app);

// voice.cpp
void tell(App& app, const std::string& sentence);  // read out once
void update_voice(App& app);
std::string state_as_json(const App& app);
std::string percent(double share);

}  // namespace proofleaf::shell
