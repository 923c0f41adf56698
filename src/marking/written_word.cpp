#include "marking/written_word.h"

#include "base/utf8.h"
#include "phonics/letter_map.h"

namespace sheaf {
namespace {

constexpr char kOtherSign = '#';

bool is_apostrophe(char32_t c) {
  return c == '\'' || c == '`' || c == 0x2019 || c == 0x2018 || c == 0xB4 ||
         c == 0x2BC;
}

bool is_hyphen(char32_t c) {
  return c == '-' || c == 0x2010 || c == 0x2011 || c == 0x2013;
}

bool is_ascii_letter(char32_t c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

// Signs that may stand around a word in a sentence and are not part of it.
bool is_punctuation(char32_t c) {
  switch (c) {
    case '.':
    case ',':
    case ';':
    case ':':
    case '!':
    case '?':
    case '"':
    case '(':
    case ')':
    case 0x201C:
    case 0x201D:
    case 0x2026:
    case 0x2014:
      return true;
    default:
      return false;
  }
}

// The plain letters of a letter with an accent; nothing for other signs.
std::string plain_letters(std::string_view character) {
  const LetterMap map = map_letters(character);
  return map.good ? map.letters : std::string();
}

void trim_signs(std::string& signs) {
  while (!signs.empty() && signs.back() == ' ') signs.pop_back();
  std::size_t begin = 0;
  while (begin < signs.size() && signs[begin] == ' ') ++begin;
  signs.erase(0, begin);
}

struct CaseCount {
  int letters = 0;
  int capitals = 0;
  bool first = false;

  void add(bool capital) {
    if (letters == 0) first = capital;
    ++letters;
    capitals += capital ? 1 : 0;
  }
};

}  // namespace

WrittenWord read_written(std::string_view text) {
  WrittenWord word;
  CaseCount count;
  // Four bytes a sign at most, and as many again for marks on letters.
  const std::string given = normalized(text.substr(0, kLongestWritten * 8));
  std::size_t offset = 0;
  while (offset < given.size() && word.signs.size() < kLongestWritten) {
    const std::size_t begin = offset;
    const char32_t c = next_code_point(given, offset);
    if (is_ascii_letter(c)) {
      const char plain = static_cast<char>(c | 0x20);
      count.add(c < 'a');
      word.letters += plain;
      word.signs += plain;
    } else if (is_apostrophe(c)) {
      word.signs += '\'';
    } else if (is_hyphen(c)) {
      word.signs += '-';
    } else if (is_space(c) || c == '\t' || c == '\n' || c == '\r') {
      if (!word.signs.empty() && word.signs.back() != ' ') word.signs += ' ';
    } else if (is_punctuation(c) || is_mark(c)) {
      continue;
    } else {
      const std::string_view sign =
          std::string_view(given).substr(begin, offset - begin);
      const std::string plain = plain_letters(sign);
      if (plain.empty()) {
        word.others.emplace_back(sign);
      } else {
        count.add(is_upper_case(c));
      }
      word.letters += plain.empty() ? std::string(1, kOtherSign) : plain;
      word.signs += plain.empty() ? std::string(1, kOtherSign) : plain;
    }
  }
  trim_signs(word.signs);
  word.capital = count.first;
  word.all_capitals = count.letters > 1 && count.capitals == count.letters;
  return word;
}

bool same_spelling(std::string_view a, std::string_view b) {
  return read_written(a).signs == read_written(b).signs;
}

}  // namespace sheaf
