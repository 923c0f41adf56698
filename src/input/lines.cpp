// Sentences, verses and notes: texts of several lines.

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "input/fields.h"

namespace sheaf {

namespace {

constexpr int kLongestLine = 500;
constexpr std::size_t kMostLines = 500;
constexpr std::string_view kSpaces = " \t\r\n";

// Whether a sentence is over at the end of `text`.
bool ends_sentence(std::string_view text) {
  for (bool found = true; found;) {
    found = false;
    for (const std::string_view close : {"\"", "'", "”", "’", "»", ")"}) {
      if (!text.ends_with(close)) continue;
      text.remove_suffix(close.size());
      found = true;
    }
  }
  return text.ends_with('.') || text.ends_with('!') || text.ends_with('?') ||
         text.ends_with("…");
}

// How many bytes a number typed in front takes up with what follows it: "1. ",
// "2) ", "(3) ", "4.The". 0 where there is none.
std::size_t number_in_front(std::string_view line) {
  constexpr std::size_t kMostDigits = 3;
  const bool open = line.starts_with('(');
  std::size_t at = open ? 1 : 0;
  const std::size_t digits = at;
  while (at < line.size() && line[at] >= '0' && line[at] <= '9') ++at;
  if (at == digits || at - digits > kMostDigits || at >= line.size()) return 0;
  if (line[at] != ')' && (open || line[at] != '.')) return 0;
  const std::size_t rest = line.find_first_not_of(' ', at + 1);
  if (rest == std::string_view::npos) return 0;
  // 3.5 ships are no third sentence; 1.The is a first one.
  const bool capital = line[rest] >= 'A' && line[rest] <= 'Z';
  return rest == at + 1 && !capital ? 0 : rest;
}

// Whether a sentence ends in a letter, so that a full stop can be put there.
bool ends_in_word(std::string_view text) {
  std::string_view rest = text;
  for (const std::string_view close : {"\"", "'", "”", "’", "»", ")"}) {
    if (rest.ends_with(close)) rest.remove_suffix(close.size());
  }
  if (rest.empty()) return false;
  const auto last = static_cast<unsigned char>(rest.back());
  return last >= 0x80
             ? !rest.ends_with("–") && !rest.ends_with("—")
             : (last >= 'a' && last <= 'z') || (last >= 'A' && last <= 'Z') ||
                   (last >= '0' && last <= '9');
}

// Where a sentence begins with a small letter, behind its opening marks.
std::optional<std::size_t> small_beginning(std::string_view text) {
  std::size_t at = 0;
  for (bool found = true; found;) {
    found = false;
    for (const std::string_view open : {"\"", "'", "“", "‘", "«"}) {
      if (!text.substr(at).starts_with(open)) continue;
      at += open.size();
      found = true;
    }
  }
  if (at >= text.size() || text[at] < 'a' || text[at] > 'z') return {};
  return at;
}

// Words for a label, without the marks around them.
std::string_view first_word(std::string_view text, std::size_t from) {
  const std::string_view word = text.substr(from, text.find(' ', from) - from);
  return word.substr(0, word.find_first_of("\",.!?)"));
}

std::string_view last_word(std::string_view text) {
  std::string_view word = text.substr(text.find_last_of(' ') + 1);
  while (!word.empty() && !ends_in_word(word.substr(word.size() - 1))) {
    word.remove_suffix(1);
  }
  const std::size_t begin = word.find_first_not_of("\"'(");
  return begin == std::string_view::npos ? word : word.substr(begin);
}

// Where the file goes on behind a text; nowhere if quotes are written there in
// a way of their own.
Span end_of(const PlacedText& line) {
  const std::string& text = line.text();
  const Span last = line.span_of(text.size() - 1, text.size());
  if (last.text() != text.substr(text.size() - 1)) return {};
  const std::string& all = last.file->text();
  const bool doubled =
      text.back() == '\'' && last.end < all.size() && all[last.end] == '\'';
  if (doubled) return {};
  return {last.file, last.end, last.end};
}

// Makes sentences what is to be printed, without numbers, with capitals and end
// marks, and says so once for all of a key.
class Mender {
 public:
  // `may_be_split`: a missing end mark was said to be a comma's work.
  PlacedText mend(PlacedText line, bool may_be_split) {
    if (const std::size_t front = number_in_front(line.text()); front > 0) {
      const Span number = line.span_of(0, front);
      numbers_.count(
          number, line.text().substr(front),
          {number, "",
           fmt::format("the number {} is left out",
                       line.text().substr(0, line.text().find(' ')))});
      line = line.slice(front, line.text().size());
    }
    if (const auto small = small_beginning(line.text());
        small && !may_be_split) {
      const PlacedText better = line.with_capital(*small);
      const Span letter = line.span_of(*small, *small + 1);
      small_.count(letter, line.text(),
                   {letter, better.text().substr(*small, 1),
                    is_now(first_word(line.text(), *small),
                           first_word(better.text(), *small))});
      line = better;
    }
    if (ends_sentence(line.text()) || !ends_in_word(line.text())) return line;
    if (!may_be_split) {
      ends_.count(line.span(), line.text(),
                  {end_of(line), ".",
                   fmt::format("{} ends with a full stop now",
                               last_word(line.text()))});
    }
    return line.with_end('.');
  }

  void report(Diagnostics& diagnostics) const {
    numbers_.report(
        diagnostic::number_left_out, "the number in front of {} is left out",
        "the numbers in front of {} sentences are left out; the first is {}",
        "sheets number their sentences themselves", diagnostics);
    small_.report(diagnostic::capitals_put_right,
                  "the sentence {} begins with a small letter and is printed "
                  "with a capital",
                  "{} sentences begin with a small letter and are printed with "
                  "a capital; the first is {}",
                  "write the capital, so that learners see one", diagnostics);
    ends_.report(diagnostic::end_mark_added,
                 "the sentence {} has no end mark and is printed with a full "
                 "stop",
                 "{} sentences have no end mark and are printed with a full "
                 "stop; the first is {}",
                 "write the mark at the end; it may be a question",
                 diagnostics);
  }

 private:
  struct Found {
    int times = 0;
    Span first;
    std::string text;  // of the first
    std::vector<Fix> fixes;

    void count(const Span& span, std::string sentence, Fix fix) {
      // What is printed so already is certain.
      fix.certain = true;
      if (fix.span) fixes.push_back(std::move(fix));
      if (++times > 1) return;
      first = span;
      text = std::move(sentence);
    }

    // `one` has room for a sentence, `several` for their count and the first.
    void report(const DiagnosticName& name, fmt::format_string<std::string> one,
                fmt::format_string<const int&, std::string> several,
                std::string_view help, Diagnostics& diagnostics) const {
      if (times == 0) return;
      diagnostics.note(name, first,
                       times == 1 ? fmt::format(one, quoted(text))
                                  : fmt::format(several, times, quoted(text)),
                       {std::string(help), fixes});
    }
  };
  Found numbers_, small_, ends_;
};

// What a line begins with that a list would need and a text does not: the dash
// of a list under `|`, or a word processor's bullet. Empty for a plain line.
std::string_view bullet_of(std::string_view line) {
  for (const std::string_view bullet :
       {"- ", "* ", "•", "◦", "▪", "‣", "●", "·"}) {
    if (line.starts_with(bullet)) return bullet;
  }
  return {};
}

void report_bullet(const PlacedText& line, std::string_view bullet,
                   const Field& field, Diagnostics& diagnostics) {
  const bool dash = bullet == "- ";
  diagnostics.error(
      diagnostic::bad_list, line.span_of(0, dash ? 1 : bullet.size()),
      fmt::format("this line under {} begins with a {}", quoted(field.key),
                  dash ? "dash" : "bullet"),
      dash ? "leave out the dashes, or the `|` after the key"
           : "take the bullets out; each line counts as one already");
}

// Cuts a text into its lines; see LineBreaks.
class LineCutter {
 public:
  LineCutter(const PlacedText& text, LineBreaks breaks)
      : text_(text), breaks_(breaks) {}

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
  // Whether the blanks from `from` to `to` part two lines.
  bool breaks_between(std::size_t from, std::size_t to) const {
    const std::string_view all = text_.text();
    if (all.substr(from, to - from).find('\n') != std::string_view::npos) {
      return true;
    }
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
  std::vector<PlacedText> lines_;
};

}  // namespace

std::vector<PlacedText> cut_lines(const PlacedText& text, LineBreaks breaks) {
  return LineCutter(text, breaks).cut();
}

std::vector<LessonLine> read_lines(const Field& field, LineBreaks breaks,
                                   Diagnostics& diagnostics) {
  std::vector<LessonLine> lines;
  Mender mender;
  const bool list = field.value.kind == Value::Kind::list;
  for (const Value* text : texts_of(field, diagnostics)) {
    for (PlacedText& line : cut_lines(text->text, breaks)) {
      if (lines.size() == kMostLines) {
        diagnostics.error(diagnostic::too_many, line.span(),
                          fmt::format("{} has more than {} lines",
                                      quoted(field.key), kMostLines),
                          "split them into several lessons");
        return lines;
      }
      if (is_too_long(line, kLongestLine, field.key, diagnostics)) return lines;
      const std::string_view bullet = bullet_of(line.text());
      if (!bullet.empty() && breaks != LineBreaks::paragraphs) {
        report_bullet(line, bullet, field, diagnostics);
        return lines;
      }
      if (list && breaks == LineBreaks::sentences &&
          !ends_sentence(line.text())) {
        diagnostics.warning(
            diagnostic::split_sentence, line.span(),
            fmt::format("the sentence {} has no end mark; a comma may have "
                        "split it",
                        quoted(line.text())),
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
