// The teacher's pages as they are heard, of all lessons: titles, languages and
// bookmarks; what is marked with a band; tables whose rows are as wide as their
// heads; and the reports of the demo term.

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "driver/marking_desk.h"
#include "files/disk_files.h"
#include "look_checks.h"
#include "phonics/conventions.h"
#include "project_files.h"
#include "reports/home_report.h"
#include "reports/mark_report.h"
#include "reports/meeting_report.h"
#include "reports/progress_report.h"
#include "reports/sunday_report.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::TemporaryFolder;

ElementId element_of(const Mark& mark) {
  return std::visit([](const auto& m) { return m.element; }, mark);
}

// The nearest element around this one, itself included, that is no span.
ElementId part_of(const Document& document, ElementId id) {
  while (document.element(id).role == Role::span) {
    id = document.element(id).parent;
  }
  return id;
}

// A ground behind letters has a line at its foot; that of a table's head has
// none.
bool is_band(const Page& page, const RectMark& ground, std::size_t at) {
  if (!ground.filled || at + 1 >= page.marks.size()) return false;
  const auto* foot = std::get_if<LineMark>(&page.marks[at + 1]);
  const Rect& r = ground.rect;
  return foot != nullptr && foot->from == Point{r.x, r.bottom()} &&
         foot->to == Point{r.right(), r.bottom()};
}

// Every band behind letters is told in the paragraph of those letters.
void check_bands(const Document& document, const std::string& about,
                 int& bands) {
  std::map<ElementId, std::string> heard;
  for (const Element& element : document.elements) {
    if (element.role == Role::span)
      heard[element.parent] += element.alternative;
  }
  for (const Page& page : document.pages) {
    for (std::size_t i = 0; i < page.marks.size(); ++i) {
      const auto* band = std::get_if<RectMark>(&page.marks[i]);
      if (band == nullptr || !is_band(page, *band, i)) continue;
      // The text that begins nearest to it on its line, among what is drawn
      // after it.
      const GlyphMark* text = nullptr;
      for (std::size_t k = i + 1; k < page.marks.size(); ++k) {
        const auto* glyphs = std::get_if<GlyphMark>(&page.marks[k]);
        if (glyphs == nullptr || glyphs->at.y < band->rect.y ||
            glyphs->at.y > band->rect.bottom()) {
          continue;
        }
        const auto away = [&](const GlyphMark& g) {
          return std::abs((g.at.x - band->rect.x).mils());
        };
        if (text == nullptr || away(*glyphs) < away(*text)) text = glyphs;
      }
      ASSERT_NE(text, nullptr) << about;
      ++bands;
      const GlyphMark& glyphs = *text;
      const std::string& told = heard[part_of(document, glyphs.element)];
      const std::size_t marked = told.find("Marked: ");
      ASSERT_NE(marked, std::string::npos)
          << about << page.label << ": nothing says that \""
          << glyphs.run.shape->text << "\" is marked";
      std::string shown = glyphs.run.shape->text;
      while (shown.ends_with(' ')) shown.pop_back();
      EXPECT_NE(told.find(shown, marked), std::string::npos)
          << about << page.label << ": " << told << " lacks " << shown;
    }
  }
}

// Rows of a table are equally wide, cells with spans counted (PDF/UA-1 7.2).
void check_tables(const Document& document, const std::string& about) {
  std::map<ElementId, int> widths;                     // of rows
  std::map<ElementId, std::vector<ElementId>> tables;  // and their rows
  std::map<ElementId, int> more_rows;  // columns that reach below, by row
  for (std::size_t i = 0; i < document.elements.size(); ++i) {
    const Element& e = document.elements[i];
    const auto id = static_cast<ElementId>(i + 1);
    if (e.role == Role::table_row) tables[e.parent].push_back(id);
    if (e.role != Role::header_cell && e.role != Role::data_cell) continue;
    if (e.role == Role::header_cell) {
      EXPECT_NE(e.scope, Scope::none) << about;
    }
    widths[e.parent] += e.columns;
    if (e.rows > 1) more_rows[e.parent] += e.columns;
    EXPECT_LE(e.rows, 2) << about;
  }
  for (const auto& [table, rows] : tables) {
    const int wide = widths[rows.front()];
    EXPECT_GT(wide, 0) << about;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const int above = i == 0 ? 0 : more_rows[rows[i - 1]];
      EXPECT_EQ(widths[rows[i]] + above, wide)
          << about << ": row " << i + 1 << " of a table";
    }
  }
}

// What is heard of an element itself, on all pages.
std::string heard_of(const Document& document, ElementId of) {
  std::string text;
  std::set<ElementId> said;
  for (const Page& page : document.pages) {
    for (const Mark& mark : page.marks) {
      const ElementId id = element_of(mark);
      if (is_artifact(id) || part_of(document, id) != of) continue;
      const Element& element = document.element(id);
      if (!element.alternative.empty()) {
        if (said.insert(id).second) text += element.alternative;
      } else if (const auto* glyphs = std::get_if<GlyphMark>(&mark)) {
        text += glyphs->run.shape->text;
      }
    }
  }
  return text;
}

// Titles, bookmarks and headings of one file.
void check_names(const Document& document, const std::string& about) {
  EXPECT_FALSE(document.title.empty()) << about;
  EXPECT_TRUE(document.language == "en-US" || document.language == "en-GB" ||
              document.language == "en-AU")
      << about << document.language;
  std::set<std::string> bookmarks;
  for (const OutlineEntry& entry : document.outline) {
    EXPECT_TRUE(bookmarks.insert(entry.title).second)
        << about << "two bookmarks are " << entry.title;
  }
}

void check_headings(const Document& document, const std::string& about) {
  std::set<std::string> headings;
  for (std::size_t i = 0; i < document.elements.size(); ++i) {
    if (document.elements[i].role != Role::heading1) continue;
    const std::string text = heard_of(document, static_cast<ElementId>(i + 1));
    EXPECT_FALSE(text.empty()) << about;
    EXPECT_TRUE(headings.insert(text).second)
        << about << "two headings are " << text;
  }
}

// Slashes, underscores and dots between letters are for eyes.
void check_signs(const Document& document, const std::string& about) {
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  for (std::size_t i = 0; i < document.elements.size(); ++i) {
    const Role role = document.elements[i].role;
    if (role == Role::span || role == Role::figure) continue;
    const std::string text = heard_of(document, static_cast<ElementId>(i + 1));
    for (const char* sign : {" /", "/ ", "a_e", "i_e", "o_e", " · "}) {
      EXPECT_EQ((" " + text + " ").find(sign), std::string::npos)
          << about << ": \"" << text << "\" is heard with " << sign;
    }
    EXPECT_NE(text, "–") << about;
    for (std::size_t at = text.find('/'); at != std::string::npos;
         at = text.find('/', at + 1)) {
      const bool count = at > 0 && at + 1 < text.size() &&
                         is_digit(text[at - 1]) && is_digit(text[at + 1]);
      EXPECT_FALSE(count) << about << ": " << text;
    }
  }
}

class SaidHeard : public testing::Test {
 protected:
  Made made_of(const std::string& lesson) {
    return make(workspace_, folder_.write("lesson.yaml", lesson), "week",
                "letter", {});
  }

  const TemporaryFolder folder_;
  Workspace workspace_{disk(), shipped_folder()};
};

// What is said is the same under the sanitizers, only slower.
#if defined(__SANITIZE_ADDRESS__)
constexpr int kEachLessonHeard = 6;
#else
constexpr int kEachLessonHeard = 1;
#endif

TEST_F(SaidHeard, TeachersPagesOfAllLessons) {
  int found = 0, lessons = 0, bands = 0;
  for (const fs::path& path : files_below(project() / "lessons", {".yaml"})) {
    if (("\n" + read(path)).find("\npattern:") == std::string::npos) continue;
    if (found++ % kEachLessonHeard != 0) continue;
    const Made made = make(workspace_, path.string(), "week", "letter", {});
    ASSERT_NE(made.lesson, nullptr);
    ++lessons;
    check_bands(made.packet.teacher, made.about, bands);
    for (const Document* pages : {&made.packet.teacher, &made.packet.learner}) {
      check_tables(*pages, made.about);
      check_names(*pages, made.about);
    }
    check_headings(made.packet.teacher, made.about);
    check_signs(made.packet.teacher, made.about);
    EXPECT_NE(made.packet.teacher.title, made.packet.learner.title);
  }
  EXPECT_GE(lessons, 36 / kEachLessonHeard);
  EXPECT_GE(bands, 500 / kEachLessonHeard);
}

// Teachers look for the pattern and the sheet; what a learner sees in a list of
// files gives nothing away.
TEST_F(SaidHeard, TitlesNamePatternAndSheetForTeachersOnly) {
  const std::string path =
      folder_.write("lesson.yaml",
                    "pattern: sh\nwords: ship shed fish dish\ntitle: Week 3\n");
  const auto titles = [&](const std::vector<std::string>& only) {
    const Made made = make(workspace_, path, "week", "letter", only);
    return std::pair(made.packet.learner.title, made.packet.teacher.title);
  };
  const auto [learner, teacher] = titles({});
  EXPECT_TRUE(learner.starts_with("Worksheets, Week 3, code ")) << learner;
  EXPECT_EQ(learner.find("sh,"), std::string::npos) << learner;
  EXPECT_TRUE(teacher.starts_with(
      "sh: week plan, by ear, script and answer key, Week 3, code "))
      << teacher;
  EXPECT_TRUE(titles({"mark-sheet"}).second.starts_with("sh: mark sheet, "));
  EXPECT_TRUE(titles({"sound-boxes"}).first.starts_with("Sound boxes, "));
}

TEST_F(SaidHeard, LanguageIsThatOfTheAccent) {
  constexpr const char* kRows[][2] = {{"general-american", "en-US"},
                                      {"british", "en-GB"},
                                      {"scottish", "en-GB"},
                                      {"australian", "en-AU"}};
  for (const auto& [accent, language] : kRows) {
    const Made made = made_of(
        "pattern: sh\nwords: ship fish\naccent: " + std::string(accent) + "\n");
    EXPECT_EQ(made.packet.learner.language, language) << accent;
    EXPECT_EQ(made.packet.teacher.language, language) << accent;
  }
}

TEST_F(SaidHeard, ASheetThatStandsTwiceHasTwoBookmarks) {
  const std::string lesson =
      folder_.write("lesson.yaml", "pattern: sh\nwords: ship fish\n");
  const std::string layout =
      folder_.write("twice.yaml", "sheets: [blending, blending]\n");
  const Made made = make(workspace_, lesson, layout, "letter", {});
  ASSERT_NE(made.lesson, nullptr) << made.faults;
  const auto& outline = made.packet.learner.outline;
  ASSERT_EQ(outline.size(), 2U);
  EXPECT_EQ(outline[0].title, "Touch and blend");
  EXPECT_EQ(outline[1].title, "Touch and blend (2)");
}

TEST_F(SaidHeard, ReportsOfTheDemoTerm) {
  std::vector<std::string> faults;
  MarkingDesk desk(workspace_, {}, faults);
  Diagnostics diagnostics;
  const std::vector<MarkedRecord> records =
      desk.mark({(project() / "lessons/demo-term/records").string(),
                 (project() / "lessons/demo-term/probe-records").string()},
                diagnostics);
  ASSERT_GT(records.size(), 10U);
  const PatternCatalogue& catalogue = workspace_.phonics().patterns();
  OptionValues settings(page_options());
  const Style style = make_style(settings, workspace_.fonts(), diagnostics);

  Document marks;
  marks.title = "Marks";
  const ReportMaker maker{workspace_.shaper(), style, marks};
  for (const MarkedRecord& marked : records) {
    add_mark_report(maker, marked.session, marked.patterns, catalogue,
                    date_text(marked.session.date));
  }
  EXPECT_EQ(marks.outline.size(), records.size());

  Document progress;
  progress.title = "Progress";
  const ReportMaker other{workspace_.shaper(), style, progress};
  const ProgressRules rules;
  const auto learners = class_progress(
      sessions_of(records), desk.taught_lessons(records), catalogue, rules);
  ASSERT_GE(learners.size(), 5U);
  std::vector<Date> days;
  for (const MarkedRecord& marked : records) {
    days.push_back(marked.session.date);
  }
  const ProgressGround ground{catalogue, rules, days};
  const Sessions sessions = sessions_of(records);
  add_group_report(other, learners, ground);
  for (const LearnerProgress& learner : learners) {
    const Growth growth =
        growth_of(learner, {.date = Date{2026, 12, 18}, .level = {}});
    EXPECT_GE(growth.points.size(), kProbesForTrend);
    add_learner_report(other, learner, growth, ground);
    add_home_report(other, learner, growth, sessions, catalogue);
    add_meeting_report(other, learner, growth, sessions, ground);
  }
  Document sunday;
  sunday.title = "The week on one page";
  add_sunday_report({workspace_.shaper(), style, sunday}, "Room 4", 12,
                    {{.name = "Red",
                      .lesson = "Week 3: ck",
                      .copies = "5",
                      .pages = "11 to 13",
                      .cut = "day 1: Sort the words",
                      .days = {"Sort the words", "", "Dictation"}},
                     {.name = "Blue",
                      .lesson = "Week 1: sh",
                      .copies = "1",
                      .pages = "12",
                      .cut = "",
                      .days = {"Sort the words", "", ""}}},
                    {{"Red", "ck", "sh (B7, C3)"}, {"Blue", "", ""}});
  EXPECT_EQ(sunday.pages.size(), 1U);
  for (const Document* report : {&marks, &progress, &sunday}) {
    check_names(*report, report->title);
    check_headings(*report, report->title);
    check_tables(*report, report->title);
    check_signs(*report, report->title);
  }
  // A share is said as one; an empty cell of the weeks says why.
  bool share = false, not_asked = false;
  for (const Element& element : progress.elements) {
    share = share || element.alternative == "4 of 4";
    not_asked = not_asked || element.alternative == "not asked";
  }
  EXPECT_TRUE(share);
  EXPECT_TRUE(not_asked);
  EXPECT_EQ(progress.outline.front().title, "Progress of the group");
  EXPECT_EQ(progress.outline[1].title,
            "Progress of " + learners.front().code.text());
}

}  // namespace
}  // namespace sheaf::test
