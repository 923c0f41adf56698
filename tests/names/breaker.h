#pragma once

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <random>
#include <string>
#include <string_view>

namespace sheaf::test {

/// Breaks files in the ways in which files get broken: signs left out, doubled
/// or put in, lines moved, kinds of values and keys changed, bad bytes, cuts.
class Breaker {
 public:
  explicit Breaker(std::mt19937_64& random) : random_(random) {}

  std::size_t below(std::size_t count) {
    return count == 0 ? 0 : static_cast<std::size_t>(random_() % count);
  }
  template <typename List>
  auto& one_of(List& list) {
    return list[below(std::size(list))];
  }

  // A place near `mark`, or anywhere.
  std::size_t place(const std::string& text, std::size_t mark) {
    if (below(2) == 0) return below(text.size() + 1);
    const std::size_t line = line_begin(text, std::min(mark, text.size()));
    return line + below(line_end(text, line) - line + 1);
  }

  static std::size_t line_begin(const std::string& text, std::size_t at) {
    const std::size_t before =
        at == 0 ? std::string::npos : text.rfind('\n', at - 1);
    return before == std::string::npos ? 0 : before + 1;
  }
  static std::size_t line_end(const std::string& text, std::size_t at) {
    return std::min(text.find('\n', at), text.size());
  }

  void break_once(std::string& text, std::size_t mark) {
    const std::size_t at = place(text, mark);
    const std::size_t begin = line_begin(text, at), end = line_end(text, at);
    switch (below(18)) {
      case 0:
      case 1:
      case 2:
        text.insert(at, sign());
        break;
      case 3:
        remove_sign(text, at);
        break;
      case 4:
        double_sign(text, at);
        break;
      case 5:
        text.insert(begin, below(2) == 0 ? "\t" : "  ");
        break;
      case 6:
        text.insert(begin, std::string(1 + below(7), ' '));
        break;
      case 7:
        outdent(text, begin);
        break;
      case 8:
        text.erase(begin, end + 1 - begin);
        break;
      case 9:
        text.insert(begin, text.substr(begin, end - begin) + "\n");
        break;
      case 10:
        text.erase(std::min(at, text.size()));
        break;
      case 11:
        text.insert(at, strange());
        break;
      case 12:
        change_value(text, begin, end);
        break;
      case 13:
        change_key(text, begin, end);
        break;
      case 14:
        text.insert(end, ": again");
        break;
      case 15:
        if (end < text.size()) text.erase(end, 1);
        break;
      case 16:
        text.insert(at, "\n");
        break;
      default:
        if (!text.empty()) text.erase(std::min(at, text.size() - 1), 1);
    }
  }

 private:
  std::string sign() {
    static constexpr std::string_view kSigns[] = {
        ":", ": ", "\"", "'", "[", "]", "{",  "}",    ",",
        "-", "- ", "#",  "|", ">", "&", "*",  "!",    "%",
        "@", "`",  "\t", "?", "~", "=", "\\", "\r\n", "<<: "};
    return std::string(one_of(kSigns));
  }
  std::string strange() {
    using namespace std::string_view_literals;
    static constexpr std::string_view kBytes[] = {"\xFF"sv,
                                                  "\xC3"sv,
                                                  "\0"sv,
                                                  "\xE2\x80\xAE"sv,
                                                  "\xEF\xBB\xBF"sv,
                                                  "\xE2\x80\x8B"sv,
                                                  "\xC2\x85"sv,
                                                  "\x1B[31m"sv,
                                                  "\r"sv,
                                                  "\xCC\x81"sv,
                                                  "\xE2\x80\x9C"sv,
                                                  "\x7F"sv,
                                                  "\xF0\x9F\x90\x9F"sv};
    return std::string(one_of(kBytes));
  }
  static bool is_sign(char c) {
    return std::string_view(":\"'[]{},-#./\t ").find(c) !=
           std::string_view::npos;
  }
  static std::size_t next_sign(const std::string& text, std::size_t at) {
    while (at < text.size() && !is_sign(text[at])) ++at;
    return at;
  }
  static void remove_sign(std::string& text, std::size_t at) {
    const std::size_t sign = next_sign(text, at);
    if (sign < text.size()) text.erase(sign, 1);
  }
  static void double_sign(std::string& text, std::size_t at) {
    const std::size_t sign = next_sign(text, at);
    if (sign < text.size()) text.insert(sign, 1, text[sign]);
  }
  void outdent(std::string& text, std::size_t begin) {
    std::size_t blanks = 0;
    while (begin + blanks < text.size() && text[begin + blanks] == ' ') {
      ++blanks;
    }
    text.erase(begin, below(blanks + 1));
  }
  // A value of another kind behind the colon of a line.
  void change_value(std::string& text, std::size_t begin, std::size_t end) {
    const std::size_t colon = text.find(':', begin);
    if (colon >= end) return;
    const std::string value = text.substr(colon + 1, end - colon - 1);
    switch (below(6)) {
      case 0:
        text.replace(colon + 1, end - colon - 1, " [" + value + "]");
        break;
      case 1:
        text.replace(colon + 1, end - colon - 1, " {" + value + ": 1}");
        break;
      case 2:
        text.replace(colon + 1, end - colon - 1, "\n    - " + value);
        break;
      case 3:
        text.replace(colon + 1, end - colon - 1, " \"" + value + "\"");
        break;
      case 4:
        text.replace(colon + 1, end - colon - 1, " |\n     " + value);
        break;
      default:
        text.erase(colon + 1, end - colon - 1);
    }
  }
  // A slip in the key of a line, or another key of its file.
  void change_key(std::string& text, std::size_t begin, std::size_t end) {
    static constexpr std::string_view kKeys[] = {
        "learners", "wrong",  "written", "writing", "marked", "absent",
        "date",     "class",  "lesson",  "groups",  "words",  "pattern",
        "steps",    "sheets", "records", "note",    "kind",   "title"};
    const std::size_t colon = text.find(':', begin);
    if (colon >= end) return;
    std::size_t key = begin;
    while (key < colon && (text[key] == ' ' || text[key] == '-')) ++key;
    if (below(2) == 0 && colon - key > 2) {
      text.erase(key + below(colon - key), 1);
    } else {
      text.replace(key, colon - key, one_of(kKeys));
    }
  }

  std::mt19937_64& random_;
};

}  // namespace sheaf::test
