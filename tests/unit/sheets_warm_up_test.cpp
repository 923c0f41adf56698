// A sound is asked for once, and every spelling taught for it is right.

#include <gtest/gtest.h>

#include <fmt/format.h>

#include <map>

#include "phonics/notation.h"
#include "unit/analyzed_lesson_fixture.h"

namespace sheaf {
namespace {

class WarmUpTest : public AnalyzedLessonTest {
 protected:
  // The sounds asked for, with their spellings in alphabetical order.
  std::map<std::string, std::string> heard(const std::string& text) {
    const AnalyzedLesson& lesson = analyzed(text);
    std::map<std::string, std::string> sounds;
    for (const WarmUp::Item& item : lesson.warm_up.to_hear) {
      std::vector<std::string> spellings = item.spellings;
      std::ranges::sort(spellings);
      const std::string name = sound_name(item.sound, lesson.conventions);
      EXPECT_FALSE(sounds.contains(name)) << "asked twice: " << name;
      sounds[name] = fmt::format("{}", fmt::join(spellings, " "));
    }
    return sounds;
  }
};

TEST_F(WarmUpTest, AsksForASoundOnceAndWantsAllItsSpellings) {
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
