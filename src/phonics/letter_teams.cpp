#include "phonics/letter_teams.h"

#include <algorithm>
#include <array>

#include "phonics/unit_rules.h"

namespace sheaf {
namespace {

constexpr int kFirm = 1400;
constexpr int kFirmInOneBeat = 3600;
constexpr int kLoose = 500;
constexpr int kWeakVowel = 1500;
constexpr int kUnusual = 700;

struct Team {
  std::string_view letters;
  int cost;
};
constexpr std::array kVowelTeams = {
    Team{"ai", kFirm},  Team{"ay", kFirm},  Team{"ee", kFirm},
    Team{"ea", kFirm},  Team{"oa", kFirm},  Team{"oi", kFirm},
    Team{"oy", kFirm},  Team{"oo", kFirm},  Team{"ou", kFirm},
    Team{"ow", kFirm},  Team{"au", kFirm},  Team{"aw", kFirm},
    Team{"ew", kFirm},  Team{"ie", kLoose}, Team{"ue", kLoose},
    Team{"ui", kLoose}, Team{"ei", kLoose}, Team{"ey", kLoose}};
constexpr std::array<std::string_view, 9> kConsonantTeams = {
    "sh", "ch", "th", "ph", "wh", "ck", "qu", "gh", "dg"};

// No word begins with both of these sounds.
bool begins_with_silent(std::string_view two) {
  return two == "kn" || two == "gn" || two == "wr" || two == "rh";
}

// Runs of vowel letters, a final e behind a consonant left out.
int vowel_runs(std::string_view letters) {
  int runs = 0;
  bool last = false;
  for (std::size_t i = 0; i < letters.size(); ++i) {
    const bool begins_with_y = i == 0 && letters[0] == 'y';
    const bool glide = i == 1 && letters.starts_with("qu");
    const bool vowel = is_vowel_letter(letters[i]) && !begins_with_y && !glide;
    const bool final_e = i + 1 == letters.size() && letters[i] == 'e' && !last;
    if (vowel && !last && !(final_e && runs > 0)) ++runs;
    last = vowel;
  }
  return runs;
}

// /er/ in letters that say something else with stress.
bool is_weak_er(const Correspondence& unit, std::string_view letters,
                std::size_t at) {
  const std::string_view grapheme = unit.grapheme();
  const bool behind_w = at > 0 && letters[at - 1] == 'w';
  return unit.phonemes().back() == Phoneme::er &&
         ((grapheme == "or" && !behind_w) || grapheme == "ar" ||
          grapheme == "our" || grapheme == "ure" || grapheme == "re");
}

struct Usual {
  std::string_view grapheme;
  Phoneme sound;
};
// What single letters say before a consonant.
constexpr std::array kSaidInClosed = {
    Usual{"a", Phoneme::ae}, Usual{"a", Phoneme::ao}, Usual{"e", Phoneme::eh},
    Usual{"i", Phoneme::ih}, Usual{"o", Phoneme::aa}, Usual{"o", Phoneme::ao},
    Usual{"u", Phoneme::ah}, Usual{"y", Phoneme::ih}};
// What graphemes say elsewhere, at the end of the word.
constexpr std::array kOpen = {Usual{"e", Phoneme::iy}, Usual{"i", Phoneme::ay},
                              Usual{"o", Phoneme::ow}, Usual{"u", Phoneme::uw},
                              Usual{"y", Phoneme::ay}, Usual{"a", Phoneme::aa},
                              Usual{"ie", Phoneme::ay}};
// What graphemes say wherever they stand.
constexpr std::array kAnywhere = {
    Usual{"ch", Phoneme::ch},  Usual{"j", Phoneme::jh},
    Usual{"a_e", Phoneme::ey}, Usual{"e_e", Phoneme::iy},
    Usual{"i_e", Phoneme::ay}, Usual{"o_e", Phoneme::ow},
    Usual{"ou", Phoneme::aw},  Usual{"oe", Phoneme::ow},
    Usual{"ar", Phoneme::aa},  Usual{"er", Phoneme::er},
    Usual{"ir", Phoneme::er},  Usual{"ur", Phoneme::er}};

// Whether a table speaks of the grapheme and of another sound only.
template <std::size_t N>
bool says_otherwise(const std::array<Usual, N>& table,
                    const Correspondence& unit) {
  bool listed = false;
  for (const Usual& usual : table) {
    if (usual.grapheme != unit.grapheme()) continue;
    if (usual.sound == unit.sounds[0]) return false;
    listed = true;
  }
  return listed;
}

// Where single letters say something else as a rule: kind, wild, cold, bolt,
// most, toll; wash and swan.
bool has_own_rule(std::string_view letters, std::size_t at) {
  const std::string_view next = letters.substr(at + 1, 2);
  switch (letters[at]) {
    case 'i':
      return next == "nd" || next == "ld";
    case 'o':
      return next == "ld" || next == "lt" || next == "ll" || next == "st";
    case 'a':
      return at > 0 &&
             (letters[at - 1] == 'w' || letters.substr(0, at).ends_with("qu"));
    default:
      return false;
  }
}

int unusual_cost(const Correspondence& unit, std::string_view letters,
                 std::size_t at) {
  const std::size_t end = at + unit.width();
  const auto sounds = unit.phonemes();
  if (unit.grapheme() == "qu" && sounds.size() == 1) return kWeakVowel;
  // Words that begin with a voiced th are few and known by sight.
  if (at == 0 && sounds[0] == Phoneme::dh) return kWeakVowel;
  // No /y/ stands behind sounds that are made where it is.
  if (at > 0 && sounds.size() == 2 && sounds[0] == Phoneme::y &&
      sounds[1] == Phoneme::uw) {
    const std::string_view before = letters.substr(0, at);
    const bool alike = std::string_view("tdnszlrj").find(before.back()) !=
                           std::string_view::npos ||
                       before.ends_with("ch") || before.ends_with("sh");
    return alike ? kWeakVowel : 0;
  }
  if (says_otherwise(kAnywhere, unit)) return kUnusual;
  if (end == letters.size())
    return says_otherwise(kOpen, unit) ? kWeakVowel : 0;
  return !is_vowel_letter(letters[end]) &&
                 says_otherwise(kSaidInClosed, unit) &&
                 !has_own_rule(letters, at)
             ? kUnusual
             : 0;
}

}  // namespace

LetterTeams::LetterTeams(std::string_view letters)
    : letters_(letters),
      one_beat_(vowel_runs(letters) == 1),
      apart_(letters.size()) {
  for (std::size_t at = 1; at < letters.size(); ++at) {
    apart_[at] = apart_cost(at);
  }
}

int LetterTeams::vowel_team_cost(std::size_t at) const {
  const std::string_view two = letters_.substr(at - 1, 2);
  const auto team = std::ranges::find(kVowelTeams, two, &Team::letters);
  if (team == kVowelTeams.end()) {
    return letters_.substr(at - 1, 3) == "igh" ? kFirm : 0;
  }
  if (one_beat_) return kFirmInOneBeat;
  const bool glide = two[1] == 'w' || two[1] == 'y';
  const bool vowel_next =
      at + 1 < letters_.size() && is_vowel_letter(letters_[at + 1]);
  return glide && vowel_next ? 0 : team->cost;
}

// What it costs that a letter at `at` and the single one before it are not
// taken together.
int LetterTeams::apart_cost(std::size_t at) const {
  int cost = 0;
  if (is_vowel_letter(letters_[at - 1])) cost += vowel_team_cost(at);
  const std::string_view two = letters_.substr(at - 1, 2);
  if (std::ranges::find(kConsonantTeams, two) != kConsonantTeams.end()) {
    cost += kFirm;
  }
  const bool at_end = at + 1 == letters_.size();
  if (at_end ? two == "ng" : at == 1 && begins_with_silent(two)) cost += kFirm;
  return cost;
}

bool LetterTeams::is_silent_end(std::size_t at) const {
  return at + 1 == letters_.size() && at > 1 && letters_[at] == 'e' &&
         !is_vowel_letter(letters_[at - 1]) &&
         std::ranges::any_of(letters_.substr(0, at - 1), is_vowel_letter);
}

int LetterTeams::cost(const Correspondence& unit, const Correspondence* before,
                      std::size_t at) const {
  int cost = 0;
  if (one_beat_) {
    const auto sounds = unit.phonemes();
    const bool weak = std::ranges::find(sounds, Phoneme::ax) != sounds.end() ||
                      is_weak_er(unit, letters_, at);
    cost += weak ? kWeakVowel : unusual_cost(unit, letters_, at);
  }
  if (at == 0 || before == nullptr) return cost;
  if (before->width() == 1 && !before->is_split()) cost += apart_[at];
  // walk, calm, half
  const std::string_view rest = letters_.substr(at);
  const bool final_al =
      letters_[at - 1] == 'a' && (rest == "lk" || rest == "lm" || rest == "lf");
  if (final_al && unit.grapheme() == "l") cost += kFirmInOneBeat;
  const bool final_re = rest == "re" && !is_vowel_letter(letters_[at - 1]);
  if (unit.grapheme() == "r" && final_re) cost += kFirm;
  if (unit.grapheme() == "e" && is_silent_end(at)) {
    cost += one_beat_ ? kFirmInOneBeat : kFirm;
  }
  return cost;
}

int LetterTeams::split_end_cost(std::size_t at) const {
  const std::string_view rest = letters_.substr(at + 1);
  return rest.empty() || rest == "s" || rest == "d" ? 0 : kLoose;
}

}  // namespace sheaf
