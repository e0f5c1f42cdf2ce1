// What the fuzz targets share. A target gives one reader bytes from anywhere; any answer is right
// but a crash, an error without a sentence, or an answer that breaks what its header promises.
#pragma once

#include <cstdint>
#include <cstdlib>
#include <string>

#include "base/bytes.h"
#include "base/result.h"

namespace proofleaf::fuzz {

// Ends the run, as a crash would.
inline void expect(bool holds) {
  if (!holds) std::abort();
}

// Errors are sentences, for people.
inline void expect_sentence(const Error& error) {
  expect(error.message.size() > 10 && error.message.back() == '.');
}

// The value, or nothing where the reader said no in a sentence.
template <class T>
T* value_of(Result<T>& result) {
  if (result) return &result.value();
  expect_sentence(result.error());
  return nullptr;
}

inline Bytes bytes_of(const uint8_t* data, size_t size) { return Bytes(data, data + size); }
inline std::string text_of(const uint8_t* data, size_t size) {
  return std::string(reinterpret_cast<const char*>(data), size);
}

}  // namespace proofleaf::fuzz

// What libFuzzer calls; each target is one of these.
extern "C" int LLVMFuzzerTestOneInput(const uint8_t* data, size_t size);
