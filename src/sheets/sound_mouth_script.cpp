// What is said and done with the mouth before a mirror. The steps are common
// practice, no source; the wording is ours.

#include <fmt/format.h>

#include <algorithm>

#include "layout/mouth_view.h"
#include "sheets/mouth_shapes.h"
#include "sheets/sheet_scripts.h"
#include "sheets/sound_mouth.h"
#include "sheets/word_parts.h"

namespace sheaf {
namespace {

std::string said_of_mouth(const SheetInput& in,
                          const SoundMouth::Sound& sound) {
  std::string text = fmt::format("{}", said(in.lesson, sound.phonemes));
  if (!sound.word.empty()) text += fmt::format(", as in {}", sound.word);
  text += ":";
  for (const std::string& told : told_of_mouth(sound.phonemes)) {
    text += " " + told;
  }
  return text;
}

// Whether one of the pictures has a bar before its arrow.
bool stops_air(const SoundMouth& content) {
  using Air = MouthShape::Air;
  return std::ranges::any_of(content.sounds, [](const auto& sound) {
    const Air air = mouth_shape(sound.phonemes).air;
    return air == Air::stop || air == Air::rush;
  });
}

// What of the two is the same, and what is not.
std::string said_of_both(const SoundMouth& content) {
  const auto first = told_of_mouth(content.sounds[0].phonemes);
  const auto second = told_of_mouth(content.sounds[1].phonemes);
  const std::size_t count = std::min(first.size(), second.size());
  std::vector<std::string> other;
  for (std::size_t i = 0; i < count; ++i) {
    if (first[i] != second[i]) other.push_back(first[i]);
  }
  if (first.size() != second.size() || other.size() != 1) {
    return "“What is the same in both pictures? What is different?”";
  }
  return first.back() != second.back()
             ? "“All is the same but the voice. Feel it with your hand.”"
             : "“Only one thing is different. Which is it?”";
}

}  // namespace

ScriptLines sound_mouth_script(const SheetInput& in, const DayStep& step) {
  if (step.turn > 0) return {{Lead::act, sheet_script::as_on(in, step)}};
  const SoundMouth& content = sound_mouth(in);
  if (!content.missing.empty()) return {};
  ScriptLines lines = {
      {Lead::show,
       fmt::format("your own mouth first, then the picture: nose, lips, teeth, "
                   "tongue, and the ring in the throat, which has a wave in it "
                   "where the voice is on.{}",
                   stops_air(content)
                       ? " A bar before the arrow: the air stops first."
                       : "")},
      {Lead::say, said_of_mouth(in, content.sounds[0])},
      {Lead::say, said_of_mouth(in, content.sounds[1])},
      {Lead::say, said_of_both(content)}};
  if (in.options.flag("mirror")) {
    lines.push_back(
        {Lead::act,
         "Learners say each sound before the mirror, a hand on the throat, and "
         "tick what they did. Nobody has to show the others."});
  }
  if (!content.items.empty()) {
    std::string words;
    for (std::size_t i = 0; i < content.items.size(); ++i) {
      words += fmt::format("{}{}, {}", i == 0 ? "" : "; ", i + 1,
                           content.items[i].word);
    }
    lines.push_back(
        {Lead::say,
         fmt::format("each number and word, your mouth hidden behind a sheet "
                     "of paper: {}.",
                     words)});
  }
  lines.push_back(
      {Lead::wait,
       "the learner’s own try before you help. If the two are mixed up: “Watch "
       "my mouth”, and say the word again, to be seen. Some learners speak so "
       "that two sounds are one: then let them see and feel, and mark nothing "
       "wrong."});
  lines.push_back({Lead::done_when,
                   content.items.empty()
                       ? "each learner has said both sounds and can say what "
                         "the mouth does otherwise."
                       : "all numbers have a tick and the key was read out."});
  return lines;
}

}  // namespace sheaf
