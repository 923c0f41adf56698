// Turns the places where the YAML library gives up into words that a teacher
// can act on. The library's own text only chooses which question to ask of the
// lines around the place.

#include "input/yaml_faults.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/written_text.h"
#include "input/yaml_line_faults.h"
#include "input/yaml_lines.h"
#include "input/yaml_places.h"

namespace sheaf {

namespace {

class Explainer {
 public:
  Explainer(const SourceFile& file, const Stop& stop, Diagnostics& diagnostics)
      : file_(file),
        stop_(stop),
        source_(stop.source),
        diagnostics_(diagnostics),
        at_(std::min(stop.at, stop.source.size())),
        line_(line_around(stop.source, at_)) {}

  void explain() {
    if (by_reason() || by_what_was_read() || by_line()) return;
    if (at_ < line_.end && (at_ == line_.value() || at_ == line_.content())) {
      explain_special_sign(file_, source_, at_, diagnostics_);
    } else {
      report(diagnostic::file_form, at_, line_.end,
             "Sheaf cannot tell what this part of the line is",
             "a line should look like `key: value`; put a text in quotes if "
             "there are signs in it");
    }
  }

 private:
  Diagnostic& report(const DiagnosticName& name, std::size_t begin,
                     std::size_t end, std::string text, Help help) {
    return diagnostics_.error(name, span(begin, std::max(begin, end)),
                              std::move(text), std::move(help));
  }
  Span span(std::size_t begin, std::size_t end) const {
    return {&file_, static_cast<std::uint32_t>(begin),
            static_cast<std::uint32_t>(end)};
  }
  bool reason_is(std::string_view part) const {
    return stop_.reason.find(part) != std::string_view::npos;
  }

  // What the library said leaves no doubt.
  bool by_reason() {
    if (reason_is("quoted") || reason_is("in scalar")) return open_quote();
    if (reason_is("hex number") || reason_is("unicode") ||
        reason_is("escape character")) {
      return backslash();
    }
    if (reason_is("block scalar")) return text_after_bar();
    if (reason_is("block entry")) {
      const bool in_brackets = stop_.open_bracket != std::string_view::npos;
      report(diagnostic::bad_list, at_, at_ + 1,
             in_brackets
                 ? "there is a dash among words in brackets"
                 : "a list with dashes begins on the same line as its key",
             in_brackets ? "separate the words with commas, without dashes"
                         : "begin the list on the next line, with each `- ` on "
                           "a line of its own");
      return true;
    }
    if (reason_is("illegal flow end")) {
      report(diagnostic::unclosed_bracket, at_, at_ + 1,
             fmt::format("this `{}` closes a bracket that was never opened",
                         source_.substr(at_, 1)),
             "take it out, or put the text in quotes if it belongs there");
      return true;
    }
    if (reason_is("unknown token") || reason_is("alias") ||
        reason_is("anchor") || reason_is("tag") || reason_is("map key")) {
      return special_sign();
    }
    return false;
  }

  // The library stops at the sign or behind it.
  bool special_sign() {
    std::size_t at = at_;
    if (at > 0 && (source_[at - 1] == '*' || source_[at - 1] == '&')) --at;
    if (at >= source_.size() || source_[at] == '\n') return false;
    const FileLine line = line_around(source_, at);
    if (source_.substr(at, 2) == "* " && at == line.first) {
      const std::string_view text = source_.substr(at + 2, line.end - at - 2);
      report(diagnostic::bad_list, at, at + 1,
             "this line begins with a star, but the lines of a list begin with "
             "a dash",
             {fmt::format("write {}", as_written(fmt::format("- {}", text))),
              {{span(at, at + 1), "-", "the star is now a dash"}}});
    } else {
      explain_special_sign(file_, source_, at, diagnostics_);
    }
    return true;
  }

  // The text that is open where the file ends begins after the last one read.
  bool open_quote() {
    std::size_t at = skip_blank(source_, stop_.last_end);
    while (at < source_.size() &&
           std::string_view("-?:,[]{}").find(source_[at]) !=
               std::string_view::npos) {
      at = skip_blank(source_, at + 1);
    }
    if (at >= source_.size() || (source_[at] != '"' && source_[at] != '\'')) {
      return false;
    }
    explain_open_quote(file_, source_, at, diagnostics_);
    return true;
  }

  bool backslash() {
    const std::size_t slash = source_.rfind('\\', at_);
    if (slash == std::string_view::npos) return false;
    report(diagnostic::bad_quotes, slash, slash + 1,
           "in double quotes a backslash has a special meaning",
           "put the text in single quotes, where a backslash is only a "
           "backslash");
    return true;
  }

  bool text_after_bar() {
    const std::size_t bar = source_.find_last_of("|>", at_);
    if (bar == std::string_view::npos || bar < line_.begin) return false;
    report(diagnostic::special_sign, at_, line_.end,
           fmt::format("text follows the sign `{}` on the same line",
                       source_[bar]),
           "begin the text on the next line, two spaces further right than its "
           "key; if the sign belongs to the text, put the text in quotes");
    return true;
  }

  bool same_line_as_last() const {
    return stop_.last_end > 0 && at_ > stop_.last_begin &&
           source_.substr(stop_.last_end - 1, at_ - stop_.last_end + 1)
                   .find('\n') == std::string_view::npos;
  }

  // Something follows a quoted text or a bracket that cannot follow it.
  bool by_what_was_read() {
    if (reason_is("flow")) {
      if (same_line_as_last() && after_quote()) return true;
      return in_bracket();
    }
    return same_line_as_last() && (after_quote() || after_bracket());
  }

  bool after_quote() {
    if (at_ >= source_.size()) return false;
    const char quote = source_[stop_.last_begin];
    if (quote != '"' && quote != '\'') return false;
    const std::string_view quoted =
        source_.substr(stop_.last_begin, stop_.last_end - stop_.last_begin);
    const FileLine begins = line_around(source_, stop_.last_begin);
    if (quoted.find('\n') != std::string_view::npos) {
      explain_open_quote(file_, source_, stop_.last_begin, diagnostics_);
      return true;
    }
    const std::string_view whole =
        source_.substr(stop_.last_begin, begins.end - stop_.last_begin);
    const bool apostrophe = quote == '\'' && at_ == stop_.last_end &&
                            is_letter_of_key(source_[at_]);
    if (apostrophe) {
      std::string inside(whole.substr(1));
      if (inside.ends_with('\'')) inside.pop_back();
      const std::string better = in_quotes(inside);
      report(diagnostic::bad_quotes, stop_.last_end - 1, stop_.last_end,
             "this apostrophe ends the text, which begins with the same sign",
             better.empty()
                 ? Help("put the text in double quotes")
                 : Help(fmt::format("put the text in double quotes: `{}`",
                                    written(better)),
                        {quotes_around(span(stop_.last_begin, begins.end),
                                       better)}));
      return true;
    }
    const bool in_list = stop_.open_bracket != std::string_view::npos;
    if (in_list && (source_[at_] == '"' || source_[at_] == '\'')) {
      report_missing_comma();
      return true;
    }
    const std::string better = in_list ? std::string() : in_quotes(whole);
    report(
        diagnostic::bad_quotes, at_, begins.end,
        "text goes on after the closing quote",
        better.empty()
            ? Help("put other quotes around the whole text, or write it as a "
                   "line under `|`")
            : Help(
                  fmt::format("put other quotes around the whole text, as "
                              "in `{}`, or write it as a line under `|`",
                              written(better)),
                  {quotes_around(span(stop_.last_begin, begins.end), better)}));
    return true;
  }

  bool after_bracket() {
    const char close = source_[stop_.last_end - 1];
    if (close != ']' && close != '}') return false;
    explain_special_sign(file_, source_, stop_.last_begin, diagnostics_);
    return true;
  }

  void report_missing_comma() {
    report(diagnostic::bad_list, at_, at_ + 1,
           "a comma is missing before this part of the list",
           {"put a comma between the parts, or write each on a line of its own "
            "after `- `",
            {{span(stop_.last_end, stop_.last_end), ",",
              "a comma is now between the parts"}}});
  }

  bool in_bracket() {
    if (stop_.open_bracket == std::string_view::npos) return false;
    const bool to_the_end = skip_blank(source_, at_) >= source_.size();
    const bool same_line =
        line_around(source_, stop_.open_bracket).begin == line_.begin;
    if (!to_the_end && same_line) {
      report_missing_comma();
      return true;
    }
    const char open = source_[stop_.open_bracket];
    report(diagnostic::unclosed_bracket, stop_.open_bracket,
           line_around(source_, stop_.open_bracket).end,
           fmt::format("the `{}` that begins here is not closed", open),
           fmt::format("put a `{}` at the end; if it belongs to a text, put "
                       "the text in quotes",
                       open == '[' ? ']' : '}'));
    return true;
  }

  // The line that holds the place does not fit those above it.
  bool by_line() {
    if (reason_is("map value")) return colon_too_many();
    if (line_.blank() || at_ != line_.first) return false;
    const auto above = line_above(line_);
    if (!above) return false;
    if (line_.dash()) {
      wrong_column(*above, "this dash",
                   "start every `- ` of a list in the same column");
    } else if (line_.colon()) {
      wrong_column(*above, key_of(line_),
                   "start keys that belong together in the same column");
    } else {
      explain_missing_colon(file_, source_, line_.first, diagnostics_);
    }
    return true;
  }

  std::string key_of(const FileLine& line) const {
    const std::size_t from = line.content();
    return as_written(source_.substr(from, line.colon().value_or(from) - from));
  }

  void wrong_column(const FileLine& above, std::string_view what,
                    std::string_view help) {
    const std::size_t end = line_.colon().value_or(line_.first + 1);
    Diagnostic& d = report(
        diagnostic::wrong_indentation, line_.first, end,
        fmt::format("{} does not begin in the same column as the {} above it",
                    what, line_.dash() ? "dash" : "key"),
        std::string(help));
    d.remarks.push_back({span(above.first, above.end), "the line above it"});
  }

  bool colon_too_many() {
    const auto first = line_.colon();
    if (!first) return false;
    if (*first < at_) {
      second_colon(*first);
      return true;
    }
    // A key that the library took for the end of the text above it.
    auto above = line_above(line_);
    if (!above) return false;
    FileLine top = *above;
    while (above && !above->colon() && !above->dash()) {
      top = *above;
      above = line_above(*above);
    }
    if (!above || top.indent() <= above->indent()) {
      line_ = top.colon() ? line_ : top;
      if (top.colon()) {
        wrong_column(top, key_of(line_),
                     "start keys that belong together in the same column");
      } else {
        explain_missing_colon(file_, source_, line_.first, diagnostics_);
      }
      return true;
    }
    const std::string_view key =
        source_.substr(line_.content(), *first - line_.content());
    if (std::ranges::all_of(key, is_letter_of_key)) {
      wrong_column(*above, key_of(line_),
                   "start keys that belong together in the same column");
    } else {
      report(diagnostic::colon_in_text, *first, *first + 1,
             fmt::format("the colon after {} turns it into a key",
                         as_written(key)),
             "write the lines under `|`, or put this one in quotes");
    }
    return true;
  }

  void second_colon(std::size_t first) {
    const std::size_t value = line_.value();
    const std::string_view key =
        source_.substr(line_.content(), first - line_.content());
    const std::string better =
        in_quotes(source_.substr(value, line_.end - value));
    report(diagnostic::colon_in_text, at_, at_ + 1,
           fmt::format("the second colon in this line turns {} into a key",
                       as_written(source_.substr(value, at_ - value))),
           better.empty() || key.size() > 40
               ? Help("put the text after the first colon in quotes")
               : Help(fmt::format("put the text in quotes: `{}`",
                                  written(fmt::format("{}: {}", key, better))),
                      {quotes_around(span(value, line_.end), better)}));
  }

  const SourceFile& file_;
  const Stop& stop_;
  std::string_view source_;
  Diagnostics& diagnostics_;
  std::size_t at_;
  FileLine line_;
};

}  // namespace

void explain_stop(const SourceFile& file, const Stop& stop,
                  Diagnostics& diagnostics) {
  Explainer(file, stop, diagnostics).explain();
}

}  // namespace sheaf
