#include "driver/packets.h"

#include <fmt/format.h>

#include <atomic>
#include <cctype>
#include <deque>
#include <set>

#include "analysis/lesson_size.h"
#include "base/pool.h"
#include "driver/pdf_titles.h"
#include "pdf/pdf_writer.h"

namespace sheaf {

namespace {

void add_file(MadePackets& made, const Document& document, FilePath name) {
  if (document.pages.empty()) return;
  made.files.push_back({std::move(name), write_pdf(document)});
}

// A file for each sheet of the layout, or each that is asked for.
void add_separate(MadePackets& made, const PreparedLesson& lesson,
                  const LessonRequest& request, Workspace& workspace) {
  std::set<std::string> names(request.only.begin(), request.only.end());
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
    add_file(made,
             find_sheet_kind(name)->for_teacher ? one.teacher : one.learner,
             name + ".pdf");
  }
}

// Packets of hundreds of pages are made one after the other: all that several
// workers hold of them, and what waits for its turn, would take too much
// memory.
int workers_for(const ClassJob& job, int workers) {
  constexpr std::size_t kManySheets = 60;
  constexpr std::size_t kManyWords = 5000;
  const bool large =
      std::ranges::any_of(job.learners, [](const LearnerJob& learner) {
        return learner.layout.sheets.size() > kManySheets;
      });
  const bool is_long = std::ranges::any_of(
      job.prepared, [](const std::unique_ptr<PreparedLesson>& lesson) {
        return size_of(lesson->analyzed).words > kManyWords;
      });
  return large || is_long ? 1 : workers;
}

class ClassMaker {
 public:
  ClassMaker(Workspace& workspace, const ClassRequest& request,
             const ClassJob& job, int workers,
             const std::function<void(std::size_t)>& step, MadePackets& made)
      : workspace_(workspace),
        request_(request),
        job_(job),
        workers_(workers_for(job, workers)),
        step_(step),
        made_(made),
        shapers_(static_cast<std::size_t>(std::max(workers_, 1))) {}

  void make() {
    made_.learners = job_.learners.size();
    // Sheets printed by themselves do not take the place of the packet.
    const std::string sheets =
        fmt::format("{}", fmt::join(request_.lesson.only, "+"));
    add_learners(sheets.empty() ? "packet" : sheets);
    if (full_) return;
    if (all_in_one()) {
      add_teacher((sheets.empty() ? "teacher" : "teacher-" + sheets) +
                  for_whom());
    }
    if (request_.learners.empty()) return;
    for (const LearnerJob& learner : job_.learners) {
      const Document pages =
          compose_teacher(workspace_.shaper(), {&learner}, request_.lesson.only,
                          made_.diagnostics);
      if (!pages_.add(learner, pages.pages.size(), made_.diagnostics)) return;
      add_file(
          made_, pages,
          FilePath(learner.code.text()) /
              (sheets.empty() ? "teacher.pdf" : "teacher-" + sheets + ".pdf"));
    }
  }

 private:
  struct Composed {
    Document pages;
    std::string pdf;
    Diagnostics diagnostics;
  };

  // One learner's pages are one file already.
  bool all_in_one() const {
    return request_.learners.empty() || job_.learners.size() > 1;
  }

  // What the names of files for several learners end in: those for some of them
  // do not take the place of what was printed for all.
  std::string for_whom() const {
    if (request_.learners.empty()) return {};
    constexpr std::size_t kMostNamed = 8;
    std::string text = "-for";
    for (std::size_t i = 0; i < job_.learners.size(); ++i) {
      if (i == kMostNamed) {
        return text + fmt::format("-and-{}-more", job_.learners.size() - i);
      }
      text += "-" + job_.learners[i].code.text();
    }
    return text;
  }

  void add_learners(const std::string& name) {
    PrintRun run;
    PdfWriter all({title(kAllPackets), language()});
    const bool together = all_in_one();
    const std::vector<std::string> sharers =
        together ? add_shared_cuts(run, all) : std::vector<std::string>();
    std::vector<Composed> composed(job_.learners.size());
    work_in_order(
        composed.size(), workers_,
        [&](int worker, std::size_t i) {
          if (full_) return;
          Composed& one = composed[i];
          Shaper& shaper = shapers_[static_cast<std::size_t>(worker)];
          const LearnerJob& learner = job_.learners[i];
          one.pages = compose_learner(shaper, learner, request_.lesson.only,
                                      one.diagnostics);
          if (!one.pages.pages.empty()) one.pdf = write_pdf(one.pages);
          // The packet by itself has its cards all the same.
          if (std::ranges::find(sharers, learner.code.text()) !=
              sharers.end()) {
            Diagnostics heard;
            one.pages = compose_learner(shaper, learner, request_.lesson.only,
                                        heard, false);
          }
        },
        [&](std::size_t i) {
          Composed& one = composed[i];
          const std::string& code = job_.learners[i].code.text();
          add_unheard(one.diagnostics, made_.diagnostics);
          made_.learner_pages += one.pages.pages.size();
          if (full_ || !pages_.add(job_.learners[i], one.pages.pages.size(),
                                   made_.diagnostics)) {
            full_ = true;
            one = {};
            return;
          }
          if (!one.pdf.empty()) {
            made_.files.push_back(
                {FilePath(code) / (name + ".pdf"), std::move(one.pdf)});
          }
          if (together) {
            run.add(one.pages, code);
            all.add(one.pages);
          }
          one.pages = {};
          step_(composed.size());
        });
    add(all, (name == "packet" ? "packets" : name) + for_whom() + ".pdf");
  }

  // What is cut out comes first, since it is cut first.
  std::vector<std::string> add_shared_cuts(PrintRun& run, PdfWriter& all) {
    SharedCuts shared = compose_shared_cuts(
        workspace_.shaper(), job_, request_.lesson.only, made_.diagnostics);
    made_.learner_pages += shared.leaves.pages.size();
    if (!shared.leaves.pages.empty()) {
      run.add(shared.leaves, "Cards");
      all.add(shared.leaves);
    }
    return std::move(shared.learners);
  }

  void add_teacher(const std::string& name) {
    PrintRun run;
    PdfWriter all({title(kAllTeachersPages), language()});
    for (const auto& learners : by_teacher_key(job_)) {
      Document pages = compose_teacher(workspace_.shaper(), learners,
                                       request_.lesson.only, made_.diagnostics);
      made_.teacher_pages += pages.pages.size();
      if (!pages_.add(*learners.front(), pages.pages.size(),
                      made_.diagnostics)) {
        return;
      }
      run.add(pages, learners.front()->code.text());
      all.add(pages);
    }
    add(all, name + ".pdf");
  }

  // Without the title of the class, which may have a name in it: what a file
  // says of itself goes wherever the file goes.
  static std::string title(std::string_view what) {
    std::string alone(what);
    alone.front() = static_cast<char>(
        std::toupper(static_cast<unsigned char>(alone.front())));
    return alone;
  }

  // The learners of a class hear one teacher: the first of them tells.
  std::string language() const {
    return std::string(
        language_tag(job_.learners.front().lesson.conventions.accent));
  }

  void add(PdfWriter& pages, const FilePath& name) {
    if (pages.page_count() > 0) made_.files.push_back({name, pages.finish()});
  }

  Workspace& workspace_;
  const ClassRequest& request_;
  const ClassJob& job_;
  int workers_;
  const std::function<void(std::size_t)>& step_;
  MadePackets& made_;
  PagesOfRun pages_;
  std::atomic<bool> full_ = false;  // there are more pages than a run may have
  std::deque<Shaper> shapers_;      // one for each worker
};

}  // namespace

MadePackets make_lesson_packets(Workspace& workspace,
                                const LessonRequest& request,
                                const SourceFile& file, const FilePath& folder,
                                bool separate) {
  MadePackets made;
  const auto lesson =
      prepare_text(workspace, request, file, folder, made.diagnostics);
  if (lesson == nullptr) return made;
  const Packet packet = make_packet(
      lesson->analyzed, lesson->layout, *lesson->pictures, lesson->style,
      workspace.shaper(), request.only, made.diagnostics);
  if (!made.good()) return made;
  made.learner_pages = packet.learner.pages.size();
  made.teacher_pages = packet.teacher.pages.size();
  add_file(made, packet.learner, "packet.pdf");
  add_file(made, packet.teacher, "teacher.pdf");
  if (separate) add_separate(made, *lesson, request, workspace);
  return made;
}

MadePackets make_class_packets(Workspace& workspace,
                               const ClassRequest& request,
                               const std::string& path, int workers,
                               const std::function<void(std::size_t)>& step) {
  MadePackets made;
  const auto job = prepare_class(workspace, request, path, made.diagnostics);
  if (job == nullptr) return made;
  ClassMaker(workspace, request, *job, workers, step, made).make();
  if (!made.good()) made.files.clear();
  return made;
}

}  // namespace sheaf
