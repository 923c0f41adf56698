#pragma once

#include <functional>
#include <vector>

#include "layout/page.h"
#include "preview/free_type.h"
#include "preview/shapes.h"

namespace sheaf {

/// Strokes as shapes to fill, after the rules of PDF (ISO 32000-1, 8.4.3):
/// mitred joins, round or square-cut ends, dashes from the start of every part.
class Pen {
 public:
  explicit Pen(FT_Library library);

  /// Adds what the pen covers along `path`. Before the shape grows too large to
  /// be filled at once, `fill` is called, which has to fill and to clear it.
  void draw(const CanvasPath& path, const Stroke& stroke, const Scale& scale,
            Shape& shape, const std::function<void()>& fill);

 private:
  struct Part;
  void draw_whole(const Part& part, Shape& shape);
  void draw_dashes(const Part& part, double on, double off, double radius,
                   Shape& shape);
  void draw_dash(const std::vector<Spot>& spots, double radius, Shape& shape);

  FtOwner<FT_Stroker> stroker_;
  const std::function<void()>* fill_ = nullptr;
  bool is_round_ = false;  // the ends of what is being drawn
};

}  // namespace sheaf
