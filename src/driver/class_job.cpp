#include "driver/class_job.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <tuple>

#include "analysis/learner_lesson.h"
#include "analysis/lesson_size.h"
#include "base/nearest.h"
#include "base/shuffle.h"
#include "base/utf8.h"
#include "driver/find_layout.h"
#include "driver/marking_desk.h"
#include "files/files.h"

namespace sheaf {

namespace {

using Place =
    std::tuple<std::string_view, std::string, std::uint32_t, std::string_view>;

Place place_of(const Diagnostic& d) {
  return {d.name->name, d.span ? d.span.file->name() : "", d.span.begin,
          d.text};
}

// Of the lessons of a class, and of their word lists once more for each
// learner, who has a list of their own. Some 1.5 KB are kept for each word.
constexpr std::size_t kMostWordsOfClass = 60'000;

// The one sheet that shows what records say.
constexpr std::string_view kCardPiles = "card-piles";

class JobMaker {
 public:
  JobMaker(Workspace& workspace, const ClassRequest& request,
           const std::string& path, Diagnostics& diagnostics)
      : workspace_(workspace),
        request_(request),
        folder_(FilePath(path).parent_path()),
        diagnostics_(diagnostics),
        job_(std::make_unique<ClassJob>()) {
    job_->class_file = read_class(workspace.open(path), diagnostics);
  }

  std::unique_ptr<ClassJob> make() {
    if (diagnostics_.has_errors()) return nullptr;
    check_codes();
    for (const LearnerEntry& learner : job_->class_file.learners) {
      if (is_wanted(learner.code.value) && !add(learner)) break;
    }
    if (!diagnostics_.has_errors() && !request_.records.empty()) read_records();
    if (diagnostics_.has_errors()) return nullptr;
    return std::move(job_);
  }

 private:
  bool is_wanted(const LearnerCode& code) const {
    return request_.learners.empty() ||
           std::ranges::find(request_.learners, code) !=
               request_.learners.end();
  }

  void check_codes() {
    std::vector<std::string_view> codes;
    for (const LearnerEntry& learner : job_->class_file.learners) {
      codes.push_back(learner.code.value.text());
    }
    for (const LearnerCode& wanted : request_.learners) {
      if (std::ranges::find(codes, wanted.text()) != codes.end()) continue;
      diagnostics_.error(
          diagnostic::unknown_learner, {},
          fmt::format("the class has no learner {}", as_written(wanted.text())),
          did_you_mean(wanted.text(), codes));
    }
  }

  // False where there are too many words in all.
  bool add(const LearnerEntry& entry) {
    const LearnerSettings settings = settings_for(job_->class_file, entry);
    const PreparedLesson* prepared = prepared_for(entry, settings);
    if (prepared == nullptr) return true;
    if (!has_room_for(*prepared, entry, settings)) return false;
    LearnerJob learner;
    learner.code = entry.code.value;
    learner.place = entry.code.span;
    learner.prepared = prepared;
    Diagnostics own;
    learner.amount = settings.amount.value;
    // For one learner alone a script with these words in it is plainer.
    learner.own_words = !entry.settings.review_words.empty() &&
                        job_->class_file.learners.size() > 1;
    learner.lesson = lesson_for(
        prepared->analyzed,
        {learner.amount, settings.review_words, learner.own_words}, own);
    add_unheard(own, diagnostics_);
    learner.shared = memory_for(*prepared, learner.lesson);
    learner.layout = prepared->layout;
    set_pages(settings, prepared->style, learner.layout);
    std::string extra;
    for (const PlacedWord& name : settings.extra) {
      add_extra(name, learner.layout);
      extra += " " + name.value;
    }
    learner.style =
        make_style(learner.layout.settings, workspace_.fonts(), diagnostics_);
    learner.teacher_key =
        fmt::format("{} {}{}", learner.lesson.code,
                    std::ranges::find(job_->prepared, prepared,
                                      &std::unique_ptr<PreparedLesson>::get) -
                        job_->prepared.begin(),
                    extra);
    job_->learners.push_back(std::move(learner));
    return true;
  }

  // The list to work on is the whole of the lesson's, or so many of its words.
  std::shared_ptr<SharedMemory> memory_for(const PreparedLesson& prepared,
                                           const AnalyzedLesson& lesson) {
    auto& shared = shared_[{&prepared, lesson.words.size()}];
    if (shared == nullptr) shared = std::make_shared<SharedMemory>();
    return shared;
  }

  bool has_room_for(const PreparedLesson& prepared, const LearnerEntry& entry,
                    const LearnerSettings& settings) {
    const AnalyzedLesson& lesson = prepared.analyzed;
    const LessonSize size = size_of(lesson);
    if (counted_.insert(&prepared).second) words_ += size.words;
    words_ += lesson.words.size() + lesson.sort_words.size() +
              lesson.dictate_words.size();
    if (words_ <= kMostWordsOfClass || job_->learners.empty()) return true;
    Diagnostic& message = diagnostics_.error(
        diagnostic::too_many, entry.code.span,
        fmt::format(
            "with the learner {}, this class has more than {} words in "
            "its lessons, where word lists count for each learner; {} "
            "has {}",
            as_written(entry.code.value.text()), kMostWordsOfClass,
            as_written(
                FilePath(prepared.lesson.file->name()).filename().string()),
            size.words),
        "make that lesson shorter, or make two class files of this one");
    if (settings.lesson.given()) {
      message.remarks.push_back(
          {settings.lesson.span, "the lesson is asked for here"});
    }
    return false;
  }

  std::optional<FilePath> lesson_of(const LearnerEntry& entry,
                                    const LearnerSettings& settings) {
    const PlacedWord& name = settings.lesson;
    if (!name.given()) {
      if (!request_.lesson_file.empty()) return request_.lesson_file;
      diagnostics_.error(
          diagnostic::missing_key, entry.code.span,
          fmt::format("the learner {} has no lesson",
                      as_written(entry.code.value.text())),
          "write `lesson: NAME.yaml` for the learner, the group or the class, "
          "or name one for all of them: `sheaf build LESSON --class ...`");
      return std::nullopt;
    }
    auto found = workspace_.find_file(name.value, folder_,
                                      request_.lesson.allowed_folders);
    if (!found && !missing_.insert(name.span.begin).second) return found;
    if (!found) {
      diagnostics_.error(
          diagnostic::no_lesson, name.span,
          fmt::format("there is no lesson {} here", as_written(name.value)),
          "put the lesson into the folder of the class file or below it");
    }
    return found;
  }

  // The layout as the command line is to name it; empty: the lesson's own.
  std::optional<std::string> layout_of(const LearnerSettings& settings) {
    if (!request_.lesson.layout.empty()) return request_.lesson.layout;
    if (!settings.layout.given()) return "";
    Diagnostics own;
    const auto found = find_layout(workspace_, request_.lesson.allowed_folders,
                                   settings.layout, folder_, own);
    add_unheard(own, diagnostics_);
    if (!found) return std::nullopt;
    return found->string();
  }

  // The sequence and the step that the class file gives a learner.
  std::optional<LearnerPlace> place_of_learner(
      const LearnerSettings& settings) {
    LearnerPlace place{{}, settings.step};
    const PlacedWord& name = settings.sequence;
    if (!name.given()) return place;
    const auto found = workspace_.find_file(name.value, folder_,
                                            request_.lesson.allowed_folders);
    if (found) {
      place.sequence = *found;
      return place;
    }
    Diagnostics own;
    own.error(
        diagnostic::no_sequence, name.span,
        fmt::format("there is no sequence {} here", as_written(name.value)),
        "put the file into the folder of the class file or below it");
    add_unheard(own, diagnostics_);
    return std::nullopt;
  }

  // Pages of another place are other pages, so they have a code of their own.
  static void set_code(const LearnerPlace& place, PreparedLesson& prepared,
                       Diagnostics& diagnostics) {
    if (place.step.given() && prepared.sequence_file == nullptr) {
      diagnostics.note(diagnostic::not_used_yet, place.step.span,
                       "the lesson has no sequence, so this step has no effect",
                       "name one with `sequence: sequence.yaml`");
      return;
    }
    if (place.sequence.empty() && !place.step.given()) return;
    prepared.analyzed.code = short_code(text_hash(
        fmt::format("{} {} {}", prepared.analyzed.code, place.step.value,
                    place.sequence.filename().string())));
  }

  const PreparedLesson* prepared_for(const LearnerEntry& entry,
                                     const LearnerSettings& settings) {
    const auto lesson = lesson_of(entry, settings);
    const auto layout = layout_of(settings);
    const auto place = place_of_learner(settings);
    if (!lesson || !layout || !place) return nullptr;
    const Key key{lesson->string(), *layout, place->sequence.string(),
                  place->step.value};
    if (const auto known = known_.find(key); known != known_.end()) {
      return known->second;
    }
    LessonRequest own_request = request_.lesson;
    own_request.layout = *layout;
    Diagnostics own;
    auto prepared =
        prepare(workspace_, own_request, lesson->string(), own, *place);
    if (prepared != nullptr) set_code(*place, *prepared, own);
    add_unheard(own, diagnostics_);
    known_[key] = prepared.get();
    if (prepared == nullptr) return nullptr;
    job_->prepared.push_back(std::move(prepared));
    return job_->prepared.back().get();
  }

  void read_records() {
    const bool any =
        std::ranges::find(request_.lesson.only, kCardPiles) !=
            request_.lesson.only.end() ||
        std::ranges::any_of(job_->learners, [](const LearnerJob& learner) {
          return std::ranges::any_of(learner.layout.sheets,
                                     [](const LayoutPlan::Sheet& sheet) {
                                       return sheet.kind->name == kCardPiles;
                                     });
        });
    if (!any) {
      diagnostics_.note(
          diagnostic::not_used_yet, {},
          fmt::format("no layout here has the sheet `{}`, so the records have "
                      "no effect",
                      kCardPiles),
          fmt::format("add `- {}` to the layout", kCardPiles));
      return;
    }
    std::vector<std::string> faults;  // there are none without an accent
    MarkingDesk desk(workspace_,
                     {.allowed_folders = request_.lesson.allowed_folders},
                     faults);
    const std::vector<MarkedRecord> records =
        desk.mark({request_.records}, diagnostics_);
    job_->cards = std::make_unique<const CardEvidence>(
        card_evidence(sessions_of(records), desk.taught_lessons(records),
                      desk.phonics().patterns()));
    for (LearnerJob& learner : job_->learners) {
      learner.cards = job_->cards.get();
    }
  }

  // The height of writing lines, the room between letters, and what is heard of
  // pictures.
  static void set_pages(const LearnerSettings& settings, const Style& style,
                        LayoutPlan& layout) {
    if (settings.line_size.given()) {
      const Length height = settings.line_size.value;
      layout.settings.set_length("line-height", height);
      for (LayoutPlan::Sheet& sheet : layout.sheets) {
        for (const OptionSpec& spec : sheet.kind->options) {
          if (spec.name == "line-height" && spec.from_layout) {
            sheet.options.set_length(spec.name, height);
          }
        }
      }
    }
    // Parts of the type size: the wider is that of Zorzi et al. 2012 (2.5 pt
    // in 14 pt type, from memory), the other half as much.
    const double ratio = settings.spacing.value == "wider"  ? 0.18
                         : settings.spacing.value == "wide" ? 0.09
                                                            : 0;
    const Length spacing = scaled(style.reading_size, ratio);
    if (spacing > style.tracking) {
      layout.settings.set_length("letter-spacing", spacing);
    }
    if (settings.picture_names.given()) {
      layout.settings.set_choice("picture-names", settings.picture_names.value);
    }
  }

  void add_extra(const PlacedWord& name, LayoutPlan& layout) {
    const SheetKind* kind = find_sheet_kind(name.value);
    Diagnostics own;
    if (kind == nullptr) {
      std::vector<std::string_view> names;
      for (const SheetKind* known : sheet_kinds()) {
        if (!known->for_teacher) names.push_back(known->name);
      }
      Help nearest = did_you_mean(name.value, names, Suggests::fixed_choice);
      own.error(
          diagnostic::unknown_sheet, name.span,
          fmt::format("there is no sheet called {}", as_written(name.value)),
          nearest.empty() ? "`sheaf sheets` lists them" : std::move(nearest));
    } else if (std::ranges::find(layout.sheets, kind,
                                 &LayoutPlan::Sheet::kind) !=
               layout.sheets.end()) {
      own.note(diagnostic::sheet_there_already, name.span,
               fmt::format("the layout already has the sheet {}",
                           as_written(name.value)));
    } else {
      layout.sheets.push_back(
          {kind, default_options(*kind, layout.settings), name.span, true});
    }
    add_unheard(own, diagnostics_);
  }

  Workspace& workspace_;
  const ClassRequest& request_;
  FilePath folder_;
  Diagnostics& diagnostics_;
  std::unique_ptr<ClassJob> job_;
  // A lesson, its layout, a sequence and a step.
  using Key = std::array<std::string, 4>;
  std::map<Key, const PreparedLesson*> known_;
  std::map<std::pair<const PreparedLesson*, std::size_t>,
           std::shared_ptr<SharedMemory>>
      shared_;
  std::set<std::uint32_t> missing_;
  std::set<const PreparedLesson*> counted_;
  std::size_t words_ = 0;  // of all learners so far
};

Packet compose(Shaper& shaper, const std::vector<std::string>& only,
               const LearnerJob& learner, const AnalyzedLesson& lesson,
               PacketFor whom, Diagnostics& diagnostics) {
  whom.cards = learner.cards;
  whom.shared = learner.shared.get();
  Diagnostics own;
  Packet packet =
      make_packet(lesson, learner.layout, *learner.prepared->pictures,
                  learner.style, shaper, only, own, whom);
  add_unheard(own, diagnostics);
  return packet;
}

}  // namespace

std::unique_ptr<ClassJob> prepare_class(Workspace& workspace,
                                        const ClassRequest& request,
                                        const std::string& path,
                                        Diagnostics& diagnostics) {
  return JobMaker(workspace, request, path, diagnostics).make();
}

bool PagesOfRun::add(const LearnerJob& learner, std::size_t pages,
                     Diagnostics& diagnostics) {
  const bool had_room = pages_ <= kMost;
  pages_ += pages;
  if (pages_ <= kMost) return true;
  if (had_room) {
    diagnostics.error(
        diagnostic::too_many, learner.place,
        fmt::format("with the learner {}, there are more than {} pages in all; "
                    "this packet has {}",
                    as_written(learner.code.text()), kMost, pages),
        "make the lesson shorter, leave sheets out of its layout, or make two "
        "class files of this one");
  }
  return false;
}

Document compose_learner(Shaper& shaper, const LearnerJob& learner,
                         const std::vector<std::string>& only,
                         Diagnostics& diagnostics, bool cut_leaf) {
  return compose(shaper, only, learner, learner.lesson,
                 {{learner.code.text()}, true, false, cut_leaf}, diagnostics)
      .learner;
}

Packet compose_learners_packet(Shaper& shaper, const LearnerJob& learner,
                               Diagnostics& diagnostics) {
  return compose(shaper, {}, learner, learner.lesson,
                 {{learner.code.text()}, true, false}, diagnostics);
}

SharedCuts compose_shared_cuts(Shaper& shaper, const ClassJob& job,
                               const std::vector<std::string>& only,
                               Diagnostics& diagnostics) {
  std::vector<CutsOf> learners;
  for (const LearnerJob& learner : job.learners) {
    learners.push_back({learner.code.text(), &learner.lesson, &learner.layout,
                        learner.prepared->pictures.get(), &learner.style,
                        learner.shared.get()});
  }
  Diagnostics own;
  SharedCuts shared = share_cuts(learners, only, shaper, own);
  add_unheard(own, diagnostics);
  return shared;
}

Document compose_teacher(Shaper& shaper,
                         const std::vector<const LearnerJob*>& learners,
                         const std::vector<std::string>& only,
                         Diagnostics& diagnostics) {
  PacketFor whom{{}, false, true};
  for (const LearnerJob* learner : learners) {
    whom.learners.push_back(learner->code.text());
  }
  const LearnerJob& first = *learners.front();
  if (std::ranges::none_of(learners, &LearnerJob::own_words)) {
    return compose(shaper, only, first, first.lesson, whom, diagnostics)
        .teacher;
  }
  std::vector<LearnersLesson> lessons;
  for (const LearnerJob* learner : learners) {
    lessons.push_back({learner->code.text(), &learner->lesson});
  }
  Diagnostics unheard;  // the learners' own pages have said it all
  const AnalyzedLesson shared = shared_lesson(
      lesson_for(first.prepared->analyzed, {.amount = first.amount}, unheard),
      lessons);
  return compose(shaper, only, first, shared, whom, diagnostics).teacher;
}

std::vector<std::vector<const LearnerJob*>> by_teacher_key(
    const ClassJob& job) {
  std::vector<std::vector<const LearnerJob*>> groups;
  for (const LearnerJob& learner : job.learners) {
    const auto group =
        std::ranges::find(groups, learner.teacher_key,
                          [](const auto& g) { return g.front()->teacher_key; });
    if (group == groups.end()) {
      groups.push_back({&learner});
    } else {
      group->push_back(&learner);
    }
  }
  return groups;
}

void add_unheard(const Diagnostics& more, Diagnostics& diagnostics) {
  std::set<Place> heard;
  for (const Diagnostic* d : diagnostics.sorted()) heard.insert(place_of(*d));
  for (const Diagnostic* d : more.sorted()) {
    if (!heard.insert(place_of(*d)).second) continue;
    Diagnostic& added =
        d->severity == Severity::error
            ? diagnostics.error(*d->name, d->span, d->text, d->help)
        : d->severity == Severity::warning
            ? diagnostics.warning(*d->name, d->span, d->text, d->help)
            : diagnostics.note(*d->name, d->span, d->text, d->help);
    added.remarks = d->remarks;
  }
}

}  // namespace sheaf
