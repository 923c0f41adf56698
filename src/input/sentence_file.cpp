#include "input/sentence_file.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/utf8.h"
#include "input/file_kind.h"
#include "input/raw_text.h"
#include "input/sentence_mender.h"

namespace sheaf {

namespace {

// Lines told of that are too long, before the rest is left unread.
constexpr int kMostLongLines = 5;

bool is_blank(char c) { return c == ' ' || c == '\t'; }

// Where the comment of a line begins, or the line's end.
std::size_t comment_in(std::string_view line) {
  for (std::size_t at = line.find('#'); at != std::string_view::npos;
       at = line.find('#', at + 1)) {
    if (at == 0 || is_blank(line[at - 1])) return at;
  }
  return line.size();
}

bool has_letter(std::string_view text) {
  return std::ranges::any_of(text, [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           static_cast<unsigned char>(c) >= 0x80;
  });
}

class SentenceReader {
 public:
  SentenceReader(const SourceFile& file, std::string text, TellSlips slips,
                 Diagnostics& diagnostics)
      : file_(file),
        text_(std::move(text)),
        slips_(slips),
        diagnostics_(diagnostics) {
    result_.file = &file;
  }

  SentenceFile run() {
    int lines = 0;
    for (std::size_t begin = 0; begin < text_.size(); ++lines) {
      const std::size_t end =
          std::min(text_.find_first_of("\r\n", begin), text_.size());
      if (lines == kMostSentenceLines) {
        diagnostics_.error(
            diagnostic::too_many, span(begin, end),
            fmt::format("the file goes on after {} lines", kMostSentenceLines),
            "keep the sentences that you use; Sheaf reads no more of them");
        break;
      }
      if (!add_line(begin, end)) break;
      const bool pair = text_.compare(end, 2, "\r\n") == 0;
      begin = end + (pair ? 2 : 1);
    }
    report_bullets();
    if (slips_ == TellSlips::yes) {
      mender_.report(diagnostics_);
      report_wordless();
    }
    return std::move(result_);
  }

 private:
  Span span(std::size_t begin, std::size_t end) const {
    return {&file_, static_cast<std::uint32_t>(begin),
            static_cast<std::uint32_t>(end)};
  }

  // False where enough was found wrong.
  bool add_line(std::size_t begin, std::size_t end) {
    const std::string_view line =
        std::string_view(text_).substr(begin, end - begin);
    const std::size_t comment = comment_in(line);
    std::size_t from = 0, to = comment;
    while (from < to && is_blank(line[from])) ++from;
    while (to > from && is_blank(line[to - 1])) --to;
    if (from == to) return true;
    const std::string_view written = line.substr(from, to - from);
    if (count_characters(written) > kLongestSentenceLine) {
      diagnostics_.error(diagnostic::text_too_long,
                         span(begin + from, begin + to),
                         fmt::format("this line has more than {} characters",
                                     kLongestSentenceLine),
                         "write one sentence on each line");
      return ++long_lines_ < kMostLongLines;
    }
    const std::string_view bullet = bullet_of(written);
    if (!bullet.empty()) {
      const std::size_t rest = std::min(
          written.find_first_not_of(" \t", bullet.size()), written.size());
      bullets_.push_back({span(begin + from, begin + from + rest), "",
                          fmt::format("the {} is left out",
                                      bullet == "- " ? "dash" : "bullet"),
                          true});
      return true;
    }
    if (comment < line.size() && slips_ == TellSlips::yes) {
      check_comment(written, begin + comment, end);
    }
    PlacedText sentence =
        PlacedText(std::string(written), span(begin + from, begin + to),
                   {{0, static_cast<std::uint32_t>(begin + from)}})
            .squeezed()
            .without_ligatures()
            .composed();
    if (!has_letter(written)) {
      wordless_.push_back(sentence.span());
    } else {
      result_.sentences.push_back(mender_.mend(std::move(sentence), false));
    }
    return true;
  }

  // A sign in the middle of a sentence ("We are #1!") reads as a comment, which
  // the teacher may not have meant.
  void check_comment(std::string_view sentence, std::size_t sign,
                     std::size_t end) {
    if (sign + 1 == end || is_blank(text_[sign + 1]) ||
        text_[sign + 1] == '#' || ends_sentence(sentence)) {
      return;
    }
    diagnostics_.warning(
        diagnostic::comment_in_text, span(sign, end),
        fmt::format("the sentence ends after {}, because ` #` begins a comment",
                    as_written(sentence)),
        {"if this belongs to the sentence, write it in words; if it is a "
         "comment, write a space after the `#`",
         {{span(sign + 1, sign + 1), " ",
           "a space is now after the sign #, so it is a comment"}}});
  }

  void report_bullets() {
    if (bullets_.empty()) return;
    const Span first = bullets_.front().span;
    std::string found =
        fmt::format("this line begins with a {}",
                    first.text().starts_with('-') ? "dash" : "bullet");
    const std::size_t more = bullets_.size() - 1;
    if (more > 0) {
      found +=
          fmt::format(", and so {} {} more", more == 1 ? "does" : "do", more);
    }
    diagnostics_.error(
        diagnostic::bad_list, first, std::move(found),
        {"take it out; each line counts as one already", std::move(bullets_)});
  }

  void report_wordless() {
    if (wordless_.empty()) return;
    std::string found = "this line has no words and is left out";
    const std::size_t more = wordless_.size() - 1;
    if (more > 0) {
      found = fmt::format(
          "{} lines have no words and are left out; this is "
          "the first",
          more + 1);
    }
    diagnostics_.warning(diagnostic::no_words_in_line, wordless_.front(),
                         std::move(found),
                         "take it out, or begin it with `#` to make it a "
                         "comment");
  }

  const SourceFile& file_;
  std::string text_;  // as long as the file's, with plain spaces
  TellSlips slips_;
  Diagnostics& diagnostics_;
  SentenceFile result_;
  SentenceMender mender_;
  std::vector<Fix> bullets_;
  std::vector<Span> wordless_;
  int long_lines_ = 0;
};

}  // namespace

SentenceFile read_sentence_file(const SourceFile& file, TellSlips slips,
                                Diagnostics& diagnostics) {
  if (const auto key = key_at_head(file)) {
    const FileKind kind = likely_kind(file);
    diagnostics.error(
        diagnostic::wrong_file_kind, *key,
        fmt::format("this file is {}, as `{}` shows, and not {}",
                    describe(kind), key->text(), describe(FileKind::sentences)),
        "name a text file with one sentence on each line instead");
    return {};
  }
  auto text = check_plain_text(file, kLargestSentenceFile, diagnostics);
  if (!text) return {};
  return SentenceReader(file, std::move(*text), slips, diagnostics).run();
}

std::string sentence_in_line(const std::string& line) {
  const SourceFile file({}, line);
  Diagnostics unheard;
  const SentenceFile read = read_sentence_file(file, TellSlips::yes, unheard);
  if (unheard.has_errors() || unheard.warning_count() > 0 ||
      read.sentences.size() != 1) {
    return {};
  }
  return read.sentences.front().text();
}

}  // namespace sheaf
