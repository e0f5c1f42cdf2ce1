// Long work, asked for in JSON and answered in JSON and buffers, so that a web worker, a test and a
// command line all run the very same thing. Nothing is kept between two requests: a worker may be
// ended at any moment and a fresh one goes on.
//
// Requests ("op" says which) and their answers ("kind"):
//
//   {"op":"open","assume":"srgb","preview_pixels":2000000}      needs master
//      -> {"kind":"master","name","width","height","preview_width","preview_height","bits","model",
//          "container","profile","assumed","ppi"|null,"notes":[..],
//          "private":{"place","serial","owner"}}
//         buffers: "preview" (16-bit RGB, preview_width x preview_height), "profile" (ICC)
//   {"op":"paper"} or {"op":"paper","space":"p3"}               needs paper, or space
//      -> {"kind":"paper","name","model","working_space","white":[L,a,b],"black":[L,a,b],
//          "ink_limit","own_table":[perceptual,relative,saturation],"notes":[..]}
//         buffers: "profile" (ICC)
//   {"op":"cube","intent":"perceptual","black_point_compensation":true,"paper_white":true,
//    "paper_black":true,"screen":"srgb"|"p3","grid":33}         needs profile, paper; may have
//    blocks, picture
//      (without a paper: the master itself on the screen, relative colorimetric)
//      (with blocks_used() as "blocks": refined for the picture)
//      (with a picture: its pixels at least 0, 1, .. 10 dE00 off the gamut are counted)
//      -> {"kind":"cube","grid","refined":bool,"off_gamut":[..]}               buffers: "cube"
//      (pack_cube)
//   {"op":"crop","assume","x","y","width","height"}             needs master; upright pixels
//      -> {"kind":"crop","x","y","width","height"}              buffers: "pixels" (16-bit RGB)
//   {"op":"deliver","assume","intent","black_point_compensation","format":"jpeg"|"tiff","bits":8|16,
//    "quality":1..100,"full_colour_detail":true,"ppi":300,"keep_private":false,"seed":1}
//                                                               needs master, paper, sink, reopen
//      -> {"kind":"delivered","width","height","bytes","mean","p95","max","samples","sentence"}
//   {"op":"card"} or {"op":"card","space":"p3"}                 needs paper, or space
//      -> {"kind":"card","name","model","working_space","white","black","white_density",
//          "black_density","density_range","contrast_ratio","gamut_volume","neutral_cast":{"largest",
//          "at_lightness","a","b"},"printed_ramp","device_ramp":{"steps","reversals",
//          "largest_reversal","jumps","largest_step"},"round_trip":{"mean","p95","max","colours"},
//          "own_table","ink_limit","faults":[..],"notes":[..],"slices":[{"lightness","polygon"}]}
//         buffers: "vertices" (float L, a, b), "triangles" (uint32), "colours" (sRGB R, G, B, A)
//   {"op":"picture_facts","width","height"}                     needs profile, picture
//      -> {"kind":"picture_facts","tone":{"shadows":{"steps","share"},..},"accents","skin",
//          "neutrals"}                                          buffers: "facts"
//   {"op":"judge"} or {"op":"judge","space":"p3"}               needs profile, facts; paper, or
//                                                               space
//      -> {"kind":"judged",..} as choice_json.cpp writes it
//         buffers: "thumbnail" (sRGB R, G, B, A), "difference" (tenths of dE00), "off_gamut" (64 x
//         64 shares, 255 is all)
//   {"op":"difference","intent","black_point_compensation"}     needs profile, facts; paper, or
//                                                               space
//      -> {"kind":"difference","intent","black_point_compensation","difference":{"width","height"}}
//         buffers: "difference" (tenths of dE00)
//   {"op":"fit","intent","black_point_compensation"}            needs profile, facts; paper, or
//                                                               space
//      -> {"kind":"fitted","correction","before","after","sentence","worse":[..]}; before and after
//         are variants as in "judged"
//   {"op":"effect","intent","black_point_compensation","recipe"}   needs the same
//      -> {"kind":"effect","before","after","worse":[..]}
//   {"op":"unpack"}                                             needs paper: a zip file of profiles
//      -> {"kind":"unpacked","names":[..],"notes":[..]}         buffers: "0", "1", .. (ICC), as
//      names
//   {"op":"condition","assume","print_width_mm","dust_mm"}     needs master; told in
//   condition_work.h
//   {"op":"offer","title","note","sizes":[{"size","price"},..],"papers":[{"name","description",
//    "intent","black_point_compensation"},..],"expires":"2026-12-31"|"","width","height","recipe",
//    "letters":24576}                                        needs profile, picture, paper0..3
//      -> {"kind":"offer","link","letters","checksum","space","width","height","quality","grid",
//          "papers":[{"mean","max"},..]}; link is what comes behind "#", mean and max dE00 of the
//          offer's proof from the full one
//   {"op":"open_offer","link","today":"2026-11-25"|""}          needs nothing
//      -> {"kind":"opened_offer","title","note","sizes":[..],"papers":[{"name","description",
//          "white":[L,a,b],"black":[L,a,b]},..],"expires","expired","checksum","space","width",
//          "height"}
//         buffers: "picture" (16-bit RGB), "profile" (ICC, of the picture), "cube0" .. (pack_cube,
//         to an sRGB screen, paper white and black shown), one a paper
//
// "cube", "deliver" and "effect" may have a "recipe" (recipe/recipe.h), which corrects and prepares
// the master first; a print file of a recipe with a size has the recipe's ppi.
//
// "assume" is what to take for a master without a profile: a standard space's id; the optional
// "assume" file is a profile to take instead. Intents: perceptual, relative, saturation, absolute.
#pragma once

#include <array>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "base/bytes.h"
#include "base/watch.h"

namespace proofleaf {

// The files a request may read and write; what it does not need stays empty.
struct WorkFiles {
  std::shared_ptr<ByteSource> master;   // the person's file, only ever read
  std::shared_ptr<ByteSource> paper;    // an ICC profile
  std::shared_ptr<ByteSource> profile;  // the master's RGB profile as "open" answered it
  std::shared_ptr<ByteSource> blocks;   // optional: which blocks of the cube the picture uses
  std::shared_ptr<ByteSource> assume;   // optional: a profile for a master without one
  std::shared_ptr<ByteSource> picture;  // the preview's 16-bit RGB samples, as "open" answered them
  std::shared_ptr<ByteSource> facts;    // of that picture, as "picture_facts" answered them
  std::array<std::shared_ptr<ByteSource>, 4>
      papers;                // "paper0" .. "paper3", where several are meant
  ByteSink* sink = nullptr;  // where a delivery is written
  // Opens what was written to sink for the check after a delivery.
  std::function<Result<std::shared_ptr<ByteSource>>()> reopen;
};

struct NamedBuffer {
  std::string name;
  Bytes bytes;
};

struct Answer {
  std::string json;
  std::vector<NamedBuffer> buffers;
};

// Error: the sentence to show; the person's files and the page's state are as before.
Result<Answer> perform(const std::string& request, const WorkFiles& files, const Watch& watch);

}  // namespace proofleaf
