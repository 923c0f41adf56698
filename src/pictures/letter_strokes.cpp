#include "pictures/letter_strokes.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <charconv>
#include <cmath>
#include <optional>
#include <string>

#include "pictures/drawing_notation.h"
#include "pictures/tables.h"

namespace sheaf {

namespace {

StrokePoint stroke_point(Point p) { return {p.x.pt(), p.y.pt()}; }

double distance(StrokePoint a, StrokePoint b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

StrokePoint on_curve(const std::array<StrokePoint, 4>& p, double t) {
  const double u = 1 - t;
  const double a = u * u * u, b = 3 * u * u * t, c = 3 * u * t * t;
  const double d = t * t * t;
  return {a * p[0].x + b * p[1].x + c * p[2].x + d * p[3].x,
          a * p[0].y + b * p[1].y + c * p[2].y + d * p[3].y};
}

// Visits points near enough to each other that what lies between is straight.
template <typename Visit>
void walk(const Path& path, double step, const Visit& visit) {
  StrokePoint at;
  for (const PathStep& s : path) {
    const StrokePoint to = stroke_point(s.to);
    if (s.kind == PathStep::Kind::move) {
      visit(to);
    } else if (s.kind == PathStep::Kind::line) {
      const int parts = std::max(1, static_cast<int>(distance(at, to) / step));
      for (int i = 1; i <= parts; ++i) {
        visit({at.x + (to.x - at.x) * i / parts,
               at.y + (to.y - at.y) * i / parts});
      }
    } else if (s.kind == PathStep::Kind::curve) {
      const std::array<StrokePoint, 4> p = {at, stroke_point(s.control1),
                                            stroke_point(s.control2), to};
      const double around =
          distance(p[0], p[1]) + distance(p[1], p[2]) + distance(p[2], p[3]);
      const int parts = std::max(1, static_cast<int>(around / step));
      for (int i = 1; i <= parts; ++i) {
        visit(on_curve(p, static_cast<double>(i) / parts));
      }
    }
    at = to;
  }
}

std::optional<LetterFamily> family_of(std::string_view name) {
  constexpr std::array<std::string_view, 5> kNames = {"down", "hump", "bump",
                                                      "round", "slant"};
  const auto found = std::ranges::find(kNames, name);
  if (found == kNames.end()) return std::nullopt;
  return static_cast<LetterFamily>(found - kNames.begin());
}

// Takes the lines of the file one after the other.
class ShapeReader {
 public:
  std::string read(std::string_view line) {
    const std::size_t blank = std::min(line.find(' '), line.size());
    const std::string_view kind = line.substr(0, blank);
    const std::string_view rest = line.substr(std::min(blank + 1, line.size()));
    if (kind == "letter") return begin(rest);
    if (shapes_.empty()) return "no letter has begun";
    LetterShape& shape = shapes_.back();
    if (kind == "near" && rest.empty()) {
      shape.near_typeface = true;
      return {};
    }
    if (kind == "pen") return pen(std::string(rest));
    if (kind == "dot") return dot(rest);
    if (shape.strokes.empty()) return "no stroke has begun";
    if (kind == "say" && !rest.empty()) {
      shape.strokes.back().say = rest;
      return {};
    }
    if (kind == "on" || kind == "back") {
      const std::string from = fmt::format("M {} {} ", at_.x, at_.y);
      return add_leg(from + std::string(rest), kind == "back");
    }
    return fmt::format("`{}` is not known", kind);
  }
  /// What the last letter still lacks; to be asked at the end.
  std::string lacking() const {
    if (shapes_.empty() || !shapes_.back().strokes.empty()) return {};
    return "a letter without a stroke";
  }
  std::vector<LetterShape> take() { return std::move(shapes_); }

 private:
  std::string begin(std::string_view rest) {
    if (std::string why = lacking(); !why.empty()) return why;
    const auto is_letter = [](char c) {
      return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
    };
    if (rest.size() < 3 || !is_letter(rest[0]) || rest[1] != ' ') {
      return "a letter and its family";
    }
    const std::optional<LetterFamily> family = family_of(rest.substr(2));
    if (!family) return fmt::format("`{}` is no family", rest.substr(2));
    shapes_.push_back({.letter = rest[0], .family = *family});
    return {};
  }
  std::string pen(const std::string& drawn) {
    shapes_.back().strokes.push_back({});
    return add_leg(drawn, false);
  }
  std::string dot(std::string_view rest) {
    const std::size_t blank = std::min(rest.find(' '), rest.size());
    LetterStroke stroke{.dot = true};
    if (!number(rest.substr(0, blank), stroke.start.x) ||
        blank == rest.size() || !number(rest.substr(blank + 1), stroke.start.y))
      return "a dot has two numbers";
    shapes_.back().strokes.push_back(std::move(stroke));
    return {};
  }
  static bool number(std::string_view text, double& value) {
    const auto [end, error] =
        std::from_chars(text.data(), text.data() + text.size(), value);
    return error == std::errc() && end == text.data() + text.size();
  }
  std::string add_leg(const std::string& drawn, bool back) {
    LetterStroke& stroke = shapes_.back().strokes.back();
    if (stroke.dot) return "a dot does not go on";
    std::string why;
    auto part = read_drawn_part("line " + drawn, Length::from_pt(1), why);
    if (!part) return why;
    if (stroke.legs.empty()) {
      stroke.start = stroke_point(part->path.front().to);
    }
    at_ = stroke_point(part->path.back().to);
    LetterShape& shape = shapes_.back();
    for (const StrokePoint p : points_along(part->path, 1)) {
      shape.width = std::max(shape.width, p.x);
    }
    stroke.legs.push_back({std::move(part->path), back});
    return {};
  }

  std::vector<LetterShape> shapes_;
  StrokePoint at_;
};

const std::vector<LetterShape>& letter_shapes() {
  static const std::vector<LetterShape> shapes = [] {
    std::string fault;
    auto all = read_letter_shapes(letter_strokes_table(), fault);
    assert(fault.empty());
    return all;
  }();
  return shapes;
}

}  // namespace

std::vector<StrokePoint> points_along(const Path& path, double step) {
  std::vector<StrokePoint> points;
  walk(path, step, [&](StrokePoint p) { points.push_back(p); });
  return points;
}

double length_of(const Path& path) {
  double length = 0;
  StrokePoint last;
  bool first = true;
  walk(path, 0.5, [&](StrokePoint p) {
    if (!first) length += distance(last, p);
    first = false;
    last = p;
  });
  return length;
}

std::vector<LetterShape> read_letter_shapes(std::string_view text,
                                            std::string& fault) {
  ShapeReader reader;
  int number = 0;
  while (!text.empty() && fault.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    ++number;
    if (line.empty() || line.front() == '#') continue;
    const std::string why = reader.read(line);
    if (!why.empty()) fault = fmt::format("line {}: {}", number, why);
  }
  if (const std::string why = reader.lacking(); fault.empty() && !why.empty()) {
    fault = fmt::format("line {}: {}", number, why);
  }
  return reader.take();
}

const LetterShape* find_letter_shape(char letter) {
  const auto found =
      std::ranges::find(letter_shapes(), letter, &LetterShape::letter);
  return found == letter_shapes().end() ? nullptr : &*found;
}

bool has_letter_shapes(std::string_view text) {
  return !text.empty() && std::ranges::all_of(text, [](char c) {
    return c == ' ' || find_letter_shape(c) != nullptr;
  });
}

}  // namespace sheaf
