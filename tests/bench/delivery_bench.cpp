// Whole deliveries of large masters: delivery_bench TOOL FOLDER makes the masters in FOLDER if they
// are not there, runs TOOL (the native command) and its peers as processes, in turns, and prints
// one JSON object a line. delivery_bench --unverified MASTER OUT: the same delivery up to the
// finished file, for peers do not check. delivery_bench --decode JPEG: libjpeg-turbo's full decode
// to nowhere; prints its seconds. --recode JPEG: that, and its full encode to nowhere.
#include <fcntl.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <optional>
#include <string>
#include <thread>
// (jpeglib.h needs <cstdio> before it.)
#include <jpeglib.h>

#include "deliver/deliver.h"
#include "photograph.h"

using namespace proofleaf;
using bench::take_or_stop;
namespace fs = std::filesystem;

extern char** environ;

namespace {

const std::string kPaper = REPOSITORY "/demo-images/papers/tarnsea-baryta.icc";
constexpr int kRounds = 3;

struct Size {
  uint32_t width, height;
  double megapixels() const { return double(width) * height / 1e6; }
};
constexpr Size kSmall{2912, 2184}, kMiddle{5824, 4368}, kLarge{11648, 8736},
    kHuge{23296, 17472};  // 6, 25, 102, 407 Mpx

// The demo landscape, mirrored on and on, with grain of its own everywhere.
void make_master(const std::string& path, Size size, uint32_t bits, Container container) {
  const Picture scene = bench::landscape();
  WriteSpec spec;
  spec.container = container;
  spec.width = size.width;
  spec.height = size.height;
  spec.bits = bits;
  spec.icc = take_or_stop(standard_profile("srgb")).bytes();
  auto file = take_or_stop(create_file(path));
  auto writer = take_or_stop(open_writer(spec, *file));
  const auto mirrored = [](uint32_t at, uint32_t side) {
    return at / side % 2 == 0 ? at % side : side - 1 - at % side;
  };
  std::vector<uint16_t> row(size_t{size.width} * 3);
  std::vector<uint8_t> eight(row.size());
  uint32_t random = 1;  // xorshift32, G. Marsaglia 2003
  for (uint32_t y = 0; y < size.height; ++y) {
    for (size_t i = 0; i < row.size(); ++i) {
      const size_t at = size_t{mirrored(y, scene.height)} * scene.width +
                        mirrored(static_cast<uint32_t>(i / 3), scene.width);
      random ^= random << 13, random ^= random >> 17, random ^= random << 5;
      row[i] = bench::with_grain(scene.rgb[at * 3 + i % 3], random >> 8, random >> 16);
      eight[i] = static_cast<uint8_t>((row[i] + 128) / 257);
    }
    take_or_stop(bits == 16 ? writer->write16(row, 1) : writer->write8(eight, 1));
  }
  take_or_stop(writer->finish());
  take_or_stop(file->commit());
}

std::string master_at(const std::string& folder, Size size, uint32_t bits, Container container) {
  const bool tiff = container == Container::tiff;
  const std::string path = folder + "/master-" + std::to_string(size.width) + "x" +
                           std::to_string(size.height) + (tiff ? ".tif" : ".jpg");
  if (!fs::exists(path)) make_master(path, size, bits, container);
  return path;
}

// The engine's own delivery, ended as soon as the file is finished and the check would begin.
int unverified(const std::string& master_path, const std::string& out) {
  auto master = take_or_stop(open_master(take_or_stop(open_file(master_path))));
  const auto colour = take_or_stop(master_colour(master->info(), "master", "", {}));
  const Paper paper = take_or_stop(read_paper(take_or_stop(read_file(kPaper, 64u << 20)), "paper"));
  auto file = take_or_stop(create_file(out));
  bool written = false;
  const Reopen reopen = [&]() -> Result<std::shared_ptr<ByteSource>> {
    written = true;
    return Error{"Not checked here."};
  };
  const auto result = deliver(*master, colour, paper, {}, *file, reopen, {});
  if (!written) std::fprintf(stderr, "%s\n", result.error().message.c_str());
  return written && file->commit() ? 0 : 1;
}

// libjpeg-turbo writing what it gets, at quality 95 and 4:4:4, into memory it uses again.
class BareEncoder {
 public:
  BareEncoder(uint32_t width, uint32_t height) : bytes_(1 << 20) {
    cinfo_.err = jpeg_std_error(&errors_);
    jpeg_create_compress(&cinfo_);
    cinfo_.dest = &manager_;
    manager_.init_destination = [](j_compress_ptr) {};
    manager_.term_destination = [](j_compress_ptr) {};
    manager_.empty_output_buffer = [](j_compress_ptr cinfo) -> boolean {
      static_cast<BareEncoder*>(cinfo->client_data)->rewind();
      return TRUE;
    };
    cinfo_.client_data = this;
    rewind();
    cinfo_.image_width = width;
    cinfo_.image_height = height;
    cinfo_.input_components = 3;
    cinfo_.in_color_space = JCS_RGB;
    jpeg_set_defaults(&cinfo_);
    jpeg_set_quality(&cinfo_, 95, TRUE);
    cinfo_.comp_info[0].h_samp_factor = cinfo_.comp_info[0].v_samp_factor = 1;
    jpeg_start_compress(&cinfo_, TRUE);
  }
  BareEncoder(const BareEncoder&) = delete;
  BareEncoder& operator=(const BareEncoder&) = delete;
  ~BareEncoder() { jpeg_destroy_compress(&cinfo_); }
  void take(JSAMPARRAY rows, JDIMENSION count) { jpeg_write_scanlines(&cinfo_, rows, count); }
  void finish() { jpeg_finish_compress(&cinfo_); }

 private:
  void rewind() {
    manager_.next_output_byte = bytes_.data();
    manager_.free_in_buffer = bytes_.size();
  }

  Bytes bytes_;
  jpeg_error_mgr errors_{};
  jpeg_destination_mgr manager_{};
  jpeg_compress_struct cinfo_{};
};

// Without the engine: libjpeg-turbo as its manual says, from memory. again: encodes the rows, too.
int decode(const std::string& path, bool again) {
  const Bytes file = take_or_stop(read_file(path, 1u << 30));
  const auto begin = std::chrono::steady_clock::now();
  jpeg_decompress_struct cinfo{};
  jpeg_error_mgr errors{};
  cinfo.err = jpeg_std_error(&errors);
  jpeg_create_decompress(&cinfo);
  jpeg_mem_src(&cinfo, file.data(), static_cast<unsigned long>(file.size()));
  jpeg_read_header(&cinfo, TRUE);
  jpeg_start_decompress(&cinfo);
  const size_t row = size_t{cinfo.output_width} * static_cast<size_t>(cinfo.output_components);
  std::vector<uint8_t> rows(row * 16);
  std::vector<JSAMPROW> places;
  for (size_t i = 0; i < 16; ++i) places.push_back(&rows[i * row]);
  std::optional<BareEncoder> encoder;
  if (again) encoder.emplace(cinfo.image_width, cinfo.image_height);
  while (cinfo.output_scanline < cinfo.output_height) {
    const JDIMENSION count = jpeg_read_scanlines(&cinfo, places.data(), 16);
    if (encoder) encoder->take(places.data(), count);
  }
  if (encoder) encoder->finish();
  jpeg_finish_decompress(&cinfo);
  jpeg_destroy_decompress(&cinfo);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
  std::printf("%.4f\n", took.count());
  return 0;
}

struct Ran {
  double seconds = 1e9;  // wall clock
  double megabytes = 0;  // most resident memory at once
};

// Runs a command to its end; its words go to nowhere. wait4 tells its memory (getrusage(2): KiB).
Ran run(std::vector<std::string> words) {
  std::vector<char*> arguments;
  for (auto& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t quiet;
  posix_spawn_file_actions_init(&quiet);
  posix_spawn_file_actions_addopen(&quiet, 1, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  int status = 1;
  rusage used{};
  const auto begin = std::chrono::steady_clock::now();
  const bool started =
      posix_spawnp(&child, arguments[0], &quiet, nullptr, arguments.data(), environ) == 0;
  if (started) wait4(child, &status, 0, &used);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
  posix_spawn_file_actions_destroy(&quiet);
  if (!started || status != 0) {
    std::fprintf(stderr, "%s did not succeed.\n", words[0].c_str());
    std::exit(1);
  }
  return {took.count(), double(used.ru_maxrss) * 1024 / 1e6};
}

struct Command {
  std::vector<std::string> words;
  std::string out;  // the file it writes
};

// All commands in turns, so that a busy machine is busy for each; the best of the rounds.
std::vector<Ran> race(const std::vector<Command>& commands, int rounds = kRounds) {
  std::vector<Ran> best(commands.size());
  for (int round = 0; round < rounds; ++round) {
    for (size_t i = 0; i < commands.size(); ++i) {
      fs::remove(commands[i].out);
      const Ran ran = run(commands[i].words);
      fs::remove(commands[i].out);
      best[i].seconds = std::min(best[i].seconds, ran.seconds);
      best[i].megabytes = std::max(best[i].megabytes, ran.megabytes);
    }
  }
  return best;
}

void print_row(const std::string& what, double ours, double peer, double goal, bool at_most,
               const std::string& note) {
  std::printf(
      "{\"what\":\"%s\",\"ours\":%.2f,\"peer\":%.2f,\"goal\":%.2f,\"at_most\":%s,"
      "\"note\":\"%s\"}\n",
      what.c_str(), ours, peer, goal, at_most ? "true" : "false", note.c_str());
  std::fflush(stdout);
}

Command ours(const std::string& tool, const std::string& master, const std::string& out) {
  return {{tool, "deliver", master, "--paper", kPaper, "--quality", "95", "--out", out}, out};
}

// All of them: relative colorimetric, black point compensation, quality 95, 4:4:4 (jpgicc does so
// from quality 70 on), the paper's profile embedded.
void speed(const std::string& tool, const std::string& self, const std::string& folder) {
  const std::string master = master_at(folder, kLarge, 8, Container::jpeg);
  const std::string out = folder + "/raced.jpg";
  const auto ran = race({
      ours(tool, master, out),
      {{self, "--unverified", master, out}, out},
      {{"jpgicc", "-q95", "-t1", "-b", "-e", "-o" + kPaper, master, out}, out},
      {{"vips", "icc_transform", master, out + "[Q=95,subsample-mode=off]", kPaper, "--embedded",
        "--intent", "relative", "--black-point-compensation"},
       out},
      {{self, "--recode", master}, out},
  });
  const double mpx = kLarge.megapixels();
  const auto rate = [&](size_t i) { return mpx / ran[i].seconds; };
  const std::string threads = std::to_string(std::thread::hardware_concurrency());
  const std::string note = "Mpx/s of wall clock, " + threads + " cores";
  print_row("whole delivery, unverified, against jpgicc", rate(1), rate(2), 4, false, note);
  print_row("whole delivery, unverified, against libvips", rate(1), rate(3), 2, false, note);
  print_row("whole delivery, verified, against jpgicc", rate(0), rate(2), 0, false, note);
  print_row("whole delivery, verified, against libvips", rate(0), rate(3), 1.3, false, note);
  const double cores = std::thread::hardware_concurrency();
  print_row("whole delivery, unverified, against its limit", rate(1), cores * rate(4), 0, false,
            "Mpx/s; peer: libjpeg-turbo's decode and encode alone, shared by all cores");
  print_row("its memory against libvips'", ran[0].megabytes, ran[3].megabytes, 0, true,
            "MB at most");
}

void memory_and_growth(const std::string& tool, const std::string& folder) {
  std::vector<Ran> found;
  for (const Size size : {kSmall, kMiddle, kLarge, kHuge}) {
    const std::string master = master_at(folder, size, 16, Container::tiff);
    const int rounds = size.width == kHuge.width ? 1 : kRounds;
    found.push_back(race({ours(tool, master, folder + "/grown.jpg")}, rounds)[0]);
    const double decoded = size.megapixels() * 6;
    char name[100];
    std::snprintf(name, sizeof name, "memory, 16-bit TIFF of %.0f Mpx to JPEG", size.megapixels());
    print_row(name, found.back().megabytes, decoded, found.size() == 1 ? 0 : 0.35, true,
              "MB at most; peer: the decoded master");
  }
  const double times = kHuge.megapixels() / kSmall.megapixels();
  print_row("growth of time, 6 to 407 Mpx", found[3].seconds / found[0].seconds, times, 1, true,
            "times; peer: the pixels");
  print_row("growth of memory, 6 to 407 Mpx", found[3].megabytes / found[0].megabytes, 1, 1.2, true,
            "times; peer: flat");
}

}  // namespace

int main(int count, char** words) {
  if (count == 4 && std::string(words[1]) == "--unverified") return unverified(words[2], words[3]);
  if (count == 3 && std::string(words[1]) == "--decode") return decode(words[2], false);
  if (count == 3 && std::string(words[1]) == "--recode") return decode(words[2], true);
  if (count != 3) {
    std::fprintf(stderr, "usage: delivery_bench TOOL FOLDER\n");
    return 2;
  }
  speed(words[1], words[0], words[2]);
  memory_and_growth(words[1], words[2]);
  return 0;
}
