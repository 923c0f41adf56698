#include "input/yaml_builder.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/utf8.h"
#include "input/raw_text.h"
#include "input/yaml_line_faults.h"
#include "input/yaml_lines.h"
#include "input/yaml_places.h"

namespace sheaf {

namespace {

constexpr std::size_t kDeepest = 16;
// Far above what any lesson or record holds; they keep a hostile file small
// in memory.
constexpr int kMostValues = 50'000;
constexpr std::size_t kMostKeys = 5'000;

bool begins_with_curly(std::string_view text) {
  return text.starts_with("“") || text.starts_with("”") ||
         text.starts_with("„");
}

// Whether curly quotes stand around the whole text, and nowhere inside.
bool in_curly_quotes(std::string_view text) {
  constexpr std::size_t kSize = std::string_view("“").size();
  if (text.size() < 2 * kSize || !begins_with_curly(text)) return false;
  const std::string_view close = text.substr(text.size() - kSize);
  if (close != "”" && close != "“") return false;
  const std::string_view inside = text.substr(kSize, text.size() - 2 * kSize);
  return inside.find("“") == std::string_view::npos &&
         inside.find("”") == std::string_view::npos;
}

// With straight quotes in place of the curly ones, and around them.
std::vector<Fix> straight_quotes(const Span& span) {
  constexpr std::size_t kSize = std::string_view("“").size();
  const std::string_view text = span.text();
  if (!in_curly_quotes(text)) return {};
  const std::string inside =
      in_quotes(text.substr(kSize, text.size() - 2 * kSize));
  const std::string whole = in_quotes(text);
  if (inside.empty() || whole.empty()) return {};
  return {{span, inside, "the quotes around the text are now straight"},
          {span, whole, "straight quotes now stand around the curly ones"}};
}

std::size_t column(std::string_view source, std::size_t at) {
  return at - line_around(source, at).begin;
}

}  // namespace

ValueBuilder::ValueBuilder(const SourceFile& file, std::string_view source,
                           Diagnostics& diagnostics)
    : file_(file), source_(source), diagnostics_(diagnostics) {}

Stop ValueBuilder::stop(std::size_t at, std::string_view reason) const {
  Stop stop;
  stop.source = source_;
  stop.at = at;
  stop.reason = reason;
  stop.last_begin = last_begin_;
  stop.last_end = last_end_;
  for (const Frame& frame : open_) {
    if (frame.brackets) stop.open_bracket = frame.value.span.begin;
  }
  return stop;
}

Span ValueBuilder::span(std::size_t begin, std::size_t end) const {
  return {&file_, static_cast<std::uint32_t>(begin),
          static_cast<std::uint32_t>(std::max(begin, end))};
}

std::size_t ValueBuilder::place(const YAML::Mark& mark) const {
  return mark.pos < 0 ? source_.size()
                      : std::min<std::size_t>(mark.pos, source_.size());
}

void ValueBuilder::OnDocumentStart(const YAML::Mark& mark) {
  if (++documents_ == 1) return;
  const std::size_t at = place(mark);
  if (source_.substr(at).starts_with("---")) {
    diagnostics_.error(diagnostic::second_document, span(at, at + 3),
                       "a line of three dashes begins a second text in the "
                       "same file",
                       "take the line out, or make two files");
  } else {
    explain_stop(file_, stop(at, {}), diagnostics_);
  }
  throw FileRefused();
}

// Anchors, aliases and tags all begin with a sign at the value's own place.
void ValueBuilder::refuse_marks(std::size_t at, YAML::anchor_t anchor) {
  const char sign = at < source_.size() ? source_[at] : '\0';
  if (anchor == 0 && sign != '&' && sign != '*' && sign != '!') return;
  explain_special_sign(file_, source_, std::min(at, source_.size() - 1),
                       diagnostics_);
  throw FileRefused();
}

void ValueBuilder::OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) {
  refuse_marks(place(mark), anchor);
}

void ValueBuilder::OnScalar(const YAML::Mark& mark, const std::string&,
                            YAML::anchor_t anchor, const std::string& text) {
  refuse_marks(place(mark), anchor);
  add_text(place(mark), text);
}

// The library gives no text for what it takes for an empty value: `null` and
// `~`, which are text to us, and values that are not there, for which it names
// the place of whatever comes next.
void ValueBuilder::OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) {
  const std::size_t at = place(mark);
  if (anchor != 0) refuse_marks(at, anchor);
  const std::string word = null_word(at);
  if (!word.empty() && belongs_to_open_value(at)) {
    add_text(at, word);
  } else {
    add_nothing(at);
  }
}

void ValueBuilder::OnSequenceStart(const YAML::Mark& mark, const std::string&,
                                   YAML::anchor_t anchor,
                                   YAML::EmitterStyle::value style) {
  open(place(mark), anchor, Value::Kind::list, style);
}

void ValueBuilder::OnMapStart(const YAML::Mark& mark, const std::string&,
                              YAML::anchor_t anchor,
                              YAML::EmitterStyle::value style) {
  open(place(mark), anchor, Value::Kind::keys, style);
}

void ValueBuilder::open(std::size_t at, YAML::anchor_t anchor, Value::Kind kind,
                        YAML::EmitterStyle::value style) {
  refuse_marks(at, anchor);
  if (open_.size() == kDeepest) {
    diagnostics_.error(
        diagnostic::too_deep, span(at, at + 1),
        fmt::format(
            "there are more than {} levels of lists and keys inside each other",
            kDeepest),
        "put a text with brackets in quotes");
    throw FileRefused();
  }
  const bool list = kind == Value::Kind::list;
  Frame frame;
  frame.value.kind = kind;
  frame.value.span = span(at, at);
  frame.brackets = style == YAML::EmitterStyle::Flow && at < source_.size() &&
                   source_[at] == (list ? '[' : '{');
  if (frame.brackets) {
    next_ = at + 1;
  } else if (list) {
    next_ = at;
  }
  open_.push_back(std::move(frame));
}

void ValueBuilder::close() {
  Frame frame = std::move(open_.back());
  open_.pop_back();
  const std::size_t begin = frame.value.span.begin;
  std::size_t end = std::max(begin, last_end_);
  if (frame.brackets) {
    std::size_t at = skip_blank(source_, next_);
    while (at < source_.size() && source_[at] == ',') {
      at = skip_blank(source_, at + 1);
    }
    end = std::min(at + 1, source_.size());
    next_ = last_end_ = end;
    last_begin_ = begin;
  }
  frame.value.span = span(begin, end);
  add(std::move(frame.value));
}

void ValueBuilder::add(Value value) {
  if (++values_ > kMostValues) {
    diagnostics_.error(diagnostic::file_too_large, value.span,
                       fmt::format("the file has more than {} parts before "
                                   "this one",
                                   kMostValues),
                       "split it into several files");
    throw FileRefused();
  }
  if (open_.empty()) {
    root_ = std::move(value);
    return;
  }
  Frame& frame = open_.back();
  if (frame.value.kind == Value::Kind::list) {
    frame.value.items.push_back(std::move(value));
  } else if (!frame.has_key) {
    add_key(value);
  } else {
    frame.has_key = false;
    const auto [first, fresh] =
        frame.seen.try_emplace(frame.key.value, frame.key.span);
    if (fresh) {
      ValueEntry& entry = frame.value.entries.emplace_back();
      entry.key = std::move(frame.key);
      entry.value = std::move(value);
      return;
    }
    Diagnostic& d =
        diagnostics_.error(diagnostic::repeated_key, frame.key.span,
                           fmt::format("the key {} is here a second time",
                                       as_written(frame.key.value)),
                           "keep everything that belongs to it in one place");
    d.remarks.push_back({first->second, "the first one"});
  }
}

void ValueBuilder::add_key(const Value& value) {
  Frame& frame = open_.back();
  if (value.kind != Value::Kind::text) {
    diagnostics_.error(
        diagnostic::file_form, value.span,
        fmt::format("there is {} where a key should be", describe(value.kind)),
        "begin with a key, which is a word with a colon after it; put a text "
        "with brackets in quotes");
    throw FileRefused();
  }
  const std::size_t colon =
      std::min(source_.find_first_not_of(' ', value.span.end), source_.size());
  // `{fish:fis}` is one key to the library, with nothing after it. Whoever
  // reads the keys says that a space is missing (`report_joined_key`).
  const std::string& key = value.text.text();
  const std::size_t inside = key.find(':');
  const bool joined = frame.brackets && inside != std::string::npos &&
                      inside > 0 && inside + 1 < key.size() &&
                      value.span.text() == key && colon < source_.size();
  if (!joined && (colon == source_.size() || source_[colon] != ':')) {
    // At the end of the file the library takes a word in a list that is not
    // closed for a key.
    if (colon == source_.size() ||
        skip_blank(source_, colon) == source_.size()) {
      const Stop end = stop(source_.size(), "flow");
      if (end.open_bracket != std::string_view::npos) {
        explain_stop(file_, end, diagnostics_);
        throw FileRefused();
      }
    }
    if (frame.brackets) {
      explain_special_sign(file_, source_, frame.value.span.begin,
                           diagnostics_);
    } else {
      explain_missing_colon(file_, source_, value.span.begin, diagnostics_);
    }
    throw FileRefused();
  }
  if (frame.seen.size() == kMostKeys) {
    diagnostics_.error(diagnostic::too_many, value.span,
                       fmt::format("there are more than {} keys before this "
                                   "one",
                                   kMostKeys),
                       "split the file into several");
    throw FileRefused();
  }
  const bool nothing_after = joined && source_[colon] != ':';
  next_ = nothing_after ? value.span.end : colon + 1;
  frame.key = {key, value.span};
  frame.key_place = span(value.span.begin, next_);
  frame.has_key = true;
}

bool ValueBuilder::expects_key() const {
  return !open_.empty() && open_.back().value.kind == Value::Kind::keys &&
         !open_.back().has_key;
}

std::string ValueBuilder::null_word(std::size_t at) const {
  for (const std::string_view word : {"~", "null", "Null", "NULL"}) {
    if (source_.substr(at).starts_with(word)) return std::string(word);
  }
  return {};
}

// The dash of the list item that is being read.
std::size_t ValueBuilder::dash() const {
  return std::min(skip_blank(source_, next_), source_.size());
}

// Whether something that stands at `at` is the value asked for, and not the
// line after a value that is not there.
bool ValueBuilder::belongs_to_open_value(std::size_t at) const {
  if (open_.empty() || expects_key()) return true;
  const Frame& frame = open_.back();
  if (frame.brackets) return true;
  const bool list = frame.value.kind == Value::Kind::list;
  const std::size_t sign = list ? dash() : next_ - 1;
  const std::size_t least =
      column(source_, list ? sign : frame.value.span.begin);
  return line_around(source_, sign).begin == line_around(source_, at).begin ||
         column(source_, at) > least;
}

void ValueBuilder::add_text(std::size_t at, const std::string& text) {
  if (expects_key()) {
    std::size_t sign = skip_blank(source_, next_);
    while (sign < at && std::string_view("-,{[").find(source_[sign]) !=
                            std::string_view::npos) {
      sign = skip_blank(source_, sign + 1);
    }
    if (sign < at && source_[sign] == '?') {
      explain_special_sign(file_, source_, sign, diagnostics_);
      throw FileRefused();
    }
  }
  auto laid = lay_text(file_, source_, at, text);
  if (!laid && at < source_.size() &&
      (source_[at] == '"' || source_[at] == '\'')) {
    explain_open_quote(file_, source_, at, diagnostics_);
    throw FileRefused();
  }
  if (!laid) {
    diagnostics_.error(diagnostic::file_form, span(at, at + 1),
                       "Sheaf cannot follow the text that begins here",
                       "write it as lines under `|`");
    throw FileRefused();
  }
  Value value;
  value.kind = Value::Kind::text;
  value.style = laid->style;
  value.span = laid->text.span();
  value.text = std::move(laid->text);
  next_ = last_end_ = laid->end;
  last_begin_ = at;
  if (value.style == Value::Style::quoted) check_unseen(value);
  if (value.style == Value::Style::bare) {
    check_comment(value, laid->end);
    check_dashes(value);
    check_curly_quotes(value);
  }
  add(std::move(value));
}

void ValueBuilder::add_nothing(std::size_t at) {
  Value value;
  value.span = span(at, at);
  if (expects_key()) {
    const std::size_t sign = std::min(skip_blank(source_, next_), at);
    diagnostics_.error(diagnostic::file_form, span(sign, sign + 1),
                       "there is no key before the colon",
                       "write the key before it, as in `words: …`");
    throw FileRefused();
  }
  if (!open_.empty() && !open_.back().brackets) {
    const bool keys = open_.back().value.kind == Value::Kind::keys;
    const std::size_t sign = dash();
    value.span = keys ? open_.back().key_place : span(sign, sign + 1);
    if (!keys) next_ = std::min(sign + 1, source_.size());
    last_end_ = value.span.end;
    last_begin_ = value.span.begin;
  }
  add(std::move(value));
}

// A sign # with a space before it hides the rest of the line. That is silent,
// so it is told where it does not look like a comment.
void ValueBuilder::check_comment(const Value& value, std::size_t end) {
  const std::size_t sign = source_.find_first_not_of(' ', end);
  if (sign == std::string_view::npos || sign == end || source_[sign] != '#') {
    return;
  }
  const char after = sign + 1 < source_.size() ? source_[sign + 1] : '\n';
  if (after == ' ' || after == '\n' || after == '\r' || after == '#') return;
  const std::size_t line_end = line_around(source_, sign).end;
  std::vector<Fix> fixes;
  const std::string better = in_quotes(source_.substr(
      value.span.begin,
      std::max<std::size_t>(line_end, value.span.begin) - value.span.begin));
  if (!better.empty()) {
    fixes.push_back(quotes_around(span(value.span.begin, line_end), better));
  }
  fixes.push_back({span(sign + 1, sign + 1), " ",
                   "a space is now after the sign #, so it is a comment"});
  diagnostics_.warning(
      diagnostic::comment_in_text, span(sign, line_end),
      fmt::format("the text ends after {}, because ` #` begins a comment",
                  as_written(value.text.text())),
      {"if this belongs to the text, put the whole text in quotes; if it is a "
       "comment, write a space after the `#`",
       std::move(fixes)});
}

// Text over several lines some of which begin with a dash was meant as a list.
void ValueBuilder::check_dashes(const Value& value) {
  if (expects_key()) return;
  for (const Frame& frame : open_) {
    if (frame.brackets) return;
  }
  FileLine line = line_around(source_, value.span.begin);
  if (line.first == value.span.begin && line.text().size() > 1 &&
      line.text()[0] == '-' && line.text()[1] != '-') {
    explain_missing_colon(file_, source_, value.span.begin, diagnostics_);
    throw FileRefused();
  }
  const std::size_t last = line_around(source_, value.span.end).begin;
  while (line.begin != last) {
    line = line_around(source_, source_.find('\n', line.end) + 1);
    if (!line.dash()) continue;
    diagnostics_.error(
        diagnostic::bad_list, span(line.first, line.first + 1),
        "this line begins with a dash, but the text above it does not",
        "begin every line of the list with `- `, all in the same column");
    throw FileRefused();
  }
}

void ValueBuilder::check_curly_quotes(const Value& value) {
  const std::string& text = value.text.text();
  if (!begins_with_curly(text)) return;
  const bool in_list =
      !open_.empty() && open_.back().value.kind == Value::Kind::list;
  const bool split =
      in_list && open_.back().brackets && text.find("”") == std::string::npos;
  if (!split && (in_list || !in_curly_quotes(text))) return;
  diagnostics_.error(
      diagnostic::bad_quotes, value.span,
      in_list ? "the comma ends this text: curly quotes do not hold it together"
              : "curly quotes do not hold a text together",
      in_list
          ? "use straight quotes (\") around it, or write the list with "
            "each `- ` on a line of its own"
          : Help("use straight quotes (\"); to have the curly ones printed, "
                 "put straight ones around them",
                 straight_quotes(value.span)));
}

void ValueBuilder::check_unseen(const Value& value) {
  const std::string& text = value.text.text();
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t begin = at;
    const auto name = unseen_character(next_code_point(text, at));
    if (!name) continue;
    diagnostics_.error(diagnostic::bad_character, value.text.span_of(begin, at),
                       fmt::format("{} is written here", *name), "take it out");
    return;
  }
}

}  // namespace sheaf
