// Which sound is shown beside that of the week, and the words by which the two
// are told apart.

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>

#include "files/disk_files.h"
#include "pictures/picture_book.h"
#include "sheets/sheet.h"
#include "sheets/sound_mouth.h"
#include "sheets/sound_sort.h"
#include "unit/analyzed_lesson_fixture.h"

namespace sheaf {
namespace {

using P = Phoneme;

class SoundMouthTest : public AnalyzedLessonTest {
 protected:
  SoundMouth content_of(const std::string& text) {
    const SheetKind* kind = find_sheet_kind("sound-mouth");
    const OptionValues options(kind->options);
    FontLibrary fonts(disk(), SHEAF_FONTS);
    PictureBook book(fonts);
    const LessonPictures pictures(book);
    SheetMemory memory;
    analyzed(text);
    analyzed_ = analyze(
        lesson_, shared_phonics(),
        find_taught(lesson_, nullptr, shared_phonics(), diagnostics_),
        [](std::string_view) { return false; }, diagnostics_);
    return sound_mouth({.lesson = analyzed_,
                        .options = options,
                        .pictures = pictures,
                        .memory = memory,
                        .packet = {}});
  }
};

std::vector<Phoneme> sounds_of(const Reading& reading) {
  std::vector<Phoneme> all;
  for (const Unit& unit : reading.units) {
    all.insert(all.end(), unit.phonemes.begin(), unit.phonemes.end());
  }
  return all;
}

// Written before the table was: what teachers hear taken for each other.
TEST_F(SoundMouthTest, ShowsWhatIsTakenForTheSound) {
  const std::vector<std::pair<std::string, std::vector<P>>> expected = {
      {"pattern: sh\nwords: ship fish\n", {P::ch}},
      {"pattern: ch\nwords: chip chin\n", {P::sh}},
      {"pattern: th_voiceless\nwords: thin moth\n", {P::f}},
      {"pattern: short_e\nwords: pen bed\n", {P::ih}},
      {"pattern: short_i\nwords: pin sit\n", {P::eh}},
      {"pattern: short_a\nwords: cat man\n", {P::eh}},
      {"pattern: short_u\nwords: cup sun\n", {P::oh}},
      {"pattern: ng\nwords: sing ring\n", {P::n}},
      {"pattern: ph\nwords: phone graph\n", {P::th}},
      {"pattern: ee\nwords: feet tree\n", {P::ih}},
      {"pattern: ai\nwords: rain train\n", {P::eh}},
      {"pattern: ar\nwords: car star\n", {P::ao, P::r}},
      {"pattern: wr\nwords: write wrist\n", {P::w}},
      {"pattern: short_a, short_u\nwords: cat cup hat hut\n", {P::ah}},
      {"pattern: short_u\nwords: cup sun\naccent: british\n", {P::oh}},
      {"pattern: ar\nwords: car star\naccent: british\n", {P::ah}},
  };
  for (const auto& [text, other] : expected) {
    const SoundMouth content = content_of(text);
    EXPECT_EQ(content.missing, "") << text;
    EXPECT_EQ(content.sounds[1].phonemes, other) << text;
  }
}

TEST_F(SoundMouthTest, ItemsTellTheTwoApart) {
  for (const std::string text :
       {"pattern: sh\nwords: ship fish\n",
        "pattern: th_voiceless\nwords: thin moth\n",
        "pattern: short_e\nwords: pen bed\n", "pattern: ng\nwords: sing ring\n",
        "pattern: oi\nwords: coin boil\n", "pattern: ar\nwords: car star\n",
        "pattern: short_i\nwords: pin sit\naccent: scottish\n",
        "pattern: ee\nwords: feet tree\naccent: australian\n"}) {
    const SoundMouth content = content_of(text);
    SCOPED_TRACE(text);
    EXPECT_EQ(content.items.size(), 8U);
    int second = 0;
    std::vector<std::string> words;
    for (const SoundMouth::Item& item : content.items) {
      second += item.sound;
      words.push_back(item.word);
      const auto reading =
          analyzed_.phonics->first_reading(item.word, analyzed_.conventions);
      const auto its = static_cast<std::size_t>(item.sound);
      EXPECT_TRUE(has_sound(*reading, content.sounds[its].phonemes))
          << item.word;
      EXPECT_FALSE(has_sound(*reading, content.sounds[1 - its].phonemes))
          << item.word;
      if (item.other.empty()) continue;
      const auto other =
          analyzed_.phonics->first_reading(item.other, analyzed_.conventions);
      EXPECT_TRUE(has_sound(*other, content.sounds[1 - its].phonemes))
          << item.other;
      // Nothing else is different.
      auto a = sounds_of(*reading), b = sounds_of(*other);
      const auto& from = content.sounds[its].phonemes;
      const auto& to = content.sounds[1 - its].phonemes;
      const auto at = std::search(a.begin(), a.end(), from.begin(), from.end());
      ASSERT_NE(at, a.end());
      const auto place = at - a.begin();
      a.erase(at, at + static_cast<std::ptrdiff_t>(from.size()));
      a.insert(a.begin() + place, to.begin(), to.end());
      EXPECT_EQ(a, b) << item.word << " and " << item.other;
    }
    EXPECT_GE(second, 3);
    EXPECT_LE(second, 5);
    std::ranges::sort(words);
    EXPECT_EQ(std::ranges::adjacent_find(words), words.end());
  }
}

TEST_F(SoundMouthTest, NoSpellingStandsThatWasNotTaught) {
  const SoundMouth untaught =
      content_of("pattern: sh\nwords: ship fish\ntaught: short_i\n");
  EXPECT_EQ(untaught.sounds[1].grapheme, "");
  EXPECT_FALSE(untaught.sounds[1].can_be_read);
  EXPECT_EQ(untaught.label(1), "other");
  const SoundMouth taught =
      content_of("pattern: sh\nwords: ship fish\ntaught: short_i ch\n");
  EXPECT_EQ(taught.sounds[1].grapheme, "ch");
  EXPECT_TRUE(taught.sounds[1].can_be_read);
  EXPECT_EQ(taught.label(0), "sh");
}

// Nor is a rare spelling the example: aisle for the sound that is mostly
// written as in tie and kite.
TEST_F(SoundMouthTest, TheExampleIsSpelledAsExpected) {
  for (const std::string pattern :
       {"oi",      "oy", "short_a", "short_e",      "short_i", "short_o",
        "short_u", "sh", "ch",      "th_voiceless", "ng",      "ai",
        "ee",      "oa", "igh",     "oo_long",      "aw",      "ow_ow",
        "ar",      "or", "er"}) {
    const Pattern* found = shared_phonics().patterns().by_id(pattern);
    ASSERT_NE(found, nullptr) << pattern;
    const SoundMouth content = content_of(
        "pattern: " + pattern + "\nwords: " + std::string(found->example) +
        "\ntaught: wr\n");
    if (!content.missing.empty()) continue;
    const auto reading = analyzed_.phonics->first_reading(
        content.sounds[1].word, analyzed_.conventions);
    for (const Unit& unit : reading->units) {
      EXPECT_FALSE(unit.irregular) << reading->word << " for " << pattern;
    }
  }
}

TEST_F(SoundMouthTest, SaysWhyThereIsNothing) {
  EXPECT_NE(content_of("pattern: prefix_un\nwords: unpack unzip\n").missing,
            "");
  EXPECT_NE(
      content_of("pattern: final_double\nwords: hill mess off buzz\n").missing,
      "");
}

}  // namespace
}  // namespace sheaf
