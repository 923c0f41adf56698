#pragma once

#include <cstdint>
#include <vector>

#include "layout/block.h"
#include "layout/model_frame.h"
#include "layout/ruled_lines.h"
#include "sheets/long_words.h"
#include "sheets/sheet.h"

namespace sheaf::syllables_sheet {

constexpr Length kNumber = Length::from_mm(10);  ///< room for the item's number
constexpr Length kKindBox = Length::from_mm(9);  ///< its side
constexpr Length kBetweenBoxes = Length::from_mm(3);
constexpr Length kBetweenParts =
    Length::from_mm(5);  ///< holds the line between them
constexpr Length kBetweenBeats = Length::from_mm(7);  ///< holds a dot
constexpr Length kBetweenItems = Length::from_mm(5);

/// One line to write on, within an item.
struct Place {
  Length x, width;
  std::int64_t row = 0;
};

/// The letters of a word, or of one of its parts where those stand apart.
struct Piece {
  GlyphRun run;
  std::size_t begin = 0;  ///< a byte of the word
  Length x;               ///< from the word's left edge
};

/// Where all on the sheet `syllables` stands: letters of one size for all
/// words, small boxes beside them, lines below, and what each page holds.
class Plan {
 public:
  /// Both must outlive it.
  Plan(const SheetInput& in, Composer& c);

  const std::vector<const AnalyzedWord*>& words() const { return words_; }
  const Ruling& ruling() const { return ruling_; }
  const TextStyle& text() const { return text_; }
  /// Room around the first item, where that is done.
  const ModelRoom& around() const { return around_; }
  bool has_model() const { return model_; }
  /// Small boxes for the kinds of parts.
  bool has_kinds() const { return kinds_; }
  Length left() const { return left_; }
  Length right() const { return right_; }
  /// Of the letters, with what is blank down to the lines.
  Length word_height() const { return text_.line_height(); }
  Length to_lines() const { return word_height() + below_word_; }

  static Length boxes_width(const AnalyzedWord& word);
  /// A line for each beat, in rows as wide as the page, and one for the word:
  /// behind them if it fits there, else in a row of its own.
  std::vector<Place> places_of(const AnalyzedWord& word) const;
  /// `parted` where the parts of the word stand apart.
  std::vector<Piece> pieces_of(const AnalyzedWord& word, bool parted) const;
  Length item_height(std::size_t index) const;
  /// Less air where that makes fewer pages.
  void save_pages(Length key_height);
  /// Where the pages end, as indices behind their last words: as few as can be,
  /// with about as many words on each.
  std::vector<std::size_t> page_ends(Length key_height) const;

 private:
  Length word_room(const AnalyzedWord& word) const;
  Length widest(const AnalyzedWord& word) const;
  std::size_t end_of_page(std::size_t begin, std::size_t most,
                          Length key_height) const;

  const SheetInput& in_;
  Composer& c_;
  std::vector<const AnalyzedWord*> words_;
  bool kinds_;
  bool model_;
  Ruling ruling_;
  TextStyle text_;
  Length below_word_ = Length::from_mm(3);  // below the vowels' dots
  ModelRoom around_;
  Length left_, right_;
};

}  // namespace sheaf::syllables_sheet
