// Pages of progress: how many a term takes, how large they are printed, what
// stands on every one of them.

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/shuffle.h"
#include "layout/mark_bounds.h"
#include "learner_codes.h"
#include "marking/calendar.h"
#include "marking_data.h"
#include "planning/word_search.h"
#include "reports/home_report.h"
#include "reports/meeting_report.h"
#include "reports/progress_report.h"
#include "reports/school_weeks.h"

namespace sheaf {
namespace {

using namespace literals;

constexpr Date kMonday{2026, 9, 7};

// A word written well and badly, marked once for all learners.
struct Drawn {
  DictatedItem item;
  SessionWord right, wrong;
};

const std::vector<Drawn>& words_with(PatternId pattern) {
  static std::map<PatternId, std::vector<Drawn>> known;
  auto [found, fresh] = known.try_emplace(pattern);
  if (!fresh) return found->second;
  const Conventions conventions;
  const Taught nothing;
  WordQuery query;
  query.pattern = pattern;
  query.count = 24;
  query.first_set = false;
  for (const FoundWord& word :
       find_words({ground().phonics, conventions, nothing, nullptr,
                   [](std::string_view) { return false; }},
                  query)) {
    const std::string& text = word.reading->word;
    std::string missed = text;
    missed[missed.size() / 2] = missed[missed.size() / 2] == 'o' ? 'u' : 'o';
    Drawn drawn{.item = dictated_item(text, ground().phonics),
                .right = {},
                .wrong = {}};
    drawn.right.attempt = ground().mark(text, text);
    drawn.wrong.attempt = ground().mark(text, missed);
    found->second.push_back(std::move(drawn));
  }
  return found->second;
}

constexpr std::array<std::string_view, 14> kTaught = {
    "sh",  "ch", "th_voiceless", "ck", "ng", "a_e", "i_e",
    "o_e", "ee", "ai",           "ay", "oa", "igh", "oo_long"};

// A term of fourteen weeks with two weeks of holidays in the middle: so many
// patterns, one a week, a list a week with words of earlier patterns in it, and
// a probe every week.
class SimulatedTerm {
 public:
  SimulatedTerm(std::size_t patterns, int skill, std::uint64_t seed)
      : random_(seed), skill_(skill) {
    for (std::size_t i = 0; i < patterns; ++i) {
      lessons_.push_back(
          {std::string(kTaught[i]), {ground().pattern(kTaught[i])}, {}});
      for (std::size_t w = 0; w < 6; ++w) {
        lessons_.back().practised.push_back(
            words_with(lessons_.back().patterns[0])[w].item.text);
      }
    }
    for (int week = 0; week < 14; ++week) {
      if (week == 7 || week == 8) continue;
      add_probe(week);
      add_list(week);
    }
  }

  LearnerProgress progress() const {
    return class_progress(sessions_, lessons_, ground().phonics.patterns())
        .at(0);
  }
  std::vector<Date> days() const {
    std::vector<Date> days;
    for (const SessionResult& session : sessions_) days.push_back(session.date);
    return days;
  }
  const std::vector<SessionResult>& sessions() const { return sessions_; }

 private:
  SessionResult begin(int week, int day, Record::Kind kind) const {
    SessionResult session;
    session.date = day_after(kMonday, 7 * week + day);
    session.kind = kind;
    session.learners.push_back({.code = code_of("B7")});
    return session;
  }
  void add_word(SessionResult& session, const Drawn& drawn) {
    const bool right = static_cast<int>(random_.below(100)) < skill_;
    SessionWord word = right ? drawn.right : drawn.wrong;
    word.item = session.items.size();
    session.items.push_back(drawn.item);
    session.learners[0].words.push_back(std::move(word));
  }
  const Drawn& any_of(std::size_t lesson) {
    const auto& words = words_with(lessons_[lesson].patterns[0]);
    return words[random_.below(words.size())];
  }

  void add_list(int week) {
    const std::size_t lesson =
        std::min(static_cast<std::size_t>(week > 8 ? week - 2 : week),
                 lessons_.size() - 1);
    SessionResult session = begin(week, 4, Record::Kind::dictation);
    session.lesson = lessons_[lesson].name;
    for (int i = 0; i < 8; ++i) add_word(session, any_of(lesson));
    for (std::size_t before = 0; before < lesson; ++before) {
      if (random_.below(2) == 0) add_word(session, any_of(before));
    }
    sessions_.push_back(std::move(session));
  }

  // Twelve words of the same patterns and five letters: equal ground.
  void add_probe(int week) {
    SessionResult session = begin(week, 1, Record::Kind::probe);
    for (std::size_t i = 0; session.items.size() < 12; ++i) {
      const auto& words = words_with(lessons_[i % lessons_.size()].patterns[0]);
      const std::size_t from = random_.below(words.size());
      for (std::size_t k = 0; k < words.size(); ++k) {
        const Drawn& word = words[(from + k) % words.size()];
        if (word.item.text.size() != 5) continue;
        add_word(session, word);
        break;
      }
      ASSERT_LT(i, 1000U);
    }
    sessions_.push_back(std::move(session));
  }

  Random random_;
  int skill_;
  std::vector<TaughtLesson> lessons_;
  std::vector<SessionResult> sessions_;
};

class Reports : public testing::Test {
 protected:
  Reports()
      : style_(make_style(OptionValues(page_options()), fonts_, diagnostics_)) {
  }

  Document learner_page(const SimulatedTerm& term) {
    Document document;
    const LearnerProgress learner = term.progress();
    const std::vector<Date> days = term.days();
    add_learner_report({shaper_, style_, document}, learner,
                       growth_of(learner, wish_),
                       {ground().phonics.patterns(), rules_, days});
    return document;
  }
  Document home_page(const SimulatedTerm& term) {
    Document document;
    const LearnerProgress learner = term.progress();
    add_home_report({shaper_, style_, document}, learner,
                    growth_of(learner, wish_), term.sessions(),
                    ground().phonics.patterns());
    return document;
  }
  Document meeting_page(const SimulatedTerm& term) {
    Document document;
    const LearnerProgress learner = term.progress();
    const std::vector<Date> days = term.days();
    add_meeting_report({shaper_, style_, document}, learner,
                       growth_of(learner, wish_), term.sessions(),
                       {ground().phonics.patterns(), rules_, days});
    return document;
  }

  // The smallest print above the footer, in points.
  static double smallest(const Document& document, const Style& style) {
    Length least = 100_pt;
    for (const Page& page : document.pages) {
      for (const Mark& mark : page.marks) {
        const auto* text = std::get_if<GlyphMark>(&mark);
        if (text == nullptr || text->run.size == style.footer_size) continue;
        least = std::min(least, text->run.size);
      }
    }
    return least.pt();
  }

  static std::string text_of(const Page& page) {
    std::string text;
    for (const Mark& mark : page.marks) {
      if (const auto* run = std::get_if<GlyphMark>(&mark)) {
        text += run->run.shape->text + " ";
      }
    }
    return text;
  }

  // How tall the figure on a document's pages is, from its highest mark to its
  // lowest.
  static Length height_of_figure(const Document& document) {
    Length top = 10000_mm, bottom;
    for (const Page& page : document.pages) {
      for (const Mark& mark : page.marks) {
        const ElementId id =
            std::visit([](const auto& m) { return m.element; }, mark);
        if (id == kDecoration || is_artifact(id) ||
            document.element(id).role != Role::figure) {
          continue;
        }
        if (const auto* line = std::get_if<LineMark>(&mark)) {
          top = std::min({top, line->from.y, line->to.y});
          bottom = std::max({bottom, line->from.y, line->to.y});
        } else if (const auto* run = std::get_if<GlyphMark>(&mark)) {
          top = std::min(top, run->at.y - run->run.size / 2);
          bottom = std::max(bottom, run->at.y);
        }
      }
    }
    return bottom - top;
  }

  FontLibrary fonts_{disk(), SHEAF_FONTS};
  Diagnostics diagnostics_;
  Style style_;
  Shaper shaper_;
  ProgressRules rules_;
  GoalWish wish_{.date = Date{2026, 12, 18},
                 .level = std::nullopt,
                 .rate_hundredths = 100};
};

TEST_F(Reports, ATermTakesOnePageForEachOfTwentyLearners) {
  int terms = 0, one = 0;
  for (std::size_t patterns = 5; patterns <= kTaught.size(); ++patterns) {
    for (const int skill : {40, 60, 75, 85, 92, 97}) {
      for (std::uint64_t seed = 1; seed <= 4; ++seed) {
        const Document document =
            learner_page(SimulatedTerm(patterns, skill, seed));
        ++terms;
        if (document.pages.size() == 1) ++one;
        EXPECT_LE(document.pages.size(), 2U) << patterns << " " << skill;
      }
    }
  }
  EXPECT_GE(100 * one, 95 * terms) << one << " of " << terms;
  RecordProperty("one_page", one);
  RecordProperty("terms", terms);
}

// Whatever there is, and a year with everything in need of work.
TEST_F(Reports, AYearTakesTwoPagesAtMost) {
  for (const int skill : {50, 97}) {
    const SimulatedTerm term(kTaught.size(), skill, 2);
    LearnerProgress year = term.progress();
    for (std::size_t i = 0; year.patterns.size() < 36; ++i) {
      year.patterns.push_back(year.patterns[i]);
    }
    Document document;
    const std::vector<Date> days = term.days();
    add_learner_report({shaper_, style_, document}, year,
                       growth_of(year, wish_),
                       {ground().phonics.patterns(), rules_, days});
    EXPECT_LE(document.pages.size(), 2U) << skill;
  }
  Document nobody;
  add_learner_report({shaper_, style_, nobody}, {}, {},
                     {ground().phonics.patterns(), rules_, {}});
  EXPECT_EQ(nobody.pages.size(), 1U);
}

TEST_F(Reports, ArePrintedAtTwelvePointsAndMore) {
  for (const int skill : {50, 95}) {
    const SimulatedTerm term(12, skill, 3);
    EXPECT_GE(smallest(learner_page(term), style_), 12) << skill;
    EXPECT_GE(smallest(meeting_page(term), style_), 12) << skill;
    EXPECT_GE(smallest(home_page(term), style_), 14) << skill;
  }
  Document group;
  const std::vector<LearnerProgress> learners = {
      SimulatedTerm(8, 60, 1).progress(), SimulatedTerm(8, 95, 2).progress()};
  const std::vector<Date> days = SimulatedTerm(8, 60, 1).days();
  add_group_report({shaper_, style_, group}, learners,
                   {ground().phonics.patterns(), rules_, days});
  EXPECT_GE(smallest(group, style_), 12);
}

TEST_F(Reports, ThePlotIsSixtyMillimetresHigh) {
  for (const std::size_t patterns : {5U, 12U}) {
    for (const int skill : {50, 85}) {
      EXPECT_GE(
          height_of_figure(learner_page(SimulatedTerm(patterns, skill, 5))),
          60_mm)
          << patterns << " " << skill;
    }
  }
}

TEST_F(Reports, EveryPageSaysWhatScoresAreNot) {
  const SimulatedTerm term(12, 60, 4);
  for (const Document& document :
       {learner_page(term), home_page(term), meeting_page(term)}) {
    for (const Page& page : document.pages) {
      const std::string text = text_of(page);
      EXPECT_NE(text.find("diagnose"), std::string::npos) << text;
    }
  }
}

TEST_F(Reports, HomeAndMeetingTakeOnePage) {
  for (const int skill : {40, 75, 97}) {
    const SimulatedTerm term(12, skill, 6);
    EXPECT_EQ(home_page(term).pages.size(), 1U) << skill;
    EXPECT_EQ(meeting_page(term).pages.size(), 1U) << skill;
  }
}

// No states, no counts of words, nobody else: words alone, but for the plot.
TEST_F(Reports, HomeHasNoCodes) {
  const std::string text =
      text_of(home_page(SimulatedTerm(12, 85, 6)).pages[0]);
  for (const std::string_view code :
       {"check again", "go on", "%", "/", "_", "(", "sequence", "Wilson"}) {
    EXPECT_EQ(text.find(code), std::string::npos) << code << "\n" << text;
  }
}

// The weeks of 26 October and 2 November were holidays.
TEST_F(Reports, TheTableHasNoHolidays) {
  const Document document = learner_page(SimulatedTerm(8, 85, 6));
  const auto has = [&](std::string_view heard) {
    return std::ranges::any_of(document.elements, [&](const Element& element) {
      return element.alternative == heard;
    });
  };
  EXPECT_TRUE(has("week of 19 Oct"));
  EXPECT_FALSE(has("week of 26 Oct"));
  EXPECT_FALSE(has("week of 2 Nov"));
  EXPECT_TRUE(has("week of 9 Nov"));
}

TEST(SchoolWeeks, LeaveHolidaysOut) {
  // Tuesday and Friday of one week, then three weeks later.
  const Date days[] = {{2026, 9, 11}, {2026, 9, 8}, {2026, 9, 30}};
  const SchoolWeeks weeks(days);
  ASSERT_EQ(weeks.size(), 2U);
  EXPECT_EQ(weeks.begins(0), (Date{2026, 9, 7}));
  EXPECT_EQ(weeks.begins(1), (Date{2026, 9, 28}));
  EXPECT_EQ(weeks.of({2026, 9, 13}), 0U);
  EXPECT_EQ(weeks.of({2026, 9, 14}), 2U) << "in none";
  EXPECT_EQ(weeks.of({2026, 10, 4}), 1U);
  EXPECT_EQ(SchoolWeeks({}).size(), 0U);
}

}  // namespace
}  // namespace sheaf
