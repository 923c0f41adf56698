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
  /// The heading as it is heard, where the sheet's name alone would not tell
  /// one heading of a document from another; else empty.
  std::string heard_heading;
};

/// The room that is left for the body of a sheet with this frame.
Rect body_inside(const Style& style, Composer& composer, const FrameText& text);

/// The frame as it is heard on a sheet's first page, in this order: heading,
/// title, name, date, direction. What the frame does not have is 0.
struct FrameElements {
  ElementId heading = 0;
  ElementId title = 0;
  ElementId name = 0;
  ElementId date = 0;
  ElementId direction = 0;
};
/// Adds them to the element tree. Call it before the sheet composes, so that
/// they are read first.
FrameElements add_frame_elements(Composer& composer, const FrameText& text);

/// Draws the frame on all pages of a sheet. On all but the first it is the
/// pages' header (`kPageHeader`): it has been heard.
void draw_frame(std::vector<Page>& pages, Composer& composer,
                const FrameText& text, const FrameElements& elements);

}  // namespace sheaf
