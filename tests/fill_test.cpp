// Every kind of sheet with lists of 1 to 30 words, words of 2 to 14 letters, up
// to four patterns, both papers and lines of 4 to 10 mm: nothing stands outside
// the margins or in the footer, and no page of a sheet but its last is less
// than a third full.

#include <array>

#include <gtest/gtest.h>

#include <cstdlib>
#include <map>
#include <optional>

#include "project_files.h"
#include "sheets/sheet.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

// All in points, for the settings as they come.
constexpr double kMargin = 15 * 72 / 25.4;
constexpr double kFooter = 8 * 72 / 25.4;
constexpr double kSlack = 3;  // a touch mark under a narrow first letter
constexpr double kBearing = 4;
constexpr double kLearnerHeader = 95, kTeacherHeader = 45;

struct List {
  std::string name, pattern;
  std::vector<std::string> words;
};

std::vector<std::string> first_of(const std::string& words, int count) {
  std::istringstream text(words);
  std::vector<std::string> list;
  for (std::string word; count > 0 && text >> word; --count) {
    list.push_back(word);
  }
  return list;
}

constexpr const char* kShort =
    "ship shed shut shelf fish dish brush splash shop shell shin shrimp shrub "
    "crash trash flash fresh wish rush hush mash dash cash lash rash gash mesh "
    "gush blush thrush";
constexpr const char* kLong =
    "accomplishment establishment embellishment astonishment relationship "
    "championship refreshment nourishment workmanship friendship shopkeeper "
    "dishwasher shipbuilding punishment banishment polishing";
constexpr const char* kBuilt =
    "fishing wishes splashed brushing shopping washing shiny flashed crashes "
    "rushing dashed shutting shaking shaved shipped shelves";

std::vector<List> lists() {
  std::vector<List> all;
  for (const int count : {1, 4, 6, 8, 10, 12, 16, 24, 30}) {
    all.push_back(
        {"short" + std::to_string(count), "sh", first_of(kShort, count)});
  }
  for (const int count : {1, 6, 16}) {
    const std::string number = std::to_string(count);
    all.push_back({"long" + number, "sh", first_of(kLong, count)});
    all.push_back({"built" + number, "sh", first_of(kBuilt, count)});
  }
  for (const int steps : {3, 8, 30}) {
    all.push_back(
        {"check" + std::to_string(steps), "", first_of(kShort, steps)});
  }
  all.push_back({"two", "short a", first_of("at an am as", 4)});
  const std::string ai = "rain sail snail bay day tray ";
  all.push_back({"contrast2", "ai, ay", first_of(ai, 6)});
  all.push_back(
      {"contrast3", "ai, ay, a_e", first_of(ai + "cake lake shape", 9)});
  all.push_back({"contrast4", "ai, ay, a_e, ea_long",
                 first_of(ai + "cake lake shape leaf seat dream", 12)});
  return all;
}

// A check of where to begin: so many steps with a word each, every third of
// them in part one as well.
std::string placement_text(std::size_t steps) {
  const std::vector<std::string> words = first_of(kShort, 30);
  std::string text = "sequence:\n  steps:\n", one, two;
  for (std::size_t i = 0; i < steps; ++i) {
    const std::string number = std::to_string(i + 1);
    text += "    - sh\n";
    if (i % 3 == 1) one += "    " + number + ": " + words[i] + "\n";
    two += "    " + number + ": " + words[(i + 10) % words.size()] + "s\n";
  }
  return text + "placement:\n  part-one:\n" + one + "  part-two:\n" + two;
}

std::string lesson_text(const List& list) {
  if (list.pattern.empty()) return placement_text(list.words.size());
  std::string text = "pattern: " + list.pattern + "\nwords:";
  for (const std::string& word : list.words) text += " " + word;
  text += "\ntaught: ch, ck, ai, oa\nsight-words: of one was\nsentences: |\n";
  for (std::size_t i = 0; i < list.words.size() && i < 8; ++i) {
    text += "  Of one, it was a " + list.words[i] + ".\n";
  }
  // A paragraph for each word: of 14 words to more than a page holds.
  text += "passage:\n  title: " + list.words.front() + "\n  text: |\n";
  for (const std::string& word : list.words) {
    text += "    Of one, it was a " + word + ". It was one, and it was a " +
            word + ".\n\n";
  }
  text += "  questions: |\n    Was it a " + list.words.front() +
          "?\n    Was it one?\n";
  return text;
}

bool has_option(const SheetKind& kind, std::string_view name) {
  for (const OptionSpec& option : kind.options) {
    if (option.name == name) return true;
  }
  return false;
}

// Every kind, with all words and with lines of this height.
std::string layout_text(int line_height) {
  const std::string height =
      "line-height: " + std::to_string(line_height) + " mm\n";
  std::string text = "sheaf: 1\n" + height + "sheets:\n";
  for (const SheetKind* kind : sheet_kinds()) {
    std::string options;
    if (has_option(*kind, "words")) options += "      words: 30\n";
    if (has_option(*kind, "line-height")) options += "      " + height;
    if (has_option(*kind, "learners")) options += "      learners: 24\n";
    // Else all of a sort is on the leaf to cut.
    if (has_option(*kind, "mat")) options += "      mat: yes\n";
    text += "  - " + std::string(kind->name);
    text += options.empty() ? "\n" : ":\n" + options;
  }
  return text;
}

struct PageMarks {
  std::string sheet;
  double width = 0, height = 0;
  double left = 1e9, right = 0, bottom = 0;
};

void cover(PageMarks& page, double x, double y) {
  page.left = std::min(page.left, x);
  page.right = std::max(page.right, x);
  page.bottom = std::max(page.bottom, y);
}

// The number after a letter, such as d2 of a dot; 0 where there is none.
double number_behind(std::string_view word, char letter) {
  if (word.empty() || word[0] != letter) return 0;
  return std::strtod(std::string(word.substr(1)).c_str(), nullptr);
}

// Two numbers with a mark between them: 72,144 or 20x30.
std::optional<std::pair<double, double>> two_numbers(const std::string& word,
                                                     char mark) {
  char* end = nullptr;
  const double first = std::strtod(word.c_str(), &end);
  if (end == word.c_str() || *end != mark) return std::nullopt;
  const char* rest = end + 1;
  const double second = std::strtod(rest, &end);
  if (end == rest) return std::nullopt;
  return std::pair(first, second);
}

// Takes a line of the page dump into account. Of texts the beginning counts:
// that words fit their lines is for the tests of text.
void add_mark(PageMarks& page, const std::string& line) {
  const bool is_path = line.starts_with("path");
  const bool is_text = line.starts_with("text");
  std::vector<std::pair<double, double>> points;
  double w = 0, h = 0, r = 0;
  std::istringstream words(line.substr(0, line.find('"')));
  for (std::string word; words >> word;) {
    const std::size_t digit = word.find_first_of("-.0123456789");
    if (digit == std::string::npos) continue;
    const std::string figures = word.substr(digit);
    if (const auto point = two_numbers(figures, ',')) {
      points.push_back(*point);
    } else if (const auto size = two_numbers(figures, 'x')) {
      std::tie(w, h) = *size;
    } else {
      r = std::max(r, number_behind(word, 'd') / 2);
    }
  }
  for (std::size_t i = is_path ? 1 : 0; i < points.size(); ++i) {
    auto [x, y] = points[i];
    if (is_path) {
      x += points[0].first;
      y += points[0].second;
    }
    if (is_text && y > page.height - kMargin - kFooter) continue;
    // The origin of a text stands left of its ink.
    if (is_text) x += kBearing;
    cover(page, x - r, y - r);
    cover(page, x + w + r, y + h + r);
  }
}

// page 3 "blending 1" 612x792
std::optional<PageMarks> page_head(const std::string& line) {
  const std::size_t open = line.find('"'), close = line.rfind('"');
  if (!line.starts_with("page ") || close <= open) return std::nullopt;
  const std::string name = line.substr(open + 1, close - open - 1);
  const auto size = two_numbers(line.substr(close + 1), 'x');
  if (!size) return std::nullopt;
  PageMarks page;
  page.sheet = name.substr(0, name.rfind(' '));
  std::tie(page.width, page.height) = *size;
  return page;
}

std::vector<PageMarks> pages_in(const std::string& dump) {
  std::vector<PageMarks> pages;
  std::istringstream lines(dump);
  bool in_page = false;
  for (std::string line; std::getline(lines, line);) {
    if (std::optional<PageMarks> page = page_head(line)) {
      pages.push_back(std::move(*page));
      in_page = true;
    } else if (!line.starts_with("  ") ||
               line.find_first_not_of(' ') == line.find('#')) {
      in_page = false;
    } else if (in_page) {
      add_mark(pages.back(), line.substr(2));
    }
  }
  return pages;
}

void check(const std::vector<PageMarks>& pages, const std::string& where) {
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const PageMarks& page = pages[i];
    const std::string what = where + ", " + page.sheet;
    EXPECT_GE(page.left, kMargin - kSlack) << what;
    EXPECT_LE(page.right, page.width - kMargin + kSlack) << what;
    EXPECT_LE(page.bottom, page.height - kMargin - kFooter + kSlack) << what;
    // The last page of cards has its backs behind it.
    const SheetKind* kind = find_sheet_kind(page.sheet);
    const std::size_t next = i + (kind != nullptr && kind->cut ? 2 : 1);
    const bool last = next >= pages.size() || pages[next].sheet != page.sheet;
    if (last) continue;
    const double header = find_sheet_kind(page.sheet)->for_teacher
                              ? kTeacherHeader
                              : kLearnerHeader;
    const double top = kMargin + header;
    const double body = page.height - kMargin - kFooter - top;
    EXPECT_GE((page.bottom - top) / body, 1.0 / 3) << what;
  }
}

// Which lines are drawn is the same under the sanitizers, only slower.
#if defined(__SANITIZE_ADDRESS__)
constexpr std::array kLineHeights = {4, 10};
#else
constexpr std::array kLineHeights = {4, 6, 8, 10};
#endif

TEST(Fill, SheetsHoldListsOfAllLengths) {
  const TemporaryFolder folder;
  std::map<std::string, int> seen;
  int number = 0;
  for (const List& list : lists()) {
    const std::string lesson = folder.path() + "/" + list.name + ".yaml";
    std::ofstream(lesson) << lesson_text(list);
    for (const int line_height : kLineHeights) {
      const std::string layout = folder.path() + "/layout.yaml";
      std::ofstream(layout) << layout_text(line_height);
      const std::string paper = ++number % 2 == 0 ? "letter" : "a4";
      const Outcome dump = run_program(
          {"sh", "-c", "exec \"$0\" \"$@\" 2>/dev/null", SHEAF_PROGRAM, "dump",
           "pages", lesson, "--layout", layout, "--paper", paper});
      ASSERT_EQ(dump.status, 0) << dump.out;
      const auto pages = pages_in(dump.out);
      for (const PageMarks& page : pages) ++seen[page.sheet];
      check(pages, list.name + ", lines of " + std::to_string(line_height) +
                       " mm, " + paper);
    }
  }
  for (const SheetKind* kind : sheet_kinds()) {
    EXPECT_GT(seen[std::string(kind->name)], 0) << kind->name;
  }
}

}  // namespace
}  // namespace sheaf::test
