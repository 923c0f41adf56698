// `sheaf block`: words that are not to be suggested. They are kept as numbers,
// so that the list can lie about without being read.

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>

#include "base/error.h"
#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/planning_arguments.h"
#include "cli/verbs.h"
#include "driver/own_files.h"
#include "driver/planning_ground.h"
#include "driver/workspace.h"
#include "files/disk_files.h"
#include "files/output_files.h"

namespace sheaf {

namespace {

constexpr std::size_t kPartsInLine = 6;
constexpr int kMostTries = 100;

// The list as it is; nothing where there is none yet.
std::optional<std::string> read_list(const Files& files, const FilePath& path) {
  if (files.own_status(path).kind == Standing::none) return std::nullopt;
  std::string text = files.read(path, kLargestBlockedList);
  if (text.size() > kLargestBlockedList) {
    throw MachineError(
        fmt::format("{} is longer than {} kB, so nothing is added to it; name "
                    "another file after `--file`",
                    path.string(), kLargestBlockedList >> 10U));
  }
  if (is_own_text(OwnKind::blocked_words, text)) return text;
  throw MachineError(
      fmt::format("{} is {}, so it is left alone; name another file after "
                  "`--file`",
                  path.string(), own_form(OwnKind::blocked_words).why_not));
}

// The parts that the list does not have yet, in lines. They say nothing of the
// order in which the words were given.
std::string new_lines(const std::set<std::string>& parts,
                      std::string_view list) {
  std::set<std::string_view> known;
  while (!list.empty()) {
    const std::size_t end = std::min(list.find('\n'), list.size());
    for (const std::string_view part : BlockList::parts(list.substr(0, end))) {
      known.insert(part);
    }
    list.remove_prefix(std::min(end + 1, list.size()));
  }
  std::string text;
  std::size_t count = 0;
  for (const std::string& part : parts) {
    if (known.contains(part)) continue;
    if (count > 0) text += count % kPartsInLine == 0 ? '\n' : ' ';
    text += part;
    ++count;
  }
  if (count > 0) text += '\n';
  return text;
}

// What is there stays as it is, remarks and order too; false where the words
// are in the list already.
bool add_parts(Files& files, const FilePath& path,
               const std::set<std::string>& parts) {
  const auto before = read_list(files, path);
  std::string text = before ? *before : std::string(kBlockedHead);
  const std::string more = new_lines(parts, text);
  if (more.empty()) return false;
  if (!text.empty() && text.back() != '\n') text += '\n';
  text += more;
  if (text.size() > kLargestBlockedList) {
    throw MachineError(
        fmt::format("with these words {} would be longer than {} kB; name "
                    "another file after `--file`",
                    path.string(), kLargestBlockedList >> 10U));
  }
  const auto output = files.write();
  if (before) {
    output->rewrite(path, text, *before);
  } else {
    output->add_new(path, text);
  }
  output->finish();
  return true;
}

// Where two runs add words at once, the later one adds its own to what the
// other has written.
bool add_parts_in_turn(Files& files, const FilePath& path,
                       const std::set<std::string>& parts) {
  for (int tries = 1;; ++tries) {
    try {
      return add_parts(files, path, parts);
    } catch (const FileChanged&) {
      if (tries == kMostTries) throw;
    }
  }
}

}  // namespace

int run_block(const CommandLine& line) {
  Workspace workspace(disk(), shipped_folder());
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
  const FilePath path = name.empty() ? FilePath(kBlockedFile) : FilePath(name);
  if (add_parts_in_turn(
          disk(), path,
          blocked_parts(words, workspace.phonics(), line.planning.rude))) {
    fmt::print("{}: {} more {} will not be suggested\n",
               printable(path.string()), words.size(),
               words.size() == 1 ? "word" : "words");
  } else {
    fmt::print("{}: {} in the list already\n", printable(path.string()),
               words.size() == 1 ? "the word is" : "the words are");
  }
  return kDone;
}

}  // namespace sheaf
