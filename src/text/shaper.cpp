#include "text/shaper.h"

#include <algorithm>
#include <unordered_map>

#include "base/error.h"
#include "base/memory_guard.h"
#include "base/utf8.h"
#include "text/font_face.h"

namespace sheaf {

namespace {

// What a shaped text depends on. The views point into the entry's own strings
// once it is in the table.
struct Key {
  const Font* font;
  std::string text;
  std::string features;
};
struct KeyView {
  const Font* font;
  std::string_view text;
  std::string_view features;
};

struct KeyHash {
  using is_transparent = void;
  std::size_t operator()(const KeyView& key) const {
    const std::hash<std::string_view> hash;
    return hash(key.text) ^ hash(key.features) * 31 ^
           std::hash<const void*>()(key.font);
  }
  std::size_t operator()(const Key& key) const {
    return (*this)(KeyView{key.font, key.text, key.features});
  }
};

struct KeyEqual {
  using is_transparent = void;
  template <typename A, typename B>
  bool operator()(const A& a, const B& b) const {
    return a.font == b.font && a.text == b.text && a.features == b.features;
  }
};

std::vector<hb_feature_t> features_of(std::string_view text) {
  std::vector<hb_feature_t> result;
  for (const std::string_view standard : {"-liga", "-clig"}) {
    hb_feature_t feature{};
    hb_feature_from_string(standard.data(), static_cast<int>(standard.size()),
                           &feature);
    result.push_back(feature);
  }
  while (!text.empty()) {
    const std::size_t comma = std::min(text.find(','), text.size());
    hb_feature_t feature{};
    if (hb_feature_from_string(text.data(), static_cast<int>(comma),
                               &feature)) {
      result.push_back(feature);
    }
    text.remove_prefix(std::min(comma + 1, text.size()));
  }
  return result;
}

void set_ink(const Font& font, ShapedGlyph& glyph) {
  hb_glyph_extents_t extents{};
  if (!hb_font_get_glyph_extents(font.impl().font.get(), glyph.id, &extents)) {
    return;
  }
  glyph.ink_left = extents.x_bearing;
  glyph.ink_right = extents.x_bearing + extents.width;
  glyph.ink_top = extents.y_bearing;
  glyph.ink_bottom = extents.y_bearing + extents.height;
}

// Gives each glyph its part of the text: all of its cluster's where it stands
// alone, else a character each from the first on, and the last has the rest.
void share_out_text(ShapedText& shaped) {
  std::vector<ShapedGlyph>& glyphs = shaped.glyphs;
  for (std::size_t first = 0; first < glyphs.size();) {
    std::size_t last = first + 1;
    while (last < glyphs.size() &&
           glyphs[last].cluster == glyphs[first].cluster) {
      ++last;
    }
    const std::size_t end =
        last < glyphs.size() ? glyphs[last].cluster : shaped.text.size();
    std::size_t offset = glyphs[first].cluster;
    for (std::size_t i = first; i < last; ++i) {
      glyphs[i].text_begin = static_cast<std::uint32_t>(offset);
      if (i + 1 == last) {
        offset = end;
      } else if (offset < end) {
        next_code_point(shaped.text, offset);
      }
      glyphs[i].text_end = static_cast<std::uint32_t>(offset);
    }
    first = last;
  }
}

bool is_word_space(std::string_view text) {
  return text == " " || text == "\u00A0";
}

// Counts what stands before each glyph.
void set_pens(ShapedText& shaped) {
  const auto all = characters(shaped.text);
  std::size_t next = 0;
  for (ShapedGlyph& glyph : shaped.glyphs) {
    const char* begin = shaped.text.data() + glyph.cluster;
    if (next < all.size() && all[next].data() <= begin) {
      while (next < all.size() && all[next].data() <= begin) ++next;
      ++shaped.characters;
    }
    glyph.pen = shaped.advance;
    glyph.characters_before =
        shaped.characters == 0 ? 0 : shaped.characters - 1;
    glyph.spaces_before = shaped.spaces;
    shaped.advance += glyph.advance;
    const auto shown =
        std::string_view(shaped.text)
            .substr(glyph.text_begin, glyph.text_end - glyph.text_begin);
    if (is_word_space(shown)) ++shaped.spaces;
  }
}

}  // namespace

void shape_into(hb_buffer_t* buffer, const Font::Impl& font,
                std::string_view text, std::string_view features) {
  const MemoryGuard guard;
  hb_buffer_clear_contents(buffer);
  hb_buffer_set_cluster_level(buffer,
                              HB_BUFFER_CLUSTER_LEVEL_MONOTONE_CHARACTERS);
  hb_buffer_add_utf8(buffer, text.data(), static_cast<int>(text.size()), 0,
                     static_cast<int>(text.size()));
  hb_buffer_set_direction(buffer, HB_DIRECTION_LTR);
  hb_buffer_set_language(buffer, hb_language_from_string("en", -1));
  hb_buffer_guess_segment_properties(buffer);
  const std::vector<hb_feature_t> all = features_of(features);
  // Only the shaper that is the same on every machine.
  const char* const shapers[] = {"ot", nullptr};
  const bool done =
      hb_shape_full(font.font.get(), buffer, all.data(),
                    static_cast<unsigned>(all.size()), shapers) != 0;
  guard.check();
  // One that was made without memory for it never has any.
  if (!hb_buffer_allocation_successful(buffer)) throw std::bad_alloc();
  if (!done) {
    throw MachineError("the font `" + font.name + "` could not set a text");
  }
}

struct Shaper::Impl {
  HbOwner<hb_buffer_t> buffer{hb_buffer_create()};
  std::unordered_map<Key, ShapedText, KeyHash, KeyEqual> cache;
};

Shaper::Shaper() : impl_(std::make_unique<Impl>()) {}
Shaper::~Shaper() = default;

const ShapedText& Shaper::shape(const Font& font, std::string_view text,
                                std::string_view features) {
  const KeyView view{&font, text, features};
  if (const auto found = impl_->cache.find(view); found != impl_->cache.end()) {
    return found->second;
  }
  hb_buffer_t* buffer = impl_->buffer.get();
  shape_into(buffer, font.impl(), text, features);
  ShapedText shaped;
  shaped.font = &font;
  shaped.text = text;
  unsigned count = 0;
  const hb_glyph_info_t* infos = hb_buffer_get_glyph_infos(buffer, &count);
  const hb_glyph_position_t* places =
      hb_buffer_get_glyph_positions(buffer, &count);
  shaped.glyphs.resize(count);
  const MemoryGuard guard;
  for (unsigned i = 0; i < count; ++i) {
    ShapedGlyph& glyph = shaped.glyphs[i];
    glyph.id = infos[i].codepoint;
    glyph.cluster = infos[i].cluster;
    glyph.advance = places[i].x_advance;
    glyph.x_offset = places[i].x_offset;
    glyph.y_offset = places[i].y_offset;
    set_ink(font, glyph);
  }
  guard.check();
  share_out_text(shaped);
  set_pens(shaped);
  return impl_->cache
      .emplace(Key{&font, std::string(text), std::string(features)},
               std::move(shaped))
      .first->second;
}

}  // namespace sheaf
