// What completions offer behind each option: its few choices, the names that
// Sheaf knows, or files where files are meant.

#include "cli/option_values.h"

#include <algorithm>

#include "base/diagnostic_names.h"
#include "driver/workspace.h"
#include "files/disk_files.h"
#include "marking/learner_speech.h"
#include "marking/progress_rules.h"
#include "phonics/table_text.h"
#include "sheets/sheet.h"

namespace sheaf {

namespace {

using ValueKind = OfferedValues::Kind;

struct ValueRow {
  std::string_view verb;  ///< empty for all
  std::string_view name;
  ValueKind kind = ValueKind::anything;
  std::string_view choices = {};  ///< words, or a name from `known_names`
};

// The rows of one verb stand before those of all.
constexpr ValueRow kRows[] = {
    {"word", "--count", ValueKind::words, "as-spoken as-taught"},
    {"preview", "--out", ValueKind::files},
    {"schema", "KIND", ValueKind::words, "lesson layout class sequence record"},
    {"completions", "SHELL", ValueKind::words, "bash zsh fish"},
    {"explain", "NAME", ValueKind::words, "=messages"},
    {"speech", "NAME", ValueKind::words, "=speech"},
    {"patterns", "NAME", ValueKind::words, "=patterns"},
    {"dump", "STAGE and LESSON", ValueKind::files, "lesson words pages"},
    {"", "PATTERN", ValueKind::words, "=patterns"},
    {"", "--contrast", ValueKind::words, "=patterns"},
    {"", "--taught", ValueKind::words, "=patterns"},
    {"", "--only", ValueKind::words, "=sheets"},
    {"", "--sheet", ValueKind::words, "=sheets"},
    {"", "--layout", ValueKind::files, "=layouts"},
    {"", "--speech", ValueKind::words, "=speech"},
    {"", "--rule", ValueKind::words, "=rules"},
    {"", "--paper", ValueKind::words, "letter a4"},
    {"", "--accent", ValueKind::words,
     "general-american british scottish australian"},
    {"", "--notation", ValueKind::words, "plain marks ipa"},
    {"", "--kind", ValueKind::words, "dictation transfer retention writing"},
    {"", "--readers", ValueKind::words, "younger older both"},
    {"", "--for", ValueKind::words, "home"},
    {"", "LESSON", ValueKind::files},
    {"", "RECORD", ValueKind::files},
    {"", "FILE", ValueKind::files},
    {"", "--class", ValueKind::files},
    {"", "--sequence", ValueKind::files},
    {"", "--file", ValueKind::files},
    {"", "--own", ValueKind::files},
    {"", "--block", ValueKind::files},
    {"", "--pdf", ValueKind::files},
    {"", "--pairs", ValueKind::files},
    {"", "--deps", ValueKind::files},
    {"", "--to", ValueKind::files},
    {"", "--transfer", ValueKind::files},
    {"", "--out", ValueKind::folders},
    {"", "--records", ValueKind::folders},
    {"", "--allow", ValueKind::folders},
};

// The names of all patterns as files write them.
std::vector<std::string> pattern_ids() {
  Workspace workspace(disk(), shipped_folder());
  std::vector<std::string> ids;
  for (const Pattern& pattern : workspace.phonics().patterns().all()) {
    ids.emplace_back(pattern.id);
  }
  return ids;
}

// Names that come from other tables.
std::vector<std::string> known_names(std::string_view of) {
  std::vector<std::string> names;
  if (of == "=messages") {
    for (const DiagnosticName& name : diagnostic_names()) {
      names.emplace_back(name.name);
    }
  } else if (of == "=sheets") {
    for (const SheetKind* kind : sheet_kinds()) names.emplace_back(kind->name);
  } else if (of == "=speech") {
    for (const SpeechVariety& one : speech_varieties()) {
      names.emplace_back(one.name);
    }
  } else if (of == "=rules") {
    for (const OptionSpec& rule : progress_option_table()) {
      names.push_back(std::string(rule.name) + "=");
    }
  } else if (of == "=patterns") {
    static const std::vector<std::string> ids = pattern_ids();
    names = ids;
  } else if (of == "=layouts") {
    for (const FilePath& file :
         yaml_files(disk(), shipped_folder() / "layouts")) {
      names.push_back(file.stem().string());
    }
  } else {
    for (const std::string_view word : split_at(of, ' ')) {
      if (!word.empty()) names.emplace_back(word);
    }
  }
  return names;
}

}  // namespace

OfferedValues values_of(std::string_view verb, std::string_view name) {
  for (const ValueRow& row : kRows) {
    if (row.name != name || (!row.verb.empty() && row.verb != verb)) continue;
    return {row.kind, known_names(row.choices)};
  }
  return {};
}

}  // namespace sheaf
