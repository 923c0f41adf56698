#include "analysis/pattern_names.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/nearest.h"
#include "phonics/accent.h"
#include "phonics/notation.h"

namespace sheaf {

namespace {

// Of more than this each is shown by its example alone.
constexpr std::size_t kMostInWords = 8;

// A name without what stands in brackets behind it, which has brackets of its
// own around it here.
std::string_view short_name(const Pattern& pattern) {
  return pattern.name.substr(0, pattern.name.find(" ("));
}

std::string shown(const Pattern& pattern, bool in_words) {
  const bool says_more = in_words && short_name(pattern) != pattern.id;
  return fmt::format("`{}` ({}{}{})", pattern.id,
                     says_more ? short_name(pattern) : "",
                     says_more ? ": " : "", pattern.example);
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

std::string listed(const std::vector<PatternId>& ids,
                   const PatternCatalogue& catalogue) {
  std::string text;
  for (std::size_t i = 0; i < ids.size(); ++i) {
    if (i > 0) text += i + 1 == ids.size() ? " or " : ", ";
    text += shown(catalogue[ids[i]], ids.size() <= kMostInWords);
  }
  return text;
}

std::vector<Fix> fixes_of(std::string_view written,
                          const std::vector<PatternId>& ids,
                          const PatternCatalogue& catalogue) {
  std::vector<std::string_view> names;
  for (const PatternId id : ids) names.push_back(catalogue[id].id);
  return ask_for(written, names).fixes;
}

// The part of a name's place that a part of its text stands at; all of it
// where the file has the text written otherwise.
PlacedWord part_of(const PlacedWord& whole, const PatternName& name) {
  PlacedWord part{whole.value.substr(name.begin, name.end - name.begin),
                  whole.span};
  const Span& span = whole.span;
  if (!span || span.is_whole() || span.text() != whole.value) return part;
  part.span.begin = span.begin + static_cast<std::uint32_t>(name.begin);
  part.span.end = span.begin + static_cast<std::uint32_t>(name.end);
  return part;
}

}  // namespace

PatternFault fault_of(const PatternName& name, std::string_view written,
                      const PatternCatalogue& catalogue) {
  PatternFault fault;
  if (name.is_group) {
    fault.text = fmt::format("{} stands for {} patterns", quoted(written),
                             name.could_be.size());
    fault.help = {"name one of them: " + listed(name.could_be, catalogue),
                  fixes_of(written, name.could_be, catalogue)};
    return fault;
  }
  fault.text = fmt::format("there is no pattern called {}", quoted(written));
  if (!name.could_be.empty()) {
    fault.help = {"did you mean " + listed(name.could_be, catalogue) + "?",
                  fixes_of(written, name.could_be, catalogue)};
  } else {
    fault.help = ask_for(written, name.nearest);
  }
  if (fault.help.empty()) fault.help = "`sheaf patterns` lists them";
  return fault;
}

std::vector<NamedPattern> find_patterns(const std::vector<PlacedWord>& names,
                                        const Phonics& phonics,
                                        Diagnostics& diagnostics) {
  std::vector<NamedPattern> patterns;
  for (const PlacedWord& written : names) {
    for (const PatternName& name : phonics.find_patterns(written.value)) {
      const PlacedWord part = part_of(written, name);
      if (name.meant) {
        patterns.push_back({*name.meant, part});
        continue;
      }
      const PatternFault fault = fault_of(name, part.value, phonics.patterns());
      diagnostics.error(diagnostic::unknown_pattern, part.span,
                        as_written_in(fault.text, part.value), fault.help);
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
