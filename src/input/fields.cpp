#include "input/fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/nearest.h"
#include "base/options.h"
#include "base/utf8.h"
#include "input/yaml_line_faults.h"
#include "input/yaml_lines.h"
#include "input/yaml_value.h"

namespace sheaf {

namespace {

constexpr int kLongestShortText = 200;
constexpr int kMostUnknownKeys = 20;
constexpr int kMostBadItems = 20;
constexpr int kFormatVersion = 1;

constexpr std::string_view kSpaces = " \t\r\n";

std::string like_this(std::string_view example) {
  return example.empty() ? std::string()
                         : fmt::format("write it like this: `{}`", example);
}

void report_nothing(const Field& field, Diagnostics& diagnostics) {
  const Value& value = field.value;
  std::string found = fmt::format(
      "{} has {} after it", as_written(field.key),
      value.kind == Value::Kind::list ? "an empty list" : "nothing");
  std::string help = like_this(field.example);
  if (value.kind == Value::Kind::nothing && value.span) {
    const std::string_view source = value.span.file->text();
    const FileLine line = line_around(source, value.span.begin);
    const std::size_t sign = source.find_first_not_of(" \t", value.span.end);
    if (sign < line.end && source[sign] == '#') {
      found += ", because `#` begins a comment";
      help = "put the text in quotes if the `#` belongs to it";
    }
  }
  diagnostics.error(diagnostic::missing_value, value.span, std::move(found),
                    std::move(help));
}

// Puts an item that a colon made a key of into quotes, if it is one line.
std::vector<Fix> quotes_around_line(const Value& item) {
  if (item.entries.size() != 1) return {};
  const FileLine line =
      line_around(item.span.file->text(), item.entries.front().key.span.begin);
  if (!line.dash() || line.content() != item.span.begin ||
      item.span.end > line.end) {
    return {};
  }
  const Span whole = {item.span.file, item.span.begin,
                      static_cast<std::uint32_t>(line.end)};
  const std::string better = in_quotes(whole.text());
  if (better.empty()) return {};
  return {quotes_around(whole, better)};
}

void report_item(const Field& field, const Value& item,
                 Diagnostics& diagnostics) {
  if (item.kind == Value::Kind::nothing) {
    diagnostics.error(diagnostic::missing_value, item.span,
                      fmt::format("a part of the list under {} is empty",
                                  as_written(field.key)),
                      "write something there or take it out");
  } else if (item.kind == Value::Kind::list) {
    diagnostics.error(diagnostic::wrong_value, item.span,
                      fmt::format("there is a list inside the list under {}",
                                  as_written(field.key)),
                      "put a text with brackets or dashes in quotes");
  } else {
    const ValueEntry* first =
        item.entries.empty() ? nullptr : &item.entries.front();
    diagnostics.error(
        diagnostic::colon_in_text, first ? first->key.span : item.span,
        first ? fmt::format("the colon after {} turns it into a key",
                            as_written(first->key.value))
              : "there are braces where a text should be",
        {"put the whole text in quotes, or write it as a line under `|`",
         quotes_around_line(item)});
  }
}

bool is_empty(const Value& value) {
  return value.kind == Value::Kind::nothing ||
         (value.kind == Value::Kind::text && value.text.text().empty());
}

bool names_a_place_outside(std::string_view path) {
  if (path.starts_with('/') || path.starts_with('~')) return true;
  for (std::size_t at = 0; at <= path.size();) {
    const std::size_t end = std::min(path.find('/', at), path.size());
    if (path.substr(at, end - at) == "..") return true;
    at = end + 1;
  }
  return false;
}

}  // namespace

bool is_too_long(const PlacedText& text, int most, std::string_view key,
                 Diagnostics& diagnostics) {
  // A character takes at most a handful of bytes; counting is for short ones.
  const bool fits = text.text().size() <= 16 * static_cast<std::size_t>(most) &&
                    count_characters(text.text()) <= most;
  if (fits) return false;
  diagnostics.error(diagnostic::text_too_long, text.span(),
                    fmt::format("this text under {} has more than {} "
                                "characters",
                                as_written(key), most),
                    "shorten it or split it");
  return true;
}

std::optional<Value> read_keys(const SourceFile& file, std::string_view what,
                               std::string_view example,
                               Diagnostics& diagnostics) {
  const int errors = diagnostics.error_count();
  Value value = read_yaml(file, diagnostics);
  if (diagnostics.error_count() > errors) return std::nullopt;
  if (value.kind == Value::Kind::keys) return value;
  if (value.kind == Value::Kind::nothing) {
    diagnostics.error(diagnostic::missing_key, {&file, 0, 0},
                      "there is nothing in this file",
                      fmt::format("{} begins like this: `{}`", what, example));
  } else if (value.kind == Value::Kind::text) {
    explain_missing_colon(file, file.text(), value.span.begin, diagnostics);
  } else {
    diagnostics.error(
        diagnostic::file_form, {&file, value.span.begin, value.span.begin + 1},
        fmt::format("this file is a list, but {} is made of keys with values",
                    what),
        fmt::format("leave the dashes or brackets out and begin the lines with "
                    "a key and a colon, as in `{}`",
                    example));
  }
  return std::nullopt;
}

namespace {

// Keys of other files, which belong nowhere else.
struct KeyElsewhere {
  std::string_view key, file;
};
constexpr KeyElsewhere kElsewhere[] = {
    {"review-weeks", "a sequence or a class"},
    {"no-school", "a class"},
    {"learners", "a class"},
    {"steps", "a sequence"},
};

std::string help_elsewhere(std::string_view key) {
  const auto* found = std::ranges::find(kElsewhere, key, &KeyElsewhere::key);
  if (found == std::end(kElsewhere)) return {};
  return fmt::format("it belongs in the file of {}; remove it here",
                     found->file);
}

}  // namespace

void check_known_keys(const Value& keys,
                      std::span<const std::string_view> names,
                      std::string_view what, Diagnostics& diagnostics) {
  int unknown = 0;
  const ValueEntry* above = nullptr;
  for (const ValueEntry& entry : keys.entries) {
    const std::string& key = entry.key.value;
    const ValueEntry* before = std::exchange(above, &entry);
    if (std::ranges::find(names, key) != names.end()) continue;
    if (report_joined_key(entry, diagnostics)) continue;
    if (++unknown > kMostUnknownKeys) return;
    Help help = help_elsewhere(key);
    if (help.empty()) help = did_you_mean(key, names, Suggests::fixed_choice);
    if (help.empty() && before && is_empty(before->value)) {
      help = fmt::format(
          "if it belongs to {} above, begin the line with two "
          "spaces",
          as_written(before->key.value));
      above = before;
    } else if (help.empty()) {
      help = key.find(' ') == std::string::npos
                 ? "take it out, or begin the line with `#` if it is a note to "
                   "yourself"
                 : "if it belongs to the text above, begin the line with two "
                   "spaces and write that text under `|`";
    }
    diagnostics.error(
        diagnostic::unknown_key, entry.key.span,
        fmt::format("{} is not a key of {}", as_written(key), what),
        std::move(help));
  }
}

void require_key(const SourceFile& file, const Value& keys,
                 std::string_view name, std::string_view missing,
                 std::string_view help, Diagnostics& diagnostics) {
  for (const ValueEntry& entry : keys.entries) {
    if (!nearest_names(entry.key.value, std::span(&name, 1), 1).empty()) return;
  }
  const Span place =
      keys.entries.empty() ? Span{&file, 0, 0} : keys.entries.front().key.span;
  diagnostics.error(diagnostic::missing_key, place, std::string(missing),
                    std::string(help));
}

bool report_joined_key(const ValueEntry& entry, Diagnostics& diagnostics) {
  const std::string& text = entry.key.value;
  const std::size_t colon = text.find(':');
  if (entry.value.kind != Value::Kind::nothing || colon == 0 ||
      colon == std::string::npos || colon + 1 == text.size() ||
      entry.key.span.text() != text) {
    return false;
  }
  Span behind = entry.key.span;
  behind.begin += static_cast<std::uint32_t>(colon + 1);
  behind.end = behind.begin;
  diagnostics.error(
      diagnostic::missing_space, entry.key.span,
      "there is no space after the colon",
      {fmt::format("write {}",
                   as_written(fmt::format("{}: {}", text.substr(0, colon),
                                          text.substr(colon + 1)))),
       {{behind, " ", "a space is now after the colon", true}}});
  return true;
}

void report_wrong_kind(const Field& field, Diagnostics& diagnostics) {
  const bool empty_list =
      field.value.kind == Value::Kind::list && field.value.items.empty();
  if (empty_list || field.value.kind == Value::Kind::nothing) {
    report_nothing(field, diagnostics);
    return;
  }
  diagnostics.error(diagnostic::wrong_value, field.value.span,
                    fmt::format("{} has {} after it", as_written(field.key),
                                describe(field.value.kind)),
                    like_this(field.example));
}

PlacedWord read_short_text(const Field& field, Diagnostics& diagnostics) {
  if (field.value.kind != Value::Kind::text) {
    report_wrong_kind(field, diagnostics);
    return {};
  }
  if (is_too_long(field.value.text, kLongestShortText, field.key,
                  diagnostics)) {
    return {};
  }
  const PlacedText text = field.value.text.squeezed();
  if (text.text().empty()) {
    diagnostics.error(
        diagnostic::missing_value, field.value.span,
        fmt::format("the text after {} is empty", as_written(field.key)),
        like_this(field.example));
    return {};
  }
  return {text.text(), text.span()};
}

PlacedWord read_file_name(const Field& field, Diagnostics& diagnostics) {
  PlacedWord name = read_short_text(field, diagnostics);
  if (!name.given()) return name;
  if (name.value.find('\\') != std::string::npos) {
    std::vector<Fix> fixes;
    if (name.span.text() == name.value) {
      std::string better = name.value;
      std::ranges::replace(better, '\\', '/');
      fixes.push_back({name.span, better, is_now(name.value, better)});
    }
    diagnostics.error(
        diagnostic::bad_path, name.span,
        fmt::format("{} has a backslash in it", as_written(name.value)),
        {"separate folders with `/`", std::move(fixes)});
    return {};
  }
  if (name.value.find(':') != std::string::npos) {
    diagnostics.error(diagnostic::bad_path, name.span,
                      fmt::format("{} is not the name of a file beside this "
                                  "one",
                                  as_written(name.value)),
                      "copy the file into the folder of this one and write its "
                      "name alone");
    return {};
  }
  if (names_a_place_outside(name.value)) {
    diagnostics.error(
        diagnostic::bad_path, name.span,
        fmt::format("{} leads out of the folder of this file",
                    as_written(name.value)),
        "copy the file into that folder, or write its name alone and name its "
        "folder with `--allow`");
    return {};
  }
  return name;
}

void read_number(const Field& field, int least, int most, Spanned<int>& into,
                 Diagnostics& diagnostics) {
  if (field.value.kind != Value::Kind::text) {
    report_wrong_kind(field, diagnostics);
    return;
  }
  const PlacedText text = field.value.text.squeezed();
  const auto number = read_count(text.text());
  if (!number) {
    diagnostics.error(diagnostic::wrong_value, field.value.span,
                      fmt::format("{} is not a whole number written in figures",
                                  as_written(text.text())),
                      like_this(field.example));
    return;
  }
  if (*number < least || *number > most) {
    diagnostics.error(
        diagnostic::value_out_of_range, field.value.span,
        fmt::format("{} cannot be {}", as_written(field.key), *number),
        fmt::format("choose from {} to {}", least, most));
    return;
  }
  into = {*number, text.span()};
}

void read_flag(const Field& field, Spanned<bool>& into,
               Diagnostics& diagnostics) {
  if (field.value.kind != Value::Kind::text) {
    report_wrong_kind(field, diagnostics);
    return;
  }
  const PlacedText text = field.value.text.squeezed();
  const auto flag = read_flag(text.text());
  if (!flag) {
    diagnostics.error(
        diagnostic::wrong_value, field.value.span,
        fmt::format("{} is neither `yes` nor `no`", as_written(text.text())),
        like_this(field.example));
    return;
  }
  into = {*flag, text.span()};
}

void read_version(const Value& value, Spanned<int>& into,
                  Diagnostics& diagnostics) {
  const Field field = {"sheaf", value, "sheaf: 1"};
  read_number(field, 1, 1'000'000, into, diagnostics);
  if (into.value == kFormatVersion) return;
  diagnostics.error(diagnostic::unknown_version, into.span,
                    fmt::format("this file is written for version {} of the "
                                "format; this Sheaf knows version {}",
                                into.value, kFormatVersion),
                    "write `sheaf: 1`, or get a newer Sheaf");
}

std::vector<const Value*> texts_of(const Field& field,
                                   Diagnostics& diagnostics) {
  std::vector<const Value*> texts;
  if (field.value.kind == Value::Kind::text) {
    if (field.value.text.text().find_first_not_of(kSpaces) ==
        std::string::npos) {
      report_nothing(field, diagnostics);
    } else {
      texts.push_back(&field.value);
    }
  } else if (field.value.kind == Value::Kind::list) {
    if (field.value.items.empty()) report_nothing(field, diagnostics);
    int bad = 0;
    for (const Value& item : field.value.items) {
      if (item.kind == Value::Kind::text) {
        texts.push_back(&item);
      } else if (++bad <= kMostBadItems) {
        report_item(field, item, diagnostics);
      }
    }
  } else {
    report_wrong_kind(field, diagnostics);
  }
  return texts;
}

std::vector<PlacedWord> read_names(const Field& field, std::size_t most,
                                   Diagnostics& diagnostics) {
  std::vector<PlacedWord> names;
  for (const Value* text : texts_of(field, diagnostics)) {
    for (const PlacedText& line : cut_lines(text->text, LineBreaks::verses)) {
      const std::string_view all = line.text();
      for (std::size_t at = 0; at <= all.size();) {
        const std::size_t end = std::min(all.find(',', at), all.size());
        const PlacedText name = line.slice(at, end).squeezed();
        at = end + 1;
        if (name.text().empty()) continue;
        if (names.size() == most) {
          diagnostics.error(diagnostic::too_many, name.span(),
                            fmt::format("{} has more than {} names after it",
                                        as_written(field.key), most),
                            "take some out");
          return names;
        }
        if (!is_too_long(name, kLongestShortText, field.key, diagnostics)) {
          names.push_back({name.text(), name.span()});
        }
      }
    }
  }
  return names;
}

std::vector<std::pair<PlacedWord, PlacedWord>> read_pairs(
    const Field& field, Diagnostics& diagnostics) {
  std::vector<std::pair<PlacedWord, PlacedWord>> pairs;
  if (field.value.kind != Value::Kind::keys) {
    report_wrong_kind(field, diagnostics);
    return pairs;
  }
  for (const ValueEntry& entry : field.value.entries) {
    if (report_joined_key(entry, diagnostics)) continue;
    const Field part = {.key = entry.key.value, .value = entry.value};
    PlacedWord value = read_short_text(part, diagnostics);
    if (value.given()) pairs.emplace_back(entry.key, std::move(value));
  }
  return pairs;
}

}  // namespace sheaf
