#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace sheaf {

/// The regular endings that Sheaf can take off a word.
enum class Ending : std::uint8_t {
  none,
  s,
  es,
  ed,
  ing,
  er,
  est,
  ly,
  y,
  ful,
  less,
  ness,
  ment,
  possessive,
};

/// Its letters: "ing", "'s".
std::string_view ending_text(Ending ending);
/// The ending with these letters, or `none`.
Ending ending_of_text(std::string_view text);
/// Whether it begins with a vowel: -ing, -ed, -y, and not -ly or -s.
bool begins_with_vowel(Ending ending);
/// What the patterns call it: "ing", "possessive".
std::string_view ending_name(Ending ending);

/// What happened to the base when its ending was put on.
enum class Joint : std::uint8_t {
  plain,      ///< jumping; of -ly also fully and basically
  doubled,    ///< running, quizzes
  dropped_e,  ///< making, gently
  y_to_i,     ///< carried
  f_to_v,     ///< knives
  c_to_ck,    ///< panicked
  ie_to_y,    ///< dying
};

struct EndingAnalysis {
  Ending ending = Ending::none;
  Joint joint = Joint::plain;
  std::string base;

  explicit operator bool() const { return ending != Ending::none; }
};

/// All bases that a word could have by its letters if it ends in `ending`, by
/// the rules of ending_rules.h: "hoping" has "hope", "hopping" has "hop" and
/// "hopp", "carryed" has none. Nobody has checked that they are words.
std::vector<EndingAnalysis> possible_bases(std::string_view word,
                                           Ending ending);

/// The same without the rules: "carryed" has "carry", "makeing" has "make" and
/// "makee". What a misspelling may be meant for.
std::vector<EndingAnalysis> conceivable_bases(std::string_view word,
                                              Ending ending);

/// The base and ending of a word. Longer endings are tried first; of the
/// bases possible with an ending, the one with the lowest rank is taken, the
/// first one where ranks are alike. A negative rank means that it is no base.
EndingAnalysis take_off_ending(
    std::string_view word,
    const std::function<int(const EndingAnalysis&)>& rank);

/// To be added to a base's rank: passing is from pass, however common "pas"
/// may be, because s, l, f and z stand double by themselves.
int joint_rank(const EndingAnalysis& analysis);

/// What the letters would be without a plural -s, or nothing: "ten" for "tens".
/// Behind a plural no ending stands, so that tensed is from tense.
std::string_view without_plural_s(std::string_view base);
/// To be added to a base's rank where `without_plural_s` is a word.
inline constexpr int kPluralRank = 100;

}  // namespace sheaf
