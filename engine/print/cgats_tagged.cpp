// CGATS.17: keywords, BEGIN_DATA_FORMAT .. END_DATA_FORMAT, BEGIN_DATA .. END_DATA.
#include <algorithm>

#include "print/cgats_parts.h"

namespace proofleaf::print::cgats {
namespace {

struct Token {
  std::string text;
  bool quoted = false;
  size_t line = 0;
};

constexpr size_t kMostKeywords = 1000;

// Words and quoted texts, without comments (from # to the end of the line).
class Tokens {
 public:
  explicit Tokens(std::string_view text) : text_(text) {}

  // Nothing at the end. A quote that is never closed ends with its line.
  std::optional<Token> next() {
    skip();
    if (at_ >= text_.size()) return {};
    Token token;
    token.line = line_;
    if (text_[at_] == '"' || text_[at_] == '\'') {
      const char quote = text_[at_++];
      token.quoted = true;
      while (at_ < text_.size() && !ends_line(text_[at_])) {
        if (text_[at_] == quote) {
          ++at_;
          if (at_ >= text_.size() || text_[at_] != quote) break;  // doubled means itself
        }
        token.text += text_[at_++];
      }
      return token;
    }
    while (at_ < text_.size() && !is_space(text_[at_])) token.text += text_[at_++];
    return token;
  }
  // What is left of the line the last token stood on, without quotes or comment.
  std::string rest_of_line() {
    while (at_ < text_.size() && (text_[at_] == ' ' || text_[at_] == '\t')) ++at_;
    if (at_ < text_.size() && text_[at_] == '"') return next()->text;
    const size_t start = at_;
    while (at_ < text_.size() && !ends_line(text_[at_]) && text_[at_] != '#') ++at_;
    return std::string(trimmed(text_.substr(start, at_ - start)));
  }

 private:
  static bool ends_line(char c) { return c == '\n' || c == '\r'; }
  static bool is_space(char c) { return c == ' ' || c == '\t' || ends_line(c); }
  void skip() {
    while (at_ < text_.size()) {
      if (text_[at_] == '#') {
        while (at_ < text_.size() && !ends_line(text_[at_])) ++at_;
      } else if (is_space(text_[at_])) {
        if (text_[at_] == '\n' || (text_[at_] == '\r' && next_char() != '\n')) ++line_;
        ++at_;
      } else {
        return;
      }
    }
  }
  char next_char() const { return at_ + 1 < text_.size() ? text_[at_ + 1] : '\n'; }

  std::string_view text_;
  size_t at_ = 0, line_ = 1;
};

bool is_word(const Token& token, const char* word) {
  return !token.quoted && capitals(token.text) == word;
}

class Reader {
 public:
  Reader(std::string_view text, const std::string& file) : tokens_(text), file_(file) {}

  Result<Readings> read() {
    while (auto token = tokens_.next()) {
      if (is_word(*token, "BEGIN_DATA_FORMAT")) {
        if (auto got = read_fields(); !got) return got.error();
      } else if (is_word(*token, "BEGIN_DATA")) {
        if (auto got = read_patches(token->line); !got) return got.error();
        return check();
      } else if (auto kept = keep(*token); !kept) {
        return kept.error();
      }
    }
    return Error{"{} holds no measurements: BEGIN_DATA is missing.", file_};
  }

 private:
  Status keep(const Token& token) {
    if (++keywords_ > kMostKeywords) return Error{"{} has too many headings to be read.", file_};
    const std::string value = tokens_.rest_of_line();
    if (keywords_ == 1 && value.empty()) {
      readings_.kind = shown(token.text);
      return done();
    }
    const std::string name = capitals(token.text);
    if (name == "KEYWORD") return done();  // says only that a name will be used
    readings_.keywords.emplace_back(shown(name), shown(value));
    return done();
  }

  Status read_fields() {
    readings_.fields.clear();
    while (auto token = tokens_.next()) {
      if (is_word(*token, "END_DATA_FORMAT")) return check_fields(readings_.fields, file_);
      if (readings_.fields.size() >= kMostFields) break;
      readings_.fields.push_back(capitals(shown(token->text)));
    }
    return Error{"{} is cut short or damaged: its list of fields does not end.", file_};
  }

  Status read_patches(size_t begun_at) {
    if (readings_.fields.empty()) {
      return Error{"{} does not say what its numbers are: BEGIN_DATA_FORMAT is missing.", file_};
    }
    const auto named = name_field(readings_.fields);
    std::vector<std::string> texts;
    size_t line = begun_at;
    while (auto token = tokens_.next()) {
      if (is_word(*token, "END_DATA")) {
        if (texts.empty()) return done();
        return Error{"{}, line {}: the last patch has fewer numbers than the file has fields.",
                     file_, line};
      }
      line = token->line;
      texts.push_back(std::move(token->text));
      if (texts.size() < readings_.fields.size()) continue;
      if (auto added = add_patch(texts, named, file_, readings_); !added) return added;
      texts.clear();
    }
    return Error{"{} is cut short: END_DATA is missing.", file_};
  }

  // What the file says of itself must be what it holds.
  Result<Readings> check() {
    const std::pair<const char*, size_t> promises[] = {
        {"NUMBER_OF_FIELDS", readings_.fields.size()}, {"NUMBER_OF_SETS", readings_.patches()}};
    for (const auto& [keyword, held] : promises) {
      const std::string text = readings_.keyword(keyword);
      const auto promised = number(text);
      if (!text.empty() && (!promised || *promised != double(held))) {
        return Error{"{} says {} {} but holds {}; it is damaged or was edited.", file_, keyword,
                     text, held};
      }
    }
    if (readings_.patches() == 0) return Error{"{} holds no patches.", file_};
    return std::move(readings_);
  }

  Tokens tokens_;
  const std::string& file_;
  Readings readings_;
  size_t keywords_ = 0;
};

}  // namespace

Result<Readings> read_tagged(std::string_view text, const std::string& file) {
  return Reader(text, file).read();
}

}  // namespace proofleaf::print::cgats
