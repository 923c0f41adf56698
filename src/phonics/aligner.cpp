#include "phonics/aligner.h"

#include <algorithm>
#include <array>
#include <limits>

#include "phonics/unit_rules.h"

namespace sheaf {
namespace {

// What has been opened and not yet closed: nothing, a split vowel that waits
// for its consonant, one that has it, one that has two (paste).
enum Open { kClosed, kWaiting, kOneConsonant, kTwoConsonants };
constexpr int kOpenCount = 4;

constexpr int kDearStep = 8000;
constexpr int kNever = std::numeric_limits<int>::max() / 2;

struct Step {
  int cost = kNever;
  std::int32_t from = -1;
  std::int16_t id = -1;  // -1: the e that closes a split vowel
};

class Search {
 public:
  Search(const Inventory& inventory, const AlignTask& task)
      : inventory_(inventory),
        letters_(task.letters),
        phonemes_(task.phonemes),
        ending_ed_(task.ending_ed),
        columns_(static_cast<int>(task.phonemes.size()) + 1),
        steps_((task.letters.size() + 1) * columns_ * kOpenCount *
               kLastUnitCount) {}

  Segments run(int* cost) {
    steps_[index(0, 0, kClosed, kOther)].cost = 0;
    for (int i = 0; i < static_cast<int>(letters_.size()); ++i) {
      for (int j = 0; j < columns_; ++j) {
        for (int open = 0; open < kOpenCount; ++open) {
          for (int last = 0; last < kLastUnitCount; ++last) {
            if (steps_[index(i, j, open, last)].cost < kNever) {
              advance(i, j, static_cast<Open>(open),
                      static_cast<LastUnit>(last));
            }
          }
        }
      }
    }
    return result(cost);
  }

 private:
  int index(int i, int j, int open, int last) const {
    return ((i * columns_ + j) * kOpenCount + open) * kLastUnitCount + last;
  }

  void offer(int to, int cost, int from, int id) {
    if (cost < steps_[to].cost) {
      steps_[to] = {cost, from, static_cast<std::int16_t>(id)};
    }
  }

  void advance(int i, int j, Open open, LastUnit last) {
    const int here = index(i, j, open, last);
    if (open >= kOneConsonant && letters_[i] == 'e') {
      if (i != ending_ed_) close_split(i, j, here);
    }
    for (const CorrespondenceId id : inventory_.beginning_with(letters_[i])) {
      try_unit(i, j, open, last, id);
    }
  }

  void close_split(int i, int j, int here) {
    // An e before another vowel is hardly ever a silent one (but someone).
    const bool vowel_next = i + 1 < static_cast<int>(letters_.size()) &&
                            is_vowel_letter(letters_[i + 1]);
    offer(index(i + 1, j, kClosed, kOther),
          steps_[here].cost + (vowel_next ? kDearStep : 0), here, -1);
  }

  void try_unit(int i, int j, Open open, LastUnit last, CorrespondenceId id) {
    const Correspondence& unit = inventory_[id];
    if (unit.by_hand) return;
    const int width = unit.width();
    const int end = i + width;
    const int after = j + unit.sound_count;
    if (end > static_cast<int>(letters_.size()) || after >= columns_) return;
    for (int k = 0; k < unit.sound_count; ++k) {
      if (phonemes_[j + k] != unit.sounds[k]) return;
    }
    if (letters_.substr(i, width) != unit.grapheme().substr(0, width)) return;
    if (!fits_ending(unit, i, end)) return;
    if (!may_follow(unit, last, letters_, end)) return;
    if (!fits_r(unit, j) || !may_stand_at(unit, letters_, i)) return;

    Open next = kClosed;
    if (open == kClosed) {
      if (unit.is_split()) {
        if (!opens_split(unit, i)) return;
        next = kWaiting;
      }
    } else if (open == kWaiting) {
      if (!may_stand_in_split(unit)) return;
      next = kOneConsonant;
    } else {
      // Only st stands between as two sounds: paste, taste.
      if (open != kOneConsonant || letters_[i] != 't' ||
          letters_[i - 1] != 's' || !may_stand_in_split(unit)) {
        return;
      }
      next = kTwoConsonants;
    }
    offer(index(end, after, next, kind_of(unit)),
          steps_[index(i, j, open, last)].cost + unit.cost,
          index(i, j, open, last), id);
  }

  bool fits_ending(const Correspondence& unit, int begin, int end) const {
    const bool is_ed = unit.grapheme() == "ed";
    if (begin == ending_ed_) return is_ed;
    return !is_ed &&
           (ending_ed_ < 0 || begin > ending_ed_ || end <= ending_ed_);
  }

  bool opens_split(const Correspondence& unit, int i) const {
    return split_is_possible(letters_, i, is_short_vowel(unit.sounds[0]));
  }

  // r by itself begins a syllable; behind a vowel it is part of the vowel's
  // grapheme. Only the glides of fire and hour can have it behind them.
  bool fits_r(const Correspondence& unit, int j) const {
    if (unit.sound_count != 1 || unit.sounds[0] != Phoneme::r) return true;
    if (j + 1 < columns_ - 1 && is_vowel(phonemes_[j + 1])) return true;
    return j > 0 &&
           (phonemes_[j - 1] == Phoneme::ay || phonemes_[j - 1] == Phoneme::aw);
  }

  Segments result(int* cost) const {
    const int rows = static_cast<int>(letters_.size());
    int at = -1;
    for (int last = 0; last < kLastUnitCount; ++last) {
      const int here = index(rows, columns_ - 1, kClosed, last);
      if (steps_[here].cost < kNever &&
          (at < 0 || steps_[here].cost < steps_[at].cost)) {
        at = here;
      }
    }
    if (at < 0) return {};
    if (cost) *cost = steps_[at].cost;
    Segments segments;
    int split_e = -1;
    while (steps_[at].from >= 0) {
      const Step& step = steps_[at];
      const int begin = step.from / (kOpenCount * kLastUnitCount) / columns_;
      if (step.id < 0) {
        split_e = begin;
      } else {
        Segment segment{static_cast<CorrespondenceId>(step.id),
                        static_cast<std::uint8_t>(begin), -1};
        if (inventory_[segment.id].is_split()) {
          segment.split_e = static_cast<std::int8_t>(split_e);
        }
        segments.push_back(segment);
      }
      at = step.from;
    }
    std::ranges::reverse(segments);
    return segments;
  }

  const Inventory& inventory_;
  std::string_view letters_;
  std::span<const Phoneme> phonemes_;
  int ending_ed_;
  int columns_;
  std::vector<Step> steps_;
};

}  // namespace

Segments align(const Inventory& inventory, const AlignTask& task, int* cost) {
  if (task.letters.empty() || task.letters.size() > 64 ||
      task.phonemes.empty() || task.phonemes.size() > 64) {
    return {};
  }
  return Search(inventory, task).run(cost);
}

}  // namespace sheaf
