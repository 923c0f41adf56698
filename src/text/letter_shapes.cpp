#include "text/letter_shapes.h"

#include <algorithm>
#include <array>
#include <vector>

#include "text/shaper.h"

namespace sheaf {

namespace {

struct Crossing {
  double y;
  int turn;
};

// Where a piece of outline crosses the upright line at `x`.
void cross(std::vector<Crossing>& crossings, double x, double from_x,
           double from_y, double to_x, double to_y) {
  if ((from_x <= x) == (to_x <= x)) return;
  const double share = (x - from_x) / (to_x - from_x);
  crossings.push_back(
      {from_y + share * (to_y - from_y), from_x < to_x ? 1 : -1});
}

// How many strokes an upright line at `x` goes through.
int strokes_at(const Path& path, double x) {
  constexpr int kPieces = 12;
  std::vector<Crossing> crossings;
  double x0 = 0, y0 = 0, start_x = 0, start_y = 0;
  const auto line_to = [&](double to_x, double to_y) {
    cross(crossings, x, x0, y0, to_x, to_y);
    x0 = to_x;
    y0 = to_y;
  };
  const auto number = [](Length length) {
    return static_cast<double>(length.mils());
  };
  for (const PathStep& step : path) {
    const double to_x = number(step.to.x), to_y = number(step.to.y);
    switch (step.kind) {
      case PathStep::Kind::move:
        line_to(start_x, start_y);
        x0 = start_x = to_x;
        y0 = start_y = to_y;
        break;
      case PathStep::Kind::curve: {
        const double from_x = x0, from_y = y0;
        for (int i = 1; i <= kPieces; ++i) {
          const double t = static_cast<double>(i) / kPieces, u = 1 - t;
          const auto at = [&](double a, Length b, Length c, double d) {
            return u * u * u * a + 3 * u * u * t * number(b) +
                   3 * u * t * t * number(c) + t * t * t * d;
          };
          line_to(at(from_x, step.control1.x, step.control2.x, to_x),
                  at(from_y, step.control1.y, step.control2.y, to_y));
        }
        break;
      }
      case PathStep::Kind::close:
        line_to(start_x, start_y);
        break;
      default:
        line_to(to_x, to_y);
        break;
    }
  }
  line_to(start_x, start_y);
  std::ranges::sort(crossings, {}, &Crossing::y);
  int strokes = 0, winding = 0;
  for (const Crossing& crossing : crossings) {
    if (winding == 0) ++strokes;
    winding += crossing.turn;
  }
  return strokes;
}

// The strokes of a letter from top to bottom: of three lines near its middle,
// what two have, so that a serif or a slant counts for little.
int strokes_of(const Font& face, std::string_view letter,
               std::string_view features) {
  Shaper shaper;
  const GlyphRun run{.shape = &shaper.shape(face, letter, features),
                     .size = Length::from_pt(1000)};
  const Path path = outline_of(run);
  const InkSpan ink = ink_of(run, 0, letter.size());
  std::array<int, 3> strokes{};
  for (int i = 0; i < 3; ++i) {
    strokes[static_cast<std::size_t>(i)] = strokes_at(
        path,
        static_cast<double>((ink.left + ink.width() * (9 + i) / 20).mils()) +
            0.5);
  }
  std::ranges::sort(strokes);
  return strokes[1];
}

// The bow, the top of the bowl and its foot are three strokes; a bowl has two.
// A g with a closed loop below its bowl has four, with a tail three.
bool has_shapes(const Font& face, LetterShapes shapes,
                std::string_view features) {
  const bool bow = strokes_of(face, "a", features) >= 3;
  if (shapes == LetterShapes::two_storey) return bow;
  return !bow && strokes_of(face, "g", features) <= 3;
}

}  // namespace

std::optional<std::string_view> features_for(const Font& face,
                                             LetterShapes shapes) {
  for (const std::string_view features : {"", "ss01"}) {
    if (has_shapes(face, shapes, features)) return features;
  }
  return std::nullopt;
}

}  // namespace sheaf
