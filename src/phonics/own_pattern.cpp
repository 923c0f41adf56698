#include "phonics/own_pattern.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/diagnostics.h"
#include "base/nearest.h"
#include "base/utf8.h"
#include "phonics/explain.h"
#include "phonics/notation.h"
#include "phonics/table_text.h"

namespace sheaf {
namespace {

bool may_be_grapheme(std::string_view text) {
  const auto letter = [](char c) { return c >= 'a' && c <= 'z'; };
  if (text.size() == 3 && text[1] == '_') {
    return letter(text[0]) && text[2] == 'e';
  }
  return !text.empty() && std::ranges::all_of(text, letter);
}

}  // namespace

bool is_own_pattern(std::string_view written) {
  return written.find('=') != std::string_view::npos;
}

OwnPattern read_own_pattern(std::string_view written, std::string& fault) {
  OwnPattern pattern;
  for (const std::string_view item : split_at(written, ' ')) {
    if (item.empty()) continue;
    const std::size_t equals = item.find('=');
    OwnPattern::Spelling spelling;
    spelling.grapheme = lower_case(item.substr(0, equals));
    if (!may_be_grapheme(spelling.grapheme)) {
      fault = fmt::format("{} is not a grapheme", quoted(spelling.grapheme));
      return {};
    }
    if (equals != std::string_view::npos) {
      const std::string_view name = item.substr(equals + 1);
      const auto sound = read_sound(name);
      if (!sound) {
        const std::string near = did_you_mean(name, plain_sound_names());
        fault = fmt::format("there is no sound named {}{}{}", quoted(name),
                            near.empty() ? "" : "; ", near);
        return {};
      }
      spelling.phonemes = *sound;
    }
    pattern.spellings.push_back(std::move(spelling));
  }
  if (pattern.spellings.empty()) fault = "no grapheme stands here";
  return pattern;
}

std::vector<std::uint8_t> places_of(const OwnPattern& pattern,
                                    const Reading& reading) {
  std::vector<std::uint8_t> places;
  for (std::size_t i = 0; i < reading.units.size(); ++i) {
    const Unit& unit = reading.units[i];
    const bool shows = std::ranges::any_of(
        pattern.spellings, [&](const OwnPattern::Spelling& s) {
          return s.grapheme == unit.grapheme &&
                 (s.phonemes.empty() || s.phonemes == unit.listed);
        });
    if (shows) places.push_back(static_cast<std::uint8_t>(i));
  }
  return places;
}

std::string why_not_own(const OwnPattern& pattern, const Reading& reading) {
  for (const OwnPattern::Spelling& s : pattern.spellings) {
    for (const Unit& unit : reading.units) {
      if (unit.grapheme == s.grapheme) {
        return fmt::format("its {} says /{}/", unit.grapheme,
                           sound_name(unit.listed, Conventions{}));
      }
    }
  }
  return fmt::format("it has no {} ({})", pattern.spellings.front().grapheme,
                     graphemes_text(reading));
}

}  // namespace sheaf
