#pragma once

#include <compare>
#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "base/geometry.h"
#include "pdf/deflate.h"
#include "pdf/objects.h"
#include "pictures/picture.h"

namespace sheaf {

/// A hollow dot, printed black or grey.
struct Ring {
  Length diameter, width;
  std::uint8_t ink = 0;
  friend auto operator<=>(const Ring&, const Ring&) = default;
};

/// The pictures of a document, and the rings, which are pictures to a PDF: a
/// circle takes more bytes than all that is around it. Each is drawn once,
/// however often it stands on a page, in the order of their first use.
class PictureSet {
 public:
  /// The number of a picture that is printed into a box of this size: /X0,
  /// /X1 ... in the resources. In shades of grey it is another picture.
  std::size_t use(const Picture& picture, const Size& box, bool grey = false);
  std::size_t use(const Ring& ring);
  /// Appends what paints the picture into the middle of a box. `box` has its
  /// lower left corner at x, y, as PDF counts.
  void append_painting(std::string& out, std::size_t number,
                       const Rect& box) const;
  /// Appends what paints a ring around a point; y upwards, as PDF counts.
  static void append_ring(std::string& out, std::size_t number, Point centre);
  /// Writes all pictures, each as fine as the largest place on paper needs;
  /// the result is by their numbers. Throws MachineError where one of them
  /// cannot be unpacked.
  std::vector<ObjectId> write(Objects& objects, Deflater& deflater) const;

 private:
  struct Shown {
    const Picture* picture = nullptr;
    bool grey = false;
    Length side;  // the longer, where it is printed largest
  };
  std::vector<std::variant<Shown, Ring>> pictures_;
  std::map<std::pair<const Picture*, bool>, std::size_t> numbers_;
  std::map<Ring, std::size_t> ring_numbers_;
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
