// What the program says of itself: the manual page, completions, and the lists
// of sheets, layouts and pictures.

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "project_files.h"
#include "sheets/sheet.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

std::string said(const std::vector<std::string>& arguments) {
  std::vector<std::string> call = {SHEAF_PROGRAM};
  call.insert(call.end(), arguments.begin(), arguments.end());
  const Outcome outcome = run_program(call);
  EXPECT_EQ(outcome.status, 0) << outcome.out;
  return outcome.out;
}

// The verbs as `sheaf --help` lists them.
std::vector<std::string> verbs() {
  std::vector<std::string> names;
  std::istringstream lines(said({"--help"}));
  bool listed = false;
  for (std::string line; std::getline(lines, line);) {
    if (listed && line.starts_with("  ")) {
      names.push_back(line.substr(2, line.find(' ', 2) - 2));
    }
    listed |= line.starts_with("Subcommands:");
  }
  EXPECT_GT(names.size(), 15U);
  return names;
}

// The long options that a text names: "--out".
std::set<std::string> options_in(const std::string& text) {
  std::set<std::string> options;
  for (std::size_t at = 0; (at = text.find("--", at)) != std::string::npos;) {
    const std::size_t end =
        text.find_first_not_of("abcdefghijklmnopqrstuvwxyz-", at + 2);
    if (end > at + 3) options.insert(text.substr(at, end - at));
    at += 2;
  }
  return options;
}

std::string without_backslashes(std::string text) {
  std::erase(text, '\\');
  return text;
}

TEST(Manual, NamesEveryVerbAndOption) {
  const std::string page = said({"manual"});
  // In the format of man: every line that begins with a point is a macro.
  EXPECT_TRUE(page.starts_with(".TH SHEAF 1 "));
  std::istringstream lines(page);
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with('.')) continue;
    const std::string macro = line.substr(1, line.find(' ') - 1);
    EXPECT_TRUE(std::set<std::string>(
                    {"TH", "SH", "SS", "TP", "PP", "B", "I", "BR", "nf", "fi"})
                    .contains(macro))
        << line;
  }
  const auto named = options_in(without_backslashes(page));
  for (const std::string& verb : verbs()) {
    EXPECT_NE(page.find("\n.SS sheaf " + verb), std::string::npos) << verb;
    for (const std::string& option : options_in(said({verb, "--help"}))) {
      EXPECT_TRUE(named.contains(option)) << verb << " " << option;
    }
  }
}

// What bash completes after these words.
std::string completed(const std::string& words) {
  const std::string script =
      "source <('" + std::string(SHEAF_PROGRAM) +
      "' completions bash); COMP_WORDS=(" + words +
      "); COMP_CWORD=$((${#COMP_WORDS[@]}-1)); _sheaf; echo "
      "\"${COMPREPLY[@]}\"";
  return run_program({"bash", "-c", script}).out;
}

// Whoever reads "secure" on a page can look up what it takes.
TEST(Manual, NamesTheRulesOfProgress) {
  std::string manual = said({"manual"});
  std::erase(manual, '\\');
  for (const std::string& text :
       {manual, said({"progress", "--help"}), said({"review", "--help"})}) {
    for (const char* part :
         {"Go on:", "Secure: at most 2 wrong in the latest 25 words",
          "Check again:", "Likely:", "go-on-percent=80", "week-days=7",
          "secure-misses=2", "secure-chances=25", "long-misses=5",
          "long-chances=54", "secure-days=3", "secure-new-words=4",
          "secure-later-days=14", "lost-misses=3", "lost-chances=12",
          "unseen-weeks=8"}) {
      EXPECT_NE(text.find(part), std::string::npos) << part;
    }
  }
}

TEST(Completions, AreWhatBashOffers) {
  EXPECT_EQ(completed("sheaf bui"), "build\n");
  EXPECT_EQ(completed("sheaf build --lay"), "--layout\n");
  EXPECT_EQ(completed("sheaf record --ki"), "--kind\n");
  EXPECT_EQ(completed("sheaf patterns --lay"), "\n");
}

// Behind an option stand its values: the choices, what Sheaf knows by name, and
// files or folders where those are meant.
TEST(Completions, OfferValues) {
  EXPECT_EQ(completed("sheaf build --paper ''"), "letter a4\n");
  EXPECT_EQ(completed("sheaf record --kind tr"), "transfer\n");
  EXPECT_EQ(completed("sheaf find th_v"), "th_voiceless th_voiced\n");
  EXPECT_EQ(completed("sheaf find sh --contrast tch"), "tch\n");
  EXPECT_EQ(completed("sheaf writing x.txt --taught igh"), "igh\n");
  EXPECT_EQ(completed("sheaf mark --accent sc"), "scottish\n");
  EXPECT_EQ(completed("sheaf schema rec"), "record\n");
  EXPECT_EQ(completed("sheaf completions ''"), "bash zsh fish\n");
  EXPECT_EQ(completed("sheaf explain unclear"), "unclear-target\n");
  EXPECT_EQ(completed("sheaf build --only sound-b"), "sound-boxes\n");
  EXPECT_EQ(completed("sheaf progress r --rule lost-m"), "lost-misses=\n");
  EXPECT_EQ(completed("sheaf word car --count as-s"), "as-spoken\n");
  // A count is no file, and a folder is none either.
  const TemporaryFolder folder;
  folder.write("some.yaml", "");
  std::filesystem::create_directory(folder.path() + "/some-folder");
  const std::string here = folder.path() + "/some";
  EXPECT_EQ(completed("sheaf find sh --count " + here), "\n");
  EXPECT_EQ(completed("sheaf build x --out " + here), here + "-folder\n");
  EXPECT_EQ(completed("sheaf record --class " + here + "."), here + ".yaml\n");
  EXPECT_EQ(completed("sheaf mark " + here + "."), here + ".yaml\n");
}

// A step is `--step` and patterns are `--taught`, whatever the verb.
TEST(Options, AreCalledTheSameInEveryVerb) {
  for (const std::string& verb : verbs()) {
    std::istringstream help(said({verb, "--help"}));
    for (std::string line; std::getline(help, line);) {
      const std::size_t at = line.find("--");
      if (at == std::string::npos || at > 4) continue;
      const std::string name = line.substr(at, line.find(' ', at) - at);
      if (name == "--taught") {
        EXPECT_NE(line.find("patterns"), std::string::npos) << verb << line;
        EXPECT_EQ(line.find("step's"), std::string::npos) << verb << line;
      }
      if (line.find("a step's number") != std::string::npos) {
        EXPECT_EQ(name, "--step") << verb << line;
      }
    }
  }
}

TEST(Completions, NameEveryVerbInEveryShell) {
  for (const char* shell : {"bash", "zsh", "fish"}) {
    const std::string text = said({"completions", shell});
    for (const std::string& verb : verbs()) {
      EXPECT_NE(text.find(verb), std::string::npos) << shell << " " << verb;
    }
  }
}

TEST(Lists, HoldEverySheetAndLayout) {
  const std::string sheets = said({"sheets"});
  for (const SheetKind* kind : sheet_kinds()) {
    const std::size_t at = sheets.find("\n  " + std::string(kind->name) + ": ");
    ASSERT_NE(at, std::string::npos) << kind->name;
    for (const OptionSpec& option : kind->options) {
      EXPECT_NE(sheets.find("    " + std::string(option.name) + ": " +
                                std::string(option.fallback),
                            at),
                std::string::npos)
          << kind->name << " " << option.name;
    }
  }
  const std::string layouts = said({"layouts"});
  for (const auto& file : files_below(project() / "layouts", {".yaml"})) {
    EXPECT_NE(layouts.find(file.stem().string() + " "), std::string::npos);
  }
  // Each with one whole sentence, over however many lines the file has it.
  std::istringstream each(layouts);
  for (std::string line; std::getline(each, line);) {
    EXPECT_TRUE(line.ends_with('.')) << line;
    EXPECT_EQ(line.find(". "), std::string::npos) << line;
  }
  EXPECT_NE(layouts.find("and the page to mark it on.\n"), std::string::npos)
      << layouts;
}

TEST(Pictures, AreListedAndShownOnAContactSheet) {
  const std::string list = said({"pictures"});
  std::set<std::string> words;
  std::istringstream lines(list);
  for (std::string line; std::getline(lines, line);) {
    // Two columns of words, which may have a space within: ice cream.
    const std::size_t end = line.find("  ");
    const std::string word = line.substr(0, end);
    const std::size_t next = line.find_first_not_of(' ', end);
    const std::string kind = line.substr(next, line.find(' ', next) - next);
    EXPECT_TRUE(words.insert(word).second) << word << " stands there twice";
    EXPECT_TRUE(kind == "glyph" || kind == "drawing") << line;
  }
  EXPECT_GT(words.size(), 295U);
  for (const char* drawn : {"lamp", "desk", "mop", "jug", "net", "lid"}) {
    EXPECT_TRUE(words.contains(drawn)) << drawn;
  }
  const TemporaryFolder folder;
  const std::string pdf = folder.path() + "/pictures.pdf";
  said({"pictures", "--pdf", pdf});
  std::string shown = run_program({"pdftotext", pdf, "-"}).out;
  // In brackets: children may call it by another word.
  std::erase_if(shown, [](char c) { return c == '(' || c == ')'; });
  std::istringstream text(shown);
  std::set<std::string> named;
  for (std::string word; text >> word;) named.insert(word);
  for (const std::string& word : words) {
    EXPECT_TRUE(named.contains(word.substr(0, word.find(' ')))) << word;
  }
}

TEST(Speech, IsListedWithItsSources) {
  const std::string list = said({"speech"});
  for (const char* part : {"th-f ", "no-ed ", "spanish ", "fink for think",
                           "`speech: th-f, no-ed`"}) {
    EXPECT_NE(list.find(part), std::string::npos) << part;
  }
  const std::string one = said({"speech", "end-voice"});
  EXPECT_NE(one.find("Treiman and Bowman (2015)"), std::string::npos) << one;
  const Outcome none = run_program({SHEAF_PROGRAM, "speech", "th-v"});
  EXPECT_EQ(none.status, 2);
  EXPECT_NE(none.out.find("did you mean"), std::string::npos) << none.out;
}

// The boxes of a word, and what would change them.
TEST(Words, AreExplained) {
  const std::string car = said({"word", "car", "shipz"});
  for (const char* part :
       {"graphemes  c ar", "car: 2 boxes (r-vowel one; 3 with two)",
        "r-controlled ar", "from       a guess"}) {
    EXPECT_NE(car.find(part), std::string::npos) << part << "\n" << car;
  }
  // The switch of x says nothing of abbreviations.
  EXPECT_NE(said({"word", "Mr"}).find("Mr: 5 boxes\n"), std::string::npos);
  EXPECT_NE(said({"word", "car", "--accent", "british", "--notation", "ipa"}),
            car);
  const std::string json = said({"word", "ship", "--json"});
  EXPECT_NE(json.find("\"boxes\": 3"), std::string::npos) << json;
  const Outcome none = run_program({SHEAF_PROGRAM, "word", "car", "b@d"});
  EXPECT_NE(none.status, 0) << none.out;
}

// The catalogue, and a pattern by itself with words that lack it and why.
TEST(Learners, AreNotRepeatedWhereTheirCodeIsNone) {
  const std::vector<std::string> calls[] = {
      {SHEAF_PROGRAM, "build", "--class", "class.yaml", "--learner", "Beth"},
      {SHEAF_PROGRAM, "progress", "records", "--learner", "B7,Beth"},
      {SHEAF_PROGRAM, "forget", "Beth"}};
  for (const std::vector<std::string>& call : calls) {
    const Outcome outcome = run_program(call);
    EXPECT_EQ(outcome.status, 2) << call[1];
    const std::string& said = outcome.out;
    EXPECT_NE(said.find("figures with up to three letters"), std::string::npos)
        << said;
    EXPECT_EQ(said.find("Beth"), std::string::npos) << said;
  }
}

TEST(Patterns, AreListedAndExplained) {
  const std::string all = said({"patterns"});
  EXPECT_GT(std::count(all.begin(), all.end(), '\n'), 140);
  const std::string ck = said({"patterns", "ck"});
  EXPECT_NE(ck.find("cuckoo: its ck does not stand after a short vowel"),
            std::string::npos)
      << ck;
  const Outcome near = run_program({SHEAF_PROGRAM, "patterns", "ckk"});
  EXPECT_NE(near.status, 0);
  EXPECT_NE(near.out.find("ck"), std::string::npos) << near.out;
}

// A blocked word is not suggested from then on, and nobody can read which.
TEST(Blocked, WordsAreNotSuggested) {
  const TemporaryFolder folder;
  const std::string list = folder.path() + "/blocked-words.txt";
  const auto found = [&] {
    return run_program({"sh", "-c", "cd \"$0\" && \"$1\" find oa --count 5",
                        folder.path(), SHEAF_PROGRAM})
        .out;
  };
  ASSERT_NE(found().find("boat"), std::string::npos);
  said({"block", "boat", "--file", list});
  EXPECT_EQ(read(list).find("boat"), std::string::npos);
  EXPECT_EQ(found().find("boat"), std::string::npos);
}

}  // namespace
}  // namespace sheaf::test
