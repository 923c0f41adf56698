#pragma once

#include <span>
#include <string>

#include "driver/marking_desk.h"
#include "files/path.h"
#include "input/learner_code.h"
#include "input/record_file.h"

namespace sheaf {

/// What stands in the head of a record: names as the record gives them.
struct RecordHead {
  std::string date, lesson, kind, class_file;
};

/// Text after a key, or as a key: in quotes where the file would read it as
/// something else.
std::string as_key(const std::string& text);
/// A file's name, in quotes only where it needs them.
std::string as_file_name(const std::string& name);

/// "sheaf: 1", the date, the lesson, the kind and the class, each a line.
std::string head_text(const RecordHead& head);

/// The record's name with a number behind it: "2026-03-12-oa-2.yaml".
FilePath name_beside(const FilePath& target, int number);

/// What the lesson dictates, as remarks in a record.
std::string dictated_lines(const TaughtFile& lesson);

/// A learner's line under `wrong:`, each attempt with its word:
/// "  B7: fish=fis, rush=rus".
std::string wrong_line(const LearnerCode& code,
                       std::span<const Attempt> attempts);

}  // namespace sheaf
