#include "lexicon/bath_vowels.h"

#include <algorithm>
#include <string>
#include <vector>

#include "phonics/endings.h"

namespace sheaf {
namespace {

constexpr int kMostEndings = 2;
constexpr std::size_t kShortestBathPart = 3;
// The other part of a compound is a word that people meet.
constexpr int kLargestBathList = 50;

// Letters of a word that are those of a word of the list.
struct Part {
  std::size_t begin = 0, end = 0;
  /// Said so in Australia too, although n or m follows (aunt).
  bool everywhere = false;
};

class Parts {
 public:
  explicit Parts(const LexiconSources& sources) : sources_(sources) {}

  std::vector<Part> of(const std::string& word, int depth = 0) const {
    if (is_excluded(word, depth)) return {};
    if (sources_.bath.contains(word)) return {{0, word.size(), false}};
    if (sources_.bath.contains("+" + word)) return {{0, word.size(), true}};
    if (depth > kMostEndings) return {};
    std::vector<Part> found;
    take_off_ending(word, [&](const EndingAnalysis& a) {
      if (a.base.size() < kShortestBathPart) return -1;
      auto parts = of(a.base, depth + 1);
      if (parts.empty()) return -1;
      found = std::move(parts);
      return 0;
    });
    if (!found.empty()) return found;
    for (std::size_t at = 2; at + 2 <= word.size(); ++at) {
      const std::string first = word.substr(0, at), second = word.substr(at);
      if (may_stand_behind(second)) found = of_part(first, 0, depth);
      if (may_stand_before(first)) {
        for (const Part& part : of_part(second, at, depth)) {
          found.push_back(part);
        }
      }
      if (!found.empty()) break;
    }
    return found;
  }

 private:
  // Such letters of a part that begins at `at`: of a word of the list or a form
  // of one.
  std::vector<Part> of_part(const std::string& part, std::size_t at,
                            int depth) const {
    if (part.size() < kShortestBathPart) return {};
    const bool listed =
        sources_.bath.contains(part) || sources_.bath.contains("+" + part);
    if (!listed && !is_word(part)) return {};
    std::vector<Part> parts = of(part, depth + 1);
    for (Part& found : parts) {
      found.begin += at;
      found.end += at;
    }
    return parts;
  }

  bool may_stand_before(const std::string& part) const {
    constexpr std::string_view kBathPrefixes[] = {
        "un", "re", "mis", "dis", "up", "over", "anti", "non", "pre"};
    return is_word(part) || std::ranges::find(kBathPrefixes, part) !=
                                std::ranges::end(kBathPrefixes);
  }
  bool may_stand_behind(const std::string& part) const {
    return is_word(part) || part == "by";
  }

  bool is_word(const std::string& word) const {
    const auto listed = sources_.lists.find(word);
    return word.size() >= kShortestBathPart && listed != sources_.lists.end() &&
           !listed->second.name && listed->second.tier <= kLargestBathList;
  }

  // Words that the list names as having no such vowel, and their forms.
  bool is_excluded(const std::string& word, int depth) const {
    if (sources_.bath.contains("-" + word)) return true;
    if (depth > kMostEndings) return false;
    const EndingAnalysis ending =
        take_off_ending(word, [&](const EndingAnalysis& a) {
          const bool excluded = a.base.size() >= kShortestBathPart &&
                                is_excluded(a.base, depth + 1);
          return excluded ? 0 : -1;
        });
    return static_cast<bool>(ending);
  }

  const LexiconSources& sources_;
};

bool may_follow_bath(Phoneme sound) {
  constexpr Phoneme kSounds[] = {Phoneme::f,  Phoneme::s, Phoneme::th,
                                 Phoneme::dh, Phoneme::n, Phoneme::m,
                                 Phoneme::v,  Phoneme::z, Phoneme::sh};
  return std::ranges::find(kSounds, sound) != std::ranges::end(kSounds);
}

}  // namespace

std::uint8_t bath_vowels(const LexiconSources& sources,
                         const WordRecord& record, const Inventory& inventory) {
  std::string letters;
  for (const char c : record.spelling) {
    if (c >= 'a' && c <= 'z') letters += c;
  }
  auto parts = Parts(sources).of(record.spelling);
  if (parts.empty() && letters != record.spelling) {
    parts = Parts(sources).of(letters);
  }
  std::uint8_t vowels = 0;
  for (const Part& part : parts) {
    int shorts = 0, last = -1;
    bool nasal = false;
    for (std::size_t i = 0; i + 1 < record.segments.size(); ++i) {
      if (!is_short_a(record.segments[i], inventory)) continue;
      const std::size_t begin = record.segments[i].begin;
      if (begin >= part.begin && begin < part.end &&
          may_follow_bath(inventory[record.segments[i + 1].id].sounds[0])) {
        last = shorts;
        const Phoneme next = inventory[record.segments[i + 1].id].sounds[0];
        nasal = next == Phoneme::n || next == Phoneme::m;
      }
      ++shorts;
    }
    if (last < 0 || last >= WordRecord::kMostBathVowels) continue;
    const unsigned bit = 1U << static_cast<unsigned>(last);
    const bool not_in_australia = nasal && !part.everywhere;
    vowels |=
        static_cast<std::uint8_t>(not_in_australia ? bit | bit << 4U : bit);
  }
  return vowels;
}

}  // namespace sheaf
