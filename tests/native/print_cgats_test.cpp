// Measurements as text.
#include <random>

#include "pictures.h"
#include "print/cgats.h"

using namespace proofleaf;
using namespace proofleaf::test;
using namespace proofleaf::print;

namespace {

const std::string kOpenData = "/usr/share/color/icc/";  // of the package icc-profiles-free

Bytes bytes_of(const std::string& text) { return {text.begin(), text.end()}; }

Readings read(const std::string& text) {
  auto readings = read_readings(bytes_of(text), "strip.txt");
  REQUIRE_MESSAGE(readings.ok(), readings.error().message);
  return readings.take();
}

std::string refusal(const std::string& text) {
  const auto readings = read_readings(bytes_of(text), "strip.txt");
  return readings ? "" : readings.error().message;
}

const std::string kSmall =
    "CGATS.17\r\n"
    "ORIGINATOR \"A \"\"quoted\"\" word\"  # of the maker\n"
    "# a comment with BEGIN_DATA in it\n"
    "KEYWORD \"PAPER\"\nPAPER   \"Smooth cotton\"\n"
    "NUMBER_OF_FIELDS 5\nBEGIN_DATA_FORMAT\nSAMPLE_ID SAMPLE_NAME\nLAB_L LAB_A LAB_B\n"
    "END_DATA_FORMAT\nNUMBER_OF_SETS 2\nBEGIN_DATA\n"
    "1 \"B 0\" 5.5 -0.1 1e-1\n2 'W 100'\n 96,25 0 -2\nEND_DATA\n";

}  // namespace

TEST_CASE("cgats: open characterization data, with their patch counts and known values") {
  struct Known {
    const char* file;
    size_t patches;
    Lab paper, black;  // first patch, and black alone, as the file has them
  };
  // IT8.7/3 has 928 patches, IT8.7/4 1617 (ANSI CGATS); the two kinds of 1485 are ECI2002.
  const Known known[] = {{"FOGRA28L.ti3", 1485, {92.37, -0.70, 1.52}, {}},
                         {"FOGRA29L.ti3", 1485, {95.71, 0.61, -2.32}, {}},
                         {"FOGRA30L.ti3", 1485, {95.93, -0.77, 3.85}, {}},
                         {"FOGRA39L.ti3", 1617, {95, 0, -2}, {16, 0, 0}},
                         {"FOGRA40L.ti3", 1617, {89.15, -0.02, 4.63}, {}},
                         {"TR002.ti3", 928, {}, {}},
                         {"TR003.ti3", 1617, {}, {}},
                         {"TR005.ti3", 1617, {}, {}},
                         {"TR006.ti3", 1617, {95, -0.02, -1.96}, {}}};
  for (const Known& data : known) {
    const auto made = read_readings(file_bytes(kOpenData + data.file), data.file);
    REQUIRE_MESSAGE(made.ok(), made.error().message);
    const Readings& readings = made.value();
    CHECK(readings.patches() == data.patches);
    CHECK(readings.fields.size() == 11);
    CHECK(readings.keyword("COLOR_REP") == "CMYK_LAB");
    CHECK(device_kind(readings) == DeviceKind::cmyk);
    const auto lab = lab_readings(readings, data.file);
    REQUIRE(lab);
    REQUIRE(lab.value().size() == data.patches);
    if (data.paper.l > 0) {
      CHECK(readings.at(0, *readings.field("CMYK_C")) == 0);
      CHECK(lab.value()[0].l == data.paper.l);
      CHECK(lab.value()[0].a == data.paper.a);
      CHECK(lab.value()[0].b == data.paper.b);
    }
    if (data.black.l > 0) {
      for (size_t i = 0; i < data.patches; ++i) {
        if (readings.names[i] == "1260") CHECK(lab.value()[i].l == data.black.l);
      }
    }
    // The files' own XYZ and L*a*b* columns agree under D50 (ISO 13655) to their two decimals.
    const auto x = readings.columns({"XYZ_X", "XYZ_Y", "XYZ_Z"});
    REQUIRE(x.size() == 3);
    double worst = 0, sum = 0;
    for (size_t i = 0; i < data.patches; ++i) {
      const Lab own = lab_from_xyz(
          {readings.at(i, x[0]) / 100, readings.at(i, x[1]) / 100, readings.at(i, x[2]) / 100});
      const double off = delta_e_2000(own, lab.value()[i]);
      worst = std::max(worst, off);
      sum += off;
    }
    CHECK_MESSAGE(sum / double(data.patches) < 0.05, data.file);
    CHECK_MESSAGE(worst < 0.5, data.file);
  }
}

TEST_CASE("cgats: quotes, comments, lines, commas and exponents") {
  const Readings readings = read(kSmall);
  CHECK(readings.kind == "CGATS.17");
  CHECK(readings.keyword("ORIGINATOR") == "A \"quoted\" word");
  CHECK(readings.keyword("PAPER") == "Smooth cotton");
  CHECK(readings.names == std::vector<std::string>{"B 0", "W 100"});
  const auto lab = lab_readings(readings, "strip.txt");
  REQUIRE(lab);
  CHECK(lab.value()[0].b == doctest::Approx(0.1));
  CHECK(lab.value()[1].l == doctest::Approx(96.25));
  CHECK(std::isnan(readings.at(0, 1)));
}

TEST_CASE("cgats: XYZ serves where there is no L*a*b*; spectra alone do not") {
  const Readings xyz = read(
      "CGATS.17\nBEGIN_DATA_FORMAT\nXYZ_X XYZ_Y XYZ_Z\nEND_DATA_FORMAT\nBEGIN_DATA\n"
      "96.42 100 82.49\nEND_DATA\n");
  const auto lab = lab_readings(xyz, "strip.txt");
  REQUIRE(lab);
  CHECK(lab.value()[0].l == doctest::Approx(100));  // D50, ICC.1:2022
  CHECK(lab.value()[0].a == doctest::Approx(0).scale(1));
  CHECK(xyz.names[0] == "1");
  const Readings spectra = read(
      "CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID SPECTRAL_NM400 SPECTRAL_NM390 RGB_R RGB_G RGB_B\n"
      "END_DATA_FORMAT\nBEGIN_DATA\nA1 0.2 0.1 1 2 3\nEND_DATA\n");
  const auto columns = spectral_columns(spectra);
  REQUIRE(columns.size() == 2);
  CHECK(columns[0] == std::pair<double, size_t>{390, 2});
  CHECK(device_kind(spectra) == DeviceKind::rgb);
  const auto none = lab_readings(spectra, "strip.txt");
  REQUIRE_FALSE(none.ok());
  CHECK(none.error().message.find("spectra only") != std::string::npos);
}

TEST_CASE("cgats: plain tables with semicolons, tabs or commas") {
  for (const std::string text :
       {"Name;L*;a*;b*\n\"B; 0\";5,5;0;-1\nW 100;96,2;0,1;-2\n",
        "\xEF\xBB\xBFname\tL\ta\tb\r\n\"B; 0\"\t5.5\t0\t-1\r\nW 100\t96.2\t0.1\t-2\r\n",
        "NAME,LAB_L,LAB_A,LAB_B\n\"B; 0\",5.5,0,-1\n\n\"W 100\",96.2,0.1,-2"}) {
    const Readings readings = read(text);
    CHECK(readings.names == std::vector<std::string>{"B; 0", "W 100"});
    const auto lab = lab_readings(readings, "strip.txt");
    REQUIRE(lab);
    CHECK(lab.value()[0].l == doctest::Approx(5.5));
    CHECK(lab.value()[1].a == doctest::Approx(0.1));
  }
  const Readings device = read("R;G;B;X;Y;Z\n1;2;3;4;5;6\n");
  CHECK(device.field("RGB_B") == 2u);
  CHECK(device.field("XYZ_Y") == 4u);
  CHECK(device_kind(read("C,M,Y,K,L,a,b\n1,2,3,4,50,0,0\n")) == DeviceKind::cmyk);
}

TEST_CASE("cgats: what does not hold together is refused with a sentence") {
  CHECK(refusal("").find("is empty") != std::string::npos);
  CHECK(refusal(std::string("CGATS\0x", 7)).find("not a text") != std::string::npos);
  auto with = [](const std::string& from, const std::string& to) {
    std::string text = kSmall;
    text.replace(text.find(from), from.size(), to);
    return text;
  };
  CHECK(refusal(with("NUMBER_OF_SETS 2", "NUMBER_OF_SETS 3")).find("says NUMBER_OF_SETS 3") !=
        std::string::npos);
  CHECK(refusal(with("NUMBER_OF_SETS 2", "NUMBER_OF_SETS 99999999999999999999")).size() > 0);
  CHECK(refusal(with("NUMBER_OF_FIELDS 5", "NUMBER_OF_FIELDS 6")).size() > 0);
  CHECK(refusal(with(" 0 -2\nEND_DATA", " 0\nEND_DATA")).find("fewer numbers") !=
        std::string::npos);
  CHECK(refusal(with("END_DATA\n", "")).size() > 0);
  CHECK(refusal(with("LAB_A", "LAB_L")).find("same name") != std::string::npos);
  CHECK(refusal("a,b\n1\n").find("1 cells under 2 headings") != std::string::npos);
  CHECK(refusal("a,b\n").find("no patches") != std::string::npos);
  for (const char* bad : {"nan", "inf", "0x10", "--5", "1e999", "five", "1.2.3"}) {
    const auto made = read_readings(bytes_of(with("5.5", bad)), "strip.txt");
    REQUIRE(made);
    CHECK_FALSE(lab_readings(made.value(), "strip.txt").ok());
  }
  CHECK_FALSE(lab_readings(read(with("5.5", "500")), "strip.txt").ok());
}

TEST_CASE("cgats: cut, stirred and swollen files only ever say no") {
  for (size_t length = 0; length < kSmall.size() - 3; ++length) {
    CHECK_FALSE(refusal(kSmall.substr(0, length)).empty());
  }
  std::mt19937 random(11);
  for (int round = 0; round < 3000; ++round) {
    std::string text = kSmall;
    for (int i = 0; i < 4; ++i) {
      text[random() % text.size()] = static_cast<char>(random() % 256);
    }
    const auto made = read_readings(bytes_of(text), "strip.txt");
    if (!made.ok()) {
      CHECK(made.error().message.back() == '.');
      continue;
    }
    CHECK(made.value().values.size() == made.value().patches() * made.value().fields.size());
    static_cast<void>(lab_readings(made.value(), "strip.txt").ok());
  }
  std::string many = "CGATS\nBEGIN_DATA_FORMAT\n";
  for (int i = 0; i < 500; ++i) many += "F" + std::to_string(i) + " ";
  CHECK_FALSE(refusal(many + "\nEND_DATA_FORMAT\nBEGIN_DATA\nEND_DATA\n").empty());
  std::string tall = "L,a,b\n";
  for (int i = 0; i < 100'001; ++i) tall += "1,1,1\n";
  CHECK(refusal(tall).find("more patches") != std::string::npos);
  CHECK_FALSE(refusal(std::string(1 << 20, '"')).empty());
  CHECK_FALSE(refusal("BEGIN_DATA " + std::string(1 << 20, '#')).empty());
}
