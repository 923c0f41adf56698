#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "layout/model_frame.h"
#include "layout/sound_boxes.h"
#include "sheets/sheet.h"

namespace sheaf::sound_boxes_sheet {

/// How the words of the sheet of sound boxes share its pages: what is printed
/// of each, how wide and tall everything is, and which word stands where.

inline constexpr Length kEar = Length::from_mm(11);
inline constexpr Length kBelowBoxes = Length::from_mm(3);  ///< to the line

/// A word with its boxes.
struct Item {
  std::size_t number = 1;
  const AnalyzedWord* word = nullptr;
  std::vector<SoundBox> boxes;
  std::vector<std::vector<SoundBox>> rows;  ///< the same, broken to the width
  BoxFill fill = BoxFill::empty;
  bool model = false;  ///< done for the learner
};

struct Plan {
  std::vector<Item> items;
  BoxMeasures measures;
  double print = 1;  ///< size of what is printed in boxes; see BoxRowOptions
  ModelRoom around;  ///< of the model; nothing where there is none
  Length prompt;     ///< left edge of numbers and pictures
  Length prompt_width;
  Length boxes;             ///< left edge of the boxes
  Length right;             ///< where all lines end
  Length tallest;           ///< of the words, without the room around the model
  Length between;           ///< from one word to the next at least
  bool even = true;         ///< all words stand in as many rows
  std::size_t on_page = 1;  ///< of even rows
  std::size_t pages = 1;
};

/// Plans all pages. The first word is done where the options ask for it and it
/// costs no page. Points into the lesson.
Plan plan_page(const SheetInput& in, Composer& c);

/// The height of a word's block without the blank behind it.
Length block_height(const SheetInput& in, const Composer& c, const Plan& plan,
                    const Item& item);
/// How far the words of a page are apart, from block to block.
Length gap_of(const SheetInput& in, const Composer& c, const Plan& plan);

/// The number stands above what tells the word, beside the boxes' dots: its
/// base line from the word's top, and where the picture or the ear begins.
Length number_base(const Style& style);
Length picture_top(const Style& style);

bool is_prompt(const SheetInput& in, std::string_view prompt);
/// The words of the sheet, and whether the learner hears one of them.
std::vector<const AnalyzedWord*> chosen(const SheetInput& in);
bool is_heard(const SheetInput& in, const AnalyzedWord& word);

}  // namespace sheaf::sound_boxes_sheet
