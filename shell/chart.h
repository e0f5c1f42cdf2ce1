// Charts drawn with Dear ImGui's draw lists. Each is read at one place: where the mouse points,
// where a finger presses and waits, or where the arrow keys have moved the mark.
#pragma once

#include <array>
#include <functional>
#include <string>
#include <vector>

#include "look.h"

namespace proofleaf::shell {

struct App;

struct Axis {
  double low = 0, high = 1;
  double step = 0.5;  // between marks
  Words name = "";
};

struct ChartLine {
  std::vector<std::array<double, 2>> points;
  bool broken = false;  // drawn in dashes
  bool faint = false;
  bool closed = false;
};

struct Chart {
  std::string id, title;
  Axis x, y;
  bool equal = false;  // the same scale on both axes
  std::vector<ChartLine> lines;
  // Where it is read: a value from `first` to `last`, moved by `step` with the keys.
  double first = 0, last = 1, step = 0.01;
  // The value for a place of the chart; else the value is the place's x.
  std::function<double(double x, double y)> value_at;
  std::function<std::string(double value)> read;
  std::function<ChartLine(double value)> mark;  // what shows where it is read
};

// Draws it at the cursor; width, height: of all, with title and axes [CSS px].
void draw_chart(App& app, const Chart& chart, float width, float height);

// A step of marks, 1, 2 or 5 times a power of ten, so that about `count` fit into `range`.
double even_step(double range, int count);

// The arrow keys' way to a chart: true when the keyboard is at the item just drawn.
bool chart_has_keys(App& app, const std::string& id, const std::string& spoken);

}  // namespace proofleaf::shell
