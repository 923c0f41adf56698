#include "cli/draft_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "planning/contrast.h"
#include "planning/fill_sentences.h"
#include "planning/key_word_choice.h"
#include "planning/lesson_text.h"

namespace sheaf {

namespace {

constexpr std::size_t kWords = 10;
constexpr std::size_t kToDictate = 4;

// As it can stand after a key: an id with no sign that the file would read as
// its own.
std::string name_of(const Pattern& pattern) { return std::string(pattern.id); }

struct Chosen {
  std::vector<std::string> words;
  std::vector<std::string> exceptions;  // to the rule of a contrast
  // The lesson takes that of its sequence of itself.
  std::string key_of_sequence;
};

// The query for words that have one of the patterns and none of the others.
WordQuery query_for(const std::vector<PatternId>& patterns, std::size_t index) {
  WordQuery query;
  query.pattern = patterns[index];
  for (const PatternId other : patterns) {
    if (other != query.pattern) query.without.push_back(other);
  }
  return query;
}

// The words in `first` are taken before others.
Chosen choose(const SearchGround& source,
              const std::vector<PatternId>& patterns, std::size_t count,
              const std::vector<std::string>& first,
              std::set<std::string, std::less<>>& used) {
  Chosen chosen;
  std::vector<std::string> preferred = first;
  if (patterns.size() == 2) {
    WordQuery query;
    query.pattern = patterns[0];
    query.count = count / 2;
    query.leave_out = used;
    const auto pairs = words_of(contrast_pairs(source, query, patterns[1]));
    preferred.insert(preferred.end(), pairs.begin(), pairs.end());
  }
  for (std::size_t i = 0; i < patterns.size(); ++i) {
    WordQuery query = query_for(patterns, i);
    query.count =
        count * (i + 1) / patterns.size() - count * i / patterns.size();
    query.leave_out = used;
    const auto keys = source.taught.key_words(source.taught.stage(patterns[i]));
    query.prefer.assign(keys.begin(), keys.end());
    query.prefer.insert(query.prefer.end(), preferred.begin(), preferred.end());
    for (const FoundWord& word : find_words(source, query)) {
      chosen.words.push_back(word.reading->word);
      if (word.fit == ContrastFit::breaks) {
        chosen.exceptions.push_back(word.reading->word);
      }
      used.insert(word.reading->word);
      if (chosen.key_of_sequence.empty() &&
          std::ranges::find(keys, word.reading->word) != keys.end()) {
        chosen.key_of_sequence = word.reading->word;
      }
    }
  }
  return chosen;
}

// A lesson of these words with the sentences and the passage that Sheaf would
// choose for it.
Lesson with_sentences(const SearchGround& source,
                      const std::vector<PatternId>& patterns,
                      const std::vector<std::string>& words) {
  Lesson lesson;
  for (const PatternId id : patterns) {
    lesson.patterns.push_back(
        {.value = name_of(source.phonics.patterns()[id])});
  }
  for (const std::string& word : words) {
    lesson.words.push_back({.spelling = {.value = word}});
  }
  Diagnostics unheard;
  fill_sentences(lesson, source, patterns, true, unheard);
  return lesson;
}

}  // namespace

Draft draft_lesson(const SearchGround& source,
                   const std::vector<PatternId>& patterns,
                   const std::string& sequence) {
  std::set<std::string, std::less<>> used;
  // A lesson names one; for its other patterns it takes the likeliest of the
  // list, where the best is too.
  std::vector<KeyWordChoice> keys;
  std::vector<std::string> key_words;
  for (std::size_t i = 0; i < patterns.size(); ++i) {
    keys.push_back(choose_key_word(source, query_for(patterns, i)));
    if (!keys.back().word.empty()) key_words.push_back(keys.back().word);
  }
  const Chosen words = choose(source, patterns, kWords, key_words, used);
  Chosen dictate = choose(source, patterns, kToDictate, {}, used);
  const std::size_t practised = std::min(kToDictate, words.words.size());
  dictate.words.insert(
      dictate.words.begin(), words.words.begin(),
      words.words.begin() + static_cast<std::ptrdiff_t>(practised));

  Draft draft;
  draft.words = words.words.size();
  std::string names, titles;
  for (const PatternId id : patterns) {
    const Pattern& pattern = source.phonics.patterns()[id];
    names += (names.empty() ? "" : ", ") + name_of(pattern);
    titles += (titles.empty() ? "" : "; ") + std::string(pattern.name);
    draft.name += (draft.name.empty() ? "" : "-") + name_of(pattern);
  }
  std::ranges::replace(draft.name, '_', '-');
  const bool has_key =
      !patterns.empty() && words.key_of_sequence.empty() &&
      std::ranges::find(words.words, keys.front().word) != words.words.end();
  const std::string word = has_key ? keys.front().word
                           : !words.key_of_sequence.empty()
                               ? words.key_of_sequence
                           : words.words.empty() ? ""
                                                 : words.words.front();
  if (!word.empty()) draft.name += "-" + word;

  std::string& text = draft.text;
  text = fmt::format(
      "# A draft by Sheaf for {}. Read the words: which does "
      "your group know?\npattern: {}\n",
      titles, names);
  if (!sequence.empty()) {
    text += fmt::format("sequence: {}\n", sequence);
    if (source.taught.step() >= 0) {
      const auto step = static_cast<std::size_t>(source.taught.step());
      text += fmt::format("step: {}\n", source.taught.steps()[step].number);
    }
  }
  text += words.words.empty()
              ? std::string(
                    "# Sheaf found no word that can be read at this "
                    "step.\n# words:\n")
              : fmt::format("words: {}\n", fmt::join(words.words, " "));
  if (!words.exceptions.empty()) {
    text += fmt::format(
        "# Exceptions to the rule by which these are told apart: "
        "{}.\n",
        fmt::join(words.exceptions, " "));
  }
  if (has_key) {
    text += fmt::format("# It {}.\nkey-word: {}\n",
                        keys.front().picture
                            ? "has a picture and stands for the sound"
                            : "stands for the sound; it has no picture",
                        keys.front().word);
  }
  const Lesson chosen = with_sentences(source, patterns, words.words);
  draft.sentences = chosen.sentences.size();
  if (chosen.sentences.empty()) {
    text +=
        "# Six or more sentences to read, one on each line. Remove the # from\n"
        "# the next two lines and write; `sheaf check` counts the words of "
        "the\n"
        "# list and says which words were not taught yet.\n"
        "# sentences: |\n"
        "#   \n";
  } else {
    text += "# Read aloud before you print; `sheaf find` shows others.\n" +
            sentences_text("sentences", chosen.sentences);
  }
  if (!chosen.passage.paragraphs.empty()) {
    text += passage_text(chosen.passage);
  }
  if (!dictate.words.empty()) {
    text += fmt::format(
        "# Four from the list, and new ones with the same pattern.\n"
        "dictate-words: {}\n",
        fmt::join(dictate.words, " "));
  }
  text += "# Not the sentences to read, or learners write them from memory.\n";
  text += chosen.dictate_sentences.empty()
              ? std::string("# dictate-sentences: |\n#   \n")
              : sentences_text("dictate-sentences", chosen.dictate_sentences);
  text +=
      "# Words known by sight although they cannot be sounded out yet.\n"
      "# sight-words: the a is\n";
  return draft;
}

}  // namespace sheaf
