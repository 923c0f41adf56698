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
/// compounds, possessives and words with a hyphen. Only ever asked for words that the lists have, so that no word
/// is invented.
class WordDeriver {
 public:
  using Records = std::vector<WordRecord>;
  /// Looks up the records of a known word, or null.
  using Find = std::function<const Records*(const std::string&)>;
  /// The size of the list that has a word, 0 where none has it as a plain one.
  using Tier = std::function<int(const std::string&)>;

  /// The label of a record's reading.
  using Label = std::function<std::string(const WordRecord&)>;

  WordDeriver(const Inventory& inventory, Find find, Tier tier, Label label)
      : inventory_(inventory),
        find_(std::move(find)),
        tier_(std::move(tier)),
        label_(std::move(label)) {}

  /// The records of the word, or none. What was made along the way is kept.
  const Records& make(const std::string& word, int depth = 0);

 private:
  const Records* known(const std::string& word, int depth);
  Records inflected(const std::string& word, int depth);
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
  std::map<std::string, Records> made_;
};

}  // namespace sheaf
