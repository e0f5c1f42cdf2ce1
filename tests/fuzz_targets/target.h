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

// Gives the reader the bytes; each target has one. Must be done within kMostSeconds.
void take(const uint8_t* data, size_t size);
inline constexpr int kMostSeconds = 2;  // of the processor's time, whatever else the machine does

}  // namespace proofleaf::fuzz
