// What is said and done where learners spell: boxes, copying, dictation.

#include <fmt/format.h>

#include <algorithm>

#include "layout/table.h"
#include "sheets/daily_words.h"
#include "sheets/dictated.h"
#include "sheets/in_sentence.h"
#include "sheets/own_words.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::sheet_script {

namespace {

using namespace literals;

// A homophone without a sentence gets a line for one of the teacher's: it is
// never said bare.
void add_dictated_word(Composer& c, Table& table, int number,
                       const AnalyzedWord& word, const InSentence& said) {
  const TextStyle style = c.style().teacher_text();
  const bool asks = !said.alikes.empty() && said.sentence.empty();
  Table::Cell say =
      said_pieces(said, word, style, c.style().teacher_text(true));
  if (asks) say.back().text += ":";
  const std::vector<Table::Cell> row = {{{fmt::format("{}", number), style}},
                                        std::move(say),
                                        {spelled_piece(word, style)}};
  if (asks) {
    table.add_row_with_line(row, 1, true);
  } else {
    table.add_row(row, true);
  }
}

// A sentence with the graphemes of its pattern words.
void add_dictated_sentence(Composer& c, Table& table, const std::string& number,
                           const AnalyzedSentence& sentence) {
  const TextStyle text = c.style().teacher_text();
  Table::Cell words;
  for (const AnalyzedSentence::Part& part : sentence.words) {
    if (!part.word.has_pattern()) continue;
    // Commas are heard between graphemes, so words need more.
    if (!words.empty()) {
      words.back().text += ", ";
      words.back().heard += ";";
    }
    words.push_back(spelled_piece(part.word, text));
  }
  const From from(c, sentence.text.span());
  table.add_row({{{number.empty() ? "next" : number, text}},
                 {{sentence.text.text(), text}},
                 std::move(words)},
                true);
}

// How a word is dictated, by whether its sentence is printed.
std::string word_step(HaveSentences have) {
  switch (have) {
    case HaveSentences::all:
      return "the word, then its sentence, then the word.";
    case HaveSentences::some:
      return "the word, then its sentence, then the word. Where no sentence "
             "stands, say a short one of your own.";
    case HaveSentences::none:
      break;
  }
  return "the word, then a short sentence with it, then the word.";
}

Table dictation_table(Composer& c) {
  return Table(c,
               {{.title = "No.", .share = 0, .fixed = 12_mm, .heard = "Number"},
                {"Say", 7},
                {"Graphemes", 3}});
}

}  // namespace

ScriptLines tapping(const SheetInput& in, const DayStep& step) {
  if (step.turn > 0) return {{Lead::act, as_on(in, step)}};
  return {{Lead::show,
           "how you do the first word: say it, tap, write, read. "
           "Learners tap with you."},
          {Lead::act,
           "Say the word; learners say it after you. They tap a dot for "
           "each sound, then say each sound again and write its "
           "grapheme in the box. A silent letter goes into the dashed "
           "slot. Last they write the whole word on the line, saying "
           "its sounds, and read it."},
          {Lead::wait,
           "the last tap before a letter is written. Where a box is "
           "wrong: “Tap again. Which sound is in this box?”"},
          {Lead::done_when,
           "there is a grapheme for every tap and the word was "
           "read back."}};
}

ScriptLines trace(const SheetInput&, const DayStep&) {
  return {{Lead::show,
           "the first dotted word. Trace it in the air, saying "
           "each sound as its grapheme begins."},
          {Lead::say, "“Say the sounds while you trace.”"},
          {Lead::act,
           "Learners trace, then write the word beside it from the "
           "same start, saying its sounds."},
          {Lead::wait,
           "sound and pencil together. A silent pencil starts the "
           "word again."},
          {Lead::done_when,
           "each line has a word that was traced and one that "
           "was written alone."}};
}

ScriptLines cover_write(const SheetInput&, const DayStep&) {
  return {
      {Lead::show,
       "a word. Learners read it and say its sounds; look for "
       "our pattern in it."},
      {Lead::say, "“Fold it away. Say it. Write it.”"},
      {Lead::act,
       "A word that is done shows how; where one is begun, only the missing "
       "letters are written. Learners write from memory, unfold, and touch "
       "letter by "
       "letter to check. Right: they tick the square."},
      {Lead::wait,
       "the check, before you say anything. “Which part is "
       "right? Look at the other part again.”"},
      {Lead::done_when, "each word was written right once, folded away."}};
}

ScriptLines short_dictation(const SheetInput& in, const DayStep& step) {
  const auto days = short_dictations(in.lesson, days_of_week(in),
                                     in.options.count("words-a-day"));
  const auto today = std::ranges::find(days, step.day, &DayDictation::day);
  if (today == days.end()) return {};
  ScriptLines lines = {
      {Lead::show, fmt::format("the lines for day {}.", step.day)}};
  std::vector<AnalyzedWord> asked;
  for (const AnalyzedWord* word : today->words) asked.push_back(*word);
  std::vector<std::string> taken;
  if (today->sentence != nullptr) {
    taken.push_back(today->sentence->text.text());
  }
  const std::vector<InSentence> sentences =
      in_sentences(in.lesson, asked, std::move(taken));
  for (std::size_t i = 0; i < asked.size(); ++i) {
    const InSentence& said = sentences[i];
    lines.push_back(
        {Lead::say,
         fmt::format("{}. {}{}{}", i + 1, asked[i].reading.word,
                     said.alikes.empty() ? "" : " (" + said.not_these() + ")",
                     said.sentence.empty() ? "." : ": " + said.sentence)});
  }
  const bool again = step.turn > 0;
  lines.push_back(
      {Lead::act,
       again ? as_on(in, step)
             : "Say the word, its sentence, the word. Learners say it, tap its "
               "sounds and write it. Then they read back what they wrote."});
  if (today->sentence != nullptr) {
    lines.push_back(
        {Lead::say, fmt::format("once, whole: “{}” Learners repeat it, count "
                                "its words on their fingers, and write.",
                                today->sentence->text.text())});
  }
  if (again) return lines;
  lines.push_back({Lead::wait,
                   "all pencils down before the next. Say a word "
                   "again only when asked."});
  lines.push_back(
      {Lead::done_when,
       fmt::format("each learner has read back what is written and mended one "
                   "grapheme. This is practice: nothing is counted{}.",
                   has_sheet(in, "dictation") ? " before the check" : "")});
  return lines;
}

ScriptLines dictation(const SheetInput& in, const DayStep&) {
  const auto [words, sentences] = dictated_in_packet(in);
  const std::vector<InSentence> said = in_sentences(in.lesson, words);
  ScriptLines lines = {
      {Lead::show, "a clean page. Words of the week are out of sight."}};
  if (!words.empty()) {
    lines.push_back({Lead::say, word_step(have_sentences(said))});
    lines.push_back({Lead::act, "Learners say it, tap it and write it."});
  }
  if (const auto own = dictate_own_words(in, words.size()); !own.empty()) {
    lines.push_back({Lead::act, own});
  }
  if (!sentences.empty()) {
    lines.push_back({Lead::say,
                     "a sentence once, whole. Learners repeat it and count its "
                     "words on their fingers. Say it again and let them "
                     "write."});
  }
  lines.push_back({Lead::wait,
                   "all pencils down. Say it again only when "
                   "asked, and help with nothing: you want to know "
                   "what they can do alone."});
  lines.push_back({Lead::act,
                   "Learners read back what they wrote, not what "
                   "they meant, and mend what they find."});
  lines.push_back({Lead::done_when,
                   "all is written, read back and collected. Mark it by "
                   "pattern; the key shows where."});
  return lines;
}

void dictation_extra(const SheetInput& in, Composer& c) {
  const auto [words_said, sentences_said] = dictated_in_packet(in);
  const std::vector<InSentence> said = in_sentences(in.lesson, words_said);
  if (words_said.empty() && sentences_said.empty()) return;
  Table table = dictation_table(c);
  int number = 0;
  for (const AnalyzedWord& word : words_said) {
    const From from(c, word.spelling.span);
    const InSentence& its = said[static_cast<std::size_t>(number)];
    add_dictated_word(c, table, ++number, word, its);
  }
  for (std::size_t i = 0; i < sentences_said.size(); ++i) {
    add_dictated_sentence(c, table, sentence_number(in, words_said.size(), i),
                          sentences_said[i]);
  }
}

}  // namespace sheaf::sheet_script
