// The steps are common practice, no source; the wording is ours. What is said
// of each pattern is data (pattern_texts.tsv).

#include "sheets/sheet_scripts.h"

#include <fmt/format.h>

#include <iterator>

#include "layout/text_block.h"
#include "sheets/pattern_card.h"
#include "sheets/rhyme_words.h"
#include "sheets/word_parts.h"

namespace sheaf::sheet_script {
namespace {

using namespace literals;
using Look = PatternText::Card;

// The second part of what changes where an ending is joined.
std::string_view change_step(Joint joint) {
  switch (joint) {
    case Joint::doubled:
      return "The last letter is written twice";
    case Joint::dropped_e:
      return "The e goes";
    case Joint::y_to_i:
      return "The y turns to i";
    case Joint::f_to_v:
      return "The f turns to v";
    case Joint::c_to_ck:
      return "The c gets a k";
    case Joint::ie_to_y:
      return "The ie turns to y";
    case Joint::plain:
      break;
  }
  return "Nothing changes";
}

class PatternScript {
 public:
  PatternScript(const SheetInput& in, std::size_t index)
      : in_(in),
        pattern_(in.lesson.patterns[index]),
        card_(pattern_card(in.lesson, index)) {
    if (card_.key != nullptr) word_ = card_.key->reading.word;
  }

  ScriptLines lines() {
    add(Lead::show, "{}: {}{}.", card_.is_sound() ? "the sound" : "the pattern",
        pattern_.name,
        word_.empty() ? "" : fmt::format(", with the word {}", word_));
    switch (card_.look) {
      case Look::sound:
      case Look::unusual:
        sound();
        break;
      case Look::silent:
        silent();
        break;
      case Look::blend:
        blend();
        break;
      case Look::closed:
        closed();
        break;
      case Look::syllable:
        syllable();
        break;
      case Look::ending:
        ending();
        break;
      case Look::join:
        join();
        break;
      case Look::prefix:
        prefix();
        break;
      case Look::parts:
        parts();
        break;
    }
    add(Lead::wait,
        "each learner to say it alone, looking at the card. Say it "
        "with those who cannot yet.");
    add(Lead::done_when, "{}",
        word_.empty()
            ? std::string("each learner has said and written it.")
            : fmt::format("each learner has said and written it, and says {} "
                          "when you ask for a word that has it.",
                          word_));
    return std::move(lines_);
  }

 private:
  template <typename... T>
  void add(Lead lead, fmt::format_string<T...> text, T&&... values) {
    lines_.push_back({lead, fmt::format(text, std::forward<T>(values)...)});
  }

  void tell() {
    if (!card_.learner.empty()) add(Lead::say, "“{}”", card_.learner);
  }

  std::string sound_name() const { return said(in_.lesson, pattern_.sound); }

  void say_sound() {
    const std::string sound = sound_name();
    if (!word_.empty() && !sound.empty()) {
      add(Lead::say, "“{0}. {1}. I hear {1} in {0}.” Learners repeat it.",
          word_, sound);
    }
    if (!sound.empty()) {
      add(Lead::act, "{}", how_to_say(in_.lesson, pattern_.sound));
    }
  }

  void write_grapheme() {
    if (pattern_.graphemes.empty()) return;
    add(Lead::act,
        "Learners write {} in the air, then on the line, and say the sound "
        "each time.",
        pattern_.graphemes.front());
  }

  void sound() {
    say_sound();
    tell();
    write_grapheme();
  }

  void silent() {
    say_sound();
    add(Lead::say, "“Which letters of {} do I see and not hear?”", word_);
    tell();
    add(Lead::say,
        "it once in a spelling voice, so that every letter is heard, then "
        "as it is said. Learners do it after you.");
    write_grapheme();
  }

  std::string all_said() const {
    return fmt::format("{}", fmt::join(card_.said, " "));
  }

  void blend() {
    add(Lead::say,
        "{} slowly. Learners say it and put up a finger for each of these "
        "sounds: {}.",
        word_, all_said());
    tell();
    add(Lead::say,
        "each by itself, then both together, then the word. A blend has a "
        "grapheme and a box for each sound.");
    add(Lead::say, "“Say {} without {}.” Then put it back.", word_,
        card_.said.size() > 1 && is_first() ? card_.said[1] : card_.said[0]);
    add(Lead::act,
        "Learners write {}, a grapheme to a sound, then the whole word.",
        card_.face);
  }

  bool is_first() const { return word_.starts_with(card_.face); }

  void closed() {
    add(Lead::act,
        "In {} learners touch each mark and say its sound: {}. Then they "
        "say the word.",
        word_, all_said());
    add(Lead::say, "“Which letter is the vowel? What stands behind it?”");
    tell();
    add(Lead::act,
        "Cover what stands behind the vowel: now nothing shuts it in, and it "
        "may say its name. Uncover it, and the vowel is short.");
    add(Lead::act,
        "Learners write the word, a grapheme to a sound, and say each sound.");
  }

  void syllable() {
    const std::string beats = fmt::format("{}", fmt::join(card_.beats, " – "));
    const std::string& beat = card_.beats[static_cast<std::size_t>(card_.beat)];
    if (card_.beats.size() > 1) {
      add(Lead::say, "{} in beats: “{}.” Learners say it and tap each beat.",
          word_, beats);
      add(Lead::act,
          "Write it with a dot between the beats: {}. Ask: “What does “{}” end "
          "in? How does its vowel sound?”",
          card_.face, beat);
    } else {
      add(Lead::act,
          "Say {}. Write it. Ask: “What does it end in? How does its vowel "
          "sound?”",
          word_);
    }
    tell();
    add(Lead::act,
        "Learners read each beat, then the word. They write it beat by beat, "
        "saying each, then whole.");
  }

  void ending() {
    if (card_.parts.empty()) {
      add(Lead::act,
          "Say {}. Learners say it and tap each beat. Write it, and draw a "
          "line under {}.",
          word_, card_.face.substr(1));
      add(Lead::say, "what these letters say: {}.", all_said());
      tell();
    } else {
      add(Lead::act, "Say {}. Ask: “Which word is in it?” ({}) Write: {} = {}.",
          word_, card_.parts[0], card_.sum(), word_);
      tell();
    }
    if (!card_.sounds.empty()) {
      std::string sounds;
      for (const PatternCard::Sounds& s : card_.sounds) {
        sounds += fmt::format("{}{} in {}", sounds.empty() ? "" : ", ", s.sound,
                              s.word);
      }
      add(Lead::act,
          "The ending has several sounds: {}. Say the words and let learners "
          "say which they hear. What is written does not follow the sound.",
          sounds);
    }
    if (card_.parts.empty()) {
      add(Lead::act,
          "Learners write the word: first what stands before the ending, beat "
          "by beat, then {} as one piece.",
          card_.face);
    } else {
      add(Lead::act,
          "Learners say the word, write {}, say the ending and add {}.",
          card_.parts[0], card_.face);
    }
  }

  void join() {
    add(Lead::act,
        "Write: {}. Ask: “What does {} end in? What does {} begin with?”",
        card_.sum(), card_.parts[0], card_.parts[1]);
    tell();
    add(Lead::act, "{}: {}.", change_step(card_.joint), word_);
    add(Lead::act,
        "Before each word learners ask the same: what the base ends in, what "
        "the ending begins with, what changes. Then they write it.");
    add(Lead::act,
        "Read {} and {} in turn, and listen to the vowel: it says the same in "
        "both.",
        card_.parts[0], word_);
  }

  void prefix() {
    add(Lead::act,
        "Write {}. Cover {}: “What is left?” ({}) Uncover it: “And now?”",
        word_, card_.parts[0], card_.parts[1]);
    tell();
    add(Lead::act,
        "Learners say in their own words what {} means, then make a sentence "
        "with it.",
        word_);
    add(Lead::act,
        "They write {} as one piece, then {}. Both keep their spelling.",
        card_.face, card_.parts[1]);
  }

  void parts() {
    add(Lead::act, "Say {}. Ask what it is made of: {}.", word_, card_.sum());
    tell();
    add(Lead::act,
        "Learners write the parts one by one, saying each, then {} whole.",
        word_);
  }

  const SheetInput& in_;
  const LessonPattern& pattern_;
  PatternCard card_;
  std::string word_;
  ScriptLines lines_;
};

// A paragraph that begins with what it is about, in bold.
void add_remark(Composer& c, std::string_view lead, std::string_view text) {
  const TextStyle plain = c.style().teacher_text();
  const TextStyle strong = c.style().teacher_text(true);
  const std::vector<TextPiece> pieces = {{std::string(lead) + " ", strong},
                                         {std::string(text), plain}};
  add_paragraph(c, pieces, {.space_before = 1.5_mm, .whole = true});
}

}  // namespace

ScriptLines sound_card(const SheetInput& in, const DayStep&) {
  ScriptLines lines;
  for (std::size_t i = 0; i < in.lesson.patterns.size(); ++i) {
    ScriptLines more = PatternScript(in, i).lines();
    lines.insert(lines.end(), std::make_move_iterator(more.begin()),
                 std::make_move_iterator(more.end()));
  }
  if (in.lesson.lesson->rhyme.empty()) return lines;
  lines.push_back({Lead::say,
                   "or sing the rhyme together; tap the beat. Hold "
                   "the sound of the week a little longer each time "
                   "it comes."});
  std::string words;
  for (const RhymeWord& word : rhyme_words(in)) {
    words += (words.empty() ? "" : ", ") + word.word;
  }
  if (words.empty()) return lines;
  lines.push_back(
      {Lead::act,
       fmt::format("Swap another word into each blank and begin again: {}. "
                   "Then learners choose one, and find one of their own.",
                   words)});
  return lines;
}

void sound_card_extra(const SheetInput& in, Composer& c) {
  for (std::size_t i = 0; i < in.lesson.patterns.size(); ++i) {
    const From from(c, in.lesson.patterns[i].written.span);
    const PatternCard card = pattern_card(in.lesson, i);
    if (card.text == nullptr) continue;
    add_remark(c, "The rule for you:", card.text->teacher);
    add_remark(c, "Set it beside:", fmt::format("{}.", card.text->compare));
  }
}

std::vector<std::string> what_is_told(const SheetInput& in) {
  std::vector<std::string> told;
  for (std::size_t i = 0; i < in.lesson.patterns.size(); ++i) {
    std::string text = pattern_card(in.lesson, i).learner;
    if (!text.empty()) told.push_back(std::move(text));
  }
  return told;
}

}  // namespace sheaf::sheet_script
