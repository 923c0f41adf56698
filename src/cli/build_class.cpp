// `sheaf build --class`: a packet for each learner of a class, all of them in
// one file for the printer, and the teacher's pages.

#include <fmt/format.h>

#include "base/utf8.h"
#include "cli/build_class.h"
#include "cli/dependencies.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/packet_files.h"
#include "cli/pdf_titles.h"
#include "cli/progress.h"
#include "cli/requests.h"
#include "driver/class_job.h"
#include "files/files.h"
#include "pdf/pdf_writer.h"

namespace sheaf {

namespace fs = std::filesystem;

namespace {

class ClassWriter {
 public:
  ClassWriter(Workspace& workspace, const CommandLine& line,
              const ClassJob& job, const fs::path& folder,
              Diagnostics& diagnostics)
      : workspace_(workspace),
        line_(line),
        job_(job),
        diagnostics_(diagnostics),
        files_(folder) {}

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
        files_.add(
            compose_teacher(workspace_, {&learner}, line_.only, diagnostics_),
            fs::path(learner.code) / (sheets.empty()
                                          ? "teacher.pdf"
                                          : "teacher-" + sheets + ".pdf"));
      }
    } else {
      write_teacher(sheets.empty() ? "teacher" : "teacher-" + sheets);
    }
  }

  void finish(MadeFrom* made, std::vector<std::string>& targets) {
    files_.finish(workspace_, made);
    targets.insert(targets.end(), files_.paths().begin(), files_.paths().end());
    fmt::print("{}: {} packets, {} pages for learners, {} for the teacher\n",
               printable(files_.folder().string()), job_.learners.size(),
               learner_pages_, teacher_pages_);
  }

 private:
  void write_learners(const std::string& name) {
    Progress progress(job_.learners.size(), "packets");
    PrintRun run;
    PdfWriter all({title(kAllPackets)});
    for (const LearnerJob& learner : job_.learners) {
      Document packet =
          compose_learner(workspace_, learner, line_.only, diagnostics_);
      learner_pages_ += packet.pages.size();
      files_.add(packet, fs::path(learner.code) / (name + ".pdf"));
      if (line_.learners.empty()) {
        run.add(packet, learner.code);
        all.add(packet);
      }
      progress.step();
    }
    add(all, (name == "packet" ? "packets" : name) + ".pdf");
  }

  void write_teacher(const std::string& name) {
    PrintRun run;
    PdfWriter all({title(kAllTeachersPages)});
    for (const auto& learners : by_teacher_key(job_)) {
      Document pages =
          compose_teacher(workspace_, learners, line_.only, diagnostics_);
      teacher_pages_ += pages.pages.size();
      run.add(pages, learners.front()->code);
      all.add(pages);
    }
    add(all, name + ".pdf");
  }

  std::string title(std::string_view what) const {
    const std::string& own = job_.class_file.title.value;
    return own.empty() ? std::string(what) : fmt::format("{}, {}", own, what);
  }

  void add(PdfWriter& pages, const fs::path& name) {
    if (pages.page_count() > 0) files_.add(pages.finish(), name);
  }

  Workspace& workspace_;
  const CommandLine& line_;
  const ClassJob& job_;
  Diagnostics& diagnostics_;
  PacketFiles files_;
  std::size_t learner_pages_ = 0, teacher_pages_ = 0;
};

}  // namespace

bool make_class(Workspace& workspace, const CommandLine& line,
                const std::string& path, const fs::path& folder, MadeFrom* made,
                std::vector<std::string>& targets) {
  Diagnostics diagnostics;
  const auto job =
      prepare_class(workspace, class_request(line), path, diagnostics);
  if (job == nullptr) {
    print(diagnostics);
    return false;
  }
  ClassWriter writer(workspace, line, *job, folder, diagnostics);
  writer.write();
  print(diagnostics);
  if (!diagnostics.has_errors()) writer.finish(made, targets);
  return !diagnostics.has_errors();
}

int build_class(Workspace& workspace, const CommandLine& line) {
  if (line.arguments.size() > 1 || line.separate) {
    fmt::print(stderr, "sheaf: {}\n",
               line.separate ? "--separate goes with lessons, not with a class"
                             : "name at most one lesson with --class");
    return kWrongCommandLine;
  }
  std::vector<std::string> targets;
  const fs::path folder = fs::path(line.out) / fs::path(line.class_file).stem();
  if (!make_class(workspace, line, line.class_file, folder, nullptr, targets)) {
    return kFaultsInFiles;
  }
  write_dependencies(workspace, line, targets);
  return kDone;
}

}  // namespace sheaf
