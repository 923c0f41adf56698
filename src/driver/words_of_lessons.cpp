#include "driver/words_of_lessons.h"

#include "base/utf8.h"
#include "driver/planning_ground.h"
#include "input/file_kind.h"
#include "phonics/words_in.h"

namespace sheaf {

namespace {

void add_all(const std::vector<AnalyzedWord>& from, WordSet& words) {
  for (const AnalyzedWord& word : from) {
    words.insert(lower_case(word.reading.word));
  }
}

void add_all(const std::vector<AnalyzedSentence>& from, WordSet& words) {
  for (const AnalyzedSentence& sentence : from) {
    for (const AnalyzedSentence::Part& part : sentence.words) {
      words.insert(lower_case(part.word.reading.word));
    }
  }
}

void add_words_in(const std::string& text, WordSet& words) {
  for (const WordPlace& place : words_in(text)) {
    words.insert(lower_case(text.substr(place.begin, place.end - place.begin)));
  }
}

// Errors alone: `check` tells the rest of a lesson to whoever wrote it.
void pass_on_errors(const Diagnostics& found, Diagnostics& diagnostics) {
  for (const Diagnostic* d : found.sorted()) {
    if (d->severity != Severity::error) continue;
    diagnostics.error(*d->name, d->span, d->text, d->help).remarks = d->remarks;
  }
}

void add_words_of(Workspace& workspace, const LessonRequest& request,
                  const FilePath& path, WordSet& words,
                  Diagnostics& diagnostics) {
  const SourceFile& file = workspace.open(path);
  const auto kind = kind_of(file);
  if (kind && kind != FileKind::lesson) return;
  Diagnostics found;
  Lesson lesson = read_lesson(file, found);
  std::unique_ptr<Phonics> own;
  if (!found.has_errors()) own = workspace.phonics_with_own(lesson, found);
  AnalyzedLesson analyzed;
  if (!found.has_errors()) {
    analyzed =
        plan_lesson(workspace, request, path.parent_path(), lesson,
                    own ? *own : workspace.phonics(), has_clear_picture, found)
            .analyzed;
  }
  pass_on_errors(found, diagnostics);
  if (found.has_errors()) return;
  add_all(analyzed.words, words);
  add_all(analyzed.sort_words, words);
  add_all(analyzed.dictate_words, words);
  add_all(analyzed.sentences, words);
  add_all(analyzed.dictate_sentences, words);
  add_words_in(analyzed.passage.title.text(), words);
  for (const LessonLine& line : lesson.rhyme) add_words_in(line.text(), words);
  for (const auto* pictures : {&lesson.same_sound, &lesson.other_sound}) {
    for (const PlacedWord& word : *pictures) add_words_in(word.value, words);
  }
  add_all(analyzed.passage.paragraphs, words);
  add_all(analyzed.passage.questions, words);
}

}  // namespace

void add_words_of_lessons(Workspace& workspace, const LessonRequest& request,
                          const std::vector<std::string>& paths, WordSet& words,
                          Diagnostics& diagnostics) {
  for (const std::string& path : paths) {
    if (!workspace.files().is_folder(path)) {
      add_words_of(workspace, request, path, words, diagnostics);
      continue;
    }
    for (const FilePath& file : yaml_files(workspace.files(), path)) {
      add_words_of(workspace, request, file, words, diagnostics);
    }
  }
}

}  // namespace sheaf
