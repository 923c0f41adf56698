#include "analysis/learner_lesson.h"

#include <algorithm>

#include "analysis/warm_up.h"
#include "analysis/word_finder.h"
#include "base/shuffle.h"

namespace sheaf {

namespace {

// The words to keep, as places in the list: key words, then words of each
// pattern in turn, then the others.
std::vector<std::size_t> kept_words(const AnalyzedLesson& lesson,
                                    std::size_t amount) {
  std::vector<std::size_t> kept;
  const auto keep = [&](std::size_t word) {
    if (kept.size() < amount && std::ranges::find(kept, word) == kept.end()) {
      kept.push_back(word);
    }
  };
  for (const int key : lesson.key_words) {
    if (key >= 0) keep(static_cast<std::size_t>(key));
  }
  std::vector<std::vector<std::size_t>> by_pattern(lesson.patterns.size() + 1);
  for (std::size_t i = 0; i < lesson.words.size(); ++i) {
    const int pattern = lesson.words[i].pattern();
    by_pattern[pattern < 0 ? lesson.patterns.size()
                           : static_cast<std::size_t>(pattern)]
        .push_back(i);
  }
  const std::vector<std::size_t> others = std::move(by_pattern.back());
  by_pattern.pop_back();
  for (std::size_t turn = 0; turn < lesson.words.size(); ++turn) {
    for (const auto& words : by_pattern) {
      if (turn < words.size()) keep(words[turn]);
    }
  }
  for (const std::size_t word : others) keep(word);
  std::ranges::sort(kept);
  return kept;
}

// The dictation keeps words that are practised before others.
void shorten_dictation(AnalyzedLesson& lesson, std::size_t amount) {
  std::ranges::stable_partition(
      lesson.dictate_words, [&](const AnalyzedWord& word) {
        return std::ranges::any_of(lesson.words, [&](const AnalyzedWord& w) {
          return w.reading.word == word.reading.word;
        });
      });
  if (lesson.dictate_words.size() > amount) {
    lesson.dictate_words.resize(amount);
  }
}

bool shorten(AnalyzedLesson& lesson, std::size_t amount) {
  if (amount == 0 || amount >= lesson.words.size()) return false;
  const std::vector<std::size_t> kept = kept_words(lesson, amount);
  for (int& key : lesson.key_words) {
    const auto place =
        std::ranges::find(kept, static_cast<std::size_t>(std::max(key, 0)));
    const bool there = key >= 0 && place != kept.end();
    key = there ? static_cast<int>(place - kept.begin()) : -1;
  }
  std::vector<AnalyzedWord> words;
  for (const std::size_t i : kept) {
    words.push_back(std::move(lesson.words[i]));
  }
  lesson.words = std::move(words);
  shorten_dictation(lesson, amount);
  return true;
}

bool add_review_words(AnalyzedLesson& lesson,
                      const std::vector<PlacedWord>& wanted,
                      Diagnostics& diagnostics) {
  if (wanted.empty()) return false;
  WordFinder finder(*lesson.lesson, *lesson.phonics, lesson.conventions,
                    diagnostics, lesson.may_suggest);
  std::vector<AnalyzedWord> words;
  for (const PlacedWord& word : wanted) {
    words.push_back(finder.look_up({.spelling = word}));
    words.back().hits =
        find_hits(words.back().reading, lesson.patterns, *lesson.phonics);
  }
  lesson.warm_up = warm_up_of(lesson, words);
  if (words.size() > kWarmUpWords) words.resize(kWarmUpWords);
  for (AnalyzedWord& word : words) {
    lesson.dictate_words.push_back(std::move(word));
  }
  return true;
}

// Other words have another code.
std::string code_of_words(const AnalyzedLesson& own, const std::string& code) {
  std::uint64_t hash = text_hash(code);
  for (const auto* words : {&own.words, &own.dictate_words}) {
    for (const AnalyzedWord& w : *words) {
      hash = text_hash(w.spelling.value + " ", hash);
    }
  }
  return short_code(hash);
}

}  // namespace

AnalyzedLesson lesson_for(const AnalyzedLesson& lesson,
                          const LearnerNeeds& needs, Diagnostics& diagnostics) {
  AnalyzedLesson own = lesson;
  if (shorten(own, static_cast<std::size_t>(needs.amount))) {
    own.code = code_of_words(own, lesson.code);
  }
  if (!add_review_words(own, needs.review_words, diagnostics)) return own;
  if (needs.own) {
    // What is said to all of them at once.
    own.warm_up.to_say = lesson.warm_up.to_say;
    own.warm_up.to_hear = lesson.warm_up.to_hear;
  } else {
    own.code = code_of_words(own, lesson.code);
  }
  return own;
}

AnalyzedLesson shared_lesson(AnalyzedLesson base,
                             const std::vector<LearnersLesson>& learners) {
  const std::size_t of_all = base.dictate_words.size();
  for (const LearnersLesson& learner : learners) {
    const AnalyzedLesson& lesson = *learner.lesson;
    OwnWords own{learner.learner, lesson.warm_up.words, {}};
    if (lesson.dictate_words.size() > of_all) {
      own.dictated.assign(
          lesson.dictate_words.begin() + static_cast<std::ptrdiff_t>(of_all),
          lesson.dictate_words.end());
    }
    if (own.warm_up.size() > base.warm_up.words.size()) {
      base.warm_up.words = own.warm_up;
    }
    base.own_words.push_back(std::move(own));
  }
  return base;
}

}  // namespace sheaf
