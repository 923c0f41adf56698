#include "phonics/explain.h"

#include <algorithm>

#include <fmt/format.h>

#include "phonics/accent.h"
#include "phonics/boxes.h"
#include "phonics/notation.h"

namespace sheaf {
namespace {

std::string boxes_count(std::size_t count) {
  return fmt::format("{} box{}", count, count == 1 ? "" : "es");
}

// Whether another reading of the word, laid out alike, says this unit
// otherwise.
bool others_differ(const Reading& reading, std::size_t unit,
                   std::span<const Reading> others) {
  return std::ranges::any_of(others, [&](const Reading& other) {
    return unit < other.units.size() &&
           other.units[unit].grapheme == reading.units[unit].grapheme &&
           other.units[unit].listed != reading.units[unit].listed;
  });
}

// What a switch is called for a word: the switch `qu` also parts the o of
// one, and `x` the s of fox's, which are named by their own letters.
std::string name_for(const ConventionSwitch& s, const Reading& reading,
                     const Conventions& other) {
  if (s.name != "x" && s.name != "qu") return std::string(s.name);
  if (reading.word.find(s.name) != std::string::npos) {
    return std::string(s.name);
  }
  const auto boxes_of = [](std::span<const Sound> sounds, std::size_t unit) {
    return std::ranges::count(sounds, unit, &Sound::unit);
  };
  const std::vector<Sound> sounds = count_boxes(reading.units, other);
  for (std::size_t i = 0; i < reading.units.size(); ++i) {
    if (boxes_of(reading.sounds, i) == boxes_of(sounds, i)) continue;
    return reading.units[i].grapheme;
  }
  return std::string(s.name);
}

}  // namespace

std::string explain_boxes(const Reading& reading,
                          const Conventions& conventions) {
  std::string text =
      fmt::format("{}: {}", reading.word, boxes_count(reading.sounds.size()));
  std::string reasons;
  for (const ConventionSwitch& s : convention_switches()) {
    Conventions other = conventions;
    other.*s.setting = !(other.*s.setting);
    const std::size_t count = count_boxes(reading.units, other).size();
    if (count == reading.sounds.size()) continue;
    const bool on = conventions.*s.setting;
    reasons += fmt::format("{}{} {}; {} with {}", reasons.empty() ? "" : ", ",
                           name_for(s, reading, other), on ? s.on : s.off,
                           count, on ? s.off : s.on);
  }
  if (!reasons.empty()) text += " (" + reasons + ")";
  return text;
}

std::string split_line(const Reading& reading,
                       std::span<const Reading> others) {
  // What the accent's speakers have is written as General American would say
  // it, since its signs have the r; a short o is one whatever spells it.
  std::vector<Unit> said = reading.units;
  for (Unit& unit : said) {
    const bool as_given = unit.given && as_listed(unit.phonemes) == unit.listed;
    const bool short_o = unit.phonemes == std::vector{Phoneme::oh} &&
                         unit.listed == std::vector{Phoneme::aa};
    if (!as_given && !short_o) unit.phonemes = unit.listed;
  }
  apply_accent(said, Conventions{});
  std::string line = reading.word + ":";
  const auto is_parted = [&](std::size_t at) {
    return std::ranges::find(reading.parted, at) != reading.parted.end();
  };
  const bool between = std::ranges::all_of(reading.parted, [&](auto at) {
    return std::ranges::find(reading.units, at, &Unit::begin) !=
           reading.units.end();
  });
  // Between the letters of a grapheme no hyphen can stand: rab-bit.
  if (!between) {
    line += " ";
    for (std::size_t i = 0; i < reading.word.size(); ++i) {
      if (is_parted(i) && reading.word[i - 1] != '-') line += "-";
      line += reading.word[i];
    }
    return line;
  }
  for (std::size_t i = 0; i < reading.units.size(); ++i) {
    const Unit& unit = reading.units[i];
    line += is_parted(unit.begin) ? " - " : " ";
    line += unit.grapheme;
    if (unit.irregular || others_differ(reading, i, others)) {
      line += "=/" + sound_name(said[i].phonemes, Conventions{}) + "/";
    }
  }
  return line;
}

std::string_view origin_text(Reading::Origin origin) {
  switch (origin) {
    case Reading::Origin::lexicon:
      return "word list";
    case Reading::Origin::supplement:
      return "Sheaf's own list";
    case Reading::Origin::derived:
      return "made from a known word";
    case Reading::Origin::by_hand:
      return "split by hand";
    case Reading::Origin::guess:
      return "a guess";
  }
  return {};
}

std::string graphemes_text(const Reading& reading) {
  std::string text;
  for (const Unit& unit : reading.units) {
    if (!text.empty()) text += ' ';
    text += unit.grapheme;
  }
  return text;
}

std::string sounds_text(const Reading& reading,
                        const Conventions& conventions) {
  std::string text;
  for (const Sound& sound : reading.sounds) {
    if (!text.empty()) text += ' ';
    text += "/" + sound_name(sound.phonemes, conventions) + "/";
  }
  return text;
}

std::vector<std::string> ipa_phonemes(const Reading& reading,
                                      const Conventions& conventions) {
  Conventions ipa = conventions;
  ipa.notation = Notation::ipa;
  std::vector<std::string> all;
  for (const Unit& unit : reading.units) {
    for (const Phoneme p : unit.phonemes) {
      all.push_back(sound_name({&p, 1}, ipa));
    }
  }
  return all;
}

}  // namespace sheaf
