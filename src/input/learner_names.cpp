#include "input/learner_names.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/learner_keys.h"
#include "base/utf8.h"
#include "input/class_file.h"
#include "input/fields.h"

namespace sheaf {

namespace {

// Known again by its text where messages are passed on.
const std::string& bad_code_help() {
  static const std::string help =
      fmt::format("use a code: {}; Sheaf wants no names", kLearnerCodeForm);
  return help;
}

int line_of(const Span& span) { return span.file->place_of(span.begin).line; }

bool shows(const Span& span, const std::set<int>& lines) {
  return span && !span.is_whole() && lines.contains(line_of(span));
}

bool is_of_learners(std::string_view key) {
  return std::ranges::find(kLearnerKeys, key) != std::end(kLearnerKeys);
}

bool is_setting(std::string_view text) {
  const std::vector<KeyNote> keys = learner_keys();
  return std::ranges::find(keys, text, &KeyNote::name) != keys.end();
}

void note_code(const std::string& code, const Span& span,
               std::set<int>& lines) {
  const std::string text = normalized(code);
  // A setting that stands too far left is no name.
  if (text == kAll || is_learner_code(text) || is_setting(text)) return;
  lines.insert(line_of(span));
}

// Everything that stands where only codes belong, however deep.
void note_all(const Value& value, std::set<int>& lines) {
  if (value.kind == Value::Kind::text) {
    note_code(value.text.text(), value.span, lines);
  }
  for (const Value& item : value.items) note_all(item, lines);
  for (const ValueEntry& entry : value.entries) {
    note_code(entry.key.value, entry.key.span, lines);
    note_all(entry.value, lines);
  }
}

void look_through(const Value& keys, std::set<int>& lines) {
  for (const ValueEntry& entry : keys.entries) {
    const std::string& key = entry.key.value;
    if (key == "records") {
      for (const Value& item : entry.value.items) look_through(item, lines);
    } else if (is_of_learners(key)) {
      for (const ValueEntry& learner : entry.value.entries) {
        note_code(learner.key.value, learner.key.span, lines);
      }
      if (entry.value.kind == Value::Kind::keys) continue;
      for (const Value& item : entry.value.items) {
        if (item.kind != Value::Kind::text) note_all(item, lines);
      }
      Diagnostics unheard;
      for (const PlacedWord& code :
           read_names({.key = key, .value = entry.value}, SIZE_MAX, unheard)) {
        note_code(code.value, code.span, lines);
      }
    }
  }
}

}  // namespace

void report_bad_code(const Span& place, const Span& code,
                     Diagnostics& diagnostics) {
  const int line = line_of(code);
  // A message shows its line, and this one must not.
  const bool apart = place && line_of(place) != line;
  diagnostics
      .error(diagnostic::wrong_value, apart ? place : Span::whole(code.file),
             fmt::format("the learner in line {} has no short code", line),
             bad_code_help())
      .unshown = code;
}

std::set<int> lines_with_names(const Value& keys) {
  std::set<int> lines;
  look_through(keys, lines);
  return lines;
}

namespace {

// A text about a line, with what it quotes of the line left out.
std::string without_quotes(std::string_view text, std::string_view line) {
  std::string result;
  while (!text.empty()) {
    const std::size_t begin = text.find('`');
    const std::size_t end =
        begin == std::string_view::npos ? begin : text.find('`', begin + 1);
    if (end == std::string_view::npos) break;
    std::string_view quoted = text.substr(begin + 1, end - begin - 1);
    // The help may put the text in quotes.
    if (quoted.size() > 2 && quoted.front() == '"' && quoted.back() == '"') {
      quoted = quoted.substr(1, quoted.size() - 2);
    }
    const bool shows =
        line.find(quoted) != std::string_view::npos &&
        std::ranges::any_of(quoted,
                            [](char c) {
                              return c == ' ' ||
                                     static_cast<unsigned char>(c) > '9';
                            }) &&
        quoted.size() > 1 && !is_of_learners(quoted) && !is_setting(quoted);
    result += text.substr(0, begin);
    result += shows ? "…" : text.substr(begin, end - begin + 1);
    text.remove_prefix(end + 1);
  }
  result.append(text);
  constexpr std::string_view kLeftOut = "…";
  if (result.starts_with(kLeftOut)) result.replace(0, kLeftOut.size(), "this");
  return result;
}

Diagnostic& add(const Diagnostic& d, const Span& span, std::string text,
                Help help, Diagnostics& diagnostics) {
  switch (d.severity) {
    case Severity::error:
      return diagnostics.error(*d.name, span, std::move(text), std::move(help));
    case Severity::warning:
      return diagnostics.warning(*d.name, span, std::move(text),
                                 std::move(help));
    default:
      return diagnostics.note(*d.name, span, std::move(text), std::move(help));
  }
}

// Its fixes, if they say nothing of what stands there.
std::vector<Fix> fixes_of_blanks(const Diagnostic& d) {
  if (d.name != &diagnostic::tab_in_indentation) return {};
  return d.fixes;
}

// The place, and nothing of what stands there.
void add_unshown(const Diagnostic& d, Diagnostics& diagnostics) {
  if (!d.span || d.span.is_whole()) {
    add(d, d.span, d.text, {d.help, d.fixes}, diagnostics);
    return;
  }
  const std::string_view line = d.span.file->line(line_of(d.span));
  add(d, d.span, without_quotes(d.text, line),
      {without_quotes(d.help, line), fixes_of_blanks(d)}, diagnostics);
}

// A key that is like none that Sheaf knows may be somebody's name.
bool is_strange_key(const Diagnostic& d) {
  return d.name == &diagnostic::unknown_key &&
         !d.help.starts_with("did you mean") &&
         !d.help.starts_with("it belongs in the file of");
}

}  // namespace

void pass_on_form_faults(const Diagnostics& found, Diagnostics& diagnostics) {
  for (const Diagnostic* d : found.sorted()) add_unshown(*d, diagnostics);
}

void pass_on_without_names(const Diagnostics& found, std::set<int> lines,
                           Diagnostics& diagnostics) {
  for (const Diagnostic* d : found.sorted()) {
    if (is_strange_key(*d)) lines.insert(line_of(d->span));
  }
  for (const Diagnostic* d : found.sorted()) {
    const bool hidden = shows(d->span, lines);
    if (hidden && d->help != bad_code_help()) {
      add_unshown(*d, diagnostics);
      continue;
    }
    const Span span = hidden ? Span::whole(d->span.file) : d->span;
    Diagnostic& passed =
        add(*d, span, d->text, {d->help, d->fixes}, diagnostics);
    passed.unshown = d->unshown;
    for (const Remark& remark : d->remarks) {
      if (!shows(remark.span, lines)) passed.remarks.push_back(remark);
    }
  }
}

}  // namespace sheaf
