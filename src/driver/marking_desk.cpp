#include "driver/marking_desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/error.h"
#include "base/nearest.h"
#include "base/pool.h"
#include "base/utf8.h"
#include "driver/class_roll.h"
#include "driver/placement_marks.h"
#include "driver/record_checks.h"
#include "driver/record_targets.h"
#include "driver/speech_of_class.h"
#include "files/files.h"
#include "input/file_kind.h"
#include "pictures/picture_words.h"

namespace sheaf {

std::vector<PatternId> TaughtFile::patterns() const {
  std::vector<PatternId> ids;
  for (const LessonPattern& pattern : analyzed.patterns) {
    ids.push_back(pattern.id);
  }
  return ids;
}

MarkingDesk::MarkingDesk(Workspace& workspace, MarkingRequest request,
                         std::vector<std::string>& faults)
    : workspace_(workspace),
      spellings_(workspace.phonics().lexicon().inventory()) {
  request_.allowed_folders = std::move(request.allowed_folders);
  workers_ = request.workers;
  options_.is_common_word = known_to_learners(workspace.phonics());
  options_.is_word = [&workspace](std::string_view word) {
    return workspace.phonics().knows(word);
  };
  if (!request.accent.empty()) {
    Conventions conventions;
    const auto fault = set_convention(conventions, "accent", request.accent);
    if (fault)
      faults.push_back(fmt::format("{}; {}", fault.text, fault.help.text));
    options_.speech.accent = conventions.accent;
  }
  for (const std::string& pair : request.confusions) {
    if (read_confusion(pair, options_.speech)) continue;
    faults.push_back(
        fmt::format("{} is not two sounds; write them as in `th/f` or `e/i`",
                    sheaf::quoted(pair)));
  }
  for (const std::string& name : request.speech) {
    if (add_variety(name, options_.speech)) continue;
    faults.push_back(
        fmt::format("{} is no way of speaking that Sheaf knows; `sheaf speech` "
                    "lists them",
                    sheaf::quoted(name)));
  }
}

namespace {

// What is dictated, taken out of the lesson: sentences at their limits are
// fifty thousand words, and nobody who marks asks for those to be read.
std::vector<DictatedItem> take_items(AnalyzedLesson& lesson) {
  std::vector<DictatedItem> items;
  const bool dictated =
      !lesson.dictate_words.empty() || !lesson.dictate_sentences.empty();
  for (const AnalyzedWord& word :
       dictated ? lesson.dictate_words : lesson.words) {
    DictatedItem& item = items.emplace_back(word.reading.word);
    item.words.own().push_back(word.reading);
  }
  for (AnalyzedSentence& sentence : lesson.dictate_sentences) {
    DictatedItem& item = items.emplace_back(sentence.text.text());
    std::vector<Reading>& words = item.words.own();
    for (AnalyzedSentence::Part& part : sentence.words.own()) {
      words.push_back(std::move(part.word.reading));
    }
    item.sentence = words.size() > 1;
  }
  lesson.dictate_words.clear();
  lesson.dictate_sentences.clear();
  lesson.sentences.clear();
  lesson.passage = {};
  return items;
}

// Without what a teacher has heard from `check` already.
void take_errors(const Diagnostics& all, Diagnostics& diagnostics) {
  for (const Diagnostic* d : all.sorted()) {
    if (d->severity != Severity::error) continue;
    diagnostics.error(*d->name, d->span, d->text, d->help).remarks = d->remarks;
  }
}

// Some two seconds and 100 MiB. A class of thirty comes to 130,000 in a year of
// weekly dictations, so whoever asks for more than this means harm or has a
// mistake in the files.
constexpr std::size_t kMostWork = 180'000;

}  // namespace

LessonPlan plan_as_printed(Workspace& workspace, const LessonRequest& request,
                           const FilePath& path, Lesson& lesson,
                           Diagnostics& diagnostics) {
  const auto has_picture = [&](std::string_view word) {
    const PictureWord* row = find_picture_word(word);
    if (row != nullptr && row->clear) return true;
    return std::ranges::any_of(lesson.pictures, [&](const auto& picture) {
      return lower_case(picture.first.value) == lower_case(word);
    });
  };
  return plan_lesson(workspace, request, path.parent_path(), lesson,
                     workspace.phonics(), has_picture, diagnostics);
}

const TaughtFile* MarkingDesk::lesson(const std::string& path,
                                      Diagnostics& diagnostics) {
  const auto known = lessons_.find(path);
  if (known != lessons_.end()) return known->second.get();
  std::unique_ptr<TaughtFile>& entry = lessons_[path];
  auto taught = std::make_unique<TaughtFile>();
  taught->path = path;
  taught->name = FilePath(path).stem().string();
  taught->label = taught->name;
  Diagnostics found;
  taught->lesson = read_lesson(workspace_.open(path), found);
  if (!found.has_errors()) {
    LessonPlan plan =
        plan_as_printed(workspace_, request_, path, taught->lesson, found);
    taught->analyzed = std::move(plan.analyzed);
    taught->items = take_items(taught->analyzed);
    for (const DictatedItem& item : taught->items) {
      taught->work += marking_work(item.text, item.text);
    }
  }
  take_errors(found, diagnostics);
  if (!found.has_errors()) entry = std::move(taught);
  return entry.get();
}

const ClassFile* MarkingDesk::class_file(const std::string& path,
                                         Diagnostics& diagnostics) {
  const auto known = classes_.find(path);
  if (known != classes_.end()) return known->second.get();
  std::unique_ptr<ClassFile>& entry = classes_[path];
  Diagnostics found;
  auto read =
      std::make_unique<ClassFile>(read_class(workspace_.open(path), found));
  speech_of_class(*read, options_.speech, found);
  take_errors(found, diagnostics);
  if (!found.has_errors()) entry = std::move(read);
  return entry.get();
}

// A record may have the name of its lesson. Each file is looked into once,
// however many records name it.
bool MarkingDesk::is_record(const FilePath& path) {
  const auto [known, fresh] = are_records_.try_emplace(path.string(), false);
  if (fresh) {
    known->second = kind_of(workspace_.open(path)) == FileKind::record;
  }
  return known->second;
}

std::string MarkingDesk::find(const PlacedWord& name, const std::string& record,
                              Diagnostics& diagnostics) {
  const FilePath parent = FilePath(record).parent_path();
  const FilePath folder = parent.empty() ? FilePath(".") : parent;
  const FilePath above = folder / "..";
  for (const FilePath& place : {folder, above, above / "lessons"}) {
    const auto found =
        find_named_file(workspace_.files(), name.value, place,
                        workspace_.shipped(), request_.allowed_folders);
    if (found && !is_record(*found)) return found->lexically_normal().string();
  }
  diagnostics.error(
      diagnostic::no_such_file, name.span,
      fmt::format("there is no file {} for this record",
                  as_written(name.value)),
      "name a file in the record's folder, in the folder above it or in "
      "`lessons` there, or give its folder with --allow");
  return {};
}

// Everything that a file's records name, and what marking them will take.
void MarkingDesk::take_file(const std::string& path,
                            std::vector<Taken>& all_taken,
                            Diagnostics& diagnostics) {
  records_.push_back(std::make_unique<RecordFile>(
      read_record(workspace_.open(path), diagnostics)));
  if (diagnostics.has_errors()) return;
  for (const Record& record : records_.back()->records) {
    Taken taken;
    taken.marked.path = path;
    taken.marked.record = &record;
    if (record.lesson.given()) {
      const std::string file = find(record.lesson, path, diagnostics);
      if (!file.empty()) taken.marked.lesson = lesson(file, diagnostics);
    }
    if (record.class_file.given()) {
      taken.class_path = find(record.class_file, path, diagnostics);
      if (!taken.class_path.empty()) {
        taken.marked.pupils = class_file(taken.class_path, diagnostics);
      }
    }
    const TaughtFile* taught = taken.marked.lesson;
    const std::size_t lesson_work = taught == nullptr ? 0 : taught->work;
    work_ += marking_work(record, lesson_work);
    work_ += finding_work(record, lesson_work);
    if (work_ > kMostWork) {
      diagnostics.error(
          diagnostic::too_many, record.date.span,
          "with this record there is more writing than Sheaf marks at once",
          "mark fewer files at once, or split this one into several");
      return;
    }
    all_taken.push_back(std::move(taken));
  }
}

MarkingOptions MarkingDesk::options_of(const ClassFile* pupils) const {
  MarkingOptions options = options_;
  if (pupils != nullptr) {
    Diagnostics said_before;
    options.of_learners =
        speech_of_class(*pupils, options_.speech, said_before);
  }
  return options;
}

// Two files are told apart by their folders, the nearest first. One file that
// is reached in two ways is one lesson.
void MarkingDesk::label_lessons(const std::vector<Taken>& all_taken) {
  std::vector<TaughtFile*> used;
  for (const Taken& taken : all_taken) {
    if (taken.marked.lesson == nullptr) continue;
    TaughtFile* lesson = lessons_[taken.marked.lesson->path].get();
    if (std::ranges::find(used, lesson) == used.end()) used.push_back(lesson);
  }
  const Files& files = workspace_.files();
  const auto path_of = [&](const TaughtFile& lesson) {
    return files.absolute(lesson.path).lexically_normal();
  };
  const auto is_same = [&](const TaughtFile& a, const TaughtFile& b) {
    return files.status(a.path).is_same_as(files.status(b.path));
  };
  for (TaughtFile* lesson : used) {
    FilePath folder = path_of(*lesson).parent_path();
    lesson->label = lesson->name;
    std::vector<std::pair<const TaughtFile*, FilePath>> others;
    for (const TaughtFile* other : used) {
      if (other->name != lesson->name || is_same(*lesson, *other)) continue;
      others.emplace_back(other, path_of(*other).parent_path());
    }
    while (!others.empty() && !folder.filename().empty()) {
      const FilePath name = folder.filename();
      lesson->label = (name / FilePath(lesson->label)).string();
      std::erase_if(others, [&](auto& other) {
        const bool told_apart = other.second.filename() != name;
        other.second = other.second.parent_path();
        return told_apart;
      });
      folder = folder.parent_path();
    }
  }
}

void MarkingDesk::mark_one(Taken& taken) const {
  MarkedRecord& one = taken.marked;
  // A tally says all there is about writing; nothing was dictated.
  const bool dictated =
      one.lesson != nullptr && one.record->kind.value != Record::Kind::writing;
  std::vector<DictatedItem> items =
      dictated ? one.lesson->items : std::vector<DictatedItem>{};
  const MarkingOptions options = options_of(taken.marked.pupils);
  one.targets = find_targets(*one.record, items, spellings_, options);
  one.session = mark_session(
      one.targets.record,
      taken.marked.pupils == nullptr ? std::vector<LearnerCode>{}
                                     : codes_of(*taken.marked.pupils),
      std::move(items), spellings_, workspace_.phonics(), options);
  if (one.lesson != nullptr) {
    one.session.lesson = one.lesson->label;
    one.session.sight_words = one.lesson->analyzed.taught.sight_words();
    // A probe is about all patterns, and says of none what comes next.
    if (one.session.kind != Record::Kind::probe) {
      one.patterns = one.lesson->patterns();
    }
  }
  mark_placement(one, workspace_.phonics().patterns());
  for (LearnerResult& learner : one.session.learners) {
    if (one.pupils != nullptr && one.lesson != nullptr) {
      const auto entry = std::ranges::find_if(
          one.pupils->learners, [&](const LearnerEntry& pupil) {
            return pupil.code.value == learner.code;
          });
      learner.beyond_step = entry != one.pupils->learners.end() &&
                            is_beyond_step(settings_for(*one.pupils, *entry),
                                           one.lesson->analyzed.taught);
    }
    for (const LearnerResult::Tally& tally : learner.writing) {
      if (std::ranges::find(one.patterns, tally.pattern) ==
          one.patterns.end()) {
        one.patterns.push_back(tally.pattern);
      }
    }
  }
}

std::vector<MarkedRecord> MarkingDesk::mark(
    const std::vector<std::string>& paths, Diagnostics& diagnostics) {
  std::vector<Taken> all_taken;
  for (const std::string& path : record_paths(workspace_.files(), paths)) {
    take_file(path, all_taken, diagnostics);
  }
  std::vector<MarkedRecord> marked;
  if (diagnostics.has_errors()) return marked;
  label_lessons(all_taken);
  work_in_order(
      all_taken.size(), workers_,
      [&](int, std::size_t i) { mark_one(all_taken[i]); },
      [&](std::size_t i) {
        report(all_taken[i].marked, diagnostics);
        report_placement_marks(all_taken[i].marked, diagnostics);
        report_learners(all_taken[i], diagnostics);
        marked.push_back(std::move(all_taken[i].marked));
      });
  std::ranges::stable_sort(
      marked, {}, [](const MarkedRecord& m) { return m.session.date; });
  report_days(marked, diagnostics);
  report_repeated(marked, diagnostics);
  return marked;
}

std::vector<TaughtLesson> MarkingDesk::taught_lessons(
    const std::vector<MarkedRecord>& records) const {
  std::vector<TaughtLesson> lessons;
  for (const MarkedRecord& marked : records) {
    if (marked.lesson == nullptr) continue;
    auto known =
        std::ranges::find(lessons, marked.lesson->label, &TaughtLesson::name);
    if (known == lessons.end()) {
      lessons.push_back({marked.lesson->label, marked.lesson->patterns(), {}});
      known = lessons.end() - 1;
    }
    // The words of a check are not practised before it.
    const Record::Kind kind = marked.session.kind;
    if (kind != Record::Kind::dictation || !known->practised.empty()) continue;
    for (const AnalyzedWord& word : marked.lesson->analyzed.words) {
      known->practised.push_back(word.reading.word);
    }
  }
  return lessons;
}

std::vector<std::string> record_paths(const Files& files,
                                      const std::vector<std::string>& paths) {
  std::vector<std::string> all;
  for (const std::string& path : paths) {
    if (!files.is_folder(path)) {
      all.push_back(path);
      continue;
    }
    const std::vector<FilePath> inside = yaml_files(files, path);
    if (inside.empty()) {
      throw MachineError(
          fmt::format("there is no record in the folder {}", path));
    }
    for (const FilePath& file : inside) all.push_back(file.string());
  }
  return all;
}

void keep_learners(std::vector<MarkedRecord>& records,
                   const std::vector<LearnerCode>& learners) {
  if (learners.empty()) return;
  for (MarkedRecord& marked : records) {
    std::erase_if(marked.session.learners, [&](const LearnerResult& l) {
      return std::ranges::find(learners, l.code) == learners.end();
    });
  }
}

bool keep_marked(std::vector<MarkedRecord>& records) {
  std::erase_if(records, [](const MarkedRecord& marked) {
    return marked.session.learners.empty();
  });
  return !records.empty();
}

Sessions sessions_of(const std::vector<MarkedRecord>& records) {
  Sessions sessions;
  for (const MarkedRecord& marked : records) {
    sessions.add(marked.session);
  }
  return sessions;
}

std::vector<LearnerCode> codes_of(const ClassFile& class_file) {
  std::vector<LearnerCode> codes;
  for (const LearnerEntry& learner : class_file.learners) {
    codes.push_back(learner.code.value);
  }
  return codes;
}

std::string read_rules(const std::vector<std::string>& texts,
                       ProgressRules& rules) {
  OptionValues values(progress_option_table());
  for (const std::string& rule : texts) {
    const std::size_t sign = rule.find('=');
    const std::string name = rule.substr(0, sign);
    const OptionSpec* spec = nullptr;
    std::vector<std::string_view> names;
    for (const OptionSpec& one : progress_option_table()) {
      names.push_back(one.name);
      if (one.name == name) spec = &one;
    }
    if (spec == nullptr) {
      return fmt::format("there is no rule called {}; {}", sheaf::quoted(name),
                         did_you_mean(name, names).text);
    }
    const std::string count =
        sign == std::string::npos ? std::string() : rule.substr(sign + 1);
    Value value;
    value.kind = Value::Kind::text;
    value.text = PlacedText(count, {}, {{0, 0}});
    Diagnostics faults;
    values.set(name, value, faults);
    if (!faults.has_errors()) continue;
    return fmt::format("{} needs a number from {} to {}, as in `{}={}`",
                       sheaf::quoted(name), spec->least, spec->most, name,
                       spec->fallback);
  }
  rules = progress_rules(values);
  return {};
}

}  // namespace sheaf
