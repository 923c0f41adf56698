// What Sheaf says of patterns and sounds: every one has its texts, in words
// that those can read for whom they are.

#include <gtest/gtest.h>

#include "phonics/pattern_text.h"
#include "phonics_data.h"

namespace sheaf {
namespace {

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
    if (letter) {
      words.back() += c;
    } else if (!words.back().empty()) {
      words.emplace_back();
    }
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

TEST(PatternTexts, EveryPatternHasThem) {
  const auto& all = shared_phonics().patterns().all();
  const auto texts = pattern_texts();
  ASSERT_EQ(texts.size(), all.size());
  for (std::size_t i = 0; i < texts.size(); ++i) {
    EXPECT_EQ(texts[i].id, all[i].id);
    for (const std::string_view text : {texts[i].learner, texts[i].teacher,
                                        texts[i].compare, texts[i].source}) {
      EXPECT_FALSE(text.empty()) << texts[i].id;
    }
    for (const std::string_view text : {texts[i].learner, texts[i].teacher}) {
      EXPECT_TRUE(text.ends_with('.')) << text;
    }
  }
  EXPECT_EQ(find_pattern_text("no such pattern"), nullptr);
  EXPECT_EQ(find_pattern_text("ck")->card, PatternText::Card::sound);
  EXPECT_EQ(find_pattern_text("prefix_un")->card, PatternText::Card::prefix);
}

// Short, about the key word, in common words. Letters and endings are no words
// to look up.
TEST(PatternTexts, ALearnerOfSevenCanReadThem) {
  constexpr std::size_t kLongest = 90;
  for (const PatternText& text : pattern_texts()) {
    EXPECT_LE(text.learner.size(), kLongest) << text.learner;
    EXPECT_NE(text.learner.find("{key}"), std::string_view::npos)
        << text.learner;
    for (const std::string& word : words_of(text.learner)) {
      if (word.size() <= 4 || word == "ation") continue;
      const auto info = shared_phonics().info(word);
      EXPECT_TRUE(info && info->tier <= 35) << word << " in " << text.learner;
    }
  }
}

// u says its name in cube, not in blue: only a pattern whose words all have y
// before oo is told of with these words.
TEST(PatternTexts, LongUIsNamedOnlyWhereItIsHeard) {
  const PatternCatalogue& all = shared_phonics().patterns();
  int checked = 0;
  for (const Pattern& pattern : all.all()) {
    const PatternText& text = *find_pattern_text(pattern.id);
    for (const char* name : {"u say its name", "u says its name", "long u"}) {
      if (text.learner.find(name) == std::string_view::npos) continue;
      ++checked;
      for (const TaughtUnit& unit : pattern.teaches) {
        EXPECT_EQ(unit.phonemes.front(), Phoneme::y)
            << text.learner << " but " << unit.grapheme;
      }
    }
  }
  EXPECT_GE(checked, 1);
}

TEST(SoundWays, EverySoundHasOne) {
  using Way = SoundWay::Way;
  for (int i = 0; i < kPhonemeCount; ++i) {
    const auto phoneme = static_cast<Phoneme>(i);
    const SoundWay& way = way_of(phoneme);
    EXPECT_FALSE(way.how.empty()) << phoneme_name(phoneme);
    EXPECT_EQ(is_vowel(phoneme), way.way == Way::vowel || way.way == Way::glide)
        << phoneme_name(phoneme);
  }
  // Stops, ch and j cannot be held (general phonetics, from memory).
  for (const Phoneme p : {Phoneme::b, Phoneme::p, Phoneme::d, Phoneme::t,
                          Phoneme::g, Phoneme::k, Phoneme::ch, Phoneme::jh}) {
    EXPECT_EQ(way_of(p).way, Way::quick) << phoneme_name(p);
  }
  for (const Phoneme p : {Phoneme::hh, Phoneme::w, Phoneme::y}) {
    EXPECT_EQ(way_of(p).way, Way::into) << phoneme_name(p);
  }
}

}  // namespace
}  // namespace sheaf
