#include "cli/writing_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "base/utf8.h"
#include "cli/text_table.h"
#include "marking/score_words.h"

namespace sheaf {

namespace {

using Verdict = WritingChance::Verdict;
using Kind = NotedWord::Kind;
using Row = std::vector<std::string>;

std::string counted(std::size_t count, std::string_view one,
                    std::string_view several) {
  return fmt::format("{} {}", count, count == 1 ? one : several);
}

std::string verdict_text(const WritingChance& chance) {
  switch (chance.verdict) {
    case Verdict::right:
      return "right";
    case Verdict::wrong:
      // As one speaks is never called wrong; it is not right either.
      if (chance.cause == Cause::own_speech) {
        return std::string(cause_words(chance.cause));
      }
      return fmt::format("wrong: {}", cause_words(chance.cause));
    case Verdict::possible:
      return "possible: it sounds the same, and may have been meant";
    case Verdict::unsure:
      return "not sure what was meant; not counted";
  }
  return {};
}

// The rows of the words to look at, in the order of the text.
class WordRows {
 public:
  WordRows(const FreeWriting& writing, const PatternCatalogue& catalogue)
      : writing_(writing), catalogue_(catalogue) {}

  std::string text() {
    auto noted = writing_.noted.begin();
    auto chance = writing_.chances.begin();
    for (std::size_t i = 0; i < writing_.text.words.size(); ++i) {
      const NotedWord* of_word = nullptr;
      if (noted != writing_.noted.end() && noted->word == i) {
        of_word = &*noted++;
      }
      const auto end =
          std::find_if(chance, writing_.chances.end(),
                       [&](const WritingChance& c) { return c.word != i; });
      add_word(i, of_word, {chance, end});
      chance = end;
    }
    return in_table();
  }

 private:
  void add_word(std::size_t word, const NotedWord* noted,
                std::span<const WritingChance> chances) {
    if (noted != nullptr && noted->kind == Kind::name) return;
    bool any = false;
    std::string right;
    for (const WritingChance& chance : chances) {
      const std::string id(catalogue_[chance.pattern].id);
      if (chance.verdict == Verdict::right) {
        right += (right.empty() ? "" : ", ") + id;
        continue;
      }
      any = true;
      add({written(word), meant(chance, noted), sure(chance, noted), id,
           verdict_text(chance)});
    }
    if (any || noted == nullptr) return;
    const std::string patterns =
        right.empty() ? "" : fmt::format("; {} is right", right);
    switch (noted->kind) {
      case Kind::misspelled:
        add({written(word), listed(*noted), shares(*noted), "-",
             "misspelled" + patterns});
        break;
      case Kind::rare:
        add({written(word), listed(*noted), shares(*noted), "-",
             "a word too, but a rare one" + patterns});
        break;
      case Kind::not_known:
        add({written(word), "-", "-", "-",
             "unknown, and not close to any word"});
        break;
      case Kind::name:
        break;
    }
  }

  std::string written(std::size_t word) const {
    return printable(writing_.text.words[word].text);
  }

  static std::string listed(const NotedWord& noted) {
    std::string text;
    for (const NotedWord::Meant& meant : noted.meant) {
      text += (text.empty() ? "" : " or ") + printable(meant.word);
    }
    return text;
  }
  static std::string shares(const NotedWord& noted) {
    std::string text;
    for (const NotedWord::Meant& meant : noted.meant) {
      text += fmt::format("{}{}%", text.empty() ? "" : ", ", meant.sure);
    }
    return text;
  }

  // Of a pattern's row, the word that the pattern is judged by, unless the
  // words that may be meant begin with it.
  static bool leads(const WritingChance& chance, const NotedWord* noted) {
    return noted != nullptr && !noted->meant.empty() &&
           noted->meant[0].word == chance.meant;
  }
  static std::string meant(const WritingChance& chance,
                           const NotedWord* noted) {
    return leads(chance, noted) ? listed(*noted) : printable(chance.meant);
  }
  static std::string sure(const WritingChance& chance, const NotedWord* noted) {
    return leads(chance, noted) ? shares(*noted)
                                : fmt::format("{}%", chance.sure);
  }

  // A row that was there before is counted.
  void add(Row row) {
    const auto same = std::ranges::find(rows_, row, &Counted::first);
    if (same != rows_.end()) {
      ++same->second;
    } else {
      rows_.emplace_back(std::move(row), 1);
    }
  }

  std::string in_table() {
    TextTable table({"written", "meant", "sure", "pattern", "what"});
    for (auto& [row, times] : rows_) {
      if (times > 1) row.back() += fmt::format(" ({} times)", times);
      table.add(std::move(row));
    }
    return table.empty() ? "" : table.text();
  }

  using Counted = std::pair<Row, int>;
  const FreeWriting& writing_;
  const PatternCatalogue& catalogue_;
  std::vector<Counted> rows_;
};

std::string summary(const FreeWriting& writing) {
  const auto of_kind = [&](Kind kind) {
    return static_cast<std::size_t>(
        std::ranges::count(writing.noted, kind, &NotedWord::kind));
  };
  std::string text = fmt::format(
      "{}, {} misspelled", counted(writing.text.words.size(), "word", "words"),
      of_kind(Kind::misspelled));
  if (const auto rare = of_kind(Kind::rare)) {
    text += fmt::format(", {} perhaps", rare);
  }
  if (const auto unknown = of_kind(Kind::not_known)) {
    text += fmt::format(", {} unknown", unknown);
  }
  return text;
}

// In the order of the text, each once.
std::string names_in(const FreeWriting& writing) {
  std::vector<std::string> names;
  for (const NotedWord& noted : writing.noted) {
    if (noted.kind != Kind::name) continue;
    std::string name = printable(writing.text.words[noted.word].text);
    if (std::ranges::find(names, name) == names.end()) {
      names.push_back(std::move(name));
    }
  }
  return fmt::format("{}", fmt::join(names, ", "));
}

}  // namespace

std::string writing_text(const FreeWriting& writing,
                         const PatternCatalogue& catalogue,
                         std::string_view learner) {
  TextTable counts({"pattern", "right"});
  std::string record;
  for (const PatternCount& count : writing.counts) {
    if (count.chances == 0) continue;
    const Share share{count.right, count.chances};
    const std::string id(catalogue[count.pattern].id);
    counts.add({id, share.text()});
    record += fmt::format("{}{}: {}/{}", record.empty() ? "" : ", ", id,
                          count.right, count.chances);
  }
  std::string text =
      counts.empty() ? "no word of this text has a pattern that was taught\n"
                     : counts.text() + "\n";
  text += summary(writing) + "\n";
  const std::string words = WordRows(writing, catalogue).text();
  if (!words.empty()) {
    text += fmt::format(
        "\n{}\nIf another word was meant, say so in the text: `{{=word}}` "
        "after it, or `{{-word}}` for a word that was not meant.\n",
        words);
  }
  const std::string names = names_in(writing);
  if (!names.empty()) {
    text += fmt::format("Unknown, and left alone as names: {}\n", names);
  }
  if (!record.empty()) {
    text += fmt::format("For a record: writing: {{{}: {{{}}}}}\n",
                        learner.empty() ? "CODE" : learner, record);
  }
  return text;
}

}  // namespace sheaf
