// Messages as text: the line of the file that each speaks of, with the right
// characters underlined even where letters carry marks or the line is long.

#include <fmt/format.h>

#include <algorithm>

#include "base/diagnostics.h"
#include "base/private_text.h"
#include "base/utf8.h"

namespace sheaf {

namespace {

struct Colours {
  std::string_view error, warning, note, help, bold, off;
};
constexpr Colours kPlain = {"", "", "", "", "", ""};
constexpr Colours kAnsi = {"\x1b[1;31m", "\x1b[1;35m", "\x1b[1;36m",
                           "\x1b[1;32m", "\x1b[1m",    "\x1b[0m"};

// What part of a long line is shown, in characters before and after the place.
constexpr std::size_t kShownBefore = 60;
constexpr std::size_t kShownAfter = 40;
// Words of a line among which one is found at a glance.
constexpr int kEasilyCounted = 5;

struct Excerpt {
  std::string before, marked, after;
  /// Which word of the line the place begins with, from 1, where it is hidden
  /// among many; else 0.
  int word = 0;
};

// Cuts `text` to its last `count` characters, with an ellipsis if any is lost.
std::string tail(std::string_view text, std::size_t count) {
  const bool far = text.size() > 16 * count;
  if (far) text.remove_prefix(text.size() - 16 * count);
  const auto parts = characters(text);
  if (!far && parts.size() <= count) return std::string(text);
  const std::size_t first = parts.size() - std::min(count, parts.size());
  std::string result = "…";
  for (std::size_t i = first; i < parts.size(); ++i) result += parts[i];
  return result;
}

std::string head(std::string_view text, std::size_t count) {
  const bool far = text.size() > 16 * count;
  const auto parts = characters(far ? text.substr(0, 16 * count) : text);
  if (!far && parts.size() <= count) return std::string(text);
  std::string result;
  for (std::size_t i = 0; i < std::min(count, parts.size()); ++i) {
    result += parts[i];
  }
  return result + "…";
}

// The line up to its remark, if one begins behind `from`: in a file about
// learners it may say whose code stands there.
std::string_view without_remark(std::string_view line, std::size_t from) {
  for (std::size_t at = line.find('#', from); at != std::string_view::npos;
       at = line.find('#', at + 1)) {
    if (at == from || (line[at - 1] != ' ' && line[at - 1] != '\t')) continue;
    const std::size_t last = line.find_last_not_of(" \t", at - 1);
    return line.substr(0, last == std::string_view::npos ? 0 : last + 1);
  }
  return line;
}

Excerpt excerpt_of(const Span& span, int line_number) {
  std::string_view line = span.file->line(line_number);
  const std::uint32_t begin = span.file->line_begin(line_number);
  const bool hidden = span.file->is_private();
  if (hidden) line = without_remark(line, span.begin - begin);
  const std::size_t from =
      std::min<std::size_t>(span.begin - begin, line.size());
  const std::size_t to =
      std::clamp<std::size_t>(span.end - begin, from, line.size());
  const std::string_view marked = line.substr(from, to - from);
  // A tab takes one column, as it counts for one.
  const auto shown = [&](std::string_view part) {
    std::string text = hidden ? without_names(part) : std::string(part);
    std::ranges::replace(text, '\t', ' ');
    return text;
  };
  return {printable(tail(shown(line.substr(0, from)), kShownBefore)),
          printable(head(shown(marked), kShownBefore)),
          printable(head(shown(line.substr(to)), kShownAfter)),
          hidden && may_be_name(marked) && count_words(line) > kEasilyCounted
              ? count_words(line.substr(0, from)) + 1
              : 0};
}

class Printer {
 public:
  explicit Printer(bool colour) : c_(colour ? kAnsi : kPlain) {}

  void print(const Diagnostic& d) {
    const auto [word, paint] = heading(d.severity);
    message(d.span, word, paint, fmt::format("{} [{}]", d.text, d.name->name));
    for (const Remark& r : d.remarks) message(r.span, "note", c_.note, r.text);
    if (!d.help.empty()) {
      out_ += fmt::format("  {}help:{} {}\n", c_.help, c_.off, d.help);
    }
  }

  void line(std::string_view text) { (out_ += text) += '\n'; }
  std::string take() { return std::move(out_); }

 private:
  std::pair<std::string_view, std::string_view> heading(Severity severity) {
    switch (severity) {
      case Severity::error:
        return {"error", c_.error};
      case Severity::warning:
        return {"warning", c_.warning};
      case Severity::note:
        break;
    }
    return {"note", c_.note};
  }

  void message(const Span& span, std::string_view word, std::string_view paint,
               std::string_view text) {
    if (!span) {
      out_ += fmt::format("{}{}:{} {}\n", paint, word, c_.off, text);
      return;
    }
    if (span.is_whole()) {
      out_ += fmt::format("{}{}:{} {}{}:{} {}\n", c_.bold,
                          printable(span.file->name()), c_.off, paint, word,
                          c_.off, text);
      return;
    }
    const auto [line, column] = span.file->place_of(span.begin);
    out_ += fmt::format("{}{}:{}:{}:{} {}{}:{} {}\n", c_.bold,
                        printable(span.file->name()), line, column, c_.off,
                        paint, word, c_.off, text);
    const Excerpt e = excerpt_of(span, line);
    const std::string number = fmt::format("{:>4}", line);
    const std::string_view tilde = "~";
    std::string underline = "^";
    for (int i = 1; i < display_width(e.marked); ++i) underline += tilde;
    out_ += fmt::format("{} | {}{}{}\n", number, e.before, e.marked, e.after);
    // Among many ellipses nobody finds the one that is meant.
    const std::string which =
        e.word == 0 ? "" : fmt::format(" word {} of this line", e.word);
    out_ += fmt::format("     | {:{}}{}{}{}{}\n", "", display_width(e.before),
                        paint, underline, c_.off, which);
  }

  const Colours& c_;
  std::string out_;
};

}  // namespace

std::string to_text(const Diagnostics& diagnostics,
                    const PrintOptions& options) {
  Printer printer(options.colour);
  const auto sorted = diagnostics.sorted();
  // Where there is no room for all, the errors are what must be read.
  int errors = std::min(diagnostics.error_count(), options.limit);
  int others = options.limit - errors;
  std::size_t printed = 0;
  for (const Diagnostic* d : sorted) {
    int& room = d->severity == Severity::error ? errors : others;
    if (room == 0) continue;
    --room;
    printer.print(*d);
    ++printed;
  }
  if (printed < sorted.size()) {
    printer.line(
        fmt::format("… and {} more messages", sorted.size() - printed));
  }
  return printer.take();
}

}  // namespace sheaf
