#include "pdf/text_operators.h"

#include <cassert>
#include <cstdlib>

#include "base/utf8.h"
#include "pdf/operators.h"

#include <hb.h>

namespace sheaf {

namespace {

// A reader moves on by the whole thousandths of an em that the font dictionary
// states; its pen is put right where it has strayed too far. A class of sizes
// allows some 0.03 pt, in millionths of an em; widths are rounded to half a
// thousandth anyway.
struct SizeClass {
  Length up_to;
  std::int64_t max_stray;
};
constexpr SizeClass kSizeClasses[] = {{Length::from_pt(15), 2000},
                                      {Length::from_pt(30), 1000},
                                      {Length::from_pt(1e6), 500}};
constexpr std::int64_t kUnit = 1000;

// What of an advance may be left to numbers between the glyphs, or to where the
// next run begins, in thousandths of an em. Readers take a tenth of an em for a
// blank (see tests/pdfua/own_rules.tsv); within a text, what kerning moves adds
// to it.
constexpr std::int32_t kNearEnough = 4;
constexpr std::int32_t kNearEnoughAtEnd = 30;

std::size_t size_class(Length size) {
  std::size_t index = 0;
  while (index < 2 && size > kSizeClasses[index].up_to) ++index;
  return index;
}

std::int64_t divided(std::int64_t value, std::int64_t by) {
  return (value + (value < 0 ? -by / 2 : by / 2)) / by;
}

// Where the run wants the pen for a glyph, in millionths of an em.
std::int64_t wanted_pen(const GlyphRun& run, const ShapedGlyph& glyph) {
  const std::int64_t em = run.shape->font->units_per_em();
  std::int64_t pen = divided((glyph.pen + glyph.x_offset) * 1000000, em);
  const Length added = run.tracking * glyph.characters_before +
                       run.word_gap * glyph.spaces_before;
  if (added != Length()) {
    pen += divided(added.mils() * 1000000, run.size.mils());
  }
  return pen;
}

// A length as thousandths of the run's em.
std::int32_t share_of_em(const GlyphRun& run, Length length) {
  return static_cast<std::int32_t>(
      divided(length.mils() * 1000, run.size.mils()));
}

bool has_vertical_shifts(const ShapedText& shape) {
  for (const ShapedGlyph& glyph : shape.glyphs) {
    if (glyph.y_offset != 0) return true;
  }
  return false;
}

void append_code(std::string& out, Code code) {
  const char bytes[2] = {static_cast<char>(code >> 8U),
                         static_cast<char>(code & 0xFFU)};
  append_escaped(out, {bytes, 2});
}

// The text's characters with marks taken apart as far as they go (Unicode's
// canonical decomposition).
std::vector<std::string> decomposed(std::string_view text) {
  std::vector<std::string> parts;
  hb_unicode_funcs_t* unicode = hb_unicode_funcs_get_default();
  for (std::size_t i = 0; i < text.size();) {
    hb_codepoint_t base = next_code_point(text, i);
    std::vector<hb_codepoint_t> marks;
    hb_codepoint_t first = 0, second = 0;
    while (hb_unicode_decompose(unicode, base, &first, &second)) {
      if (second != 0) marks.push_back(second);
      base = first;
    }
    append_utf8(parts.emplace_back(), base);
    for (auto mark = marks.rbegin(); mark != marks.rend(); ++mark) {
      append_utf8(parts.emplace_back(), *mark);
    }
  }
  return parts;
}

void set_font(std::string& out, const FontUse& font, Length size,
              TextOperators::State& state) {
  if (&font == state.font && size == state.size) return;
  out += "/F";
  append_integer(out, font.index());
  out += ' ';
  append_size(out, size);
  out += " Tf\n";
  state = {&font, size};
}

// The pieces of an array for TJ, or a string for Tj where nothing is put right.
class Showing {
 public:
  Showing(std::string& out, Length size)
      : out_(out), max_stray_(kSizeClasses[size_class(size)].max_stray) {}

  void glyph(Code code, std::int64_t wanted, std::int64_t width) {
    const std::int64_t stray = drawn_ - wanted;
    if (stray > max_stray_ || stray < -max_stray_) {
      const std::int64_t move = divided(stray, kUnit);
      if (is_open_) text_ += ')';
      append_integer(text_, move);
      is_open_ = false;
      is_array_ = true;
      drawn_ -= move * kUnit;
    }
    if (!is_open_) text_ += '(';
    is_open_ = true;
    append_code(text_, code);
    drawn_ += width * kUnit;
  }

  // Goes on with the glyphs of another font.
  void use_font(const FontUse& font, Length size, TextOperators::State& state) {
    end();
    set_font(out_, font, size, state);
  }

  // Ends the operator, so that another may follow.
  void end() {
    if (text_.empty()) return;
    if (is_open_) text_ += ')';
    if (is_array_) out_ += '[';
    out_ += text_;
    out_ += is_array_ ? "]TJ\n" : "Tj\n";
    text_.clear();
    is_open_ = false;
    is_array_ = false;
  }

 private:
  std::string& out_;
  std::int64_t max_stray_;
  std::string text_;
  std::int64_t drawn_ = 0;
  bool is_open_ = false;
  bool is_array_ = false;
};

}  // namespace

TextOperators::Known& TextOperators::known(const ShapedText& shape,
                                           FontUse& font) {
  const auto [place, is_new] = known_.try_emplace(Key{&shape, &font});
  if (is_new) place->second = encode(shape, font);
  return place->second;
}

TextOperators::Known TextOperators::encode(const ShapedText& shape,
                                           FontUse& font) {
  Known result;
  result.font = &font;
  const std::vector<ShapedGlyph>& glyphs = shape.glyphs;
  result.codes.reserve(glyphs.size());
  const std::string_view text = shape.text;
  for (std::size_t first = 0; first < glyphs.size();) {
    std::size_t last = first + 1;
    while (last < glyphs.size() &&
           glyphs[last].cluster == glyphs[first].cluster) {
      ++last;
    }
    const bool is_whole =
        glyphs[last - 1].text_begin < glyphs[last - 1].text_end;
    if (is_whole) {
      for (std::size_t i = first; i < last; ++i) {
        const ShapedGlyph& glyph = glyphs[i];
        result.last_text =
            text.substr(glyph.text_begin, glyph.text_end - glyph.text_begin);
        result.codes.push_back(font.code(glyph.id, result.last_text));
      }
    } else {
      // More glyphs than characters. Some readers heed the text stated for
      // the whole cluster; for the others each glyph has a part of it, and
      // what is left over a space of no width.
      const std::size_t begin = glyphs[first].cluster;
      const std::size_t end =
          last < glyphs.size() ? glyphs[last].cluster : text.size();
      const std::string whole(text.substr(begin, end - begin));
      const std::vector<std::string> parts = decomposed(whole);
      for (std::size_t i = first; i < last; ++i) {
        const std::size_t part = i - first;
        result.last_text = part < parts.size() ? parts[part] : "\u200B";
        result.codes.push_back(font.code(glyphs[i].id, result.last_text));
      }
      result.replacements.push_back({first, last, whole});
    }
    first = last;
  }
  result.has_plain = result.replacements.empty() && !has_vertical_shifts(shape);
  return result;
}

void TextOperators::append(std::string& out, const GlyphRun& run, State& state,
                           bool space_after) {
  assert(run.size > Length());
  const bool is_spaced = run.tracking != Length();
  FontUse& font = fonts_.use(*run.shape->font, share_of_em(run, run.tracking),
                             is_spaced ? kNearEnough : 0);
  Known& text = known(*run.shape, font);
  set_font(out, font, run.size, state);
  const bool is_plain = text.has_plain && !is_spaced &&
                        run.word_gap == Length() && run.room_after == Length();
  if (is_plain) {
    std::string& plain = text.plain[size_class(run.size)];
    if (plain.empty()) show(plain, text, run, state);
    out += plain;
  } else {
    show(out, text, run, state);
  }
  if (space_after) append_space(out, text, run.size, state);
}

// Goes into the string that was shown last, which costs two bytes; after text
// that is stated outright it needs an operator of its own.
void TextOperators::append_space(std::string& out, Known& known, Length size,
                                 State& state) {
  if (known.space == 0) {
    const std::uint32_t glyph = known.font->font().space();
    if (glyph == 0) return;
    known.space = known.font->code(glyph, " ");
  }
  set_font(out, *known.font, size, state);
  for (const std::string_view end : {")Tj\n", ")]TJ\n"}) {
    if (!out.ends_with(end)) continue;
    out.resize(out.size() - end.size());
    append_code(out, known.space);
    out += end;
    return;
  }
  out += '(';
  append_code(out, known.space);
  out += ")Tj\n";
}

// The font in which the run's last glyph, of `width` thousandths in its own
// one, leads the pen to where the word goes on.
FontUse& TextOperators::font_to_the_next(const GlyphRun& run,
                                         const FontUse& font,
                                         std::int32_t width) {
  const std::int64_t pen = wanted_pen(run, run.shape->glyphs.back());
  const Length next = width_of(run) + run.room_after;
  const std::int32_t wanted =
      share_of_em(run, next) - static_cast<std::int32_t>(divided(pen, kUnit));
  const std::int32_t added = font.added() + wanted - width;
  if (std::abs(added - font.added()) <= kNearEnoughAtEnd) {
    return fonts_.use(font.font(), font.added());
  }
  // In even steps, so that few fonts are near enough to every room there is.
  constexpr std::int32_t kStep = 2 * kNearEnoughAtEnd;
  return fonts_.use(font.font(),
                    static_cast<std::int32_t>(divided(added, kStep)) * kStep);
}

void TextOperators::show(std::string& out, const Known& known,
                         const GlyphRun& run, State& state) {
  const std::vector<ShapedGlyph>& glyphs = run.shape->glyphs;
  Showing showing(out, run.size);
  std::int32_t rise = 0;
  auto replacement = known.replacements.begin();
  for (std::size_t i = 0; i < glyphs.size(); ++i) {
    const bool starts_replacement =
        replacement != known.replacements.end() && replacement->first == i;
    if (starts_replacement) {
      showing.end();
      out += "/Span<</ActualText<FEFF";
      append_utf16_hex(out, replacement->text);
      out += ">>>BDC\n";
    }
    if (glyphs[i].y_offset != rise) {
      showing.end();
      rise = glyphs[i].y_offset;
      append_size(out, at_size(*run.shape->font, run.size, rise));
      out += " Ts\n";
    }
    Code code = known.codes[i];
    const FontUse* font = known.font;
    if (i + 1 == glyphs.size() && run.room_after > Length()) {
      // Its advance leads to where the word goes on.
      FontUse& wide = font_to_the_next(run, *font, font->width(code));
      if (&wide != font) {
        code = wide.code(glyphs[i].id, known.last_text);
        showing.use_font(wide, run.size, state);
        font = &wide;
      }
    }
    showing.glyph(code, wanted_pen(run, glyphs[i]), font->width(code));
    if (replacement != known.replacements.end() && replacement->last == i + 1) {
      showing.end();
      out += "EMC\n";
      ++replacement;
    }
  }
  showing.end();
  if (rise != 0) out += "0 Ts\n";
}

}  // namespace sheaf
