#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "base/shuffle.h"
#include "layout/heard.h"
#include "sheets/word_parts_rows.h"

namespace sheaf::word_parts_sheet {

using namespace literals;

namespace {

constexpr Length kDot = 2_mm;      // where a line begins and ends
constexpr Length kToDraw = 26_mm;  // between the dots
constexpr Length kBesideDot = 3_mm;
constexpr Length kBetweenRows = 4_mm;

// A letter for each meaning, in mixed order: `place[i]` is where the meaning of
// word `i` stands.
std::vector<std::size_t> mixed_places(const SheetInput& in, std::size_t count) {
  std::vector<std::size_t> place(count);
  std::iota(place.begin(), place.end(), std::size_t{0});
  Random random(text_hash("meanings", in.lesson.seed));
  shuffle(place, random);
  // A meaning beside its word would be joined without reading.
  for (std::size_t i = 0; count > 1 && i < count; ++i) {
    if (place[i] == i) std::swap(place[i], place[(i + 1) % count]);
  }
  return place;
}

std::string letter_of(std::size_t place) {
  return std::string(1, static_cast<char>('a' + place));
}

struct Matching {
  TextStyle word, number, meaning;
  Length words;          // their column, with the numbers
  Length numbers;        // from the left edge to a word
  Length meanings_left;  // where the letters stand
  std::vector<std::vector<TextLine>> lines;
  Length row;
};

Matching plan_matching(Composer& c, const std::vector<Prefixed>& words) {
  Matching plan;
  plan.number = c.style().learner_text();
  plan.meaning = c.style().text(c.style().reading_size);
  plan.meaning.leading = 1.25;
  plan.numbers = width_of(c.shape(plan.number, "8")) + kBesideDot;
  const auto text_of = [](const Prefixed& p) -> const std::string& {
    return p.word->reading.word;
  };
  const Length most = c.width() * 2 / 5 - plan.numbers;
  plan.word = c.style().text(c.style().word_size);
  plan.word =
      fitted_style(plan.word, widest_text(c, plan.word, words, text_of), most);
  plan.words = plan.numbers + widest_text(c, plan.word, words, text_of);
  plan.meanings_left = plan.words + 2 * kBesideDot + kToDraw;
  const Length room = c.width() - plan.meanings_left - plan.numbers;
  plan.row = plan.word.line_height();
  for (const Prefixed& p : words) {
    plan.lines.push_back(break_lines(c, plan.meaning, p.parts.meaning, room));
    plan.row = std::max(
        plan.row, plan.meaning.line_height() *
                      static_cast<std::int64_t>(plan.lines.back().size()));
  }
  plan.row += kBetweenRows;
  return plan;
}

// The first word is given, its line drawn, where there are some to spare.
void add_match(const SheetInput& in, Composer& c,
               const std::vector<Prefixed>& words) {
  const Matching plan = plan_matching(c, words);
  const auto place = mixed_places(in, words.size());
  Block& block =
      c.block(plan.row * static_cast<std::int64_t>(words.size()), 2.5_mm);
  const auto middle = [&](std::size_t row) {
    return plan.row * static_cast<std::int64_t>(row) + plan.row / 2;
  };
  const Length from_x = plan.words + kBesideDot;
  const Length to_x = plan.meanings_left - kBesideDot;
  const auto base_of = [](const TextStyle& style, Length centre) {
    return centre - style.line_height() / 2 + baseline_in_line(style);
  };
  const ElementId list = c.add(Role::list);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const From from(c, words[i].word->spelling.span);
    const auto [label, body] = add_list_item(c, list);
    draw_text(c, block, plan.number, fmt::format("{}", i + 1),
              {0_mm, base_of(plan.word, middle(i))}, label);
    const std::string& word = words[i].word->reading.word;
    const bool joined = i == 0 && words.size() > 2;
    const ElementId element =
        joined ? add_heard(
                     c, body,
                     fmt::format("{}, joined to {}", word, letter_of(place[0])))
               : body;
    draw_text(c, block, plan.word, word,
              {plan.numbers, base_of(plan.word, middle(i))}, element);
    block.dot({from_x, middle(i)}, kDot, element);
    if (!joined) continue;
    block.line({from_x, middle(0)}, {to_x, middle(place[0])},
               {.width = 2 * c.style().box_weight}, element);
  }
  const ElementId meanings = c.add(Role::list);
  for (std::size_t row = 0; row < words.size(); ++row) {
    const auto i =
        static_cast<std::size_t>(std::ranges::find(place, row) - place.begin());
    const From from(c, words[i].word->spelling.span);
    const auto [label, body] = add_list_item(c, meanings);
    block.dot({to_x, middle(row)}, kDot, body);
    const auto lines = static_cast<std::int64_t>(plan.lines[i].size());
    Length y = middle(row) - plan.meaning.line_height() * lines / 2 +
               baseline_in_line(plan.meaning);
    draw_text(c, block, plan.number, letter_of(row), {plan.meanings_left, y},
              label);
    for (const TextLine& line : plan.lines[i]) {
      draw_line(c, block, line, {plan.meanings_left + plan.numbers, y}, body);
      y += plan.meaning.line_height();
    }
  }
}

// The words in groups of about one size, of which each fits a page with its
// heading.
std::vector<std::vector<Prefixed>> groups_of(Composer& c,
                                             const std::vector<Prefixed>& all) {
  const Length room = scaled(c.body().height, 0.85);
  const Length row = plan_matching(c, all).row;
  const auto fit = std::max<std::size_t>(
      2, std::min<std::size_t>(8, static_cast<std::size_t>(room / row)));
  const std::size_t pages = (all.size() + fit - 1) / fit;
  std::vector<std::vector<Prefixed>> groups(pages);
  for (std::size_t i = 0; i < all.size(); ++i) {
    groups[i * pages / all.size()].push_back(all[i]);
  }
  return groups;
}

}  // namespace

void add_meanings(const SheetInput& in, Composer& c, const WordParts& content) {
  if (content.prefixed.empty()) return;
  for (const auto& group : groups_of(c, content.prefixed)) {
    add_heading(c, "What does it mean? Draw a line to join the two.");
    add_match(in, c, group);
  }
  std::vector<PartedWord> parted;
  for (const Prefixed& p : content.prefixed) {
    parted.push_back({p.word, {p.parts.prefix, p.parts.base}});
  }
  add_parted(in, c, parted, "Put it together. Write it whole.");
}

void add_meaning_answers(const SheetInput& in, Composer& c,
                         const WordParts& content) {
  const TextStyle plain = c.style().teacher_text();
  for (const Prefixed& p : content.prefixed) {
    const From from(c, p.word->spelling.span);
    add_paragraph(c, plain,
                  fmt::format("{} + {} = {}: {}", p.parts.prefix, p.parts.base,
                              p.word->reading.word, p.parts.meaning));
  }
  if (content.unexplained.empty() || !in.options.flag("prefixes")) return;
  std::string words;
  for (const AnalyzedWord* word : content.unexplained) {
    words += (words.empty() ? "" : ", ") + word->reading.word;
  }
  add_paragraph(c, plain,
                fmt::format("Left out of the meanings: {}. Sheaf knows no "
                            "meaning that follows from the parts.",
                            words));
}

}  // namespace sheaf::word_parts_sheet
