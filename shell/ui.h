// The panel's own controls. Every control takes an id (for tests and for Dear ImGui), tells the
// screen reader its label and value when the keyboard comes to it, and fits both mouse and finger.
#pragma once

#include <map>
#include <string>

#include "host.h"
#include "look.h"

namespace proofleaf::shell {

class Ui {
 public:
  explicit Ui(Look& its_look) : look(its_look) {}

  Look& look;
  std::map<std::string, Rect> rects;  // where controls were drawn in this frame
  std::string focused;                // what the keyboard is at: "label, value"

  void begin_frame() {
    look.texts.clear();
    rects.clear();
    focused.clear();
  }

  // A control's bare area; pressed by mouse, finger, Space or Enter.
  struct Item {
    bool pressed = false, hovered = false, held = false;
    Rect rect;
  };
  Item item(const std::string& id, float width, float height, const std::string& spoken);
  // After a Dear ImGui control: the same duties.
  void note(const std::string& id, const std::string& spoken);

  float width() const;  // what is left of the line, at most `room`
  float room = 0;       // [CSS px] of a column beside others; 0: the whole line
  void words(Face face, const std::string& words, ImU32 colour = grey::kInk);
  void help(const std::string& words) { this->words(Face::small, words, grey::kFaintInk); }
  void section(const std::string& words);  // a heading with air above
  void space(float height);

  bool button(const std::string& id, const std::string& label, bool primary, float width = 0);
  // A plain word that acts; width 0 fits the word.
  bool word_button(const std::string& id, const std::string& label, bool chosen = false);
  // One of several, with a line on what it does. Extra room at the right for a caller's drawing.
  bool choice(const std::string& id, const std::string& label, const std::string& help, bool chosen,
              float right_room = 0);
  // A few short options side by side; returns the one chosen.
  int options(const std::string& id, const std::string& label, std::initializer_list<Words> names,
              int chosen);
  bool toggle(const std::string& id, const std::string& label, const std::string& help, bool* on,
              bool enabled = true);
  bool number(const std::string& id, const std::string& label, const std::string& help, int* value,
              int low, int high, int usual);
  // The same for a number with decimals and no slider; changes once typing has ended.
  bool decimal(const std::string& id, const std::string& label, const std::string& help,
               double* value, double low, double high, double usual);
  // The same with a slider; follows it while it is drawn.
  bool amount(const std::string& id, const std::string& label, const std::string& help,
              double* value, double low, double high, double usual);
  // most: its longest value [bytes].
  bool text_field(const std::string& id, const std::string& label, std::string* value,
                  size_t most = 511);
  void bar(float share, float width);  // progress

  Typing typing = Typing::text;  // into the field that has the focus, if one has

 private:
  // A number's label and the place of its field, which comes next; in between a way back where it
  // is not as usual. True when that is pressed.
  bool number_head(const std::string& id, const std::string& label, bool as_usual);
  static constexpr size_t kLongestNumber = 31;
  std::map<std::string, std::string> typing_;  // by id: what is being typed into a field
};

}  // namespace proofleaf::shell
