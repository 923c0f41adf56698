// Sentences, verses and notes: texts of several lines.

#include <fmt/format.h>

#include <algorithm>

#include "input/fields.h"
#include "input/sentence_mender.h"

namespace sheaf {

namespace {

constexpr int kLongestLine = 500;
constexpr std::size_t kMostLines = 150;
constexpr std::string_view kSpaces = " \t\r\n";

void report_bullet(const PlacedText& line, std::string_view bullet,
                   const Field& field, Diagnostics& diagnostics) {
  const bool dash = bullet == "- ";
  diagnostics.error(
      diagnostic::bad_list, line.span_of(0, dash ? 1 : bullet.size()),
      fmt::format("this line under {} begins with a {}", as_written(field.key),
                  dash ? "dash" : "bullet"),
      dash ? "leave out the dashes, or the `|` after the key"
           : "take the bullets out; each line counts as one already");
}

// Cuts a text into its lines; see LineBreaks.
class LineCutter {
 public:
  LineCutter(const PlacedText& text, LineBreaks breaks)
      : text_(text),
        breaks_(breaks),
        has_empty_line_(breaks == LineBreaks::prose &&
                        has_empty_line(text.text())) {}

  std::vector<PlacedText> cut() {
    const std::string& all = text_.text();
    std::size_t begin = all.find_first_not_of(kSpaces);
    std::size_t line = begin;
    std::size_t last = begin;
    while (begin != std::string::npos) {
      if (begin != line && breaks_between(last, begin)) {
        lines_.push_back(text_.slice(line, last).squeezed());
        line = begin;
      }
      last = std::min(all.find_first_of(kSpaces, begin), all.size());
      begin = all.find_first_not_of(kSpaces, last);
    }
    if (line != std::string::npos) {
      lines_.push_back(text_.slice(line, last).squeezed());
    }
    return std::move(lines_);
  }

 private:
  // Whether one stands between two that are not empty.
  static bool has_empty_line(std::string_view text) {
    const std::size_t first = text.find_first_not_of(kSpaces);
    if (first == std::string_view::npos) return false;
    const std::size_t last = text.find_last_not_of(kSpaces);
    std::size_t ends = 0;
    for (const char c : text.substr(first, last - first)) {
      if (c == '\n' && ++ends == 2) return true;
      if (kSpaces.find(c) == std::string_view::npos) ends = 0;
    }
    return false;
  }
  // Whether the blanks from `from` to `to` part two lines.
  bool breaks_between(std::size_t from, std::size_t to) const {
    const std::string_view all = text_.text();
    const std::string_view blanks = all.substr(from, to - from);
    if (breaks_ == LineBreaks::prose) {
      const auto ends = std::ranges::count(blanks, '\n');
      if (has_empty_line_) return ends > 1;
      return ends > 0 && ends_sentence(all.substr(0, from));
    }
    if (blanks.find('\n') != std::string_view::npos) return true;
    if (breaks_ == LineBreaks::paragraphs || !text_.span()) return false;
    const std::uint32_t begin = text_.span_of(from - 1, from).end;
    const std::uint32_t end = text_.span_of(to, to + 1).begin;
    const Span gap = {text_.span().file, begin, std::max(begin, end)};
    if (gap.text().find_first_of("\r\n") == std::string_view::npos) {
      return false;
    }
    return breaks_ == LineBreaks::verses || ends_sentence(all.substr(0, from));
  }

  const PlacedText& text_;
  LineBreaks breaks_;
  bool has_empty_line_;
  std::vector<PlacedText> lines_;
};

}  // namespace

std::vector<PlacedText> cut_lines(const PlacedText& text, LineBreaks breaks) {
  return LineCutter(text, breaks).cut();
}

std::vector<LessonLine> read_lines(const Field& field, LineBreaks breaks,
                                   Diagnostics& diagnostics) {
  std::vector<LessonLine> lines;
  SentenceMender mender;
  const bool list = field.value.kind == Value::Kind::list;
  for (const Value* text : texts_of(field, diagnostics)) {
    for (PlacedText& line : cut_lines(text->text, breaks)) {
      if (lines.size() == kMostLines) {
        diagnostics.error(diagnostic::too_many, line.span(),
                          fmt::format("{} has more than {} lines",
                                      as_written(field.key), kMostLines),
                          "split them into several lessons");
        return lines;
      }
      if (is_too_long(line, kLongestLine, field.key, diagnostics)) return lines;
      const std::string_view bullet = bullet_of(line.text());
      if (!bullet.empty() && breaks != LineBreaks::paragraphs &&
          breaks != LineBreaks::prose) {
        report_bullet(line, bullet, field, diagnostics);
        return lines;
      }
      if (list && breaks == LineBreaks::sentences &&
          !ends_sentence(line.text())) {
        diagnostics.warning(
            diagnostic::split_sentence, line.span(),
            fmt::format("the sentence {} has no end mark; a comma may have "
                        "split it",
                        as_written(line.text())),
            fmt::format("put the whole sentence in quotes, or write the "
                        "sentences as lines under `{}: |`",
                        field.key));
      }
      lines.push_back(breaks == LineBreaks::sentences
                          ? mender.mend(std::move(line), list)
                          : std::move(line));
    }
  }
  mender.report(diagnostics);
  return lines;
}

}  // namespace sheaf
