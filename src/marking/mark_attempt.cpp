#include "marking/mark_attempt.h"

#include <algorithm>
#include <array>
#include <cassert>

#include <fmt/format.h>

#include "base/utf8.h"
#include "marking/attempt_causes.h"
#include "marking/written_word.h"

namespace sheaf {
namespace {

using Kind = AlignedGrapheme::Kind;

// What was written for a grapheme, as people write it: figures and other signs
// are themselves.
std::string written_for(const AlignedGrapheme& unit, const WrittenWord& word) {
  const std::string_view letters = word.letters;
  const std::string_view before = letters.substr(0, unit.begin);
  auto other = static_cast<std::size_t>(std::ranges::count(before, '#'));
  std::string text;
  for (const char c : letters.substr(unit.begin, unit.end - unit.begin)) {
    if (c == '#' && other < word.others.size()) {
      text += word.others[other++];
    } else {
      text += c;
    }
  }
  if (unit.split_e >= 0) text += "_e";
  return text;
}

std::string letters_of(const TargetUnit& unit) {
  std::string letters;
  for (const char c : unit.grapheme) {
    if (c != '_') letters += c;
  }
  return letters;
}

// Graphemes that changed places over a distance: saw for was.
void find_trades(std::span<const TargetUnit> target, std::string_view letters,
                 GraphemeAlignment& a) {
  const auto span = [&](const AlignedGrapheme& u) {
    return letters.substr(u.begin, u.end - u.begin);
  };
  for (std::size_t i = 0; i < target.size(); ++i) {
    for (std::size_t k = i + 1; k < target.size(); ++k) {
      AlignedGrapheme &one = a.units[i], &other = a.units[k];
      if (one.kind != Kind::wrong || other.kind != Kind::wrong) continue;
      if (span(one) == target[k].grapheme &&
          span(other) == target[i].grapheme) {
        one.kind = other.kind = Kind::moved;
      }
    }
  }
}

// A grapheme that is missing in its place and there as extra letters: tops
// for stop.
void find_strays(std::span<const TargetUnit> target, std::string_view letters,
                 GraphemeAlignment& a) {
  for (std::size_t i = 0; i < target.size(); ++i) {
    if (a.units[i].kind != Kind::missing || target[i].split) continue;
    const std::string& meant = target[i].grapheme;
    for (std::size_t at = 0; at + meant.size() <= a.extra.size(); ++at) {
      const std::size_t begin = a.extra[at];
      const std::size_t last = a.extra[at + meant.size() - 1];
      if (last - begin + 1 != meant.size() ||
          letters.substr(begin, meant.size()) != meant) {
        continue;
      }
      a.units[i].kind = Kind::moved;
      a.units[i].begin = begin;
      a.units[i].end = last + 1;
      const auto first = a.extra.begin() + static_cast<std::ptrdiff_t>(at);
      a.extra.erase(first, first + static_cast<std::ptrdiff_t>(meant.size()));
      break;
    }
  }
}

// All letters of the word and no others: what is not in its place has moved.
void find_scramble(std::span<const TargetUnit> target, std::string_view letters,
                   GraphemeAlignment& a) {
  std::string meant;
  for (const TargetUnit& unit : target) meant += letters_of(unit);
  if (meant.size() != letters.size() ||
      !std::is_permutation(meant.begin(), meant.end(), letters.begin())) {
    return;
  }
  const bool mirrored =
      std::equal(meant.begin(), meant.end(), letters.rbegin());
  for (AlignedGrapheme& unit : a.units) {
    if (unit.kind == Kind::wrong || unit.kind == Kind::missing ||
        (mirrored && unit.kind == Kind::plausible)) {
      unit.kind = Kind::moved;
    }
  }
  a.extra.clear();
}

std::vector<ExtraLetter> extras_of(const LaidAttempt& attempt) {
  const std::span<const TargetUnit> target = attempt.target;
  const GraphemeAlignment& a = attempt.alignment;
  std::vector<ExtraLetter> extras;
  for (const std::size_t at : a.extra) {
    ExtraLetter extra{attempt.written.letters()[at], target.size(),
                      Cause::extra_letter};
    for (std::size_t i = target.size(); i-- > 0;) {
      if (a.units[i].kind != Kind::missing && a.units[i].begin > at) {
        extra.before = i;
      }
    }
    extra.cause = cause_of_extra(attempt, at, extra.before);
    extras.push_back(extra);
  }
  return extras;
}

bool begins_with_capital(std::string_view word) {
  std::size_t offset = 0;
  return !word.empty() && is_upper_case(next_code_point(word, offset));
}

}  // namespace

std::string_view result_name(GraphemeResult result) {
  constexpr std::array<std::string_view, 5> kNames = {
      "correct", "plausible", "wrong", "missing", "moved"};
  return kNames[static_cast<std::size_t>(result)];
}

std::string_view cause_name(Cause cause) {
  constexpr std::array<std::string_view, kCauseCount> kNames = {
      "none",
      "other-spelling",
      "not-used-here",
      "reads-otherwise",
      "changes-vowel",
      "near-sound",
      "sound-lost",
      "own-speech",
      "ending-by-sound",
      "doubling",
      "dropped-e",
      "y-to-i",
      "turned-letter",
      "left-out",
      "no-vowel",
      "order",
      "extra-letter"};
  return kNames[static_cast<std::size_t>(cause)];
}

int MarkedAttempt::count(GraphemeResult result) const {
  return static_cast<int>(
      std::ranges::count(graphemes, result, &MarkedGrapheme::result));
}

MarkingOptions options_for(const MarkingOptions& options,
                           const LearnerCode& learner) {
  const auto own = options.of_learners.find(learner);
  return {
      .speech = own == options.of_learners.end() ? options.speech : own->second,
      .is_word = options.is_word,
      .is_common_word = options.is_common_word};
}

MarkedAttempt mark_attempt(const SoundSpellings& spellings,
                           const Reading& target, std::string_view written,
                           const MarkingOptions& options) {
  const WrittenWord word = read_written(written);
  const WrittenWord meant = read_written(target.word);
  const std::vector<TargetUnit> units =
      target_units(target, options.speech, options.is_word);
  const WrittenGraphemes graphemes(spellings, word.letters, options.speech);
  GraphemeAlignment alignment = align_graphemes(graphemes, units);

  MarkedAttempt marked;
  marked.cost = alignment.cost;
  find_trades(units, word.letters, alignment);
  find_strays(units, word.letters, alignment);
  find_scramble(units, word.letters, alignment);

  marked.target = target.word;
  marked.written = written;
  const LaidAttempt laid{units, alignment, graphemes};
  for (std::size_t i = 0; i < units.size(); ++i) {
    const auto [result, cause] = judge_unit(laid, i);
    marked.graphemes.push_back({units[i].grapheme, result, cause,
                                written_for(alignment.units[i], word)});
  }
  marked.extra = extras_of(laid);
  marked.sequences = letter_sequences(meant.signs, word.signs);
  marked.blank = word.blank();
  marked.right = !marked.blank && word.signs == meant.signs;
  marked.only_marks_wrong =
      !marked.right && word.letters == meant.letters && !marked.blank;
  marked.other_word = !marked.right && !marked.only_marks_wrong &&
                      options.is_common_word &&
                      options.is_common_word(word.signs);
  marked.capital_missing =
      begins_with_capital(target.word) && !word.capital && !marked.blank;
  return marked;
}

MarkedAttempt mark_attempt(const SoundSpellings& spellings,
                           std::span<const Reading> readings,
                           std::string_view written,
                           const MarkingOptions& options) {
  assert(!readings.empty());
  MarkedAttempt best = mark_attempt(spellings, readings[0], written, options);
  for (const Reading& reading : readings.subspan(1)) {
    if (best.cost == 0) break;
    MarkedAttempt other = mark_attempt(spellings, reading, written, options);
    if (other.cost < best.cost) best = std::move(other);
  }
  return best;
}

std::string labels_text(const MarkedAttempt& attempt) {
  constexpr std::string_view kLetters = "CPWMO";
  std::string text;
  for (const MarkedGrapheme& g : attempt.graphemes) {
    if (!text.empty()) text += ' ';
    text += kLetters[static_cast<std::size_t>(g.result)];
  }
  if (!attempt.extra.empty()) {
    text += fmt::format(" +{}", attempt.extra.size());
  }
  return text;
}

}  // namespace sheaf
