#include "driver/record_targets.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/nearest.h"
#include "base/private_text.h"
#include "driver/marking_desk.h"

namespace sheaf {

namespace {

// "`rush`, `rust` or `russ`".
std::string any_of(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    text += i == 0 ? "" : i + 1 == words.size() ? " or " : ", ";
    text += sheaf::quoted(words[i]);
  }
  return text;
}

std::string with_word(const std::string& word, const std::string& written) {
  return fmt::format("{}={}", word, written.empty() ? "." : written);
}

// A whole sentence is no name for an attempt in a list.
bool is_one_word(const std::string& word) {
  return word.find(' ') == std::string::npos;
}

// Whether the attempt can be mended by putting its word before it.
bool asks_for_word(const UnclearTarget& target) {
  return (target.why == UnclearTarget::Why::several ||
          target.why == UnclearTarget::Why::right) &&
         std::ranges::all_of(target.words, is_one_word);
}

// `written` as it is shown.
UnclearText said_of(const UnclearTarget& target, const std::string& written) {
  const std::string shown = sheaf::quoted(written);
  // Only a word that was dictated may stand in it.
  const std::string as_in =
      target.example.empty()
          ? std::string()
          : fmt::format(", as in `{}`", with_word(target.example, written));
  switch (target.why) {
    case UnclearTarget::Why::several:
      return {
          fmt::format("{} may be meant for {}", shown, any_of(target.words)),
          asks_for_word(target)
              ? fmt::format("write its word before it{}", as_in)
              : "give the sentence as a key with what was written after it, as "
                "in `{We wait.: We wate.}`"};
    case UnclearTarget::Why::none:
      return {fmt::format("no word that was dictated is near to {}", shown),
              target.example.empty()
                  ? "every word has an attempt already; take one out"
                  : fmt::format("write its word before it{}", as_in)};
    case UnclearTarget::Why::right:
      return {fmt::format("{} is a dictated word that is spelled right, so it "
                          "must have been meant for another",
                          shown),
              target.example.empty()
                  ? "take it out if it was right"
                  : fmt::format("write that word before it{}, or take it out "
                                "if it was right",
                                as_in)};
    case UnclearTarget::Why::taken:
      return {fmt::format("{} is nearest to {}, which has an attempt of this "
                          "learner already",
                          shown, sheaf::quoted(target.words.front())),
              target.example.empty()
                  ? "take one of them out"
                  : fmt::format("write the word that it was meant for before "
                                "it{}, or take one of them out",
                                as_in)};
    case UnclearTarget::Why::in_sentence:
      return {fmt::format("{} belongs to a sentence that this learner has "
                          "whole as well",
                          shown),
              "give the sentence whole, or only its words that are wrong"};
  }
  return {};
}

}  // namespace

UnclearText unclear_text(const UnclearTarget& target) {
  return said_of(target, target.written.text());
}

void report_unclear_targets(std::span<const UnclearTarget> unclear,
                            Diagnostics& diagnostics) {
  for (const UnclearTarget& target : unclear) {
    // What is near to a dictated word is an attempt at it; anything else may be
    // a name, which is not shown. Where the record names the word, nobody has
    // looked whether it is near.
    const bool hidden =
        (target.why == UnclearTarget::Why::none || target.names_target) &&
        may_be_name(target.written.text());
    const UnclearText said =
        hidden ? said_of(target, "…") : unclear_text(target);
    Help help{said.help};
    if (asks_for_word(target)) {
      for (const std::string& word : target.words) {
        const std::string& written = target.written.text();
        std::string named = with_word(word, written);
        std::string label = is_now(written, named);
        help.fixes.push_back({{}, std::move(named), std::move(label)});
      }
    }
    diagnostics.error(diagnostic::unclear_target, target.written.span(),
                      said.text, std::move(help));
  }
}

std::string found_text(const FoundTarget& found) {
  std::string text =
      fmt::format("{} is taken for {}", sheaf::quoted(found.written.text()),
                  sheaf::quoted(found.word));
  if (!found.sentence.empty()) {
    text += fmt::format(" in {}; the rest of the sentence counts as right",
                        sheaf::quoted(found.sentence));
  }
  return text;
}

std::vector<RecordReport> check_records(Workspace& workspace,
                                        const LessonRequest& request,
                                        const std::string& path,
                                        Diagnostics& diagnostics) {
  std::vector<std::string> faults;
  MarkingDesk desk(workspace, {.allowed_folders = request.allowed_folders},
                   faults);
  std::vector<RecordReport> reports;
  const std::vector<MarkedRecord> records = desk.mark({path}, diagnostics);
  for (const MarkedRecord& marked : records) {
    for (const FoundTarget& found : marked.targets.found) {
      diagnostics.note(diagnostic::target_found, found.written.span(),
                       found_text(found));
    }
  }
  if (diagnostics.has_errors()) return reports;
  for (const MarkedRecord& marked : records) {
    RecordReport report{.date = marked.session.date,
                        .lesson = marked.session.lesson,
                        .kind = marked.session.kind};
    for (const LearnerResult& learner : marked.session.learners) {
      ++(learner.absent ? report.absent : report.marked);
      for (const SessionWord& word : learner.words) {
        if (!word.right()) ++report.errors;
      }
    }
    reports.push_back(std::move(report));
  }
  return reports;
}

}  // namespace sheaf
