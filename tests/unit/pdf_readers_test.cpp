#include <gtest/gtest.h>

#include <string>

#include "pdf/pdf_writer.h"
#include "support/run_program.h"
#include "support/sample_document.h"

namespace sheaf {
namespace {

using testing_support::DocumentMaker;
using testing_support::Outcome;
using testing_support::run_program;

// What readers of other makers see in a file. They share no code with Sheaf.
class Readers : public testing::Test {
 protected:
  std::string written(const Document& document) {
    return folder.write("a.pdf", write_pdf(document));
  }
  DocumentMaker maker{SHEAF_FONTS};
  testing_support::TemporaryFolder folder;
};

TEST_F(Readers, FindNoFaultInTheSyntax) {
  for (const Document& document :
       {maker.one_of_everything(), maker.worksheet(3, 1)}) {
    const Outcome check = run_program({"qpdf", "--check", written(document)});
    EXPECT_EQ(check.status, 0) << check.out;
    EXPECT_EQ(check.out.find("WARNING"), std::string::npos) << check.out;
  }
}

}  // namespace
}  // namespace sheaf
