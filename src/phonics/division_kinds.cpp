#include "phonics/division_kinds.h"

#include <algorithm>
#include <array>

#include "base/utf8.h"
#include "phonics/letters.h"

namespace sheaf {
namespace {

using P = Phoneme;

constexpr std::array<std::string_view, 11> kWhole = {
    "tion", "sion",  "cian",  "ture",  "sure", "tial",
    "cial", "cious", "tious", "cient", "tient"};

// A vowel letter, consonants of one sound, and e at the end: side, bage.
bool ends_in_silent_e(std::string_view letters) {
  if (letters.size() < 3 || letters.back() != 'e') return false;
  const std::string_view before = letters.substr(0, letters.size() - 1);
  const std::size_t vowel = before.find_last_of("aeiouy");
  if (vowel == std::string_view::npos || vowel + 1 == before.size()) {
    return false;
  }
  const std::string_view consonants = before.substr(vowel + 1);
  return consonants.size() == 1 || consonants == "th" || consonants == "ch" ||
         consonants == "ph";
}

std::size_t vowel_letters(std::string_view grapheme) {
  if (grapheme.find("igh") != std::string_view::npos) return 2;
  return static_cast<std::size_t>(std::ranges::count_if(
      grapheme, [](char c) { return is_vowel_letter(c) || c == 'w'; }));
}

// What a letter says in an unstressed part though it would be read otherwise:
// the o of lemon, the e of basket. A weak u is near enough to its own sound.
bool is_weak(const Unit& vowel) {
  if (vowel.stressed || vowel.phonemes.size() != 1) return false;
  if (vowel.phonemes[0] == P::ax) return vowel.grapheme != "u";
  return vowel.phonemes[0] == P::ih && vowel.grapheme != "i" &&
         vowel.grapheme != "y" && vowel.grapheme != "i_e";
}

PartKind kind_of_part(const Reading& reading, const Unit& vowel,
                      const WordPart& part, bool e_dropped) {
  const std::string letters = lower_case(part.of(reading.word));
  if (vowel.grapheme == "le" && letters.size() > 1) {
    return PartKind::consonant_le;
  }
  if (!vowel.stressed && is_learned_whole(letters)) return PartKind::whole;
  if (has_r(vowel)) return PartKind::r_vowel;
  if (vowel.is_split()) return PartKind::silent_e;
  if (vowel_letters(vowel.grapheme) > 1) return PartKind::team;
  if (ends_in_silent_e(letters)) return PartKind::silent_e;
  // In landed one grapheme is the whole of ed.
  const bool last =
      vowel.end >= part.end && is_vowel_letter(vowel.grapheme.back());
  if (!last && e_dropped) return PartKind::silent_e;
  return last ? PartKind::open : PartKind::closed;
}

}  // namespace

bool begins_learned_whole(std::string_view letters) {
  return std::ranges::any_of(
      kWhole, [&](std::string_view w) { return letters.starts_with(w); });
}

bool is_learned_whole(std::string_view letters) {
  if (letters.ends_with('s') && !letters.ends_with("ous")) {
    letters.remove_suffix(1);
  }
  return std::ranges::find(kWhole, letters) != kWhole.end();
}

bool is_part_vowel(const Unit& unit) {
  return std::ranges::any_of(unit.phonemes, is_vowel) &&
         std::ranges::any_of(unit.grapheme, is_vowel_letter);
}

bool has_r(const Unit& unit) {
  return unit.grapheme.size() > 1 && is_part_vowel(unit) &&
         unit.grapheme.find('r') != std::string::npos &&
         is_vowel_letter(unit.grapheme.front());
}

void set_part_kinds(const Reading& reading, std::size_t dropped_at,
                    std::vector<WordPart>& parts) {
  for (WordPart& part : parts) {
    const auto vowel = std::ranges::find_if(reading.units, [&](const Unit& u) {
      return u.begin >= part.begin && u.begin < part.end && is_part_vowel(u);
    });
    if (vowel == reading.units.end()) continue;
    part.kind = kind_of_part(reading, *vowel, part,
                             dropped_at > 0 && part.end == dropped_at);
    part.weak = is_weak(*vowel) && part.kind != PartKind::consonant_le &&
                part.kind != PartKind::whole && part.kind != PartKind::r_vowel;
  }
}

std::string_view kind_name(PartKind kind) {
  switch (kind) {
    case PartKind::closed:
      return "closed";
    case PartKind::open:
      return "open";
    case PartKind::silent_e:
      return "silent e";
    case PartKind::team:
      return "vowel team";
    case PartKind::r_vowel:
      return "vowel with r";
    case PartKind::consonant_le:
      return "consonant and le";
    case PartKind::whole:
      break;
  }
  return "learned whole";
}

std::string_view rule_name(DivisionRule rule) {
  switch (rule) {
    case DivisionRule::by_hand:
      return "as the lesson says";
    case DivisionRule::prefix:
      return "behind a prefix";
    case DivisionRule::ending:
      return "before an ending";
    case DivisionRule::compound:
      return "between two words";
    case DivisionRule::consonant_le:
      return "before the consonant of le";
    case DivisionRule::vowels:
      return "between two vowels";
    case DivisionRule::before:
      return "before one consonant";
    case DivisionRule::after:
      return "after one consonant";
    case DivisionRule::both:
      return "before two consonants that begin a part";
    case DivisionRule::between:
      return "between two consonants";
    case DivisionRule::cluster:
      break;
  }
  return "among three consonants";
}

}  // namespace sheaf
