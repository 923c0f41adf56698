// `sheaf dump`: what passes between two stages, as text.

#include <fmt/format.h>

#include <algorithm>

#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/requests.h"
#include "cli/verbs.h"
#include "driver/class_job.h"
#include "driver/workspace.h"
#include "files/disk_files.h"
#include "layout/page_dump.h"

namespace sheaf {

namespace {

void dump_lesson(const Lesson& lesson) {
  for (const auto& key : lesson.keys) fmt::print("key {}\n", key.value);
  for (const auto& p : lesson.patterns) fmt::print("pattern {}\n", p.value);
  for (const auto& w : lesson.words) fmt::print("word {}\n", w.spelling.value);
  for (const auto& s : lesson.sentences) {
    fmt::print("sentence {}\n", s.text());
  }
  for (const auto& w : lesson.dictate_words) {
    fmt::print("dictate-word {}\n", w.spelling.value);
  }
  for (const auto& s : lesson.dictate_sentences) {
    fmt::print("dictate-sentence {}\n", s.text());
  }
  for (const auto& p : lesson.passage.paragraphs) {
    fmt::print("passage {}\n", p.text());
  }
}

void dump_word(const AnalyzedWord& word, const Phonics& phonics) {
  const Reading& r = word.reading;
  fmt::print("{}:", r.word);
  for (std::size_t i = 0; i < r.units.size(); ++i) {
    const Unit& unit = r.units[i];
    fmt::print(" {}{}=", word.is_pattern_unit(i) ? "*" : "", unit.grapheme);
    for (std::size_t k = 0; k < unit.phonemes.size(); ++k) {
      fmt::print("{}{}", k == 0 ? "" : "+", phoneme_name(unit.phonemes[k]));
    }
  }
  fmt::print(" boxes {} patterns", r.boxes());
  for (const PatternPlace& place : r.places) {
    fmt::print(" {}", phonics.patterns()[place.pattern].id);
  }
  fmt::print("\n");
}

void dump_words(const AnalyzedLesson& lesson) {
  for (const LessonPattern& p : lesson.patterns) {
    fmt::print("pattern {}\n", lesson.phonics->patterns()[p.id].id);
  }
  for (const AnalyzedWord& w : lesson.words) dump_word(w, *lesson.phonics);
  for (const auto* sentences : {&lesson.sentences, &lesson.dictate_sentences,
                                &lesson.passage.paragraphs}) {
    for (const AnalyzedSentence& s : *sentences) {
      fmt::print("sentence {}\n", s.text.text());
      for (const auto& part : s.words) dump_word(part.word, *lesson.phonics);
    }
  }
}

// The pages of a class, the same that `build` prints.
int dump_class(Workspace& workspace, const CommandLine& line,
               Diagnostics& diagnostics) {
  ClassRequest request = class_request(line);
  request.lesson_file = line.arguments.size() > 1 ? line.arguments[1] : "";
  const auto job =
      prepare_class(workspace, request, line.class_file, diagnostics);
  if (job == nullptr) {
    print(diagnostics);
    return kFaultsInFiles;
  }
  SharedCuts shared;
  if (request.learners.empty() || job->learners.size() > 1) {
    shared =
        compose_shared_cuts(workspace.shaper(), *job, line.only, diagnostics);
  }
  if (!shared.leaves.pages.empty()) {
    fmt::print("{}", dump_pages(shared.leaves));
  }
  PagesOfRun all;
  for (const LearnerJob& learner : job->learners) {
    const bool shares =
        std::ranges::find(shared.learners, learner.code.text()) !=
        shared.learners.end();
    const Document pages = compose_learner(workspace.shaper(), learner,
                                           line.only, diagnostics, !shares);
    if (!all.add(learner, pages.pages.size(), diagnostics)) break;
    fmt::print("{}", dump_pages(pages));
  }
  for (const auto& learners : by_teacher_key(*job)) {
    fmt::print("{}", dump_pages(compose_teacher(workspace.shaper(), learners,
                                                line.only, diagnostics)));
  }
  print(diagnostics);
  return diagnostics.has_errors() ? kFaultsInFiles : kDone;
}

}  // namespace

int run_dump(const CommandLine& line) {
  const std::string& stage = line.arguments[0];
  if (stage != "lesson" && stage != "words" && stage != "pages") {
    fmt::print(stderr,
               "sheaf: there is nothing called `{}` to dump; choose `lesson`, "
               "`words` or `pages`\n",
               printable(stage));
    return kWrongCommandLine;
  }
  if (!known_sheets(line)) return kWrongCommandLine;
  Workspace workspace(disk(), shipped_folder());
  Diagnostics diagnostics;
  if (!line.class_file.empty() && stage == "pages") {
    return dump_class(workspace, line, diagnostics);
  }
  if (line.arguments.size() < 2) {
    fmt::print(stderr, "sheaf: which lesson? Name its file\n");
    return kWrongCommandLine;
  }
  const auto lesson =
      prepare(workspace, lesson_request(line), line.arguments[1], diagnostics);
  if (lesson == nullptr) {
    print(diagnostics);
    return kFaultsInFiles;
  }
  if (stage == "lesson") dump_lesson(lesson->lesson);
  if (stage == "words") dump_words(lesson->analyzed);
  if (stage == "pages") {
    const Packet packet =
        make_packet(lesson->analyzed, lesson->layout, *lesson->pictures,
                    lesson->style, workspace.shaper(), line.only, diagnostics);
    fmt::print("{}", dump_pages(packet.learner));
    fmt::print("{}", dump_pages(packet.teacher));
  }
  print(diagnostics);
  return diagnostics.has_errors() ? kFaultsInFiles : kDone;
}

}  // namespace sheaf
