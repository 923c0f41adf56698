#include "packet/check_fit.h"

#include <fmt/format.h>

#include <set>

#include "layout/mark_bounds.h"

namespace sheaf {

namespace {

using namespace literals;

// Less than a row of the smallest boxes with its air is no room for a sheet.
constexpr Length kLeastHeight = 40_mm;
constexpr Length kLeastWidth = 100_mm;
// A quarter of an inch: what office printers leave blank at each edge (common
// practice, no source).
constexpr Length kUnprinted = 6.35_mm;
// More words than these in one part of a page are the list's fault.
constexpr std::size_t kManyWords = 40;
constexpr std::string_view kSmaller =
    "make the margins or the sizes in the layout smaller, or leave this out";

Span place_in(const LessonLine& line, std::string_view text) {
  const std::size_t at = line.text().find(text);
  if (at == std::string::npos) return {};
  return line.span_of(at, at + text.size());
}

// Where the lesson says a text; no place where the sheet made it.
Span place_in(const Lesson& lesson, std::string_view text) {
  for (const auto* words :
       {&lesson.words, &lesson.sort_words, &lesson.dictate_words}) {
    for (const LessonWord& word : *words) {
      if (word.spelling.value == text) return word.spelling.span;
    }
  }
  for (const auto* lines :
       {&lesson.sentences, &lesson.dictate_sentences, &lesson.rhyme,
        &lesson.teacher_note, &lesson.home_note, &lesson.passage.paragraphs,
        &lesson.passage.questions}) {
    for (const LessonLine& line : *lines) {
      if (const Span span = place_in(line, text)) return span;
    }
  }
  return lesson.title.value.find(text) == std::string::npos ? Span{}
                                                            : lesson.title.span;
}

std::string printed_text(const Mark& mark) {
  const auto* glyphs = std::get_if<GlyphMark>(&mark);
  if (glyphs == nullptr) return {};
  std::string text = glyphs->run.shape->text;
  while (text.ends_with(' ')) text.pop_back();
  return text;
}

}  // namespace

void FitCheck::report(Span span, std::string text,
                      std::string_view help = kSmaller) {
  const bool elsewhere = span && sheet_.span;
  Diagnostic& message =
      diagnostics_.error(diagnostic::does_not_fit, span ? span : sheet_.span,
                         std::move(text), std::string(help));
  if (elsewhere) {
    message.remarks.push_back({sheet_.span, "the sheet is asked for here"});
  }
}

void FitCheck::report_wide(const std::string& text) {
  report(place_in(lesson_, text),
         fmt::format("{} is wider than its place on the sheet `{}`",
                     quoted(text), sheet_.kind->name));
}

bool FitCheck::check_body(const Rect& body) {
  if (body.height >= kLeastHeight && body.width >= kLeastWidth) return true;
  report(Span(),
         fmt::format("the margins and the head of the sheet `{}` leave no "
                     "room on the page",
                     sheet_.kind->name));
  return false;
}

// No size in the layout makes room for hundreds of words in one part.
bool FitCheck::report_long_list(const Block& block) {
  if (lesson_.words.size() < kManyWords) return false;
  std::set<std::string_view> listed;
  for (const LessonWord& word : lesson_.words) {
    listed.insert(word.spelling.value);
  }
  std::set<std::string> shown;
  for (const Mark& mark : block.marks) {
    std::string text = printed_text(mark);
    if (listed.contains(text)) shown.insert(std::move(text));
  }
  if (shown.size() < kManyWords) return false;
  list_is_long_ = true;
  report(join(lesson_.words.front().spelling.span,
              lesson_.words.back().spelling.span),
         fmt::format("{} words are more than have room on a page of the sheet "
                     "`{}`",
                     lesson_.words.size(), sheet_.kind->name),
         "take words out, or leave out the sheet");
  return true;
}

void FitCheck::check_blocks(Composer& composer) {
  for (const std::string& text : composer.too_wide()) report_wide(text);
  for (const Block& block : composer.blocks()) {
    const Length head = block.head == nullptr ? Length() : block.head->height;
    if (head + block.height <= composer.body().height) continue;
    if (report_long_list(block)) return;
    report(Span(),
           fmt::format("a part of the sheet `{}` that cannot be divided is "
                       "taller than the page",
                       sheet_.kind->name));
    return;
  }
}

void FitCheck::check_pages(const std::vector<Page>& pages) {
  if (list_is_long_) return;
  for (const Page& page : pages) {
    const Length right = page.size.width - kUnprinted;
    const Length bottom = page.size.height - kUnprinted;
    for (const Mark& mark : page.marks) {
      const Rect r = bounds_of(mark);
      if (r.x >= kUnprinted && r.y >= kUnprinted && r.right() <= right &&
          r.bottom() <= bottom) {
        continue;
      }
      const std::string text = printed_text(mark);
      if (!text.empty()) {
        report_wide(text);
      } else {
        report(Span(), fmt::format("a part of the sheet `{}` is wider than the "
                                   "page",
                                   sheet_.kind->name));
      }
      return;
    }
  }
}

}  // namespace sheaf
