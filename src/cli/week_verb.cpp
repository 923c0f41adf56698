// `sheaf week`: what each group does next, from what it wrote last, and the
// class file for that week once the teacher has decided.

#include <fmt/format.h>

#include <algorithm>

#include "base/nearest.h"
#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/report_pages.h"
#include "cli/requests.h"
#include "cli/shell_words.h"
#include "cli/verbs.h"
#include "cli/week_page.h"
#include "driver/week_plan.h"
#include "files/disk_files.h"
#include "files/output_files.h"
#include "marking/score_words.h"

namespace sheaf {

namespace {

constexpr std::size_t kLargestClass = std::size_t{4} << 20U;

std::optional<WeekStep> step_named(std::string_view name) {
  for (const WeekStep step :
       {WeekStep::go_on, WeekStep::stay, WeekStep::split}) {
    if (name == week_step_name(step)) return step;
  }
  return std::nullopt;
}

// "Red=stay": what the teacher decided. What is wrong with one comes back.
std::string read_decisions(const std::vector<std::string>& texts,
                           const std::vector<WeekUnit>& units,
                           WeekDecisions& decisions) {
  std::vector<std::string_view> names;
  for (const WeekUnit& unit : units) names.emplace_back(unit.name);
  for (const std::string& text : texts) {
    const std::size_t sign = text.rfind('=');
    const std::string name = text.substr(0, sign);
    const auto step = sign == std::string::npos
                          ? std::nullopt
                          : step_named(text.substr(sign + 1));
    if (!step) {
      return fmt::format(
          "{} is no decision; write it as in `Red=go-on`, `Red=stay` or "
          "`Red=split`",
          sheaf::quoted(text));
    }
    if (std::ranges::find(names, name) == names.end()) {
      const Help help = did_you_mean(name, names);
      return fmt::format(
          "nobody in the class has a lesson as {}; {}", sheaf::quoted(name),
          help.empty() ? "`sheaf week` lists who has one" : help.text);
    }
    decisions[name] = *step;
  }
  return {};
}

// Which cards of the review pack move, once the unit has its lesson.
void print_cards(const WeekUnit& unit, std::optional<WeekStep> step,
                 const CardEvidence& evidence,
                 const PatternCatalogue& catalogue) {
  const CardMoves moves = card_moves(coming_lessons(unit, step), evidence);
  const std::string in = cards_text(moves.in, catalogue);
  const std::string out = cards_text(moves.out, catalogue);
  if (!in.empty()) fmt::print("  cards to put in: {}\n", printable(in));
  if (!out.empty()) fmt::print("  cards to take out: {}\n", printable(out));
}

void print_unit(const WeekUnit& unit, const WeekDecisions& decisions,
                const CardEvidence& evidence,
                const PatternCatalogue& catalogue) {
  const auto decided = decisions.find(unit.name);
  const bool is_decided = decided != decisions.end();
  fmt::print("{} ({}): {}{}\n", printable(unit.name), codes_text(unit.codes),
             printable(unit.lesson),
             unit.written ? ", written " + date_text(*unit.written) : "");
  fmt::print("  {}\n", unit.proposal.why);
  if (!is_decided && !unit.proposal.known) {
    fmt::print("  nothing is proposed; it keeps its lesson\n");
    print_cards(unit, std::nullopt, evidence, catalogue);
    return;
  }
  const WeekStep step = is_decided ? decided->second : unit.proposal.step;
  fmt::print("  {} {}:", is_decided ? "decided" : "proposed",
             week_step_name(step));
  const std::string next = unit.next.empty()
                               ? "no lesson comes after it in its folder"
                               : printable(unit.next);
  const std::string again = fmt::format(
      "{}{}", printable(unit.again), unit.again_text.empty() ? "" : " (new)");
  if (step == WeekStep::split) {
    fmt::print(" {}; for {}: {}\n", next, codes_text(unit.proposal.not_there),
               again);
  } else {
    fmt::print(" {}\n", step == WeekStep::stay ? again : next);
  }
  print_cards(unit, step, evidence, catalogue);
}

}  // namespace

int run_week(const CommandLine& line) {
  const FilePath folder = line.arguments.front();
  const std::string class_path = line.marking.class_file.empty()
                                     ? (folder / "class.yaml").string()
                                     : line.marking.class_file;
  const std::string records_path = line.marking.records.empty()
                                       ? (folder / "records").string()
                                       : line.marking.records;
  if (!line.marking.pdf.empty()) check_report_file(line);
  Workspace workspace(disk(), shipped_folder());
  std::vector<std::string> faults;
  MarkingDesk desk(workspace, marking_request(line), faults);
  if (!print_faults(faults)) return kWrongCommandLine;
  Diagnostics diagnostics;
  const ClassFile* pupils = desk.class_file(class_path, diagnostics);
  const std::vector<MarkedRecord> records =
      desk.mark({records_path}, diagnostics);
  std::vector<WeekUnit> units;
  if (pupils != nullptr && !diagnostics.has_errors()) {
    units =
        week_units(desk, workspace, *pupils, FilePath(class_path).parent_path(),
                   records, line.allowed_folders, diagnostics);
  }
  print(diagnostics);
  if (diagnostics.has_errors() || pupils == nullptr) return kFaultsInFiles;
  if (units.empty()) {
    fmt::print(stderr, "sheaf week: nobody in {} has a lesson\n",
               printable(class_path));
    return kFaultsInFiles;
  }
  WeekDecisions decisions;
  if (const std::string fault =
          read_decisions(line.marking.decisions, units, decisions);
      !fault.empty()) {
    fmt::print(stderr, "sheaf week: {}\n", printable(fault));
    return kWrongCommandLine;
  }
  const CardEvidence evidence =
      card_evidence(sessions_of(records), desk.taught_lessons(records),
                    desk.phonics().patterns());
  for (const WeekUnit& unit : units) {
    print_unit(unit, decisions, evidence, desk.phonics().patterns());
  }
  std::string fault;
  const auto week = week_files(*pupils, units, decisions, fault);
  // With a workspace of its own: the class file may have changed.
  const auto page_if_asked = [&](const std::string& path) -> int {
    if (line.marking.pdf.empty()) return kDone;
    Workspace fresh(disk(), shipped_folder());
    return write_week_page(fresh, line, path, evidence) ? kDone
                                                        : kFaultsInFiles;
  };
  if (!line.marking.yes) {
    fmt::print(
        "\nNothing is written. {}--decide \"{}=stay\" (go-on, split) decides "
        "otherwise.\n{}\n",
        week ? fmt::format("--yes writes it into {}; ", printable(class_path))
             : fmt::format("It cannot be yet: {}. ", printable(fault)),
        printable(units.front().name), kScoreCaution);
    return page_if_asked(class_path);
  }
  if (!week) {
    fmt::print(stderr, "sheaf week: {}\n", printable(fault));
    return kFaultsInFiles;
  }
  const auto files = disk().write();
  const FilePath home = FilePath(class_path).parent_path();
  for (const auto& [name, text] : week->lessons) {
    files->add_new(home / name, text);
  }
  const std::string before = disk().read(class_path, kLargestClass);
  // A mark at the head of the file is no part of the text.
  const std::string mark =
      before.substr(0, before.size() - pupils->file->text().size());
  files->rewrite(class_path, mark + week->class_text, before);
  files->finish();
  fmt::print("\n{}: written; {} lessons are new\n", printable(class_path),
             week->lessons.size());
  const std::string command = shell_command(
      {line.program, "build", "--class", as_argument(class_path)});
  if (!command.empty())
    fmt::print("  to print the packets:\n    {}\n", command);
  return page_if_asked(class_path);
}

}  // namespace sheaf
