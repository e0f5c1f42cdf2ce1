#include "rank/difference.h"

#include "rank/printed.h"

namespace proofleaf {

Result<DifferenceMap> find_difference(const Profile& master, const PictureFacts& facts,
                                      const Paper& paper, PrintIntent print) {
  if (facts.nodes.empty()) return Error{"There is no picture to compare."};
  auto colours = printed_colours(master, facts, paper, print);
  if (!colours) return colours.error();
  JudgedPictures pictures;
  draw_difference(facts, print_picture(facts, colours.value()), pictures);
  return DifferenceMap{pictures.difference_width, pictures.difference_height,
                       std::move(pictures.difference)};
}

}  // namespace proofleaf
