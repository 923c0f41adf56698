// What is said and done in the warm-up, where learners find the pattern, and
// with cards.

#include <fmt/format.h>

#include <algorithm>

#include "layout/numbered_steps.h"
#include "sheets/in_sentence.h"
#include "sheets/own_words.h"
#include "sheets/sheet_scripts.h"
#include "sheets/warm_up_days.h"
#include "sheets/word_parts.h"

namespace sheaf::sheet_script {

using namespace literals;

std::string as_on(const SheetInput& in, const DayStep& step) {
  return fmt::format("As on day {}.", in.packet[step.sheet].day);
}

ScriptLines no_sheet(const DayStep& step) {
  if (step.part == DayPart::warm_up) {
    if (step.day > 2) return {{Lead::act, "As on day 2."}};
    return {{Lead::say,
             "“Which words did we work with yesterday?” Say five of "
             "them, one after the other."},
            {Lead::act,
             "Learners say each word and its sounds, one finger to "
             "a sound, and write two of them."},
            {Lead::wait,
             "two seconds. Then say it yourself and go on: nothing "
             "is taught again here."},
            {Lead::done_when, "the minutes are over."}};
  }
  return {{Lead::act,
           "Those who have not finished, finish. The others read a "
           "sentence or a text of this week to a partner."},
          {Lead::done_when, "the minutes are over."}};
}

ScriptLines warm_up(const SheetInput& in, const DayStep& step) {
  ScriptLines lines;
  const WarmUp& warm_up = in.lesson.warm_up;
  if (!warm_up.to_say.empty()) {
    lines.push_back({Lead::show, "the graphemes at the top, in any order."});
    lines.push_back({Lead::say, "“Which sound?” for each."});
  }
  for (const WarmUpTask& task : warm_up_tasks(in, days_of_week(in))) {
    if (task.day != step.day) continue;
    switch (task.kind) {
      case WarmUpTask::Kind::sounds:
        lines.push_back({Lead::act,
                         "Say each sound of the key. Learners say "
                         "it and write how it is spelled."});
        break;
      case WarmUpTask::Kind::words:
        lines.push_back(
            {Lead::act,
             fmt::format(
                 "Dictate {}{}: the word, its sentence, the word. "
                 "Learners say it, tap it and write it.",
                 has_own_words(in) ? "to each learner, from the table “" +
                                         std::string(kOwnWordsTitle) + "”, "
                                   : "",
                 task.count == 1 ? fmt::format("word {}", task.first + 1)
                                 : fmt::format("words {} to {}", task.first + 1,
                                               task.first + task.count))});
        break;
      case WarmUpTask::Kind::sentence:
        lines.push_back(
            {Lead::act,
             warm_up.sentence.empty()
                 ? "Dictate a sentence of yours with words from above."
                 : fmt::format("Dictate: “{}”", warm_up.sentence)});
        break;
    }
  }
  if (step.turn > 0) return lines;
  lines.push_back({Lead::wait,
                   "two seconds. Then say it yourself and go on: nothing is "
                   "taught again here. Note what did not come."});
  lines.push_back(
      {Lead::done_when, "each was done once, or the minutes are over."});
  return lines;
}

void warm_up_extra(const SheetInput& in, Composer& c) {
  const std::span<const AnalyzedWord> words = in.lesson.warm_up.words;
  if (words.empty() || has_own_words(in)) return;
  const std::vector<InSentence> said = in_sentences(in.lesson, words);
  const TextStyle plain = c.style().teacher_text();
  std::vector<std::vector<TextPiece>> texts;
  for (std::size_t i = 0; i < words.size(); ++i) {
    texts.push_back(
        said_pieces(said[i], words[i], plain, c.style().teacher_text(true)));
  }
  add_paragraph(c, c.style().teacher_text(true), "Its words, for all days:",
                {.space_before = 2_mm, .keep_with_next = true});
  add_numbered_texts(c, plain, texts);
}

ScriptLines discovery(const SheetInput& in, const DayStep&) {
  const bool contrast = in.lesson.patterns.size() > 1;
  const bool is_told = in.options.choice("answer") == "told";
  const bool is_written = !is_told && in.options.count("lines") > 0;
  std::string done = "learners have said in their own words what ";
  done += contrast ? "each group of words shares." : "the words share.";
  const auto told = what_is_told(in);
  if (!told.empty()) {
    done += fmt::format(" What to listen for: “{}”", fmt::join(told, " "));
  }
  return {
      {Lead::show, "the words. Say nothing yet of what is in them."},
      {Lead::say,
       contrast ? "“Read them with me.” Then: “Which words belong together? "
                  "What do you see? What do you hear?”"
                : "“Read them with me.” Then: “What do you see in every word? "
                  "What do you hear in every word?”"},
      {Lead::act,
       fmt::format("The first two words together, then learners go on alone: "
                   "they {} what is the same, to the eye and to the ear{}.",
                   is_told      ? "colour"
                   : is_written ? "mark"
                                : "say",
                   is_told ? ", tell someone and tick the rings"
                   : is_written
                       ? ", write it on the lines and read it to someone"
                       : "")},
      {Lead::wait,
       "their thinking: count slowly to ten. Take every answer: “Show "
       "me. Is it in the next word too?” If nothing comes, cover "
       "all but two words and ask again."},
      {Lead::done_when, done}};
}

ScriptLines picture_cards(const SheetInput&, const DayStep&) {
  return {{Lead::show, "a card. Say its word; learners say it after you."},
          {Lead::say, "“How many sounds? Tap them.”"},
          {Lead::act,
           "Learners tap, say the sounds, write the word and turn "
           "the card over to check."},
          {Lead::wait, "the last tap before a letter is written."},
          {Lead::done_when, "each card was named and spelled once."}};
}

ScriptLines word_cards(const SheetInput&, const DayStep&) {
  return {{Lead::show, "one card at a time, face up."},
          {Lead::say, "“Read it.”"},
          {Lead::act,
           "Read words go on one pile, others on a second. Say the "
           "sounds of the second pile together, then read it again."},
          {Lead::wait, "three seconds, then: “Say its sounds.”"},
          {Lead::done_when, "the second pile is empty, or was read twice."}};
}

ScriptLines grapheme_cards(const SheetInput&, const DayStep&) {
  return {{Lead::show, "a card. Learners say its sound."},
          {Lead::say, "a word of the week, slowly, then as it is said."},
          {Lead::act,
           "Learners lay a card for each sound, touch each card and "
           "say its sound, sweep and say the word. Then they write "
           "it."},
          {Lead::wait, "the last card. “Touch and say. Is it the word?”"},
          {Lead::done_when, "five words were laid and read back."}};
}

}  // namespace sheaf::sheet_script
