#include "sheets/near_pair_rows.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/shuffle.h"
#include "sheets/common_options.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace {

using Show = NearPairRow::Show;

constexpr std::size_t kEnoughRows = 4;
// Looked for beyond those wanted, since not all can be shown.
constexpr std::size_t kMorePairs = 8;

// What can stand on the page of a pair; words only where they can be read.
Show shown(const SheetInput& in, const NearPair& pair) {
  const std::string& asked = in.options.choice("show");
  const auto seen = [&](const AnalyzedWord& word) {
    return in.pictures.is_clear(word.reading.word);
  };
  if (asked == "pictures" && seen(pair.own) && seen(pair.other)) {
    return Show::pictures;
  }
  return asked != "numbers" && pair.readable ? Show::words : Show::numbers;
}

const std::vector<NearPair>& pairs_of(const SheetInput& in) {
  const int count = in.options.count("pairs");
  const bool pictured = in.options.choice("show") == "pictures";
  auto& kept = in.memory.near_pairs[2 * count + (pictured ? 1 : 0)];
  if (kept != nullptr) return *kept;
  const WordGames* games = in.lesson.games.get();
  std::vector<NearPair> pairs;
  if (games != nullptr && games->near_pairs) {
    pairs = games->near_pairs(
        in.lesson,
        [&](std::string_view word) {
          return !pictured || in.pictures.is_clear(word);
        },
        static_cast<std::size_t>(count) + kMorePairs);
  }
  kept = std::make_shared<const std::vector<NearPair>>(std::move(pairs));
  return *kept;
}

// `count` answers, about half of them yes, in mixed order.
std::vector<bool> halves(std::size_t count, Random& random) {
  std::vector<bool> yes(count);
  const std::size_t some = (count + random.below(2)) / 2;
  for (std::size_t i = 0; i < some; ++i) yes[i] = true;
  for (std::size_t left = count; left > 1; --left) {
    const std::size_t other = random.below(left);
    const bool kept = yes[left - 1];
    yes[left - 1] = yes[other];
    yes[other] = kept;
  }
  return yes;
}

}  // namespace

std::vector<NearPairRow> near_pair_rows(const SheetInput& in) {
  std::vector<NearPairRow> rows;
  for (const NearPair& pair : pairs_of(in)) {
    rows.push_back({.pair = &pair, .show = shown(in, pair)});
  }
  // Numbers stand among pictures and words only where those are few.
  if (in.options.choice("show") != "numbers") {
    const auto numbers = std::ranges::stable_partition(
        rows, [](const NearPairRow& row) { return row.show != Show::numbers; });
    if (rows.size() - numbers.size() >= kEnoughRows) {
      rows.erase(numbers.begin(), rows.end());
    }
  }
  keep_first(rows, in.options.count("pairs"));
  Random random(text_hash("near-pairs", in.lesson.seed));
  shuffle(rows, random);
  std::ranges::stable_sort(rows, {}, &NearPairRow::show);
  const auto sides = halves(rows.size(), random);
  const auto said = halves(rows.size(), random);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    rows[i].own_first = sides[i];
    rows[i].own_said = said[i];
  }
  return rows;
}

// The steps are common practice, no source; the wording is ours.
ScriptLines near_pairs_script(const SheetInput& in, const DayStep&) {
  const auto rows = near_pair_rows(in);
  const auto has = [&](Show show) {
    return std::ranges::find(rows, show, &NearPairRow::show) != rows.end();
  };
  ScriptLines lines;
  if (has(Show::pictures)) {
    lines.push_back({Lead::show,
                     "the pictures. Name each with the learners, so that "
                     "nobody takes one for something else."});
  }
  const bool model = is_model_asked(in.options, rows.size());
  if (model) {
    lines.push_back(
        {Lead::say, fmt::format("1. {}. “There is a ring round {} already.”",
                                rows[0].said().reading.word,
                                rows[0].show == Show::numbers
                                    ? "the number of the word that I said"
                                    : "the one that I said")});
  }
  for (std::size_t i = model ? 1 : 0; i < rows.size(); ++i) {
    const NearPairRow& row = rows[i];
    lines.push_back(
        {Lead::say,
         row.show == Show::numbers
             ? fmt::format("{}. “One: {}. Two: {}.” Then: {}.", i + 1,
                           row.left().reading.word, row.right().reading.word,
                           row.said().reading.word)
             : fmt::format("{}. {}.", i + 1, row.said().reading.word)});
  }
  lines.push_back(
      {Lead::act,
       "Say each word once, your mouth in sight. Learners say it after you and "
       "draw a ring round what they heard. Do not lengthen the sound that "
       "differs: they are to hear it as it is said."});
  lines.push_back({Lead::wait,
                   "the ring, before you say the next. Unsure: say both "
                   "words of the row, then the one again. “What does your "
                   "mouth do?”"});
  lines.push_back({Lead::done_when,
                   "each row has a ring, and learners have said both words of "
                   "the rows that they were unsure of."});
  return lines;
}

}  // namespace sheaf
