#include "analysis/function_words.h"

#include <algorithm>
#include <initializer_list>

namespace sheaf {

namespace {

using Words = std::initializer_list<std::string_view>;

bool has(Words words, std::string_view word) {
  return std::ranges::find(words, word) != words.end();
}

// isn't, can’t: without the ending.
std::string_view without_not(std::string_view word) {
  for (const std::string_view end : {"n't", "n’t"}) {
    if (word.ends_with(end)) return word.substr(0, word.size() - end.size());
  }
  return word;
}

}  // namespace

bool is_determiner(std::string_view word) {
  return has({"the",   "a",    "an",    "my",    "your",    "his",   "her",
              "its",   "our",  "their", "this",  "that",    "these", "those",
              "some",  "any",  "each",  "every", "no",      "both",  "all",
              "one",   "two",  "three", "four",  "five",    "six",   "seven",
              "eight", "nine", "ten",   "many",  "another", "most"},
             word);
}

bool is_subject_pronoun(std::string_view word) {
  return has({"i", "he", "she", "it", "we", "they", "you", "there", "everyone",
              "everybody", "nobody", "someone", "somebody", "nothing",
              "everything", "something"},
             word);
}

bool is_object_pronoun(std::string_view word) {
  return has({"me", "him", "it", "us", "them", "you", "her"}, word);
}

bool is_preposition(std::string_view word) {
  return has(
      {"in",     "on",      "at",      "by",      "with",   "from",   "of",
       "to",     "for",     "into",    "onto",    "under",  "over",   "up",
       "down",   "off",     "out",     "past",    "across", "around", "about",
       "after",  "before",  "near",    "through", "behind", "along",  "without",
       "inside", "outside", "between", "against"},
      word);
}

bool is_form_of_be(std::string_view word) {
  return has({"is", "are", "was", "were", "am", "be", "been"},
             without_not(word));
}

bool is_modal(std::string_view word) {
  return has({"can", "could", "will", "would", "shall", "should", "may",
              "might", "must", "cannot", "ca", "wo"},
             without_not(word));
}

bool is_auxiliary(std::string_view word) {
  const std::string_view plain = without_not(word);
  return (is_form_of_be(word) && plain != "be" && plain != "been") ||
         is_modal(word) ||
         has({"has", "have", "had", "does", "do", "did"}, plain);
}

bool is_mid_adverb(std::string_view word) {
  return has({"not", "never", "always", "just", "also", "still", "really",
              "often", "soon", "then", "now", "only", "even", "all", "both"},
             word);
}

bool is_opener(std::string_view word) {
  return has(
      {"when",      "if",      "after",    "because",  "as",       "while",
       "since",     "until",   "till",     "unless",   "once",     "though",
       "although",  "where",   "wherever", "whenever", "whatever", "whoever",
       "whichever", "however", "even",     "now",      "before",   "and",
       "but",       "or",      "so",       "yet",      "nor",      "for",
       "then",      "who",     "which",    "what",     "whose",    "how",
       "why",       "yes",     "no",       "well",     "oh",       "ah",
       "please",    "first",   "next",     "last",     "here",     "than",
       "like",      "with",    "let",      "let's",    "not",      "just",
       "more",      "less",    "had",      "were",     "should"},
      word);
}

bool is_subject_with_verb(std::string_view word) {
  for (const std::string_view sign : {"'", "’"}) {
    const std::size_t at = word.find(sign);
    if (at == std::string_view::npos) continue;
    const std::string_view subject = word.substr(0, at);
    return (is_subject_pronoun(subject) || subject == "that") &&
           has({"s", "m", "re", "ve", "ll", "d"},
               word.substr(at + sign.size()));
  }
  return false;
}

}  // namespace sheaf
