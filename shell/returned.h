// The print that came back, on the panel: a photo or scan of it laid beside the promise, with the
// corners it has in the photo, or its measurements; and what both say to the four checks.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "condition.h"
#include "host.h"
#include "look.h"
#include "picture.h"
#include "returned/homography.h"
#include "sheet/job.h"

namespace proofleaf::shell {

struct App;
struct Buffer;
struct Pane;
struct Task;

// A picture made in a worker, as it is drawn.
struct MadePicture {
  Picture picture;  // its size only
  Layer layer;
  bool empty() const { return layer.shown.empty(); }
};

struct ReturnedState {
  bool expecting = false;  // the next file brought is the print's
  FileId file = 0;         // the photo
  std::string name, profile;
  bool profile_assumed = false;
  std::optional<double> scan_ppi;
  FileId master = 0;  // it was compared with

  // How it is to be compared.
  bool scan = false, refine = true;
  double mark_mm = 1.5;
  std::optional<returned::Corners> set;  // by hand; else looked for
  std::optional<returned::Point> neutral;

  // What was found.
  std::string asked;  // the settings it was asked with
  bool answered = false, found = false;
  returned::Corners corners{};
  double match = 0, light_falls = 1;
  std::vector<returned::ToneFound> tones;
  std::optional<Box> shadow_place;  // shares of the front
  MadePicture photo, print;
  std::string measured_sentence;

  // On the table: the picture as ever, the photo with its corners, or the print in place of the
  // master.
  enum class Show { picture, photo, print } show = Show::picture;
  bool choosing_neutral = false;             // the next tap on the photo marks it
  int held = -1;                             // the corner under the pointer that is down
  std::optional<returned::Corners> dragged;  // all four meanwhile
  float held_x = 0, held_y = 0;              // from it to the pointer [CSS px]

  // What the comparison itself ticked, so that it never writes over the person.
  JobReturned ticked;
};

// returned.cpp
void expect_print(App& app);
bool print_expected(const App& app);
void print_arrived(App& app, FileId file, const std::string& name,
                   const std::vector<uint8_t>& head);
void update_returned(App& app);  // asks anew where a setting has changed
bool take_returned(App& app, const Task& task, const Json& json, std::vector<Buffer>& buffers);
void returned_failed(App& app, const Task& task);
void drop_returned(App& app);
Json returned_json(const App& app);

// returned_view.cpp
bool photo_shown(const App& app);  // with its corners, in place of the picture
bool returned_print_shown(const App& app);
Rect front_on(const App& app, const Rect& picture);  // where the sheet's front lies over a master
void forget_returned_layers(App& app);               // their textures are gone with the context
void draw_photo(App& app);                           // OpenGL
void draw_returned_print(App& app, const Pane& pane, const Rect& clip);  // OpenGL
void draw_corners(App& app);
bool take_hold_of_corner(App& app, float sx, float sy);
void drag_corner(App& app, float sx, float sy);
bool let_go_of_corner(App& app);  // true where one was held
void tap_photo(App& app, float sx, float sy);
std::vector<Box> returned_boxes(const App& app);  // of the marks on the master [pixels]
std::string returned_mark_words(const App& app, int at);
inline constexpr char kReturnedWalk[] = "returned";

// leaf_returned.cpp
void draw_returned(App& app);

}  // namespace proofleaf::shell
