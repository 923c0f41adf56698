#include "analysis/lesson_conventions.h"

namespace sheaf {

namespace {

bool is_preset(std::string_view name) {
  return name == "accent" || name == "count" || name == "notation";
}

}  // namespace

Conventions lesson_conventions(const Lesson& lesson, Diagnostics& diagnostics) {
  Conventions conventions;
  if (lesson.accent.given()) {
    const auto fault =
        set_convention(conventions, "accent", lesson.accent.value);
    if (fault) {
      diagnostics.error(diagnostic::unknown_convention, lesson.accent.span,
                        fault.text, fault.help);
    }
  }
  // A preset sets several switches, so single ones come after it.
  for (const bool presets : {true, false}) {
    for (const auto& [name, value] : lesson.conventions) {
      if (is_preset(name.value) != presets) continue;
      const auto fault = set_convention(conventions, name.value, value.value);
      if (!fault) continue;
      diagnostics.error(diagnostic::unknown_convention,
                        fault.in_name ? name.span : value.span, fault.text,
                        fault.help);
    }
  }
  return conventions;
}

}  // namespace sheaf
