// Records, to progress and its pages. Two bytes come before: how much memory
// there is (see short_memory.h), and whose pages are made. Then a record file,
// or several, each after a line `%%`.

#include "driver/marking_desk.h"
#include "fuzz_checks.h"
#include "ground.h"
#include "layout/style.h"
#include "marking/growth.h"
#include "pdf/pdf_writer.h"
#include "pdf_form.h"
#include "reports/home_report.h"
#include "reports/mark_report.h"
#include "reports/meeting_report.h"
#include "reports/progress_report.h"
#include "short_memory.h"

namespace {

using namespace sheaf;
using sheaf::fuzz::require;

constexpr std::size_t kMostRecords = 8;

fuzz::Ground& ground() {
  static auto* const made = [] {
    auto* const all = new fuzz::Ground;
    for (const char* name : {"class.yaml", "week-01-sh.yaml", "week-05-ee.yaml",
                             "check-1.yaml", "probes/probe-a.yaml"}) {
      all->put(FilePath("term") / name,
               (FilePath("lessons/demo-term") / name).string());
    }
    all->put("term/pupils.yaml", "tests/pupils.yaml");
    all->put("term/ai-ay.yaml", "tests/lessons/ai-ay.yaml");
    return all;
  }();
  return *made;
}

void check_share(const Share& share) {
  require(share.right >= 0 && share.right <= share.of);
}

void check_progress(const std::vector<LearnerProgress>& learners) {
  for (const LearnerProgress& learner : learners) {
    for (const PatternProgress& p : learner.patterns) {
      for (const Share& share : {p.window, p.all, p.week, p.new_words, p.later,
                                 p.writing, p.before, p.listed}) {
        check_share(share);
      }
      require(!p.why.empty() && p.days >= 0);
      Date before{};
      for (const ProgressPoint& point : p.points) {
        require(point.date >= before);
        before = point.date;
        check_share(point.share);
        check_share(point.new_words);
      }
    }
    for (const SequencePoint& point : learner.sequences) {
      require(point.sequences.correct <= point.sequences.possible);
      check_share(point.words);
    }
  }
}

void add_pages(const ReportMaker& maker, char whose,
               const std::vector<MarkedRecord>& records,
               const std::vector<LearnerProgress>& learners,
               const ProgressGround& rules) {
  if (whose == 'm') {
    for (const MarkedRecord& marked : records) {
      add_mark_report(maker, marked.session, marked.patterns, rules.catalogue,
                      date_text(marked.session.date));
    }
    return;
  }
  const Sessions sessions = sessions_of(records);
  if (whose == 'g') add_group_report(maker, learners, rules);
  for (const LearnerProgress& learner : learners) {
    const Growth growth = growth_of(learner, GoalWish{});
    if (whose == 'h') {
      add_home_report(maker, learner, growth, sessions, rules.catalogue);
    } else if (whose == 'e') {
      add_meeting_report(maker, learner, growth, sessions, rules);
    } else {
      add_learner_report(maker, learner, growth, rules);
    }
  }
}

void make_progress(const std::string& folder, char whose) {
  Workspace workspace(ground().workspace);
  std::vector<std::string> faults;
  MarkingDesk desk(workspace, {}, faults);
  Diagnostics found;
  const std::vector<MarkedRecord> records = desk.mark({folder}, found);
  fuzz::check_messages(found);
  if (found.has_errors() || records.empty()) return;
  const ProgressRules rules;
  const PatternCatalogue& catalogue = desk.phonics().patterns();
  const std::vector<LearnerProgress> learners =
      class_progress(sessions_of(records), desk.taught_lessons(records),
                     catalogue, rules, records.back().session.date);
  check_progress(learners);
  // Blank: no pages.
  if (whose == ' ' || learners.empty()) return;
  std::vector<Date> days;
  for (const MarkedRecord& marked : records) {
    days.push_back(marked.session.date);
  }
  const OptionValues settings(page_options());
  const Style style = make_style(settings, workspace.fonts(), found);
  Shaper shaper;
  Document document;
  document.title = "Progress";
  add_pages({shaper, style, document}, whose, records, learners,
            {catalogue, rules, days});
  if (!document.pages.empty()) {
    fuzz::check_pdf(write_pdf(document), document.pages.size());
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data,
                                      std::size_t size) {
  if (size < 2 || size > 6000) return 0;
  MemoryFiles& files = ground().shipped.files;
  std::string_view rest = fuzz::text_of(data + 2, size - 2);
  std::vector<FilePath> names;
  while (names.size() < kMostRecords) {
    constexpr std::string_view kBetween = "\n%%\n";
    const std::size_t end = std::min(rest.find(kBetween), rest.size());
    names.push_back(FilePath("term/records") /
                    ("r" + std::to_string(names.size()) + ".yaml"));
    files.put(names.back(), std::string(rest.substr(0, end)));
    if (end == rest.size()) break;
    rest.remove_prefix(end + kBetween.size());
  }
  fuzz::run_short(data[0], [&] {
    make_progress("term/records", static_cast<char>(data[1]));
  });
  for (const FilePath& name : names) files.forget(name);
  return 0;
}
