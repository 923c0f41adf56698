#include "service/word_facts.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "analysis/standing_reports.h"
#include "base/utf8.h"
#include "phonics/division.h"
#include "phonics/explain.h"
#include "phonics/pattern_text.h"
#include "sheets/long_words.h"

namespace sheaf {

SeenWord see_word(std::string_view spelling, const AnalyzedLesson* lesson,
                  const Phonics& phonics) {
  SeenWord seen{.phonics = lesson != nullptr ? lesson->phonics : &phonics,
                .lesson = lesson};
  const std::string wanted = lower_case(spelling);
  if (lesson != nullptr) {
    seen.conventions = lesson->conventions;
    bool found = false;
    each_word(*lesson, [&](const AnalyzedWord& word) {
      if (found || lower_case(word.reading.word) != wanted) return;
      seen.word = word;
      found = true;
    });
    if (found) return seen;
  }
  seen.word.reading =
      seen.phonics->read(normalized(spelling), seen.conventions).front();
  if (lesson != nullptr) {
    seen.word.standing = lesson->taught.standing(seen.word.reading);
    if (lesson->taught.is_sight_word(wanted)) {
      seen.word.standing.kind = WordStanding::Kind::sight_word;
    }
  }
  return seen;
}

std::string standing_of(const SeenWord& seen) {
  if (seen.lesson == nullptr || !seen.lesson->taught.known()) return "";
  switch (seen.word.standing.kind) {
    case WordStanding::Kind::decodable:
      return "decodable";
    case WordStanding::Kind::sight_word:
      return "by sight";
    case WordStanding::Kind::not_yet:
      return "not yet: " + why_not_yet(*seen.lesson, seen.word);
  }
  return "";
}

namespace {

// Where a word of several beats divides and why, then what each part is; parts
// of a kind stand together.
void add_division(const SeenWord& seen, std::vector<std::string>& lines) {
  AnalyzedWord word = seen.word;
  // Of a word in a sentence nobody has asked.
  if (word.parts.empty()) {
    word.parts = divide_word(word.reading, *seen.phonics);
  }
  if (word.parts.size() < 2) return;
  lines.push_back(fmt::format("syllables: {}; divided {}",
                              divided_text(word.reading, word.parts),
                              division_reasons(word)));
  for (const PartKind kind : kinds_of({&word})) {
    std::string parts;
    for (const WordPart& part : word.parts) {
      if (part.kind != kind) continue;
      parts += fmt::format("{}{}{}", parts.empty() ? "" : ", ",
                           part.of(word.reading.word),
                           part.weak ? " (its vowel is weak)" : "");
    }
    lines.push_back(
        fmt::format("{}: {}: {}", parts, kind_name(kind), kind_meaning(kind)));
  }
}

}  // namespace

std::vector<std::string> lines_about(const SeenWord& seen) {
  const Reading& reading = seen.word.reading;
  std::vector<std::string> lines = {
      fmt::format("`{}`: {}", reading.word, graphemes_text(reading)),
      fmt::format("sounds: {}", sounds_text(reading, seen.conventions)),
      fmt::format("boxes: {}", explain_boxes(reading, seen.conventions))};
  add_division(seen, lines);
  std::vector<std::string_view> patterns;
  for (const PatternPlace& place : reading.places) {
    patterns.push_back(seen.phonics->patterns()[place.pattern].name);
  }
  if (!patterns.empty()) {
    lines.push_back(fmt::format("patterns: {}", fmt::join(patterns, ", ")));
  }
  if (seen.lesson != nullptr && !seen.lesson->patterns.empty() &&
      find_hits(reading, seen.lesson->patterns, *seen.phonics).front().has ==
          false) {
    lines.push_back(fmt::format(
        "not {}: {}", seen.lesson->patterns.front().name,
        seen.phonics->why_not(reading, seen.lesson->patterns.front().id,
                              seen.conventions)));
  }
  if (std::string standing = standing_of(seen); !standing.empty()) {
    lines.push_back("can it be read: " + standing);
  }
  if (reading.origin == Reading::Origin::guess) {
    lines.push_back("Sheaf does not know this word: all of this is a guess");
    lines.push_back("to settle it, under `split:`: " + split_line(reading));
  }
  return lines;
}

std::vector<std::string> lines_about(PatternId pattern,
                                     const Phonics& phonics) {
  constexpr std::size_t kWords = 12, kMisses = 4;
  const Pattern& p = phonics.patterns()[pattern];
  std::vector<std::string> lines = {fmt::format("`{}`: {}", p.id, p.name)};
  if (!p.remark.empty()) lines.emplace_back(p.remark);
  if (const PatternText* text = find_pattern_text(p.id)) {
    lines.push_back(fmt::format("the rule: {}", text->teacher));
    lines.push_back(fmt::format("set it beside: {}", text->compare));
  }
  lines.push_back(
      fmt::format("words that have it: {}",
                  fmt::join(phonics.words_with(pattern, kWords), " ")));
  for (const NearMiss& miss : phonics.near_misses(pattern, kMisses)) {
    lines.push_back(fmt::format("not {}: {}", miss.word, miss.why_not));
  }
  return lines;
}

}  // namespace sheaf
