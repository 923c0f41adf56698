// Files whose names hold what a terminal would obey: every verb is run with
// them, and nothing that it prints does more than show them.

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>

#include "base/utf8.h"
#include "names/marked_files.h"
#include "names/odd_files.h"
#include "names/run_in_memory.h"

namespace sheaf::test {
namespace {

const std::string& kOdd = kOddName;

std::string odd(const std::string& end) { return kOdd + end; }

FileSet odd_files() {
  FileSet files = whole_files();
  files.erase("plain-class.yaml");
  files[odd(".yaml")] = files["lesson.yaml"];
  files[odd("-fault.yaml")] = "pattern: sh\nwords: sh1p\n";
  files[odd("-sequence.yaml")] = files["sequence.yaml"];
  files[odd("-class.yaml")] = files["class.yaml"];
  files[odd(".txt")] = "The fish is in the dish.\nA ship is in the shop\n";
  files[odd("-journal.txt")] = files["journal.txt"];
  files[odd("-pairs.txt")] = "ship\tsip\nnothing\n";
  files[odd("/records/week.yaml")] =
      "date: 2026-03-12\nlesson: lesson.yaml\nclass: class.yaml\nmarked: all\n"
      "wrong: {B7: {ship: sip}, C3: {}, D1: {}}\n";
  files[odd("/lesson.yaml")] = files["lesson.yaml"];
  files[odd("/sequence.yaml")] = files["sequence.yaml"];
  files[odd("/class.yaml")] = files["class.yaml"];
  files["records/" + odd(".yaml")] = files["records/friday.yaml"];
  files["records/" + odd("-fault.yaml")] = "date: soon\n";
  files["layouts/" + odd(".yaml")] =
      "# an odd layout\nsheets:\n  - sound-boxes\n";
  return files;
}

using Call = std::vector<std::string>;

std::vector<Call> calls() {
  const std::string lesson = odd(".yaml"), fault = odd("-fault.yaml"),
                    none = odd("-none.yaml"), folder = kOdd,
                    sequence = odd("-sequence.yaml"),
                    pupils = odd("-class.yaml"),
                    record = "records/" + odd(".yaml"),
                    bad_record = "records/" + odd("-fault.yaml"),
                    pdf = odd(".pdf"), text = odd(".txt"), out = odd("-out");
  return {
      {"build", lesson, "--out", out, "--only", "sound-boxes"},
      {"build", fault, none, "--out", out},
      {"build", folder, "--out", out},
      {"build", odd("-no-folder"), "--out", out},
      {"build", lesson, "--layout", none},
      {"build", lesson, "--deps", odd(".d"), "--only", "sound-boxes"},
      {"build", "--class", pupils, "--out", out, "--only", "sound-boxes"},
      {"build", "--class", pupils, "--learner", "Z9", "--out", out},
      {"build", "--class", none},
      {"build", "--class", fault},
      {"build", lesson, "--only", kOdd},
      {"check", lesson, fault, pupils, sequence, text, record, bad_record},
      {"check", none},
      {"check", folder},
      {"check", "--fix", lesson, fault, text, record},
      {"check", lesson, "--layout", kOdd},
      {"preview", lesson, "--sheet", "sound-boxes", "--out", odd(".png")},
      {"preview", fault},
      {"preview", none},
      {"settle", lesson},
      {"settle", lesson},
      {"settle", fault},
      {"settle", none},
      {"draft", "sh"},
      {"draft", kOdd},
      {"draft", "sh", "--sequence", none},
      {"find", "sh", "--sequence", sequence},
      {"find", "sh", "--sequence", none},
      {"find", "sh", "--sentences", "--own", text},
      {"find", "sh", "--sentences", "--own", none},
      {"find", kOdd},
      {"keep", lesson},
      {"keep", fault},
      {"keep", none},
      {"block", kOdd},
      {"block", "fish"},
      {"word", kOdd},
      {"patterns", kOdd},
      {"pictures", kOdd},
      {"pictures", "--pdf", pdf},
      {"pictures", "--pdf", lesson},
      {"probe", sequence, "--out", out},
      {"probe", sequence, "--lessons", folder, "--out", out},
      {"probe", none},
      {"placement", sequence},
      {"placement", none},
      {"record", lesson, "--class", pupils, "--date", "2026-03-13"},
      {"record", lesson, "--class", pupils, "--date", "2026-03-13", "--records",
       out},
      {"record", none, "--class", pupils, "--date", "2026-03-13"},
      {"record", lesson, "--class", none, "--date", "2026-03-13"},
      {"record", lesson, "--class", pupils, "--group", kOdd, "--date",
       "2026-03-13"},
      {"mark", record, "--pdf", pdf},
      {"mark", record, "--csv"},
      {"mark", bad_record},
      {"mark", "records"},
      {"mark", none},
      {"mark", record, "--pdf", lesson},
      {"mark", "--pairs", odd("-pairs.txt")},
      {"mark", "--pairs", none},
      {"mark", record, "--learner", kOdd},
      {"writing", odd("-journal.txt"), "--taught", "sh"},
      {"writing", odd("-journal.txt"), "--sequence", sequence, "--step", kOdd},
      {"writing", none, "--taught", "sh"},
      {"progress", record, "--pdf", pdf},
      {"progress", none},
      {"progress", folder + "/records", "--for", "home", "--pdf", pdf},
      {"review", "--class", folder + "/class.yaml", "--records",
       folder + "/records", "--week", "2026-04-06"},
      {"review", "--class", pupils, "--records", none, "--week", "2026-04-06",
       "--out", out},
      {"review", "--class", pupils, "--records", "records", "--week", kOdd},
      {"week", folder},
      {"week", folder, "--pdf", pdf},
      {"week", folder, "--decide", kOdd},
      {"week", none},
      {"place", record},
      {"place", none},
      {"forget", "B7", "--records", folder + "/records", "--class", pupils,
       "--out", out},
      {"forget", "B7", "--records", folder + "/records", "--yes"},
      {"forget", "B7", "--records", none},
      {"forget", "B7", "--records", folder, "--class", none},
      {"forget", kOdd, "--records", "records"},
      {"sheets", kOdd},
      {"layouts"},
      {"layouts", kOdd},
      {"speech", kOdd},
      {"explain", kOdd},
      {"schema", kOdd},
      {"manual"},
      {"completions", "bash"},
      {"completions", "zsh"},
      {"completions", "fish"},
      {"completions", kOdd},
      {"dump", "lesson", lesson},
      {"dump", "words", lesson},
      {"dump", "words", fault},
      {"dump", "pages", lesson, "--only", "sound-boxes"},
      {"dump", "pages", none},
      {"dump", kOdd, lesson},
      {"watch", kOdd, kOdd},
      {"lsp", kOdd},
      {kOdd},
      {"--" + kOdd},
  };
}

TEST(ControlNames, AreObeyedByNoTerminal) {
  const FileSet files = odd_files();
  int done = 0, named = 0;
  // Which name it was can be told.
  const std::string told_name = printable(kOdd);
  for (const Call& call : calls()) {
    const MemoryOutcome outcome = run_in_memory(files, call);
    std::string told;
    for (const std::string& word : call) told += printable(word) + " ";
    EXPECT_EQ(obeyed(outcome.messages), "") << told;
    EXPECT_EQ(obeyed(outcome.results), "") << told;
    done += outcome.status == 0 ? 1 : 0;
    named += outcome.messages.find(told_name) != std::string::npos ||
                     outcome.results.find(told_name) != std::string::npos
                 ? 1
                 : 0;
    EXPECT_EQ(outcome.left_over, std::vector<std::string>());
    if (std::getenv("SHEAF_NAME_LOG") != nullptr) {
      std::printf("%d %s\n%s\n", outcome.status, told.c_str(),
                  printable(outcome.messages.substr(0, 200)).c_str());
    }
  }
  // Enough of them have something to say of files that they read.
  EXPECT_GE(done, 30);
  EXPECT_GE(named, 30);
}

}  // namespace
}  // namespace sheaf::test
