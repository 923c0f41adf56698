#include "layout/picture_frame.h"

namespace sheaf {

void draw_picture(Block& block, const Style& style, const Picture* picture,
                  const Rect& box, ElementId figure) {
  if (picture != nullptr) {
    block.marks.push_back(PictureMark{picture, box, figure});
    return;
  }
  constexpr Ink kFaint = 120;
  const Stroke dashed{.width = style.guide_weight,
                      .ink = kFaint,
                      .dash = {Length::from_mm(1.5), Length::from_mm(1.5)}};
  block.frame(box, dashed, figure);
}

}  // namespace sheaf
