// A day's record: who wrote what, and what it counts for.

#include "marking/scores.h"

#include <gtest/gtest.h>

#include "learner_codes.h"
#include "marking_data.h"

namespace sheaf {
namespace {

class Session {
 public:
  Session(std::string record, const std::vector<std::string>& dictated,
          std::vector<std::string> codes = {"A1", "B7", "C3"})
      : file_("record.yaml", std::move(record)) {
    Diagnostics d;
    records_ = read_record(file_, d);
    EXPECT_EQ(to_text(d), "");
    std::vector<DictatedItem> items;
    for (const std::string& text : dictated) {
      items.push_back(dictated_item(text, ground().phonics));
    }
    std::vector<LearnerCode> learners;
    for (const std::string& code : codes) learners.push_back(code_of(code));
    result =
        mark_session(records_.records.at(0), learners, std::move(items),
                     ground().spellings, ground().phonics, ground().options);
  }

  SessionScores scores(const std::vector<std::string_view>& patterns) const {
    std::vector<PatternId> ids;
    for (const std::string_view id : patterns) {
      ids.push_back(ground().pattern(id));
    }
    return score_session(result, ids, ground().phonics.patterns());
  }

  SessionResult result;

 private:
  SourceFile file_;
  RecordFile records_;
};

TEST(Session, ErrorsAloneLeaveTheRestRight) {
  const Session session(
      "date: 2026-03-12\n"
      "lesson: ai.yaml\n"
      "class: class.yaml\n"
      "marked: all\n"
      "absent: [C3]\n"
      "wrong:\n"
      "  A1: {}\n"
      "  B7: {rain: rane, tail: .}\n",
      {"rain", "tail", "snail", "The rain is here."});
  ASSERT_EQ(session.result.learners.size(), 3U);
  EXPECT_EQ(session.result.learners[0].words.size(), 7U);
  EXPECT_TRUE(session.result.learners[2].absent);
  EXPECT_TRUE(session.result.learners[2].words.empty());
  const SessionScores scores = session.scores({"ai"});
  EXPECT_EQ(scores.learners[0].words, (Share{7, 7}));
  // The rain of the sentence is the rain of the list: one chance.
  EXPECT_EQ(scores.learners[0].patterns[0].share, (Share{3, 3}));
  const Score& b7 = scores.learners[1];
  EXPECT_EQ(b7.words, (Share{5, 7}));
  EXPECT_EQ(b7.patterns[0].share, (Share{1, 3}));
  EXPECT_EQ(b7.blanks, 1);
  // rain 2 of 5, tail 0 of 5, snail 6, the 4, rain 5, is 3, here 5.
  EXPECT_EQ(b7.sequences, (LetterSequences{2 + 0 + 6 + 4 + 5 + 3 + 5, 33}));
  const auto count = [&](Cause cause) {
    return b7.patterns[0].causes[static_cast<std::size_t>(cause)];
  };
  EXPECT_EQ(count(Cause::other_spelling), 1);
  EXPECT_EQ(count(Cause::left_out), 1);
  EXPECT_EQ(scores.group.words, (Share{12, 14}));
  EXPECT_EQ(scores.group.patterns[0].share, (Share{4, 6}));
  EXPECT_EQ(causes_by_count(scores.group.causes).front(), Cause::left_out);
}

// Nobody is scored whom the record does not list, whatever the class is.
TEST(Session, AllAreThoseWhoAreListed) {
  const Session session(
      "date: 2026-03-12\n"
      "lesson: ai.yaml\n"
      "class: class.yaml\n"
      "marked: all\n"
      "wrong:\n"
      "  b7: {rain: rane}\n"
      "  L2: {}\n",
      {"rain", "tail"});
  ASSERT_EQ(session.result.learners.size(), 2U);
  EXPECT_EQ(session.result.learners[0].code.text(), "B7");
  EXPECT_EQ(session.result.learners[1].code.text(), "L2");  // left the class
  const SessionScores scores = session.scores({"ai"});
  EXPECT_EQ(scores.learners[0].words, (Share{1, 2}));
  EXPECT_EQ(scores.learners[1].words, (Share{2, 2}));
}

TEST(Session, AnUntouchedFormCountsForNobody) {
  for (const char* marked :
       {"marked: not yet", "marked: no", "marked: Not yet"}) {
    const Session session(std::string("date: 2026-03-12\n"
                                      "lesson: ai.yaml\n") +
                              marked + "\nwrong: {B7: {rain: rane}, C3: {}}\n",
                          {"rain", "tail"});
    EXPECT_TRUE(session.result.learners.empty()) << marked;
  }
}

TEST(Session, WordsKnownBySightAreNoChance) {
  Session session(
      "date: 2026-03-12\n"
      "lesson: sh.yaml\n"
      "marked: B7\n",
      {"fish", "She is wet."});
  session.result.sight_words = {"she"};
  const SessionScores scores = session.scores({"sh"});
  EXPECT_EQ(scores.learners[0].words, (Share{4, 4}));
  EXPECT_EQ(scores.learners[0].patterns[0].share, (Share{1, 1}));
}

TEST(Session, WholeAttemptsSayNothingOfTheRest) {
  const Session session(
      "date: 2026-03-12\n"
      "lesson: ai.yaml\n"
      "class: class.yaml\n"
      "written:\n"
      "  A1:\n"
      "    rain: rain\n"
      "    The rain is here.: the rane hear\n",
      {"rain", "tail", "The rain is here."});
  ASSERT_EQ(session.result.learners.size(), 1U);
  const SessionScores scores = session.scores({"ai"});
  EXPECT_EQ(scores.learners[0].words, (Share{2, 5}));
  // Right in the list, missed in the sentence: missed.
  EXPECT_EQ(scores.learners[0].patterns[0].share, (Share{0, 1}));
  EXPECT_EQ(session.result.learners[0].words[3].kind,
            MarkedWord::Kind::missing);
}

TEST(Session, SentencesInErrorsAreMarkedWordByWord) {
  const Session session(
      "date: 2026-03-12\n"
      "lesson: ai.yaml\n"
      "marked: B7\n"
      "wrong: {B7: {The rain is here: The rane is big here}}\n",
      {"The rain is here."}, {});
  const LearnerResult* b7 = session.result.find(code_of("B7"));
  ASSERT_NE(b7, nullptr);
  ASSERT_EQ(b7->words.size(), 4U);
  EXPECT_TRUE(b7->words[0].right());
  EXPECT_FALSE(b7->words[1].right());
  ASSERT_EQ(b7->extra_words.size(), 1U);
  EXPECT_EQ(b7->extra_words[0].written, "big");
  EXPECT_TRUE(session.result.not_dictated.empty());
}

TEST(Session, SaysWhatItCannotPlace) {
  const Session session(
      "date: 2026-03-12\n"
      "lesson: ai.yaml\n"
      "class: class.yaml\n"
      "marked: all\n"
      "wrong:\n"
      "  Z9: {snail: snale, drain: jrain}\n"
      "  B7: {drain: drane}\n"
      "  A1: {}\n"
      "writing: {B7: {ai: 3/5, no such: 1/2}}\n",
      {"rain", "snail"});
  EXPECT_EQ(session.result.not_dictated.size(), 1U);
  EXPECT_EQ(session.result.not_dictated[0].text(), "drain");
  ASSERT_EQ(session.result.not_in_class.size(), 1U);
  EXPECT_EQ(session.result.not_in_class[0].value.text(), "Z9");
  EXPECT_EQ(session.result.unknown_patterns.size(), 1U);
  const SessionScores scores = session.scores({"ai"});
  EXPECT_EQ(scores.learners[0].words, (Share{2, 2}));
  const Score* b7 = &scores.learners[1];
  EXPECT_EQ(b7->words, (Share{2, 3}));
  // Two of three dictated words, and three of five from the journal.
  EXPECT_EQ(b7->patterns[0].share, (Share{5, 8}));
}

TEST(Session, ATargetMayComeTwice) {
  const Session session(
      "date: 2026-03-12\n"
      "lesson: ai.yaml\n"
      "marked: B7\n"
      "wrong: {B7: {rain: rane}}\n",
      {"rain", "tail", "rain"}, {});
  EXPECT_EQ(session.scores({"ai"}).learners[0].words, (Share{2, 3}));
}

// hopping and hoping: the pattern is about the doubled letter, not the ending.
TEST(Scores, PatternsOfJointsAskForTheJoint) {
  const Session session(
      "date: 2026-03-12\n"
      "lesson: ing.yaml\n"
      "marked: B7\n"
      "wrong: {B7: {hopping: hoping, making: makeing, jumping: jumpping}}\n",
      {"hopping", "running", "making", "jumping"}, {});
  const Score score =
      session.scores({"ing_double", "ing_drop", "ing", "ng"}).learners[0];
  EXPECT_EQ(score.find(ground().pattern("ing_double"))->share, (Share{1, 2}));
  EXPECT_EQ(score.find(ground().pattern("ing_drop"))->share, (Share{0, 1}));
  EXPECT_EQ(score.find(ground().pattern("ing"))->share, (Share{1, 1}));
  EXPECT_EQ(score.find(ground().pattern("ng"))->share, (Share{4, 4}));
  EXPECT_EQ(score.find(ground().pattern("sh")), nullptr);
}

TEST(Share, GivesNoPercentUnderFive) {
  EXPECT_EQ((Share{4, 4}).percent(), std::nullopt);
  EXPECT_EQ((Share{4, 4}).text(), "4/4");
  EXPECT_EQ((Share{0, 0}).text(), "0/0");
  EXPECT_EQ((Share{4, 5}).percent(), 80);
  EXPECT_EQ((Share{2, 3}).percent(), std::nullopt);
  EXPECT_EQ((Share{7, 10}).text(), "7/10 (70%)");
  EXPECT_EQ((Share{5, 8}).percent(), 63);  // 62.5
  EXPECT_TRUE((Share{4, 5}).reaches(80));
  EXPECT_FALSE((Share{3, 4}).reaches(80));
  EXPECT_FALSE((Share{0, 0}).reaches(0));
}

}  // namespace
}  // namespace sheaf
