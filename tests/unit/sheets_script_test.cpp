// What the script says of each kind of sheet, so that somebody who stands in
// can teach from it alone.

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "analysis/word_games.h"
#include "files/disk_files.h"
#include "pictures/picture_book.h"
#include "sheets/daily_words.h"
#include "sheets/sheet.h"
#include "unit/analyzed_lesson_fixture.h"

namespace sheaf {
namespace {

class ScriptTest : public AnalyzedLessonTest {
 protected:
  ScriptLines lines(const SheetKind& kind, const AnalyzedLesson& lesson,
                    int day) {
    const OptionValues options(kind.options);
    FontLibrary fonts(disk(), SHEAF_FONTS);
    PictureBook book(fonts);
    const LessonPictures pictures(book);
    SheetMemory memory;
    const std::vector<PlannedSheet> packet = {
        {.kind = &kind, .options = options, .day = day}};
    Week week;
    week.days.resize(5);
    return kind.script({.lesson = lesson,
                        .options = options,
                        .pictures = pictures,
                        .memory = memory,
                        .packet = packet,
                        .week = &week},
                       {.part = kind.part, .sheet = 0, .day = day});
  }
};

AnalyzedWord word_of(const char* spelling) {
  AnalyzedWord word;
  word.spelling.value = spelling;
  word.reading = *shared_phonics().first_reading(spelling, Conventions{});
  return word;
}

SoundStep step_between(const AnalyzedWord& from, const AnalyzedWord& to) {
  return *sound_step(sound_pieces(from.reading), sound_pieces(to.reading));
}

// A chain and pairs, where nobody searches for any.
std::shared_ptr<const WordGames> games_by_hand() {
  auto games = std::make_shared<WordGames>();
  games->chain = [](const AnalyzedLesson&, bool, std::size_t) {
    std::vector<ChainWord> chain;
    for (const char* word : {"ship", "shop", "chop"}) {
      chain.push_back({.word = word_of(word)});
      if (chain.size() < 2) continue;
      chain.back().step =
          step_between(chain[chain.size() - 2].word, chain.back().word);
    }
    return chain;
  };
  games->near_pairs = [](const AnalyzedLesson&, const WordTest&, std::size_t) {
    std::vector<NearPair> pairs;
    for (const auto& [own, other] :
         {std::pair("ship", "chip"), std::pair("shop", "chop"),
          std::pair("shin", "chin")}) {
      pairs.push_back({word_of(own), word_of(other),
                       step_between(word_of(own), word_of(other)), true});
    }
    return pairs;
  };
  return games;
}

constexpr std::string_view kLesson =
    "pattern: sh\n"
    "words: ship shed fish dish brush shelf\n"
    "taught: short_i short_e ch\n"
    "sight-words: said was\n"
    "sentences: |\n"
    "  The fish is in the dish.\n"
    "  Shut the shed!\n"
    "dictate-words: ship fish shop\n"
    "passage: |\n"
    "  A fish is on a dish.\n";

TEST_F(ScriptTest, SaysWhatToShowSayDoAndWaitForAndWhatIsDone) {
  std::set<std::string_view> seen;
  for (const std::string& text :
       {std::string(kLesson),
        std::string("pattern: prefix_un\nwords: unpack unlock unzip\n"),
        std::string("pattern: ed_double\nwords: hopped planned\n")}) {
    const AnalyzedLesson& lesson = analyzed(text);
    analyzed_.games = games_by_hand();
    for (const SheetKind* kind : sheet_kinds()) {
      // The note for home is read at home.
      if (kind->for_teacher || kind->name == "home-note") continue;
      SCOPED_TRACE(kind->name);
      ASSERT_NE(kind->script, nullptr);
      EXPECT_GT(kind->minutes, 0);
      if (kind->part == DayPart::read && lesson.sentences.empty()) continue;
      if (kind->part == DayPart::warm_up && lesson.warm_up.empty()) continue;
      // The fixture has no pictures, and so nothing to sort.
      if (kind->name == "listening-sort") continue;
      const bool parts = kind->name == "word-parts";
      if (parts && text == kLesson) continue;
      const bool is_long = text.find("prefix_un") != std::string::npos;
      if (kind->name == "syllables" && !is_long) continue;
      // Neither a prefix nor an ending is one sound.
      if (kind->name == "sound-mouth" && text != kLesson) continue;
      if (kind->name == "irregular" && text != kLesson) continue;
      seen.insert(kind->name);
      const ScriptLines script =
          lines(*kind, lesson, std::max(kind->first_day, 1));
      std::set<Lead> leads;
      for (const ScriptLine& line : script) {
        leads.insert(line.lead);
        EXPECT_FALSE(line.text.empty());
      }
      ASSERT_FALSE(script.empty());
      EXPECT_TRUE(leads.contains(Lead::show) || leads.contains(Lead::say));
      EXPECT_TRUE(leads.contains(Lead::act));
      EXPECT_TRUE(leads.contains(Lead::wait));
      EXPECT_EQ(script.back().lead, Lead::done_when);
    }
  }
  for (const SheetKind* kind : sheet_kinds()) {
    if (kind->for_teacher || kind->name == "home-note") continue;
    if (kind->name == "listening-sort") continue;
    EXPECT_TRUE(seen.contains(kind->name)) << kind->name;
  }
}

// Words are dictated from the second day on, a sentence from the third, and
// what is new is kept for the check.
TEST_F(ScriptTest, PractisesDictationBeforeTheCheck) {
  const AnalyzedLesson& lesson = analyzed(std::string(kLesson));
  const auto days = short_dictations(lesson, 5, 3);
  ASSERT_EQ(days.size(), 3U);
  EXPECT_EQ(days[0].day, 2);
  EXPECT_EQ(days[0].sentence, nullptr);
  EXPECT_NE(days[1].sentence, nullptr);
  EXPECT_NE(days[2].sentence, nullptr);
  EXPECT_NE(days[1].sentence, days[2].sentence);
  for (const DayDictation& day : days) {
    std::set<const AnalyzedWord*> words(day.words.begin(), day.words.end());
    EXPECT_EQ(words.size(), 3U);
    for (const AnalyzedWord* word : words) {
      EXPECT_NE(word->reading.word, "shop");
    }
  }
  // On the first of them nothing that the check asks for as well.
  for (const AnalyzedWord* word : days[0].words) {
    EXPECT_NE(word->reading.word, "ship");
    EXPECT_NE(word->reading.word, "fish");
  }
  EXPECT_TRUE(short_dictations(lesson, 2, 3).empty());
}

}  // namespace
}  // namespace sheaf
