// Words for games with single sounds: found without a look at the patterns of
// each, they are what such a look would have found.

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "phonics/phonics.h"
#include "planning/short_words.h"
#include "unit/analyzed_lesson_fixture.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

// Each accent as it is, with each switch that changes what the list says, and
// with all that change how sounds are counted and written.
std::vector<Conventions> many_conventions() {
  std::vector<Conventions> all;
  for (const Accent accent : {Accent::general_american, Accent::british,
                              Accent::scottish, Accent::australian}) {
    const Conventions usual = conventions_for(accent);
    Conventions bath = usual, yod = usual, counted = usual;
    bath.bath_ah = !bath.bath_ah;
    yod.yod_keep = !yod.yod_keep;
    for (const ConventionSwitch& one : convention_switches()) {
      counted.*one.setting = !(usual.*one.setting);
    }
    counted.bath_ah = usual.bath_ah;
    counted.yod_keep = usual.yod_keep;
    all.insert(all.end(), {usual, bath, yod, counted});
  }
  return all;
}

TEST(EverydayWords, AreThoseOfAllPatternsTogether) {
  const Phonics& phonics = shared_phonics();
  for (const Conventions& conventions : many_conventions()) {
    struct Flags {
      bool later = false, unsure = false, readings = false;
      int phonemes = 0, syllables = 0;
      bool operator==(const Flags&) const = default;
    };
    std::map<std::string, Flags> expected, found;
    for (const Pattern& pattern : phonics.patterns().all()) {
      const PatternId id = phonics.patterns().id_of(pattern);
      for (const PatternWord& word : phonics.pattern_words(id, conventions)) {
        if (!word.info.everyday) continue;
        Flags& flags = expected[word.word];
        flags.later |= word.later;
        flags.unsure |= word.unsure;
        flags.readings = word.readings;
        flags.phonemes = word.phonemes;
        flags.syllables = word.syllables;
      }
    }
    for (const EverydayWord& word : phonics.everyday_words(conventions)) {
      EXPECT_TRUE(word.info.everyday) << word.word;
      const Flags flags{word.later, word.unsure, word.readings, word.phonemes,
                        word.syllables};
      EXPECT_TRUE(found.emplace(word.word, flags).second)
          << word.word << " comes twice";
    }
    EXPECT_EQ(found, expected);
    EXPECT_GT(found.size(), 2000U);
  }
}

TEST(EverydayWords, OfAPatternComeFirstInItsList) {
  const Phonics& phonics = shared_phonics();
  for (const Conventions& conventions : many_conventions()) {
    for (const Pattern& pattern : phonics.patterns().all()) {
      const PatternId id = phonics.patterns().id_of(pattern);
      const auto& all = phonics.pattern_words(id, conventions);
      const auto& some = phonics.everyday_pattern_words(id, conventions);
      ASSERT_LE(some.size(), all.size()) << pattern.id;
      for (std::size_t i = 0; i < all.size(); ++i) {
        EXPECT_EQ(all[i].info.everyday, i < some.size()) << all[i].word;
        if (i >= some.size()) continue;
        EXPECT_EQ(some[i].word, all[i].word);
        EXPECT_EQ(some[i].later, all[i].later) << all[i].word;
      }
    }
  }
}

// Whoever asks the index alone must miss nothing.
TEST(EverydayWords, HaveNoPatternBesidesThoseOfTheIndex) {
  const Phonics& phonics = shared_phonics();
  for (const Conventions& conventions : many_conventions()) {
    std::map<std::string, std::set<PatternId>> indexed;
    for (const Pattern& pattern : phonics.patterns().all()) {
      const PatternId id = phonics.patterns().id_of(pattern);
      for (const PatternWord& word : phonics.pattern_words(id, conventions)) {
        if (word.info.everyday) indexed[word.word].insert(id);
      }
    }
    for (const EverydayWord& word : phonics.everyday_words(conventions)) {
      if (word.syllables > 1) continue;
      const auto reading = phonics.first_reading(word.word, conventions);
      for (const PatternPlace& place : reading->places) {
        EXPECT_TRUE(indexed[word.word].contains(place.pattern))
            << word.word << ": " << phonics.patterns()[place.pattern].id
            << " with accent " << convention_value(conventions, "accent");
      }
    }
  }
}

using ShortWords = AnalyzedLessonTest;

constexpr const char* kLessons[] = {
    "pattern: sh\nwords: ship shop wish\n",
    "pattern: sh\nwords: ship\ntaught: short_a, short_i, short_o\n",
    "pattern: [ai, ay]\nwords: rain day Spain\naccent: british\n"
    "taught: short_a, short_i, short_e, short_o, short_u, sh, ck, ee\n",
    "pattern: ing_drop\nwords: making riding\n"
    "taught: a_e, i_e, o_e, ing, short_a, short_i\n",
    "pattern: a_e\nwords: cake\naccent: scottish\n",
    "pattern: ar\nwords: car\naccent: australian\n"
    "taught: short_a, short_i, oo_long, a_e, ing_drop, ed_drop, ee, qu\n",
    "pattern: tion\nwords: nation\n",
};

TEST_F(ShortWords, AreWhatALookAtAllPatternsFinds) {
  for (const char* text : kLessons) {
    const auto& lesson = analyzed_as_taught(text);
    std::size_t with_pattern = 0;
    for (const ShortWord& word : short_words(lesson, nullptr)) {
      const ShortWord whole = short_word(
          lesson,
          shared_phonics().first_reading(word.word(), lesson.conventions));
      if (!word.told) {
        EXPECT_FALSE(whole.readable) << text << word.word();
        continue;
      }
      EXPECT_EQ(word.has_pattern, whole.has_pattern) << text << word.word();
      EXPECT_EQ(word.readable, whole.readable) << text << word.word();
      EXPECT_EQ(word.pieces, whole.pieces) << text << word.word();
      if (!word.has_pattern) continue;
      ++with_pattern;
      EXPECT_EQ(word.reading, whole.reading) << text << word.word();
    }
    const bool of_one_beat =
        std::string_view(text).find("tion") == std::string_view::npos &&
        std::string_view(text).find("ing_drop") == std::string_view::npos;
    if (of_one_beat) {
      EXPECT_GT(with_pattern, 5U) << text;
    }
  }
}

TEST_F(ShortWords, ThatAreReadableAreTheSameAsAmongAll) {
  for (const char* text : kLessons) {
    const auto& lesson = analyzed_as_taught(text);
    std::vector<std::string> all, readable;
    for (const ShortWord& word : short_words(lesson, nullptr)) {
      if (word.readable) all.push_back(word.word());
    }
    for (const ShortWord& word : readable_short_words(lesson, nullptr)) {
      EXPECT_TRUE(word.readable) << word.word();
      readable.push_back(word.word());
    }
    EXPECT_EQ(readable, all) << text;
  }
}

// The index knows nothing of it.
TEST_F(ShortWords, KnowALessonsOwnPattern) {
  const std::vector<std::string> own = {"ee=/ee/ ea=/ee/"};
  const Phonics phonics(disk(), SHEAF_WORD_LIST, own);
  const SourceFile file("lesson.yaml",
                        "pattern: \"ee=/ee/ ea=/ee/\"\nwords: feet seat\n");
  const Lesson lesson = read_lesson(file, diagnostics_);
  const AnalyzedLesson seen = analyze(
      lesson, phonics, [](std::string_view) { return false; }, diagnostics_);
  ASSERT_FALSE(diagnostics_.has_errors());
  std::set<std::string> with_pattern;
  for (const ShortWord& word : short_words(seen, nullptr)) {
    if (word.has_pattern) with_pattern.insert(word.word());
  }
  for (const char* word : {"feet", "seat", "green", "team"}) {
    EXPECT_TRUE(with_pattern.contains(word)) << word;
  }
  EXPECT_FALSE(with_pattern.contains("bread"));
}

}  // namespace
}  // namespace sheaf
