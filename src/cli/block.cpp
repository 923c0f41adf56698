// `sheaf block`: words that are not to be suggested. They are kept as numbers,
// so that the list can lie about without being read.

#include <fmt/format.h>

#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/files.h"
#include "cli/output_files.h"
#include "cli/planning_arguments.h"
#include "cli/verbs.h"
#include "cli/workspace.h"

namespace sheaf {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t kLargestList = std::size_t{1} << 20U;
constexpr std::size_t kPartsInLine = 6;

// What a line of numbers begins with.
constexpr std::string_view kMarks = "=~!?";

constexpr std::string_view kHead =
    "# Words that Sheaf does not suggest, as numbers made from them. Add some\n"
    "# with `sheaf block WORD`, or write a word here as it is.\n";

// The parts of a list that are there already, and the lines of remarks and
// plain words, which stay as they are.
struct OwnList {
  std::string kept;
  std::set<std::string> parts;
};

OwnList read_list(const fs::path& path) {
  OwnList list;
  std::error_code fault;
  if (!fs::exists(path, fault)) {
    list.kept = kHead;
    return list;
  }
  std::string line;
  for (const char c : read_file(path, kLargestList) + "\n") {
    if (c != '\n') {
      line += c;
      continue;
    }
    if (!line.empty() && kMarks.find(line.front()) != std::string_view::npos) {
      std::string part;
      for (const char p : line + " ") {
        if (p != ' ' && p != '\r') {
          part += p;
        } else if (!part.empty()) {
          list.parts.insert(std::move(part));
          part.clear();
        }
      }
    } else if (!line.empty()) {
      list.kept += line + "\n";
    }
    line.clear();
  }
  return list;
}

std::string as_lines(const std::set<std::string>& parts) {
  std::string text;
  std::size_t count = 0;
  for (const std::string& part : parts) {
    text += part;
    text += ++count % kPartsInLine == 0 || count == parts.size() ? '\n' : ' ';
  }
  return text;
}

}  // namespace

int run_block(const CommandLine& line) {
  Workspace workspace(shipped_folder());
  std::vector<std::string> words;
  for (const std::string& given : line.arguments) {
    const std::string word = normalized(given);
    if (!is_word(word)) {
      fmt::print(stderr, "sheaf: `{}` is not a word\n",
                 printable(given.substr(0, 80)));
      return kWrongCommandLine;
    }
    words.push_back(word);
  }
  const std::string& name = line.planning.file;
  const fs::path path = name.empty() ? fs::path(kBlockedFile) : fs::path(name);
  OwnList list = read_list(path);
  list.parts.merge(
      blocked_parts(words, workspace.phonics(), line.planning.rude));
  OutputFiles files;
  files.add(path, list.kept + as_lines(list.parts));
  files.finish();
  fmt::print("{}: {} more {} will not be suggested\n", path.string(),
             words.size(), words.size() == 1 ? "word" : "words");
  return kDone;
}

}  // namespace sheaf
