#include "base/files.h"

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <vector>

#include "doctest.h"

using namespace proofleaf;
namespace fs = std::filesystem;

namespace {

// A folder of its own, gone afterwards.
struct Folder {
  fs::path path;
  Folder() {
    std::string name = (fs::temp_directory_path() / "files-test-XXXXXX").string();
    path = mkdtemp(name.data());
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() { fs::remove_all(path); }
  std::string file(const char* name) const { return (path / name).string(); }
  size_t entries() const {
    return static_cast<size_t>(std::distance(fs::directory_iterator(path), {}));
  }
};

}  // namespace

TEST_CASE("a file is read by position") {
  const Folder folder;
  std::ofstream(folder.file("a.bin")) << "0123456789";
  auto source = open_file(folder.file("a.bin"));
  REQUIRE(source.ok());
  CHECK(source.value()->name() == "a.bin");
  CHECK(source.value()->size() == 10);
  Bytes into(4);
  auto got = source.value()->read_at(3, into);
  REQUIRE(got.ok());
  CHECK(got.value() == 4);
  CHECK(into == Bytes{'3', '4', '5', '6'});
  CHECK(source.value()->read_at(8, into).value() == 2);
  CHECK(source.value()->read_at(10, into).value() == 0);
  CHECK(source.value()->read_at(~uint64_t{0}, into).value() == 0);
  fs::resize_file(folder.file("a.bin"), 5);
  CHECK_FALSE(source.value()->read_at(3, into).ok());
}

TEST_CASE("a file that is written to or set back in time while it is open says so afterwards") {
  const Folder folder;
  const fs::path path = folder.file("a.bin");
  for (const auto& change : std::vector<std::function<void()>>{
           [&] { std::ofstream(path) << "9876543210"; },
           [&] { std::ofstream(path, std::ios::app) << "more"; },
           [&] { fs::last_write_time(path, fs::last_write_time(path) - std::chrono::hours(1)); }}) {
    std::ofstream(path) << "0123456789";
    fs::last_write_time(path, fs::last_write_time(path) - std::chrono::hours(1));
    auto source = open_file(path.string());
    REQUIRE(source.ok());
    Bytes into(4);
    REQUIRE(source.value()->read_at(3, into).ok());
    CHECK(source.value()->unchanged().ok());
    change();
    const Status same = source.value()->unchanged();
    REQUIRE_FALSE(same.ok());
    CHECK(same.error().message ==
          "a.bin was changed while it was being read. Please choose it again.");
  }
}

TEST_CASE("what cannot be opened says so") {
  const Folder folder;
  auto missing = open_file(folder.file("no.tif"));
  REQUIRE_FALSE(missing.ok());
  CHECK(missing.error().message.find("no.tif could not be opened") == 0);
  CHECK_FALSE(open_file(folder.path.string()).ok());
  CHECK_FALSE(create_file(folder.file("no/where.tif")).ok());
}

TEST_CASE("a new file has its name only once it is whole, and replaces nothing") {
  const Folder folder;
  const std::string path = folder.file("print.jpg");
  {
    auto sink = create_file(path);
    REQUIRE(sink.ok());
    CHECK(sink.value()->write_at(0, Bytes{1, 2, 3}).ok());
    CHECK_FALSE(fs::exists(path));
  }
  CHECK(folder.entries() == 0);  // given up: nothing is left
  {
    auto sink = create_file(path);
    REQUIRE(sink.ok());
    CHECK(sink.value()->write_at(4, Bytes{9}).ok());
    CHECK(sink.value()->write_at(0, Bytes{1, 2}).ok());
    CHECK(sink.value()->size() == 5);
    CHECK(sink.value()->commit().ok());
  }
  CHECK(folder.entries() == 1);
  CHECK(read_file(path, 100).value() == Bytes{1, 2, 0, 0, 9});
  CHECK_FALSE(read_file(path, 4).ok());
  CHECK_FALSE(create_file(path).ok());
  CHECK_FALSE(write_new_file(path, Bytes{7}).ok());
  CHECK(read_file(path, 100).value() == Bytes{1, 2, 0, 0, 9});
}

TEST_CASE("a name taken while the file was being written is left alone") {
  const Folder folder;
  const std::string path = folder.file("print.jpg");
  auto sink = create_file(path);
  REQUIRE(sink.ok());
  CHECK(sink.value()->write_at(0, Bytes{1}).ok());
  std::ofstream(path) << "other";
  CHECK_FALSE(sink.value()->commit().ok());
  sink.value().reset();
  CHECK(read_file(path, 100).value() == Bytes{'o', 't', 'h', 'e', 'r'});
  CHECK(folder.entries() == 1);
}
