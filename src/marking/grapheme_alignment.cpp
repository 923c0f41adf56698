#include "marking/grapheme_alignment.h"

#include <algorithm>
#include <limits>

#include "marking/grapheme_costs.h"

namespace sheaf {
namespace {

using Kind = AlignedGrapheme::Kind;

// Letters of a grapheme that a wrong spelling may take up.
constexpr std::size_t kLongestWrong = 4;
constexpr int kFar = std::numeric_limits<int>::max() / 2;

// Whether the e of a split grapheme is still owed, and how it must be paid.
enum Owed : std::uint8_t {
  kNothing,
  kInPlace,   // right where the target has it
  kAnywhere,  // later: the grapheme is out of order
  kOpened,    // of another spelling (rane): behind a consonant
  kBehindConsonant,
};
constexpr std::size_t kOwedCount = 5;

enum class Move : std::uint8_t { start, unit, extra, swap, merged, pay };

struct Cell {
  int cost = kFar;
  std::uint32_t from = 0;
  Move step = Move::start;
  Kind kind = Kind::missing;
  Fit fit = Fit::usual;
  bool by_speech = false;
  std::uint8_t end = 0;  // of the letters taken, before an e that was paid
};

bool is_permutation_of(std::string_view a, std::string_view b) {
  return a != b && std::is_permutation(a.begin(), a.end(), b.begin(), b.end());
}

class Table {
 public:
  Table(const WrittenGraphemes& written, std::span<const TargetUnit> target)
      : written_(written),
        target_(target),
        letters_(written.letters()),
        cells_((target.size() + 1) * (letters_.size() + 1) * kOwedCount) {}

  GraphemeAlignment solve() {
    cells_[index(0, 0, kNothing)].cost = 0;
    for (std::size_t i = 0; i <= target_.size(); ++i) {
      for (std::size_t j = 0; j <= letters_.size(); ++j) {
        found_ready_ = false;
        for (std::size_t owed = 0; owed < kOwedCount; ++owed) {
          if (cells_[index(i, j, owed)].cost < kFar) leave(i, j, owed);
        }
      }
    }
    return trace();
  }

 private:
  std::size_t index(std::size_t i, std::size_t j, std::size_t owed) const {
    return (i * (letters_.size() + 1) + j) * kOwedCount + owed;
  }

  struct From {
    std::size_t i, j, owed;
  };

  void offer(std::size_t to, const From& from, int price, Cell made) {
    made.from = static_cast<std::uint32_t>(index(from.i, from.j, from.owed));
    made.cost = cells_[made.from].cost + price;
    if (made.cost < cells_[to].cost) cells_[to] = made;
  }

  // All steps out of one state.
  void leave(std::size_t i, std::size_t j, std::size_t owed) {
    const From from{i, j, owed};
    pay(from);
    if (j < letters_.size()) {
      offer(index(i, j + 1, owed), from, extra_cost(i, j),
            {.step = Move::extra});
    }
    if (i == target_.size()) return;
    take_unit(from, j,
              target_[i].unheard ? cost::kPlausible + cost::kBySpeech
                                 : cost::kMissing,
              {.kind = Kind::missing});
    if (j == letters_.size()) return;
    if (target_[i].split) {
      exact_split(from);
    } else {
      exact(from);
    }
    plausible(from);
    wrong(from);
    if (i + 1 < target_.size()) {
      swapped(from);
      merged(from);
    }
  }

  // estop, from one who hears a vowel there.
  static bool is_vowel_before(std::span<const TargetUnit> target,
                              std::string_view letters, std::size_t i,
                              std::size_t j) {
    return i == 0 && j == 0 && !target.empty() && target[0].vowel_before &&
           is_vowel_sign(letters[0]);
  }

  int extra_cost(std::size_t i, std::size_t j) const {
    if (letters_[j] == 'e' && i > 0 && target_[i - 1].before_ending) {
      return cost::kKeptE;
    }
    if (is_vowel_before(target_, letters_, i, j)) {
      return cost::kPlausible + cost::kBySpeech;
    }
    if (j > 0 && letters_[j] == letters_[j - 1]) return cost::kExtraTwin;
    if (letters_[j] == 'e' && j + 1 == letters_.size()) {
      return cost::kExtraFinalE;
    }
    return cost::kExtra;
  }

  void pay(const From& from) {
    const auto [i, j, owed] = from;
    if (j >= letters_.size() || letters_[j] != 'e') return;
    const bool closes =
        owed == kAnywhere || (owed == kBehindConsonant && may_close_split(j));
    if (closes) {
      offer(index(i, j + 1, kNothing), from, 0, {.step = Move::pay});
    }
  }

  // Behind the e of a split grapheme comes no vowel, and between its letters
  // one consonant, or st or ng (paste, change).
  bool may_close_split(std::size_t e) const {
    if (e + 1 < letters_.size() && is_vowel_sign(letters_[e + 1])) return false;
    std::size_t begin = e;
    while (begin > 0 && !is_vowel_sign(letters_[begin - 1])) --begin;
    const std::string_view between = letters_.substr(begin, e - begin);
    if (between.size() == 1) return between != "x";
    constexpr std::array<std::string_view, 6> kTwo = {"st", "ng", "th",
                                                      "ch", "sh", "ph"};
    return std::ranges::find(kTwo, between) != kTwo.end();
  }

  // Goes on to the next unit with letters up to `end` taken for this one.
  void take_unit(const From& from, std::size_t end, int price, Cell made) {
    const TargetUnit& unit = target_[from.i];
    std::size_t owed = from.owed;
    std::size_t next = end;
    made.step = Move::unit;
    made.end = static_cast<std::uint8_t>(end);
    if (owed == kInPlace && unit.before_split_e) {
      if (end >= letters_.size() || letters_[end] != 'e') return;
      owed = kNothing;
      next = end + 1;
    }
    if (owed == kOpened || owed == kBehindConsonant) {
      if (unit.vowel) return;
      if (end > from.j) owed = kBehindConsonant;
    }
    offer(index(from.i + 1, next, owed), from, price, made);
  }

  // Opens a split grapheme: its letters up to `end` are taken, its e is owed.
  void open_split(const From& from, std::size_t end, Owed owed, int price,
                  Cell made) {
    if (from.owed != kNothing) return;
    made.step = Move::unit;
    made.end = static_cast<std::uint8_t>(end);
    offer(index(from.i + 1, end, owed), from, price, made);
  }

  void exact(const From& from) {
    const std::string_view meant = target_[from.i].grapheme;
    const std::string_view span = letters_.substr(from.j, meant.size());
    if (span == meant) {
      take_unit(from, from.j + meant.size(), 0, {.kind = Kind::exact});
    } else if (meant.size() > 1 && span.size() == meant.size() &&
               is_permutation_of(span, meant)) {
      take_unit(from, from.j + meant.size(), cost::kMovedInside,
                {.kind = Kind::moved});
    }
  }

  void exact_split(const From& from) {
    const TargetUnit& unit = target_[from.i];
    const char vowel = unit.grapheme[0];
    const char here = letters_[from.j];
    if (here == vowel) {
      open_split(from, from.j + 1, kInPlace, 0, {.kind = Kind::exact});
      open_split(from, from.j + 1, kAnywhere, cost::kMovedInside,
                 {.kind = Kind::moved});
    } else if (is_vowel_sign(here)) {
      // coke for cake: the e is right, the vowel is not.
      open_split(from, from.j + 1, kInPlace,
                 written_.wrong_cost(unit, from.j, from.j + 1),
                 {.kind = Kind::wrong});
    }
    if (here == 'e' && from.j + 1 < letters_.size() &&
        letters_[from.j + 1] == vowel) {
      take_unit(from, from.j + 2, cost::kMovedInside, {.kind = Kind::moved});
    }
  }

  void plausible(const From& from) {
    const TargetUnit& unit = target_[from.i];
    if (!found_ready_) {
      written_.matches(unit, from.j, found_);
      found_ready_ = true;
    }
    for (const SoundMatch& match : found_) {
      if (is_kept_e(from, match)) continue;
      const Cell made{.kind = Kind::plausible,
                      .fit = match.fit,
                      .by_speech = match.by_speech};
      if (!match.split) {
        take_unit(from, match.end, match.cost, made);
      } else if (!(unit.split && letters_[from.j] == unit.grapheme[0])) {
        open_split(from, match.end, kOpened, match.cost, made);
      }
    }
  }

  // The e of shiney is that of shine, not part of a grapheme with the y.
  bool is_kept_e(const From& from, const SoundMatch& match) const {
    return from.i > 0 && target_[from.i - 1].dropped_e_before_ending &&
           letters_[from.j] == 'e' &&
           letters_.substr(from.j + 1, match.end - from.j - 1) ==
               target_[from.i].grapheme;
  }

  void wrong(const From& from) {
    const TargetUnit& unit = target_[from.i];
    const std::size_t longest =
        std::min(kLongestWrong, letters_.size() - from.j);
    for (std::size_t length = 1; length <= longest; ++length) {
      const std::size_t end = from.j + length;
      if (letters_.substr(from.j, length) == unit.grapheme) continue;
      take_unit(from, end, written_.wrong_cost(unit, from.j, end),
                {.kind = Kind::wrong});
    }
  }

  // Two neighbours in the other order (sotp), or with their letters mixed
  // (sihp for ship).
  void swapped(const From& from) {
    const TargetUnit& first = target_[from.i];
    const TargetUnit& second = target_[from.i + 1];
    if (second.split || first.before_split_e || second.before_split_e) {
      if (first.split && second.before_split_e) split_swapped(from);
      if (second.split && !first.split) opened_swapped(from);
      return;
    }
    if (first.split || first.grapheme == second.grapheme) return;
    const std::size_t length = first.grapheme.size() + second.grapheme.size();
    if (from.j + length > letters_.size()) return;
    const std::string_view span = letters_.substr(from.j, length);
    if (span.starts_with(second.grapheme) && span.ends_with(first.grapheme)) {
      take_two(from, from.j + length, cost::kSwapped, Move::swap);
    } else if (length > 2) {
      std::string mixed = first.grapheme + second.grapheme;
      std::swap(mixed[first.grapheme.size() - 1], mixed[first.grapheme.size()]);
      if (span == mixed) {
        take_two(from, from.j + length, cost::kBroken, Move::swap);
      }
    }
  }

  // ckae for cake.
  void split_swapped(const From& from) {
    const TargetUnit& first = target_[from.i];
    const std::string& second = target_[from.i + 1].grapheme;
    const std::string mixed = second + first.grapheme[0] + "e";
    if (from.owed == kNothing &&
        letters_.substr(from.j, mixed.size()) == mixed) {
      take_two(from, from.j + mixed.size(), cost::kSwapped, Move::swap);
    }
  }

  // simle for smile: the vowel of the split grapheme has changed places.
  void opened_swapped(const From& from) {
    const std::string mixed =
        target_[from.i + 1].grapheme.substr(0, 1) + target_[from.i].grapheme;
    if (from.owed != kNothing ||
        letters_.substr(from.j, mixed.size()) != mixed) {
      return;
    }
    const std::size_t end = from.j + mixed.size();
    offer(index(from.i + 2, end, kInPlace), from, cost::kSwapped,
          {.step = Move::swap, .end = static_cast<std::uint8_t>(end)});
  }

  // One written grapheme for two of the target: thanx.
  void merged(const From& from) {
    const TargetUnit& first = target_[from.i];
    const TargetUnit& second = target_[from.i + 1];
    if (first.split || second.split || first.before_split_e) return;
    std::array<Phoneme, 6> sounds;
    std::size_t count = 0;
    for (const TargetUnit* unit : {&first, &second}) {
      for (const Phoneme p : unit->sound()) sounds[count++] = p;
    }
    const std::size_t end =
        written_.one_grapheme(std::span(sounds).first(count), from.j, first);
    if (end == 0) return;
    const std::string_view span = letters_.substr(from.j, end - from.j);
    if (span == first.grapheme + second.grapheme) return;
    take_two(from, end, 2 * cost::kPlausible + cost::kUnusual, Move::merged);
  }

  void take_two(const From& from, std::size_t end, int price, Move step) {
    std::size_t owed = from.owed;
    if (owed == kOpened || owed == kBehindConsonant) return;
    std::size_t next = end;
    if (owed == kInPlace && target_[from.i + 1].before_split_e) {
      if (end >= letters_.size() || letters_[end] != 'e') return;
      owed = kNothing;
      next = end + 1;
    }
    offer(index(from.i + 2, next, owed), from, price,
          {.step = step, .end = static_cast<std::uint8_t>(end)});
  }

  GraphemeAlignment trace() const {
    GraphemeAlignment result;
    result.units.resize(target_.size());
    std::size_t at = index(target_.size(), letters_.size(), kNothing);
    result.cost = cells_[at].cost;
    int paid_at = -1;
    while (cells_[at].step != Move::start) {
      const Cell& cell = cells_[at];
      const std::size_t owed = at % kOwedCount;
      const std::size_t from_owed = cell.from % kOwedCount;
      const std::size_t i = cell.from / kOwedCount / (letters_.size() + 1);
      const std::size_t j = cell.from / kOwedCount % (letters_.size() + 1);
      switch (cell.step) {
        case Move::pay:
          paid_at = static_cast<int>(j);
          break;
        case Move::extra:
          result.extra.push_back(j);
          break;
        case Move::unit: {
          AlignedGrapheme& unit = result.units[i];
          unit = {.kind = cell.kind,
                  .begin = j,
                  .end = cell.end,
                  .fit = cell.fit,
                  .by_speech = cell.by_speech};
          if (from_owed == kInPlace && owed == kNothing) paid_at = cell.end;
          if (from_owed == kNothing && owed != kNothing) {
            unit.split_e = paid_at;
          }
          break;
        }
        case Move::swap:
        case Move::merged: {
          const Kind kind =
              cell.step == Move::swap ? Kind::moved : Kind::plausible;
          if (from_owed == kInPlace && owed == kNothing) paid_at = cell.end;
          result.units[i] = {
              .kind = kind, .begin = j, .end = cell.end, .fit = Fit::unusual};
          result.units[i + 1] = result.units[i];
          break;
        }
        case Move::start:
          break;
      }
      at = cell.from;
    }
    std::ranges::reverse(result.extra);
    return result;
  }

  const WrittenGraphemes& written_;
  std::span<const TargetUnit> target_;
  std::string_view letters_;
  std::vector<Cell> cells_;
  std::vector<SoundMatch> found_;
  bool found_ready_ = false;
};

}  // namespace

GraphemeAlignment align_graphemes(const SoundSpellings& spellings,
                                  std::span<const TargetUnit> target,
                                  std::string_view letters,
                                  const LearnerSpeech& speech) {
  return align_graphemes(WrittenGraphemes(spellings, letters, speech), target);
}

GraphemeAlignment align_graphemes(const WrittenGraphemes& written,
                                  std::span<const TargetUnit> target) {
  return Table(written, target).solve();
}

}  // namespace sheaf
