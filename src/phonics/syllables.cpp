#include "phonics/syllables.h"

#include <algorithm>

namespace sheaf {
namespace {

using P = Phoneme;

bool one_of(P p, std::initializer_list<P> all) {
  return std::ranges::find(all, p) != all.end();
}

// Whether two consonants may begin an English word (common practice, no
// source; y is taken with any consonant, as in few).
bool may_begin(P a, P b) {
  if (b == P::y) return a != P::ng;
  if (b == P::l) return one_of(a, {P::p, P::b, P::k, P::g, P::f, P::s});
  if (b == P::r) {
    return one_of(a, {P::p, P::b, P::t, P::d, P::k, P::g, P::f, P::th, P::sh});
  }
  if (b == P::w) return one_of(a, {P::t, P::d, P::k, P::g, P::s, P::th});
  return a == P::s && one_of(b, {P::p, P::t, P::k, P::m, P::n, P::f});
}

// How many of the consonants [begin, end) go with the vowel at `end`.
std::size_t onset_size(std::span<const P> p, std::size_t begin,
                       std::size_t end) {
  if (begin == end || p[end - 1] == P::ng) return 0;
  std::size_t size = 1;
  while (end - size > begin && may_begin(p[end - size - 1], p[end - size])) {
    ++size;
    if (size == 3) {
      if (p[end - 3] != P::s) --size;
      break;
    }
  }
  return size;
}

}  // namespace

std::vector<std::uint8_t> syllables_of(std::span<const Phoneme> phonemes) {
  std::vector<std::uint8_t> result(phonemes.size(), 0);
  std::uint8_t syllable = 0;
  std::size_t last_vowel = phonemes.size();
  for (std::size_t i = 0; i < phonemes.size(); ++i) {
    if (!is_vowel(phonemes[i])) continue;
    if (last_vowel != phonemes.size()) {
      ++syllable;
      const std::size_t onset = onset_size(phonemes, last_vowel + 1, i);
      for (std::size_t j = i - onset; j < i; ++j) result[j] = syllable;
      for (std::size_t j = last_vowel + 1; j < i - onset; ++j) {
        result[j] = static_cast<std::uint8_t>(syllable - 1);
      }
    }
    result[i] = syllable;
    last_vowel = i;
  }
  if (last_vowel != phonemes.size()) {
    std::fill(result.begin() + static_cast<std::ptrdiff_t>(last_vowel),
              result.end(), syllable);
  }
  return result;
}

}  // namespace sheaf
