// Graphemes of words, parted by hand: the entries under `split:` and words
// written with bars.

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "base/utf8.h"
#include "input/words.h"

namespace sheaf {

namespace {

constexpr std::string_view kBetween = " \t\r\n,|";

// A grapheme at its gap: the letters before it and those after.
struct Gap {
  std::string_view head, tail;
};

Gap gap_of(std::string_view grapheme) {
  const std::size_t gap = grapheme.find('_');
  if (gap == std::string_view::npos) return {.head = grapheme};
  return {grapheme.substr(0, gap), grapheme.substr(gap + 1)};
}

std::string letters_of(std::string_view text) {
  std::string letters;
  const std::string lower = lower_case(text);
  for (std::size_t at = 0; at < lower.size();) {
    const std::size_t begin = at;
    const char32_t c = next_code_point(lower, at);
    if (c == '\'' || c == 0x2019 || c == '-') continue;
    letters.append(lower, begin, at - begin);
  }
  return letters;
}

// What stands between the beats of a word: a hyphen, or the dot that Sheaf
// prints there.
constexpr std::string_view kBeatDot = "·";

bool is_beat_sign(std::string_view text) {
  return text == "-" || text == kBeatDot;
}

// The letters before each part but the first of `fire-side`; nothing where the
// text is not the word with signs between its beats.
std::vector<std::size_t> division_of(std::string_view text,
                                     std::string_view word) {
  std::string with_hyphens(text);
  for (std::size_t at;
       (at = with_hyphens.find(kBeatDot)) != std::string::npos;) {
    with_hyphens.replace(at, kBeatDot.size(), "-");
  }
  const bool graphemes =
      with_hyphens.find_first_of(" \t\r\n,|=_") != std::string::npos;
  if (graphemes || letters_of(with_hyphens) != letters_of(word)) return {};
  std::vector<std::size_t> division;
  for (std::size_t at = with_hyphens.find('-'); at != std::string::npos;
       at = with_hyphens.find('-', at + 1)) {
    const std::size_t before =
        count_characters(letters_of(with_hyphens.substr(0, at)));
    const bool fresh = division.empty() || division.back() < before;
    if (before > 0 && fresh && at + 1 < with_hyphens.size()) {
      division.push_back(before);
    }
  }
  return division;
}

// Reads the parts of one entry: graphemes between spaces, commas or bars, each
// with its sound between slashes if there is an equals sign.
class SplitReader {
 public:
  SplitReader(const PlacedText& text, Diagnostics& diagnostics)
      : text_(text), all_(text.text()), diagnostics_(diagnostics) {}

  std::optional<std::vector<LessonSplit::Part>> read() {
    std::vector<LessonSplit::Part> parts;
    bool begins_beat = false;
    for (std::size_t at = all_.find_first_not_of(kBetween);
         at != std::string_view::npos;
         at = all_.find_first_not_of(kBetween, at)) {
      const std::size_t end = std::min(
          all_.find_first_of(std::string(kBetween) + "=", at), all_.size());
      LessonSplit::Part part;
      if (is_beat_sign(all_.substr(at, end - at))) {
        begins_beat = !parts.empty();
        at = end;
        continue;
      }
      part.begins_beat = begins_beat;
      begins_beat = false;
      part.grapheme = text_.part(at, end);
      if (!check_grapheme(part.grapheme, diagnostics_)) return std::nullopt;
      at = end;
      if (at < all_.size() && all_[at] == '=') {
        if (!read_sound(at, part)) return std::nullopt;
      }
      parts.push_back(std::move(part));
    }
    return parts;
  }

 private:
  // Reads "=/k s/" at `at` and moves `at` behind it.
  bool read_sound(std::size_t& at, LessonSplit::Part& part) {
    const std::size_t open = at + 1;
    const bool opened = open < all_.size() && all_[open] == '/';
    const std::size_t close =
        opened ? all_.find('/', open + 1) : std::string_view::npos;
    if (close == std::string_view::npos || close == open + 1) {
      diagnostics_.error(
          diagnostic::bad_split, text_.span_of(at, at + 1),
          fmt::format("no sound between slashes follows {}",
                      as_written(part.grapheme.value + "=")),
          fmt::format("write the sound between slashes, as in `{}=/sh/`",
                      part.grapheme.value));
      return false;
    }
    const PlacedText sound = text_.slice(open + 1, close).squeezed();
    part.sound = PlacedWord{normalized(sound.text()), sound.span()};
    at = close + 1;
    return true;
  }

  const PlacedText& text_;
  std::string_view all_;
  Diagnostics& diagnostics_;
};

std::string shown_together(const std::vector<LessonSplit::Part>& parts) {
  std::vector<PlacedWord> graphemes;
  for (const auto& part : parts) graphemes.push_back(part.grapheme);
  std::string together = put_together(graphemes);
  if (!together.empty()) return together;
  for (const PlacedWord& grapheme : graphemes) together += grapheme.value;
  return together;
}

}  // namespace

std::string put_together(const std::vector<PlacedWord>& graphemes) {
  std::string word;
  std::string_view waiting;
  for (std::size_t i = 0; i < graphemes.size(); ++i) {
    const Gap gap = gap_of(graphemes[i].value);
    if (!gap.tail.empty() && !waiting.empty()) return {};
    word += gap.head;
    if (!waiting.empty()) {
      std::string_view next;
      if (i + 1 < graphemes.size()) next = graphemes[i + 1].value;
      const bool two =
          (gap.head == "s" && next == "t") || (gap.head == "n" && next == "g");
      if (two) word += graphemes[++i].value;
      word += waiting;
      waiting = {};
    }
    if (!gap.tail.empty()) waiting = gap.tail;
  }
  return waiting.empty() ? word : std::string();
}

bool graphemes_make(const std::vector<std::string_view>& graphemes,
                    std::string_view word) {
  const std::string wanted = letters_of(word);
  // Ways to have come this far: letters after a gap may still be waiting, and
  // have then let `passed` graphemes go by. Waiting ones count as not placed.
  struct Way {
    std::size_t placed;
    std::string waiting;
    int passed;
    bool operator<(const Way& o) const {
      return std::tie(placed, waiting, passed) <
             std::tie(o.placed, o.waiting, o.passed);
    }
  };
  const auto place = [&](Way way, std::string_view letters) {
    const bool fits = wanted.compare(way.placed, letters.size(), letters) == 0;
    way.placed = fits ? way.placed + letters.size() : std::string::npos;
    return way;
  };
  std::vector<Way> ways = {{.placed = 0, .waiting = "", .passed = 0}};
  for (const std::string_view grapheme : graphemes) {
    const Gap gap = gap_of(grapheme);
    std::vector<Way> next;
    for (const Way& before : ways) {
      Way way = place(before, letters_of(gap.head));
      if (way.placed == std::string::npos) continue;
      if (way.waiting.empty()) {
        next.push_back({.placed = way.placed,
                        .waiting = letters_of(gap.tail),
                        .passed = 0});
        continue;
      }
      const Way joined = place(way, way.waiting);
      if (joined.placed != std::string::npos) {
        next.push_back({.placed = joined.placed,
                        .waiting = letters_of(gap.tail),
                        .passed = 0});
      }
      if (way.passed == 0 && gap.tail.empty()) {
        next.push_back({way.placed, way.waiting, 1});
      }
    }
    std::ranges::sort(next, [](const Way& a, const Way& b) { return a < b; });
    ways = std::move(next);
  }
  return std::ranges::any_of(ways, [&](const Way& way) {
    return way.waiting.empty() && way.placed == wanted.size();
  });
}

std::vector<LessonSplit> read_splits(const Field& field,
                                     Diagnostics& diagnostics) {
  std::vector<LessonSplit> splits;
  if (field.value.kind != Value::Kind::keys) {
    report_wrong_kind(field, diagnostics);
    return splits;
  }
  for (const ValueEntry& entry : field.value.entries) {
    LessonSplit split;
    split.word = entry.key;
    if (!check_word(split.word, diagnostics)) continue;
    const Field part = {entry.key.value, entry.value, "shake: sh a_e k"};
    if (part.value.kind != Value::Kind::text) {
      report_wrong_kind(part, diagnostics);
      continue;
    }
    split.division = division_of(part.value.text.text(), split.word.value);
    if (!split.division.empty()) {
      splits.push_back(std::move(split));
      continue;
    }
    auto parts = SplitReader(part.value.text, diagnostics).read();
    if (!parts) continue;
    split.parts = std::move(*parts);
    std::vector<std::string_view> graphemes;
    for (const auto& p : split.parts) graphemes.push_back(p.grapheme.value);
    if (!graphemes_make(graphemes, split.word.value)) {
      diagnostics.error(
          diagnostic::bad_split, part.value.span,
          split.parts.empty()
              ? fmt::format("there are no graphemes for {}",
                            as_written(split.word.value))
              : fmt::format("these graphemes make {}, not {}",
                            as_written(shown_together(split.parts)),
                            as_written(split.word.value)),
          "write all letters of the word in their order, as in `shake: sh a_e "
          "k`");
      continue;
    }
    splits.push_back(std::move(split));
  }
  return splits;
}

}  // namespace sheaf
