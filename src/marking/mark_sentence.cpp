#include "marking/mark_sentence.h"

#include <algorithm>
#include <limits>

#include "base/nearest.h"
#include "base/utf8.h"
#include "marking/written_word.h"

namespace sheaf {
namespace {

using WordKind = MarkedWord::Kind;

// In percent of a word's letters. Another word in the place of one (100) is
// cheaper than one missing beside one too many.
constexpr int kMissing = 60;
constexpr int kExtra = 60;
constexpr int kSplit = 25;
constexpr int kJoined = 25;
// Two words are one only if their letters are nearly all there.
constexpr int kAlike = 35;
constexpr std::size_t kMostWords = 300;

std::vector<std::string> written_words(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  const auto close = [&] {
    if (!read_written(word).blank()) words.push_back(word);
    word.clear();
  };
  for (std::size_t at = 0; at < text.size() && words.size() < kMostWords;) {
    const std::size_t begin = at;
    const char32_t c = next_code_point(text, at);
    if (is_space(c) || c == '\n' || c == '\t' || c == '\r') {
      close();
    } else {
      word += text.substr(begin, at - begin);
    }
  }
  close();
  return words;
}

int difference(std::string_view a, std::string_view b) {
  const auto longest = static_cast<int>(std::max(a.size(), b.size()));
  return longest == 0 ? 0 : 100 * edit_distance(a, b, longest) / longest;
}

struct SentenceCell {
  int cost = std::numeric_limits<int>::max() / 2;
  std::uint8_t targets = 0;
  std::uint8_t words = 0;
};

// Lays written words against target words; cells say how many of each the
// last step took.
class WordTable {
 public:
  WordTable(std::vector<std::string> target, std::vector<std::string> written)
      : target_(std::move(target)),
        written_(std::move(written)),
        cells_((target_.size() + 1) * (written_.size() + 1)) {
    at(0, 0).cost = 0;
    for (std::size_t i = 0; i <= target_.size(); ++i) {
      for (std::size_t j = 0; j <= written_.size(); ++j) leave(i, j);
    }
  }

  struct Step {
    std::size_t target, word;  // where it begins
    std::size_t targets, words;
  };
  std::vector<Step> steps() const {
    std::vector<Step> steps;
    std::size_t i = target_.size(), j = written_.size();
    while (i > 0 || j > 0) {
      const SentenceCell& cell = cells_[i * (written_.size() + 1) + j];
      i -= cell.targets;
      j -= cell.words;
      steps.push_back({i, j, cell.targets, cell.words});
    }
    std::ranges::reverse(steps);
    return steps;
  }

 private:
  SentenceCell& at(std::size_t i, std::size_t j) {
    return cells_[i * (written_.size() + 1) + j];
  }

  void offer(std::size_t i, std::size_t j, std::uint8_t targets,
             std::uint8_t words, int price) {
    if (i + targets > target_.size() || j + words > written_.size()) return;
    const int cost = at(i, j).cost + price;
    SentenceCell& to = at(i + targets, j + words);
    if (cost < to.cost) to = {cost, targets, words};
  }

  void leave(std::size_t i, std::size_t j) {
    const bool target = i < target_.size(), word = j < written_.size();
    if (target && word) {
      offer(i, j, 1, 1, difference(target_[i], written_[j]));
    }
    offer(i, j, 1, 0, kMissing);
    offer(i, j, 0, 1, kExtra);
    if (target && j + 1 < written_.size()) {
      const int apart = difference(target_[i], written_[j] + written_[j + 1]);
      if (apart <= kAlike) offer(i, j, 1, 2, kSplit + apart);
    }
    if (i + 1 < target_.size() && word) {
      const int apart = difference(target_[i] + target_[i + 1], written_[j]);
      if (apart <= kAlike) offer(i, j, 2, 1, kJoined + apart);
    }
  }

  std::vector<std::string> target_, written_;
  std::vector<SentenceCell> cells_;
};

class SentenceMarker {
 public:
  SentenceMarker(const SoundSpellings& spellings,
                 std::span<const Reading> target, const MarkingOptions& options)
      : spellings_(spellings), target_(target), options_(options) {}

  void add(std::size_t target, WordKind kind, std::string_view written,
           MarkedSentence& sentence) const {
    MarkedWord word{kind, mark(target, written)};
    sentence.sequences += word.attempt.sequences;
    sentence.words.push_back(std::move(word));
  }

  // Parts a word that stands for two where their marks are best.
  void add_joined(std::size_t target, std::string_view written,
                  MarkedSentence& sentence) const {
    const std::string signs = read_written(written).signs;
    std::size_t best = 0;
    int least = std::numeric_limits<int>::max();
    for (std::size_t cut = 0; cut <= signs.size(); ++cut) {
      const std::string_view all = signs;
      const int cost = mark(target, all.substr(0, cut)).cost +
                       mark(target + 1, all.substr(cut)).cost;
      if (cost < least) {
        least = cost;
        best = cut;
      }
    }
    add(target, WordKind::joined, std::string_view(signs).substr(0, best),
        sentence);
    add(target + 1, WordKind::joined, std::string_view(signs).substr(best),
        sentence);
  }

 private:
  MarkedAttempt mark(std::size_t target, std::string_view written) const {
    return mark_attempt(spellings_, target_[target], written, options_);
  }

  const SoundSpellings& spellings_;
  std::span<const Reading> target_;
  const MarkingOptions& options_;
};

bool ends_with_mark(std::string_view text) {
  const std::size_t last = text.find_last_not_of(" \t\r\n\"')");
  return last != std::string_view::npos &&
         (text[last] == '.' || text[last] == '!' || text[last] == '?');
}

}  // namespace

int MarkedSentence::words_right() const {
  return static_cast<int>(std::ranges::count_if(
      words, [](const MarkedWord& word) { return word.right(); }));
}

MarkedSentence mark_sentence(const SoundSpellings& spellings,
                             std::span<const Reading> target,
                             std::string_view written,
                             const MarkingOptions& options) {
  MarkedSentence sentence;
  const std::vector<std::string> words = written_words(written);
  std::vector<std::string> meant, found;
  for (const Reading& reading : target) {
    meant.push_back(read_written(reading.word).letters);
  }
  for (const std::string& word : words) {
    found.push_back(read_written(word).letters);
  }
  const SentenceMarker marker(spellings, target, options);
  for (const WordTable::Step& step : WordTable(meant, found).steps()) {
    if (step.targets == 0) {
      sentence.extra.push_back({words[step.word], step.target});
    } else if (step.words == 0) {
      marker.add(step.target, WordKind::missing, "", sentence);
    } else if (step.targets == 2) {
      marker.add_joined(step.target, words[step.word], sentence);
    } else if (step.words == 2) {
      marker.add(step.target, WordKind::split,
                 words[step.word] + " " + words[step.word + 1], sentence);
    } else {
      marker.add(step.target, WordKind::matched, words[step.word], sentence);
    }
  }
  sentence.capital = !words.empty() && read_written(words[0]).capital;
  sentence.end_mark = ends_with_mark(written);
  return sentence;
}

}  // namespace sheaf
