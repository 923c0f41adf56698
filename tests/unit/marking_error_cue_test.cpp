// What a teacher is told to say to an error: the kind of cue, the rule, and
// where in the word the sound stands.

#include <fmt/format.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "marking/error_cue.h"
#include "marking/sound_place.h"
#include "marking_data.h"

namespace sheaf {
namespace {

const CueRules& rules() {
  static const CueRules rules(ground().phonics);
  return rules;
}

ErrorCue cue_of(std::string_view target, std::string_view written) {
  return first_cue(ground().read(target), ground().mark(target, written),
                   &rules(), Conventions{});
}

bool has(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

// The table was written before the program was asked and is not tuned to: cage
// written cadge keeps its a_e here, and the rule of bench and beach is that of
// their own pattern, ch_final, where the table says tch.
TEST(ErrorCue, IsThatOfTheTable) {
  int rows = 0, labels = 0, kinds = 0, said = 0;
  std::string others;
  for (const TableRow& row : test_rows("marking_cues.tsv")) {
    ++rows;
    const std::string found =
        labels_text(ground().mark(row.cell(0), row.cell(1)));
    const ErrorCue cue = cue_of(row.cell(0), row.cell(1));
    const std::string_view kind = cue_kind_name(cue.kind);
    const std::string_view rule = cue.rule.empty() ? "-" : cue.rule;
    labels += found == row.cell(2) ? 1 : 0;
    kinds += kind == row.cell(3) ? 1 : 0;
    said += rule == row.cell(4) ? 1 : 0;
    if (found == row.cell(2) && kind == row.cell(3) && rule == row.cell(4)) {
      continue;
    }
    others += fmt::format("{} {}: {} {} {}\n", row.cell(0), row.cell(1), found,
                          kind, rule);
  }
  EXPECT_EQ(rows, 209);
  EXPECT_EQ(labels, 208) << others;
  EXPECT_EQ(kinds, 209) << others;
  EXPECT_EQ(said, 206) << others;
}

// Nobody can hear the difference between the two, so the cue does not say that
// it is one way to write the word.
TEST(ErrorCue, SaysThatItIsAnotherWord) {
  for (const auto& [word, written] :
       {std::pair{"mail", "male"}, {"sail", "sale"}, {"plain", "plane"}}) {
    const ErrorCue cue = cue_of(word, written);
    EXPECT_EQ(cue.kind, CueKind::other_word) << word;
    EXPECT_TRUE(has(cue.text, "a different one")) << cue.text;
    EXPECT_FALSE(has(cue.text, "one way to write it")) << cue.text;
    EXPECT_FALSE(has(cue.text, written)) << cue.text;
  }
  EXPECT_EQ(cue_of("rain", "rane").kind, CueKind::other_way);
  // A sentence says which of the two it is.
  const Reading mail = ground().read("mail");
  const ErrorCue told = error_cue(
      mail, {1, Cause::other_spelling, "a_e", true, "The mail came late."},
      &rules(), Conventions{});
  EXPECT_TRUE(has(told.text, "The mail came late.")) << told.text;
}

// brige and doge are read with a long vowel.
TEST(ErrorCue, HasWhatSaysAnotherWordReadBack) {
  for (const auto& [word, written] : {std::pair{"bridge", "brige"},
                                      {"dodge", "doge"},
                                      {"duck", "duke"},
                                      {"happy", "hapy"},
                                      {"hop", "hope"},
                                      {"cake", "cak"},
                                      {"castle", "casle"}}) {
    const ErrorCue cue = cue_of(word, written);
    EXPECT_TRUE(cue.text.starts_with("“Read me what you wrote.”")) << cue.text;
    EXPECT_FALSE(has(cue.text, "one way to write it")) << cue.text;
  }
  EXPECT_EQ(cue_of("bridge", "brige").text,
            "“Read me what you wrote.” Wait. “We want /i/. Right after a short "
            "vowel, we write dge.” Show dge.");
  EXPECT_TRUE(has(cue_of("rain", "rane").text, "one way to write it"));
}

TEST(ErrorCue, SpeaksOfTheMiddleSoundWhereThereIsOne) {
  const auto place = [](std::string_view word, std::size_t unit) {
    const SoundPlace at = sound_place(ground().read(word), unit, Conventions{});
    return at.beat.empty() ? at.sound : at.beat + ": " + at.sound;
  };
  EXPECT_EQ(place("ship", 0), "the first sound");
  EXPECT_EQ(place("ship", 1), "the middle sound");
  EXPECT_EQ(place("ship", 2), "the last sound");
  EXPECT_EQ(place("stop", 1), "the sound after /s/");
  EXPECT_EQ(place("stop", 2), "the sound after /t/");
  EXPECT_EQ(place("six", 1), "the sound after /s/");
  EXPECT_EQ(place("six", 2), "the last sounds");
  EXPECT_EQ(place("me", 1), "the last sound");
  EXPECT_EQ(place("napkin", 1), "first: the sound after /n/");
  EXPECT_EQ(place("napkin", 3), "second: the first sound");
  EXPECT_EQ(place("napkin", 5), "second: the last sound");
  EXPECT_EQ(place("about", 0), "first: ");
  EXPECT_EQ(place("animal", 5), "third: the last sound");
  for (const ListedWord& word : ground().words) {
    if (!word.everyday) continue;
    const Reading reading = ground().read(word.spelling);
    for (std::size_t i = 0; i < reading.units.size(); ++i) {
      for (const Cause cause :
           {Cause::near_sound, Cause::sound_lost, Cause::left_out}) {
        const std::string text =
            error_cue(reading, {i, cause, "x"}, &rules(), {}).text;
        const bool middle = has(text, "middle sound");
        EXPECT_TRUE(!middle ||
                    (reading.syllables() == 1 && reading.boxes() == 3))
            << text;
        EXPECT_EQ(has(text, " in beats."), reading.syllables() > 1) << text;
      }
    }
  }
}

TEST(ErrorCue, AsksForTheVowelLetterOfEveryBeat) {
  for (const auto& [word, written] : {std::pair{"winter", "wintr"},
                                      {"sister", "sistr"},
                                      {"after", "aftr"},
                                      {"garden", "gardn"},
                                      {"bottle", "bottl"},
                                      {"wanted", "wantd"}}) {
    EXPECT_TRUE(
        has(cue_of(word, written).text, "Every beat needs a vowel letter."))
        << word;
  }
}

// The rule must be true of the word.
TEST(CueRules, HoldForTheWordOrAreNotSaid) {
  for (const auto& [word, written] : {std::pair{"much", "mutch"},
                                      {"rich", "ritch"},
                                      {"lemon", "lemmon"},
                                      {"music", "musick"},
                                      {"bus", "buss"},
                                      {"of", "ov"},
                                      {"rain", "rane"},
                                      {"out", "owt"},
                                      {"loud", "lowd"}}) {
    EXPECT_TRUE(cue_of(word, written).rule.empty())
        << word << ": " << cue_of(word, written).text;
  }
}

TEST(CueRules, AreShortSentences) {
  EXPECT_GE(cue_rules().size(), 40U);
  for (std::size_t i = 0; i < cue_rules().size(); ++i) {
    const CueRule& rule = cue_rules()[i];
    EXPECT_EQ(rules().fault(i), "");
    EXPECT_FALSE(rule.errors.empty()) << rule.text;
    EXPECT_FALSE(rule.source.empty()) << rule.text;
    EXPECT_TRUE(rule.text.ends_with('.')) << rule.text;
    EXPECT_LE(rule.text.size(), 80U) << rule.text;
    EXPECT_EQ(std::ranges::count(rule.text, '.'), 1) << rule.text;
  }
}

// No row stands in vain: each is said of some common word.
TEST(CueRules, AreEachSaidOfSomeWord) {
  std::set<std::string_view> said;
  for (const ListedWord& word : ground().words) {
    if (!word.everyday && word.tier > 20) continue;
    const Reading reading = ground().read(word.spelling);
    for (const CueRule& rule : cue_rules()) {
      if (said.contains(rule.text)) continue;
      for (std::size_t i = 0; i < reading.units.size(); ++i) {
        for (const std::string_view error : rule.errors) {
          Cause cause = Cause::other_spelling;
          for (std::size_t k = 0; k < kCauseCount; ++k) {
            if (cause_name(static_cast<Cause>(k)) == error) {
              cause = static_cast<Cause>(k);
            }
          }
          said.insert(rules().find(reading, i, cause, error).text);
        }
      }
    }
  }
  for (const CueRule& rule : cue_rules()) {
    EXPECT_TRUE(said.contains(rule.text)) << rule.text;
  }
}

TEST(ErrorCue, SaysSomethingForEveryCause) {
  const Reading word = ground().read("hopping");
  const auto text = [&](Cause cause, const CueRules* with) {
    return error_cue(word, {2, cause, "p"}, with, Conventions{}).text;
  };
  for (std::size_t i = 1; i < kCauseCount; ++i) {
    EXPECT_FALSE(text(static_cast<Cause>(i), &rules()).empty());
    EXPECT_FALSE(text(static_cast<Cause>(i), nullptr).empty());
  }
  EXPECT_TRUE(text(Cause::none, &rules()).empty());
  EXPECT_EQ(text(Cause::doubling, &rules()),
            "“Say hop, then hopping. One short vowel, one last letter: double "
            "it before the ending.”");
  EXPECT_EQ(cue_of("hoped", "hopped").text,
            "“Read me what you wrote.” Wait. “Which word is hoped made from? "
            "After a long vowel, the last letter stays single.” Show p.");
}

TEST(ErrorCue, IsForTheFirstErrorFromTheLeft) {
  EXPECT_EQ(cue_of("ship", "ship").kind, CueKind::none);
  EXPECT_EQ(cue_of("ship", "").kind, CueKind::none);
  EXPECT_EQ(cue_of("don't", "dont").kind, CueKind::apostrophe);
  EXPECT_EQ(cue_of("slip", "silib").kind, CueKind::extra);
  EXPECT_EQ(cue_of("picture", "picher").kind, CueKind::missing);
}

// Never the wrong spelling itself.
TEST(ErrorCue, DoesNotShowTheWrongSpelling) {
  for (const TableRow& row : test_rows("marking_cues.tsv")) {
    const std::string text = cue_of(row.cell(0), row.cell(1)).text;
    // hop and hopping, hope and hop: the base is a word of its own.
    if (text.starts_with("“Say ")) continue;
    EXPECT_FALSE(has(text, fmt::format(" {} ", row.cell(1)))) << text;
  }
}

}  // namespace
}  // namespace sheaf
