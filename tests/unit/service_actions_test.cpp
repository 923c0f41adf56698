// Changes that are offered at a place, and what they make of the text.

#include <gtest/gtest.h>

#include "service_marked.h"

namespace sheaf::test {
namespace {

std::string after(Marked& marked, std::string_view title) {
  std::string titles;
  for (const ServiceAction& action :
       marked.service.actions(marked.path(), {marked.at(), marked.at()})) {
    if (action.title == title) return marked.with(action.files);
    titles += action.title + "\n";
  }
  return "only:\n" + titles;
}

TEST(Actions, HoldTheMendsOfMessages) {
  Marked marked("pattern: sh\nlayuo^t: week\nwords: ship fish dish shed\n");
  EXPECT_EQ(after(marked, "layuot is now layout"),
            "pattern: sh\nlayout: week\nwords: ship fish dish shed\n");
}

TEST(Actions, TakeAWordOut) {
  Marked middle("pattern: sh\nwords: ship ch^ef dish shed fish\n");
  EXPECT_EQ(after(middle, "Take chef out"),
            "pattern: sh\nwords: ship dish shed fish\n");
  Marked last("pattern: sh\nwords: ship, dish, shed, fish, ch^ef\n");
  EXPECT_EQ(after(last, "Take chef out"),
            "pattern: sh\nwords: ship, dish, shed, fish\n");
  Marked first("pattern: sh\nwords: ch^ef\n");
  EXPECT_EQ(after(first, "Take chef out"), "pattern: sh\nwords: \n");
}

TEST(Actions, PutAWordAmongTheSightWords) {
  Marked none("pattern: sh\nwords: ship dish\nsentences: |\n  The sh^oe.\n");
  EXPECT_EQ(after(none, "Put shoe among the sight words"),
            "pattern: sh\nwords: ship dish\nsight-words: shoe\nsentences: |\n"
            "  The shoe.\n");
  Marked some(
      "pattern: sh\nwords: ship dish\nsight-words: the  # known\n"
      "sentences: |\n  The sh^oe.\n");
  EXPECT_EQ(after(some, "Put shoe among the sight words"),
            "pattern: sh\nwords: ship dish\nsight-words: the shoe  # known\n"
            "sentences: |\n  The shoe.\n");
}

TEST(Actions, SettleHowAWordIsParted) {
  Marked marked("pattern: sh\nwords: sh^ed ship\n");
  EXPECT_EQ(after(marked, "Settle how shed is parted"),
            "pattern: sh\nwords: shed ship\nsplit:\n  shed: sh e d\n");
  Marked more("pattern: sh\nwords: sh^ed ship\nsplit: {ship: sh i p}\n");
  EXPECT_EQ(after(more, "Settle how shed is parted"),
            "pattern: sh\nwords: shed ship\n"
            "split: {shed: sh e d, ship: sh i p}\n");
}

TEST(Actions, KeepWhatSheafChose) {
  Marked marked("pattern: oa^\n");
  const std::string text = after(marked, "Keep the words that Sheaf chose");
  EXPECT_TRUE(text.starts_with("pattern: oa\nwords: ")) << text;
  Marked kept(text);
  EXPECT_TRUE(kept.service.messages(kept.path(), false).empty());
}

TEST(Actions, ChooseWords) {
  Marked none("pattern: oa^\nlayout: week\n");
  const std::string chosen = after(none, "Choose words for me");
  EXPECT_TRUE(chosen.starts_with("pattern: oa\nwords: ")) << chosen;
  EXPECT_TRUE(chosen.ends_with("\nlayout: week\n")) << chosen;
  Marked empty("pattern: ai, ay\nwo^rds:  # mine\n");
  const std::string both = after(empty, "Choose words for me");
  EXPECT_TRUE(both.ends_with(" # mine\n")) << both;
  Marked again(both);
  for (const ServiceMessage& message :
       again.service.messages(again.path(), false)) {
    EXPECT_EQ(message.severity, Severity::note) << message.text;
  }
}

// Whatever is offered makes a text that can still be read as a file.
TEST(Actions, LeaveAFileThatCanBeRead) {
  for (const char* text :
       {"pattern: sh\nwords: [ship, ch^ef]\n",
        "pattern: sh\nwords: ch^ef ship\nsight-words: [the, a]\n",
        "pattern: sh\nwords: ch^ef ship\nsight-words:\nsplit:\n",
        "words: ch^ef\npattern: sh"}) {
    Marked marked(text);
    for (const ServiceAction& action :
         marked.service.actions(marked.path(), {marked.at(), marked.at()})) {
      Marked changed(marked.with(action.files));
      for (const ServiceMessage& message :
           changed.service.messages(changed.path(), false)) {
        EXPECT_NE(message.name, "not-yaml") << action.title << "\n"
                                            << changed.text() << message.text;
      }
    }
  }
}

}  // namespace
}  // namespace sheaf::test
