#include "lexicon/tidy_sounds.h"

#include "phonics/syllables.h"

namespace sheaf {
namespace {

// A stressed weak vowel is the short u of "sum".
std::vector<Phoneme> stress_weak_vowels(const Pronunciation& p) {
  std::vector<Phoneme> phonemes = p.phonemes;
  const std::vector<std::uint8_t> syllables = syllables_of(phonemes);
  for (std::size_t i = 0; i < phonemes.size(); ++i) {
    const bool stressed = syllables[i] < 16 && (p.stress >> syllables[i] & 1);
    if (stressed && phonemes[i] == Phoneme::ax) phonemes[i] = Phoneme::ah;
  }
  return phonemes;
}

}  // namespace

std::vector<Phoneme> tidy_sounds(std::string_view letters,
                                 const Pronunciation& pronunciation) {
  using P = Phoneme;
  const std::vector<P> phonemes = stress_weak_vowels(pronunciation);
  std::vector<P> out;
  const auto has = [&](std::string_view part) {
    return letters.find(part) != std::string_view::npos;
  };
  for (std::size_t i = 0; i < phonemes.size(); ++i) {
    const P p = phonemes[i];
    const P next = i + 1 < phonemes.size() ? phonemes[i + 1] : P::zh;
    const P third = i + 2 < phonemes.size() ? phonemes[i + 2] : P::zh;
    // -ing came out as "ax ng" where a machine filled the entry in.
    if ((p == P::ax || p == P::iy) && next == P::ng && has("ing")) {
      out.push_back(P::ih);
      continue;
    }
    // The glide of "actual" is part of its u: ax w V is uw V.
    if (p == P::ax && next == P::w && is_vowel(third) && !has("w")) {
      out.push_back(P::uw);
      ++i;
      continue;
    }
    // "visually" as well, where the w is all that is left of the u.
    if (p == P::w && i > 0 && is_vowel(next) && !has("w") &&
        (phonemes[i - 1] == P::zh || phonemes[i - 1] == P::ch ||
         phonemes[i - 1] == P::jh)) {
      out.push_back(P::uw);
      continue;
    }
    // "near" is written with either vowel; with one of them from here on.
    if (p == P::iy && next == P::r) {
      out.push_back(P::ih);
      continue;
    }
    // The weak vowel and r are one sound.
    if (p == P::ax && next == P::r && !(is_vowel(third))) {
      out.push_back(P::er);
      ++i;
      continue;
    }
    // mansion, sensual: n and sh, whatever comes out between them.
    if (p == P::ch && i > 0 && phonemes[i - 1] == P::n && !has("nch") &&
        (has("ns") || has("ntion") || has("ntial") || has("ncia"))) {
      out.push_back(P::sh);
      continue;
    }
    // emotional, unreasonable: the o before n has a beat.
    if (p == P::n && i > 0 && has("on") &&
        (phonemes[i - 1] == P::sh || phonemes[i - 1] == P::zh ||
         (phonemes[i - 1] == P::z && has("son")))) {
      out.push_back(P::ax);
    }
    // -ically has no weak vowel before its l: basically, musically.
    if (p == P::ax && i > 0 && phonemes[i - 1] == P::k && next == P::l &&
        i + 3 == phonemes.size() && letters.ends_with("ically")) {
      continue;
    }
    // compaction, filled in as if it were three beats more: t ay ax n.
    if (p == P::t && next == P::ay && third == P::ax && has("tion")) {
      out.push_back(P::sh);
      ++i;
      continue;
    }
    // fire, hourly: the r behind a glide is a beat of its own.
    if (p == P::r && i > 0 && !is_vowel(next) &&
        (phonemes[i - 1] == P::ay || phonemes[i - 1] == P::aw)) {
      out.push_back(P::er);
      continue;
    }
    // incorrect, unkind: the n of a prefix without stress stays one.
    if (p == P::ng && i == 1 && (next == P::k || next == P::g) &&
        (pronunciation.stress & 1) == 0) {
      out.push_back(P::n);
      continue;
    }
    // No k in "strength".
    if (p == P::k && i > 0 && phonemes[i - 1] == P::ng && next == P::th &&
        has("ngth")) {
      continue;
    }
    out.push_back(p);
  }
  return out;
}

}  // namespace sheaf
