#include "planning/block_list.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "base/shuffle.h"
#include "base/utf8.h"
#include "phonics/ending_rules.h"
#include "planning/tables.h"

namespace sheaf {

namespace {

constexpr std::uint64_t kBits = (std::uint64_t{1} << 40U) - 1;
constexpr std::size_t kFigures = 10;
constexpr std::size_t kShortestPart = 3;

std::uint64_t spelling_number(std::string_view word) {
  return text_hash(word, text_hash("blocked spelling ")) & kBits;
}

std::uint64_t sounds_number(std::span<const Phoneme> phonemes) {
  std::uint64_t hash = text_hash("blocked sounds ");
  for (const Phoneme p : phonemes) {
    hash = text_hash(phoneme_name(p), hash);
    hash = text_hash(" ", hash);
  }
  return hash & kBits;
}

std::optional<std::uint64_t> read_number(std::string_view part) {
  if (part.size() != kFigures + 1) return std::nullopt;
  std::uint64_t number = 0;
  for (const char c : part.substr(1)) {
    const int figure = c >= '0' && c <= '9'   ? c - '0'
                       : c >= 'a' && c <= 'f' ? c - 'a' + 10
                                              : -1;
    if (figure < 0) return std::nullopt;
    number = number << 4U | static_cast<std::uint64_t>(figure);
  }
  return number;
}

// A word with the endings that any noun or verb could have.
std::vector<std::string> with_endings(const std::string& word) {
  std::vector<std::string> forms = {word};
  for (const Ending ending : {Ending::s, Ending::ed, Ending::ing}) {
    for (EndedWord& made : put_ending_on(word, ending)) {
      forms.push_back(std::move(made.spelling));
    }
  }
  return forms;
}

bool holds(const std::vector<std::uint64_t>& numbers, std::uint64_t number) {
  return std::ranges::binary_search(numbers, number);
}

}  // namespace

const BlockList& BlockList::shipped() {
  static const BlockList list = [] {
    BlockList result;
    result.add(blocked_words_table());
    return result;
  }();
  return list;
}

void BlockList::add(std::string_view text) {
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    for (const std::string_view part : parts(text.substr(0, end))) {
      const auto number = read_number(part);
      if (number && part.front() == '=') {
        spellings_.push_back(*number);
      } else if (number && part.front() == '~') {
        sounds_.push_back(*number);
      } else if (number && part.front() == '!') {
        rude_spellings_.push_back(*number);
      } else if (number && part.front() == '?') {
        rude_sounds_.push_back(*number);
      } else if (is_word(part)) {
        collect(part);
      }
    }
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  put_in_order();
}

std::vector<std::string_view> BlockList::parts(std::string_view line) {
  constexpr std::string_view kSpaces = " \t\r\n,";
  std::vector<std::string_view> found;
  line = line.substr(0, line.find('#'));
  for (std::size_t at = line.find_first_not_of(kSpaces);
       at != std::string_view::npos; at = line.find_first_not_of(kSpaces, at)) {
    const std::size_t stop =
        std::min(line.find_first_of(kSpaces, at), line.size());
    found.push_back(line.substr(at, stop - at));
    at = stop;
  }
  return found;
}

bool BlockList::reads(std::string_view line) {
  return std::ranges::all_of(parts(line), [](std::string_view part) {
    constexpr std::string_view kMarks = "=~!?";
    const bool number = kMarks.find(part.front()) != std::string_view::npos;
    return number ? read_number(part).has_value() : is_word(part);
  });
}

void BlockList::add_word(std::string_view word) {
  collect(word);
  put_in_order();
}

void BlockList::collect(std::string_view word) {
  for (const std::string& form : with_endings(lower_case(word))) {
    spellings_.push_back(spelling_number(form));
  }
}

void BlockList::put_in_order() {
  std::ranges::sort(spellings_);
  std::ranges::sort(sounds_);
  std::ranges::sort(rude_spellings_);
  std::ranges::sort(rude_sounds_);
}

bool BlockList::blocks(std::string_view word) const {
  const std::string lower = lower_case(word);
  if (holds(spellings_, spelling_number(lower))) return true;
  const std::size_t mark = lower.find('\'');
  return mark != std::string::npos &&
         holds(spellings_,
               spelling_number(std::string_view(lower).substr(0, mark)));
}

bool BlockList::blocks_sounds(std::span<const Phoneme> phonemes) const {
  return holds(sounds_, sounds_number(phonemes));
}

bool BlockList::blocks_part_of(std::string_view word,
                               std::span<const Phoneme> phonemes) const {
  for (std::size_t begin = 0; begin < word.size(); ++begin) {
    for (std::size_t size = kShortestPart; begin + size <= word.size();
         ++size) {
      if (holds(spellings_, spelling_number(word.substr(begin, size)))) {
        return true;
      }
    }
  }
  for (std::size_t begin = 0; begin < phonemes.size(); ++begin) {
    for (std::size_t size = 2; begin + size <= phonemes.size(); ++size) {
      const bool whole = begin == 0 && size == phonemes.size();
      if (size < kShortestPart && !whole) continue;
      if (blocks_sounds(phonemes.subspan(begin, size))) return true;
    }
  }
  return false;
}

namespace {

// Calls with everything that is one step from a sequence: one item less, other
// or more, or two neighbours changed about.
template <typename Sequence, typename Items, typename Call>
bool any_neighbour(const Sequence& from, const Items& items, const Call& call) {
  Sequence to = from;
  for (std::size_t i = 0; i < from.size(); ++i) {
    for (const auto item : items) {
      to[i] = item;
      if (item != from[i] && call(to)) return true;
    }
    to[i] = from[i];
    if (i > 0) {
      std::swap(to[i - 1], to[i]);
      if (call(to)) return true;
      std::swap(to[i - 1], to[i]);
    }
    Sequence less = from;
    less.erase(less.begin() + static_cast<std::ptrdiff_t>(i));
    if (call(less)) return true;
  }
  for (std::size_t i = 0; i <= from.size(); ++i) {
    Sequence more = from;
    more.insert(more.begin() + static_cast<std::ptrdiff_t>(i), *items.begin());
    for (const auto item : items) {
      more[i] = item;
      if (call(more)) return true;
    }
  }
  return false;
}

}  // namespace

bool BlockList::is_near_rude(std::string_view word,
                             std::span<const Phoneme> phonemes) const {
  if (rude_spellings_.empty() && rude_sounds_.empty()) return false;
  constexpr std::string_view kLetters = "abcdefghijklmnopqrstuvwxyz";
  static const std::vector<Phoneme> kPhonemes = [] {
    std::vector<Phoneme> all;
    for (int p = 0; p < kPhonemeCount; ++p) {
      all.push_back(static_cast<Phoneme>(p));
    }
    return all;
  }();
  const auto spelled = [&](const std::string& other) {
    return holds(rude_spellings_, spelling_number(other));
  };
  const auto said = [&](const std::vector<Phoneme>& other) {
    return holds(rude_sounds_, sounds_number(other));
  };
  return spelled(std::string(word)) ||
         any_neighbour(std::string(word), kLetters, spelled) ||
         any_neighbour(std::vector<Phoneme>(phonemes.begin(), phonemes.end()),
                       kPhonemes, said);
}

std::set<std::string> blocked_parts(std::span<const std::string> words,
                                    const Phonics& phonics, bool rude) {
  std::set<std::string> parts;
  for (const std::string& given : words) {
    const std::string word = lower_case(given);
    for (const std::string& form : with_endings(word)) {
      parts.insert(fmt::format("={:010x}", spelling_number(form)));
    }
    if (rude) parts.insert(fmt::format("!{:010x}", spelling_number(word)));
    for (const Reading& reading : phonics.read(word, Conventions{})) {
      std::vector<Phoneme> phonemes;
      for (const Unit& unit : reading.units) {
        phonemes.insert(phonemes.end(), unit.listed.begin(), unit.listed.end());
      }
      parts.insert(fmt::format("~{:010x}", sounds_number(phonemes)));
      if (rude) parts.insert(fmt::format("?{:010x}", sounds_number(phonemes)));
    }
  }
  return parts;
}

}  // namespace sheaf
