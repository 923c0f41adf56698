#include "pictures/drawing_notation.h"

#include <charconv>
#include <cmath>
#include <numbers>

#include "pictures/tables.h"

#include <fmt/format.h>

namespace sheaf {

namespace {

// How far the controls of a quarter circle stand from its ends, in radii: the
// common approximation 4/3 (sqrt(2) - 1), off by 0.03 %.
constexpr double kQuarter = 0.5522847498;

struct Xy {
  double x = 0, y = 0;
};

Point point(Xy p) { return {Length::from_pt(p.x), Length::from_pt(p.y)}; }

class PathBuilder {
 public:
  void move(Xy to) {
    path_.push_back({PathStep::Kind::move, point(to), {}, {}});
    at_ = to;
  }
  void line(Xy to) {
    path_.push_back({PathStep::Kind::line, point(to), {}, {}});
    at_ = to;
  }
  void curve(Xy c1, Xy c2, Xy to) {
    path_.push_back({PathStep::Kind::curve, point(to), point(c1), point(c2)});
    at_ = to;
  }
  void quadratic(Xy c, Xy to) {
    const auto third = [](Xy end, Xy control) {
      return Xy{(end.x + 2 * control.x) / 3, (end.y + 2 * control.y) / 3};
    };
    curve(third(at_, c), third(to, c), to);
  }
  void close() { path_.push_back({PathStep::Kind::close, {}, {}, {}}); }

  void ellipse(Xy centre, double rx, double ry) {
    const double kx = rx * kQuarter;
    const double ky = ry * kQuarter;
    const auto [x, y] = centre;
    move({x + rx, y});
    curve({x + rx, y + ky}, {x + kx, y + ry}, {x, y + ry});
    curve({x - kx, y + ry}, {x - rx, y + ky}, {x - rx, y});
    curve({x - rx, y - ky}, {x - kx, y - ry}, {x, y - ry});
    curve({x + kx, y - ry}, {x + rx, y - ky}, {x + rx, y});
    close();
  }

  // From one angle to another, in degrees, clockwise from three o'clock.
  void arc(Xy centre, double rx, double ry, double from, double to) {
    const int count =
        std::max(1, static_cast<int>(std::ceil(std::abs(to - from) / 90)));
    const double step = (to - from) / count * std::numbers::pi / 180;
    const double k = 4.0 / 3 * std::tan(step / 4);
    const auto on_ellipse = [&](double cosine, double sine) {
      return Xy{centre.x + rx * cosine, centre.y + ry * sine};
    };
    double angle = from * std::numbers::pi / 180;
    Xy start = on_ellipse(std::cos(angle), std::sin(angle));
    empty() ? move(start) : line(start);
    for (int i = 0; i < count; ++i) {
      const double c0 = std::cos(angle), s0 = std::sin(angle);
      angle += step;
      const double c1 = std::cos(angle), s1 = std::sin(angle);
      curve(on_ellipse(c0 - k * s0, s0 + k * c0),
            on_ellipse(c1 + k * s1, s1 - k * c1), on_ellipse(c1, s1));
    }
  }

  void rectangle(Xy at, double width, double height, double round) {
    const double x = at.x + width;
    const double y = at.y + height;
    const double k = round * (1 - kQuarter);
    move({at.x + round, at.y});
    line({x - round, at.y});
    if (round > 0) curve({x - k, at.y}, {x, at.y + k}, {x, at.y + round});
    line({x, y - round});
    if (round > 0) curve({x, y - k}, {x - k, y}, {x - round, y});
    line({at.x + round, y});
    if (round > 0) curve({at.x + k, y}, {at.x, y - k}, {at.x, y - round});
    line({at.x, at.y + round});
    if (round > 0) {
      curve({at.x, at.y + k}, {at.x + k, at.y}, {at.x + round, at.y});
    }
    close();
  }

  // A smooth line through points: between two of them a cubic whose controls
  // lie along the chord of their neighbours (Catmull and Rom, 1974). In a loop
  // the last point leads back to the first.
  void smooth(std::vector<Xy> points, bool loop) {
    points.insert(points.begin(), at_);
    const auto count = static_cast<std::ptrdiff_t>(points.size());
    const auto neighbour = [&](std::ptrdiff_t i) {
      if (loop) return points[static_cast<std::size_t>((i + count) % count)];
      return points[static_cast<std::size_t>(
          std::min(std::max<std::ptrdiff_t>(i, 0), count - 1))];
    };
    for (std::ptrdiff_t i = 0; i < (loop ? count : count - 1); ++i) {
      const Xy a = neighbour(i - 1), b = neighbour(i);
      const Xy c = neighbour(i + 1), d = neighbour(i + 2);
      curve({b.x + (c.x - a.x) / 6, b.y + (c.y - a.y) / 6},
            {c.x - (d.x - b.x) / 6, c.y - (d.y - b.y) / 6}, c);
    }
    if (loop) close();
  }

  bool empty() const { return path_.empty(); }
  Path take() { return std::move(path_); }

 private:
  Path path_;
  Xy at_;
};

std::string_view next_word(std::string_view& text) {
  const std::size_t begin = std::min(text.find_first_not_of(' '), text.size());
  const std::size_t end = std::min(text.find(' ', begin), text.size());
  const std::string_view word = text.substr(begin, end - begin);
  text.remove_prefix(end);
  return word;
}

std::optional<double> number(std::string_view word) {
  double value = 0;
  const auto [end, error] =
      std::from_chars(word.data(), word.data() + word.size(), value);
  if (error != std::errc() || end != word.data() + word.size() ||
      !(std::abs(value) <= 1000)) {
    return std::nullopt;
  }
  return value;
}

// A command and the numbers after it.
struct Command {
  std::string_view name;
  std::vector<double> numbers;

  Xy xy(std::size_t i) const { return {numbers[2 * i], numbers[2 * i + 1]}; }
};

std::vector<Command> split_commands(std::string_view text) {
  std::vector<Command> commands;
  for (std::string_view word = next_word(text); !word.empty();
       word = next_word(text)) {
    const std::optional<double> value = number(word);
    if (value && !commands.empty()) {
      commands.back().numbers.push_back(*value);
    } else {
      commands.push_back({word, {}});
    }
  }
  return commands;
}

bool draw_shape(PathBuilder& path, const Command& command) {
  const std::vector<double>& n = command.numbers;
  if (command.name == "circle" && n.size() == 3) {
    path.ellipse({n[0], n[1]}, n[2], n[2]);
  } else if (command.name == "ellipse" && n.size() == 4) {
    path.ellipse({n[0], n[1]}, n[2], n[3]);
  } else if (command.name == "rect" && (n.size() == 4 || n.size() == 5)) {
    path.rectangle({n[0], n[1]}, n[2], n[3], n.size() == 5 ? n[4] : 0);
  } else if (command.name == "arc" && n.size() == 6) {
    path.arc({n[0], n[1]}, n[2], n[3], n[4], n[5]);
  } else {
    return false;
  }
  return true;
}

bool draw_curve(PathBuilder& path, const Command& command) {
  const std::size_t count = command.numbers.size();
  if (command.name == "L" && count >= 2 && count % 2 == 0) {
    for (std::size_t i = 0; i < count / 2; ++i) path.line(command.xy(i));
  } else if (command.name == "Q" && count >= 4 && count % 4 == 0) {
    for (std::size_t i = 0; i < count / 2; i += 2) {
      path.quadratic(command.xy(i), command.xy(i + 1));
    }
  } else if (command.name == "C" && count >= 6 && count % 6 == 0) {
    for (std::size_t i = 0; i < count / 2; i += 3) {
      path.curve(command.xy(i), command.xy(i + 1), command.xy(i + 2));
    }
  } else if ((command.name == "S" || command.name == "O") && count >= 4 &&
             count % 2 == 0) {
    std::vector<Xy> points;
    for (std::size_t i = 0; i < count / 2; ++i) points.push_back(command.xy(i));
    path.smooth(std::move(points), command.name == "O");
  } else if (command.name == "Z" && count == 0) {
    path.close();
  } else {
    return false;
  }
  return true;
}

bool draw(PathBuilder& path, const Command& command) {
  if (command.name == "M" && command.numbers.size() == 2) {
    path.move(command.xy(0));
    return true;
  }
  return draw_shape(path, command) ||
         (!path.empty() && draw_curve(path, command));
}

constexpr std::string_view kHeading = "drawing ";

}  // namespace

std::optional<DrawnPart> read_drawn_part(std::string_view line, Length pen,
                                         std::string& why) {
  DrawnPart part;
  const std::string_view kind = next_word(line);
  if (kind == "line") {
    part.pen = pen;
  } else if (kind == "bold") {
    part.pen = pen * 2;
  } else if (kind != "fill") {
    why = fmt::format("`{}` is not line, bold or fill", kind);
    return std::nullopt;
  }
  PathBuilder path;
  for (const Command& command : split_commands(line)) {
    if (draw(path, command)) continue;
    why = fmt::format("`{}` with {} numbers", command.name,
                      command.numbers.size());
    return std::nullopt;
  }
  if (path.empty()) {
    why = "nothing is drawn";
    return std::nullopt;
  }
  part.path = path.take();
  return part;
}

std::vector<std::string_view> drawing_lines(std::string_view name) {
  std::vector<std::string_view> found;
  bool here = false;
  for (const std::string_view line : table_lines(picture_drawings_table())) {
    if (line.starts_with(kHeading)) {
      if (here) break;
      here = line.substr(kHeading.size()) == name;
    } else if (here) {
      found.push_back(line);
    }
  }
  return found;
}

std::vector<std::string_view> drawing_names() {
  std::vector<std::string_view> names;
  for (const std::string_view line : table_lines(picture_drawings_table())) {
    if (line.starts_with(kHeading)) {
      names.push_back(line.substr(kHeading.size()));
    }
  }
  return names;
}

}  // namespace sheaf
