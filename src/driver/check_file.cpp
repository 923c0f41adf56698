#include "driver/check_file.h"

#include "analysis/lesson_conventions.h"
#include "driver/speech_of_class.h"

namespace sheaf {

namespace {

void check_sequence(CheckedFile& checked, Workspace& workspace,
                    const std::string& path) {
  Diagnostics& diagnostics = checked.diagnostics;
  const SequenceFile* sequence = workspace.sequence(path, diagnostics);
  if (sequence == nullptr) return;
  Taught taught =
      taught_at(*sequence, static_cast<int>(sequence->steps.size()) - 1,
                workspace.phonics(), diagnostics);
  // As a lesson would find them.
  Lesson lesson;
  inherit_conventions(*sequence, lesson);
  lesson_conventions(lesson, diagnostics);
  if (!diagnostics.has_errors()) checked.taught = std::move(taught);
}

void check_class(CheckedFile& checked, Workspace& workspace,
                 const LessonRequest& request, const std::string& path) {
  checked.job =
      prepare_class(workspace, {.lesson = request}, path, checked.diagnostics);
  if (checked.job == nullptr) return;
  speech_of_class(checked.job->class_file, {}, checked.diagnostics);
  PagesOfRun all;
  for (const LearnerJob& learner : checked.job->learners) {
    checked.pages.push_back(compose_learner(workspace.shaper(), learner,
                                            request.only, checked.diagnostics)
                                .pages.size());
    if (!all.add(learner, checked.pages.back(), checked.diagnostics)) return;
  }
}

void check_lesson(CheckedFile& checked, Workspace& workspace,
                  const LessonRequest& request, const std::string& path) {
  checked.lesson = prepare(workspace, request, path, checked.diagnostics);
  if (checked.lesson == nullptr) return;
  const PreparedLesson& lesson = *checked.lesson;
  // Composing says which sheets the lesson has nothing for.
  make_packet(lesson.analyzed, lesson.layout, *lesson.pictures, lesson.style,
              workspace.shaper(), request.only, checked.diagnostics);
}

}  // namespace

CheckedFile check_file(Workspace& workspace, const LessonRequest& request,
                       const std::string& path) {
  CheckedFile checked;
  const SourceFile& file = workspace.open(path);
  checked.kind = likely_kind(file);
  switch (checked.kind) {
    case FileKind::learners:
      check_class(checked, workspace, request, path);
      break;
    case FileKind::sequence:
      check_sequence(checked, workspace, path);
      break;
    case FileKind::sentences: {
      SentenceReport report =
          check_sentences(workspace, path, file, checked.diagnostics);
      if (checked.good()) checked.sentences = std::move(report);
      break;
    }
    case FileKind::record:
      checked.records =
          check_records(workspace, request, path, checked.diagnostics);
      break;
    default:
      check_lesson(checked, workspace, request, path);
  }
  return checked;
}

}  // namespace sheaf
