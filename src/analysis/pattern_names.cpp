#include "analysis/pattern_names.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/nearest.h"

namespace sheaf {

namespace {

std::vector<PlacedWord> words_by_spaces(const PlacedWord& text) {
  std::vector<PlacedWord> words;
  const std::string& all = text.value;
  for (std::size_t i = 0; i < all.size();) {
    const std::size_t end = std::min(all.find(' ', i), all.size());
    if (end > i) {
      Span span = text.span;
      span.begin += static_cast<std::uint32_t>(i);
      span.end = span.begin + static_cast<std::uint32_t>(end - i);
      words.push_back({all.substr(i, end - i), span});
    }
    i = end + 1;
  }
  return words;
}

std::vector<PlacedWord> single_names(const std::vector<PlacedWord>& written,
                                     const PatternCatalogue& catalogue) {
  std::vector<PlacedWord> names;
  for (const PlacedWord& name : written) {
    const auto parts = words_by_spaces(name);
    const bool whole =
        parts.size() < 2 || !catalogue.find(name.value).found.empty();
    const bool apart = std::ranges::all_of(parts, [&](const PlacedWord& p) {
      return catalogue.find(p.value).found.size() == 1;
    });
    if (whole || !apart) {
      names.push_back(name);
    } else {
      names.insert(names.end(), parts.begin(), parts.end());
    }
  }
  return names;
}

void report_unclear(const PlacedWord& name, const PatternSearch& search,
                    const PatternCatalogue& catalogue,
                    Diagnostics& diagnostics) {
  if (search.found.empty()) {
    const std::string nearest = did_you_mean(search.nearest);
    diagnostics.error(
        diagnostic::unknown_pattern, name.span,
        fmt::format("there is no pattern called {}", quoted(name.value)),
        nearest.empty() ? "`sheaf patterns` lists them" : nearest);
    return;
  }
  std::vector<std::string_view> ids;
  for (const PatternId id : search.found) {
    if (ids.size() < 5) ids.push_back(catalogue[id].id);
  }
  diagnostics.error(diagnostic::unknown_pattern, name.span,
                    fmt::format("{} could be one of {} patterns",
                                quoted(name.value), search.found.size()),
                    did_you_mean(ids));
}

}  // namespace

std::vector<NamedPattern> find_patterns(const std::vector<PlacedWord>& names,
                                        const Phonics& phonics,
                                        Diagnostics& diagnostics) {
  const PatternCatalogue& catalogue = phonics.patterns();
  std::vector<NamedPattern> patterns;
  for (const PlacedWord& name : single_names(names, catalogue)) {
    const PatternSearch search = catalogue.find(name.value);
    if (search.found.size() == 1) {
      patterns.push_back({search.found.front(), name});
    } else {
      report_unclear(name, search, catalogue, diagnostics);
    }
  }
  return patterns;
}

}  // namespace sheaf
