#include "base/options.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <charconv>
#include <cmath>

#include "base/nearest.h"

namespace sheaf {

namespace {

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

// The number at the start of `text`, which is moved past it.
std::optional<double> take_number(std::string_view& text) {
  double value = 0;
  const auto [end, fault] = std::from_chars(
      text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  if (fault != std::errc() || !std::isfinite(value)) return std::nullopt;
  text.remove_prefix(end - text.data());
  return value;
}

std::vector<std::string_view> split_choices(std::string_view choices) {
  std::vector<std::string_view> result;
  while (!choices.empty()) {
    const std::size_t end = std::min(choices.find(' '), choices.size());
    result.push_back(choices.substr(0, end));
    choices.remove_prefix(std::min(end + 1, choices.size()));
  }
  return result;
}

std::string expected(const OptionSpec& spec) {
  using Kind = OptionSpec::Kind;
  switch (spec.kind) {
    case Kind::length:
      return "write a number with its unit, mm, cm, in or pt, such as `" +
             std::string(spec.fallback.empty() ? "12 mm" : spec.fallback) +
             "`, with a decimal point";
    case Kind::count:
      return "write a whole number, such as `" + std::string(spec.fallback) +
             "`";
    case Kind::number:
      return "write a number, such as `" + std::string(spec.fallback) +
             "`, with a decimal point";
    case Kind::flag:
      return "write `yes` or `no`";
    case Kind::choice: {
      std::string text = "write one of";
      for (const auto choice : split_choices(spec.choices)) {
        text += " `" + std::string(choice) + "`";
      }
      return text;
    }
    case Kind::letters:
      return "write letters from a to z with blanks between, such as `b d sh "
             "a_e`";
    case Kind::text:
      break;
  }
  return "write plain text";
}

// What fits instead: the choice that is near, or what may be written.
Help fitting(const OptionSpec& spec, std::string_view wrong) {
  if (spec.kind == OptionSpec::Kind::choice) {
    const auto choices = split_choices(spec.choices);
    Help near = did_you_mean(wrong, choices, Suggests::fixed_choice);
    if (!near.empty()) return near;
  }
  return expected(spec);
}

bool are_letters(std::string_view text) {
  return std::ranges::all_of(text, [](char c) {
    return c == ' ' || c == '_' || (c >= 'a' && c <= 'z') ||
           (c >= 'A' && c <= 'Z');
  });
}

using Setting = std::variant<Length, int, double, bool, std::string>;

template <typename T>
std::optional<Setting> as_setting(std::optional<T> value) {
  if (!value) return std::nullopt;
  return Setting(*value);
}

std::optional<Setting> read_setting(const OptionSpec& spec,
                                    std::string_view text) {
  using Kind = OptionSpec::Kind;
  switch (spec.kind) {
    case Kind::length:
      return as_setting(read_length(text));
    case Kind::count:
      return as_setting(read_count(text));
    case Kind::number:
      return as_setting(read_number(text));
    case Kind::flag:
      return as_setting(read_flag(text));
    case Kind::choice:
      for (const auto choice : split_choices(spec.choices)) {
        if (choice == text) return Setting(std::string(text));
      }
      return std::nullopt;
    case Kind::letters:
      if (!are_letters(text)) return std::nullopt;
      break;
    case Kind::text:
      break;
  }
  return Setting(std::string(text));
}

bool beyond(const OptionSpec& spec, const Setting& value) {
  const auto less = [&](std::string_view limit, bool least) {
    if (limit.empty()) return false;
    const auto bound = read_setting(spec, limit);
    assert(bound && "the table's own limits must be readable");
    return least ? value < *bound : *bound < value;
  };
  return less(spec.least, true) || less(spec.most, false);
}

}  // namespace

std::optional<double> read_number(std::string_view text) {
  text = trimmed(text);
  const auto value = take_number(text);
  return text.empty() ? value : std::nullopt;
}

std::optional<int> read_count(std::string_view text) {
  text = trimmed(text);
  int value = 0;
  const auto [end, fault] =
      std::from_chars(text.data(), text.data() + text.size(), value);
  const bool whole = fault == std::errc() && end == text.data() + text.size();
  return whole ? std::optional(value) : std::nullopt;
}

std::optional<Length> read_length(std::string_view text) {
  text = trimmed(text);
  const auto value = take_number(text);
  // Nothing on paper is longer; the limit keeps sums far from overflow.
  constexpr double kLongestNumber = 100000;
  if (!value || std::abs(*value) > kLongestNumber) return std::nullopt;
  const std::string_view unit = trimmed(text);
  if (unit == "mm") return Length::from_mm(*value);
  if (unit == "cm") return Length::from_mm(*value * 10);
  if (unit == "in") return Length::from_pt(*value * 72);
  if (unit == "pt") return Length::from_pt(*value);
  return std::nullopt;
}

std::optional<bool> read_flag(std::string_view text) {
  if (text == "yes" || text == "on" || text == "true") return true;
  if (text == "no" || text == "off" || text == "false") return false;
  return std::nullopt;
}

OptionValues::OptionValues(OptionTable table) : table_(table) {
  slots_.reserve(table.size());
  for (const OptionSpec& spec : table) {
    const auto value = read_setting(spec, spec.fallback);
    assert(value && "the table's own default must be readable");
    slots_.push_back({*value, {}});
  }
}

std::size_t OptionValues::index_of(std::string_view name) const {
  for (std::size_t i = 0; i < table_.size(); ++i) {
    if (table_[i].name == name) return i;
  }
  assert(false && "no such option");
  return 0;
}

Length OptionValues::length(std::string_view name) const {
  return std::get<Length>(slot(name).setting);
}
int OptionValues::count(std::string_view name) const {
  return std::get<int>(slot(name).setting);
}
double OptionValues::number(std::string_view name) const {
  return std::get<double>(slot(name).setting);
}
bool OptionValues::flag(std::string_view name) const {
  return std::get<bool>(slot(name).setting);
}
const std::string& OptionValues::choice(std::string_view name) const {
  return std::get<std::string>(slot(name).setting);
}
const std::string& OptionValues::text(std::string_view name) const {
  return std::get<std::string>(slot(name).setting);
}
Span OptionValues::span(std::string_view name) const { return slot(name).span; }

void OptionValues::set(std::string_view name, const Value& value,
                       Diagnostics& diagnostics) {
  const std::size_t index = index_of(name);
  const OptionSpec& spec = table_[index];
  if (value.kind != Value::Kind::text) {
    diagnostics.error(
        value.kind == Value::Kind::nothing ? diagnostic::missing_value
                                           : diagnostic::wrong_value,
        value.span,
        fmt::format("`{}` has {} after it", name, describe(value.kind)),
        expected(spec));
    return;
  }
  const auto setting = read_setting(spec, value.text.text());
  if (!setting) {
    diagnostics.error(diagnostic::wrong_value, value.span,
                      fmt::format("{} does not fit `{}`",
                                  as_written(value.text.text()), name),
                      fitting(spec, value.text.text()));
    return;
  }
  if (beyond(spec, *setting)) {
    diagnostics.error(
        diagnostic::value_out_of_range, value.span,
        fmt::format("`{}` cannot be {}", name, value.text.text()),
        spec.most.empty()
            ? fmt::format("the least that works is {}", spec.least)
            : fmt::format("choose from {} to {}", spec.least, spec.most));
    return;
  }
  slots_[index] = {*setting, value.span};
}

void OptionValues::set_choice(std::string_view name, std::string value) {
  slots_[index_of(name)].setting = std::move(value);
}

void OptionValues::set_length(std::string_view name, Length value) {
  const std::size_t index = index_of(name);
  const OptionSpec& spec = table_[index];
  if (!spec.least.empty())
    value = std::max(value, read_length(spec.least).value_or(value));
  if (!spec.most.empty())
    value = std::min(value, read_length(spec.most).value_or(value));
  slots_[index].setting = value;
}

OptionValues read_options(OptionTable table, const Value* given,
                          std::string_view owner, Diagnostics& diagnostics) {
  OptionValues values(table);
  if (given == nullptr || given->kind == Value::Kind::nothing) return values;
  if (given->kind != Value::Kind::keys) {
    diagnostics.error(diagnostic::wrong_value, given->span,
                      fmt::format("{} has {} where its options should be",
                                  owner, describe(given->kind)),
                      "write each option on its own line as `name: value`");
    return values;
  }
  std::vector<std::string_view> names;
  for (const OptionSpec& spec : table) names.push_back(spec.name);
  for (const ValueEntry& entry : given->entries) {
    const std::string& key = entry.key.value;
    if (std::ranges::find(names, key) == names.end()) {
      // A short table is named whole where nothing in it comes near.
      constexpr std::size_t kFew = 12;
      Help help = did_you_mean(key, names, Suggests::fixed_choice);
      if (help.empty() && names.size() <= kFew) {
        help = names.empty()
                   ? "it has no options"
                   : fmt::format("its options are {}", fmt::join(names, ", "));
      }
      diagnostics.error(
          diagnostic::unknown_option, entry.key.span,
          fmt::format("{} has no option {}", owner, as_written(key)),
          std::move(help));
      continue;
    }
    values.set(key, entry.value, diagnostics);
  }
  return values;
}

}  // namespace sheaf
