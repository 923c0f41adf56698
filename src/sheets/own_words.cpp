#include "sheets/own_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>
#include <vector>

#include "layout/table.h"
#include "sheets/dictated.h"
#include "sheets/in_sentence.h"

namespace sheaf {
namespace {

using namespace literals;

using Words = std::vector<AnalyzedWord>;

// A learner's words at the end of the dictation, as many as the sheet has room
// for after those of all.
std::size_t dictated_count(const SheetInput& in, const OwnWords& own) {
  const auto sheet = std::ranges::find_if(in.packet, [](const PlannedSheet& s) {
    return s.kind->name == "dictation";
  });
  if (sheet == in.packet.end()) return 0;
  const auto most = static_cast<std::size_t>(sheet->options.count("words"));
  const std::size_t of_all = in.lesson.dictate_words.size();
  return most > of_all ? std::min(most - of_all, own.dictated.size()) : 0;
}

// The same count for all learners, or nothing.
std::optional<std::size_t> even_count(const SheetInput& in) {
  std::optional<std::size_t> count;
  for (const OwnWords& own : in.lesson.own_words) {
    const std::size_t one = dictated_count(in, own);
    if (count && *count != one) return std::nullopt;
    count = one;
  }
  return count;
}

std::size_t most_dictated(const SheetInput& in) {
  std::size_t most = 0;
  for (const OwnWords& own : in.lesson.own_words) {
    most = std::max(most, dictated_count(in, own));
  }
  return most;
}

// A row of a table: a learner's code and words. The words behind the first
// `again` are in the warm-up only.
struct Row {
  std::string learner;
  std::span<const AnalyzedWord> words;
  std::size_t again = 0;
};

// Whether those of the dictation are the first of the warm-up.
bool begins_alike(const OwnWords& own, std::size_t dictated) {
  return dictated <= own.warm_up.size() &&
         std::ranges::equal(
             std::span(own.dictated).first(dictated),
             std::span(own.warm_up).first(dictated), {},
             [](const AnalyzedWord& word) { return word.reading.word; },
             [](const AnalyzedWord& word) { return word.reading.word; });
}

TextPiece word_piece(const Row& row, std::size_t index,
                     const TextStyle& style) {
  if (index >= row.words.size()) return {"–", style};
  const std::string& word = row.words[index].reading.word;
  if (index < row.again) return {word, style};
  return {.text = fmt::format("({})", word),
          .style = style,
          .heard = fmt::format("{}, in the warm-up only", word)};
}

// The numbers of the words stand over the columns, those of the dictation
// behind those of the warm-up.
void add_rows(Composer& c, const std::vector<Row>& rows, std::size_t first,
              std::size_t other_first) {
  std::size_t most = 0, again = 0;
  for (const Row& row : rows) {
    most = std::max(most, row.words.size());
    again = std::max(again, row.again);
  }
  std::vector<Table::Column> columns = {
      {.title = "Learner", .share = 0, .fixed = 24_mm}};
  for (std::size_t i = 0; i < most; ++i) {
    columns.push_back(
        {.title = other_first == first || i >= again
                      ? fmt::format("{}", first + i)
                      : fmt::format("{} and {}", first + i, other_first + i),
         .share = 1,
         .none = "no word"});
  }
  Table table(c, columns);
  const TextStyle style = c.style().teacher_text();
  for (const Row& row : rows) {
    std::vector<Table::Cell> cells = {
        {{row.learner, c.style().teacher_text(true)}}};
    for (std::size_t i = 0; i < most; ++i) {
      cells.push_back({word_piece(row, i, style)});
    }
    table.add_row(cells, true);
  }
}

void add_lead(Composer& c, const std::string& text) {
  add_paragraph(c, c.style().teacher_text(), text,
                {.space_before = 2_mm, .keep_with_next = true});
}

// Only a sentence tells which of two is meant.
void add_alikes(const SheetInput& in, Composer& c) {
  Words words;
  std::set<std::string> seen;
  for (const OwnWords& own : in.lesson.own_words) {
    for (const AnalyzedWord& word : own.warm_up) {
      if (only_alikes(in.lesson, word).alikes.empty()) continue;
      if (seen.insert(word.reading.word).second) words.push_back(word);
    }
  }
  if (words.empty()) return;
  const std::vector<InSentence> said = in_sentences(in.lesson, words);
  const TextStyle plain = c.style().teacher_text();
  std::vector<std::vector<TextPiece>> texts;
  for (std::size_t i = 0; i < words.size(); ++i) {
    texts.push_back(
        said_pieces(said[i], words[i], plain, c.style().teacher_text(true)));
  }
  add_lead(c, "Some sound like another word. Say these in a sentence:");
  for (std::vector<TextPiece>& text : texts) add_paragraph(c, text);
}

}  // namespace

bool has_own_words(const SheetInput& in) {
  return !in.lesson.own_words.empty();
}

std::string sentence_number(const SheetInput& in, std::size_t words_of_all,
                            std::size_t sentence) {
  const auto own = has_own_words(in) ? even_count(in) : std::size_t{0};
  return own ? fmt::format("{}", words_of_all + *own + sentence + 1)
             : std::string();
}

std::string dictate_own_words(const SheetInput& in, std::size_t words_of_all) {
  if (!has_own_words(in) || most_dictated(in) == 0) return {};
  return fmt::format(
      "Then each learner’s own words, from number {} on: the table “{}” has "
      "them. Say them to one learner at a time, or let partners dictate to "
      "each other.",
      words_of_all + 1, kOwnWordsTitle);
}

void add_own_words(const SheetInput& in, Composer& c) {
  if (!has_own_words(in)) return;
  std::vector<Row> warm_up, dictated, both;
  const bool has_warm_up = has_sheet(in, "warm-up");
  bool alike = true;
  for (const OwnWords& own : in.lesson.own_words) {
    const std::size_t count = dictated_count(in, own);
    warm_up.push_back({own.learner, own.warm_up, own.warm_up.size()});
    dictated.push_back(
        {own.learner, std::span(own.dictated).first(count), count});
    both.push_back({own.learner, own.warm_up, count});
    alike = alike && begins_alike(own, count);
  }
  const std::size_t first = dictated_in_packet(in).words.size() + 1;
  const bool is_dictated = most_dictated(in) > 0;
  add_subheading(c, c.style().teacher_size, kOwnWordsTitle, 4_mm);
  if (has_warm_up && is_dictated && alike) {
    add_lead(c,
             fmt::format("In the warm-up from number 1 on; again at the end of "
                         "the words that are dictated, from number {} on. What "
                         "stands in brackets is in the warm-up only.",
                         first));
    add_rows(c, both, 1, first);
  } else {
    if (has_warm_up || !is_dictated) {
      add_lead(c, "In the warm-up:");
      add_rows(c, warm_up, 1, 1);
    }
    if (is_dictated) {
      add_lead(c, "At the end of the words that are dictated:");
      add_rows(c, dictated, first, first);
    }
  }
  add_alikes(in, c);
}

}  // namespace sheaf
