#pragma once

#include <algorithm>

#include "base/geometry.h"
#include "base/options.h"
#include "text/font_library.h"
#include "text/shaper.h"

namespace sheaf {

/// The page settings that a layout file may give, with their defaults: paper,
/// margins, typefaces, sizes, ruling. Where a number follows published advice,
/// its help says so.
OptionTable page_options();

/// How one kind of text is set.
struct TextStyle {
  const Font* font = nullptr;
  Length size;
  /// From baseline to baseline, as a ratio of the size.
  double leading = 1.5;
  Length tracking;
  Length word_gap;
  /// In HarfBuzz's notation, for letter shapes such as a two-storey a.
  std::string features;
  std::uint8_t ink = 0;

  Length line_height() const { return scaled(size, leading); }
};

enum class LineStyle { four_line, two_line, base_only };

/// What is said of a picture to a reader who cannot see it: its word, only a
/// number (a test would give the word away), or nothing (a copy in braille,
/// where the word would stand spelled).
enum class PictureNames { said, numbered, left_out };

/// The ruling for handwriting: x-height is the height of small letters, from
/// the base line to the dashed middle line.
struct Ruling {
  Length x_height;
  LineStyle style = LineStyle::four_line;
  /// Between the descender line of one set and the top line of the next.
  Length gap;
};

/// The settings of a packet, ready for use. Fonts belong to the library.
struct Style {
  Size paper;
  Size teacher_paper;  ///< upright, and never a screen
  Length margin;
  const Font* regular = nullptr;
  const Font* bold = nullptr;
  std::string features;
  /// Whether the typeface has the form of a and g that was asked for.
  bool has_letter_shapes = true;
  Length tracking;
  Length word_gap;

  Length heading_size;   ///< the sheet's name
  Length text_size;      ///< directions and other text for learners
  Length reading_size;   ///< sentences to read
  Length word_size;      ///< lists of words
  Length blending_size;  ///< words to blend
  Length teacher_size;   ///< text on teacher's pages
  Length footer_size;
  /// Nothing that a learner reads is smaller, but for footers and the codes of
  /// cards.
  Length least_size;
  double leading = 1.5;

  Ruling ruling;
  Length guide_weight;        ///< thin rules that guide
  Length box_weight;          ///< boxes and lines to write on
  bool on_paper = true;       ///< else for a screen, which has no back
  bool fills_tints = true;    ///< else light grounds are outlined
  bool has_name_line = true;  ///< on learners' pages
  bool plain_voice = false;   ///< directions as to older learners
  PictureNames picture_names = PictureNames::said;
  bool grey_pictures = false;  ///< a teacher's own in shades of grey
  Length mark_spacing;  ///< least distance of touch marks, centre to centre

  /// The part of the page inside the margins.
  Rect body() const {
    return {margin, margin, paper.width - 2 * margin,
            paper.height - 2 * margin};
  }
  Size body_size() const { return {body().width, body().height}; }
  /// A size that was worked out, or the least that a learner reads.
  Length at_least(Length size) const { return std::max(size, least_size); }
  TextStyle text(Length size, bool is_bold = false) const;
  TextStyle learner_text() const { return text(text_size); }
  TextStyle teacher_text(bool is_bold = false) const;
};

/// Resolves the settings against the typefaces at hand. Reports a typeface
/// that is not there and sizes that leave no room on the page. Throws
/// MachineError where it is the one that Sheaf comes with.
Style make_style(const OptionValues& settings, FontLibrary& fonts,
                 Diagnostics& diagnostics);

}  // namespace sheaf
