#include "sheets/warm_up_days.h"

#include <algorithm>

namespace sheaf {

namespace {

// How many lines the sheet of the packet has for the sentence: none, and it is
// not dictated.
bool has_sentence(const SheetInput& in) {
  const auto& table = in.options.table();
  return std::ranges::none_of(table,
                              [](const OptionSpec& spec) {
                                return spec.name == "sentence-lines";
                              }) ||
         in.options.count("sentence-lines") > 0;
}

}  // namespace

std::vector<WarmUpTask> warm_up_tasks(const SheetInput& in, int days) {
  using Kind = WarmUpTask::Kind;
  const WarmUp& warm_up = in.lesson.warm_up;
  std::vector<WarmUpTask> tasks;
  if (!warm_up.to_hear.empty()) tasks.push_back({.kind = Kind::sounds});
  const std::size_t words = warm_up.words.size();
  const bool few_days = days < 4;
  const std::size_t half = few_days ? words : (words + 1) / 2;
  if (words > 0) {
    tasks.push_back({.kind = Kind::words, .first = 0, .count = half});
  }
  if (half < words) {
    tasks.push_back(
        {.kind = Kind::words, .first = half, .count = words - half});
  }
  if (has_sentence(in)) tasks.push_back({.kind = Kind::sentence});
  // One a day; where there are more of them, the last days have several.
  const int count = static_cast<int>(tasks.size());
  for (int i = 0; i < count; ++i) {
    tasks[static_cast<std::size_t>(i)].day =
        count <= days ? i + 1 : 1 + i * days / count;
  }
  return tasks;
}

}  // namespace sheaf
