#include "sheets/phrases.h"

#include <algorithm>
#include <array>
#include <span>
#include <string_view>

#include "analysis/function_words.h"
#include "base/utf8.h"

namespace sheaf {

namespace {

constexpr std::array<std::string_view, 19> kPlacePrepositions = {
    "in",   "on",  "at",     "with",   "from",  "to",   "of",
    "by",   "for", "under",  "over",   "into",  "near", "past",
    "down", "up",  "behind", "beside", "across"};
constexpr std::array<std::string_view, 13> kPhraseDeterminers = {
    "a",    "an",    "the", "my",   "his",  "her", "our",
    "your", "their", "its", "this", "that", "each"};

// Behind a verb, these often belong to it; of begins nothing by itself.
constexpr std::array<std::string_view, 3> kBeginNoPhrase = {"of", "up", "down"};
constexpr std::array<std::string_view, 18> kEndNoPhrase = {
    "now",  "then",  "again", "too",  "today", "here", "there", "soon", "still",
    "once", "alone", "away",  "back", "home",  "next", "first", "last", "well"};

bool is_one_of(std::string_view word, std::span<const std::string_view> all) {
  return std::ranges::find(all, word) != all.end();
}

class PhraseCut {
 public:
  explicit PhraseCut(const AnalyzedSentence& sentence)
      : words_(sentence.words), text_(sentence.text.text()) {}

  std::size_t size() const { return words_.size(); }
  std::string lower(std::size_t i) const {
    return lower_case(
        text_.substr(words_[i].begin, words_[i].end - words_[i].begin));
  }
  // Nothing but a space before it.
  bool joined(std::size_t i) const {
    return words_[i].begin == words_[i - 1].end + 1 &&
           text_[words_[i - 1].end] == ' ';
  }
  Phrase cut(std::size_t first, std::size_t last) const {
    return {lower(first) + text_.substr(words_[first].end,
                                        words_[last].end - words_[first].end),
            first, last};
  }
  // What belongs to the noun, not to the frame of the sentence.
  bool is_content(std::size_t i) const {
    const std::string word = lower(i);
    return !is_determiner(word) && !is_preposition(word) &&
           !is_auxiliary(word) && !is_subject_pronoun(word) &&
           !is_object_pronoun(word) && !is_mid_adverb(word) &&
           !is_opener(word) && !is_subject_with_verb(word);
  }

 private:
  const SharedList<AnalyzedSentence::Part>& words_;
  const std::string& text_;
};

}  // namespace

Phrase place_phrase(const AnalyzedSentence& sentence, std::size_t first) {
  const PhraseCut cut(sentence);
  if (first + 2 >= cut.size() ||
      !is_one_of(cut.lower(first), kPlacePrepositions) ||
      !is_one_of(cut.lower(first + 1), kPhraseDeterminers) ||
      !cut.joined(first + 1)) {
    return {};
  }
  for (std::size_t last = first + 2; last < cut.size() && last < first + 4;
       ++last) {
    if (!cut.joined(last)) return {};
    if (last + 1 == cut.size() || !cut.joined(last + 1)) {
      return cut.cut(first, last);
    }
  }
  return {};
}

Phrase subject_phrase(const AnalyzedSentence& sentence, std::size_t first) {
  const PhraseCut cut(sentence);
  if (first != 0 || cut.size() < 3 ||
      !is_one_of(cut.lower(first), kPhraseDeterminers)) {
    return {};
  }
  for (std::size_t last = first + 1; last + 1 < cut.size() && last < first + 3;
       ++last) {
    if (!cut.joined(last) || !cut.is_content(last)) return {};
    if (cut.joined(last + 1) && is_auxiliary(cut.lower(last + 1))) {
      return cut.cut(first, last);
    }
  }
  return {};
}

namespace {

// What a word is mostly, by its commonest use.
bool is_mostly(std::string_view word, WordKind kind,
               const WordMeanings& meanings) {
  const auto forms = meanings.forms(word);
  return !forms.empty() && forms.front().kind == kind;
}

bool can_be_noun(std::string_view word, const WordMeanings& meanings) {
  return std::ranges::any_of(meanings.forms(word), [](const WordForm& form) {
    return form.kind == WordKind::noun;
  });
}

// `first` is the word behind "the".
bool is_sure(const PhraseCut& cut, std::size_t first, std::size_t last,
             const WordMeanings& meanings) {
  const std::string end = cut.lower(last);
  if (is_one_of(end, kEndNoPhrase) || !cut.is_content(last) ||
      !can_be_noun(end, meanings)) {
    return false;
  }
  return first == last ||
         is_mostly(cut.lower(first), WordKind::adjective, meanings) ||
         (cut.is_content(first) && is_mostly(end, WordKind::noun, meanings));
}

}  // namespace

std::vector<Phrase> safe_phrases(const AnalyzedSentence& sentence,
                                 const WordMeanings& meanings) {
  const PhraseCut cut(sentence);
  std::vector<Phrase> phrases;
  for (std::size_t i = 0; i < cut.size(); ++i) {
    Phrase phrase = subject_phrase(sentence, i);
    if (!phrase.empty() && is_sure(cut, i + 1, phrase.last, meanings)) {
      phrases.push_back(std::move(phrase));
      continue;
    }
    phrase = place_phrase(sentence, i);
    if (!phrase.empty() && !is_one_of(cut.lower(i), kBeginNoPhrase) &&
        is_sure(cut, i + 2, phrase.last, meanings)) {
      phrases.push_back(std::move(phrase));
    }
  }
  return phrases;
}

}  // namespace sheaf
