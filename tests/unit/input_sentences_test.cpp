// A teacher's list of sentences: what is read, and where everything stands.

#include <gtest/gtest.h>

#include "input/file_kind.h"
#include "input/sentence_file.h"

namespace sheaf {
namespace {

struct Read {
  explicit Read(std::string text, TellSlips slips = TellSlips::yes)
      : file("sentences.txt", std::move(text)),
        sentences(read_sentence_file(file, slips, diagnostics)) {}

  std::vector<std::string> texts() const {
    std::vector<std::string> all;
    for (const PlacedText& line : sentences.sentences) {
      all.push_back(line.text());
    }
    return all;
  }
  // "name line:column" of each message.
  std::vector<std::string> told() const {
    std::vector<std::string> all;
    for (const Diagnostic* d : diagnostics.sorted()) {
      const auto place = file.place_of(d->span.begin);
      all.push_back(std::string(d->name->name) + " " +
                    std::to_string(place.line) + ":" +
                    std::to_string(place.column));
    }
    return all;
  }

  SourceFile file;
  Diagnostics diagnostics;
  SentenceFile sentences;
};

using Texts = std::vector<std::string>;

TEST(SentenceFile, HasASentenceOnEachLine) {
  const Read read(
      "# Mine.\n\n  The goat has a coat.  \n\t# more\nIs it a   boat?\n");
  EXPECT_EQ(read.texts(), (Texts{"The goat has a coat.", "Is it a boat?"}));
  EXPECT_TRUE(read.told().empty());
  const Span boat = read.sentences.sentences[1].span_of(8, 12);
  EXPECT_EQ(boat.text(), "boat");
  EXPECT_EQ(read.file.place_of(boat.begin).line, 5);
  EXPECT_EQ(read.file.place_of(boat.begin).column, 11);
}

TEST(SentenceFile, TakesAnyLineEndsAndAByteOrderMark) {
  for (const char* end : {"\n", "\r\n", "\r"}) {
    std::string text = "\xEF\xBB\xBF";
    for (const char* line : {"# Mine.", "", "A boat.", "A goat."}) {
      text += std::string(line) + end;
    }
    text += "A road.";
    const Read read(text);
    EXPECT_EQ(read.texts(), (Texts{"A boat.", "A goat.", "A road."}));
    EXPECT_TRUE(read.told().empty());
    const auto place =
        read.file.place_of(read.sentences.sentences[2].span().begin);
    EXPECT_EQ(place.line, 5);
    EXPECT_EQ(place.column, 1);
  }
}

TEST(SentenceFile, LeavesCommentsOut) {
  const Read read(
      "A boat. # in March\nIt is a c#.\nA goat #3\nA road.\t#\n## x\n");
  EXPECT_EQ(read.texts(),
            (Texts{"A boat.", "It is a c#.", "A goat.", "A road."}));
  EXPECT_EQ(read.told(), (Texts{"end-mark-added 3:1", "comment-in-text 3:8"}));
  EXPECT_TRUE(Read("A goat #3\n", TellSlips::no).told().empty());
}

TEST(SentenceFile, PutsSmallSlipsRight) {
  const Read read("1. the goat ran\nhe rows\n---\nThe end.\n");
  EXPECT_EQ(read.texts(), (Texts{"The goat ran.", "He rows.", "The end."}));
  EXPECT_EQ(read.told(), (Texts{"number-left-out 1:1", "capitals-put-right 1:4",
                                "end-mark-added 1:4", "no-words-in-line 3:1"}));
  EXPECT_FALSE(read.diagnostics.has_errors());
  EXPECT_TRUE(Read("the goat ran\n---\n", TellSlips::no).told().empty());
}

TEST(SentenceFile, RefusesWhatIsNoListOfSentences) {
  using namespace std::string_literals;
  const std::pair<std::string, std::string> cases[] = {
      {"A boat.\n- A goat.\n- A road.\n", "bad-list 2:1"},
      {"A boat.\n  \xE2\x80\xA2 A goat.\n", "bad-list 2:3"},
      {"A boat.\nA \xE9 goat.\n", "bad-utf8 2:3"},
      {"A boat.\nA \x07 goat.\n", "bad-character 2:3"},
      {"A boat.\nA \0 goat.\n"s, "bad-character 2:3"},
      {"A boat.\nA \xE2\x80\xAE goat.\n", "bad-character 2:3"},
      {"A boat.\n" + std::string(301, 'x') + "\n", "text-too-long 2:1"},
      {"# Mine\npattern: oa\nwords: boat\n", "wrong-file-kind 2:1"},
      {"title: Boats\n", "wrong-file-kind 1:1"},
      {"learners: [B7]\n", "wrong-file-kind 1:1"},
      {std::string(kLargestSentenceFile + 1, '\n'), "file-too-large 1:1"}};
  for (const auto& [text, told] : cases) {
    const Read read(text);
    ASSERT_FALSE(read.told().empty()) << told;
    EXPECT_EQ(read.told().front(), told) << text.substr(0, 80);
    EXPECT_TRUE(read.diagnostics.has_errors());
  }
}

TEST(SentenceFile, HasLimits) {
  std::string lines;
  for (int i = 0; i < kMostSentenceLines; ++i) lines += "A boat.\n";
  EXPECT_TRUE(Read(lines).told().empty());
  const Read more(lines + "A goat.\n");
  EXPECT_EQ(more.told(), Texts{"too-many 10001:1"});
  EXPECT_TRUE(Read(std::string(299, 'x') + ".\n")
                  .told()
                  .front()
                  .starts_with("capitals-put-right"));
  // Letters count, not bytes.
  std::string accents;
  for (int i = 0; i < 299; ++i) accents += "\xC3\x89";
  EXPECT_TRUE(Read(accents + ".\n").told().empty());
}

TEST(SentenceFile, KnowsItsKind) {
  const auto kind = [](const char* name, const char* text) {
    const SourceFile file(name, text);
    return likely_kind(file);
  };
  EXPECT_EQ(kind("sentences.txt", ""), FileKind::sentences);
  EXPECT_EQ(kind("mine.TXT", "A boat.\n"), FileKind::sentences);
  EXPECT_EQ(kind("mine.txt", "He said: run!\n"), FileKind::sentences);
  EXPECT_EQ(kind("mine.yaml", "A boat.\n"), FileKind::lesson);
  EXPECT_EQ(kind("mine.txt", "title: x\n"), FileKind::lesson);
  EXPECT_EQ(kind("mine.txt", "pattern: oa\nwords: boat\n"), FileKind::lesson);
  // A class must be known as one before a message shows what stands in it.
  EXPECT_EQ(kind("class.txt", "{\nlearners: [B7\n"), FileKind::learners);
  EXPECT_EQ(kind("class.txt", "lessons [x\nlearners: [B7\n"),
            FileKind::learners);
}

TEST(SentenceFile, TellsWhetherALineHoldsASentenceAsItIs) {
  EXPECT_EQ(sentence_in_line("A boat."), "A boat.");
  EXPECT_EQ(sentence_in_line("a boat"), "A boat.");
  // The line would be read as something else.
  EXPECT_EQ(sentence_in_line("A boat. #1 goat!"), "A boat.");
  for (const char* line : {"", "# x", "- A boat.", "A boat.\nA goat.", "...",
                           "words: boat", "We are #1!"}) {
    EXPECT_EQ(sentence_in_line(line), "") << line;
  }
}

}  // namespace
}  // namespace sheaf
