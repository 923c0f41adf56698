// Errors that follow how a learner speaks stand apart from what went wrong, on
// the report of marks and on a learner's page of progress.

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "learner_codes.h"
#include "marking_data.h"
#include "reports/mark_report.h"
#include "reports/progress_report.h"

namespace sheaf {
namespace {

// Words as a learner wrote them who says f for th.
SessionResult day_of(
    const std::vector<std::pair<std::string, std::string>>& written) {
  MarkingOptions options = ground().options;
  EXPECT_TRUE(add_variety("th-f", options.speech));
  SessionResult session;
  session.date = {2026, 3, 12};
  session.lesson = "th";
  session.learners.push_back({.code = code_of("B7")});
  for (const auto& [target, attempt] : written) {
    SessionWord word{.item = session.items.size()};
    session.items.push_back(dictated_item(target, ground().phonics));
    word.attempt = mark_attempt(ground().spellings,
                                ground().phonics.read(target, Conventions{}),
                                attempt, options);
    session.learners[0].words.push_back(std::move(word));
  }
  return session;
}

class SpeechOnReports : public testing::Test {
 protected:
  SpeechOnReports()
      : style_(make_style(OptionValues(page_options()), fonts_, diagnostics_)) {
  }

  static std::string text_of(const Document& document) {
    std::string text;
    for (const Page& page : document.pages) {
      for (const Mark& mark : page.marks) {
        if (const auto* run = std::get_if<GlyphMark>(&mark)) {
          text += run->run.shape->text + " ";
        }
      }
    }
    // Blanks within a run stand beside those between runs.
    const auto twice = std::ranges::unique(
        text, [](char a, char b) { return a == ' ' && b == ' '; });
    text.erase(twice.begin(), twice.end());
    return text;
  }
  std::string marks(
      const std::vector<std::pair<std::string, std::string>>& written) {
    Document document;
    add_mark_report({shaper_, style_, document}, day_of(written), {},
                    ground().phonics.patterns(), "2026-03-12");
    return text_of(document);
  }

  FontLibrary fonts_{disk(), SHEAF_FONTS};
  Diagnostics diagnostics_;
  Style style_;
  Shaper shaper_;
};

constexpr std::string_view kWrong = "What went wrong";
constexpr std::string_view kSpeech = "What follows how they speak";

TEST_F(SpeechOnReports, MarksTellThemApart) {
  const std::string text =
      marks({{"thin", "fin"}, {"ship", "sip"}, {"thick", "fik"}});
  const std::size_t wrong = text.find(kWrong);
  const std::size_t speech = text.find(kSpeech);
  ASSERT_LT(wrong, speech) << text;
  ASSERT_NE(speech, std::string::npos) << text;
  const std::string of_wrong = text.substr(wrong, speech - wrong);
  const std::string of_speech = text.substr(speech);
  EXPECT_EQ(of_wrong.find("thin"), std::string::npos) << text;
  EXPECT_EQ(of_wrong.find("how they speak"), std::string::npos) << text;
  EXPECT_NE(of_wrong.find("ship"), std::string::npos) << text;
  EXPECT_NE(of_speech.find("thin"), std::string::npos) << text;
  EXPECT_EQ(of_speech.find("ship"), std::string::npos) << text;
  // A word with both stands in both, each time with one of them.
  EXPECT_NE(of_wrong.find("ck written k"), std::string::npos) << text;
  EXPECT_NE(of_speech.find("th written f"), std::string::npos) << text;
  EXPECT_EQ(of_wrong.find("th written f"), std::string::npos) << text;
  EXPECT_EQ(of_speech.find("ck written k"), std::string::npos) << text;
}

TEST_F(SpeechOnReports, AHeadingStandsOnlyOverSomething) {
  const std::string speech = marks({{"thin", "fin"}, {"path", "path"}});
  EXPECT_EQ(speech.find(kWrong), std::string::npos) << speech;
  EXPECT_NE(speech.find(kSpeech), std::string::npos) << speech;
  const std::string wrong = marks({{"ship", "sip"}});
  EXPECT_NE(wrong.find(kWrong), std::string::npos) << wrong;
  EXPECT_EQ(wrong.find(kSpeech), std::string::npos) << wrong;
}

TEST_F(SpeechOnReports, ALearnersPageHasOneLine) {
  const SessionResult day = day_of({{"thin", "fin"}, {"path", "paf"}});
  const std::vector<SessionResult> days = {day};
  const std::vector<TaughtLesson> lessons = {
      {"th", {ground().pattern("th_voiceless")}, {}}};
  const auto learners =
      class_progress(days, lessons, ground().phonics.patterns());
  ASSERT_EQ(learners.size(), 1U);
  const ProgressRules rules;
  const std::vector<Date> dates = {day.date};
  const ProgressGround about{ground().phonics.patterns(), rules, dates};
  const auto page = [&](std::string_view speech) {
    Document document;
    add_learner_report({shaper_, style_, document}, learners[0], {}, about,
                       speech);
    return text_of(document);
  };
  EXPECT_NE(page("follows how they speak: 2 of 2 errors").find("Follows how"),
            std::string::npos);
  EXPECT_EQ(page("").find("ollows how"), std::string::npos);
}

}  // namespace
}  // namespace sheaf
