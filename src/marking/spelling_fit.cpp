#include "marking/spelling_fit.h"

#include <algorithm>
#include <array>

#include "marking/letter_fit.h"

namespace sheaf {
namespace {

using P = Phoneme;

// A grapheme counts as a spelling of a sound if it says it at least this often
// (of 10,000), more often where the inventory calls it rare. ch as /sh/ and ou
// as /oo/ stay below it, ea as /e/ and ow as /oh/ above.
constexpr int kLeastShare = 1000;
constexpr int kLeastShareOfRare = 2500;
// A rare grapheme must also spell its sound this often, unless it is a doubled
// letter.
constexpr int kLeastShareOfSound = 20;

// Consonant graphemes that have their places.
enum class PlaceRule {
  start,                // kn
  not_start,            // ck
  last,                 // mb
  before_soft,          // sc before e, i, y
  before_vowel,         // gu
  inside_before_vowel,  // ti
  before_silent,        // st in castle, listen
  ending,               // final e that is left from the word's own ending
};
struct PlacedGrapheme {
  std::string_view grapheme;
  PlaceRule rule;
};
constexpr std::array kPlaced = {
    PlacedGrapheme{"bt", PlaceRule::last},
    PlacedGrapheme{"ce", PlaceRule::last},
    PlacedGrapheme{"ci", PlaceRule::inside_before_vowel},
    PlacedGrapheme{"ck", PlaceRule::not_start},
    PlacedGrapheme{"dge", PlaceRule::not_start},
    PlacedGrapheme{"di", PlaceRule::before_vowel},
    PlacedGrapheme{"ge", PlaceRule::last},
    PlacedGrapheme{"gi", PlaceRule::before_vowel},
    PlacedGrapheme{"gn", PlaceRule::not_start},
    PlacedGrapheme{"gu", PlaceRule::before_vowel},
    PlacedGrapheme{"gue", PlaceRule::last},
    PlacedGrapheme{"kn", PlaceRule::start},
    PlacedGrapheme{"mb", PlaceRule::last},
    PlacedGrapheme{"mn", PlaceRule::last},
    PlacedGrapheme{"ng", PlaceRule::not_start},
    PlacedGrapheme{"ps", PlaceRule::start},
    PlacedGrapheme{"que", PlaceRule::last},
    PlacedGrapheme{"rh", PlaceRule::start},
    PlacedGrapheme{"sc", PlaceRule::before_soft},
    PlacedGrapheme{"se", PlaceRule::last},
    PlacedGrapheme{"si", PlaceRule::inside_before_vowel},
    PlacedGrapheme{"ssi", PlaceRule::inside_before_vowel},
    PlacedGrapheme{"st", PlaceRule::before_silent},
    PlacedGrapheme{"tch", PlaceRule::not_start},
    PlacedGrapheme{"ti", PlaceRule::inside_before_vowel},
    PlacedGrapheme{"ve", PlaceRule::last},
    PlacedGrapheme{"wr", PlaceRule::start},
    PlacedGrapheme{"xi", PlaceRule::inside_before_vowel},
    PlacedGrapheme{"ze", PlaceRule::last},
};

bool meets(PlaceRule rule, const GraphemePlace& p) {
  switch (rule) {
    case PlaceRule::start:
      return p.begin == 0;
    case PlaceRule::not_start:
      return p.begin > 0;
    case PlaceRule::last:
      return p.begin > 0 && !is_vowel_sign(p.next());
    case PlaceRule::before_soft:
      return is_one_of(p.next(), "eiy");
    case PlaceRule::before_vowel:
      return is_vowel_sign(p.next());
    case PlaceRule::inside_before_vowel:
      return p.begin > 0 && is_vowel_sign(p.next());
    case PlaceRule::before_silent:
      return p.next() == 'l' || (p.next() == 'e' && p.next(1) == 'n');
    case PlaceRule::ending:
      return is_last(p);
  }
  return false;
}

// Graphemes of a very few words, which nobody reads so anywhere else: w(h)o,
// t(w)o, a(ns)wer, and final consonants with an e that does nothing.
constexpr std::array<std::string_view, 30> kOfFewWords = {
    "ae",  "all", "bu", "ct", "de", "ed", "et",  "heir", "ho",  "hou",
    "ieu", "iew", "is", "ke", "ld", "me", "mme", "mp",   "nd",  "ne",
    "nne", "os",  "ot", "pe", "pt", "re", "sw",  "te",   "ull", "uoy"};

bool is_few_words_only(const Spelling& s) {
  return std::ranges::find(kOfFewWords, s.grapheme) != kOfFewWords.end();
}

bool is_too_seldom(const Spelling& s) {
  if (!s.rare) return s.share_of_grapheme < kLeastShare;
  const bool doubled = s.grapheme.size() == 2 && s.grapheme[0] == s.grapheme[1];
  return s.share_of_grapheme < kLeastShareOfRare ||
         (s.share_of_sound < kLeastShareOfSound && !doubled);
}

bool is_vowel_team(const Spelling& s) { return is_vowel(s.phonemes.back()); }

Fit fit_of_r_vowel(const Spelling& s, const GraphemePlace& p) {
  const bool er = s.phonemes.size() == 1;
  if (s.grapheme == "er") {
    return er || s.phonemes[0] == P::eh ? Fit::usual : Fit::never;
  }
  if (s.grapheme == "ar") {
    if (er) return weak_fit(p);
    if (s.phonemes[0] == P::aa) return Fit::usual;
    if (s.phonemes[0] == P::ao) return usual_if(follows_w(p));
    return usual_if(is_vowel_sign(p.next()) || p.next() == 'r');
  }
  if (s.grapheme == "or") {
    if (er) return follows_w(p) ? Fit::usual : weak_fit(p);
    return s.phonemes[0] == P::ao ? unusual_unless(!follows_w(p)) : Fit::never;
  }
  if (er &&
      (s.grapheme == "our" || s.grapheme == "ure" || s.grapheme == "re")) {
    return weak_fit(p);
  }
  return s.rare ? Fit::unusual : Fit::usual;
}

bool ends_in_r(const Spelling& s) {
  return s.phonemes.back() == P::r || s.phonemes.back() == P::er;
}

// machine, police: only behind another vowel, never as in time.
bool is_late_i_e(const GraphemePlace& p) {
  return std::ranges::any_of(p.letters.substr(0, p.begin), is_vowel_sign);
}

Fit fit_of_vowel_team(const Spelling& s, const GraphemePlace& p) {
  const char last = s.grapheme.back();
  if (s.grapheme == "i_e" && s.phonemes[0] == P::iy) {
    return is_late_i_e(p) ? Fit::usual : Fit::never;
  }
  if (s.split) return Fit::usual;
  if (is_one_of(last, "iu") && s.grapheme != "ou" && s.grapheme != "eau") {
    return unusual_unless(!is_last(p));
  }
  if (s.grapheme == "oa" || s.grapheme == "ea" || s.grapheme == "ou") {
    return unusual_unless(!is_last(p) || s.grapheme == "ea");
  }
  if (s.grapheme == "ie" && s.phonemes[0] == P::ay) {
    return unusual_unless(is_nearly_last(p) || p.next() == 'd');
  }
  if (is_one_of(last, "yw") || s.grapheme == "oe" || s.grapheme == "ue") {
    return unusual_unless(is_nearly_last(p) || is_one_of(p.next(), "nlkd"));
  }
  return Fit::usual;
}

}  // namespace

bool is_vowel_sign(char c) { return is_one_of(c, "aeiouy"); }

Fit spelling_fit(const Spelling& s, const GraphemePlace& p) {
  if (s.grapheme.size() == 1) return letter_fit(s, p);
  if (s.grapheme == "ch" && s.phonemes[0] == P::k) {
    return usual_if(is_one_of(p.next(), "lr") || p.previous() == 's');
  }
  if (s.grapheme == "wh" && s.phonemes[0] == P::hh) {
    return usual_if(p.next() == 'o');
  }
  if (s.grapheme == "le" && s.phonemes.size() == 2) {
    return usual_if(is_consonant_letter(p.previous()) &&
                    !is_vowel_sign(p.next()));
  }
  if (s.grapheme == "gh") {
    return usual_if((p.begin == 0) == (s.phonemes[0] == P::g));
  }
  if (is_few_words_only(s)) return Fit::never;
  if (ends_in_r(s) && !s.split && is_vowel_sign(s.grapheme[0])) {
    if (s.share_of_grapheme < kLeastShare && s.grapheme != "ar" &&
        s.grapheme != "er") {
      return Fit::never;
    }
    return fit_of_r_vowel(s, p);
  }
  if (is_too_seldom(s)) return Fit::never;
  if (is_vowel_team(s)) return fit_of_vowel_team(s, p);
  const auto placed =
      std::ranges::find(kPlaced, s.grapheme, &PlacedGrapheme::grapheme);
  if (placed != kPlaced.end()) {
    if (!meets(placed->rule, p)) return Fit::elsewhere;
    return placed->rule == PlaceRule::last ? unusual_unless(true) : Fit::usual;
  }
  return s.rare ? Fit::unusual : Fit::usual;
}

}  // namespace sheaf
