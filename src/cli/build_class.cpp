// `sheaf build --class`: a packet for each learner of a class, all of them in
// one file for the printer, and the teacher's pages.

#include <fmt/format.h>

#include "cli/class_job.h"
#include "cli/dependencies.h"
#include "cli/exit_codes.h"
#include "cli/files.h"
#include "cli/output_files.h"
#include "cli/pdf_titles.h"
#include "cli/progress.h"
#include "cli/verbs.h"
#include "pdf/pdf_writer.h"

namespace sheaf {

namespace fs = std::filesystem;

namespace {

class ClassWriter {
 public:
  ClassWriter(Workspace& workspace, const CommandLine& line,
              const ClassJob& job, Diagnostics& diagnostics)
      : workspace_(workspace),
        line_(line),
        job_(job),
        diagnostics_(diagnostics),
        folder_(fs::path(line.out) / fs::path(line.class_file).stem()) {}

  void write() {
    // Sheets printed by themselves do not take the place of the packet.
    std::string sheets;
    for (const std::string& name : line_.only) {
      sheets += (sheets.empty() ? "" : "+") + name;
    }
    write_learners(sheets.empty() ? "packet" : sheets);
    // Some of the learners only: what was printed for all of them stays.
    if (!line_.learners.empty()) {
      for (const LearnerJob& learner : job_.learners) {
        add(compose_teacher(workspace_, line_, {&learner}, diagnostics_),
            folder_ / learner.code /
                (sheets.empty() ? "teacher.pdf"
                                : "teacher-" + sheets + ".pdf"));
      }
    } else {
      write_teacher(sheets.empty() ? "teacher" : "teacher-" + sheets);
    }
  }

  void finish() {
    files_.finish();
    write_dependencies(workspace_, line_, targets_);
    fmt::print("{}: {} packets, {} pages for learners, {} for the teacher\n",
               folder_.string(), job_.learners.size(), learner_pages_,
               teacher_pages_);
  }

 private:
  void write_learners(const std::string& name) {
    Progress progress(job_.learners.size(), "packets");
    PrintRun run;
    PdfWriter all({title(kAllPackets)});
    for (const LearnerJob& learner : job_.learners) {
      Document packet =
          compose_learner(workspace_, line_, learner, diagnostics_);
      learner_pages_ += packet.pages.size();
      add(packet, folder_ / learner.code / (name + ".pdf"));
      if (line_.learners.empty()) {
        run.add(packet, learner.code);
        all.add(packet);
      }
      progress.step();
    }
    add(all, folder_ / ((name == "packet" ? "packets" : name) + ".pdf"));
  }

  void write_teacher(const std::string& name) {
    PrintRun run;
    PdfWriter all({title(kAllTeachersPages)});
    for (const auto& learners : by_teacher_key(job_)) {
      Document pages =
          compose_teacher(workspace_, line_, learners, diagnostics_);
      teacher_pages_ += pages.pages.size();
      run.add(pages, learners.front()->code);
      all.add(pages);
    }
    add(all, folder_ / (name + ".pdf"));
  }

  std::string title(std::string_view what) const {
    const std::string& own = job_.class_file.title.value;
    return own.empty() ? std::string(what) : fmt::format("{}, {}", own, what);
  }

  void add(const Document& document, const fs::path& path) {
    if (!document.pages.empty()) add(write_pdf(document), path);
  }
  void add(PdfWriter& pages, const fs::path& path) {
    if (pages.page_count() > 0) add(pages.finish(), path);
  }
  void add(const std::string& pdf, const fs::path& path) {
    files_.add(path, pdf, OwnKind::pdf, kPacketWayOut);
    targets_.push_back(path.string());
  }

  Workspace& workspace_;
  const CommandLine& line_;
  const ClassJob& job_;
  Diagnostics& diagnostics_;
  fs::path folder_;
  OutputFiles files_;
  std::vector<std::string> targets_;
  std::size_t learner_pages_ = 0, teacher_pages_ = 0;
};

}  // namespace

int build_class(Workspace& workspace, const CommandLine& line) {
  if (line.arguments.size() > 1 || line.separate) {
    fmt::print(stderr, "sheaf: {}\n",
               line.separate ? "--separate goes with lessons, not with a class"
                             : "name at most one lesson with --class");
    return kWrongCommandLine;
  }
  Diagnostics diagnostics;
  const auto job = prepare_class(workspace, line, line.class_file, diagnostics);
  if (job == nullptr) {
    print(diagnostics);
    return kFaultsInFiles;
  }
  ClassWriter writer(workspace, line, *job, diagnostics);
  writer.write();
  print(diagnostics);
  if (!diagnostics.has_errors()) writer.finish();
  return diagnostics.has_errors() ? kFaultsInFiles : kDone;
}

}  // namespace sheaf
