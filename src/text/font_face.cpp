#include "text/font_face.h"

#include <algorithm>
#include <array>
#include <new>

#include <fmt/format.h>
#include <hb-ot.h>

#include "base/error.h"
#include "base/memory_guard.h"

namespace sheaf {

namespace {

// Fonts beyond this are damaged or not for print; the largest real ones, with
// every Chinese character, have about half.
constexpr unsigned kMaxFontBytes = 64U << 20;

int read_u16(hb_blob_t* table, unsigned offset) {
  unsigned length = 0;
  const auto* data =
      reinterpret_cast<const unsigned char*>(hb_blob_get_data(table, &length));
  if (length < 2 || offset > length - 2) return -1;
  return data[offset] << 8 | data[offset + 1];
}

HbOwner<hb_blob_t> table(hb_face_t* face, hb_tag_t tag) {
  return HbOwner<hb_blob_t>(hb_face_reference_table(face, tag));
}

bool has_table(hb_face_t* face, hb_tag_t tag) {
  return hb_blob_get_length(table(face, tag).get()) > 0;
}

// What the maker allows: OpenType specification, OS/2 table, fsType.
bool may_be_embedded(hb_face_t* face, std::string& why) {
  const auto os2 = table(face, HB_TAG('O', 'S', '/', '2'));
  const int rights = read_u16(os2.get(), 8);
  if (rights < 0) return true;
  if ((rights & 0x000F) == 0x0002) {
    why = "its licence bits forbid putting it into documents";
  } else if (rights & 0x0100) {
    why = "its licence bits forbid putting a part of it into documents";
  } else if (rights & 0x0200) {
    why = "its licence bits allow only its bitmaps in documents";
  } else {
    return true;
  }
  return false;
}

bool find_outlines(hb_face_t* face, Outlines& outlines, std::string& why) {
  const bool has_glyf = has_table(face, HB_TAG('g', 'l', 'y', 'f')) &&
                        has_table(face, HB_TAG('l', 'o', 'c', 'a'));
  if (has_glyf) {
    outlines = Outlines::truetype;
  } else if (has_table(face, HB_TAG('C', 'F', 'F', ' '))) {
    outlines = Outlines::cff;
  } else if (has_table(face, HB_TAG('C', 'F', 'F', '2'))) {
    why = "it is a variable font of a kind that PDF cannot hold (CFF2)";
    return false;
  } else {
    why = "it has no outlines to print";
    return false;
  }
  return true;
}

// Ink height of a letter above the baseline; 0 where it has none.
int height_of(hb_font_t* font, hb_codepoint_t letter) {
  hb_codepoint_t glyph = 0;
  hb_glyph_extents_t extents{};
  if (!hb_font_get_nominal_glyph(font, letter, &glyph) || glyph == 0 ||
      !hb_font_get_glyph_extents(font, glyph, &extents) || extents.width <= 0) {
    return 0;
  }
  return extents.y_bearing;
}

bool has_alphabet(hb_font_t* font, std::string& why) {
  for (char letter = 'a'; letter <= 'z'; ++letter) {
    if (height_of(font, static_cast<unsigned char>(letter)) > 0) continue;
    why = std::string("it has no letter `") + letter + "`";
    return false;
  }
  return true;
}

bool measure(Font::Impl& font, std::string& why) {
  hb_font_extents_t lines{};
  hb_font_get_h_extents(font.font.get(), &lines);
  font.units_per_em = static_cast<int>(hb_face_get_upem(font.face.get()));
  font.x_height = height_of(font.font.get(), 'x');
  font.cap_height = height_of(font.font.get(), 'H');
  if (font.cap_height <= 0) font.cap_height = height_of(font.font.get(), 'l');
  font.ascent = std::max<int>(lines.ascender, font.cap_height);
  font.descent = std::max<int>(-lines.descender, 0);
  const int em = font.units_per_em;
  const bool sane = font.x_height >= em / 20 && font.x_height <= 2 * em &&
                    font.ascent <= 4 * em && font.descent <= 4 * em;
  if (!sane) why = "its measures make no sense";
  return sane;
}

// The name in the font, cut down to what a PDF name can bear without escapes.
std::string postscript_name(hb_face_t* face) {
  std::array<char, 64> buffer{};
  unsigned size = buffer.size();
  hb_ot_name_get_utf8(face, HB_OT_NAME_ID_POSTSCRIPT_NAME,
                      hb_language_from_string("en", -1), &size, buffer.data());
  std::string name;
  for (const char c : std::string_view(buffer.data())) {
    const bool plain = (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') ||
                       (c >= 'a' && c <= 'z') || c == '-' || c == '_';
    if (plain) name += c;
  }
  return name.empty() ? "Font" : name;
}

// Where memory is lacking, any of this may fail or come to less.
std::unique_ptr<Font> checked_font(std::string family, HbOwner<hb_blob_t> blob,
                                   std::string& why);

bool is_web_font(hb_blob_t* blob) {
  unsigned length = 0;
  const char* data = hb_blob_get_data(blob, &length);
  const std::string_view head(data, std::min(length, 4U));
  return head == "wOFF" || head == "wOF2";
}

}  // namespace

HbOwner<hb_blob_t> font_blob(KeptBytes file) {
  auto held = std::make_unique<KeptBytes>(std::move(file));
  const std::string_view bytes = held->bytes;
  constexpr std::size_t kMost = std::size_t{1} << 30U;
  HbOwner<hb_blob_t> blob(hb_blob_create_or_fail(
      bytes.data(), static_cast<unsigned>(std::min(bytes.size(), kMost)),
      HB_MEMORY_MODE_READONLY, held.get(),
      [](void* owner) { delete static_cast<KeptBytes*>(owner); }));
  // HarfBuzz lets go of what it could not take, too.
  [[maybe_unused]] const auto* now_of_the_blob = held.release();
  if (!blob) throw std::bad_alloc();
  return blob;
}

std::unique_ptr<Font> make_font(std::string family, HbOwner<hb_blob_t> blob,
                                std::string& why) {
  const MemoryGuard guard;
  auto font = checked_font(std::move(family), std::move(blob), why);
  guard.check();
  return font;
}

namespace {

std::unique_ptr<Font> checked_font(std::string family, HbOwner<hb_blob_t> blob,
                                   std::string& why) {
  hb_blob_make_immutable(blob.get());
  if (hb_blob_get_length(blob.get()) > kMaxFontBytes) {
    why = "it is larger than 64 MiB";
    return nullptr;
  }
  if (is_web_font(blob.get())) {
    why = "it is a web font, not a TrueType or OpenType file";
    return nullptr;
  }
  auto impl = std::make_unique<Font::Impl>();
  impl->face.reset(hb_face_create(blob.get(), 0));
  if (hb_face_count(blob.get()) == 0 ||
      hb_face_get_glyph_count(impl->face.get()) == 0) {
    why = "it is not a TrueType or OpenType font, or is damaged";
    return nullptr;
  }
  impl->blob = std::move(blob);
  impl->font.reset(hb_font_create(impl->face.get()));
  hb_font_make_immutable(impl->font.get());
  impl->family = std::move(family);
  impl->name = postscript_name(impl->face.get());
  const bool usable = find_outlines(impl->face.get(), impl->outlines, why) &&
                      may_be_embedded(impl->face.get(), why) &&
                      has_alphabet(impl->font.get(), why) &&
                      measure(*impl, why);
  if (!usable) return nullptr;
  return std::make_unique<Font>(std::move(impl));
}

}  // namespace

}  // namespace sheaf
