#pragma once

#include <string>

#include "marking/scores.h"

namespace sheaf {

/// Between which shares the truth may lie, from 0 to 1.
struct ShareRange {
  double low = 0, high = 1;
};

/// The score interval of E. B. Wilson (1927), Probable inference, the law of
/// succession, and statistical inference, J. Am. Stat. Assoc. 22:209-212.
/// `z` is how many standard errors to each side. All there is from none to all
/// where there are no counts.
ShareRange score_range(const Share& share, double z);

/// Standard errors to each side that hold the truth nine times in ten.
inline constexpr double kNineInTen = 1.6449;

/// "likely 79 to 97%", nine times in ten; empty where there are no counts.
std::string likely_text(const Share& share);
/// The same for narrow places: "79–97%".
std::string likely_short(const Share& share);

}  // namespace sheaf
