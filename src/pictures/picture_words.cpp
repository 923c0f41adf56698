#include "pictures/picture_words.h"

#include <algorithm>
#include <cassert>

#include "base/utf8.h"
#include "pictures/tables.h"

namespace sheaf {

namespace {

std::string_view or_nothing(std::string_view cell) {
  return cell == "-" ? std::string_view() : cell;
}

PictureWord read_row(std::string_view line) {
  const std::vector<std::string_view> cells = table_cells(line);
  assert(cells.size() == 6);
  PictureWord row;
  row.word = cells[0];
  row.kind = cells[1] == "glyph" ? PictureWord::Kind::glyph
                                 : PictureWord::Kind::drawing;
  row.source = cells[2];
  row.clear = cells[3] == "yes";
  row.may_say = or_nothing(cells[4]);
  row.note = or_nothing(cells[5]);
  return row;
}

std::vector<PictureWord> read_table() {
  const std::vector<std::string_view> lines = table_lines(pictures_table());
  std::vector<PictureWord> words;
  words.reserve(lines.size());
  // The first line names the columns.
  for (std::size_t i = 1; i < lines.size(); ++i) {
    words.push_back(read_row(lines[i]));
  }
  assert(std::is_sorted(words.begin(), words.end(),
                        [](const PictureWord& a, const PictureWord& b) {
                          return a.word < b.word;
                        }));
  return words;
}

}  // namespace

std::span<const PictureWord> picture_words() {
  static const std::vector<PictureWord> words = read_table();
  return words;
}

const PictureWord* find_picture_word(std::string_view word) {
  const std::string wanted = lower_case(word);
  const std::span<const PictureWord> words = picture_words();
  const auto found =
      std::lower_bound(words.begin(), words.end(), wanted,
                       [](const PictureWord& row, const std::string& w) {
                         return row.word < w;
                       });
  if (found == words.end() || found->word != wanted) return nullptr;
  return &*found;
}

}  // namespace sheaf
