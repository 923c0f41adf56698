#include "sheets/ear_work.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <functional>
#include <iterator>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <utility>

#include "analysis/remembered_parts.h"
#include "base/shuffle.h"
#include "sheets/sheet.h"
#include "sheets/word_division.h"

namespace sheaf {

namespace {

using P = Phoneme;
using OneSound = std::vector<P>;

// Said from the start, as their letters are taught.
constexpr P kConsonants[] = {P::b, P::d, P::f, P::g, P::hh, P::jh,
                             P::k, P::l, P::m, P::n, P::p,  P::r,
                             P::s, P::t, P::v, P::w, P::y,  P::z};
constexpr std::size_t kFewest = 2, kMost = 5;
constexpr EarChange kChanges[] = {EarChange::add, EarChange::leave_out,
                                  EarChange::first, EarChange::last,
                                  EarChange::middle};

bool is_vowel_sound(const OneSound& sound) { return is_vowel(sound.front()); }

class SoundSet {
 public:
  void insert(const OneSound& sound) {
    if (sound.size() == 1) {
      single_[static_cast<std::size_t>(sound.front())] = true;
    } else {
      longer_.insert(sound);
    }
  }
  bool contains(const OneSound& sound) const {
    return sound.size() == 1 ? single_[static_cast<std::size_t>(sound.front())]
                             : longer_.contains(sound);
  }

 private:
  std::array<bool, kPhonemeCount> single_{};
  std::set<OneSound> longer_;
};

// The sounds of a word as a text, which is compared and found sooner: each as
// its phonemes with a bar behind them.
constexpr char kBar = '\x7F';

std::string heard_text(const OneSound& sound) {
  std::string text;
  for (const P p : sound) text += static_cast<char>(static_cast<int>(p) + 1);
  return text += kBar;
}

std::string heard_text(const std::vector<OneSound>& sounds) {
  std::string text;
  for (const OneSound& sound : sounds) text += heard_text(sound);
  return text;
}

// All words that may be asked.
class EarWords {
 public:
  explicit EarWords(const AnalyzedLesson& lesson) : lesson_(lesson) {
    for (const P consonant : kConsonants) sounds_.insert({consonant});
    for (const LessonPattern& pattern : lesson.patterns) {
      if (pattern.sound.empty()) continue;
      week_sounds_.insert(pattern.sound);
      sounds_.insert(pattern.sound);
    }
    find_patterns();
    // The lesson's words come first.
    for (const AnalyzedWord& word : lesson.words) {
      if (word.has_pattern()) add(word.reading, true);
    }
    own_ = words_.size();
    for (const LessonPattern& pattern : lesson.patterns) {
      add_pattern(pattern.id, true);
    }
    for (const PatternId id : patterns_) add_pattern(id, false);
    Random random(text_hash("by ear", lesson.seed));
    const auto behind = words_.begin() + static_cast<std::ptrdiff_t>(own_);
    std::vector<EarWord> others(std::make_move_iterator(behind),
                                std::make_move_iterator(words_.end()));
    words_.erase(behind, words_.end());
    shuffle(others, random);
    words_.insert(words_.end(), std::make_move_iterator(others.begin()),
                  std::make_move_iterator(others.end()));
  }

  const std::vector<EarWord>& all() const { return words_; }
  bool is_of_week(const OneSound& sound) const {
    return week_sounds_.contains(sound);
  }

 private:
  // What was taught up to now, and the sounds of it.
  void find_patterns() {
    const Taught taught = taught_or_usual(lesson_);
    const auto& catalogue = lesson_.phonics->patterns();
    for (const Pattern& pattern : catalogue.all()) {
      const PatternId id = catalogue.id_of(pattern);
      const int stage = taught.stage(id);
      if (stage < 0 || stage > taught.step() + 1) continue;
      patterns_.push_back(id);
      for (const TaughtUnit& unit : pattern.teaches) {
        sounds_.insert(
            lesson_.phonics->taught_sound(id, unit, lesson_.conventions)
                .phonemes);
      }
    }
  }

  void add_pattern(PatternId id, bool of_week) {
    for (const PatternWord& word :
         lesson_.phonics->everyday_pattern_words(id, lesson_.conventions)) {
      const bool known = word.info.first && !word.info.name && !word.readings;
      if (!known || word.syllables > 1) continue;
      // A word has several patterns, and fares alike with each: those of the
      // week come first.
      if (!tried_.insert(word.word).second || seen_.contains(word.word)) {
        continue;
      }
      const auto reading =
          lesson_.phonics->first_units(word.word, lesson_.conventions);
      if (!is_fit(*reading)) continue;
      // jump and jumped are one word to children, where nothing is about -ed.
      if (!of_week &&
          base_and_ending(word.word, lesson_.conventions, *lesson_.phonics)) {
        continue;
      }
      add_fit(*reading, of_week);
    }
  }

  bool is_fit(const Reading& reading) const {
    const std::size_t size = reading.sounds.size();
    return size >= kFewest && size <= kMost &&
           std::ranges::all_of(reading.sounds, [&](const Sound& sound) {
             return sounds_.contains(sound.phonemes);
           });
  }

  void add(const Reading& reading, bool of_week) {
    if (is_fit(reading)) add_fit(reading, of_week);
  }

  void add_fit(const Reading& reading, bool of_week) {
    EarWord word{.word = reading.word, .of_week = of_week};
    for (const Sound& sound : reading.sounds) {
      word.sounds.push_back(sound.phonemes);
      word.of_week = word.of_week || is_of_week(sound.phonemes);
    }
    // Of two that sound alike the first is meant.
    if (!said_.insert(heard_text(word.sounds)).second) return;
    if (seen_.insert(reading.word).second) words_.push_back(std::move(word));
  }

  const AnalyzedLesson& lesson_;
  std::vector<PatternId> patterns_;
  SoundSet sounds_, week_sounds_;
  std::unordered_set<std::string> seen_, said_;
  std::unordered_set<std::string_view> tried_;  // of lists that stay
  std::vector<EarWord> words_;
  std::size_t own_ = 0;
};

// An `EarSwap` that was not chosen yet: the words are another's.
struct Swap {
  const EarWord* from = nullptr;
  const EarWord* to = nullptr;
  EarChange change = EarChange::add;
  std::size_t place = 0;  // of the sound, in the longer word
  bool at_end = false;

  // Empty where one is added, or left out.
  OneSound out() const {
    return change == EarChange::add ? OneSound() : from->sounds[place];
  }
  OneSound in() const {
    return change == EarChange::leave_out ? OneSound() : to->sounds[place];
  }
};

// Pairs of words that differ by one sound.
class SwapFinder {
 public:
  explicit SwapFinder(const std::vector<EarWord>& words) : words_(words) {
    for (const EarWord& word : words) {
      by_sounds_.emplace(heard_text(word.sounds), &word);
    }
  }

  std::vector<Swap> find(EarChange change) const {
    std::vector<Swap> swaps;
    if (change == EarChange::add || change == EarChange::leave_out) {
      for (const EarWord& word : words_) {
        add_shorter(word, change, false, swaps);
        add_shorter(word, change, true, swaps);
      }
      return swaps;
    }
    std::unordered_map<std::string, std::vector<const EarWord*>> alike;
    for (const EarWord& word : words_) {
      const auto place = place_of(word, change);
      if (!place) continue;
      std::string rest;
      for (std::size_t i = 0; i < word.sounds.size(); ++i) {
        rest += i == *place ? std::string(1, kBar) : heard_text(word.sounds[i]);
      }
      auto& others = alike[std::move(rest)];
      for (const EarWord* other : others) {
        swaps.push_back({other, &word, change, *place});
        swaps.push_back({&word, other, change, *place});
      }
      others.push_back(&word);
    }
    return swaps;
  }

 private:
  // Where a word is changed; nothing where it has no such sound.
  static std::optional<std::size_t> place_of(const EarWord& word,
                                             EarChange change) {
    const auto& sounds = word.sounds;
    if (sounds.size() < 3) return std::nullopt;
    if (change == EarChange::middle) {
      for (std::size_t i = 1; i + 1 < sounds.size(); ++i) {
        if (is_vowel_sound(sounds[i])) return i;
      }
      return std::nullopt;
    }
    const std::size_t place =
        change == EarChange::first ? 0 : sounds.size() - 1;
    if (is_vowel_sound(sounds[place])) return std::nullopt;
    return place;
  }

  void add_shorter(const EarWord& word, EarChange change, bool at_end,
                   std::vector<Swap>& swaps) const {
    const auto& sounds = word.sounds;
    if (sounds.size() < 3) return;
    if (is_vowel_sound(at_end ? sounds.back() : sounds.front())) return;
    std::string rest;
    for (std::size_t i = at_end ? 0 : 1; i + (at_end ? 1 : 0) < sounds.size();
         ++i) {
      rest += heard_text(sounds[i]);
    }
    const auto shorter = by_sounds_.find(rest);
    if (shorter == by_sounds_.end()) return;
    const bool longer = change == EarChange::add;
    swaps.push_back({longer ? shorter->second : &word,
                     longer ? &word : shorter->second, change,
                     at_end ? word.sounds.size() - 1 : 0, at_end});
  }

  const std::vector<EarWord>& words_;
  std::unordered_map<std::string, const EarWord*> by_sounds_;
};

class EarPlanner {
 public:
  EarPlanner(const AnalyzedLesson& lesson, int days, int items)
      : words_(lesson),
        finder_(words_.all()),
        items_(items),
        used_(words_.all().size()),
        swapped_(words_.all().size()) {
    plan_.resize(static_cast<std::size_t>(days));
  }

  std::vector<EarDay> plan() {
    const auto days = static_cast<int>(plan_.size());
    for (int day = 0; day < days; ++day) {
      const auto target =
          static_cast<std::size_t>(3 + (days > 1 ? 2 * day / (days - 1) : 0));
      EarDay& today = plan_[static_cast<std::size_t>(day)];
      // On the first day two sounds of what came before are enough.
      const std::size_t earlier = day == 0 ? 2 : target;
      today.together = take_words(target, earlier);
      today.apart = take_words(target, earlier);
      const std::vector<EarChange> changes = changes_of(day, days);
      const int each = std::max(1, items_ / static_cast<int>(changes.size()));
      for (const EarChange change : changes) {
        add_swaps(today.swaps, change, target, each);
      }
    }
    return std::move(plan_);
  }

 private:
  // One change a day, in order; few days have several.
  static std::vector<EarChange> changes_of(int day, int days) {
    constexpr int kAll = static_cast<int>(std::size(kChanges));
    if (days > kAll) return {kChanges[day * kAll / days]};
    std::vector<EarChange> changes;
    for (int i = 0; i < kAll; ++i) {
      if (i * days / kAll == day) changes.push_back(kChanges[i]);
    }
    return changes;
  }

  std::size_t place_of(const EarWord& word) const {
    return static_cast<std::size_t>(&word - words_.all().data());
  }

  // The unused word of the wanted kind whose length is nearest.
  const EarWord* next_word(bool of_week, std::size_t target) {
    const EarWord* best = nullptr;
    int least = 0;
    for (const EarWord& word : words_.all()) {
      if (word.of_week != of_week || used_[place_of(word)]) continue;
      const int off = std::abs(static_cast<int>(word.sounds.size()) -
                               static_cast<int>(target));
      if (best != nullptr && off >= least) continue;
      best = &word;
      least = off;
      if (off == 0) break;
    }
    return best;
  }

  std::vector<EarWord> take_words(std::size_t target, std::size_t earlier) {
    std::vector<EarWord> taken;
    const int of_week = (2 * items_ + 2) / 3;
    for (int i = 0; i < items_; ++i) {
      const bool wants_week = i < of_week;
      const EarWord* word =
          next_word(wants_week, wants_week ? target : earlier);
      if (word == nullptr) word = next_word(!wants_week, target);
      if (word == nullptr) break;
      used_[place_of(*word)] = true;
      taken.push_back(*word);
    }
    std::ranges::stable_sort(
        taken, {}, [](const EarWord& word) { return word.sounds.size(); });
    return taken;
  }

  // A change of the week's sound is worth most, then a word that has it.
  int worth(const Swap& swap, std::size_t target) const {
    const bool of_sound = (swap.change != EarChange::add &&
                           words_.is_of_week(swap.from->sounds[swap.place])) ||
                          (swap.change != EarChange::leave_out &&
                           words_.is_of_week(swap.to->sounds[swap.place]));
    const bool has_it = swap.from->of_week || swap.to->of_week;
    const auto size =
        std::max(swap.from->sounds.size(), swap.to->sounds.size());
    return (of_sound ? 20 : 0) + (has_it ? 10 : 0) -
           2 * std::abs(static_cast<int>(size) - static_cast<int>(target));
  }

  void add_swaps(std::vector<EarSwap>& swaps, EarChange change,
                 std::size_t target, int count) {
    std::vector<std::pair<int, Swap>> found;
    for (const Swap& swap : finder_.find(change)) {
      found.emplace_back(worth(swap, target), swap);
    }
    std::ranges::stable_sort(found, std::ranges::greater{},
                             &std::pair<int, Swap>::first);
    std::set<std::pair<OneSound, OneSound>> sounds;
    // Other sounds first; then any, where there are not so many.
    for (const bool new_sounds : {true, false}) {
      for (const auto& [value, swap] : found) {
        if (count == 0) return;
        const std::size_t from = place_of(*swap.from);
        const std::size_t to = place_of(*swap.to);
        if (swapped_[from] || swapped_[to]) continue;
        const OneSound out = swap.out(), in = swap.in();
        if (new_sounds && !sounds.insert({out, in}).second) continue;
        swapped_[from] = swapped_[to] = true;
        swaps.push_back(
            {swap.change, *swap.from, *swap.to, out, in, swap.at_end});
        --count;
      }
    }
  }

  EarWords words_;
  SwapFinder finder_;
  int items_;
  std::vector<EarDay> plan_;
  std::vector<bool> used_, swapped_;  // by place
};

}  // namespace

std::vector<EarDay> ear_work(const AnalyzedLesson& lesson, int days,
                             int items) {
  return EarPlanner(lesson, days, items).plan();
}

const std::vector<EarDay>& ear_days(const SheetInput& in, int items) {
  const int days = days_of_week(in);
  auto& kept = in.memory.ear_days[{days, items}];
  if (kept == nullptr) {
    kept = std::make_shared<const std::vector<EarDay>>(
        ear_work(in.lesson, days, items));
  }
  return *kept;
}

}  // namespace sheaf
