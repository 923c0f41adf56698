#include "input/yaml_line_faults.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/written_text.h"
#include "input/file_kind.h"
#include "input/yaml_lines.h"

namespace sheaf {

namespace {

constexpr std::size_t kLongestShown = 60;

// Finds out why a line does not begin with a key and a colon.
class LineExplainer {
 public:
  LineExplainer(const SourceFile& file, std::string_view source, std::size_t at,
                Diagnostics& diagnostics)
      : file_(file),
        source_(source),
        diagnostics_(diagnostics),
        line_(line_around(source, at)) {}

  void explain() {
    if (dash_without_space() || colon_without_space() || line_without_dash() ||
        not_beneath_key() || after_comment()) {
      return;
    }
    const std::string_view text = line_.text();
    const std::size_t space = text.find(' ');
    const bool key_like =
        space != std::string_view::npos &&
        std::all_of(text.begin(), text.begin() + space, is_letter_of_key);
    const std::string_view key = key_like ? text.substr(0, space) : "";
    const bool known = is_key_of_a_file(key);
    Help help =
        "if it goes on from the line above, begin it with two spaces; if it "
        "begins something new, put a colon after its key";
    if (!line_above(line_)) {
      help = "begin the line with a key and a colon, as in `pattern: sh`";
    }
    if (known || (!line_above(line_) && key_like)) {
      const std::size_t value =
          std::min(text.find_first_not_of(" =", space), text.size());
      help = {fmt::format(
                  "put a colon after the key, as in {}",
                  as_written(fmt::format("{}: {}", key, text.substr(value)))),
              {{span(line_.first + space, line_.first + value), ": ",
                fmt::format("a colon is now after {}",
                            known ? std::string(key) : as_written(key)),
                known}}};
    }
    report(diagnostic::missing_colon, line_.first, line_.end,
           "this line has no key with a colon after it", std::move(help));
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
  std::string key_of(const FileLine& line) const {
    const std::size_t from = line.content();
    return as_written(source_.substr(from, line.colon().value_or(from) - from));
  }

  bool dash_without_space() {
    const std::string_view text = line_.text();
    if (text.size() < 2 || text[0] != '-' || text[1] == '-') return false;
    report(
        diagnostic::missing_space, line_.first, line_.first + 1,
        "there is no space after the dash",
        {fmt::format("write {}; if the dash belongs to the text, put the text "
                     "in quotes",
                     as_written(fmt::format("- {}", text.substr(1)))),
         {{span(line_.first + 1, line_.first + 1), " ",
           "a space is now after the dash"}}});
    return true;
  }

  bool colon_without_space() {
    const std::string_view text = line_.text();
    const auto end = std::ranges::find_if_not(text, is_letter_of_key);
    const std::size_t size = end - text.begin();
    if (size == 0 || size == text.size() || text[size] != ':') return false;
    report(diagnostic::missing_space, line_.first + size,
           line_.first + size + 1, "there is no space after the colon",
           {fmt::format("write {}",
                        as_written(fmt::format("{}: {}", text.substr(0, size),
                                               text.substr(size + 1)))),
            {{span(line_.first + size + 1, line_.first + size + 1), " ",
              "a space is now after the colon",
              is_key_of_a_file(text.substr(0, size))}}});
    return true;
  }

  bool line_without_dash() {
    const auto above = line_above(line_);
    if (!above || !above->dash() || line_.indent() > above->indent()) {
      return false;
    }
    report(diagnostic::bad_list, line_.first, line_.end,
           "this line has no dash, but the line above has one",
           "begin it with `- `, or with more spaces if it goes on from the "
           "line above");
    return true;
  }

  bool after_comment() {
    const auto above = line_above(line_);
    if (!above || line_.indent() <= above->indent()) return false;
    const std::size_t sign = above->text().find(" #");
    if (sign == std::string_view::npos) return false;
    Diagnostic& d = report(diagnostic::comment_in_text, line_.first, line_.end,
                           "the text above ends at its comment, and this line "
                           "does not belong to it",
                           "move the comment to a line of its own above the "
                           "key");
    d.remarks.push_back(
        {span(above->first + sign + 1, above->end), "the comment"});
    return true;
  }

  bool not_beneath_key() {
    const auto above = line_above(line_);
    if (!above || !above->colon() || line_.indent() > above->indent()) {
      return false;
    }
    const std::string_view value =
        source_.substr(above->value(), above->end - above->value());
    if (!value.empty() && value[0] != '|' && value[0] != '>') return false;
    Diagnostic& d = report(
        diagnostic::wrong_indentation, line_.first, line_.end,
        fmt::format("this line does not begin further right than {} above it",
                    key_of(*above)),
        "begin each line that belongs to a key with two spaces");
    d.remarks.push_back({span(above->first, above->end), "the key above it"});
    return true;
  }

  const SourceFile& file_;
  std::string_view source_;
  Diagnostics& diagnostics_;
  FileLine line_;
};

}  // namespace

bool is_letter_of_key(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '-' ||
         c == '_';
}

std::string in_quotes(std::string_view text) {
  if (text.empty() || text.size() > kLongestShown ||
      text.find('\\') != std::string_view::npos ||
      text.find('\n') != std::string_view::npos) {
    return {};
  }
  const char quote = text.find('"') == std::string_view::npos    ? '"'
                     : text.find('\'') == std::string_view::npos ? '\''
                                                                 : '\0';
  if (quote == '\0') return {};
  return fmt::format("{}{}{}", quote, text, quote);
}

void explain_missing_colon(const SourceFile& file, std::string_view source,
                           std::size_t at, Diagnostics& diagnostics) {
  LineExplainer(file, source, at, diagnostics).explain();
}

void explain_open_quote(const SourceFile& file, std::string_view source,
                        std::size_t at, Diagnostics& diagnostics) {
  const std::size_t end = std::max(at, line_around(source, at).end);
  diagnostics.error(
      diagnostic::unclosed_quote,
      {&file, static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(end)},
      "the quote that begins here is not closed",
      source[at] == '\''
          ? "put a `'` at the end of the text; if the first one is an "
            "apostrophe, put the text in double quotes"
          : Help("put a `\"` at the end of the text",
                 {{{&file, static_cast<std::uint32_t>(end),
                    static_cast<std::uint32_t>(end)},
                   "\"",
                   "the quote is now closed at the end of the line"}}));
}

void explain_special_sign(const SourceFile& file, std::string_view source,
                          std::size_t at, Diagnostics& diagnostics) {
  const FileLine line = line_around(source, at);
  const std::string better = in_quotes(source.substr(at, line.end - at));
  diagnostics.error(
      diagnostic::special_sign,
      {&file, static_cast<std::uint32_t>(at),
       static_cast<std::uint32_t>(std::max(at, line.end))},
      fmt::format("this text begins with {}, which has a special meaning at "
                  "the start of a text",
                  source[at] == '`' ? std::string("a backtick")
                                    : fmt::format("`{}`", source[at])),
      better.empty()
          ? Help("put the text in quotes, or write it as a line under `|`")
          : Help(fmt::format("put the text in quotes, as in `{}`, or write it "
                             "as a line under `|`",
                             written(better)),
                 {quotes_around({&file, static_cast<std::uint32_t>(at),
                                 static_cast<std::uint32_t>(line.end)},
                                better)}));
}

Fix quotes_around(const Span& text, std::string better) {
  return {text, std::move(better), "the text is now in quotes"};
}

}  // namespace sheaf
