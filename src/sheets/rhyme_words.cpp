#include "sheets/rhyme_words.h"

#include <algorithm>
#include <string_view>

#include "base/utf8.h"
#include "sheets/sound_sort.h"

namespace sheaf {

namespace {

constexpr int kToChooseFrom = 12;

class Finder {
 public:
  explicit Finder(const SheetInput& in) : in_(in) {}

  std::vector<RhymeWord> find() {
    if (!add_written()) return {};
    for (const AnalyzedWord& word : in_.lesson.words) {
      if (word.has_pattern() && in_.pictures.is_clear(word.reading.word)) {
        add(word.reading.word);
      }
    }
    const SoundSort& sort = sound_sort(in_, kToChooseFrom);
    const int last = static_cast<int>(sort.columns.size()) - 1;
    for (const auto& [word, column] : sort.chosen) {
      if (column < last) add(word);
    }
    return std::move(words_);
  }

 private:
  // What stands between braces; false where no braces are.
  bool add_written() {
    bool any = false;
    for (const LessonLine& line : in_.lesson.lesson->rhyme) {
      std::string_view rest = line.text();
      while (true) {
        const std::size_t open = rest.find('{');
        const std::size_t close = rest.find('}', std::min(open, rest.size()));
        if (close == std::string_view::npos) break;
        any = true;
        const std::string_view word = rest.substr(open + 1, close - open - 1);
        if (word.find_first_not_of(' ') != std::string_view::npos) {
          add(std::string(word));
        }
        rest.remove_prefix(close + 1);
      }
    }
    return any;
  }

  void add(const std::string& word) {
    if (words_.size() == kMostRhymeWords) return;
    const std::string key = lower_case(word);
    const bool known = std::ranges::any_of(words_, [&](const RhymeWord& other) {
      return lower_case(other.word) == key;
    });
    if (!known) words_.push_back({word, in_.pictures.find(word)});
  }

  const SheetInput& in_;
  std::vector<RhymeWord> words_;
};

}  // namespace

std::vector<RhymeWord> rhyme_words(const SheetInput& in) {
  return Finder(in).find();
}

}  // namespace sheaf
