// Measurements that came back: CGATS and plain tables.
#include <algorithm>
#include <cmath>

#include "print/read_back.h"
#include "target.h"

using namespace proofleaf;
using namespace proofleaf::fuzz;

void proofleaf::fuzz::take(const uint8_t* data, size_t size) {
  auto read = print::read_readings({data, size}, "readings.txt");
  const print::Readings* readings = value_of(read);
  if (readings == nullptr) return;
  expect(readings->values.size() == readings->patches() * readings->fields.size());
  print::device_kind(*readings);
  const auto spectra = print::spectral_columns(*readings);
  expect(std::is_sorted(spectra.begin(), spectra.end()));
  auto colours = print::lab_readings(*readings, "readings.txt");
  value_of(colours);
  const std::vector<print::PatchAim> aims{{"1", {50, 0, 0}}, {"2", {95, 0, -2}}, {"3", {10, 1, 1}}};
  auto back = print::read_back(aims, *readings, "readings.txt");
  if (value_of(back) == nullptr) return;
  expect(std::isfinite(back.value().max));
  auto correction = print::paper_correction(back.value().patches);
  value_of(correction);
}
