#include "phonics/near_words.h"

#include <algorithm>
#include <tuple>

#include "phonics/unit_rules.h"

namespace sheaf {
namespace {

// Words of two letters are one slip from too many others.
constexpr std::size_t kShortestWord = 3;
constexpr std::size_t kLongestWord = 40;
constexpr std::string_view kLetters = "abcdefghijklmnopqrstuvwxyz";

// The larger, the seldomer the slip.
enum Slip : int {
  kSwap = 0,
  kDouble = 0,  // schoool, apple with one p
  kVowel = 1,   // a vowel letter more, fewer or other
  kOther = 2,
  kFirst = 3,  // added where the first letter is another one
};

constexpr int kNoLimit = 99;

struct Candidate {
  std::string word;
  bool unknown_to_children = false;
  bool name = false;
  int slip = 0;
  int rarity = 0;
};

class Finder {
 public:
  Finder(std::string_view wrong, const Lexicon& lexicon,
         const NearWordLimits& limits)
      : wrong_(wrong), lexicon_(lexicon), limits_(limits) {}

  std::vector<std::string> run() {
    swap_letters();
    leave_out_letters();
    put_in_letters();
    change_letters();
    std::ranges::sort(candidates_, [](const Candidate& a, const Candidate& b) {
      return std::tie(a.name, a.unknown_to_children, a.slip, a.rarity, a.word) <
             std::tie(b.name, b.unknown_to_children, b.slip, b.rarity, b.word);
    });
    std::vector<std::string> words;
    int worst = kNoLimit;
    for (Candidate& c : candidates_) {
      if (words.size() == limits_.most) break;
      if (c.slip > worst) continue;
      if (std::ranges::find(words, c.word) != words.end()) continue;
      if (limits_.may_suggest && !limits_.may_suggest(c.word)) continue;
      words.push_back(std::move(c.word));
      // Beside a likely slip nobody means an unlikely one.
      worst = std::min(worst, c.slip + 1);
    }
    return words;
  }

 private:
  void swap_letters() {
    for (std::size_t i = 0; i + 1 < wrong_.size(); ++i) {
      if (wrong_[i] == wrong_[i + 1]) continue;
      std::string word(wrong_);
      std::swap(word[i], word[i + 1]);
      consider(std::move(word), kSwap);
    }
  }

  void leave_out_letters() {
    for (std::size_t i = 0; i < wrong_.size(); ++i) {
      const bool doubled = i > 0 && wrong_[i] == wrong_[i - 1];
      std::string word(wrong_);
      word.erase(i, 1);
      consider(std::move(word), doubled ? kDouble : slip_at(i, wrong_[i]));
    }
  }

  void put_in_letters() {
    for (std::size_t i = 0; i <= wrong_.size(); ++i) {
      for (const char c : kLetters) {
        const bool doubled = (i > 0 && wrong_[i - 1] == c) ||
                             (i < wrong_.size() && wrong_[i] == c);
        std::string word(wrong_);
        word.insert(i, 1, c);
        consider(std::move(word), doubled ? kDouble : slip_at(i, c));
      }
    }
  }

  void change_letters() {
    for (std::size_t i = 0; i < wrong_.size(); ++i) {
      for (const char c : kLetters) {
        if (c == wrong_[i]) continue;
        const bool vowels = is_vowel_letter(c) && is_vowel_letter(wrong_[i]);
        std::string word(wrong_);
        word[i] = c;
        consider(std::move(word),
                 vowels ? slip_at(i, c) : kOther + (i == 0 ? kFirst : 0));
      }
    }
  }

  static int slip_at(std::size_t place, char letter) {
    return (is_vowel_letter(letter) ? kVowel : kOther) +
           (place == 0 ? kFirst : 0);
  }

  void consider(std::string word, int slip) {
    if (word.size() < 2) return;
    const auto head = lexicon_.head(word);
    if (!head) return;
    if (head->name && !limits_.names) return;
    Candidate candidate;
    candidate.unknown_to_children = !head->everyday;
    candidate.name = head->name;
    candidate.slip = slip;
    constexpr int kUnlisted = 99;
    candidate.rarity = head->tier > 0 ? head->tier : kUnlisted;
    if (head->first) candidate.rarity = 0;
    if (head->name) word[0] = static_cast<char>(word[0] - 'a' + 'A');
    candidate.word = std::move(word);
    candidates_.push_back(std::move(candidate));
  }

  std::string_view wrong_;
  const Lexicon& lexicon_;
  const NearWordLimits& limits_;
  std::vector<Candidate> candidates_;
};

}  // namespace

std::vector<std::string> near_words(std::string_view wrong,
                                    const Lexicon& lexicon,
                                    const NearWordLimits& limits) {
  if (wrong.size() < kShortestWord || wrong.size() > kLongestWord) return {};
  return Finder(wrong, lexicon, limits).run();
}

}  // namespace sheaf
