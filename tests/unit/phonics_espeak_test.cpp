// Phonemes counted against eSpeak NG, voice en-gb (package espeak-ng): an
// independent program with its own rules. The build lets it say all plain
// words of SCOWL up to size 35 once; see tests/CMakeLists.txt.
//
// Conventions that both sides are brought to before they are compared:
// - a weak vowel and l before no vowel are one (little, animal);
// - i and a weak vowel behind it are one (area, million, happier);
// - the glides of fire and hour are two.

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <map>

#include "base/utf8.h"
#include "phonics/phonics.h"
#include "phonics/table_text.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

// A kind of sound, as far as the comparison cares.
enum class Kind { vowel, weak, long_e, y, l, other };
struct Sound1 {
  Kind kind;
  std::string name;
};
using Sounds = std::vector<Sound1>;

bool is_vowel_kind(Kind k) {
  return k == Kind::vowel || k == Kind::weak || k == Kind::long_e;
}

Kind kind_of_ipa(std::string_view p) {
  if (p == "ə" || p == "ɐ" || p == "ɚ") return Kind::weak;
  if (p == "i" || p == "iː" || p == "ɪ") return Kind::long_e;
  if (p == "j") return Kind::y;
  if (p == "l") return Kind::l;
  for (const std::string_view v :
       {"a", "ɑ", "æ", "e", "ɛ", "ɜ", "ɔ", "o", "ʊ", "u", "ʌ", "ɒ", "ᵻ"}) {
    if (p.starts_with(v)) return Kind::vowel;
  }
  return Kind::other;
}

Sounds of_espeak(std::string_view text) {
  Sounds sounds;
  for (const std::string_view part : split_at(text, '_')) {
    std::string plain;
    for (const std::string_view c : characters(part)) {
      if (c != "ˈ" && c != "ˌ" && c != " " && c != "-") plain += c;
    }
    if (plain.empty()) continue;
    const bool glide = plain == "aɪə" || plain == "aʊə";
    if (glide || plain == "əl") {
      const std::size_t cut = plain.size() - std::string_view("ə").size();
      const std::string first = glide ? plain.substr(0, cut) : "ə";
      sounds.push_back({kind_of_ipa(first), first});
      const std::string second = glide ? "ə" : "l";
      sounds.push_back({kind_of_ipa(second), second});
    } else {
      sounds.push_back({kind_of_ipa(plain), plain});
    }
  }
  return sounds;
}

Sounds of_reading(const Reading& reading) {
  Sounds sounds;
  for (const Unit& unit : reading.units) {
    for (const Phoneme p : unit.phonemes) {
      Kind kind = is_vowel(p) ? Kind::vowel : Kind::other;
      if (p == Phoneme::ax || (p == Phoneme::er && !unit.stressed)) {
        kind = Kind::weak;
      }
      if (p == Phoneme::iy) kind = Kind::long_e;
      // The y of million, not the one of cube.
      if (p == Phoneme::y && unit.grapheme.size() == 1 &&
          (unit.grapheme == "i" || unit.grapheme == "e")) {
        kind = Kind::y;
      }
      if (p == Phoneme::l) kind = Kind::l;
      sounds.push_back({kind, std::string(phoneme_name(p))});
    }
  }
  return sounds;
}

Sounds joined(const Sounds& all) {
  Sounds sounds;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const bool vowel_next =
        i + 1 < all.size() && is_vowel_kind(all[i + 1].kind);
    if (!sounds.empty()) {
      Sound1& last = sounds.back();
      const bool weak_l = all[i].kind == Kind::l && last.kind == Kind::weak;
      const bool glide = all[i].kind == Kind::weak &&
                         (last.kind == Kind::long_e ||
                          (last.kind == Kind::y && sounds.size() > 1 &&
                           !is_vowel_kind(sounds[sounds.size() - 2].kind)));
      if ((weak_l && !vowel_next) || glide) {
        last.name += all[i].name;
        last.kind = Kind::vowel;
        continue;
      }
    }
    sounds.push_back(all[i]);
  }
  return sounds;
}

int vowels_in(const Sounds& sounds) {
  return static_cast<int>(std::ranges::count_if(
      sounds, [](const Sound1& s) { return is_vowel_kind(s.kind); }));
}

std::string class_of(const Sounds& ours, const Sounds& theirs) {
  const int vowels = vowels_in(ours) - vowels_in(theirs);
  const int all =
      static_cast<int>(ours.size()) - static_cast<int>(theirs.size());
  const auto has = [](const Sounds& s, std::string_view name) {
    return std::ranges::count(s, name, &Sound1::name);
  };
  const auto y = has(ours, "y") - has(theirs, "j");
  const auto r = has(ours, "r") - has(theirs, "ɹ");
  if (vowels > 0) return "a beat more here: weak vowel heard, or -le split";
  if (vowels < 0) return "a beat more there: weak vowel heard, -ed, letters";
  if (y < 0 && all < 0) return "y before long u there only";
  if (y > 0 && all > 0) return "y before long u here only";
  if (r != 0) return "r between vowels on one side only";
  if (has(theirs, "ɡ") > has(ours, "g")) return "ng said with g there";
  return all > 0 ? "a consonant more here" : "a consonant more there";
}

TEST(OutsideEspeak, CountsAgree) {
  std::ifstream file(SHEAF_ESPEAK_WORDS);
  ASSERT_TRUE(file) << SHEAF_ESPEAK_WORDS;
  const Conventions british = conventions_for(Accent::british);
  int one = 0, one_same = 0, all = 0, all_same = 0;
  std::map<std::string, std::pair<int, std::string>> classes;
  for (std::string line; std::getline(file, line);) {
    const std::size_t tab = line.find('\t');
    ASSERT_NE(tab, std::string::npos) << line;
    const std::string word = line.substr(0, tab);
    if (!shared_phonics().knows(word)) continue;
    const Sounds theirs = joined(of_espeak(line.substr(tab + 1)));
    const auto readings = shared_phonics().read(word, british);
    const bool same = std::ranges::any_of(readings, [&](const Reading& r) {
      return joined(of_reading(r)).size() == theirs.size();
    });
    ++all;
    all_same += same ? 1 : 0;
    if (readings.front().syllables() == 1) {
      ++one;
      one_same += same ? 1 : 0;
    }
    if (!same) {
      auto& [count, examples] =
          classes[class_of(joined(of_reading(readings.front())), theirs)];
      if (++count <= 6) examples += " " + word;
    }
  }
  ASSERT_GE(all, 38000);
  const double share_one = 100.0 * one_same / one;
  const double share_all = 100.0 * all_same / all;
  std::cout << "one syllable: " << one_same << " of " << one << ", "
            << share_one << "%\nall: " << all_same << " of " << all << ", "
            << share_all << "%\n";
  for (const auto& [name, entry] : classes) {
    std::cout << "  " << entry.first << "  " << name << ":" << entry.second
              << "\n";
  }
  EXPECT_GE(share_one, 99.3);
  EXPECT_GE(share_all, 96.0);
}

}  // namespace
}  // namespace sheaf
