// `sheaf build`: lessons and classes to PDF files.

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>

#include "base/error.h"
#include "base/pool.h"
#include "base/utf8.h"
#include "cli/build_jobs.h"
#include "cli/dependencies.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/progress.h"
#include "cli/requests.h"
#include "cli/verbs.h"
#include "driver/packet_files.h"
#include "driver/packets.h"
#include "files/disk_files.h"
#include "files/left_behind.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace {

// Whether the command line names something to build.
bool has_lessons(const CommandLine& line) {
  const bool for_class =
      !line.learners.empty() || !line.marking.records.empty();
  if (!line.arguments.empty() && !for_class) return true;
  fmt::print(stderr, "sheaf: {}\n",
             !line.learners.empty() ? "--learner goes with --class"
             : !line.marking.records.empty()
                 ? "--records goes with --class"
                 : "which lesson? Name its file, or a class with --class");
  return false;
}

// What came of a job, before anything is written.
struct Outcome {
  /// Nothing where the pages are up to date, or a fault of the machine.
  std::optional<MadePackets> made;
  std::vector<std::string> up_to_date;  ///< the pages
  std::vector<FilesRead::Entry> read;
  std::string fault;
};

// Those of the workers but one. Left to the end of the process: the system
// clears away faster.
std::vector<std::unique_ptr<Workspace>>& spare_workspaces() {
  static auto& workspaces = *new std::vector<std::unique_ptr<Workspace>>;
  return workspaces;
}

// What became of the jobs.
struct Tally {
  int made = 0, up_to_date = 0, with_errors = 0;
};

std::string counted_pages(std::size_t count) {
  return counted(static_cast<int>(count), "page", "pages");
}

class Builder {
 public:
  Builder(Workspace& workspace, const CommandLine& line,
          const std::vector<BuildJob>& jobs)
      : line_(line),
        jobs_(jobs),
        request_(lesson_request(line)),
        outcomes_(jobs.size()) {
    // A worker has a workspace of its own: the word list is mapped once for all
    // and the rest is soon read.
    constexpr std::size_t kJobsForEach = 3;
    const std::size_t useful = (jobs.size() + kJobsForEach - 1) / kJobsForEach;
    const auto workers =
        std::min<std::size_t>(static_cast<std::size_t>(line.workers()),
                              std::max<std::size_t>(useful, 1));
    workspaces_.push_back(&workspace);
    spare_workspaces().clear();
    for (std::size_t i = 1; i < workers; ++i) {
      spare_workspaces().push_back(
          std::make_unique<Workspace>(workspace.files(), workspace.shipped()));
      workspaces_.push_back(spare_workspaces().back().get());
    }
    if (std::ranges::any_of(jobs, &BuildJob::only_if_needed)) {
      made_with_ = made_with_now(workspace, request_, line.separate);
    }
  }

  // One that cannot be made stops no other.
  int run() {
    work_in_order(
        jobs_.size(), static_cast<int>(workspaces_.size()),
        [&](int worker, std::size_t i) {
          outcomes_[i] =
              make(*workspaces_[static_cast<std::size_t>(worker)], jobs_[i]);
        },
        [&](std::size_t i) {
          give_out(jobs_[i], outcomes_[i]);
          outcomes_[i] = {};
        });
    for (std::size_t i = 1; i < workspaces_.size(); ++i) {
      workspaces_[0]->files_read().add_all(workspaces_[i]->files_read());
    }
    write_last();
    if (!made_with_.empty()) print_tally();
    return code_;
  }

 private:
  // On any thread.
  Outcome make(Workspace& workspace, const BuildJob& job) {
    Outcome outcome;
    try {
      workspace.files_read().take();  // what belongs to the one before
      if (job.only_if_needed) {
        const auto made = read_made_from(workspace.files(), job.target);
        auto pages = made ? pages_up_to_date(*made, made_with_, job.path,
                                             job.target, workspace)
                          : std::nullopt;
        if (pages) {
          outcome.up_to_date = std::move(*pages);
          return outcome;
        }
      }
      if (job.file != nullptr) {
        workspace.files_read().add(job.path, job.file->text());
      }
      outcome.made = job.is_class ? make_class(workspace, job)
                                  : make_lesson(workspace, job);
      outcome.read = workspace.files_read().take();
    } catch (const MachineError& fault) {
      outcome.fault = fault.what();
      if (outcome.fault.empty()) outcome.fault = "this cannot be made";
    }
    return outcome;
  }

  MadePackets make_lesson(Workspace& workspace, const BuildJob& job) const {
    const SourceFile& file =
        job.file != nullptr ? *job.file : workspace.open(job.path);
    return make_lesson_packets(workspace, request_, file,
                               FilePath(job.path).parent_path(),
                               line_.separate);
  }

  MadePackets make_class(Workspace& workspace, const BuildJob& job) const {
    ClassRequest request{request_, job.lesson, codes_given(line_.learners),
                         line_.marking.records};
    // Many classes keep the workers busy; one is shared out.
    const int workers = jobs_.size() > 1 ? 1 : line_.workers();
    std::optional<Progress> progress;
    const bool shown = workspaces_.size() == 1;
    return make_class_packets(workspace, request, job.path, workers,
                              [&](std::size_t total) {
                                if (!shown) return;
                                if (!progress)
                                  progress.emplace(total, "packets");
                                progress->step();
                              });
  }

  // On the thread of the program, in the order of the jobs.
  void give_out(const BuildJob& job, Outcome& outcome) {
    if (!outcome.fault.empty()) {
      report(outcome.fault);
      return;
    }
    if (!outcome.made) {
      ++tally_.up_to_date;
      // Where nothing is written, nothing else would clear it.
      std::set<FilePath> folders;
      for (const std::string& page : outcome.up_to_date) {
        folders.insert(FilePath(page).parent_path());
      }
      for (const FilePath& folder : folders) clear_left_behind(folder);
      add_targets(outcome.up_to_date);
      return;
    }
    const MadePackets& made = *outcome.made;
    print(made.diagnostics);
    if (!made.good()) {
      ++tally_.with_errors;
      if (code_ == kDone) code_ = kFaultsInFiles;
      return;
    }
    write_waiting();
    waiting_.emplace(job, std::move(outcome));
    if (line_.dependency_file.empty()) write_waiting();
  }

  void write(const BuildJob& job, const Outcome& outcome,
             std::unique_ptr<OutputFiles> files) {
    MadeFrom from;
    from.made_with = made_with_;
    add_inputs(outcome.read, workspaces_[0]->shipped(), from);
    const MadePackets& made = *outcome.made;
    add_packets(*files, job.target, made.files,
                job.only_if_needed ? &from : nullptr);
    files->finish();
    ++tally_.made;
    const std::string folder = printable(job.target.string());
    if (job.is_class) {
      fmt::print("{}: {}, {} for learners, {} for the teacher\n", folder,
                 counted(static_cast<int>(made.learners), "packet", "packets"),
                 counted_pages(made.learner_pages), made.teacher_pages);
    } else {
      fmt::print("{}: {} for the learner, {} for the teacher\n", folder,
                 counted_pages(made.learner_pages),
                 counted_pages(made.teacher_pages));
    }
  }

  // The pages that wait, if any do.
  void write_waiting() {
    if (!waiting_) return;
    const Waiting waiting = std::move(*waiting_);
    waiting_.reset();
    try {
      add_targets(
          packet_paths(waiting.job.target, waiting.outcome.made->files));
      write(waiting.job, waiting.outcome, workspaces_[0]->files().write());
    } catch (const MachineError& fault) {
      report(fault.what());
    }
  }

  // What all were made from is known at the end, so the last pages wait for it:
  // the list takes its place together with them, and before them. Pages that
  // are new beside an old list would look up to date to make for ever.
  void write_last() {
    if (line_.dependency_file.empty() || code_ != kDone) {
      write_waiting();
      return;
    }
    auto files = workspaces_[0]->files().write();
    try {
      if (waiting_) {
        add_targets(
            packet_paths(waiting_->job.target, waiting_->outcome.made->files));
      }
      add_dependencies(*files, *workspaces_[0], line_, targets_);
      if (waiting_) {
        write(waiting_->job, waiting_->outcome, std::move(files));
      } else {
        files->finish();
      }
    } catch (const MachineError& fault) {
      report(fault.what());
    }
  }

  void add_targets(const std::vector<std::string>& paths) {
    targets_.insert(targets_.end(), paths.begin(), paths.end());
  }

  // What stands in the way of all of them is said once.
  void report(const std::string& fault) {
    code_ = kMachineFault;
    ++tally_.with_errors;
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

  const CommandLine& line_;
  const std::vector<BuildJob>& jobs_;
  LessonRequest request_;
  std::vector<Outcome> outcomes_;
  std::vector<Workspace*> workspaces_;
  std::string made_with_;  // empty where nothing asks for it
  std::vector<std::string> targets_;
  // Pages that are made and not written.
  struct Waiting {
    const BuildJob& job;
    Outcome outcome;
  };
  std::optional<Waiting> waiting_;
  std::set<std::string> reported_;
  Tally tally_;
  int code_ = kDone;
};

// The class that `--class` names; learners without a lesson of their own get
// the one that is named.
int build_class(Workspace& workspace, const CommandLine& line) {
  if (line.arguments.size() > 1 || line.separate) {
    fmt::print(stderr, "sheaf: {}\n",
               line.separate ? "--separate goes with lessons, not with a class"
                             : "name at most one lesson with --class");
    return kWrongCommandLine;
  }
  BuildJob job{line.class_file, nullptr, true, false, {}};
  job.target = FilePath(line.out) / FilePath(line.class_file).stem();
  if (!line.arguments.empty()) job.lesson = line.arguments.front();
  return Builder(workspace, line, {job}).run();
}

}  // namespace

int build_all(Workspace& workspace, const CommandLine& line) {
  if (!known_sheets(line)) return kWrongCommandLine;
  check_dependency_file(line);
  if (!line.class_file.empty()) return build_class(workspace, line);
  if (!has_lessons(line)) return kWrongCommandLine;
  const auto jobs = build_jobs(workspace, line);
  return jobs ? Builder(workspace, line, *jobs).run() : kWrongCommandLine;
}

int run_build(const CommandLine& line) {
  // Left to the end of the process: the system clears away faster. Another run
  // in the same process has one of its own.
  static auto& workspaces = *new std::vector<std::unique_ptr<Workspace>>;
  workspaces.push_back(std::make_unique<Workspace>(disk(), shipped_folder()));
  return build_all(*workspaces.back(), line);
}

}  // namespace sheaf
