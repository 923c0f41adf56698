// Where the signs of a letter model stand: start dots, numbers and arrows.

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

#include "layout/letter_model.h"
#include "layout/letter_places.h"

namespace sheaf {

namespace {

// All in units of the letters.
constexpr double kNearStart =
    kModelStart / 2 + 5;  // from a start to other signs
constexpr double kSignArrow = 36;
constexpr double kLeastSignArrow = 16;
constexpr double kBesidePen = 17;    // from the middle of the pen to an arrow
constexpr double kWayCorner = 0.65;  // cosine under which a way has a corner
constexpr double kWayStep = 3;

double apart(StrokePoint a, StrokePoint b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

// A piece of a stroke without a corner: one movement.
struct Movement {
  std::size_t stroke = 0;
  bool first = false;  // of its stroke
  std::vector<StrokePoint> way;
};

struct Ground {
  std::vector<StrokePoint> ink;  // all that the pen covers
  std::vector<std::vector<StrokePoint>> strokes;
  std::vector<int> numbers;
  std::vector<Movement> movements;
};

StrokePoint way_direction(StrokePoint a, StrokePoint b) {
  const double length = std::max(apart(a, b), 1e-9);
  return {(b.x - a.x) / length, (b.y - a.y) / length};
}

void add_movements(Ground& ground, std::size_t stroke) {
  const auto& way = ground.strokes[stroke];
  std::vector<StrokePoint> piece = {way.front()};
  bool first = true;
  for (std::size_t i = 1; i < way.size(); ++i) {
    piece.push_back(way[i]);
    const bool last = i + 1 == way.size();
    if (!last) {
      const StrokePoint a = way_direction(way[i - 1], way[i]);
      const StrokePoint b = way_direction(way[i], way[i + 1]);
      if (a.x * b.x + a.y * b.y > kWayCorner) continue;
    }
    ground.movements.push_back({stroke, first, piece});
    piece = {way[i]};
    first = false;
  }
}

Ground ground_of(std::string_view text) {
  Ground ground;
  for (const PlacedLetter& letter : placed_letters(text)) {
    int number = 0;
    const bool several = letter.shape->strokes.size() > 1;
    for (const LetterStroke& stroke : letter.shape->strokes) {
      ++number;
      ground.numbers.push_back(several ? number : 0);
      std::vector<StrokePoint> way;
      if (stroke.dot) way.push_back(stroke.start);
      for (const StrokeLeg& leg : stroke.legs) {
        for (const StrokePoint p : points_along(leg.path, kWayStep)) {
          if (way.empty() || apart(way.back(), p) > 1e-6) way.push_back(p);
        }
      }
      for (StrokePoint& p : way) p.x += letter.x;
      ground.ink.insert(ground.ink.end(), way.begin(), way.end());
      ground.strokes.push_back(std::move(way));
      if (!stroke.dot) add_movements(ground, ground.strokes.size() - 1);
    }
  }
  return ground;
}

double nearest_of(StrokePoint p, const std::vector<StrokePoint>& others) {
  double least = std::numeric_limits<double>::max();
  for (const StrokePoint other : others) {
    const double x = p.x - other.x, y = p.y - other.y;
    least = std::min(least, x * x + y * y);
  }
  return std::sqrt(least);
}

// The start of each stroke; one that would lie on an earlier one is moved along
// its stroke.
void find_starts(const Ground& ground, ModelSigns& signs) {
  for (std::size_t i = 0; i < ground.strokes.size(); ++i) {
    const auto& way = ground.strokes[i];
    const auto free = std::ranges::find_if(way, [&](StrokePoint p) {
      return std::ranges::all_of(signs.starts, [&](const auto& start) {
        return apart(start.at, p) >= kModelStart + 3;
      });
    });
    signs.starts.push_back({.at = free == way.end() ? way.front() : *free,
                            .number = ground.numbers[i]});
  }
}

// The way of an arrow beside a movement, from its point `begin` on.
std::vector<StrokePoint> way_beside(const std::vector<StrokePoint>& way,
                                    std::size_t begin, double length,
                                    double side) {
  std::vector<StrokePoint> result;
  double gone = 0;
  for (std::size_t i = begin; i < way.size() && gone <= length; ++i) {
    if (i > begin) gone += apart(way[i - 1], way[i]);
    const std::size_t a = i == 0 ? 0 : i - 1;
    const std::size_t b = std::min(i + 1, way.size() - 1);
    const StrokePoint d = way_direction(way[a], way[b]);
    result.push_back({way[i].x - d.y * side, way[i].y + d.x * side});
  }
  return result;
}

double length_of_way(const std::vector<StrokePoint>& way) {
  double length = 0;
  for (std::size_t i = 1; i < way.size(); ++i) {
    length += apart(way[i - 1], way[i]);
  }
  return length;
}

// How free a way is of ink, starts and other arrows; below 0 where it touches.
double room_of(const std::vector<StrokePoint>& way, const Ground& ground,
               const ModelSigns& signs) {
  double room = std::numeric_limits<double>::max();
  for (const StrokePoint p : way) {
    room = std::min(room, nearest_of(p, ground.ink) - kModelPen / 2 - 5);
    for (const auto& start : signs.starts) {
      room = std::min(room, apart(p, start.at) - kNearStart - 2);
    }
    for (const auto& arrow : signs.arrows) {
      room = std::min(room, nearest_of(p, arrow.way) - 12);
    }
    room = std::min({room, p.y + 22, 310 - p.y});
    // Too near is too near, by how much is no matter.
    if (room < 0) return room;
  }
  return room;
}

// The best place for an arrow beside a movement, at least `least` from its
// beginning; one that is needed may stand close.
std::optional<std::vector<StrokePoint>> best_arrow(const Movement& movement,
                                                   double least,
                                                   const Ground& ground,
                                                   const ModelSigns& signs) {
  const double whole = length_of_way(movement.way);
  std::optional<std::vector<StrokePoint>> best;
  double most = std::numeric_limits<double>::lowest();
  for (const double length :
       {std::min(kSignArrow, whole * 0.7), kLeastSignArrow}) {
    double gone = 0;
    for (std::size_t i = 0; i < movement.way.size(); ++i) {
      if (i > 0) gone += apart(movement.way[i - 1], movement.way[i]);
      if (gone < least || gone + length > whole - 2) continue;
      for (const double side : {-kBesidePen, kBesidePen, -22.0, 22.0}) {
        auto way = way_beside(movement.way, i, length, side);
        if (way.size() < 2) continue;
        const double room = room_of(way, ground, signs);
        // Near the start, where the pen is, before elsewhere.
        const double worth = std::min(room, 4.0) * 3 - gone * 0.06 -
                             std::abs(side) * 0.1 + length_of_way(way) * 0.2;
        if (room >= 0 && worth > most) {
          most = worth;
          best = std::move(way);
        }
      }
    }
    if (best) break;
  }
  return best;
}

// Whether a movement turns so far that one arrow does not tell where it goes.
bool turns_round(const Movement& movement) {
  const auto& way = movement.way;
  if (way.size() < 8 || length_of_way(way) < 130) return false;
  const std::size_t late = way.size() * 3 / 4;
  const StrokePoint a = way_direction(way[1], way[3]);
  const StrokePoint b = way_direction(way[late - 1], way[late + 1]);
  return a.x * b.x + a.y * b.y < 0.5;
}

// An arrow for each movement that is long enough to have one, and one at least
// for each stroke; another where it turns round, if there is room.
void find_arrows(const Ground& ground, ModelSigns& signs) {
  for (const Movement& movement : ground.movements) {
    const double whole = length_of_way(movement.way);
    if (!movement.first && whole < kSignArrow) continue;
    const double least = movement.first ? kModelStart / 2 + 4 : 8;
    for (const double from : {least, whole * 0.55}) {
      if (from > least && !turns_round(movement)) continue;
      if (auto way = best_arrow(movement, from, ground, signs)) {
        signs.arrows.push_back({std::move(*way), movement.stroke});
      }
    }
  }
}

// From a box around `middle` to a point.
double from_box(StrokePoint middle, double width, double height,
                StrokePoint p) {
  const double x = std::max(0.0, std::abs(p.x - middle.x) - width / 2);
  const double y = std::max(0.0, std::abs(p.y - middle.y) - height / 2);
  return std::hypot(x, y);
}

double room_for_number(StrokePoint middle, double width, double height,
                       const Ground& ground, const ModelSigns& signs) {
  double room = std::numeric_limits<double>::max();
  const auto meet = [&](StrokePoint p, double distance) {
    room = std::min(room, from_box(middle, width, height, p) - distance);
  };
  for (const StrokePoint p : ground.ink) meet(p, kModelPen / 2 + 2);
  // Nor does a ruled line run through it.
  for (const double line : {0.0, 100.0, 200.0, 300.0}) {
    meet({middle.x, line}, 3);
  }
  for (const auto& start : signs.starts) {
    meet(start.at, kModelStart / 2 + 4);
    // Those that have their number already.
    if (start.number_at.x != 0 || start.number_at.y != 0) {
      const double x = std::abs(start.number_at.x - middle.x) - width;
      const double y = std::abs(start.number_at.y - middle.y) - height;
      room = std::min(room, std::max(x, y) - 2);
    }
  }
  for (const auto& arrow : signs.arrows) {
    for (const StrokePoint p : arrow.way) meet(p, 4);
  }
  return room;
}

void find_numbers(const Ground& ground, ModelSigns& signs, double width,
                  double height) {
  constexpr int kDirections = 24;
  const double size = std::max(width, height);
  for (auto& start : signs.starts) {
    if (start.number == 0) continue;
    double most = std::numeric_limits<double>::lowest();
    StrokePoint place;
    for (const double far : {0.55, 0.75, 1.0, 1.3}) {
      for (int i = 0; i < kDirections; ++i) {
        const double angle = 2 * std::numbers::pi * i / kDirections;
        const double reach = kModelStart / 2 + 4 + size * far;
        const StrokePoint middle = {start.at.x + reach * std::cos(angle),
                                    start.at.y + reach * std::sin(angle)};
        if (middle.y - height / 2 < -34 || middle.y + height / 2 > 312) {
          continue;
        }
        const double room =
            room_for_number(middle, width, height, ground, signs);
        // As near as there is room; above or at the left before elsewhere.
        const double worth = std::min(room, 3.0) * 4 - far * 14 -
                             1.5 * std::cos(angle) - std::sin(angle);
        if (worth > most) {
          most = worth;
          place = middle;
        }
      }
    }
    start.number_at = place;
  }
}

void find_bounds(const Ground& ground, ModelSigns& signs, double width,
                 double height) {
  signs.top = signs.left = std::numeric_limits<double>::max();
  signs.right = signs.bottom = std::numeric_limits<double>::lowest();
  const auto take = [&](StrokePoint p, double x, double y) {
    signs.left = std::min(signs.left, p.x - x);
    signs.right = std::max(signs.right, p.x + x);
    signs.top = std::min(signs.top, p.y - y);
    signs.bottom = std::max(signs.bottom, p.y + y);
  };
  for (const StrokePoint p : ground.ink) take(p, kModelPen / 2, kModelPen / 2);
  for (const auto& start : signs.starts) {
    take(start.at, kModelStart / 2, kModelStart / 2);
    if (start.number > 0) take(start.number_at, width / 2, height / 2);
  }
  for (const auto& arrow : signs.arrows) {
    for (const StrokePoint p : arrow.way) take(p, 5, 5);
  }
}

}  // namespace

ModelSigns model_signs(std::string_view text, double number_width,
                       double number_height) {
  const Ground ground = ground_of(text);
  ModelSigns signs;
  find_starts(ground, signs);
  find_arrows(ground, signs);
  find_numbers(ground, signs, number_width, number_height);
  find_bounds(ground, signs, number_width, number_height);
  return signs;
}

}  // namespace sheaf
