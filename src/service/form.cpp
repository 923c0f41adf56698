// A lesson as a form: its commonest keys with what stands there, and the
// changes to the text when somebody types in the form. The text stays the
// truth; remarks and all other keys stay as they are.

#include <algorithm>
#include <array>

#include "input/yaml_value.h"
#include "service/state.h"
#include "service/text_context.h"

namespace sheaf {

namespace {

struct FormKey {
  std::string_view name;
  bool lines;
};
// In the order in which a lesson has them.
constexpr std::array<FormKey, 11> kFormKeys = {{
    {"title", false},
    {"pattern", false},
    {"words", false},
    {"sentences", true},
    {"passage", true},
    {"dictate-words", false},
    {"dictate-sentences", true},
    {"sight-words", false},
    {"teacher-note", true},
    {"home-note", true},
    {"layout", false},
}};

const FormKey* find_form_key(std::string_view name) {
  const auto found = std::ranges::find(kFormKeys, name, &FormKey::name);
  return found == kFormKeys.end() ? nullptr : &*found;
}

// From the key to the end of its last line that says something: remarks and
// empty lines behind it belong to what follows.
TextRange extent(std::string_view text, const std::vector<KeyLine>& keys,
                 std::size_t index) {
  std::uint32_t stop = static_cast<std::uint32_t>(text.size());
  for (std::size_t i = index + 1; i < keys.size(); ++i) {
    if (keys[i].indent > 0) continue;
    stop = keys[i].begin;
    break;
  }
  std::uint32_t end = keys[index].end, at = keys[index].end;
  while (at < stop) {
    const std::uint32_t begin = std::min(stop, at + 1);
    const auto found = text.find('\n', begin);
    at = found == std::string_view::npos
             ? stop
             : std::min(stop, static_cast<std::uint32_t>(found));
    std::string_view line = text.substr(begin, at - begin);
    if (line.ends_with('\r')) line.remove_suffix(1);
    const bool indented = line.starts_with(' ') || line.starts_with('\t');
    const bool item = line.starts_with("- ");
    if (line.find_first_not_of(" \t") != std::string_view::npos &&
        (indented || item)) {
      end = begin + static_cast<std::uint32_t>(line.size());
    }
  }
  return {keys[index].begin, end};
}

std::string trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t\r\n");
  if (begin == std::string_view::npos) return "";
  return std::string(
      text.substr(begin, text.find_last_not_of(" \t\r\n") - begin + 1));
}

// What a form shows of a value; nothing where it has keys of its own.
std::optional<std::string> form_text(const Value& value, bool lines) {
  switch (value.kind) {
    case Value::Kind::text:
      return trimmed(value.text.text());
    case Value::Kind::list: {
      std::string text;
      for (const Value& item : value.items) {
        if (item.kind != Value::Kind::text) return std::nullopt;
        if (!text.empty()) text += lines ? "\n" : " ";
        text += trimmed(item.text.text());
      }
      return text;
    }
    default:
      return std::nullopt;
  }
}

// A value on the key's own line that would be read as something else there.
bool needs_quotes(std::string_view value) {
  constexpr std::string_view kSigns = "[]{}>|*&!%#`@,?:-\"'";
  return kSigns.find(value.front()) != std::string_view::npos ||
         value.find(": ") != std::string_view::npos ||
         value.find(" #") != std::string_view::npos || value.ends_with(':');
}

std::string squeezed(std::string_view value) {
  std::string line;
  for (const char c : value) {
    const bool blank = c == ' ' || c == '\t' || c == '\n' || c == '\r';
    if (!blank) {
      line += c;
    } else if (!line.empty() && line.back() != ' ') {
      line += ' ';
    }
  }
  return trimmed(line);
}

// The key with its value, without a break at the end.
std::string written(const FormKey& key, std::string_view value,
                    std::string_view line_break) {
  std::string text = std::string(key.name) + ":";
  if (!key.lines) {
    const std::string line = squeezed(value);
    if (!needs_quotes(line)) return text + " " + line;
    text += " '";
    for (const char c : line) text.append(c == '\'' ? 2 : 1, c);
    return text + "'";
  }
  text += " |";
  std::string_view rest = value;
  while (!rest.empty()) {
    const std::size_t end = std::min(rest.find('\n'), rest.size());
    std::string line(rest.substr(0, end));
    while (!line.empty() && (line.back() == ' ' || line.back() == '\r')) {
      line.pop_back();
    }
    line.erase(0, line.find_first_not_of(" \t"));
    text.append(line_break);
    if (!line.empty()) text += "  " + line;
    rest.remove_prefix(std::min(end + 1, rest.size()));
  }
  return text;
}

struct ReadForm {
  std::string text;
  std::vector<KeyLine> keys;
  Value value;
  bool good = false;  ///< the whole text could be read
};

ReadForm read_form(const TextReading& reading) {
  ReadForm form;
  if (reading.file == nullptr || reading.kind != FileKind::lesson) return form;
  form.text = reading.file->text();
  form.keys = key_lines(form.text);
  Diagnostics faults;
  form.value = read_yaml(*reading.file, faults);
  form.good = !faults.has_errors() && form.value.kind == Value::Kind::keys;
  return form;
}

std::optional<std::size_t> index_of(const ReadForm& form,
                                    std::string_view key) {
  for (std::size_t i = 0; i < form.keys.size(); ++i) {
    const KeyLine& line = form.keys[i];
    if (line.indent == 0 && !line.item &&
        std::string_view(form.text).substr(
            line.name.begin, line.name.end - line.name.begin) == key) {
      return i;
    }
  }
  return std::nullopt;
}

FormField field_of(const ReadForm& form, const FormKey& key) {
  FormField field{.key = std::string(key.name), .lines = key.lines};
  const auto index = index_of(form, key.name);
  if (!index) return field;
  field.present = true;
  field.range = extent(form.text, form.keys, *index);
  // While the text cannot be read as a whole, a key on one line still shows.
  const KeyLine& line = form.keys[*index];
  if (!form.good) {
    field.editable = !line.lines && field.range->end == line.end;
    field.text = trimmed(form.text.substr(line.value, line.end - line.value));
    return field;
  }
  for (const auto& entry : form.value.entries) {
    if (entry.key.value != key.name) continue;
    const auto text = form_text(entry.value, key.lines);
    field.editable = text.has_value();
    field.text = text.value_or("");
  }
  return field;
}

// Where a key goes that is not there yet: behind the nearest of those that
// stand before it in a form, else before the first key.
std::uint32_t place_for(const ReadForm& form, std::string_view key) {
  std::optional<std::uint32_t> place;
  for (const FormKey& other : kFormKeys) {
    if (other.name == key) break;
    if (const auto index = index_of(form, other.name)) {
      place = extent(form.text, form.keys, *index).end;
    }
  }
  if (place) return *place;
  for (const KeyLine& line : form.keys) {
    if (line.indent == 0) return line.begin;
  }
  return static_cast<std::uint32_t>(form.text.size());
}

}  // namespace

std::vector<FormField> Service::form(const std::string& path) {
  const ReadForm form = read_form(*state(path).now);
  std::vector<FormField> fields;
  for (const FormKey& key : kFormKeys) fields.push_back(field_of(form, key));
  return fields;
}

std::vector<TextEdit> Service::form_edits(const std::string& path,
                                          std::string_view key,
                                          std::string_view value) {
  const ReadForm form = read_form(*state(path).now);
  const FormKey* const wanted = find_form_key(key);
  if (wanted == nullptr) return {};
  const FormField field = field_of(form, *wanted);
  const std::string wish = trimmed(value);
  if (!field.editable || field.text == wish) return {};
  const std::string_view text = form.text;
  const std::string_view line_break =
      text.find("\r\n") == std::string_view::npos ? "\n" : "\r\n";
  if (field.present) {
    TextRange range = *field.range;
    if (!wish.empty()) return {{range, written(*wanted, wish, line_break)}};
    if (text.substr(range.end).starts_with(line_break)) {
      range.end += static_cast<std::uint32_t>(line_break.size());
    }
    return {{range, ""}};
  }
  const std::uint32_t at = place_for(form, key);
  const std::string line = written(*wanted, wish, line_break);
  const bool behind = at > 0 && text[at - 1] != '\n';
  return {{{at, at},
           behind ? std::string(line_break) + line
                  : line + std::string(line_break)}};
}

}  // namespace sheaf
