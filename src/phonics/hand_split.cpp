#include "phonics/hand_split.h"

#include <algorithm>
#include <limits>

#include <fmt/format.h>

namespace sheaf {
namespace {

bool is_split_grapheme(std::string_view grapheme) {
  return grapheme.size() == 3 && grapheme[1] == '_' && grapheme[2] == 'e';
}

}  // namespace

HandPlaces place_graphemes(std::string_view letters,
                           std::span<const std::string_view> graphemes) {
  HandPlaces result;
  std::size_t at = 0;
  int open = -1;  // a split grapheme that waits for its e
  int since = 0;  // units after it
  const auto fail = [&](std::size_t part, std::string text) {
    result.fault = std::move(text);
    result.part = static_cast<int>(part);
    return result;
  };
  const auto close_at = [&](std::size_t place) {
    result.places[open].split_e = static_cast<std::int8_t>(place);
    open = -1;
  };
  for (std::size_t i = 0; i < graphemes.size(); ++i) {
    const std::string_view grapheme = graphemes[i];
    const bool split = is_split_grapheme(grapheme);
    const std::string_view part = split ? grapheme.substr(0, 1) : grapheme;
    if (open >= 0 && since > 0 && at < letters.size() && letters[at] == 'e' &&
        letters.substr(at, part.size()) != part) {
      close_at(at++);
    }
    if (letters.substr(at, part.size()) != part) {
      return fail(i,
                  fmt::format("`{}` does not come next in the word", grapheme));
    }
    if (split && open >= 0) {
      return fail(i, fmt::format("`{}` stands inside another split grapheme",
                                 grapheme));
    }
    result.places.push_back({static_cast<std::uint8_t>(at), -1});
    at += part.size();
    if (split) {
      open = static_cast<int>(i);
      since = 0;
    } else {
      ++since;
    }
  }
  if (open >= 0 && since > 0 && at < letters.size() && letters[at] == 'e') {
    close_at(at++);
  }
  if (open >= 0) {
    return fail(open, fmt::format("`{}` finds no e behind its consonant",
                                  graphemes[open]));
  }
  if (at < letters.size()) {
    return fail(graphemes.empty() ? 0 : graphemes.size() - 1,
                fmt::format("`{}` is left over", letters.substr(at)));
  }
  return result;
}

Segments align_by_hand(const Inventory& inventory, std::string_view letters,
                       std::span<const std::string_view> graphemes,
                       std::span<const Phoneme> phonemes) {
  const HandPlaces hand = place_graphemes(letters, graphemes);
  if (!hand.fault.empty()) return {};
  constexpr int kNever = std::numeric_limits<int>::max() / 2;
  const std::size_t rows = graphemes.size(), columns = phonemes.size() + 1;
  struct Step {
    int cost = kNever;
    int id = -1;
  };
  // Backwards, so that the choice can be read off forwards.
  std::vector<Step> steps((rows + 1) * columns);
  steps[rows * columns + columns - 1].cost = 0;
  for (std::size_t i = rows; i-- > 0;) {
    for (const CorrespondenceId id : inventory.beginning_with(
             graphemes[i].empty() ? '\0' : graphemes[i][0])) {
      const Correspondence& unit = inventory[id];
      if (unit.grapheme() != graphemes[i]) continue;
      for (std::size_t j = 0; j + unit.sound_count < columns; ++j) {
        const Step& rest = steps[(i + 1) * columns + j + unit.sound_count];
        if (rest.cost >= kNever ||
            !std::ranges::equal(unit.phonemes(),
                                phonemes.subspan(j, unit.sound_count))) {
          continue;
        }
        Step& here = steps[i * columns + j];
        if (rest.cost + unit.cost < here.cost) {
          here = {rest.cost + unit.cost, id};
        }
      }
    }
  }
  Segments segments;
  std::size_t j = 0;
  for (std::size_t i = 0; i < rows; ++i) {
    const int id = steps[i * columns + j].id;
    if (id < 0) return {};
    segments.push_back({static_cast<CorrespondenceId>(id), hand.places[i].begin,
                        hand.places[i].split_e});
    j += inventory[static_cast<CorrespondenceId>(id)].sound_count;
  }
  return segments;
}

}  // namespace sheaf
