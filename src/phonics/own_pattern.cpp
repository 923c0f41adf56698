#include "phonics/own_pattern.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/diagnostics.h"
#include "base/nearest.h"
#include "base/utf8.h"
#include "phonics/accent.h"
#include "phonics/notation.h"
#include "phonics/table_text.h"

namespace sheaf {
namespace {

constexpr std::size_t kLongestGrapheme = Correspondence::kLongestGrapheme;
constexpr std::size_t kMostSounds = Correspondence::kMostPhonemes;

bool may_be_grapheme(std::string_view text) {
  const auto letter = [](char c) { return c >= 'a' && c <= 'z'; };
  if (text.size() == 3 && text[1] == '_') {
    return letter(text[0]) && text[2] == 'e';
  }
  return !text.empty() && text.size() <= kLongestGrapheme &&
         std::ranges::all_of(text, letter);
}

// A grapheme and, between slashes, what it says: "ch=/k/". The sounds may have
// blanks between them.
struct Spelling {
  std::string_view grapheme, sound;
};

std::vector<Spelling> spellings_in(std::string_view written) {
  std::vector<Spelling> all;
  std::size_t at = written.find_first_not_of(' ');
  while (at != std::string_view::npos) {
    std::size_t end = std::min(written.find_first_of(" =", at), written.size());
    Spelling spelling{written.substr(at, end - at), {}};
    if (end < written.size() && written[end] == '=') {
      const std::size_t begin = end + 1;
      const bool opened = begin < written.size() && written[begin] == '/';
      end = std::min(written.find(opened ? '/' : ' ', begin + (opened ? 1 : 0)),
                     written.size());
      if (opened && end < written.size()) ++end;
      spelling.sound = written.substr(begin, end - begin);
      if (spelling.sound.empty()) spelling.sound = "/";
    }
    all.push_back(spelling);
    at = written.find_first_not_of(' ', end);
  }
  return all;
}

std::string rule_of(const std::string& grapheme,
                    const std::vector<Phoneme>& sounds,
                    const std::vector<Phoneme>& said) {
  std::string rule = "g=" + grapheme;
  for (std::size_t i = 0; i < sounds.size(); ++i) {
    rule += (i == 0 ? " p=" : "+") + std::string(phoneme_name(sounds[i]));
  }
  // The o of dog and of soft is short o too.
  if (grapheme == "o" && sounds == std::vector{Phoneme::aa}) rule += "|ao";
  // So is the a of swan, behind w; that of father is not.
  if (grapheme == "a" && sounds == std::vector{Phoneme::aa}) {
    rule += said == sounds ? " prev!=w|wh|qu" : " prev=w|wh|qu";
  }
  return rule;
}

}  // namespace

bool is_own_pattern(std::string_view written) {
  return written.find('=') != std::string_view::npos;
}

bool is_sound_of_one_grapheme(std::span<const Phoneme> sounds,
                              std::string_view written,
                              const Inventory& inventory) {
  if (sounds.empty() || sounds.size() > kMostSounds) return false;
  return inventory.spells(sounds) ||
         written.find_first_of(" +") != std::string_view::npos;
}

OwnPattern read_own_pattern(std::string_view written,
                            const Inventory& inventory, std::string& fault) {
  OwnPattern pattern;
  pattern.written = written;
  for (const Spelling& spelling : spellings_in(written)) {
    TaughtUnit unit;
    std::vector<Phoneme> said;
    unit.grapheme = lower_case(spelling.grapheme);
    if (!may_be_grapheme(unit.grapheme)) {
      fault = fmt::format("{} is not a grapheme", quoted(spelling.grapheme));
      return {};
    }
    if (spelling.sound.find_first_not_of('/') == std::string_view::npos &&
        !spelling.sound.empty()) {
      fault =
          fmt::format("no sound stands after {}", quoted(unit.grapheme + "="));
      return {};
    }
    if (!spelling.sound.empty()) {
      const auto sound = read_sound(spelling.sound);
      if (!sound ||
          !is_sound_of_one_grapheme(*sound, spelling.sound, inventory)) {
        const std::string near =
            did_you_mean(spelling.sound, plain_sound_names()).text;
        fault =
            fmt::format("there is no sound named {}{}{}",
                        quoted(spelling.sound), near.empty() ? "" : "; ", near);
        return {};
      }
      unit.phonemes = *sound;
      said = *read_said_sound(spelling.sound);
      if (said == unit.phonemes) {
        said = in_accent(unit.grapheme, unit.phonemes, Conventions{});
      }
    }
    pattern.name += (pattern.name.empty() ? "" : ", ") + unit.grapheme;
    if (!unit.phonemes.empty()) {
      pattern.name += " as /" + sound_name(said, Conventions{}) + "/";
    }
    if (!pattern.rules.empty()) pattern.rules += " or ";
    pattern.rules += rule_of(unit.grapheme, unit.phonemes, said);
    if (!unit.phonemes.empty()) pattern.teaches.push_back(std::move(unit));
  }
  if (pattern.rules.empty()) fault = "no grapheme stands here";
  return pattern;
}

}  // namespace sheaf
