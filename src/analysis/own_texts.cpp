#include "analysis/own_texts.h"

#include <fmt/format.h>

#include <string_view>
#include <vector>

#include "analysis/comma_splice.h"
#include "analysis/function_words.h"
#include "base/utf8.h"
#include "phonics/lexicon.h"

namespace sheaf {

namespace {

constexpr std::size_t kLongToDictate = 9;
constexpr std::size_t kLongToRead = 16;
constexpr std::size_t kLongForFirstSteps = 12;
constexpr std::size_t kFirstPatterns = 30;
constexpr std::size_t kLongInPassage = 24;

struct Stretch {
  std::size_t begin = 0, end = 0;  // bytes of the text
};

bool ends_here(std::string_view text, std::size_t at) {
  return text[at] == '.' || text[at] == '!' || text[at] == '?';
}

// The sentences of a line or a paragraph, with their end marks and the
// quotation marks behind these. A mark within a word (3.5) ends none.
std::vector<Stretch> sentences_in(std::string_view text) {
  std::vector<Stretch> sentences;
  std::size_t begin = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (!ends_here(text, at)) continue;
    std::size_t end = at + 1;
    while (end < text.size() && text[end] != ' ' && text[end] != '\n') {
      const bool closes = ends_here(text, end) || text[end] == '"' ||
                          text[end] == '\'' || text[end] == ')' ||
                          static_cast<unsigned char>(text[end]) >= 0x80;
      if (!closes) break;
      ++end;
    }
    if (end < text.size() && text[end] != ' ' && text[end] != '\n') continue;
    sentences.push_back({begin, end});
    begin = std::min(text.find_first_not_of(" \n", end), text.size());
    at = end - 1;
  }
  if (begin < text.size()) sentences.push_back({begin, text.size()});
  return sentences;
}

class OwnTextReader {
 public:
  enum class Kind { to_read, to_write, connected };

  OwnTextReader(const AnalyzedLesson& lesson, Diagnostics& diagnostics)
      : lesson_(lesson), diagnostics_(diagnostics), is_early_(is_early()) {}

  void read(const std::vector<AnalyzedSentence>& texts, Kind kind) {
    for (const AnalyzedSentence& text : texts) {
      std::size_t next = 0;
      for (const Stretch& sentence : sentences_in(text.text.text())) {
        const std::size_t first = next;
        while (next < text.words.size() &&
               text.words[next].begin < sentence.end) {
          ++next;
        }
        report_length(text, sentence, next - first, kind);
        report_splice(text, sentence);
        if (next > first) report_small(text, first, next);
      }
    }
  }

  void report_missing_end(const AnalyzedSentence& paragraph) {
    const std::string& text = paragraph.text.text();
    if (paragraph.words.empty() || paragraph.words.back().end != text.size()) {
      return;
    }
    const Span last = paragraph.words.back().word.spelling.span;
    const std::string& word = paragraph.words.back().word.spelling.value;
    Fix fix = {{last.file, last.end, last.end},
               ".",
               fmt::format("{} ends with a full stop now", word),
               true};
    diagnostics_.warning(
        diagnostic::missing_end_mark, last,
        fmt::format("no end mark stands behind {}, the last word of this "
                    "paragraph",
                    as_written(word)),
        {"write the mark; `sheaf check --fix` writes a full stop", {fix}});
  }

 private:
  // Whether a group that a sequence is known of was taught only a few patterns.
  bool is_early() const {
    const Taught& taught = lesson_.taught;
    if (taught.step() < 0) return false;
    std::size_t known = 0;
    for (std::size_t id = 0; id < lesson_.phonics->patterns().all().size();
         ++id) {
      const int stage = taught.stage(static_cast<PatternId>(id));
      known += stage >= 0 && stage <= taught.step() + 1 ? 1 : 0;
    }
    return known < kFirstPatterns;
  }

  void report_length(const AnalyzedSentence& text, const Stretch& sentence,
                     std::size_t words, Kind kind) {
    const bool early = kind == Kind::to_read && is_early_;
    const std::size_t most = kind == Kind::to_write    ? kLongToDictate
                             : kind == Kind::connected ? kLongInPassage
                             : early                   ? kLongForFirstSteps
                                                       : kLongToRead;
    if (words <= most) return;
    std::string for_whom = "for readers who are still learning to spell";
    if (kind == Kind::to_write) {
      for_whom = "to keep in mind while it is written";
    } else if (early) {
      const auto step = static_cast<std::size_t>(lesson_.taught.step());
      for_whom = fmt::format("for readers at {}",
                             step_name(lesson_.taught.steps()[step]));
    }
    diagnostics_.note(
        diagnostic::long_sentence,
        text.text.span_of(sentence.begin, sentence.end),
        fmt::format("this sentence has {} words, which is long {}", words,
                    for_whom),
        "make two of it, or leave it if your group can manage it");
  }

  void report_splice(const AnalyzedSentence& text, const Stretch& sentence) {
    const std::string_view all = text.text.text();
    const auto splice = find_comma_splice(
        all.substr(sentence.begin, sentence.end - sentence.begin),
        *lesson_.phonics);
    if (!splice) return;
    const std::size_t comma = sentence.begin + splice->comma;
    const std::size_t second = sentence.begin + splice->second;
    const std::size_t last =
        std::min(all.find_first_of(".!", second), sentence.end);
    const std::string capital = upper_case(all.substr(second, 1));
    const std::size_t word_end =
        std::min(all.find_first_of(" .,!", second), all.size());
    Fix fix = {text.text.span_of(comma, second + 1), ". " + capital,
               fmt::format("{}{} begins a sentence of its own now", capital,
                           all.substr(second + 1, word_end - second - 1)),
               false};
    diagnostics_.warning(
        diagnostic::comma_splice, text.text.span_of(comma, comma + 1),
        fmt::format("this comma joins two sentences; {} could stand by itself",
                    as_written(all.substr(second, last - second))),
        {"write a full stop and a capital, or put a word such as and, but, so "
         "or because behind the comma",
         {fix}});
  }

  // Where a sentence begins in the middle of a line, I by itself, and names.
  void report_small(const AnalyzedSentence& text, std::size_t first,
                    std::size_t end) {
    for (std::size_t i = first; i < end; ++i) {
      const PlacedWord& word = text.words[i].word.spelling;
      if (word.value[0] < 'a' || word.value[0] > 'z') continue;
      // Not the letter: dot the i.
      const std::string before =
          i > first ? lower_case(text.words[i - 1].word.spelling.value) : "";
      const bool letter = is_determiner(before) || before == "letter";
      const bool is_i =
          !letter && (word.value == "i" || word.value.starts_with("i'") ||
                      word.value.starts_with("i’"));
      const auto head = lesson_.phonics->lexicon().head(word.value);
      const bool is_name = head && head->name;
      // A line that begins small is put right when it is read.
      const bool begins = i == first && first > 0 && follows_end(text, i);
      if (!is_i && !is_name && !begins) continue;
      const std::string capital =
          upper_case(word.value.substr(0, 1)) + word.value.substr(1);
      const std::string_view why =
          is_i      ? "stands here with a small letter"
          : is_name ? "has a small letter; as far as Sheaf knows it is always "
                      "written with a capital"
                    : "begins a sentence with a small letter";
      diagnostics_.warning(
          diagnostic::missing_capital, word.span,
          fmt::format("{} {}", as_written(word.value), why),
          {fmt::format("write {}", as_written(capital)),
           {{word.span, capital, is_now(word.value, capital), false}}});
    }
  }

  // Whether a sentence ends right before a word: not in "Stop!" he said.
  static bool follows_end(const AnalyzedSentence& text, std::size_t index) {
    const auto& before = text.words[index - 1];
    const std::string_view between =
        std::string_view(text.text.text())
            .substr(before.end, text.words[index].begin - before.end);
    return between == ". " || between == "! " || between == "? ";
  }

  const AnalyzedLesson& lesson_;
  Diagnostics& diagnostics_;
  bool is_early_;
};

}  // namespace

void report_own_texts(const AnalyzedLesson& lesson, const OwnTexts& own,
                      Diagnostics& diagnostics) {
  using Kind = OwnTextReader::Kind;
  OwnTextReader reader(lesson, diagnostics);
  if (own.sentences) reader.read(lesson.sentences, Kind::to_read);
  if (own.dictate_sentences) {
    reader.read(lesson.dictate_sentences, Kind::to_write);
  }
  if (!own.passage) return;
  reader.read(lesson.passage.paragraphs, Kind::connected);
  reader.read(lesson.passage.questions, Kind::connected);
  for (const AnalyzedSentence& paragraph : lesson.passage.paragraphs) {
    reader.report_missing_end(paragraph);
  }
}

}  // namespace sheaf
