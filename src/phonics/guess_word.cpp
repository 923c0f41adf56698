#include "phonics/guess_word.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string>

#include "phonics/derive.h"
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

// The base that a regular ending was most likely put on, where the letters
// tell: "timed" is from "time", because "tim" would double its m.
std::optional<EndingAnalysis> likely_ending(std::string_view letters) {
  const auto take = [&](Ending ending, Joint joint, std::size_t cut,
                        std::string_view more) {
    return EndingAnalysis{ending, joint,
                          std::string(letters.substr(0, letters.size() - cut)) +
                              std::string(more)};
  };
  const auto before = [&](std::size_t cut) {
    return letters.substr(0, letters.size() - cut);
  };
  const auto ends = [&](std::string_view text) {
    return letters.size() > text.size() + 2 && letters.ends_with(text) &&
           before(text.size()).find_first_of("aeiouy") !=
               std::string_view::npos;
  };
  if (ends("ness")) return take(Ending::ness, Joint::plain, 4, "");
  if (ends("less")) return take(Ending::less, Joint::plain, 4, "");
  if (ends("ful")) return take(Ending::ful, Joint::plain, 3, "");
  if (ends("ies")) return take(Ending::es, Joint::y_to_i, 3, "y");
  if (ends("ied")) return take(Ending::ed, Joint::y_to_i, 3, "y");
  for (const Ending ending : {Ending::ed, Ending::ing}) {
    const std::size_t cut = ending == Ending::ed ? 2 : 3;
    if (!ends(ending_text(ending))) continue;
    const std::string_view stem = before(cut);
    const char last = stem.back();
    const bool doubled = stem.size() > 2 && last == stem[stem.size() - 2];
    if (doubled &&
        std::string_view("bdgmnprt").find(last) != std::string_view::npos) {
      return take(ending, Joint::doubled, cut + 1, "");
    }
    const bool wants_e =
        doubles_its_end(stem) ||
        std::string_view("cuvz").find(last) != std::string_view::npos ||
        stem.ends_with("at") || stem.ends_with("dg");
    if (wants_e) return take(ending, Joint::dropped_e, cut, "e");
    return std::nullopt;
  }
  if (ends("s") && !letters.ends_with("ss") && !letters.ends_with("us") &&
      !letters.ends_with("is") && !letters.ends_with("as")) {
    const std::string_view stem = before(1);
    const bool hiss = stem.ends_with("che") || stem.ends_with("she") ||
                      stem.ends_with("xe") || stem.ends_with("sse") ||
                      stem.ends_with("zze");
    if (!hiss) return take(Ending::s, Joint::plain, 1, "");
  }
  if (ends("ly") && letters.size() > 5) {
    return take(Ending::ly, Joint::plain, 2, "");
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
