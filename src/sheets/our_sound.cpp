#include "sheets/our_sound.h"

#include "sheets/pattern_card.h"

namespace sheaf {

std::string_view our_sound(const AnalyzedLesson& lesson) {
  return said_ours(lesson,
                   {"our sound", "our sounds", "our pattern", "our patterns"});
}

std::string_view said_ours(const AnalyzedLesson& lesson,
                           const OursTexts& texts) {
  bool sounds = true;
  for (std::size_t i = 0; i < lesson.patterns.size(); ++i) {
    sounds = sounds && pattern_card(lesson, i).is_sound();
  }
  const bool several = lesson.patterns.size() > 1;
  if (sounds) return several ? texts.sounds : texts.sound;
  return several ? texts.patterns : texts.pattern;
}

}  // namespace sheaf
