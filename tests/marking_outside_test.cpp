// Records, marking and what follows from them, as a teacher would run it: a
// form that is never overwritten, pages that other programs can read, a learner
// who is forgotten, and the demo term from first to last.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <fstream>

#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::file_bytes;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

Outcome sheaf(std::vector<std::string> arguments) {
  arguments.insert(arguments.begin(), SHEAF_PROGRAM);
  return run_program(arguments);
}

fs::path term() { return project() / "lessons/demo-term"; }

// The demo term in a folder of its own.
class Term : public testing::Test {
 protected:
  Term() : home_(fs::path(folder_.path()) / "term") {
    fs::copy(term(), home_, fs::copy_options::recursive);
  }
  std::string path(const std::string& name) const {
    return (home_ / name).string();
  }
  std::string all_text() const {
    std::string text;
    for (const fs::path& file : files_below(home_, {".yaml"})) {
      text += file.string() + "\n" + file_bytes(file.string());
    }
    return text;
  }

  TemporaryFolder folder_;
  fs::path home_;
};

TEST_F(Term, ARecordFormIsReadyAndNeverOverwritten) {
  const std::string lesson = path("week-11-oo.yaml");
  const std::vector<std::string> call = {
      "record", lesson, "--class", path("class.yaml"), "--date", "2026-11-20"};
  const Outcome made = sheaf(call);
  ASSERT_EQ(made.status, 0) << made.out;
  const std::string form = path("records/2026-11-20-week-11-oo.yaml");
  EXPECT_EQ(made.out, form + "\n");
  const std::string text = file_bytes(form);
  for (const char* expected :
       {"lesson: week-11-oo.yaml\n", "class: class.yaml\n", "  B7:\n",
        "moon food boot tooth spoon"}) {
    EXPECT_NE(text.find(expected), std::string::npos) << expected << text;
  }
  // No learner's code is an example, which `forget` would have to name.
  EXPECT_EQ(text.find("C3"), text.rfind("C3")) << text;
  // As it comes, it counts for nobody.
  const Outcome untouched = sheaf({"mark", form});
  EXPECT_EQ(untouched.status, 0) << untouched.out;
  EXPECT_NE(untouched.out.find("[not-marked-yet]"), std::string::npos);
  EXPECT_EQ(untouched.out.find("B7"), std::string::npos) << untouched.out;
  // Once the teacher says that it was marked, everyone listed was right.
  std::string filled = text;
  filled.replace(filled.find("marked: not yet"), 15, "marked: all");
  std::ofstream(form, std::ios::binary) << filled;
  const Outcome marked = sheaf({"mark", form});
  EXPECT_EQ(marked.status, 0) << marked.out;
  EXPECT_NE(marked.out.find("group    75/75 (100%)"), std::string::npos)
      << marked.out;
  const Outcome again = sheaf(call);
  EXPECT_EQ(again.status, 3) << again.out;
  EXPECT_EQ(file_bytes(form), filled);
}

// A class of three groups: one with the lesson, one with another, one at a step
// of the sequence. Each form lists those whose lesson it is.
class Groups : public testing::Test {
 protected:
  Groups() {
    fs::create_directory(path("records"));
    folder_.write("sequence.yaml",
                  "steps:\n"
                  "  - patterns: sh\n    sight-words: she the\n"
                  "  - patterns: ch\n");
    folder_.write("sh.yaml",
                  "pattern: sh\nwords: ship fish\n"
                  "dictate-words: ship fish she\n");
    folder_.write("ch.yaml",
                  "pattern: ch\nwords: chin rich\n"
                  "dictate-words: chin rich fish\n");
    folder_.write("class.yaml",
                  "groups:\n"
                  "  Monday: {lesson: sh.yaml}\n"
                  "  Tuesday: {lesson: ch.yaml}\n"
                  "  Friday: {step: 2}\n"
                  "learners:\n"
                  "  A1: {group: Monday}\n"
                  "  B7: {group: Monday, until: 2026-10-02}\n"
                  "  C3: {group: Tuesday}\n"
                  "  D1: {group: Friday}\n"
                  "  E5: {group: Monday, lesson: ch.yaml}\n"
                  "  K2: {from: 2026-10-05}\n");
  }
  // The codes that a form lists.
  std::string listed(const std::string& lesson, const std::string& date,
                     std::vector<std::string> more = {}) {
    std::vector<std::string> call = {
        "record", path(lesson), "--class",   path("class.yaml"),
        "--date", date,         "--records", path("forms-" + lesson + date)};
    call.insert(call.end(), more.begin(), more.end());
    const Outcome made = sheaf(call);
    if (made.status != 0) return made.out;
    std::istringstream form(
        file_bytes(made.out.substr(0, made.out.size() - 1)));
    std::string codes;
    for (std::string line; std::getline(form, line);) {
      if (line.starts_with("  ") && line.ends_with(":")) {
        codes += line.substr(2, 2) + " ";
      }
    }
    return codes;
  }
  std::string path(const std::string& name) const {
    return folder_.path() + "/" + name;
  }
  TemporaryFolder folder_;
};

TEST_F(Groups, AFormListsThoseWhoseLessonItIs) {
  EXPECT_EQ(listed("sh.yaml", "2026-10-01"), "A1 B7 ");
  EXPECT_EQ(listed("sh.yaml", "2026-10-09"), "A1 K2 ");
  EXPECT_EQ(listed("ch.yaml", "2026-10-09"), "C3 D1 E5 K2 ");
  EXPECT_EQ(listed("ch.yaml", "2026-10-10", {"--group", "Friday"}), "D1 ");
  const std::string nobody =
      listed("sh.yaml", "2026-10-10", {"--group", "Tuesday"});
  EXPECT_NE(nobody.find("nobody in `Tuesday` has this lesson (C3: ….yaml)"),
            std::string::npos)
      << nobody;
  EXPECT_NE(listed("sh.yaml", "2026-10-10", {"--group", "Tusday"})
                .find("did you mean `Tuesday`"),
            std::string::npos);
}

// K2 comes in week 6 and B7 goes: the one gets no earlier scores, the other
// keeps theirs. The words known by sight count for no pattern.
TEST_F(Groups, WhoComesLaterAndWhoLeft) {
  folder_.write("records/week-1.yaml",
                "date: 2026-09-11\nlesson: sh.yaml\nclass: class.yaml\n"
                "marked: all\nwrong:\n  A1: {}\n  b7: {she: shi}\n");
  const Outcome marked = sheaf({"progress", path("records")});
  EXPECT_EQ(marked.status, 0) << marked.out;
  EXPECT_EQ(marked.out.find("K2"), std::string::npos) << marked.out;
  EXPECT_NE(marked.out.find("B7\n"), std::string::npos) << marked.out;
  EXPECT_EQ(marked.out.find("warning"), std::string::npos) << marked.out;
  EXPECT_NE(marked.out.find("2/2"), std::string::npos) << marked.out;
  EXPECT_EQ(marked.out.find("/3"), std::string::npos) << marked.out;
  folder_.write("records/week-6.yaml",
                "date: 2026-10-16\nlesson: sh.yaml\nclass: class.yaml\n"
                "marked: all\nwrong:\n  A1: {}\n  B7: {}\n");
  const Outcome later = sheaf({"mark", path("records/week-6.yaml")});
  EXPECT_NE(later.out.find("`B7` was not in the class on 2026-10-16"),
            std::string::npos)
      << later.out;
  EXPECT_NE(later.out.find("it does not list K2, who is in the class"),
            std::string::npos)
      << later.out;
}

// Whatever a file or a command says: b7 is B7.
TEST_F(Groups, CapitalsMakeNoDifferenceInACode) {
  folder_.write("class.yaml", "lesson: sh.yaml\nlearners: b7, C3\n");
  folder_.write("records/week-1.yaml",
                "date: 2026-09-11\nlesson: sh.yaml\nclass: class.yaml\n"
                "marked: B7, c3\nwrong: {b7: {ship: sip}}\n"
                "note: All there.\n");
  for (const char* code : {"b7", "B7"}) {
    const Outcome mark =
        sheaf({"mark", path("records"), "--csv", "--learner", code});
    EXPECT_EQ(mark.status, 0) << mark.out;
    EXPECT_NE(mark.out.find("B7,ship,sip"), std::string::npos) << mark.out;
    EXPECT_EQ(mark.out.find("b7"), std::string::npos) << mark.out;
    EXPECT_EQ(mark.out.find("C3"), std::string::npos) << mark.out;
    const Outcome progress =
        sheaf({"progress", path("records"), "--learner", code});
    EXPECT_NE(progress.out.find("1/2"), std::string::npos) << progress.out;
    const Outcome built = sheaf({"build", "--class", path("class.yaml"),
                                 "--learner", code, "--out", path("out")});
    EXPECT_EQ(built.status, 0) << built.out;
    EXPECT_TRUE(fs::exists(path("out/class/B7/packet.pdf"))) << built.out;
  }
}

TEST_F(Term, PairsAreReadFromAFileOrStandardInput) {
  const std::string file = folder_.write("pairs.tsv", "rain\trane\nduck\t\n");
  const Outcome marked = sheaf({"mark", "--json", "--pairs", file});
  EXPECT_EQ(marked.status, 0);
  EXPECT_NE(marked.out.find("\"result\": \"plausible\""), std::string::npos);
  const Outcome piped =
      run_program({"sh", "-c",
                   "printf 'rain\\trane\\nduck\\t\\n' | \"$0\" mark --json "
                   "--pairs -",
                   SHEAF_PROGRAM});
  EXPECT_EQ(piped.out, marked.out);
  const std::string bad = folder_.write("bad.tsv", "rain rane\n");
  EXPECT_EQ(sheaf({"mark", "--pairs", bad}).status, 1);
  // Blanks around a word are none of it.
  const std::string wide = folder_.write("wide.tsv", "  rain \train\n");
  EXPECT_NE(sheaf({"mark", "--csv", "--pairs", wide})
                .out.find(",rain,rain,1,r=correct ai=correct n=correct,0,5,5"),
            std::string::npos);
}

// The caution on every page, the figures of the plot in a table, tags.
TEST_F(Term, PagesOfScoresCanBeReadByOthers) {
  const std::string marks = folder_.path() + "/marks.pdf";
  const std::string progress = folder_.path() + "/progress.pdf";
  ASSERT_EQ(sheaf({"mark", path("records"), "--pdf", marks}).status, 0);
  ASSERT_EQ(sheaf({"progress", path("records"), "--pdf", progress}).status, 0);
  for (const std::string& file : {marks, progress}) {
    const Outcome checked = run_program({"qpdf", "--check", file});
    EXPECT_EQ(checked.status, 0) << checked.out;
    const std::string info = run_program({"pdfinfo", file}).out;
    EXPECT_NE(info.find("Tagged:          yes"), std::string::npos) << info;
    const std::string text = run_program({"pdftotext", file, "-"}).out;
    std::size_t pages = 0, cautions = 0, at = 0;
    for (const char c : text) pages += c == '\f' ? 1 : 0;
    while ((at = text.find("diagnose", at)) != std::string::npos) {
      ++cautions;
      ++at;
    }
    EXPECT_EQ(cautions, pages) << file;
  }
  // Two pages for the group and one for each learner.
  const std::string info = run_program({"pdfinfo", progress}).out;
  EXPECT_NE(info.find("Pages:           7"), std::string::npos) << info;
}

TEST_F(Term, ALearnerIsForgotten) {
  const std::string out = folder_.path() + "/out";
  ASSERT_EQ(sheaf({"build", path("week-05-ee.yaml"), "--class",
                   path("class.yaml"), "--out", out})
                .status,
            0);
  ASSERT_TRUE(fs::exists(out + "/class/K2/packet.pdf"));
  const std::vector<std::string> call = {
      "forget",           "K2",    "--records", path("records"), "--class",
      path("class.yaml"), "--out", out};
  const std::string before = all_text();
  const Outcome shown = sheaf(call);
  EXPECT_EQ(shown.status, 0) << shown.out;
  EXPECT_NE(shown.out.find("nothing was changed"), std::string::npos);
  EXPECT_EQ(all_text(), before);
  EXPECT_TRUE(fs::exists(out + "/class/K2"));

  std::vector<std::string> certain = call;
  certain.push_back("--yes");
  const Outcome done = sheaf(certain);
  EXPECT_EQ(done.status, 0) << done.out;
  EXPECT_FALSE(fs::exists(out + "/class/K2"));
  // Lines of others are all there, in their order.
  std::istringstream rest(all_text()), whole(before);
  std::string wanted;
  for (std::string line; std::getline(rest, line);) {
    while (std::getline(whole, wanted) && wanted != line) {
      EXPECT_TRUE(wanted.find("K2") != std::string::npos ||
                  wanted.starts_with("    "))
          << wanted;
    }
  }
  const Outcome marked = sheaf({"mark", path("records")});
  EXPECT_EQ(marked.status, 0) << marked.out;
  EXPECT_EQ(marked.out.find("K2"), std::string::npos);
  const Outcome again = sheaf(call);
  EXPECT_NE(again.out.find("the code K2 was not found anywhere"),
            std::string::npos)
      << again.out;
}

// A whole year of a learner who misses a word a week still fits one page.
TEST(Year, OfALearnerIsOnePage) {
  const TemporaryFolder folder;
  const fs::path home = fs::path(folder.path()) / "year";
  fs::copy(project() / "lessons/year", home);
  fs::create_directory(home / "records");
  folder.write("year/class.yaml", "learners: B7\n");
  int week = 0;
  for (const fs::path& lesson : files_below(home, {".yaml"})) {
    const std::string name = lesson.filename().string();
    if (name == "sequence.yaml" || name == "class.yaml") continue;
    // Four weeks to each month, from September on.
    const int month = 8 + week / 4;
    const std::string day = std::to_string(2026 + month / 12) +
                            (month % 12 < 9 ? "-0" : "-") +
                            std::to_string(month % 12 + 1) + "-" +
                            std::to_string(10 + week % 4 * 6);
    folder.write("year/records/" + name,
                 std::string("date: ").append(day) + "\nlesson: " + name +
                     "\nclass: class.yaml\nmarked: B7\n");
    ++week;
  }
  ASSERT_EQ(week, 36);
  const std::string pdf = folder.path() + "/progress.pdf";
  const Outcome made = sheaf({"progress", (home / "records").string(),
                              "--learner", "B7", "--pdf", pdf});
  ASSERT_EQ(made.status, 0) << made.out;
  const std::string info = run_program({"pdfinfo", pdf}).out;
  EXPECT_NE(info.find("Pages:           1\n"), std::string::npos) << info;
  const std::string text = run_program({"pdftotext", pdf, "-"}).out;
  EXPECT_NE(text.find(" of 32 school weeks"), std::string::npos) << text;
}

// The words of a check are said as the lessons are: mask, last and past have no
// short a in Britain (BATH words: Wells, Accents of English, 1982).
TEST_F(Term, ACheckIsSpokenAsTheLessonsAre) {
  const fs::path home = path("spoken");
  fs::create_directories(home / "records");
  const auto write = [&](const std::string& name, const std::string& text) {
    std::ofstream(home / name) << text;
  };
  write("class.yaml", "sheaf: 1\nlearners:\n  B7: {}\n");
  write("week.yaml",
        "sheaf: 1\npattern: short_a\naccent: british\n"
        "words: hat bag man cat sad\ndictate-words: hat bag man cat sad\n");
  for (int day = 1; day < 8; ++day) {
    write(fmt::format("records/day-{}.yaml", day),
          fmt::format("date: 2026-09-0{}\nlesson: week.yaml\n"
                      "class: class.yaml\nmarked: all\nwrong:\n  B7: {{}}\n",
                      day));
  }
  const Outcome plan =
      sheaf({"review", "--class", (home / "class.yaml").string(), "--records",
             (home / "records").string(), "--week", "2026-11-16"});
  ASSERT_EQ(plan.status, 0) << plan.out;
  const std::string check =
      file_bytes((home / "check-2026-11-16.yaml").string());
  EXPECT_NE(check.find("accent: british\n"), std::string::npos) << check;
  for (const char* word : {"ask", "mask", "last", "past", "fast", "path"}) {
    EXPECT_EQ(check.find(fmt::format(" {} ", word)), std::string::npos)
        << check;
  }
  EXPECT_EQ(sheaf({"check", (home / "check-2026-11-16.yaml").string()}).status,
            0);
}

// The story that the records tell.
TEST_F(Term, TellsWhoHasItWhoMemorisedWhoSlippedAndWhatComesNext) {
  const Outcome plan =
      sheaf({"review", "--class", path("class.yaml"), "--records",
             path("records"), "--week", "2026-11-16"});
  ASSERT_EQ(plan.status, 0) << plan.out;
  const std::string week = file_bytes(path("class-2026-11-16.yaml"));
  EXPECT_NE(week.find("review-words: "), std::string::npos) << week;
  EXPECT_NE(plan.out.find("put the lesson's file after `build`"),
            std::string::npos)
      << plan.out;
  const Outcome packets =
      sheaf({"build", path("week-11-oo.yaml"), "--class",
             path("class-2026-11-16.yaml"), "--out", folder_.path() + "/out"});
  EXPECT_EQ(packets.status, 0) << packets.out;
  const Outcome check = sheaf({"build", path("check-2026-11-16.yaml"), "--out",
                               folder_.path() + "/out"});
  EXPECT_EQ(check.status, 0) << check.out;
  const auto progress = [&](const char* code) {
    return sheaf({"progress", path("records"), "--learner", code}).out;
  };
  EXPECT_NE(progress("B7").find("secure"), std::string::npos);
  EXPECT_NE(progress("D1").find("check again"), std::string::npos);
  EXPECT_NE(progress("C3").find("oa            2026-10-23  practising"),
            std::string::npos);
  EXPECT_NE(plan.out.find("perhaps known by heart"), std::string::npos)
      << plan.out;
  EXPECT_NE(plan.out.find("was secure until"), std::string::npos) << plan.out;
}

}  // namespace
}  // namespace sheaf::test
