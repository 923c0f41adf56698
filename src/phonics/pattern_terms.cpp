#include "phonics/pattern_terms.h"

#include <algorithm>
#include <array>

#include "base/utf8.h"
#include "phonics/table_text.h"
#include "phonics/tables.h"

namespace sheaf {

namespace {

// They may stand behind any name: "long a words".
constexpr std::array<std::string_view, 5> kSayNothing = {
    "word", "pattern", "spelling", "sound", "family"};

std::vector<std::string_view> trimmed_parts(std::string_view text,
                                            char separator) {
  std::vector<std::string_view> parts;
  for (std::string_view part : split_at(text, separator)) {
    part.remove_prefix(std::min(part.find_first_not_of(' '), part.size()));
    if (!part.empty()) parts.push_back(part);
  }
  return parts;
}

std::vector<PatternTerm> read_terms() {
  std::vector<PatternTerm> terms;
  for (const TableRow& row : table_rows(pattern_terms_table())) {
    if (row.cells[0] == "terms") continue;
    terms.push_back({trimmed_parts(row.cell(0), ';'),
                     trimmed_parts(row.cell(1), ' '), row.cell(2),
                     row.cell(3)});
  }
  return terms;
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words)
    text += (text.empty() ? "" : " ") + word;
  return text;
}

}  // namespace

std::string plain_name(std::string_view text) {
  const bool ascii = std::ranges::all_of(
      text, [](char c) { return static_cast<unsigned char>(c) < 0x80; });
  std::string lower = ascii ? std::string(text) : lower_case(text);
  for (char& c : lower) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  std::string result;
  for (const char c : lower) {
    const bool gap = c == ' ' || c == '-' || c == '_';
    if (gap && (result.empty() || result.back() == ' ')) continue;
    result += gap ? ' ' : c;
  }
  while (result.ends_with(' ')) result.pop_back();
  return result;
}

std::vector<std::string> name_words(std::string_view text) {
  constexpr std::string_view kBetween = " ,;:()[]\"'/.";
  std::vector<std::string> words;
  std::string word;
  const auto end_word = [&] {
    constexpr std::size_t kShortestPlural = 4;
    if (word.size() >= kShortestPlural && word.ends_with('s') &&
        !word.ends_with("ss")) {
      word.pop_back();
      if (word.ends_with("xe")) word.pop_back();
    }
    if (!word.empty()) words.push_back(std::move(word));
    word.clear();
  };
  for (const char c : plain_name(text)) {
    if (kBetween.find(c) != std::string_view::npos) {
      end_word();
    } else {
      word += c;
    }
  }
  end_word();
  return words;
}

std::span<const PatternTerm> pattern_terms() {
  static const std::vector<PatternTerm> terms = read_terms();
  return terms;
}

const PatternTerm* find_pattern_term(std::string_view written) {
  struct Key {
    std::string words;
    const PatternTerm* term;
  };
  static const std::vector<Key> keys = [] {
    std::vector<Key> all;
    for (const PatternTerm& term : pattern_terms()) {
      for (const std::string_view name : term.terms) {
        all.push_back({joined(name_words(name)), &term});
      }
    }
    return all;
  }();
  std::vector<std::string> words = name_words(written);
  if (!words.empty() && words.front() == "the") words.erase(words.begin());
  for (;;) {
    const auto found = std::ranges::find(keys, joined(words), &Key::words);
    if (found != keys.end()) return found->term;
    if (words.size() < 2 ||
        std::ranges::find(kSayNothing, words.back()) == kSayNothing.end()) {
      return nullptr;
    }
    words.pop_back();
  }
}

}  // namespace sheaf
