#include <gtest/gtest.h>

#include "base/fixes.h"
#include "base/nearest.h"

namespace sheaf {
namespace {

// A fix for the first place where `wrong` stands.
Fix fix(const SourceFile& file, std::string_view wrong, std::string right) {
  const auto begin = static_cast<std::uint32_t>(file.text().find(wrong));
  return {{&file, begin, begin + static_cast<std::uint32_t>(wrong.size())},
          std::move(right),
          {},
          true};
}

TEST(Fixes, TakeThePlaceOfTheirSpanAndOfNothingElse) {
  const SourceFile file("f", "wrods: Ship\tshed # Ship\r\nset: 2\r\n");
  const MendedText mended =
      with_fixes(file.text(), {fix(file, "2", "3"), fix(file, "Ship", "ship"),
                               fix(file, "wrods", "words")});
  EXPECT_EQ(mended.text, "words: ship\tshed # Ship\r\nset: 3\r\n");
  ASSERT_EQ(mended.put_in.size(), 3U);
  EXPECT_EQ(mended.put_in.front().replacement, "words");
}

TEST(Fixes, CountInBytes) {
  const SourceFile file("f", "words: café 🐟 Ship\n");
  EXPECT_EQ(with_fixes(file.text(), {fix(file, "Ship", "ship")}).text,
            "words: café 🐟 ship\n");
  EXPECT_EQ(with_fixes(file.text(), {fix(file, "é", "e")}).text,
            "words: cafe 🐟 Ship\n");
}

TEST(Fixes, LeaveWhatOverlapsForTheNextTime) {
  const SourceFile file("f", "abcdef");
  const MendedText mended = with_fixes(
      file.text(),
      {fix(file, "bcd", "1"), fix(file, "cde", "2"), fix(file, "e", "3")});
  EXPECT_EQ(mended.text, "a13f");
  EXPECT_EQ(mended.put_in.size(), 2U);
}

TEST(Fixes, OfTwoThatBeginTogetherPutInTheFirst) {
  const SourceFile file("f", "wrod: x");
  const MendedText mended = with_fixes(
      file.text(), {fix(file, "wrod", "word"), fix(file, "wrod", "words")});
  EXPECT_EQ(mended.text, "word: x");
  EXPECT_EQ(mended.put_in.size(), 1U);
}

TEST(Fixes, PutInRightBehindOneAnother) {
  const SourceFile file("f", "a");
  Fix stop = fix(file, "a", ".");
  stop.span.begin = stop.span.end;
  EXPECT_EQ(with_fixes(file.text(), {fix(file, "a", "A"), stop}).text, "A.");
}

TEST(Fixes, OutsideTheTextAreLeftOut) {
  const SourceFile file("f", "abc");
  Fix far = fix(file, "c", "x");
  far.span.end = 9;
  EXPECT_EQ(with_fixes(file.text(), {far}).text, "abc");
}

TEST(Suggestions, AndTheirFixesAreTheSame) {
  const std::string_view names[] = {"words", "pattern", "days"};
  const SourceFile file("f", "wrods: ship");
  Diagnostics diagnostics;
  const Diagnostic& d = diagnostics.error(
      diagnostic::unknown_key, {&file, 0, 5}, "`wrods` is not a key",
      did_you_mean("wrods", names, Suggests::fixed_choice));
  EXPECT_EQ(d.help, "did you mean `words`?");
  ASSERT_EQ(d.fixes.size(), 1U);
  EXPECT_EQ(d.fixes[0].span, d.span);
  EXPECT_EQ(d.fixes[0].replacement, "words");
  EXPECT_EQ(d.fixes[0].label, "wrods is now words");
  EXPECT_TRUE(d.fixes[0].certain);
}

TEST(Suggestions, AreNotCertainWhereSeveralAreNearOrOnlyTheTeacherKnows) {
  const std::string_view names[] = {"ship", "shop", "shed"};
  const Help several = did_you_mean("shup", names, Suggests::fixed_choice);
  EXPECT_GT(several.fixes.size(), 1U);
  for (const Fix& fix : several.fixes) EXPECT_FALSE(fix.certain) << fix.label;
  const Help one = did_you_mean("sheds", names, Suggests::anything);
  ASSERT_EQ(one.fixes.size(), 1U);
  EXPECT_FALSE(one.fixes[0].certain);
}

TEST(Suggestions, HaveNoFixWithoutAPlace) {
  const std::string_view names[] = {"B7"};
  const SourceFile file("f", "");
  Diagnostics diagnostics;
  for (const Span& nowhere : {Span{}, Span::whole(&file)}) {
    EXPECT_TRUE(diagnostics
                    .error(diagnostic::unknown_learner, nowhere, "no",
                           did_you_mean("B8", names))
                    .fixes.empty());
  }
}

}  // namespace
}  // namespace sheaf
