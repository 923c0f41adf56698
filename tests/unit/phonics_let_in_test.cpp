// A word that counts for a pattern of the week is no word that cannot be read
// yet for the grapheme that shows it: badger for dge.

#include <gtest/gtest.h>

#include <map>

#include "phonics_data.h"

namespace sheaf {
namespace {

// What a pattern has for a grapheme that says one of its sounds.
bool is_taught(const Pattern& pattern, const Unit& unit) {
  const auto covers = [&](const TaughtUnit& taught) {
    return taught.covers(unit);
  };
  return std::ranges::any_of(pattern.teaches, covers) ||
         std::ranges::any_of(pattern.lets_in, covers);
}

TEST(Patterns, WhoWasTaughtOneCanReadItsGraphemes) {
  std::map<std::string, std::string> lacking;
  int looked_at = 0;
  shared_phonics().each_word(
      Phonics::kCommonList, Conventions{},
      [&](const Reading& reading, const WordInfo&) {
        for (const PatternPlace& place : reading.places) {
          const Pattern& pattern = shared_phonics().patterns()[place.pattern];
          for (const std::uint8_t i : place.units) {
            const Unit& unit = reading.units[i];
            const bool of_its_sounds = std::ranges::any_of(
                pattern.teaches, [&](const TaughtUnit& taught) {
                  return taught.phonemes == unit.listed;
                });
            if (!of_its_sounds || unit.father) continue;
            ++looked_at;
            if (!is_taught(pattern, unit)) {
              lacking[std::string(pattern.id) + " " + unit.grapheme] =
                  reading.word;
            }
          }
        }
        return true;
      });
  EXPECT_GT(looked_at, 10000);
  std::string text;
  for (const auto& [what, word] : lacking) text += what + " " + word + "\n";
  // Another grapheme of the word that the pattern marks, or one that says a
  // sound of another (ss as zz says it): these are no spellings of the pattern.
  EXPECT_EQ(text,
            "double_middle ss possession\ned_double ed travelled\n"
            "er_est_double t wettest\nful_less_ness e weaknesses\n");
}

TEST(Patterns, LetInWhatTheRowsSay) {
  const auto let_in = [](std::string_view id) {
    std::string text;
    const auto found = shared_phonics().patterns().find_exact(id);
    for (const TaughtUnit& unit :
         shared_phonics().patterns()[found.value()].lets_in) {
      text += unit.grapheme + " ";
    }
    return text;
  };
  EXPECT_EQ(let_in("dge"), "dg ");
  EXPECT_EQ(let_in("ph"), "pph ");
  EXPECT_EQ(let_in("ar"), "arr ");
  EXPECT_EQ(let_in("is_silent"), "le ais ");
  EXPECT_EQ(let_in("sh"), "");
  EXPECT_EQ(let_in("ai"), "");
}

// The rule of -ture, -sure marks the letter before what is taught: t of nature.
TEST(Patterns, LetInTheLettersThatTheRuleMarksBesideWhatIsTaught) {
  const Phonics& phonics = shared_phonics();
  const Pattern& ture =
      phonics.patterns()[phonics.patterns().find_exact("ture").value()];
  const auto unread = [&](std::string_view word) {
    std::string text;
    const auto reading = phonics.first_reading(word, Conventions{});
    for (const PatternPlace& place : reading->places) {
      if (place.pattern != phonics.patterns().find_exact("ture")) continue;
      for (const std::uint8_t i : place.units) {
        const Unit& unit = reading->units[i];
        text += unit.grapheme + (is_taught(ture, unit) ? " read " : " unread ");
      }
    }
    return text;
  };
  EXPECT_EQ(unread("nature"), "t read ");
  EXPECT_EQ(unread("treasure"), "s read ");
  EXPECT_EQ(unread("measuring"), "s read ");
}

}  // namespace
}  // namespace sheaf
