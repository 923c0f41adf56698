// A sound is asked for once, and every spelling taught for it is right.

#include <gtest/gtest.h>

#include <fmt/format.h>

#include <map>

#include "analysis/analyzed_lesson.h"
#include "phonics/notation.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

// The sounds asked for, with their spellings in alphabetical order.
std::map<std::string, std::string> heard(const std::string& text) {
  const SourceFile file("lesson.yaml", text);
  Diagnostics diagnostics;
  const Lesson lesson = read_lesson(file, diagnostics);
  const AnalyzedLesson analyzed = analyze(
      lesson, shared_phonics(), [](std::string_view) { return false; },
      diagnostics);
  std::map<std::string, std::string> sounds;
  for (const WarmUp::Item& item : analyzed.warm_up.to_hear) {
    std::vector<std::string> spellings = item.spellings;
    std::ranges::sort(spellings);
    const std::string name = sound_name(item.sound, analyzed.conventions);
    EXPECT_FALSE(sounds.contains(name)) << "asked twice: " << name;
    sounds[name] = fmt::format("{}", fmt::join(spellings, " "));
  }
  return sounds;
}

TEST(WarmUp, AsksForASoundOnceAndWantsAllItsSpellings) {
  EXPECT_EQ(heard("pattern: oa\nwords: boat\ntaught: ai, ay, a_e, sh\n")["ay"],
            "a_e ai ay");
  EXPECT_EQ(heard("pattern: oa\nwords: boat\ntaught: ee, ea_long, ch\n")["ee"],
            "ea ee");
  // One way is one way.
  auto few = heard("pattern: oa\nwords: boat\ntaught: sh ch\n");
  EXPECT_EQ(few["sh"], "sh");
  EXPECT_EQ(few["ch"], "ch");
  // Not what this week teaches for it.
  EXPECT_EQ(heard("pattern: ai\nwords: rain\ntaught: ay, sh\n")["ay"], "ay");
}

}  // namespace
}  // namespace sheaf
