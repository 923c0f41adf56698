#include "lexicon/accent_rules.h"

#include <algorithm>
#include <string>
#include <string_view>

namespace sheaf {
namespace {

using P = Phoneme;

class Rules {
 public:
  Rules(const WordRecord& record, Accent accent, const Inventory& inventory)
      : record_(record), accent_(accent), inventory_(inventory) {
    for (const char c : record.spelling) {
      if (c >= 'a' && c <= 'z') letters_ += c;
    }
  }

  std::optional<WordRecord> run() {
    bool changed = false;
    for (std::size_t i = 1; i + 1 < record_.segments.size(); ++i) {
      changed = weaken_before_r(i) || changed;
      changed = lengthen_i(i) || changed;
      changed = unvoice_sion(i) || changed;
    }
    if (!changed) return std::nullopt;
    return std::move(record_);
  }

 private:
  const Correspondence& unit(std::size_t i) const {
    return inventory_[record_.segments[i].id];
  }
  bool is(std::size_t i, std::string_view grapheme) const {
    return i < record_.segments.size() && unit(i).grapheme() == grapheme;
  }
  bool says(std::size_t i, std::initializer_list<P> sounds) const {
    return i < record_.segments.size() &&
           std::ranges::equal(unit(i).phonemes(), sounds);
  }
  int syllable(std::size_t i) const {
    return syllables_before(record_.segments, i, inventory_);
  }
  bool set(std::size_t i, std::string_view grapheme,
           std::initializer_list<P> sounds) {
    const int id =
        inventory_.find(grapheme, std::span(sounds.begin(), sounds.size()));
    if (id < 0) return false;
    record_.segments[i].id = static_cast<CorrespondenceId>(id);
    return true;
  }

  // The letters behind those of a segment.
  std::string_view rest(std::size_t i) const {
    return std::string_view(letters_).substr(record_.segments[i].begin +
                                             unit(i).width());
  }

  bool weaken_before_r(std::size_t i) {
    const bool joined = (is(i, "ar") && says(i, {P::eh, P::r})) ||
                        (is(i, "or") && says(i, {P::ao, P::r}));
    const bool parted = is(i, "e") && says(i, {P::eh}) && is(i + 1, "r");
    if (!joined && !parted) return false;
    const std::string_view tail = parted ? rest(i).substr(1) : rest(i);
    constexpr std::string_view kTails[] = {"y",    "ies", "ied",
                                           "ying", "ily", "iness"};
    if (std::ranges::find(kTails, tail) == std::ranges::end(kTails)) {
      return false;
    }
    const int at = syllable(i);
    const unsigned stress_before = record_.stress & ((1U << at) - 1);
    // vainglory and backstory are compounds.
    const bool compound = letters_.find("stor") != std::string::npos ||
                          letters_.find("glor") != std::string::npos;
    if (stress_before == 0 || compound) return false;
    if (joined) {
      const P weak[] = {P::ax}, r[] = {P::r};
      const int vowel = inventory_.find(unit(i).grapheme().substr(0, 1), weak);
      const int behind = inventory_.find("r", r);
      if (vowel < 0 || behind < 0) return false;
      Segment& segment = record_.segments[i];
      segment.id = static_cast<CorrespondenceId>(vowel);
      const Segment next{static_cast<CorrespondenceId>(behind),
                         static_cast<std::uint8_t>(segment.begin + 1), -1};
      record_.segments.insert(
          record_.segments.begin() + static_cast<std::ptrdiff_t>(i) + 1, next);
    } else if (!set(i, "e", {P::ax})) {
      return false;
    }
    record_.stress = static_cast<std::uint16_t>(record_.stress & ~(1U << at));
    return true;
  }

  bool lengthen_i(std::size_t i) {
    const std::string_view behind = rest(i);
    const bool ation =
        behind.starts_with("sation") || behind.starts_with("zation");
    return is(i, "i") && ation && (says(i, {P::ih}) || says(i, {P::ax})) &&
           set(i, "i", {P::ay});
  }

  bool unvoice_sion(std::size_t i) {
    return accent_ != Accent::australian && is(i, "si") && says(i, {P::zh}) &&
           rest(i).starts_with("on") &&
           unit(i - 1).sounds[unit(i - 1).sound_count - 1] == P::er &&
           set(i, "si", {P::sh});
  }

  WordRecord record_;
  Accent accent_;
  const Inventory& inventory_;
  std::string letters_;
};

}  // namespace

std::optional<WordRecord> say_outside_america(const WordRecord& record,
                                              Accent accent,
                                              const Inventory& inventory) {
  return Rules(record, accent, inventory).run();
}

}  // namespace sheaf
