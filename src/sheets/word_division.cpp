#include "sheets/word_division.h"

#include "phonics/letter_map.h"
#include "phonics/prefix_meanings.h"
#include "phonics/word_facts.h"

namespace sheaf {

namespace {

// girls' shows no 's; there is no unhelp.
EndingAnalysis shown_ending(const EndingAnalysis& outer, const LetterMap& map,
                            const Phonics& phonics) {
  const bool shown = map.spelling.ends_with(ending_text(outer.ending));
  return shown && phonics.knows(outer.base) ? outer : EndingAnalysis{};
}

}  // namespace

EndingAnalysis base_and_ending(const Reading& reading, const Phonics& phonics) {
  const LetterMap map = map_letters(reading.word);
  if (!map.good) return {};
  const auto endings = find_facts(reading, map, phonics.lexicon()).endings;
  if (endings.empty()) return {};
  return shown_ending(endings.front().analysis, map, phonics);
}

EndingAnalysis base_and_ending(std::string_view word,
                               const Conventions& conventions,
                               const Phonics& phonics) {
  const EndingAnalysis outer = phonics.outer_ending(word, conventions);
  if (!outer) return {};
  return shown_ending(outer, map_letters(word), phonics);
}

PrefixedWord prefix_and_base(const Reading& reading, const Phonics& phonics) {
  const LetterMap map = map_letters(reading.word);
  if (!map.good) return {};
  const std::string_view prefix =
      find_facts(reading, map, phonics.lexicon()).prefix;
  if (prefix.empty()) return {};
  std::string base = reading.word.substr(prefix.size());
  if (base.starts_with('-')) base.erase(0, 1);
  return {.prefix = reading.word.substr(0, prefix.size()),
          .base = base,
          .meaning = prefix_meaning(prefix, base)};
}

std::string_view change_name(Joint joint) {
  switch (joint) {
    case Joint::doubled:
      return "the last letter is doubled";
    case Joint::dropped_e:
      return "e is dropped";
    case Joint::y_to_i:
      return "y changes to i";
    case Joint::f_to_v:
      return "f changes to v";
    case Joint::c_to_ck:
      return "c becomes ck";
    case Joint::ie_to_y:
      return "ie changes to y";
    case Joint::plain:
      break;
  }
  return "nothing changes";
}

}  // namespace sheaf
