#include "input/without_learner.h"

#include "input/class_file.h"
#include "input/fields.h"
#include "input/file_kind.h"
#include "input/learner_cuts.h"
#include "input/learner_names.h"
#include "input/named_code.h"
#include "input/raw_text.h"
#include "input/record_file.h"
#include "input/yaml_value.h"

namespace sheaf {

namespace {

// A lesson with its pictures in it may be the longest of all.
constexpr std::size_t kLargestFile = std::size_t{4} << 20U;

constexpr std::size_t kMostNamed = 20;

// Whether a text reads as a file of its kind without faults.
bool is_sound(const SourceFile& file, FileKind kind, Diagnostics& diagnostics) {
  Diagnostics found;
  if (kind == FileKind::record) read_record(file, found);
  if (kind == FileKind::learners) read_class(file, found);
  for (const Diagnostic* d : found.sorted()) {
    if (d->severity != Severity::error) continue;
    diagnostics.error(*d->name, d->span, d->text, d->help).remarks = d->remarks;
  }
  return !found.has_errors();
}

// A file is a record or a class where it has any key of one, whatever else it
// has: nothing of a learner is passed over because of a key too many.
FileKind kind_for_learners(const Value& keys) {
  const FileKind kind = kind_of(keys);
  for (const FileKind own : {FileKind::record, FileKind::learners}) {
    if (kind == own) return own;
  }
  for (const FileKind own : {FileKind::record, FileKind::learners}) {
    if (has_key_of(own, keys)) return own;
  }
  return kind;
}

std::string without_cuts(std::string_view text, const std::vector<Span>& cuts) {
  std::string rest;
  std::size_t at = 0;
  for (const Span& cut : cuts) {
    rest += text.substr(at, cut.begin - at);
    at = cut.end;
  }
  return rest.append(text.substr(at));
}

// Whether the rest says what the file said before, less the learner.
bool says_the_rest(const Value& before, const SourceFile& rest,
                   const LearnerCode& code) {
  Diagnostics unheard;
  const Value after = read_yaml(rest, unheard);
  if (unheard.has_errors()) return false;
  const std::string wanted = said_without(before, code);
  return said_without(after, {}) == wanted &&
         said_without(after, code) == wanted;
}

std::vector<std::string> classes_of(const SourceFile& file, FileKind kind) {
  std::vector<std::string> classes;
  if (kind != FileKind::record) return classes;
  Diagnostics unheard;
  for (const Record& record : read_record(file, unheard).records) {
    if (record.class_file.given()) classes.push_back(record.class_file.value);
  }
  return classes;
}

void find_named(const SourceFile& file, const SourceFile& rest,
                const std::vector<std::uint32_t>& lines,
                WithoutLearner& without) {
  for (const std::uint32_t begin : lines) {
    if (without.still_named.size() == kMostNamed) {
      ++without.more_named;
      continue;
    }
    std::uint32_t cut_before = 0;
    for (const Span& cut : without.removed) {
      if (cut.begin <= begin) {
        cut_before += std::min(cut.end, begin) - cut.begin;
      }
    }
    without.still_named.push_back(
        {file.place_of(begin).line, rest.place_of(begin - cut_before).line});
  }
}

WithoutLearner take_out(const SourceFile& file, const Value& keys,
                        FileKind kind, const LearnerCode& code,
                        Diagnostics& diagnostics) {
  WithoutLearner without;
  Diagnostics unheard;
  const auto source = check_raw_text(file, kLargestFile, unheard);
  LearnerCuts found;
  if (source && (kind == FileKind::record || kind == FileKind::learners)) {
    found = learner_cuts(file, *source, keys, code);
  }
  without.nothing_left = found.all;
  without.removed = std::move(found.cuts);
  without.text = without_cuts(file.text(), without.removed);
  const SourceFile rest(file.name(), without.text);
  if (found.all) {
    without.removed = {keys.span};
  } else if (!without.removed.empty()) {
    if (!says_the_rest(keys, rest, code)) {
      diagnostics.error(diagnostic::file_form, without.removed.front(),
                        "Sheaf cannot take this learner out without changing "
                        "something else",
                        "take the learner out of this file by hand");
    } else {
      without.nothing_left = !is_sound(rest, kind, unheard);
    }
  }
  without.classes = classes_of(file, kind);
  std::vector<Span> known = without.removed;
  known.insert(known.end(), found.codes.begin(), found.codes.end());
  find_named(file, rest, lines_with_code(file, keys, kind, known, code),
             without);
  return without;
}

}  // namespace

std::optional<WithoutLearner> without_learner(const SourceFile& file,
                                              const LearnerCode& code,
                                              Diagnostics& diagnostics) {
  Diagnostics form;
  const Value keys = read_yaml(file, form, kLargestFile);
  const bool empty = !form.has_errors() && keys.kind == Value::Kind::nothing;
  // Says also what a file is that is no keys with values.
  if (!form.has_errors() && !empty && keys.kind != Value::Kind::keys) {
    read_keys(file, "a record", "date: 2026-03-12", form);
  }
  Diagnostics errors;
  pass_on_form_faults(form, errors);
  const int before = diagnostics.error_count();
  for (const Diagnostic* d : errors.sorted()) {
    if (d->severity != Severity::error) continue;
    diagnostics.error(*d->name, d->span, d->text, d->help);
  }
  if (diagnostics.error_count() > before) return std::nullopt;
  const FileKind kind = kind_for_learners(keys);
  if (!empty && !is_sound(file, kind, diagnostics)) return std::nullopt;
  WithoutLearner without = take_out(file, keys, kind, code, diagnostics);
  if (diagnostics.error_count() > before) return std::nullopt;
  return without;
}

void report_nothing_left(const WithoutLearner& without,
                         Diagnostics& diagnostics) {
  diagnostics.error(
      diagnostic::last_learner, without.removed.front(),
      "without this learner, nothing would be left that such a file needs",
      "delete the file yourself if it is no longer wanted");
}

}  // namespace sheaf
