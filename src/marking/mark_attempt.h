#pragma once

#include <cstdint>
#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "input/learner_code.h"
#include "marking/letter_sequences.h"
#include "marking/sound_spellings.h"
#include "marking/target_units.h"

namespace sheaf {

/// How one grapheme of the word that was meant was written.
enum class GraphemeResult : std::uint8_t {
  correct,
  plausible,  ///< with a spelling of the sound that English uses elsewhere
  wrong,
  missing,
  moved,  ///< its letters are there, out of order
};
std::string_view result_name(GraphemeResult result);

/// What lies behind a grapheme that is not correct, as far as the letters tell.
enum class Cause : std::uint8_t {
  none,
  other_spelling,   ///< the sound kept, in a way that is used there (rane)
  not_used_here,    ///< the sound kept, in a way not used there (duc)
  reads_otherwise,  ///< says the sound in other places only (gump, rabbet's a)
  changes_vowel,    ///< the vowel beside it reads long or short by it (brige)
  near_sound,       ///< chrain, fink, shep
  sound_lost,
  own_speech,       ///< as the learner says it, see `LearnerSpeech`
  ending_by_sound,  ///< -ed written as it sounds (jumpt)
  doubling,         ///< hoping for hopping and the other way round: the vowel
                    ///< changes, so it is wrong
  dropped_e,        ///< makeing for making
  y_to_i,           ///< babys for babies
  turned_letter,    ///< b for d, p for q
  left_out,
  no_vowel,  ///< a beat without a vowel letter (wintr, gardn)
  order,
  extra_letter,
};
inline constexpr std::size_t kCauseCount =
    static_cast<std::size_t>(Cause::extra_letter) + 1;
std::string_view cause_name(Cause cause);

struct MarkedGrapheme {
  std::string grapheme;
  GraphemeResult result = GraphemeResult::missing;
  Cause cause = Cause::none;
  /// The letters that stand for it; of a split one as in "a_e".
  std::string written;
};

/// Letters that belong to no grapheme.
struct ExtraLetter {
  char letter = '\0';
  /// It stands before this grapheme; behind the last for their number.
  std::size_t before = 0;
  Cause cause = Cause::extra_letter;
};

struct MarkedAttempt {
  std::string target;
  std::string written;  ///< as given
  /// One for each grapheme of the target.
  std::vector<MarkedGrapheme> graphemes;
  std::vector<ExtraLetter> extra;
  LetterSequences sequences;
  /// The word is spelled right: apostrophes and hyphens too, capitals aside.
  bool right = false;
  bool blank = false;
  /// All letters are right, an apostrophe or hyphen is not.
  bool only_marks_wrong = false;
  /// It is another word, one that learners may know: male for mail.
  bool other_word = false;
  /// The target has a capital, the attempt has none.
  bool capital_missing = false;
  /// How unlike the two are, see `GraphemeAlignment`.
  int cost = 0;

  int extra_letters() const { return static_cast<int>(extra.size()); }
  int count(GraphemeResult result) const;
};

struct MarkingOptions {
  LearnerSpeech speech;
  /// Tells bases of endings (hop) from chance letters; may be empty.
  WordTest is_word;
  /// Tells other words that learners may know; may be empty.
  WordTest is_common_word = {};
  /// Learners of whom it is known that they speak otherwise than `speech` says.
  std::map<LearnerCode, LearnerSpeech> of_learners = {};
};

/// The options for one learner's writing: `speech` is how this one speaks.
MarkingOptions options_for(const MarkingOptions& options,
                           const LearnerCode& learner);

/// Marks what a learner wrote for a word, grapheme by grapheme. Any text can
/// be marked; there is always one result for each grapheme of the target. The
/// reading may be of any accent: graphemes are judged by the sounds that the
/// word list has, and `options.speech` says how the learner speaks.
MarkedAttempt mark_attempt(const SoundSpellings& spellings,
                           const Reading& target, std::string_view written,
                           const MarkingOptions& options = {});

/// The same for a word with several readings (read, wind): the one that the
/// attempt is nearest to counts, the first where they are alike. There must
/// be at least one.
MarkedAttempt mark_attempt(const SoundSpellings& spellings,
                           std::span<const Reading> readings,
                           std::string_view written,
                           const MarkingOptions& options = {});

/// "C P W +1": a letter a grapheme and the count of extra letters, for tests
/// and tables. O stands for moved, M for missing.
std::string labels_text(const MarkedAttempt& attempt);

}  // namespace sheaf
