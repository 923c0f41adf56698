#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace sheaf {

/// Sentences of a teacher's own, cut into words once for all searches. They are
/// searched before those that come with Sheaf.
class OwnSentences {
 public:
  struct Sentence {
    std::string text;
    std::vector<std::uint32_t> words;  ///< see `spelling`, in their order
  };

  /// Adds a sentence, unless one is there that differs in signs and capitals
  /// only. False where it is.
  bool add(std::string_view text);

  const std::vector<Sentence>& all() const { return sentences_; }
  bool empty() const { return sentences_.empty(); }
  /// How many different spellings of words there are, and how one is.
  std::size_t word_count() const { return spellings_.size(); }
  std::string_view spelling(std::uint32_t word) const {
    return spellings_[word];
  }
  /// Whether there is a sentence with this `sentence_key`.
  bool has(std::string_view key) const { return keys_.contains(key); }

 private:
  std::vector<Sentence> sentences_;
  std::vector<std::string> spellings_;
  std::map<std::string, std::uint32_t, std::less<>> numbers_;
  std::set<std::string, std::less<>> keys_;
};

/// So many different words that no list knows are read by Sheaf's guess, from
/// the first sentence on; a sentence with one more is passed over. A guess
/// takes a fifth of a millisecond, and a text with more of them is not English.
inline constexpr int kMostGuessedWords = 300;

/// What two texts have in common that differ in signs and capitals only.
std::string sentence_key(std::string_view text);

}  // namespace sheaf
