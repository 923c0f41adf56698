// `sheaf build`: lessons to PDF files.

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/error.h"
#include "base/utf8.h"
#include "cli/build_class.h"
#include "cli/build_jobs.h"
#include "cli/dependencies.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/packet_files.h"
#include "cli/requests.h"
#include "cli/verbs.h"
#include "files/files.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace fs = std::filesystem;

namespace {

// Whether the command line names something to build.
bool has_lessons(const CommandLine& line) {
  if (!line.arguments.empty() && line.learners.empty()) return true;
  fmt::print(stderr, "sheaf: {}\n",
             line.learners.empty()
                 ? "which lesson? Name its file, or a class with --class"
                 : "--learner goes with --class");
  return false;
}

// A file for each sheet of the layout, or each that is asked for.
void add_separate(PacketFiles& files, const PreparedLesson& lesson,
                  const CommandLine& line, Workspace& workspace) {
  std::set<std::string> names(line.only.begin(), line.only.end());
  if (names.empty()) {
    for (const LayoutPlan::Sheet& sheet : lesson.layout.sheets) {
      names.emplace(sheet.kind->name);
    }
  }
  for (const std::string& name : names) {
    Diagnostics unheard;  // the whole packet has said it all
    const Packet one =
        make_packet(lesson.analyzed, lesson.layout, *lesson.pictures,
                    lesson.style, workspace.shaper(), {name}, unheard);
    files.add(find_sheet_kind(name)->for_teacher ? one.teacher : one.learner,
              name + ".pdf");
  }
}

bool make_lesson(Workspace& workspace, const CommandLine& line,
                 const BuildJob& job, MadeFrom* made,
                 std::vector<std::string>& targets) {
  Diagnostics diagnostics;
  const SourceFile& file =
      job.file != nullptr ? *job.file : workspace.open(job.path);
  const auto lesson =
      prepare_text(workspace, lesson_request(line), file,
                   fs::path(job.path).parent_path(), diagnostics);
  if (lesson == nullptr) {
    print(diagnostics);
    return false;
  }
  const Packet packet =
      make_packet(lesson->analyzed, lesson->layout, *lesson->pictures,
                  lesson->style, workspace.shaper(), line.only, diagnostics);
  print(diagnostics);
  if (diagnostics.has_errors()) return false;
  PacketFiles files(job.target);
  files.add(packet.learner, "packet.pdf");
  files.add(packet.teacher, "teacher.pdf");
  if (line.separate) add_separate(files, *lesson, line, workspace);
  files.finish(workspace, made);
  targets.insert(targets.end(), files.paths().begin(), files.paths().end());
  fmt::print(
      "{}: {} for the learner, {} for the teacher\n",
      printable(job.target.string()),
      counted(static_cast<int>(packet.learner.pages.size()), "page", "pages"),
      counted(static_cast<int>(packet.teacher.pages.size()), "page", "pages"));
  return true;
}

// What became of the jobs.
struct Tally {
  int made = 0, up_to_date = 0, with_errors = 0;
};

class Builder {
 public:
  Builder(Workspace& workspace, const CommandLine& line)
      : workspace_(workspace), line_(line), class_line_(line) {
    // Learners of a class have lessons of their own here.
    class_line_.arguments.clear();
  }

  // One that cannot be made stops no other.
  int run(const std::vector<BuildJob>& jobs) {
    for (const BuildJob& job : jobs) {
      try {
        build(job);
      } catch (const MachineError& fault) {
        code_ = kMachineFault;
        ++tally_.with_errors;
        report(fault.what());
      }
    }
    const bool from_folder =
        std::ranges::any_of(jobs, &BuildJob::only_if_needed);
    if (from_folder) print_tally();
    if (code_ == kDone) write_dependencies(workspace_, line_, targets_);
    return code_;
  }

 private:
  void build(const BuildJob& job) {
    workspace_.files_read().take();  // what belongs to the one before
    if (job.only_if_needed && is_up_to_date(job)) {
      ++tally_.up_to_date;
      return;
    }
    if (job.file != nullptr) workspace_.files_read().add_again(job.path);
    MadeFrom made;
    MadeFrom* record = nullptr;
    if (job.only_if_needed) {
      made.made_with = made_with();
      record = &made;
    }
    const bool good =
        job.is_class ? make_class(workspace_, class_line_, job.path, job.target,
                                  record, targets_)
                     : make_lesson(workspace_, line_, job, record, targets_);
    ++(good ? tally_.made : tally_.with_errors);
    if (!good && code_ == kDone) code_ = kFaultsInFiles;
  }

  bool is_up_to_date(const BuildJob& job) {
    const auto made = read_made_from(job.target);
    const auto pages = made ? pages_up_to_date(*made, made_with(), job.path,
                                               job.target, workspace_)
                            : std::nullopt;
    if (!pages) return false;
    targets_.insert(targets_.end(), pages->begin(), pages->end());
    return true;
  }

  const std::string& made_with() {
    if (made_with_.empty()) made_with_ = made_with_now(workspace_, line_);
    return made_with_;
  }

  // What stands in the way of all of them is said once.
  void report(const std::string& fault) {
    if (!reported_.insert(fault).second) return;
    fmt::print(stderr, "sheaf: {}\n", printable(fault));
  }

  void print_tally() const {
    fmt::print("{} built, {} up to date", tally_.made, tally_.up_to_date);
    if (tally_.with_errors > 0) {
      fmt::print(", {} with errors", tally_.with_errors);
    }
    fmt::print("\n");
  }

  Workspace& workspace_;
  const CommandLine& line_;
  CommandLine class_line_;
  std::vector<std::string> targets_;
  std::set<std::string> reported_;
  std::string made_with_;
  Tally tally_;
  int code_ = kDone;
};

}  // namespace

int build_all(Workspace& workspace, const CommandLine& line) {
  if (!known_sheets(line)) return kWrongCommandLine;
  check_dependency_file(line);
  if (!line.class_file.empty()) return build_class(workspace, line);
  if (!has_lessons(line)) return kWrongCommandLine;
  const auto jobs = build_jobs(workspace, line);
  return jobs ? Builder(workspace, line).run(*jobs) : kWrongCommandLine;
}

int run_build(const CommandLine& line) {
  // Left to the end of the process: the system clears away faster.
  static Workspace& workspace = *new Workspace(shipped_folder());
  return build_all(workspace, line);
}

}  // namespace sheaf
