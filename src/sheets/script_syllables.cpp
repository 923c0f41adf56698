// The routine for a long word: vowels, places, kinds, parts, word, beats. The
// steps are common practice, no source; the wording is ours.

#include <fmt/format.h>

#include <algorithm>

#include "sheets/common_options.h"
#include "sheets/long_words.h"
#include "sheets/sheet_scripts.h"

namespace sheaf::sheet_script {
namespace {

// In the order in which learners look for them.
constexpr DivisionRule kRules[] = {
    DivisionRule::prefix,       DivisionRule::ending,  DivisionRule::compound,
    DivisionRule::consonant_le, DivisionRule::between, DivisionRule::cluster,
    DivisionRule::before,       DivisionRule::after,   DivisionRule::both,
    DivisionRule::vowels};

// "behind a prefix (un, help, ful); before an ending (care, less)": the rules
// that the words need, each with the first word that needs it.
std::string rules_needed(const std::vector<const AnalyzedWord*>& words) {
  std::string text;
  for (const DivisionRule rule : kRules) {
    const auto has = [&](const AnalyzedWord* word) {
      return std::ranges::any_of(word->parts, [&](const WordPart& part) {
        return part.begin > 0 && part.rule == rule;
      });
    };
    // A word that divides once shows one rule.
    auto word = std::ranges::find_if(words, [&](const AnalyzedWord* w) {
      return w->parts.size() == 2 && has(w);
    });
    if (word == words.end()) word = std::ranges::find_if(words, has);
    if (word == words.end()) continue;
    text += fmt::format("{}{} ({})", text.empty() ? "" : "; ", rule_name(rule),
                        parts_said(**word));
  }
  return text;
}

std::string numbers_meant(const std::vector<const AnalyzedWord*>& words) {
  std::string text;
  for (const PartKind kind : kinds_of(words)) {
    text += fmt::format("{}{} {}: {}", text.empty() ? "" : "; ",
                        kind_number(kind), kind_name(kind), kind_meaning(kind));
    const auto dropped = std::ranges::find_if(
        words, [](const AnalyzedWord* word) { return has_dropped_e(*word); });
    if (kind == PartKind::silent_e && dropped != words.end()) {
      text += fmt::format(" (the e is dropped before an ending: {})",
                          parts_said(**dropped));
    }
  }
  return text;
}

// What is said of words whose parts are not said as they are spelled.
void add_weak(const std::vector<const AnalyzedWord*>& words,
              ScriptLines& lines) {
  constexpr std::size_t kMost = 4;
  std::string text;
  std::size_t count = 0;
  for (const AnalyzedWord* word : words) {
    if (!has_weak_part(*word) || ++count > kMost) continue;
    text += fmt::format("{}{} ({})", text.empty() ? "" : ", ",
                        word->reading.word, parts_said(*word));
  }
  if (text.empty()) return;
  lines.push_back(
      {Lead::say,
       fmt::format("that a vowel may be weak: we hardly hear which it is, as "
                   "in {}. “To spell, read each part as its letters say, then "
                   "say the word as we speak.”",
                   text)});
}

}  // namespace

std::string share_of_syllables(const SheetInput& in, const DayStep& step) {
  if (step.turns < 2) return "";
  const TurnShare share =
      turn_share(long_words(in).size(), step.turn, step.turns);
  if (share.count == 1) return fmt::format("word {}", share.first + 1);
  return fmt::format("words {} to {}", share.first + 1,
                     share.first + share.count);
}

ScriptLines syllables(const SheetInput& in, const DayStep& step) {
  const auto words = long_words(in);
  if (words.empty()) return {};
  const std::string share = share_of_syllables(in, step);
  if (step.turn > 0) {
    return {{Lead::show, share + "."}, {Lead::act, as_on(in, step)}};
  }
  const AnalyzedWord& first = *words.front();
  const bool kinds = in.options.flag("kinds");
  const bool divided = in.options.choice("marks") == "parts";
  const bool model = is_model_asked(in.options, words.size());
  ScriptLines lines;
  lines.push_back(
      {Lead::show,
       fmt::format("{}. Count its vowels with the learners: so many parts. It "
                   "divides {}: {}.",
                   model ? "the word that is done" : "the first word",
                   division_reasons(first), parts_said(first))});
  if (!divided) {
    lines.push_back(
        {Lead::say,
         "“Mark each vowel; one that is written with several letters gets one "
         "line, a silent e gets none. Now: is there a beginning or an ending "
         "that you know? Where does the rest divide, and why?”"});
    lines.push_back(
        {Lead::act, fmt::format("Learners draw a line at each place. These "
                                "words divide {}.",
                                rules_needed(words))});
  }
  if (kinds) {
    lines.push_back(
        {Lead::act, fmt::format("They write the number of each part’s kind. "
                                "{}.",
                                numbers_meant(words))});
  }
  lines.push_back(
      {Lead::act,
       "They read the parts, then the word. They cover it, say it in beats, "
       "write each beat on its line as they say it, then the whole word; they "
       "uncover it and check beat by beat."});
  add_weak(words, lines);
  lines.push_back(
      {Lead::wait,
       divided ? "the parts before the word. If the word does not come: "
                 "“Which part could be said in another way?”"
               : "the reason before the line. If the parts make no word that "
                 "they know: “Try it on the other side of the consonant.”"});
  lines.push_back(
      {Lead::done_when,
       divided ? "each word was read in its parts and whole, and "
                 "written in its beats, covered."
               : "each word was divided with a reason, read in its "
                 "parts and whole, and written in its beats, covered."});
  return lines;
}

}  // namespace sheaf::sheet_script
