#pragma once

#include <memory>
#include <string>

#include "base/diagnostics.h"
#include "base/source.h"
#include "input/lesson.h"

namespace sheaf {

/// A lesson read from text, with all that belongs to it kept alive.
struct ReadLesson {
  std::unique_ptr<SourceFile> file;
  Diagnostics diagnostics;
  Lesson lesson;

  std::string messages() const { return to_text(diagnostics); }
};

inline ReadLesson lesson_from(std::string text) {
  ReadLesson read;
  read.file = std::make_unique<SourceFile>("shells.yaml", std::move(text));
  read.lesson = read_lesson(*read.file, read.diagnostics);
  return read;
}

/// The words as one text, for comparing: "ship shed".
inline std::string joined(const std::vector<PlacedWord>& words) {
  std::string all;
  for (const PlacedWord& word : words) {
    all += (all.empty() ? "" : " ") + word.value;
  }
  return all;
}

inline std::string joined(const std::vector<LessonWord>& words) {
  std::string all;
  for (const LessonWord& word : words) {
    all += (all.empty() ? "" : " ") + word.spelling.value;
  }
  return all;
}

inline std::string joined(const std::vector<LessonLine>& lines) {
  std::string all;
  for (const LessonLine& line : lines) all += line.text() + "/";
  return all;
}

}  // namespace sheaf
