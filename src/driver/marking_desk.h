#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "analysis/analyzed_lesson.h"
#include "driver/workspace.h"
#include "files/path.h"
#include "input/class_file.h"
#include "input/record_file.h"
#include "marking/progress.h"
#include "marking/session.h"
#include "marking/sessions.h"
#include "marking/target_choice.h"
#include "phonics/lexicon.h"

namespace sheaf {

/// A lesson as far as marking needs it: no layout, no pictures, and of its
/// sentences nothing but what is dictated.
struct TaughtFile {
  std::string path;
  std::string name;  ///< the file's name without its ending
  /// The same with as many folders before it as it takes to tell it from other
  /// lessons of the records: "red/week-1". Which lesson a record is of.
  std::string label;
  Lesson lesson;
  AnalyzedLesson analyzed;
  /// What is dictated: words and sentences for that, else the list.
  std::vector<DictatedItem> items;
  /// What marking one learner who wrote all of it takes, counted in words.
  std::size_t work = 0;

  std::vector<PatternId> patterns() const;
};

/// Chooses what a lesson leaves to Sheaf and sees it through phonics as it was
/// printed: with a picture for the words that have one in the table or in the
/// lesson. To be used only if no error stands.
LessonPlan plan_as_printed(Workspace& workspace, const LessonRequest& request,
                           const FilePath& path, Lesson& lesson,
                           Diagnostics& diagnostics);

/// One record, marked.
struct MarkedRecord {
  std::string path;
  const Record* record = nullptr;
  /// The same with a word for each attempt that the record lists alone.
  RecordTargets targets = {};
  const TaughtFile* lesson = nullptr;  ///< none for a tally of writing
  const ClassFile* pupils = nullptr;   ///< of the class that it names, if any
  SessionResult session;
  /// Those that the record is about: the lesson's, or those of its tallies;
  /// none of a probe.
  std::vector<PatternId> patterns;
  /// Of a placement check: errors in words that were not asked of the learner,
  /// with the step of each (see driver/placement_marks.h).
  std::vector<std::pair<PlacedText, int>> not_asked = {};
};

/// Reads records with the lessons and classes that they name, and marks them.
/// What is read is kept as long as the desk is.
class MarkingDesk {
 public:
  /// Throws MachineError where the word list is not there. What is wrong with
  /// the request's accent and confusions is added to `faults`; the desk is not
  /// to be used then.
  MarkingDesk(Workspace& workspace, MarkingRequest request,
              std::vector<std::string>& faults);

  const Phonics& phonics() { return workspace_.phonics(); }
  const SoundSpellings& spellings() const { return spellings_; }
  const MarkingOptions& options() const { return options_; }
  const Lexicon& lexicon() const { return workspace_.phonics().lexicon(); }

  /// The records of these files, and of the files in these folders, by date.
  /// A record names files that are beside it, in the folder above, or in
  /// `lessons` there. More than can be marked in a bearable time is refused.
  std::vector<MarkedRecord> mark(const std::vector<std::string>& paths,
                                 Diagnostics& diagnostics);
  /// A lesson or class, read once. Null where it has errors.
  const TaughtFile* lesson(const std::string& path, Diagnostics& diagnostics);
  /// Whether `lesson` was asked for it; gives up what was read of it. For
  /// looking through many lessons.
  bool has_lesson(const std::string& path) const {
    return lessons_.contains(path);
  }
  void give_up_lesson(const std::string& path) { lessons_.erase(path); }
  const ClassFile* class_file(const std::string& path,
                              Diagnostics& diagnostics);
  std::vector<TaughtLesson> taught_lessons(
      const std::vector<MarkedRecord>& records) const;
  /// What holds for all learners, and how those of a class speak; no class is
  /// null.
  MarkingOptions options_of(const ClassFile* pupils) const;

 private:
  /// A record with what it names, before it is marked.
  struct Taken {
    MarkedRecord marked;
    std::string class_path;
  };
  void take_file(const std::string& path, std::vector<Taken>& all_taken,
                 Diagnostics& diagnostics);
  void label_lessons(const std::vector<Taken>& all_taken);
  void mark_one(Taken& taken) const;  // on any thread
  bool is_record(const FilePath& path);
  std::string find(const PlacedWord& name, const std::string& record,
                   Diagnostics& diagnostics);
  void report(const MarkedRecord& marked, Diagnostics& diagnostics) const;
  void report_learners(const Taken& taken, Diagnostics& diagnostics) const;

  Workspace& workspace_;
  LessonRequest request_;
  int workers_ = 1;
  SoundSpellings spellings_;
  MarkingOptions options_;
  std::map<std::string, std::unique_ptr<TaughtFile>> lessons_;
  std::map<std::string, std::unique_ptr<ClassFile>> classes_;
  std::vector<std::unique_ptr<RecordFile>> records_;
  std::map<std::string, bool> are_records_;
  std::size_t work_ = 0;
};

/// The record files that paths and folders stand for, by name. Throws
/// MachineError where there is no such thing.
std::vector<std::string> record_paths(const Files& files,
                                      const std::vector<std::string>& paths);

/// Takes out all learners but these; none are named for all.
void keep_learners(std::vector<MarkedRecord>& records,
                   const std::vector<LearnerCode>& learners);

/// Takes out records in which nobody is left; false where none remain.
bool keep_marked(std::vector<MarkedRecord>& records);

/// The sessions alone, for scores over the weeks. They stay the records'.
Sessions sessions_of(const std::vector<MarkedRecord>& records);

/// The codes of a class, in its order.
std::vector<LearnerCode> codes_of(const ClassFile& class_file);

/// Reads rules such as "secure-days=4". What is wrong with one comes back, or
/// nothing.
std::string read_rules(const std::vector<std::string>& texts,
                       ProgressRules& rules);

}  // namespace sheaf
