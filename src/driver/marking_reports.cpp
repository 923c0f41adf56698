// What is said of records once they are marked (see also record_checks.h).

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "analysis/pattern_names.h"
#include "base/utf8.h"
#include "driver/class_roll.h"
#include "driver/marking_desk.h"
#include "driver/record_checks.h"
#include "driver/record_targets.h"

namespace sheaf {

namespace {

bool is_all_right(const Record& record) {
  return record.marked_all && !record.wrong.empty() && record.written.empty() &&
         !record.has_entries();
}

// A form that is not marked yet: nothing to say if it is empty, else something
// to be told.
void report_not_yet(const Record& record, Diagnostics& diagnostics) {
  constexpr std::string_view kHelp =
      "write `marked: all` when everyone who is listed has been marked";
  if (!record.has_entries()) {
    diagnostics.note(diagnostic::not_marked_yet, record.marked_span,
                     "this form is not marked yet, so it counts for nobody",
                     std::string(kHelp));
    return;
  }
  diagnostics.warning(diagnostic::not_marked_yet, record.marked_span,
                      "this record has errors written down but says it is not "
                      "marked yet, so it counts for nobody",
                      std::string(kHelp));
}

// "B7, C3 and D1".
std::string listed(const std::vector<LearnerCode>& codes) {
  std::string text;
  for (std::size_t i = 0; i < codes.size(); ++i) {
    text += i == 0 ? "" : i + 1 == codes.size() ? " and " : ", ";
    text += codes[i].text();
  }
  return text;
}

}  // namespace

void MarkingDesk::report(const MarkedRecord& marked,
                         Diagnostics& diagnostics) const {
  report_targets(marked, workspace_.phonics(), diagnostics);
  report_unclear_targets(marked.targets.unclear, diagnostics);
  if (marked.record->not_yet) report_not_yet(*marked.record, diagnostics);
  if (is_all_right(*marked.record)) {
    diagnostics.note(diagnostic::no_errors_written, marked.record->date.span,
                     "this record has no errors: everyone listed counts as "
                     "having everything right");
  }
  report_codes(marked, diagnostics);
  report_steps(marked, diagnostics);
  for (const PlacedWord& pattern : marked.session.unknown_patterns) {
    const auto names = workspace_.phonics().find_patterns(pattern.value);
    PatternFault fault;
    if (names.size() == 1) {
      fault =
          fault_of(names[0], pattern.value, workspace_.phonics().patterns());
      fault.text = as_written_in(std::move(fault.text), pattern.value);
    } else {
      // What names patterns is nobody's name.
      fault = {fmt::format("{} names more than one pattern",
                           sheaf::quoted(pattern.value)),
               "give each pattern a count of its own"};
    }
    diagnostics.error(diagnostic::unknown_pattern, pattern.span,
                      std::move(fault.text), std::move(fault.help));
  }
}

// Learners of the class whom the record may have forgotten, and those whom it
// lists on a day on which they were not there.
void MarkingDesk::report_learners(const Taken& taken,
                                  Diagnostics& diagnostics) const {
  const Record& record = *taken.marked.record;
  if (taken.marked.pupils == nullptr || record.not_yet) return;
  for (const LearnerEntry& learner : taken.marked.pupils->learners) {
    const PlacedCode* code = record.find_code(learner.code.value);
    if (code == nullptr || learner.is_here_on(record.date.value)) continue;
    diagnostics.warning(
        diagnostic::not_in_class, code->span,
        fmt::format("the class file says that {} was not in the class on {}",
                    as_written(code->value.text()),
                    date_text(record.date.value)),
        "check the day, or `from` and `until` of this learner");
  }
  // A check may be of some learners only; of a lesson all are to be known.
  if (!record.marked_all || taken.marked.session.learners.empty() ||
      taken.marked.lesson == nullptr ||
      record.kind.value != Record::Kind::dictation) {
    return;
  }
  // A record of some groups of the class has nothing to say of the others,
  // where no lesson and no step in the class file tells them apart.
  std::set<std::string> groups;
  for (const LearnerEntry& learner : taken.marked.pupils->learners) {
    if (record.find_code(learner.code.value) != nullptr) {
      groups.insert(learner.group.value);
    }
  }
  std::vector<LearnerCode> left_out;
  for (const RollEntry& entry : class_roll(
           *taken.marked.pupils, FilePath(taken.class_path).parent_path(),
           *taken.marked.lesson, record.date.value, workspace_,
           request_.allowed_folders)) {
    const LearnerSettings settings =
        settings_for(*taken.marked.pupils, *entry.learner);
    const PlacedWord& group = entry.learner->group;
    const bool of_others = group.given() && !groups.contains(group.value) &&
                           !settings.lesson.given() && !settings.step.given();
    if (entry.has == RollEntry::Has::lesson && !of_others &&
        record.find_code(entry.learner->code.value) == nullptr) {
      left_out.push_back(entry.learner->code.value);
    }
  }
  if (left_out.empty()) return;
  diagnostics.warning(
      diagnostic::learner_not_listed, record.marked_span,
      fmt::format("`marked: all` means everyone the record lists; it does not "
                  "list {}, who {} in the class",
                  listed(left_out), left_out.size() == 1 ? "is" : "are"),
      fmt::format(
          "list a learner who had everything right under `wrong:` as `{}: "
          "{{}}`, and one who was away under `absent:`; for one who joined or "
          "left, use `from:` or `until:` in the class file",
          left_out.front().text()));
}

}  // namespace sheaf
