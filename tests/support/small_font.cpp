#include "support/small_font.h"

#include <utility>
#include <vector>

// Layouts of tables: OpenType specification 1.9. CFF: Adobe Technical Note
// 5176; charstrings: Technical Note 5177.

namespace sheaf::testing_support {

namespace {

class Bytes {
 public:
  Bytes& u8(unsigned value) {
    text_ += static_cast<char>(value & 0xFF);
    return *this;
  }
  Bytes& u16(unsigned value) { return u8(value >> 8).u8(value); }
  Bytes& u32(unsigned value) { return u16(value >> 16).u16(value); }
  Bytes& add(const std::string& bytes) {
    text_ += bytes;
    return *this;
  }
  std::string text() const { return text_; }
  std::size_t size() const { return text_.size(); }

 private:
  std::string text_;
};

struct Glyph {
  unsigned character;  // 0: .notdef
  int advance;
  int width, height;  // of the block; 0: nothing drawn
};

std::vector<Glyph> glyphs() {
  std::vector<Glyph> all = {{0, 500, 300, 700},
                            {' ', 250, 0, 0},
                            {'H', 700, 500, 700},
                            {'I', 300, 100, 700}};
  for (char c = 'a'; c <= 'z'; ++c) {
    all.push_back({static_cast<unsigned>(c), small_font_advance(c),
                   small_font_advance(c) - 100, 500});
  }
  all.push_back({0xE9, small_font_advance('e'), 300, 700});
  all.push_back({0x301, 0, 100, 200});
  return all;
}

constexpr unsigned kGlyphE = 8, kGlyphEAcute = 30, kGlyphAccent = 31;

// A number in a DICT or a charstring, always three bytes.
Bytes& number(Bytes& out, int value) {
  return out.u8(28).u16(static_cast<unsigned>(value));
}

std::string charstring(const Glyph& glyph) {
  Bytes out;
  number(out, glyph.advance);
  if (glyph.width > 0) {
    number(number(out, 50), 0).u8(21);  // rmoveto
    number(out, glyph.width).u8(6);     // hlineto
    number(out, glyph.height).u8(7);    // vlineto
    number(out, -glyph.width).u8(6);
  }
  return out.u8(14).text();  // endchar
}

std::string index(const std::vector<std::string>& items) {
  Bytes out;
  out.u16(static_cast<unsigned>(items.size()));
  if (items.empty()) return out.text();
  out.u8(2);
  unsigned offset = 1;
  out.u16(offset);
  for (const std::string& item : items) {
    offset += static_cast<unsigned>(item.size());
    out.u16(offset);
  }
  for (const std::string& item : items) out.add(item);
  return out.text();
}

// Offsets are three-byte numbers, so the DICT's size does not depend on them.
std::string top_dict(bool cid_keyed, int charset, int char_strings,
                     int private_dict, int fd_array, int fd_select) {
  Bytes out;
  if (cid_keyed) {
    number(number(number(out, 391), 392), 0).u8(12).u8(30);  // ROS
  }
  number(out, charset).u8(15);
  number(out, char_strings).u8(17);
  if (cid_keyed) {
    number(out, 200).u8(12).u8(34);  // CIDCount
    number(out, fd_array).u8(12).u8(36);
    number(out, fd_select).u8(12).u8(37);
  } else {
    number(number(out, 0), private_dict).u8(18);
  }
  return out.text();
}

std::string charset(bool cid_keyed, std::size_t count) {
  Bytes out;
  out.u8(0);
  for (std::size_t i = 1; i < count; ++i) {
    // By name: any of the standard strings will do.
    out.u16(static_cast<unsigned>(cid_keyed ? 100 + i : i));
  }
  return out.text();
}

std::string cff(const SmallFont& font) {
  const std::vector<Glyph> all = glyphs();
  std::vector<std::string> strings;
  for (const Glyph& glyph : all) strings.push_back(charstring(glyph));
  const std::string head = {1, 0, 4, 2};
  const std::string names = index({font.name});
  const std::string extra =
      font.is_cid_keyed ? index({"Adobe", "Identity"}) : index({});
  const std::string charset_bytes = charset(font.is_cid_keyed, all.size());
  const std::string char_strings = index(strings);
  const std::string fd_select = Bytes()
                                    .u8(3)
                                    .u16(1)
                                    .u16(0)
                                    .u8(0)
                                    .u16(static_cast<unsigned>(all.size()))
                                    .text();
  const auto dict = [&](int a, int b, int c, int d, int e) {
    return index({top_dict(font.is_cid_keyed, a, b, c, d, e)});
  };
  const int start =
      static_cast<int>(head.size() + names.size() + dict(0, 0, 0, 0, 0).size() +
                       extra.size() + index({}).size());
  const int at_char_strings = start + static_cast<int>(charset_bytes.size());
  const int at_select = at_char_strings + static_cast<int>(char_strings.size());
  const int at_array = at_select + static_cast<int>(fd_select.size());
  Bytes font_dict;
  number(number(font_dict, 0), at_array).u8(18);
  return Bytes()
      .add(head)
      .add(names)
      .add(dict(start, at_char_strings, at_array, at_array, at_select))
      .add(extra)
      .add(index({}))
      .add(charset_bytes)
      .add(char_strings)
      .add(fd_select)
      .add(index({font_dict.text()}))
      .text();
}

std::string cmap() {
  Bytes groups;
  unsigned count = 0;
  const std::vector<Glyph> all = glyphs();
  for (std::size_t i = 1; i < all.size(); ++i, ++count) {
    groups.u32(all[i].character)
        .u32(all[i].character)
        .u32(static_cast<unsigned>(i));
  }
  return Bytes()
      .u16(0)
      .u16(1)
      .u16(3)
      .u16(10)
      .u32(12)
      .u16(12)
      .u16(0)
      .u32(static_cast<unsigned>(16 + groups.size()))
      .u32(0)
      .u32(count)
      .add(groups.text())
      .text();
}

// One feature, ccmp, with one lookup: é becomes e and the accent.
std::string substitutions() {
  Bytes out;
  out.u32(0x00010000).u16(10).u16(30).u16(44);
  // Scripts: DFLT, whose default language has feature 0.
  out.u16(1).add("DFLT").u16(8).u16(4).u16(0).u16(0).u16(0xFFFF).u16(1).u16(0);
  // Features: ccmp with lookup 0.
  out.u16(1).add("ccmp").u16(8).u16(0).u16(1).u16(0);
  // Lookups: one of type 2, one to many.
  out.u16(1).u16(4).u16(2).u16(0).u16(1).u16(8);
  out.u16(1).u16(8).u16(1).u16(14);
  out.u16(1).u16(1).u16(kGlyphEAcute);
  out.u16(2).u16(kGlyphE).u16(kGlyphAccent);
  return out.text();
}

std::string metrics() {
  Bytes out;
  for (const Glyph& glyph : glyphs()) {
    out.u16(static_cast<unsigned>(glyph.advance)).u16(glyph.width > 0 ? 50 : 0);
  }
  return out.text();
}

std::string head() {
  return Bytes()
      .u32(0x00010000)
      .u32(0x00010000)
      .u32(0)
      .u32(0x5F0F3CF5)
      .u16(0)
      .u16(1000)
      .u32(0)
      .u32(0)
      .u32(0)
      .u32(0)
      .u16(0)
      .u16(0)
      .u16(650)
      .u16(700)
      .u16(0)
      .u16(8)
      .u16(2)
      .u16(0)
      .u16(0)
      .text();
}

std::string horizontal_header() {
  Bytes out;
  out.u32(0x00010000).u16(800).u16(0x10000 - 200).u16(0).u16(700);
  for (int i = 0; i < 11; ++i) out.u16(0);
  return out.u16(static_cast<unsigned>(glyphs().size())).text();
}

std::string name_table(const std::string& name) {
  Bytes out;
  out.u16(0).u16(1).u16(18).u16(3).u16(1).u16(0x409).u16(6);
  out.u16(static_cast<unsigned>(2 * name.size())).u16(0);
  for (const char c : name) out.u16(static_cast<unsigned char>(c));
  return out.text();
}

}  // namespace

std::string SmallFont::file() const {
  std::vector<std::pair<std::string, std::string>> tables = {
      {"CFF ", cff(*this)},
      {"cmap", cmap()},
      {"head", head()},
      {"hhea", horizontal_header()},
      {"hmtx", metrics()},
      {"maxp", Bytes()
                   .u32(0x00005000)
                   .u16(static_cast<unsigned>(glyphs().size()))
                   .text()},
      {"name", name_table(name)}};
  if (splits_e_acute)
    tables.insert(tables.begin() + 1, {"GSUB", substitutions()});
  const auto count = static_cast<unsigned>(tables.size());
  Bytes out;
  out.add("OTTO").u16(count).u16(64).u16(2).u16(16 * count - 64);
  unsigned offset = 12 + 16 * count;
  std::string body;
  for (auto& [tag, bytes] : tables) {
    out.add(tag).u32(0).u32(offset).u32(static_cast<unsigned>(bytes.size()));
    bytes.resize((bytes.size() + 3) / 4 * 4);
    body += bytes;
    offset += static_cast<unsigned>(bytes.size());
  }
  return out.add(body).text();
}

}  // namespace sheaf::testing_support
