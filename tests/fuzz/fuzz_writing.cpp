// A learner's own text. Two bytes come before it: how much memory there is (see
// short_memory.h), and what was taught.

#include "driver/marking_desk.h"
#include "fuzz_checks.h"
#include "ground.h"
#include "input/raw_text.h"
#include "marking/free_writing.h"
#include "short_memory.h"

namespace {

using sheaf::fuzz::require;

// Each word that is not known is looked for among all.
constexpr std::size_t kMostWords = 6;
// Of the words that children do not know first, which are most of the list, one
// in so many can be meant: to look through all of them takes far longer.
constexpr std::size_t kOneIn = 64;

std::vector<sheaf::ListedWord> some_words(const sheaf::Lexicon& lexicon) {
  std::size_t count = 0;
  std::vector<sheaf::ListedWord> words = listed_words(lexicon);
  std::erase_if(words, [&](const sheaf::ListedWord& word) {
    return !word.first && ++count % kOneIn != 0;
  });
  return words;
}

struct Reader {
  sheaf::fuzz::Ground ground;
  std::vector<std::string> faults;
  sheaf::MarkingDesk desk{ground.workspace, {}, faults};
  std::vector<sheaf::ListedWord> words = some_words(desk.lexicon());
  sheaf::WordIndex index{sheaf::WordSource{words, &desk.lexicon().inventory()},
                         desk.spellings()};
};

void check_places(const sheaf::RunningText& text, std::size_t size) {
  std::size_t end = 0;
  for (const sheaf::TextWord& word : text.words) {
    require(word.begin >= end && word.begin < word.end && word.end <= size);
    require(!word.text.empty());
    end = word.end;
  }
  for (const auto& place : text.unread) {
    require(place.begin < place.end && place.end <= size);
  }
}

void check_writing(const sheaf::FreeWriting& writing,
                   std::span<const sheaf::PatternId> taught) {
  for (const sheaf::WritingChance& chance : writing.chances) {
    require(chance.word < writing.text.words.size());
    require(std::ranges::find(taught, chance.pattern) != taught.end());
    require(!chance.meant.empty() && chance.sure >= 0 && chance.sure <= 100);
  }
  std::size_t before = 0;
  for (const sheaf::NotedWord& noted : writing.noted) {
    require(noted.word >= before && noted.word < writing.text.words.size());
    before = noted.word + 1;
    for (const auto& meant : noted.meant) {
      require(!meant.word.empty() && meant.sure >= 0 && meant.sure <= 100);
    }
  }
  require(writing.counts.size() == taught.size());
  for (const sheaf::PatternCount& count : writing.counts) {
    require(count.right >= 0 && count.right <= count.chances);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data,
                                      std::size_t size) {
  static auto* const reader = new Reader;
  if (size < 2 || size > 1000) return 0;
  const auto patterns = reader->desk.phonics().patterns().all().size();
  const std::vector<sheaf::PatternId> taught = {
      static_cast<sheaf::PatternId>(data[1] % patterns),
      static_cast<sheaf::PatternId>((data[1] + patterns / 2) % patterns)};
  const std::string text(sheaf::fuzz::text_of(data + 2, size - 2));
  const sheaf::SourceFile file("journal.txt", text);
  sheaf::Diagnostics unread;
  if (!check_plain_text(file, 1000, unread)) return 0;
  const sheaf::RunningText words = sheaf::read_running_text(file.text());
  check_places(words, file.text().size());
  if (words.words.size() > kMostWords) return 0;
  sheaf::fuzz::run_short(data[0], [&] {
    const sheaf::FreeWriting writing = read_free_writing(
        file.text(), taught,
        sheaf::WritingGround{reader->desk.phonics(), reader->desk.spellings(),
                             reader->index, reader->desk.options()});
    check_writing(writing, taught);
  });
  return 0;
}
