// Which dictated word an attempt is taken for when the record does not say:
// never a wrong one without asking, and seldom a question.

#include "marking/target_choice.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "marking/likely_errors.h"
#include "marking/written_word.h"
#include "unit/marking_data.h"

namespace sheaf {
namespace {

std::vector<DictatedItem> items_of(const std::vector<std::string>& texts) {
  std::vector<DictatedItem> items;
  for (const std::string& text : texts) {
    items.push_back(dictated_item(text, ground().phonics));
  }
  return items;
}

OfLearner<Attempt> attempts_of(const std::vector<std::string>& written) {
  OfLearner<Attempt> learner;
  learner.code.value = *LearnerCode::read("B7");
  for (const std::string& one : written) {
    Attempt attempt;
    const std::size_t sign = one.find('=');
    if (sign != std::string::npos) {
      attempt.target = PlacedText::chosen(one.substr(0, sign), {});
    }
    attempt.written = PlacedText::chosen(
        sign == std::string::npos ? one : one.substr(sign + 1), {});
    if (attempt.written.text() == ".") {
      attempt.written = {};
      attempt.blank = true;
    }
    learner.entries.push_back(attempt);
  }
  return learner;
}

RecordTargets find(const std::vector<std::string>& dictated,
                   const std::vector<std::string>& written) {
  return find_targets(attempts_of(written), items_of(dictated),
                      ground().spellings, ground().options);
}

// "rane -> rain; wate -> wait in We wait in the rain.; ? pla several: play"
std::string told(const std::vector<std::string>& dictated,
                 const std::vector<std::string>& written) {
  const RecordTargets targets = find(dictated, written);
  std::string text;
  for (const FoundTarget& found : targets.found) {
    text += (text.empty() ? "" : "; ") + found.written.text() + " -> " +
            found.word +
            (found.sentence.empty() ? "" : " in " + found.sentence);
  }
  for (const UnclearTarget& unclear : targets.unclear) {
    constexpr const char* kWhy[] = {"several", "none", "right", "taken",
                                    "in sentence"};
    text += (text.empty() ? "? " : "; ? ") + unclear.written.text() + " " +
            kWhy[static_cast<std::size_t>(unclear.why)];
    for (const std::string& word : unclear.words) text += " " + word;
  }
  return text;
}

struct Counts {
  int found = 0, wrong = 0, asked = 0;
  int all() const { return found + wrong + asked; }
};

void count(const std::vector<std::string>& dictated, const std::string& target,
           const std::string& written, Counts& counts) {
  const RecordTargets targets = find(dictated, {written});
  if (targets.found.empty()) {
    ++counts.asked;
  } else if (targets.found[0].word == target) {
    ++counts.found;
  } else {
    ++counts.wrong;
  }
}

const std::vector<std::vector<std::string>>& lessons() {
  static const std::vector<std::vector<std::string>> all = {
      {"rain", "day", "train", "play", "pain", "may", "It may rain on the bay.",
       "The train will wait a day."},
      {"kite", "ride", "smile", "five", "line", "side",
       "Hide the kite in the shed.", "It is time to ride the bike."},
      {"ship", "fish", "brush", "shelf", "shop", "crash",
       "The brush is in the shed.", "Gus got a fish from the ship."},
      {"back", "sick", "lock", "duck", "neck", "pack",
       "The duck is on the rock.", "Pick up the black sock."},
      {"hopped", "jumped", "landed", "wished", "planned", "mended",
       "Gran mended my red cap.", "We jumped into the pond."},
      {"night", "light", "high", "right", "sigh", "bright",
       "The light is bright.", "I might go at night."},
  };
  return all;
}

TEST(TargetChoice, LikelyErrorsOfLessonsAreFoundAndNeverTakenForAnother) {
  Counts counts;
  for (const std::vector<std::string>& lesson : lessons()) {
    for (const std::string& target : lesson) {
      if (target.find(' ') != std::string::npos) continue;
      LikelyErrorOptions options;
      options.is_word = ground().options.is_word;
      for (const LikelyError& error : likely_errors(
               ground().spellings, ground().read(target), options, 8)) {
        count(lesson, target, error.written, counts);
      }
    }
  }
  RecordProperty("found", counts.found);
  RecordProperty("asked", counts.asked);
  RecordProperty("wrong", counts.wrong);
  EXPECT_EQ(counts.wrong, 0);
}

TEST(TargetChoice, AttemptsLabelledByHandAreFoundAmongWordsOfTheirKind) {
  Counts counts;
  for (const char* file : {"marking_attempts.tsv", "marking_attempts_more.tsv",
                           "marking_children_words.tsv"}) {
    const std::vector<TableRow> rows = test_rows(file);
    std::vector<std::string> targets;
    for (const TableRow& row : rows) {
      const std::string target(row.cells[0]);
      if (targets.empty() || targets.back() != target) {
        targets.push_back(target);
      }
    }
    for (const TableRow& row : rows) {
      const std::string target(row.cells[0]), written(row.cells[1]);
      if (row.line < 4 && target == "target") continue;
      if (target.find_first_of(" |") != std::string::npos) continue;
      if (written.empty() || same_spelling(target, written)) continue;
      // The word with the eight that stand behind it in the file.
      const auto at = std::ranges::find(targets, target) - targets.begin();
      std::vector<std::string> dictated;
      for (std::size_t i = 0; i < 9; ++i) {
        const auto& word =
            targets[(static_cast<std::size_t>(at) + i) % targets.size()];
        if (std::ranges::find(dictated, word) == dictated.end())
          dictated.push_back(word);
      }
      count(dictated, target, written, counts);
    }
  }
  RecordProperty("found", counts.found);
  RecordProperty("asked", counts.asked);
  RecordProperty("wrong", counts.wrong);
  // bak is nearer to back than to bank: whoever lists both must say so.
  EXPECT_LE(counts.wrong, 1);
  EXPECT_GE(counts.all(), 690);
  EXPECT_LE(100 * counts.asked, 9 * counts.all());
}

const std::vector<std::string>& rain() {
  static const std::vector<std::string> list = {"rain",
                                                "day",
                                                "train",
                                                "play",
                                                "pain",
                                                "may",
                                                "It may rain on the bay.",
                                                "The train will wait a day."};
  return list;
}

TEST(TargetChoice, FindsWordsOfTheListAndOfSentences) {
  EXPECT_EQ(told(rain(), {"rane", "trane"}), "rane -> rain; trane -> train");
  EXPECT_EQ(told(rain(), {"wate"}),
            "wate -> wait in The train will wait a day.");
  EXPECT_EQ(told(rain(), {"RANE", "  plai "}), "RANE -> rain;   plai  -> play");
  // A whole sentence, however it is spelled.
  EXPECT_EQ(told(rain(), {"the tran wil wate a day"}),
            "the tran wil wate a day -> The train will wait a day.");
}

TEST(TargetChoice, AsksWhatItCannotTell) {
  EXPECT_EQ(told(rain(), {"pay"}), "? pay several bay day play may");
  EXPECT_EQ(told(rain(), {"xqzzk"}), "? xqzzk none");
  // Listed as an error, a word that is spelled right was another one.
  EXPECT_EQ(told(rain(), {"rain"}).substr(0, 13), "? rain right ");
  // Nothing can be near to these.
  for (const char* odd : {"", "?", "7", "----", "\xff\xfe"}) {
    EXPECT_TRUE(told(rain(), {odd}).starts_with("? ")) << odd;
  }
}

// The word that shows how one is named was dictated and has room for an
// attempt, whatever is asked.
TEST(TargetChoice, ShowsANameThatWasDictated) {
  const auto example = [](const std::vector<std::string>& dictated,
                          const std::vector<std::string>& written) {
    const RecordTargets targets = find(dictated, written);
    EXPECT_EQ(targets.unclear.size(), 1U);
    return targets.unclear.empty() ? "-" : targets.unclear[0].example;
  };
  EXPECT_EQ(example({"rain", "tail"}, {"xqzzk"}), "tail");
  EXPECT_EQ(example({"rain", "tail"}, {"rain"}), "tail");
  // `rain` has its attempt, so it is no example; then none is left.
  EXPECT_EQ(example({"rain", "tail"}, {"rane", "rayn"}), "tail");
  EXPECT_EQ(example({"rain"}, {"rane", "rayn"}), "");
  EXPECT_EQ(example({"rain", "tail"}, {"rane", "tale", "xqzzk"}), "");
}

// Each place takes one attempt: the list, then the sentences in their order.
TEST(TargetChoice, GivesEachPlaceOneAttempt) {
  EXPECT_EQ(told(rain(), {"rane", "rayn"}),
            "rane -> rain; rayn -> rain in It may rain on the bay.");
  EXPECT_EQ(told(rain(), {"rane", "rayn", "rean"}),
            "rane -> rain; rayn -> rain in It may rain on the bay.; "
            "? rean taken rain");
  EXPECT_EQ(told(rain(), {"plai", "plae"}), "plai -> play; ? plae taken play");
  // What is named takes its place first, and is not asked about again.
  EXPECT_EQ(told({"back", "pack"}, {"bak"}), "bak -> back");
  EXPECT_EQ(told({"chip", "ship", "shop"}, {"ship=sip", "shep"}),
            "shep -> shop");
}

TEST(TargetChoice, MakesASentenceOfItsWords) {
  const RecordTargets targets =
      find(rain(), {"wate", "will=.", "trian", "trane"});
  ASSERT_TRUE(targets.unclear.empty()) << told(rain(), {"wate"});
  const auto& entries = targets.record.wrong[0].entries;
  ASSERT_EQ(entries.size(), 2U);
  EXPECT_EQ(entries[0].target.text(), "train");
  EXPECT_EQ(entries[0].written.text(), "trian");
  EXPECT_EQ(entries[1].target.text(), "The train will wait a day.");
  EXPECT_EQ(entries[1].written.text(), "The trane  wate a day.");
}

TEST(TargetChoice, DoesNotTakeASentenceTwice) {
  EXPECT_EQ(told(rain(), {"the tran wil wate a day", "wayt"}),
            "the tran wil wate a day -> The train will wait a day.; "
            "? wayt in sentence wait");
}

// Of learners who were not marked the rest is not known, so nothing is said of
// the sentence.
TEST(TargetChoice, LeavesANamedWordAloneWhereTheRestIsNotKnown) {
  Record record;
  record.wrong.push_back(attempts_of({"wait=wate"}));
  const RecordTargets targets = find_targets(
      record, items_of(rain()), ground().spellings, ground().options);
  EXPECT_EQ(targets.record.wrong[0].entries[0].target.text(), "wait");
}

}  // namespace
}  // namespace sheaf
