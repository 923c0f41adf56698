#include "analysis/words_alone.h"

#include <algorithm>

#include "analysis/lesson_conventions.h"
#include "analysis/word_finder.h"
#include "base/diagnostic_names.h"

namespace sheaf {

namespace {

// Errors that leave all else in the file as it was meant.
bool is_by_itself(const DiagnosticName& name) {
  const DiagnosticName* const kNames[] = {
      &diagnostic::unknown_key,        &diagnostic::missing_key,
      &diagnostic::missing_value,      &diagnostic::wrong_value,
      &diagnostic::value_out_of_range, &diagnostic::bad_word,
      &diagnostic::repeated_word};
  return std::ranges::any_of(kNames, [&](const DiagnosticName* one) {
    return one->name == name.name;
  });
}

std::string_view without_blanks(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t\r");
  return begin == std::string_view::npos ? std::string_view()
                                         : text.substr(begin);
}

// Whether what stands under a key is made of keys: a map, as under `split:`.
bool may_hold_keys(const Span& key) {
  const std::string_view text = key.file->text();
  const std::size_t end = text.find('\n', key.end);
  std::string_view rest =
      text.substr(key.end, end == std::string_view::npos ? end : end - key.end);
  const std::size_t colon = rest.find(':');
  if (colon == std::string_view::npos) return true;
  rest = without_blanks(rest.substr(colon + 1));
  if (!rest.empty() && rest.front() != '#') return rest.front() == '{';
  // The next line that says something: a list begins with a dash.
  std::size_t at = end;
  while (at != std::string_view::npos) {
    const std::size_t next = text.find('\n', at + 1);
    const std::string_view line = without_blanks(text.substr(
        at + 1, next == std::string_view::npos ? next : next - at - 1));
    at = next;
    if (line.empty() || line.front() == '#') continue;
    return !line.starts_with("- ");
  }
  return false;
}

bool may_tell(const Diagnostics& diagnostics) {
  return std::ranges::all_of(diagnostics.sorted(), [](const Diagnostic* d) {
    if (d->severity != Severity::error) return true;
    if (!is_by_itself(*d->name)) return false;
    return d->name->name != diagnostic::unknown_key.name ||
           (d->span && !d->span.is_whole() && !may_hold_keys(d->span));
  });
}

}  // namespace

void report_words_alone(const Lesson& lesson, const Phonics& phonics,
                        Diagnostics& diagnostics, WordTest may_suggest) {
  if (!may_tell(diagnostics)) return;
  Diagnostics unheard;  // conventions are told once all else is right
  WordFinder finder(lesson, phonics, lesson_conventions(lesson, unheard),
                    diagnostics, std::move(may_suggest));
  for (const auto* words :
       {&lesson.words, &lesson.dictate_words, &lesson.sort_words}) {
    for (const LessonWord& word : *words) finder.look_up(word);
  }
  for (const auto* lines :
       {&lesson.sentences, &lesson.dictate_sentences,
        &lesson.passage.paragraphs, &lesson.passage.questions}) {
    for (const LessonLine& line : *lines) {
      for (const WordPlace& place : words_in(line.text())) {
        finder.look_up({.spelling = line.part(place.begin, place.end)});
      }
    }
  }
}

}  // namespace sheaf
