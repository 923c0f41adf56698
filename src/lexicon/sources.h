#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/phoneme.h"

namespace sheaf {

/// One way to say a word, as a source gives it.
struct Pronunciation {
  std::vector<Phoneme> phonemes;
  /// A bit for each syllable, from the first.
  std::uint16_t stress = 0;
  /// Tells readings apart: "noun", "verb"; often empty.
  std::string label;
  /// The graphemes, where our own list gives them: "ch o c ol a_e t".
  std::string graphemes;
};

/// Spelling (lower case) to its pronunciations, preferred first.
using PronunciationTable = std::map<std::string, std::vector<Pronunciation>>;

/// Reads Festival's form of the CMU dictionary: a line an entry,
/// ("word" pos (((phones) stress) ...)). Lines that are none are left out.
PronunciationTable read_festlex(std::string_view text);

/// Reads our supplement: word, sounds ('r iy d, syllables parted by |),
/// label, graphemes, remark. `fault` says what is wrong, or stays empty.
PronunciationTable read_supplement(std::string_view text, std::string& fault);

/// "'p er|f ax k t" to phonemes and stress; false where it is not that.
bool read_sounds(std::string_view text, Pronunciation& pronunciation);

/// How speakers of some accents say a word that General American has
/// otherwise.
struct AccentRow {
  std::uint8_t accents = 0;  ///< as in WordRecord
  Pronunciation pronunciation;
};
using AccentTable = std::map<std::string, std::vector<AccentRow>>;

/// Reads accent_words.tsv: word, accents parted by blanks, sounds as in the
/// supplement or = (as General American, though it looks like a form of a word
/// that is otherwise; no sounds then), label, graphemes, source. `fault` says
/// what is wrong, or stays empty.
AccentTable read_accent_words(std::string_view text, std::string& fault);

/// What the SCOWL lists tell of a word.
struct ScowlWord {
  int tier = 0;       ///< size of the smallest list that has it
  bool name = false;  ///< stands there with a capital only
  /// Stands in a list of what is spelled so in America.
  bool american = false;
  bool also_name = false;  ///< with a capital too, in lists of some size
};
using WordLists = std::map<std::string, ScowlWord>;

/// Adds a SCOWL list. Words with letters outside a to z, apostrophes aside,
/// are left out. `american` says whether what it has is spelled so in America.
void add_word_list(std::string_view text, int tier, bool american,
                   WordLists& lists);

}  // namespace sheaf
