// What editors and web pages put into a file unasked.

#include <gtest/gtest.h>

#include "input/lesson.h"
#include "input_mistakes.h"

namespace sheaf {
namespace {

const Mistake kByteMistakes[] = {
    {"a tab at the start of lines",
     "pattern: sh\n"
     "words:\n"
     "\tship\n"
     "\tshed\n"
     "sentences: |\n"
     "\tThe fish is here.\n",
     "shells.yaml:3:1: error: this line begins with a tab, and so do 2 more "
     "[tab-in-indentation]\n"
     "   3 |  ship\n"
     "     | ^\n"
     "  help: use spaces instead, two for each step to the right\n"},
    {"a no-break space at the start of a line",
     "pattern: sh\n"
     "words:\n"
     "\302\240\302\240ship\n",
     "shells.yaml:3:1: error: this line begins with an unusual space "
     "[tab-in-indentation]\n"
     "   3 |   ship\n"
     "     | ^\n"
     "  help: use spaces from the space bar instead\n"},
    {"saved by a Windows editor in its old code",
     "pattern: sh\n"
     "words: ship shed\n"
     "sentences: |\n"
     "  The caf\351 is shut.\n",
     "shells.yaml:4:10: error: the file is not saved as UTF-8 text; the "
     "character here may be `é` [bad-utf8]\n"
     "   4 |   The caf\\xE9 is shut.\n"
     "     |          ^~~~\n"
     "  help: in your editor, choose `Save As` with the encoding `UTF-8`, and "
     "save the file again\n"},
    {"a curly apostrophe from a Windows editor",
     "pattern: sh\n"
     "words: ship\n"
     "sentences: |\n"
     "  It\222s the fish.\n",
     "shells.yaml:4:5: error: the file is not saved as UTF-8 text; the "
     "character here may be `’` [bad-utf8]\n"
     "   4 |   It\\x92s the fish.\n"
     "     |     ^~~~\n"
     "  help: in your editor, choose `Save As` with the encoding `UTF-8`, and "
     "save the file again\n"},
    {"a zero-width space from a web page",
     "pattern: sh\n"
     "words: ship\342\200\213 shed\n",
     "shells.yaml:2:12: error: there is an unseen zero-width space (U+200B) "
     "here [bad-character]\n"
     "   2 | words: ship\\u200B shed\n"
     "     |            ^~~~~~\n"
     "  help: take it out, or type the line again\n"},
    {"a line break from a word processor",
     "pattern: sh\n"
     "words: ship shed\n"
     "sentences: |\n"
     "  The fish is here.\342\200\250It is big.\n",
     "shells.yaml:4:20: error: there is a line break of a word processor "
     "(U+2028) here [bad-character]\n"
     "   4 |   The fish is here.\\u2028It is big.\n"
     "     |                    ^~~~~~\n"
     "  help: take it out and begin a new line with the Enter key\n"},
    {"a control character",
     "pattern: sh\n"
     "words: ship shed\n"
     "title: Week\007 3\n",
     "shells.yaml:3:12: error: there is a control character (U+0007) here "
     "[bad-character]\n"
     "   3 | title: Week\\x07 3\n"
     "     |            ^~~~\n"
     "  help: take it out, or type the line again\n"},
    {"a direction mark",
     "pattern: sh\n"
     "words: ship shed\n"
     "title: Week \342\200\2563\n",
     "shells.yaml:3:13: error: there is an unseen direction mark (U+202E) here "
     "[bad-character]\n"
     "   3 | title: Week \\u202E3\n"
     "     |             ^~~~~~\n"
     "  help: take it out, or type the line again\n"},
    {"a letter that was lost",
     "pattern: sh\n"
     "words: ship shed\n"
     "sentences: |\n"
     "  The caf� is shut.\n",
     "shells.yaml:4:10: error: there is the sign for a letter that was lost "
     "(U+FFFD) here [bad-character]\n"
     "   4 |   The caf� is shut.\n"
     "     |          ^\n"
     "  help: take it out, or type the line again\n"},
    {"accents heaped up",
     "pattern: sh\n"
     "words: ship shed\n"
     "title: e\314\201\314\201\314\201\314\201\314\201\314\201\n",
     "shells.yaml:3:9: error: one letter has more than 4 accents "
     "[bad-character]\n"
     "   3 | title: e\314\201\314\201\314\201\314\201\314\201\314\201\n"
     "     |         ^\n"
     "  help: type the line again\n"},
    {"an unseen character written with a backslash",
     "pattern: sh\n"
     "words: ship shed\n"
     "title: \"Week \\u202e3\"\n",
     "shells.yaml:3:14: error: an unseen direction mark is written here "
     "[bad-character]\n"
     "   3 | title: \"Week \\u202e3\"\n"
     "     |              ^~~~~~\n"
     "  help: take it out\n"},
};

TEST(Mistakes, InTheBytesOfTheFile) {
  expect_messages("shells.yaml", kByteMistakes, read_lesson);
}

std::string first_line_of(const std::string& bytes) {
  const SourceFile file("shells.yaml", bytes);
  Diagnostics diagnostics;
  read_lesson(file, diagnostics);
  const std::string messages = to_text(diagnostics);
  return messages.substr(0, messages.find('\n'));
}

TEST(Mistakes, InFilesWithZeroBytes) {
  using namespace std::string_literals;
  constexpr const char* kUtf16 =
      "shells.yaml:1:1: error: the file is saved as UTF-16, not as UTF-8 "
      "[bad-utf8]";
  EXPECT_EQ(first_line_of("\377\376p\0a\0t\0"s), kUtf16);
  EXPECT_EQ(first_line_of("\376\377\0p\0a\0t"s), kUtf16);
  EXPECT_EQ(first_line_of("p\0a\0t\0"s), kUtf16);
  EXPECT_EQ(first_line_of("pattern: sh\0\n"s),
            "shells.yaml:1:12: error: there is a zero byte (U+0000) here "
            "[bad-character]");
}

}  // namespace
}  // namespace sheaf
