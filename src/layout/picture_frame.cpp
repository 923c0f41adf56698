#include "layout/picture_frame.h"

namespace sheaf {

void draw_picture(Block& block, const Style& style, const Picture* picture,
                  const Rect& box, ElementId figure) {
  if (picture != nullptr) {
    block.marks.push_back(PictureMark{picture, box, figure});
    return;
  }
  constexpr Ink kFaint = 120;
  const Stroke dashed{style.guide_weight,
                      kFaint,
                      {Length::from_mm(1.5), Length::from_mm(1.5)},
                      false};
  block.frame(box, dashed, figure);
}

}  // namespace sheaf
