#pragma once

#include <string>

#include "layout/action_icon.h"
#include "layout/block.h"

namespace sheaf {

/// What stands on every page of a sheet around its body, always in the same
/// place: a line for name and date, the sheet's name, the neutral title of the
/// lesson, a direction to the learner, and a footer for filing.
struct FrameText {
  std::string title;      ///< the lesson's, may be empty
  std::string sheet;      ///< the sheet's name
  std::string direction;  ///< one short sentence, may be empty
  Action action = Action::none;
  std::string day;   ///< "Day 2", may be empty
  std::string code;  ///< made from the lesson's content
  /// A learner's short code, printed where the name goes; may be empty.
  std::string learner;
  bool for_teacher = false;
};

/// The room that is left for the body of a sheet with this frame.
Rect body_inside(const Style& style, Composer& composer, const FrameText& text);

/// Adds the heading and the direction to the element tree. Call it before the
/// sheet composes, so that they are read first.
struct FrameElements {
  ElementId heading = 0;
  ElementId direction = 0;
  ElementId name_line = 0;
};
FrameElements add_frame_elements(Composer& composer, const FrameText& text);

/// Draws the frame on all pages of a sheet; on all but the first it is
/// decoration.
void draw_frame(std::vector<Page>& pages, Composer& composer,
                const FrameText& text, const FrameElements& elements);

}  // namespace sheaf
