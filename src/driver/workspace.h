#pragma once

#include <deque>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>

#include "analysis/analyzed_lesson.h"
#include "analysis/own_texts.h"
#include "base/diagnostics.h"
#include "driver/requests.h"
#include "files/files.h"
#include "files/files_read.h"
#include "files/path.h"
#include "input/layout_file.h"
#include "input/sequence.h"
#include "layout/style.h"
#include "packet/layout_plan.h"
#include "packet/packet.h"
#include "planning/fill_lesson.h"
#include "planning/own_sentences.h"

namespace sheaf {

/// What a sequence is called that counts for the lessons beside it.
inline constexpr std::string_view kSequenceFile = "sequence.yaml";

/// What all lessons of one run share: the word list, typefaces, shaped words,
/// and the text of every file read (messages point into it).
class Workspace {
 public:
  /// `files` must outlive it; `shipped` is the folder of what comes with Sheaf.
  Workspace(Files& files, FilePath shipped);
  /// One with texts of its own, which reads every file again, and with the word
  /// list, typefaces, pictures and shaped words of another: what is costly to
  /// read and does not change. They live as long as the last who has them.
  explicit Workspace(const Workspace& other);
  Workspace& operator=(const Workspace&) = delete;
  ~Workspace();

  const Phonics& phonics();
  /// The word list with patterns of a lesson's own; nothing where it has none,
  /// or where one is wrong, which is reported.
  std::unique_ptr<Phonics> phonics_with_own(const Lesson& lesson,
                                            Diagnostics& diagnostics);
  FontLibrary& fonts();
  PictureBook& pictures();
  Shaper& shaper();
  const FilePath& shipped() const { return shipped_; }
  Files& files() const { return files_; }

  /// Looks for a file that another file names (see `find_named_file`), and
  /// keeps in mind where there was none.
  std::optional<FilePath> find_file(
      std::string_view name, const FilePath& folder,
      const std::vector<std::string>& allowed_folders);
  /// Whether there is a file that counts wherever it lies, such as a sequence
  /// beside a lesson; keeps in mind where there was none.
  bool has_file(const FilePath& path);
  /// Reads a file of at most `limit` bytes. Throws MachineError.
  std::string read(const FilePath& path, std::size_t limit);
  /// Reads a teacher's file and keeps it. Throws MachineError.
  const SourceFile& open(const FilePath& path);
  /// The sequence in a file; null where it has errors, which are reported.
  const SequenceFile* sequence(const FilePath& path, Diagnostics& diagnostics);
  /// The layout in a file; null where its form has errors, which are reported.
  const LayoutFile* layout(const FilePath& path, Diagnostics& diagnostics);
  /// A teacher's own sentences; null where the file has errors, which are
  /// reported. What is put right in them is not told.
  const OwnSentences* sentences(const FilePath& path, Diagnostics& diagnostics);
  /// Files read and looked for, besides what every run has.
  FilesRead& files_read() { return files_read_; }
  /// Those of every run: typefaces and the word list.
  std::vector<std::string> shared_files();

 private:
  struct Shelf;
  std::string word_list() const { return (shipped_ / "phonics.bin").string(); }

  Files& files_;
  FilePath shipped_;
  std::shared_ptr<Shelf> shelf_;
  std::deque<SourceFile> sources_;
  /// Those without errors, read once for all lessons.
  std::map<FilePath, std::unique_ptr<SequenceFile>> sequences_;
  std::map<FilePath, std::unique_ptr<LayoutFile>> layouts_;
  std::map<FilePath, std::unique_ptr<OwnSentences>> sentences_;
  FilesRead files_read_;
};

/// A lesson with the layout that it is printed in, ready to be composed.
struct PreparedLesson {
  /// The word list with the lesson's own patterns, if it has any.
  std::unique_ptr<Phonics> phonics;
  Lesson lesson;
  /// What the lesson left to Sheaf to choose.
  std::vector<FilledKey> filled;
  AnalyzedLesson analyzed;
  /// Where its layout and its sequence stand: the lesson's own file where they
  /// stand in it; null where there is none.
  const SourceFile* layout_file = nullptr;
  const SourceFile* sequence_file = nullptr;
  LayoutPlan layout;
  Style style;
  std::unique_ptr<LessonPictures> pictures;
};

/// Where a learner of a class is, in place of what the lesson says of itself:
/// what was taught to the learner follows from it. Empty parts leave the
/// lesson's own.
struct LearnerPlace {
  FilePath sequence;  ///< a file
  PlacedWord step;    ///< number or name
};

/// A lesson with its words chosen and seen through phonics.
struct LessonPlan {
  std::vector<FilledKey> filled;
  AnalyzedLesson analyzed;
  const SourceFile* sequence_file = nullptr;
};

/// Which texts the teacher wrote, by what was left to Sheaf.
OwnTexts own_texts(const std::vector<FilledKey>& filled);

/// What was taught before a lesson (by the sequence that it names or that lies
/// in `folder`), the words that it leaves to Sheaf, put into it, then the
/// lesson seen through all of it. To be used only if no error stands.
LessonPlan plan_lesson(Workspace& workspace, const LessonRequest& request,
                       const FilePath& folder, Lesson& lesson,
                       const Phonics& phonics, const PictureTest& pictures,
                       Diagnostics& diagnostics,
                       const LearnerPlace& place = {});

/// Takes a lesson file through all stages up to composing. Nothing comes back
/// if an error was found; the messages are in `diagnostics` then.
std::unique_ptr<PreparedLesson> prepare(Workspace& workspace,
                                        const LessonRequest& request,
                                        const std::string& path,
                                        Diagnostics& diagnostics,
                                        const LearnerPlace& place = {});

/// The same of a lesson that was read or made already; `file` must outlive the
/// workspace's use of it, and `folder` is where the files that it names lie.
std::unique_ptr<PreparedLesson> prepare_text(Workspace& workspace,
                                             const LessonRequest& request,
                                             const SourceFile& file,
                                             const FilePath& folder,
                                             Diagnostics& diagnostics,
                                             const LearnerPlace& place = {});

}  // namespace sheaf
