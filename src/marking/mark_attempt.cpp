#include "marking/mark_attempt.h"

#include <algorithm>
#include <array>
#include <cassert>

#include <fmt/format.h>

#include "base/utf8.h"
#include "marking/grapheme_alignment.h"
#include "marking/grapheme_costs.h"
#include "marking/sound_distance.h"
#include "marking/written_word.h"

namespace sheaf {
namespace {

using Kind = AlignedGrapheme::Kind;

// Letters that are another one turned or mirrored.
constexpr std::array<std::string_view, 8> kTurned = {"bd", "bp", "dq", "pq",
                                                     "nu", "mw", "hn", "tf"};

bool is_turned(std::string_view a, std::string_view b) {
  if (a.size() != 1 || b.size() != 1 || a == b) return false;
  return std::ranges::any_of(kTurned, [&](std::string_view pair) {
    return pair.find(a[0]) != std::string_view::npos &&
           pair.find(b[0]) != std::string_view::npos;
  });
}

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

GraphemeResult result_of(Kind kind) {
  switch (kind) {
    case Kind::exact:
      return GraphemeResult::correct;
    case Kind::plausible:
      return GraphemeResult::plausible;
    case Kind::wrong:
      return GraphemeResult::wrong;
    case Kind::missing:
      return GraphemeResult::missing;
    case Kind::moved:
      return GraphemeResult::moved;
  }
  return GraphemeResult::missing;
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

constexpr std::string_view kVowelLetters = "aeiouy";

Cause cause_of_plausible(const TargetUnit& unit, const AlignedGrapheme& found,
                         std::string_view span) {
  if (found.by_speech) return Cause::own_speech;
  if (unit.ending_ed) return Cause::ending_by_sound;
  if (unit.doubled_for_ending && span.size() == 1) return Cause::doubling;
  if (unit.y_to_i && span.starts_with('y')) return Cause::y_to_i;
  return found.fit == Fit::usual ? Cause::other_spelling : Cause::not_used_here;
}

Cause cause_of_wrong(const TargetUnit& unit, const AlignedGrapheme& found,
                     const WrittenGraphemes& written) {
  const std::string_view span =
      written.letters().substr(found.begin, found.end - found.begin);
  if (is_turned(span, unit.grapheme)) return Cause::turned_letter;
  if (unit.y_to_i && span.starts_with('y')) return Cause::y_to_i;
  if (written.best_fit(unit, found.begin, found.end) != Fit::never) {
    return Cause::reads_otherwise;
  }
  return written.distance(unit, found.begin, found.end) <= kNearSound
             ? Cause::near_sound
             : Cause::sound_lost;
}

Cause cause_of(const TargetUnit& unit, const AlignedGrapheme& found,
               const WrittenGraphemes& written) {
  switch (found.kind) {
    case Kind::exact:
      return Cause::none;
    case Kind::plausible:
      return cause_of_plausible(
          unit, found,
          written.letters().substr(found.begin, found.end - found.begin));
    case Kind::wrong:
      return cause_of_wrong(unit, found, written);
    case Kind::missing:
      return Cause::left_out;
    case Kind::moved:
      return Cause::order;
  }
  return Cause::none;
}

std::vector<ExtraLetter> extras_of(std::span<const TargetUnit> target,
                                   const GraphemeAlignment& a,
                                   std::string_view letters) {
  std::vector<ExtraLetter> extras;
  for (const std::size_t at : a.extra) {
    ExtraLetter extra{letters[at], target.size(), Cause::extra_letter};
    for (std::size_t i = target.size(); i-- > 0;) {
      if (a.units[i].kind != Kind::missing && a.units[i].begin > at) {
        extra.before = i;
      }
    }
    const bool kept_e = extra.letter == 'e' && extra.before > 0 &&
                        target[extra.before - 1].dropped_e_before_ending;
    if (kept_e) extra.cause = Cause::dropped_e;
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
      "none",       "other-spelling", "not-used-here", "reads-otherwise",
      "near-sound", "sound-lost",     "own-speech",    "ending-by-sound",
      "doubling",   "dropped-e",      "y-to-i",        "turned-letter",
      "left-out",   "order",          "extra-letter"};
  return kNames[static_cast<std::size_t>(cause)];
}

int MarkedAttempt::count(GraphemeResult result) const {
  return static_cast<int>(
      std::ranges::count(graphemes, result, &MarkedGrapheme::result));
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
  for (std::size_t i = 0; i < units.size(); ++i) {
    const AlignedGrapheme& found = alignment.units[i];
    const Cause cause = cause_of(units[i], found, graphemes);
    // One letter for two before an ending says the sound, but makes the vowel
    // before it long: hoping is another word, and stopt is none.
    const bool vowel_changes =
        cause == Cause::doubling && found.end < word.letters.size() &&
        kVowelLetters.find(word.letters[found.end]) != std::string_view::npos;
    const GraphemeResult result =
        vowel_changes ? GraphemeResult::wrong : result_of(found.kind);
    marked.graphemes.push_back(
        {units[i].grapheme, result, cause, written_for(found, word)});
  }
  marked.extra = extras_of(units, alignment, word.letters);
  marked.sequences = letter_sequences(meant.signs, word.signs);
  marked.blank = word.blank();
  marked.right = !marked.blank && word.signs == meant.signs;
  marked.only_marks_wrong =
      !marked.right && word.letters == meant.letters && !marked.blank;
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
