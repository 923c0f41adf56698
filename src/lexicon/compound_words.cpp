#include "lexicon/compound_words.h"

#include <algorithm>
#include <array>
#include <map>
#include <span>
#include <utility>

namespace sheaf {
namespace {

bool sound_alike(std::span<const Phoneme> a, std::span<const Phoneme> b) {
  constexpr std::array<std::array<Phoneme, 2>, 3> kAlike = {
      {{Phoneme::r, Phoneme::er},
       {Phoneme::ax, Phoneme::ih},
       {Phoneme::uw, Phoneme::uh}}};  // room in showroom
  if (a.size() != b.size()) return false;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const auto both = [&](Phoneme x, Phoneme y) {
      return (a[i] == x && b[i] == y) || (a[i] == y && b[i] == x);
    };
    // The y of copyright is not that of lyric.
    const bool before_r = i + 1 < a.size() && a[i + 1] == Phoneme::r;
    const bool alike =
        a[i] == b[i] || (before_r && both(Phoneme::iy, Phoneme::ih)) ||
        std::ranges::any_of(
            kAlike, [&](const auto& two) { return both(two[0], two[1]); });
    if (!alike) return false;
  }
  return true;
}

}  // namespace

void align_compounds(std::vector<WordRecord>& records,
                     const Inventory& inventory,
                     const std::function<bool(const std::string&)>& is_common) {
  std::map<std::string, const WordRecord*> parts;
  for (const WordRecord& record : records) {
    if (is_common(record.spelling)) parts.try_emplace(record.spelling, &record);
  }
  std::vector<std::pair<std::size_t, Segments>> changes;
  for (std::size_t i = 0; i < records.size(); ++i) {
    const WordRecord& record = records[i];
    if (record.origin != Reading::Origin::lexicon) continue;
    for (std::size_t at = 3; at + 3 <= record.spelling.size(); ++at) {
      const auto first = parts.find(record.spelling.substr(0, at));
      const auto second = parts.find(record.spelling.substr(at));
      if (first == parts.end() || second == parts.end()) continue;
      Segments both = first->second->segments;
      for (Segment s : second->second->segments) {
        s.begin = static_cast<std::uint8_t>(s.begin + at);
        if (s.split_e >= 0) {
          s.split_e = static_cast<std::int8_t>(s.split_e + at);
        }
        both.push_back(s);
      }
      if (both != record.segments &&
          sound_alike(phonemes_of(both, inventory),
                      phonemes_of(record.segments, inventory))) {
        changes.emplace_back(i, std::move(both));
        break;
      }
    }
  }
  for (auto& [i, segments] : changes) records[i].segments = std::move(segments);
}

}  // namespace sheaf
