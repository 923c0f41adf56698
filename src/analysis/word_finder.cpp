#include "analysis/word_finder.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/nearest.h"
#include "base/utf8.h"
#include "base/written_text.h"
#include "phonics/explain.h"
#include "phonics/letter_map.h"

namespace sheaf {

WordFinder::WordFinder(const Lesson& lesson, const Phonics& phonics,
                       const Conventions& conventions, Diagnostics& diagnostics,
                       WordTest may_suggest)
    : phonics_(phonics),
      diagnostics_(diagnostics),
      conventions_(conventions),
      may_suggest_(std::move(may_suggest)) {
  for (const LessonSplit& split : lesson.splits) {
    splits_.emplace(lower_case(split.word.value), &split);
  }
  for (const PlacedWord& word : lesson.sight_words) {
    sight_words_.insert(lower_case(word.value));
  }
}

AnalyzedWord WordFinder::look_up(const LessonWord& word) {
  return {.spelling = word.spelling, .reading = read(word)};
}

bool WordFinder::is_sight_word(std::string_view word) const {
  return sight_words_.contains(lower_case(word));
}

Reading WordFinder::read(const LessonWord& word) {
  const std::string key = lower_case(word.spelling.value);
  if (!word.graphemes.empty()) {
    std::vector<HandUnit> parts;
    std::vector<Span> places;
    for (const PlacedWord& g : word.graphemes) {
      parts.push_back({lower_case(g.value), ""});
      places.push_back(g.span);
    }
    return read_by_hand(word.spelling, parts, places);
  }
  if (const auto found = splits_.find(key); found != splits_.end()) {
    used_splits_.insert(key);
    const LessonSplit& split = *found->second;
    if (!split.division.empty()) return read_divided(word.spelling, split);
    std::vector<HandUnit> parts;
    std::vector<Span> places;
    for (const LessonSplit::Part& part : split.parts) {
      parts.push_back({lower_case(part.grapheme.value),
                       part.sound ? part.sound->value : ""});
      places.push_back(part.grapheme.span);
    }
    Reading reading = read_by_hand(word.spelling, parts, places);
    if (reading.units.size() != split.parts.size()) return reading;
    for (std::size_t i = 0; i < split.parts.size(); ++i) {
      if (!split.parts[i].begins_beat) continue;
      reading.parted.push_back(reading.units[i].begin);
    }
    return reading;
  }
  return read_usual(word.spelling);
}

Reading WordFinder::read_usual(const PlacedWord& spelling) {
  const auto reading = phonics_.first_reading(spelling.value, conventions_);
  if (reading->origin == Reading::Origin::guess) {
    warn_of_guess(spelling, *reading);
  }
  return *reading;
}

Reading WordFinder::read_divided(const PlacedWord& spelling,
                                 const LessonSplit& split) {
  Reading reading = read_usual(spelling);
  const LetterMap map = map_letters(reading.word);
  for (const std::size_t letters : split.division) {
    if (letters < map.begins.size()) {
      reading.parted.push_back(map.begins[letters]);
    }
  }
  return reading;
}

Reading WordFinder::read_by_hand(const PlacedWord& spelling,
                                 const std::vector<HandUnit>& parts,
                                 const std::vector<Span>& places) {
  HandReading result =
      phonics_.read_by_hand(spelling.value, parts, conventions_);
  if (result.fault.empty()) return std::move(result.reading);
  const bool has_part =
      result.part >= 0 && static_cast<std::size_t>(result.part) < places.size();
  diagnostics_.error(
      diagnostic::bad_split,
      has_part ? places[static_cast<std::size_t>(result.part)] : spelling.span,
      fmt::format("the graphemes of {} do not fit: {}",
                  as_written(spelling.value), result.fault),
      "divide the word into graphemes that make it up, such as `sh e d`, or "
      "`sh a_e k` for shake");
  return phonics_.read(spelling.value, conventions_).front();
}

void WordFinder::warn_of_guess(const PlacedWord& spelling,
                               const Reading& reading) {
  if (!spoken_of_.insert(lower_case(spelling.value)).second) return;
  const std::vector<std::string> words =
      phonics_.meant_words(spelling.value, may_suggest_);
  const std::vector<std::string_view> meant(words.begin(), words.end());
  Help question = ask_for(spelling.value, meant);
  diagnostics_.warning(
      diagnostic::unknown_word, spelling.span,
      fmt::format("{} is not in the word list; its graphemes are a guess: {}",
                  as_written(spelling.value), written(graphemes_text(reading))),
      question.empty()
          ? Help(fmt::format("if the guess is right, put the line `{}` under "
                             "`split:`; if not, correct it there",
                             written(split_line(reading))))
          : Help(fmt::format(
                     "{} If not, put the line `{}` under `split:` if the "
                     "guess is right, or correct it there",
                     question.text, written(split_line(reading))),
                 std::move(question.fixes)));
}

void WordFinder::report_unused_splits() {
  for (const auto& [word, split] : splits_) {
    if (used_splits_.contains(word)) continue;
    diagnostics_.warning(
        diagnostic::unused_split, split->word.span,
        fmt::format("`split:` has {}, which the lesson does not use",
                    as_written(split->word.value)),
        "take the line out, or check how the word is written elsewhere");
  }
}

}  // namespace sheaf
