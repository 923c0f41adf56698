// `sheaf record`: a form for what a class wrote, ready to fill.

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "base/error.h"
#include "base/nearest.h"
#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/new_file.h"
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

// Text after a key: in quotes where the file would read it as something else.
std::string as_key(const std::string& text) {
  const bool plain =
      text.find_first_of(":#{}[],&*!|>'\"%@`?-~\t") == std::string::npos;
  if (plain) return text;
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') quoted += '\\';
    quoted += c;
  }
  return quoted + "\"";
}

// A file's name, in quotes only where it needs them.
std::string as_file_name(const std::string& name) {
  const bool plain = std::ranges::all_of(name, [](unsigned char c) {
    return std::isalnum(c) != 0 || c == '/' || c == '.' || c == '_' || c == '-';
  });
  return plain && !name.starts_with('-') ? name : as_key(name);
}

std::string dictated_lines(const TaughtFile& lesson) {
  std::string words, sentences;
  for (const DictatedItem& item : lesson.items()) {
    if (item.sentence) {
      sentences += fmt::format("#   {}\n", as_key(item.text));
    } else {
      words += (words.empty() ? "" : " ") + item.text;
    }
  }
  std::string text;
  if (!words.empty()) text += fmt::format("#   {}\n", words);
  return text + sentences;
}

std::string first_word(const TaughtFile& lesson) {
  const auto items = lesson.items();
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

std::string form(const CommandLine& line, const TaughtFile& lesson,
                 const std::vector<LearnerCode>& codes,
                 const PatternCatalogue& patterns,
                 const std::string& lesson_name,
                 const std::string& class_name) {
  const std::string& kind = line.marking.kind;
  const bool placement = lesson.lesson.placement.given();
  std::string text;
  if (placement) text = placement_remark();
  if (kind == "writing") {
    text =
        "# Free writing, counted: how often each pattern came up and how often "
        "it was\n# right, as in `ai: 3/5`. Take out learners who wrote "
        "nothing.\n";
  } else {
    text += fmt::format(
        "# What was written. Type errors only, as in `{}: ...`, and `.` where "
        "a word was\n# left blank: everything else counts as right. A sentence "
        "is typed whole. List\n# learners who were away after `absent:`. This "
        "form counts for nobody until you\n# write `marked: all`, which means "
        "everyone it lists.\n# Dictated:\n{}",
        first_word(lesson),
        placement ? placement_lines(lesson.lesson.placement)
                  : dictated_lines(lesson));
  }
  text +=
      fmt::format("sheaf: 1\ndate: {}\nlesson: {}\nkind: {}\nclass: {}\n",
                  line.marking.date, as_file_name(lesson_name),
                  kind.empty() ? "dictation" : kind, as_file_name(class_name));
  if (kind == "writing") {
    text += "writing:\n";
    for (const LearnerCode& code : codes) {
      text += fmt::format("  {}:\n", code.text());
      for (const LessonPattern& p : lesson.analyzed.patterns) {
        text += fmt::format("    {}: 0/0\n", patterns[p.id].id);
      }
    }
    return text;
  }
  text += "marked: not yet\n# absent: CODE, CODE\n";
  if (placement) {
    text += "part-two:\n";
    for (const LearnerCode& code : codes) {
      text += fmt::format("  {}:\n", code.text());
    }
  }
  text += "wrong:\n";
  for (const LearnerCode& code : codes) {
    text += fmt::format("  {}: {{}}\n", code.text());
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
                                   : entry.instead;
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
  const bool check = kind == "retention" || kind == "transfer";
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

std::string wrong_request(const CommandLine& line) {
  const std::string& kind = line.marking.kind;
  const bool known = kind.empty() || kind == "dictation" ||
                     kind == "transfer" || kind == "retention" ||
                     kind == "writing";
  if (!known) {
    return fmt::format(
        "{} is not a kind of record; choose dictation, transfer, retention or "
        "writing",
        sheaf::quoted(kind));
  }
  if (!line.marking.date.empty() && !read_date(line.marking.date)) {
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
    fmt::print(stderr, "sheaf record: {}\n", wrong);
    return kWrongCommandLine;
  }
  Workspace workspace(disk(), shipped_folder());
  std::vector<std::string> faults;
  MarkingDesk desk(workspace, marking_request(line), faults);
  if (!print_faults(faults)) return kWrongCommandLine;
  Diagnostics diagnostics;
  const TaughtFile* lesson = desk.lesson(line.arguments.front(), diagnostics);
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
  std::string name = lesson->name;
  if (!line.marking.date.empty()) name = line.marking.date + "-" + name;
  if (!asked.marking.kind.empty() && asked.marking.kind != "dictation") {
    name += "-" + line.marking.kind;
  }
  const FilePath target = folder / (name + ".yaml");
  const FilePath above =
      disk().absolute(folder).lexically_normal().parent_path();
  const std::string lesson_name = seen_from(above, lesson->path);
  const std::string class_name = seen_from(above, line.marking.class_file);
  const std::string text = form(line, *lesson, codes, desk.phonics().patterns(),
                                lesson_name, class_name);
  if (!names(text, lesson_name, class_name)) {
    throw MachineError(fmt::format(
        "{} or {} cannot be named in a record; rename the file, with no "
        "backslash, colon or line break in its name",
        lesson->path, line.marking.class_file));
  }
  if (!write_new_file(workspace.files(), target, text)) {
    throw MachineError(fmt::format(
        "{} is there already, and is left as it is; rename it, or give the "
        "day with --date",
        target.string()));
  }
  fmt::print("{}\n", printable(target.string()));
  return kDone;
}

}  // namespace sheaf
