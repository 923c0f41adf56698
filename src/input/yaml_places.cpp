#include "input/yaml_places.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <vector>

#include "base/utf8.h"

namespace sheaf {

namespace {

bool is_blank(char c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

// What a backslash in double quotes stands for (YAML 1.2, section 5.7).
struct Escape {
  std::string text;
  std::size_t length = 0;  ///< in the file, backslash included
};

std::optional<Escape> read_escape(std::string_view source) {
  if (source.size() < 2) return std::nullopt;
  struct Simple {
    char letter;
    std::string_view text;
  };
  using namespace std::string_view_literals;
  constexpr std::array<Simple, 19> kSimple = {{{'0', "\0"sv},
                                               {'a', "\a"},
                                               {'b', "\b"},
                                               {'t', "\t"},
                                               {'\t', "\t"},
                                               {'n', "\n"},
                                               {'v', "\v"},
                                               {'f', "\f"},
                                               {'r', "\r"},
                                               {'e', "\x1B"},
                                               {' ', " "},
                                               {'"', "\""},
                                               {'\'', "'"},
                                               {'\\', "\\"},
                                               {'/', "/"},
                                               {'N', "\xC2\x85"},
                                               {'_', "\xC2\xA0"},
                                               {'L', "\xE2\x80\xA8"},
                                               {'P', "\xE2\x80\xA9"}}};
  const char letter = source[1];
  for (const Simple& simple : kSimple) {
    if (simple.letter == letter) return Escape{std::string(simple.text), 2};
  }
  const std::size_t digits = letter == 'x'   ? 2
                             : letter == 'u' ? 4
                             : letter == 'U' ? 8
                                             : 0;
  if (digits == 0 || source.size() < 2 + digits) return std::nullopt;
  const std::string_view number = source.substr(2, digits);
  std::uint32_t code_point = 0;
  const auto [end, fault] =
      std::from_chars(number.data(), number.data() + digits, code_point, 16);
  if (fault != std::errc() || end != number.data() + digits) {
    return std::nullopt;
  }
  Escape escape{.length = 2 + digits};
  append_utf8(escape.text, code_point);
  return escape;
}

// Walks over the value and the file together. Blanks on both sides are passed
// in step (folding makes them differ); everything else must be equal.
class Layer {
 public:
  /// `quote` is the sign at `at` that opens a quoted value, else 0.
  Layer(std::string_view source, std::size_t at, char quote,
        std::string_view value)
      : source_(source), value_(value), at_(at), quote_(quote) {}

  bool walk() {
    if (quote_ != '\0') ++at_;
    while (true) {
      pass_blanks();
      if (done_ == value_.size()) break;
      if (at_ >= source_.size() || !match_one()) return false;
      if (first_ == std::string_view::npos) first_ = word_at_;
      last_ = at_;
    }
    if (quote_ == '\0') return true;
    if (at_ >= source_.size() || source_[at_] != quote_) return false;
    last_ = ++at_;
    return true;
  }

  std::vector<PlacedText::Run> take_runs() { return std::move(runs_); }
  /// Where the first character that is no blank stands.
  std::size_t first() const { return first_; }
  /// Where the last one is over.
  std::size_t last() const { return last_; }

 private:
  bool match_one() {
    word_at_ = at_;
    if (quote_ == '"' && source_[at_] == '\\') return match_escape();
    if (quote_ == '\'' && source_.substr(at_, 2) == "''") ++at_;
    if (source_[at_] != value_[done_]) return false;
    mark(at_);
    ++at_;
    ++done_;
    return true;
  }

  bool match_escape() {
    const auto escape = read_escape(source_.substr(at_));
    if (!escape || escape->text.empty() ||
        value_.substr(done_, escape->text.size()) != escape->text) {
      return false;
    }
    // The first byte stands at the backslash and the last at the end, so that
    // the whole of it is underlined.
    const std::size_t end = at_ + escape->length;
    if (escape->text.size() > 1) mark(at_);
    done_ += escape->text.size() - 1;
    mark(end - 1);
    ++done_;
    at_ = end;
    return true;
  }

  void pass_blanks() {
    const bool blank_here = done_ < value_.size() && is_blank(value_[done_]);
    if (blank_here) mark(std::min(at_, source_.size()));
    while (at_ < source_.size()) {
      const std::size_t length = blank_length();
      if (length == 0) break;
      at_ += length;
    }
    while (done_ < value_.size() && is_blank(value_[done_])) ++done_;
  }

  // How much of the file at `at_` is blank, in bytes; 0 if it is not.
  std::size_t blank_length() const {
    if (is_blank(source_[at_])) return 1;
    if (quote_ != '"' || source_[at_] != '\\') return 0;
    const char next = at_ + 1 < source_.size() ? source_[at_ + 1] : '\0';
    if (next == '\n' || next == '\r') return 2;
    const auto escape = read_escape(source_.substr(at_));
    const bool blank =
        escape && escape->text.size() == 1 && is_blank(escape->text.front());
    return blank ? escape->length : 0;
  }

  // Notes that the next byte of the value stands at `place`.
  void mark(std::size_t place) {
    const auto text = static_cast<std::uint32_t>(done_);
    const auto file = static_cast<std::uint32_t>(place);
    if (!runs_.empty() &&
        runs_.back().file + (text - runs_.back().text) == file) {
      return;
    }
    runs_.push_back({text, file});
  }

  std::string_view source_, value_;
  std::size_t at_;
  std::size_t done_ = 0;
  char quote_;
  std::size_t word_at_ = 0;
  std::size_t first_ = std::string_view::npos;
  std::size_t last_ = 0;
  std::vector<PlacedText::Run> runs_;
};

Span span_of(const SourceFile& file, std::size_t begin, std::size_t end) {
  return {&file, static_cast<std::uint32_t>(begin),
          static_cast<std::uint32_t>(end)};
}

}  // namespace

std::size_t skip_blank(std::string_view source, std::size_t at) {
  while (at < source.size()) {
    if (is_blank(source[at])) {
      ++at;
    } else if (source[at] == '#' && (at == 0 || is_blank(source[at - 1]))) {
      at = std::min(source.find('\n', at), source.size());
    } else {
      break;
    }
  }
  return at;
}

std::optional<LaidText> lay_text(const SourceFile& file,
                                 std::string_view source, std::size_t at,
                                 std::string value) {
  LaidText result;
  const char sign = at < source.size() ? source[at] : '\0';
  std::size_t begin = at;
  if (sign == '|' || sign == '>') {
    result.style = Value::Style::lines;
    const std::size_t line_end = std::min(source.find('\n', at), source.size());
    begin = std::min(line_end + 1, source.size());
    result.end = source.find_last_not_of(" \r\n", line_end - 1) + 1;
  } else if (sign == '"' || sign == '\'') {
    result.style = Value::Style::quoted;
  }
  const bool quoted = result.style == Value::Style::quoted;
  Layer layer(source, begin, quoted ? sign : '\0', value);
  if (!layer.walk()) return std::nullopt;
  Span span = span_of(file, at, layer.last());
  if (result.style == Value::Style::lines) {
    const bool empty = layer.first() == std::string_view::npos;
    span = empty ? span_of(file, at, result.end)
                 : span_of(file, layer.first(), layer.last());
    if (!empty) result.end = layer.last();
  } else {
    result.end = layer.last();
  }
  result.text = PlacedText(std::move(value), span, layer.take_runs())
                    .without_ligatures()
                    .composed();
  return result;
}

}  // namespace sheaf
