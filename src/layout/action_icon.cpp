#include "layout/action_icon.h"

#include <cassert>
#include <span>
#include <string>

#include "pictures/drawing_notation.h"

namespace sheaf {

namespace {

using Lines = std::span<const std::string_view>;

// In the notation of the line drawings: a box of 100 by 100.
constexpr std::string_view kLook[] = {
    "line M 5 50 Q 50 10 95 50 Q 50 90 5 50 Z", "line circle 50 50 17",
    "fill circle 50 50 7"};
constexpr std::string_view kListen[] = {
    "line M 27 60 C 14 38 26 10 54 10 C 82 10 88 40 74 56 C 66 65 62 70 60 80 "
    "C 56 96 38 92 37 78",
    "line M 40 46 C 38 26 66 24 66 42 C 66 54 51 54 52 66"};
constexpr std::string_view kSay[] = {
    "line M 24 12 L 76 12 Q 92 12 92 28 L 92 50 Q 92 66 76 66 L 48 66 L 26 90 "
    "L 30 66 L 24 66 Q 8 66 8 50 L 8 28 Q 8 12 24 12 Z",
    "fill circle 32 39 5 circle 50 39 5 circle 68 39 5"};
constexpr std::string_view kTap[] = {
    "fill circle 15 72 8 circle 50 72 8 circle 85 72 8",
    "line M 15 50 Q 32 10 50 50 Q 68 10 85 50", "line M 76 40 L 85 50 L 90 37"};
constexpr std::string_view kWrite[] = {
    "line M 12 88 L 22 58 L 68 12 L 88 32 L 42 78 Z",
    "line M 22 58 L 42 78 M 58 22 L 78 42"};
constexpr std::string_view kRead[] = {
    "line M 50 28 Q 30 14 6 20 L 6 80 Q 30 74 50 88 Q 70 74 94 80 L 94 20 "
    "Q 70 14 50 28 Z",
    "line M 50 28 L 50 88",
    "line M 17 36 L 38 42 M 17 52 L 38 58 M 62 42 L 83 36 M 62 58 L 83 52"};
constexpr std::string_view kCut[] = {"line M 22 10 L 66 64 M 78 10 L 34 64",
                                     "line circle 26 76 14 circle 74 76 14"};

Lines lines_of(Action action) {
  switch (action) {
    case Action::look:
      return kLook;
    case Action::listen:
      return kListen;
    case Action::say:
      return kSay;
    case Action::tap:
      return kTap;
    case Action::write:
      return kWrite;
    case Action::read:
      return kRead;
    case Action::cut:
      return kCut;
    case Action::none:
      break;
  }
  return {};
}

Path scaled_path(const Path& path, double ratio) {
  const auto fit = [ratio](Point p) {
    return Point{scaled(p.x, ratio), scaled(p.y, ratio)};
  };
  Path result = path;
  for (PathStep& step : result) {
    step.to = fit(step.to);
    step.control1 = fit(step.control1);
    step.control2 = fit(step.control2);
  }
  return result;
}

}  // namespace

void draw_action(Block& block, Action action, Point at, Length side,
                 ElementId element) {
  // The drawings' box is 100 pt wide.
  const double ratio = side.pt() / 100;
  const Length pen = Length::from_pt(7);
  for (const std::string_view line : lines_of(action)) {
    std::string why;
    const auto part = read_drawn_part(line, pen, why);
    assert(part && "our own drawings follow the notation");
    const bool filled = part->pen == Length();
    const Stroke stroke{.width = scaled(part->pen, ratio), .round_ends = true};
    block.marks.push_back(PathMark{.path = scaled_path(part->path, ratio),
                                   .at = at,
                                   .filled = filled,
                                   .stroked = !filled,
                                   .stroke = stroke,
                                   .element = element});
  }
}

void draw_ear(Composer& composer, Block& block, Point at, Length side,
              ElementId parent) {
  draw_action(
      block, Action::listen, at, side,
      composer.add(Role::figure, parent, "an ear: listen for the word"));
}

}  // namespace sheaf
