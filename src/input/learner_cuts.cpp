#include "input/learner_cuts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

#include "base/utf8.h"
#include "input/class_file.h"
#include "input/fields.h"
#include "input/yaml_places.h"

namespace sheaf {

namespace {

constexpr std::array<std::string_view, 5> kByLearner = {
    "wrong", "written", "writing", "part-two", "learners"};
constexpr std::array<std::string_view, 3> kOfCodes = {"absent", "marked",
                                                      "learners"};

template <std::size_t N>
bool is_one_of(std::string_view key,
               const std::array<std::string_view, N>& keys) {
  return std::ranges::find(keys, key) != keys.end();
}

bool has_learners_as_keys(const ValueEntry& entry) {
  return entry.value.kind == Value::Kind::keys &&
         is_one_of(entry.key.value, kByLearner);
}
bool has_codes(const ValueEntry& entry) {
  return (entry.value.kind == Value::Kind::list ||
          entry.value.kind == Value::Kind::text) &&
         is_one_of(entry.key.value, kOfCodes);
}
bool has_records(const ValueEntry& entry) {
  return entry.value.kind == Value::Kind::list && entry.key.value == "records";
}

// The codes of a text or a list, as the readers of such files part them.
std::vector<PlacedWord> names_of(const Value& value) {
  Diagnostics unheard;
  return read_names({.value = value}, SIZE_MAX, unheard);
}

bool all_true(const std::vector<bool>& gone) {
  return !gone.empty() && std::ranges::find(gone, false) == gone.end();
}

// Where a value really ends: spans of keys and lists may stop at their start.
std::uint32_t end_of(const Value& value) {
  std::uint32_t end = value.span.end;
  for (const Value& item : value.items) end = std::max(end, end_of(item));
  for (const ValueEntry& entry : value.entries) {
    end = std::max({end, entry.key.span.end, end_of(entry.value)});
  }
  return end;
}

bool is_blank(char c) { return c == ' ' || c == '\r'; }

class Cutter {
 public:
  Cutter(const SourceFile& file, std::string_view source,
         const LearnerCode& code)
      : file_(file), source_(source), code_(code) {}

  LearnerCuts run(const Value& keys) {
    found_.all = from_record(keys);
    std::ranges::sort(found_.cuts, {}, &Span::begin);
    std::vector<Span> apart;
    for (const Span& cut : found_.cuts) {
      if (!apart.empty() && cut.begin < apart.back().end) {
        apart.back().end = std::max(apart.back().end, cut.end);
      } else {
        apart.push_back(cut);
      }
    }
    found_.cuts = std::move(apart);
    return std::move(found_);
  }

 private:
  // These are true where nothing would be left; then nothing inside is cut, as
  // the whole goes.
  bool from_record(const Value& keys) {
    std::vector<bool> gone;
    for (const ValueEntry& entry : keys.entries) {
      gone.push_back(from_entry(entry));
    }
    return cut_entries(keys, gone);
  }

  bool from_entry(const ValueEntry& entry) {
    if (has_records(entry)) return from_records(entry.value);
    if (has_learners_as_keys(entry)) return from_learners(entry.value);
    if (!has_codes(entry)) return false;
    return entry.value.kind == Value::Kind::list ? from_list(entry.value)
                                                 : from_text(entry.value);
  }

  bool from_records(const Value& list) {
    std::vector<bool> gone;
    for (const Value& item : list.items) {
      gone.push_back(item.kind == Value::Kind::keys && from_record(item));
    }
    return cut_items(list, gone);
  }

  bool from_learners(const Value& keys) {
    std::vector<bool> gone;
    for (const ValueEntry& entry : keys.entries) {
      found_.codes.push_back(entry.key.span);
      gone.push_back(is_same_code(entry.key.value, code_));
    }
    return cut_entries(keys, gone);
  }

  bool from_list(const Value& list) {
    std::vector<bool> gone;
    for (const Value& item : list.items) {
      gone.push_back(item.kind == Value::Kind::text && from_text(item));
    }
    return cut_items(list, gone);
  }

  bool from_text(const Value& text) {
    const auto names = names_of(text);
    std::vector<bool> gone;
    for (const PlacedWord& name : names) {
      found_.codes.push_back(name.span);
      gone.push_back(is_same_code(name.value, code_));
    }
    if (all_true(gone)) return true;
    for (std::size_t i = 0; i < names.size(); ++i) {
      if (gone[i]) cut_name(names[i].span.begin, names[i].span.end);
    }
    return false;
  }

  bool is_in_brackets(const Value& value) const {
    const char sign = at(value.span.begin);
    return sign == '{' || sign == '[';
  }

  bool cut_entries(const Value& keys, const std::vector<bool>& gone) {
    if (all_true(gone)) return true;
    const auto& entries = keys.entries;
    for (std::size_t i = 0; i < gone.size(); ++i) {
      if (!gone[i]) continue;
      const std::uint32_t begin = entries[i].key.span.begin;
      const std::uint32_t end = end_of(entries[i].value);
      if (is_in_brackets(keys)) {
        cut_in_brackets(begin, end);
      } else if (is_first_in_line(begin)) {
        add(line_begin(begin), line_end(end));
      } else {
        // Behind a dash, which is the next one's then.
        std::size_t last = i;
        while (last + 1 < gone.size() && gone[last + 1]) ++last;
        add(begin, skip_lines(line_end(end_of(entries[last].value))));
      }
    }
    return false;
  }

  bool cut_items(const Value& list, const std::vector<bool>& gone) {
    if (all_true(gone)) return true;
    for (std::size_t i = 0; i < gone.size(); ++i) {
      if (!gone[i]) continue;
      const Value& item = list.items[i];
      if (is_in_brackets(list)) {
        cut_in_brackets(item.span.begin, end_of(item));
        continue;
      }
      // The dash may stand in a line above.
      const std::size_t from =
          i == 0 ? list.span.begin : end_of(list.items[i - 1]);
      const auto dash = static_cast<std::uint32_t>(skip_blank(source_, from));
      add(line_begin(dash), line_end(end_of(item)));
    }
    return false;
  }

  // One of several between brackets goes with a comma, and with its line where
  // it has one to itself.
  void cut_in_brackets(std::uint32_t begin, std::uint32_t end) {
    const bool first = is_first_in_line(begin);
    auto after = static_cast<std::uint32_t>(skip_blank(source_, end));
    if (at(after) == ',') {
      after = skip_blanks(after + 1);
      if (first && ends_line(after)) {
        add(line_begin(begin), line_end(after));
      } else {
        add(begin, after);
      }
      return;
    }
    if (cut_with_comma_before(begin, end)) return;
    if (first && ends_line(skip_blanks(end))) {
      add(line_begin(begin), line_end(end));
    } else {
      add(begin, end);
    }
  }

  // One of several in a text; no remark can stand there.
  void cut_name(std::uint32_t begin, std::uint32_t end) {
    std::uint32_t after = skip_blanks(end);
    const bool comma = at(after) == ',';
    if (comma) after = skip_blanks(after + 1);
    if (is_first_in_line(begin) && at(after) == '\n') {
      add(line_begin(begin), line_end(after));
    } else if (comma) {
      add(begin, after);
    } else if (!cut_with_comma_before(begin, end)) {
      add(begin, end);
    }
  }

  bool cut_with_comma_before(std::uint32_t begin, std::uint32_t end) {
    while (begin > 0 && (is_blank(at(begin - 1)) || at(begin - 1) == '\n')) {
      --begin;
    }
    if (begin == 0 || at(begin - 1) != ',') return false;
    add(begin - 1, end);
    return true;
  }

  // The end of the file counts as the end of a line.
  char at(std::uint32_t place) const {
    return place < source_.size() ? source_[place] : '\n';
  }
  bool ends_line(std::uint32_t place) const {
    return at(place) == '\n' || at(place) == '#';
  }
  std::uint32_t line_begin(std::uint32_t place) const {
    while (place > 0 && at(place - 1) != '\n') --place;
    return place;
  }
  // Behind the line break.
  std::uint32_t line_end(std::uint32_t place) const {
    while (at(place) != '\n') ++place;
    return std::min(place + 1, static_cast<std::uint32_t>(source_.size()));
  }
  bool is_first_in_line(std::uint32_t place) const {
    while (place > 0 && is_blank(at(place - 1))) --place;
    return place == 0 || at(place - 1) == '\n';
  }
  std::uint32_t skip_blanks(std::uint32_t place) const {
    while (is_blank(at(place))) ++place;
    return place;
  }
  std::uint32_t skip_lines(std::uint32_t place) const {
    while (place < source_.size() &&
           (is_blank(at(place)) || at(place) == '\n')) {
      ++place;
    }
    return place;
  }

  void add(std::uint32_t begin, std::uint32_t end) {
    found_.cuts.push_back({&file_, begin, end});
  }

  const SourceFile& file_;
  std::string_view source_;
  const LearnerCode& code_;
  LearnerCuts found_;
};

// Texts with their lengths, so that no two values come out alike.
std::string said(std::string_view text) {
  return fmt::format("{}:{}", text.size(), text);
}

std::string said(const Value& value) {
  switch (value.kind) {
    case Value::Kind::nothing:
      return "-";
    case Value::Kind::text:
      return said(value.text.text());
    case Value::Kind::list: {
      std::string all = "[";
      for (const Value& item : value.items) all += said(item);
      return all + "]";
    }
    case Value::Kind::keys:
      break;
  }
  std::string all = "{";
  for (const ValueEntry& entry : value.entries) {
    all += said(entry.key.value) + said(entry.value);
  }
  return all + "}";
}

std::optional<std::string> said_record(const Value& keys,
                                       const LearnerCode& code);

// Nothing where all of it is the learner's.
std::optional<std::string> said_entry(const ValueEntry& entry,
                                      const LearnerCode& code) {
  std::string all;
  bool gone = false;
  const auto add = [&](std::string_view name, const std::string& value) {
    if (is_same_code(name, code)) {
      gone = true;
    } else {
      all += said(name) + value;
    }
  };
  if (has_records(entry)) {
    for (const Value& item : entry.value.items) {
      const auto record =
          item.kind == Value::Kind::keys ? said_record(item, code) : said(item);
      if (record) all += "{" + *record + "}";
      gone = gone || !record;
    }
  } else if (has_learners_as_keys(entry)) {
    for (const ValueEntry& learner : entry.value.entries) {
      add(learner.key.value, said(learner.value));
    }
  } else if (has_codes(entry)) {
    for (const PlacedWord& name : names_of(entry.value)) add(name.value, {});
  } else {
    all = said(entry.value);
  }
  if (gone && all.empty()) return std::nullopt;
  return said(entry.key.value) + "(" + all + ")";
}

std::optional<std::string> said_record(const Value& keys,
                                       const LearnerCode& code) {
  std::string all;
  bool gone = false;
  for (const ValueEntry& entry : keys.entries) {
    const auto one = said_entry(entry, code);
    if (one) all += *one;
    gone = gone || !one;
  }
  if (gone && all.empty()) return std::nullopt;
  return all;
}

}  // namespace

bool is_same_code(std::string_view text, const LearnerCode& code) {
  const std::string name = normalized(text);
  return name != kAll && code != LearnerCode() &&
         lower_case(name) == lower_case(code.text());
}

LearnerCuts learner_cuts(const SourceFile& file, std::string_view source,
                         const Value& keys, const LearnerCode& code) {
  return Cutter(file, source, code).run(keys);
}

std::string said_without(const Value& keys, const LearnerCode& code) {
  return said_record(keys, code).value_or("");
}

}  // namespace sheaf
