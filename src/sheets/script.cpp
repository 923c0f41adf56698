// What the teacher says and does, day by day and step by step: what to show,
// say, do and wait for, and what counts as done; then what may come out wrong,
// and what to do about it.

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "analysis/capitals.h"
#include "base/utf8.h"
#include "layout/heard_text.h"
#include "layout/numbered_steps.h"
#include "layout/table.h"
#include "marking/likely_errors.h"
#include "phonics/lexicon.h"
#include "sheets/caution.h"
#include "sheets/dictated.h"
#include "sheets/in_sentence.h"
#include "sheets/own_words.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/sound_key.h"
#include "sheets/week_text.h"
#include "sheets/word_parts.h"

namespace sheaf::script_sheet {
namespace {

using namespace literals;

void add_heading(Composer& c, std::string_view text) {
  add_subheading(c, c.style().teacher_size, text, 4_mm);
}

void add_steps(Composer& c, const std::vector<std::string>& steps) {
  add_numbered_steps(c, c.style().teacher_text(), steps);
}

std::string joined(const std::vector<std::string>& sentences) {
  return fmt::format("{}", fmt::join(sentences, " "));
}

// Where a step's heading and lines stand among the blocks.
using Steps = std::vector<BlockGroup>;

// A step's heading, lines and, the first time, what they speak of.
void add_step(const SheetInput& in, Composer& c, const DayStep& step,
              Steps& steps) {
  const TextStyle strong = c.style().teacher_text(true);
  const bool has_sheet = step.sheet != DayStep::kNoSheet;
  ScriptLines lines;
  if (!has_sheet) {
    lines = sheet_script::no_sheet(step);
  } else {
    const PlannedSheet& sheet = in.packet[step.sheet];
    if (sheet.kind->script == nullptr) return;
    lines = sheet.kind->script(input_of(in, sheet), step);
  }
  if (lines.empty()) return;
  const From from(c, has_sheet ? in.packet[step.sheet].span : Span());
  const std::size_t first = c.blocks().size();
  add_paragraph(
      c, strong, step_heading(in, step),
      {.role = Role::heading3, .space_before = 3_mm, .keep_with_next = true});
  add_script_lines(c, lines);
  steps.push_back({first, c.blocks().size() - first});
  if (!has_sheet || step.turn > 0) return;
  const PlannedSheet& sheet = in.packet[step.sheet];
  if (sheet.kind->script_extra != nullptr) {
    sheet.kind->script_extra(input_of(in, sheet), c);
  }
}

void add_day(const SheetInput& in, Composer& c, int number, const Day& day,
             bool by_ear, Steps& steps) {
  if (day.steps.empty()) return;
  add_subheading(c, scaled(c.style().teacher_size, 1.4),
                 day_heading(number, day, by_ear), 7_mm);
  for (const DayStep& step : day.steps) add_step(in, c, step, steps);
}

// Sheets that no day has, each as if it were used once.
void add_without_day(const SheetInput& in, Composer& c, Steps& steps) {
  bool first = true;
  for (std::size_t i = 0; i < in.packet.size(); ++i) {
    const PlannedSheet& sheet = in.packet[i];
    if (sheet.day != 0 || sheet.kind->script == nullptr) continue;
    if (first) add_heading(c, "When there is time");
    first = false;
    add_step(in, c, {.part = sheet.kind->part, .sheet = i, .day = 0}, steps);
  }
}

// Every word that is dictated, each once: those of sentences if they have the
// pattern.
std::vector<const AnalyzedWord*> dictated_words(const SheetInput& in) {
  std::vector<const AnalyzedWord*> words;
  std::set<std::string> seen;
  const auto add = [&](const AnalyzedWord& word) {
    if (seen.insert(lower_case(word.reading.word)).second) {
      words.push_back(&word);
    }
  };
  for (const AnalyzedWord& word : in.lesson.dictate_words) add(word);
  for (const AnalyzedSentence& sentence : in.lesson.dictate_sentences) {
    for (const AnalyzedSentence::Part& part : sentence.words) {
      if (part.word.has_pattern()) add(part.word);
    }
  }
  return words;
}

// A word as it stands by itself: the first of a sentence without its capital,
// unless it may be a name. Josh is one, though some list has a verb josh.
Reading by_itself(const SheetInput& in, const AnalyzedWord& word) {
  Reading reading = word.reading;
  if (is_common_word(reading.word, *in.lesson.phonics))
    reading.word = lower_case(reading.word);
  return reading;
}

// The share of the width for a column of words, of all shares with the seven
// of what to say: 2, or 3 where a word is long.
int share_of_words(Composer& c,
                   const std::vector<std::vector<std::string>>& rows) {
  std::string_view longest;
  for (const auto& row : rows) {
    // The strings themselves: a list of them would be copies.
    for (const std::string* word : {&row[0], &row[1]}) {
      if (word->size() > longest.size()) longest = *word;
    }
  }
  const Length room = c.width() * 2 / 11 - 8_mm;
  return width_of(c.shape(c.style().teacher_text(), longest)) > room ? 3 : 2;
}

// What a word may come out as, and what to say then.
void add_likely_errors(const SheetInput& in, Composer& c) {
  const auto words = dictated_words(in);
  if (words.empty()) return;
  auto& spellings = in.memory.sound_spellings;
  if (spellings == nullptr) {
    spellings = std::make_shared<const SoundSpellings>(
        in.lesson.phonics->lexicon().inventory());
    in.memory.cue_rules = std::make_shared<const CueRules>(*in.lesson.phonics);
  }
  add_heading(c, "Be ready for");
  add_paragraph(c, c.style().teacher_text(),
                "The two likeliest errors in each word, worked out from how "
                "English spells its sounds. Keep them to yourself: learners "
                "see right spellings only.",
                {.keep_with_next = true});
  std::vector<std::vector<std::string>> rows;
  for (const AnalyzedWord* word : words) {
    std::vector<std::uint8_t> pattern_units;
    for (std::size_t i = 0; i < word->reading.units.size(); ++i) {
      if (word->is_pattern_unit(i)) {
        pattern_units.push_back(static_cast<std::uint8_t>(i));
      }
    }
    LikelyErrorOptions options;
    options.pattern_units = pattern_units;
    options.is_word = [&](std::string_view text) {
      return in.lesson.phonics->knows(text);
    };
    options.is_common_word = known_to_learners(*in.lesson.phonics);
    // For others nobody needs one to know which word is meant.
    if (!only_alikes(in.lesson, *word).alikes.empty()) {
      options.sentence = in_sentence(in.lesson, *word).sentence;
    }
    options.conventions = in.lesson.conventions;
    options.rules = in.memory.cue_rules.get();
    const Reading reading = by_itself(in, *word);
    for (const LikelyError& error :
         likely_errors(*spellings, reading, options)) {
      rows.push_back({reading.word, error.written, error.cue.text});
    }
  }
  // What is said gets the room that the words leave.
  const int share = share_of_words(c, rows);
  Table table(c, {{"Word", share}, {"May be written", share}, {"Then say", 7}});
  const TextStyle text = c.style().teacher_text();
  for (const auto& row : rows) {
    table.add_row(
        {{{row[0], text}},
         {TextPiece{
             .text = row[1], .style = text, .heard = heard_spelling(row[1])}},
         {{row[2], text}}},
        true);
  }
}

void add_mending(const SheetInput& in, Composer& c) {
  add_heading(c, "When it is wrong");
  std::string spelled = "“How did we spell that this week?”";
  if (const auto told = sheet_script::what_is_told(in); !told.empty()) {
    spelled += fmt::format(" Say again: “{}”", joined(told));
  }
  spelled += " Mend that grapheme only.";
  // Sentences run on over lines, and begin with quotation marks.
  // NOLINTBEGIN(bugprone-suspicious-missing-comma)
  add_steps(
      c, {"“Read me what you wrote.” Often that is enough.",
          "“Say the word. Tap its sounds.” Compare: is there a grapheme "
          "for every tap?",
          "“Which sound is it?” Find the box or the place together.", spelled,
          "Write the whole word again on the mending line, saying its "
          "sounds. Say what was right."});
  // NOLINTEND(bugprone-suspicious-missing-comma)
  const TextStyle text = c.style().teacher_text();
  add_paragraph(c, text, kCaution, {.space_before = 4_mm});
}

// What the signs between slashes mean, in the lesson's notation: all that the
// packet has.
void add_notation(const SheetInput& in, Composer& c) {
  add_heading(c, "How the sounds are written");
  const TextStyle text = c.style().teacher_text();
  std::vector<TextPiece> key;
  for (const NotationKeyLine& line : sound_key(in)) {
    if (!key.empty()) {
      key.back().text += ", ";
      key.back().heard += ",";
    }
    // Once for all: there may be thirty.
    const std::string_view lead = key.empty() ? "the sounds " : "";
    key.push_back(
        {.text = fmt::format("/{}/ {}", line.sign, line.word),
         .style = text,
         .heard = fmt::format("{}{} in {}", lead, line.sign, line.word)});
  }
  if (!key.empty()) {
    key.back().text += ". ";
    key.back().heard += ".";
  }
  key.push_back({"The other consonants are written with their letters.", text});
  add_paragraph(c, key, {.whole = true});
}

void compose(const SheetInput& in, Composer& c) {
  Steps steps;
  if (in.week != nullptr) {
    const auto by_ear = static_cast<std::size_t>(days_by_ear(in));
    for (std::size_t i = 0; i < in.week->days.size(); ++i) {
      add_day(in, c, static_cast<int>(i) + 1, in.week->days[i], i < by_ear,
              steps);
    }
  }
  add_without_day(in, c, steps);
  add_own_words(in, c);
  if (has_sheet(in, "dictation") || has_sheet(in, "short-dictation")) {
    add_likely_errors(in, c);
  }
  // The key of the sounds is short: it does not stand on a page alone.
  const std::size_t last = c.blocks().size();
  add_mending(in, c);
  add_notation(in, c);
  keep_on_one_page(std::span(c.blocks()).subspan(last));
  save_pages_with_groups(c.blocks(), steps, c.body().height, 0.6);
}

const SheetKind kKind = {
    .name = "script",
    .title = "What to say",
    .summary = "the teacher's words and acts for every step of every day",
    .for_teacher = true,
    .compose = compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::script_sheet
