// The native command: the engine's work from the command line, for scripts and tests.
#include <cstdio>
#include <cstring>

#include "arguments.h"
#include "base/files.h"
#include "base/json.h"
#include "codec/writer.h"
#include "job/work.h"
#include "proof/cube.h"
#include "ranking.h"

namespace proofleaf::tool {
namespace {

constexpr int kUnusable = 1, kBadUse = 2;

int complain(const Error& error, int status) {
  std::fprintf(stderr, "proofleaf: %s\n", error.message.c_str());
  return status;
}

bool is_standard(const std::string& paper) {
  for (const auto& space : standard_spaces()) {
    if (paper == space.id) return true;
  }
  return false;
}

constexpr uint64_t kLargestRecipe = 1u << 20;  // [bytes]

// The request and the files that all commands on a master share.
struct Call {
  Json request;
  WorkFiles files;
};

Result<Call> call_for(const Arguments& arguments, const char* op, const std::string& file) {
  Call call;
  call.request = {{"op", op},
                  {"intent", arguments.option("intent", "relative")},
                  {"black_point_compensation", !arguments.flag("no-compensation")},
                  {"paper_white", !arguments.flag("no-paper-white")},
                  {"paper_black", !arguments.flag("no-paper-black")},
                  {"screen", arguments.option("screen", "srgb")}};
  auto master = open_file(file);
  if (!master) return master.error();
  call.files.master = master.take();
  const auto space_or_file = [&](const char* option, const char* key,
                                 std::shared_ptr<ByteSource>& slot) -> Status {
    const std::string value = arguments.option(option, "");
    if (value.empty()) return done();
    if (is_standard(value)) {
      call.request[key] = value;
      return done();
    }
    auto profile = open_file(value);
    if (!profile) return profile.error();
    slot = profile.take();
    return done();
  };
  if (auto found = space_or_file("assume", "assume", call.files.assume); !found) {
    return found.error();
  }
  if (auto found = space_or_file("paper", "space", call.files.paper); !found) return found.error();
  if (const std::string path = arguments.option("recipe", ""); !path.empty()) {
    auto text = read_file(path, kLargestRecipe);
    if (!text) return text.error();
    call.request["recipe"] = parse_json({text.value().begin(), text.value().end()});
    if (call.request["recipe"].is_discarded()) return Error{path + " is no recipe."};
  }
  return call;
}

bool is_profile(ByteSource& source) {
  std::array<uint8_t, 40> head{};
  const auto got = source.read_at(0, head);
  return got && looks_like_profile(ByteView(head).first(got.value()));
}

void print_plain(const Json& answer) {
  for (const auto& [key, value] : answer.items()) {
    if (key == "kind") continue;
    const std::string text = value.is_string() ? value.get<std::string>() : dump_json(value);
    std::printf("%-16s %s\n", key.c_str(), text.c_str());
  }
}

void print_answer(const Json& answer, bool as_json) {
  if (as_json) {
    std::printf("%s\n", dump_json(answer).c_str());
  } else {
    print_plain(answer);
  }
}

int inspect(const Arguments& arguments) {
  auto call = call_for(arguments, "open", arguments.files[0]);
  if (!call) return complain(call.error(), kUnusable);
  if (is_profile(*call.value().files.master)) {
    call.value().request["op"] = "paper";
    call.value().files.paper = call.value().files.master;
  }
  auto answer = perform(dump_json(call.value().request), call.value().files, {});
  if (!answer) return complain(answer.error(), kUnusable);
  print_answer(parse_json(answer.value().json), arguments.flag("json"));
  return 0;
}

void print_findings(const Json& report) {
  for (const Json& finding : report["findings"]) {
    std::printf("[%s] %s: %s\n", text_of(finding, "severity").c_str(),
                text_of(finding, "title").c_str(), text_of(finding, "what").c_str());
    for (const char* key : {"why", "do"}) {
      if (const std::string text = text_of(finding, key); !text.empty()) {
        std::printf("       %s\n", text.c_str());
      }
    }
  }
  for (const Json& unsaid : report["unsaid"]) {
    std::printf("[not judged] %s: %s\n", text_of(unsaid, "title").c_str(),
                text_of(unsaid, "what").c_str());
  }
  for (const Json& size : report["print_sizes"]) {
    std::printf("%3.0f ppi: %.1f x %.1f cm, to be seen from %.0f cm on\n", number_of(size, "ppi"),
                number_of(size, "width_cm"), number_of(size, "height_cm"),
                number_of(size, "distance_cm"));
  }
}

int condition(const Arguments& arguments) {
  const auto width = number(arguments, "print-width", 0, 1, 100000);
  if (!width) return complain(width.error(), kBadUse);
  const auto dust = number(arguments, "spot", 0.5, 0.05, 20);
  if (!dust) return complain(dust.error(), kBadUse);
  auto call = call_for(arguments, "condition", arguments.files[0]);
  if (!call) return complain(call.error(), kUnusable);
  if (arguments.flag("print-width")) call.value().request["print_width_mm"] = width.value();
  call.value().request["dust_mm"] = dust.value();
  auto answer = perform(dump_json(call.value().request), call.value().files, {});
  if (!answer) return complain(answer.error(), kUnusable);
  const Json report = parse_json(answer.value().json);
  if (arguments.flag("json")) {
    print_answer(report, true);
  } else {
    print_findings(report);
  }
  return 0;
}

const Bytes* buffer(const Answer& answer, const char* name) {
  for (const auto& named : answer.buffers) {
    if (named.name == name) return &named.bytes;
  }
  return nullptr;
}

struct Proofed {
  Json master;
  uint32_t width = 0, height = 0;
  std::vector<uint16_t> rgb;
  std::vector<uint8_t> screen;  // R G B and tenths of dE00 off the gamut
  std::shared_ptr<ProofChain> chain;
};

Result<Cube> cube_for(Call& call, uint32_t grid) {
  call.request["grid"] = grid;
  auto built = perform(dump_json(call.request), call.files, {});
  if (!built) return built.error();
  return unpack_cube(*buffer(built.value(), "cube"));
}

// The very steps of the page: preview, quick cube, the cube refined for the picture, kernel.
Result<Proofed> make_proof(Call& call) {
  auto opened = perform(dump_json(call.request), call.files, {});
  if (!opened) return opened.error();
  Proofed proofed;
  proofed.master = parse_json(opened.value().json);
  proofed.width = static_cast<uint32_t>(whole_of(proofed.master, "preview_width", 0, 0, 1 << 20));
  proofed.height = static_cast<uint32_t>(whole_of(proofed.master, "preview_height", 0, 0, 1 << 20));
  const Bytes& preview = *buffer(opened.value(), "preview");
  proofed.rgb.resize(preview.size() / 2);
  std::memcpy(proofed.rgb.data(), preview.data(), preview.size());
  call.files.profile =
      std::make_shared<MemorySource>("the master's profile", *buffer(opened.value(), "profile"));
  call.request["op"] = "cube";
  auto quick = cube_for(call, kQuickGrid);
  if (!quick) return quick.error();
  call.files.blocks = std::make_shared<MemorySource>("the picture's colours",
                                                     blocks_used(quick.value(), proofed.rgb));
  auto cube = cube_for(call, kProofGrid);
  if (!cube) return cube.error();
  proofed.screen.resize(proofed.rgb.size() / 3 * 4);
  proof_to_screen8(cube.value(), proofed.rgb, proofed.screen);
  return proofed;
}

Status write_proof(const Proofed& proofed, const std::string& screen, const std::string& path) {
  auto profile = standard_profile(screen);
  if (!profile) return profile.error();
  WriteSpec spec;
  spec.container = Container::tiff;
  spec.width = proofed.width;
  spec.height = proofed.height;
  spec.icc = profile.value().bytes();
  auto file = create_file(path);
  if (!file) return file.error();
  auto writer = open_writer(spec, *file.value());
  if (!writer) return writer.error();
  std::vector<uint8_t> row(size_t{proofed.width} * 3);
  for (size_t y = 0; y < proofed.height; ++y) {
    for (size_t x = 0; x < proofed.width; ++x) {
      std::memcpy(&row[x * 3], &proofed.screen[(y * proofed.width + x) * 4], 3);
    }
    if (auto put = writer.value()->write8(row, 1); !put) return put;
  }
  if (auto end = writer.value()->finish(); !end) return end;
  return file.value()->commit();
}

// Places spread evenly: the middles of across x down fields of the preview.
Json places_of(const Proofed& proofed, uint32_t across, uint32_t down) {
  Json places = Json::array();
  for (uint32_t j = 0; j < down; ++j) {
    for (uint32_t i = 0; i < across; ++i) {
      const double fx = (i + 0.5) / across, fy = (j + 0.5) / down;
      const auto x = static_cast<size_t>(fx * proofed.width),
                 y = static_cast<size_t>(fy * proofed.height);
      const uint8_t* at = &proofed.screen[(y * proofed.width + x) * 4];
      places.push_back(
          {{"x", fx}, {"y", fy}, {"screen", {at[0], at[1], at[2]}}, {"off_gamut", at[3] / 10.0}});
    }
  }
  return places;
}

int proof(const Arguments& arguments) {
  unsigned across = 8, down = 6;
  const std::string places = arguments.option("places", "8x6");
  if (std::sscanf(places.c_str(), "%ux%u", &across, &down) != 2 || across < 1 || down < 1 ||
      across > 1000 || down > 1000) {
    return complain(Error{"--places takes two numbers such as 8x6, each from 1 to 1000."}, kBadUse);
  }
  auto call = call_for(arguments, "open", arguments.files[0]);
  if (!call) return complain(call.error(), kUnusable);
  auto proofed = make_proof(call.value());
  if (!proofed) return complain(proofed.error(), kUnusable);
  if (const std::string out = arguments.option("out", ""); !out.empty()) {
    if (auto put = write_proof(proofed.value(), arguments.option("screen", "srgb"), out); !put) {
      return complain(put.error(), kUnusable);
    }
  }
  size_t off = 0;
  for (size_t i = 3; i < proofed.value().screen.size(); i += 4)
    off += proofed.value().screen[i] > 30;
  const double share = 4.0 * double(off) / double(proofed.value().screen.size());
  const Json list = places_of(proofed.value(), across, down);
  if (arguments.flag("json")) {
    print_answer({{"kind", "proof"}, {"off_gamut_share", share}, {"places", list}}, true);
    return 0;
  }
  std::printf("%.1f %% of the picture lies more than 3 ΔE00 beyond the paper's gamut.\n",
              100 * share);
  for (const Json& place : list) {
    std::printf("%3.0f %% across, %3.0f %% down: screen %s, off the gamut by %.1f ΔE00\n",
                100 * number_of(place, "x", 0), 100 * number_of(place, "y", 0),
                dump_json(place["screen"]).c_str(), number_of(place, "off_gamut", 0));
  }
  return 0;
}

std::string format_for(const Arguments& arguments, const std::string& path) {
  const bool tiff = path.ends_with(".tif") || path.ends_with(".tiff");
  return arguments.option("format", tiff ? "tiff" : "jpeg");
}

int deliver(const Arguments& arguments) {
  const std::string out = arguments.option("out", "");
  const auto bits = number(arguments, "bits", 8, 8, 16),
             ppi = number(arguments, "ppi", 300, 1, 10000),
             quality = number(arguments, "quality", 95, 1, 100),
             seed = number(arguments, "seed", 1, 0, 4294967295.0);
  for (const auto* value : {&bits, &ppi, &quality, &seed}) {
    if (!*value) return complain(value->error(), kBadUse);
  }
  auto call = call_for(arguments, "deliver", arguments.files[0]);
  if (!call) return complain(call.error(), kUnusable);
  call.value().request.update({{"format", format_for(arguments, out)},
                               {"bits", bits.value()},
                               {"quality", quality.value()},
                               {"ppi", ppi.value()},
                               {"seed", seed.value()},
                               {"full_colour_detail", !arguments.flag("soft-colour")},
                               {"keep_private", arguments.flag("keep-private")}});
  auto file = create_file(out);
  if (!file) return complain(file.error(), kUnusable);
  call.value().files.sink = file.value().get();
  call.value().files.reopen = [&] { return file.value()->reopen(); };
  auto answer = perform(dump_json(call.value().request), call.value().files, {});
  if (!answer) return complain(answer.error(), kUnusable);
  if (auto named = file.value()->commit(); !named) return complain(named.error(), kUnusable);
  print_answer(parse_json(answer.value().json), arguments.flag("json"));
  return 0;
}

Result<PaperCall> paper_call(const Arguments& arguments, const char* op) {
  auto call = call_for(arguments, op, arguments.files[0]);
  if (!call) return call.error();
  return PaperCall{dump_json(call.value().request), call.value().files};
}

int rank(const Arguments& arguments) {
  const auto open = paper_call(arguments, "open");
  if (!open) return complain(open.error(), kUnusable);
  std::vector<Result<PaperCall>> papers;
  for (size_t i = 1; i < arguments.files.size(); ++i) {
    Arguments on_paper = arguments;
    on_paper.options["paper"] = arguments.files[i];
    papers.push_back(paper_call(on_paper, "judge"));
  }
  auto ranking = rank_papers(open.value(), papers);
  if (!ranking) return complain(ranking.error(), kUnusable);
  for (const auto& sentence : ranking.value().refused) complain(Error{sentence}, kUnusable);
  print_ranking(ranking.value(), arguments.flag("json"));
  return ranking.value().refused.empty() ? 0 : kUnusable;
}

int run(const std::vector<std::string>& words) {
  auto parsed = parse(words,
                      {"paper", "intent", "assume", "screen", "places", "out", "format", "bits",
                       "quality", "ppi", "seed", "print-width", "spot", "recipe"},
                      {"no-compensation", "no-paper-white", "no-paper-black", "soft-colour",
                       "keep-private", "json", "help"});
  if (!parsed) return complain(parsed.error(), kBadUse);
  const Arguments& arguments = parsed.value();
  if (arguments.flag("help")) {
    std::fputs(kHelp, stdout);
    return 0;
  }
  const std::string& command = arguments.command;
  if (command == "rank") {
    if (arguments.files.size() >= 2) return rank(arguments);
    return complain(Error{"Name a picture and one or more papers after rank."}, kBadUse);
  }
  static const std::string kCommands = "inspect, condition, rank, proof or deliver";
  if (command != "inspect" && command != "condition" && command != "proof" &&
      command != "deliver") {
    return complain(
        Error{command.empty() ? "Say what to do: " + kCommands + "; proofleaf --help tells more."
                              : "There is no command " + command + "; it is " + kCommands + "."},
        kBadUse);
  }
  if (arguments.files.size() != 1)
    return complain(Error{"Name one file after " + command + "."}, kBadUse);
  if (command == "inspect") return inspect(arguments);
  if (command == "condition") return condition(arguments);
  if (!arguments.flag("paper")) return complain(Error{"Say which paper, with --paper."}, kBadUse);
  if (command == "proof") return proof(arguments);
  if (!arguments.flag("out"))
    return complain(Error{"Say where the new file goes, with --out."}, kBadUse);
  return deliver(arguments);
}

}  // namespace
}  // namespace proofleaf::tool

int main(int argc, char** argv) {
  return proofleaf::tool::run(std::vector<std::string>(argv + 1, argv + argc));
}
