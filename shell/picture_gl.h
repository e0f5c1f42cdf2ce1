// Draws layers of the picture with OpenGL ES 3, and the marking of what lies off the gamut.
#pragma once

#include "drawn.h"
#include "look.h"
#include "picture.h"

namespace proofleaf::shell {

// Lets the texture that is bound be drawn at any size.
void blend_bound_texture();

class PictureGl {
 public:
  PictureGl() { rebuild(); }
  ~PictureGl();
  PictureGl(const PictureGl&) = delete;
  PictureGl& operator=(const PictureGl&) = delete;

  // Makes everything anew; what there was went with an earlier context.
  void rebuild();

  // Sends a layer that has just become whole to its texture.
  void upload(const Picture& picture, Layer& layer);
  void drop(Layer& layer);
  int largest_side() const { return largest_side_; }  // [pixels] of one texture

  // Nothing is drawn but told, until told nullptr.
  void only_tell(Drawn* drawn) { told_ = drawn; }
  // Clears the whole canvas to the neutral table. Sizes in CSS pixels.
  void begin(float width, float height, float ratio);
  // Draws a layer at `place`, cut to `clip`. marks: dE00 from which to mark, 0 for none.
  // pixels: show single pixels rather than blend them.
  void draw(const Layer& layer, const Rect& place, const Rect& clip, int marks, bool pixels);
  // Fills a part of the canvas with one colour.
  void fill(const Rect& rect, ImU32 colour) const;
  void end();

 private:
  struct Pass {
    Pass() = default;
    Pass(const char* vertex, const char* fragment);
    unsigned program = 0;
    int place = -1, canvas = -1, marks = -1, unit = -1;  // uniforms; -1 takes no value
  };
  void cut_to(const Rect& clip) const;  // nothing is drawn outside of it

  Drawn* told_ = nullptr;
  unsigned array_ = 0;
  Pass plain_, marked_;
  int largest_side_ = 2048;
  float width_ = 0, height_ = 0, ratio_ = 1;
};

}  // namespace proofleaf::shell
