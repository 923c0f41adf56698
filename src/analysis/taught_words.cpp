#include "analysis/taught_words.h"

#include <algorithm>

#include "analysis/pattern_names.h"
#include "base/shuffle.h"

namespace sheaf {

namespace {

constexpr std::size_t kMostTaughtPatterns = 12;

std::vector<PatternId> patterns_before(const AnalyzedLesson& lesson) {
  std::vector<PatternId> before;
  const auto add = [&](PatternId id) {
    if (std::ranges::find(lesson.patterns, id, &LessonPattern::id) ==
            lesson.patterns.end() &&
        std::ranges::find(before, id) == before.end()) {
      before.push_back(id);
    }
  };
  const Taught& taught = lesson.taught;
  for (const int step : taught.due_steps()) {
    for (const PatternId id : taught.patterns_of(step)) add(id);
  }
  for (int step = taught.step() - 1; step >= 0; --step) {
    for (const PatternId id : taught.patterns_of(step)) add(id);
  }
  Diagnostics unheard;  // they were looked up before
  const auto named =
      find_patterns(lesson.lesson->taught, *lesson.phonics, unheard);
  for (auto name = named.rbegin(); name != named.rend(); ++name) add(name->id);
  if (before.size() > kMostTaughtPatterns) before.resize(kMostTaughtPatterns);
  return before;
}

// Those that children know first at the end, from where they are taken.
std::vector<std::string> words_of_pattern(const AnalyzedLesson& lesson,
                                          PatternId pattern) {
  std::vector<std::string> words, first;
  for (const PatternWord& word :
       lesson.phonics->everyday_pattern_words(pattern, lesson.conventions)) {
    if (word.later || word.readings || word.unsure || word.affix) {
      continue;
    }
    (word.info.first ? first : words).push_back(word.word);
  }
  Random random(text_hash(lesson.phonics->patterns()[pattern].id,
                          text_hash("taught words", lesson.seed)));
  shuffle(words, random);
  shuffle(first, random);
  words.insert(words.end(), first.begin(), first.end());
  return words;
}

class TaughtWordTaker {
 public:
  explicit TaughtWordTaker(const AnalyzedLesson& lesson) : lesson_(lesson) {}

  // The next word of a list, from its end, that will do.
  bool take_from(std::vector<std::string>& list) {
    while (!list.empty()) {
      const std::string word = std::move(list.back());
      list.pop_back();
      if (is_used(word)) continue;
      if (lesson_.may_suggest && !lesson_.may_suggest(word)) continue;
      AnalyzedWord taken;
      taken.spelling.value = word;
      taken.reading =
          *lesson_.phonics->first_reading(word, lesson_.conventions);
      if (!lesson_.taught.is_decodable(taken.reading)) continue;
      taken.hits = find_hits(taken.reading, lesson_.patterns, *lesson_.phonics);
      if (taken.has_pattern()) continue;
      words_.push_back(std::move(taken));
      return true;
    }
    return false;
  }

  std::vector<AnalyzedWord> take() { return std::move(words_); }
  std::size_t size() const { return words_.size(); }

 private:
  bool is_used(const std::string& word) const {
    const auto is_it = [&](const AnalyzedWord& other) {
      return other.reading.word == word;
    };
    return std::ranges::any_of(lesson_.words, is_it) ||
           std::ranges::any_of(words_, is_it);
  }

  const AnalyzedLesson& lesson_;
  std::vector<AnalyzedWord> words_;
};

}  // namespace

std::vector<AnalyzedWord> taught_words(const AnalyzedLesson& lesson,
                                       std::size_t most) {
  std::vector<std::vector<std::string>> lists;
  for (const PatternId id : patterns_before(lesson)) {
    lists.push_back(words_of_pattern(lesson, id));
  }
  TaughtWordTaker taker(lesson);
  for (bool found = true; found && taker.size() < most;) {
    found = false;
    for (auto& list : lists) {
      if (taker.size() < most) found = taker.take_from(list) || found;
    }
  }
  return taker.take();
}

}  // namespace sheaf
