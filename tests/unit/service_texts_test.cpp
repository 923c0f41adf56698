// Messages, outlines, remarks and tidy texts.

#include <gtest/gtest.h>

#include <algorithm>

#include "service_marked.h"

namespace sheaf::test {
namespace {

std::string outline(const std::vector<Symbol>& symbols, int depth = 0) {
  std::string text;
  for (const Symbol& symbol : symbols) {
    text += std::string(static_cast<std::size_t>(depth) * 2, ' ') +
            symbol.name + (symbol.detail.empty() ? "" : ": " + symbol.detail) +
            "\n" + outline(symbol.parts, depth + 1);
  }
  return text;
}

TEST(Messages, HavePlacesAndMends) {
  Marked marked("pattern: sh\nwords: ship fihs dish shed\n");
  const auto messages = marked.service.messages(marked.path());
  const auto unknown =
      std::ranges::find(messages, "unknown-word", &ServiceMessage::name);
  ASSERT_NE(unknown, messages.end());
  ASSERT_TRUE(unknown->range);
  EXPECT_EQ(marked.part(*unknown->range), "fihs");
  ASSERT_FALSE(unknown->fixes.empty());
  EXPECT_EQ(marked.with(unknown->fixes.front().files),
            "pattern: sh\nwords: ship fish dish shed\n");
}

TEST(Messages, FollowAFileThatAnotherNames) {
  Marked marked(
      "pattern: sh\nwords: ship fish dish shed\nsequence: own.yaml\nstep: 2\n");
  const auto has_errors = [&] {
    const auto messages = marked.service.messages(marked.path());
    return std::ranges::any_of(messages, [](const ServiceMessage& m) {
      return m.severity == Severity::error;
    });
  };
  EXPECT_TRUE(has_errors());
  marked.service.change("/desk/own.yaml",
                        "steps:\n  - patterns: short_i, short_e\n"
                        "  - patterns: sh\n");
  EXPECT_FALSE(has_errors());
  marked.service.close("/desk/own.yaml");
  EXPECT_TRUE(has_errors());
}

TEST(Symbols, AreTheKeysAndWhatStandsBelowThem) {
  Marked marked(
      "# remark\npattern: sh # one\nwords: ship\nsentences: |\n"
      "  He said: go.\n\nsplit:\n  ship: sh i p\n");
  EXPECT_EQ(outline(marked.service.symbols(marked.path())),
            "pattern: sh\nwords: ship\nsentences\nsplit\n  ship: sh i p\n");
  Marked half("pattern: sh\nwords: [ship\nlayout: we");
  EXPECT_EQ(outline(half.service.symbols(half.path())),
            "pattern: sh\nwords: [ship\nlayout: we\n");
}

TEST(Inlays, ShowGraphemesAndWhenAWordCanBeRead) {
  Marked marked(
      "pattern: sh\nsequence:\n  steps:\n    - patterns: short_i\n"
      "    - patterns: sh\n    - patterns: short_o\nstep: 2\n"
      "words: ship shop\ndictate-words: fish\n");
  std::string text = marked.text();
  auto inlays = marked.service.inlays(
      marked.path(), {0, static_cast<std::uint32_t>(text.size())});
  std::ranges::reverse(inlays);
  for (const Inlay& inlay : inlays) {
    text.insert(inlay.at, "<" + inlay.text + ">");
  }
  EXPECT_NE(text.find("words: ship<sh·i·p> shop<sh·o·p, step 3>\n"
                      "dictate-words: fish<f·i·sh>\n"),
            std::string::npos)
      << text;
}

TEST(Formatting, PutsLinesInOrderAndLosesNothing) {
  Marked marked(
      "\n\npattern:   sh   # the week\nwords: ship, fish  # some\n\n\n"
      "sentences: |\n      The ship.\n      A fish.   \nlayout: week");
  EXPECT_EQ(marked.service.formatted(marked.path()),
            "pattern: sh        # the week\nwords: ship, fish  # some\n\n"
            "sentences: |\n  The ship.\n  A fish.\nlayout: week\n");
}

TEST(Formatting, ChangesNothingASecondTime) {
  for (const char* text :
       {"pattern: sh # a\nwords: ship # b\n", "a: \"x # y\"\nb:    'z'\n",
        "steps:\n  - number: 1\n    patterns:   sh\n",
        "passage:\n  title: A\n  text: |\n\n     One.\n\n       Two.\n"}) {
    Marked marked(text);
    const std::string once = marked.service.formatted(marked.path());
    Marked again(once);
    EXPECT_EQ(again.service.formatted(again.path()), once);
  }
}

TEST(Formatting, LeavesWhatCannotBeRead) {
  Marked marked("pattern: [sh\nwords:   ship\n");
  EXPECT_EQ(marked.service.formatted(marked.path()), marked.text());
}

}  // namespace
}  // namespace sheaf::test
