#include "layout/picture_frame.h"

#include <fmt/format.h>

#include "layout/strokes.h"

namespace sheaf {

ElementId add_picture(Composer& composer, ElementId parent,
                      const Picture* picture, const PictureCall& call) {
  const PictureNames names = composer.style().picture_names;
  if (names == PictureNames::left_out) return kDecoration;
  std::string text(call.frame);
  if (picture != nullptr) {
    const std::string lead =
        call.what.empty() ? "" : fmt::format("{}: ", call.what);
    if (names == PictureNames::said) {
      text = fmt::format("{}{}", lead, call.word);
    } else if (call.what.ends_with("picture")) {
      text = fmt::format("{} {}", call.what, call.number);
    } else {
      text = fmt::format("{}picture {}", lead, call.number);
    }
  }
  if (!call.state.empty()) text += fmt::format(", {}", call.state);
  return composer.add(Role::figure, parent, std::move(text));
}

void draw_picture(Block& block, const Style& style, const Picture* picture,
                  const Rect& box, ElementId figure) {
  if (picture != nullptr) {
    const bool is_drawing = std::holds_alternative<LineDrawing>(picture->image);
    block.marks.push_back(
        PictureMark{picture, box, figure, style.grey_pictures && !is_drawing});
    return;
  }
  block.frame(box, slot_stroke(style), figure);
}

}  // namespace sheaf
