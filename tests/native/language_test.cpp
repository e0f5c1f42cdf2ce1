// Every text that people read has its translation in web/language/catalogue.json, and no catalogue
// can do harm. What a translation may be: this project's own rules; no outside source.
// Placeholders: printf as in ISO/IEC 9899:2018, 7.21.6.1 (from memory).
#include "base/language.h"

#include <doctest.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>

#include "base/bytes.h"
#include "base/json.h"
#include "base/utf8.h"
#include "codec/master.h"
#include "print/dot_letters.h"

using namespace proofleaf;
namespace fs = std::filesystem;

namespace {

const fs::path kRoot = REPOSITORY;

std::string contents(const fs::path& path) {
  std::ifstream file(path);
  std::ostringstream all;
  all << file.rdbuf();
  return all.str();
}

// A string literal of C++ or JavaScript, those that follow on joined to it, and the code before it.
struct Literal {
  std::string text, before;
};

std::string unescaped(std::string raw, char quote) {
  if (quote == '\'') {
    raw = std::regex_replace(raw, std::regex(R"(\\')"), "'");
    raw = std::regex_replace(raw, std::regex("\""), "\\\"");
  }
  const Json text = parse_json('"' + raw + '"');
  return text.is_string() ? text.get<std::string>() : "";  // \x and the like: nothing that is said
}

// quote: " for C++, ' for JavaScript, whose literals are joined by +.
std::vector<Literal> literals(const std::string& code, char quote) {
  std::vector<Literal> found;
  std::string before;  // the last code without white space
  bool open = false;   // the next literal belongs to the last one
  const auto skip_to = [&](size_t from, const std::string& end) {
    const size_t at = code.find(end, from);
    return at == code.npos ? code.size() : at + end.size();
  };
  for (size_t i = 0; i < code.size();) {
    const char c = code[i];
    const bool word_before = i > 0 && std::isalnum(static_cast<unsigned char>(code[i - 1])) != 0;
    if (code.compare(i, 2, "//") == 0) {
      i = skip_to(i, "\n");
    } else if (code.compare(i, 9, "#include ") == 0) {
      i = skip_to(i, "\n");
    } else if (code.compare(i, 3, "R\"(") == 0) {
      i = skip_to(i, ")\"");
    } else if (c == '`') {
      i = skip_to(i + 1, "`");
    } else if (c == quote || c == '"' || (c == '\'' && !word_before)) {
      size_t end = i + 1;
      while (end < code.size() && code[end] != c && code[end] != '\n')
        end += code[end] == '\\' ? 2 : 1;
      if (c == quote) {
        const std::string text = unescaped(code.substr(i + 1, end - i - 1), quote);
        if (open)
          found.back().text += text;
        else
          found.push_back({text, before});
        open = true;
      }
      i = end + 1;
    } else {
      if (std::isspace(static_cast<unsigned char>(c)) == 0) {
        if (!(quote == '\'' && c == '+')) open = false;
        before += c;
        if (before.size() > 80) before.erase(0, 40);
      } else if (!before.empty() && before.back() != ' ') {
        before += ' ';
      }
      ++i;
    }
  }
  return found;
}

// Whether what stands before a literal says that people will read it.
bool is_said(const std::string& before) {
  static const std::regex marks(
      R"((\b(said|phrase) ?\(|\bError( \w+)? ?\{|\bwrite_(row|check) ?\( ?\w+ ?,|\bFields \w+\([^,()]*,) ?$)");
  return std::regex_search(before, marks);
}

// Two letters that are no placeholder: something to translate.
bool has_words(const std::string& text) {
  const std::string bare = std::regex_replace(text, std::regex(R"(\{[^}]*\}|%[^ a-z]*[a-z])"), "");
  return std::regex_search(bare, std::regex("[A-Za-z]{2}"));
}

using Texts = std::map<std::string, std::string>;  // text -> where it stands

void add(Texts& texts, const std::string& text, const fs::path& path) {
  if (has_words(text)) texts.emplace(text, fs::relative(path, kRoot).string());
}

void add_markup(Texts& texts, const fs::path& path) {
  const std::string without =
      std::regex_replace(contents(path), std::regex("<noscript>[^]*?</noscript>"), "");
  static const std::regex part(R"rx(>([^<]+)<|aria-label="([^"]*)")rx");
  for (std::sregex_iterator it(without.begin(), without.end(), part), end; it != end; ++it) {
    const std::string raw = (*it)[1].matched ? (*it)[1].str() : (*it)[2].str();
    std::string text = std::regex_replace(raw, std::regex(R"(\s+)"), " ");
    text = std::regex_replace(text, std::regex("^ | $"), "");
    add(texts, text, path);
  }
}

void add_file(Texts& texts, const fs::path& path) {
  const std::string name = path.filename().string(), kind = path.extension().string();
  const bool words =
      name.starts_with("words") && kind == ".h" && path.parent_path() == kRoot / "shell";
  const bool table = name == "words_en.cpp";
  static const std::regex id("[a-z]+(/[a-z]+)*");
  if (kind == ".html") return add_markup(texts, path);
  if (kind != ".cpp" && kind != ".h" && kind != ".js") return;
  for (const Literal& each : literals(contents(path), kind == ".js" ? '\'' : '"')) {
    const bool taken =
        words   ? each.before.find("constexpr char", each.before.rfind(';') + 1) == each.before.npos
        : table ? !std::regex_match(each.text, id)
                : is_said(each.before);
    if (taken) add(texts, each.text, path);
  }
}

// What may hold texts; the command line speaks English only.
std::vector<fs::path> sources() {
  std::vector<fs::path> list;
  for (const char* folder : {"shell", "engine", "web/bridge", "web/page", "web/client"}) {
    for (const auto& entry : fs::recursive_directory_iterator(kRoot / folder)) {
      if (entry.path().string().find("engine/tool") == std::string::npos)
        list.push_back(entry.path());
    }
  }
  return list;
}

Texts all_texts() {
  Texts texts;
  for (const fs::path& path : sources()) add_file(texts, path);
  return texts;
}

// text -> language -> translation
std::map<std::string, std::map<std::string, std::string>> catalogue() {
  std::map<std::string, std::map<std::string, std::string>> all;
  const Json groups = parse_json(contents(kRoot / "web/language/catalogue.json"));
  REQUIRE(groups.is_object());
  for (const Json& texts : groups) {
    for (const auto& item : texts.items()) {
      const std::string& english = item.key();
      const Json& translations = item.value();
      CHECK_MESSAGE(all.count(english) == 0, "twice: ", english);
      for (const auto& [language, text] : translations.items())
        all[english][language] = text.get<std::string>();
    }
  }
  return all;
}

std::string part_for(const std::string& language) {
  Json part = Json::object();
  for (const auto& [english, translations] : catalogue()) part[english] = translations.at(language);
  return dump_json(part);
}

struct EnglishAfterwards {
  ~EnglishAfterwards() { speak("en", ""); }
};

}  // namespace

TEST_CASE("language: every text has its translation, and every translation its text") {
  const Texts texts = all_texts();
  const auto translated = catalogue();
  REQUIRE(texts.size() > 1000);
  for (const auto& each : texts)
    CHECK_MESSAGE(translated.count(each.first) == 1, each.second, ": no translation of \"",
                  each.first, "\"");
  for (const auto& each : translated)
    CHECK_MESSAGE(texts.count(each.first) == 1, "nobody says \"", each.first, "\"");
}

TEST_CASE("language: no sentence of an error is put together of parts that nobody translates") {
  const std::regex joined(R"rx(\bError ?\{[^{}";]*\+\s*"[^"]*[A-Za-z]{2})rx");
  size_t seen = 0;
  for (const fs::path& path : sources()) {
    if (path.extension() != ".cpp") continue;
    ++seen;
    CHECK_MESSAGE(!std::regex_search(contents(path), joined), path.string());
  }
  CHECK(seen > 100);
}

TEST_CASE("language: the page offers the languages that every text has") {
  std::set<std::string> offered;
  const std::string script = contents(kRoot / "web/page/words.js");
  std::smatch list;
  REQUIRE(std::regex_search(script, list, std::regex(R"(LANGUAGES = \[([^\]]*)\])")));
  const std::string codes = list[1];
  static const std::regex code("'([a-z]+)'");
  for (std::sregex_iterator it(codes.begin(), codes.end(), code), end; it != end; ++it)
    offered.insert((*it)[1]);
  CHECK(offered.erase("en") == 1);
  for (const auto& each : catalogue()) {
    std::set<std::string> has;
    for (const auto& translation : each.second) has.insert(translation.first);
    CHECK_MESSAGE(has == offered, each.first);
  }
}

TEST_CASE("language: a translation takes the same placeholders and air, in letters the panel has") {
  std::vector<std::pair<uint32_t, uint32_t>> letters;
  std::smatch list;
  const std::string build = contents(kRoot / "web/web.cmake");
  REQUIRE(std::regex_search(build, list, std::regex("set\\(LETTERS \"([^\"]*)\"")));
  const std::string ranges = list[1];
  static const std::regex range("([0-9A-F]{4})(-([0-9A-F]{4}))?");
  for (std::sregex_iterator it(ranges.begin(), ranges.end(), range), end; it != end; ++it) {
    const auto low = static_cast<uint32_t>(std::stoul((*it)[1], nullptr, 16));
    letters.emplace_back(low, (*it)[3].matched ? std::stoul((*it)[3], nullptr, 16) : low);
  }
  const auto air = [](const std::string& text) {
    const size_t first = text.find_first_not_of(' '), last = text.find_last_not_of(' ');
    return std::pair{first, text.size() - last};
  };
  for (const auto& each : catalogue()) {
    for (const auto& translation : each.second) {
      const std::string &english = each.first, &text = translation.second;
      CHECK_MESSAGE(same_placeholders(english, text), english, " -> ", text);
      CHECK_MESSAGE(air(english) == air(text), english, " -> ", text);
      for (size_t i = 0; i < text.size();) {
        const size_t length = utf8_length(std::string_view(text).substr(i));
        REQUIRE(length > 0);
        uint32_t letter = static_cast<uint8_t>(text[i]);
        if (length > 1) letter &= (0xFFu >> (length + 1));
        for (size_t k = 1; k < length; ++k)
          letter = letter << 6 | (static_cast<uint8_t>(text[i + k]) & 0x3F);
        bool there = false;
        for (const auto& [low, high] : letters) there = there || (letter >= low && letter <= high);
        CHECK_MESSAGE(there, "U+", std::hex, letter, " in ", text);
        i += length;
      }
    }
  }
}

TEST_CASE("language: what is printed on a strip can be printed in every language") {
  const auto translated = catalogue();
  for (const char* way : {"AS SET", "DARK TONES OPENED", "NOT CORRECTED"}) {
    REQUIRE(translated.count(way) == 1);
    for (const auto& translation : translated.at(way)) {
      const std::string& text = translation.second;
      for (const char letter : text) {
        bool dots = letter == ' ';
        for (uint32_t i = 0; i < 35; ++i) dots = dots || print::dot_at(letter, i % 5, i / 5);
        CHECK_MESSAGE(dots, text);
      }
    }
  }
}

TEST_CASE("language: errors and sentences are said in the language spoken") {
  const EnglishAfterwards after;
  const auto refusal = [] {
    const auto master = open_master(std::make_shared<MemorySource>("Bild.jpg", Bytes{}));
    REQUIRE(!master);
    return master.error().message;
  };
  CHECK(language() == "en-GB");
  CHECK(refusal() == "Bild.jpg is empty.");
  CHECK(speak("de", part_for("de")) == catalogue().size());
  CHECK(language() == "de");
  CHECK(refusal() == "Bild.jpg ist leer.");
  CHECK(std::string(said("Print file")) == "Druckdatei");
  CHECK(std::string(said("No such text.")) == "No such text.");
  speak("en", "");
  CHECK(refusal() == "Bild.jpg is empty.");
}

TEST_CASE("language: {} are filled in turn, or by number where a translation turns them round") {
  const EnglishAfterwards after;
  CHECK(said("{} of {}", 3, "twelve") == "3 of twelve");
  CHECK(said("{} {} {}", "a", "b") == "a b ");
  CHECK(speak("xx", R"({"{} of {}": "von {2} das {1}.", "5 % of {}": "{}: 5 % davon"})") == 2);
  CHECK(said("{} of {}", 3, "twelve") == "von twelve das 3.");
  CHECK(said("5 % of {}", "it") == "it: 5 % davon");
}

TEST_CASE("language: a wild catalogue changes nothing") {
  const EnglishAfterwards after;
  const std::string wide(5 << 20, ' ');
  for (const std::string& wild :
       {std::string("["), std::string("{\"a\":"), std::string("[1, 2]"), std::string("null"),
        std::string("\"text\""), std::string(100000, '['), "{\"a\": \"b\"}" + wide,
        std::string("{\"a\": 1, \"b\": null, \"c\": [\"d\"], \"e\": {}}"),
        std::string("\xff\xfe{}")}) {
    CHECK(speak("de", wild) == 0);
    CHECK(language() == "en-GB");
  }
  // Those whose placeholders are others are left out one by one.
  const std::pair<const char*, const char*> wrong[] = {{"%s is open.", "%n"},
                                                       {"%s is open.", "%s %s"},
                                                       {"%s is open.", "offen"},
                                                       {"%s is open.", "%d ist offen"},
                                                       {"%d of %s", "%s von %d"},
                                                       {"%.1f %% of it", "%.1f % davon"},
                                                       {"%.1f %% of it", "%.2f %% davon"},
                                                       {"open", "100 %s"},
                                                       {"open", "100 %"},
                                                       {"{} is open.", "{} {} offen"},
                                                       {"{} is open.", "offen"},
                                                       {"{} is open.", "{2} offen"},
                                                       {"{value:1} px", "{value:2} px"},
                                                       {"{} of {}", "{1} von {1}"},
                                                       {"{} of", "{"},
                                                       {"%zu places", "%u Stellen"}};
  for (const auto& each : wrong) {
    const std::string english = each.first, translation = each.second;
    CHECK_MESSAGE(!same_placeholders(english, translation), english, " -> ", translation);
    Json json;
    json[english] = translation;
    CHECK(speak("de", dump_json(json)) == 0);
    CHECK(said(english.c_str()) == english);
  }
  CHECK(same_placeholders("5 % of {}", "{}: 5 % davon"));
  CHECK(same_placeholders("%.1f\u00a0%% of %s", "%.1f\u00a0%% von %s"));
  // A text that is never filled may hold stray braces; filling it harms nothing.
  CHECK(filled("{ }{9}{-1}{}{", {"a"}) == "a{");
}
