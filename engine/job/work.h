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
//   {"op":"profile","assume":"srgb"}                            needs master
//      -> {"kind":"profile"}                                    buffers: "profile" (ICC), as "open"
//      answers it, without reading the picture
//   {"op":"paper"} or {"op":"paper","space":"p3"}               needs paper, or space
//      -> {"kind":"paper","name","model","working_space","white":[L,a,b],"black":[L,a,b],
//          "ink_limit","own_table":[perceptual,relative,saturation],"notes":[..]}
//         buffers: "profile" (ICC)
//   {"op":"cube","intent":"perceptual","black_point_compensation":true,"paper_white":true,
//    "paper_black":true,"screen":"srgb"|"p3","grid":33}         needs profile, paper; may have
//    blocks, picture
//      (with "reading", a correction as "read_back" answered it: the paper as it was seen to come
//      out; print files never follow it)
//      (with "screen_answers", a check as screen/check_json.h keeps it: made up for what the screen
//      was found to do; nothing else ever is)
//      (without a paper: the master itself on the screen, relative colorimetric)
//      (with blocks_used() as "blocks": refined for the picture)
//      (with a picture: its pixels at least 0, 1, .. 10 dE00 off the gamut are counted)
//      -> {"kind":"cube","grid","refined":bool,"off_gamut":[..]}               buffers: "cube"
//      (pack_cube)
//   {"op":"crop","assume","x","y","width","height"}             needs master; upright pixels
//      -> {"kind":"crop","x","y","width","height"}              buffers: "pixels" (16-bit RGB)
//      with "local_contrast":-100..100, not 0, and the guide: also the buffer "printed", the same
//      part with it
//   {"op":"local_contrast","width","height","amount":-100..100}  needs profile, picture
//      -> {"kind":"local_contrast","width","height","amount"}
//         buffers: "picture" (16-bit RGB, the picture with it), "guide" (for the request "crop")
//   {"op":"deliver","assume","intent","black_point_compensation","format":"jpeg"|"tiff","bits":8|16,
//    "quality":1..100,"full_colour_detail":true,"ppi":300,"keep_private":false,"seed":1}
//                                                               needs master, paper, sink, reopen
//      -> {"kind":"delivered","width","height","bytes","sha256","quality"|null,"mean","p95",
//          "max","samples","sentence"}; quality: a JPEG's as it was written, lower than asked
//          where the recipe's limits.largest_file_bytes needs it, but not below 50
//      with "strip":{"sheet":{"width_mm","height_mm"},"places":[..],"variants":[{"name","recipe"},
//      ..1 to 3]} a test strip is written in place of the print, at the print's own resolution; the
//      variants' recipes must agree in size, crop and resolution, and "recipe" does not count
//      -> the same and "strip":{"width","height","sheet","tiles":[..],"patches":[{"name",
//          "lightness","ground","at","aim":[L,a,b]},..]} as print/proofing_json.h has it; aim: what
//          the patch is to measure on this paper, absolute L*a*b*
//   {"op":"strip_places","width","height","master_width","master_height","ppi":300,
//    "sheet":{"width_mm","height_mm"},"variants":1..3,"recipe"}  needs profile, picture; may have
//    off_gamut                                   (width, height: the picture's; recipe: its size)
//      -> {"kind":"strip_places","sheet","picture_width","picture_height","places":[..]}
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
//   {"op":"sample","assume","intent",..as "cube"..,"recipe","ppi","x","y","width","height",
//    "distance_mm":0,"pixels_per_mm":0}
//                                                               needs master; paper, or space
//      (with a distance: as it is seen from there; with the screen's pixels to a millimetre: at
//      true size; print/as_seen.h)
//      -> {"kind":"sample","x","y","width","height","shown_width","shown_height","ppi"}   x, y:
//      0..1 when asked, pixels of the
//         print in the answer       buffers: "with", "without" sharpening and grain (screen R, G,
//         B, A)
//   {"op":"recipe"}                     needs master: a recipe's file
//      -> {"kind":"recipe","recipe":{..}}, or {"kind":"job","job":{..}} of a job's (sheet/job.h)
//   {"op":"fit","intent","black_point_compensation"}            needs profile, facts; paper, or
//                                                               space
//      -> {"kind":"fitted","correction","before","after","sentence","worse":[..]}; before and after
//         are variants as in "judged"
//   {"op":"effect","intent","black_point_compensation","recipe"}   needs the same
//      -> {"kind":"effect","before","after","worse":[..]}
//   {"op":"read_back","intent","black_point_compensation","patches":[{"name","lightness"},..]}
//                                                               needs profile, paper, readings
//      (patches: as "deliver" told them of the strip; what else it told is not read)
//      -> {"kind":"read_back","mean","p95","max","verdict":"good"|"marginal"|"out","sentence",
//          "patches":[{"name","aim":[L,a,b],"measured":[L,a,b],"delta_e"},..],"correction":{..}|null}
//         correction: as print/proofing_json.h has it; null where fewer than two lightnesses differ
//   {"op":"eye_reading","first_from_black":3|null,"first_from_white":98|null}
//      -> {"kind":"eye_reading","black_until","white_from","sentences":[..]}
//   {"op":"returned",..} and {"op":"returned_readings",..}: the print that came back; told in
//   returned_work.h
//   {"op":"digest"}                                             needs master
//      -> {"kind":"digest","name","bytes","sha256"}: of the file as it stands, 64 hexadecimal
//      digits
//   {"op":"unpack"}                                             needs paper: a zip file of profiles
//      -> {"kind":"unpacked","names":[..],"notes":[..]}         buffers: "0", "1", .. (ICC), as
//      names
//   {"op":"condition","assume","print_width_mm","dust_mm"}     needs master; told in
//   condition_work.h
//   {"op":"offer","title","note","sizes":[{"size","price"},..],"papers":[{"name","description",
//    "intent","black_point_compensation"},..],"expires":"2026-12-31"|"","width","height","recipe",
//    "form":"link"|"file","letters":24576}                   needs profile, picture, paper0..3
//      -> {"kind":"offer","letters","checksum","space","width","height","quality","grid",
//          "papers":[{"mean","max"},..]}; letters: of what comes behind "#", mean and max dE00 of
//          the offer's proof from the full one
//         buffers: "packed" (share/offer.h)
//   {"op":"open_offer","link","today":"2026-11-25"|""}          needs nothing
//      -> {"kind":"opened_offer","width","height",..} and what share/offer_json.h tells
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
  std::shared_ptr<ByteSource> off_gamut;  // optional: its map, as "judge" answered it
  std::shared_ptr<ByteSource> guide;      // of the local contrast, as "local_contrast" answered it
  std::shared_ptr<ByteSource> readings;   // a print's patches as measured: CGATS or a table
  // "paper0" .. "paper3", where several are meant.
  std::array<std::shared_ptr<ByteSource>, 4> papers;
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
