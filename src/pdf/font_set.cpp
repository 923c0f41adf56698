#include "pdf/font_set.h"

#include <algorithm>
#include <cstdlib>
#include <limits>

#include "base/error.h"
#include "base/shuffle.h"
#include "base/utf8.h"
#include "pdf/font_dictionaries.h"
#include "pdf/operators.h"

#include <fmt/format.h>

namespace sheaf {

namespace {

// Glyph and text in one number, if the text is a single code point at most.
std::uint64_t short_key(std::uint32_t glyph, std::string_view text) {
  std::uint64_t key = glyph;
  for (std::size_t i = 0; i < 4; ++i) {
    key = key << 8U |
          (i < text.size() ? static_cast<unsigned char>(text[i]) : 0U);
  }
  return key;
}

}  // namespace

FontUse::FontUse(const Font& font, std::int32_t added, int index)
    : font_(font),
      added_(added),
      program_(font, added),
      index_(index),
      glyphs_(1) {}

Code FontUse::code(std::uint32_t glyph, std::string_view text) {
  if (text.size() <= 4) {
    const auto [place, is_new] =
        short_texts_.try_emplace(short_key(glyph, text), Code{0});
    if (is_new) place->second = add(glyph, text);
    return place->second;
  }
  const auto [place, is_new] =
      long_texts_.try_emplace({glyph, std::string(text)}, Code{0});
  if (is_new) place->second = add(glyph, text);
  return place->second;
}

Code FontUse::add(std::uint32_t glyph, std::string_view text) {
  if (glyph == 0) {
    throw MachineError(fmt::format("the font `{}` has no shape for `{}`",
                                   font_.name(), printable(text)));
  }
  if (glyphs_.size() > std::numeric_limits<Code>::max()) {
    throw MachineError(fmt::format(
        "the document uses more than 65,535 shapes of the font `{}`",
        font_.name()));
  }
  glyphs_.push_back({glyph, program_.width(glyph), std::string(text)});
  return static_cast<Code>(glyphs_.size() - 1);
}

// "ABCDEF+Name": six letters that stand for the choice of glyphs (ISO 32000-1,
// 9.6.4), so that two parts of a font are never taken for one.
std::string FontUse::tagged_name() const {
  std::string choice = font_.name();
  if (added_ != 0) {
    append_integer(choice, added_);
    choice += '+';
  }
  for (const Glyph& glyph : glyphs_) {
    append_integer(choice, glyph.id);
    choice += ' ';
  }
  std::uint64_t hash = text_hash(choice);
  std::string name;
  for (int i = 0; i < 6; ++i, hash /= 26) {
    name += static_cast<char>('A' + hash % 26);
  }
  return name + '+' + font_.name();
}

ObjectId FontUse::embed(Objects& objects, Deflater& deflater) const {
  std::vector<std::uint32_t> ids;
  ids.reserve(glyphs_.size());
  for (const Glyph& glyph : glyphs_) ids.push_back(glyph.id);
  const FontProgram::Subset subset = program_.subset(ids);
  return write_font(objects, deflater,
                    {font_, program_, tagged_name(), glyphs_, subset});
}

FontUse& FontSet::use(const Font& font, std::int32_t added,
                      std::int32_t tolerance) {
  FontUse* nearest = nullptr;
  std::int32_t distance = tolerance + 1;
  for (const auto& known : fonts_) {
    const std::int32_t apart = std::abs(known->added() - added);
    if (&known->font() != &font || apart >= distance) continue;
    nearest = known.get();
    distance = apart;
  }
  if (nearest) return *nearest;
  fonts_.push_back(
      std::make_unique<FontUse>(font, added, static_cast<int>(fonts_.size())));
  return *fonts_.back();
}

std::string FontSet::embed(Objects& objects, Deflater& deflater) const {
  std::string resources;
  for (const auto& font : fonts_) {
    resources += "/F";
    append_integer(resources, font->index());
    resources += ' ';
    append_reference(resources, font->embed(objects, deflater));
  }
  return resources;
}

}  // namespace sheaf
