// The panel's entry points: events in, one frame out.
#include "shell.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <utility>

#include "app.h"
#include "backends/imgui_impl_opengl3.h"
#include "imgui_internal.h"
#include "json_read.h"
#include "paper/parcel.h"
#include "words_batch.h"
#include "words_offer.h"

namespace proofleaf::shell {
namespace {

constexpr int kSettleFrames = 4;
// While papers are judged and the person does nothing, frames come this far apart: each takes time
// from the judging. [s]
constexpr double kCalmEvery = 0.15, kCalmAfter = 0.4;
constexpr char kRemembered[] = "look";

void make_context() {
  IMGUI_CHECKVERSION();
  ImGui::CreateContext();
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.LogFilename = nullptr;
  io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
  io.BackendFlags |= ImGuiBackendFlags_HasMouseCursors;
  io.ConfigWindowsMoveFromTitleBarOnly = true;
  ImGui_ImplOpenGL3_Init("#version 300 es");
}

std::string remembered(const App& app) {
  return dump_json({{"compare", int(app.job.compare)},
                    {"threshold", app.job.marking.threshold},
                    {"white", app.job.proof_view.paper_white},
                    {"black", app.job.proof_view.paper_black},
                    {"pattern", app.job.delivery.pattern}});
}

void recall(App& app) {
  app.job.delivery.pattern = words::kUsualPattern;
  const Json json = parse_json(app.host.recall(kRemembered));
  if (!json.is_object()) return;
  app.job.compare = Compare(std::clamp(int(number_of(json, "compare", 1)), 0, 2));
  app.job.marking.threshold = std::clamp(int(number_of(json, "threshold", 3)), 1, 10);
  ProofView& view = app.job.proof_view;
  view.paper_white = flag_of(json, "white", view.paper_white);
  view.paper_black = flag_of(json, "black", view.paper_black);
  if (const std::string pattern = text_of(json, "pattern"); !pattern.empty())
    app.job.delivery.pattern = pattern;
}

class ShellOnPage final : public Shell {
 public:
  ShellOnPage(Host& host, const Surroundings& surroundings, std::vector<uint8_t> font,
              std::vector<uint8_t> bold_font)
      : app_(host, surroundings, std::move(font), std::move(bold_font)) {
    recall(app_);
    recall_screen(app_);
    recall_check(app_);
    kept_ = remembered(app_);
  }

  bool frame(float width, float height, float ratio, float seconds, bool anew) override {
    app_.look.follow(ratio);
    const bool gliding = update_gestures(app_, seconds);
    update_shelf(app_);
    update_recipe(app_);
    update_batch(app_);
    update_contrast(app_);
    update_returned(app_);
    update_proof(app_);
    update_choice(app_);
    update_condition(app_);
    update_reading(app_);
    prepare(width, height, ratio, seconds);
    if (anew) drawn_ = 0;
    draw();
    update_voice(app_);
    keep_settings();
    // Counted from when the last event was seen, which may be some frames after it came.
    if (app_.settle > 0 && !input_waits()) --app_.settle;
    return gliding || app_.settle > 0 || proof_busy(app_) || young_work() || choice_waits(app_) ||
           input_waits() || app_.voice_waits || held_back_;
  }

  void pointer(Pointer what, int id, int kind, float x, float y, int button) override {
    touched_ = now();
    if (kind != 2) set_touch(kind == 1);
    if (app_.layout.width > 0) on_pointer(app_, what, id, kind, x, y, button);
    wake();
  }
  void wheel(float dx, float dy, bool pinch) override {
    touched_ = now();
    on_wheel(app_, dx, dy, pinch);
    wake();
  }
  bool key(bool down, const std::string& key, const std::string& code, int modifiers) override {
    touched_ = now();
    wake();
    return on_key(app_, down, key, code, modifiers);
  }
  void text(const std::string& utf8) override {
    if (ImGui::GetIO().WantTextInput) ImGui::GetIO().AddInputCharactersUTF8(utf8.c_str());
    wake();
  }
  Typing wants_text() const override {
    return ImGui::GetIO().WantTextInput ? app_.ui.typing : Typing::nothing;
  }
  void set_touch(bool touch) override {
    if (touch != app_.look.touch()) app_.look.set_touch(touch);
    wake();
  }
  void dropping(bool over) override {
    app_.job.dropping = over;
    wake();
  }

  void graphics_lost() override {
    shell::graphics_lost(app_);
    wake();
  }
  void graphics_restored() override {
    shell::graphics_restored(app_);
    drawn_ = 0;
    wake();
  }

  void file_arrived(FileId file, const std::string& name, uint64_t,
                    const std::vector<uint8_t>& head, const std::string& role) override {
    app_.job.dropping = false;
    if (looks_like_profile(head))
      paper_arrived(app_, {file, name, role.empty(), role != "demo-paper", role == "shelf"});
    else if (looks_like_parcel(head))
      parcel_arrived(app_, file, name);
    else if (looks_like_json(head))
      recipe_arrived(app_, file, name);
    else if (role.empty() && print_expected(app_))
      print_arrived(app_, file, name, head);
    else if (readings_expected(app_, head))
      readings_arrived(app_, file, name);
    else
      open_master(app_, file, name);
    wake();
  }
  void work_left(const std::string& json, bool with_master) override {
    take_left_work(app_, json, with_master);
    wake();
  }
  std::string left_work() const override { return work_as_json(app_); }
  void folder_seen(const std::string& name, int papers, bool cut) override {
    shell::folder_seen(app_, name, papers, cut);
    wake();
  }
  void shelf_told(const std::string& outcome, int count) override {
    shell::shelf_told(app_, outcome, count);
    wake();
  }
  void answer_arrived(const std::string& message) override {
    shell::answer_arrived(app_, message);
    wake();
  }
  void copied(bool done) override {
    done ? tell(app_, words::kCopied) : notice(app_, words::kNotCopied);
    app_.offering.copied = done;
    wake();
  }
  void screen_told(const std::string& json) override {
    take_platform(app_, json);
    wake();
  }
  void delivery_folder(const std::string& name, const std::string& names, bool refused) override {
    folder_chosen(app_, name, names, refused);
    wake();
  }
  void delivery_saved(const std::string& name, const std::string& outcome) override {
    shell::delivery_saved(app_, name, outcome);
    wake();
  }
  void progress(int work, double share) override {
    for (Task& task : app_.tasks)
      if (task.work == work) task.share = std::clamp(share, 0.0, 1.0);
    condition_progress(app_, work, share);
    wake();
  }
  void answered(int work, const std::string& json, std::vector<Buffer> buffers,
                double spent) override {
    add_to_proof_cost(app_, work, spent);
    take_answer(app_, work, json, std::move(buffers));
    wake();
  }
  void failed(int work, const std::string& sentence, bool starved) override {
    take_failure(app_, work, sentence, starved);
    wake();
  }

  std::string state_json() const override { return state_as_json(app_); }
  std::vector<uint8_t> proof_pixels(const std::vector<float>& places) const override;

 private:
  void prepare(float width, float height, float ratio, float seconds);
  void draw();
  uint64_t sum_of_frame();
  void wake() {
    app_.settle = kSettleFrames;
    app_.host.request_frame();
  }
  // Its slip appears after a moment, so frames must go on until then.
  bool young_work() const {
    return std::any_of(app_.tasks.begin(), app_.tasks.end(), [](const Task& task) {
      return now() - task.since < 0.4 && !is_choice_work(task);
    });
  }
  bool judging() const {
    return choice_waits(app_) || std::any_of(app_.tasks.begin(), app_.tasks.end(), is_choice_work);
  }
  // Dear ImGui takes only some events in a frame, so that none is lost between two.
  static bool input_waits() { return ImGui::GetCurrentContext()->InputEventsQueue.Size > 0; }
  void keep_settings() {
    const std::string present = remembered(app_);
    if (present == kept_) return;
    app_.host.remember(kRemembered, present);
    kept_ = present;
  }

  App app_;
  std::string kept_;
  uint64_t drawn_ = 0;  // the sum of the frame on the screen
  double drawn_at_ = 0, touched_ = 0;
  bool held_back_ = false;  // a frame that is still to be drawn
};

void ShellOnPage::prepare(float width, float height, float ratio, float seconds) {
  ImGuiIO& io = ImGui::GetIO();
  io.DisplaySize = {width, height};
  io.DisplayFramebufferScale = {ratio, ratio};
  io.DeltaTime = std::clamp(seconds, 0.001f, 0.25f);
  ImGui_ImplOpenGL3_NewFrame();
  ImGui::NewFrame();
  app_.ui.begin_frame();
  apply_focus(app_);
  lay_out(app_, width, height);
  draw_sheet(app_);
  draw_around(app_);
  draw_choice(app_);
  draw_crop_frame(app_);
  draw_part_frames(app_);
  draw_over_picture(app_);
  draw_rings_legend(app_);
  draw_outlines(app_);
  draw_check(app_);
  draw_screen_card(app_);
  draw_cards(app_);
  look_after_focus(app_);
  ImGui::Render();
}

uint64_t ShellOnPage::sum_of_frame() {
  Drawn drawn;
  app_.gl.only_tell(&drawn);
  app_.rings_gl.only_tell(&drawn);
  draw_picture(app_);
  draw_rings(app_);
  app_.gl.only_tell(nullptr);
  app_.rings_gl.only_tell(nullptr);
  drawn.add(*ImGui::GetDrawData());
  drawn.add_values(texture_changes());
  return drawn.sum();
}

void ShellOnPage::draw() {
  const double time = now();
  held_back_ =
      drawn_ != 0 && judging() && time - touched_ > kCalmAfter && time - drawn_at_ < kCalmEvery;
  if (held_back_) return;
  const uint64_t sum = sum_of_frame();
  if (std::exchange(drawn_, sum) == sum) return;
  drawn_at_ = time;
  draw_picture(app_);
  draw_rings(app_);
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
}

std::vector<uint8_t> ShellOnPage::proof_pixels(const std::vector<float>& places) const {
  const Picture& picture = app_.preview;
  std::vector<uint8_t> out;
  const size_t count = size_t{picture.columns} * picture.rows * 4;
  const std::vector<uint8_t> proof = shown_bytes(app_, picture.proof);
  const std::vector<uint8_t> master = shown_bytes(app_, picture.master);
  const bool whole = count > 0 && proof.size() == count && master.size() == count;
  for (size_t i = 0; whole && i + 1 < places.size(); i += 2) {
    const float x = std::clamp(places[i], 0.f, 1.f), y = std::clamp(places[i + 1], 0.f, 1.f);
    const auto column = std::min(picture.columns - 1, uint32_t(x * float(picture.columns)));
    const auto row = std::min(picture.rows - 1, uint32_t(y * float(picture.rows)));
    const size_t at = (size_t{row} * picture.columns + column) * 4;
    out.insert(out.end(), &proof[at], &proof[at] + 3);
    out.insert(out.end(), &master[at], &master[at] + 3);
  }
  return out;
}

}  // namespace

App::App(Host& its_host, const Surroundings& its_surroundings, std::vector<uint8_t> font,
         std::vector<uint8_t> bold_font)
    : host(its_host),
      surroundings(its_surroundings),
      look(std::move(font), std::move(bold_font)),
      ui(look),
      proof_gl(surroundings.card),
      working_pixels(working_pixels_for(surroundings.memory)) {
  look.set_touch(surroundings.touch);
  proof_cube.proof = true;
}

std::unique_ptr<Shell> Shell::make(Host& host, const Surroundings& surroundings,
                                   std::vector<uint8_t> font, std::vector<uint8_t> bold_font) {
  make_context();
  return std::make_unique<ShellOnPage>(host, surroundings, std::move(font), std::move(bold_font));
}

}  // namespace proofleaf::shell
