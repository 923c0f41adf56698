#include "base/nearest.h"

#include <algorithm>
#include <numeric>

#include "base/utf8.h"

namespace sheaf {

int edit_distance(std::string_view a, std::string_view b, int limit) {
  const int rows = static_cast<int>(a.size());
  const int columns = static_cast<int>(b.size());
  if (std::abs(rows - columns) > limit) return limit + 1;
  std::vector<int> before_last(columns + 1), last(columns + 1),
      current(columns + 1);
  std::iota(last.begin(), last.end(), 0);
  for (int i = 1; i <= rows; ++i) {
    current[0] = i;
    int smallest = i;
    for (int j = 1; j <= columns; ++j) {
      const int change = a[i - 1] == b[j - 1] ? 0 : 1;
      int steps =
          std::min({last[j] + 1, current[j - 1] + 1, last[j - 1] + change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        steps = std::min(steps, before_last[j - 2] + 1);
      }
      current[j] = steps;
      smallest = std::min(smallest, steps);
    }
    if (smallest > limit) return limit + 1;
    std::swap(before_last, last);
    std::swap(last, current);
  }
  return last[columns];
}

namespace {

std::string squeezed(std::string_view name) {
  std::string result;
  for (const char c : lower_case(name)) {
    if (c != ' ' && c != '-' && c != '_') result += c;
  }
  return result;
}

// So many steps at most are a slip of the hand.
constexpr int kSlip = 2;

// Letters that only a word of the same stem shares: dictation, dictate.
constexpr std::size_t kStem = 5;

bool of_one_stem(std::string_view a, std::string_view b) {
  return a.size() >= kStem && a.substr(0, kStem) == b.substr(0, kStem);
}

}  // namespace

std::vector<std::string_view> nearest_names(
    std::string_view name, std::span<const std::string_view> names,
    std::size_t count) {
  constexpr std::size_t kLongestName = 64;
  if (name.size() > kLongestName) return {};
  const std::string wanted = squeezed(name);
  const int limit = std::max(1, static_cast<int>(wanted.size()) / 3);
  struct Candidate {
    int distance;
    std::string_view name;
  };
  std::vector<Candidate> candidates, of_the_stem;
  for (const std::string_view candidate : names) {
    const std::string plain = squeezed(candidate);
    int distance = edit_distance(wanted, plain, limit);
    const bool begins = wanted.size() >= 3 && plain.starts_with(wanted);
    if (begins) distance = std::min(distance, limit);
    if (distance <= limit) candidates.push_back({distance, candidate});
    if (of_one_stem(wanted, plain)) of_the_stem.push_back({0, candidate});
  }
  std::ranges::stable_sort(candidates, {}, &Candidate::distance);
  // What only looks alike is less likely than a word of the same stem.
  const bool slip = !candidates.empty() && candidates[0].distance <= kSlip;
  if (!slip && !of_the_stem.empty()) candidates = std::move(of_the_stem);
  std::vector<std::string_view> result;
  for (const Candidate& c : candidates) {
    if (result.size() == count) break;
    result.push_back(c.name);
  }
  return result;
}

Help ask_for(std::string_view wrong, std::span<const std::string_view> names,
             Suggests suggests) {
  if (names.empty()) return {};
  std::vector<Fix> fixes;
  std::string text = "did you mean ";
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) text += i + 1 == names.size() ? " or " : ", ";
    text += "`" + std::string(names[i]) + "`";
    fixes.push_back({{},
                     std::string(names[i]),
                     is_now(wrong, names[i]),
                     names.size() == 1 && suggests == Suggests::fixed_choice});
  }
  return {text + "?", std::move(fixes)};
}

Help did_you_mean(std::string_view wrong,
                  std::span<const std::string_view> names, Suggests suggests) {
  return ask_for(wrong, nearest_names(wrong, names), suggests);
}

}  // namespace sheaf
