// SHA-256 against the examples of its standard.
#include "base/sha256.h"

#include "pictures.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

std::string digest(const std::string& text, size_t step = SIZE_MAX) {
  Sha256 sum;
  const Bytes bytes(text.begin(), text.end());
  for (size_t at = 0; at < bytes.size(); at += std::min(step, bytes.size() - at)) {
    sum.add(ByteView(bytes).subspan(at, std::min(step, bytes.size() - at)));
  }
  return sum.finish();
}

// Ends sooner than its size says.
class Short final : public ByteSource {
 public:
  const std::string& name() const override { return name_; }
  uint64_t size() const override { return 100; }
  Result<size_t> read_at(uint64_t offset, std::span<uint8_t>) override {
    return size_t{offset == 0 ? 10u : 0u};
  }

 private:
  std::string name_ = "short.tif";
};

}  // namespace

TEST_CASE("SHA-256: the standard's examples") {
  // FIPS 180-2 appendix B.1 to B.3 (as in NIST's examples for FIPS 180-4); the empty message is
  // NIST's CAVP SHA256ShortMsg.rsp, Len = 0.
  CHECK(digest("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(digest("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  CHECK(digest(std::string(1'000'000, 'a')) ==
        "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
  CHECK(digest("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST_CASE("SHA-256: in pieces of any length it is the same") {
  const std::string text(1000, 'q');
  for (const size_t step : {1u, 3u, 55u, 56u, 63u, 64u, 65u, 999u}) {
    CHECK(digest(text, step) == digest(text));
  }
}

TEST_CASE("SHA-256: of a source, and of one that ends too soon") {
  const std::string text(3'000'001, 'z');
  MemorySource source("z", Bytes(text.begin(), text.end()));
  const auto sum = sha256_of(source, {});
  REQUIRE(sum);
  CHECK(sum.value() == digest(text));
  CHECK_FALSE(sha256_of(source, [](double) { return false; }).ok());
  Short ends;
  const auto refused = sha256_of(ends, {});
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.error().message.find("short.tif") != std::string::npos);
}
