#include "marking/likely_errors.h"

#include <algorithm>
#include <array>

#include "marking/attempt_causes.h"
#include "marking/error_weights.h"
#include "marking/sound_distance.h"
#include "marking/spelling_fit.h"
#include "marking/written_word.h"

namespace sheaf {
namespace {

// A letter that says one sound nearly always: k, but not c.
constexpr int kBaseShare = 9000;
constexpr std::size_t kMostOfASound = 6;

using P = Phoneme;

bool is_only(std::span<const P> sounds, P one) {
  return sounds.size() == 1 && sounds[0] == one;
}

// Misspellings that no page should bear.
bool is_rude(std::string_view word) {
  constexpr std::array<std::string_view, 24> kRude = {
      "arse", "ass",  "bich", "boob", "cock", "cok",  "cum",  "cunt",
      "dic",  "dick", "dik",  "fag",  "fart", "fuc",  "fuck", "fuk",
      "pis",  "piss", "poo",  "sex",  "shit", "slut", "tit",  "turd"};
  return std::ranges::any_of(kRude, [&](std::string_view rude) {
    return word == rude || (word.size() == rude.size() + 1 &&
                            word.starts_with(rude) && word.back() == 's');
  });
}

class ErrorFinder {
 public:
  ErrorFinder(const SoundSpellings& spellings, const Reading& word,
              const LikelyErrorOptions& options)
      : spellings_(spellings),
        word_(word),
        options_(options),
        units_(target_units(word, options.speech, options.is_word)),
        right_(read_written(word.word).letters) {}

  std::vector<LikelyError> find(std::size_t most) {
    for (std::size_t i = 0; i < units_.size(); ++i) {
      other_spellings(i);
      near_sounds(i);
      left_out(i);
      shortened(i);
      taken_apart(i);
      turned(i);
      joint(i);
    }
    apostrophe();
    return choose(most);
  }

 private:
  const TargetUnit& unit(std::size_t i) const { return units_[i]; }
  bool is_of_pattern(std::size_t i) const {
    return std::ranges::find(options_.pattern_units, i) !=
           options_.pattern_units.end();
  }
  bool is_last(std::size_t i) const { return i + 1 == units_.size(); }
  bool is_vowel_at(std::size_t i) const {
    return i < units_.size() && units_[i].vowel;
  }
  bool is_consonant_at(std::size_t i) const {
    return i < units_.size() && !units_[i].vowel;
  }

  // The word with other letters for one unit. `e_behind` puts the e of a split
  // grapheme behind the unit after it.
  std::string with(std::size_t at, std::string_view letters,
                   bool e_behind = false) const {
    std::string text;
    for (std::size_t i = 0; i < units_.size(); ++i) {
      const bool split = units_[i].split;
      if (i == at) {
        text += letters;
      } else {
        text += split ? units_[i].grapheme.substr(0, 1) : units_[i].grapheme;
      }
      const bool own_e =
          units_[i].before_split_e && !(i > 0 && at == split_before(i));
      if (own_e || (e_behind && i == at + 1)) text += 'e';
    }
    return text;
  }

  // The split unit whose e stands behind unit `i`.
  std::size_t split_before(std::size_t i) const {
    while (i > 0 && !units_[i].split) --i;
    return i;
  }

  // A misspelling on its way, and whether it is about the lesson's pattern.
  struct Draft {
    LikelyError error;
    std::string letters;  ///< that stand for the grapheme
    bool of_pattern = false;
  };

  void add(std::size_t at, std::string_view letters, std::string written,
           Cause cause, int chance) {
    if (written == right_ || written.empty() || is_rude(written)) return;
    if (chance < weight::kLeast) return;
    const bool of_pattern = is_of_pattern(at);
    drafts_.push_back({.error = {.written = std::move(written),
                                 .grapheme = at,
                                 .cause = cause,
                                 .weight = chance},
                       .letters = std::string(letters),
                       .of_pattern = of_pattern});
  }
  // The same for other letters in the place of one unit.
  void add(std::size_t at, std::string_view letters, Cause cause, int chance) {
    add(at, letters, with(at, letters), cause, chance);
  }

  Fit fit_in(const std::string& letters, std::size_t at,
             const Spelling& s) const {
    std::size_t begin = 0;
    for (std::size_t i = 0; i < at; ++i) {
      begin += units_[i].split ? 1 : units_[i].grapheme.size();
      if (units_[i].before_split_e) ++begin;
    }
    return spelling_fit(s, {letters, begin, begin + s.width(),
                            units_[at].stressed, units_[at].grapheme == "u"});
  }

  // Where an e could close a split grapheme: behind one last consonant letter.
  bool can_be_split(std::size_t at) const {
    return at + 2 == units_.size() && is_consonant_at(at + 1) &&
           units_[at + 1].grapheme.size() == 1 &&
           units_[at + 1].grapheme != "x";
  }

  void other_spellings(std::size_t at) {
    std::size_t count = 0;
    for (const Spelling* s : spellings_.of_sound(unit(at).sound())) {
      if (++count > kMostOfASound + 1) break;
      if (s->grapheme == unit(at).grapheme) continue;
      // Learners make consonants simpler, seldom longer.
      if (!unit(at).vowel && s->grapheme.size() > unit(at).grapheme.size()) {
        continue;
      }
      if (s->split && !unit(at).split && !can_be_split(at)) continue;
      const bool moves_e = s->split && !unit(at).split;
      std::string written =
          with(at, s->split ? s->grapheme.substr(0, 1) : s->grapheme, moves_e);
      if (s->split && unit(at).split) {
        written = right_;
        written[first_letter(at)] = s->grapheme[0];
      }
      const Fit fit = fit_in(written, at, *s);
      // cing for king, gail for jail: the letter says it in other places. Worth
      // a row where the week is about it.
      if (fit == Fit::elsewhere && !unit(at).vowel && s->grapheme.size() == 1 &&
          is_of_pattern(at)) {
        add(at, s->grapheme, std::move(written), Cause::reads_otherwise,
            s->share_of_sound / 10 * weight::kElsewhere / 1000);
        continue;
      }
      if (fit < Fit::unusual) continue;
      const Cause cause = cause_of(at, *s, fit, written);
      add(at, s->grapheme, std::move(written), cause, chance_of(at, *s, fit));
    }
  }

  std::size_t first_letter(std::size_t at) const {
    std::size_t begin = 0;
    for (std::size_t i = 0; i < at; ++i) {
      begin += units_[i].split ? 1 : units_[i].grapheme.size();
      if (units_[i].before_split_e) ++begin;
    }
    return begin;
  }

  int chance_of(std::size_t at, const Spelling& s, Fit fit) const {
    int chance = s.share_of_sound / 10;
    const bool base =
        s.grapheme.size() == 1 && s.share_of_grapheme >= kBaseShare;
    if (base && unit(at).grapheme.size() > 1 && !unit(at).vowel) {
      chance = std::max(chance, weight::kSimpler);
    }
    if (fit == Fit::unusual) {
      chance = chance * (base ? weight::kBaseLetter : weight::kUnusual) / 1000;
    }
    if (!unit(at).stressed && unit(at).vowel && unit(at).grapheme.size() == 1) {
      chance = chance * weight::kSchwa / 1000;
    }
    return unit(at).doubled_for_ending ? weight::kJoint : chance;
  }

  Cause cause_of(std::size_t at, const Spelling& s, Fit fit,
                 std::string_view written) const {
    if (unit(at).ending_ed) return Cause::ending_by_sound;
    if (unit(at).doubled_for_ending && s.grapheme.size() == 1) {
      return Cause::doubling;
    }
    if (at > 0 && !unit(at).vowel &&
        vowel_reads_otherwise(units_, at - 1, written, first_letter(at - 1))) {
      return Cause::changes_vowel;
    }
    return fit == Fit::usual ? Cause::other_spelling : Cause::not_used_here;
  }

  void near_sounds(std::size_t at) {
    const TargetUnit& u = unit(at);
    const auto sound = u.sound();
    if (u.vowel && u.stressed && u.grapheme.size() == 1 && sound.size() == 1 &&
        is_short_vowel(sound[0])) {
      near_vowel(at);
    }
    const bool before_r =
        at + 1 < units_.size() && is_only(units_[at + 1].sound(), P::r);
    if (before_r && is_only(sound, P::t)) {
      add(at, "ch", Cause::near_sound, weight::kBeforeR);
    } else if (before_r && is_only(sound, P::d)) {
      add(at, "j", Cause::near_sound, weight::kBeforeR);
    } else if (is_only(sound, P::th)) {
      add(at, "f", Cause::near_sound, weight::kFronted);
    } else if (is_only(sound, P::dh) && at > 0) {
      add(at, "v", Cause::near_sound, weight::kFronted);
    } else if (is_only(sound, P::ch) && u.grapheme == "ch") {
      add(at, "sh", Cause::near_sound, weight::kTurned);
    } else if (is_only(sound, P::sh) && u.grapheme == "sh") {
      add(at, "s", Cause::near_sound, weight::kFronted);
    } else if (is_only(sound, P::ng) && u.grapheme == "ng") {
      add(at, "n", Cause::near_sound, weight::kFronted);
    }
  }

  void near_vowel(std::size_t at) {
    struct Letter {
      char letter;
      P sound;
    };
    constexpr std::array kShort = {Letter{'a', P::ae}, Letter{'e', P::eh},
                                   Letter{'i', P::ih}, Letter{'o', P::aa},
                                   Letter{'u', P::ah}};
    for (const Letter& other : kShort) {
      const int apart = sound_distance(unit(at).sound()[0], other.sound);
      if (unit(at).grapheme[0] == other.letter || apart > kNearSound) continue;
      add(at, std::string(1, other.letter), Cause::near_sound,
          weight::kShortNeighbour * (400 - apart) / 200);
    }
  }

  void left_out(std::size_t at) {
    const TargetUnit& u = unit(at);
    if (u.vowel || u.grapheme.size() > 1 || u.ending_ed) return;
    const bool nasal = is_only(u.sound(), P::m) || is_only(u.sound(), P::n) ||
                       is_only(u.sound(), P::ng);
    if (nasal && at > 0 && is_consonant_at(at + 1)) {
      add(at, "", Cause::left_out, weight::kNasalLost);
    } else if (at > 0 && is_consonant_at(at - 1) && is_vowel_at(at + 1)) {
      add(at, "", Cause::left_out, weight::kBlendLost);
    } else if (at > 0 && is_last(at) && is_consonant_at(at - 1) &&
               u.grapheme != "s" && u.grapheme != "d") {
      add(at, "", Cause::left_out, weight::kLastOfBlendLost);
    }
  }

  // A long vowel written with its first letter; girl as gril.
  void shortened(std::size_t at) {
    const TargetUnit& u = unit(at);
    if (!u.vowel || u.grapheme.size() < 2) return;
    if (u.split) {
      add(at, u.grapheme.substr(0, 1), Cause::reads_otherwise,
          weight::kSplitLost);
      return;
    }
    const bool closed = is_consonant_at(at + 1);
    if (u.grapheme.size() == 2 && u.grapheme[1] == 'r') {
      if (!closed || at == 0) return;
      add(at, std::string{'r', u.grapheme[0]}, Cause::order, weight::kOrder);
    } else if (closed && u.grapheme.back() != 'r') {
      add(at, u.grapheme.substr(0, 1), Cause::reads_otherwise,
          weight::kOneLetter);
    }
  }

  // One grapheme that says two sounds, written with one for each.
  void taken_apart(std::size_t at) {
    struct Row {
      std::string_view grapheme, written;
      int chance;
    };
    constexpr std::array kRows = {
        Row{"x", "ks", weight::kTakenApart},
        Row{"qu", "kw", weight::kTakenApart},
        Row{"le", "el", weight::kTakenApart},
        Row{"le", "ul", weight::kTakenApart / 2},
    };
    for (const Row& row : kRows) {
      if (unit(at).grapheme != row.grapheme || unit(at).sound().size() != 2) {
        continue;
      }
      add(at, row.written, Cause::other_spelling, row.chance);
    }
  }

  void turned(std::size_t at) {
    if (unit(at).grapheme == "b") {
      add(at, "d", Cause::turned_letter, weight::kTurned);
    } else if (unit(at).grapheme == "d" && !unit(at).ending_ed) {
      add(at, "b", Cause::turned_letter, weight::kTurned);
    }
  }

  void joint(std::size_t at) {
    const TargetUnit& u = unit(at);
    if (u.dropped_e_before_ending && !is_last(at) &&
        units_[at + 1].grapheme[0] == 'i') {
      add(at, u.grapheme + "e", Cause::dropped_e, weight::kJoint);
    }
    if (u.y_to_i && u.grapheme[0] == 'i') {
      add(at, "y", Cause::y_to_i, weight::kJoint);
    }
    if (!u.ending_ed) return;
    const auto sound = u.sound();
    if (is_only(sound, P::t)) {
      add(at, "t", Cause::ending_by_sound, weight::kEndingBySound);
    } else if (is_only(sound, P::d)) {
      add(at, "d", Cause::ending_by_sound, weight::kEndingBySound);
    } else if (sound.size() == 2) {
      add(at, "id", Cause::ending_by_sound, weight::kEndingBySound);
    }
  }

  void apostrophe() {
    const std::string signs = read_written(word_.word).signs;
    if (signs.find('\'') == std::string::npos) return;
    drafts_.push_back({.error = {.written = right_,
                                 .grapheme = units_.size(),
                                 .cause = Cause::left_out,
                                 .weight = weight::kApostrophe}});
  }

  // The likeliest one about the pattern comes first; beside the others its
  // further ones count double.
  std::vector<LikelyError> choose(std::size_t most) {
    const auto weight = [](const Draft& draft) {
      return draft.error.weight * (draft.of_pattern ? 2 : 1);
    };
    std::ranges::stable_sort(drafts_, std::ranges::greater{}, weight);
    const auto first = std::ranges::find(drafts_, true, &Draft::of_pattern);
    if (first != drafts_.end()) {
      std::rotate(drafts_.begin(), first, first + 1);
    }
    std::vector<LikelyError> chosen;
    for (Draft& draft : drafts_) {
      if (chosen.size() == most) break;
      LikelyError& error = draft.error;
      const bool known = std::ranges::any_of(chosen, [&](const auto& other) {
        return other.written == error.written ||
               (other.grapheme == error.grapheme && other.cause == error.cause);
      });
      if (known) continue;
      const bool other_word =
          options_.is_common_word && options_.is_common_word(error.written);
      error.cue = error_cue(word_,
                            {error.grapheme, error.cause, draft.letters,
                             other_word, options_.sentence},
                            options_.rules, options_.conventions);
      chosen.push_back(std::move(error));
    }
    return chosen;
  }

  const SoundSpellings& spellings_;
  const Reading& word_;
  const LikelyErrorOptions& options_;
  std::vector<TargetUnit> units_;
  std::string right_;
  std::vector<Draft> drafts_;
};

}  // namespace

std::vector<LikelyError> likely_errors(const SoundSpellings& spellings,
                                       const Reading& word,
                                       const LikelyErrorOptions& options,
                                       std::size_t most) {
  return ErrorFinder(spellings, word, options).find(most);
}

}  // namespace sheaf
