#include "input/sentence_mender.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace sheaf {

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

namespace {

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

}  // namespace

// What a line begins with that a list would need and a text does not: the dash
// of a list under `|`, or a word processor's bullet. Empty for a plain line.
std::string_view bullet_of(std::string_view line) {
  for (const std::string_view bullet :
       {"- ", "* ", "•", "◦", "▪", "‣", "●", "·"}) {
    if (line.starts_with(bullet)) return bullet;
  }
  return {};
}

PlacedText SentenceMender::mend(PlacedText line, bool may_be_split) {
  if (const std::size_t front = number_in_front(line.text()); front > 0) {
    const Span number = line.span_of(0, front);
    numbers_.count(number, line.text().substr(front),
                   {number, "",
                    fmt::format("the number {} is left out",
                                line.text().substr(0, line.text().find(' ')))});
    line = line.slice(front, line.text().size());
  }
  if (const auto small = small_beginning(line.text()); small && !may_be_split) {
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
    ends_.count(
        line.span(), line.text(),
        {end_of(line), ".",
         fmt::format("{} ends with a full stop now", last_word(line.text()))});
  }
  return line.with_end('.');
}

void SentenceMender::report(Diagnostics& diagnostics) const {
  report(numbers_, diagnostic::number_left_out,
         "the number in front of {} is left out",
         "the numbers in front of {} sentences are left out; the first is {}",
         "sheets number their sentences themselves", diagnostics);
  report(small_, diagnostic::capitals_put_right,
         "the sentence {} begins with a small letter and is printed "
         "with a capital",
         "{} sentences begin with a small letter and are printed with "
         "a capital; the first is {}",
         "write the capital, so that learners see one", diagnostics);
  report(ends_, diagnostic::end_mark_added,
         "the sentence {} has no end mark and is printed with a full "
         "stop",
         "{} sentences have no end mark and are printed with a full "
         "stop; the first is {}",
         "write the mark at the end; it may be a question", diagnostics);
}

void SentenceMender::Found::count(const Span& span, std::string sentence,
                                  Fix fix) {
  // What is printed so already is certain.
  fix.certain = true;
  if (fix.span) fixes.push_back(std::move(fix));
  if (++times > 1) return;
  first = span;
  text = std::move(sentence);
}

// `one` has room for a sentence, `several` for their count and the first.
void SentenceMender::report(const Found& found, const DiagnosticName& name,
                            std::string_view one, std::string_view several,
                            std::string_view help, Diagnostics& diagnostics) {
  if (found.times == 0) return;
  diagnostics.note(name, found.first,
                   found.times == 1
                       ? fmt::format(fmt::runtime(one), as_written(found.text))
                       : fmt::format(fmt::runtime(several), found.times,
                                     as_written(found.text)),
                   {std::string(help), found.fixes});
}

}  // namespace sheaf
