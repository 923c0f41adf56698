#include "driver/class_roll.h"

#include <algorithm>

#include "base/options.h"
#include "base/utf8.h"
#include "files/files.h"

namespace sheaf {

namespace {

using Has = RollEntry::Has;

// The learner's own step in a lesson's sequence, or -1.
int own_step(const LearnerSettings& settings, const Taught& taught) {
  // The steps of another sequence say nothing about this one.
  if (!settings.step.given() || settings.sequence.given()) return -1;
  return step_index(taught, settings.step.value);
}

bool at_other_step(const LearnerSettings& settings, const Taught& taught) {
  const int step = own_step(settings, taught);
  return step >= 0 && taught.step() >= 0 && step != taught.step();
}

}  // namespace

int step_index(const Taught& taught, const std::string& number_or_name) {
  const std::string name = lower_case(number_or_name);
  const auto number = read_count(name);
  const auto& steps = taught.steps();
  const auto found = std::ranges::find_if(steps, [&](const Taught::Step& step) {
    return number ? step.number == *number : lower_case(step.name) == name;
  });
  return found == steps.end() ? -1 : static_cast<int>(found - steps.begin());
}

bool is_beyond_step(const LearnerSettings& settings, const Taught& taught) {
  const int step = own_step(settings, taught);
  return step >= 0 && taught.step() > step;
}

std::string name_among_others(const ClassFile& class_file,
                              const FilePath& folder, const TaughtFile& lesson,
                              const Workspace& workspace,
                              const std::vector<std::string>& allowed_folders) {
  const bool has_namesake = std::ranges::any_of(
      class_file.learners, [&](const LearnerEntry& learner) {
        const PlacedWord name = settings_for(class_file, learner).lesson;
        if (FilePath(name.value).stem().string() != lesson.name) return false;
        const auto found =
            find_named_file(workspace.files(), name.value, folder,
                            workspace.shipped(), allowed_folders);
        return found && !workspace.files().status(*found).is_same_as(
                            workspace.files().status(lesson.path));
      });
  const std::string above =
      FilePath(lesson.path).parent_path().filename().string();
  return has_namesake && !above.empty() ? above + "-" + lesson.name
                                        : lesson.name;
}

std::vector<RollEntry> class_roll(
    const ClassFile& class_file, const FilePath& folder,
    const TaughtFile& lesson, const std::optional<Date>& day,
    const Workspace& workspace,
    const std::vector<std::string>& allowed_folders) {
  const auto is_lesson = [&](const std::string& name) {
    const auto found = find_named_file(workspace.files(), name, folder,
                                       workspace.shipped(), allowed_folders);
    return found && workspace.files().status(*found).is_same_as(
                        workspace.files().status(lesson.path));
  };
  std::vector<RollEntry> roll;
  for (const LearnerEntry& learner : class_file.learners) {
    RollEntry entry{&learner, Has::lesson, {}};
    const LearnerSettings settings = settings_for(class_file, learner);
    if (day && !learner.is_here_on(*day)) {
      entry.has = Has::nothing;
    } else if (settings.lesson.given()) {
      if (!is_lesson(settings.lesson.value)) {
        entry.has = Has::other_lesson;
        entry.instead = settings.lesson.value;
      }
    } else if (at_other_step(settings, lesson.analyzed.taught)) {
      entry.has = Has::other_step;
      entry.instead = "step " + settings.step.value;
    }
    roll.push_back(std::move(entry));
  }
  return roll;
}

}  // namespace sheaf
