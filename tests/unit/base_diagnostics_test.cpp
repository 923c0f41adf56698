#include "base/diagnostics.h"

#include <gtest/gtest.h>

namespace sheaf {
namespace {

std::string printed(const SourceFile& file, std::uint32_t begin,
                    std::uint32_t end) {
  Diagnostics d;
  d.error(diagnostic::unknown_key, {&file, begin, end}, "found it", "mend it");
  return to_text(d);
}

TEST(Diagnostics, UnderlinesThePlace) {
  const SourceFile file("a.yaml", "pattern: sh\nwrods: ship\n");
  EXPECT_EQ(printed(file, 12, 17),
            "a.yaml:2:1: error: found it [unknown-key]\n"
            "   2 | wrods: ship\n"
            "     | ^~~~~\n"
            "  help: mend it\n");
}

TEST(Diagnostics, CountsALetterWithItsMarksAsOneCharacter) {
  // e + combining acute, then a precomposed one.
  const SourceFile file("a.yaml", "caf\x65\xCC\x81 \xC3\xA9t\xC3\xA9 xx\n");
  EXPECT_EQ(printed(file, 13, 15),
            "a.yaml:1:10: error: found it [unknown-key]\n"
            "   1 | caf\x65\xCC\x81 \xC3\xA9t\xC3\xA9 xx\n"
            "     |          ^~\n"
            "  help: mend it\n");
}

TEST(Diagnostics, LeavesOutAByteOrderMark) {
  const SourceFile file("a.yaml", "\xEF\xBB\xBFwrods: ship\n");
  EXPECT_EQ(printed(file, 0, 5),
            "a.yaml:1:1: error: found it [unknown-key]\n"
            "   1 | wrods: ship\n"
            "     | ^~~~~\n"
            "  help: mend it\n");
}

TEST(Diagnostics, CutsLongLinesAroundThePlace) {
  const SourceFile file(
      "a.yaml", std::string(1 << 20, 'x') + "HERE" + std::string(1 << 20, 'y'));
  const std::string text = printed(file, 1 << 20, (1 << 20) + 4);
  EXPECT_LT(text.size(), 400U);
  EXPECT_NE(text.find("…"), std::string::npos);
  EXPECT_NE(text.find("HERE"), std::string::npos);
}

TEST(Diagnostics, NeverPrintsControlOrDirectionCharacters) {
  const SourceFile file("a.yaml", "a\x1b[31m\xE2\x80\xAE b\n");
  const std::string text = printed(file, 0, 1);
  EXPECT_EQ(text.find('\x1b'), std::string::npos);
  EXPECT_EQ(text.find("\xE2\x80\xAE"), std::string::npos);
}

TEST(Diagnostics, AreSortedByPlace) {
  const SourceFile file("a.yaml", "one\ntwo\n");
  Diagnostics d;
  d.warning(diagnostic::unknown_key, {&file, 4, 7}, "second");
  d.error(diagnostic::unknown_key, {&file, 0, 3}, "first");
  const auto sorted = d.sorted();
  EXPECT_EQ(sorted[0]->text, "first");
  EXPECT_EQ(sorted[1]->text, "second");
  EXPECT_EQ(d.error_count(), 1);
  EXPECT_EQ(d.warning_count(), 1);
}

TEST(Diagnostics, ErrorsAreShownWhereThereAreTooManyMessages) {
  const SourceFile file("a.yaml", "one\ntwo\n");
  Diagnostics d;
  for (int i = 0; i < 5; ++i) {
    d.warning(diagnostic::unknown_key, {&file, 0, 3}, "a remark");
  }
  d.error(diagnostic::unknown_key, {&file, 4, 7}, "the error");
  const std::string text = to_text(d, {.limit = 3});
  EXPECT_NE(text.find("the error"), std::string::npos);
  EXPECT_NE(text.find("… and 3 more messages"), std::string::npos);
}

TEST(Diagnostics, NamesAreHyphenatedAndInOrder) {
  std::string_view last;
  for (const DiagnosticName& n : diagnostic_names()) {
    EXPECT_LT(last, n.name);
    EXPECT_EQ(n.name.find('_'), std::string_view::npos);
    last = n.name;
  }
}

}  // namespace
}  // namespace sheaf
