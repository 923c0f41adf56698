#include <gtest/gtest.h>

#include "pdf/pdf_writer.h"
#include "support/run_program.h"
#include "support/sample_document.h"

namespace sheaf {
namespace {

using testing_support::DocumentMaker;
using testing_support::run_program;
using testing_support::TemporaryFolder;

TEST(SameBytes, ComeFromTheSameDocument) {
  DocumentMaker one(SHEAF_FONTS), two(SHEAF_FONTS);
  const std::string first = write_pdf(one.worksheet(5, 1));
  // Other places in memory, other things done before.
  const std::string other = write_pdf(two.one_of_everything());
  EXPECT_EQ(first, write_pdf(two.worksheet(5, 1)));
  EXPECT_EQ(other, write_pdf(one.one_of_everything()));
}

TEST(SameBytes, ComeInAnySurroundings) {
  TemporaryFolder folder;
  std::string first;
  const std::vector<std::vector<std::string>> surroundings = {
      {"LC_ALL=C", "TZ=UTC"},
      {"LC_ALL=C.UTF-8", "TZ=Asia/Tokyo", "MALLOC_PERTURB_=85"},
      {"LC_ALL=de_DE.UTF-8", "TZ=America/New_York", "MALLOC_PERTURB_=170",
       "MALLOC_ARENA_MAX=1", "MALLOC_MMAP_THRESHOLD_=64"},
      {"LC_ALL=tr_TR.UTF-8", "LANGUAGE=tr", "SOURCE_DATE_EPOCH=1",
       "MALLOC_TOP_PAD_=1000000", "HOME=/nonexistent"}};
  for (const auto& variables : surroundings) {
    std::vector<std::string> command = {"env"};
    command.insert(command.end(), variables.begin(), variables.end());
    const std::string path = folder.path() + "/a.pdf";
    command.insert(command.end(), {SHEAF_WRITE_SAMPLE, "worksheet", path,
                                   folder.path() + "/a.txt"});
    const auto outcome = run_program(command);
    ASSERT_EQ(outcome.status, 0) << outcome.out;
    const std::string bytes = testing_support::file_bytes(path);
    ASSERT_FALSE(bytes.empty());
    if (first.empty()) first = bytes;
    EXPECT_TRUE(first == bytes) << variables[0];
  }
}

// An identifier that is the same for two documents would let a reader take one
// for the other.
TEST(SameBytes, ComeFromTheSameDocumentOnly) {
  DocumentMaker maker(SHEAF_FONTS);
  const auto identifier = [](const std::string& bytes) {
    const std::size_t at = bytes.find("/ID[<");
    return at == std::string::npos ? "" : bytes.substr(at + 5, 32);
  };
  const std::string first = identifier(write_pdf(maker.worksheet(2, 1)));
  const std::string second = identifier(write_pdf(maker.worksheet(2, 2)));
  EXPECT_EQ(first.size(), 32U);
  EXPECT_NE(first, std::string(32, '0'));
  EXPECT_NE(first, second);
}

}  // namespace
}  // namespace sheaf
