// The demo packets, read by programs of other makers: page sizes, a clean file,
// the words in order, the places of words, the order of the structure tree.

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <set>

#include "project_files.h"
#include "support/pattern.h"
#include "support/pdf_file.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::Outcome;
using testing_support::Pattern;
using testing_support::PdfFile;
using testing_support::run_program;
using testing_support::TemporaryFolder;

std::vector<std::string> demo_lessons() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(project() / "lessons")) {
    if (entry.path().extension() == ".yaml") {
      names.push_back(entry.path().stem().string());
    }
  }
  std::erase(names, "class");
  std::sort(names.begin(), names.end());
  return names;
}

fs::path lesson_file(const std::string& name) {
  return project() / "lessons" / (name + ".yaml");
}

// The demo packets on both papers, made once.
class Packets : public testing::Test {
 protected:
  static void SetUpTestSuite() {
    folder_ = new TemporaryFolder;
    for (const char* paper : {"letter", "a4"}) {
      std::vector<std::string> call = {
          SHEAF_PROGRAM, "build", "--paper",
          paper,         "--out", folder_->path() + "/" + paper};
      for (const std::string& name : demo_lessons()) {
        call.push_back(lesson_file(name).string());
      }
      const Outcome built = run_program(call);
      ASSERT_EQ(built.status, 0) << built.out;
    }
  }
  static void TearDownTestSuite() {
    delete folder_;
    folder_ = nullptr;
  }

  static std::vector<std::string> files(const std::string& paper) {
    std::vector<std::string> all;
    for (const fs::path& file :
         files_below(fs::path(folder_->path()) / paper, {".pdf"})) {
      all.push_back(file.string());
    }
    return all;
  }

  static TemporaryFolder* folder_;
};
TemporaryFolder* Packets::folder_ = nullptr;

TEST_F(Packets, ThereAreAtLeastThreeDemoLessons) {
  EXPECT_GE(demo_lessons().size(), 3U);
  EXPECT_EQ(files("letter").size(), 2 * demo_lessons().size());
}

TEST_F(Packets, HaveTheSizeOfTheirPaper) {
  // ISO 216: A4 is 210 mm x 297 mm. ANSI/ASME Y14.1: letter is 8.5 in x 11 in.
  const std::map<std::string, std::pair<double, double>> sizes = {
      {"letter", {8.5 * 72, 11 * 72}},
      {"a4", {210 * 72 / 25.4, 297 * 72 / 25.4}}};
  const Pattern line(R"(Page\s+\d+ size:\s+([\d.]+) x ([\d.]+) pts)");
  for (const auto& [paper, size] : sizes) {
    for (const std::string& file : files(paper)) {
      const std::string info =
          run_program({"pdfinfo", "-f", "1", "-l", "999", file}).out;
      int pages = 0;
      for (const Pattern::Match& page : line.all_in(info)) {
        EXPECT_NEAR(std::stod(page[1]), size.first, 0.01) << file;
        EXPECT_NEAR(std::stod(page[2]), size.second, 0.01) << file;
        ++pages;
      }
      EXPECT_GT(pages, 0) << file;
    }
  }
}

TEST_F(Packets, AreCleanFiles) {
  for (const char* paper : {"letter", "a4"}) {
    for (const std::string& file : files(paper)) {
      const Outcome check = run_program({"qpdf", "--check", file});
      EXPECT_EQ(check.status, 0) << check.out;
    }
  }
}

// The words of the page dump, each with its place, in drawing order.
struct PlacedWord {
  std::string text;
  double x, base;
  int page;
};

std::vector<PlacedWord> dumped_words(const std::string& name,
                                     const std::string& sheet) {
  const std::string dump =
      run_program({SHEAF_PROGRAM, "dump", "pages", lesson_file(name).string(),
                   "--only", sheet})
          .out;
  std::vector<PlacedWord> words;
  std::istringstream lines(dump);
  const Pattern page(R"(^page (\d+) )");
  const Pattern text(
      R"rx(^  text (\S+) (-?[\d.]+),(-?[\d.]+) \S+ \S+ "(.*)"( ink\d+)?$)rx");
  int current = 0;
  for (std::string line; std::getline(lines, line);) {
    if (const auto m = page.in(line); !m.empty()) current = std::stoi(m[1]);
    const Pattern::Match m = text.of(line);
    if (m.empty()) continue;
    words.push_back({m[4], std::stod(m[2]), std::stod(m[3]), current});
  }
  return words;
}

std::string squeezed(const std::string& text) {
  std::string result;
  for (const char c : text) {
    if (std::isspace(static_cast<unsigned char>(c)) == 0) result += c;
  }
  return result;
}

TEST_F(Packets, GiveBackTheirTextInOrder) {
  for (const std::string& name : demo_lessons()) {
    const TemporaryFolder folder;
    for (const char* sheet : {"discovery", "sentences", "compose"}) {
      ASSERT_EQ(run_program({SHEAF_PROGRAM, "build", "--only", sheet, "--out",
                             folder.path(), lesson_file(name).string()})
                    .status,
                0);
      const std::string file = folder.path() + "/" + name + "/packet.pdf";
      const std::string read =
          squeezed(run_program({"pdftotext", "-raw", file, "-"}).out);
      std::size_t at = 0;
      for (const PlacedWord& word : dumped_words(name, sheet)) {
        const std::size_t found = read.find(squeezed(word.text), at);
        EXPECT_NE(found, std::string::npos)
            << name << " " << sheet << ": " << word.text;
        if (found != std::string::npos) at = found;
      }
    }
  }
}

// Words as another program sees them: left edge and text, by page.
std::vector<PlacedWord> seen_words(const std::string& file) {
  const std::string html =
      run_program({"pdftotext", "-bbox", file, "/dev/stdout"}).out;
  std::vector<PlacedWord> words;
  const Pattern item(
      R"rx(<page |<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="[\d.]+" yMax="[\d.]+">([^<]*)<)rx");
  int page = 0;
  for (const Pattern::Match& found : item.all_in(html)) {
    if (found[1].empty()) {
      ++page;
    } else {
      words.push_back(
          {found[3], std::stod(found[1]), std::stod(found[2]), page});
    }
  }
  return words;
}

TEST_F(Packets, PutWordsWhereTheDumpSays) {
  for (const std::string& name : demo_lessons()) {
    const TemporaryFolder folder;
    ASSERT_EQ(run_program({SHEAF_PROGRAM, "build", "--only", "discovery",
                           "--out", folder.path(), lesson_file(name).string()})
                  .status,
              0);
    const auto seen = seen_words(folder.path() + "/" + name + "/packet.pdf");
    int compared = 0;
    for (const PlacedWord& word : dumped_words(name, "discovery")) {
      if (word.page != 1 || word.text.find(' ') != std::string::npos) continue;
      double nearest = 1e9;
      for (const PlacedWord& other : seen) {
        if (other.text != word.text || other.page != 1) continue;
        nearest = std::min(nearest, std::abs(other.x - word.x));
      }
      if (nearest == 1e9) continue;  // part of a longer word
      EXPECT_LE(nearest, 0.1) << name << ": " << word.text;
      ++compared;
    }
    EXPECT_GE(compared, 8) << name;
  }
}

TEST_F(Packets, AreReadInOrderByTheirStructure) {
  for (const std::string& file : files("letter")) {
    const Outcome tree = run_program({"pdfinfo", "-struct-text", file});
    EXPECT_EQ(tree.status, 0);
    EXPECT_TRUE(tree.out.starts_with("Document")) << tree.out.substr(0, 80);
    EXPECT_NE(tree.out.find("H1"), std::string::npos) << file;
  }
  const std::string packet =
      folder_->path() + "/letter/" + demo_lessons().front() + "/packet.pdf";
  const std::string tree = run_program({"pdfinfo", "-struct-text", packet}).out;
  std::size_t at = 0;
  for (const char* title : {"What do you notice?", "Key word card",
                            "Touch and blend", "Sound boxes", "Read and find",
                            "My own sentences", "Listen and write"}) {
    const std::size_t found = tree.find(title, at);
    EXPECT_NE(found, std::string::npos) << title;
    if (found != std::string::npos) at = found;
  }
}

TEST_F(Packets, AreTheSameBytesEachTime) {
  const TemporaryFolder again;
  for (const std::string& name : demo_lessons()) {
    // Another folder, time zone and language; a lesson at a time.
    const Outcome built =
        run_program({"env", "TZ=Asia/Kolkata", "LC_ALL=tr_TR.UTF-8",
                     SHEAF_PROGRAM, "build", "--paper", "letter", "--out",
                     again.path(), lesson_file(name).string()});
    ASSERT_EQ(built.status, 0) << built.out;
    for (const char* file : {"packet.pdf", "teacher.pdf"}) {
      EXPECT_TRUE(
          testing_support::file_bytes(again.path() + "/" + name + "/" + file) ==
          testing_support::file_bytes(folder_->path() + "/letter/" + name +
                                      "/" + file))
          << name << " " << file;
    }
  }
}

// The marks of a sheet's pages in a dump, without the numbers of elements and
// pages, which depend on what else is printed.
std::string sheet_in(const std::string& dump, const std::string& sheet) {
  std::istringstream lines(dump);
  std::string found;
  bool inside = false;
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("page ")) {
      inside = line.find('"' + sheet + ' ') != std::string::npos;
    } else if (inside && line.starts_with("  ")) {
      const std::size_t number = line.find('#');
      if (number != std::string::npos) {
        line.erase(number, line.find(' ', number) - number);
      }
      found += line + "\n";
    }
  }
  return found;
}

TEST(Class, HasAPacketForEachLearnerAndOneFileForThePrinter) {
  const TemporaryFolder folder;
  const std::string file = lesson_file("class").string();
  const Outcome built = run_program(
      {SHEAF_PROGRAM, "build", "--class", file, "--out", folder.path()});
  ASSERT_EQ(built.status, 0) << built.out;
  int sum = 0;
  const auto pages_in = [](const std::string& pdf) {
    return std::stoi(run_program({"qpdf", "--show-npages", pdf}).out);
  };
  for (const char* code : {"B7", "C3", "D1", "E5", "K2"}) {
    const std::string pdf = folder.path() + "/class/" + code + "/packet.pdf";
    ASSERT_TRUE(fs::exists(pdf)) << code;
    sum += pages_in(pdf) + pages_in(pdf) % 2;
  }
  // Each learner begins a leaf; the last needs no blank page behind. Two share
  // a leaf of cards, which saves one.
  const int all = pages_in(folder.path() + "/class/packets.pdf") + 2;
  EXPECT_TRUE(all == sum || all == sum - 1) << all << " " << sum;
  EXPECT_TRUE(fs::exists(folder.path() + "/class/teacher.pdf"));
  const PdfFile job(read(folder.path() + "/class/packets.pdf"));
  std::string code;
  for (const auto& entry : job.outline()) {
    const std::string own = entry.title.substr(0, entry.title.find(':'));
    const bool begins = own != code;
    code = own;
    EXPECT_TRUE(!begins || entry.page % 2 == 0) << entry.title;
    EXPECT_EQ(job.label(entry.page).substr(0, code.size() + 1), code + " ");
  }
  EXPECT_EQ(code, "K2");
}

// What was printed for all of the class stays beside it.
TEST(Class, HasOneFileForThePrinterForSomeOfItsLearnersToo) {
  const TemporaryFolder folder;
  const std::string file = lesson_file("class").string();
  const auto build = [&](std::vector<std::string> more) {
    more.insert(more.begin(), {SHEAF_PROGRAM, "build", "--class", file, "--out",
                               folder.path(), "--only", "cover-write,script"});
    return run_program(more);
  };
  const Outcome some = build({"--learner", "B7,C3"});
  ASSERT_EQ(some.status, 0) << some.out;
  const std::string home = folder.path() + "/class/";
  const std::string name = "cover-write+script-for-B7-C3.pdf";
  for (const std::string& pdf :
       {name, "teacher-" + name, std::string("B7/cover-write+script.pdf"),
        std::string("C3/cover-write+script.pdf")}) {
    EXPECT_TRUE(fs::exists(home + pdf)) << pdf << some.out;
  }
  const PdfFile job(read(home + name));
  std::set<std::string> codes;
  for (const auto& entry : job.outline()) {
    codes.insert(entry.title.substr(0, entry.title.find(':')));
  }
  EXPECT_EQ(codes, (std::set<std::string>{"B7", "C3"}));
  // One learner's pages are one file already.
  fs::remove_all(home);
  ASSERT_EQ(build({"--learner", "B7"}).status, 0);
  EXPECT_TRUE(fs::exists(home + "B7/cover-write+script.pdf"));
  EXPECT_FALSE(fs::exists(home + "cover-write+script-for-B7.pdf"));
}

TEST(Class, PrintsOneSheetAgainAsItWas) {
  const std::string file = lesson_file("class").string();
  const auto dump = [&](std::vector<std::string> more) {
    std::vector<std::string> call = {
        SHEAF_PROGRAM, "dump", "pages", "--class", file, "--learner", "B7"};
    call.insert(call.end(), more.begin(), more.end());
    return run_program(call).out;
  };
  const std::string whole = sheet_in(dump({}), "sound-boxes");
  EXPECT_FALSE(whole.empty());
  EXPECT_EQ(whole, sheet_in(dump({"--only", "sound-boxes"}), "sound-boxes"));
}

}  // namespace
}  // namespace sheaf::test
