// `sheaf keep`: a lesson's own sentences go into the teacher's list of
// sentences, to be found again for other lessons.

#include <fmt/format.h>

#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/requests.h"
#include "cli/verbs.h"
#include "driver/keep_sentences.h"
#include "files/disk_files.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace {

std::string kept_text(const KeptSentences& kept) {
  std::string text =
      printable(kept.target.string()) + ": " +
      (kept.added == 0 ? std::string("no sentence added")
                       : fmt::format("{} added", counted(kept.added, "sentence",
                                                         "sentences")));
  if (kept.there > 0) {
    text += fmt::format("; {} {} there already", kept.there,
                        kept.there == 1 ? "was" : "were");
  }
  if (kept.in_bank > 0) {
    text += fmt::format("; {} {} with Sheaf", kept.in_bank,
                        kept.in_bank == 1 ? "comes" : "come");
  }
  if (kept.added + kept.there + kept.in_bank == 0 && kept.unfit.empty()) {
    text += kept.lessons == 1 ? "; the lesson has none of its own"
                              : "; the lessons have none of their own";
  }
  return text;
}

}  // namespace

int run_keep(const CommandLine& line) {
  Workspace workspace(disk(), shipped_folder());
  const KeepResult result = keep_sentences(workspace, lesson_request(line),
                                           line.arguments, line.planning.file);
  for (const Diagnostics& faults : result.faults) print(faults);
  for (const auto& [path, kind] : result.others) {
    fmt::print(stderr, "sheaf: {} is {}; only lessons have sentences to keep\n",
               printable(path), kind);
  }
  for (const KeptSentences& kept : result.files) {
    for (const std::string& sentence : kept.unfit) {
      fmt::print(stderr,
                 "sheaf: the sentence {} is not added to {}, where a line has "
                 "up to 300 characters and ` #` begins a comment\n",
                 sheaf::quoted(sentence), printable(kept.target.string()));
    }
    if (kept.file_is_good) fmt::print("{}\n", kept_text(kept));
  }
  return result.faults.empty() ? kDone : kFaultsInFiles;
}

}  // namespace sheaf
