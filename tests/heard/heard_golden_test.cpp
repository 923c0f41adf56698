// What is heard of every kind of sheet, of the reports and of a class, read
// from the PDF files themselves: tests/heard/NAME.txt. Which documents those
// are, documents.h says. SHEAF_UPDATE=1 rewrites what differs; read the diff
// aloud, or let tests/heard/aloud.sh do it.

#include <gtest/gtest.h>

#include <set>

#include "heard/documents.h"
#include "heard/heard.h"
#include "sheets/sheet.h"

namespace sheaf::test {
namespace {

class Heard : public testing::TestWithParam<HeardCase> {};

TEST_P(Heard, IsToldAsExpected) {
  std::string told;
  for (const auto& [file, bytes] : files_of(GetParam())) {
    if (!told.empty()) told += '\n';
    told += "file: " + file + "\n" + heard::as_text(heard::read(bytes));
  }
  compare(heard_folder() / (GetParam().name + ".txt"), told);
}

INSTANTIATE_TEST_SUITE_P(All, Heard, testing::ValuesIn(heard_cases()),
                         [](const auto& one) {
                           return test_name(one.param.name);
                         });

TEST(HeardGoldens, AreThereForEveryKindOfSheet) {
  std::set<std::string> sheets;
  for (const HeardCase& one : heard_cases()) sheets.insert(one.sheet);
  for (const SheetKind* kind : sheet_kinds()) {
    EXPECT_TRUE(sheets.contains(std::string(kind->name))) << kind->name;
  }
}

TEST(HeardGoldens, AreEachOfADocument) {
  std::set<std::string> names;
  for (const HeardCase& one : heard_cases()) names.insert(one.name);
  for (const auto& file : files_below(heard_folder(), {".txt"})) {
    EXPECT_TRUE(names.contains(file.stem().string())) << file;
  }
}

}  // namespace
}  // namespace sheaf::test
