#include "paper_profile.h"

namespace proofleaf::demo {

const std::vector<Recipe>& demo_papers() {
  static const std::vector<Recipe> papers = [] {
    Recipe cotton;
    cotton.name = "Quillmoor Cotton Smooth";
    cotton.file_name = "quillmoor-cotton-smooth.icc";
    cotton.paper = 0.918;
    cotton.warmth = 0.095;
    cotton.rosiness = 0.006;
    cotton.surface = 0.0205;
    cotton.strength = 0.88;
    cotton.purity = 0.8;
    cotton.yule_nielsen = 2.0;
    cotton.dot_gain = 0.06;
    cotton.black_start = 0.35;
    cotton.black_cmy = 0.75;

    Recipe baryta;
    baryta.name = "Tarnsea Baryta";
    baryta.file_name = "tarnsea-baryta.icc";
    baryta.paper = 0.926;
    baryta.warmth = 0.03;
    baryta.brightener = 0.02;
    baryta.surface = 0.0036;
    baryta.strength = 1.2;
    baryta.yule_nielsen = 1.7;
    baryta.dot_gain = 0.03;
    baryta.black_start = 0.45;
    baryta.black_cmy = 0.75;

    Recipe pearl;
    pearl.name = "Owlbrook Pearl";
    pearl.file_name = "owlbrook-pearl.icc";
    pearl.paper = 0.905;
    pearl.warmth = 0.02;
    pearl.brightener = 0.07;
    pearl.surface = 0.0060;
    pearl.strength = 1.1;
    pearl.purity = 0.95;
    pearl.yule_nielsen = 1.8;
    pearl.dot_gain = 0.04;
    pearl.black_start = 0.42;
    pearl.black_cmy = 0.75;

    Recipe office;
    office.name = "Plainside Office";
    office.file_name = "plainside-office.icc";
    office.cmyk = true;
    office.paper = 0.828;
    office.brightener = 0.165;
    office.surface = 0.0515;
    office.strength = 0.62;
    office.purity = 0.55;
    office.yule_nielsen = 2.2;
    office.dot_gain = 0.12;
    office.black_start = 0.3;
    office.black_cmy = 0.5;
    office.ink_limit = 2.6;
    return std::vector<Recipe>{cotton, baryta, pearl, office};
  }();
  return papers;
}

}  // namespace proofleaf::demo
