#pragma once

#include <deque>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/reading.h"

namespace sheaf {

struct OwnPattern;
struct PatternRule;
struct WordFacts;

/// A grapheme with the phonemes it says: what a pattern teaches.
struct TaughtUnit {
  std::string grapheme;
  std::vector<Phoneme> phonemes;

  bool covers(const Unit& unit) const {
    return unit.grapheme == grapheme && unit.listed == phonemes && !unit.father;
  }
};

/// A spelling pattern that lessons can be about.
struct Pattern {
  std::string_view id;    ///< "ck"
  std::string_view name;  ///< "ck after a short vowel"
  std::string_view remark;
  std::string_view family;   ///< what it is listed with: "vowel teams"
  std::string_view example;  ///< a word that has it; empty for a lesson's own
  std::vector<TaughtUnit> teaches;
  /// Rarer graphemes that its rule lets in for a sound that it teaches (dg of
  /// badger), and what its words have beside it and no other pattern teaches
  /// (the au of laugh, the t of picture). Who was taught the pattern can read
  /// them; nobody is asked them.
  std::vector<TaughtUnit> lets_in;
  /// One of the short vowels: words in which a neighbour colours the vowel
  /// come later in a first list.
  bool short_vowel = false;
  /// Told by graphemes and sounds alone, so that the sheets can mark it inside
  /// the word; else it is about the word or its ending.
  bool of_units = false;
};

/// What stands over a narrow column: the name if it is short ("i_e", "soft c"),
/// else the id as words ("ck", "th voiceless").
std::string column_title(const Pattern& pattern);

/// The catalogue of patterns, read from the word list's file, whose text must
/// outlive it. Throws MachineError where the text is damaged.
class PatternCatalogue {
 public:
  explicit PatternCatalogue(std::string_view text);
  ~PatternCatalogue();
  PatternCatalogue(PatternCatalogue&&) noexcept;

  std::span<const Pattern> all() const { return patterns_; }
  const Pattern& operator[](PatternId id) const { return patterns_[id]; }

  /// The pattern with just this id or, where none has it, this name; case and
  /// what parts the words in it do not matter.
  std::optional<PatternId> find_exact(std::string_view written) const;
  /// The pattern with this id, or nothing; for code that knows its ids.
  const Pattern* by_id(std::string_view id) const;
  PatternId id_of(const Pattern& pattern) const {
    return static_cast<PatternId>(&pattern - patterns_.data());
  }

  /// Adds a pattern of a lesson's own; its id is what the lesson wrote.
  void add(const OwnPattern& own);

  /// The patterns that a word has, in the order of the catalogue.
  std::vector<PatternPlace> places_in(const Reading& reading,
                                      const WordFacts& facts) const;
  /// The rules of a pattern: any of them is enough.
  std::span<const PatternRule> rules(PatternId id) const;

 private:
  std::vector<Pattern> patterns_;
  /// The texts of the lesson's own, which no file holds.
  std::deque<std::string> own_texts_;
  std::vector<std::vector<PatternRule>> rules_;
  /// By their plain form.
  std::map<std::string, PatternId, std::less<>> by_id_, by_name_;

  void add(Pattern pattern, std::vector<PatternRule> rules);
};

}  // namespace sheaf
