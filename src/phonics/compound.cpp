#include "phonics/compound.h"

#include <algorithm>
#include <array>

#include "phonics/alike.h"

namespace sheaf {
namespace {

using P = Phoneme;

// Parts must be words that people meet; larger lists have nearly any string.
constexpr int kLargestPartList = 40;

// Little words that stand first in compounds.
bool may_be_part(std::string_view part) {
  constexpr std::array<std::string_view, 11> kSmall = {
      "up", "in", "on", "an", "no", "by", "it", "my", "to", "go", "do"};
  return part.size() >= 3 || std::ranges::find(kSmall, part) != kSmall.end();
}

bool is_part(const Lexicon& lexicon, std::uint32_t place,
             std::span<const P> sounds) {
  if (place == kNoWord) return false;
  for (const WordRecord& record : lexicon.readings(place)) {
    if (record.name || (!record.everyday &&
                        (record.tier == 0 || record.tier > kLargestPartList))) {
      continue;
    }
    const std::vector<P> own =
        phonemes_of(record.segments, lexicon.inventory());
    if (std::ranges::equal(own, sounds, same_sound)) return true;
  }
  return false;
}

// fireman: behind another word the a of man is weak. No stretch of letters that
// is a word stands before it in woman, human or German.
bool is_weak_man(std::string_view part, std::span<const P> sounds) {
  return part == "man" && sounds.size() == 3 && sounds[0] == P::m &&
         same_sound(sounds[1], P::ax) && sounds[2] == P::n;
}

bool is_place_word(std::string_view part) {
  constexpr std::array<std::string_view, 6> kPlaces = {"up",  "in",   "out",
                                                       "off", "down", "after"};
  return std::ranges::find(kPlaces, part) != kPlaces.end();
}

std::span<const P> sounds_from(const CutWord& word, std::size_t piece) {
  return std::span(word.sounds).subspan(word.pieces[piece - 1].sounds_end);
}
std::span<const P> sounds_before(const CutWord& word, std::size_t piece) {
  return std::span(word.sounds).first(word.pieces[piece - 1].sounds_end);
}

}  // namespace

std::size_t second_word(const CutWord& word, const Lexicon& lexicon) {
  if (word.letters.size() < 4) return 0;
  if (const std::size_t listed = lexicon.listed_compound(word.letters)) {
    return listed;
  }
  std::size_t split_end = 0;
  for (std::size_t i = 0; i < word.pieces.size(); ++i) {
    const std::size_t letter = word.pieces[i].letter;
    if (i > 0 && letter >= split_end && letter < word.letters.size()) {
      const std::string_view first = word.letters.substr(0, letter);
      const std::string_view second = word.letters.substr(letter);
      // Looking both up is quicker than the list of what makes no compound.
      if (may_be_part(first) && may_be_part(second)) {
        const std::uint32_t one = lexicon.find(first);
        const std::uint32_t two =
            one == kNoWord ? kNoWord : lexicon.find(second);
        if (two != kNoWord && lexicon.may_be_compound(first, second) &&
            is_part(lexicon, one, sounds_before(word, i)) &&
            (is_part(lexicon, two, sounds_from(word, i)) ||
             is_weak_man(second, sounds_from(word, i)))) {
          return letter;
        }
      }
    }
    split_end = std::max(split_end, word.pieces[i].split_end);
  }
  return 0;
}

PartEndings endings_of_part(const CutWord& word, const Lexicon& lexicon) {
  for (std::size_t i = 1; i < word.pieces.size(); ++i) {
    const std::size_t at = word.pieces[i].letter;
    if (word.letters.size() < at + 4) break;
    const std::string_view first = word.letters.substr(0, at);
    const std::string_view second = word.letters.substr(at);
    if (!may_be_part(first) || is_place_word(first)) continue;
    const std::uint32_t one = lexicon.find(first);
    if (one == kNoWord || !lexicon.may_be_compound(first, second) ||
        !is_part(lexicon, one, sounds_before(word, i))) {
      continue;
    }
    auto endings = peel_endings(second, sounds_from(word, i), lexicon);
    if (endings.empty()) continue;
    const Ending ending = endings.front().analysis.ending;
    const bool plain = ending == Ending::s || ending == Ending::es ||
                       ending == Ending::ed || ending == Ending::ing;
    if (!plain ||
        !lexicon.may_be_compound(first, endings.front().analysis.base)) {
      continue;
    }
    const std::optional<WordRecord>& base = endings.front().base;
    if (!base) continue;
    const bool part = base->everyday || base->tier <= kLargestPartList;
    for (TakenEnding& taken : endings) {
      taken.analysis.base.insert(0, first);
      taken.base.reset();
    }
    return {part ? at : 0, std::move(endings)};
  }
  return {};
}

CutWord cut_record(const WordRecord& record, std::string_view letters,
                   const Inventory& inventory) {
  CutWord word;
  word.letters = letters;
  for (const Segment& segment : record.segments) {
    const Correspondence& unit = inventory[segment.id];
    const auto sounds = unit.phonemes();
    word.sounds.insert(word.sounds.end(), sounds.begin(), sounds.end());
    word.pieces.push_back(
        {segment.begin, word.sounds.size(),
         segment.split_e < 0 ? 0U
                             : static_cast<std::size_t>(segment.split_e) + 1});
  }
  return word;
}

}  // namespace sheaf
