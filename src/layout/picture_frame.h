#pragma once

#include <string_view>

#include "layout/block.h"

namespace sheaf {

/// How a picture is called in words, for a reader who hears the page.
struct PictureCall {
  /// What it shows: the word as the lesson would print it.
  std::string_view word;
  /// Counted from 1 among its like on the sheet: the number that is printed
  /// beside it where there is one.
  std::size_t number = 1;
  /// What it is for, where it is more than a picture: "laid already". A screen
  /// reader says by itself that there is one.
  std::string_view what = {};
  /// How it differs from its like: "crossed out".
  std::string_view state = {};
  /// Said where there is no picture, but a frame to draw in.
  std::string_view frame = "an empty frame to draw the word in";
};

/// Adds the figure of a picture: "ship", "laid already: ship", or "picture 3",
/// "laid already: picture 3" where the style has pictures numbered. Where it
/// leaves them out, there is no element, and what is drawn with the result is
/// decoration. `picture` may be null.
ElementId add_picture(Composer& composer, ElementId parent,
                      const Picture* picture, const PictureCall& call);

/// Draws a picture into a square of `box`, or, where there is none, a light
/// frame for the learner to draw in. `figure` comes from `add_picture`.
void draw_picture(Block& block, const Style& style, const Picture* picture,
                  const Rect& box, ElementId figure);

}  // namespace sheaf
