#include "proof_gl.h"

#include <GLES3/gl3.h>

#include <algorithm>
#include <cstdint>

#include "picture_gl.h"
#include "program_gl.h"
#include "proof_glsl.h"

namespace proofleaf::shell {
namespace {

// Why the kernel runs instead; for support, not shown on the panel.
constexpr char kUnwanted[] = "asked for on the page's address";
constexpr char kSlower[] = "the processor draws, and makes proofs quicker by itself";
constexpr char kOnTrial[] = "the graphics card is being tried out";
constexpr char kTooSmall[] = "the graphics card takes only small textures";
constexpr char kRefused[] = "the graphics card refused the program: ";
constexpr char kError[] = "the graphics card reported an error";
constexpr char kDiffers[] = "the graphics card reckons otherwise";
constexpr char kLost[] = "the browser took the graphics card away";

constexpr ptrdiff_t kBytesAFrame = 4 << 20;
constexpr size_t kTables = 4;          // kept on the card, so that going back is quick
constexpr uint32_t kRowsAtOnce = 128;  // of a picture's samples

// Sends more of a picture's samples; true once all are there.
bool send_samples(const Picture& picture, Samples& samples, ptrdiff_t& budget) {
  if (samples.source == 0)
    samples.source = make_whole_texture(GL_RGB16UI, int(picture.columns), int(picture.rows));
  if (samples.source_rows == picture.rows) return true;
  glActiveTexture(GL_TEXTURE0);
  glBindTexture(GL_TEXTURE_2D, samples.source);
  glPixelStorei(GL_UNPACK_ALIGNMENT, 2);
  while (samples.source_rows < picture.rows && budget > 0) {
    const uint32_t count = std::min(kRowsAtOnce, picture.rows - samples.source_rows);
    glTexSubImage2D(GL_TEXTURE_2D, 0, 0, GLint(samples.source_rows), GLsizei(picture.columns),
                    GLsizei(count), GL_RGB_INTEGER, GL_UNSIGNED_SHORT,
                    &samples.rgb[size_t{samples.source_rows} * picture.columns * 3]);
    samples.source_rows += count;
    budget -= ptrdiff_t(size_t{count} * picture.columns * 6);
  }
  glPixelStorei(GL_UNPACK_ALIGNMENT, 4);
  return samples.source_rows == picture.rows;
}

// An empty texture of R, G, B, A in 8 bits in place of what `texture` was.
void make_target(unsigned& texture, int width, int height) {
  if (texture == 0) glGenTextures(1, &texture);
  glActiveTexture(GL_TEXTURE0);
  glBindTexture(GL_TEXTURE_2D, texture);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, nullptr);
}

}  // namespace

ProofGl::ProofGl(CardProofs use) : use_(use) { rebuild(); }

ProofGl::~ProofGl() { let_go(); }

void ProofGl::let_go() {
  tables_.clear();
  seen_.drop();
  glDeleteProgram(program_);
  if (array_ != 0) glDeleteVertexArrays(1, &array_);
  if (frame_ != 0) glDeleteFramebuffers(1, &frame_);
  if (trial_target_ != 0) glDeleteTextures(1, &trial_target_);
  drop(trial_.picture);
  program_ = array_ = frame_ = trial_target_ = 0;
}

void ProofGl::fail(std::string why) {
  let_go();
  trial_ = {};
  state_ = State::off;
  trouble_ = std::move(why);
}

void ProofGl::lost() { fail(kLost); }

void ProofGl::rebuild() {
  let_go();
  if (use_ != CardProofs::used) return fail(use_ == CardProofs::slower ? kSlower : kUnwanted);
  glGetIntegerv(GL_MAX_TEXTURE_SIZE, &largest_side_);
  if (largest_side_ < kTableWidth) return fail(kTooSmall);
  program_ = make_program(kWholeVertex, kProofFragment);
  glGenVertexArrays(1, &array_);
  glGenFramebuffers(1, &frame_);
  state_ = State::begun;
  trouble_ = kOnTrial;
}

// Waits until it is linked.
void ProofGl::prepare_program() {
  glUseProgram(program_);
  glUniform1i(glGetUniformLocation(program_, "picture"), 0);
  const char* names[] = {"shaper", "nodes", "block_at", "fine"};
  for (int sheet = 0; sheet < TableGl::kSheets; ++sheet)
    glUniform1i(glGetUniformLocation(program_, names[sheet]), TableGl::kFirstUnit + sheet);
  grid_ = glGetUniformLocation(program_, "grid");
  block_cells_ = glGetUniformLocation(program_, "block_cells");
  glUseProgram(0);
}

void ProofGl::begin_trial() {
  state_ = State::trial;
  prepare_program();
  trial_ = make_proof_trial();
  Picture& picture = trial_.picture;
  TableGl& table = table_for(trial_.cube);
  ptrdiff_t no_end = PTRDIFF_MAX;
  table.send(no_end);
  send_samples(picture, picture, no_end);
  const int columns = int(picture.columns), rows = int(picture.rows);
  make_target(trial_target_, columns, rows);
  draw(picture, picture.source, table, trial_target_);
  glBindFramebuffer(GL_FRAMEBUFFER, frame_);
  seen_.begin(columns, rows, GL_RGBA, GL_UNSIGNED_BYTE, trial_.right.size());
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
}

void ProofGl::update() {
  budget_ = kBytesAFrame;
  switch (state_) {
    case State::begun:
      state_ = State::linking;  // while the first frame is drawn
      break;
    case State::linking:
      begin_trial();
      break;
    case State::trial:
      if (const std::optional<Bytes> seen = seen_.take()) end_trial(*seen);
      break;
    default:
      break;
  }
}

// Right colours are proof enough; only otherwise is it worth waiting for the reason.
void ProofGl::end_trial(const Bytes& seen) {
  if (seen != trial_.right) {
    std::string why;
    if (!program_works(program_, &why)) return fail(kRefused + why);
    return fail(glGetError() != GL_NO_ERROR ? kError : kDiffers);
  }
  tables_.clear();
  drop(trial_.picture);
  trial_ = {};
  trouble_.clear();
  state_ = State::ready;
}

bool ProofGl::takes(const Picture& picture, const ScreenCube& cube) const {
  return ready() && std::max({size_t{picture.columns}, size_t{picture.rows},
                              TableGl::rows_of(cube.cube)}) <= size_t(largest_side_);
}

TableGl& ProofGl::table_for(const std::shared_ptr<const ScreenCube>& cube) {
  const auto found = std::find_if(tables_.begin(), tables_.end(),
                                  [&](const auto& table) { return table->holds(*cube); });
  if (found != tables_.end()) {
    std::rotate(found, found + 1, tables_.end());
  } else {
    if (tables_.size() == kTables) tables_.erase(tables_.begin());
    tables_.push_back(std::make_unique<TableGl>(cube));
  }
  return *tables_.back();
}

void ProofGl::draw(const Picture& picture, unsigned source, const TableGl& table,
                   unsigned target) const {
  glUseProgram(program_);
  glUniform1i(grid_, GLint(table.cube().grid));
  glUniform1i(block_cells_, GLint(table.cube().block_cells));
  table.bind();
  glBindTexture(GL_TEXTURE_2D, source);
  glBindFramebuffer(GL_FRAMEBUFFER, frame_);
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, target, 0);
  glViewport(0, 0, GLsizei(picture.columns), GLsizei(picture.rows));
  glDisable(GL_SCISSOR_TEST);
  glDisable(GL_BLEND);
  glDisable(GL_CULL_FACE);
  glDisable(GL_DEPTH_TEST);
  glBindVertexArray(array_);
  glDrawArrays(GL_TRIANGLES, 0, 3);
  glBindVertexArray(0);
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  glUseProgram(0);
}

bool ProofGl::run(Picture& picture, const std::shared_ptr<const ScreenCube>& cube, Layer& layer) {
  if (picture.empty() || layer.shows(*cube)) return false;
  TableGl& table = table_for(cube);
  Samples& samples = picture.samples_of(layer);
  if (!send_samples(picture, samples, budget_) || !table.send(budget_)) return false;
  make_target(layer.texture, int(picture.columns), int(picture.rows));
  draw(picture, samples.source, table, layer.texture);
  glBindTexture(GL_TEXTURE_2D, layer.texture);
  blend_bound_texture();
  layer.shown = {};
  layer.making = {};
  layer.making_key.clear();
  layer.key = cube->key;
  layer.grid = cube->grid();
  texture_changed();
  return true;
}

void ProofGl::drop(Samples& samples) {
  if (samples.source != 0) glDeleteTextures(1, &samples.source);
  samples.source = 0;
  samples.source_rows = 0;
}

std::vector<uint8_t> ProofGl::read(const Picture& picture, const Layer& layer) const {
  std::vector<uint8_t> rgba(size_t{picture.columns} * picture.rows * 4);
  glBindFramebuffer(GL_FRAMEBUFFER, frame_);
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, layer.texture, 0);
  glReadPixels(0, 0, GLsizei(picture.columns), GLsizei(picture.rows), GL_RGBA, GL_UNSIGNED_BYTE,
               rgba.data());
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  return rgba;
}

}  // namespace proofleaf::shell
