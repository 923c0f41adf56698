#include "driver/probes_to_come.h"

#include <algorithm>
#include <set>

#include "base/error.h"
#include "base/utf8.h"
#include "files/files.h"
#include "input/file_kind.h"

namespace sheaf {

namespace {

constexpr std::string_view kProbeLayout = "probe";
constexpr std::string_view kProbeFolder = "probes";

// Folders in which forms may lie, each once.
class ProbePlaces {
 public:
  ProbePlaces(MarkingDesk& desk, Workspace& workspace,
              const std::vector<std::string>& allowed_folders)
      : desk_(desk), workspace_(workspace), allowed_folders_(allowed_folders) {}

  void add_class(const ClassFile& class_file, const FilePath& folder) {
    add_folder(folder);
    for (const LearnerEntry& learner : class_file.learners) {
      const LearnerSettings settings = settings_for(class_file, learner);
      add_beside(settings.sequence, folder);
      if (!settings.lesson.given()) continue;
      const auto found =
          workspace_.find_file(settings.lesson.value, folder, allowed_folders_);
      Diagnostics unheard;  // whoever builds the lesson is told
      if (found) {
        add_lesson(desk_.lesson(found->lexically_normal().string(), unheard));
      }
    }
  }

  void add_lesson(const TaughtFile* taught) {
    if (taught == nullptr) return;
    const FilePath folder = FilePath(taught->path).parent_path();
    add_folder(folder);
    add_beside(taught->lesson.sequence, folder);
  }

  const std::set<FilePath>& folders() const { return folders_; }

 private:
  void add_beside(const PlacedWord& sequence, const FilePath& folder) {
    if (!sequence.given()) return;
    const auto found =
        workspace_.find_file(sequence.value, folder, allowed_folders_);
    if (found) add_folder(found->parent_path());
  }

  void add_folder(const FilePath& folder) {
    const FilePath one = (folder.empty() ? FilePath(".") : folder);
    for (const FilePath& place : {one, one / kProbeFolder}) {
      const FilePath plain = place.lexically_normal();
      if (workspace_.files().is_folder(plain)) folders_.insert(plain);
    }
  }

  MarkingDesk& desk_;
  Workspace& workspace_;
  const std::vector<std::string>& allowed_folders_;
  std::set<FilePath> folders_;
};

}  // namespace

ProbesToCome::ProbesToCome(MarkingDesk& desk, Workspace& workspace,
                           const ClassFile& class_file, const FilePath& folder,
                           const std::vector<MarkedRecord>& records,
                           const std::vector<std::string>& allowed_folders)
    : workspace_(workspace), records_(records) {
  ProbePlaces places(desk, workspace, allowed_folders);
  places.add_class(class_file, folder);
  std::set<const TaughtFile*> lessons;
  for (const MarkedRecord& marked : records) {
    if (lessons.insert(marked.lesson).second) places.add_lesson(marked.lesson);
  }
  for (const FilePath& place : places.folders()) add_forms(place);
}

void ProbesToCome::add_forms(const FilePath& folder) {
  for (const FilePath& path : yaml_files(workspace_.files(), folder)) {
    if (path.filename().string().starts_with('.') ||
        !workspace_.files().is_file(path)) {
      continue;
    }
    try {
      const SourceFile& file = workspace_.open(path);
      if (file.text().find(kProbeLayout) == std::string_view::npos ||
          likely_kind(file) != FileKind::lesson) {
        continue;
      }
      Diagnostics unheard;
      const Lesson lesson = read_lesson(file, unheard);
      if (unheard.has_errors() || lesson.layout.value != kProbeLayout) continue;
      std::set<std::string> words;
      for (const auto* list : {&lesson.words, &lesson.dictate_words}) {
        for (const LessonWord& word : *list) {
          words.insert(lower_case(word.spelling.value));
        }
      }
      forms_.push_back({path, {words.begin(), words.end()}});
    } catch (const MachineError&) {
      // A file that is too long or may not be read is no form of a probe.
      continue;
    }
  }
}

bool ProbesToCome::was_given(const Form& form,
                             const std::vector<LearnerCode>& codes) const {
  const FilePath name = form.path.filename();
  return std::ranges::any_of(records_, [&](const MarkedRecord& marked) {
    return marked.lesson != nullptr &&
           FilePath(marked.lesson->path).filename() == name &&
           std::ranges::any_of(codes,
                               [&](const LearnerCode& code) {
                                 return marked.session.find(code) != nullptr;
                               }) &&
           workspace_.files().status(form.path).is_same_as(
               workspace_.files().status(marked.lesson->path));
  });
}

std::vector<std::string> ProbesToCome::words(
    const std::vector<LearnerCode>& codes) const {
  std::set<std::string> all;
  for (const Form& form : forms_) {
    if (!was_given(form, codes)) {
      all.insert(form.words.begin(), form.words.end());
    }
  }
  return {all.begin(), all.end()};
}

}  // namespace sheaf
