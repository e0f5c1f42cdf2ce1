// The state of the job, plain: what the person has brought and chosen. The panel edits it, the
// requests and the description are made from it.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "colour/profile.h"
#include "host.h"
#include "proof/chain.h"

namespace proofleaf::shell {

struct MasterState {
  FileId file = 0;  // 0: none yet
  std::string name;
  uint32_t width = 0, height = 0;  // [pixels] upright
  uint32_t bits = 8;
  std::string model, container;  // as engine/job/work.h words them
  std::string profile_title;
  bool assumed = false;         // nothing in the file said what its colours mean
  std::string assume = "srgb";  // what to take then: a standard space's id
  FileId assume_file = 0;       // or, for CMYK, a paper's profile
  std::optional<double> ppi;
  PrivateTraces traces;
  std::vector<std::string> notes;
  FileId picture_file = 0;  // the preview's samples, for later requests
  FileId profile_file = 0;  // the RGB profile the engine answered, for later requests
  Profile profile;          // the same, opened here for the readout
  int version = 0;          // counts openings, so that old answers are known as old
};

struct PaperState {
  FileId file = 0;    // its profile; 0 while a standard space has not been asked for yet
  std::string space;  // a standard space's id, else empty
  std::string name;
  std::string own_title;  // as its profile says; `name` may be the person's own
  std::string model;
  bool loaded = false;
  bool own = false;  // brought by the person, now or at an earlier visit
  bool working_space = false;
  Lab white, black;      // absolute L*a*b* D50
  double ink_limit = 0;  // [per cent], CMYK only
  std::array<bool, 3> own_table{};
  std::vector<std::string> notes;
  Bytes profile;    // ICC, for the readout
  std::string key;  // shelf_key() of it
};

enum class Compare { side_by_side, divided, held };

struct Marking {
  bool on = false;
  int threshold = 3;  // [dE00] 1..10
};

// How the picture lies on the table.
struct View {
  bool whole = true;                    // follows the window; else zoom holds
  double zoom = 1;                      // device pixels per master pixel
  double x = 0.5, y = 0.5;              // the part of the picture at the middle of its pane, 0..1
  double divider = 0.5;                 // 0..1 across the pane
  bool master_held = false;             // the master is shown while something is held
  bool cross = false;                   // the reading cross is out
  double cross_x = 0.5, cross_y = 0.5;  // 0..1 of the picture
};

struct DeliverySettings {
  bool tiff = false;
  int bits = 8;
  int quality = 95;
  bool full_colour_detail = true;
  int ppi = 300;
  bool keep_private = false;
  int seed = 1;
  std::string pattern;       // of new files' names (sheet/names.h)
  std::string name;          // of the new file
  bool name_edited = false;  // else it follows the pattern
};

struct DeliveryResult {
  int work = 0;
  std::string name, sentence;
  uint32_t width = 0, height = 0;
  double bytes = 0;
  double mean = 0, p95 = 0, max = 0;  // [dE00]
  uint32_t samples = 0;
};

struct Notice {
  int id = 0;
  std::string sentence;
};

enum class Leaf { master, paper, look, fit, size, print };
inline constexpr int kLeaves = 6;

struct JobState {
  MasterState master;
  std::vector<PaperState> papers;
  int paper = -1;  // index into papers, -1: none chosen
  PrintIntent print;
  ProofView proof_view;
  Marking marking;
  Compare compare = Compare::divided;
  View view;
  DeliverySettings delivery;
  std::optional<DeliveryResult> delivered;
  std::vector<Notice> notices;
  std::string last_notice;
  Leaf leaf = Leaf::master;
  bool sheet_raised = true;  // narrow screens only
  bool key_card = false;
  bool dropping = false;

  const PaperState* chosen_paper() const {
    if (paper < 0 || paper >= int(papers.size()) || !papers[size_t(paper)].loaded) return nullptr;
    return &papers[size_t(paper)];
  }
};

}  // namespace proofleaf::shell
