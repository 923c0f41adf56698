// Which cards a group's pack gains and loses for a week.

#include "marking/review_cards.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "learner_codes.h"
#include "marking_data.h"

namespace sheaf {
namespace {

using State = ProgressState;

PatternId ai() { return ground().pattern("ai"); }
PatternId oa() { return ground().pattern("oa"); }
PatternId sh() { return ground().pattern("sh"); }

LearnerProgress standing(
    std::string_view code,
    std::initializer_list<std::pair<PatternId, State>> states) {
  LearnerProgress learner{.code = code_of(code)};
  for (const auto& [pattern, state] : states) {
    PatternProgress progress;
    progress.pattern = pattern;
    progress.state = state;
    learner.patterns.push_back(progress);
  }
  return learner;
}

std::string in(const CardMoves& moves) {
  return cards_text(moves.in, ground().phonics.patterns());
}
std::string out(const CardMoves& moves) {
  return cards_text(moves.out, ground().phonics.patterns());
}
std::string name(PatternId pattern) {
  return std::string(ground().phonics.patterns()[pattern].name);
}

TEST(ReviewCards, WhatIsNewGoesInForAllOrForThoseWhoAreNamed) {
  const std::vector<ComingLesson> group = {{code_of("B7"), {ai(), oa()}},
                                           {code_of("C3"), {ai(), oa()}}};
  const CardMoves first = card_moves(group, {});
  EXPECT_EQ(in(first), name(ai()) + "; " + name(oa()));
  EXPECT_EQ(out(first), "");
  const CardMoves later = card_moves(
      group,
      {.before = {},
       .now = {standing("B7", {{ai(), State::practising}}),
               standing("C3", {{ai(), State::go_on}, {oa(), State::go_on}})}});
  EXPECT_EQ(in(later), name(oa()) + " (B7)");
  EXPECT_TRUE(card_moves(std::vector<ComingLesson>{{code_of("C3"), {ai()}}},
                         {.before = {},
                          .now = {standing("C3", {{ai(), State::go_on}})}})
                  .none());
}

TEST(ReviewCards, OnlyAChangeOfTheLatestWeekMovesACard) {
  const std::vector<ComingLesson> group = {{code_of("B7"), {}},
                                           {code_of("C3"), {}}};
  const CardEvidence evidence{
      .before = {standing("B7", {{ai(), State::go_on},
                                 {oa(), State::secure},
                                 {sh(), State::secure}}),
                 standing("C3", {{ai(), State::check_again},
                                 {oa(), State::practising},
                                 {sh(), State::check_again}})},
      .now = {standing("B7", {{ai(), State::secure},
                              {oa(), State::check_again},
                              {sh(), State::secure}}),
              standing("C3", {{ai(), State::secure},
                              {oa(), State::go_on},
                              {sh(), State::check_again}}),
              // Of another group.
              standing("D1", {{sh(), State::secure}})}};
  const CardMoves moves = card_moves(group, evidence);
  EXPECT_EQ(out(moves), name(ai()));
  EXPECT_TRUE(moves.out.at(0).for_all);
  EXPECT_EQ(in(moves), name(oa()) + " (B7)");
  EXPECT_TRUE(card_moves(group, {evidence.now, evidence.now}).none());
}

// B7's days with ai, each with what was wrong of it.
class CardTerm {
 public:
  CardTerm& day(std::string_view date, std::string_view kind,
                std::string_view words, std::string_view more) {
    const std::string text =
        fmt::format("date: {}\nkind: {}\nlesson: ai\n{}\n", date, kind, more);
    const SourceFile file("record.yaml", text);
    Diagnostics d;
    const RecordFile records = read_record(file, d);
    EXPECT_EQ(to_text(d), "");
    std::vector<DictatedItem> items;
    for (std::string_view rest = words; !rest.empty();) {
      const std::size_t end = std::min(rest.find(' '), rest.size());
      items.push_back(
          dictated_item(std::string(rest.substr(0, end)), ground().phonics));
      rest.remove_prefix(std::min(end + 1, rest.size()));
    }
    sessions_.push_back(mark_session(records.records.at(0), {}, items,
                                     ground().spellings, ground().phonics,
                                     ground().options));
    return *this;
  }
  CardMoves moves() const {
    const TaughtLesson lessons[] = {
        {"ai", {ai()}, {"rain", "tail", "snail", "paint", "train", "wait"}}};
    ProgressRules rules;
    rules.secure_misses = 1;
    rules.secure_chances = 12;
    return card_moves(
        std::vector<ComingLesson>{{code_of("B7"), {}}},
        card_evidence(sessions_, lessons, ground().phonics.patterns(), rules));
  }

 private:
  std::vector<SessionResult> sessions_;
};

TEST(ReviewCards, AWeekIsToldOnce) {
  const std::string b7 = "marked: B7";
  CardTerm term;
  EXPECT_TRUE(term.moves().none());
  term.day("2026-03-02", "dictation", "rain tail snail paint", b7);
  term.day("2026-03-04", "dictation", "rain tail snail train wait", b7);
  term.day("2026-03-06", "transfer", "drain sail", b7);
  EXPECT_TRUE(term.moves().none());
  // Secure on a Monday; a form that waits for the week after says nothing.
  term.day("2026-03-16", "retention", "nail trail", b7);
  EXPECT_EQ(out(term.moves()), name(ai()));
  term.day("2026-03-27", "dictation", "rain", "marked: not yet\nwrong: {B7: }");
  EXPECT_EQ(out(term.moves()), name(ai()));
  // The next week that was marked.
  term.day("2026-03-27", "retention", "mail", b7);
  EXPECT_TRUE(term.moves().none());
  // After a holiday of ten weeks it was not seen for too long, which the first
  // page tells, and no page after it.
  term.day("2026-06-05", "dictation", "boat", b7);
  EXPECT_EQ(in(term.moves()), name(ai()));
  term.day("2026-06-12", "dictation", "boat", b7);
  EXPECT_TRUE(term.moves().none());
}

}  // namespace
}  // namespace sheaf
