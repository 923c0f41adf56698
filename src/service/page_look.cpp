// A number for how a page looks: pages with the same marks have the same, so
// that whoever shows them draws only those that changed.

#include "base/shuffle.h"
#include "service/state.h"

namespace sheaf {

namespace {

class Look {
 public:
  void add(std::uint64_t number) {
    std::string_view bytes(reinterpret_cast<const char*>(&number),
                           sizeof number);
    hash_ = text_hash(bytes, hash_);
  }
  void add(Length length) { add(static_cast<std::uint64_t>(length.mils())); }
  void add(const Point& at) {
    add(at.x);
    add(at.y);
  }
  void add(const Rect& rect) {
    add(rect.x);
    add(rect.y);
    add(rect.width);
    add(rect.height);
  }
  void add(const Stroke& stroke) {
    add(stroke.width);
    add(std::uint64_t{stroke.ink});
    add(stroke.dash.on);
    add(stroke.dash.off);
    add(std::uint64_t{stroke.round_ends});
  }
  // Shapes and pictures are kept as long as the service lives.
  void add(const void* kept) {
    add(static_cast<std::uint64_t>(reinterpret_cast<std::uintptr_t>(kept)));
  }

  void add(const GlyphMark& mark) {
    add(mark.run.shape);
    add(mark.run.size);
    add(mark.run.tracking);
    add(mark.run.word_gap);
    add(mark.at);
    add(std::uint64_t{mark.ink});
  }
  void add(const LineMark& mark) {
    add(mark.from);
    add(mark.to);
    add(mark.stroke);
  }
  void add(const RectMark& mark) {
    add(mark.rect);
    add(std::uint64_t{mark.filled} << 1U | std::uint64_t{mark.stroked});
    add(std::uint64_t{mark.fill});
    add(mark.stroke);
  }
  void add(const DotMark& mark) {
    add(mark.centre);
    add(mark.diameter);
    add(std::uint64_t{mark.hollow});
    add(mark.ring);
    add(std::uint64_t{mark.ink});
  }
  void add(const PathMark& mark) {
    for (const PathStep& step : mark.path) {
      add(static_cast<std::uint64_t>(step.kind));
      add(step.to);
      add(step.control1);
      add(step.control2);
    }
    add(mark.at);
    add(std::uint64_t{mark.filled} << 1U | std::uint64_t{mark.stroked});
    add(std::uint64_t{mark.fill});
    add(mark.stroke);
  }
  void add(const PictureMark& mark) {
    add(static_cast<const void*>(mark.picture));
    add(mark.box);
    add(std::uint64_t{mark.grey});
  }

  std::uint64_t number() const { return hash_; }

 private:
  std::uint64_t hash_ = text_hash("page");
};

}  // namespace

std::uint64_t look_of(const Page& page) {
  Look look;
  look.add(page.size.width);
  look.add(page.size.height);
  for (const Mark& mark : page.marks) {
    look.add(std::uint64_t{mark.index()});
    std::visit([&](const auto& one) { look.add(one); }, mark);
  }
  return look.number();
}

}  // namespace sheaf
