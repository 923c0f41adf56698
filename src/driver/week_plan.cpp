#include "driver/week_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>

#include "base/utf8.h"
#include "driver/fresh_set.h"
#include "driver/probes_to_come.h"
#include "files/files.h"
#include "input/file_kind.h"
#include "marking/scores.h"

namespace sheaf {

namespace {

constexpr int kLastSet = 4;

class UnitMaker {
 public:
  UnitMaker(MarkingDesk& desk, Workspace& workspace,
            const ClassFile& class_file, const FilePath& folder,
            const std::vector<MarkedRecord>& records,
            const std::vector<std::string>& allowed_folders,
            Diagnostics& diagnostics)
      : desk_(desk),
        workspace_(workspace),
        class_(class_file),
        folder_(folder),
        records_(records),
        diagnostics_(diagnostics),
        probes_(desk, workspace, class_file, folder, records, allowed_folders) {
    request_.allowed_folders = allowed_folders;
  }

  std::vector<WeekUnit> make() {
    for (const LearnerEntry& learner : class_.learners) add(learner);
    // All of them before their neighbours are looked at, in silence.
    for (WeekUnit& unit : units_) find_lesson(unit);
    for (WeekUnit& unit : units_) {
      if (unit.taught == nullptr) continue;
      find_evidence(unit);
      find_next(unit);
      make_again(unit);
    }
    return std::move(units_);
  }

 private:
  void add(const LearnerEntry& learner) {
    const PlacedWord lesson = settings_for(class_, learner).lesson;
    if (!lesson.given()) return;
    auto unit = std::ranges::find_if(units_, [&](const WeekUnit& known) {
      return known.place.begin == lesson.span.begin;
    });
    if (unit == units_.end()) {
      unit = units_.insert(units_.end(),
                           {.name = name_of_place(learner, lesson.span),
                            .place = lesson.span,
                            .lesson = lesson.value});
    }
    unit->codes.push_back(learner.code.value);
  }

  std::string name_of_place(const LearnerEntry& learner,
                            const Span& place) const {
    if (learner.settings.lesson.span.begin == place.begin &&
        learner.settings.lesson.given()) {
      return learner.code.value.text();
    }
    for (const GroupEntry& group : class_.groups) {
      if (group.settings.lesson.given() &&
          group.settings.lesson.span.begin == place.begin) {
        return group.name.value;
      }
    }
    return "class";
  }

  void find_lesson(WeekUnit& unit) {
    const auto found =
        workspace_.find_file(unit.lesson, folder_, request_.allowed_folders);
    if (found) {
      unit.taught =
          desk_.lesson(found->lexically_normal().string(), diagnostics_);
      return;
    }
    diagnostics_.error(
        diagnostic::no_lesson, unit.place,
        fmt::format("there is no lesson {} here", as_written(unit.lesson)),
        "put the lesson into the folder of the class file or below it");
  }

  bool is_same(const TaughtFile& a, const TaughtFile& b) const {
    return workspace_.files().status(a.path).is_same_as(
        workspace_.files().status(b.path));
  }

  // Of the latest day, its learners alone.
  void find_evidence(WeekUnit& unit) {
    const MarkedRecord* latest = nullptr;
    for (const MarkedRecord& marked : records_) {
      const bool has_any =
          std::ranges::any_of(unit.codes, [&](const LearnerCode& code) {
            return marked.session.find(code) != nullptr;
          });
      if (marked.lesson != nullptr && has_any &&
          marked.session.kind == Record::Kind::dictation &&
          is_same(*marked.lesson, *unit.taught)) {
        latest = &marked;
      }
    }
    if (latest == nullptr) {
      unit.proposal.why = "no record of a dictation of it";
      return;
    }
    SessionResult own = latest->session;
    std::erase_if(own.learners, [&](const LearnerResult& learner) {
      return std::ranges::find(unit.codes, learner.code) == unit.codes.end();
    });
    unit.written = own.date;
    unit.proposal = propose_week(score_session(
        own, unit.taught->patterns(), workspace_.phonics().patterns()));
  }

  // As the class file names a file beside the unit's lesson.
  static std::string beside(const WeekUnit& unit, const std::string& file) {
    return (FilePath(unit.lesson).parent_path() / FilePath(file)).string();
  }

  // Forms of a probe and checks are no week's lesson.
  static bool teaches_nothing(const Lesson& lesson) {
    return lesson.placement.given() || lesson.layout.value == "probe" ||
           lesson.layout.value == "check";
  }

  void find_next(WeekUnit& unit) {
    const FilePath own = unit.taught->path;
    const int step = unit.taught->analyzed.taught.step();
    const FilePath home =
        own.parent_path().empty() ? FilePath(".") : own.parent_path();
    int best = -1;
    std::optional<FilePath> next;
    for (const FilePath& path : yaml_files(workspace_.files(), home)) {
      const std::string name = path.filename().string();
      if (name == own.filename().string() || name.starts_with('.')) continue;
      const Beside& other = look_at(path);
      if (!other.teaches) continue;
      if (step < 0) {
        if (name > own.filename().string() && !next) next = path;
      } else if (other.step > step && (best < 0 || other.step < best)) {
        best = other.step;
        next = path;
      }
    }
    if (!next) return;
    Diagnostics unheard;
    unit.next = beside(unit, next->filename().string());
    unit.next_taught = desk_.lesson(next->lexically_normal().string(), unheard);
  }

  // What is asked of a file beside a lesson.
  struct Beside {
    bool teaches = false;  // a lesson of a week
    int step = -1;
  };

  // A year of lessons is not kept in memory at once.
  const Beside& look_at(const FilePath& path) {
    const std::string name = path.lexically_normal().string();
    const auto [found, fresh] = beside_.try_emplace(name);
    Beside& its = found->second;
    if (!fresh || likely_kind(workspace_.open(path)) != FileKind::lesson) {
      return its;
    }
    const bool known = desk_.has_lesson(name);
    Diagnostics unheard;  // it is told once somebody has that lesson
    const TaughtFile* lesson = desk_.lesson(name, unheard);
    if (lesson != nullptr) {
      its.teaches = !teaches_nothing(lesson->lesson);
      its.step = lesson->analyzed.taught.step();
    }
    if (!known) desk_.give_up_lesson(name);
    return its;
  }

  void make_again(WeekUnit& unit) {
    const TaughtFile& taught = *unit.taught;
    std::string stem = taught.name;
    if (const auto end = stem.rfind("-set-"); end != std::string::npos) {
      stem.resize(end);
    }
    std::optional<std::size_t> fewest;
    const std::vector<std::string> kept_back = probes_.words(unit.codes);
    for (int set = taught.lesson.set.value + 1; set <= kLastSet; ++set) {
      const std::string name = fmt::format("{}-set-{}.yaml", stem, set);
      const FilePath path = FilePath(taught.path).parent_path() / name;
      if (workspace_.files().is_file(path)) {
        unit.again = beside(unit, name);
        unit.again_text.clear();
        return;
      }
      auto fresh = fresh_set(workspace_, request_, taught, set, kept_back);
      if (!fresh || (fewest && *fewest <= fresh->shared)) continue;
      fewest = fresh->shared;
      unit.again = beside(unit, name);
      unit.again_text = std::move(fresh->text);
    }
  }

  MarkingDesk& desk_;
  Workspace& workspace_;
  const ClassFile& class_;
  FilePath folder_;
  const std::vector<MarkedRecord>& records_;
  Diagnostics& diagnostics_;
  ProbesToCome probes_;
  LessonRequest request_;
  std::map<std::string, Beside> beside_;
  std::vector<WeekUnit> units_;
};

// A group whose lesson another unit took over has nothing to say against it.
std::optional<WeekStep> step_of(const WeekUnit& unit,
                                const WeekDecisions& decisions) {
  const auto decided = decisions.find(unit.name);
  if (decided != decisions.end()) return decided->second;
  if (!unit.proposal.known) return std::nullopt;
  return unit.proposal.step;
}

}  // namespace

std::vector<WeekUnit> week_units(
    MarkingDesk& desk, Workspace& workspace, const ClassFile& class_file,
    const FilePath& folder, const std::vector<MarkedRecord>& records,
    const std::vector<std::string>& allowed_folders, Diagnostics& diagnostics) {
  return UnitMaker(desk, workspace, class_file, folder, records,
                   allowed_folders, diagnostics)
      .make();
}

std::vector<ComingLesson> coming_lessons(const WeekUnit& unit,
                                         std::optional<WeekStep> step) {
  std::vector<ComingLesson> coming;
  for (const LearnerCode& code : unit.codes) {
    const bool stays = !step || *step == WeekStep::stay ||
                       (*step == WeekStep::split &&
                        std::ranges::find(unit.proposal.not_there, code) !=
                            unit.proposal.not_there.end());
    const TaughtFile* lesson = stays ? unit.taught : unit.next_taught;
    coming.push_back({code, lesson == nullptr ? std::vector<PatternId>{}
                                              : lesson->patterns()});
  }
  return coming;
}

std::optional<WeekFiles> week_files(const ClassFile& class_file,
                                    const std::vector<WeekUnit>& units,
                                    const WeekDecisions& decisions,
                                    std::string& fault) {
  WeekFiles files;
  std::vector<LessonChange> changes;
  std::map<LearnerCode, std::string> own, wanted;
  for (const WeekUnit& unit : units) {
    for (const LearnerCode& code : unit.codes) wanted[code] = unit.lesson;
    const auto step = step_of(unit, decisions);
    if (!step) continue;
    if (*step != WeekStep::stay && unit.next.empty()) {
      fault = fmt::format(
          "{} has no lesson after {} in its folder; write one, or decide `{}`",
          sheaf::quoted(unit.name), sheaf::quoted(unit.lesson),
          week_step_name(WeekStep::stay));
      return std::nullopt;
    }
    if (*step != WeekStep::go_on && unit.again.empty()) {
      fault = fmt::format("there are no fresh words for {}",
                          sheaf::quoted(unit.lesson));
      return std::nullopt;
    }
    if (*step != WeekStep::go_on && !unit.again_text.empty()) {
      files.lessons[unit.again] = unit.again_text;
    }
    const std::string& lesson =
        *step == WeekStep::stay ? unit.again : unit.next;
    changes.push_back({unit.place, lesson});
    for (const LearnerCode& code : unit.codes) {
      const bool stays = *step == WeekStep::split &&
                         std::ranges::find(unit.proposal.not_there, code) !=
                             unit.proposal.not_there.end();
      wanted[code] = stays ? unit.again : lesson;
      if (stays) own[code] = unit.again;
    }
  }
  auto text = with_lessons(class_file, changes, own);
  bool as_meant = text.has_value();
  if (as_meant) {
    const SourceFile file(class_file.file->name(), *text);
    Diagnostics unheard;
    const ClassFile read = read_class(file, unheard);
    for (const LearnerEntry& learner : read.learners) {
      const auto lesson = wanted.find(learner.code.value);
      as_meant = as_meant &&
                 (lesson == wanted.end() ||
                  settings_for(read, learner).lesson.value == lesson->second);
    }
  }
  if (!as_meant) {
    fault =
        "the class file has no room for these lessons; write the learners "
        "below each other, as in `B7: {group: Red}`";
    return std::nullopt;
  }
  files.class_text = std::move(*text);
  return files;
}

}  // namespace sheaf
