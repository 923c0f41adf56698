#include "layout/text_block.h"

#include <algorithm>
#include <utility>

#include "layout/heard_text.h"

namespace sheaf {

namespace {

// The band behind marked text, and the line under it that is left on a
// photocopy.
constexpr Ink kBand = 205;
constexpr Length kUnderBand = Length::from_pt(0.5);

// One word: runs that must stay together, [begin, end) of all of them, with
// the space that follows.
struct Word {
  std::size_t begin, end;
  Length width;        // without the space after it
  Length space_after;  // what the next word on the line is moved by
};

// What a word may be wider than its place: less than the air around it.
constexpr Length kGrace = Length::from_mm(1.5);

// A line of a paragraph has as many words, more or less.
constexpr std::size_t kUsualRuns = 16;

std::string text_of(std::span<const TextLine::Run> runs) {
  std::string text;
  for (const TextLine::Run& run : runs) text += run.run.shape->text;
  while (text.ends_with(' ')) text.pop_back();
  return text;
}

class WordCollector {
 public:
  explicit WordCollector(Composer& composer) : composer_(composer) {
    words_.reserve(kUsualRuns);
    runs_.reserve(kUsualRuns);
  }

  void add(const TextPiece& piece) {
    std::string_view text = piece.text;
    heard_ = nullptr;
    if (!piece.heard.empty()) {
      heard_ = std::make_shared<HeardRuns>();
      heard_->text = piece.heard;
      // The blank that ends it is not lost.
      if (text.ends_with(' ')) heard_->text += ' ';
    }
    while (!text.empty()) {
      if (text.front() == ' ') {
        text.remove_prefix(1);
        end_word(piece);
        continue;
      }
      const std::size_t end = std::min(text.find(' '), text.size());
      const bool spaced = end < text.size();
      append(piece, text.substr(0, end + (spaced ? 1 : 0)), spaced);
      text.remove_prefix(end + (spaced ? 1 : 0));
      glue_ = !spaced;
    }
  }

  // What its signs would make hard to hear gets words.
  void hear() {
    std::vector<std::string_view> texts;
    for (const TextLine::Run& run : runs_) {
      texts.push_back(run.heard == nullptr
                          ? std::string_view(run.run.shape->text)
                          : std::string_view());
    }
    for (HeardStretch& stretch : heard_stretches(texts)) {
      const auto heard = std::make_shared<HeardRuns>();
      heard->text = std::move(stretch.text);
      for (std::size_t i = stretch.begin; i < stretch.end; ++i) {
        runs_[i].heard = heard;
      }
    }
  }

  std::span<const Word> words() const { return words_; }
  std::span<TextLine::Run> runs_of(const Word& word) {
    return std::span(runs_).subspan(word.begin, word.end - word.begin);
  }

 private:
  // A space that begins a piece ends the word before it, which was shaped
  // without one.
  void end_word(const TextPiece& piece) {
    if (!glue_ || words_.empty()) return;
    glue_ = false;
    Word& word = words_.back();
    const GlyphRun space = composer_.shape(piece.style, " ");
    add_run(word, {.run = space, .x = word.width, .ink = piece.style.ink});
    word.space_after = width_of(space) + piece.style.tracking;
  }

  // The space after a word is shaped with it, so that it is extracted too.
  void append(const TextPiece& piece, std::string_view text, bool spaced) {
    if (!glue_ || words_.empty()) {
      words_.push_back({.begin = runs_.size(), .end = runs_.size()});
    }
    Word& word = words_.back();
    const GlyphRun run = composer_.shape(piece.style, text);
    const Length width = width_of(run);
    Length bare = width;
    if (spaced) {
      bare = pen_before(run, run.shape->glyphs.size() - 1) - run.tracking;
    }
    add_run(word, {run, word.width, piece.style.ink, piece.marked, heard_});
    word.width += bare;
    if (!spaced) word.width += piece.style.tracking;
    word.space_after = spaced ? width - bare + piece.style.tracking : Length();
  }

  void add_run(Word& word, TextLine::Run run) {
    runs_.push_back(std::move(run));
    word.end = runs_.size();
  }

  Composer& composer_;
  std::vector<Word> words_;
  std::vector<TextLine::Run> runs_;   // of all words, in order
  std::shared_ptr<HeardRuns> heard_;  // of the piece that is being added
  bool glue_ = false;
};

}  // namespace

void say_marked(std::span<const TextPiece> pieces,
                std::vector<TextLine>& lines) {
  if (std::ranges::none_of(pieces, &TextPiece::marked)) return;
  std::vector<BandedText> texts;
  for (const TextPiece& piece : pieces) {
    texts.push_back({piece.text, piece.marked});
  }
  const std::string marked = marked_text(texts);
  if (marked.empty()) return;
  TextLine::Run& last = lines.back().runs.back();
  if (last.heard == nullptr) {
    last.heard = std::make_shared<HeardRuns>();
    last.heard->text = last.run.shape->text;
  }
  std::string& text = last.heard->text;
  while (text.ends_with(' ')) text.pop_back();
  // A sentence may end inside quotation marks.
  constexpr std::string_view kEnds = ".?!:", kQuote = "”";
  std::string_view rest = text;
  while (rest.ends_with(kQuote)) rest.remove_suffix(kQuote.size());
  const bool ended =
      !rest.empty() && kEnds.find(rest.back()) != std::string_view::npos;
  text += (text.empty() || ended ? " " : ". ") + marked;
}

void append(std::vector<TextPiece>& pieces, std::vector<TextPiece> more) {
  pieces.insert(pieces.end(), std::make_move_iterator(more.begin()),
                std::make_move_iterator(more.end()));
}

std::vector<TextLine> break_lines(Composer& composer,
                                  std::span<const TextPiece> pieces,
                                  Length width) {
  WordCollector collector(composer);
  for (const TextPiece& piece : pieces) collector.add(piece);
  collector.hear();
  std::vector<TextLine> lines;
  Length x;
  for (const Word& word : collector.words()) {
    const std::span<TextLine::Run> runs = collector.runs_of(word);
    if (word.width > width + kGrace) composer.note_too_wide(text_of(runs));
    if (lines.empty() || (x > Length() && x + word.width > width)) {
      lines.emplace_back();
      x = Length();
    }
    TextLine& line = lines.back();
    if (line.runs.empty()) line.runs.reserve(kUsualRuns);
    for (TextLine::Run& run : runs) {
      run.x += x;
      line.runs.push_back(std::move(run));
    }
    line.width = x + word.width;
    x += word.width + word.space_after;
  }
  return lines;
}

std::vector<TextLine> break_lines(Composer& composer, const TextStyle& style,
                                  std::string_view text, Length width) {
  const TextPiece piece{std::string(text), style};
  return break_lines(composer, std::span(&piece, 1), width);
}

namespace {

void draw_bands(Block& block, const TextLine& line, Point at) {
  for (const TextLine::Run& run : line.runs) {
    if (!run.marked) continue;
    const Font& font = *run.run.shape->font;
    const Length above = at_size(font, run.run.size, font.ascent());
    const InkSpan ink = ink_of(run.run, 0, run.run.shape->text.size());
    const Length pad = run.run.size / 16;
    const Rect band{at.x + run.x + ink.left - pad, at.y - scaled(above, 0.85),
                    ink.width() + 2 * pad, scaled(above, 1.1)};
    block.shade(band, kBand);
    block.line({band.x, band.bottom()}, {band.right(), band.bottom()},
               {.width = kUnderBand});
  }
}

ElementId element_of(Composer& composer, const TextLine::Run& run,
                     ElementId parent) {
  if (run.heard == nullptr || is_artifact(parent)) return parent;
  if (run.heard->element == kDecoration) {
    run.heard->element = composer.add(Role::span, parent, run.heard->text);
  }
  return run.heard->element;
}

}  // namespace

void draw_line(Block& block, const TextLine& line, Point at,
               ElementId element) {
  draw_bands(block, line, at);
  for (const TextLine::Run& run : line.runs) {
    block.glyphs(run.run, {at.x + run.x, at.y}, element, run.ink);
  }
}

void draw_line(Composer& composer, Block& block, const TextLine& line, Point at,
               ElementId element) {
  draw_bands(block, line, at);
  for (const TextLine::Run& run : line.runs) {
    block.glyphs(run.run, {at.x + run.x, at.y},
                 element_of(composer, run, element), run.ink);
  }
}

Length baseline_in_line(const TextStyle& style) {
  // Between the tops of tall letters and the bottoms of hanging ones; the font
  // says how far those hang, but leaves room for stacked accents above.
  const Length tall =
      at_size(*style.font, style.size, style.font->cap_height());
  const Length hanging = tall * 3 / 10;
  const Length blank = style.line_height() - tall - hanging;
  return blank / 2 + tall;
}

ElementId add_paragraph(Composer& composer, std::span<const TextPiece> pieces,
                        const ParagraphOptions& options) {
  auto lines = break_lines(composer, pieces, composer.width() - options.indent);
  if (lines.empty()) return kDecoration;
  say_marked(pieces, lines);
  const ElementId element = composer.add(options.role, options.parent);
  const ElementId text = options.heard.empty()
                             ? element
                             : composer.add(Role::span, element, options.heard);
  const TextStyle& style = pieces.front().style;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    Block& block = composer.block(style.line_height(),
                                  i == 0 ? options.space_before : Length());
    // The first two and the last two lines stay together.
    const bool joined = options.whole || i == 0 || i + 2 == lines.size();
    block.keep_with_next =
        i + 1 < lines.size() ? joined : options.keep_with_next;
    draw_line(composer, block, lines[i],
              {options.indent, baseline_in_line(style)}, text);
  }
  return element;
}

ElementId add_paragraph(Composer& composer, const TextStyle& style,
                        std::string_view text,
                        const ParagraphOptions& options) {
  const TextPiece piece{std::string(text), style};
  return add_paragraph(composer, std::span(&piece, 1), options);
}

void add_subheading(Composer& composer, Length size, std::string_view text,
                    Length space_before) {
  add_paragraph(composer, composer.style().text(size, true), text,
                {.role = Role::heading2,
                 .space_before = space_before,
                 .keep_with_next = true});
}

Length draw_text(Composer& composer, Block& block, const TextStyle& style,
                 std::string_view text, Point baseline, ElementId element) {
  const GlyphRun run = composer.shape(style, text);
  block.glyphs(run, baseline, element, style.ink);
  return width_of(run);
}

void draw_centred(Composer& composer, Block& block, const TextStyle& style,
                  std::string_view text, Point baseline, ElementId element) {
  const GlyphRun run = composer.shape(style, text);
  const InkSpan ink = ink_of(run, 0, text.size());
  block.glyphs(run, {baseline.x - ink.middle(), baseline.y}, element,
               style.ink);
}

void draw_in_middle(Composer& composer, Block& block, const TextStyle& style,
                    std::string_view text, const Rect& room,
                    ElementId element) {
  draw_centred(composer, block, style, text,
               {room.x + room.width / 2,
                room.y + (room.height - style.line_height()) / 2 +
                    baseline_in_line(style)},
               element);
}

}  // namespace sheaf
