#include "marking/likely_range.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace sheaf {
namespace {

int in_percent(double share) {
  return static_cast<int>(std::lround(100 * share));
}

std::string range_text(const Share& share, std::string_view between) {
  if (share.of == 0) return {};
  const ShareRange range = score_range(share, kNineInTen);
  return fmt::format("{}{}{}%", in_percent(range.low), between,
                     in_percent(range.high));
}

}  // namespace

ShareRange score_range(const Share& share, double z) {
  if (share.of == 0) return {};
  const double n = share.of;
  const double p = share.right / n;
  const double z2 = z * z;
  const double middle = (p + z2 / (2 * n)) / (1 + z2 / n);
  const double half =
      z / (1 + z2 / n) * std::sqrt(p * (1 - p) / n + z2 / (4 * n * n));
  return {std::max(0.0, middle - half), std::min(1.0, middle + half)};
}

std::string likely_text(const Share& share) {
  const std::string range = range_text(share, " to ");
  return range.empty() ? range : "likely " + range;
}

std::string likely_short(const Share& share) { return range_text(share, "–"); }

}  // namespace sheaf
