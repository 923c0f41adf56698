#include "layout/touch_marks.h"

#include <fmt/format.h>

#include <algorithm>

#include "layout/strokes.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr double kTouched = 1.6;  // the ring's width, in dots
constexpr Length kTieDepth = 4.2_mm;
constexpr Length kArrowDepth = 8.5_mm;
constexpr const char* kArrow = "an arrow to sweep along";

// The ring that a fingertip leaves around a mark, as long as the mark: its
// straight sides reach this far to both sides of the middle.
void draw_touch(Block& block, Point middle, Length reach, Length dot,
                ElementId element) {
  const Length radius = scaled(dot, kTouched / 2);
  // Half a circle as one curve: its handles are four thirds of the radius.
  const Length pull = radius * 4 / 3;
  const Length left = middle.x - reach, right = middle.x + reach;
  const Length top = middle.y - radius, bottom = middle.y + radius;
  using Step = PathStep::Kind;
  const Path path = {
      {Step::move, {left, top}},
      {Step::line, {right, top}},
      {Step::curve,
       {right, bottom},
       {right + pull, top},
       {right + pull, bottom}},
      {Step::line, {left, bottom}},
      {Step::curve, {left, top}, {left - pull, bottom}, {left - pull, top}},
      {.kind = Step::close}};
  block.marks.push_back(
      PathMark{.path = path, .stroke = {.width = 0.8_pt}, .element = element});
}

}  // namespace

TouchWord::TouchWord(Composer& composer, std::string word,
                     std::span<const Grapheme> graphemes,
                     const TouchWordOptions& options)
    : word_(std::move(word)),
      graphemes_(graphemes.begin(), graphemes.end()),
      options_(options) {
  make_parts(composer);
  place_parts();
}

// Parts stand in the order of the letters, each with its ink at its own place
// for now.
void TouchWord::make_parts(Composer& composer) {
  struct Stretch {
    std::size_t begin, end, grapheme;
    bool is_split_e = false;
    bool continues = false;
  };
  std::vector<Stretch> stretches;
  for (std::size_t i = 0; i < graphemes_.size(); ++i) {
    const Grapheme& g = graphemes_[i];
    stretches.push_back({.begin = g.begin, .end = g.end, .grapheme = i});
    if (g.split_e != std::string_view::npos) {
      stretches.push_back({.begin = g.split_e,
                           .end = g.split_e + 1,
                           .grapheme = i,
                           .is_split_e = true});
    }
  }
  std::ranges::sort(stretches, {}, &Stretch::begin);
  // Signs between graphemes (an apostrophe) go with the one before.
  for (std::size_t i = 0; i < stretches.size(); ++i) {
    const bool last = i + 1 == stretches.size();
    stretches[i].end = last ? word_.size() : stretches[i + 1].begin;
  }
  const auto starts_beat = [&](std::size_t at) {
    return at > 0 &&
           std::ranges::find(options_.beats, at) != options_.beats.end();
  };
  // A beat that begins inside a grapheme parts it for the eye.
  for (std::size_t i = 0; i < stretches.size(); ++i) {
    for (std::size_t at = stretches[i].begin + 1; at < stretches[i].end; ++at) {
      if (!starts_beat(at)) continue;
      Stretch rest = stretches[i];
      stretches[i].end = at;
      rest.begin = at;
      rest.continues = true;
      stretches.insert(stretches.begin() + static_cast<std::ptrdiff_t>(i) + 1,
                       rest);
      break;
    }
  }
  for (const Stretch& s : stretches) {
    const std::string_view letters =
        std::string_view(word_).substr(s.begin, s.end - s.begin);
    const GlyphRun run = composer.shape(options_.text, letters);
    const InkSpan ink = ink_of(run, 0, letters.size());
    const bool long_mark =
        letters.size() > 1 && ink.width() > options_.dot * 3 / 2;
    parts_.push_back({.run = run,
                      .ink = ink,
                      .grapheme = s.grapheme,
                      .is_split_e = s.is_split_e,
                      .long_mark = long_mark && !s.is_split_e,
                      .starts_beat = starts_beat(s.begin),
                      .continues = s.continues});
    if (!s.continues) continue;
    parts_[parts_.size() - 2].long_mark = parts_.back().long_mark = true;
  }
}

Length TouchWord::mark_width(const Part& part) const {
  return part.long_mark ? part.ink.width() : options_.dot;
}

// The ink over the mark of a grapheme, with its letters behind a beat.
InkSpan TouchWord::marked_ink(std::size_t index) const {
  InkSpan ink = parts_[index].ink;
  for (std::size_t i = index + 1; i < parts_.size() && parts_[i].continues;
       ++i) {
    ink.right = parts_[i].ink.right;
  }
  return ink;
}

// The blank between all neighbours is the same, so that the word keeps an even
// rhythm; it is as wide as the narrowest pair of letters needs for its marks
// to be a fingertip apart and not to run into one another.
void TouchWord::place_parts() {
  // Letters that stand apart belong together all the more.
  const Length apart = options_.text.tracking;
  Length gap = options_.text.size / 7 + apart;
  for (std::size_t i = 1; i < parts_.size(); ++i) {
    const Length halves =
        (parts_[i - 1].ink.width() + parts_[i].ink.width()) / 2;
    gap = std::max(gap, options_.mark_spacing - halves);
    const Length marks =
        (mark_width(parts_[i - 1]) + mark_width(parts_[i])) / 2;
    gap = std::max(gap, marks + options_.mark_spacing / 5 - halves);
  }
  const Length beat = scaled(options_.text.size, 0.3);
  Length x;
  for (Part& part : parts_) {
    if (part.starts_beat) x += part.continues ? beat * 2 / 3 : beat;
    part.x = x - part.ink.left;
    part.ink = {x, x + part.ink.width()};
    width_ = part.ink.right;
    x = width_ + gap;
  }
  // A word must not fall apart into its graphemes for those who search.
  for (std::size_t i = 1; i < parts_.size(); ++i) {
    Part& before = parts_[i - 1];
    before.run.room_after =
        std::max(Length(), parts_[i].x - before.x - width_of(before.run));
  }
}

Length TouchWord::baseline() const {
  const Font& font = *options_.text.font;
  return at_size(font, options_.text.size, font.cap_height()) + 2_mm;
}

// Below what hangs under the base line, with room for a highlighter's stroke.
Length TouchWord::mark_line() const {
  const Font& font = *options_.text.font;
  const Length hanging =
      at_size(font, options_.text.size, font.cap_height()) * 3 / 10;
  // Larger marks keep farther away.
  return baseline() + hanging + 3.5_mm + (options_.dot - 3.2_mm) * 3 / 2;
}

Length TouchWord::height() const {
  return mark_line() + options_.dot / 2 +
         (options_.arrow ? kArrowDepth : kTieDepth);
}

void TouchWord::draw(Composer& composer, Block& block, Point at,
                     ElementId parent) const {
  const bool has_marks = options_.marks != MarkStyle::none;
  const ElementId id = composer.add(
      Role::span, parent,
      has_marks ? heard_word()
                : heard_word() + ", in parts: " + heard_graphemes());
  for (std::size_t i = 0; i < parts_.size(); ++i) {
    const Part& part = parts_[i];
    if (!graphemes_[part.grapheme].shaded) continue;
    if (part.is_split_e || part.continues) continue;
    const InkSpan ink = marked_ink(i);
    const Length pad = std::max(1_mm, options_.text.size / 15);
    draw_framed_ground(block, composer.style(),
                       {at.x + ink.left - pad, at.y, ink.width() + 2 * pad,
                        mark_line() - 2_mm});
  }
  draw_letters(block, {at.x, at.y + baseline()}, id);
  draw_beats(block, {at.x, at.y + baseline()}, id);
  const ElementId marks =
      has_marks ? composer.add(Role::figure, parent, heard_marks()) : id;
  draw_marks(block, {at.x, at.y + mark_line()}, marks);
  if (options_.arrow) {
    draw_arrow(block, {at.x, at.y + mark_line() + kArrowDepth - 1.5_mm},
               has_marks ? marks : composer.add(Role::figure, parent, kArrow));
  }
}

// "rabbit, in beats: rab, bit"; a word of one beat as it is.
std::string TouchWord::heard_word() const {
  std::string beats;
  std::size_t begin = 0;
  for (const std::size_t at : options_.beats) {
    beats += word_.substr(begin, at - begin) + ", ";
    begin = at;
  }
  return beats.empty() ? word_
                       : fmt::format("{}, in beats: {}{}", word_, beats,
                                     word_.substr(begin));
}

// The graphemes in their order, each as it looks: "sh, grey i, p"; one that is
// parted by another letter with what it is tied to: "k, i-blank-e, t".
std::string TouchWord::heard_graphemes() const {
  std::string heard;
  for (const Part& part : parts_) {
    if (part.is_split_e || part.continues) continue;
    const Grapheme& g = graphemes_[part.grapheme];
    if (!heard.empty()) heard += ", ";
    const bool shown =
        g.of_pattern && options_.pattern != PatternLetters::plain;
    if (shown) {
      heard +=
          options_.pattern == PatternLetters::outlined ? "hollow " : "grey ";
    }
    heard += word_.substr(g.begin, g.end - g.begin);
    if (g.split_e != std::string::npos) {
      heard += "-blank-" + word_.substr(g.split_e, 1);
    }
    if (g.shaded) heard += " in a frame";
  }
  return heard;
}

std::string TouchWord::heard_marks() const {
  const auto marks = std::ranges::count_if(parts_, [](const Part& part) {
    return !part.is_split_e && !part.continues;
  });
  std::string heard =
      fmt::format("{} {} {}: {}", marks, marks == 1 ? "mark" : "marks",
                  options_.touched ? "touched" : "to touch", heard_graphemes());
  if (options_.arrow) heard += fmt::format("; {}", kArrow);
  return heard;
}

void TouchWord::draw_letters(Block& block, Point at, ElementId element) const {
  constexpr Ink kTinted = 195;
  for (const Part& part : parts_) {
    const Point origin{at.x + part.x, at.y};
    if (options_.pattern == PatternLetters::plain ||
        !graphemes_[part.grapheme].of_pattern) {
      block.glyphs(part.run, origin, element);
      continue;
    }
    const bool tinted = options_.pattern == PatternLetters::tinted;
    block.marks.push_back(
        PathMark{.path = outline_of(part.run),
                 .at = origin,
                 .filled = true,
                 .fill = tinted ? kTinted : kWhite,
                 .stroke = {.width = 0.9_pt, .round_ends = true},
                 .element = element});
  }
}

// A dot halfway up the small letters, in the gap before each beat.
void TouchWord::draw_beats(Block& block, Point at, ElementId element) const {
  const Font& font = *options_.text.font;
  const Length middle = at_size(font, options_.text.size, font.x_height()) / 2;
  for (std::size_t i = 1; i < parts_.size(); ++i) {
    if (!parts_[i].starts_beat) continue;
    const Length x = (parts_[i - 1].ink.right + parts_[i].ink.left) / 2;
    block.dot({at.x + x, at.y - middle}, scaled(options_.text.size, 0.08),
              element);
  }
}

void TouchWord::draw_marks(Block& block, Point at, ElementId element) const {
  const Stroke guide{.width = options_.guide_weight * 2,
                     .dash = {Length(), options_.guide_weight * 8},
                     .round_ends = true};
  if (options_.marks == MarkStyle::lines) {
    for (std::size_t i = 0; i < parts_.size(); ++i) {
      if (parts_[i].is_split_e || parts_[i].continues) continue;
      const InkSpan ink = marked_ink(i);
      const Stroke heavy{
          .width = 1.2_pt, .dash = {Length(), 3_pt}, .round_ends = true};
      block.line({at.x + ink.left, at.y}, {at.x + ink.right, at.y}, heavy,
                 element);
    }
  } else if (options_.marks == MarkStyle::dots) {
    block.line({at.x, at.y}, {at.x + width_, at.y}, guide, element);
    for (std::size_t i = 0; i < parts_.size(); ++i) {
      const Part& part = parts_[i];
      if (part.is_split_e || part.continues) continue;
      const InkSpan ink = marked_ink(i);
      const Length middle = at.x + ink.middle();
      if (part.long_mark) {
        const Length reach = (ink.width() - options_.dot) / 2;
        block.line({middle - reach, at.y}, {middle + reach, at.y},
                   {.width = options_.dot, .round_ends = true}, element);
      } else {
        block.dot({middle, at.y}, options_.dot, element);
      }
      if (options_.touched) {
        const Length reach =
            part.long_mark ? (ink.width() - options_.dot) / 2 : Length();
        draw_touch(block, {middle, at.y}, reach, options_.dot, element);
      }
    }
  }
  for (const Part& end : parts_) {
    if (!end.is_split_e) continue;
    const auto start = std::ranges::find_if(parts_, [&](const Part& p) {
      return p.grapheme == end.grapheme && !p.is_split_e;
    });
    const Point to{at.x + end.ink.middle(), at.y};
    draw_tie(block, {at.x + start->ink.middle(), at.y}, to, element);
    if (options_.marks == MarkStyle::dots) {
      block.shade({to.x - options_.dot / 2, to.y - options_.dot / 2,
                   options_.dot, options_.dot},
                  kWhite, element);
    }
    block.ring(to, options_.dot, 0.8_pt, element);
  }
}

// From a vowel's mark under its neighbours to the e that belongs to it.
void TouchWord::draw_tie(Block& block, Point from, Point to,
                         ElementId element) const {
  const Length depth = kTieDepth;
  const Length start = options_.dot / 2;
  const Length lean = std::min(depth, (to.x - from.x) / 3);
  Path path;
  path.push_back(
      {.kind = PathStep::Kind::move, .to = {from.x, from.y + start}});
  path.push_back({.kind = PathStep::Kind::curve,
                  .to = {to.x, to.y + start},
                  .control1 = {from.x + lean, from.y + start + depth},
                  .control2 = {to.x - lean, to.y + start + depth}});
  const Stroke dotted{
      .width = 1_pt, .dash = {Length(), 2.5_pt}, .round_ends = true};
  block.marks.push_back(
      PathMark{.path = std::move(path), .stroke = dotted, .element = element});
}

void TouchWord::draw_arrow(Block& block, Point at, ElementId element) const {
  const Stroke stroke{.width = options_.guide_weight * 2, .round_ends = true};
  const Length head = 2_mm;
  const Point tip{at.x + width_, at.y};
  block.line(at, tip, stroke, element);
  block.line(tip, {tip.x - head, tip.y - head * 2 / 3}, stroke, element);
  block.line(tip, {tip.x - head, tip.y + head * 2 / 3}, stroke, element);
}

}  // namespace sheaf
