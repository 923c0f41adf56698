// The rules for secure and check again, on counts of days, and the range that
// stands beside counts.

#include "marking/progress_state.h"

#include <gtest/gtest.h>

#include <random>
#include <string>
#include <vector>

#include "marking/calendar.h"
#include "marking/likely_range.h"
#include "marking/progress_rules.h"

namespace sheaf {
namespace {

using State = ProgressState;

constexpr Date kTaught{2026, 9, 7};

// A pattern's days, each so many days after teaching. Words are new from the
// second day on.
struct Year {
  PatternProgress progress{.taught = kTaught};

  Year& day(int day, int right, int of) {
    const Share share{right, of};
    progress.points.push_back({.date = day_after(kTaught, day),
                               .share = share,
                               .new_words = day == 0 ? Share() : share});
    progress.last = progress.points.back().date;
    return *this;
  }
  PatternProgress at(int day, const ProgressRules& rules = {}) const {
    PatternProgress found = progress;
    find_states(found, day_after(kTaught, day), rules);
    return found;
  }
  PatternProgress now(const ProgressRules& rules = {}) const {
    PatternProgress found = progress;
    find_states(found, found.last, rules);
    return found;
  }
  State state() const { return now().state; }
};

// Twenty-five words with no miss, on four days.
Year secure_year() {
  Year year;
  year.day(0, 8, 8).day(14, 6, 6).day(21, 6, 6).day(28, 5, 5);
  return year;
}

TEST(States, SecureTakesTwentyFiveWordsWithAtMostTwoMisses) {
  Year year;
  year.day(0, 8, 8).day(14, 6, 6).day(21, 6, 6).day(28, 4, 4);
  EXPECT_EQ(year.state(), State::go_on) << "twenty-four";
  EXPECT_EQ(year.now().needed, "1 word");
  const PatternProgress secure = secure_year().now();
  EXPECT_EQ(secure.state, State::secure);
  EXPECT_EQ(*secure.secure_since, day_after(kTaught, 28));
  EXPECT_EQ(secure.window, (Share{25, 25}));
  EXPECT_EQ(secure.why,
            "25/25 (100%), likely 90 to 100%, on the latest 4 days; last seen "
            "2026-10-05");
  Year two;
  two.day(0, 7, 8).day(14, 6, 6).day(21, 5, 6).day(28, 5, 5);
  EXPECT_EQ(two.state(), State::secure);
  Year three;
  three.day(0, 7, 8).day(14, 6, 6).day(21, 5, 6).day(28, 4, 5);
  EXPECT_EQ(three.state(), State::go_on);
}

TEST(States, SecureTakesDaysNewWordsAndTime) {
  Year two_days;
  two_days.day(0, 8, 8).day(14, 20, 20);
  EXPECT_EQ(two_days.state(), State::go_on);
  EXPECT_EQ(two_days.now().needed, "1 day");
  Year early;
  early.day(0, 8, 8).day(7, 10, 10).day(13, 10, 10);
  EXPECT_EQ(early.state(), State::go_on);
  EXPECT_EQ(early.now().needed, "a check from 2026-09-21");
  Year old_words = secure_year();
  for (ProgressPoint& point : old_words.progress.points) point.new_words = {};
  old_words.progress.points.back().new_words = {3, 3};
  EXPECT_EQ(old_words.state(), State::go_on);
  EXPECT_EQ(old_words.now().needed, "1 new");
}

TEST(States, ThreeMissesInTwelveWordsLoseIt) {
  Year year = secure_year();
  year.day(35, 4, 5).day(42, 4, 5);
  EXPECT_EQ(year.state(), State::secure);
  // A third day of five would make fifteen words.
  year.day(49, 4, 5);
  EXPECT_EQ(year.state(), State::secure);
  EXPECT_EQ(year.now().window, (Share{23, 26}))
      << "the counts that stand beside it are those of now";
  year.day(56, 3, 5);
  const PatternProgress lost = year.now();
  EXPECT_EQ(lost.state, State::check_again);
  EXPECT_EQ(*lost.slipped_on, day_after(kTaught, 56));
  // One long day is enough by itself.
  Year long_day = secure_year();
  long_day.day(35, 13, 16);
  EXPECT_EQ(long_day.state(), State::check_again);
}

TEST(States, RecordsOfOneDayAreTakenTogether) {
  Year year = secure_year();
  year.day(35, 9, 10).day(35, 9, 10);
  EXPECT_EQ(year.state(), State::secure);
  year.day(35, 1, 2);
  EXPECT_EQ(year.state(), State::check_again);
}

TEST(States, ManyMissesOverALongTimeLoseItToo) {
  Year year = secure_year();
  for (int week = 0; week < 5; ++week) year.day(35 + 7 * week, 9, 10);
  EXPECT_EQ(year.state(), State::secure) << "five of fifty";
  year.day(70, 9, 10);
  EXPECT_EQ(year.state(), State::check_again)
      << "a sixth, though never three in twelve";
  // What was missed before two weeks were over does not count for long.
  Year start;
  start.day(0, 2, 8).day(14, 9, 9).day(21, 8, 8).day(28, 8, 8);
  EXPECT_EQ(start.state(), State::secure);
}

TEST(States, SecureGoesWhenItIsNotSeenForEightWeeks) {
  const Year year = secure_year();
  EXPECT_EQ(year.at(28 + 56).state, State::secure);
  const PatternProgress unseen = year.at(28 + 57);
  EXPECT_EQ(unseen.state, State::check_again);
  EXPECT_TRUE(unseen.unseen);
  EXPECT_EQ(*unseen.slipped_on, day_after(kTaught, 28 + 57));
  EXPECT_FALSE(unseen.secure_since.has_value());
  EXPECT_EQ(unseen.why,
            "25/25 (100%), likely 90 to 100%, on the latest 4 days; was secure "
            "until 2026-12-01; still needed to be secure: a check; last seen "
            "2026-10-05, over 8 weeks ago");
  // Seen again: the rule for secure decides anew.
  Year good = year;
  good.day(100, 3, 3);
  EXPECT_EQ(good.now().state, State::secure);
  EXPECT_FALSE(good.now().unseen);
  EXPECT_EQ(*good.now().secure_since, day_after(kTaught, 100));
  Year bad = year;
  bad.day(100, 0, 3);
  EXPECT_EQ(bad.now().state, State::check_again);
  EXPECT_FALSE(bad.now().unseen);
  ProgressRules longer;
  longer.unseen_weeks = 10;
  EXPECT_EQ(year.at(28 + 57, longer).state, State::secure);
}

// "Secure, 16 of 21" cannot stand: whatever happened, the counts beside secure
// are twenty-five words or more, and four in five of them are right, nearly.
TEST(States, SecureNeverStandsBesidePoorCounts) {
  std::mt19937 random(5);
  int secure = 0;
  for (int learner = 0; learner < 3000; ++learner) {
    Year year;
    const unsigned chance = 75 + random() % 25;
    int day = 0;
    for (int i = 0; i < 20; ++i) {
      const int of = 1 + static_cast<int>(random() % 8);
      int right = 0;
      for (int w = 0; w < of; ++w) right += random() % 100 < chance ? 1 : 0;
      year.day(day, right, of);
      day += static_cast<int>(random() % 20);
      const PatternProgress now = year.now();
      if (now.state != State::secure) continue;
      ++secure;
      EXPECT_GE(now.window.of, 25);
      EXPECT_TRUE(now.window.reaches(78)) << now.why;
    }
  }
  EXPECT_GT(secure, 1000);
}

TEST(States, EveryStateHasCountsAndARange) {
  Year practising;
  practising.day(0, 3, 8);
  Year lost = secure_year();
  lost.day(35, 2, 5);
  Year go_on;
  go_on.day(0, 7, 8);
  const std::pair<Year, State> years[] = {{practising, State::practising},
                                          {go_on, State::go_on},
                                          {secure_year(), State::secure},
                                          {lost, State::check_again}};
  for (const auto& [year, state] : years) {
    const PatternProgress now = year.now();
    EXPECT_EQ(now.state, state);
    EXPECT_TRUE(now.why.starts_with(now.window.text() + ", " +
                                    likely_text(now.window) + ", "))
        << now.why;
  }
}

// R. G. Newcombe (1998), Two-sided confidence intervals for the single
// proportion, Stat. Med. 17:857-872, table I, method 3, at 95% (from memory;
// 0 of 20 by hand: z2/(20 + z2) = 3.8415/23.8415).
TEST(LikelyRange, IsThatOfThePublishedTable) {
  constexpr double kNineteenInTwenty = 1.95996;
  const struct {
    Share share;
    double low, high;
  } rows[] = {{{81, 263}, 0.2553, 0.3662},
              {{15, 148}, 0.0624, 0.1605},
              {{0, 20}, 0.0, 0.1611},
              {{1, 29}, 0.0061, 0.1718}};
  for (const auto& row : rows) {
    const ShareRange range = score_range(row.share, kNineteenInTwenty);
    EXPECT_NEAR(range.low, row.low, 0.00006);
    EXPECT_NEAR(range.high, row.high, 0.00006);
  }
}

// By hand, z2 = 2.7057. All of 20: 20/22.7057 = .8808. 10 of 11: the middle is
// (.90909 + .12299)/1.24597 = .8283, half of the range 1.32018 x .11447 =
// .1511.
TEST(LikelyRange, HoldsTheTruthNineTimesInTen) {
  const ShareRange all = score_range({20, 20}, kNineInTen);
  EXPECT_NEAR(all.low, 0.8808, 0.0001);
  EXPECT_EQ(all.high, 1.0);
  const ShareRange most = score_range({10, 11}, kNineInTen);
  EXPECT_NEAR(most.low, 0.6772, 0.0002);
  EXPECT_NEAR(most.high, 0.9794, 0.0002);
  EXPECT_EQ(likely_text({10, 11}), "likely 68 to 98%");
  EXPECT_EQ(likely_short({10, 11}), "68–98%");
  EXPECT_EQ(likely_text({0, 3}), "likely 0 to 47%");
  EXPECT_EQ(likely_text({}), "");
  EXPECT_EQ(score_range({}, kNineInTen).high, 1.0);
}

TEST(Rules, AreToldAsTheyAreSet) {
  ProgressRules rules;
  rules.go_on_percent = 85;
  rules.secure_chances = 31;
  rules.lost_misses = 7;
  rules.unseen_weeks = 6;
  std::string all;
  for (const RuleText& rule : rule_texts(rules)) {
    all += rule.name + ": " + rule.text + "\n";
  }
  for (const std::string& text : {all, rules_in_brief(rules)}) {
    for (const char* part : {"Go on: 85%", "wrong in", "31", "7 wrong in",
                             "6 weeks", "Check again: ", "Wilson"}) {
      EXPECT_NE(text.find(part), std::string::npos) << part << " in " << text;
    }
  }
}

}  // namespace
}  // namespace sheaf
