#pragma once

#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/endings.h"
#include "phonics/word_record.h"

namespace sheaf {

/// Makes records of words that the dictionary lacks from those that it has:
/// inflected words, British spellings, words with a plain prefix or ending,
/// compounds, possessives and words with a hyphen. Only ever asked for words
/// that the lists have, so that no word is invented.
class WordDeriver {
 public:
  using Records = std::vector<WordRecord>;
  /// Looks up the records of a known word, or null.
  using Find = std::function<const Records*(const std::string&)>;
  /// The size of the list that has a word, 0 where none has it as a plain one.
  using Tier = std::function<int(const std::string&)>;

  /// The label of a record's reading.
  using Label = std::function<std::string(const WordRecord&)>;

  /// Whether a word may be two words put together.
  using Compound = std::function<bool(const std::string&)>;

  WordDeriver(const Inventory& inventory, Find find, Tier tier, Label label,
              Compound compound)
      : inventory_(inventory),
        find_(std::move(find)),
        tier_(std::move(tier)),
        label_(std::move(label)),
        may_be_compound_(std::move(compound)) {}

  /// The records of the word, or none. What was made along the way is kept.
  const Records& make(const std::string& word, int depth = 0);

  /// The records of a word that is a known one with an ending put on by the
  /// rules, or none. A name has a name before its -s (Germans), other words
  /// have another word before their ending. `by_sounds`: as the sounds of the
  /// known one want it (no openning).
  Records form(const std::string& word, bool name, bool by_sounds);

 private:
  const Records* known(const std::string& word, int depth);
  /// Whether a record may be the base that an analysis of a word tells of.
  using Allow = std::function<bool(const EndingAnalysis&, const WordRecord&)>;
  Records inflected(const std::string& word, int depth, const Allow& allow);
  Records stripped(const std::string& word);
  Records respelled(const std::string& word, int depth);
  Records with_prefix(const std::string& word, int depth);
  Records with_suffix(const std::string& word, int depth);
  Records compound(const std::string& word);
  Records with_sign(const std::string& word, int depth);

  const Inventory& inventory_;
  Find find_;
  Tier tier_;
  Label label_;
  Compound may_be_compound_;
  std::map<std::string, Records> made_;
};

}  // namespace sheaf
