#include "phonics/word_endings.h"

#include <algorithm>
#include <array>
#include <utility>

#include "phonics/alike.h"

namespace sheaf {
namespace {

using P = Phoneme;

// carelessnesses has more endings than any word that is taught.
constexpr std::size_t kMostEndings = 4;
// What stands behind a prefix is longer, so it may be rarer.
constexpr int kLargestRestList = 60;
constexpr std::size_t kShortestBehindPrefix = 4;

constexpr std::array<std::string_view, 16> kPrefixes = {
    "inter", "super", "anti", "auto", "over", "dis", "mis", "non",
    "sub",   "pre",   "un",   "re",   "in",   "il",  "im",  "ir"};

// The first e of enlarge is now short, now weak.
bool begins_with(std::span<const P> whole, std::span<const P> part) {
  if (part.empty() || part.size() > whole.size()) return false;
  const auto level = [](P p) { return p == P::eh ? P::ih : p; };
  return same_sound(level(part[0]), level(whole[0])) &&
         std::equal(part.begin() + 1, part.end(), whole.begin() + 1,
                    same_sound);
}

// Whether -ed behind this sound is a beat of its own: landed, and not ragged,
// which is made from rag in another way.
bool has_own_beat_of_ed(P last) { return last == P::t || last == P::d; }

// What an ending sounds like behind the base's own sounds, which end in `last`.
bool fits_ending(Ending ending, P last, std::span<const P> rest) {
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
      if (has_own_beat_of_ed(last)) return is({P::ih, P::d});
      return is({P::t}) || is({P::d});
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

// The base as it sounds before the ending, where that is not as by itself.
std::vector<std::vector<P>> sounds_before_ending(const EndingAnalysis& analysis,
                                                 std::span<const P> base) {
  std::vector<std::vector<P>> all;
  const auto changed_end = [&](std::size_t cut, std::initializer_list<P> end) {
    all.emplace_back(base.begin(), base.end() - static_cast<long>(cut));
    all.back().insert(all.back().end(), end);
  };
  const std::size_t n = base.size();
  const P last = base[n - 1];
  if (analysis.joint == Joint::f_to_v) {  // knives
    if (last == P::f) changed_end(1, {P::v});
    return all;
  }
  all.emplace_back(base.begin(), base.end());
  if (n < 2) return all;
  // happy, happily: the last vowel is weaker.
  if (analysis.joint == Joint::y_to_i && last == P::iy) {
    changed_end(1, {P::ih});
  }
  // gentle, gently; feeble, feebler: the weak vowel goes, and in gently the l
  // of both is one.
  if (last == P::l && base[n - 2] == P::ax) {
    if (analysis.ending == Ending::ly) {
      changed_end(2, {});
    } else {
      changed_end(2, {P::l});
    }
  }
  // alleged, allegedly: -ed is a beat before -ly.
  if (analysis.ending == Ending::ly && analysis.base.ends_with("ed") &&
      (last == P::d || last == P::t)) {
    changed_end(1, {P::ih, P::d});
  }
  return all;
}

bool base_sounds_fit(const EndingAnalysis& analysis, std::span<const P> word,
                     std::span<const P> base) {
  if (base.empty()) return false;
  for (const std::vector<P>& own : sounds_before_ending(analysis, base)) {
    if (!own.empty() && begins_with(word, own) &&
        fits_ending(analysis.ending, own.back(), word.subspan(own.size()))) {
      return true;
    }
  }
  return false;
}

// An ending with what is known of the base.
struct Found {
  TakenEnding taken;
  std::vector<P> sounds;  // of the base
};

Found take_ending(std::string_view letters, std::span<const P> sounds,
                  const Lexicon& lexicon);

// -ance and -ence of a longer word: frequency, not chancy.
bool ends_in_ence(std::string_view base) {
  constexpr std::size_t kLetters = 4;
  if (!base.ends_with("ence") && !base.ends_with("ance")) return false;
  return base.substr(0, base.size() - kLetters).find_first_of("aeiouy") !=
         std::string_view::npos;
}

// Behind the -s of teas no ending can stand: teases is from tease. Nor is there
// a -y behind -er or -ence, with which it is one ending: bakery, frequency.
bool may_have_behind(Ending ending, std::string_view base,
                     std::span<const P> sounds, const Lexicon& lexicon) {
  const auto own = [&] {
    return take_ending(base, sounds, lexicon).taken.analysis.ending;
  };
  if (ending == Ending::y) {
    if (ends_in_ence(base)) return false;
    if (base.ends_with("er") && own() == Ending::er) return false;
  }
  if (!base.ends_with('s') || base.ends_with("ss")) return true;
  const Ending inner = own();
  return inner != Ending::s && inner != Ending::es;
}

bool is_met(const WordRecord& record, int largest) {
  return !record.name &&
         (record.everyday || (record.tier > 0 && record.tier <= largest));
}

// The ending of letters that sound like this.
Found take_ending(std::string_view letters, std::span<const P> sounds,
                  const Lexicon& lexicon) {
  if (lexicon.is_not_inflected(letters)) return {};
  const std::string_view only = lexicon.listed_ending(letters);
  Found found;
  int best_rank = 0;
  found.taken.analysis = take_off_ending(letters, [&](const EndingAnalysis& a) {
    constexpr int kNotBase = -1;
    if (a.base.size() < 2) return kNotBase;
    if (!only.empty() && ending_text(a.ending) != only) return kNotBase;
    const std::uint32_t place = lexicon.find(a.base);
    if (place == kNoWord) return kNotBase;
    for (WordRecord& record : lexicon.readings(place)) {
      if (!is_met(record, kLargestBaseList)) continue;
      std::vector<P> base = phonemes_of(record.segments, lexicon.inventory());
      if (!base_sounds_fit(a, sounds, base) ||
          !may_have_behind(a.ending, a.base, base, lexicon)) {
        continue;
      }
      const int rank = (record.everyday ? 0 : record.tier) + joint_rank(a);
      if (!found.taken.base || rank < best_rank) {
        found.taken.base = std::move(record);
        found.sounds = std::move(base);
        best_rank = rank;
      }
      return rank;
    }
    return kNotBase;
  });
  return found;
}

// The ending of a word that has it behind a prefix: unhelpful, as helpful.
Found take_behind_prefix(std::string_view letters, std::span<const P> sounds,
                         const Lexicon& lexicon) {
  if (lexicon.is_not_prefixed(letters)) return {};
  for (const std::string_view prefix : kPrefixes) {
    if (!letters.starts_with(prefix)) continue;
    const std::string_view rest = letters.substr(prefix.size());
    const std::uint32_t place =
        rest.size() > kShortestBehindPrefix ? lexicon.find(rest) : kNoWord;
    if (place == kNoWord) continue;
    for (const WordRecord& record : lexicon.readings(place)) {
      if (!is_met(record, kLargestRestList)) continue;
      const std::vector<P> own =
          phonemes_of(record.segments, lexicon.inventory());
      if (own.size() >= sounds.size() || !ends_in_word(sounds, own)) continue;
      Found found = take_ending(rest, own, lexicon);
      if (!found.taken.analysis) continue;
      found.taken.analysis.base.insert(0, prefix);
      found.taken.base.reset();
      const auto before = sounds.first(sounds.size() - own.size());
      found.sounds.insert(found.sounds.begin(), before.begin(), before.end());
      return found;
    }
  }
  return {};
}

}  // namespace

std::vector<TakenEnding> peel_endings(std::string_view spelling,
                                      std::span<const P> sounds,
                                      const Lexicon& lexicon) {
  std::vector<TakenEnding> all;
  std::string letters(spelling);
  std::vector<P> said(sounds.begin(), sounds.end());
  while (all.size() < kMostEndings) {
    Found found = take_ending(letters, said, lexicon);
    if (!found.taken.analysis) {
      found = take_behind_prefix(letters, said, lexicon);
    }
    if (!found.taken.analysis) break;
    letters = found.taken.analysis.base;
    said = std::move(found.sounds);
    all.push_back(std::move(found.taken));
  }
  return all;
}

std::span<const std::string_view> known_prefixes() { return kPrefixes; }

}  // namespace sheaf
