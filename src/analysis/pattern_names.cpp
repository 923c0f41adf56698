#include "analysis/pattern_names.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/nearest.h"
#include "phonics/accent.h"
#include "phonics/notation.h"

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

// What a sound in a pattern's name is, in the accent: as one of the graphemes
// says that the pattern teaches, else by itself.
std::vector<Phoneme> said_in_name(std::string_view written, PatternId pattern,
                                  const Phonics& phonics,
                                  const Conventions& conventions) {
  const auto said = read_said_sound(written);
  if (!said) return {};
  const std::vector<Phoneme> listed = as_listed(*said);
  if (listed != *said) return *said;
  const Pattern& entry = phonics.patterns()[pattern];
  const auto taught =
      std::ranges::find(entry.teaches, listed, &TaughtUnit::phonemes);
  return taught == entry.teaches.end()
             ? in_accent({}, listed, conventions)
             : phonics.taught_sound(pattern, *taught, conventions).phonemes;
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

std::string name_of(PatternId pattern, const Phonics& phonics,
                    const Conventions& conventions) {
  const std::string_view name = phonics.patterns()[pattern].name;
  std::string text;
  std::size_t at = 0;
  for (;;) {
    const std::size_t open = std::min(name.find('/', at), name.size());
    const std::size_t close = name.find('/', open + 1);
    text += name.substr(at, open - at);
    if (close == std::string_view::npos) break;
    const std::string_view written = name.substr(open, close + 1 - open);
    const auto sound = said_in_name(written, pattern, phonics, conventions);
    text += sound.empty() ? std::string(written)
                          : "/" + sound_name(sound, conventions) + "/";
    at = close + 1;
  }
  return text;
}

}  // namespace sheaf
