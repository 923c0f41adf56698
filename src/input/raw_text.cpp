#include "input/raw_text.h"

#include <fmt/format.h>

#include <array>

#include "base/utf8.h"

namespace sheaf {

namespace {

// Messages of one kind before the rest of the file is left unread.
constexpr int kMostOfAKind = 5;
// More marks on one letter than any spelling has.
constexpr int kMostMarks = 4;

struct NamedCharacter {
  char32_t first, last;
  std::string_view name;
};

constexpr std::array<NamedCharacter, 18> kUnseen = {{
    {0x0000, 0x0000, "a zero byte"},
    {0x000B, 0x000B, "a line break of a word processor"},
    {0x000C, 0x000C, "a page break"},
    {0x0000, 0x001F, "a control character"},
    {0x007F, 0x009F, "a control character"},
    {0x00AD, 0x00AD, "an unseen soft hyphen"},
    {0x061C, 0x061C, "an unseen direction mark"},
    {0x200B, 0x200B, "an unseen zero-width space"},
    {0x200C, 0x200C, "an unseen joining mark"},
    {0x200E, 0x200F, "an unseen direction mark"},
    {0x2028, 0x2029, "a line break of a word processor"},
    {0x202A, 0x202E, "an unseen direction mark"},
    {0x2060, 0x2064, "an unseen zero-width mark"},
    {0x2066, 0x206F, "an unseen direction mark"},
    {0xFEFF, 0xFEFF, "an unseen byte order mark"},
    {0xFFFD, 0xFFFD, "the sign for a letter that was lost"},
    {0xFFF9, 0xFFFF, "a control character"},
    {0xE000, 0xF8FF, "a character of one font's own"},
}};

// Windows-1252 where it differs from Latin-1, as published by the Unicode
// Consortium (MAPPINGS/VENDORS/MICSFT/WINDOWS/CP1252.TXT); 0: not used.
constexpr std::array<char16_t, 32> kWindows = {
    0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021,
    0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0,      0x017D, 0,
    0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
    0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

char32_t windows_character(unsigned char byte) {
  if (byte >= 0xA0) return byte;
  return byte >= 0x80 ? kWindows[byte - 0x80] : 0;
}

Span span_at(const SourceFile& file, std::size_t begin, std::size_t end) {
  return {&file, static_cast<std::uint32_t>(begin),
          static_cast<std::uint32_t>(end)};
}

// Two bytes a character, which some Windows programs call "Unicode".
bool looks_like_utf16(std::string_view text) {
  if (text.size() < 2) return false;
  const std::string_view start = text.substr(0, 2);
  return start == "\xFF\xFE" || start == "\xFE\xFF" ||
         (text[0] == 0) != (text[1] == 0);
}

bool refuse_encoding(const SourceFile& file, Diagnostics& diagnostics) {
  constexpr std::string_view kHelp =
      "in your editor, choose `Save As` with the encoding `UTF-8`, and save "
      "the file again";
  const std::string& text = file.text();
  if (looks_like_utf16(text)) {
    diagnostics.error(diagnostic::bad_utf8, span_at(file, 0, 1),
                      "the file is saved as UTF-16, not as UTF-8",
                      std::string(kHelp));
    return true;
  }
  const auto bad = find_bad_utf8(text);
  if (!bad) return false;
  std::string found = "the file is not saved as UTF-8 text";
  const char32_t meant =
      windows_character(static_cast<unsigned char>(text[*bad]));
  if (meant != 0) {
    std::string letter;
    append_utf8(letter, meant);
    found += fmt::format("; the character here may be `{}`", letter);
  }
  diagnostics.error(diagnostic::bad_utf8, span_at(file, *bad, *bad + 1),
                    std::move(found), std::string(kHelp));
  return true;
}

class Checker {
 public:
  Checker(const SourceFile& file, bool tabs_matter, Diagnostics& diagnostics)
      : file_(file),
        diagnostics_(diagnostics),
        copy_(file.text()),
        tabs_matter_(tabs_matter) {}

  std::optional<std::string> run() {
    const std::string& text = file_.text();
    for (std::size_t at = 0; at < text.size() && bad_ < kMostOfAKind;) {
      at = step(text, at);
    }
    if (tab_lines_ > 0) report_tabs();
    if (bad_ > 0 || tab_lines_ > 0) return std::nullopt;
    return std::move(copy_);
  }

 private:
  // Checks the character at `at`; returns where the next one begins.
  std::size_t step(const std::string& text, std::size_t at) {
    const unsigned char byte = text[at];
    if (byte > 0x20 && byte < 0x7F) {
      in_indentation_ = false;
      marks_ = 0;
      if (indent_tab_) count_tab_line();
      return at + 1;
    }
    if (byte == '\n' || byte == '\r') return end_line(text, at);
    std::size_t next = at;
    const char32_t character = next_code_point(text, next);
    if (is_space(character)) {
      if (tabs_matter_ && in_indentation_ && character != ' ' && !indent_tab_) {
        indent_tab_ = span_at(file_, at, next);
      }
      copy_.replace(at, next - at, next - at, ' ');
      return next;
    }
    in_indentation_ = false;
    if (indent_tab_) count_tab_line();
    if (const auto name = unseen_character(character)) {
      report(at, next,
             fmt::format("there is {} (U+{:04X}) here", *name,
                         static_cast<std::uint32_t>(character)),
             character == '\v' || character == 0x2028 || character == 0x2029
                 ? "take it out and begin a new line with the Enter key"
                 : "take it out, or type the line again");
    }
    marks_ = is_mark(character) ? marks_ + 1 : 0;
    if (marks_ == kMostMarks + 1) {
      report(at, next,
             fmt::format("one letter has more than {} accents", kMostMarks),
             "type the line again");
    }
    return next;
  }

  std::size_t end_line(const std::string& text, std::size_t at) {
    in_indentation_ = true;
    indent_tab_.reset();
    marks_ = 0;
    const bool alone =
        text[at] == '\r' && (at + 1 == text.size() || text[at + 1] != '\n');
    if (alone) copy_[at] = '\n';
    return at + 1;
  }

  void report(std::size_t begin, std::size_t end, std::string found,
              Help help) {
    ++bad_;
    diagnostics_.error(diagnostic::bad_character, span_at(file_, begin, end),
                       std::move(found), std::move(help));
  }

  void count_tab_line() {
    if (tab_lines_ == 0) first_tab_ = indent_tab_.value_or(Span());
    ++tab_lines_;
    mend_indentation(indent_tab_->begin);
    indent_tab_.reset();
  }

  // Two spaces for each tab that the line begins with, one for each other
  // space.
  void mend_indentation(std::size_t at) {
    constexpr std::size_t kMostFixes = 2000;
    const std::string& text = file_.text();
    while (at < text.size() && tab_fixes_.size() < kMostFixes) {
      std::size_t next = at;
      const char32_t character = next_code_point(text, next);
      if (!is_space(character)) return;
      const bool tab = character == '\t';
      if (character != ' ') {
        tab_fixes_.push_back(
            {span_at(file_, at, next), tab ? "  " : " ",
             tab ? "a tab is now two spaces"
                 : "an unusual space is now one from the space bar",
             true});
      }
      at = next;
    }
  }

  void report_tabs() {
    const bool tab = file_.text()[first_tab_.begin] == '\t';
    std::string found = fmt::format("this line begins with {}",
                                    tab ? "a tab" : "an unusual space");
    if (tab_lines_ > 1) {
      found += fmt::format(", and so {} {} more",
                           tab_lines_ > 2 ? "do" : "does", tab_lines_ - 1);
    }
    diagnostics_.error(
        diagnostic::tab_in_indentation, first_tab_, std::move(found),
        {tab ? "use spaces instead, two for each step to the right"
             : "use spaces from the space bar instead",
         std::move(tab_fixes_)});
  }

  const SourceFile& file_;
  Diagnostics& diagnostics_;
  std::string copy_;
  bool tabs_matter_;
  bool in_indentation_ = true;
  std::optional<Span> indent_tab_;
  Span first_tab_;
  std::vector<Fix> tab_fixes_;
  int tab_lines_ = 0;
  int marks_ = 0;
  int bad_ = 0;
};

}  // namespace

std::optional<std::string> unseen_character(char32_t code_point) {
  if (code_point == '\t' || code_point == '\n' || code_point == '\r') {
    return std::nullopt;
  }
  for (const NamedCharacter& known : kUnseen) {
    if (code_point >= known.first && code_point <= known.last) {
      return std::string(known.name);
    }
  }
  return std::nullopt;
}

namespace {

// The YAML library looks ahead as long as brackets open in one line, at a
// cost in memory; no text of a teacher's opens so many more than it closes.
bool refuse_brackets(const SourceFile& file, Diagnostics& diagnostics) {
  constexpr int kMostOpen = 256;
  int open = 0;
  const std::string& text = file.text();
  for (std::size_t at = 0; at < text.size(); ++at) {
    const char c = text[at];
    if (c == '[' || c == '{') ++open;
    if ((c == ']' || c == '}') && open > 0) --open;
    if (open <= kMostOpen) continue;
    diagnostics.error(
        diagnostic::too_deep, span_at(file, at, at + 1),
        fmt::format("more than {} brackets are open here", kMostOpen),
        "close the brackets, or take them out");
    return true;
  }
  return false;
}

bool refuse_size(const SourceFile& file, std::size_t limit,
                 Diagnostics& diagnostics) {
  if (file.text().size() <= limit) return false;
  diagnostics.error(
      diagnostic::file_too_large, span_at(file, 0, 0),
      fmt::format("the file is {} kB; Sheaf reads files of up to {} kB",
                  (file.text().size() + 1023) / 1024, limit / 1024),
      "split it into several files");
  return true;
}

}  // namespace

std::optional<std::string> check_raw_text(const SourceFile& file,
                                          std::size_t limit,
                                          Diagnostics& diagnostics) {
  if (refuse_size(file, limit, diagnostics)) return std::nullopt;
  if (refuse_encoding(file, diagnostics)) return std::nullopt;
  if (refuse_brackets(file, diagnostics)) return std::nullopt;
  return Checker(file, true, diagnostics).run();
}

std::optional<std::string> check_plain_text(const SourceFile& file,
                                            std::size_t limit,
                                            Diagnostics& diagnostics) {
  if (refuse_size(file, limit, diagnostics)) return std::nullopt;
  if (refuse_encoding(file, diagnostics)) return std::nullopt;
  return Checker(file, false, diagnostics).run();
}

}  // namespace sheaf
