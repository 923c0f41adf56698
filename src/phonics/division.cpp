#include "phonics/division.h"

#include <algorithm>
#include <array>
#include <optional>

#include "base/utf8.h"
#include "phonics/division_affixes.h"
#include "phonics/division_kinds.h"
#include "phonics/letters.h"

namespace sheaf {
namespace {

using P = Phoneme;

// A vowel that wants a consonant to close its part. The a of father is not
// one, whatever its sound.
bool is_short_and_stressed(const Unit& unit) {
  if (!unit.stressed || unit.is_split() || unit.phonemes.size() != 1) {
    return false;
  }
  const P sound = unit.phonemes.front();
  if (sound == P::aa && unit.grapheme == "a") return false;
  // Nor is the vowel of saw, where it is said as short o.
  if (sound == P::oh && unit.grapheme.size() > 1 &&
      unit.listed.front() == P::ao && unit.grapheme != "ou") {
    return false;
  }
  return is_short_vowel(sound) && sound != P::ax;
}

// Letters that cannot begin a part.
bool only_closes(std::string_view grapheme) {
  constexpr std::array<std::string_view, 6> kClosing = {"ck",  "ng", "x",
                                                        "tch", "dg", "dge"};
  return std::ranges::find(kClosing, grapheme) != kClosing.end();
}

// Two letters for one sound of which each goes its own way: rab-bit, lis-ten,
// ex-cel, ad-just, ex-haust, rasp-berry.
bool parts_in_two(std::string_view grapheme) {
  constexpr std::array<std::string_view, 5> kTwo = {"st", "xc", "dj", "xh",
                                                    "pb"};
  if (grapheme.size() < 2) return false;
  return grapheme[0] == grapheme[1] ||
         std::ranges::find(kTwo, grapheme) != kTwo.end();
}

// Its d closes the part before and its g begins the next: gad-get, bad-ger,
// gud-geon (the end-of-line division of Merriam-Webster's dictionaries, from
// memory). Where an ending was put on, that comes first: dodg-er.
bool is_d_and_g(std::string_view grapheme) {
  return grapheme == "dg" || grapheme == "dge";
}

// Two letters that only together say their sound.
bool is_digraph(std::string_view grapheme) {
  constexpr std::array<std::string_view, 8> kDigraphs = {
      "th", "ch", "sh", "ph", "ck", "ng", "gh", "wh"};
  return std::ranges::find(kDigraphs, grapheme) != kDigraphs.end();
}

// A consonant whose i or e stands for the vowel behind it: na-tion, pi-geon.
bool leans_on_next(std::string_view grapheme) {
  constexpr std::array<std::string_view, 8> kLeaning = {
      "ti", "ci", "si", "ssi", "sci", "gi", "ge", "ce"};
  return std::ranges::find(kLeaning, grapheme) != kLeaning.end();
}

// One place where a word parts, between the vowels of two units.
class Parting {
 public:
  Parting(const Reading& reading, std::size_t left, std::size_t right)
      : word_(reading.word),
        units_(reading.units),
        left_(left),
        right_(right),
        consonants_(right - left - 1) {}

  WordPart find(const Affixes& affixes) const {
    for (const FixedPlace& place : affixes.places) {
      if (place.at < least() || place.at > units_[right_].begin) continue;
      if (place.mild) {
        const WordPart usual = find_without();
        if (usual.begin == place.at) return usual;
      }
      return begun(place.at, place.rule);
    }
    return find_without();
  }

 private:
  static WordPart begun(std::size_t at, DivisionRule rule) {
    WordPart part;
    part.begin = static_cast<std::uint8_t>(at);
    part.rule = rule;
    return part;
  }

  // Without affixes.
  WordPart find_without() const {
    if (units_[right_].grapheme == "le") {
      return begun(le_begin(), DivisionRule::consonant_le);
    }
    if (const auto at = whole_begin()) return begun(*at, rule_of(*at));
    if (consonants_ == 0) return between_vowels();
    return by_consonants();
  }

  // No part begins before this byte: safe·ty.
  std::size_t least() const {
    const Unit& unit = units_[left_];
    return unit.is_split() ? static_cast<std::size_t>(unit.split_e) + 1
                           : unit.end;
  }

  std::size_t le_begin() const {
    if (consonants_ == 0) return units_[right_].begin;
    const Unit& consonant = units_[right_ - 1];
    // mus·cle, sub·tle
    if (parts_in_two(consonant.grapheme) ||
        (consonant.grapheme.size() == 2 && !is_digraph(consonant.grapheme))) {
      return consonant.begin + 1U;
    }
    return only_closes(consonant.grapheme) ? units_[right_].begin
                                           : consonant.begin;
  }

  // Where an ending that is learned whole begins: na·tion, mis·sion,
  // trea·sure.
  std::optional<std::size_t> whole_begin() const {
    if (consonants_ == 0 || units_[right_].stressed) return std::nullopt;
    const Unit& consonant = units_[right_ - 1];
    // con·scious
    const std::size_t last =
        consonants_ == 1 ? consonant.end : consonant.begin + 1U;
    for (std::size_t at = consonant.begin; at < last; ++at) {
      if (begins_learned_whole(lower_case(word_.substr(at)))) return at;
    }
    return std::nullopt;
  }

  // Where the vowels meet, an r between them belongs to the first; of two,
  // each has one: sto·ry is stor·y, hur·ry.
  WordPart between_vowels() const {
    const Unit& left = units_[left_];
    if (!has_r(left)) return begun(units_[right_].begin, DivisionRule::vowels);
    if (left.grapheme.ends_with("rr")) {
      return begun(left.end - 1U, DivisionRule::between);
    }
    return begun(units_[right_].begin, DivisionRule::after);
  }

  // Whether s stays with the vowel before it though it could begin the next
  // part: as·ton·ish, min·is·ter, roos·ter, and de·stroy, mi·cro·scope,
  // pa·stry.
  bool keeps_s(std::size_t first) const {
    if (units_[first].grapheme != "s" || consonants_ < 2) return false;
    constexpr std::string_view kStops = "ptckqf";
    if (kStops.find(units_[first + 1].grapheme[0]) == std::string_view::npos) {
      return false;
    }
    const Unit& vowel = units_[left_];
    if (vowel.is_split()) return false;
    if (vowel.grapheme.size() > 1) return true;
    if (!is_short_vowel(vowel.phonemes[0])) return false;
    const bool in_first = first_vowel() == left_;
    if (vowel.grapheme == "e") return left_ == 0 || !in_first;
    return vowel.grapheme != "o" || in_first;
  }

  std::size_t first_vowel() const {
    return static_cast<std::size_t>(
        std::ranges::find_if(units_, is_part_vowel) - units_.begin());
  }

  // The unit that begins the next part by the sounds.
  std::size_t first_of_next() const {
    std::size_t first = left_ + 1;
    while (first < right_ &&
           (units_[first].syllable != units_[right_].syllable ||
            units_[first].begin < least())) {
      ++first;
    }
    // sand·wich, awk·ward, and be·tween.
    const bool w = first + 2 == right_ && units_[first + 1].grapheme == "w" &&
                   units_[first].grapheme != "s" && !units_[right_].stressed;
    return w ? first + 1 : first;
  }

  // What the first part keeps of the consonants though the second could take
  // them all.
  bool keeps_first(std::size_t first) const {
    if (has_r(units_[left_])) return false;
    const std::string_view grapheme = units_[first].grapheme;
    if (leans_on_next(grapheme)) return false;
    // na·tion·al
    const bool in_whole = left_ > 0 && units_[left_].grapheme == "o" &&
                          grapheme == "n" &&
                          leans_on_next(units_[left_ - 1].grapheme);
    return in_whole || is_short_and_stressed(units_[left_]) ||
           only_closes(grapheme) || keeps_s(first);
  }

  WordPart by_consonants() const {
    if (consonants_ == 1 && is_d_and_g(units_[left_ + 1].grapheme)) {
      return begun(units_[left_ + 1].begin + 1U, DivisionRule::between);
    }
    std::size_t first = first_of_next();
    // zz is said as two sounds in pizza, xc in excellent.
    if (first == right_ && parts_in_two(units_[first - 1].grapheme)) --first;
    // cud·dly, wres·tling
    if (first + 1 == right_ && first > left_ + 1 &&
        units_[first].grapheme == "l" &&
        parts_in_two(units_[first - 1].grapheme)) {
      return begun(units_[first - 1].begin + 1U, DivisionRule::cluster);
    }
    // chest·nut, but wres·tling
    const bool silent_t = first + 1 < right_ &&
                          units_[first].grapheme == "st" &&
                          units_[first + 1].grapheme != "l";
    if (silent_t) return begun(units_[first].end, DivisionRule::cluster);
    if (first < right_ && parts_in_two(units_[first].grapheme)) {
      const std::size_t at = units_[first].begin + 1U;
      return begun(at, rule_of(at));
    }
    const bool all = first == left_ + 1;
    if (all && first < right_ && keeps_first(first)) {
      // cush·ion, anx·ious
      const std::string_view grapheme = units_[first].grapheme;
      if (grapheme == "shi" || grapheme == "xi") {
        return begun(units_[first].end - 1U, DivisionRule::after);
      }
      ++first;
    }
    const std::size_t at =
        first < right_ ? units_[first].begin : units_[right_].begin;
    return begun(at, rule_of(at));
  }

  // What the consonants on both sides of a place make it. Letters are counted
  // as they are seen: r counts behind its vowel, a doubled letter is two, and
  // none where a silent vowel stands at the place: choc·olate, vege·table.
  DivisionRule rule_of(std::size_t at) const {
    std::size_t before = has_r(units_[left_]) ? 1 : 0;
    std::size_t behind = 0;
    for (std::size_t i = left_ + 1; i < right_; ++i) {
      before += units_[i].begin < at ? 1 : 0;
      behind += units_[i].end > at ? 1 : 0;
    }
    if (before > 0 && behind > 0) {
      if (is_full_vowel_letter(word_[at])) return DivisionRule::after;
      const bool ends_there =
          std::ranges::any_of(units_, [&](const Unit& unit) {
            return unit.end == at && !is_part_vowel(unit);
          });
      // Not the e of safe·ty, which belongs to its a.
      if (ends_there && is_full_vowel_letter(word_[at - 1])) before = 0;
    }
    if (behind == 0) return DivisionRule::after;
    if (before == 0) {
      return behind == 1 ? DivisionRule::before : DivisionRule::both;
    }
    return before + behind > 2 ? DivisionRule::cluster : DivisionRule::between;
  }

  std::string_view word_;
  const std::vector<Unit>& units_;
  std::size_t left_, right_, consonants_;
};

}  // namespace

std::vector<WordPart> divide_word(const Reading& reading,
                                  const Phonics& phonics) {
  std::vector<WordPart> parts(1);
  for (const std::uint8_t at : reading.parted) {
    WordPart part;
    part.begin = at;
    part.rule = DivisionRule::by_hand;
    parts.push_back(part);
  }
  const Affixes affixes = find_affixes(reading, phonics);
  std::optional<std::size_t> left;
  for (std::size_t i = 0; i < reading.units.size(); ++i) {
    if (!is_part_vowel(reading.units[i])) continue;
    if (left && reading.parted.empty()) {
      parts.push_back(Parting(reading, *left, i).find(affixes));
    }
    left = i;
  }
  for (std::size_t i = 0; i < parts.size(); ++i) {
    parts[i].end = i + 1 < parts.size()
                       ? parts[i + 1].begin
                       : static_cast<std::uint8_t>(reading.word.size());
  }
  set_part_kinds(reading, affixes.dropped_at, parts);
  return parts;
}

std::vector<std::string> divided_letters(const Reading& reading,
                                         const Phonics& phonics) {
  std::vector<std::string> letters;
  for (const WordPart& part : divide_word(reading, phonics)) {
    letters.emplace_back(part.of(reading.word));
  }
  return letters;
}

std::string divided_text(const Reading& reading,
                         const std::vector<WordPart>& parts) {
  std::string text;
  for (const WordPart& part : parts) {
    text += text.empty() ? "" : "·";
    text += part.of(reading.word);
  }
  return text;
}

std::string explain_division(const Reading& reading, const Phonics& phonics) {
  const std::vector<WordPart> parts = divide_word(reading, phonics);
  if (parts.size() < 2) return {};
  std::string kinds, rules;
  for (const WordPart& part : parts) {
    kinds += kinds.empty() ? "" : ", ";
    kinds += kind_name(part.kind);
    if (part.weak) kinds += " with a weak vowel";
    if (part.begin == 0) continue;
    rules += rules.empty() ? "" : ", ";
    rules += rule_name(part.rule);
  }
  return divided_text(reading, parts) + " (" + kinds + "); " + rules;
}

}  // namespace sheaf
