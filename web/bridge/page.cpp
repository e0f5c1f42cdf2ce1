// What the page's JavaScript calls: the panel's one instance and its host. Longer bytes are staged:
// JavaScript asks for room by name, fills it, then makes the call that takes it.
#include <emscripten/emscripten.h>

#include <cstdlib>
#include <cstring>

#include "imports.h"
#include "shell.h"

namespace proofleaf::web {
namespace {

using shell::Buffer;
using shell::Shell;

// A text made by the page with malloc.
std::string taken(char* value) {
  std::string copy = value;
  std::free(value);
  return copy;
}

class PageHost final : public shell::Host {
 public:
  void pick_file() override { host_pick_file(); }
  void pick_folder() override { host_pick_folder(); }
  void shelf_put(const std::string& key, const std::string& name, shell::FileId file) override {
    host_shelf_put(key.c_str(), name.c_str(), file);
  }
  void shelf_drop(const std::string& key) override { host_shelf_drop(key.c_str()); }
  void shelf_clear() override { host_shelf_clear(); }
  int start(const std::string& request, const std::vector<shell::FileUse>& files) override {
    for (const auto& use : files) host_use_file(use.name.c_str(), use.file);
    return host_start(request.c_str());
  }
  void cancel(int work) override { host_cancel(work); }
  shell::FileId keep_bytes(const std::string& name, const std::vector<uint8_t>& bytes) override {
    return host_keep_bytes(name.c_str(), bytes.data(), bytes.size());
  }
  void drop_file(shell::FileId file) override { host_drop_file(file); }
  void save_delivery(int work, const std::string& file_name) override {
    host_save_delivery(work, file_name.c_str());
  }
  bool writes_folders() const override { return host_writes_folders() != 0; }
  void choose_folder() override { host_choose_folder(); }
  void leave_folder() override { host_leave_folder(); }
  void save_text(const std::string& name, const std::string& mime,
                 const std::string& utf8) override {
    host_save_text(name.c_str(), mime.c_str(), utf8.data(), utf8.size());
  }
  void copy_text(const std::string& utf8) override { host_copy_text(utf8.data(), utf8.size()); }
  std::string client_address() override { return taken(host_client_address()); }
  void speak(const std::string& language) override { host_speak(language.c_str()); }
  void show_licences() override { host_show_licences(); }
  void describe(const std::string& state, const std::string& news) override {
    host_describe(state.c_str(), news.c_str());
  }
  void remember(const std::string& key, const std::string& value) override {
    host_remember(key.c_str(), value.c_str());
  }
  std::string recall(const std::string& key) override { return taken(host_recall(key.c_str())); }
  void set_cursor(const char* css_name) override { host_set_cursor(css_name); }
  void request_frame() override { host_request_frame(); }
};

PageHost host;
std::unique_ptr<Shell> panel;
std::vector<Buffer> staged;
double staged_since = 0;  // [ms]

std::vector<Buffer> take_staged() { return std::exchange(staged, {}); }

std::vector<uint8_t> take_staged(const char* name) {
  for (Buffer& buffer : staged) {
    if (buffer.name == name) return std::move(buffer.bytes);
  }
  return {};
}

// What is staged, what the panel makes of it, and what it draws of that.
constexpr size_t kCopies = 3;

// Grows the memory so far, where it can.
bool room_for(size_t bytes) {
  void* volatile block = std::malloc(bytes);
  std::free(block);
  return bytes == 0 || block != nullptr;
}

}  // namespace
}  // namespace proofleaf::web

using namespace proofleaf::web;

extern "C" {

// Room for `length` bytes, kept until the next call that takes staged bytes; none, and all that was
// staged is gone, where the memory would not be enough for the panel to take them.
EMSCRIPTEN_KEEPALIVE uint8_t* page_stage(const char* name, size_t length) {
  if (!room_for(kCopies * length)) {
    staged.clear();
    return nullptr;
  }
  if (staged.empty()) staged_since = emscripten_get_now();
  staged.push_back({name, std::vector<uint8_t>(length)});
  return staged.back().bytes.data();
}

// Takes "font" and "bold". The WebGL context is current by now.
EMSCRIPTEN_KEEPALIVE bool page_open(bool display_p3, bool touch, int card, double memory) {
  auto font = take_staged("font");
  auto bold = take_staged("bold");
  staged.clear();
  panel = Shell::make(host, {display_p3, touch, shell::CardProofs(card), memory}, std::move(font),
                      std::move(bold));
  return panel != nullptr;
}

EMSCRIPTEN_KEEPALIVE bool page_frame(float width, float height, float ratio, float seconds,
                                     bool anew) {
  return panel->frame(width, height, ratio, seconds, anew);
}

EMSCRIPTEN_KEEPALIVE void page_pointer(int what, int id, int kind, float x, float y, int button) {
  panel->pointer(static_cast<Shell::Pointer>(what), id, kind, x, y, button);
}
EMSCRIPTEN_KEEPALIVE void page_wheel(float dx, float dy, bool pinch) {
  panel->wheel(dx, dy, pinch);
}
EMSCRIPTEN_KEEPALIVE bool page_key(bool down, const char* key, const char* code, int modifiers) {
  return panel->key(down, key, code, modifiers);
}
EMSCRIPTEN_KEEPALIVE void page_text(const char* utf8) { panel->text(utf8); }
EMSCRIPTEN_KEEPALIVE int page_wants_text() { return static_cast<int>(panel->wants_text()); }
EMSCRIPTEN_KEEPALIVE void page_set_touch(bool touch) { panel->set_touch(touch); }
EMSCRIPTEN_KEEPALIVE void page_dropping(bool over) { panel->dropping(over); }
EMSCRIPTEN_KEEPALIVE void page_graphics_lost() { panel->graphics_lost(); }
EMSCRIPTEN_KEEPALIVE void page_graphics_restored() { panel->graphics_restored(); }

// Takes "head".
EMSCRIPTEN_KEEPALIVE void page_file(int file, const char* name, double bytes, const char* role) {
  auto head = take_staged("head");
  staged.clear();
  panel->file_arrived(file, name, static_cast<uint64_t>(bytes), head, role);
}

EMSCRIPTEN_KEEPALIVE void page_work_left(const char* json, bool with_master) {
  panel->work_left(json, with_master);
}
// Valid until the next call.
EMSCRIPTEN_KEEPALIVE const char* page_left_work() {
  static std::string work;
  work = panel->left_work();
  return work.c_str();
}
EMSCRIPTEN_KEEPALIVE void page_folder(const char* name, int papers, bool cut) {
  panel->folder_seen(name, papers, cut);
}
EMSCRIPTEN_KEEPALIVE void page_shelf(const char* outcome, int count) {
  panel->shelf_told(outcome, count);
}
EMSCRIPTEN_KEEPALIVE void page_answer(const char* message) { panel->answer_arrived(message); }
EMSCRIPTEN_KEEPALIVE void page_screen(const char* json) { panel->screen_told(json); }
EMSCRIPTEN_KEEPALIVE void page_copied(bool done) { panel->copied(done); }
EMSCRIPTEN_KEEPALIVE void page_delivery_folder(const char* name, const char* names, bool refused) {
  panel->delivery_folder(name, names, refused);
}
EMSCRIPTEN_KEEPALIVE void page_delivery_saved(const char* name, const char* outcome) {
  panel->delivery_saved(name, outcome);
}
EMSCRIPTEN_KEEPALIVE void page_progress(int work, double share) { panel->progress(work, share); }
// Takes all staged bytes as the answer's buffers.
EMSCRIPTEN_KEEPALIVE void page_answered(int work, const char* json) {
  const double spent = staged.empty() ? 0 : (emscripten_get_now() - staged_since) / 1000;
  panel->answered(work, json, take_staged(), spent);
}
EMSCRIPTEN_KEEPALIVE void page_failed(int work, const char* sentence, bool starved) {
  panel->failed(work, sentence, starved);
}

// Valid until the next call.
EMSCRIPTEN_KEEPALIVE const char* page_state() {
  static std::string state;
  state = panel->state_json();
  return state.c_str();
}

// Takes "places", 32-bit floats x y; returns six bytes a place, valid until the next call.
EMSCRIPTEN_KEEPALIVE const uint8_t* page_pixels() {
  static std::vector<uint8_t> pixels;
  const auto bytes = take_staged("places");
  staged.clear();
  std::vector<float> places(bytes.size() / sizeof(float));
  std::memcpy(places.data(), bytes.data(), places.size() * sizeof(float));
  pixels = panel->proof_pixels(places);
  pixels.resize(places.size() * 3);  // six bytes for each two floats, whatever the panel knew
  return pixels.data();
}

}  // extern "C"
