// The native command as a person types it.
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>

#include "base/json.h"
#include "pictures.h"

using namespace proofleaf;
using namespace proofleaf::test;
namespace fs = std::filesystem;

namespace {

struct Ran {
  int status;
  std::string out, err;
};

// A folder of its own for one test, gone afterwards.
class Folder {
 public:
  Folder() : path_(fs::temp_directory_path() / ("proofleaf-" + std::to_string(getpid()))) {
    fs::remove_all(path_);
    fs::create_directories(path_);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() { fs::remove_all(path_); }
  std::string at(const std::string& name) const { return (path_ / name).string(); }
  size_t count() const {
    return static_cast<size_t>(
        std::distance(fs::directory_iterator(path_), fs::directory_iterator()));
  }

 private:
  fs::path path_;
};

Ran run(const Folder& folder, const std::string& words) {
  const std::string out = folder.at("out.txt"), err = folder.at("err.txt");
  const int status =
      std::system((std::string(PROOFLEAF_TOOL) + " " + words + " >" + out + " 2>" + err).c_str());
  auto text = [](const std::string& path) {
    const Bytes bytes = file_bytes(path);
    fs::remove(path);
    return std::string(bytes.begin(), bytes.end());
  };
  return {WEXITSTATUS(status), text(out), text(err)};
}

const std::string kPaperFile = kDemo + "papers/tarnsea-baryta.icc";
const std::string kPictureFile = kDemo + "stairwell.png";

}  // namespace

TEST_CASE("inspect tells of masters and of papers") {
  const Folder folder;
  const Ran picture = run(folder, "inspect --json " + kPictureFile);
  CHECK(picture.status == 0);
  CHECK(text_of(parse_json(picture.out), "model") == "grey");
  CHECK(number_of(parse_json(picture.out), "bits", 0) == 16);
  const Ran paper = run(folder, "inspect " + kPaperFile);
  CHECK(paper.status == 0);
  CHECK(paper.out.find("Tarnsea Baryta") != std::string::npos);
}

TEST_CASE("condition tells its findings in sentences and in JSON") {
  const Folder folder;
  const Ran told = run(folder, "condition " + kPictureFile);
  CHECK(told.status == 0);
  CHECK(told.out.find("300 ppi") != std::string::npos);
  const Ran json = run(folder, "condition --json --print-width 400 " + kPictureFile);
  CHECK(json.status == 0);
  const Json report = parse_json(json.out);
  CHECK(text_of(report, "kind") == "condition");
  CHECK(number_of(report, "print_width_mm") == 400);
  CHECK(report["findings"].size() + report["unsaid"].size() >= 10);
  CHECK(run(folder, "condition " + kPaperFile).status == 1);
}

TEST_CASE("proof answers places and writes the proof, never over another file") {
  const Folder folder;
  const std::string out = folder.at("proof.tif");
  const Ran proof = run(folder, "proof --json --places 3x2 " + kPictureFile + " --paper " +
                                    kPaperFile + " --out " + out);
  CHECK(proof.status == 0);
  CHECK(parse_json(proof.out)["places"].size() == 6);
  CHECK(fs::file_size(out) > 1000);
  const Bytes before = file_bytes(out);
  const Ran again =
      run(folder, "proof " + kPictureFile + " --paper " + kPaperFile + " --out " + out);
  CHECK(again.status == 1);
  CHECK(file_bytes(out) == before);
}

TEST_CASE("deliver writes a new file, leaves the master alone and no draft behind") {
  const Folder folder;
  const std::string master = folder.at("master.png");
  fs::copy_file(kPictureFile, master);
  const Bytes before = file_bytes(master);
  const Ran made =
      run(folder, "deliver " + master + " --paper srgb --json --out " + folder.at("print.jpg"));
  CHECK(made.status == 0);
  CHECK(number_of(parse_json(made.out), "samples", 0) > 1000);
  CHECK(file_bytes(master) == before);
  CHECK(folder.count() == 2);
  const Ran over = run(folder, "deliver " + master + " --paper srgb --out " + master);
  CHECK(over.status == 1);
  CHECK(over.err.find("exists already") != std::string::npos);
  CHECK(file_bytes(master) == before);
  const Ran coarse = run(folder, "deliver " + kDemo + "saltings.png --quality 1 --paper " +
                                     kPaperFile + " --out " + folder.at("bad.jpg"));
  CHECK(coarse.status == 1);
  CHECK(folder.count() == 2);
}

TEST_CASE("bad use is status 2 and a file that cannot be used is status 1, each with a sentence") {
  const Folder folder;
  for (const char* words :
       {"", "fly", "inspect", "inspect a b", "proof x.png", "deliver x.png --paper srgb",
        "inspect --vivid x", "proof x.png --paper", "proof x.png --paper srgb --places many",
        "deliver x.png --paper srgb --out y.jpg --ppi zero",
        "deliver x.png --paper srgb --out y.jpg --bits 16 --bits 8"}) {
    const Ran ran = run(folder, words);
    CHECK_MESSAGE(ran.status == 2, words);
    CHECK(ran.err.starts_with("proofleaf: "));
    CHECK(ran.out.empty());
  }
  const std::string text = folder.at("notes.jpg");
  REQUIRE(write_new_file(text, Bytes(300, 'a')).ok());
  for (const std::string& words :
       {"inspect " + folder.at("none.png"), "inspect " + text,
        "proof " + kPictureFile + " --paper " + kPictureFile,
        "deliver " + kPictureFile + " --paper srgb --intent vivid --out " + folder.at("x.jpg"),
        "deliver " + kPictureFile + " --paper srgb --bits 16 --out " + folder.at("x.jpg")}) {
    const Ran ran = run(folder, words);
    CHECK_MESSAGE(ran.status == 1, words);
    CHECK(ran.err.ends_with(".\n"));
  }
  CHECK(run(folder, "--help").out.find("print house") != std::string::npos);
}
