// How often each rule about what is secure is right, for learners of whom we
// know the truth: run by `make calibrate`, never part of the tests.
//
//     sheaf_calibrate WORD_LIST [LEARNERS]

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <optional>
#include <span>
#include <stdexcept>
#include <string>
#include <vector>

#include "files/disk_files.h"
#include "marking/calendar.h"
#include "marking/progress.h"
#include "simulated_year.h"

namespace sheaf::bench {
namespace {

constexpr std::uint64_t kSeed = 20261129;
constexpr int kMiddle = 7 * YearPlan::kWeeks / 2;
// Whoever has fewer right than this in the long run does not have the pattern.
constexpr double kHasIt = 0.9;

struct Candidate {
  std::string name;
  ProgressRules rules;
};

struct Kind {
  std::string name;
  TrueChance chance;
};

std::string always_text(double p) {
  return p == 1 ? "always 1" : fmt::format("always .{:02.0f}", 100 * p);
}

std::vector<Kind> kinds() {
  std::vector<Kind> all;
  for (const double p : {0.6, 0.7, 0.8, 0.85, 0.9, 0.95, 1.0}) {
    all.push_back({always_text(p), [p](int) { return p; }});
  }
  all.push_back({"learns fast: .60, from week 2 .95",
                 [](int day) { return day < 14 ? 0.6 : 0.95; }});
  all.push_back({"learns: .60, from week 8 on .95",
                 [](int day) { return day < 56 ? 0.6 : 0.95; }});
  all.push_back({"forgets: .95, from mid-year on .60",
                 [](int day) { return day < kMiddle ? 0.95 : 0.6; }});
  return all;
}

// What some learners' years showed under one rule.
struct Tally {
  int learners = 0;
  int go_on = 0, secure = 0, at_end = 0, wrong = 0, revoked = 0;
  std::vector<int> first_days;

  void add(const PatternProgress& progress, const TrueChance& chance) {
    ++learners;
    std::optional<int> first;
    bool went_on = false, false_secure = false, lost = false, was = false;
    for (const ProgressPoint& point : progress.points) {
      const int day = days_between(progress.taught, point.date);
      const bool is = point.state == ProgressState::secure;
      went_on = went_on || is || point.state == ProgressState::go_on;
      if (is && !first) first = day;
      false_secure = false_secure || (is && chance(day) < kHasIt);
      lost = lost || (was && !is);
      was = is;
    }
    const bool end = progress.state == ProgressState::secure;
    lost = lost || (was && !end);
    if (went_on) ++go_on;
    if (first) {
      ++secure;
      first_days.push_back(*first);
    }
    if (end) ++at_end;
    if (false_secure) ++wrong;
    if (lost) ++revoked;
  }
  int percent(int count) const {
    return (200 * count + learners) / (2 * learners);
  }
  std::string first_week() {
    if (first_days.empty()) return "-";
    const auto middle =
        first_days.begin() + static_cast<std::ptrdiff_t>(first_days.size() / 2);
    std::ranges::nth_element(first_days, middle);
    return fmt::format("{}", *middle / 7);
  }
};

// The limits that the rule in use has to keep where a pattern has 35 chances or
// more. They are ours, as are the learners.
constexpr int kEnoughChances = 35;
constexpr int kMostFalse = 25;   // of "always .80", ever shown secure
constexpr int kLeastFound = 88;  // of "always .95", secure at the end
constexpr int kMostFallen = 5;   // of "forgets", secure at the end

struct Figures {
  std::string rule;
  int chances = 0, words_a_check = 0;
  int ever_80 = 0, end_95 = 0, fallen = 0;

  bool within() const {
    return ever_80 <= kMostFalse && end_95 >= kLeastFound &&
           fallen <= kMostFallen;
  }
};

class Calibration {
 public:
  explicit Calibration(const Phonics& phonics)
      : phonics_(phonics),
        pattern_(phonics.patterns().id_of(*phonics.patterns().by_id("ai"))),
        words_(words_to_dictate(phonics, pattern_, 120)) {}

  void run(int chances, int words_a_check,
           const std::vector<Candidate>& candidates, int learners) {
    const YearPlan plan(chances, words_a_check);
    SimulatedYear year(phonics_, pattern_, plan, words_);
    const std::vector<Kind> all_kinds = kinds();
    std::vector<std::vector<Tally>> tallies(
        candidates.size(), std::vector<Tally>(all_kinds.size()));
    for (std::size_t k = 0; k < all_kinds.size(); ++k) {
      Random random(kSeed);
      for (int i = 0; i < learners; ++i) {
        const auto sessions = year.draw(all_kinds[k].chance, random);
        for (std::size_t c = 0; c < candidates.size(); ++c) {
          const PatternProgress progress =
              progress_of(year, sessions, candidates[c].rules);
          tallies[c][k].add(progress, all_kinds[k].chance);
          if (i == 0 && c == 0) compare(year, progress, candidates[c].rules);
        }
      }
    }
    fmt::print(
        "\n{} chances in a year, on {} days, {} words a check: {:.1f} words a "
        "week for one pattern, {:.0f} for 20\n",
        chances, plan.days.size(), words_a_check,
        1.0 * chances / YearPlan::kWeeks, 20.0 * chances / YearPlan::kWeeks);
    for (std::size_t c = 0; c < candidates.size(); ++c) {
      print(candidates[c], all_kinds, tallies[c]);
      figures_.push_back(
          {candidates[c].name, chances, words_a_check,
           percent_of(tallies[c], all_kinds, "always .80", &Tally::secure),
           percent_of(tallies[c], all_kinds, "always .95", &Tally::at_end),
           percent_of(tallies[c], all_kinds, "forgets", &Tally::at_end)});
    }
  }

  /// False where the rule in use does not keep the limits, or where records
  /// that were written and read say other than what was put together.
  bool sum_up(const std::string& in_use) const {
    fmt::print(
        "\nLimits: of learners with .80 right at most {}% ever shown secure, "
        "of "
        "those with .95 at least {}% at the end, of those who fell to .60 at "
        "most {}% at the end; from {} chances on.\n{:<24} {:>7} {:>7} {:>9} "
        "{:>8} {:>8}\n",
        kMostFalse, kLeastFound, kMostFallen, kEnoughChances, "rule", "chances",
        "a check", ".80 ever", ".95 end", "fallen");
    bool good = same_;
    for (const Figures& f : figures_) {
      const bool counts = f.chances >= kEnoughChances;
      fmt::print("{:<24} {:>7} {:>7} {:>8}% {:>7}% {:>7}%{}\n", f.rule,
                 f.chances, f.words_a_check, f.ever_80, f.end_95, f.fallen,
                 !counts      ? ""
                 : f.within() ? "  kept"
                              : "  NOT KEPT");
      if (f.rule == in_use && counts && !f.within()) good = false;
    }
    if (!same_) fmt::print("Records that were read gave another result.\n");
    return good;
  }

 private:
  PatternProgress progress_of(const SimulatedYear& year,
                              std::span<const SessionResult> sessions,
                              const ProgressRules& rules) const {
    const auto all = class_progress(sessions, year.lessons(),
                                    phonics_.patterns(), rules, year.end());
    return *all.at(0).find(pattern_);
  }

  void compare(const SimulatedYear& year, const PatternProgress& drawn,
               const ProgressRules& rules) {
    const auto sessions = year.from_records();
    const PatternProgress read = progress_of(year, sessions, rules);
    same_ = same_ && read.why == drawn.why && read.state == drawn.state &&
            read.all == drawn.all && read.new_words == drawn.new_words;
  }

  static int percent_of(const std::vector<Tally>& tallies,
                        const std::vector<Kind>& all, std::string_view name,
                        int Tally::*count) {
    for (std::size_t k = 0; k < all.size(); ++k) {
      if (all[k].name.starts_with(name)) {
        return tallies[k].percent(tallies[k].*count);
      }
    }
    throw std::logic_error("no such learners");
  }

  static void print(const Candidate& candidate, const std::vector<Kind>& all,
                    std::vector<Tally>& tallies) {
    fmt::print("  {:<34} {:>6} {:>7} {:>7} {:>7} {:>8} {:>11}\n",
               candidate.name, "go on", "secure", "at end", "wrong", "revoked",
               "first week");
    for (std::size_t k = 0; k < all.size(); ++k) {
      Tally& t = tallies[k];
      fmt::print("    {:<32} {:>5}% {:>6}% {:>6}% {:>6}% {:>7}% {:>11}\n",
                 all[k].name, t.percent(t.go_on), t.percent(t.secure),
                 t.percent(t.at_end), t.percent(t.wrong), t.percent(t.revoked),
                 t.first_week());
    }
  }

  const Phonics& phonics_;
  PatternId pattern_;
  std::vector<std::string> words_;
  std::vector<Figures> figures_;
  bool same_ = true;
};

ProgressRules rules(int misses, int chances, int long_misses, int long_chances,
                    int lost_misses, int lost_chances) {
  ProgressRules r;
  r.secure_misses = misses;
  r.secure_chances = chances;
  r.long_misses = long_misses;
  r.long_chances = long_chances;
  r.lost_misses = lost_misses;
  r.lost_chances = lost_chances;
  return r;
}

constexpr int kNever = 1000;

int run(const std::string& word_list, int learners) {
  const Phonics phonics(disk(), word_list);
  Calibration calibration(phonics);
  const std::vector<Candidate> candidates = {
      {"in use", ProgressRules{}},
      {"1 in 12, lost at 1", rules(1, 12, kNever, kNever, 1, 1)},
      {"1 in 16, lost at 2 in 8", rules(1, 16, kNever, kNever, 2, 8)},
      {"1 in 20, lost at 3 in 12", rules(1, 20, kNever, kNever, 3, 12)},
      {"2 in 24, lost at 2 in 8", rules(2, 24, kNever, kNever, 2, 8)},
      {"2 in 25, lost at 3 in 12", rules(2, 25, kNever, kNever, 3, 12)},
  };
  fmt::print(
      "{} learners of each kind; seed {}. Columns: shown \"go on\" or better "
      "at "
      "some time, shown secure at some time, shown secure at the end of the "
      "year, shown secure on a day when the true chance was under {:.0f}%, no "
      "longer secure later on, the week of the year in which half of those "
      "who were ever secure were first shown so.\n",
      learners, kSeed, 100 * kHasIt);
  for (const int chances : {12, 16, 20, 24, 28, 35, 38, 48, 60, 80, 100}) {
    calibration.run(chances, 3, candidates, learners);
  }
  // The same number of words in fewer and longer checks, and in shorter ones.
  for (const int words_a_check : {2, 5}) {
    calibration.run(38, words_a_check, candidates, learners);
  }
  return calibration.sum_up("in use") ? 0 : 1;
}

}  // namespace
}  // namespace sheaf::bench

int main(int argc, char** argv) {
  if (argc < 2 || argc > 3) {
    fmt::print(stderr, "sheaf_calibrate WORD_LIST [LEARNERS]\n");
    return 2;
  }
  const int learners = argc == 3 ? std::atoi(argv[2]) : 1000;
  return sheaf::bench::run(argv[1], std::max(learners, 1));
}
