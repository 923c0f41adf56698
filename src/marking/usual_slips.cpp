#include "marking/usual_slips.h"

#include <algorithm>
#include <string>

namespace sheaf {
namespace {

using P = Phoneme;
using Kind = AlignedGrapheme::Kind;

constexpr int kLostE = 120;  // of a split grapheme
constexpr int kFirstLetter = 100;
constexpr int kWeakBeat = 550;
constexpr int kRAlone = 150;
constexpr int kNeighbours = 120;
constexpr int kNoFronting = 300;

// The letters of the word in their order, the e of a split grapheme in its
// place.
std::string spelling_of(std::span<const TargetUnit> target) {
  std::string spelling;
  for (const TargetUnit& unit : target) {
    spelling += unit.split ? unit.grapheme.substr(0, 1) : unit.grapheme;
    if (unit.before_split_e) spelling += 'e';
  }
  return spelling;
}

bool swaps_neighbours(std::string_view word, std::string_view letters) {
  if (word.size() != letters.size()) return false;
  const auto [a, b] = std::ranges::mismatch(word, letters);
  const auto at = static_cast<std::size_t>(a - word.begin());
  return at + 1 < word.size() && word[at] == letters[at + 1] &&
         word[at + 1] == letters[at] &&
         word.substr(at + 2) == letters.substr(at + 2);
}

bool lost_its_e(const TargetUnit& unit, const AlignedGrapheme& written,
                std::string_view letters) {
  return unit.split && unit.stressed && written.kind == Kind::wrong &&
         written.end == written.begin + 1 &&
         letters[written.begin] == unit.grapheme[0];
}

bool is_r_alone(std::span<const TargetUnit> target, std::size_t i,
                const AlignedGrapheme& written, std::string_view letters) {
  const TargetUnit& unit = target[i];
  return i > 1 && i + 1 == target.size() && unit.vowel && !unit.stressed &&
         unit.grapheme.ends_with('r') && written.begin + 1 == letters.size() &&
         written.end == letters.size() && letters.back() == 'r';
}

bool is_weak_beat(std::span<const TargetUnit> target, std::size_t i,
                  const AlignedGrapheme& written) {
  if (i + 2 != target.size() || i == 0) return false;
  const TargetUnit& unit = target[i];
  const auto behind = target[i + 1].sound();
  return unit.vowel && !unit.stressed && unit.grapheme.size() == 1 &&
         written.kind == Kind::missing && behind.size() == 1 &&
         (behind[0] == P::l || behind[0] == P::m || behind[0] == P::n ||
          behind[0] == P::r);
}

}  // namespace

int usual_slips(std::span<const TargetUnit> target,
                const GraphemeAlignment& alignment, std::string_view letters) {
  int likelier = 0;
  for (std::size_t i = 0; i < target.size(); ++i) {
    const AlignedGrapheme& written = alignment.units[i];
    if (lost_its_e(target[i], written, letters)) likelier += kLostE;
    if (is_r_alone(target, i, written, letters)) likelier += kRAlone;
    if (is_weak_beat(target, i, written)) likelier += kWeakBeat;
  }
  if (swaps_neighbours(spelling_of(target), letters)) likelier += kNeighbours;
  if (std::ranges::find(alignment.extra, 0U) != alignment.extra.end()) {
    likelier -= kFirstLetter;
  }
  const auto first = target.empty() ? std::span<const P>{} : target[0].sound();
  if (first.size() == 1 && first[0] == P::dh && letters.starts_with('v')) {
    likelier -= kNoFronting;
  }
  return std::min(likelier, alignment.cost);
}

}  // namespace sheaf
