// Memory at the limits that Sheaf states, where it takes most. Time is never
// tested: `make bounds` prints it for every verb.

#include <gtest/gtest.h>

#include "limit_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

class Bounds : public testing::Test {
 protected:
  Bounds() { bench::write_limit_files(folder.path(), SHEAF_DATA); }

  Outcome run(const std::vector<std::string>& arguments) const {
    std::vector<std::string> all = {"sh", "-c",
                                    "cd \"$0\" && exec \"$@\" >/dev/null",
                                    folder.path(), SHEAF_PROGRAM};
    all.insert(all.end(), arguments.begin(), arguments.end());
#if defined(NDEBUG)
    return run_program(all, {.address_space = kMost});
#else
    return run_program(all);  // the checks need address space of their own
#endif
  }

  // Libraries and the word list are in it, besides what a run takes.
  static constexpr unsigned long kMost = 384UL << 20U;
  TemporaryFolder folder;
};

TEST_F(Bounds, HoldForAYearOfMarksAsJson) {
  const Outcome marked = run({"mark", "--json", "records"});
  EXPECT_EQ(marked.status, 0) << marked.out.substr(0, 1000);
}

TEST_F(Bounds, HoldForAClassOfAHundred) {
  const Outcome built = run({"build", "--class", "class.yaml", "--only",
                             "sound-boxes", "--out", "pages"});
  EXPECT_EQ(built.status, 0) << built.out.substr(0, 1000);
}

// Whose fault it is, and what to do about it.
void expect_refused(const Outcome& outcome, const std::string& place,
                    const std::string& text, const std::string& help) {
  EXPECT_EQ(outcome.status, 1) << outcome.out;
  const std::size_t at = std::min(outcome.out.find(text), outcome.out.size());
  const std::string before = outcome.out.substr(0, at);
  const std::string line = before.substr(before.rfind('\n') + 1);
  EXPECT_EQ(line.find(place), 0U) << outcome.out;
  for (const std::string& part : {text, help, std::string("[too-many]")}) {
    EXPECT_NE(outcome.out.find(part), std::string::npos) << part << " in\n"
                                                         << outcome.out;
  }
  EXPECT_EQ(outcome.out.find("[too-many]"), outcome.out.rfind("[too-many]"))
      << outcome.out;
}

TEST_F(Bounds, NameTheLessonThatIsTooLongForAClass) {
  for (const std::vector<std::string>& call :
       {std::vector<std::string>{"check", "big-class.yaml"},
        {"build", "--class", "big-class.yaml", "--out", "pages"}}) {
    expect_refused(run(call), "big-class.yaml:",
                   "this class has more than 60000 words in its lessons",
                   "make that lesson shorter");
  }
}

TEST_F(Bounds, NameTheLearnerWithWhomThereAreTooManyPages) {
  for (const std::vector<std::string>& call :
       {std::vector<std::string>{"check", "--layout", "many", "class.yaml"},
        {"build", "--class", "class.yaml", "--layout", "many", "--out",
         "pages"}}) {
    expect_refused(run(call), "class.yaml:", "there are more than 8000 pages",
                   "leave sheets out of its layout");
  }
}

TEST_F(Bounds, NameTheLayoutWithTooManySheets) {
  expect_refused(run({"build", "more/many-sentences.yaml"}),
                 "more/many-long.yaml:", " in the packet", "leave out sheets");
}

TEST_F(Bounds, NameTheLessonWithTooManyWords) {
  expect_refused(run({"build", "more/many-passages.yaml"}),
                 "more/many-passages.yaml:", "words in all",
                 "split the lesson into several");
}

}  // namespace
}  // namespace sheaf::test
