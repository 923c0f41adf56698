#include "marking/grapheme_costs.h"

#include <algorithm>

#include "marking/sound_distance.h"

namespace sheaf {
namespace {

// Graphemes that say a sound this seldom (of 10,000) do not make an attempt
// sound like it.
constexpr int kHeardShare = 300;

bool is_subsequence(std::string_view part, std::string_view whole) {
  std::size_t at = 0;
  for (const char c : whole) {
    if (at < part.size() && part[at] == c) ++at;
  }
  return at == part.size();
}

bool shares_letter(std::string_view a, std::string_view b) {
  return a.find_first_of(b) != std::string_view::npos;
}

Fit worse(Fit a, Fit b) { return std::min(a, b); }

// A consonant with a bare e behind it: the e is an extra letter (shipe), not
// part of a grapheme.
bool is_bare_e(const TargetUnit& unit, std::string_view span) {
  return !unit.vowel && span.size() == unit.grapheme.size() + 1 &&
         span.back() == 'e' && span.starts_with(unit.grapheme);
}

// One short vowel letter for another whose sound is made close by: the
// commonest of all errors with vowels.
bool is_short_neighbour(const TargetUnit& unit, int distance,
                        std::string_view span) {
  const auto sound = unit.sound();
  return span.size() == 1 && unit.grapheme.size() == 1 && unit.vowel &&
         sound.size() == 1 && is_short_vowel(sound[0]) &&
         distance <= kNearSound;
}

// h behind c, g, p, s, t or w is one grapheme with it.
bool parts_digraph(std::string_view letters, std::size_t begin) {
  constexpr std::string_view kFirst = "cgpstw";
  return begin > 0 && letters[begin] == 'h' &&
         kFirst.find(letters[begin - 1]) != std::string_view::npos;
}

bool holds(SoundConfusion::Where where, const TargetUnit& unit) {
  switch (where) {
    case SoundConfusion::Where::anywhere:
      return true;
    case SoundConfusion::Where::start:
      return unit.begins_word;
    case SoundConfusion::Where::end:
      return unit.ends_word;
    case SoundConfusion::Where::before_nasal:
      return unit.before_nasal;
  }
  return false;
}

std::uint64_t bit(Phoneme p) { return std::uint64_t{1} << static_cast<int>(p); }

}  // namespace

WrittenGraphemes::WrittenGraphemes(const SoundSpellings& spellings,
                                   std::string_view letters,
                                   const LearnerSpeech& speech)
    : letters_(letters) {
  begins_.reserve(letters.size() + 2);
  entries_.reserve(letters.size() * 12);
  for (std::size_t i = 0; i < letters.size(); ++i) {
    begins_.push_back(entries_.size());
    const std::string_view rest = letters.substr(i);
    for (const Spelling& s : spellings.beginning_with(letters[i])) {
      if (s.split || rest.starts_with(s.grapheme)) {
        entries_.push_back({&s, i + s.width()});
      }
    }
  }
  begins_.push_back(entries_.size());
  begins_.push_back(entries_.size());
  for (const SoundConfusion& c : speech.confusions) {
    if (c.where != SoundConfusion::Where::anywhere) {
      placed_.push_back(c);
      continue;
    }
    alike_[static_cast<std::size_t>(c.one)] |= bit(c.other);
    alike_[static_cast<std::size_t>(c.other)] |= bit(c.one);
  }
}

bool WrittenGraphemes::same_sound(Phoneme meant, Phoneme said,
                                  const TargetUnit& unit,
                                  bool& by_speech) const {
  if (meant == said) return true;
  // Weak vowels are one.
  if (!unit.stressed && (meant == Phoneme::ax || meant == Phoneme::ih) &&
      (said == Phoneme::ax || said == Phoneme::ih)) {
    return true;
  }
  if (alike_[static_cast<std::size_t>(meant)] & bit(said)) {
    by_speech = true;
    return true;
  }
  for (const SoundConfusion& c : placed_) {
    const bool both = (c.one == meant && c.other == said) ||
                      (c.one == said && c.other == meant);
    if (both && holds(c.where, unit)) {
      by_speech = true;
      return true;
    }
  }
  return false;
}

// A vowel letter with r behind it is one grapheme with it: cor does not say
// the sounds of car one by one.
bool WrittenGraphemes::is_r_vowel(const Entry& entry) const {
  return entry.spelling->grapheme.size() == 1 &&
         is_vowel_sign(entry.spelling->grapheme[0]) &&
         entry.end < letters_.size() && letters_[entry.end] == 'r' &&
         !(entry.end + 1 < letters_.size() &&
           is_vowel_sign(letters_[entry.end + 1]));
}

struct WrittenGraphemes::Walk {
  const TargetUnit& unit;
  std::span<const Phoneme> sounds;
};

void WrittenGraphemes::extend(const Walk& walk, std::size_t at,
                              std::size_t done, int so_far, int graphemes,
                              Fit fit, bool by_speech,
                              std::vector<SoundMatch>& found) const {
  if (at >= letters_.size()) return;
  for (const Entry& entry : this->at(at)) {
    const Spelling& s = *entry.spelling;
    if (s.phonemes.size() > walk.sounds.size() - done) continue;
    bool speech = by_speech;
    bool same = true;
    for (std::size_t k = 0; same && k < s.phonemes.size(); ++k) {
      same =
          same_sound(walk.sounds[done + k], s.phonemes[k], walk.unit, speech);
    }
    if (!same) continue;
    // The e of a split spelling is still to come, so it is the last of them.
    if (s.split && done + s.phonemes.size() != walk.sounds.size()) continue;
    const Fit here = this->fit(walk.unit, at, entry);
    if (here < Fit::unusual) continue;
    if (done + s.phonemes.size() < walk.sounds.size() && is_r_vowel(entry)) {
      continue;
    }
    const Fit both = worse(fit, here);
    const std::size_t next = done + s.phonemes.size();
    const int price = so_far + (graphemes > 0 ? cost::kMoreGraphemes : 0) +
                      cost::kDoubtful * (10000 - s.share_of_grapheme) / 10000;
    if (next < walk.sounds.size()) {
      extend(walk, entry.end, next, price, graphemes + 1, both, speech, found);
      continue;
    }
    SoundMatch match{entry.end, price + cost::kPlausible, both, speech,
                     s.split};
    if (both == Fit::unusual) match.cost += cost::kUnusual;
    if (speech) match.cost += cost::kBySpeech;
    const auto known = std::ranges::find_if(found, [&](const SoundMatch& m) {
      return m.end == match.end && m.split == match.split;
    });
    if (known == found.end()) {
      found.push_back(match);
    } else if (match.cost < known->cost) {
      *known = match;
    }
  }
}

void WrittenGraphemes::matches(const TargetUnit& unit, std::size_t at,
                               std::vector<SoundMatch>& found) const {
  found.clear();
  for (const TargetUnit::Saying& saying : unit.sayings) {
    extend({unit, saying.sounds()}, at, 0, 0, 0, Fit::usual, saying.by_accent,
           found);
  }
  // -ed is one ending with three sounds: d may stand for it where it says /t/.
  if (unit.ending_ed && unit.sound().size() == 1 && at + 1 == letters_.size() &&
      letters_[at] == 'd') {
    found.push_back(
        {.end = at + 1, .cost = cost::kPlausible, .fit = Fit::unusual});
  }
  // carryed, partys: the y of the base kept, whatever it says there.
  if (unit.y_to_i && at < letters_.size() && letters_[at] == 'y') {
    const bool with_e = unit.grapheme == "ie" && at + 1 < letters_.size() &&
                        letters_[at + 1] == 'e';
    found.push_back({.end = at + (with_e ? 2U : 1U),
                     .cost = cost::kPlausible,
                     .fit = Fit::unusual});
  }
  std::erase_if(found, [&](const SoundMatch& m) {
    const std::string_view span = letters_.substr(at, m.end - at);
    return !m.split && (span == unit.grapheme || is_bare_e(unit, span));
  });
}

std::size_t WrittenGraphemes::one_grapheme(std::span<const Phoneme> sounds,
                                           std::size_t at,
                                           const TargetUnit& first) const {
  if (at >= letters_.size()) return 0;
  for (const Entry& entry : this->at(at)) {
    const Spelling& s = *entry.spelling;
    if (s.split || !std::ranges::equal(s.phonemes, sounds)) continue;
    if (s.grapheme.size() < 2 && s.grapheme != "x") continue;
    if (fit(first, at, entry) >= Fit::unusual) return entry.end;
  }
  return 0;
}

Fit WrittenGraphemes::fit(const TargetUnit& unit, std::size_t begin,
                          const Entry& entry) const {
  const std::size_t asked =
      (unit.stressed ? 1U : 0U) + (unit.grapheme == "u" ? 2U : 0U);
  std::int8_t& known = entry.fits[asked];
  if (known < 0) {
    known = static_cast<std::int8_t>(spelling_fit(
        *entry.spelling,
        {letters_, begin, entry.end, unit.stressed, unit.grapheme == "u"}));
  }
  return static_cast<Fit>(known);
}

WrittenGraphemes::Heard WrittenGraphemes::heard(const TargetUnit& unit,
                                                std::size_t begin,
                                                std::size_t end) const {
  Heard heard{false, 1000};
  int elsewhere = 1000;
  for (const Entry& entry : at(begin)) {
    const Spelling& s = *entry.spelling;
    if (s.split || entry.end != end) continue;
    const int far = sound_distance(unit.sound(), s.phonemes);
    if (fit(unit, begin, entry) >= Fit::unusual) {
      heard.is_grapheme = true;
      heard.distance = std::min(heard.distance, far);
    } else if (s.share_of_grapheme >= kHeardShare) {
      elsewhere = std::min(elsewhere, far);
    }
  }
  if (!heard.is_grapheme) heard.distance = elsewhere;
  if (end - begin == 1) heard.is_grapheme = true;
  return heard;
}

int WrittenGraphemes::distance(const TargetUnit& unit, std::size_t begin,
                               std::size_t end) const {
  return heard(unit, begin, end).distance;
}

int WrittenGraphemes::wrong_cost(const TargetUnit& unit, std::size_t begin,
                                 std::size_t end) const {
  const std::string_view span = letters_.substr(begin, end - begin);
  const std::string_view grapheme = unit.grapheme;
  const std::string_view meant = unit.split ? grapheme.substr(0, 1) : grapheme;
  if (is_bare_e(unit, span)) return kNotWrong;
  if (unit.ending_ed && span.size() == 2 && is_vowel_sign(span[0]) &&
      (span[1] == 'd' || span[1] == 't')) {
    return cost::kWrong;  // jumpid
  }
  Heard said = heard(unit, begin, end);
  if (!said.is_grapheme) {
    // The grapheme itself with a letter too many is not a wrong one, nor are
    // vowels and consonants in one.
    if (span.starts_with(meant) || span.ends_with(meant)) return kNotWrong;
    // sg for gh: a g with a letter too many.
    if (has_plausible_part(unit, begin, end)) return kNotWrong;
    const bool mixed = std::ranges::any_of(span, [&](char c) {
      return is_vowel_sign(c) != unit.vowel &&
             meant.find(c) == std::string_view::npos;
    });
    if (mixed) return kNotWrong;
    said.distance = heard(unit, begin, begin + 1).distance + 150;
  }
  const bool overlap =
      is_subsequence(span, meant) || is_subsequence(meant, span);
  int price = cost::kWrong + said.distance * 45 / 100;
  const bool other_sign = span.front() == '#';
  if (!other_sign && is_vowel_sign(span[0]) != unit.vowel) {
    price = overlap ? cost::kOtherKindOverlap : cost::kOtherKind;
  } else if (overlap) {
    price -= 200;
  } else if (shares_letter(span, meant)) {
    price -= 60;
  }
  if (is_short_neighbour(unit, said.distance, span))
    price -= cost::kShortNeighbour;
  if (parts_digraph(letters_, begin)) price += cost::kDigraphParted;
  if (!said.is_grapheme) {
    price += is_subsequence(span, meant)
                 ? 60
                 : 150 * static_cast<int>(span.size() - 1);
  }
  return price;
}

bool WrittenGraphemes::has_plausible_part(const TargetUnit& unit,
                                          std::size_t begin,
                                          std::size_t end) const {
  // n says /ng/ by the k or g behind it only: sink for sing.
  const auto sound = unit.sound();
  const bool ng = sound.size() == 1 && sound[0] == Phoneme::ng;
  if (unit.vowel || ng) return false;
  for (std::size_t at = begin + 1; at < end; ++at) {
    if (best_fit(unit, begin, at) >= Fit::unusual ||
        best_fit(unit, at, end) >= Fit::unusual) {
      return true;
    }
  }
  return false;
}

// Of all uses of a grapheme, in parts of 10,000: what it says more seldom (s
// in sugar) no reader thinks of elsewhere.
constexpr int kThoughtOf = 300;

Fit WrittenGraphemes::best_fit(const TargetUnit& unit, std::size_t begin,
                               std::size_t end) const {
  Fit best = Fit::never;
  for (const Entry& entry : at(begin)) {
    const Spelling& s = *entry.spelling;
    if (entry.end != end || s.split || s.share_of_grapheme < kThoughtOf ||
        !std::ranges::equal(s.phonemes, unit.sound())) {
      continue;
    }
    best = std::max(best, fit(unit, begin, entry));
  }
  return best;
}

}  // namespace sheaf
