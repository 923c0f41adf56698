#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/endings.h"

namespace sheaf {

/// What the rules of endings ask of a base beyond its letters. Where it is not
/// known, every spelling counts that could be right.
struct BaseTraits {
  /// The last beat: strong where it bears stress or is the only one (begin),
  /// weak where its vowel is (open) or its last letter is silent (debut).
  enum class Beat : std::uint8_t { unknown, strong, weak };
  Beat last_beat = Beat::unknown;
  /// Whether the last sound is one behind which -s is a beat of its own: the
  /// ch of lunch, not that of stomach.
  enum class Hiss : std::uint8_t { unknown, yes, no };
  Hiss hiss = Hiss::unknown;
};

/// A base with an ending put on.
struct EndedWord {
  std::string spelling;
  /// -s or -es, whichever it came to; `none` where the form is irregular and
  /// shows no ending (went, mice).
  Ending ending = Ending::none;
  Joint joint = Joint::plain;
};

/// Every right spelling of a base with an ending, the usual American one
/// first: run and -ing give running, travel and -ed give traveled and
/// travelled, go and -ed give went and gone. -s comes to -es where it has to.
/// Empty where the base does not take the ending (happy and -y). The rules
/// (common practice, no source):
/// - y behind a consonant becomes i, but before -ing (carried, carrying); of
///   one beat it stays before a consonant too (shyly).
/// - e goes before a vowel (making), but ee, oe and ye keep it before -ing
///   (seeing, dyeing); ie becomes y there (dying).
/// - One consonant letter behind one vowel letter is doubled before a vowel
///   where the last beat is strong (running, beginning), and not where it is
///   weak (opening); w, x, y and h never are, qu counts as a consonant
///   (quitting), and l may be doubled anywhere, as in Britain (travelling).
/// - -es stands behind a hiss and behind a consonant and o; z and s may double
///   (quizzes, gasses).
/// - c becomes ck before a vowel (panicked).
/// - -le gives -ly (gently), -ic gives -ically, -ll gives -lly.
/// What irregular_forms.tsv says of a word outdoes them.
std::vector<EndedWord> put_ending_on(std::string_view base, Ending ending,
                                     BaseTraits traits = {});

/// Any base with an ending, joined in one certain way, right or not: what a
/// misspelling may come from. Empty where the letters do not allow it.
std::string join_as(std::string_view base, Ending ending, Joint joint);

/// Whether the letters end in one vowel letter and one consonant letter that
/// would be doubled before a vowel ending, in a word of one beat (run, stop).
bool doubles_its_end(std::string_view base);

/// What stands before a suffix that is none of `Ending`, such as -able: all
/// bases that it could be put on by the same rules, each with how.
struct SuffixBase {
  std::string base;
  Joint joint = Joint::plain;
};
std::vector<SuffixBase> possible_suffix_bases(std::string_view word,
                                              std::string_view suffix);

}  // namespace sheaf
