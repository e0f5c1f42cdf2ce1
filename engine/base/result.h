// Errors as values. A function that can fail returns Result<T>; the message is one plain sentence a
// photographer understands, and names the file where there is one.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <variant>

#include "base/language.h"

namespace proofleaf {

struct Error {
  std::string message;  // one sentence in the language spoken, ends with a full stop

  explicit Error(std::string composed) : message(std::move(composed)) {}
  // An English sentence, and what stands in place of its {}: texts and whole numbers.
  template <class... Parts>
  explicit Error(const char* english, const Parts&... parts) : message(said(english, parts...)) {}
};

// Either a T or an Error. Must be looked at. value() is only for a result that is ok().
template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : held_(std::in_place_index<0>, std::move(value)) {}
  Result(Error error) : held_(std::in_place_index<1>, std::move(error)) {}

  bool ok() const { return held_.index() == 0; }
  explicit operator bool() const { return ok(); }
  T& value() { return *std::get_if<0>(&held_); }
  const T& value() const { return *std::get_if<0>(&held_); }
  T take() { return std::move(*std::get_if<0>(&held_)); }
  const Error& error() const { return *std::get_if<1>(&held_); }

 private:
  std::variant<T, Error> held_;
};

// The result of something that only succeeds or fails: `return done();` or `return Error{"..."}`.
using Status = Result<std::monostate>;
inline Status done() { return std::monostate{}; }

}  // namespace proofleaf
