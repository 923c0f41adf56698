// The learner builds words of a base and an ending and asks what changes where
// they meet, finds out what words with a prefix mean, says long words in beats,
// and learns the part of a word that does not say its usual sound; each word is
// written whole. On the page: base + ending = a line to write on, with three
// questions to tick; words and meanings to be joined by lines; rows of parts;
// words with a line under the unusual grapheme. In each the first word is done
// in a box, "Like this", and the second half. Parts that the lesson has no word
// for are left out.

#include <fmt/format.h>

#include <algorithm>

#include "layout/heard.h"
#include "sheets/common_options.h"
#include "sheets/shaded_word.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts_rows.h"

namespace sheaf::word_parts_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    line_height_option(),
    {"words", Kind::count, "8", "most words in each part of the sheet", "1",
     "40"},
    {.name = "lessons",
     .kind = Kind::choice,
     .fallback = "all",
     .help = "which lessons it is for: all, or those on endings and prefixes",
     .choices = "all endings"},
    {"endings", Kind::flag, "yes", "words of a base and an ending"},
    {"prefixes", Kind::flag, "yes", "words with a prefix and what they mean"},
    {"syllables", Kind::flag, "yes", "long words by syllables"},
    {"irregular", Kind::flag, "yes",
     "words with a grapheme that does not say its usual sound"},
    kModelOption,
};

// The letters that say their usual sound: the learner writes the others.
std::vector<bool> regular_letters(const Irregular& item) {
  std::vector<bool> given(item.text.size(), true);
  for (const Grapheme& g : graphemes_of(*item.word)) {
    if (!g.shaded) continue;
    for (std::size_t k = g.begin; k < g.end; ++k) given[k] = false;
    if (g.split_e != std::string_view::npos) given[g.split_e] = false;
  }
  return given;
}

void add_irregular_words(const SheetInput& in, Composer& c,
                         const std::vector<Irregular>& words) {
  if (words.empty()) return;
  const bool model = is_model_asked(in.options, words.size());
  const auto measure = [&](const TextStyle& s) {
    return widest_text(c, s, words, &Irregular::text);
  };
  const TextStyle style = fitted_words(c, measure, printed_room(c, model));
  Length hand;
  for (const Irregular& item : words) {
    hand = std::max(hand, by_hand(in, *item.word));
  }
  const Plan plan = plan_rows(in, c, style, measure(style), hand, model);
  add_heading(c, "Look at the underlined part. Write the word.");
  const ElementId list = c.add(Role::list);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const Irregular& item = words[i];
    const From from(c, item.word->spelling.span);
    const Row row = add_row(c, plan, i, list);
    const std::vector<Grapheme> graphemes = graphemes_of(*item.word);
    draw_shaded(c, *row.block, plan.text, item.text, graphemes,
                {row.at.x, row.at.y + base_in_set(plan.ruling)},
                add_heard(c, row.body, heard_shaded(item.text, graphemes)));
    draw_row_line(c, row, plan, i, item.text, regular_letters(item));
  }
}

void compose(const SheetInput& in, Composer& c) {
  const WordParts content = word_parts_of(in);
  add_sums(in, c, content);
  add_meanings(in, c, content);
  std::vector<PartedWord> divided;
  for (const Divided& d : content.divided) {
    divided.push_back({d.word, d.syllables});
  }
  add_parted(in, c, divided, "Say it in beats. Write it whole.");
  add_irregular_words(in, c, content.irregular);
  even_pages(c.blocks(), c.body().height);
}

// A few unusual words alone are no sheet.
constexpr std::size_t kLeastIrregular = 3;

std::string missing(const SheetInput& in) {
  const WordParts content = word_parts_of(in);
  const bool enough = !content.asked.empty() || !content.own_way.empty() ||
                      !content.prefixed.empty() || content.divided.size() > 1 ||
                      content.irregular.size() >= kLeastIrregular;
  if (enough) return "";
  if (!content.divided.empty()) {
    return "only one word of the list has several syllables";
  }
  if (!content.unexplained.empty()) {
    return "Sheaf knows no word of the list whose meaning is that of its "
           "prefix and its base";
  }
  return in.options.flag("syllables")
             ? "no word of the list has an ending or several syllables"
             : "no word of the list has an ending or a prefix";
}

bool not_meant(const SheetInput& in) {
  return in.options.choice("lessons") == "endings" &&
         !is_about_word_parts(in.lesson);
}

void answers(const SheetInput& in, Composer& c) {
  const WordParts content = word_parts_of(in);
  const TextStyle plain = c.style().teacher_text();
  add_sum_answers(c, content);
  add_meaning_answers(in, c, content);
  for (const Divided& d : content.divided) {
    std::string text;
    for (const std::string& s : d.syllables) {
      text += (text.empty() ? "" : " · ") + s;
    }
    const From from(c, d.word->spelling.span);
    add_paragraph(c, plain, text + " = " + d.word->reading.word);
  }
  for (const Irregular& item : content.irregular) {
    std::string text = item.text + ": ";
    bool first = true;
    for (const Unit& unit : item.word->reading.units) {
      if (!unit.irregular) continue;
      text += (first ? "" : ", ") + unit.grapheme + " says " +
              said(in.lesson, unit.phonemes);
      first = false;
    }
    const From from(c, item.word->spelling.span);
    add_paragraph(c, plain, text);
  }
}

const SheetKind kKind = {
    .name = "word-parts",
    .title = "Parts of words",
    .direction = "Say the parts. Say the word. Write it whole.",
    .action = Action::say,
    .summary =
        "base and ending with the change to work out, what a prefix means, "
        "syllables, and the unusual part of a word",
    .minutes = 9,
    .options = kOptions,
    .not_meant = not_meant,
    .missing = missing,
    .compose = compose,
    .script = sheet_script::word_parts,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::word_parts_sheet
