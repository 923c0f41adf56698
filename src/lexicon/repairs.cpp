#include "lexicon/repairs.h"

#include <algorithm>
#include <vector>

#include "phonics/syllables.h"

namespace sheaf {
namespace {

using P = Phoneme;

// The segments of one word with what the repairs ask about them.
class Repair {
 public:
  Repair(std::string_view letters, const Inventory& inventory,
         std::uint16_t& stress, Segments& segments)
      : letters_(letters),
        inventory_(inventory),
        stress_(stress),
        segments_(segments) {}

  void run() {
    for (std::size_t i = 0; i < segments_.size(); ++i) {
      open_o_of_caught(i);
      al_before_k(i);
      short_u_of_a(i);
      weak_vowel_before_r(i);
      short_a_before_r(i);
      weak_i(i);
      lost_vowel_before_r(i);
      needless_weak_vowel(i);
      vowel_of_endings(i);
      short_i_of_age(i);
      weak_vowel_of_ate(i);
      short_u_of_prefixes(i);
      weak_e(i);
    }
  }

 private:
  const Correspondence& unit(std::size_t i) const {
    return inventory_[segments_[i].id];
  }
  bool says(std::size_t i, std::initializer_list<P> sounds) const {
    return i < segments_.size() &&
           std::ranges::equal(unit(i).phonemes(), sounds);
  }
  bool begins_with_vowel(std::size_t i) const {
    return i < segments_.size() && is_vowel(unit(i).sounds[0]);
  }

  int syllable(std::size_t i) const {
    return syllables_before(segments_, i, inventory_);
  }
  bool stressed(std::size_t i) const {
    const int s = syllable(i);
    return s < 16 && (stress_ >> s & 1) != 0;
  }

  void set(std::size_t i, std::string_view grapheme,
           std::initializer_list<P> sounds) {
    const int id =
        inventory_.find(grapheme, std::span(sounds.begin(), sounds.size()));
    if (id >= 0) segments_[i].id = static_cast<CorrespondenceId>(id);
  }

  // Parts the vowel letter of a grapheme such as ar or arr from its r.
  void part(std::size_t i, P vowel) {
    const std::string_view grapheme = unit(i).grapheme();
    const P vowel_sound[] = {vowel}, r_sound[] = {P::r};
    const int first = inventory_.find(grapheme.substr(0, 1), vowel_sound);
    const int second = inventory_.find(grapheme.substr(1), r_sound);
    if (first < 0 || second < 0) return;
    Segment r{static_cast<CorrespondenceId>(second),
              static_cast<std::uint8_t>(segments_[i].begin + 1), -1};
    segments_[i].id = static_cast<CorrespondenceId>(first);
    segments_.insert(segments_.begin() + static_cast<std::ptrdiff_t>(i) + 1, r);
  }

  // The dictionary gives caught and cot one vowel at random. Spellings with
  // au, aw and ough are those that keep it apart.
  void open_o_of_caught(std::size_t i) {
    const std::string_view g = unit(i).grapheme();
    if (says(i, {P::aa}) &&
        (g == "au" || g == "aw" || g == "augh" || g == "ough" || g == "ou")) {
      set(i, g, {P::ao});
    }
  }

  // chalk and walk rhyme; calm is another matter.
  void al_before_k(std::size_t i) {
    if (says(i, {P::aa}) && unit(i).grapheme() == "al" && says(i + 1, {P::k})) {
      set(i, "al", {P::ao});
    }
  }

  // addict, invalid: a machine's stress made a short u of an a.
  void short_u_of_a(std::size_t i) {
    if (!says(i, {P::ah}) || unit(i).grapheme() != "a") return;
    if (i > 0 && says(i - 1, {P::w})) return;  // was, what
    if (says(i + 1, {P::l})) {
      set(i, "a", {P::ax});
    } else {
      set(i, "a", {P::ae});
    }
  }

  // arrive, giraffe, kangaroo: before a stressed vowel the r begins its
  // syllable, and the letter before it is a weak vowel of its own.
  void weak_vowel_before_r(std::size_t i) {
    if (!says(i, {P::er}) || stressed(i) || !begins_with_vowel(i + 1) ||
        !stressed(i + 1)) {
      return;
    }
    const std::string_view g = unit(i).grapheme();
    const bool one = g == "ar" || g == "ir" || g == "ur";
    const bool two =
        g == "arr" || g == "irr" || g == "urr" || g == "orr" || g == "err";
    const bool first = (g == "er" || g == "or") && syllable(i) == 0;
    if (one || two || first) part(i, P::ax);
  }

  // carry, parrot, character: the dictionary says eh r, as in parts of America,
  // for what is short a before an r that begins the next syllable. Spellings
  // that do say air before a vowel: -ary, and -ari-, -are- before a vowel
  // (vary, area, librarian), parent.
  void short_a_before_r(std::size_t i) {
    if (says(i, {P::eh, P::r}) && unit(i).grapheme() == "arr" &&
        begins_with_vowel(i + 1)) {
      part(i, P::ae);
      return;
    }
    if (!stressed(i) || segments_[i].begin + 2U > letters_.size()) return;
    const bool air = says_air_before(letters_.substr(segments_[i].begin + 2));
    if (says(i, {P::eh}) && unit(i).grapheme() == "a" && says(i + 1, {P::r})) {
      if (!air) {
        set(i, "a", {P::ae});
      } else if (unit(i + 1).grapheme() == "r") {
        segments_.erase(segments_.begin() + static_cast<std::ptrdiff_t>(i) + 1);
        set(i, "ar", {P::eh, P::r});
      }
      return;
    }
    if (says(i, {P::eh, P::r}) && unit(i).grapheme() == "ar" && !air &&
        begins_with_vowel(i + 1)) {
      part(i, P::ae);
    }
  }

  // What follows ar where it says air: -ary, -arily, -aring, parent, and i or
  // e with another vowel (area, various, librarian).
  static bool says_air_before(std::string_view rest) {
    for (const std::string_view part :
         {"y", "ies", "ied", "ily", "ent", "ing"}) {
      if (rest.starts_with(part)) return true;
    }
    return rest.size() >= 2 && (rest[0] == 'i' || rest[0] == 'e') &&
           std::string_view("aeou").find(rest[1]) != std::string_view::npos;
  }

  // opera, temperature, everyone: the dictionary skips the e before r that
  // careful speech and every reader gives a beat of its own.
  void lost_vowel_before_r(std::size_t i) {
    if (!says(i + 1, {P::r}) || unit(i + 1).grapheme() != "r" ||
        !begins_with_vowel(i + 2)) {
      return;
    }
    const std::size_t r = segments_[i + 1].begin;
    if (r == 0 || letters_[r - 1] != 'e') return;
    const P er_sound[] = {P::er};
    const int er = inventory_.find("er", er_sound);
    if (er < 0) return;
    // The e ends a consonant's grapheme, or closes a split vowel.
    const std::string_view g = unit(i).grapheme();
    const bool ends_in_e = !unit(i).has_vowel() && g.size() > 1 &&
                           g.ends_with('e') &&
                           segments_[i].begin + g.size() == r;
    const bool closes_split =
        i > 0 && unit(i - 1).is_split() && segments_[i - 1].split_e >= 0 &&
        static_cast<std::size_t>(segments_[i - 1].split_e) == r - 1;
    if (ends_in_e) {
      const int plain =
          inventory_.find(g.substr(0, g.size() - 1), unit(i).phonemes());
      if (plain < 0) return;
      segments_[i].id = static_cast<CorrespondenceId>(plain);
    } else if (closes_split) {
      const int plain = inventory_.find(unit(i - 1).grapheme().substr(0, 1),
                                        unit(i - 1).phonemes());
      if (plain < 0) return;
      segments_[i - 1] = {static_cast<CorrespondenceId>(plain),
                          segments_[i - 1].begin, -1};
    } else {
      return;
    }
    segments_[i + 1] = {static_cast<CorrespondenceId>(er),
                        static_cast<std::uint8_t>(r - 1), -1};
    add_syllable(syllable(i + 1));
  }

  // wobbly, settling: before a vowel the l needs no weak vowel.
  void needless_weak_vowel(std::size_t i) {
    if (unit(i).grapheme() != "l" || !says(i, {P::ax, P::l}) ||
        !begins_with_vowel(i + 1)) {
      return;
    }
    const int at = syllable(i);
    set(i, "l", {P::l});
    const std::uint16_t low = static_cast<std::uint16_t>((1U << at) - 1);
    stress_ =
        static_cast<std::uint16_t>((stress_ & low) | ((stress_ >> 1) & ~low));
  }

  // wanted, boxes, fastest: teaching hears /id/, /iz/ and /ist/.
  void vowel_of_endings(std::size_t i) {
    if (unit(i).grapheme() == "ed" && says(i, {P::ax, P::d})) {
      set(i, "ed", {P::ih, P::d});
    }
    if (unit(i).grapheme() != "e" || !says(i, {P::ax})) return;
    const bool es = i + 2 == segments_.size() && says(i + 1, {P::z}) &&
                    unit(i + 1).grapheme() == "s";
    const bool est = i + 3 == segments_.size() && says(i + 1, {P::s}) &&
                     says(i + 2, {P::t}) && unit(i + 1).grapheme() == "s";
    if (es || est) set(i, "e", {P::ih});
  }

  // cottage, villager, managed: whatever the dictionary hears, /ij/.
  void short_i_of_age(std::size_t i) {
    if (unit(i).grapheme() != "a" || !says(i, {P::ax}) ||
        !says(i + 1, {P::jh})) {
      return;
    }
    const std::string_view rest = letters_.substr(segments_[i].begin + 1U);
    for (const std::string_view tail :
         {"ge", "ges", "ged", "ger", "gers", "ging", "gings"}) {
      if (rest == tail) set(i, "a", {P::ih});
    }
    if (rest.starts_with("gement") || rest.starts_with("geable")) {
      set(i, "a", {P::ih});
    }
  }

  // private, desperate: one weak vowel for all -ate that is not a verb's.
  void weak_vowel_of_ate(std::size_t i) {
    if (unit(i).grapheme() == "a_e" && says(i, {P::ih})) {
      set(i, "a_e", {P::ax});
    }
  }

  // undo, upset: the dictionary hears the prefix now as a short u, now as a
  // weak vowel.
  void short_u_of_prefixes(std::size_t i) {
    if (i != 0 || unit(0).grapheme() != "u" || !says(0, {P::ax})) return;
    const bool un = letters_.starts_with("un");
    if (un || (letters_.starts_with("up") && !letters_.starts_with("upo"))) {
      set(0, "u", {P::ah});
    }
  }

  // The dictionary hears a weak e now as one vowel, now as the other: one for
  // each of be-, de-, re-, pre- and of pocket, kindness, careless.
  void weak_e(std::size_t i) {
    if (unit(i).grapheme() != "e" || stressed(i)) return;
    const std::size_t at = segments_[i].begin;
    const std::string_view before = letters_.substr(0, at + 1);
    const std::string_view rest = letters_.substr(at + 1);
    if (says(i, {P::ax}) && (before == "be" || before == "de" ||
                             before == "re" || before == "pre")) {
      set(i, "e", {P::ih});
    }
    if (says(i, {P::ih}) && i > 1 &&
        (rest == "t" || rest == "ts" || rest == "ss")) {
      set(i, "e", {P::ax});
    }
  }

  // A weak syllable comes in at place `at`.
  void add_syllable(int at) {
    const std::uint16_t low = static_cast<std::uint16_t>((1U << at) - 1);
    stress_ =
        static_cast<std::uint16_t>((stress_ & low) | (stress_ & ~low) << 1);
  }

  // rabbit, visit, engine: teaching hears a short i where the dictionary has
  // the weak vowel; not before l (pencil).
  void weak_i(std::size_t i) {
    const std::string_view g = unit(i).grapheme();
    const bool before_l = says(i + 1, {P::l}) && !begins_with_vowel(i + 2);
    const bool one = g == "i" || g == "y" || g == "i_e";
    if (one && says(i, {P::ax}) && !before_l) {
      set(i, g, {P::ih});
    }
  }

  std::string_view letters_;
  const Inventory& inventory_;
  std::uint16_t& stress_;
  Segments& segments_;
};

}  // namespace

void repair_segments(std::string_view letters, const Inventory& inventory,
                     std::uint16_t& stress, Segments& segments) {
  Repair(letters, inventory, stress, segments).run();
}

}  // namespace sheaf
