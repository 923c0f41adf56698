// The learner reads connected text, talks about it, answers a question or two
// and finds the words with the sound. On the page: the passage's title, its
// paragraphs in large type set wide, at the right end of each line how many
// words there are up to there (so that the words read in a minute can be
// counted; common practice, no source), rings to tick for each reading, the
// questions with lines to write on, lines for the words found.

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/utf8.h"
#include "layout/heard.h"
#include "layout/reading_foot.h"
#include "layout/ruled_lines.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/our_sound.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::passage_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"leading", Kind::number, "1.8",
     "line distance, as a ratio of the size; down to 1.5 where that saves a "
     "page",
     "1.4", "4"},
    {"word-count", Kind::flag, "yes",
     "at each line's end, how many words there are up to there"},
    kReadingsOption,
    {"answer-lines", Kind::count, "1", "lines to write on for each question",
     "0", "6"},
    {"find", Kind::count, "4",
     "lines for the pattern words, as far as there is room", "0", "12"},
};

constexpr Length kBeforeCounts = 6_mm;
constexpr Length kBeforeQuestion = 3_mm;
constexpr Length kBeforeAnswer = 1_mm;

// Lines may come as near as this where the questions then stand beside the
// text, on one page. Style guides for dyslexic readers ask for 1.5 (the British
// Dyslexia Association's; from memory).
constexpr double kLeastLeading = 1.5;

TextStyle text_style(const Composer& c, double leading) {
  TextStyle style = c.style().text(c.style().reading_size);
  style.leading = leading;
  return style;
}

// Above a paragraph.
Length before_paragraph(const TextStyle& style, bool first, bool titled) {
  return !first   ? style.line_height() / 2
         : titled ? style.line_height() / 4
                  : Length();
}

TextStyle count_style(const Composer& c) {
  TextStyle style = c.style().text(scaled(c.style().reading_size, 0.7));
  style.ink = 90;
  return style;
}

Length counts_width(const SheetInput& in, Composer& c) {
  if (!in.options.flag("word-count")) return {};
  return kBeforeCounts + width_of(c.shape(count_style(c), "000"));
}

// A dash that stands alone is read by nobody.
bool is_word(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const char32_t sign = next_code_point(text, i);
    if (is_letter(sign) || (sign >= U'0' && sign <= U'9')) return true;
  }
  return false;
}

int words_in(const TextLine& line) {
  return static_cast<int>(std::ranges::count_if(
      line.runs,
      [](const TextLine::Run& run) { return is_word(run.run.shape->text); }));
}

// How many words there are before the text that comes next.
struct Counter {
  bool shown = false;
  int words = 0;
};

void add_line(Composer& c, const TextStyle& style, const TextLine& line,
              Length space_before, Counter& counter, ElementId paragraph) {
  Block& block = c.block(style.line_height(), space_before);
  const Length base = baseline_in_line(style);
  draw_line(c, block, line, {0_mm, base}, paragraph);
  counter.words += words_in(line);
  if (!counter.shown) return;
  const GlyphRun number =
      c.shape(count_style(c), fmt::format("{}", counter.words));
  block.glyphs(number, {c.width() - width_of(number), base}, kDecoration,
               count_style(c).ink);
}

// Which blocks begin what.
struct Parts {
  std::vector<std::size_t> paragraphs;
  std::size_t text_end = 0;
  std::size_t questions = 0;
};

// The title, which is not among the words that are counted, and the text.
void add_text(const SheetInput& in, Composer& c, double leading, Parts& parts) {
  const AnalyzedPassage& passage = in.lesson.passage;
  const bool titled = !passage.title.text().empty();
  if (titled) {
    const From from(c, passage.title.span());
    add_subheading(c, c.style().reading_size, passage.title.text(), 0_mm);
  }
  const TextStyle style = text_style(c, leading);
  const Length room = c.width() - counts_width(in, c);
  Counter counter{.shown = in.options.flag("word-count")};
  bool first = true;
  for (const AnalyzedSentence& part : passage.paragraphs) {
    const From from(c, part.text.span());
    parts.paragraphs.push_back(c.blocks().size());
    const ElementId paragraph = c.add(Role::paragraph);
    const auto lines = break_lines(c, style, part.text.text(), room);
    const Length before = before_paragraph(style, first, titled);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      add_line(c, style, lines[i], i == 0 ? before : Length(), counter,
               paragraph);
      // The first two and the last two lines stay together.
      c.blocks().back().keep_with_next =
          i + 1 < lines.size() && (i == 0 || i + 2 == lines.size());
    }
    first = false;
  }
}

// What stands before a question of several.
std::string question_label(std::size_t index) {
  return fmt::format("{}. ", index + 1);
}

Length question_indent(Composer& c) {
  const TextStyle style = c.style().text(c.style().reading_size);
  return width_of(c.shape(style, question_label(1))) + 1_mm;
}

void add_question(const SheetInput& in, Composer& c, std::size_t index,
                  ElementId list) {
  const auto& questions = in.lesson.passage.questions;
  const TextStyle style = c.style().text(c.style().reading_size);
  const From from(c, questions[index].text.span());
  ListItem item;
  Length indent;
  std::string label;
  if (list != kDecoration) {
    item = add_list_item(c, list);
    label = question_label(index);
    indent = question_indent(c);
  } else {
    item.body = c.add(Role::paragraph);
  }
  const auto lines =
      break_lines(c, style, questions[index].text.text(), c.width() - indent);
  const Length base = baseline_in_line(style);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    Block& block =
        c.block(style.line_height(), i == 0 ? kBeforeQuestion : Length());
    block.keep_with_next = true;
    if (i == 0 && !label.empty()) {
      draw_text(c, block, style, label, {0_mm, base}, item.label);
    }
    draw_line(c, block, lines[i], {indent, base}, item.body);
  }
  const int answers = in.options.count("answer-lines");
  const std::size_t before = c.blocks().size();
  add_sets(c, c.style().ruling, answers, kBeforeAnswer,
           list == kDecoration ? ElementId{0} : item.body);
  for (std::size_t i = before; i < c.blocks().size(); ++i) {
    c.blocks()[i].keep_with_next = true;
  }
  c.blocks().back().keep_with_next = false;
}

void add_questions(const SheetInput& in, Composer& c) {
  const std::size_t count = in.lesson.passage.questions.size();
  const ElementId list = count > 1 ? c.add(Role::list) : kDecoration;
  for (std::size_t i = 0; i < count; ++i) add_question(in, c, i, list);
}

// What all of it takes below each other, where lines are this far apart.
Length whole_height(const SheetInput& in, Composer& c, double leading) {
  const AnalyzedPassage& passage = in.lesson.passage;
  const TextStyle text = text_style(c, leading);
  const TextStyle reading = c.style().text(c.style().reading_size);
  const bool titled = !passage.title.text().empty();
  const auto lines_of = [&](const PlacedText& line, Length room) {
    return static_cast<std::int64_t>(
        break_lines(c, text, line.text(), room).size());
  };
  Length sum = titled ? reading.line_height() : Length();
  bool first = true;
  for (const AnalyzedSentence& part : passage.paragraphs) {
    sum += before_paragraph(text, first, titled) +
           text.line_height() *
               lines_of(part.text, c.width() - counts_width(in, c));
    first = false;
  }
  sum += reading_rings_height(c, in.options.count("readings"));
  const int answers = in.options.count("answer-lines");
  const Length indent =
      passage.questions.size() > 1 ? question_indent(c) : Length();
  for (const AnalyzedSentence& question : passage.questions) {
    sum += kBeforeQuestion +
           reading.line_height() * lines_of(question.text, c.width() - indent);
    if (answers < 1) continue;
    const Ruling& ruling = c.style().ruling;
    sum += kBeforeAnswer + set_pitch(ruling) * answers - ruling.gap;
  }
  return sum;
}

// As the layout says, or as near as it must be for one page.
double leading_of(const SheetInput& in, Composer& c) {
  const double asked = in.options.number("leading");
  for (double leading = asked; leading >= kLeastLeading; leading -= 0.02) {
    if (whole_height(in, c, leading) <= c.body().height - 2_mm) return leading;
  }
  return asked;
}

int lines_to_find(const SheetInput& in) {
  return in.lesson.passage.pattern_words() > 0 ? in.options.count("find") : 0;
}

// Lines of text stand further apart where the page has room for it.
void spread(std::span<Block> lines, Length room) {
  if (lines.empty() || room <= Length()) return;
  const Length most = lines.back().height / 5;
  const Length more =
      std::min(room / static_cast<std::int64_t>(lines.size()), most);
  for (Block& line : lines) line.space_before += more;
}

std::size_t pages_of(const Composer& c, std::span<const Block> blocks) {
  return paginate({blocks.begin(), blocks.end()},
                  {0_mm, 0_mm, c.width(), c.body().height}, c.body())
      .size();
}

// What the lines for words found take, of those that are asked for as many as
// there is room for.
Length find_height(const SheetInput& in, const Composer& c, Length room) {
  for (int lines = lines_to_find(in); lines > 0; --lines) {
    if (const Length height = lines_height(c, lines); height <= room) {
      return height;
    }
  }
  return {};
}

// Where pages begin. Text that takes more than one is divided between
// paragraphs, if that makes no more pages, and it is not mixed with the
// questions: whoever is timed turns no page.
void divide(Composer& c, const Parts& parts) {
  auto& blocks = c.blocks();
  const std::size_t all = pages_of(c, blocks);
  const auto read = std::span(blocks).first(parts.questions);
  const auto below = std::span(blocks).subspan(parts.questions);
  if (!below.empty() && all > 1 &&
      pages_of(c, read) + pages_of(c, below) == all) {
    below.front().new_page = true;
  }
  std::vector<Block> whole = blocks;
  for (std::size_t i = 0; i + 1 < parts.text_end; ++i) {
    const bool ends_paragraph =
        std::ranges::find(parts.paragraphs, i + 1) != parts.paragraphs.end();
    whole[i].keep_with_next = whole[i].keep_with_next || !ends_paragraph;
  }
  if (pages_of(c, whole) == all) blocks = std::move(whole);
  even_pages(blocks, c.body().height);
}

void compose(const SheetInput& in, Composer& c) {
  Parts parts;
  add_text(in, c, leading_of(in, c), parts);
  parts.text_end = c.blocks().size();
  {
    const From from(c, in.options.span("readings"));
    c.blocks().back().keep_with_next = true;
    add_reading_rings(c, in.options.count("readings"), 0_mm);
    c.blocks().back().keep_with_next = false;
  }
  parts.questions = c.blocks().size();
  add_questions(in, c);
  auto& blocks = c.blocks();
  divide(c, parts);
  const auto page_end =
      std::ranges::find_if(blocks.begin() + 1, blocks.end(), &Block::new_page);
  const auto on_first = static_cast<std::size_t>(page_end - blocks.begin());
  if (on_first >= parts.text_end) {
    Length room =
        c.body().height - height_of(std::span(blocks).first(on_first));
    if (page_end == blocks.end()) room -= find_height(in, c, room);
    spread(std::span(blocks)
               .first(parts.text_end)
               .subspan(parts.paragraphs.front() + 1),
           room);
  }
  add_lines_as_room(c, fmt::format("Words with {}", our_sound(in.lesson)),
                    lines_to_find(in));
}

std::string missing(const SheetInput& in) {
  return in.lesson.passage.empty() ? "the lesson has no `passage`" : "";
}

Direction other_direction(const SheetInput& in) {
  const bool finds = in.lesson.passage.pattern_words() > 0;
  if (in.plain_voice) {
    return {finds ? "Read the text, answer the questions, and find the words "
                    "with our pattern."
                  : "Read the text and answer the questions."};
  }
  if (finds) {
    return {said_ours(
                in.lesson,
                {"Read it. Talk about it. Find the words with our sound.",
                 "Read it. Talk about it. Find the words with our sounds.",
                 "Read it. Talk about it. Find the words with our pattern.",
                 "Read it. Talk about it. Find the words with our patterns."}),
            Action::read};
  }
  return {.text = "Read it. Talk about it.", .action = Action::read};
}

void answers(const SheetInput& in, Composer& c) {
  const AnalyzedPassage& passage = in.lesson.passage;
  const TextStyle plain = c.style().teacher_text();
  const TextStyle strong = c.style().teacher_text(true);
  if (!passage.title.text().empty()) {
    const From from(c, passage.title.span());
    add_paragraph(c, strong, passage.title.text(), {.keep_with_next = true});
  }
  std::set<std::string> different;
  for (const AnalyzedSentence& part : passage.paragraphs) {
    const From from(c, part.text.span());
    add_paragraph(c, marked_sentence(part, plain, strong));
    for (const AnalyzedSentence::Part& word : part.words) {
      if (!word.word.has_pattern()) continue;
      different.insert(lower_case(word.word.reading.word));
    }
  }
  const int found = passage.pattern_words();
  std::string count = fmt::format("To be found: {}", found);
  if (const auto once = static_cast<int>(different.size()); once < found) {
    count += fmt::format(" ({})",
                         counted(once, "different word", "different words"));
  }
  add_paragraph(c, strong, count);
  if (passage.questions.empty()) return;
  add_paragraph(c, plain,
                passage.questions.size() == 1
                    ? "What counts as an answer to the question is for you to "
                      "judge."
                    : "What counts as an answer to the questions is for you to "
                      "judge.");
}

const SheetKind kKind = {
    .name = "passage",
    .title = "Read and talk",
    .direction = "Read it. Talk about it. Find the words with our sound.",
    .action = Action::read,
    .other_direction = other_direction,
    .summary = "connected text to read, with questions and words to find",
    .part = DayPart::read,
    .daily = true,
    .minutes = 6,
    .materials = "timer",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .share = sheet_script::share_of_passage,
    .script = sheet_script::passage,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::passage_sheet
