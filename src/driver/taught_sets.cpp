#include "driver/taught_sets.h"

#include <algorithm>
#include <optional>

#include "base/utf8.h"
#include "driver/class_roll.h"
#include "files/files.h"
#include "input/sequence.h"

namespace sheaf {

namespace {

bool teaches(Record::Kind kind) {
  return kind == Record::Kind::dictation || kind == Record::Kind::transfer;
}

// The patterns that count as taught, for comparing.
std::vector<PatternId> taught_patterns(const Taught& taught,
                                       const PatternCatalogue& catalogue) {
  std::vector<PatternId> patterns;
  if (!taught.known()) return patterns;
  for (PatternId id = 0; id < catalogue.all().size(); ++id) {
    const int stage = taught.stage(id);
    if (stage >= 0 && stage <= taught.step() + 1) patterns.push_back(id);
  }
  return patterns;
}

class SetMaker {
 public:
  SetMaker(MarkingDesk& desk, Workspace& workspace, const ClassFile& class_file,
           const FilePath& folder, const std::vector<MarkedRecord>& records,
           const std::vector<std::string>& allowed_folders)
      : desk_(desk),
        workspace_(workspace),
        class_(class_file),
        folder_(folder),
        records_(records),
        allowed_folders_(allowed_folders) {}

  std::vector<TaughtSet> make() {
    for (const LearnerEntry& learner : class_.learners) add(set_of(learner));
    return std::move(sets_);
  }

 private:
  // A set of one learner.
  TaughtSet set_of(const LearnerEntry& learner) {
    const LearnerCode& code = learner.code.value;
    TaughtSet own{.group = learner.group.value, .codes = {code}};
    const TaughtFile* latest = nullptr;  // with a sequence
    for (const MarkedRecord& marked : records_) {
      const LearnerResult* result = marked.session.find(code);
      if (result == nullptr) continue;
      add_met(marked, own);
      if (marked.lesson == nullptr || result->beyond_step ||
          !teaches(marked.session.kind)) {
        continue;
      }
      const AnalyzedLesson& lesson = marked.lesson->analyzed;
      own.spoken = conventions_for(lesson.conventions.accent);
      if (lesson.taught.known()) latest = marked.lesson;
      for (const LessonPattern& pattern : lesson.patterns) {
        if (std::ranges::find(own.recorded, pattern.id) == own.recorded.end()) {
          own.recorded.push_back(pattern.id);
        }
      }
      add_practised(lesson, own);
    }
    own.taught = taught_to(learner, latest);
    return own;
  }

  static void add_met(const MarkedRecord& marked, TaughtSet& set) {
    for (const DictatedItem& item : marked.session.items) {
      for (const Reading& word : item.words) {
        set.met.insert(lower_case(word.word));
      }
    }
    if (marked.lesson == nullptr) return;
    for (const AnalyzedWord& word : marked.lesson->analyzed.words) {
      set.met.insert(lower_case(word.reading.word));
    }
  }

  static void add_practised(const AnalyzedLesson& lesson, TaughtSet& set) {
    for (const AnalyzedWord& word : lesson.words) {
      for (std::size_t i = 0; i < lesson.patterns.size(); ++i) {
        if (i >= word.hits.size() || !word.hits[i].has) continue;
        std::vector<std::string>& words = set.practised[lesson.patterns[i].id];
        if (std::ranges::find(words, word.reading.word) == words.end()) {
          words.push_back(word.reading.word);
        }
      }
    }
  }

  const TaughtFile* lesson_of(const LearnerSettings& settings) {
    if (!settings.lesson.given()) return nullptr;
    const auto found =
        find_named_file(workspace_.files(), settings.lesson.value, folder_,
                        workspace_.shipped(), allowed_folders_);
    if (!found) return nullptr;
    Diagnostics unheard;  // whoever builds the lesson is told
    return desk_.lesson(found->lexically_normal().string(), unheard);
  }

  bool was_dictated(const TaughtFile& lesson, const LearnerCode& code) const {
    return std::ranges::any_of(records_, [&](const MarkedRecord& marked) {
      return marked.lesson != nullptr && teaches(marked.session.kind) &&
             marked.session.find(code) != nullptr &&
             workspace_.files()
                 .status(marked.lesson->path)
                 .is_same_as(workspace_.files().status(lesson.path));
    });
  }

  Taught taught_to(const LearnerEntry& learner, const TaughtFile* latest) {
    const LearnerSettings settings = settings_for(class_, learner);
    const TaughtFile* lesson = lesson_of(settings);
    if (settings.step.given()) {
      if (auto taught = at_own_step(settings, lesson, latest)) return *taught;
    }
    if (lesson != nullptr && lesson->analyzed.taught.known()) {
      const Taught& taught = lesson->analyzed.taught;
      const bool begun = was_dictated(*lesson, learner.code.value);
      return begun || taught.step() < 0 ? taught
                                        : taught.before(taught.step() - 1);
    }
    return latest == nullptr ? Taught() : latest->analyzed.taught;
  }

  // By the sequence that the class file names, else by that of the lesson.
  std::optional<Taught> at_own_step(const LearnerSettings& settings,
                                    const TaughtFile* lesson,
                                    const TaughtFile* latest) {
    if (settings.sequence.given()) {
      const auto found = workspace_.find_file(settings.sequence.value, folder_,
                                              allowed_folders_);
      if (!found) return std::nullopt;
      Diagnostics unheard;
      const SequenceFile* sequence = workspace_.sequence(*found, unheard);
      if (sequence == nullptr) return std::nullopt;
      const SequenceStep* step = find_step(*sequence, settings.step.value);
      if (step == nullptr) return std::nullopt;
      return taught_at(*sequence,
                       static_cast<int>(step - sequence->steps.data()),
                       workspace_.phonics(), unheard);
    }
    for (const TaughtFile* file : {lesson, latest}) {
      if (file == nullptr) continue;
      const Taught& taught = file->analyzed.taught;
      const int step = step_index(taught, settings.step.value);
      if (step >= 0) return taught.before(step);
    }
    return std::nullopt;
  }

  void add(TaughtSet own) {
    const PatternCatalogue& catalogue = workspace_.phonics().patterns();
    const auto taught = taught_patterns(own.taught, catalogue);
    const std::set<PatternId> recorded(own.recorded.begin(),
                                       own.recorded.end());
    const auto same = std::ranges::find_if(sets_, [&](const TaughtSet& set) {
      return set.group == own.group && set.spoken.accent == own.spoken.accent &&
             set.taught.known() == own.taught.known() &&
             std::set<PatternId>(set.recorded.begin(), set.recorded.end()) ==
                 recorded &&
             taught_patterns(set.taught, catalogue) == taught;
    });
    if (same == sets_.end()) {
      sets_.push_back(std::move(own));
      return;
    }
    same->codes.push_back(own.codes.front());
    same->met.merge(own.met);
    for (auto& [pattern, words] : own.practised) {
      std::vector<std::string>& all = same->practised[pattern];
      for (std::string& word : words) {
        if (std::ranges::find(all, word) == all.end()) {
          all.push_back(std::move(word));
        }
      }
    }
  }

  MarkingDesk& desk_;
  Workspace& workspace_;
  const ClassFile& class_;
  FilePath folder_;
  const std::vector<MarkedRecord>& records_;
  const std::vector<std::string>& allowed_folders_;
  std::vector<TaughtSet> sets_;
};

}  // namespace

bool TaughtSet::has(const LearnerCode& code) const {
  return std::ranges::find(codes, code) != codes.end();
}

std::vector<TaughtSet> taught_sets(
    MarkingDesk& desk, Workspace& workspace, const ClassFile& class_file,
    const FilePath& folder, const std::vector<MarkedRecord>& records,
    const std::vector<std::string>& allowed_folders) {
  return SetMaker(desk, workspace, class_file, folder, records, allowed_folders)
      .make();
}

}  // namespace sheaf
