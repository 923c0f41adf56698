#include "marking/score_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace sheaf {

std::string_view cause_words(Cause cause) {
  constexpr std::array<std::string_view, kCauseCount> kWords = {
      "",
      "sound kept, spelled in a way that is used there",
      "sound kept, in a way not used there",
      "says that sound only in other places",
      "the vowel before it is read differently",
      "a near sound",
      "sound lost",
      "follows how they speak",
      "ending written as it sounds",
      "doubling",
      "the e before an ending",
      "y and i before an ending",
      "letter turned round",
      "left out",
      "a beat without a vowel letter",
      "letters out of order",
      "letter too many"};
  return kWords[static_cast<std::size_t>(cause)];
}

namespace {

std::string fault_text(const MarkedGrapheme& g) {
  switch (g.result) {
    case GraphemeResult::correct:
      return {};
    case GraphemeResult::missing:
      return g.cause == Cause::left_out
                 ? fmt::format("{} missing", g.grapheme)
                 : fmt::format("{} missing ({})", g.grapheme,
                               cause_words(g.cause));
    case GraphemeResult::moved:
      return fmt::format("{} moved ({})", g.grapheme, cause_words(g.cause));
    case GraphemeResult::plausible:
    case GraphemeResult::wrong:
      break;
  }
  const std::string how =
      fmt::format("{} ({})", result_name(g.result), cause_words(g.cause));
  if (g.cause == Cause::own_speech && g.written.empty()) {
    return fmt::format("{} not written, {}", g.grapheme, how);
  }
  return g.written.empty() || g.written == g.grapheme
             ? fmt::format("{} {}", g.grapheme, how)
             : fmt::format("{} written {}, {}", g.grapheme, g.written, how);
}

// male for mail; not ran for rain, nor fink from one who says it so.
bool sounds_right(const MarkedAttempt& attempt) {
  return attempt.extra.empty() &&
         std::ranges::all_of(attempt.graphemes, [](const MarkedGrapheme& g) {
           return g.result == GraphemeResult::correct ||
                  (g.result == GraphemeResult::plausible &&
                   g.cause != Cause::own_speech);
         });
}

MarkedAttempt with_faults(MarkedAttempt attempt, bool of_speech) {
  const auto goes = [&](Cause cause) {
    return (cause == Cause::own_speech) != of_speech;
  };
  for (MarkedGrapheme& g : attempt.graphemes) {
    if (goes(g.cause)) {
      g.result = GraphemeResult::correct;
      g.cause = Cause::none;
    }
  }
  std::erase_if(attempt.extra,
                [&](const ExtraLetter& extra) { return goes(extra.cause); });
  return attempt;
}

}  // namespace

bool has_speech(const MarkedAttempt& attempt) {
  const auto follows = [](const auto& fault) {
    return fault.cause == Cause::own_speech;
  };
  return std::ranges::any_of(attempt.graphemes, follows) ||
         std::ranges::any_of(attempt.extra, follows);
}

MarkedAttempt with_speech_alone(const MarkedAttempt& attempt) {
  MarkedAttempt alone = with_faults(attempt, true);
  alone.only_marks_wrong = alone.other_word = false;
  return alone;
}

MarkedAttempt without_speech(const MarkedAttempt& attempt) {
  MarkedAttempt others = with_faults(attempt, false);
  // That it is another word is told of what sounds as it should, and "free" for
  // "three" does not.
  others.other_word = others.other_word && !has_speech(attempt);
  return others;
}

std::string faults_text(const MarkedAttempt& attempt) {
  if (attempt.blank) return "left blank";
  std::string all;
  const auto add = [&](const std::string& text) {
    if (!text.empty()) all += (all.empty() ? "" : "; ") + text;
  };
  for (const MarkedGrapheme& g : attempt.graphemes) add(fault_text(g));
  for (const ExtraLetter& extra : attempt.extra) {
    const std::string letter =
        extra.letter == '#' ? "a sign" : std::string(1, extra.letter);
    add(extra.cause == Cause::extra_letter
            ? fmt::format("{} too many", letter)
            : fmt::format("{} too many ({})", letter,
                          cause_words(extra.cause)));
  }
  if (attempt.only_marks_wrong) add("apostrophe or hyphen");
  if (attempt.other_word && sounds_right(attempt)) add("it is another word");
  return all;
}

std::string faults_text(MarkedWord::Kind kind, const MarkedAttempt& attempt) {
  switch (kind) {
    case MarkedWord::Kind::missing:
      return "word missing";
    case MarkedWord::Kind::split:
      return "written as two words";
    case MarkedWord::Kind::joined:
      return "run together with its neighbour";
    case MarkedWord::Kind::matched:
      break;
  }
  return faults_text(attempt);
}

std::string causes_text(const CauseCounts& counts, std::size_t most) {
  std::string text;
  std::size_t shown = 0;
  for (const Cause cause : causes_by_count(counts)) {
    if (cause == Cause::own_speech) continue;
    if (shown++ == most) break;
    text += fmt::format("{}{} {}", text.empty() ? "" : "; ", cause_words(cause),
                        counts[static_cast<std::size_t>(cause)]);
  }
  // Apart from the others: nothing is wrong with how anyone speaks.
  const std::string speech = speech_text(counts);
  if (!speech.empty()) {
    text +=
        fmt::format("{}{}", text.empty() ? "" : "; apart from these, ", speech);
  }
  return text;
}

std::string speech_text(const CauseCounts& counts) {
  const int follow = counts[static_cast<std::size_t>(Cause::own_speech)];
  if (follow == 0) return {};
  return fmt::format("{}: {}", cause_words(Cause::own_speech), follow);
}

std::string not_yet_text(const Advice& advice, const SessionScores& scores) {
  std::string text;
  for (const Score& learner : scores.learners) {
    if (std::ranges::find(advice.not_yet, learner.code) ==
        advice.not_yet.end()) {
      continue;
    }
    for (const Advice& own : advise(learner)) {
      if (own.pattern != advice.pattern) continue;
      text += fmt::format("{}{} ({})", text.empty() ? "" : ", ",
                          learner.code.text(), step_name(own.step));
    }
  }
  return text;
}

std::string_view kind_words(Record::Kind kind) {
  constexpr std::array<std::string_view, 5> kNames = {
      "dictation", "new words", "check after weeks", "free writing", "probe"};
  return kNames[static_cast<std::size_t>(kind)];
}

std::string_view kind_name(Record::Kind kind) {
  constexpr std::array<std::string_view, 5> kNames = {
      "dictation", "transfer", "retention", "writing", "probe"};
  return kNames[static_cast<std::size_t>(kind)];
}

}  // namespace sheaf
