#include "analysis/comma_splice.h"

#include <algorithm>
#include <span>
#include <string>
#include <vector>

#include "analysis/function_words.h"
#include "base/utf8.h"
#include "phonics/word_meanings.h"
#include "phonics/words_in.h"

namespace sheaf {

namespace {

struct ClauseWord {
  std::string text;  // in lower case
  bool capital = false;
};
using Clause = std::span<const ClauseWord>;

bool is_one_of(std::string_view word,
               std::initializer_list<std::string_view> words) {
  return std::ranges::find(words, word) != words.end();
}

// Words whose clause says when: the day we met, the moment it stopped.
bool is_of_time(std::string_view word) {
  return is_one_of(
      word, {"day", "moment", "time", "minute", "second", "instant", "week",
             "year", "night", "morning", "way", "month", "hour"});
}

// I think, you know, it seems: a remark on the rest.
bool is_remark_verb(std::string_view word) {
  return is_one_of(
      word,
      {"think", "hope",  "bet",    "guess",   "know",    "see",     "say",
       "says",  "said",  "seems",  "seemed",  "thought", "asked",   "told",
       "tells", "cried", "called", "yelled",  "wish",    "suppose", "believe",
       "mean",  "fear",  "swear",  "promise", "replied", "added",   "shouted"});
}

class ClauseFinder {
 public:
  explicit ClauseFinder(const Phonics& phonics)
      : meanings_(phonics.meanings()) {}

  // Where the verb of a main clause stands that begins with its subject.
  std::optional<std::size_t> verb_of(Clause clause) const {
    if (clause.empty()) return std::nullopt;
    const ClauseWord& first = clause.front();
    if (is_subject_with_verb(first.text)) return 0;
    if (is_subject_pronoun(first.text)) return behind_pronoun(clause);
    if (is_one_of(first.text, {"this", "that", "these", "those"}) &&
        clause.size() > 1 && is_auxiliary(clause[1].text)) {
      return 1;
    }
    if (is_determiner(first.text)) return behind_noun(clause, 1);
    if (is_opener(first.text) || is_preposition(first.text) ||
        is_auxiliary(first.text) || is_mid_adverb(first.text)) {
      return std::nullopt;
    }
    if (first.capital ||
        meanings_.can_be(first.text, WordKind::noun, Ending::s)) {
      return behind_noun(clause, 0);
    }
    return std::nullopt;
  }

 private:
  std::optional<std::size_t> behind_pronoun(Clause clause) const {
    std::size_t at = 1;
    while (at < clause.size() && is_mid_adverb(clause[at].text)) ++at;
    if (at >= clause.size()) return std::nullopt;
    const std::string& word = clause[at].text;
    const bool verb = is_auxiliary(word) || is_mostly_verb(word);
    return verb ? std::optional(at) : std::nullopt;
  }

  // Whether a word behind a pronoun is its verb: not the rat of "you rat".
  bool is_mostly_verb(std::string_view word) const {
    for (const WordForm& form : meanings_.forms(word)) {
      if (form.kind != WordKind::verb) continue;
      if (form.ending == Ending::ing) continue;
      if (form.ending == Ending::ed || form.share > 0.5) return true;
    }
    return false;
  }

  // `from` is where the noun, or an adjective before it, may begin.
  std::optional<std::size_t> behind_noun(Clause clause,
                                         std::size_t from) const {
    constexpr std::size_t kLongestSubject = 4;
    for (std::size_t at = from; at < clause.size(); ++at) {
      const ClauseWord& word = clause[at];
      if (at > from && is_finite(clause, at)) return at;
      const bool joins = is_opener(word.text) || is_determiner(word.text) ||
                         is_preposition(word.text) ||
                         is_subject_pronoun(word.text) ||
                         is_auxiliary(word.text);
      if (at >= from + kLongestSubject || joins) return std::nullopt;
      if (at > from && (word.capital || is_of_time(clause[at - 1].text))) {
        return std::nullopt;
      }
    }
    return std::nullopt;
  }

  bool is_noun(const ClauseWord& word) const {
    return word.capital ||
           meanings_.can_be(word.text, WordKind::noun, Ending::none) ||
           meanings_.can_be(word.text, WordKind::noun, Ending::s);
  }

  // Whether the word at `at`, behind a noun, can only be its verb.
  bool is_finite(Clause clause, std::size_t at) const {
    const std::string& word = clause[at].text;
    if (!is_noun(clause[at - 1])) return false;
    if (is_auxiliary(word)) return true;
    const std::vector<WordForm> forms = meanings_.forms(word);
    if (forms.empty() || clause[at].capital) return false;
    const WordForm& usual = forms.front();
    for (const WordForm& form : forms) {
      if (form.kind == WordKind::noun && form.share > 0.5) break;
      if (form.kind != WordKind::verb || form.ending != Ending::ed) continue;
      // "the dog named Max": the form of a past, and no past.
      return !word.ends_with("ed") || at + 1 == clause.size() ||
             !clause[at + 1].capital;
    }
    // "the dog barks", not "the bus stops".
    return usual.kind == WordKind::verb && usual.share > 0.5 &&
           at + 1 < clause.size() &&
           (usual.ending == Ending::s || usual.ending == Ending::none) &&
           (usual.ending == Ending::s) == !is_plural(clause[at - 1]);
  }

  bool is_plural(const ClauseWord& word) const {
    return !word.capital &&
           meanings_.can_be(word.text, WordKind::noun, Ending::s);
  }

  const WordMeanings& meanings_;
};

bool may_be_right(Clause left, Clause right, std::size_t verb) {
  // I think; it seems; it is.
  if (right.size() <= 3 && is_remark_verb(right[verb].text)) return true;
  if (right.size() <= 2 && is_auxiliary(right.back().text)) return true;
  // He said, it is late.
  if (is_remark_verb(left.back().text)) return true;
  // The more we dig, the bigger it gets.
  if (right.size() > 1 && right[0].text == "the" &&
      (is_one_of(right[1].text, {"more", "less"}) ||
       right[1].text.ends_with("er"))) {
    return left.front().text == "the";
  }
  bool negative = false;
  for (const ClauseWord& word : left.subspan(1)) {
    // So wet, I ran home.
    if (is_one_of(word.text, {"so", "such"})) return true;
    negative = negative || word.text == "not" || word.text == "cannot" ||
               word.text.ends_with("n't") || word.text.ends_with("n’t");
  }
  // It is not big, it is huge.
  return negative && left.front().text == right.front().text;
}

}  // namespace

std::optional<CommaSplice> find_comma_splice(std::string_view sentence,
                                             const Phonics& phonics) {
  for (const std::string_view sign :
       {"\"", "“", "”", "‘", "«", "»", "?", ":", ";", "–", "—", "(", "…"}) {
    if (sentence.find(sign) != std::string_view::npos) return std::nullopt;
  }
  const std::size_t comma = sentence.find(", ");
  if (comma == std::string_view::npos ||
      sentence.find(',', comma + 1) != std::string_view::npos) {
    return std::nullopt;
  }
  std::vector<ClauseWord> words;
  std::size_t left_words = 0, second = 0;
  for (const WordPlace& place : words_in(sentence)) {
    if (place.begin < comma) ++left_words;
    if (place.begin > comma && second == 0) second = place.begin;
    const std::string_view word =
        sentence.substr(place.begin, place.end - place.begin);
    words.push_back({lower_case(word), word[0] >= 'A' && word[0] <= 'Z'});
  }
  if (left_words == 0 || second == 0) return std::nullopt;
  const Clause left = Clause(words).first(left_words);
  const Clause right = Clause(words).subspan(left_words);
  const ClauseFinder finder(phonics);
  const auto verb = finder.verb_of(right);
  if (!verb || !finder.verb_of(left) || may_be_right(left, right, *verb)) {
    return std::nullopt;
  }
  // One of a row: I chop, she stirs and he eats.
  for (std::size_t i = *verb + 1; i + 1 < right.size(); ++i) {
    if (is_one_of(right[i].text, {"and", "or", "but"}) &&
        finder.verb_of(right.subspan(i + 1))) {
      return std::nullopt;
    }
  }
  return CommaSplice{comma, second};
}

}  // namespace sheaf
