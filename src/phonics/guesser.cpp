#include "phonics/guesser.h"

#include <algorithm>

#include "phonics/letter_teams.h"
#include "phonics/unit_rules.h"

namespace sheaf {
namespace {

enum Open : std::uint8_t { kClosed, kWaiting, kOneConsonant, kTwoConsonants };

// One way to lay out the letters up to some place.
struct Path {
  int cost = 0;
  std::uint16_t before = kWordEdge;  // the steps before
  std::uint16_t last = kWordEdge;
  std::uint16_t unit = kWordEdge;  // the last one that is no split e
  Open open = kClosed;
  std::int16_t from = -1;  // index of the path it goes on from
  std::int16_t id = -1;    // -1: the e of a split grapheme
  std::uint8_t begin = 0;
};

constexpr std::size_t kWidth = 8;
constexpr std::size_t kOpenWidth = 4;

class Guess {
 public:
  Guess(std::string_view letters, const Inventory& inventory,
        std::span<const GuessStep> steps)
      : letters_(letters),
        inventory_(inventory),
        steps_(steps),
        teams_(letters) {
    paths_.reserve(letters.size() * kWidth);
    ends_.resize(letters.size() + 1);
  }

  Segments run() {
    paths_.push_back({});
    ends_[0].push_back(0);
    for (std::size_t at = 0; at < letters_.size(); ++at) {
      keep_best(ends_[at]);
      const std::vector<std::int16_t> here = ends_[at];
      for (const std::int16_t path : here) advance(path, at);
    }
    return result();
  }

 private:
  // The steps that follow two units; looked up once for each path, because a
  // path goes on in dozens of ways.
  struct Follows {
    std::span<const GuessStep> exact, any;
  };

  std::span<const GuessStep> steps_after(std::uint16_t before,
                                         std::uint16_t previous) const {
    const GuessStep first{before, previous, 0, 0};
    const auto begin = std::lower_bound(steps_.begin(), steps_.end(), first);
    auto end = begin;
    while (end != steps_.end() && end->before == before &&
           end->previous == previous) {
      ++end;
    }
    return {begin, end};
  }

  Follows follows(const Path& path) const {
    return {steps_after(path.before, path.last),
            steps_after(kAnyStep, path.last)};
  }

  static const GuessStep* find(std::span<const GuessStep> steps,
                               std::uint16_t id) {
    const auto found = std::ranges::lower_bound(steps, id, {}, &GuessStep::id);
    return found != steps.end() && found->id == id ? &*found : nullptr;
  }

  int step_cost(const Follows& after, std::uint16_t id) const {
    if (const GuessStep* step = find(after.exact, id)) return step->cost;
    if (const GuessStep* step = find(after.any, id)) {
      return kUnseenPair + step->cost;
    }
    const bool unit = id < inventory_.all().size();
    return kUnseenPair + kUnseenStep + (unit ? inventory_[id].cost : 0);
  }

  void keep_best(std::vector<std::int16_t>& paths) const {
    std::ranges::stable_sort(paths, {},
                             [&](std::int16_t p) { return paths_[p].cost; });
    // A split grapheme pays at once for what its e earns later, so those that
    // wait for it are no rivals of the others.
    std::size_t closed = 0, open = 0;
    std::erase_if(paths, [&](std::int16_t p) {
      return paths_[p].open == kClosed ? ++closed > kWidth
                                       : ++open > kOpenWidth;
    });
  }

  void add(std::size_t end, const Path& path) {
    // One path for each last unit and state is enough: the rest looks the same.
    for (const std::int16_t other : ends_[end]) {
      Path& old = paths_[other];
      if (old.before == path.before && old.last == path.last &&
          old.unit == path.unit && old.open == path.open) {
        if (path.cost < old.cost) old = path;
        return;
      }
    }
    if (paths_.size() >= 30000) return;
    ends_[end].push_back(static_cast<std::int16_t>(paths_.size()));
    paths_.push_back(path);
  }

  void advance(std::int16_t from, std::size_t at) {
    const Path path = paths_[from];
    const Follows after = follows(path);
    if (path.open >= kOneConsonant && letters_[at] == 'e') {
      Path next = path;
      next.open = kClosed;
      next.from = from;
      next.id = -1;
      next.cost += step_cost(after, kSplitStep) + teams_.split_end_cost(at);
      next.before = path.last;
      next.last = kSplitStep;
      next.begin = static_cast<std::uint8_t>(at);
      const bool vowel_next =
          at + 1 < letters_.size() && is_vowel_letter(letters_[at + 1]);
      if (!vowel_next) add(at + 1, next);
    }
    for (const CorrespondenceId id : inventory_.beginning_with(letters_[at])) {
      try_unit(path, after, from, at, id);
    }
  }

  void try_unit(const Path& path, const Follows& after, std::int16_t from,
                std::size_t at, CorrespondenceId id) {
    const Correspondence& unit = inventory_[id];
    if (unit.by_hand) return;
    const std::size_t width = static_cast<std::size_t>(unit.width());
    if (letters_.substr(at, width) != unit.grapheme().substr(0, width)) return;
    const std::size_t end = at + width;
    const bool edge = path.unit == kWordEdge;
    const LastUnit last = edge || path.last == kSplitStep
                              ? kOther
                              : kind_of(inventory_[path.unit]);
    if (!may_follow(unit, last, letters_, end) ||
        !may_stand_at(unit, letters_, at)) {
      return;
    }
    if (!edge && is_bare_r(inventory_[path.last]) &&
        !is_vowel(unit.sounds[0])) {
      return;
    }
    if (!edge && path.last != kSplitStep && is_same_letter(path.unit, id)) {
      return;
    }
    Open open = kClosed;
    if (path.open == kClosed) {
      if (unit.is_split()) {
        if (!split_is_possible(letters_, at, is_short_vowel(unit.sounds[0]))) {
          return;
        }
        open = kWaiting;
      }
    } else {
      if (!may_stand_in_split(unit)) return;
      const bool st = path.open == kOneConsonant && letters_[at] == 't' &&
                      letters_[at - 1] == 's';
      if (path.open != kWaiting && !st) return;
      open = st ? kTwoConsonants : kOneConsonant;
    }
    Path next;
    const bool behind_unit = !edge && path.last != kSplitStep;
    next.cost =
        path.cost + step_cost(after, id) +
        teams_.cost(unit, behind_unit ? &inventory_[path.unit] : nullptr, at);
    next.before = path.last;
    next.last = next.unit = id;
    next.open = open;
    next.from = from;
    next.id = static_cast<std::int16_t>(id);
    next.begin = static_cast<std::uint8_t>(at);
    add(end, next);
  }

  // A doubled consonant is one unit, never two of the same sound.
  bool is_same_letter(std::uint16_t last, CorrespondenceId id) const {
    const Correspondence& a = inventory_[last];
    const Correspondence& b = inventory_[id];
    return a.length == 1 && !is_vowel_letter(a.letters[0]) &&
           a.letters[0] == b.letters[0] && a.sounds[0] == b.sounds[0] &&
           !b.has_vowel();
  }

  static bool is_bare_r(const Correspondence& unit) {
    return unit.sound_count == 1 && unit.sounds[0] == Phoneme::r;
  }

  Segments result() {
    int best = -1;
    int best_cost = 0;
    for (const std::int16_t p : ends_.back()) {
      const Path& path = paths_[p];
      if (path.open != kClosed ||
          (path.last != kSplitStep && is_bare_r(inventory_[path.unit]))) {
        continue;
      }
      const int cost = path.cost + step_cost(follows(path), kWordEdge);
      if (best < 0 || cost < best_cost) best = p, best_cost = cost;
    }
    Segments segments;
    int split_e = -1;
    for (int at = best; at > 0; at = paths_[at].from) {
      const Path& path = paths_[at];
      if (path.id < 0) {
        split_e = path.begin;
        continue;
      }
      Segment segment{static_cast<CorrespondenceId>(path.id), path.begin, -1};
      if (inventory_[segment.id].is_split()) {
        segment.split_e = static_cast<std::int8_t>(split_e);
      }
      segments.push_back(segment);
    }
    std::ranges::reverse(segments);
    return segments;
  }

  std::string_view letters_;
  const Inventory& inventory_;
  std::span<const GuessStep> steps_;
  LetterTeams teams_;
  std::vector<Path> paths_;
  std::vector<std::vector<std::int16_t>> ends_;
};

}  // namespace

Segments guess_segments(std::string_view letters, const Inventory& inventory,
                        std::span<const GuessStep> steps) {
  if (letters.empty() || letters.size() > 64) return {};
  return Guess(letters, inventory, steps).run();
}

}  // namespace sheaf
