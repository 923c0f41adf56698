// Whoever searches a packet, copies from it or has it read aloud by a program
// that does not heed its tags finds each word whole, however far its letters
// stand apart.

#include <gtest/gtest.h>

#include <map>
#include <set>
#include <sstream>

#include "project_files.h"
#include "support/pattern.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

using testing_support::file_bytes;
using testing_support::Outcome;
using testing_support::Pattern;
using testing_support::run_program;
using testing_support::TemporaryFolder;

using Words = std::multiset<std::string>;

void add_words(Words& words, const std::string& text) {
  std::istringstream stream(text);
  for (std::string word; stream >> word;) words.insert(word);
}

std::string without_spaces(std::string text) {
  std::erase(text, ' ');
  return text;
}

// The words of pages as `sheaf dump pages` has them: what stands together of
// one element on one line belongs together, and a text stated for an element
// takes the place of its marks. Where that says other words than they show
// ("Marked: goat."), some readers take it and some do not: none is asked for
// it.
Words words_of_dump(const std::string& dump) {
  static const Pattern stated("#([0-9]+) span.* alt=\"([^\"]*)\"");
  static const Pattern text(
      "^  text (#[0-9]+|-[a-z]*) [-.0-9]+,([-.0-9]+) .*pt \"([^\"]*)\"");
  std::map<std::string, std::string> alternatives;
  std::map<std::string, std::string> shown;
  Words words;
  std::string together, place;
  std::istringstream lines(dump);
  for (std::string line; std::getline(lines, line);) {
    if (const auto found = stated.in(line); !found.empty()) {
      alternatives["#" + found[1]] = found[2];
      continue;
    }
    const auto found = text.in(line);
    const std::string element = found.empty() ? "" : found[1];
    const auto alternative = alternatives.find(element);
    if (alternative != alternatives.end()) {
      shown[element] += found[3];
      continue;
    }
    const std::string here = found.empty() ? "" : element + " " + found[2];
    if (here != place || here.empty() || element[0] == '-') {
      add_words(words, together);
      together.clear();
    }
    place = here;
    if (!found.empty()) together += found[3];
  }
  add_words(words, together);
  for (const auto& [element, letters] : shown) {
    const std::string& said = alternatives[element];
    if (without_spaces(said) == without_spaces(letters)) add_words(words, said);
  }
  return words;
}

std::string missing(const Words& wanted, const Words& seen) {
  std::string all;
  for (const std::string& word : std::set(wanted.begin(), wanted.end())) {
    if (seen.count(word) < wanted.count(word)) all += word + " ";
  }
  return all;
}

// Readers of three makers.
std::map<std::string, Words> words_in_readers(const std::string& pdf,
                                              const TemporaryFolder& folder) {
  const std::string out = folder.path() + "/read.txt";
  const std::vector<std::vector<std::string>> readers = {
      {"pdftotext", pdf, out},
      {"mutool", "draw", "-q", "-F", "txt", "-o", out, pdf},
      {"gs", "-q", "-dNOPAUSE", "-dBATCH", "-sDEVICE=txtwrite",
       "-sOutputFile=" + out, pdf}};
  std::map<std::string, Words> all;
  for (const auto& call : readers) {
    const Outcome outcome = run_program(call);
    EXPECT_EQ(outcome.status, 0) << call[0] << ": " << outcome.out;
    add_words(all[call[0]], file_bytes(out));
  }
  return all;
}

TEST(ReaderWords, AreWholeHoweverFarTheirLettersStandApart) {
  const std::string lesson = (project() / "tests/readers/words.yaml").string();
  const std::string group =
      (project() / "tests/readers/words-class.yaml").string();
  const TemporaryFolder folder;
  const Outcome built = run_program(
      {SHEAF_PROGRAM, "build", "--class", group, "--out", folder.path()});
  ASSERT_EQ(built.status, 0) << built.out;
  for (const char* learner : {"N1", "W2", "X3"}) {
    const Words wanted =
        words_of_dump(run_program({SHEAF_PROGRAM, "dump", "pages", lesson,
                                   "--class", group, "--learner", learner})
                          .out);
    EXPECT_GE(wanted.size(), 100U);
    EXPECT_GE(wanted.count("coach"), 3U) << "as a list, to blend, and to read";
    const std::string pdf =
        folder.path() + "/words-class/" + learner + "/packet.pdf";
    for (const auto& [reader, seen] : words_in_readers(pdf, folder)) {
      EXPECT_EQ(missing(wanted, seen), "") << reader << ", learner " << learner;
    }
  }
}

// Signs and letters with accents that were typed in other ways.
TEST(ReaderWords, AreInTheLettersThatPeopleSearchFor) {
  const TemporaryFolder folder;
  const std::string lesson = folder.write(
      "typed.yaml",
      "pattern: sh\ntitle: The \uFB01sh cafe\u0301\nwords: ship \uFB01sh\n"
      "sentences: |\n  Zoe\u0308 has \uFB02at \uFB01sh o\uFB00 the sta\uFB00 "
      "ship.\nlayout:\n  sheets: [sentences, discovery]\n");
  const Outcome built =
      run_program({SHEAF_PROGRAM, "build", lesson, "--out", folder.path()});
  ASSERT_EQ(built.status, 0) << built.out;
  Words wanted;
  add_words(wanted,
            "fish caf\u00E9 Zo\u00EB has flat fish off the staff ship.");
  for (const auto& [reader, seen] :
       words_in_readers(folder.path() + "/typed/packet.pdf", folder)) {
    EXPECT_EQ(missing(wanted, seen), "") << reader;
  }
}

}  // namespace
}  // namespace sheaf::test
