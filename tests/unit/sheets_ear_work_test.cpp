// Work by ear: what is asked can be answered, with sounds that were taught.

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "phonics/notation.h"
#include "sheets/ear_work.h"
#include "unit/analyzed_lesson_fixture.h"

namespace sheaf {
namespace {

using Sounds = std::vector<std::vector<Phoneme>>;

constexpr const char* kLessons[] = {
    "pattern: sh\nwords: ship shed fish\ntaught: short_a, short_e, short_i, "
    "short_o, short_u\n",
    "pattern: oi\nwords: coin boil point\n",
    "pattern: dge\nwords: bridge badge fudge\naccent: british\n",
    "pattern: wr\nwords: write wrap\n",
    "pattern: ai, ay\nwords: rain tail day play\naccent: scottish\n",
    "pattern: ed_t, ed_d\nwords: jumped filled\n",
    "pattern: prefix_un\nwords: unlock unpack\n"};

class EarWorkTest : public AnalyzedLessonTest {
 protected:
  std::vector<EarDay> work(const std::string& text, int days = 5,
                           int items = 3) {
    return ear_work(analyzed_as_taught(text), days, items);
  }
};

Sounds without(Sounds sounds, bool last) {
  sounds.erase(last ? sounds.end() - 1 : sounds.begin());
  return sounds;
}

void expect_one_change(const EarSwap& swap) {
  const std::string about = swap.from.word + " to " + swap.to.word;
  const Sounds &from = swap.from.sounds, &to = swap.to.sounds;
  if (swap.change == EarChange::add) {
    EXPECT_EQ(without(to, swap.at_end), from) << about;
    EXPECT_EQ(swap.at_end ? to.back() : to.front(), swap.in) << about;
    return;
  }
  if (swap.change == EarChange::leave_out) {
    EXPECT_EQ(without(from, swap.at_end), to) << about;
    EXPECT_EQ(swap.at_end ? from.back() : from.front(), swap.out) << about;
    return;
  }
  ASSERT_EQ(from.size(), to.size()) << about;
  std::vector<std::size_t> changed;
  for (std::size_t i = 0; i < from.size(); ++i) {
    if (from[i] != to[i]) changed.push_back(i);
  }
  ASSERT_EQ(changed.size(), 1U) << about;
  const std::size_t place = changed.front();
  EXPECT_EQ(from[place], swap.out) << about;
  EXPECT_EQ(to[place], swap.in) << about;
  if (swap.change == EarChange::first) {
    EXPECT_EQ(place, 0U) << about;
  }
  if (swap.change == EarChange::last) {
    EXPECT_EQ(place, from.size() - 1) << about;
  }
  if (swap.change == EarChange::middle) {
    EXPECT_TRUE(place > 0 && place + 1 < from.size()) << about;
  }
}

TEST_F(EarWorkTest, ChangesJustTheSoundThatIsNamed) {
  for (const char* lesson : kLessons) {
    for (const int days : {1, 2, 5, 8}) {
      for (const EarDay& day : work(lesson, days)) {
        EXPECT_FALSE(day.swaps.empty()) << lesson << days;
        for (const EarSwap& swap : day.swaps) expect_one_change(swap);
      }
    }
  }
}

TEST_F(EarWorkTest, FillsEveryDayAndAsksNoWordTwice) {
  for (const char* lesson : kLessons) {
    std::set<std::string> words;
    for (const EarDay& day : work(lesson)) {
      EXPECT_EQ(day.together.size(), 3U) << lesson;
      EXPECT_EQ(day.apart.size(), 3U) << lesson;
      EXPECT_EQ(day.swaps.size(), 3U) << lesson;
      for (const auto* list : {&day.together, &day.apart}) {
        for (const EarWord& word : *list) {
          EXPECT_TRUE(words.insert(word.word).second) << word.word;
        }
      }
    }
  }
}

TEST_F(EarWorkTest, GrowsHarder) {
  for (const char* lesson : kLessons) {
    const std::vector<EarDay> days = work(lesson);
    const auto sounds = [](const EarDay& day) {
      std::size_t sum = 0;
      for (const EarWord& word : day.together) sum += word.sounds.size();
      return sum;
    };
    EXPECT_GT(sounds(days.back()), sounds(days.front())) << lesson;
  }
}

TEST_F(EarWorkTest, UsesNoSoundThatWasNotTaught) {
  const std::set<std::string> vowels = {"a", "e", "i", "o", "u"};
  const std::set<std::string> teams = {"th", "dh", "ch", "ng", "zh"};
  for (const EarDay& day : work(kLessons[0])) {
    for (const auto* list : {&day.together, &day.apart}) {
      for (const EarWord& word : *list) {
        for (const auto& sound : word.sounds) {
          const std::string name = sound_name(sound, analyzed_.conventions);
          EXPECT_FALSE(teams.contains(name)) << word.word;
          if (is_vowel(sound.front())) {
            EXPECT_TRUE(vowels.contains(name)) << word.word << ' ' << name;
          }
        }
      }
    }
  }
}

TEST_F(EarWorkTest, KeepsFormsOfAWordForLessonsOnThem) {
  for (const char* lesson : {kLessons[0], kLessons[2], kLessons[3]}) {
    for (const EarDay& day : work(lesson)) {
      for (const EarSwap& swap : day.swaps) {
        for (const EarWord* word : {&swap.from, &swap.to}) {
          EXPECT_FALSE(word->word.size() > 4 && word->word.ends_with("ed"))
              << word->word;
        }
      }
    }
  }
}

}  // namespace
}  // namespace sheaf
