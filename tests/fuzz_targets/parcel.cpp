// A zip file of papers.
#include "paper/parcel.h"

#include "target.h"

using namespace proofleaf;
using namespace proofleaf::fuzz;

void proofleaf::fuzz::take(const uint8_t* data, size_t size) {
  MemorySource source("papers.zip", bytes_of(data, size));
  auto opened = open_parcel(source, {});
  if (value_of(opened) == nullptr) return;
  expect(!opened.value().profiles.empty() && opened.value().profiles.size() <= kMostParcelProfiles);
  for (const ParcelProfile& profile : opened.value().profiles) expect(!profile.name.empty());
}
