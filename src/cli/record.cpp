// `sheaf record`: a form for what a class wrote, ready to fill.

#include <fmt/format.h>

#include <algorithm>

#include "base/error.h"
#include "base/nearest.h"
#include "base/utf8.h"
#include "base/written_text.h"
#include "cli/enter.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/new_file.h"
#include "cli/record_text.h"
#include "cli/requests.h"
#include "cli/verbs.h"
#include "driver/class_roll.h"
#include "driver/marking_desk.h"
#include "files/disk_files.h"

namespace sheaf {

namespace {

// As the record names it: a path from the folder above the records.
std::string seen_from(const FilePath& folder, const std::string& file) {
  const FilePath from = folder.empty() ? FilePath(".") : folder;
  const FilePath near =
      disk().absolute(file).lexically_normal().lexically_relative(
          disk().absolute(from).lexically_normal());
  const bool below = !near.empty() && *near.begin() != "..";
  return below ? near.string() : FilePath(file).filename().string();
}

// Whether a record that says so names these files.
bool names(const std::string& text, const std::string& lesson_name,
           const std::string& class_name) {
  const SourceFile file("the form", text);
  Diagnostics unheard;
  const RecordFile read = read_record(file, unheard);
  return !unheard.has_errors() && read.records.size() == 1 &&
         read.records[0].lesson.value == lesson_name &&
         read.records[0].class_file.value == class_name;
}

std::string first_word(const TaughtFile& lesson) {
  const std::vector<DictatedItem>& items = lesson.items;
  return items.empty() ? "ship" : as_key(items.front().text);
}

// Of a placement check: by parts and steps, as the script has them.
std::string placement_lines(const Placement& check) {
  std::string text = "#   part one:";
  for (const PlacementStep& step : check.part_one) {
    for (const PlacedWord& word : step.words) text += " " + word.value;
  }
  text += "\n#   part two, by step:\n";
  for (const PlacementStep& step : check.part_two) {
    text += fmt::format("#     {}:", step.number.value);
    for (const PlacedWord& word : step.words) text += " " + word.value;
    text += "\n";
  }
  return text;
}

std::string placement_remark() {
  return "# A placement check. `part-two` is the step at which part two began "
         "for a\n# learner; until it stands there, only part one counts. Words "
         "that a learner was\n# not asked for need no line.\n";
}

std::string form(const RecordHead& head, const TaughtFile& lesson,
                 const std::vector<LearnerCode>& codes,
                 const PatternCatalogue& patterns) {
  if (head.kind == "writing") {
    std::string text =
        "# Free writing, counted: how often each pattern came up and how often "
        "it was\n# right, as in `ai: 3/5`. Take out learners who wrote "
        "nothing.\n" +
        head_text(head) + "writing:\n";
    for (const LearnerCode& code : codes) {
      text += fmt::format("  {}:\n", code.text());
      for (const LessonPattern& p : lesson.analyzed.patterns) {
        text += fmt::format("    {}: 0/0\n", patterns[p.id].id);
      }
    }
    return text;
  }
  const bool placement = lesson.lesson.placement.given();
  const std::string word = first_word(lesson);
  std::string text = placement ? placement_remark() : "";
  text += fmt::format(
      "# What was written. Type errors only, with commas between them, a word "
      "of a\n# sentence too: Sheaf finds what each was meant for, and "
      "everything else counts\n# as right. `{}=...` says the word, `{}=.` that "
      "it was left blank. Learners who\n# were away go after `absent:`. This "
      "form counts for nobody until you write\n# `marked: all`, which means "
      "everyone it lists.\n# Dictated:\n{}{}marked: not yet\n# absent: CODE, "
      "CODE\n",
      word, word,
      placement ? placement_lines(lesson.lesson.placement)
                : dictated_lines(lesson),
      head_text(head));
  if (placement) {
    text += "part-two:\n";
    for (const LearnerCode& code : codes) {
      text += fmt::format("  {}:\n", code.text());
    }
  }
  text += "wrong:\n";
  for (const LearnerCode& code : codes) {
    text += fmt::format("  {}:\n", code.text());
  }
  return text;
}

// What the learners of a class have instead of the lesson, those with the same
// in one line.
std::string why_nobody(const std::vector<RollEntry>& roll) {
  std::vector<std::pair<std::string, std::string>> reasons;
  for (const RollEntry& entry : roll) {
    const std::string reason = entry.has == RollEntry::Has::nothing
                                   ? "not in the class on that day"
                                   : sheaf::written(entry.instead);
    auto known = std::ranges::find(reasons, reason,
                                   &std::pair<std::string, std::string>::first);
    if (known == reasons.end()) {
      known = reasons.insert(reasons.end(), {reason, ""});
    }
    known->second +=
        (known->second.empty() ? "" : ", ") + entry.learner->code.value.text();
  }
  std::string text;
  for (const auto& [reason, codes] : reasons) {
    text += fmt::format("{}{}: {}", text.empty() ? "" : "; ", codes, reason);
  }
  return text;
}

// Those whom the form is to list; nobody, and said, where there are none.
std::vector<LearnerCode> listed_codes(const CommandLine& line,
                                      const ClassFile& pupils,
                                      std::vector<RollEntry> roll,
                                      Diagnostics& diagnostics) {
  const std::string& group = line.marking.group;
  if (!group.empty()) {
    std::vector<std::string_view> names;
    for (const GroupEntry& one : pupils.groups) names.push_back(one.name.value);
    if (std::ranges::find(names, group) == names.end()) {
      diagnostics.error(diagnostic::wrong_value, Span::whole(pupils.file),
                        fmt::format("there is no group {} in the class",
                                    sheaf::quoted(group)),
                        did_you_mean(group, names).text);
      return {};
    }
    std::erase_if(roll, [&](const RollEntry& entry) {
      return entry.learner->group.value != group;
    });
  }
  // A check of what was taught before is given out whatever the week's lesson
  // is.
  const std::string& kind = line.marking.kind;
  const bool check =
      kind == "retention" || kind == "transfer" || kind == "probe";
  const auto has = [](const RollEntry& entry) {
    return entry.has == RollEntry::Has::lesson;
  };
  const bool for_all = check && std::ranges::none_of(roll, has);
  std::vector<LearnerCode> codes;
  for (const RollEntry& entry : roll) {
    if (has(entry) || (for_all && entry.has != RollEntry::Has::nothing)) {
      codes.push_back(entry.learner->code.value);
    }
  }
  if (codes.empty()) {
    diagnostics.error(
        diagnostic::nobody_has_lesson, Span::whole(pupils.file),
        fmt::format("nobody {} has this lesson ({})",
                    group.empty() ? "in the class"
                                  : fmt::format("in {}", sheaf::quoted(group)),
                    roll.empty() ? "the group is empty" : why_nobody(roll)),
        "name the lesson that was dictated, or change `lesson:` or `step:` in "
        "the class file");
  }
  return codes;
}

// Takes out whom a record speaks of. False where the file is no record of this
// dictation, or is a form that is not marked yet.
bool take_out_known(Workspace& workspace, const FilePath& path,
                    const RecordHead& head, std::vector<LearnerCode>& codes) {
  Diagnostics unheard;
  const RecordFile there = read_record(workspace.open(path.string()), unheard);
  if (unheard.has_errors() || there.records.size() != 1) return false;
  const Record& record = there.records[0];
  if (record.not_yet || record.lesson.value != head.lesson ||
      date_text(record.date.value) != head.date) {
    return false;
  }
  std::erase_if(codes, [&](const LearnerCode& code) {
    return record.find_code(code) != nullptr;
  });
  return true;
}

// Whom the records of this dictation that are there say nothing of; nobody
// where the first file is something else.
std::vector<LearnerCode> codes_left(Workspace& workspace,
                                    const FilePath& target,
                                    const RecordHead& head,
                                    std::vector<LearnerCode> codes) {
  if (!take_out_known(workspace, target, head, codes)) return {};
  for (int number = 2; !codes.empty(); ++number) {
    const FilePath next = name_beside(target, number);
    if (!workspace.files().is_file(next)) break;
    take_out_known(workspace, next, head, codes);
  }
  return codes;
}

std::string wrong_request(const CommandLine& line) {
  const std::string& kind = line.marking.kind;
  const bool known = kind.empty() || kind == "dictation" ||
                     kind == "transfer" || kind == "retention" ||
                     kind == "writing" || kind == "probe";
  if (!known) {
    return fmt::format(
        "{} is not a kind of record; choose dictation, transfer, retention, "
        "writing or probe",
        sheaf::quoted(kind));
  }
  if (line.marking.enter && kind == "writing") {
    return "--enter is for what was dictated; counts of free writing are typed "
           "into the form";
  }
  // A form without a day would stop every verb that reads its folder.
  if (line.marking.date.empty()) {
    return "a record needs the day of the writing, as in --date 2026-03-12";
  }
  if (!read_date(line.marking.date)) {
    return fmt::format("{} is not a date; write it like 2026-03-12",
                       sheaf::quoted(line.marking.date));
  }
  return {};
}

}  // namespace

int run_record(const CommandLine& asked) {
  CommandLine line = asked;
  const std::string wrong = wrong_request(line);
  if (!wrong.empty()) {
    fmt::print(stderr, "sheaf record: {}\n", printable(wrong));
    return kWrongCommandLine;
  }
  Workspace workspace(disk(), shipped_folder());
  std::vector<std::string> faults;
  MarkingDesk desk(workspace, marking_request(line), faults);
  if (!print_faults(faults)) return kWrongCommandLine;
  Diagnostics diagnostics;
  const TaughtFile* lesson = desk.lesson(line.arguments.front(), diagnostics);
  // A form of a probe that was taken for a lesson would count as taught.
  if (line.marking.kind.empty() && lesson != nullptr &&
      lesson->lesson.layout.value == "probe") {
    line.marking.kind = "probe";
  }
  const ClassFile* pupils =
      desk.class_file(line.marking.class_file, diagnostics);
  // A placement check teaches nothing, whoever has which lesson.
  const bool placement = lesson != nullptr && lesson->lesson.placement.given();
  if (placement && line.marking.kind.empty()) line.marking.kind = "retention";
  const FilePath home = FilePath(line.marking.class_file).parent_path();
  std::vector<LearnerCode> codes;
  if (lesson != nullptr && pupils != nullptr) {
    codes = listed_codes(
        line, *pupils,
        class_roll(*pupils, home, *lesson, read_date(line.marking.date),
                   workspace, line.allowed_folders),
        diagnostics);
  }
  print(diagnostics);
  if (codes.empty()) return kFaultsInFiles;

  const FilePath folder = line.marking.records.empty()
                              ? home / "records"
                              : FilePath(line.marking.records);
  std::string name = name_among_others(*pupils, home, *lesson, workspace,
                                       line.allowed_folders);
  name = line.marking.date + "-" + name;
  // That a placement check is no dictation, its own name says.
  const std::string& kind = (placement ? asked : line).marking.kind;
  if (!kind.empty() && kind != "dictation") name += "-" + kind;
  const FilePath target = folder / (name + ".yaml");
  const FilePath above =
      disk().absolute(folder).lexically_normal().parent_path();
  const std::string lesson_name = seen_from(above, lesson->path);
  const std::string class_name = seen_from(above, line.marking.class_file);
  const RecordHead head{
      line.marking.date, lesson_name,
      line.marking.kind.empty() ? "dictation" : line.marking.kind, class_name};
  const std::string text = with_modeline(
      form(head, *lesson, codes, desk.phonics().patterns()), "record", target);
  if (!names(text, lesson_name, class_name)) {
    throw MachineError(fmt::format(
        "{} or {} cannot be named in a record; rename the file, with no "
        "backslash, colon or line break in its name",
        lesson->path, line.marking.class_file));
  }
  const bool there =
      workspace.files().own_status(target).kind != Standing::none;
  if (line.marking.enter) {
    const std::vector<LearnerCode> left =
        there ? codes_left(workspace, target, head, codes) : codes;
    if (!left.empty()) {
      return enter_record({desk, *lesson, *pupils, head, left, there}, target);
    }
  }
  if (line.marking.enter || !write_new_file(workspace.files(), target, text)) {
    throw MachineError(fmt::format(
        "{} is there already, and is left as it is; rename it, or give "
        "another day with --date",
        target.string()));
  }
  fmt::print("{}\n", printable(target.string()));
  return kDone;
}

}  // namespace sheaf
