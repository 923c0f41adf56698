#include "simulated_year.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "base/diagnostics.h"
#include "base/source.h"
#include "marking/calendar.h"
#include "marking/pattern_chance.h"
#include "marking/word_source.h"
#include "phonics/lexicon.h"

namespace sheaf::bench {

namespace {

constexpr Date kTaught{2026, 9, 11};  // the first Friday of the year
constexpr int kListed = 8;            // words of the list that have the pattern
constexpr std::string_view kLearner = "B7";

LearnerCode learner() { return LearnerCode::read(kLearner).value(); }

}  // namespace

// Steele, Lea and Flood 2014: SplitMix.
double Random::next() {
  state_ += 0x9e3779b97f4a7c15U;
  std::uint64_t z = state_;
  z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
  z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
  z ^= z >> 31U;
  return static_cast<double>(z >> 11U) * 0x1.0p-53;
}

YearPlan::YearPlan(int chances, int words_a_check) {
  const int first = std::min(kListed, chances);
  days.push_back({0, first});
  int left = chances - first;
  const int checks = (left + words_a_check - 1) / words_a_check;
  constexpr int kFrom = 14, kTo = 7 * (kWeeks - 1);
  for (int i = 0; i < checks; ++i) {
    const int words = std::min(left, words_a_check);
    const int day =
        checks == 1 ? kFrom : kFrom + (kTo - kFrom) * i / (checks - 1);
    days.push_back({day, words});
    left -= words;
  }
}

std::string missed(const std::string& word) {
  std::string text = word;
  const std::size_t place = text.find("ai");
  if (place != std::string::npos) text.replace(place, 2, "o");
  return text;
}

SimulatedYear::SimulatedYear(const Phonics& phonics, PatternId pattern,
                             const YearPlan& plan,
                             std::span<const std::string> words)
    : phonics_(phonics),
      spellings_(phonics.lexicon().inventory()),
      plan_(plan) {
  lesson_ = {.name = "ai", .patterns = {pattern}, .practised = {}};
  std::size_t next = 0;
  for (const YearPlan::Day& day : plan_.days) {
    std::vector<std::string> of_day;
    for (int i = 0; i < day.words; ++i) of_day.push_back(words[next++]);
    words_.push_back(std::move(of_day));
  }
  lesson_.practised = words_.front();
  for (std::size_t day = 0; day < words_.size(); ++day) {
    right_.push_back(marked(day, std::vector<bool>(words_[day].size(), true)));
    wrong_.push_back(marked(day, std::vector<bool>(words_[day].size(), false)));
  }
  drawn_ = right_;
}

SessionResult SimulatedYear::marked(std::size_t day,
                                    const std::vector<bool>& right) const {
  std::string text =
      fmt::format("date: {}\nkind: {}\nlesson: ai\nmarked: {}\n",
                  date_text(day_after(kTaught, plan_.days[day].day)),
                  day == 0 ? "dictation" : "retention", kLearner);
  std::string wrong;
  std::vector<DictatedItem> items;
  for (std::size_t i = 0; i < words_[day].size(); ++i) {
    const std::string& word = words_[day][i];
    items.push_back(dictated_item(word, phonics_));
    if (right[i]) continue;
    wrong +=
        fmt::format("{}{}: {}", wrong.empty() ? "" : ", ", word, missed(word));
  }
  if (!wrong.empty()) {
    text += fmt::format("wrong: {{{}: {{{}}}}}\n", kLearner, wrong);
  }
  const SourceFile file("record.yaml", text);
  Diagnostics diagnostics;
  const RecordFile records = read_record(file, diagnostics);
  if (diagnostics.has_errors() || records.records.size() != 1) {
    throw std::logic_error("a record of the simulation has errors");
  }
  return mark_session(records.records.front(), {}, std::move(items), spellings_,
                      phonics_, options_);
}

std::span<const SessionResult> SimulatedYear::draw(const TrueChance& chance,
                                                   Random& random) {
  was_right_.clear();
  for (std::size_t day = 0; day < drawn_.size(); ++day) {
    auto& words = drawn_[day].learners.front().words;
    std::vector<bool> right;
    for (std::size_t i = 0; i < words.size(); ++i) {
      right.push_back(random.next() < chance(plan_.days[day].day));
      const SessionResult& from = right.back() ? right_[day] : wrong_[day];
      words[i] = from.learners.front().words[i];
    }
    was_right_.push_back(std::move(right));
  }
  return drawn_;
}

std::vector<SessionResult> SimulatedYear::from_records() const {
  std::vector<SessionResult> sessions;
  for (std::size_t day = 0; day < was_right_.size(); ++day) {
    sessions.push_back(marked(day, was_right_[day]));
  }
  return sessions;
}

Date SimulatedYear::end() const {
  return day_after(kTaught, 7 * YearPlan::kWeeks);
}

std::vector<std::string> words_to_dictate(const Phonics& phonics,
                                          PatternId pattern,
                                          std::size_t count) {
  const SoundSpellings spellings(phonics.lexicon().inventory());
  std::vector<std::string> words;
  std::vector<ListedWord> listed = listed_words(phonics.lexicon());
  std::ranges::stable_sort(listed, {}, [](const ListedWord& word) {
    return word.tier == 0 ? 100 : word.tier;
  });
  for (const ListedWord& word : listed) {
    if (words.size() == count) break;
    if (word.spelling.find("ai") == std::string::npos) continue;
    if (word.spelling.find_first_of("'-. ") != std::string::npos) continue;
    // One session of this word alone, well written and missed.
    SessionResult session;
    session.items = {dictated_item(word.spelling, phonics)};
    const auto chances = [&](const std::string& written) {
      LearnerResult result{.code = learner()};
      result.words.push_back(
          {.attempt = mark_attempt(spellings, session.items[0].words, written,
                                   MarkingOptions{})});
      return chances_for(pattern, session, result, phonics.patterns());
    };
    const auto right = chances(word.spelling);
    const auto wrong = chances(missed(word.spelling));
    if (right.size() == 1 && wrong.size() == 1 && right[0].taken() &&
        !wrong[0].taken()) {
      words.push_back(word.spelling);
    }
  }
  return words;
}

}  // namespace sheaf::bench
