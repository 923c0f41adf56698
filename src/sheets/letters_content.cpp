#include "sheets/letters_content.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "layout/heard.h"
#include "pictures/letter_strokes.h"
#include "sheets/pattern_card.h"

namespace sheaf::letters_sheet {

namespace {

char capital_of(char c) {
  return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
}
bool is_capital(char c) { return c >= 'A' && c <= 'Z'; }
char small_of(char c) {
  return is_capital(c) ? static_cast<char>(c - 'A' + 'a') : c;
}

// A row begins and ends with a letter; the same stands once.
void add_row(std::vector<std::string>& rows, std::string row) {
  if (row.empty() || row.front() == ' ' || row.back() == ' ' ||
      !has_letter_shapes(row) || std::ranges::find(rows, row) != rows.end()) {
    return;
  }
  rows.push_back(std::move(row));
}

// The letters of a grapheme as they stand in a word: nothing of the dash of
// "-ing", a blank in "a_e".
std::string as_written(std::string_view grapheme) {
  std::string written;
  for (const char c : grapheme) {
    if (c == '_') written += ' ';
    if (find_letter_shape(c) != nullptr) written += c;
  }
  return written;
}

// A weak vowel with the consonant that ends the key word: the al of metal.
// Empty where the pattern is about no such end.
std::string weak_end(const PatternCard& card, const LessonPattern& pattern) {
  if (card.key == nullptr) return {};
  const Reading& reading = card.key->reading;
  const PatternPlace* place = reading.find(pattern.id);
  if (place == nullptr || place->units.size() != 1) return {};
  const std::size_t at = place->units.front();
  const Unit& vowel = reading.units[at];
  const bool weak = vowel.listed.size() == 1 && !vowel.stressed &&
                    is_short_vowel(vowel.listed.front());
  return weak && reading.syllables() > 1 && at + 2 == reading.units.size()
             ? reading.word.substr(vowel.begin)
             : std::string();
}

// What the week's patterns are written with, each grapheme before its letters.
std::vector<std::string> rows_of_week(const SheetInput& in) {
  using Look = PatternText::Card;
  std::vector<std::string> graphemes;
  for (std::size_t i = 0; i < in.lesson.patterns.size(); ++i) {
    const LessonPattern& pattern = in.lesson.patterns[i];
    const PatternCard card = pattern_card(in.lesson, i);
    // Of -able, -tion and their like all letters are the week's, not only
    // those by which the pattern is found.
    if (card.look == Look::ending || card.look == Look::prefix) {
      add_row(graphemes, as_written(card.face));
    } else if (const std::string end = weak_end(card, pattern); !end.empty()) {
      add_row(graphemes, as_written(end));
    } else if (!pattern.graphemes.empty()) {
      add_row(graphemes, as_written(pattern.graphemes.front()));
    }
  }
  std::vector<std::string> rows;
  for (const std::string& grapheme : graphemes) {
    if (grapheme.size() > 1) add_row(rows, grapheme);
  }
  for (const std::string& grapheme : graphemes) {
    for (const char c : grapheme) {
      if (c != ' ') add_row(rows, std::string(1, c));
    }
  }
  return rows;
}

std::vector<std::string> chosen_rows(std::string_view text) {
  std::vector<std::string> rows;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    if (end > 0) add_row(rows, as_written(text.substr(0, end)));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return rows;
}

void put_in_order(std::vector<std::string>& rows, const std::string& order) {
  const auto by_alphabet = [](const std::string& row) {
    std::string small;
    for (const char c : row) small += small_of(c);
    return std::pair(small, !is_capital(row.front()));
  };
  if (order == "as-given") return;
  std::ranges::sort(rows, {}, by_alphabet);
  if (order == "alphabet") return;
  // Small letters of a family, then its capitals; graphemes of several letters
  // are written once their letters can be.
  std::ranges::stable_sort(rows, {}, [](const std::string& row) {
    return std::tuple(row.size() > 1, is_capital(row.front()),
                      find_letter_shape(row.front())->family);
  });
}

}  // namespace

std::vector<std::string> rows_of(const SheetInput& in) {
  const std::string& chosen = in.options.text("letters");
  std::vector<std::string> rows =
      chosen.empty() ? rows_of_week(in) : chosen_rows(chosen);
  // One letter alone leaves the page for its capital too.
  const bool alone = chosen.empty() && rows.size() == 1;
  if (in.options.flag("capitals") || alone) {
    std::vector<std::string> both;
    for (const std::string& row : rows) {
      add_row(both, row);
      if (row.size() == 1) {
        add_row(both, std::string(1, capital_of(row.front())));
      }
    }
    rows = std::move(both);
  }
  put_in_order(rows, in.options.choice("order"));
  return rows;
}

std::string letters_in(const std::string& row) {
  std::string letters;
  for (const char c : row) {
    if (c != ' ' && letters.find(c) == std::string::npos) letters += c;
  }
  return letters;
}

std::string heard_row(const std::string& row) {
  std::string grapheme = row;
  std::ranges::replace(grapheme, ' ', '_');
  const bool capital = row.size() == 1 && is_capital(row.front());
  return (capital ? "capital " : "") + heard_grapheme(grapheme);
}

}  // namespace sheaf::letters_sheet
