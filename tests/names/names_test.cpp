// No learner's name is shown: a name is put wherever one could stand in the
// files of a class, the file is broken in some way, and Sheaf reads it. What it
// says about the files must not show the name, nor may what a PDF file says of
// itself, nor a file besides those that were asked for.
//
// SHEAF_NAME_RUNS says how many runs (make name-test), SHEAF_NAME_FIRST with
// which number they begin, SHEAF_NAME_LOG where those are listed that show it.

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>

#include "base/private_text.h"
#include "json/json.h"
#include "names/marked_files.h"
#include "names/run_in_memory.h"

namespace sheaf::test {
namespace {

/// Where a run shows the name; empty where it does not.
std::string shown_in(const MarkedRun& run, const MemoryOutcome& outcome) {
  if (shows_name(outcome.messages)) return "messages";
  const bool json =
      std::ranges::find(run.arguments, "--json") != run.arguments.end();
  if (json && run.arguments.front() == "check") {
    for (std::size_t at = 0; at < outcome.results.size();) {
      const std::size_t end =
          std::min(outcome.results.find('\n', at), outcome.results.size());
      const Json line =
          Json::parse(outcome.results.substr(at, end - at), nullptr, false);
      if (line.is_object() && shows_name(line["messages"].dump())) {
        return "messages as JSON";
      }
      at = end + 1;
    }
  } else if (run.arguments.front() == "check" && shows_name(outcome.results)) {
    return "what check says";
  }
  for (const auto& [path, bytes] : outcome.written) {
    if (path.ends_with(".pdf")) {
      if (shows_name(bytes)) return "what a PDF says of itself";
    } else if (!path.ends_with(".yaml") && !path.ends_with(".txt") &&
               shows_name(bytes)) {
      return "a file besides";
    }
  }
  return outcome.left_over.empty() ? "" : "a file on the disk";
}

std::string told(std::uint64_t number, const MarkedRun& run,
                 const MemoryOutcome& outcome, const std::string& where) {
  std::string text = "run " + std::to_string(number) + ", " + where + ": sheaf";
  for (const std::string& argument : run.arguments) text += " " + argument;
  text += "\n---- " + run.marked + "\n" + run.files.at(run.marked) +
          "\n---- messages\n" + outcome.messages;
  if (where.find("check") != std::string::npos ||
      where.find("JSON") != std::string::npos) {
    text += "---- results\n" + outcome.results;
  }
  return text + "\n";
}

TEST(Names, AreLookedForInWhatSheafReads) {
  const FileSet whole = whole_files();
  int good = 0, all = 0;
  for (const auto& [name, text] : whole) {
    if (name.ends_with("lesson.yaml") || name.ends_with("sequence.yaml") ||
        name.ends_with("check.yaml")) {
      continue;
    }
    for (const auto& command : commands_for(name)) {
      const MemoryOutcome outcome = run_in_memory(whole, command);
      ++all;
      good += outcome.status == 0 ? 1 : 0;
      EXPECT_NE(outcome.status, 3) << name << ": " << command.front() << "\n"
                                   << outcome.messages;
      if (outcome.status != 0 && std::getenv("SHEAF_NAME_LOG") != nullptr) {
        std::string line;
        for (const std::string& word : command) line += word + " ";
        std::printf("%s\n%s\n", line.c_str(), outcome.messages.c_str());
      }
    }
  }
  EXPECT_GE(good, all * 2 / 3) << all;
}

// A class file names layouts: those are shown, or nobody could mend them.
TEST(Names, AreNotThoseOfLayouts) {
  const MemoryOutcome outcome = run_in_memory({}, {"layouts"});
  std::istringstream lines(outcome.results);
  int layouts = 0;
  for (std::string line; std::getline(lines, line); ++layouts) {
    const std::string name = line.substr(0, line.find(' '));
    EXPECT_FALSE(may_be_name(name)) << name;
  }
  EXPECT_GT(layouts, 5);
}

TEST(Names, AreKnownAgain) {
  EXPECT_TRUE(shows_name("error: `Wyzhkemb` is no code"));
  EXPECT_TRUE(shows_name("yzhk"));
  EXPECT_TRUE(shows_name(std::string("\0X\0o\0l\0v\0j\0i\0n\0t", 16)));
  EXPECT_TRUE(
      shows_name("<77797A68"
                 "6B656D62>"));
  EXPECT_FALSE(shows_name("the learner in line 3 has no short code"));
}

TEST(Names, AreNotShown) {
  const char* wanted = std::getenv("SHEAF_NAME_RUNS");
  const std::uint64_t runs =
      wanted != nullptr ? std::strtoull(wanted, nullptr, 10) : 1000;
  const char* begin = std::getenv("SHEAF_NAME_FIRST");
  const std::uint64_t from =
      begin != nullptr ? std::strtoull(begin, nullptr, 10) : 1;
  const char* log_name = std::getenv("SHEAF_NAME_LOG");
  std::ofstream log;
  if (log_name != nullptr) log.open(log_name);
  std::map<std::string, int> shown;
  std::string first;
  int count = 0;
  for (std::uint64_t number = from; number < from + runs; ++number) {
    const MarkedRun run = marked_run(number);
    const MemoryOutcome outcome = run_in_memory(run.files, run.arguments);
    const std::string where = shown_in(run, outcome);
    if (where.empty()) continue;
    ++count;
    ++shown[where + ", " + run.arguments.front() + ", " + run.marked];
    const std::string text = told(number, run, outcome, where);
    if (first.empty()) first = text;
    if (log.is_open()) log << text;
  }
  for (const auto& [where, times] : shown) {
    std::printf("%5d %s\n", times, where.c_str());
  }
  EXPECT_EQ(count, 0) << "of " << runs << " runs show the name; the first:\n"
                      << first;
}

}  // namespace
}  // namespace sheaf::test
