// Slips in how a file is written: spaces, colons, dashes, quotes, brackets.

#include <gtest/gtest.h>

#include "input/lesson.h"
#include "input_mistakes.h"

namespace sheaf {
namespace {

const Mistake kFormMistakes[] = {
    {"no colon after a key",
     "pattern sh\n"
     "words: ship shed\n",
     "shells.yaml:1:1: error: this line has no key with a colon after it "
     "[missing-colon]\n"
     "   1 | pattern sh\n"
     "     | ^~~~~~~~~~\n"
     "  help: put a colon after the key, as in `pattern: sh`\n"},
    {"an equals sign for a colon",
     "pattern = sh\n"
     "words = ship shed\n",
     "shells.yaml:1:1: error: this line has no key with a colon after it "
     "[missing-colon]\n"
     "   1 | pattern = sh\n"
     "     | ^~~~~~~~~~~~\n"
     "  help: put a colon after the key, as in `pattern: sh`\n"},
    {"no space after the colon",
     "pattern:sh\n"
     "words: ship shed\n",
     "shells.yaml:1:8: error: there is no space after the colon "
     "[missing-space]\n"
     "   1 | pattern:sh\n"
     "     |        ^\n"
     "  help: write `pattern: sh`\n"},
    {"no space after the colon, further down",
     "words: ship shed\n"
     "pattern:sh\n",
     "shells.yaml:2:8: error: there is no space after the colon "
     "[missing-space]\n"
     "   2 | pattern:sh\n"
     "     |        ^\n"
     "  help: write `pattern: sh`\n"},
    {"a list that goes on at the start of a line",
     "pattern: sh\n"
     "words: ship shed\n"
     "fish dish\n",
     "shells.yaml:3:1: error: this line has no key with a colon after it "
     "[missing-colon]\n"
     "   3 | fish dish\n"
     "     | ^~~~~~~~~\n"
     "  help: if it goes on from the line above, begin it with two spaces; "
     "if it begins something new, put a colon after its key\n"},
    {"sentences that do not begin further right",
     "pattern: sh\n"
     "words: ship shed\n"
     "sentences: |\n"
     "The fish is here.\n"
     "It is big.\n",
     "shells.yaml:4:1: error: this line does not begin further right than "
     "`sentences` above it [wrong-indentation]\n"
     "   4 | The fish is here.\n"
     "     | ^~~~~~~~~~~~~~~~~\n"
     "shells.yaml:3:1: note: the key above it\n"
     "   3 | sentences: |\n"
     "     | ^~~~~~~~~~~~\n"
     "  help: begin each line that belongs to a key with two spaces\n"},
    {"sentences on the line of the bar",
     "pattern: sh\n"
     "words: ship shed\n"
     "sentences: | The fish is here.\n",
     "shells.yaml:3:14: error: text follows the sign `|` on the same line "
     "[special-sign]\n"
     "   3 | sentences: | The fish is here.\n"
     "     |              ^~~~~~~~~~~~~~~~~\n"
     "  help: begin the text on the next line, two spaces further right than "
     "its key; if the sign belongs to the text, put the text in quotes\n"},
    {"a key that begins with a space",
     "pattern: sh\n"
     " words: ship shed\n",
     "shells.yaml:2:2: error: `words` does not begin in the same column as the "
     "key above it [wrong-indentation]\n"
     "   2 |  words: ship shed\n"
     "     |  ^~~~~\n"
     "shells.yaml:1:1: note: the line above it\n"
     "   1 | pattern: sh\n"
     "     | ^~~~~~~~~~~\n"
     "  help: start keys that belong together in the same column\n"},
    {"a first line that begins with a space",
     " pattern: sh\n"
     "words: ship shed\n",
     "shells.yaml:2:1: error: `words` does not begin in the same column as the "
     "key above it [wrong-indentation]\n"
     "   2 | words: ship shed\n"
     "     | ^~~~~\n"
     "shells.yaml:1:2: note: the line above it\n"
     "   1 |  pattern: sh\n"
     "     |  ^~~~~~~~~~~\n"
     "  help: start keys that belong together in the same column\n"},
    {"dashes in two columns",
     "pattern: sh\n"
     "words:\n"
     "    - ship\n"
     "  - shed\n",
     "shells.yaml:4:3: error: this dash does not begin in the same column as "
     "the dash above it [wrong-indentation]\n"
     "   4 |   - shed\n"
     "     |   ^\n"
     "shells.yaml:3:5: note: the line above it\n"
     "   3 |     - ship\n"
     "     |     ^~~~~~\n"
     "  help: start every `- ` of a list in the same column\n"},
    {"no space after a dash",
     "pattern: sh\n"
     "words:\n"
     "  -ship\n"
     "  -shed\n",
     "shells.yaml:3:3: error: there is no space after the dash "
     "[missing-space]\n"
     "   3 |   -ship\n"
     "     |   ^\n"
     "  help: write `- ship`; if the dash belongs to the text, put the text "
     "in quotes\n"},
    {"the first word of a list without a dash",
     "pattern: sh\n"
     "words:\n"
     "  ship\n"
     "  - shed\n",
     "shells.yaml:4:3: error: this line begins with a dash, but the text above "
     "it does not [bad-list]\n"
     "   4 |   - shed\n"
     "     |   ^\n"
     "  help: begin every line of the list with `- `, all in the same "
     "column\n"},
    {"a line without a dash among dashes",
     "pattern: sh\n"
     "words:\n"
     "  - ship\n"
     "  shed\n",
     "shells.yaml:4:3: error: this line has no dash, but the line above has "
     "one [bad-list]\n"
     "   4 |   shed\n"
     "     |   ^~~~\n"
     "  help: begin it with `- `, or with more spaces if it goes on from the "
     "line above\n"},
    {"a list on the line of its key",
     "pattern: sh\n"
     "words: - ship\n"
     "  - shed\n",
     "shells.yaml:2:8: error: a list with dashes begins on the same line as "
     "its key [bad-list]\n"
     "   2 | words: - ship\n"
     "     |        ^\n"
     "  help: begin the list on the next line, with each `- ` on a line of its "
     "own\n"},
    {"a comma left out between quotes",
     "pattern: sh\n"
     "words: ship shed\n"
     "sentences: [\"The fish.\" \"The dish.\"]\n",
     "shells.yaml:3:25: error: a comma is missing before this part of the list "
     "[bad-list]\n"
     "   3 | sentences: [\"The fish.\" \"The dish.\"]\n"
     "     |                         ^\n"
     "  help: put a comma between the parts, or write each on a line of its "
     "own after `- `\n"},
    {"a bracket left open in the last line",
     "pattern: sh\n"
     "words: [ship, shed\n",
     "shells.yaml:2:8: error: the `[` that begins here is not closed "
     "[unclosed-bracket]\n"
     "   2 | words: [ship, shed\n"
     "     |        ^~~~~~~~~~~\n"
     "  help: put a `]` at the end; if it belongs to a text, put the text in "
     "quotes\n"},
    {"a bracket left open at the very end",
     "pattern: sh\n"
     "words: [ship, \"shed\"",
     "shells.yaml:2:8: error: the `[` that begins here is not closed "
     "[unclosed-bracket]\n"
     "   2 | words: [ship, \"shed\"\n"
     "     |        ^~~~~~~~~~~~~\n"
     "  help: put a `]` at the end; if it belongs to a text, put the text in "
     "quotes\n"},
    {"a bracket left open",
     "pattern: sh\n"
     "words: [ship, shed\n"
     "sentences: |\n"
     "  The fish is here.\n",
     "shells.yaml:2:8: error: the `[` that begins here is not closed "
     "[unclosed-bracket]\n"
     "   2 | words: [ship, shed\n"
     "     |        ^~~~~~~~~~~\n"
     "  help: put a `]` at the end; if it belongs to a text, put the text in "
     "quotes\n"},
    {"a bracket too many",
     "pattern: sh\n"
     "words: ship shed\n"
     "title: ]\n",
     "shells.yaml:3:8: error: this `]` closes a bracket that was never "
     "opened [unclosed-bracket]\n"
     "   3 | title: ]\n"
     "     |        ^\n"
     "  help: take it out, or put the text in quotes if it belongs there\n"},
    {"a quote left open",
     "title: \"The first week\n"
     "pattern: sh\n"
     "words: ship shed\n",
     "shells.yaml:1:8: error: the quote that begins here is not closed "
     "[unclosed-quote]\n"
     "   1 | title: \"The first week\n"
     "     |        ^~~~~~~~~~~~~~~\n"
     "  help: put a `\"` at the end of the text\n"},
    {"a quote left open before another one",
     "title: \"The first week\n"
     "pattern: sh\n"
     "words: ship \"shed\"\n",
     "shells.yaml:1:8: error: the quote that begins here is not closed "
     "[unclosed-quote]\n"
     "   1 | title: \"The first week\n"
     "     |        ^~~~~~~~~~~~~~~\n"
     "  help: put a `\"` at the end of the text\n"},
    {"an apostrophe at the start",
     "title: 'Tis the week\n"
     "pattern: sh\n"
     "words: ship shed\n",
     "shells.yaml:1:8: error: the quote that begins here is not closed "
     "[unclosed-quote]\n"
     "   1 | title: 'Tis the week\n"
     "     |        ^~~~~~~~~~~~~\n"
     "  help: put a `'` at the end of the text; if the first one is an "
     "apostrophe, put the text in double quotes\n"},
    {"an apostrophe in single quotes",
     "pattern: sh\n"
     "words: ship shed\n"
     "sentences:\n"
     "  - 'The dog's dish is here.'\n",
     "shells.yaml:4:13: error: this apostrophe ends the text, which begins "
     "with the same sign [bad-quotes]\n"
     "   4 |   - 'The dog's dish is here.'\n"
     "     |             ^\n"
     "  help: put the text in double quotes: `\"The dog's dish is here.\"`\n"},
    {"a sentence that begins with speech",
     "pattern: sh\n"
     "words: ship shed\n"
     "sentences:\n"
     "  - \"Shut the shed!\" said Beth.\n",
     "shells.yaml:4:22: error: text goes on after the closing quote "
     "[bad-quotes]\n"
     "   4 |   - \"Shut the shed!\" said Beth.\n"
     "     |                      ^~~~~~~~~~\n"
     "  help: put other quotes around the whole text, as in `'\"Shut the "
     "shed!\" said Beth.'`, or write it as a line under `|`\n"},
    {"a colon in a title",
     "title: Week 3: fish\n"
     "pattern: sh\n"
     "words: ship shed\n",
     "shells.yaml:1:14: error: the second colon in this line turns `Week 3` "
     "into a key [colon-in-text]\n"
     "   1 | title: Week 3: fish\n"
     "     |              ^\n"
     "  help: put the text in quotes: `title: \"Week 3: fish\"`\n"},
    {"a colon in a sentence of a list",
     "pattern: sh\n"
     "words: ship shed\n"
     "sentences:\n"
     "  - Beth said: shut the shed.\n",
     "shells.yaml:4:5: error: the colon after `Beth said` turns it into a key "
     "[colon-in-text]\n"
     "   4 |   - Beth said: shut the shed.\n"
     "     |     ^~~~~~~~~\n"
     "  help: put the whole text in quotes, or write it as a line under `|`\n"},
    {"a colon in a sentence without a bar",
     "pattern: sh\n"
     "words: ship shed\n"
     "sentences:\n"
     "  The fish is here.\n"
     "  Beth said: shut the shed.\n",
     "shells.yaml:5:12: error: the colon after `Beth said` turns it into a key "
     "[colon-in-text]\n"
     "   5 |   Beth said: shut the shed.\n"
     "     |            ^\n"
     "  help: write the lines under `|`, or put this one in quotes\n"},
    {"a sentence that begins with a star",
     "pattern: sh\n"
     "words: ship shed\n"
     "sentences:\n"
     "  - *The* fish is here.\n",
     "shells.yaml:4:5: error: this text begins with `*`, which has a special "
     "meaning at the start of a text [special-sign]\n"
     "   4 |   - *The* fish is here.\n"
     "     |     ^~~~~~~~~~~~~~~~~~~\n"
     "  help: put the text in quotes, as in `\"*The* fish is here.\"`, or "
     "write it as a line under `|`\n"},
    {"stars for a list",
     "pattern: sh\n"
     "words:\n"
     "  * ship\n"
     "  * shed\n",
     "shells.yaml:3:3: error: this line begins with a star, but the lines of a "
     "list begin with a dash [bad-list]\n"
     "   3 |   * ship\n"
     "     |   ^\n"
     "  help: write `- ship`\n"},
    {"a note that begins with a comma",
     "pattern: sh\n"
     "words: ship shed\n"
     "teacher-note: , then the bell.\n",
     "shells.yaml:3:15: error: this text begins with `,`, which has a special "
     "meaning at the start of a text [special-sign]\n"
     "   3 | teacher-note: , then the bell.\n"
     "     |               ^~~~~~~~~~~~~~~~\n"
     "  help: put the text in quotes, as in `\", then the bell.\"`, or write "
     "it as a line under `|`\n"},
    {"a sentence that begins with a backtick",
     "pattern: sh\n"
     "words: ship shed\n"
     "sentences:\n"
     "  - `Shut` it.\n",
     "shells.yaml:4:5: error: this text begins with a backtick, which has a "
     "special meaning at the start of a text [special-sign]\n"
     "   4 |   - `Shut` it.\n"
     "     |     ^~~~~~~~~~\n"
     "  help: put the text in quotes, as in `\"`Shut` it.\"`, or write it as a "
     "line under `|`\n"},
    {"a sentence that begins with an ampersand",
     "pattern: sh\n"
     "words: ship shed\n"
     "sentences:\n"
     "  - &Fish and chips.\n",
     "shells.yaml:4:5: error: this text begins with `&`, which has a special "
     "meaning at the start of a text [special-sign]\n"
     "   4 |   - &Fish and chips.\n"
     "     |     ^~~~~~~~~~~~~~~~\n"
     "  help: put the text in quotes, as in `\"&Fish and chips.\"`, or write "
     "it as a line under `|`\n"},
    {"a note that begins with an exclamation mark",
     "pattern: sh\n"
     "words: ship shed\n"
     "teacher-note: !Begin with the bell.\n",
     "shells.yaml:3:15: error: this text begins with `!`, which has a special "
     "meaning at the start of a text [special-sign]\n"
     "   3 | teacher-note: !Begin with the bell.\n"
     "     |               ^~~~~~~~~~~~~~~~~~~~~\n"
     "  help: put the text in quotes, as in `\"!Begin with the bell.\"`, or "
     "write it as a line under `|`\n"},
    {"a note that begins with a percent sign",
     "pattern: sh\n"
     "words: ship shed\n"
     "teacher-note: %80 is enough.\n",
     "shells.yaml:3:15: error: this text begins with `%`, which has a special "
     "meaning at the start of a text [special-sign]\n"
     "   3 | teacher-note: %80 is enough.\n"
     "     |               ^~~~~~~~~~~~~~\n"
     "  help: put the text in quotes, as in `\"%80 is enough.\"`, or write it "
     "as a line under `|`\n"},
    {"a group that begins with an at sign",
     "pattern: sh\n"
     "words: ship shed\n"
     "group: @home\n",
     "shells.yaml:3:8: error: this text begins with `@`, which has a special "
     "meaning at the start of a text [special-sign]\n"
     "   3 | group: @home\n"
     "     |        ^~~~~\n"
     "  help: put the text in quotes, as in `\"@home\"`, or write it as a line "
     "under `|`\n"},
    {"a rhyme that begins with a blank",
     "pattern: sh\n"
     "words: ship shed\n"
     "rhyme:\n"
     "  - {word} in the dish\n",
     "shells.yaml:4:5: error: this text begins with `{`, which has a special "
     "meaning at the start of a text [special-sign]\n"
     "   4 |   - {word} in the dish\n"
     "     |     ^~~~~~~~~~~~~~~~~~\n"
     "  help: put the text in quotes, as in `\"{word} in the dish\"`, or write "
     "it as a line under `|`\n"},
    {"a number sign in a title",
     "pattern: sh\n"
     "words: ship shed\n"
     "title: Week #3 with fish\n",
     "shells.yaml:3:13: warning: the text ends after `Week`, because ` #` "
     "begins a comment [comment-in-text]\n"
     "   3 | title: Week #3 with fish\n"
     "     |             ^~~~~~~~~~~~\n"
     "  help: if this belongs to the text, put the whole text in quotes; if it "
     "is a comment, write a space after the `#`\n"},
    {"a number sign at the start of a title",
     "pattern: sh\n"
     "words: ship shed\n"
     "title: #3\n",
     "shells.yaml:3:1: error: `title` has nothing after it, because `#` "
     "begins a comment [missing-value]\n"
     "   3 | title: #3\n"
     "     | ^~~~~~\n"
     "  help: put the text in quotes if the `#` belongs to it\n"},
    {"a comment in the middle of the words",
     "pattern: sh\n"
     "words: ship shed # week one\n"
     "  fish dish\n",
     "shells.yaml:3:3: error: the text above ends at its comment, and this "
     "line does not belong to it [comment-in-text]\n"
     "   3 |   fish dish\n"
     "     |   ^~~~~~~~~\n"
     "shells.yaml:2:18: note: the comment\n"
     "   2 | words: ship shed # week one\n"
     "     |                  ^~~~~~~~~~\n"
     "  help: move the comment to a line of its own above the key\n"},
    {"curly quotes around a title",
     "pattern: sh\n"
     "words: ship shed\n"
     "title: “Week 3”\n",
     "shells.yaml:3:8: error: curly quotes do not hold a text together "
     "[bad-quotes]\n"
     "   3 | title: “Week 3”\n"
     "     |        ^~~~~~~~\n"
     "  help: use straight quotes (\"); to have the curly ones printed, put "
     "straight ones around them\n"},
    {"a sentence in curly quotes, split by its comma",
     "pattern: sh\n"
     "words: ship shed\n"
     "sentences: [“The fish, the dish.”, Shut it.]\n",
     "shells.yaml:3:13: error: the comma ends this text: curly quotes do not "
     "hold it together [bad-quotes]\n"
     "   3 | sentences: [“The fish, the dish.”, Shut it.]\n"
     "     |             ^~~~~~~~~\n"
     "  help: use straight quotes (\") around it, or write the list with "
     "each `- ` on a line of its own\n"},
    {"a backslash in double quotes",
     "pattern: sh\n"
     "words: ship shed\n"
     "layout: \"large\\print\"\n",
     "shells.yaml:3:15: error: in double quotes a backslash has a special "
     "meaning [bad-quotes]\n"
     "   3 | layout: \"large\\print\"\n"
     "     |               ^\n"
     "  help: put the text in single quotes, where a backslash is only a "
     "backslash\n"},
    {"three dashes in the middle",
     "pattern: sh\n"
     "words: ship shed\n"
     "---\n"
     "sentences: |\n"
     "  The fish is here.\n",
     "shells.yaml:3:1: error: a line of three dashes begins a second text in "
     "the same file [second-document]\n"
     "   3 | ---\n"
     "     | ^~~\n"
     "  help: take the line out, or make two files\n"},
    {"dashes before the keys",
     "- pattern: sh\n"
     "- words: ship shed\n",
     "shells.yaml:1:1: error: this file is a list, but a lesson is made of "
     "keys with values [file-form]\n"
     "   1 | - pattern: sh\n"
     "     | ^\n"
     "  help: leave the dashes or brackets out and begin the lines with a key "
     "and a colon, as in `pattern: sh`\n"},
    {"an empty file", "",
     "shells.yaml:1:1: error: there is nothing in this file [missing-key]\n"
     "   1 | \n"
     "     | ^\n"
     "  help: a lesson begins like this: `pattern: sh`\n"},
    {"a file of comments", "# lesson for Monday\n",
     "shells.yaml:1:1: error: there is nothing in this file [missing-key]\n"
     "   1 | # lesson for Monday\n"
     "     | ^\n"
     "  help: a lesson begins like this: `pattern: sh`\n"},
    {"a key twice",
     "pattern: sh\n"
     "words: ship shed\n"
     "words: fish dish\n",
     "shells.yaml:3:1: error: the key `words` is here a second time "
     "[repeated-key]\n"
     "   3 | words: fish dish\n"
     "     | ^~~~~\n"
     "shells.yaml:2:1: note: the first one\n"
     "   2 | words: ship shed\n"
     "     | ^~~~~\n"
     "  help: keep everything that belongs to it in one place\n"},
    {"nothing before the colon", ": ship shed\n",
     "shells.yaml:1:1: error: there is no key before the colon [file-form]\n"
     "   1 | : ship shed\n"
     "     | ^\n"
     "  help: write the key before it, as in `words: …`\n"},
    {"brackets within brackets",
     "pattern: sh\n"
     "words: ship shed\n"
     "title: [[[[[[[[[[[[[[[[[\n",
     "shells.yaml:3:16: error: there are more than 16 levels of lists and keys "
     "inside each other [too-deep]\n"
     "   3 | title: [[[[[[[[[[[[[[[[[\n"
     "     |                ^\n"
     "  help: put a text with brackets in quotes\n"},
};

TEST(Mistakes, InTheFormOfTheFile) {
  expect_messages("shells.yaml", kFormMistakes, read_lesson);
}

}  // namespace
}  // namespace sheaf
