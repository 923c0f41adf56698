// From day to day: when a pattern is learned, and when it has slipped.

#include "marking/progress.h"

#include <gtest/gtest.h>

#include <algorithm>

#include <fmt/format.h>

#include <algorithm>

#include "learner_codes.h"
#include "marking/calendar.h"
#include "marking_data.h"

namespace sheaf {
namespace {

using State = ProgressState;

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    words.emplace_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return words;
}

// Small numbers, so that a term can be worked by hand.
ProgressRules small() {
  ProgressRules rules;
  rules.secure_misses = 1;
  rules.secure_chances = 12;
  return rules;
}

// One learner's term, a day a line: date, kind, lesson, what was dictated,
// what of it was wrong.
class Term {
 public:
  Term& day(std::string_view date, std::string_view kind,
            std::string_view lesson, std::string_view dictated,
            std::string_view wrong = "", std::string_view more = "",
            std::string_view sight_words = "") {
    // B7 is marked, unless the day says something else of that.
    const bool other = more.find("marked:") != std::string_view::npos ||
                       more.find("absent:") != std::string_view::npos;
    std::string text =
        fmt::format("date: {}\nkind: {}\nlesson: {}\n{}{}", date, kind, lesson,
                    other ? "" : "marked: B7\n", more);
    if (!wrong.empty()) text += fmt::format("wrong: {{B7: {{{}}}}}\n", wrong);
    const SourceFile file("record.yaml", text);
    Diagnostics d;
    const RecordFile records = read_record(file, d);
    EXPECT_EQ(to_text(d), "");
    std::vector<DictatedItem> items;
    for (const std::string& word : words_of(dictated)) {
      items.push_back(dictated_item(word, ground().phonics));
    }
    sessions_.push_back(mark_session(records.records.at(0), {}, items,
                                     ground().spellings, ground().phonics,
                                     ground().options));
    for (const std::string& word : words_of(sight_words)) {
      sessions_.back().sight_words.insert(word);
    }
    return *this;
  }

  LearnerProgress progress(const ProgressRules& rules = small()) const {
    const TaughtLesson lessons[] = {
        {"ai",
         {ground().pattern("ai")},
         {"rain", "tail", "snail", "paint", "train", "wait"}},
        {"oa", {ground().pattern("oa")}, {"boat", "road"}}};
    const auto all =
        class_progress(sessions_, lessons, ground().phonics.patterns(), rules);
    const auto b7 =
        std::ranges::find(all, code_of("B7"), &LearnerProgress::code);
    EXPECT_NE(b7, all.end());
    return b7 == all.end() ? LearnerProgress{} : *b7;
  }
  PatternProgress of(std::string_view pattern,
                     const ProgressRules& rules = small()) const {
    const LearnerProgress all = progress(rules);
    const PatternProgress* found = all.find(ground().pattern(pattern));
    EXPECT_NE(found, nullptr);
    return found == nullptr ? PatternProgress{} : *found;
  }

 private:
  std::vector<SessionResult> sessions_;
};

Term good_week() {
  Term term;
  term.day("2026-03-02", "dictation", "ai", "rain tail snail paint",
           "rain: rane");
  term.day("2026-03-04", "dictation", "ai", "rain tail snail train wait");
  term.day("2026-03-06", "transfer", "ai", "drain sail");
  return term;
}

// All worked by hand from the rules.
TEST(Progress, GoesOnBeforeItIsSecure) {
  Term term;
  term.day("2026-03-02", "dictation", "ai", "rain tail snail paint",
           "rain: rane, tail: tale");
  EXPECT_EQ(term.of("ai").state, State::practising);  // 2 of 4: too few
  EXPECT_EQ(term.of("ai").week.text(), "2/4");
  const PatternProgress week = good_week().of("ai");
  EXPECT_EQ(week.state, State::go_on);
  EXPECT_EQ(week.all, (Share{10, 11}));
  EXPECT_EQ(week.new_words, (Share{2, 2}));
  EXPECT_EQ(week.days, 3);
  EXPECT_EQ(week.later, (Share{0, 0}));
  EXPECT_EQ(
      week.why,
      "10/11 (91%), likely 68 to 98%, in its latest week; still needed to "
      "be secure: 1 word, 2 new, a check from 2026-03-16");
  EXPECT_EQ(week.needed, "1 word, 2 new, a check from 2026-03-16");
  EXPECT_EQ(week.window, week.week);
}

TEST(Progress, IsSecureAfterTwoWeeks) {
  // 13 days after: all but the time.
  Term early = good_week();
  early.day("2026-03-15", "retention", "ai", "nail trail");
  EXPECT_EQ(early.of("ai").state, State::go_on);
  Term term = good_week();
  term.day("2026-03-16", "retention", "ai", "nail trail");
  const PatternProgress secure = term.of("ai");
  EXPECT_EQ(secure.state, State::secure);
  EXPECT_EQ(secure.later, (Share{2, 2}));
  EXPECT_EQ(*secure.secure_since, (Date{2026, 3, 16}));
  EXPECT_EQ(secure.points.back().state, State::secure);
  EXPECT_EQ(secure.points[2].state, State::go_on);
  // One miss more is one too many for thirteen.
  Term miss = good_week();
  miss.day("2026-03-16", "retention", "ai", "nail trail", "nail: nale");
  EXPECT_NE(miss.of("ai").state, State::secure);
  // Without new words a list may have been learned by heart.
  Term list;
  list.day("2026-03-02", "dictation", "ai", "rain tail snail paint train");
  list.day("2026-03-04", "dictation", "ai", "rain tail snail paint train");
  list.day("2026-03-18", "retention", "ai", "rain tail snail paint train");
  EXPECT_EQ(list.of("ai").state, State::go_on);
  EXPECT_EQ(list.of("ai").why,
            "5/5 (100%), likely 65 to 100%, in its latest week; still needed "
            "to be secure: 4 new");
}

TEST(Progress, ThreeMissesCloseTogetherMeanCheckAgain) {
  Term term = good_week();
  term.day("2026-03-16", "retention", "ai", "nail trail");
  term.day("2026-03-30", "dictation", "oa", "boat road rain", "rain: rane");
  EXPECT_EQ(term.of("ai").state, State::secure) << "one miss is none";
  term.day("2026-04-02", "retention", "ai", "nail sail paint",
           "nail: nale, sail: sale");
  const PatternProgress slipped = term.of("ai");
  EXPECT_EQ(slipped.state, State::check_again);
  EXPECT_EQ(*slipped.slipped_on, (Date{2026, 4, 2}));
  EXPECT_FALSE(slipped.secure_since.has_value());
  EXPECT_FALSE(slipped.unseen);
  // The latest days with twelve words: 5, 2, 2, 1 and 3, three of them wrong.
  EXPECT_EQ(slipped.window, (Share{10, 13}));
  EXPECT_EQ(slipped.window_days, 5);
  EXPECT_EQ(slipped.why,
            "10/13 (77%), likely 54 to 90%, on the latest 5 days; was secure "
            "until 2026-04-02; still needed to be secure: 12 words, 3 days, 4 "
            "new, a check from 2026-03-16");
  // The rule for secure makes it secure again, and nothing less.
  term.day("2026-04-10", "retention", "ai", "mail hail brain chain rain tail");
  term.day("2026-04-14", "retention", "ai", "snail train wait");
  EXPECT_EQ(term.of("ai").state, State::check_again);
  term.day("2026-04-17", "retention", "ai", "paint rain tail");
  EXPECT_EQ(term.of("ai").state, State::secure);
  EXPECT_EQ(*term.of("ai").secure_since, (Date{2026, 4, 17}));
  EXPECT_EQ(term.of("ai").why,
            "12/12 (100%), likely 82 to 100%, on the latest 3 days; last seen "
            "2026-04-17");
  // The other lesson's pattern has a history of its own.
  EXPECT_EQ(term.of("oa").taught, (Date{2026, 3, 30}));
  EXPECT_EQ(term.of("oa").all, (Share{2, 2}));
}

// What others wrote later tells the day, where no day is given.
TEST(Progress, KnowsOnWhichDayItIsAsked) {
  Term term = good_week();
  term.day("2026-03-16", "retention", "ai", "nail trail");
  term.day("2026-05-11", "dictation", "oa", "boat", "", "marked: C3\n");
  EXPECT_EQ(term.of("ai").state, State::secure) << "eight weeks to the day";
  term.day("2026-05-12", "dictation", "oa", "road", "", "marked: C3\n");
  const PatternProgress unseen = term.of("ai");
  EXPECT_EQ(unseen.state, State::check_again);
  EXPECT_TRUE(unseen.unseen);
}

TEST(Progress, KnowsAListThatWasLearnedByHeart) {
  Term term;
  term.day("2026-03-02", "dictation", "ai", "rain tail snail paint train");
  term.day("2026-03-06", "transfer", "ai", "drain sail mail",
           "drain: drane, sail: sale, mail: male");
  const PatternProgress ai = term.of("ai");
  EXPECT_EQ(ai.listed, (Share{5, 5}));
  EXPECT_EQ(ai.new_words, (Share{0, 3}));
  EXPECT_TRUE(by_heart(ai));
  EXPECT_EQ(ai.needed, "list 5/5, new words 0/3: perhaps known by heart");
  EXPECT_EQ(ai.why,
            "5/8 (63%), likely 35 to 84%, in its latest week; " + ai.needed);

  Term both;
  both.day("2026-03-02", "dictation", "ai", "rain tail snail paint train",
           "rain: rane, tail: tale, snail: snale");
  both.day("2026-03-06", "transfer", "ai", "drain sail mail",
           "drain: drane, sail: sale, mail: male");
  EXPECT_FALSE(by_heart(both.of("ai"))) << "the list is not known either";
  EXPECT_FALSE(by_heart(good_week().of("ai"))) << "too few new words to say";
}

TEST(Progress, WritingCounts) {
  Term term = good_week();
  term.day("2026-03-16", "retention", "ai", "nail trail");
  term.day("2026-03-20", "writing", "ai", "", "", "writing: {B7: {ai: 2/5}}\n");
  const PatternProgress progress = term.of("ai");
  EXPECT_EQ(progress.writing, (Share{2, 5}));
  EXPECT_EQ(progress.state, State::check_again);
  EXPECT_EQ(progress.points.back().kind, Record::Kind::writing);
}

// Rain and train were learned as wholes: what is left is tail and snail.
TEST(Progress, WordsKnownBySightShowNothing) {
  Term term;
  term.day("2026-03-02", "dictation", "ai", "rain tail train snail",
           "train: trane, snail: snale", "", "rain train");
  EXPECT_EQ(term.of("ai").all, (Share{1, 2}));
  // A pattern of which only such words were written has no row at all.
  Term sight;
  sight.day("2026-03-02", "dictation", "ai", "rain train boat", "", "",
            "rain train");
  EXPECT_EQ(sight.progress().find(ground().pattern("ai")), nullptr);
}

TEST(Progress, AWordIsNewOnce) {
  Term term;
  term.day("2026-03-02", "dictation", "ai", "rain tail");
  term.day("2026-03-06", "transfer", "ai", "drain sail");
  term.day("2026-03-16", "retention", "ai", "drain sail nail");
  term.day("2026-03-20", "transfer", "ai", "drain rain");
  EXPECT_EQ(term.of("ai").all, (Share{9, 9}));
  EXPECT_EQ(term.of("ai").new_words, (Share{3, 3}));  // drain, sail, nail
}

TEST(Progress, AWordIsOneChanceADay) {
  Term term;
  term.day("2026-03-02", "dictation", "ai", "rain tail rain rain");
  EXPECT_EQ(term.of("ai").all, (Share{2, 2}));
  // In two records of a day too; missed once is missed.
  term.day("2026-03-02", "transfer", "ai", "rain drain", "rain: rane");
  EXPECT_EQ(term.of("ai").all, (Share{2, 3}));
  EXPECT_EQ(term.of("ai").new_words, (Share{1, 1}));
  term.day("2026-03-02", "retention", "ai", "drain tail", "drain: drane");
  EXPECT_EQ(term.of("ai").all, (Share{1, 3}));
  EXPECT_EQ(term.of("ai").new_words, (Share{0, 1}));
  EXPECT_EQ(term.of("ai").points.size(), 2U);
  term.day("2026-03-03", "retention", "ai", "rain");
  EXPECT_EQ(term.of("ai").all, (Share{2, 4}));
}

// B7 is in another group than C3, who gets oa first.
TEST(Progress, WhatCameBeforeTeachingIsKeptApart) {
  Term term;
  term.day("2026-03-02", "dictation", "oa", "boat road rain", "",
           "marked: C3\n");
  term.day("2026-03-02", "dictation", "ai", "rain tail boat road coat");
  term.day("2026-03-20", "retention", "oa", "boat road soap loan");
  term.day("2026-03-24", "dictation", "ai", "snail goat coal foam");
  const LearnerProgress before = term.progress();
  EXPECT_EQ(before.find(ground().pattern("oa")), nullptr);
  ASSERT_EQ(before.untaught.size(), 1U);
  EXPECT_EQ(before.untaught[0].share, (Share{10, 10}));
  EXPECT_EQ(known_before_text(before, ground().phonics.patterns()),
            "not taught yet: oa 10/10 (100%)");
  // Taught now: the ten make nothing secure, and they are not lost.
  term.day("2026-04-10", "dictation", "oa", "boat road");
  const PatternProgress oa = term.of("oa");
  EXPECT_EQ(oa.taught, (Date{2026, 4, 10}));
  EXPECT_EQ(oa.before, (Share{10, 10}));
  EXPECT_EQ(oa.all, (Share{2, 2}));
  EXPECT_EQ(oa.state, State::practising);
  EXPECT_EQ(known_before_text(term.progress(), ground().phonics.patterns()),
            "oa 10/10 (100%)");
  EXPECT_TRUE(term.progress().untaught.empty());
}

TEST(Progress, AnAbsentLearnerWasTaughtAllTheSame) {
  Term term;
  term.day("2026-03-02", "dictation", "ai", "rain tail", "",
           "marked: C3\nabsent: B7\n");
  term.day("2026-03-09", "dictation", "oa", "boat rain");
  EXPECT_EQ(term.of("ai").taught, (Date{2026, 3, 2}));
  EXPECT_EQ(term.of("ai").all, (Share{1, 1}));
}

TEST(Progress, RulesCanBeSet) {
  ProgressRules rules;
  rules.secure_later_days = 7;
  rules.secure_new_words = 1;
  rules.secure_chances = 10;
  Term term = good_week();
  term.day("2026-03-10", "retention", "ai", "rain tail");
  EXPECT_EQ(term.of("ai", rules).state, State::secure);
  EXPECT_EQ(term.of("ai").state, State::go_on);
  rules = {};
  rules.go_on_percent = 95;
  EXPECT_EQ(good_week().of("ai", rules).state, State::practising);
  const ProgressRules defaults =
      progress_rules(OptionValues(progress_option_table()));
  EXPECT_EQ(defaults.go_on_percent, ProgressRules{}.go_on_percent);
  EXPECT_EQ(defaults.secure_misses, ProgressRules{}.secure_misses);
  EXPECT_EQ(defaults.secure_chances, ProgressRules{}.secure_chances);
  EXPECT_EQ(defaults.secure_days, ProgressRules{}.secure_days);
  EXPECT_EQ(defaults.secure_new_words, ProgressRules{}.secure_new_words);
  EXPECT_EQ(defaults.secure_later_days, ProgressRules{}.secure_later_days);
  EXPECT_EQ(defaults.long_misses, ProgressRules{}.long_misses);
  EXPECT_EQ(defaults.long_chances, ProgressRules{}.long_chances);
  EXPECT_EQ(defaults.lost_misses, ProgressRules{}.lost_misses);
  EXPECT_EQ(defaults.lost_chances, ProgressRules{}.lost_chances);
  EXPECT_EQ(defaults.unseen_weeks, ProgressRules{}.unseen_weeks);
  EXPECT_EQ(defaults.week_days, ProgressRules{}.week_days);
}

TEST(Progress, KeepsTheScoresOfTheWeeks) {
  const LearnerProgress all = good_week().progress();
  ASSERT_EQ(all.sequences.size(), 3U);
  // rane has 2 of 5; tail 5, snail 6, paint 6.
  EXPECT_EQ(all.sequences[0].sequences, (LetterSequences{2 + 5 + 6 + 6, 22}));
  EXPECT_EQ(all.sequences[0].words, (Share{3, 4}));
  EXPECT_EQ(all.sequences[2].date, (Date{2026, 3, 6}));
}

TEST(Progress, SessionsMayComeInAnyOrder) {
  Term term;
  term.day("2026-03-16", "retention", "ai", "nail trail");
  term.day("2026-03-06", "transfer", "ai", "drain sail");
  term.day("2026-03-04", "dictation", "ai", "rain tail snail train wait");
  term.day("2026-03-02", "dictation", "ai", "rain tail snail paint",
           "rain: rane");
  EXPECT_EQ(term.of("ai").state, State::secure);
}

// Source: the day number of 1970-01-01 is 719162 (counted from 0001-01-01, as
// in common date libraries; from memory); the rest by hand.
TEST(Calendar, CountsDays) {
  EXPECT_EQ(day_number({1, 1, 1}), 0);
  EXPECT_EQ(day_number({1970, 1, 1}), 719162);
  EXPECT_EQ(days_between({2026, 2, 26}, {2026, 3, 12}), 14);
  EXPECT_EQ(days_between({2024, 2, 28}, {2024, 3, 1}), 2);
  EXPECT_EQ(days_between({2100, 2, 28}, {2100, 3, 1}), 1);
  EXPECT_EQ(days_between({2025, 12, 31}, {2026, 1, 1}), 1);
  EXPECT_EQ(days_between({2026, 3, 12}, {2026, 3, 2}), -10);
  EXPECT_EQ(day_after({2026, 2, 26}, 14), (Date{2026, 3, 12}));
  EXPECT_EQ(day_after({2024, 12, 31}, 0), (Date{2024, 12, 31}));
  EXPECT_EQ(day_after({2024, 12, 31}, 1), (Date{2025, 1, 1}));
  EXPECT_EQ(day_after({2026, 3, 12}, -12), (Date{2026, 2, 28}));
  for (int days = 0; days < 3000; ++days) {
    EXPECT_EQ(days_between({2023, 9, 4}, day_after({2023, 9, 4}, days)), days);
  }
}

}  // namespace
}  // namespace sheaf
