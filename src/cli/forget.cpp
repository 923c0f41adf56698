// `sheaf forget`: takes a learner out of records, class files and packets.

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <new>

#include "base/error.h"
#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/forget_plan.h"
#include "cli/messages.h"
#include "cli/verbs.h"
#include "driver/workspace.h"
#include "files/disk_files.h"
#include "files/left_behind.h"
#include "files/output_files.h"
#include "input/class_file.h"

namespace sheaf {

namespace {

// Each file that is written is open until it is in its place.
constexpr std::size_t kMostAtOnce = 200;
constexpr int kMostTries = 20;

void print_lines(std::string_view head, const std::vector<std::string>& lines) {
  if (lines.empty()) return;
  fmt::print("{}\n", head);
  for (const std::string& line : lines) {
    fmt::print("  {}\n", printable(line));
  }
}

std::string folder_line(const FilePath& folder) {
  return folder.string() + "/";
}

void show(const ForgetPlan& plan) {
  std::vector<std::string> changed, deleted, left;
  for (const ForgetPlan::Change& change : plan.changes) {
    changed.insert(changed.end(), change.lines.begin(), change.lines.end());
  }
  for (const ForgetPlan::Deletion& deletion : plan.deletions) {
    deleted.push_back(deletion.path.string());
  }
  for (const FilePath& folder : plan.empty_folders) {
    deleted.push_back(folder_line(folder));
  }
  for (const ForgetPlan::Left& one : plan.left) left.push_back(one.before);
  print_lines("would be taken out:", changed);
  print_lines("would be deleted:", deleted);
  print_lines("would stay, for you to look at:", left);
  fmt::print("nothing was changed; add `--yes` to do it\n");
}

// What was done, to be said whatever comes next.
struct Done {
  std::vector<std::string> changed, deleted;

  bool is_nothing() const { return changed.empty() && deleted.empty(); }
  void print() const {
    print_lines("taken out:", changed);
    print_lines("deleted:", deleted);
  }
};

// What was changed is noted without asking for memory: by then it is so.
void change_files(const ForgetPlan& plan, Done& done) {
  for (std::size_t from = 0; from < plan.changes.size(); from += kMostAtOnce) {
    const std::size_t count = std::min(kMostAtOnce, plan.changes.size() - from);
    std::vector<std::vector<std::string>> lines;
    std::size_t most = done.changed.size();
    for (std::size_t i = from; i < from + count; ++i) {
      lines.push_back(plan.changes[i].lines);
      most += lines.back().size();
    }
    done.changed.reserve(most);
    const auto files = disk().write();
    const auto note = [&] {
      for (std::size_t i = 0; i < files->placed(); ++i) {
        for (std::string& line : lines[i]) {
          done.changed.push_back(std::move(line));
        }
      }
    };
    try {
      for (std::size_t i = from; i < from + count; ++i) {
        const ForgetPlan::Change& change = plan.changes[i];
        files->rewrite(change.path, change.after, change.before);
      }
      files->finish();
    } catch (...) {
      note();
      throw;
    }
    note();
  }
}

void delete_file(const ForgetPlan::Deletion& deletion, Done& done) {
  const FilePath& path = deletion.path;
  if (disk().own_status(path).kind == Standing::none) return;
  // Whoever put something else there since it was read keeps that.
  const auto& before = deletion.before;
  const bool own = is_own(deletion.kind, disk(), path) &&
                   (!before || disk().read(path, before->size()) == *before);
  if (!own) {
    throw MachineError(fmt::format(
        "cannot delete {}: it was changed in the meantime", path.string()));
  }
  std::string name = path.string();
  if (disk().remove_file(path)) done.deleted.push_back(std::move(name));
}

// There is room for the names of all in `done` already.
void delete_files(const ForgetPlan& plan, Done& done) {
  std::string why;
  for (std::size_t i = 0; i < plan.deletions.size(); ++i) {
    try {
      try {
        delete_file(plan.deletions[i], done);
      } catch (const MachineError& fault) {
        why += fmt::format("{}{}", why.empty() ? "" : "; ", fault.what());
      }
    } catch (const std::bad_alloc&) {
      errno = ENOMEM;
      for (; i < plan.deletions.size(); ++i) {
        note_not_deleted(plan.deletions[i].path.c_str());
      }
      throw;
    }
  }
  // A learner's folder tells the next run that there is something left to do.
  if (!why.empty()) throw MachineError(why);
  for (const FilePath& folder : plan.empty_folders) {
    std::string name = folder_line(folder);
    if (disk().remove_folder(folder)) done.deleted.push_back(std::move(name));
  }
}

int forget(const CommandLine& line, Done& done) {
  for (int tries = 1;; ++tries) {
    std::deque<SourceFile> sources;
    Diagnostics diagnostics;
    const ForgetPlan plan = plan_forgetting(line, sources, diagnostics);
    print(diagnostics);
    if (diagnostics.has_errors()) {
      fmt::print(
          stderr,
          "sheaf forget: nothing {}was changed; put these files right, or move "
          "those that are not records elsewhere, then try again\n",
          done.is_nothing() ? "" : "more ");
      done.print();
      return kFaultsInFiles;
    }
    if (plan.has_nothing() && done.changed.empty()) {
      fmt::print("the code {} was not found anywhere\n",
                 printable(line.arguments.front()));
      return kDone;
    }
    if (!line.marking.yes) {
      show(plan);
      return kDone;
    }
    done.deleted.reserve(plan.deletions.size() + plan.empty_folders.size());
    try {
      change_files(plan, done);
    } catch (const FileChanged&) {
      // Someone saved a file since it was read: it is read again.
      if (tries == kMostTries) throw;
      continue;
    }
    delete_files(plan, done);
    done.print();
    std::vector<std::string> left;
    for (const ForgetPlan::Left& one : plan.left) left.push_back(one.after);
    print_lines("left, for you to look at:", left);
    fmt::print(
        "pages made from these records before (from `mark --pdf` and `progress "
        "--pdf`) may still show the code: make them again\n");
    return kDone;
  }
}

}  // namespace

int run_forget(const CommandLine& line) {
  if (!is_learner_code(line.arguments.front())) {
    fmt::print(stderr, "sheaf forget: this needs a learner's code: {}\n",
               kLearnerCodeForm);
    return kWrongCommandLine;
  }
  Done done;
  try {
    return forget(line, done);
  } catch (const MachineError& fault) {
    if (done.is_nothing()) {
      throw MachineError(fmt::format("{}; nothing was changed", fault.what()));
    }
    done.print();
    throw;
  }
}

}  // namespace sheaf
