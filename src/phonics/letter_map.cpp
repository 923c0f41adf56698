#include "phonics/letter_map.h"

#include "base/utf8.h"

namespace sheaf {
namespace {

constexpr std::size_t kMostLetters = 64;
constexpr std::size_t kMostBytes = 192;

// Letters of Latin-1 and Latin Extended-A (U+00C0 to U+017F), without their
// accents, in the order of their code points; '.' is no letter.
constexpr std::string_view kPlain =
    "aaaaaaaceeeeiiii"
    "dnooooo.ouuuuyts"
    "aaaaaaaceeeeiiii"
    "dnooooo.ouuuuyty"
    "aaaaaaccccccccdd"
    "ddeeeeeeeeeegggg"
    "gggghhhhiiiiiiii"
    "iiiijjkkklllllll"
    "lllnnnnnnnnnoooo"
    "oooorrrrrrssssss"
    "ssttttttuuuuuuuu"
    "uuuuwwyyyzzzzzzs";

char plain_letter(char32_t c) {
  if (c >= 'a' && c <= 'z') return static_cast<char>(c);
  if (c >= 'A' && c <= 'Z') return static_cast<char>(c - 'A' + 'a');
  if (c >= 0xC0 && c < 0xC0 + kPlain.size()) {
    const char plain = kPlain[c - 0xC0];
    return plain == '.' ? '\0' : plain;
  }
  return '\0';
}

// Letters that stand for two.
std::string_view letter_pair(char32_t c) {
  switch (c) {
    case 0xC6:
    case 0xE6:
      return "ae";
    case 0x152:
    case 0x153:
      return "oe";
    case 0xDF:
      return "ss";
    case 0xDE:
    case 0xFE:
      return "th";
    default:
      return {};
  }
}

}  // namespace

LetterMap map_letters(std::string_view word) {
  LetterMap map;
  if (word.empty() || word.size() > kMostBytes || find_bad_utf8(word)) {
    return map;
  }
  bool last_is_letter = false;
  bool upper_later = false;
  std::size_t offset = 0;
  while (offset < word.size()) {
    const auto begin = static_cast<std::uint8_t>(offset);
    const char32_t c = next_code_point(word, offset);
    const auto end = static_cast<std::uint8_t>(offset);
    if (c == '\'' || c == 0x2019 || c == '-' || c == 0x2010) {
      if (!last_is_letter && !map.letters.empty()) return map;
      // An apostrophe may open a word ('twas); a hyphen may not.
      const bool hyphen = c == '-' || c == 0x2010;
      if (hyphen && map.letters.empty()) return map;
      map.spelling += hyphen ? '-' : '\'';
      last_is_letter = false;
      continue;
    }
    const std::string_view pair = letter_pair(c);
    const char plain = plain_letter(c);
    if (pair.empty() && plain == '\0') return map;
    if (is_upper_case(c)) {
      if (map.letters.empty()) {
        map.capital = true;
      } else {
        upper_later = true;
      }
    }
    for (const char letter :
         pair.empty() ? std::string_view(&plain, 1) : pair) {
      map.letters += letter;
      map.spelling += letter;
      map.begins.push_back(begin);
      map.ends.push_back(end);
    }
    last_is_letter = true;
  }
  if (upper_later) map.capital = false;
  const bool closed = last_is_letter || map.spelling.ends_with('\'');
  map.good =
      closed && !map.letters.empty() && map.letters.size() <= kMostLetters;
  return map;
}

}  // namespace sheaf
