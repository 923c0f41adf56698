#include "driver/fresh_set.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string_view>

#include "base/utf8.h"
#include "driver/planning_ground.h"
#include "planning/block_list.h"
#include "planning/lesson_text.h"

namespace sheaf {

namespace {

// A lesson of its own, with what it says of itself but for words.
std::string text_of_set(const TaughtFile& taught, int set) {
  const Lesson& lesson = taught.lesson;
  std::string text = fmt::format(
      "# The patterns of {} again, with fresh words. Written by `sheaf "
      "week`.\nsheaf: 1\n",
      taught.name);
  const auto add = [&](std::string_view key, const Span& value) {
    if (value) text += fmt::format("{}: {}\n", key, value.text());
  };
  add("title", lesson.title.span);
  std::string patterns;
  for (const PlacedWord& pattern : lesson.patterns) {
    patterns +=
        fmt::format("{}\"{}\"", patterns.empty() ? "" : ", ", pattern.value);
  }
  text += fmt::format("pattern: [{}]\nset: {}\n", patterns, set);
  add("sequence", lesson.sequence.span);
  add("step", lesson.step.span);
  add("accent", lesson.accent.span);
  add("layout", lesson.layout.span);
  add("days", lesson.days.span);
  add("minutes", lesson.minutes.span);
  return text;
}

// What a lesson leaves to Sheaf, chosen.
struct FilledWords {
  std::vector<std::string> list;  // to practise, lower case
  std::vector<std::string> all;   // these and other words for keys
  std::string text;               // all that was chosen, as keys of a lesson
};

std::optional<FilledWords> choose_words(Workspace& workspace,
                                        const LessonRequest& request,
                                        const TaughtFile& taught,
                                        Lesson& lesson, Diagnostics& found) {
  if (found.has_errors()) return std::nullopt;
  const LessonPlan plan =
      plan_lesson(workspace, request, FilePath(taught.path).parent_path(),
                  lesson, workspace.phonics(), has_clear_picture, found);
  if (found.has_errors() || plan.analyzed.words.empty()) return std::nullopt;
  FilledWords chosen;
  for (const AnalyzedWord& word : plan.analyzed.words) {
    chosen.list.push_back(lower_case(word.reading.word));
  }
  for (const FilledKey& filled : plan.filled) {
    if (filled.key == "passage") {
      chosen.text += passage_text(lesson.passage);
    } else if (filled.key.ends_with("sentences")) {
      chosen.text += sentences_text(filled.key, filled.key == "sentences"
                                                    ? lesson.sentences
                                                    : lesson.dictate_sentences);
    } else {
      chosen.text +=
          fmt::format("{}: {}\n", filled.key, fmt::join(filled.words, " "));
      chosen.all.insert(chosen.all.end(), filled.words.begin(),
                        filled.words.end());
    }
  }
  return chosen;
}

}  // namespace

std::optional<FreshSet> fresh_set(Workspace& workspace,
                                  const LessonRequest& request,
                                  const TaughtFile& taught, int set,
                                  const std::vector<std::string>& kept_back) {
  FreshSet fresh{.text = text_of_set(taught, set)};
  const SourceFile file("the lesson", fresh.text);
  const auto choose = [&](const LessonRequest& how) {
    Diagnostics found;
    Lesson lesson = read_lesson(file, found);
    return choose_words(workspace, how, taught, lesson, found);
  };
  auto words = choose(request);
  if (!words) return std::nullopt;
  BlockList list;
  for (const std::string& word : kept_back) list.add_word(word);
  if (std::ranges::any_of(words->all, [&](const std::string& word) {
        return list.blocks(word);
      })) {
    LessonRequest without = request;
    without.leave_out = kept_back;
    words = choose(without);
    if (!words) return std::nullopt;
    fresh.text += words->text;
  }
  std::set<std::string> own;
  for (const AnalyzedWord& word : taught.analyzed.words) {
    own.insert(lower_case(word.reading.word));
  }
  fresh.shared = static_cast<std::size_t>(std::ranges::count_if(
      words->list,
      [&](const std::string& word) { return own.contains(word); }));
  return fresh;
}

}  // namespace sheaf
