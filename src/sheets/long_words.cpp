#include "sheets/long_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "layout/heard.h"
#include "layout/text_block.h"
#include "phonics/division_kinds.h"
#include "sheets/common_options.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace {

constexpr std::array kKindsByNumber = {
    PartKind::closed, PartKind::open,    PartKind::silent_e,
    PartKind::team,   PartKind::r_vowel, PartKind::consonant_le,
    PartKind::whole,
};

}  // namespace

std::vector<const AnalyzedWord*> long_words(const SheetInput& in) {
  std::vector<const AnalyzedWord*> words;
  for (const AnalyzedWord& word : in.lesson.words) {
    if (word.parts.size() > 1) words.push_back(&word);
  }
  // Words of the pattern first; the others, which are there to be told from
  // them, where there is room.
  std::ranges::stable_partition(
      words, [](const AnalyzedWord* word) { return word->has_pattern(); });
  keep_first(words, in.options.count("words"));
  order_by_length(in.options, words);
  // The first is done for all: not one in which the e of a part is gone.
  const auto whole = std::ranges::find_if_not(
      words, [](const AnalyzedWord* word) { return has_dropped_e(*word); });
  if (whole != words.end()) std::rotate(words.begin(), whole, whole + 1);
  return words;
}

int kind_number(PartKind kind) {
  return static_cast<int>(std::ranges::find(kKindsByNumber, kind) -
                          kKindsByNumber.begin()) +
         1;
}

std::string_view kind_meaning(PartKind kind) {
  switch (kind) {
    case PartKind::closed:
      return "one vowel with a consonant behind it, mostly short";
    case PartKind::open:
      return "it ends in its one vowel, which mostly says its name";
    case PartKind::silent_e:
      return "a vowel, a consonant and e: the vowel mostly says its name";
    case PartKind::team:
      return "a vowel that is written with several letters";
    case PartKind::r_vowel:
      return "a vowel together with r";
    case PartKind::consonant_le:
      return "a consonant with le, at the end of a word";
    case PartKind::whole:
      break;
  }
  return "an ending that is read and spelled as one thing";
}

std::vector<PartKind> kinds_of(const std::vector<const AnalyzedWord*>& words) {
  std::vector<PartKind> kinds;
  for (const PartKind kind : kKindsByNumber) {
    const bool has = std::ranges::any_of(words, [&](const AnalyzedWord* word) {
      return std::ranges::find(word->parts, kind, &WordPart::kind) !=
             word->parts.end();
    });
    if (has) kinds.push_back(kind);
  }
  return kinds;
}

std::string parts_said(const AnalyzedWord& word) {
  std::vector<std::string> parts;
  for (const WordPart& part : word.parts) {
    parts.emplace_back(part.of(word.reading.word));
  }
  return heard_parts(parts);
}

std::string division_reasons(const AnalyzedWord& word) {
  std::vector<std::string_view> rules;
  for (const WordPart& part : word.parts) {
    if (part.begin > 0) rules.push_back(rule_name(part.rule));
  }
  std::string text(rules.empty() ? "" : rules.front());
  const bool same = std::ranges::all_of(
      rules, [&](std::string_view rule) { return rule == rules.front(); });
  if (same && rules.size() > 1) {
    text += rules.size() == 2 ? ", both times" : ", each time";
  }
  for (std::size_t i = 1; i < rules.size() && !same; ++i) {
    text += fmt::format(", then {}", rules[i]);
  }
  return text;
}

std::vector<VowelPlace> vowels_of(const AnalyzedWord& word) {
  std::vector<VowelPlace> places;
  for (const Unit& unit : word.reading.units) {
    if (!is_part_vowel(unit)) continue;
    // ed as one grapheme: its e is the vowel.
    std::size_t begin = unit.begin;
    std::size_t end = unit.end;
    if (unit.grapheme == "ed") end = begin + 1;
    // Of le the e counts, though it is silent.
    if (unit.grapheme == "le") begin = end - 1;
    places.push_back({begin, end});
  }
  return places;
}

bool has_dropped_e(const AnalyzedWord& word) {
  for (std::size_t i = 0; i + 1 < word.parts.size(); ++i) {
    const WordPart& part = word.parts[i];
    if (part.kind == PartKind::silent_e &&
        word.parts[i + 1].rule == DivisionRule::ending &&
        part.of(word.reading.word).find('e') == std::string_view::npos) {
      return true;
    }
  }
  return false;
}

bool has_weak_part(const AnalyzedWord& word) {
  return std::ranges::any_of(word.parts, &WordPart::weak);
}

void add_long_word_answers(const SheetInput& in, Composer& c) {
  const TextStyle plain = c.style().teacher_text();
  const TextStyle strong = c.style().teacher_text(true);
  int number = 0;
  for (const AnalyzedWord* word : long_words(in)) {
    const From from(c, word->spelling.span);
    std::string kinds;
    for (const WordPart& part : word->parts) {
      kinds += fmt::format("{}{} {}", kinds.empty() ? "" : ", ",
                           kind_number(part.kind), kind_name(part.kind));
      if (part.weak) kinds += " (weak vowel)";
    }
    std::vector<TextPiece> pieces = {
        {fmt::format("{}. ", ++number), plain},
        {divided_text(word->reading, word->parts), strong}};
    pieces.back().heard = parts_said(*word);
    pieces.push_back(
        {fmt::format(": {}. Divides {}.", kinds, division_reasons(*word)),
         plain});
    add_paragraph(c, pieces);
  }
}

}  // namespace sheaf
