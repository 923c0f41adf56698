#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <set>
#include <span>
#include <string>
#include <vector>

#include "base/diagnostics.h"
#include "input/lesson.h"
#include "input/sequence.h"
#include "phonics/phonics.h"

namespace sheaf {

/// Whether learners can read a word with what they were taught.
struct WordStanding {
  enum class Kind { decodable, sight_word, not_yet };
  Kind kind = Kind::decodable;
  /// The first unit that was not taught, and the step that will teach it, an
  /// index into `Taught::steps`; -1 where there is none.
  int unit = -1;
  int step = -1;
  /// Of a decodable word: its first weak vowel that counts as taught with the
  /// letter's short sound only (the o of dragon), or -1.
  int weak_unit = -1;
};

/// What a group has been taught at one lesson: everything up to and with its
/// step of the sequence. A pattern teaches the correspondences of its row in
/// the catalogue. Beyond those (all common practice, no source):
/// - Single consonant letters with their usual sound (x as /ks/) are taught
///   from the start; doubled ones come with their pattern.
/// - A weak vowel written with one letter in a closed syllable (kitten, lemon,
///   basket) counts as taught with the letter's short sound: the reader says
///   the short sound and hears the word. At the end of a syllable e, o and u
///   (return, police, popular) count with the letter's long sound; a (about,
///   sofa) waits for a pattern of its own.
/// - The r of fire and hour says a vowel besides, which the reader hears.
/// - Where an ending made a base drop its e (hoping, nicer), the base's
///   graphemes count as taught once that of the base (hope) and the ending's
///   pattern are.
class Taught {
 public:
  struct Step {
    int number = 0;
    std::string name;
    std::vector<PatternId> patterns;
    std::vector<std::string> sight_words;
    std::vector<std::string> key_words;
  };

  /// Nothing is known of the group: every word is decodable.
  Taught() = default;

  /// The same group at an earlier step, an index: what came since is taken
  /// back, but for what the lesson itself says.
  Taught before(int step) const;

  /// Whether a sequence or the lesson says what was taught.
  bool known() const { return known_; }
  const std::vector<Step>& steps() const { return steps_; }
  /// The lesson's place, an index into `steps`, or -1.
  int step() const { return step_; }

  WordStanding standing(const Reading& reading) const;
  /// Whether one unit of a word was taught, whatever the others are; true where
  /// nothing is known.
  bool is_taught(const Reading& reading, std::size_t unit) const;
  bool is_decodable(const Reading& reading) const {
    return standing(reading).kind == WordStanding::Kind::decodable;
  }
  /// False where a word cannot be decodable, whatever patterns it has: for
  /// readings whose patterns nobody has looked for (`Phonics::first_units`).
  bool may_be_decodable(const Reading& reading) const;
  /// False where no word with this grapheme can be decodable, whatever it says.
  bool may_be_taught(std::string_view grapheme) const;
  bool is_sight_word(std::string_view word) const;
  const std::set<std::string, std::less<>>& sight_words() const {
    return sight_words_;
  }
  /// The earlier steps whose patterns are due for review at this one, the
  /// latest first: after 1, 2, 4 and 8 weeks where the sequence names no gaps
  /// of its own. A step is a week of teaching, so weeks without school do not
  /// count. Gaps must grow with the time that a thing is to last (Cepeda et al.
  /// 2006, 2008); the numbers are ours.
  std::vector<int> due_steps() const;
  /// The patterns of a step, none where it is a step for practice.
  const std::vector<PatternId>& patterns_of(int step) const {
    return steps_[static_cast<std::size_t>(step)].patterns;
  }
  /// The step that teaches a pattern, 0 where it was taught before the first,
  /// else one more than its index; -1 where nothing teaches it.
  int stage(PatternId pattern) const;
  /// The words that the sequence names for the sounds taught at a stage, small;
  /// none where it leaves them to Sheaf.
  std::span<const std::string> key_words(int stage) const;

 private:
  friend class TaughtBuilder;

  static constexpr int kNever = 1'000'000;
  struct Entry {
    std::uint64_t key;
    int stage;
  };
  static std::uint64_t key_of(std::string_view grapheme,
                              std::span<const Phoneme> phonemes);
  int stage_of(std::string_view grapheme,
               std::span<const Phoneme> phonemes) const;
  int stage_of(const Reading& reading, std::size_t unit, int drop_stage) const;
  int drop_stage_of(const Reading& reading) const;

  bool known_ = false;
  int step_ = -1;
  std::vector<Step> steps_;
  std::vector<int> review_weeks_ = {1, 2, 4, 8};
  std::vector<Entry> entries_;  // in order of keys
  /// By grapheme the first stage that teaches it with any sound.
  std::map<std::string, int, std::less<>> grapheme_stages_;
  std::vector<int> pattern_stages_;
  std::vector<PatternId> drops_;
  std::set<std::string, std::less<>> sight_words_;
  std::vector<std::string> key_words_;  ///< of what was known before
};

/// Works out what was taught before a lesson. `sequence` is the one that the
/// lesson names or that lies beside it; may be null. Reports patterns that
/// nobody knows, a step that is not there, and a lesson whose pattern no step
/// teaches.
Taught find_taught(const Lesson& lesson, const SequenceFile* sequence,
                   const Phonics& phonics, Diagnostics& diagnostics);

/// The same at a step of a sequence by itself, for words looked for before
/// there is a lesson; `step` is an index.
Taught taught_at(const SequenceFile& sequence, int step, const Phonics& phonics,
                 Diagnostics& diagnostics);

/// "step 7", or the step's name.
std::string step_name(const Taught::Step& step);

}  // namespace sheaf
