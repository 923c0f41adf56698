#include "marking/letter_fit.h"

namespace sheaf {

bool is_one_of(char c, std::string_view letters) {
  return c != '\0' && letters.find(c) != std::string_view::npos;
}

bool is_consonant_letter(char c) {
  return c >= 'a' && c <= 'z' && !is_one_of(c, "aeiou");
}

bool is_last(const GraphemePlace& p) { return p.next() == '\0'; }

bool is_nearly_last(const GraphemePlace& p) {
  return is_last(p) || (p.next() == 's' && p.next(1) == '\0');
}

bool follows_w(const GraphemePlace& p) {
  const char a = p.previous(), b = p.previous(1);
  return a == 'w' || (a == 'u' && b == 'q') || (a == 'h' && b == 'w');
}

Fit usual_if(bool here) { return here ? Fit::usual : Fit::elsewhere; }

Fit unusual_unless(bool usual) { return usual ? Fit::usual : Fit::unusual; }

Fit weak_fit(const GraphemePlace& p) {
  return p.stressed ? Fit::never : Fit::usual;
}

namespace {

using P = Phoneme;

bool softens(char next) { return is_one_of(next, "eiy"); }

// The letters from `at` on that stand for one consonant.
std::size_t consonant_width(const GraphemePlace& p, std::size_t ahead) {
  const char a = p.next(ahead), b = p.next(ahead + 1);
  if (!is_consonant_letter(a)) return 0;
  if (b == 'h' && is_one_of(a, "cstpw")) return 2;
  if (a == 'q' && b == 'u') return 2;
  return a == 'x' ? 0 : 1;
}

bool is_only_vowel(const GraphemePlace& p) {
  for (std::size_t i = 0; i < p.letters.size(); ++i) {
    if (i >= p.begin && i < p.end) continue;
    if (is_one_of(p.letters[i], "aeiou")) return false;
    if (p.letters[i] == 'y' && i > 0) return false;
  }
  return true;
}

Fit fit_of_a(P sound, const GraphemePlace& p) {
  switch (sound) {
    case P::ae:
      return usual_if(!is_last(p));
    case P::ey:
      return usual_if(stands_open(p) && !is_last(p));
    case P::ao:
      if (p.next() == 'l') return Fit::usual;
      [[fallthrough]];
    case P::aa:
      return usual_if((follows_w(p) && !is_one_of(p.next(), "kgx")) ||
                      is_last(p));
    case P::ax:
    case P::ih:
      return weak_fit(p);
    default:
      return Fit::never;
  }
}

Fit fit_of_e(P sound, const GraphemePlace& p) {
  switch (sound) {
    case P::eh:
      return usual_if(!is_last(p));
    case P::iy:
      return usual_if(is_last(p) ? is_only_vowel(p) : stands_open(p));
    case P::ax:
      if (is_last(p) && !is_only_vowel(p)) return Fit::never;
      return weak_fit(p);
    case P::ih:
      return is_last(p) ? Fit::never : weak_fit(p);
    default:
      return Fit::never;
  }
}

Fit fit_of_i(P sound, const GraphemePlace& p) {
  const char next = p.next(), after = p.next(1);
  switch (sound) {
    case P::ih:
      return usual_if(!is_last(p));
    case P::ay:
      if (is_last(p)) return unusual_unless(false);
      return usual_if(stands_open(p) || (next == 'n' && after == 'd') ||
                      (next == 'l' && after == 'd') ||
                      (next == 'g' && after == 'n') ||
                      (next == 'm' && after == 'b'));
    case P::iy:
      if (is_last(p)) return is_only_vowel(p) ? Fit::elsewhere : Fit::unusual;
      return usual_if(is_one_of(next, "aeou"));
    case P::y:
      return usual_if(is_one_of(next, "aou"));
    case P::ax:
      return is_last(p) ? Fit::never : weak_fit(p);
    default:
      return Fit::never;
  }
}

Fit fit_of_o(P sound, const GraphemePlace& p) {
  const char next = p.next(), after = p.next(1);
  switch (sound) {
    case P::aa:
    case P::ao:
      return usual_if(!is_last(p));
    case P::ow:
      return usual_if(stands_open(p) ||
                      (next == 'l' && is_one_of(after, "dtk")));
    case P::ah:
      // Scribes wrote o for u beside m, n, v: son, come, love. Nobody reads
      // "ron" as run.
      if (p.u_meant) return Fit::never;
      return usual_if(is_one_of(next, "mnvz") || (next == 't' && after == 'h'));
    case P::uw:
      return is_last(p) ? Fit::unusual : Fit::elsewhere;
    case P::ax:
      return weak_fit(p);
    default:
      return Fit::never;
  }
}

Fit fit_of_u(P sound, const GraphemePlace& p) {
  switch (sound) {
    case P::ah:
      return usual_if(!is_last(p));
    case P::uh:
      return Fit::unusual;
    case P::uw:
      return usual_if(stands_open(p));
    case P::ax:
      return weak_fit(p);
    case P::w:
      return usual_if(is_one_of(p.previous(), "qgs") &&
                      is_vowel_sign(p.next()));
    default:
      return Fit::never;
  }
}

Fit fit_of_y(P sound, const GraphemePlace& p) {
  switch (sound) {
    case P::iy:
      return usual_if(is_nearly_last(p) && !is_only_vowel(p));
    case P::ay:
      return usual_if(is_nearly_last(p) ? is_only_vowel(p) || p.stressed
                                        : stands_open(p));
    case P::ih:
      return is_last(p) ? Fit::elsewhere : Fit::unusual;
    case P::y:
      return usual_if(is_one_of(p.next(), "aeiou"));
    default:
      return Fit::never;
  }
}

Fit fit_of_c(P sound, const GraphemePlace& p) {
  if (sound == P::s) return usual_if(softens(p.next()));
  if (sound != P::k) return Fit::never;
  if (softens(p.next())) return Fit::elsewhere;
  return unusual_unless(!is_last(p) || p.previous() == 'i');
}

Fit fit_of_g(P sound, const GraphemePlace& p) {
  if (sound == P::g) return unusual_unless(!softens(p.next()));
  if (sound == P::jh) return usual_if(softens(p.next()));
  return Fit::never;
}

Fit fit_of_k(const GraphemePlace& p) {
  const bool after_short = is_one_of(p.previous(), "aeiou") &&
                           !is_one_of(p.previous(1), "aeiou") && is_last(p);
  return unusual_unless(!after_short &&
                        (softens(p.next()) || is_last(p) || p.next() == 's'));
}

Fit fit_of_s(P sound, const GraphemePlace& p) {
  switch (sound) {
    case P::s:
      return Fit::usual;
    case P::z:
      return usual_if(p.begin > 0 && !is_one_of(p.previous(), "ptkf"));
    case P::sh:
    case P::zh:
      return usual_if(p.next() == 'u' && is_one_of(p.next(1), "rg"));
    default:
      return Fit::never;
  }
}

Fit fit_of_consonant_letter(char letter, P sound, const GraphemePlace& p) {
  switch (letter) {
    case 'c':
      return fit_of_c(sound, p);
    case 'g':
      return fit_of_g(sound, p);
    case 'k':
      return fit_of_k(p);
    case 's':
      return fit_of_s(sound, p);
    case 't':
      if (sound == P::ch) {
        return usual_if(p.next() == 'u' && p.next(1) == 'r');
      }
      return sound == P::t ? Fit::usual : Fit::never;
    case 'n':
      if (sound == P::ng) return usual_if(is_one_of(p.next(), "kcqxg"));
      return sound == P::n ? Fit::usual : Fit::never;
    case 'r':
      // fire and hour have a vowel letter for it, diffrent is said in two
      // beats; wintr lacks one.
      if (sound == P::er) {
        return is_vowel_sign(p.previous()) || is_vowel_sign(p.next())
                   ? weak_fit(p)
                   : Fit::never;
      }
      return sound == P::r ? Fit::usual : Fit::never;
    case 'j':
    case 'v':
      return (letter == 'j') == (sound == P::jh) &&
                     (letter == 'v') == (sound == P::v)
                 ? unusual_unless(!is_last(p))
                 : Fit::never;
    case 'q':
      return sound == P::k ? Fit::unusual : Fit::never;
    case 'z':
      return sound == P::z ? Fit::usual : Fit::never;
    case 'd':
      return sound == P::d ? Fit::usual : Fit::never;
    case 'f':
      return sound == P::f ? Fit::usual : Fit::never;
    case 'h':
      return sound == P::hh ? usual_if(is_vowel_sign(p.next())) : Fit::never;
    default:
      return Fit::usual;  // b, l, m, p, w say one sound only
  }
}

// x as /ks/ and /gz/, l as /ul/, u as /yoo/: letters that say two sounds.
Fit fit_of_letter_for_two(char letter, std::span<const P> sounds,
                          const GraphemePlace& p) {
  if (sounds.size() != 2) return Fit::never;
  switch (letter) {
    case 'x':
      if (p.begin == 0) return Fit::elsewhere;
      if (sounds[0] == P::k && sounds[1] == P::s) return Fit::usual;
      return sounds[0] == P::g && sounds[1] == P::z ? usual_if(!is_last(p))
                                                    : Fit::never;
    case 'l':
      return is_consonant_letter(p.previous()) &&
                     (is_last(p) || is_consonant_letter(p.next()))
                 ? Fit::unusual
                 : Fit::elsewhere;
    case 'u':
      if (sounds[0] != P::y) return Fit::never;
      if (sounds[1] == P::ax) return weak_fit(p);
      return usual_if(stands_open(p));
    default:
      return Fit::never;
  }
}

}  // namespace

bool stands_open(const GraphemePlace& p) {
  const char next = p.next();
  if (next == '\0' || is_one_of(next, "aeiou")) return true;
  const std::size_t width = consonant_width(p, 0);
  if (width == 0) return false;
  const char after = p.next(width);
  if (is_vowel_sign(after)) return true;
  if (after == next) return false;
  const bool last = p.next(width + 1) == '\0';
  if (after == 'l') return last || is_vowel_sign(p.next(width + 1));
  return after == 'r' && is_vowel_sign(p.next(width + 1));
}

Fit letter_fit(const Spelling& s, const GraphemePlace& p) {
  const char letter = s.grapheme[0];
  if (s.phonemes.size() != 1) {
    return fit_of_letter_for_two(letter, s.phonemes, p);
  }
  const P sound = s.phonemes[0];
  switch (letter) {
    case 'a':
      return fit_of_a(sound, p);
    case 'e':
      return fit_of_e(sound, p);
    case 'i':
      return fit_of_i(sound, p);
    case 'o':
      return fit_of_o(sound, p);
    case 'u':
      return fit_of_u(sound, p);
    case 'y':
      return fit_of_y(sound, p);
    default:
      return fit_of_consonant_letter(letter, sound, p);
  }
}

}  // namespace sheaf
