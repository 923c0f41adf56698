// What the teacher says, for the steps that are led by voice: the pattern, the
// sort, tapping, the passage and dictation; and what to do when a learner gets
// it wrong.

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
#include "sheets/ed_sort.h"
#include "sheets/in_sentence.h"
#include "sheets/listening_sort.h"
#include "sheets/rhyme_words.h"
#include "sheets/script_discovery.h"
#include "sheets/script_passage.h"
#include "sheets/script_pattern.h"
#include "sheets/sheet.h"
#include "sheets/sound_key.h"
#include "sheets/word_parts.h"
#include "sheets/word_parts_script.h"

namespace sheaf::script_sheet {
namespace {

using namespace literals;

void add_heading(Composer& c, std::string_view text) {
  add_subheading(c, c.style().teacher_size, text, 4_mm);
}

void add_steps(Composer& c, const std::vector<std::string>& steps) {
  add_numbered_steps(c, c.style().teacher_text(), steps);
}

// The teacher's own rhyme, with words for its blanks.
void add_rhyme(const SheetInput& in, Composer& c) {
  if (in.lesson.lesson->rhyme.empty()) return;
  add_heading(c, "The rhyme");
  std::vector<std::string> steps = {
      "Say or sing the rhyme together; tap the beat. Hold the sound of the "
      "week a little longer each time it comes."};
  std::string words;
  for (const RhymeWord& word : rhyme_words(in)) {
    words += (words.empty() ? "" : ", ") + word.word;
  }
  if (!words.empty()) {
    steps.push_back(fmt::format(
        "Swap another word into each blank and begin again: {}. Then learners "
        "choose one, and find one of their own.",
        words));
  }
  add_steps(c, steps);
}

void add_picture_sort(Composer& c) {
  add_heading(c, "The picture sort");
  add_steps(c, {"Name every picture, learners say it after you. A picture that "
                "they call by another word gets the word that you need.",
                "Show the two that are laid already: “I say it slowly. I hear "
                "our sound, so it lies here. In this one I do not.”",
                "Learners say each word slowly, listen, and lay it. No letters "
                "yet: the ear decides.",
                "Say each column down and listen for the one that does not "
                "belong. The key has the order and the sounds."});
}

std::string joined(const std::vector<std::string>& sentences) {
  return fmt::format("{}", fmt::join(sentences, " "));
}

// -ed is sorted by ear: all of it is spelled alike.
std::vector<std::string> ed_sort_steps(const SheetInput& in,
                                       const std::vector<EdColumn>& columns) {
  std::vector<std::string> steps = {
      "Say every word on the cards once. Learners say it after you, then the "
      "ending by itself.",
      "Show a hand laid on the throat: it hums where a sound has voice. Do one "
      "word of each column aloud: “I say it. I listen to the sound before the "
      "ending. It belongs here, because …”"};
  for (const EdColumn& column : columns) {
    steps.push_back(
        fmt::format("{} is for -ed {}: {} ({}).", column.sound, column.reason,
                    column.words.front()->reading.word,
                    sound_before_ed(in.lesson, *column.words.front())));
  }
  steps.emplace_back(
      "Learners lay the rest, saying each word. Ask now and then: “Which sound "
      "comes before the ending? Does it hum?”");
  steps.emplace_back(
      "Read each column down. Ask: “How is the ending spelled in this column? "
      "And in that one?” It is done when learners say that all are spelled ed, "
      "whatever is heard, and can lay a new word by its sound.");
  return steps;
}

void add_sort(const SheetInput& in, Composer& c) {
  add_heading(c, "The word sort");
  if (const auto columns = ed_columns(in.lesson); columns.size() > 1) {
    add_steps(c, ed_sort_steps(in, columns));
    return;
  }
  std::vector<std::string> steps = {
      "Say every word on the cards once. Learners say it after you.",
      "Do the first two aloud: “I say it. I look for what we found. "
      "It belongs here, because …”",
      "Learners lay the rest, saying each word. Ask now and then: "
      "“How do you know?”",
      "Read each column down. Then mix the cards and sort again, "
      "faster."};
  if (const auto told = what_is_told(in); !told.empty()) {
    steps.push_back(fmt::format(
        "At the end learners say in their own words what the columns share. "
        "What to listen for: “{}”",
        joined(told)));
  }
  add_steps(c, steps);
}

void add_tapping(const SheetInput& in, Composer& c) {
  add_heading(c, "Tap and write");
  add_steps(c, {"Say the word. Learners say it, then tap a dot for each sound.",
                "Learners say each sound again and write one grapheme to a "
                "box. A letter with a silent job goes into the dashed slot.",
                "Learners write the whole word on the line, saying its sounds, "
                "then read it."});
  Table table(c, {{"Word", 2}, {"Graphemes", 3}, {"Sounds", 3}, {"Boxes", 1}});
  for (const AnalyzedWord& word : in.lesson.words) {
    if (!word.has_pattern()) continue;
    const From from(c, word.spelling.span);
    const TextStyle text = c.style().teacher_text();
    table.add_row({{{word.reading.word, text}},
                   {spelled_piece(word, text)},
                   {{sounds_of(in.lesson, word), text}},
                   {{fmt::format("{}", word.reading.boxes()), text}}},
                  true);
  }
}

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

// How a word is dictated, by whether its sentence is printed.
std::string word_step(HaveSentences have) {
  switch (have) {
    case HaveSentences::all:
      return "Say the word, then its sentence, then the word.";
    case HaveSentences::some:
      return "Say the word, then its sentence, then the word. Where no "
             "sentence stands, say a short one of your own.";
    case HaveSentences::none:
      break;
  }
  return "Say the word, then a short sentence with it, then the word.";
}

// The words of the warm-up as its sheet numbers them.
void add_warm_up(const SheetInput& in, Composer& c) {
  const std::span<const AnalyzedWord> words = in.lesson.warm_up.words;
  if (words.empty() || !has_sheet(in, "warm-up")) return;
  add_heading(c, "The words of the warm-up");
  const std::vector<InSentence> said = in_sentences(in.lesson, words);
  const TextStyle plain = c.style().teacher_text();
  add_paragraph(
      c, plain,
      word_step(have_sentences(said)) + " Learners say it and write it.",
      {.keep_with_next = true});
  std::vector<std::vector<TextPiece>> texts;
  for (std::size_t i = 0; i < words.size(); ++i) {
    texts.push_back(
        said_pieces(said[i], words[i], plain, c.style().teacher_text(true)));
  }
  add_numbered_texts(c, plain, texts);
}

void add_dictation(const SheetInput& in, Composer& c) {
  add_heading(c, "Dictation");
  const auto [words_said, sentences_said] = dictated_in_packet(in);
  const std::vector<InSentence> said = in_sentences(in.lesson, words_said);
  add_steps(c, {word_step(have_sentences(said)) +
                    " Learners say it, tap it and write it.",
                "Say a sentence once, whole. Learners repeat it and count its "
                "words on their fingers. Say it again and let them write.",
                "Wait. Say it again only when asked. Then learners read back "
                "what they wrote, not what they meant."});
  Table table(c,
              {{.title = "No.", .share = 0, .fixed = 12_mm, .heard = "Number"},
               {"Say", 7},
               {"Graphemes", 3}});
  int number = 0;
  for (const AnalyzedWord& word : words_said) {
    const From from(c, word.spelling.span);
    const InSentence& its = said[static_cast<std::size_t>(number)];
    add_dictated_word(c, table, ++number, word, its);
  }
  for (const AnalyzedSentence& s : sentences_said) {
    const TextStyle text = c.style().teacher_text();
    Table::Cell words;
    for (const AnalyzedSentence::Part& part : s.words) {
      if (!part.word.has_pattern()) continue;
      // Commas are heard between graphemes, so words need more.
      if (!words.empty()) {
        words.back().text += ", ";
        words.back().heard += ";";
      }
      words.push_back(spelled_piece(part.word, text));
    }
    const From from(c, s.text.span());
    table.add_row({{{fmt::format("{}", ++number), text}},
                   {{s.text.text(), text}},
                   std::move(words)},
                  true);
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
    const InSentence said = in_sentence(in.lesson, *word);
    if (!said.alikes.empty()) options.sentence = said.sentence;
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
  if (const auto told = what_is_told(in); !told.empty()) {
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
  add_warm_up(in, c);
  add_discovery_steps(in, c);
  add_pattern_steps(in, c);
  if (has_sheet(in, "sound-card")) add_rhyme(in, c);
  if (has_sheet(in, "picture-sort")) add_picture_sort(c);
  add_listening_sort_steps(in, c);
  if (has_sheet(in, "word-sort")) add_sort(in, c);
  if (has_sheet(in, "word-parts")) add_word_parts_steps(in, c);
  if (has_sheet(in, "sound-boxes") || has_sheet(in, "blank-boxes")) {
    add_tapping(in, c);
  }
  if (has_sheet(in, "passage")) add_passage_steps(in, c);
  if (has_sheet(in, "dictation")) {
    add_dictation(in, c);
    add_likely_errors(in, c);
  }
  // The key of the sounds is short: it does not stand on a page alone.
  const std::size_t last = c.blocks().size();
  add_mending(in, c);
  add_notation(in, c);
  keep_on_one_page(std::span(c.blocks()).subspan(last));
}

const SheetKind kKind = {
    .name = "script",
    .title = "What to say",
    .summary =
        "the teacher's words for sound, sort, tapping, passage and dictation",
    .for_teacher = true,
    .compose = compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::script_sheet
