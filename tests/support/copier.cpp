#include "support/copier.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include "layout/mark_bounds.h"

namespace sheaf::testing_support {

namespace {

constexpr int kDots = 300;
constexpr double kSigma = 0.8;
constexpr int kReach = 3;  // beyond it a blur of 0.8 dots is nothing
constexpr int kParted = 128;

double dots(Length length) { return length.pt() * kDots / 72; }

std::array<float, 2 * kReach + 1> kernel() {
  std::array<float, 2 * kReach + 1> weights{};
  float sum = 0;
  for (int i = -kReach; i <= kReach; ++i) {
    const auto weight =
        static_cast<float>(std::exp(-i * i / (2 * kSigma * kSigma)));
    weights[static_cast<std::size_t>(i + kReach)] = weight;
    sum += weight;
  }
  for (float& weight : weights) weight /= sum;
  return weights;
}

// How dark each dot is after the blur, one way and then the other.
std::vector<float> blurred(const PreviewImage& image) {
  const auto weights = kernel();
  const auto width = static_cast<std::size_t>(image.width);
  const auto height = static_cast<std::size_t>(image.height);
  std::vector<float> across(width * height), both(width * height);
  // Most of a page is white, so ink is spread instead of gathered.
  for (std::size_t y = 0; y < height; ++y) {
    for (std::size_t x = 0; x < width; ++x) {
      const std::uint8_t pixel = image.pixels[y * width + x];
      if (pixel == kWhite) continue;
      const auto dark = static_cast<float>(kWhite - pixel);
      for (int i = -kReach; i <= kReach; ++i) {
        const auto to = static_cast<std::ptrdiff_t>(x) + i;
        if (to < 0 || to >= image.width) continue;
        across[y * width + static_cast<std::size_t>(to)] +=
            dark * weights[static_cast<std::size_t>(i + kReach)];
      }
    }
  }
  for (std::size_t y = 0; y < height; ++y) {
    for (int i = -kReach; i <= kReach; ++i) {
      const auto to = static_cast<std::ptrdiff_t>(y) + i;
      if (to < 0 || to >= image.height) continue;
      const float weight = weights[static_cast<std::size_t>(i + kReach)];
      const float* from = &across[y * width];
      float* row = &both[static_cast<std::size_t>(to) * width];
      for (std::size_t x = 0; x < width; ++x) row[x] += from[x] * weight;
    }
  }
  return both;
}

std::optional<Stroke> stroke_of(const Mark& mark) {
  if (const auto* line = std::get_if<LineMark>(&mark)) return line->stroke;
  if (const auto* rect = std::get_if<RectMark>(&mark); rect && rect->stroked) {
    return rect->stroke;
  }
  if (const auto* path = std::get_if<PathMark>(&mark); path && path->stroked) {
    return path->stroke;
  }
  if (const auto* dot = std::get_if<DotMark>(&mark)) {
    return Stroke{.width = dot->hollow ? dot->ring : dot->diameter,
                  .ink = dot->ink};
  }
  return std::nullopt;
}

}  // namespace

PhotoCopy::PhotoCopy(const Page& page) {
  const PreviewImage image =
      draw_page(page, {.dpi = kDots, .colours = PreviewColours::grey});
  width_ = image.width;
  height_ = image.height;
  const std::vector<float> dark = blurred(image);
  black_.resize(dark.size());
  for (std::size_t i = 0; i < dark.size(); ++i) {
    black_[i] = kWhite - dark[i] < kParted;
  }
  for (const Mark& mark : page.marks) {
    const auto* rect = std::get_if<RectMark>(&mark);
    if (rect != nullptr && rect->filled && rect->fill == kWhite) {
      white_.push_back(rect->rect);
    }
    const auto* path = std::get_if<PathMark>(&mark);
    if (path != nullptr && path->stroked && path->stroke.dash == Dash{}) {
      // Bit by bit: what is drawn solid over a gap joins nothing.
      const Length thick = path->stroke.width / 2;
      for (const Line& line : lines_of(mark)) {
        for (const Spot& spot : line) {
          solid_.push_back({Length::from_pt(spot.x * 72 / kDots) - thick,
                            Length::from_pt(spot.y * 72 / kDots) - thick,
                            2 * thick, 2 * thick});
        }
      }
      continue;
    }
    Rect stands = bounds_of(mark);
    Length thick;
    if (const auto* line = std::get_if<LineMark>(&mark);
        line != nullptr && line->stroke.dash == Dash{}) {
      thick = line->stroke.width / 2;
    } else if (!std::holds_alternative<DotMark>(mark)) {
      continue;
    }
    solid_.push_back({stands.x - thick, stands.y - thick,
                      stands.width + 2 * thick, stands.height + 2 * thick});
  }
}

bool PhotoCopy::is_black(int x, int y) const {
  return x >= 0 && y >= 0 && x < width_ && y < height_ &&
         black_[static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) +
                static_cast<std::size_t>(x)];
}

bool PhotoCopy::has_ink_near(Spot spot) const {
  const auto x = static_cast<int>(spot.x);
  const auto y = static_cast<int>(spot.y);
  for (int by_y = -1; by_y <= 1; ++by_y) {
    for (int by_x = -1; by_x <= 1; ++by_x) {
      if (is_black(x + by_x, y + by_y)) return true;
    }
  }
  return false;
}

bool PhotoCopy::is_in(const std::vector<Rect>& rects, Spot spot) {
  return std::ranges::any_of(rects, [&](const Rect& r) {
    return spot.x > dots(r.x) - 2 && spot.x < dots(r.right()) + 2 &&
           spot.y > dots(r.y) - 2 && spot.y < dots(r.bottom()) + 2;
  });
}

std::vector<PhotoCopy::Line> PhotoCopy::lines_of(const Mark& mark) {
  const auto spot = [](Point p) { return Spot{dots(p.x), dots(p.y)}; };
  if (const auto* line = std::get_if<LineMark>(&mark)) {
    return {{spot(line->from), spot(line->to)}};
  }
  if (const auto* rect = std::get_if<RectMark>(&mark); rect && rect->stroked) {
    // From the lower left corner on, where dashes begin.
    const Rect& r = rect->rect;
    const Spot start = spot({r.x, r.bottom()});
    return {{start, spot({r.right(), r.bottom()}), spot({r.right(), r.y}),
             spot({r.x, r.y}), start}};
  }
  if (const auto* dot = std::get_if<DotMark>(&mark)) {
    const Spot middle = spot(dot->centre);
    if (!dot->hollow) return {{middle, {middle.x + 0.5, middle.y}}};
    const double radius = dots(dot->diameter - dot->ring) / 2;
    Line round;
    for (int i = 0; i <= 64; ++i) {
      const double turn = 2 * std::numbers::pi * i / 64;
      round.push_back({middle.x + radius * std::cos(turn),
                       middle.y + radius * std::sin(turn)});
    }
    return {round};
  }
  const auto* path = std::get_if<PathMark>(&mark);
  if (path == nullptr || !path->stroked) return {};
  std::vector<Line> lines;
  for (const PathStep& step : path->path) {
    const Spot to = spot(path->at + step.to);
    switch (step.kind) {
      case PathStep::Kind::move:
        lines.push_back({to});
        break;
      case PathStep::Kind::line:
        lines.back().push_back(to);
        break;
      case PathStep::Kind::close:
        lines.back().push_back(lines.back().front());
        break;
      case PathStep::Kind::curve: {
        const Spot a = lines.back().back();
        const Spot b = spot(path->at + step.control1);
        const Spot c = spot(path->at + step.control2);
        constexpr int kParts = 24;
        for (int i = 1; i <= kParts; ++i) {
          const double t = static_cast<double>(i) / kParts, s = 1 - t;
          const double wa = s * s * s, wb = 3 * s * s * t, wc = 3 * s * t * t,
                       wd = t * t * t;
          lines.back().push_back({a.x * wa + b.x * wb + c.x * wc + to.x * wd,
                                  a.y * wa + b.y * wb + c.y * wc + to.y * wd});
        }
      }
    }
  }
  return lines;
}

namespace {

// What a place along a line is: ink of a dash, or the middle of a gap.
enum class Place { edge, ink, gap };

Place place_at(double along, const Stroke& stroke) {
  const double on = dots(stroke.dash.on), off = dots(stroke.dash.off);
  if (off <= 0) return Place::ink;
  const double at = std::fmod(along, on + off);
  // The ends of a dash are rounded by any copier, a dot is where it begins.
  if (on <= 0) {
    if (at < 0.5) return Place::ink;
  } else if (at > 1 && at < on - 1) {
    return Place::ink;
  }
  return std::abs(at - on - off / 2) < 0.5 ? Place::gap : Place::edge;
}

// Calls `visit` with what it is at each half dot along a line, short of its
// ends.
template <typename Line, typename Visit>
void walk(const Line& line, const Stroke& stroke, const Visit& visit) {
  double whole = 0, begun = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    whole += std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
  }
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double dx = line[i].x - line[i - 1].x;
    const double dy = line[i].y - line[i - 1].y;
    const double length = std::hypot(dx, dy);
    for (double at = 0; at < length; at += 0.5) {
      if (begun + at > 0 && begun + at < whole - 1) {
        visit(line[i - 1].x + dx * at / length,
              line[i - 1].y + dy * at / length, place_at(begun + at, stroke));
      }
    }
    begun += length;
  }
}

double share(std::int64_t some, std::int64_t all) {
  return all == 0 ? 1 : static_cast<double>(some) / static_cast<double>(all);
}

}  // namespace

double PhotoCopy::kept_of_line(const Mark& mark) const {
  const auto stroke = stroke_of(mark);
  if (!stroke) return 1;
  std::int64_t all = 0, kept = 0;
  for (const Line& line : lines_of(mark)) {
    walk(line, *stroke, [&](double x, double y, Place place) {
      if (place != Place::ink || is_in(white_, {x, y})) return;
      ++all;
      kept += has_ink_near({x, y}) ? 1 : 0;
    });
  }
  return share(kept, all);
}

double PhotoCopy::kept_of_gaps(const Mark& mark) const {
  const auto stroke = stroke_of(mark);
  if (!stroke) return 1;
  std::int64_t all = 0, kept = 0;
  for (const Line& line : lines_of(mark)) {
    walk(line, *stroke, [&](double x, double y, Place place) {
      if (place != Place::gap || is_in(solid_, {x, y})) return;
      ++all;
      kept += is_black(static_cast<int>(x), static_cast<int>(y)) ? 0 : 1;
    });
  }
  return share(kept, all);
}

std::int64_t PhotoCopy::black_dots(const Rect& rect) const {
  std::int64_t black = 0;
  for (auto y = static_cast<int>(dots(rect.y)); y < dots(rect.bottom()); ++y) {
    for (auto x = static_cast<int>(dots(rect.x)); x < dots(rect.right()); ++x) {
      black += is_black(x, y) ? 1 : 0;
    }
  }
  return black;
}

double PhotoCopy::black_in(const Rect& rect) const {
  const double all = dots(rect.width) * dots(rect.height);
  return all <= 0 ? 0 : static_cast<double>(black_dots(rect)) / all;
}

std::string told_of_line(const Mark& mark) {
  const auto stroke = stroke_of(mark);
  if (!stroke) return "";
  std::string told =
      fmt::format("{:.2f} pt, ink {}", stroke->width.pt(), stroke->ink);
  if (stroke->dash.off > Length()) {
    told += fmt::format(", dashes of {:.1f} and {:.1f} mm",
                        stroke->dash.on.mm(), stroke->dash.off.mm());
  }
  return told;
}

}  // namespace sheaf::testing_support
