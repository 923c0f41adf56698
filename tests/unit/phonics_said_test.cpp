// What is said of a word is settled when its reading is made: its sounds, the
// sound of one of its graphemes and the names of both are the same everywhere.
// Values are from memory of the accents unless a row says otherwise.

#include <gtest/gtest.h>

#include <algorithm>

#include "phonics/explain.h"
#include "phonics/notation.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

constexpr Accent kAccents[] = {Accent::general_american, Accent::british,
                               Accent::scottish, Accent::australian};

std::string said(std::string_view word, Accent accent,
                 Notation notation = Notation::plain) {
  Conventions conventions = conventions_for(accent);
  conventions.notation = notation;
  return sounds_text(shared_phonics().read(word, conventions).front(),
                     conventions);
}

TEST(Said, ShortOIsASoundOfItsOwnInEveryAccent) {
  for (const Accent accent : kAccents) {
    EXPECT_EQ(said("dog", accent), "/d/ /o/ /g/");
    EXPECT_EQ(said("soft", accent), "/s/ /o/ /f/ /t/");
    EXPECT_EQ(said("pond", accent), "/p/ /o/ /n/ /d/");
    EXPECT_EQ(said("swan", accent), "/s/ /w/ /o/ /n/");
    EXPECT_EQ(said("yacht", accent), "/y/ /o/ /t/");
    EXPECT_EQ(said("John", accent), "/j/ /o/ /n/");
  }
  EXPECT_EQ(said("dog", Accent::general_american, Notation::ipa),
            "/d/ /ɑ/ /ɡ/");
  EXPECT_EQ(said("dog", Accent::british, Notation::ipa), "/d/ /ɒ/ /ɡ/");
  EXPECT_EQ(said("dog", Accent::scottish, Notation::ipa), "/d/ /ɔ/ /ɡ/");
}

TEST(Said, WasHasOneVowelInAnAccent) {
  EXPECT_EQ(said("was", Accent::general_american), "/w/ /u/ /z/");
  EXPECT_EQ(said("what", Accent::general_american), "/w/ /u/ /t/");
  EXPECT_EQ(said("of", Accent::general_american), "/u/ /v/");
  EXPECT_EQ(said("was", Accent::british), "/w/ /o/ /z/");
  EXPECT_EQ(said("what", Accent::scottish), "/wh/ /o/ /t/");
  EXPECT_EQ(said("of", Accent::scottish), "/o/ /v/");
}

TEST(Said, CotAndCaughtAreOneWhereTheyAreMerged) {
  EXPECT_EQ(said("saw", Accent::scottish), "/s/ /o/");
  EXPECT_EQ(said("ball", Accent::scottish), "/b/ /o/ /l/");
  EXPECT_EQ(said("fork", Accent::scottish), "/f/ /or/ /k/");
  EXPECT_EQ(said("story", Accent::scottish), "/s/ /t/ /o/ /r/ /ee/");
  EXPECT_EQ(said("saw", Accent::general_american), "/s/ /aw/");
}

TEST(Said, WeakErHasItsRWhereItIsSaid) {
  EXPECT_EQ(said("sister", Accent::general_american), "/s/ /i/ /s/ /t/ /er/");
  EXPECT_EQ(said("sister", Accent::scottish), "/s/ /i/ /s/ /t/ /er/");
  EXPECT_EQ(said("sister", Accent::british), "/s/ /i/ /s/ /t/ /uh/");
  EXPECT_EQ(said("bird", Accent::british), "/b/ /er/ /d/");
  EXPECT_TRUE(said("firework", Accent::british).ends_with("/w/ /er/ /k/"));
  EXPECT_EQ(said("sister", Accent::general_american, Notation::ipa),
            "/s/ /ɪ/ /s/ /t/ /ɚ/");
  EXPECT_EQ(said("bird", Accent::general_american, Notation::ipa),
            "/b/ /ɝ/ /d/");
  EXPECT_EQ(said("sister", Accent::australian, Notation::ipa),
            "/s/ /ɪ/ /s/ /t/ /ə/");
}

// Whatever names a grapheme's sound says what the word's sounds say. An r that
// stands by itself between vowels is named with its vowel or apart from it.
TEST(Said, NameOfAGraphemesSoundIsThatOfItsBoxes) {
  for (const Accent accent : kAccents) {
    const Conventions conventions = conventions_for(accent);
    int units = 0;
    shared_phonics().each_word(
        0, conventions, [&](const Reading& reading, const WordInfo&) {
          for (std::size_t i = 0; i < reading.units.size(); ++i) {
            const Unit& unit = reading.units[i];
            std::string boxes;
            int parts = 0;
            for (const Sound& sound : reading.sounds) {
              if (sound.unit != i) continue;
              boxes += sound_name(sound.phonemes, conventions);
              ++parts;
            }
            if (parts > 1 && unit.phonemes.back() == Phoneme::r) continue;
            ++units;
            std::string name = sound_name(unit.phonemes, conventions);
            std::erase(name, '+');
            EXPECT_EQ(name, boxes) << reading.word << ", " << unit.grapheme;
          }
          return true;
        });
    EXPECT_GT(units, 5000);
  }
}

TEST(Said, SoundsSideBySideAreReadAsTheyAreMeant) {
  using P = Phoneme;
  const Conventions usual, british = conventions_for(Accent::british);
  const auto name = [](std::vector<P> sounds, const Conventions& c) {
    return sound_name(sounds, c);
  };
  EXPECT_EQ(name({P::k, P::s}, usual), "ks");
  EXPECT_EQ(name({P::ih, P::d}, usual), "id");
  EXPECT_EQ(name({P::y, P::uw}, usual), "yoo");
  // The r of hurry and squirrel, as British says it, is no part of er or ear.
  EXPECT_EQ(name({P::ah, P::r}, british), "u+r");
  EXPECT_EQ(name({P::ih, P::r}, british), "i+r");
  EXPECT_EQ(name({P::ih, P::r}, usual), "ear");
  EXPECT_EQ(read_sound("u+r"), (std::vector{P::ah, P::r}));
}

TEST(Said, KeyHasEachSignOnceAndNoneThatTheAccentLacks) {
  for (const Accent accent : kAccents) {
    for (const Notation notation :
         {Notation::plain, Notation::marks, Notation::ipa}) {
      Conventions conventions = conventions_for(accent);
      conventions.notation = notation;
      std::set<std::string> signs;
      for (const NotationKeyLine& line : notation_key(conventions)) {
        EXPECT_TRUE(signs.insert(line.sign).second) << line.sign;
        const Reading reading =
            shared_phonics().read(line.word, conventions).front();
        EXPECT_TRUE(std::ranges::any_of(
            reading.units,
            [&](const Unit& unit) {
              return sound_name(unit.phonemes, conventions) == line.sign;
            }))
            << "/" << line.sign << "/ " << line.word << " "
            << sounds_text(reading, conventions);
      }
    }
  }
  const auto has = [](Accent accent, std::string_view sign) {
    const auto key = notation_key(conventions_for(accent));
    return std::ranges::find(key, sign, &NotationKeyLine::sign) != key.end();
  };
  EXPECT_TRUE(has(Accent::general_american, "aw"));
  EXPECT_FALSE(has(Accent::scottish, "aw"));
  EXPECT_FALSE(has(Accent::british, "ah"));
  EXPECT_TRUE(has(Accent::scottish, "wh"));
  EXPECT_FALSE(has(Accent::british, "wh"));
}

std::string said_by_hand(std::string_view word,
                         const std::vector<HandUnit>& parts,
                         Accent accent = Accent::general_american) {
  const Conventions conventions = conventions_for(accent);
  const HandReading hand =
      shared_phonics().read_by_hand(word, parts, conventions);
  EXPECT_EQ(hand.fault, "") << word;
  return sounds_text(hand.reading, conventions);
}

TEST(Said, WhatATeacherGivesStays) {
  EXPECT_EQ(said_by_hand("dog", {{"d", ""}, {"o", ""}, {"g", ""}}),
            "/d/ /o/ /g/");
  EXPECT_EQ(said_by_hand("dog", {{"d", ""}, {"o", "aw"}, {"g", ""}}),
            "/d/ /aw/ /g/");
  EXPECT_EQ(said_by_hand("was", {{"w", ""}, {"a", "o"}, {"s", "z"}}),
            "/w/ /o/ /z/");
  EXPECT_EQ(
      said_by_hand("sausage",
                   {{"s", ""}, {"au", "o"}, {"s", ""}, {"a", "i"}, {"ge", "j"}},
                   Accent::british),
      "/s/ /o/ /s/ /i/ /j/");
  EXPECT_EQ(
      said_by_hand("sister",
                   {{"s", ""}, {"i", ""}, {"s", ""}, {"t", ""}, {"er", "er"}},
                   Accent::british),
      "/s/ /i/ /s/ /t/ /er/");
}

// The split of a word in the accents' own sounds reads back as the word.
TEST(Said, SplitLineNamesTheSoundsThatItMeans) {
  const Reading was = shared_phonics().read("was", {}).front();
  EXPECT_EQ(split_line(was), "was: w a=/u/ s");
  const Conventions british = conventions_for(Accent::british);
  // There the a behind w says what it usually does.
  EXPECT_EQ(split_line(shared_phonics().read("was", british).front()),
            "was: w a s");
  EXPECT_EQ(
      said_by_hand("was", {{"w", ""}, {"a", ""}, {"s", ""}}, Accent::british),
      "/w/ /o/ /z/");
  EXPECT_EQ(split_line(shared_phonics().read("John", {}).front()),
            "John: j oh=/o/ n");
}

std::string why_not(std::string_view word, std::string_view id,
                    Accent accent = Accent::general_american) {
  const Conventions conventions = conventions_for(accent);
  const PatternCatalogue& all = shared_phonics().patterns();
  const Pattern* pattern = all.by_id(id);
  EXPECT_NE(pattern, nullptr) << id;
  const Reading reading = shared_phonics().read(word, conventions).front();
  return shared_phonics().why_not(reading, all.id_of(*pattern), conventions);
}

TEST(Said, WhyAWordLacksAPatternIsSaidWithItsOwnSounds) {
  EXPECT_EQ(why_not("was", "wa"), "its a says /u/");
  EXPECT_EQ(why_not("was", "wa", Accent::british), "its a says /o/");
  EXPECT_EQ(why_not("watch", "short_a"), "its a says /o/");
  // The vowel of dog is not spelled /aw/ here, whatever the word list says.
  EXPECT_EQ(why_not("dog", "aw"), "it has short o (d o g)");
  EXPECT_EQ(why_not("ball", "aw"), "it spells /aw/ with a");
  EXPECT_EQ(why_not("ball", "aw", Accent::british), "it spells /or/ with a");
}

TEST(Said, ATaughtGraphemeSaysWhatAWordOfThePatternSays) {
  const PatternCatalogue& all = shared_phonics().patterns();
  const auto taught = [&](std::string_view id, std::size_t index,
                          Accent accent) {
    const Conventions conventions = conventions_for(accent);
    const Pattern* pattern = all.by_id(id);
    const auto found = shared_phonics().taught_sound(
        all.id_of(*pattern), pattern->teaches[index], conventions);
    return sound_name(found.phonemes, conventions);
  };
  EXPECT_EQ(taught("short_o", 0, Accent::general_american), "o");
  EXPECT_EQ(taught("short_o", 1, Accent::general_american), "o");
  EXPECT_EQ(taught("wa", 0, Accent::general_american), "o");
  EXPECT_EQ(taught("ar", 0, Accent::british), "ar");
  EXPECT_EQ(taught("aw", 0, Accent::scottish), "o");
  EXPECT_EQ(taught("er_final", 0, Accent::british), "uh");
  EXPECT_EQ(taught("wh", 0, Accent::scottish), "wh");
  EXPECT_EQ(taught("wor", 0, Accent::british), "er");
}

}  // namespace
}  // namespace sheaf
