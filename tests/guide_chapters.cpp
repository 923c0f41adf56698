#include "guide_chapters.h"

#include <filesystem>
#include <fstream>
#include <sstream>

#include "support/run_program.h"

namespace sheaf::test {

namespace {

namespace fs = std::filesystem;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) {
    while (line.ends_with(' ')) line.pop_back();
    lines.push_back(line);
  }
  return lines;
}

using Lines = std::vector<std::string>;

bool lines_match(const Lines& shown, std::size_t s, const Lines& printed,
                 std::size_t p) {
  if (s == shown.size()) return p == printed.size();
  if (shown[s] == "…") {
    for (std::size_t next = p; next <= printed.size(); ++next) {
      if (lines_match(shown, s + 1, printed, next)) return true;
    }
    return false;
  }
  return p < printed.size() && shown[s] == printed[p] &&
         lines_match(shown, s + 1, printed, p + 1);
}

// One reader of a chapter, in a folder of their own.
class Reader {
 public:
  explicit Reader(const std::string& before) : before_(before) {
    fs::create_directory(start_);
  }

  void follow(const GuideBlock& block) {
    if (block.kind == "yaml") {
      if (!block.rest.empty()) save(block);
    } else if (block.kind == "sh") {
      run(block);
    } else if (block.kind == "text") {
      compare(block);
    } else {
      fault(block, "a block of the kind \"" + block.kind + "\" is not tried");
    }
  }

  std::vector<std::string> faults;

 private:
  void fault(const GuideBlock& block, const std::string& what) {
    faults.push_back("line " + std::to_string(block.line) + ": " + what);
  }

  // A file goes where the commands before have led.
  void save(const GuideBlock& block) {
    if (before_.find("`" + block.rest + "`") == std::string::npos) {
      fault(block, "the text does not say that this is " + block.rest);
    }
    const fs::path file = fs::path(here_) / block.rest;
    fs::create_directories(file.parent_path());
    std::ofstream(file) << block.text;
  }

  // All lines of a block in one shell, which stops at the first that fails.
  void run(const GuideBlock& block) {
    const std::string program = fs::path(SHEAF_PROGRAM).parent_path();
    const std::string place = folder_.path() + "/place";
    const Outcome outcome =
        run_program({"sh", "-c",
                     "PATH=\"$0:$PATH\"; cd \"$1\"; place=$2; set -e\n" +
                         block.text + "pwd >\"$place\"",
                     program, here_, place});
    printed_ = outcome.out;
    ran_ = true;
    const bool may_fail = block.rest == "fails";
    if (may_fail != (outcome.status != 0)) {
      fault(block, "ends with " + std::to_string(outcome.status) + ":\n" +
                       block.text + outcome.out);
    }
    const auto lines = lines_of(testing_support::file_bytes(place));
    if (outcome.status == 0 && !lines.empty()) here_ = lines[0];
  }

  void compare(const GuideBlock& block) {
    if (!ran_) return fault(block, "no command stands before what is shown");
    ran_ = false;
    if (!is_as_shown(block.text, printed_)) {
      fault(block, "shows\n" + block.text + "but this is printed\n" + printed_);
    }
  }

  std::string before_;  // the words of the chapter
  TemporaryFolder folder_;
  std::string start_ = folder_.path() + "/reader";
  std::string here_ = start_;
  std::string printed_;
  bool ran_ = false;
};

}  // namespace

bool is_as_shown(const std::string& shown, const std::string& printed) {
  return lines_match(lines_of(shown), 0, lines_of(printed), 0);
}

std::vector<GuideBlock> guide_blocks(const std::string& markdown) {
  std::vector<GuideBlock> blocks;
  std::istringstream stream(markdown);
  bool inside = false;
  int number = 0;
  for (std::string line; std::getline(stream, line);) {
    ++number;
    if (line.starts_with("```")) {
      inside = !inside;
      if (!inside) continue;
      const std::size_t space = line.find(' ');
      GuideBlock block;
      block.line = number;
      block.kind =
          line.substr(3, space == std::string::npos ? space : space - 3);
      if (space != std::string::npos) block.rest = line.substr(space + 1);
      blocks.push_back(block);
    } else if (inside) {
      blocks.back().text += line + "\n";
    }
  }
  return blocks;
}

std::vector<std::string> follow_chapter(const std::string& markdown) {
  Reader reader(markdown);
  for (const GuideBlock& block : guide_blocks(markdown)) reader.follow(block);
  return reader.faults;
}

}  // namespace sheaf::test
