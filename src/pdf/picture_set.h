#pragma once

#include <string>
#include <unordered_map>
#include <vector>

#include "base/geometry.h"
#include "pdf/deflate.h"
#include "pdf/objects.h"
#include "pictures/picture.h"

namespace sheaf {

/// The pictures of a document, each drawn once however often it stands on a
/// page, in the order of their first use.
class PictureSet {
 public:
  /// The picture's number: /X0, /X1 ... in the resources.
  std::size_t use(const Picture& picture);
  /// Appends what paints the picture into the middle of a box. `box` has its
  /// lower left corner at x, y, as PDF counts.
  void append_painting(std::string& out, std::size_t index,
                       const Rect& box) const;
  /// Writes all pictures; the result is by their numbers.
  std::vector<ObjectId> write(Objects& objects, Deflater& deflater) const;

 private:
  std::vector<const Picture*> pictures_;
  std::unordered_map<const Picture*, std::size_t> numbers_;
};

/// Steps of a path as operators, each point as `append_point` writes it.
template <typename AppendPoint>
void append_path(std::string& out, const Path& path, AppendPoint append_point) {
  for (const PathStep& step : path) {
    switch (step.kind) {
      case PathStep::Kind::move:
        append_point(step.to);
        out += "m\n";
        break;
      case PathStep::Kind::line:
        append_point(step.to);
        out += "l\n";
        break;
      case PathStep::Kind::curve:
        append_point(step.control1);
        append_point(step.control2);
        append_point(step.to);
        out += "c\n";
        break;
      case PathStep::Kind::close:
        out += "h\n";
        break;
    }
  }
}

}  // namespace sheaf
