#pragma once

#include <array>
#include <string_view>

namespace sheaf {

/// One key of a lesson file: the table that checks the file, fills help lines
/// and (through `lesson_keys`) the manual.
struct LessonKey {
  std::string_view name;
  /// Whether anything in Sheaf uses it so far; if not, a note says so.
  bool used;
  std::string_view example;
  std::string_view meaning;
};

inline constexpr std::array kLessonKeys = {
    LessonKey{"sheaf", true, "sheaf: 1", "version of the format"},
    LessonKey{"title", true, "title: Week 3", "stands on every page"},
    LessonKey{"pattern", true, "pattern: sh",
              "the pattern, or up to four to contrast"},
    LessonKey{"words", true, "words: ship shed shell", "the words of the week"},
    LessonKey{"pick", true, "pick: 10", "how many words Sheaf is to choose"},
    LessonKey{"key-word", true, "key-word: ship",
              "the word that stands for the sound"},
    LessonKey{"same-sound", true, "same-sound: shoe fish",
              "picture words with the sound"},
    LessonKey{"other-sound", true, "other-sound: sun sock",
              "picture words without the sound"},
    LessonKey{"sentences", true, "sentences: The fish is in the dish.",
              "sentences to read"},
    LessonKey{"dictate-words", true, "dictate-words: ship wish",
              "words to spell"},
    LessonKey{"dictate-sentences", true, "dictate-sentences: The ship is big.",
              "sentences to spell"},
    LessonKey{"sight-words", true, "sight-words: the said",
              "words allowed although not decodable"},
    LessonKey{"sequence", true, "sequence: sequence.yaml",
              "the file that says what was taught"},
    LessonKey{"step", true, "step: 12",
              "the place of this lesson in the sequence"},
    LessonKey{"taught", true, "taught: short a, short i, ck",
              "patterns taught before"},
    LessonKey{"strict", true, "strict: yes",
              "whether words not taught yet are errors"},
    LessonKey{"split", true, "split: {shake: sh a_e k}",
              "graphemes of words, by hand"},
    LessonKey{"pictures", true, "pictures: {shed: shed.png}",
              "pictures for words"},
    LessonKey{"rhyme", true, "rhyme: A {word} in the dish",
              "lines to say, with blanks for words"},
    LessonKey{"teacher-note", true, "teacher-note: Begin with the bell.",
              "text for the teacher's pages"},
    LessonKey{"home-note", true, "home-note: Ten minutes a night.",
              "text for the page for home"},
    LessonKey{"days", true, "days: 5", "days in the week"},
    LessonKey{"minutes", true, "minutes: 25", "minutes a day"},
    LessonKey{"set", true, "set: 2", "which set of words of the same pattern"},
    LessonKey{"conventions", true, "conventions: {qu: one}",
              "how sounds are counted"},
    LessonKey{"accent", true, "accent: british", "whose sounds are counted"},
    LessonKey{"layout", true, "layout: week", "how the pages look"},
    LessonKey{"review", true, "review: 5", "how many words from before"},
    LessonKey{"group", true, "group: Tuesday readers",
              "who the lesson is for"},
    LessonKey{"author", true, "author: K. Moss", "who wrote the lesson"},
    LessonKey{"licence", true, "licence: CC0", "what others may do with it"},
    LessonKey{"seed", true, "seed: 7",
              "another order of all that is shuffled"},
};

}  // namespace sheaf
