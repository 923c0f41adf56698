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

}  // namespace
}  // namespace sheaf::test
