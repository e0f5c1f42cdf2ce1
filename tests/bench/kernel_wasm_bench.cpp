// The same kernel as WebAssembly in Node, one worker's worth: kernel_wasm_bench FOLDER runs what
// kernel_bench left there and prints one JSON object a line.
#include <cstdio>
#include <fstream>
#include <iterator>
#include <string>

#include "measure.h"
#include "proof/cube.h"

using namespace proofleaf;

namespace {

constexpr int kRounds = 12;

Bytes all_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return Bytes(std::istreambuf_iterator<char>(file), {});
}

void run(const std::string& folder, const std::string& id) {
  const std::string base = folder + "/" + id;
  auto cube = unpack_cube(all_of(base + ".cube"));
  const Bytes narrow = all_of(base + ".rgb8"), wide_bytes = all_of(base + ".rgb16");
  if (!cube || narrow.empty() || wide_bytes.size() != narrow.size() * 2) {
    std::fprintf(stderr, "The native bench has left nothing for %s.\n", id.c_str());
    std::exit(1);
  }
  std::vector<uint16_t> wide(narrow.size());
  std::copy(wide_bytes.begin(), wide_bytes.end(), reinterpret_cast<uint8_t*>(wide.data()));
  const size_t pixels = narrow.size() / 3;
  std::vector<uint8_t> out(pixels * 4);
  proof_to_screen8(cube.value(), std::span<const uint8_t>(narrow), out);
  unsigned long long expected = 0;
  std::ifstream(base + ".mark") >> expected;
  const bool same = bench::mark(out) == expected;

  std::vector<uint16_t> out16(bench::kPiece * 4);
  const bench::Contender eight = [&](size_t first, size_t count) {
    proof_to_screen8(cube.value(), std::span<const uint8_t>(narrow).subspan(first * 3, count * 3),
                     out);
  };
  const bench::Contender sixteen = [&](size_t first, size_t count) {
    apply_cube(cube.value(), std::span<const uint16_t>(wide).subspan(first * 3, count * 3), out16);
  };
  const auto found = bench::rates({eight, sixteen}, pixels, kRounds);
  for (size_t i = 0; i < 2; ++i) {
    std::printf("{\"wasm_of\":\"proof, RGB paper, %s, %s\",\"ours\":%.2f,\"same\":%s}\n",
                i == 0 ? "8-bit" : "16-bit", id.c_str(), found[i], same ? "true" : "false");
  }
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) return 2;
  run(words[1], "photo");
  run(words[1], "noise");
  return 0;
}
