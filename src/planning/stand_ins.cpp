#include "planning/stand_ins.h"

#include <algorithm>
#include <cstdlib>

namespace sheaf {

namespace {

// Costs of making one word out of the other, sound by sound.
constexpr int kOtherSound = 2;
constexpr int kSoundMore = 2;
constexpr int kOtherBeginning = 1;
constexpr int kLetterMore = 1;
// Further than this there is no likeness left.
constexpr int kFarthest = 7;

std::vector<Phoneme> sounds_of(const Reading& reading) {
  std::vector<Phoneme> sounds;
  for (const Unit& unit : reading.units) {
    sounds.insert(sounds.end(), unit.listed.begin(), unit.listed.end());
  }
  return sounds;
}

int distance(const std::vector<Phoneme>& a, const std::vector<Phoneme>& b) {
  std::vector<int> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) {
    row[j] = static_cast<int>(j) * kSoundMore;
  }
  for (std::size_t i = 1; i <= a.size(); ++i) {
    int corner = row[0];
    row[0] = static_cast<int>(i) * kSoundMore;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const int other = corner + (a[i - 1] == b[j - 1] ? 0 : kOtherSound);
      corner = row[j];
      row[j] = std::min({other, row[j] + kSoundMore, row[j - 1] + kSoundMore});
    }
  }
  return row[b.size()];
}

}  // namespace

std::vector<std::string> stand_ins(const Reading& reading,
                                   const SearchGround& source,
                                   std::size_t count) {
  struct Ranked {
    int cost;
    std::string word;
  };
  std::vector<Ranked> ranked;
  const std::vector<Phoneme> wanted = sounds_of(reading);
  const auto length = static_cast<int>(reading.word.size());
  source.phonics.each_word(
      0, source.conventions, [&](const Reading& other, const WordInfo& info) {
        if (info.name || other.word == reading.word || other.word.size() < 2 ||
            BlockList::shipped().blocks(other.word) ||
            (source.blocked != nullptr && source.blocked->blocks(other.word)) ||
            !source.taught.is_decodable(other)) {
          return true;
        }
        const std::vector<Phoneme> sounds = sounds_of(other);
        int cost = distance(wanted, sounds);
        if (wanted.empty() || sounds.empty() || wanted[0] != sounds[0]) {
          cost += kOtherBeginning;
        }
        const auto own = static_cast<int>(other.word.size());
        cost += std::abs(own - length) * kLetterMore;
        if (cost <= kFarthest) ranked.push_back({cost, other.word});
        return true;
      });
  std::ranges::sort(ranked, [](const Ranked& a, const Ranked& b) {
    return a.cost != b.cost ? a.cost < b.cost : a.word < b.word;
  });
  std::vector<std::string> words;
  for (const Ranked& r : ranked) {
    if (words.size() == count) break;
    if (std::ranges::find(words, r.word) == words.end())
      words.push_back(r.word);
  }
  return words;
}

}  // namespace sheaf
