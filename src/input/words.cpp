#include "input/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/utf8.h"

namespace sheaf {

namespace {

constexpr int kMostBadWords = 20;
constexpr std::string_view kSeparators = " \t\r\n,";
constexpr std::string_view kCurlyApostrophe = "’";

bool is_apostrophe(char32_t c) { return c == '\'' || c == 0x2019; }

bool is_quote(char32_t c) {
  return c == '"' || (c >= 0x2018 && c <= 0x201F) || c == 0xAB || c == 0xBB;
}

bool is_long_dash(char32_t c) {
  return (c >= 0x2010 && c <= 0x2015) || c == 0x2212;
}

// What a character is that no word has, and what to do about it.
struct Fault {
  std::string found, help;
};

Fault fault_of(char32_t c, std::string_view shown, std::string_view word) {
  const std::string whole = as_written(word);
  if (word.find_first_not_of("0123456789") == std::string_view::npos) {
    return {fmt::format("{} is a number, not a word", whole),
            "list the words themselves, not how many; a number among them is "
            "spelled out, as in `six`"};
  }
  if (c >= '0' && c <= '9') {
    return {fmt::format("{} has a digit in it, which no word has", whole),
            "write numbers as words"};
  }
  if (c == '_') {
    return {fmt::format("{} has a `_` in it, which no word has", whole),
            "divide the whole word to show a split grapheme, as in `sh|a_e|k`"};
  }
  if (is_quote(c)) {
    return {fmt::format("{} has a quote in it, which no word has", whole),
            "write words without quotes around them"};
  }
  if (is_long_dash(c)) {
    return {fmt::format("{} has a long dash in it", whole),
            "write a hyphen (-) inside a word, and spaces or commas between "
            "words"};
  }
  if (is_letter(c)) {
    return {
        fmt::format("{} in {} is not a letter of the Latin alphabet",
                    as_written(shown), whole),
        "type the word again; some letters of other alphabets look the same"};
  }
  if (c == 0x2022 || c == 0x25E6 || c == 0x25CF || c == 0x25AA) {
    return {fmt::format("{} is a bullet, not a word", whole),
            "take the bullets out, or write `- ` in place of each"};
  }
  if (shown == word) {
    return {fmt::format("{} is a sign, not a word", whole),
            "write letters only; a picture for a word goes under `pictures:`"};
  }
  if (c < 0x80) {
    return {fmt::format("{} has a {} in it, which no word has", whole,
                        as_written(shown)),
            "write letters only, and separate words with spaces, commas or new "
            "lines"};
  }
  return {fmt::format("{} in {} is not a letter", as_written(shown), whole),
          "write letters only; a picture for a word goes under `pictures:`"};
}

class WordChecker {
 public:
  WordChecker(const PlacedWord& word, Diagnostics& diagnostics)
      : word_(word), diagnostics_(diagnostics) {}

  // `gaps`: an underscore between letters is allowed.
  bool check(bool gaps) {
    const std::string& text = word_.value;
    if (text.size() > std::size_t{16} * kMostLetters ||
        count_characters(text) > kMostLetters) {
      diagnostics_.error(diagnostic::text_too_long, word_.span,
                         fmt::format("{} has more than {} letters",
                                     as_written(text), kMostLetters),
                         "separate words with spaces, commas or new lines");
      return false;
    }
    int letters = 0;
    bool after_letter = false;
    for (std::size_t at = 0; at < text.size();) {
      const std::size_t begin = at;
      const char32_t c = next_code_point(text, at);
      const bool letter = is_latin_letter(c);
      const bool mark = after_letter && is_mark(c);
      const bool inside = after_letter && at < text.size();
      const bool joint = (c == '-' || (gaps && c == '_')) && inside;
      if (!letter && !mark && !joint && !is_apostrophe(c)) {
        refuse(c, begin, at);
        return false;
      }
      if (letter) ++letters;
      after_letter = letter || mark || is_apostrophe(c);
    }
    if (letters > 0) return true;
    diagnostics_.error(diagnostic::bad_word, word_.span,
                       fmt::format("{} has no letter", as_written(text)),
                       "write letters, or take it out");
    return false;
  }

 private:
  void refuse(char32_t c, std::size_t begin, std::size_t end) {
    const std::string& text = word_.value;
    if (c == '-') {
      const bool alone = text.find_first_not_of('-') == std::string::npos;
      diagnostics_.error(
          diagnostic::bad_word, word_.span,
          alone ? "there is a dash here without a word"
                : fmt::format("{} {} a hyphen", as_written(text),
                              begin == 0           ? "begins with"
                              : end == text.size() ? "ends with"
                                                   : "has no letter before"),
          alone ? "separate words with spaces, commas or new lines, without "
                  "dashes; a list with dashes begins on the line after its "
                  "key, without `|`"
                : "put a hyphen only between two letters of a word");
      return;
    }
    Fault fault =
        fault_of(c, std::string_view(text).substr(begin, end - begin), text);
    diagnostics_.error(diagnostic::bad_word, place(begin, end),
                       std::move(fault.found), std::move(fault.help));
  }

  // Exact where the file writes the word as it is.
  Span place(std::size_t begin, std::size_t end) const {
    if (word_.span.text() != word_.value) return word_.span;
    return {word_.span.file,
            word_.span.begin + static_cast<std::uint32_t>(begin),
            word_.span.begin + static_cast<std::uint32_t>(end)};
  }

  const PlacedWord& word_;
  Diagnostics& diagnostics_;
};

// Words written the same way, whatever apostrophe was typed.
std::string same_way(std::string_view word) {
  std::string result(word);
  for (std::size_t at;
       (at = result.find(kCurlyApostrophe)) != std::string::npos;) {
    result.replace(at, kCurlyApostrophe.size(), "'");
  }
  return result;
}

// Keeps the words of one list apart and reports those that come again, each
// once, however often it stands there.
class RepeatCheck {
 public:
  RepeatCheck(std::string_view key, Diagnostics& diagnostics)
      : key_(key), diagnostics_(diagnostics) {}

  bool fresh(const PlacedWord& word) {
    const std::string exact = same_way(word.value);
    const auto [form, is_new] = forms_.try_emplace(exact, Form{word, {}, 1});
    if (!is_new) {
      if (++form->second.count == 2) form->second.second = word.span;
      return false;
    }
    const auto [first, is_new_word] =
        words_.try_emplace(lower_case(exact), word.span);
    if (is_new_word) return true;
    Diagnostic& d = diagnostics_.warning(
        diagnostic::repeated_word, word.span,
        fmt::format("{} is listed twice under {}, once with a capital letter",
                    as_written(word.value), as_written(key_)),
        "take one of the two out, if they are the same word");
    d.remarks.push_back({first->second, "the first one"});
    return true;
  }

  // To be called when the list is at its end; reports no more than `most`.
  void report(std::size_t most) {
    std::vector<const Form*> repeated;
    for (const auto& [exact, form] : forms_) {
      if (form.count > 1) repeated.push_back(&form);
    }
    std::ranges::sort(repeated, {},
                      [](const Form* form) { return form->second.begin; });
    if (repeated.size() > most) repeated.resize(most);
    for (const Form* form : repeated) {
      const bool twice = form->count == 2;
      const std::string times =
          twice ? "twice" : fmt::format("{} times", form->count);
      Diagnostic& d = diagnostics_.error(
          diagnostic::repeated_word, form->second,
          fmt::format("{} is listed {} under {}", as_written(form->first.value),
                      times, as_written(key_)),
          twice ? "take one of the two out" : "take all but one of them out");
      d.remarks.push_back({form->first.span, "the first one"});
    }
  }

 private:
  struct Form {
    PlacedWord first;
    Span second;
    int count = 1;
  };
  std::string_view key_;
  Diagnostics& diagnostics_;
  std::map<std::string, Form> forms_;
  std::map<std::string, Span> words_;  // in lower case, the first of each
};

// The word that `piece` writes with bars between its graphemes; nothing where
// that cannot be read.
std::optional<LessonWord> read_parted(const PlacedText& piece,
                                      Diagnostics& diagnostics) {
  LessonWord word;
  const std::string& text = piece.text();
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t end = std::min(text.find('|', at), text.size());
    if (at == end) {
      diagnostics.error(
          diagnostic::bad_split, piece.span(),
          fmt::format("a grapheme is missing in {}", as_written(text)),
          "write a bar (|) between two graphemes only, as in "
          "`sh|e|d`");
      return std::nullopt;
    }
    PlacedWord grapheme = piece.part(at, end);
    if (!check_grapheme(grapheme, diagnostics)) return std::nullopt;
    word.graphemes.push_back(std::move(grapheme));
    at = end + 1;
  }
  word.spelling = {put_together(word.graphemes), piece.span()};
  if (word.spelling.value.empty()) {
    diagnostics.error(
        diagnostic::bad_split, piece.span(),
        fmt::format("the gap of a grapheme in {} is empty", as_written(text)),
        "write what is in the gap next, as in `sh|a_e|k`");
    return std::nullopt;
  }
  if (count_characters(word.spelling.value) > kMostLetters) {
    diagnostics.error(diagnostic::text_too_long, piece.span(),
                      fmt::format("{} has more than {} letters",
                                  as_written(text), kMostLetters),
                      "separate words with spaces, commas or new lines");
    return std::nullopt;
  }
  return word;
}

std::vector<PlacedText> word_pieces(const PlacedText& text) {
  std::vector<PlacedText> pieces;
  const std::string& all = text.text();
  for (std::size_t begin = all.find_first_not_of(kSeparators);
       begin != std::string::npos;) {
    const std::size_t end =
        std::min(all.find_first_of(kSeparators, begin), all.size());
    pieces.push_back(text.slice(begin, end));
    begin = all.find_first_not_of(kSeparators, end);
  }
  return pieces;
}

std::vector<LessonWord> read_fresh_words(const Field& field, bool may_be_parted,
                                         RepeatCheck& repeats,
                                         Diagnostics& diagnostics) {
  std::vector<LessonWord> words;
  const int errors = diagnostics.error_count();
  std::size_t count = 0;
  for (const Value* text : texts_of(field, diagnostics)) {
    for (const PlacedText& piece : word_pieces(text->text)) {
      if (++count > kMostWords) {
        diagnostics.error(diagnostic::too_many, piece.span(),
                          fmt::format("{} has more than {} words before this "
                                      "one",
                                      as_written(field.key), kMostWords),
                          "split them into several lessons");
        return words;
      }
      if (diagnostics.error_count() - errors >= kMostBadWords) return words;
      LessonWord word;
      if (may_be_parted && piece.text().find('|') != std::string::npos) {
        auto parted = read_parted(piece, diagnostics);
        if (!parted) continue;
        word = std::move(*parted);
      } else {
        word.spelling = {piece.text(), piece.span()};
        if (!check_word(word.spelling, diagnostics)) continue;
      }
      if (repeats.fresh(word.spelling)) words.push_back(std::move(word));
    }
  }
  if (count == 0 && diagnostics.error_count() == errors) {
    diagnostics.error(
        diagnostic::missing_value, field.value.span,
        fmt::format("there is no word under {}", as_written(field.key)),
        fmt::format("write it like this: `{}`", field.example));
  }
  return words;
}

std::vector<LessonWord> read_words(const Field& field, bool may_be_parted,
                                   Diagnostics& diagnostics) {
  RepeatCheck repeats(field.key, diagnostics);
  const int errors = diagnostics.error_count();
  std::vector<LessonWord> words =
      read_fresh_words(field, may_be_parted, repeats, diagnostics);
  const int bad = std::min(kMostBadWords, diagnostics.error_count() - errors);
  repeats.report(static_cast<std::size_t>(kMostBadWords - bad));
  return words;
}

}  // namespace

std::vector<PlacedWord> split_words(const PlacedText& text) {
  std::vector<PlacedWord> words;
  for (const PlacedText& piece : word_pieces(text)) {
    words.push_back({piece.text(), piece.span()});
  }
  return words;
}

bool check_word(PlacedWord& word, Diagnostics& diagnostics) {
  if (!WordChecker(word, diagnostics).check(false)) return false;
  word.value = normalized(word.value);
  return true;
}

bool check_grapheme(PlacedWord& grapheme, Diagnostics& diagnostics) {
  if (!WordChecker(grapheme, diagnostics).check(true)) return false;
  if (std::ranges::count(grapheme.value, '_') > 1) {
    diagnostics.error(
        diagnostic::bad_split, grapheme.span,
        fmt::format("{} has more than one gap", as_written(grapheme.value)),
        "write a gap as in `a_e`");
    return false;
  }
  grapheme.value = normalized(grapheme.value);
  return true;
}

std::vector<LessonWord> read_lesson_words(const Field& field,
                                          Diagnostics& diagnostics) {
  return read_words(field, true, diagnostics);
}

std::vector<PlacedWord> read_plain_words(const Field& field,
                                         Diagnostics& diagnostics) {
  std::vector<PlacedWord> words;
  for (LessonWord& word : read_words(field, false, diagnostics)) {
    words.push_back(std::move(word.spelling));
  }
  return words;
}

}  // namespace sheaf
