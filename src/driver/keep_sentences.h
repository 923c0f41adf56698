#pragma once

#include <deque>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "driver/workspace.h"

namespace sheaf {

/// What became of the sentences of lessons that go into one file.
struct KeptSentences {
  FilePath target;
  int lessons = 0;  ///< that were read without an error
  int added = 0;
  int there = 0;    ///< in the file already, or twice in the lessons
  int in_bank = 0;  ///< they come with Sheaf
  /// As the lessons have them: too long for the file, or with a sign that would
  /// mean something else there.
  std::vector<std::string> unfit;
  bool file_is_good = true;  ///< false: nothing is added to a file with errors
};

struct KeepResult {
  /// By file, in the order of the lessons.
  std::vector<KeptSentences> files;
  /// Files among those named that are no lessons, with what they are.
  std::vector<std::pair<std::string, std::string_view>> others;
  /// What is wrong with lessons and with files of sentences, each by itself.
  std::deque<Diagnostics> faults;
  /// What the messages point into, besides what the workspace keeps.
  std::deque<SourceFile> texts;
};

/// Adds the sentences of lessons (`sentences:` and `dictate-sentences:` as the
/// teacher wrote them, not what Sheaf chose) to the sentences.txt beside each,
/// or to the file `to`, if it is not empty: those that neither the file nor
/// Sheaf's bank has. What is in the file stays as it is. A lesson with errors
/// adds nothing, and nothing is added to a file with errors. Throws
/// MachineError where a file cannot be read or written, or would grow too
/// large.
KeepResult keep_sentences(Workspace& workspace, const LessonRequest& request,
                          const std::vector<std::string>& lessons,
                          const FilePath& to);

}  // namespace sheaf
