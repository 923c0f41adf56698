#include "cli/sentence_report.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/utf8.h"
#include "planning/sentence_search.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace {

constexpr std::size_t kMostRows = 15;

std::string row_text(const SentenceReport& report,
                     const SentenceReport::Row& row) {
  std::string text = fmt::format("  {:<16} {:>4}", row.pattern, row.having);
  if (row.step >= 0) {
    text += fmt::format(
        "  {:>4} can be read in {}", row.readable,
        step_name(report.steps[static_cast<std::size_t>(row.step)]));
  }
  return text + "\n";
}

}  // namespace

std::string sentence_report(std::string_view path,
                            const SentenceReport& report) {
  std::string out =
      fmt::format("{}: {}\n", printable(path),
                  counted(report.sentences, "sentence", "sentences"));
  if (report.long_ones > 0) {
    out += fmt::format(
        "{} longer than {} words; Sheaf takes such only where `sheaf find` "
        "asks "
        "for them with `--length`\n",
        report.long_ones == 1 ? "1 is"
                              : fmt::format("{} are", report.long_ones),
        SentenceQuery().words.most);
  }
  const auto first_without =
      std::ranges::find(report.rows, 0, &SentenceReport::Row::having);
  const auto with =
      static_cast<std::size_t>(first_without - report.rows.begin());
  const std::size_t shown = std::min(with, kMostRows);
  if (shown == 0) return out;
  out += report.sequence.empty()
             ? "sentences with a word that has\n"
             : fmt::format(
                   "sentences with a word that has, and how many of "
                   "them can be read when {} teaches it\n",
                   printable(report.sequence));
  for (std::size_t i = 0; i < shown; ++i) {
    out += row_text(report, report.rows[i]);
  }
  if (with > shown) {
    out += fmt::format("and {}; `--json` has all of them\n",
                       counted(static_cast<int>(with - shown), "more pattern",
                               "more patterns"));
  }
  const std::size_t without = report.rows.size() - with;
  if (without > 0) {
    out +=
        fmt::format("{} of the sequence {} in no sentence yet\n",
                    counted(static_cast<int>(without), "pattern", "patterns"),
                    without == 1 ? "is" : "are");
  }
  return out;
}

}  // namespace sheaf
