#pragma once

#include <array>
#include <string_view>

namespace sheaf {

/// One key of a lesson file: the table that checks the file, fills help lines
/// and (through `lesson_keys`) the manual.
struct LessonKey {
  std::string_view name;
  std::string_view example;
  std::string_view meaning;
};

inline constexpr std::array kLessonKeys = {
    LessonKey{"sheaf", "sheaf: 1", "version of the format"},
    LessonKey{"title", "title: Week 3", "printed on every page"},
    LessonKey{"pattern", "pattern: sh",
              "the pattern, or up to four to contrast"},
    LessonKey{"words", "words: ship shed shell", "the words of the week"},
    LessonKey{"pick", "pick: 10", "how many words Sheaf is to choose"},
    LessonKey{"key-word", "key-word: ship",
              "the word that stands for the sound"},
    LessonKey{"same-sound", "same-sound: shoe fish",
              "picture words with the sound"},
    LessonKey{"other-sound", "other-sound: sun sock",
              "picture words without the sound"},
    LessonKey{"sort-words", "sort-words: jumped sailed landed",
              "more words to sort by what their -ed says"},
    LessonKey{"sentences", "sentences: The fish is in the dish.",
              "sentences to read"},
    LessonKey{"dictate-words", "dictate-words: ship wish", "words to spell"},
    LessonKey{"dictate-sentences", "dictate-sentences: The ship is big.",
              "sentences to spell"},
    LessonKey{"passage", "passage: 80",
              "connected text to read, or how many words it is to have"},
    LessonKey{"sight-words", "sight-words: the said",
              "words allowed although not decodable"},
    LessonKey{"sequence", "sequence: sequence.yaml",
              "the file that says what was taught"},
    LessonKey{"step", "step: 12", "the place of this lesson in the sequence"},
    LessonKey{"taught", "taught: short a, short i, ck",
              "patterns taught before"},
    LessonKey{"strict", "strict: yes",
              "whether words not taught yet are errors"},
    LessonKey{"split", "split: {shake: sh a_e k}",
              "graphemes of words, by hand; where they divide (fire-side)"},
    LessonKey{"pictures", "pictures: {shed: shed.png}", "pictures for words"},
    LessonKey{"rhyme", "rhyme: A {word} in the dish",
              "lines to say, with blanks for words"},
    LessonKey{"teacher-note", "teacher-note: Begin with the bell.",
              "text for the teacher's pages"},
    LessonKey{"home-note", "home-note: Ten minutes a night.",
              "text for the page for home"},
    LessonKey{"days", "days: 5", "days in the week"},
    LessonKey{"minutes", "minutes: 25", "minutes a day"},
    LessonKey{"set", "set: 2", "which set of words of the same pattern"},
    LessonKey{"conventions", "conventions: {qu: one}",
              "how sounds are counted"},
    LessonKey{"accent", "accent: british", "whose sounds are counted"},
    LessonKey{"count", "count: as-taught",
              "whether boxes are counted as sounds are spoken or taught"},
    LessonKey{"notation", "notation: marks",
              "how sounds are written: plain, marks or ipa"},
    LessonKey{"layout", "layout: week", "how the pages look"},
    LessonKey{"review", "review: 5", "how many words from before"},
    LessonKey{"group", "group: Tuesday readers", "who the lesson is for"},
    LessonKey{"author", "author: K. Moss", "who wrote the lesson"},
    LessonKey{"licence", "licence: CC0", "what others may do with it"},
    LessonKey{"seed", "seed: 7", "shuffles everything in another order"},
    LessonKey{"placement",
              "placement: {part-one: {2: nod}, part-two: {1: hip, 2: fox}}",
              "a check of where to begin, as `sheaf placement` writes it"},
};

}  // namespace sheaf
