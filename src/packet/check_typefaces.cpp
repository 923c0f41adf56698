#include <fmt/format.h>

#include "base/utf8.h"
#include "packet/packet.h"

namespace sheaf {

namespace {

class GlyphCheck {
 public:
  GlyphCheck(const Style& style, Diagnostics& diagnostics)
      : style_(style), diagnostics_(diagnostics) {}

  void check(const Spanned<std::string>& text) {
    if (const auto bad = uncovered(text.value); !bad.empty()) {
      report(bad, text.span);
    }
  }
  void check(const PlacedText& text) {
    const std::string& all = text.text();
    const auto bad = uncovered(all);
    if (bad.empty()) return;
    const auto begin = static_cast<std::size_t>(bad.data() - all.data());
    report(bad, text.span_of(begin, begin + bad.size()));
  }

 private:
  // The first character that a face lacks; empty if there is none.
  std::string_view uncovered(std::string_view text) const {
    if (style_.regular->covers(text) && style_.bold->covers(text)) return {};
    for (const std::string_view c : characters(text)) {
      if (!style_.regular->covers(c) || !style_.bold->covers(c)) return c;
    }
    return {};
  }

  void report(std::string_view character, Span span) {
    diagnostics_.error(
        diagnostic::character_not_in_typeface, span,
        fmt::format("the typeface {} has no {}",
                    quoted(style_.regular->family()), quoted(character)),
        "take the character out, or name a typeface in the layout that has it");
  }

  const Style& style_;
  Diagnostics& diagnostics_;
};

}  // namespace

void check_typefaces(const Lesson& lesson, const OptionValues& settings,
                     const Style& style, Diagnostics& diagnostics) {
  if (!style.has_letter_shapes) {
    const bool single = settings.choice("letter-shapes") == "single-storey";
    diagnostics.note(
        diagnostic::letter_shapes_not_in_typeface, settings.span("typeface"),
        fmt::format("the typeface {} has no {}; the pages have its own",
                    quoted(style.regular->family()),
                    single ? "a and g as written by hand"
                           : "a as printed in most books"),
        fmt::format("choose another typeface, such as Andika, if the form of "
                    "the letters matters, or write `letter-shapes: {}`",
                    single ? "two-storey" : "single-storey"));
  }
  GlyphCheck c(style, diagnostics);
  c.check(lesson.title);
  c.check(lesson.passage.title);
  c.check(lesson.group);
  c.check(lesson.author);
  c.check(lesson.licence);
  for (const LessonWord& word : lesson.words) c.check(word.spelling);
  for (const LessonWord& word : lesson.sort_words) c.check(word.spelling);
  for (const LessonWord& word : lesson.dictate_words) c.check(word.spelling);
  for (const auto* lines :
       {&lesson.sentences, &lesson.dictate_sentences, &lesson.rhyme,
        &lesson.teacher_note, &lesson.home_note, &lesson.passage.paragraphs,
        &lesson.passage.questions}) {
    for (const LessonLine& line : *lines) c.check(line);
  }
}

}  // namespace sheaf
