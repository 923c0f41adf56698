#include "sheets/chain_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "sheets/word_parts.h"

namespace sheaf {

namespace {

// "first", "middle", "last": the middle is the one between two others.
std::string_view place_name(std::size_t at, std::size_t pieces) {
  constexpr std::array<std::string_view, 5> kCounted = {
      "first", "second", "third", "fourth", "fifth"};
  if (at == 0) return "first";
  if (at + 1 == pieces) return "last";
  if (pieces == 3) return "middle";
  return kCounted[std::min(at, kCounted.size() - 1)];
}

// What is done, before the colon.
std::string what_is_done(const SoundStep& step) {
  const auto place = place_name(step.at, step.pieces);
  switch (step.kind) {
    case SoundStep::Kind::change:
      return fmt::format("Change the {} sound", place);
    case SoundStep::Kind::take:
      return fmt::format("Take away the {} sound", place);
    case SoundStep::Kind::add:
      break;
  }
  if (step.at == 0) return "Add a sound at the front";
  if (step.at + 1 == step.pieces) return "Add a sound at the end";
  return fmt::format("Add a sound after the {} one",
                     place_name(step.at - 1, step.pieces));
}

std::string with_sounds(const SoundStep& step, std::string_view from,
                        std::string_view to) {
  const std::string done = what_is_done(step);
  switch (step.kind) {
    case SoundStep::Kind::change:
      return fmt::format("{}: {} to {}", done, from, to);
    case SoundStep::Kind::take:
      return fmt::format("{}: {}", done, from);
    case SoundStep::Kind::add:
      break;
  }
  return fmt::format("{}: {}", done, to);
}

}  // namespace

const std::vector<ChainWord>& chain_words(const SheetInput& in) {
  const bool made_up = in.options.flag("made-up");
  const int most = in.options.count("length");
  auto& kept = in.memory.chains[{most, made_up}];
  if (kept == nullptr) {
    const WordGames* games = in.lesson.games.get();
    kept = std::make_shared<const std::vector<ChainWord>>(
        games == nullptr || !games->chain
            ? std::vector<ChainWord>()
            : games->chain(in.lesson, made_up, static_cast<std::size_t>(most)));
  }
  return *kept;
}

std::string step_in_letters(const SoundStep& step) {
  return with_sounds(step, step.from.grapheme, step.to.grapheme);
}

std::string step_in_sounds(const AnalyzedLesson& lesson,
                           const SoundStep& step) {
  return with_sounds(step, said(lesson, step.from.sound),
                     said(lesson, step.to.sound));
}

// The steps are common practice, no source; the wording is ours.
ScriptLines chain_script(const SheetInput& in, const DayStep&) {
  const auto& chain = chain_words(in);
  const bool by_ear = in.options.choice("told") == "ear";
  const bool boxes = in.options.choice("write") == "boxes";
  const std::string& first = chain.front().word.reading.word;
  ScriptLines lines = {
      {Lead::show,
       fmt::format("the first word, {}. Learners read it and say its sounds: "
                   "{}.",
                   first, sounds_of(in.lesson, chain.front().word))},
      {Lead::say,
       fmt::format("“Each new word is the old one with one sound that is "
                   "{}.”",
                   std::ranges::all_of(chain.begin() + 1, chain.end(),
                                       [](const ChainWord& link) {
                                         return link.step.kind ==
                                                SoundStep::Kind::change;
                                       })
                       ? "different"
                       : "different, new or gone")}};
  if (by_ear) {
    for (std::size_t i = 1; i < chain.size(); ++i) {
      lines.push_back(
          {Lead::say,
           fmt::format("{}. “{}.” They say {}.{}", i + 1,
                       step_in_sounds(in.lesson, chain[i].step),
                       chain[i].word.reading.word,
                       chain[i].made_up ? " It is no real word." : "")});
    }
  }
  lines.push_back(
      {Lead::act,
       fmt::format(
           "{} Learners say the old word, make the change aloud, say the new "
           "word{}. Keep the new word to yourself until they have said it.",
           by_ear ? "Say each change once."
                  : "Learners read each change; help with its words only.",
           boxes ? " and write a grapheme in each box"
                 : " and write it under the old one")});
  lines.push_back(
      {Lead::wait,
       "the new word, said before a letter is written. If it does not come: "
       "“Say the old word slowly. Which sound goes? What comes instead?”"});
  lines.push_back(
      {Lead::done_when, fmt::format("the chain was read from {} to {} and each "
                                    "learner has shown where one word differs "
                                    "from the next.",
                                    first, chain.back().word.reading.word)});
  return lines;
}

}  // namespace sheaf
