// The panel and the picture beside it: holds the state of the job, asks the host for work, draws
// with Dear ImGui and OpenGL ES 3.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "host.h"

namespace proofleaf::shell {

// Whether the graphics card makes the proofs on the screen; else it only draws, and the kernel
// makes them.
enum class CardProofs {
  used,
  unwanted,  // so the page's address says
  slower     // there is no card: the processor draws in its place
};

// What the page knows of its screen at start.
struct Surroundings {
  bool display_p3 = false;  // the canvas was opened as Display P3
  bool touch = false;       // coarse pointer: 44 px targets
  CardProofs card = CardProofs::used;
  double memory = 0;  // of the machine, as the platform tells it [GiB]; 0: it does not
};

struct Buffer {
  std::string name;
  std::vector<uint8_t> bytes;
};

class Shell {
 public:
  // font: a TrueType or OpenType face. The GL context is current and stays so.
  static std::unique_ptr<Shell> make(Host& host, const Surroundings& surroundings,
                                     std::vector<uint8_t> font, std::vector<uint8_t> bold_font);
  virtual ~Shell() = default;

  // Draws one frame. width, height: canvas in CSS pixels; ratio: device pixels per CSS pixel;
  // seconds since the last frame. anew: what the canvas shows is gone; else a frame that would
  // look like the one before is not drawn. Returns true while another frame is wanted at once.
  virtual bool frame(float width, float height, float ratio, float seconds, bool anew) = 0;

  // Pointer input in CSS pixels. kind: 0 mouse, 1 touch, 2 pen. id tells fingers apart.
  enum class Pointer { down, move, up, leave };
  virtual void pointer(Pointer what, int id, int kind, float x, float y, int button) = 0;
  virtual void wheel(float dx, float dy, bool pinch) = 0;  // in lines; pinch: trackpad zoom
  // `key` and `code` as KeyboardEvent gives them; modifiers: 1 shift, 2 ctrl, 4 alt, 8 meta.
  // Returns true when the page should not act on it too.
  virtual bool key(bool down, const std::string& key, const std::string& code, int modifiers) = 0;
  virtual void text(const std::string& utf8) = 0;
  // What is typed into the field that has the focus (the page then shows an on-screen keyboard for
  // it).
  virtual Typing wants_text() const = 0;
  virtual void set_touch(bool touch) = 0;
  virtual void dropping(bool over) = 0;  // a file is being dragged over the page
  // The browser took the GL context away (frames go on, unseen); it is there again, empty.
  virtual void graphics_lost() = 0;
  virtual void graphics_restored() = 0;

  // role: "" for what the person brought (the shell looks at the first bytes), or "demo-master",
  // "demo-paper" for the files the page loads by itself, "shelf" for a paper kept from an earlier
  // visit (name: the person's own), "folder" for one of several out of a folder. head: the first
  // 256 bytes or fewer.
  virtual void file_arrived(FileId file, const std::string& name, uint64_t bytes,
                            const std::vector<uint8_t>& head, const std::string& role) = 0;
  // What a tab that the system closed left, as left_work() had it. with_master: its master comes
  // next.
  virtual void work_left(const std::string& json, bool with_master) = 0;
  // The work as it stands, for the page to keep while the tab lives; empty: none.
  virtual std::string left_work() const = 0;
  // A folder was looked through for papers, which arrive by file_arrived; cut: it holds too many
  // files.
  virtual void folder_seen(const std::string& name, int papers, bool cut) = 0;
  // What became of the papers kept between visits: "kept", "refused" (nothing can be kept), "full",
  // "cleared"; and how many are kept.
  virtual void shelf_told(const std::string& outcome, int count) = 0;
  // The page was opened by the link of a client's answer.
  virtual void answer_arrived(const std::string& message) = 0;
  virtual void copied(bool done) = 0;
  // What the browser says of the screen, now and whenever it changes: JSON as
  // screen/check_json.h reads a platform.
  virtual void screen_told(const std::string& json) = 0;
  // The folder for deliveries, and the names in it as a JSON array; refused: none can be written
  // to.
  virtual void delivery_folder(const std::string& name, const std::string& names, bool refused) = 0;
  // What became of a delivery: "saved" into the folder, "exists" (one of that name was left as it
  // is), "refused", or "gone" (it is no longer kept).
  virtual void delivery_saved(const std::string& name, const std::string& outcome) = 0;
  virtual void progress(int work, double share) = 0;
  // spent: what bringing the buffers here took of the page's own thread [s].
  virtual void answered(int work, const std::string& json, std::vector<Buffer> buffers,
                        double spent) = 0;
  // starved: for want of memory, or the worker died, which mostly comes of it.
  virtual void failed(int work, const std::string& sentence, bool starved) = 0;

  // The state as JSON; and six bytes a place (proof R G B, master R G B, as drawn, 8 bits) at
  // places of the preview (x, y in 0..1): for the browser tests and for support.
  virtual std::string state_json() const = 0;
  virtual std::vector<uint8_t> proof_pixels(const std::vector<float>& places_xy) const = 0;
};

}  // namespace proofleaf::shell
