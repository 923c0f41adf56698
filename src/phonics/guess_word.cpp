#include "phonics/guess_word.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string>

#include "phonics/derive.h"
#include "phonics/ending_rules.h"
#include "phonics/endings.h"
#include "phonics/unit_rules.h"

namespace sheaf {
namespace {

constexpr int kLargestPartList = 50;
// The lists of a compound's parts, added up: little words must be very common,
// or "notion" comes out as not and ion.
constexpr int kCommon = 45;
constexpr int kCommonest = 20;

// What is left where nothing usual fits: each letter with its usual sound.
Segments letter_by_letter(std::string_view letters,
                          const Inventory& inventory) {
  Segments segments;
  for (std::size_t i = 0; i < letters.size(); ++i) {
    int best = -1;
    for (const CorrespondenceId id : inventory.beginning_with(letters[i])) {
      const Correspondence& unit = inventory[id];
      if (unit.length == 1 && !unit.by_hand &&
          (best < 0 || unit.cost < inventory[best].cost)) {
        best = id;
      }
    }
    if (best >= 0) {
      segments.push_back({static_cast<CorrespondenceId>(best),
                          static_cast<std::uint8_t>(i), -1});
    }
  }
  return segments;
}

WordRecord plain_guess(std::string_view letters, const GuessSources& sources) {
  WordRecord record;
  record.spelling = letters;
  record.stress = 1;
  record.origin = Reading::Origin::guess;
  record.segments = guess_segments(letters, *sources.inventory, sources.steps);
  if (record.segments.empty()) {
    record.segments = letter_by_letter(letters, *sources.inventory);
  }
  return record;
}

std::optional<WordRecord> common_word(std::string_view letters,
                                      const GuessSources& sources) {
  for (WordRecord& record : sources.find(letters)) {
    if (!record.name &&
        (record.everyday ||
         (record.tier > 0 && record.tier <= kLargestPartList))) {
      return std::move(record);
    }
  }
  return std::nullopt;
}

// Of all ways to part the word, the one with the commonest parts.
std::optional<WordRecord> guess_compound(std::string_view letters,
                                         const GuessSources& sources) {
  std::optional<WordRecord> best;
  int best_tiers = 0;
  for (std::size_t at = 3; at + 3 <= letters.size(); ++at) {
    const auto first = common_word(letters.substr(0, at), sources);
    if (!first) continue;
    const auto second = common_word(letters.substr(at), sources);
    if (!second) continue;
    const int tiers = first->tier + second->tier;
    const std::size_t shortest = std::min(at, letters.size() - at);
    if (tiers > (shortest == 3 ? kCommonest : kCommon)) continue;
    if (best && tiers >= best_tiers) continue;
    best =
        join_records(*first, *second, std::string(letters), *sources.inventory);
    best_tiers = tiers;
  }
  return best;
}

std::optional<WordRecord> guess_prefixed(std::string_view letters,
                                         const GuessSources& sources) {
  constexpr std::array<std::string_view, 8> kPrefixes = {
      "un", "re", "dis", "mis", "non", "pre", "de", "in"};
  for (const std::string_view prefix : kPrefixes) {
    if (!letters.starts_with(prefix) || letters.size() < prefix.size() + 4) {
      continue;
    }
    const auto rest = common_word(letters.substr(prefix.size()), sources);
    if (!rest) continue;
    WordRecord first = plain_guess(prefix, sources);
    first.stress = 0;
    return join_records(first, *rest, std::string(letters), *sources.inventory);
  }
  return std::nullopt;
}

// Whether letters before -ed or -ing look like a word that has lost its e:
// "tim", which would double its m, but not "land".
bool looks_cut(std::string_view stem) {
  return doubles_its_end(stem) || stem.ends_with("at") ||
         stem.ends_with("dg") ||
         std::string_view("cuvz").find(stem.back()) != std::string_view::npos;
}

// Whether a base that nobody knows is likely to have had this done to it.
bool is_likely(const EndingAnalysis& analysis, std::string_view stem) {
  constexpr std::string_view kDoubled = "bdgmnprt";
  switch (analysis.joint) {
    case Joint::y_to_i:
      return true;
    case Joint::doubled:
      return kDoubled.find(stem.back()) != std::string_view::npos;
    case Joint::dropped_e:
      return begins_with_vowel(analysis.ending) && looks_cut(stem);
    case Joint::plain:
      return !begins_with_vowel(analysis.ending) &&
             analysis.ending != Ending::es && !stem.ends_with('i');
    default:
      return false;
  }
}

// The base that a regular ending was most likely put on, where the letters
// tell.
std::optional<EndingAnalysis> likely_ending(std::string_view letters) {
  constexpr std::array kGuessedEndings = {
      Ending::ness, Ending::less, Ending::ful, Ending::es,
      Ending::ed,   Ending::ing,  Ending::s,   Ending::ly};
  constexpr std::size_t kShortestStem = 3;
  for (const Ending ending : kGuessedEndings) {
    const std::string_view text = ending_text(ending);
    if (letters.size() < text.size() + kShortestStem) continue;
    const std::string_view stem =
        letters.substr(0, letters.size() - text.size());
    // bus, this, gas, glass
    if (ending == Ending::s &&
        std::string_view("suia").find(stem.back()) != std::string_view::npos) {
      continue;
    }
    for (EndingAnalysis& analysis : possible_bases(letters, ending)) {
      if (is_likely(analysis, stem)) return std::move(analysis);
    }
  }
  return std::nullopt;
}

std::optional<WordRecord> guess_with_ending(std::string_view letters,
                                            const GuessSources& sources) {
  const auto ending = likely_ending(letters);
  if (!ending) return std::nullopt;
  const WordRecord base = guess_word(ending->base, sources);
  return derive_record(letters, letters, *ending, base, {}, *sources.inventory);
}

}  // namespace

WordRecord guess_word(std::string_view letters, const GuessSources& sources) {
  std::optional<WordRecord> record = guess_compound(letters, sources);
  if (!record) record = guess_prefixed(letters, sources);
  if (!record) record = guess_with_ending(letters, sources);
  if (!record) record = plain_guess(letters, sources);
  record->origin = Reading::Origin::guess;
  return std::move(*record);
}

}  // namespace sheaf
