// A text with its lines put in order: no blanks at the ends of lines, one
// behind a key's colon, never two empty lines, lines under a `|` two further in
// than their key, remarks behind lines that follow each other below one
// another, a line break at the end. Whatever that would change in what the file
// says is left as it was.

#include <algorithm>

#include "input/yaml_value.h"
#include "service/state.h"
#include "service/text_context.h"

namespace sheaf {

namespace {

// Blanks at the ends of lines say nothing, nor do empty lines at the end.
std::string said(const std::string& text) {
  std::string plain;
  for (const char c : text) {
    if (c == '\n') {
      while (!plain.empty() && plain.back() == ' ') plain.pop_back();
    }
    plain += c;
  }
  while (!plain.empty() && (plain.back() == ' ' || plain.back() == '\n')) {
    plain.pop_back();
  }
  return plain;
}

bool same(const Value& a, const Value& b) {
  if (a.kind != b.kind || said(a.text.text()) != said(b.text.text()) ||
      a.items.size() != b.items.size() ||
      a.entries.size() != b.entries.size()) {
    return false;
  }
  for (std::size_t i = 0; i < a.items.size(); ++i) {
    if (!same(a.items[i], b.items[i])) return false;
  }
  for (std::size_t i = 0; i < a.entries.size(); ++i) {
    if (a.entries[i].key.value != b.entries[i].key.value ||
        !same(a.entries[i].value, b.entries[i].value)) {
      return false;
    }
  }
  return true;
}

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    std::string line(text.substr(0, end));
    while (!line.empty() &&
           (line.back() == ' ' || line.back() == '\t' || line.back() == '\r')) {
      line.pop_back();
    }
    lines.push_back(std::move(line));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

std::size_t indent_of(const std::string& line) {
  return std::min(line.find_first_not_of(' '), line.size());
}

// One blank between a key's colon and its value.
void space_values(std::vector<std::string>& lines) {
  const std::string text = joined(lines);
  std::size_t line = 0, begin = 0;
  for (const KeyLine& key : key_lines(text)) {
    while (begin != key.begin) {
      begin += lines[line].size() + 1;
      ++line;
    }
    const std::size_t colon = key.name.end - key.begin;
    const std::size_t value = key.value - key.begin;
    if (key.value >= key.end || value <= colon + 2) continue;
    // The line keeps its length in `text`; only the copy changes.
    lines[line].replace(colon + 1, value - colon - 1, " ");
    begin = key.end + 1;
    ++line;
  }
}

// Lines under a `|` stand two further in than their key.
void indent_lines(std::vector<std::string>& lines) {
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::string& opening = lines[i];
    if (!opening.ends_with(": |") || opening.find('#') != std::string::npos) {
      continue;
    }
    const std::size_t own = indent_of(opening);
    std::size_t least = std::string::npos, end = i + 1;
    for (; end < lines.size(); ++end) {
      if (lines[end].empty()) continue;
      const std::size_t indent = indent_of(lines[end]);
      if (indent <= own) break;
      least = std::min(least, indent);
    }
    if (least == std::string::npos) continue;
    for (std::size_t k = i + 1; k < end; ++k) {
      if (lines[k].empty()) continue;
      lines[k] = std::string(own + 2, ' ') + lines[k].substr(least);
    }
    i = end - 1;
  }
}

// Where a remark begins behind what a line says; npos: nowhere.
std::size_t remark_in(const std::string& line) {
  if (line.find('"') != std::string::npos ||
      line.find('\'') != std::string::npos) {
    return std::string::npos;
  }
  const std::size_t at = line.find(" #");
  const bool alone =
      at != std::string::npos && line.find_first_not_of(' ') == at + 1;
  return alone ? std::string::npos : at;
}

// Those of lines that follow each other stand where the farthest of them
// stands; one alone stays where it is.
void align_remarks(std::vector<std::string>& lines) {
  for (std::size_t i = 0; i < lines.size();) {
    std::size_t end = i, column = 0;
    while (end < lines.size() && remark_in(lines[end]) != std::string::npos) {
      column = std::max(column, remark_in(lines[end]) + 1);
      ++end;
    }
    for (std::size_t k = i; k < end && end - i > 1; ++k) {
      const std::size_t at = remark_in(lines[k]);
      lines[k].insert(at, column - at - 1, ' ');
    }
    i = std::max(end, i + 1);
  }
}

void drop_empty_lines(std::vector<std::string>& lines) {
  while (!lines.empty() && lines.front().empty()) lines.erase(lines.begin());
  const auto doubled =
      std::unique(lines.begin(), lines.end(),
                  [](const std::string& a, const std::string& b) {
                    return a.empty() && b.empty();
                  });
  lines.erase(doubled, lines.end());
  while (!lines.empty() && lines.back().empty()) lines.pop_back();
}

}  // namespace

std::string Service::formatted(const std::string& path) {
  const TextReading& reading = *state(path).now;
  if (reading.file == nullptr) return "";
  const std::string& text = reading.file->text();
  if (reading.kind == FileKind::sentences) return text;
  Diagnostics faults;
  const Value before = read_yaml(*reading.file, faults);
  if (faults.has_errors()) return text;
  std::vector<std::string> lines = lines_of(text);
  // Each step is taken only if the file says the same after it.
  for (const auto step :
       {space_values, indent_lines, align_remarks, drop_empty_lines}) {
    std::vector<std::string> tried = lines;
    step(tried);
    const SourceFile copy(path, joined(tried));
    const Value after = read_yaml(copy, faults);
    if (!faults.has_errors() && same(before, after)) lines = std::move(tried);
    faults = {};
  }
  const SourceFile copy(path, joined(lines));
  const Value after = read_yaml(copy, faults);
  return !faults.has_errors() && same(before, after) ? joined(lines) : text;
}

}  // namespace sheaf
