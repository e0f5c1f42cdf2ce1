// Makes the files that fuzzing starts from: fuzz_seeds FOLDER, one folder in it for each reader.
#include <cstdio>
#include <filesystem>
#include <fstream>

#include "codec_files.h"
#include "recipes.h"
#include "share/answer.h"
#include "share/make_offer.h"
#include "sheet/job.h"
#include "small_profiles.h"

using namespace proofleaf;
using namespace proofleaf::testing;

namespace {

std::filesystem::path folder;

void put(const std::string& reader, const std::string& name, const Bytes& bytes) {
  std::filesystem::create_directories(folder / reader);
  std::ofstream file(folder / reader / name, std::ios::binary);
  file.write(reinterpret_cast<const char*>(bytes.data()), std::streamsize(bytes.size()));
}
void put(const std::string& reader, const std::string& name, const std::string& text) {
  put(reader, name, Bytes(text.begin(), text.end()));
}
Bytes after(uint8_t first, ByteView rest) {
  Bytes bytes{first};
  bytes.insert(bytes.end(), rest.begin(), rest.end());
  return bytes;
}

Bytes exif_block(bool big_endian) {
  return raw_exif(big_endian,
                  {{0x112, 3, "", {6}}, {0x10F, 2, "Invented"}, {0x11A, 5, "", {240, 1}}},
                  {{0x829A, 5, "", {1, 60}}, {0xA431, 2, "123"}, {0xA001, 3, "", {1}}},
                  {{1, 2, "N"}}, {{1, 2, "R98"}});
}

void masters(const std::vector<SmallProfile>& profiles) {
  for (const Named& sound : sound_files()) {
    const std::string what = sound.what, kind = what.substr(0, 4);
    put(kind == "JPEG" ? "jpeg" : kind == "TIFF" ? "tiff" : "png", what, sound.file);
  }
  const Bytes& icc = profiles.back().bytes;
  Bytes segment{'I', 'C', 'C', '_', 'P', 'R', 'O', 'F', 'I', 'L', 'E', 0, 1, 1};
  segment.insert(segment.end(), icc.begin(), icc.end());
  const testing::Codes grey = picture(37, 29, 1, 8);
  put("jpeg", "grey profile",
      raw_jpeg({.channels = 1, .stored = JCS_GRAYSCALE, .segments = {{JPEG_APP0 + 2, segment}}},
               grey));
  put("png", "grey profile and exif",
      raw_png({.type = PNG_COLOR_TYPE_GRAY,
               .more =
                   [&](png_structp png, png_infop info) {
                     Bytes block = exif_block(false);
                     png_set_iCCP(png, info, "grey", 0, icc.data(), png_uint_32(icc.size()));
                     png_set_eXIf_1(png, info, png_uint_32(block.size()), block.data());
                     png_set_pHYs(png, info, 11811, 11811, PNG_RESOLUTION_METER);
                   }},
              grey));
  put("tiff", "grey profile",
      raw_tiff({.samples = 1,
                .photometric = PHOTOMETRIC_MINISWHITE,
                .more =
                    [&](TIFF* tiff) {
                      TIFFSetField(tiff, TIFFTAG_ICCPROFILE, uint32_t(icc.size()), icc.data());
                    }},
               grey));
  for (const bool big_endian : {false, true}) {
    put("exif", big_endian ? "MM" : "II", exif_block(big_endian));
  }
}

void readings() {
  put("readings", "cgats",
      "CGATS.17\nORIGINATOR \"a, \"\"b\"\"\"\nNUMBER_OF_FIELDS 5\nBEGIN_DATA_FORMAT\nSAMPLE_ID "
      "SAMPLE_NAME LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nNUMBER_OF_SETS 3\nBEGIN_DATA\n1 \"1\" 50 0 "
      "0\n2 2 95,5 0.1 -2e0 # white\n3 3 10 1 1\nEND_DATA\n");
  put("readings", "spectra",
      "CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID CMYK_C CMYK_M CMYK_Y CMYK_K XYZ_X XYZ_Y XYZ_Z "
      "SPECTRAL_NM400 R_500nm\nEND_DATA_FORMAT\nBEGIN_DATA\n1 0 0 0 0 88 92 75 0.9 0.8\n2 0 0 0 "
      "100 "
      "1 1 1 0 0\n3 50 40 40 0 20 21 17 0.2 0.2\nEND_DATA\n");
  put("readings", "table", "Patch;L*;a*;b*\r\n1;50;0;0\r\n\"2\";95;0;-2\r\n3;10;1;1\r\n");
  put("readings", "rgb",
      "ID\tR\tG\tB\tX\tY\tZ\n1\t0\t0\t0\t1\t1\t1\n2\t255\t255\t255\t80\t84\t70\n");
}

void recipes_and_jobs() {
  put("recipe", "empty", R"({"proofleaf_recipe":1})");
  Recipe recipe = test::full_recipe(6);
  put("recipe", "full", json_of(recipe).dump());
  recipe.monochrome.on = true;
  recipe.size.edge = print::EdgeKind::bleed_mirrored;
  put("recipe", "monochrome", json_of(recipe).dump());

  Job job;
  const std::string digest(64, 'a');
  job.master = {"hillside.tif", 11664, 8750, 16, digest};
  job.paper = {"Tarnsea Baryta", digest};
  put("job", "short", job_text(job));
  job.recipe = recipe;
  job.deliveries.push_back(
      {"hillside-print.tif", "", 3'000'000'123, digest, 1200, 900.5, 0.1, 0.3, 2});
  job.edition = JobEdition{3, 12};
  job.costs = {{"print", 480.5}, {"discount", -20.25}};
  job.notes = "Call before sending.\nRoll, not flat <script>.";
  JobReturned returned;
  JobSeen seen;
  seen.name = "back.jpg";
  seen.size.cut = {8.25, std::nullopt, -0.5, std::nullopt};
  seen.size.width_mm = 400;
  seen.cast.greys[1] = {50, 2.5, -1.25, 0.25};
  seen.shadow.closed_until = 14;
  seen.marks.marks = {{returned::MarkKind::scratch, 0.25, 0.5, 0.125, 0.0625, 40, 1, -9}};
  returned.seen = seen;
  returned.measured = JobMeasured{31, 1.25, 2.5, 4, Verdict::good};
  print::PaperCorrection reading;
  reading.offsets = {{5, 1, 0.5, -0.5}, {95, -1, 0, 0}};
  returned.reading = reading;
  job.returned = returned;
  put("job", "full", job_text(job));
}

// In the three forms that offer.cpp tells apart.
void offers() {
  const Profile master = standard_profile("srgb").take();
  const testing::Codes rgb = picture(40, 30, 3, 16);
  std::vector<PaperToOffer> papers;
  for (const char* space : {"p3", "oprgb"}) {
    Paper paper = paper_from_profile(standard_profile(space).take(), space).take();
    papers.push_back({space, "Smooth.", std::move(paper), {}});
  }
  auto made = make_offer(master, rgb, 40, 30, {}, papers, {"Dusk", "Two", {{"A", "180"}}, 20819},
                         kLinkForm, {});
  if (!made) return;
  const Bytes& packed = made.value().packed;
  const std::string link = link_of(packed);
  put("offer", "link", after(0, {reinterpret_cast<const uint8_t*>(link.data()), link.size()}));
  put("offer", "body", after(1, ByteView(packed).subspan(5)));
  Unpacker body(ByteView(packed).subspan(5));
  const Bytes texts = inflated(body.raw(body.number(1 << 20)), 1 << 17);
  Bytes open{2, uint8_t(texts.size()), uint8_t(texts.size() >> 8)};
  open.insert(open.end(), texts.begin(), texts.end());
  const ByteView jpeg = body.rest();
  open.insert(open.end(), jpeg.begin(), jpeg.end());
  put("offer", "open", open);

  OfferAnswer answer{made.value().offer.checksum, 1, 0, "The second, please."};
  const std::string text = text_of_answer(answer).take();
  put("answer", "text", after(0, {reinterpret_cast<const uint8_t*>(text.data()), text.size()}));
  put("answer", "body", Bytes{1, 1, 2, 3, 4, 1, 1, 2, 'o', 'k'});
}

// Two stored profiles and a folder (PKWARE APPNOTE 6.3: 4.3.7, 4.3.12, 4.3.16).
void parcels(const std::vector<SmallProfile>& profiles) {
  Bytes zip, directory;
  const auto number = [](Bytes& out, uint64_t value, int bytes) {
    for (int i = 0; i < bytes; ++i) out.push_back(uint8_t(value >> (8 * i)));
  };
  uint32_t entries = 0;
  const auto add = [&](const std::string& name, const Bytes& bytes, bool pack) {
    const Bytes held = pack ? deflated(bytes) : bytes;
    const auto common = [&](Bytes& out) {
      number(out, 20, 2);
      number(out, 0, 2);
      number(out, pack ? 8 : 0, 2);
      number(out, 0, 4);
      number(out, crc32_of(bytes), 4);
      number(out, held.size(), 4);
      number(out, bytes.size(), 4);
      number(out, name.size(), 2);
      number(out, 0, 2);
    };
    number(directory, 0x02014b50, 4);
    number(directory, 20, 2);
    common(directory);
    number(directory, 0, 10);
    number(directory, zip.size(), 4);
    directory.insert(directory.end(), name.begin(), name.end());
    number(zip, 0x04034b50, 4);
    common(zip);
    zip.insert(zip.end(), name.begin(), name.end());
    zip.insert(zip.end(), held.begin(), held.end());
    ++entries;
  };
  add("papers/", {}, false);
  add("papers/grey.icc", profiles.back().bytes, false);
  add("papers/matrix.icc", profiles[7].bytes, true);
  const size_t start = zip.size();
  zip.insert(zip.end(), directory.begin(), directory.end());
  number(zip, 0x06054b50, 4);
  number(zip, 0, 4);
  number(zip, entries, 2);
  number(zip, entries, 2);
  number(zip, directory.size(), 4);
  number(zip, start, 4);
  number(zip, 0, 2);
  put("parcel", "two", zip);
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 2) return 2;
  folder = arguments[1];
  const std::vector<SmallProfile> profiles = small_profiles();
  for (const SmallProfile& seed : profiles) {
    for (const char* reader : {"paper", "card", "embedded"}) put(reader, seed.name, seed.bytes);
  }
  masters(profiles);
  readings();
  recipes_and_jobs();
  offers();
  parcels(profiles);
  return 0;
}
