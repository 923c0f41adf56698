#pragma once

#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "phonics/word_record.h"

namespace sheaf {

/// What `stray_forms` is to know of the words.
struct WordFamilies {
  /// The records of every word.
  const std::map<std::string, std::vector<WordRecord>>& known;
  const Inventory& inventory;
  /// The label of a record's reading.
  std::function<std::string(const WordRecord&)> label;
  /// Whether a word is common enough for a base.
  std::function<bool(const std::string&)> may_be_base;
  /// Whether a word may be made anew: only what the dictionary has, and not
  /// what only looks inflected.
  std::function<bool(const std::string&)> may_stray;
};

/// The regular forms that the dictionary says otherwise than their base: rarest
/// with the vowel of rat, breakups with that of breed, replacement without the
/// long e of replace; and the forms of such forms. Much of the dictionary was
/// filled in by a machine, more carelessly for long words than for short ones,
/// so they are better made from the base anew. Forms that differ in more than
/// two sounds are taken for words of their own.
std::set<std::string> stray_forms(const WordFamilies& families);

}  // namespace sheaf
