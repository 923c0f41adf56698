// Slips in what a lesson says.

#include <gtest/gtest.h>

#include "input/lesson.h"
#include "input_mistakes.h"

namespace sheaf {
namespace {

const Mistake kLessonMistakes[] = {
    {"a mistyped key",
     "patern: sh\n"
     "wrods: ship shed\n",
     "shells.yaml:1:1: error: `patern` is not a key of a lesson "
     "[unknown-key]\n"
     "   1 | patern: sh\n"
     "     | ^~~~~~\n"
     "  help: did you mean `pattern`?\n"
     "shells.yaml:2:1: error: `wrods` is not a key of a lesson "
     "[unknown-key]\n"
     "   2 | wrods: ship shed\n"
     "     | ^~~~~\n"
     "  help: did you mean `words`?\n"},
    {"a key in capitals",
     "Pattern: sh\n"
     "words: ship shed\n",
     "shells.yaml:1:1: error: `Pattern` is not a key of a lesson "
     "[unknown-key]\n"
     "   1 | Pattern: sh\n"
     "     | ^~~~~~~\n"
     "  help: did you mean `pattern`?\n"},
    {"a key nobody knows",
     "pattern: sh\n"
     "words: ship shed\n"
     "colour: blue\n",
     "shells.yaml:3:1: error: `colour` is not a key of a lesson "
     "[unknown-key]\n"
     "   3 | colour: blue\n"
     "     | ^~~~~~\n"
     "  help: take it out, or begin the line with `#` if it is a note to "
     "yourself\n"},
    {"a key of another file",
     "pattern: sh\n"
     "words: ship shed\n"
     "review-weeks: 1, 2\n",
     "shells.yaml:3:1: error: `review-weeks` is not a key of a lesson "
     "[unknown-key]\n"
     "   3 | review-weeks: 1, 2\n"
     "     | ^~~~~~~~~~~~\n"
     "  help: it belongs in the file of a sequence or a class; remove it "
     "here\n"},
    {"a sentence taken for a key",
     "pattern: sh\n"
     "words: ship shed\n"
     "Beth said: shut the shed.\n",
     "shells.yaml:3:1: error: `Beth said` is not a key of a lesson "
     "[unknown-key]\n"
     "   3 | Beth said: shut the shed.\n"
     "     | ^~~~~~~~~\n"
     "  help: if it belongs to the text above, begin the line with two "
     "spaces and write that text under `|`\n"},
    {"splits that do not begin further right",
     "pattern: sh\n"
     "words: ship shed\n"
     "split:\n"
     "Quinlan: qu i n l a n\n"
     "chef: ch e f\n",
     "shells.yaml:3:1: error: `split` has nothing after it [missing-value]\n"
     "   3 | split:\n"
     "     | ^~~~~~\n"
     "  help: write it like this: `split: {shake: sh a_e k}`\n"
     "shells.yaml:4:1: error: `Quinlan` is not a key of a lesson "
     "[unknown-key]\n"
     "   4 | Quinlan: qu i n l a n\n"
     "     | ^~~~~~~\n"
     "  help: if it belongs to `split` above, begin the line with two "
     "spaces\n"
     "shells.yaml:5:1: error: `chef` is not a key of a lesson [unknown-key]\n"
     "   5 | chef: ch e f\n"
     "     | ^~~~\n"
     "  help: if it belongs to `split` above, begin the line with two "
     "spaces\n"},
    {"no pattern", "words: ship shed\n",
     "shells.yaml:1:1: error: the lesson names no pattern [missing-key]\n"
     "   1 | words: ship shed\n"
     "     | ^~~~~\n"
     "  help: add a line such as `pattern: sh`\n"},
    {"nothing after a key",
     "pattern:\n"
     "words: ship shed\n",
     "shells.yaml:1:1: error: `pattern` has nothing after it "
     "[missing-value]\n"
     "   1 | pattern:\n"
     "     | ^~~~~~~~\n"
     "  help: write it like this: `pattern: sh`\n"},
    {"an empty list",
     "pattern: sh\n"
     "words: []\n",
     "shells.yaml:2:8: error: `words` has an empty list after it "
     "[missing-value]\n"
     "   2 | words: []\n"
     "     |        ^~\n"
     "  help: write it like this: `words: ship shed shell`\n"},
    {"an empty part of a list",
     "pattern: sh\n"
     "words:\n"
     "  - ship\n"
     "  -\n"
     "  - shed\n",
     "shells.yaml:4:3: error: a part of the list under `words` is empty "
     "[missing-value]\n"
     "   4 |   -\n"
     "     |   ^\n"
     "  help: write something there or take it out\n"},
    {"a word twice",
     "pattern: sh\n"
     "words: ship, shed, ship\n",
     "shells.yaml:2:20: error: `ship` is listed twice under `words` "
     "[repeated-word]\n"
     "   2 | words: ship, shed, ship\n"
     "     |                    ^~~~\n"
     "shells.yaml:2:8: note: the first one\n"
     "   2 | words: ship, shed, ship\n"
     "     |        ^~~~\n"
     "  help: take one of the two out\n"},
    {"a word many times, which is told of once",
     "pattern: sh\n"
     "words: ship, shed, ship, ship, ship\n",
     "shells.yaml:2:20: error: `ship` is listed 4 times under `words` "
     "[repeated-word]\n"
     "   2 | words: ship, shed, ship, ship, ship\n"
     "     |                    ^~~~\n"
     "shells.yaml:2:8: note: the first one\n"
     "   2 | words: ship, shed, ship, ship, ship\n"
     "     |        ^~~~\n"
     "  help: take all but one of them out\n"},
    {"a word twice, once with a capital",
     "pattern: sh\n"
     "words: Ship, shed, ship\n",
     "shells.yaml:2:20: warning: `ship` is listed twice under `words`, once "
     "with a capital letter [repeated-word]\n"
     "   2 | words: Ship, shed, ship\n"
     "     |                    ^~~~\n"
     "shells.yaml:2:8: note: the first one\n"
     "   2 | words: Ship, shed, ship\n"
     "     |        ^~~~\n"
     "  help: take one of the two out, if they are the same word\n"},
    {"five patterns",
     "pattern: ai, ay, a_e, ea, ei\n"
     "words: rain\n",
     "shells.yaml:1:27: error: `pattern` has more than 4 names after it "
     "[too-many]\n"
     "   1 | pattern: ai, ay, a_e, ea, ei\n"
     "     |                           ^~\n"
     "  help: take some out\n"},
    {"a pattern twice",
     "pattern: ai, ay, ai\n"
     "words: rain\n",
     "shells.yaml:1:18: error: `ai` is listed twice under `pattern` "
     "[repeated-word]\n"
     "   1 | pattern: ai, ay, ai\n"
     "     |                  ^~\n"
     "shells.yaml:1:10: note: the first one\n"
     "   1 | pattern: ai, ay, ai\n"
     "     |          ^~\n"
     "  help: take one of the two out\n"},
    {"a full stop after the last word",
     "pattern: sh\n"
     "words: ship shed shell.\n",
     "shells.yaml:2:23: error: `shell.` has a `.` in it, which no word has "
     "[bad-word]\n"
     "   2 | words: ship shed shell.\n"
     "     |                       ^\n"
     "  help: write letters only, and separate words with spaces, commas or "
     "new lines\n"},
    {"semicolons between words",
     "pattern: sh\n"
     "words: ship; shed\n",
     "shells.yaml:2:12: error: `ship;` has a `;` in it, which no word has "
     "[bad-word]\n"
     "   2 | words: ship; shed\n"
     "     |            ^\n"
     "  help: write letters only, and separate words with spaces, commas or "
     "new lines\n"},
    {"a digit in a word",
     "pattern: sh\n"
     "words: ship 2shed\n",
     "shells.yaml:2:13: error: `2shed` has a digit in it, which no word has "
     "[bad-word]\n"
     "   2 | words: ship 2shed\n"
     "     |             ^\n"
     "  help: write numbers as words\n"},
    {"a number for a word",
     "pattern: sh\n"
     "words: ship 7\n",
     "shells.yaml:2:13: error: `7` is a number, not a word [bad-word]\n"
     "   2 | words: ship 7\n"
     "     |             ^\n"
     "  help: list the words themselves, not how many; a number among them is "
     "spelled out, as in `six`\n"},
    {"an emoji for a word",
     "pattern: sh\n"
     "words: ship 🐟\n",
     "shells.yaml:2:13: error: `🐟` is a sign, not a word [bad-word]\n"
     "   2 | words: ship 🐟\n"
     "     |             ^~\n"
     "  help: write letters only; a picture for a word goes under "
     "`pictures:`\n"},
    {"curly quotes around words",
     "pattern: sh\n"
     "words: “ship” “shed”\n",
     "shells.yaml:2:8: error: `“ship”` has a quote in it, which no word has "
     "[bad-word]\n"
     "   2 | words: “ship” “shed”\n"
     "     |        ^\n"
     "  help: write words without quotes around them\n"
     "shells.yaml:2:15: error: `“shed”` has a quote in it, which no word has "
     "[bad-word]\n"
     "   2 | words: “ship” “shed”\n"
     "     |               ^\n"
     "  help: write words without quotes around them\n"},
    {"a long dash between words",
     "pattern: sh\n"
     "words: ship – shed\n",
     "shells.yaml:2:13: error: `–` has a long dash in it [bad-word]\n"
     "   2 | words: ship – shed\n"
     "     |             ^\n"
     "  help: write a hyphen (-) inside a word, and spaces or commas between "
     "words\n"},
    {"dashes under a bar",
     "pattern: sh\n"
     "words: ship\n"
     "sentences: |\n"
     "  - The fish is here.\n"
     "  - It is big.\n",
     "shells.yaml:4:3: error: this line under `sentences` begins with a dash "
     "[bad-list]\n"
     "   4 |   - The fish is here.\n"
     "     |   ^\n"
     "  help: leave out the dashes, or the `|` after the key\n"},
    {"bullets from a word processor",
     "pattern: sh\n"
     "words: ship shed\n"
     "sentences: |\n"
     "  • The fish is here.\n"
     "  • It is big.\n",
     "shells.yaml:4:3: error: this line under `sentences` begins with a bullet "
     "[bad-list]\n"
     "   4 |   • The fish is here.\n"
     "     |   ^\n"
     "  help: take the bullets out; each line counts as one already\n"},
    {"bullets before words",
     "pattern: sh\n"
     "words:\n"
     "  • ship\n",
     "shells.yaml:3:3: error: `•` is a bullet, not a word [bad-word]\n"
     "   3 |   • ship\n"
     "     |   ^\n"
     "  help: take the bullets out, or write `- ` in place of each\n"},
    {"a dash between words",
     "pattern: sh\n"
     "words: ship - shed\n",
     "shells.yaml:2:13: error: there is a dash here without a word [bad-word]\n"
     "   2 | words: ship - shed\n"
     "     |             ^\n"
     "  help: separate words with spaces, commas or new lines, without dashes; "
     "a list with dashes begins on the line after its key, without `|`\n"},
    {"a hyphen after a word",
     "pattern: sh\n"
     "words: ship- shed\n",
     "shells.yaml:2:8: error: `ship-` ends with a hyphen [bad-word]\n"
     "   2 | words: ship- shed\n"
     "     |        ^~~~~\n"
     "  help: put a hyphen only between two letters of a word\n"},
    {"a letter that only looks Latin",
     "pattern: sh\n"
     "words: shеd\n",
     "shells.yaml:2:10: error: `е` in `shеd` is not a letter of the Latin "
     "alphabet [bad-word]\n"
     "   2 | words: shеd\n"
     "     |          ^\n"
     "  help: type the word again; some letters of other alphabets look the "
     "same\n"},
    {"a tilde for a word",
     "pattern: sh\n"
     "words: ~\n",
     "shells.yaml:2:8: error: `~` is a sign, not a word [bad-word]\n"
     "   2 | words: ~\n"
     "     |        ^\n"
     "  help: write letters only; a picture for a word goes under "
     "`pictures:`\n"},
    {"a pattern's name among the words",
     "pattern: a_e\n"
     "words: a_e cake\n",
     "shells.yaml:2:9: error: `a_e` has a `_` in it, which no word has "
     "[bad-word]\n"
     "   2 | words: a_e cake\n"
     "     |         ^\n"
     "  help: divide the whole word to show a split grapheme, as in "
     "`sh|a_e|k`\n"},
    {"a word without end",
     "pattern: sh\n"
     "words: shipshipshipshipshipshipshipshipshipshipshipshipshipshipshipship"
     "ship\n",
     "shells.yaml:2:8: error: `shipshipshipshipshipshipshipshipshipshi…` has "
     "more than 64 letters [text-too-long]\n"
     "   2 | words: "
     "shipshipshipshipshipshipshipshipshipshipshipshipshipshipship…\n"
     "     |        "
     "^~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~\n"
     "  help: separate words with spaces, commas or new lines\n"},
    {"a bar too many in a parted word",
     "pattern: sh\n"
     "words: sh||e|d\n",
     "shells.yaml:2:8: error: a grapheme is missing in `sh||e|d` "
     "[bad-split]\n"
     "   2 | words: sh||e|d\n"
     "     |        ^~~~~~~\n"
     "  help: write a bar (|) between two graphemes only, as in `sh|e|d`\n"},
    {"a gap with nothing in it",
     "pattern: a_e\n"
     "words: sh|a_e\n",
     "shells.yaml:2:8: error: the gap of a grapheme in `sh|a_e` is empty "
     "[bad-split]\n"
     "   2 | words: sh|a_e\n"
     "     |        ^~~~~~\n"
     "  help: write what is in the gap next, as in `sh|a_e|k`\n"},
    {"two gaps in a grapheme",
     "pattern: a_e\n"
     "words: a_e_e|k\n",
     "shells.yaml:2:8: error: `a_e_e` has more than one gap [bad-split]\n"
     "   2 | words: a_e_e|k\n"
     "     |        ^~~~~\n"
     "  help: write a gap as in `a_e`\n"},
    {"graphemes that do not make the word",
     "pattern: sh\n"
     "words: ship shed\n"
     "split:\n"
     "  shake: sh a k\n",
     "shells.yaml:4:10: error: these graphemes make `shak`, not `shake` "
     "[bad-split]\n"
     "   4 |   shake: sh a k\n"
     "     |          ^~~~~~\n"
     "  help: write all letters of the word in their order, as in `shake: sh "
     "a_e k`\n"},
    {"a sound without slashes",
     "pattern: sh\n"
     "words: ship shed\n"
     "split:\n"
     "  chef: ch=sh e f\n",
     "shells.yaml:4:11: error: no sound between slashes follows `ch=` "
     "[bad-split]\n"
     "   4 |   chef: ch=sh e f\n"
     "     |           ^\n"
     "  help: write the sound between slashes, as in `ch=/sh/`\n"},
    {"a split without its word",
     "pattern: sh\n"
     "words: ship shed\n"
     "split: sh a_e k\n",
     "shells.yaml:3:8: error: `split` has text after it [wrong-value]\n"
     "   3 | split: sh a_e k\n"
     "     |        ^~~~~~~~\n"
     "  help: write it like this: `split: {shake: sh a_e k}`\n"},
    {"a number in letters",
     "pattern: sh\n"
     "words: ship shed\n"
     "days: five\n",
     "shells.yaml:3:7: error: `five` is not a whole number written in figures "
     "[wrong-value]\n"
     "   3 | days: five\n"
     "     |       ^~~~\n"
     "  help: write it like this: `days: 5`\n"},
    {"a number with a unit",
     "pattern: sh\n"
     "words: ship shed\n"
     "minutes: 25 min\n",
     "shells.yaml:3:10: error: `25 min` is not a whole number written in "
     "figures [wrong-value]\n"
     "   3 | minutes: 25 min\n"
     "     |          ^~~~~~\n"
     "  help: write it like this: `minutes: 25`\n"},
    {"a number too large",
     "pattern: sh\n"
     "words: ship shed\n"
     "days: 9\n",
     "shells.yaml:3:7: error: `days` cannot be 9 [value-out-of-range]\n"
     "   3 | days: 9\n"
     "     |       ^\n"
     "  help: choose from 1 to 7\n"},
    {"more than one key word",
     "pattern: sh\n"
     "words: ship shed\n"
     "key-word: ship, shed\n",
     "shells.yaml:3:11: error: there is more than one word under `key-word` "
     "[wrong-value]\n"
     "   3 | key-word: ship, shed\n"
     "     |           ^~~~~~~~~~\n"
     "  help: write it like this: `key-word: ship`\n"},
    {"a list for a title",
     "pattern: sh\n"
     "words: ship shed\n"
     "title: [Week 3, fish]\n",
     "shells.yaml:3:8: error: `title` has a list after it [wrong-value]\n"
     "   3 | title: [Week 3, fish]\n"
     "     |        ^~~~~~~~~~~~~~\n"
     "  help: write it like this: `title: Week 3`\n"},
    {"a sentence split by its comma",
     "pattern: sh\n"
     "words: ship shed\n"
     "sentences: [The fish, the dish., Shut it.]\n",
     "shells.yaml:3:13: warning: the sentence `The fish` has no end mark; a "
     "comma may have split it [split-sentence]\n"
     "   3 | sentences: [The fish, the dish., Shut it.]\n"
     "     |             ^~~~~~~~\n"
     "  help: put the whole sentence in quotes, or write the sentences as "
     "lines under `sentences: |`\n"},
    {"a file somewhere else",
     "pattern: sh\n"
     "words: ship shed\n"
     "layout: /home/me/week.yaml\n",
     "shells.yaml:3:9: error: `/home/me/week.yaml` leads out of the folder "
     "of this file [bad-path]\n"
     "   3 | layout: /home/me/week.yaml\n"
     "     |         ^~~~~~~~~~~~~~~~~~\n"
     "  help: copy the file into that folder, or write its name alone and "
     "name its folder with `--allow`\n"},
    {"a file above the folder",
     "pattern: sh\n"
     "words: ship shed\n"
     "layout: ../week.yaml\n",
     "shells.yaml:3:9: error: `../week.yaml` leads out of the folder of this "
     "file [bad-path]\n"
     "   3 | layout: ../week.yaml\n"
     "     |         ^~~~~~~~~~~~\n"
     "  help: copy the file into that folder, or write its name alone and "
     "name its folder with `--allow`\n"},
    {"a file with a Windows name",
     "pattern: sh\n"
     "words: ship shed\n"
     "layout: layouts\\week.yaml\n",
     "shells.yaml:3:9: error: `layouts\\week.yaml` has a backslash in it "
     "[bad-path]\n"
     "   3 | layout: layouts\\week.yaml\n"
     "     |         ^~~~~~~~~~~~~~~~~\n"
     "  help: separate folders with `/`\n"},
    {"a file from the web",
     "pattern: sh\n"
     "words: ship shed\n"
     "layout: https://example.org/week.yaml\n",
     "shells.yaml:3:9: error: `https://example.org/week.yaml` is not the "
     "name of a file beside this one [bad-path]\n"
     "   3 | layout: https://example.org/week.yaml\n"
     "     |         ^~~~~~~~~~~~~~~~~~~~~~~~~~~~~\n"
     "  help: copy the file into the folder of this one and write its name "
     "alone\n"},
    {"a layout file",
     "sheets:\n"
     "  - discovery\n",
     "shells.yaml:1:1: error: this file is a layout, as `sheets` shows, and "
     "not a lesson [wrong-file-kind]\n"
     "   1 | sheets:\n"
     "     | ^~~~~~\n"
     "  help: name the file of a lesson instead\n"},
    {"a newer format",
     "sheaf: 2\n"
     "pattern: sh\n"
     "words: ship shed\n",
     "shells.yaml:1:8: error: this file is written for version 2 of the "
     "format; this Sheaf knows version 1 [unknown-version]\n"
     "   1 | sheaf: 2\n"
     "     |        ^\n"
     "  help: write `sheaf: 1`, or get a newer Sheaf\n"},
};

TEST(Mistakes, InALesson) {
  expect_messages("shells.yaml", kLessonMistakes, read_lesson);
}

}  // namespace
}  // namespace sheaf
