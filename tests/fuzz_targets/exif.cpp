// Exif blocks: read, understood, written again and cleaned for a print file.
#include "codec/exif.h"

#include "codec/writer.h"
#include "target.h"

using namespace proofleaf;
using namespace proofleaf::fuzz;

void proofleaf::fuzz::take(const uint8_t* data, size_t size) {
  const ByteView block(data, size);
  const ExifTree tree = read_exif(block);
  const ExifFacts facts = exif_facts(tree);
  expect(facts.orientation >= 1 && facts.orientation <= 8);
  const Bytes again = write_exif(describing_part(tree));
  read_exif(again);
  const ExifEdit edit{.width = 10, .height = 20};
  const Bytes clean = clean_exif(block, edit);
  const ExifFacts cleaned = exif_facts(read_exif(clean));
  expect(cleaned.orientation == 1 && !cleaned.traces.any());
  clean_exif(block, {.width = 10, .height = 20, .keep_private = true});
}
