#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "second_count.h"

/// The files of the invented term, read by lines, as term_writer.cpp writes
/// them: no reader of Sheaf's has a part in it.
namespace sheaf::term {

using Words = std::vector<std::string>;
using Attempts = std::map<std::string, std::string>;

struct TermLesson {
  Words patterns, listed, sight, dictated, sentences;
};

struct TermSession {
  std::string date, lesson, kind;
  std::set<std::string> absent;
  std::map<std::string, Attempts> wrong;
  /// Counts from a journal: learner, pattern, count.
  std::map<std::string, std::map<std::string, Count>> writing;
};

std::vector<std::string> lines_of(const std::string& path);
/// Runs of letters and figures.
Words words_of(const std::string& text);
/// In small letters.
std::string small(std::string text);

TermLesson lesson_in(const std::string& path);
std::vector<TermSession> sessions_in(const std::string& path);

}  // namespace sheaf::term
