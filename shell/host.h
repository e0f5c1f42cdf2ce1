// What the panel asks of the page around it. The page implements this in a few lines of glue; a
// test can implement it without a browser.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace proofleaf::shell {

// A file the person dropped, picked or pasted, held by the page under this number. 0 is none.
using FileId = int;

// What a person is about to type. Numbers that may be negative count as text.
enum class Typing { nothing, text, digits, decimals };

// A file named in a request for work, by the names of engine/job/work.h ("master", "paper", ...).
struct FileUse {
  std::string name;
  FileId file = 0;
};

class Host {
 public:
  virtual ~Host() = default;

  // Asks the person for a file; it comes back through Shell::file_arrived.
  virtual void pick_file() = 0;

  // Asks for a folder of papers; they come back the same way, then Shell::folder_seen.
  virtual void pick_folder() = 0;

  // Keeps a paper's file for the next visit under a key of its own, with the person's name for it;
  // again: renames it. Comes back through Shell::shelf_told, as shelf_clear does.
  virtual void shelf_put(const std::string& key, const std::string& name, FileId file) = 0;
  virtual void shelf_drop(const std::string& key) = 0;
  virtual void shelf_clear() = 0;

  // Starts work (JSON of engine/job/work.h) in a worker and returns its number, > 0. Answers come
  // back through Shell::progress, then once Shell::answered or Shell::failed. Two lanes: quick work
  // (cubes, papers, crops) and slow work (open, deliver), so that one does not wait for the other.
  // Two requests the page performs itself (web/page/sharing.js): "seal" and "wrap".
  virtual int start(const std::string& request, const std::vector<FileUse>& files) = 0;
  // Stops it within a moment; nothing more comes back for that number.
  virtual void cancel(int work) = 0;

  // Registers bytes made here (a profile a worker answered) as a file for later requests.
  virtual FileId keep_bytes(const std::string& name, const std::vector<uint8_t>& bytes) = 0;
  virtual void drop_file(FileId file) = 0;

  // Saves the file a delivery wrote under a new name: into the chosen folder, else it is offered to
  // the person. A folder comes back through Shell::delivery_saved.
  virtual void save_delivery(int work, const std::string& file_name) = 0;

  // Whether files can be written into a folder of the person's.
  virtual bool writes_folders() const = 0;
  // Asks for one; comes back through Shell::delivery_folder.
  virtual void choose_folder() = 0;
  virtual void leave_folder() = 0;  // deliveries are offered again

  // Offers a small text made here to the person as a new file. mime: "text/html",
  // "application/json".
  virtual void save_text(const std::string& name, const std::string& mime,
                         const std::string& utf8) = 0;

  // Puts a text on the clipboard; comes back through Shell::copied.
  virtual void copy_text(const std::string& utf8) = 0;
  // Where a client's page of this tool is to be found.
  virtual std::string client_address() = 0;
  // Speaks another language from now on ("en", "de") and keeps that for the next visit; the words
  // come a moment later.
  virtual void speak(const std::string& language) = 0;
  // Opens the page of licences beside this one.
  virtual void show_licences() = 0;

  // For screen readers: `state` replaces the standing description; `news` is read out once.
  virtual void describe(const std::string& state, const std::string& news) = 0;

  // Small settings kept between visits; empty where the browser refuses storage.
  virtual void remember(const std::string& key, const std::string& value) = 0;
  virtual std::string recall(const std::string& key) = 0;

  // Mouse pointer: "default", "grab", "grabbing", "ew-resize", "crosshair", "move", "text",
  // "pointer".
  virtual void set_cursor(const char* css_name) = 0;
  // A frame will be drawn soon (the page draws only when asked or on input).
  virtual void request_frame() = 0;
};

}  // namespace proofleaf::shell
