// `sheaf draft`: a lesson file to start from.

#include <fmt/format.h>

#include "base/utf8.h"
#include "cli/draft_text.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/new_file.h"
#include "cli/planning_arguments.h"
#include "cli/verbs.h"
#include "driver/planning_ground.h"
#include "driver/workspace.h"
#include "files/disk_files.h"

namespace sheaf {

namespace {

// The patterns named, else those of the step.
std::optional<std::vector<PatternId>> patterns_wanted(const CommandLine& line,
                                                      const Taught& taught,
                                                      const Phonics& phonics) {
  std::vector<PatternId> patterns;
  for (const std::string& name : line.arguments) {
    const auto named = pattern_arguments(name, phonics);
    if (!named) return std::nullopt;
    patterns.insert(patterns.end(), named->begin(), named->end());
  }
  if (patterns.size() > kMostLessonPatterns) {
    fmt::print(
        stderr,
        "sheaf draft: a lesson takes up to {} patterns, and you gave {}\n",
        kMostLessonPatterns, patterns.size());
    return std::nullopt;
  }
  if (!patterns.empty()) return patterns;
  if (taught.step() >= 0) {
    const auto step = static_cast<std::size_t>(taught.step());
    patterns = taught.steps()[step].patterns;
    if (!patterns.empty()) return patterns;
    fmt::print(stderr,
               "sheaf: {} teaches no pattern; name one to practise, as in "
               "`sheaf draft sh --step {}`\n",
               step_name(taught.steps()[step]), taught.steps()[step].number);
    return std::nullopt;
  }
  fmt::print(stderr, "sheaf draft: this needs PATTERN, or --step\n");
  return std::nullopt;
}

// How the lesson names the sequence: as seen from its own folder, which is
// this one where no file is asked for.
std::string sequence_name(const CommandLine::Planning& planning) {
  if (planning.sequence.empty() && planning.step.empty()) return "";
  const FilePath sequence = planning.sequence.empty()
                                ? FilePath("sequence.yaml")
                                : FilePath(planning.sequence);
  const FilePath lesson(planning.file.empty() ? "lesson.yaml" : planning.file);
  const auto whole = [](const FilePath& path) {
    return disk().absolute(path).lexically_normal();
  };
  return whole(sequence)
      .lexically_relative(whole(lesson).parent_path())
      .generic_string();
}

}  // namespace

int run_draft(const CommandLine& line) {
  Workspace workspace(disk(), shipped_folder());
  const CommandLine::Planning& planning = line.planning;
  const Phonics& phonics = workspace.phonics();
  const auto taught = taught_argument(workspace, planning);
  if (!taught) return kFaultsInFiles;
  const auto patterns = patterns_wanted(line, *taught, phonics);
  if (!patterns) return kWrongCommandLine;

  const Conventions conventions;
  const BlockList own = own_block_list(workspace, "", "");
  Diagnostics diagnostics;
  const SearchGround source{
      phonics,           conventions,
      *taught,           &own,
      has_clear_picture, own_sentences(workspace, "", "", diagnostics)};
  const Draft draft = draft_lesson(source, *patterns, sequence_name(planning));
  print(diagnostics);
  if (diagnostics.has_errors()) return kFaultsInFiles;
  const FilePath path = planning.file.empty() ? FilePath(draft.name + ".yaml")
                                              : FilePath(planning.file);
  if (!write_new_file(workspace.files(), path,
                      with_modeline(draft.text, "lesson", path))) {
    fmt::print(stderr,
               "sheaf: {} is there already and stays as it is; `--file` names "
               "another file for the draft\n",
               printable(path.string()));
    return kMachineFault;
  }
  fmt::print(
      "{}: a lesson with {} words and {} sentences; {}, then `sheaf check "
      "{}`\n",
      printable(path.string()), draft.words, draft.sentences,
      draft.sentences == 0 ? "add some" : "read it through",
      printable(path.string()));
  return kDone;
}

}  // namespace sheaf
