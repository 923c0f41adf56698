#include <gtest/gtest.h>

#include "input/lesson_keys.h"
#include "input_reading.h"

namespace sheaf {
namespace {

TEST(Lesson, ReadsThreeKeys) {
  const ReadLesson read = lesson_from(
      "pattern: sh\n"
      "words: ship shed shell fish dish brush crash shelf\n"
      "sentences: |\n"
      "  The fish is in the dish.\n"
      "  Shut the shed!\n");
  EXPECT_EQ(read.messages(), "");
  EXPECT_EQ(joined(read.lesson.patterns), "sh");
  EXPECT_EQ(joined(read.lesson.words),
            "ship shed shell fish dish brush crash shelf");
  EXPECT_EQ(joined(read.lesson.sentences),
            "The fish is in the dish./Shut the shed!/");
  EXPECT_EQ(read.lesson.days.value, 5);
  EXPECT_FALSE(read.lesson.days.given());
  EXPECT_EQ(read.lesson.minutes.value, 25);
  EXPECT_EQ(read.lesson.keys.size(), 3U);
  EXPECT_EQ(read.lesson.keys[2].value, "sentences");
}

TEST(Lesson, KnowsThePlaceOfEveryWord) {
  const ReadLesson read = lesson_from(
      "pattern: sh\n"
      "words:\n"
      "  ship, shed\n"
      "  sh\xC3\xADp e\xCC\x81sh # a note\n"
      "sentences:\n"
      "  - 'It''s the \n"
      "    shed.'\n"
      "  - \"Sh\\u00e9 has \\\"shells\\\".\"\n");
  EXPECT_EQ(read.messages(), "");
  ASSERT_EQ(read.lesson.words.size(), 4U);
  EXPECT_EQ(read.lesson.words[1].spelling.span.text(), "shed");
  EXPECT_EQ(read.lesson.words[2].spelling.span.text(), "sh\xC3\xADp");
  EXPECT_EQ(read.lesson.words[3].spelling.span.text(), "e\xCC\x81sh");
  EXPECT_EQ(read.lesson.words[3].spelling.value, "\xC3\xA9sh");
  ASSERT_EQ(read.lesson.sentences.size(), 2U);
  const LessonLine& first = read.lesson.sentences[0];
  EXPECT_EQ(first.text(), "It's the shed.");
  EXPECT_EQ(first.part(0, 4).span.text(), "It''s");
  EXPECT_EQ(first.part(9, 13).span.text(), "shed");
  const LessonLine& second = read.lesson.sentences[1];
  EXPECT_EQ(second.text(), "Sh\xC3\xA9 has \"shells\".");
  EXPECT_EQ(second.part(2, 4).span.text(), "\\u00e9");
  EXPECT_EQ(second.part(10, 16).span.text(), "shells");
}

TEST(Lesson, UnderlinesTheThirdLineOfABlock) {
  for (const std::string end : {"\n", "\r\n"}) {
    const ReadLesson read = lesson_from(
        "\xEF\xBB\xBFpattern: sh" + end + "words: ship" + end + "sentences: |" +
        end + "  One is shut." + end + end + "    Two are sh\xC3\xA9." + end +
        "  The third cra\xCC\x8Ash is here." + end);
    EXPECT_EQ(read.messages(), "");
    ASSERT_EQ(read.lesson.sentences.size(), 3U);
    const LessonLine& third = read.lesson.sentences[2];
    Diagnostics d;
    d.error(diagnostic::bad_word, third.part(10, 16).span, "found");
    EXPECT_EQ(to_text(d),
              "shells.yaml:7:13: error: found [bad-word]\n"
              "   7 |   The third cra\xCC\x8Ash is here.\n"
              "     |             ^~~~~\n");
  }
}

TEST(Lesson, TakesWordsInEveryForm) {
  for (const char* words :
       {"words: ship, shed fish\n", "words: [ship, shed, fish]\n",
        "words: [ship shed, fish]\n", "words:\n- ship\n- shed\n- fish\n",
        "words:\n  - ship shed\n  - fish\n", "words: |\n  ship\n  shed fish\n",
        "words: >\n  ship\n  shed fish\n", "words:\n  ship\n  shed\n  fish\n",
        "words: \"ship shed\n  fish\"\n", "words:\tship\xC2\xA0shed  fish\n"}) {
    const ReadLesson read = lesson_from(std::string("pattern: sh\n") + words);
    EXPECT_EQ(read.messages(), "") << words;
    EXPECT_EQ(joined(read.lesson.words), "ship shed fish") << words;
  }
}

TEST(Lesson, TakesWordsThatTheFormatHasUsesFor) {
  const ReadLesson read = lesson_from(
      "pattern: o_e\n"
      "words: [null, yes, no, on, true, Null]\n"
      "dictate-words: null\n"
      "sight-words:\n"
      "  - no\n"
      "  - null\n"
      "split:\n"
      "  null: n u ll\n"
      "title: ~\n"
      "group: null\n"
      "seed: 07\n");
  EXPECT_EQ(joined(read.lesson.words), "null yes no on true Null");
  EXPECT_EQ(joined(read.lesson.dictate_words), "null");
  EXPECT_EQ(joined(read.lesson.sight_words), "no null");
  ASSERT_EQ(read.lesson.splits.size(), 1U);
  EXPECT_EQ(read.lesson.splits[0].word.value, "null");
  EXPECT_EQ(read.lesson.title.value, "~");
  EXPECT_EQ(read.lesson.group.value, "null");
  EXPECT_EQ(read.lesson.seed.value, "07");
  EXPECT_EQ(read.diagnostics.error_count(), 0);
}

TEST(Lesson, KnowsANullFromAnAbsentValue) {
  const ReadLesson read = lesson_from(
      "pattern: sh\n"
      "words:\n"
      "  - null\n"
      "  -\n"
      "  - ship\n"
      "pictures:\n"
      "  ship:\n"
      "  null: null.png\n");
  EXPECT_EQ(joined(read.lesson.words), "null ship");
  ASSERT_EQ(read.lesson.pictures.size(), 1U);
  EXPECT_EQ(read.lesson.pictures[0].first.value, "null");
  EXPECT_EQ(read.diagnostics.error_count(), 2);
}

TEST(Lesson, PutsPartedWordsTogether) {
  const ReadLesson read = lesson_from(
      "pattern: a_e\n"
      "words: sh|e|d sh|a_e|k sh|a_e|k|s p|a_e|s|t r|a_e|n|g d|o|n't\n");
  EXPECT_EQ(read.messages(), "");
  EXPECT_EQ(joined(read.lesson.words), "shed shake shakes paste range don't");
  const LessonWord& shake = read.lesson.words[1];
  EXPECT_EQ(joined(shake.graphemes), "sh a_e k");
  EXPECT_EQ(shake.spelling.span.text(), "sh|a_e|k");
  EXPECT_EQ(shake.graphemes[1].span.text(), "a_e");
}

TEST(Lesson, ReadsSplits) {
  const ReadLesson read = lesson_from(
      "pattern: sh\n"
      "words: chef\n"
      "split:\n"
      "  Quinlan: qu i n l a n\n"
      "  chef: ch=/sh/ e f\n"
      "  box: b o x=/k s/\n"
      "  paste: p a_e s t\n"
      "  shakes: sh, a_e, k, s\n"
      "  shed: sh|e|d\n"
      "  don't: d o n t\n"
      "  ice-cream: i_e c c r ea m\n");
  EXPECT_EQ(read.messages(), "");
  ASSERT_EQ(read.lesson.splits.size(), 8U);
  const LessonSplit& chef = read.lesson.splits[1];
  EXPECT_EQ(chef.word.value, "chef");
  ASSERT_EQ(chef.parts.size(), 3U);
  EXPECT_EQ(chef.parts[0].grapheme.value, "ch");
  ASSERT_TRUE(chef.parts[0].sound.has_value());
  EXPECT_EQ(chef.parts[0].sound->value, "sh");
  EXPECT_EQ(chef.parts[0].sound->span.text(), "sh");
  EXPECT_FALSE(chef.parts[1].sound.has_value());
  EXPECT_EQ(read.lesson.splits[2].parts[2].sound->value, "k s");
}

TEST(Lesson, ReadsEveryKeyOfItsTable) {
  const ReadLesson read = lesson_from(
      "sheaf: 1\n"
      "title: Week 3\n"
      "pattern: ai, ay, a_e\n"
      "words: rain day cake\n"
      "key-word: rain\n"
      "same-sound: [they, great]\n"
      "other-sound: [sun]\n"
      "sort-words: jumped\n"
      "sentences: The rain is here. The day is long.\n"
      "dictate-words: rain, clay\n"
      "dictate-sentences: [\"Wait, it rains.\"]\n"
      "sight-words: the is\n"
      "sequence: sequence.yaml\n"
      "step: 12\n"
      "taught: short a, short i\n"
      "split: {cake: c a_e k}\n"
      "pictures: {rain: art/rain.png, sun: \xE2\x98\x80}\n"
      "rhyme: |\n"
      "  Rain on the {word},\n"
      "  rain on the day.\n"
      "passage:\n"
      "  title: A long day\n"
      "  text: |\n"
      "    The rain is here.\n"
      "\n"
      "    The day is long.\n"
      "  questions: Is it wet?\n"
      "teacher-note: |\n"
      "  Begin with the bell.\n"
      "home-note: Ten minutes\n"
      "  a night.\n"
      "days: 4\n"
      "minutes: 30\n"
      "set: 2\n"
      "conventions: {qu: one}\n"
      "accent: british\n"
      "count: as-taught\n"
      "notation: marks\n"
      "layout: week\n"
      "review: 0\n"
      "group: Tuesday\n"
      "author: K. Moss\n"
      "licence: CC0\n"
      "seed: 9\n");
  const Lesson& lesson = read.lesson;
  EXPECT_EQ(read.diagnostics.error_count(), 0) << read.messages();
  EXPECT_EQ(read.diagnostics.warning_count(), 0) << read.messages();
  EXPECT_EQ(lesson.title.value, "Week 3");
  EXPECT_EQ(joined(lesson.patterns), "ai ay a_e");
  EXPECT_EQ(lesson.key_word.value, "rain");
  EXPECT_EQ(joined(lesson.same_sound), "they great");
  EXPECT_EQ(joined(lesson.other_sound), "sun");
  EXPECT_EQ(joined(lesson.sentences), "The rain is here. The day is long./");
  EXPECT_EQ(joined(lesson.dictate_words), "rain clay");
  EXPECT_EQ(joined(lesson.dictate_sentences), "Wait, it rains./");
  EXPECT_EQ(joined(lesson.sight_words), "the is");
  EXPECT_EQ(lesson.sequence.value, "sequence.yaml");
  EXPECT_EQ(lesson.step.value, "12");
  ASSERT_EQ(lesson.taught.size(), 2U);
  EXPECT_EQ(lesson.taught[0].value, "short a");
  ASSERT_EQ(lesson.pictures.size(), 2U);
  EXPECT_EQ(lesson.pictures[0].second.value, "art/rain.png");
  ASSERT_EQ(lesson.sort_words.size(), 1U);
  EXPECT_EQ(lesson.sort_words[0].spelling.value, "jumped");
  EXPECT_EQ(joined(lesson.rhyme), "Rain on the {word},/rain on the day./");
  EXPECT_EQ(joined(lesson.home_note), "Ten minutes a night./");
  EXPECT_EQ(lesson.passage.title.text(), "A long day");
  EXPECT_EQ(joined(lesson.passage.paragraphs),
            "The rain is here./The day is long./");
  EXPECT_EQ(joined(lesson.passage.questions), "Is it wet?/");
  EXPECT_EQ(lesson.days.value, 4);
  EXPECT_EQ(lesson.minutes.value, 30);
  EXPECT_EQ(lesson.set.value, 2);
  ASSERT_EQ(lesson.conventions.size(), 3U);
  EXPECT_EQ(lesson.conventions[0].second.value, "one");
  EXPECT_EQ(lesson.conventions[1].first.value, "count");
  EXPECT_EQ(lesson.conventions[2].second.value, "marks");
  EXPECT_EQ(lesson.accent.value, "british");
  EXPECT_EQ(lesson.layout.value, "week");
  EXPECT_EQ(lesson.review.value, 0);
  EXPECT_TRUE(lesson.review.given());
  EXPECT_EQ(lesson.author.value, "K. Moss");
  EXPECT_EQ(lesson.licence.value, "CC0");
  // All but `pick`, `strict` and `placement`, which change what the rest means.
  EXPECT_EQ(lesson.keys.size(), kLessonKeys.size() - 3);
}

TEST(Lesson, TakesANumberForSentencesAndAPassage) {
  const ReadLesson read = lesson_from(
      "pattern: sh\nsentences: 6\ndictate-sentences: 0\npassage: 80\n");
  EXPECT_EQ(read.diagnostics.error_count(), 0) << read.messages();
  EXPECT_EQ(read.lesson.sentence_count.value, 6);
  EXPECT_TRUE(read.lesson.dictate_sentence_count.given());
  EXPECT_EQ(read.lesson.passage.words.value, 80);
  EXPECT_TRUE(read.lesson.sentences.empty());
}

TEST(Lesson, TellsLinesApartInEveryForm) {
  const auto sentences = [](const std::string& text) {
    return joined(
        lesson_from("pattern: sh\nwords: ship\n" + text).lesson.sentences);
  };
  EXPECT_EQ(sentences("sentences: |\n  One ship.\n\n  Two\n   ships.\n"),
            "One ship./Two./Ships./");
  EXPECT_EQ(sentences("sentences:\n  One ship.\n  Two ships\n  go.\n"),
            "One ship./Two ships go./");
  EXPECT_EQ(sentences("sentences: >\n  One ship.\n  Two ships\n  go.\n"),
            "One ship./Two ships go./");
  EXPECT_EQ(sentences("sentences:\n- One,  ship.\n- \"“Two,” he said.\"\n"),
            "One, ship./“Two,” he said./");
}

// The quote was once taken for the beginning of the empty text above it.
TEST(Lesson, TellsAnEmptyBlockFromAQuoteBelowIt) {
  const ReadLesson read = lesson_from(
      "pattern: sh\n"
      "words: ship\n"
      "rhyme: |\n"
      "\"title\": Week 3\n");
  EXPECT_EQ(read.lesson.title.value, "Week 3");
  EXPECT_EQ(read.diagnostics.error_count(), 1);
}

TEST(Lesson, WarnsOfASentenceThatACommaSplit) {
  const ReadLesson read = lesson_from(
      "pattern: sh\n"
      "words: ship\n"
      "sentences: [The fish, the dish., \"He said, “Shut it!”\", (Yes.)]\n"
      "rhyme: [one, two]\n");
  EXPECT_EQ(read.diagnostics.warning_count(), 1);
  EXPECT_EQ(read.diagnostics.error_count(), 0);
}

TEST(Lesson, TakesTheExampleOfEveryKey) {
  for (const LessonKey& key : kLessonKeys) {
    if (key.name == "pattern" || key.name == "words") continue;
    const std::string line(key.example);
    const ReadLesson read =
        lesson_from("pattern: sh\nwords: ship\n" + line + "\n");
    EXPECT_EQ(read.messages(), "") << line;
  }
}

TEST(Lesson, KeepsToItsLimits) {
  std::string words;
  for (int i = 0; i < 2001; ++i) {
    words += std::string(" w") + static_cast<char>('a' + i % 26) +
             static_cast<char>('a' + i / 26 % 26) +
             static_cast<char>('a' + i / 676);
  }
  const ReadLesson many = lesson_from("pattern: sh\nwords:" + words + "\n");
  EXPECT_EQ(many.diagnostics.error_count(), 1);
  EXPECT_EQ(many.lesson.words.size(), 2000U);
  const ReadLesson exact = lesson_from(
      "pattern: sh\nwords:" + words.substr(0, words.size() - 5) + "\n");
  EXPECT_EQ(exact.messages(), "");
  const std::string letters(64, 'a');
  EXPECT_EQ(lesson_from("pattern: a\nwords: " + letters).messages(), "");
  EXPECT_TRUE(
      lesson_from("pattern: a\nwords: a" + letters).diagnostics.has_errors());
}

TEST(Lesson, SplitWordsKeepsPlaces) {
  const SourceFile file("a.yaml", "k: ship, shed  shell");
  const PlacedText text("ship, shed  shell", {&file, 3, 20}, {{0, 3}});
  const auto words = split_words(text);
  ASSERT_EQ(words.size(), 3U);
  EXPECT_EQ(words[2].value, "shell");
  EXPECT_EQ(words[2].span.begin, 15U);
}

}  // namespace
}  // namespace sheaf
