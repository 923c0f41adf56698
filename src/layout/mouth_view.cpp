#include "layout/mouth_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <string>

#include "pictures/drawing_notation.h"

namespace sheaf {

namespace {

using MouthLips = MouthShape::Lips;
using MouthAir = MouthShape::Air;

// What follows from lips and jaw.
struct MouthPose {
  double drop = 0;     // of the lower jaw
  double forward = 0;  // of the lips
  double gap = 0;      // between them
  double middle() const { return 50.5 + gap / 2; }
};

MouthPose mouth_pose(const MouthShape& shape) {
  constexpr std::array<double, 4> kDrop = {0, 4, 9, 14};
  const double jaw = shape.jaw;
  MouthPose pose{.drop = kDrop[static_cast<std::size_t>(shape.jaw)]};
  switch (shape.lips) {
    case MouthLips::shut:
      break;
    case MouthLips::teeth:
      // The lip comes up to the teeth, not the teeth down to it.
      pose.forward = -3;
      pose.gap = 3.5;
      pose.drop = 4;
      break;
    case MouthLips::round:
      pose.forward = 6;
      pose.gap = 2.5 + jaw * 2.2;
      break;
    case MouthLips::forward:
      pose.forward = 3;
      pose.gap = 4 + jaw;
      break;
    case MouthLips::spread:
      pose.forward = -3;
      pose.gap = 2.5 + jaw * 2;
      break;
    case MouthLips::open:
      pose.gap = 2.5 + pose.drop;
      break;
  }
  return pose;
}

// Draws lines of the house's notation into a box.
class MouthPen {
 public:
  MouthPen(Block& block, const Rect& box, ElementId element)
      : block_(block), element_(element) {
    unit_ =
        std::min(box.width.pt() / kMouthWidth, box.height.pt() / kMouthHeight);
    at_ = {
        box.x + box.width / 2 - Length::from_pt((kMouthWidth / 2 - 14) * unit_),
        box.y + box.height / 2 - Length::from_pt(kMouthHeight / 2 * unit_)};
  }

  Length units(double count) const { return Length::from_pt(count * unit_); }

  void line(const std::string& shapes, const Stroke& stroke,
            bool white = false) {
    std::string why;
    auto part = read_drawn_part("line " + shapes, Length::from_pt(1), why);
    assert(part && "our own drawing follows the notation");
    for (PathStep& step : part->path) {
      step.to = placed(step.to);
      step.control1 = placed(step.control1);
      step.control2 = placed(step.control2);
    }
    block_.marks.push_back(PathMark{.path = std::move(part->path),
                                    .filled = white,
                                    .fill = kWhite,
                                    .stroke = stroke,
                                    .element = element_});
  }

 private:
  Point placed(Point p) const {
    return at_ + Point{scaled(p.x, unit_), scaled(p.y, unit_)};
  }

  Block& block_;
  ElementId element_;
  double unit_ = 1;
  Point at_;
};

// The nose, the roof of the mouth with its soft end, the back of the throat.
void draw_head(MouthPen& pen, const MouthShape& shape, const Stroke& stroke) {
  pen.line(
      "M 32 3 C 30 11 28 15 25 19 C 21 25 13 29 12 33 C 11.3 36 12.5 38 15 "
      "38.3",
      stroke);
  pen.line("M 18.5 36.5 C 23 27 34 20 46 18 C 64 15 84 18 85 30 L 85 85",
           stroke);
  const bool open = shape.air == MouthAir::nose;
  const std::string soft =
      open ? "C 66 26 74 31 76 45 C 76 49 72 49 71 45 C 69 36 64 31 58 31"
           : "C 66 26 74 27 82 31 C 86 33 85 38 81 37 C 74 34 66 31 58 31";
  pen.line("M 20 38.5 C 31 37 46 27 58 26 " + soft +
               " C 50 31 43 33 38 39 C 36 42 33 44 30.5 44",
           stroke);
  pen.line("M 26 43 L 30.5 43 L 29 53.5 L 26.5 53.5 Z", stroke, true);
}

void draw_jaw(MouthPen& pen, const MouthShape& shape, const MouthPose& pose,
              const Stroke& stroke) {
  const double p = pose.forward, d = pose.drop;
  pen.line(fmt::format("M 20 38.5 C 20.5 41 20 42 {} 44 C {} 46 {} 50 {} 50.3 "
                       "C 22 50.5 25 49 26 44",
                       18 - p * 0.6, 14 - p, 14 - p, 18 - p),
           stroke);
  const double top = 50.7 + pose.gap;
  const double tooth = 55 + d;
  pen.line(fmt::format("M 27 {0} L 29.5 {0} L 30.5 {1} L 26.5 {1} Z", tooth,
                       tooth + 9),
           stroke, true);
  // The floor of the mouth, from the gum to below the tongue.
  pen.line(fmt::format("M 30.5 {} C 33 {} 36 {} 41 {}", tooth + 9, 72 + d,
                       76 + d, 77 + d),
           stroke);
  // Held against the top teeth, the lip lies over the bottom ones.
  const bool tucked = shape.lips == MouthLips::teeth;
  const std::string inner =
      tucked ? std::string("M 25.5 62 C 28.5 58 29 54.5 26 54")
             : fmt::format("M 25.5 {} C 25 {} 24 {} {} {}", top + 5, top + 2,
                           top, 18 - p, top);
  const std::string front =
      tucked ? std::string("C 21 53.5 15.5 56 17.5 63")
             : fmt::format("C {0} {1} {0} {2} {3} {4}", 13.5 - p, top,
                           top + 6.5, 18 - p * 0.4, top + 9);
  pen.line(fmt::format("{} {} C 19 {} 16 {} 17 {} C 18 {} 24 {} 32 {} C 44 {} "
                       "60 90 60 100",
                       inner, front, top + 12, 68 + d * 0.9, 73 + d * 0.9,
                       80 + d * 0.8, 84 + d * 0.8, 84 + d * 0.8, 86 + d * 0.5),
           stroke);
}

// From the floor of the mouth under the tongue, round its tip and over its back
// down to its root.
std::string tongue_way(const MouthTongue& t, double drop) {
  const double x = t.tip.x, y = t.tip.y;
  return fmt::format(
      "M 41 {} S {} {} {} {} {} {} {} {} {} {} {} {} {} {} 76.5 76 75 85",
      77 + drop, std::max(x + 8, 33.5), y + 6.5, x + 1.5, y + 3.2, x + 0.6,
      y + 0.4, t.blade.x, t.blade.y, t.body.x, t.body.y, t.back.x, t.back.y,
      t.back.x + (76 - t.back.x) * 0.7, t.back.y + 10);
}

void draw_tongue(MouthPen& pen, const MouthShape& shape, const MouthPose& pose,
                 Length thick, Length thin) {
  if (shape.end) {
    pen.line(tongue_way(*shape.end, pose.drop * 0.6),
             {.width = thin, .dash = {pen.units(2.5), pen.units(3)}});
  }
  pen.line(tongue_way(shape.tongue, pose.drop),
           {.width = thick, .round_ends = true});
}

// An arrow out of the mouth at this height, from x on; wavy where the air
// squeezes.
std::string air_arrow(double x, double y, double to, bool wavy, double rise) {
  std::string way = fmt::format("M {} {} ", x, y);
  const double end = y + rise;
  if (wavy) {
    const double step = (x - to - 4) / 4;
    for (int i = 0; i < 4; ++i) {
      const double side = i % 2 == 0 ? -3.2 : 3.2;
      way += fmt::format("Q {} {} {} {} ", x - (i + 0.5) * step, y + side,
                         x - (i + 1) * step, y);
    }
  }
  way += fmt::format("L {} {} ", to, end);
  return way + fmt::format("M {} {} L {} {} L {} {}", to + 3.5,
                           end - 3 - rise / 4, to, end, to + 3.5,
                           end + 3 - rise / 4);
}

void draw_air(MouthPen& pen, const MouthShape& shape, const MouthPose& pose,
              const Stroke& stroke) {
  const double y = pose.middle();
  const double x = 11 - pose.forward;
  const double to = -12;
  switch (shape.air) {
    case MouthAir::nose:
      pen.line(air_arrow(13, 42, -6, false, 5), stroke);
      break;
    case MouthAir::stop:
    case MouthAir::rush:
      pen.line(fmt::format("M {} {} L {} {}", x - 1, y - 6, x - 1, y + 6),
               {.width = stroke.width * 2});
      pen.line(air_arrow(x - 5, y, to, shape.air == MouthAir::rush, 0), stroke);
      break;
    case MouthAir::sides:
      pen.line(air_arrow(x, y - 2, to + 3, false, -4), stroke);
      pen.line(air_arrow(x, y + 2, to + 3, false, 4), stroke);
      break;
    case MouthAir::rub:
    case MouthAir::free:
      pen.line(air_arrow(x, y, to, shape.air == MouthAir::rub, 0), stroke);
      break;
  }
}

void draw_voice(MouthPen& pen, bool voice, const Stroke& stroke) {
  pen.line("circle 79.5 91 7.5", stroke);
  pen.line(voice ? "M 74 91 Q 75.8 84.5 77.7 91 Q 79.5 97.5 81.3 91 Q 83.2 "
                   "84.5 85 91"
                 : "M 75 91 L 84 91",
           stroke);
}

}  // namespace

void draw_mouth(Block& block, const Style& style, const MouthShape& shape,
                const Rect& box, ElementId element) {
  MouthPen pen(block, box, element);
  const MouthPose pose = mouth_pose(shape);
  const Length width = std::max(style.box_weight, pen.units(0.8));
  const Stroke stroke{.width = width, .round_ends = true};
  draw_head(pen, shape, stroke);
  draw_tongue(pen, shape, pose, width * 2, width);
  draw_jaw(pen, shape, pose, stroke);
  draw_air(pen, shape, pose, {.width = scaled(width, 1.4), .round_ends = true});
  draw_voice(pen, shape.voice, stroke);
}

}  // namespace sheaf
