#include "driver/make_placement.h"

#include "analysis/lesson_conventions.h"
#include "base/utf8.h"
#include "driver/marking_desk.h"
#include "driver/planning_ground.h"
#include "files/files.h"
#include "input/file_kind.h"

namespace sheaf {

namespace {

using UsedWords = std::set<std::string, std::less<>>;

void use_sentences(const std::vector<AnalyzedSentence>& sentences,
                   UsedWords& used) {
  for (const AnalyzedSentence& sentence : sentences) {
    for (const AnalyzedSentence::Part& part : sentence.words) {
      used.insert(lower_case(part.word.reading.word));
    }
  }
}

// All that learners see or write of a lesson, sentences and passage included.
void use_lesson(const AnalyzedLesson& lesson, UsedWords& used) {
  for (const auto* words :
       {&lesson.words, &lesson.dictate_words, &lesson.sort_words}) {
    for (const AnalyzedWord& word : *words) {
      used.insert(lower_case(word.reading.word));
    }
  }
  use_sentences(lesson.sentences, used);
  use_sentences(lesson.dictate_sentences, used);
  use_sentences(lesson.passage.paragraphs, used);
  use_sentences(lesson.passage.questions, used);
}

}  // namespace

MadePlacement make_placement(Workspace& workspace, const FilePath& sequence,
                             const std::string& name,
                             Diagnostics& diagnostics) {
  MadePlacement made;
  const SequenceFile* steps = workspace.sequence(sequence, diagnostics);
  if (steps == nullptr) return made;
  UsedWords used;
  const FilePath parent = sequence.parent_path();
  const FilePath folder = parent.empty() ? FilePath(".") : parent;
  for (const FilePath& path : yaml_files(workspace.files(), folder)) {
    const SourceFile& file = workspace.open(path);
    if (kind_of(file) != FileKind::lesson) continue;
    Diagnostics unheard;  // `check` tells of them
    Lesson lesson = read_lesson(file, unheard);
    LessonPlan plan;
    if (!unheard.has_errors()) {
      plan = plan_as_printed(workspace, {}, path, lesson, unheard);
    }
    if (unheard.has_errors()) {
      made.unread.push_back(path.string());
    } else if (!lesson.placement.given()) {
      use_lesson(plan.analyzed, used);
      ++made.lessons;
    }
  }
  Lesson empty;
  inherit_conventions(*steps, empty);
  const Conventions conventions = lesson_conventions(empty, diagnostics);
  const BlockList blocked = own_block_list(workspace, "", folder);
  if (diagnostics.has_errors()) return made;
  made.words = placement_words(
      *steps, {workspace.phonics(), conventions, &blocked, std::move(used)},
      diagnostics);
  made.text = placement_text(made.words, name);
  return made;
}

}  // namespace sheaf
