#include "phonics/division_affixes.h"

#include <algorithm>
#include <array>
#include <string>
#include <string_view>

#include "base/utf8.h"
#include "phonics/letter_map.h"
#include "phonics/letters.h"
#include "phonics/lexicon.h"
#include "phonics/word_facts.h"

namespace sheaf {
namespace {

using P = Phoneme;

bool same_or_weak(P a, P b) {
  const auto weak = [](P p) { return p == P::ax || p == P::ih; };
  return a == b || (weak(a) && weak(b));
}

// Bases are words that everybody knows: there is "tok" in larger lists.
constexpr int kLargestBase = 50;

// Whether letters are a word that everybody knows by itself.
bool is_base(std::string_view base, const Phonics& phonics) {
  const auto info = phonics.info(base);
  return info && !info->name &&
         (info->everyday || (info->tier > 0 && info->tier <= kLargestBase));
}

// A base that can be thought of though its e is not there.
bool is_close_base(std::string_view base, const Phonics& phonics) {
  const auto info = phonics.info(base);
  return info && (info->everyday ||
                  (info->tier > 0 && info->tier <= Phonics::kCommonList));
}

bool keeps_its_le(std::string_view base) {
  return base.size() > 2 && base.ends_with("le") &&
         !is_vowel_letter(base[base.size() - 3]);
}

// Endings besides those whose joints Sheaf knows, kept whole behind a word that
// sounds as it does by itself: bright-en, gold-en, child-ish, leaf-let, and not
// o-pen, lis-ten, pub-lish. Those that only sometimes part a word so (-or, -al,
// -age) are not among them.
constexpr std::array<std::string_view, 12> kMoreEndings = {
    "en",   "ish",   "able", "ern", "ist", "let",
    "ward", "wards", "dom",  "ize", "ise", "ade"};

bool sounds_as(const Reading& reading, std::size_t units,
               const std::string& base, const Phonics& phonics) {
  if (!is_base(base, phonics)) return false;
  std::vector<P> whole, own;
  for (std::size_t k = 0; k < units; ++k) {
    const std::vector<P>& said = reading.units[k].listed;
    whole.insert(whole.end(), said.begin(), said.end());
  }
  const std::vector<Reading> alone =
      phonics.read(base, conventions_for(reading.speech.accent));
  for (const Unit& u : alone.front().units) {
    own.insert(own.end(), u.listed.begin(), u.listed.end());
  }
  return std::ranges::equal(whole, own, same_or_weak);
}

class AffixFinder {
 public:
  AffixFinder(const Reading& reading, const Phonics& phonics)
      : reading_(reading), word_(reading.word), phonics_(phonics) {}

  // With `inside`, also those of the two words of a compound.
  Affixes find(bool inside) {
    const LetterMap map = map_letters(word_);
    if (!map.good) return {};
    const WordFacts facts = find_facts(reading_, map, phonics_.lexicon());
    if (!facts.prefix.empty()) {
      const std::size_t at = map.ends[facts.prefix.size() - 1];
      add(at, DivisionRule::prefix);
      if (inside) add_those_of(word_.substr(at), at);
    } else if (map.letters.starts_with("trans") && map.letters.size() > 6 &&
               !is_vowel_letter(map.letters[5])) {
      add(map.ends[4], DivisionRule::prefix);
    }
    find_endings(facts);
    for (std::size_t at = 0; at < word_.size(); ++at) {
      if (word_[at] == '-') add(at, DivisionRule::compound);
    }
    if (facts.compound_at > 0) {
      const std::size_t at = map.begins[facts.compound_letter];
      add(at, DivisionRule::compound);
      if (inside) {
        add_those_of(word_.substr(0, at), 0);
        add_those_of(word_.substr(at), at);
      }
    }
    return std::move(found_);
  }

 private:
  void add(std::size_t at, DivisionRule rule) {
    const bool hyphen = at < word_.size() && word_[at] == '-';
    found_.places.push_back({hyphen ? at + 1 : at, rule, false});
  }

  void find_endings(const WordFacts& facts) {
    std::size_t end = word_.size();
    for (const auto& placed : facts.endings) {
      const EndingAnalysis& ending = placed.analysis;
      const std::string_view text = ending_text(ending.ending);
      const std::string_view left = word_.substr(0, end);
      // An ending whose letters the next one changed is not there to be seen.
      if (placed.changed || !left.ends_with(text)) break;
      // Of crazy nobody thinks as of craze; bub-bly has its -le in it.
      const bool dropped = ending.joint == Joint::dropped_e;
      if (dropped && (keeps_its_le(ending.base) ||
                      !is_close_base(ending.base, phonics_))) {
        break;
      }
      end -= text.size();
      add(end, DivisionRule::ending);
      if (dropped) found_.dropped_at = end;
    }
    for (const std::string_view more : kMoreEndings) {
      if (!word_.substr(0, end).ends_with(more)) continue;
      const std::size_t at = end - more.size();
      const auto unit =
          std::ranges::find_if(reading_.units, [&](const Unit& u) {
            return static_cast<std::size_t>(u.begin) == at;
          });
      if (unit == reading_.units.end()) continue;
      add_more(static_cast<std::size_t>(unit - reading_.units.begin()), more);
    }
  }

  void add_more(std::size_t unit, std::string_view ending) {
    const std::size_t at = reading_.units[unit].begin;
    const std::string base = lower_case(word_.substr(0, at));
    if (phonics_.lexicon().is_not_inflected(base + std::string(ending))) return;
    const bool plain = sounds_as(reading_, unit, base, phonics_);
    const bool dropped = !plain && ending == "able" &&
                         sounds_as(reading_, unit, base + "e", phonics_);
    if (!plain && !dropped) return;
    found_.places.push_back({at, DivisionRule::ending, true});
    if (dropped) found_.dropped_at = at;
  }

  void add_those_of(std::string_view part, std::size_t from) {
    if (part.starts_with('-')) {
      part.remove_prefix(1);
      ++from;
    }
    if (!is_word(part)) return;
    const std::vector<Reading> alone =
        phonics_.read(part, conventions_for(reading_.speech.accent));
    const Affixes own = AffixFinder(alone.front(), phonics_).find(false);
    for (const FixedPlace& place : own.places) {
      found_.places.push_back({place.at + from, place.rule, place.mild});
    }
    if (own.dropped_at > 0) found_.dropped_at = own.dropped_at + from;
  }

  const Reading& reading_;
  std::string_view word_;
  const Phonics& phonics_;
  Affixes found_;
};

}  // namespace

Affixes find_affixes(const Reading& reading, const Phonics& phonics) {
  return AffixFinder(reading, phonics).find(true);
}

}  // namespace sheaf
