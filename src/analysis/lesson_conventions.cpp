#include "analysis/lesson_conventions.h"

namespace sheaf {

namespace {

bool is_preset(std::string_view name) {
  return name == "count" || name == "notation";
}

void set(Conventions& conventions, std::string_view name,
         const PlacedWord& name_place, const PlacedWord& value,
         Diagnostics& diagnostics) {
  const auto fault = set_convention(conventions, name, value.value);
  if (!fault) return;
  diagnostics.error(diagnostic::unknown_convention,
                    fault.in_name ? name_place.span : value.span, fault.text,
                    fault.help);
}

}  // namespace

Conventions lesson_conventions(const Lesson& lesson, Diagnostics& diagnostics) {
  std::vector<ConventionSettings> files = lesson.inherited_conventions;
  files.push_back({lesson.accent, lesson.conventions});
  Conventions conventions;
  // An accent sets several switches of its own, so the accents come first.
  for (const ConventionSettings& file : files) {
    if (file.accent.given()) {
      set(conventions, "accent", file.accent, file.accent, diagnostics);
    }
    for (const auto& [name, value] : file.conventions) {
      if (name.value != "accent") continue;
      set(conventions, "accent", name, value, diagnostics);
    }
  }
  // So does a count; within a file its single switches come after it.
  for (const ConventionSettings& file : files) {
    for (const bool presets : {true, false}) {
      for (const auto& [name, value] : file.conventions) {
        if (name.value == "accent" || is_preset(name.value) != presets) {
          continue;
        }
        set(conventions, name.value, name, value, diagnostics);
      }
    }
  }
  return conventions;
}

void inherit_conventions(const SequenceFile& sequence, Lesson& lesson) {
  lesson.inherited_conventions.push_back(
      {sequence.accent, sequence.conventions});
}

}  // namespace sheaf
