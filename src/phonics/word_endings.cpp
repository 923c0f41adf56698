#include "phonics/word_endings.h"

#include <algorithm>
#include <utility>

#include "phonics/alike.h"

namespace sheaf {
namespace {

using P = Phoneme;

// Bases must be words that people meet; larger lists have "ton" and "et" and
// nearly any other string.
constexpr int kLargestBaseList = 50;
// carelessnesses has more endings than any word that is taught.
constexpr std::size_t kMostEndings = 4;

bool begins_with(std::span<const P> whole, std::span<const P> part) {
  if (part.size() > whole.size()) return false;
  return std::equal(part.begin(), part.end(), whole.begin(), same_sound);
}

// What an ending sounds like; the base's own sounds stand before it.
bool fits_ending(Ending ending, std::span<const P> rest) {
  const auto is = [&](std::initializer_list<P> sounds) {
    return std::equal(rest.begin(), rest.end(), sounds.begin(), sounds.end(),
                      same_sound);
  };
  switch (ending) {
    case Ending::s:
    case Ending::possessive:
      return is({P::s}) || is({P::z}) || is({P::ih, P::z});
    case Ending::es:
      return is({P::ih, P::z}) || is({P::z});
    case Ending::ed:
      return is({P::t}) || is({P::d}) || is({P::ih, P::d});
    case Ending::ing:
      return is({P::ih, P::ng});
    case Ending::er:
      return is({P::er}) || is({P::r, P::er});
    case Ending::est:
      return is({P::ih, P::s, P::t}) || is({P::r, P::ih, P::s, P::t});
    case Ending::ly:
      return is({P::l, P::iy}) || is({P::iy}) || is({P::ax, P::l, P::iy});
    case Ending::y:
      return is({P::iy});
    case Ending::ful:
      return is({P::f, P::ih, P::l}) || is({P::f, P::uh, P::l});
    case Ending::less:
      return is({P::l, P::ih, P::s});
    case Ending::ness:
      return is({P::n, P::ih, P::s}) || is({P::ih, P::s});
    case Ending::ment:
      return is({P::m, P::ih, P::n, P::t});
    case Ending::none:
      return false;
  }
  return false;
}

bool base_sounds_fit(const EndingAnalysis& analysis, std::span<const P> word,
                     std::span<const P> base) {
  if (begins_with(word, base) &&
      fits_ending(analysis.ending, word.subspan(base.size()))) {
    return true;
  }
  // happy, happily: the last vowel is weaker.
  if (analysis.joint == Joint::y_to_i && base.size() > 1 &&
      base.back() == P::iy && word.size() > base.size()) {
    const auto stem = base.first(base.size() - 1);
    const P next = word[stem.size()];
    if (begins_with(word, stem) && same_sound(next, P::ih) &&
        fits_ending(analysis.ending, word.subspan(base.size()))) {
      return true;
    }
  }
  // gentle, gently; feeble, feebler: the weak vowel goes, and in gently the l
  // of both is one.
  if (base.size() < 3 || base.back() != P::l ||
      base[base.size() - 2] != P::ax) {
    return false;
  }
  const auto stem = base.first(base.size() - 2);
  if (!begins_with(word, stem)) return false;
  const auto rest = word.subspan(stem.size());
  if (analysis.ending == Ending::ly) return fits_ending(Ending::ly, rest);
  return rest.size() > 1 && rest[0] == P::l &&
         fits_ending(analysis.ending, rest.subspan(1));
}

TakenEnding take_ending(std::string_view letters, std::span<const P> sounds,
                        const Lexicon& lexicon);

// Behind the -s of teas no ending can stand: teases is from tease.
bool has_plural_s(std::string_view letters, std::span<const P> sounds,
                  const Lexicon& lexicon) {
  if (!letters.ends_with('s') || letters.ends_with("ss")) return false;
  const Ending ending = take_ending(letters, sounds, lexicon).analysis.ending;
  return ending == Ending::s || ending == Ending::es;
}

// The ending of letters that sound like this.
TakenEnding take_ending(std::string_view letters, std::span<const P> sounds,
                        const Lexicon& lexicon) {
  if (lexicon.is_not_inflected(letters)) return {};
  const std::string_view only = lexicon.listed_ending(letters);
  TakenEnding taken;
  int best_rank = 0;
  taken.analysis = take_off_ending(letters, [&](const EndingAnalysis& a) {
    constexpr int kNotBase = -1;
    if (a.base.size() < 2) return kNotBase;
    if (!only.empty() && ending_text(a.ending) != only) return kNotBase;
    const std::uint32_t place = lexicon.find(a.base);
    if (place == kNoWord) return kNotBase;
    for (WordRecord& record : lexicon.readings(place)) {
      if (record.name ||
          (!record.everyday &&
           (record.tier == 0 || record.tier > kLargestBaseList))) {
        continue;
      }
      const std::vector<P> base =
          phonemes_of(record.segments, lexicon.inventory());
      if (base_sounds_fit(a, sounds, base) &&
          !has_plural_s(a.base, base, lexicon)) {
        const int rank = (record.everyday ? 0 : record.tier) + joint_rank(a);
        if (!taken.base || rank < best_rank) {
          taken.base = std::move(record);
          best_rank = rank;
        }
        return rank;
      }
    }
    return kNotBase;
  });
  return taken;
}

}  // namespace

std::vector<TakenEnding> peel_endings(std::string_view spelling,
                                      std::span<const P> sounds,
                                      const Lexicon& lexicon) {
  std::vector<TakenEnding> all;
  TakenEnding taken = take_ending(spelling, sounds, lexicon);
  while (const auto& base = taken.base) {
    TakenEnding next;
    if (all.size() + 1 < kMostEndings) {
      next = take_ending(base->spelling,
                         phonemes_of(base->segments, lexicon.inventory()),
                         lexicon);
    }
    all.push_back(std::exchange(taken, std::move(next)));
  }
  return all;
}

}  // namespace sheaf
