#include "layout/letter_model.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

#include "layout/letter_places.h"
#include "layout/text_block.h"

namespace sheaf {

namespace {

constexpr double kLetterGap = 40;    // units from one letter's ink to the next
constexpr double kLetterBlank = 90;  // for a blank
constexpr double kBaseUnits = 200;

struct LetterScale {
  double unit = 0;  // points a unit
  Point at;
  double x = 0;  // of the letter

  Point operator()(StrokePoint p) const {
    return at + Point{Length::from_pt((p.x + x) * unit),
                      Length::from_pt((p.y - kBaseUnits) * unit)};
  }
  Point operator()(Point p) const {
    return (*this)(StrokePoint{p.x.pt(), p.y.pt()});
  }
  Path operator()(const Path& path) const {
    Path result = path;
    for (PathStep& step : result) {
      step.to = (*this)(step.to);
      step.control1 = (*this)(step.control1);
      step.control2 = (*this)(step.control2);
    }
    return result;
  }
};

LetterScale letter_scale(Length x_height, Point at) {
  return {x_height.pt() / kStrokeXHeight, at};
}

// The ways of the pen, without those over what is there, as one path.
Path written_path(const LetterShape& shape, const LetterScale& scale) {
  Path path;
  for (const LetterStroke& stroke : shape.strokes) {
    for (const StrokeLeg& leg : stroke.legs) {
      if (leg.back) continue;
      // Step by step: so corners are as round as ends, and reach no further.
      Point at;
      for (const PathStep& step : scale(leg.path)) {
        if (step.kind != PathStep::Kind::move) {
          path.push_back({PathStep::Kind::move, at, {}, {}});
          path.push_back(step);
        }
        at = step.to;
      }
    }
  }
  return path;
}

// Dots that would be nearer than this to those of an earlier part are left out:
// they would run into one on a copy.
constexpr double kLeastOfPitch = 0.7;

void draw_pen_dot(Block& block, Point centre, Length diameter,
                  ElementId element) {
  block.dot(centre, diameter, element);
}

}  // namespace

std::vector<PlacedLetter> placed_letters(std::string_view text) {
  std::vector<PlacedLetter> letters;
  double x = 0;
  for (const char c : text) {
    if (c == ' ') {
      x += kLetterBlank - kLetterGap;
      continue;
    }
    const LetterShape* shape = find_letter_shape(c);
    assert(shape != nullptr);
    letters.push_back({shape, x});
    x += shape->width + kLetterGap;
  }
  return letters;
}

Length strokes_width(std::string_view text, Length x_height) {
  const auto letters = placed_letters(text);
  if (letters.empty()) return {};
  const double units = letters.back().x + letters.back().shape->width;
  return scaled(x_height, units / kStrokeXHeight);
}

namespace {

double way_between(StrokePoint a, StrokePoint b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

// A way in pieces without corners, so that each corner has its dot.
std::vector<std::vector<StrokePoint>> pieces_of(
    const std::vector<StrokePoint>& way) {
  constexpr double kTurn = 0.94;  // the cosine of 20 degrees
  std::vector<std::vector<StrokePoint>> pieces(1);
  for (std::size_t i = 0; i < way.size(); ++i) {
    pieces.back().push_back(way[i]);
    if (i == 0 || i + 1 == way.size()) continue;
    const StrokePoint a = way[i - 1], b = way[i], c = way[i + 1];
    const double lengths = way_between(a, b) * way_between(b, c);
    const double along = (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y);
    if (lengths > 0 && along < kTurn * lengths) pieces.push_back({b});
  }
  return pieces;
}

void add_dots(const std::vector<StrokePoint>& way, double pitch,
              std::vector<StrokePoint>& dots) {
  // All but the one just before it on the same piece.
  std::size_t others = dots.size();
  const auto is_free = [&](StrokePoint p) {
    return std::none_of(dots.begin(),
                        dots.begin() + static_cast<std::ptrdiff_t>(others),
                        [&](StrokePoint d) {
                          return way_between(d, p) < kLeastOfPitch * pitch;
                        });
  };
  double length = 0;
  for (std::size_t i = 1; i < way.size(); ++i) {
    length += way_between(way[i - 1], way[i]);
  }
  const double step = length / std::max(1.0, std::round(length / pitch));
  double gone = 0, next = 0;
  for (std::size_t i = 0; i < way.size(); ++i) {
    if (i > 0) gone += way_between(way[i - 1], way[i]);
    if (gone < next - 0.13 && i + 1 < way.size()) continue;
    next += step;
    const bool again = !dots.empty() &&
                       way_between(dots.back(), way[i]) < kLeastOfPitch * pitch;
    if (again || !is_free(way[i])) continue;
    dots.push_back(way[i]);
    others = dots.size() - 1;
  }
}

}  // namespace

std::vector<StrokePoint> stroke_dots(const LetterShape& shape, double pitch) {
  constexpr double kFine = 0.25;
  std::vector<StrokePoint> dots;
  for (const LetterStroke& stroke : shape.strokes) {
    for (const StrokeLeg& leg : stroke.legs) {
      if (leg.back) continue;
      for (const auto& piece : pieces_of(points_along(leg.path, kFine))) {
        add_dots(piece, pitch, dots);
      }
    }
  }
  return dots;
}

void draw_dotted_strokes(Block& block, std::string_view text, Length x_height,
                         Point at, Length dot, Length pitch,
                         ElementId element) {
  LetterScale scale = letter_scale(x_height, at);
  for (const PlacedLetter& letter : placed_letters(text)) {
    scale.x = letter.x;
    for (const StrokePoint p :
         stroke_dots(*letter.shape, pitch.pt() / scale.unit)) {
      draw_pen_dot(block, scale(p), dot, element);
    }
    for (const LetterStroke& stroke : letter.shape->strokes) {
      if (stroke.dot) {
        draw_pen_dot(block, scale(stroke.start), scaled(dot, 1.6), element);
      }
    }
  }
}

void draw_start_dots(Block& block, std::string_view text, Length x_height,
                     Point at, Length dot, ElementId element) {
  LetterScale scale = letter_scale(x_height, at);
  for (const PlacedLetter& letter : placed_letters(text)) {
    scale.x = letter.x;
    for (const LetterStroke& stroke : letter.shape->strokes) {
      draw_pen_dot(block, scale(stroke.start), dot, element);
    }
  }
}

void draw_pen_strokes(Block& block, std::string_view text, Length x_height,
                      Point at, Length pen, ElementId element) {
  LetterScale scale = letter_scale(x_height, at);
  for (const PlacedLetter& letter : placed_letters(text)) {
    scale.x = letter.x;
    block.marks.push_back(PathMark{.path = written_path(*letter.shape, scale),
                                   .stroke = {.width = pen, .round_ends = true},
                                   .element = element});
    for (const LetterStroke& stroke : letter.shape->strokes) {
      if (stroke.dot) {
        draw_pen_dot(block, scale(stroke.start), scaled(pen, 1.7), element);
      }
    }
  }
}

Length LetterModel::left() const {
  return scaled(x_height, -signs.left / kStrokeXHeight);
}

Length LetterModel::width() const {
  return scaled(x_height, (signs.right - signs.left) / kStrokeXHeight);
}

LetterModel plan_letter_model(Composer& composer, std::string_view text,
                              Length x_height) {
  LetterModel model{.text = std::string(text), .x_height = x_height};
  const Style& style = composer.style();
  model.number = style.text(
      style.at_least(std::max(scaled(x_height, 0.26), Length::from_pt(10))),
      true);
  // A figure is about two thirds of its size tall.
  const Length wide = width_of(composer.shape(model.number, "2"));
  const double unit = x_height.pt() / kStrokeXHeight;
  model.signs =
      model_signs(text, wide.pt() / unit, model.number.size.pt() * 0.72 / unit);
  // In oi a 1 and a 2 at the i would say that the pencil begins there.
  if (placed_letters(text).size() > 1) {
    for (ModelSigns::Start& start : model.signs.starts) start.number = 0;
  }
  return model;
}

namespace {

// A line with an open head.
void draw_stroke_arrow(Block& block, const ModelSigns::Arrow& arrow,
                       const LetterScale& scale, Length width,
                       ElementId element) {
  Path path;
  for (const StrokePoint p : arrow.way) {
    path.push_back({path.empty() ? PathStep::Kind::move : PathStep::Kind::line,
                    scale(p),
                    {},
                    {}});
  }
  constexpr double kHead = 9;
  const StrokePoint end = arrow.way.back();
  const StrokePoint before = arrow.way[arrow.way.size() - 2];
  const double length = std::hypot(end.x - before.x, end.y - before.y);
  const double dx = (end.x - before.x) / length;
  const double dy = (end.y - before.y) / length;
  const auto wing = [&](double side) {
    return StrokePoint{end.x - kHead * dx - side * kHead * 0.62 * dy,
                       end.y - kHead * dy + side * kHead * 0.62 * dx};
  };
  path.push_back({PathStep::Kind::move, scale(wing(1)), {}, {}});
  path.push_back({PathStep::Kind::line, scale(end), {}, {}});
  path.push_back({PathStep::Kind::line, scale(wing(-1)), {}, {}});
  block.marks.push_back(PathMark{.path = std::move(path),
                                 .stroke = {.width = width, .round_ends = true},
                                 .element = element});
}

}  // namespace

void draw_letter_model(Composer& composer, Block& block,
                       const LetterModel& model, Point at, ElementId element) {
  const LetterScale scale = letter_scale(model.x_height, at);
  const auto units = [&](double count) {
    return Length::from_pt(count * scale.unit);
  };
  draw_pen_strokes(block, model.text, model.x_height, at, units(kModelPen),
                   element);
  const Length thin = std::max(composer.style().box_weight, units(2.6));
  for (const auto& arrow : model.signs.arrows) {
    draw_stroke_arrow(block, arrow, scale, thin, element);
  }
  for (const auto& start : model.signs.starts) {
    draw_pen_dot(block, scale(start.at), units(kModelStart), element);
    if (start.number == 0) continue;
    Point middle = scale(start.number_at);
    middle.y += scaled(model.number.size, 0.36);
    draw_centred(composer, block, model.number, fmt::format("{}", start.number),
                 middle, element);
  }
}

std::string strokes_in_words(char letter) {
  const LetterShape* shape = find_letter_shape(letter);
  assert(shape != nullptr);
  if (shape->strokes.size() == 1) return std::string(shape->strokes[0].say);
  std::string words;
  int number = 0;
  for (const LetterStroke& stroke : shape->strokes) {
    words += fmt::format("{}{}, {}", words.empty() ? "" : "; ", ++number,
                         stroke.say);
  }
  return words;
}

}  // namespace sheaf
