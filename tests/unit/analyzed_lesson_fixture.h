#pragma once

#include <gtest/gtest.h>

#include <memory>
#include <string>

#include "analysis/analyzed_lesson.h"
#include "unit/phonics_data.h"

namespace sheaf {

/// A lesson from text, seen through phonics; without pictures.
class AnalyzedLessonTest : public testing::Test {
 protected:
  /// What comes back points to the text of the last call.
  const AnalyzedLesson& analyzed(const std::string& text) {
    file_ = std::make_unique<SourceFile>("lesson.yaml", text);
    lesson_ = read_lesson(*file_, diagnostics_);
    analyzed_ = analyze(
        lesson_, shared_phonics(), [](std::string_view) { return false; },
        diagnostics_);
    return analyzed_;
  }

  /// The same for a group that was taught what the lesson says under `taught`.
  const AnalyzedLesson& analyzed_as_taught(const std::string& text) {
    file_ = std::make_unique<SourceFile>("lesson.yaml", text);
    lesson_ = read_lesson(*file_, diagnostics_);
    analyzed_ = analyze(
        lesson_, shared_phonics(),
        find_taught(lesson_, nullptr, shared_phonics(), diagnostics_),
        [](std::string_view) { return false; }, diagnostics_);
    return analyzed_;
  }

  std::unique_ptr<SourceFile> file_;
  Lesson lesson_;
  Diagnostics diagnostics_;
  AnalyzedLesson analyzed_;
};

}  // namespace sheaf
