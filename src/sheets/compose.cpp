// The learner makes sentences of their own with the words of the week, told to
// someone who writes them down or written by hand. On the page: the words in a
// box, a sentence of the lesson as a model, "Like this", with the word that was
// chosen for it marked; lines as tall as the learner writes, the first of them
// begun for the learner; a line that says who wrote.

#include <algorithm>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

#include "base/utf8.h"
#include "layout/begun_line.h"
#include "layout/heard.h"
#include "layout/model_frame.h"
#include "layout/picture_frame.h"
#include "layout/ruled_lines.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_bank.h"
#include "sheets/word_parts.h"

namespace sheaf::compose_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    line_height_option(),
    {"lines", Kind::count, "0", "lines to write on; 0 fills the page", "0",
     "40"},
    {"word-bank", Kind::flag, "yes", "the words of the week in a box"},
    {"pictures", Kind::flag, "no", "pictures of some words to tell about"},
    {.name = "model",
     .kind = Kind::flag,
     .fallback = "yes",
     .help = "one of the lesson's sentences to look at, and a line begun"},
};

// Up to this many pictures of words in a row, to tell about.
constexpr std::size_t kMostPictures = 4;
constexpr Length kPictureSide = 24_mm;

void add_pictures(const SheetInput& in, Composer& c) {
  const From asked_for(c, in.options.span("pictures"));
  std::vector<std::pair<const Picture*, const AnalyzedWord*>> pictures;
  for (const AnalyzedWord& word : in.lesson.words) {
    const Picture* picture = in.pictures.find(word.reading.word);
    if (picture != nullptr && pictures.size() < kMostPictures) {
      pictures.emplace_back(picture, &word);
    }
  }
  if (pictures.empty()) return;
  const auto count = static_cast<std::int64_t>(pictures.size());
  const Length step = c.width() / count;
  Block& block = c.block(kPictureSide, c.blocks().empty() ? 0_mm : 4_mm);
  Length left = (step - kPictureSide) / 2;
  std::size_t number = 0;
  for (const auto& [picture, word] : pictures) {
    const From from(c, word->spelling.span);
    draw_picture(block, c.style(), picture,
                 {left, 0_mm, kPictureSide, kPictureSide},
                 add_picture(c, 0, picture,
                             {.word = word->reading.word, .number = ++number}));
    left += step;
  }
}

void add_authors(Composer& c) {
  const TextStyle style = c.style().learner_text();
  Block& block = c.block(14_mm, 2_mm);
  const Stroke line{.width = c.style().box_weight};
  const Length base = 9_mm;
  const Length half = c.width() / 2;
  const auto draw = [&](std::string_view text, Length left, Length right) {
    const ElementId element = c.add(Role::paragraph);
    const Length wide = draw_text(c, block, style, text, {left, base}, element);
    block.line({left + wide + 2_mm, base}, {right, base}, line,
               add_blank(c, element));
  };
  draw("Told to", 0_mm, half - 4_mm);
  draw("Written by", half, c.width());
}

// What the learner looks at, and how the first sentence of their own begins;
// both from sentences of the lesson, which they can read.
struct Model {
  std::vector<TextPiece> sentence;  // none: there is no model
  Span sentence_span;
  std::string beginning;  // empty: the learner begins alone
  Span beginning_span;
};

// Whether a word stands in the list to choose from.
bool is_listed(const AnalyzedLesson& lesson, std::string_view text) {
  return std::ranges::any_of(lesson.words, [&](const AnalyzedWord& word) {
    return lower_case(word.reading.word) == lower_case(text);
  });
}

bool has_listed(const AnalyzedLesson& lesson,
                const AnalyzedSentence& sentence) {
  return std::ranges::any_of(sentence.words,
                             [&](const AnalyzedSentence::Part& part) {
                               return part.word.has_pattern() &&
                                      is_listed(lesson, part.word.reading.word);
                             });
}

// The sentence with one of its pattern words marked: the first that stands in
// the list to choose from, else the first.
std::vector<TextPiece> one_marked(const AnalyzedLesson& lesson,
                                  const AnalyzedSentence& sentence,
                                  const TextStyle& style) {
  std::vector<TextPiece> pieces = marked_sentence(sentence, style, style);
  auto chosen = std::ranges::find_if(pieces, [&](const TextPiece& piece) {
    return piece.marked && is_listed(lesson, piece.text);
  });
  if (chosen == pieces.end()) {
    chosen = std::ranges::find_if(pieces, &TextPiece::marked);
  }
  for (auto it = pieces.begin(); it != pieces.end(); ++it) {
    it->marked = it == chosen;
  }
  return pieces;
}

// A short sentence with a word to choose. The first of the lesson is the model
// of the sheet of sentences, so another is taken where there is one. Null where
// none has the pattern.
const AnalyzedSentence* sentence_to_show(const AnalyzedLesson& lesson) {
  const AnalyzedSentence* best = nullptr;
  const auto rank = [&](const AnalyzedSentence& s) {
    return std::tuple(!has_listed(lesson, s), &s == &lesson.sentences.front(),
                      s.text.text().size());
  };
  for (const AnalyzedSentence& s : lesson.sentences) {
    if (s.pattern_words() == 0) continue;
    if (best == nullptr || rank(s) < rank(*best)) best = &s;
  }
  return best;
}

// The words up to the first pattern word, if a few, of a sentence that goes on.
// No speech: its marks would have to be closed.
std::string beginning_of(const AnalyzedLesson& lesson,
                         const AnalyzedSentence& sentence, bool listed) {
  constexpr std::size_t kMostWords = 4;
  const std::string& text = sentence.text.text();
  for (std::size_t i = 1; i < kMostWords && i + 1 < sentence.words.size();
       ++i) {
    const AnalyzedSentence::Part& part = sentence.words[i];
    if (!part.word.has_pattern()) continue;
    if (listed && !is_listed(lesson, part.word.reading.word)) return "";
    std::string beginning = text.substr(0, part.end);
    const bool speech = beginning.find("\u201C") != std::string::npos ||
                        beginning.find('"') != std::string::npos;
    return speech ? "" : beginning;
  }
  return "";
}

Model model_of(const SheetInput& in, Composer& c, const Ruling& ruling) {
  Model model;
  const AnalyzedSentence* shown = sentence_to_show(in.lesson);
  if (!in.options.flag("model") || shown == nullptr) return model;
  model.sentence =
      one_marked(in.lesson, *shown, c.style().text(c.style().reading_size));
  model.sentence_span = shown->text.span();
  for (const bool listed : {true, false}) {
    for (const AnalyzedSentence& s : in.lesson.sentences) {
      if (&s == shown || !model.beginning.empty()) continue;
      std::string beginning = beginning_of(in.lesson, s, listed);
      if (beginning.empty() ||
          begun_width(c, ruling, beginning) > scaled(c.width(), 0.6)) {
        continue;
      }
      model.beginning = std::move(beginning);
      model.beginning_span = s.text.span();
    }
  }
  return model;
}

constexpr Length kBeforeModel = 6_mm;
constexpr Length kAuthors = 16_mm;
constexpr int kLeastLines = 3;  // beside a model

int lines_in(Length height, const Ruling& ruling) {
  return std::max<int>(
      1, static_cast<int>((height + ruling.gap) / set_pitch(ruling)));
}

void add_lines(Composer& c, const Ruling& ruling, int lines, const Model& model,
               Length space_before) {
  const bool begun = !model.beginning.empty();
  if (begun) {
    const From from(c, model.beginning_span);
    Block& block = c.block(set_pitch(ruling), space_before);
    draw_begun_line(c, block, ruling, model.beginning, {}, c.width(),
                    c.add(Role::paragraph));
  }
  const int empty = lines - (begun ? 1 : 0);
  if (empty < 1) return;
  const ElementId element = add_writing_lines(c, 0, empty);
  for (int i = 0; i < empty; ++i) {
    Block& block =
        c.block(set_pitch(ruling), i == 0 && !begun ? space_before : Length());
    draw_set(block, c.style(), ruling, {}, c.width(), element);
  }
}

void compose(const SheetInput& in, Composer& c) {
  const Ruling ruling = ruling_of(in, c.style());
  if (in.options.flag("word-bank")) {
    const From from(c, in.options.span("word-bank"));
    add_word_bank(c, words_of_list(in.lesson));
  }
  if (in.options.flag("pictures")) add_pictures(in, c);
  const auto room = [&] {
    Length used = kAuthors + height_of(c.blocks());
    if (!c.blocks().empty()) used += 5_mm;
    return c.body().height - used;
  };
  const int asked = in.options.count("lines");
  Model model = model_of(in, c, ruling);
  if (!model.sentence.empty()) {
    // It takes the place of lines, but not of all, and of none that are asked
    // for.
    const Length left =
        room() - kBeforeModel - model_text_height(c, model.sentence);
    const int least = std::max(kLeastLines, asked);
    if (left > Length() && lines_in(left, ruling) >= least) {
      const From from(c, model.sentence_span);
      add_model_text(c, model.sentence,
                     c.blocks().empty() ? Length() : kBeforeModel);
    } else {
      model = {};
    }
  }
  const int lines = asked == 0 ? lines_in(room(), ruling) : asked;
  add_lines(c, ruling, lines, model, c.blocks().empty() ? 0_mm : 5_mm);
  c.blocks().back().keep_with_next = true;
  c.blocks().back().height = set_height(ruling);
  add_authors(c);
}

std::string missing(const SheetInput& in) {
  return in.lesson.words.empty() ? "the lesson has no words" : "";
}

Direction other_direction(const SheetInput& in) {
  if (!in.plain_voice) return {};
  return {in.options.flag("word-bank")
              ? "Write sentences of your own with words from the box."
              : "Write sentences of your own with words of the week."};
}

const SheetKind kKind = {
    .name = "compose",
    .title = "My own sentences",
    .direction = "Choose a word. Say a sentence with it. Write it or tell it.",
    .action = Action::write,
    .other_direction = other_direction,
    .summary = "the words of the week and lines for sentences of one's own",
    .minutes = 10,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = sheet_script::compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::compose_sheet
