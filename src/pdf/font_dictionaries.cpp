#include "pdf/font_dictionaries.h"

#include <algorithm>
#include <map>

#include "base/utf8.h"
#include "pdf/operators.h"

namespace sheaf {

namespace {

// Lines of a CMap come in blocks of a hundred at most (Adobe Technical Note
// 5014).
constexpr std::size_t kCodesInBlock = 100;

constexpr std::string_view kSystemInfo =
    "/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>";

void append_code(std::string& out, std::size_t code) {
  constexpr char kDigits[] = "0123456789ABCDEF";
  out += '<';
  for (int shift = 12; shift >= 0; shift -= 4) {
    out += kDigits[code >> static_cast<unsigned>(shift) & 0xFU];
  }
  out += '>';
}

// A CMap over all codes; `append_target` writes what a code stands for.
template <typename AppendTarget>
std::string cmap(std::string_view name, std::string_view type,
                 std::string_view kind, std::size_t code_count,
                 AppendTarget append_target) {
  std::string text =
      "/CIDInit/ProcSet findresource begin\n12 dict begin\nbegincmap\n"
      "/CIDSystemInfo 3 dict dup begin/Registry(Adobe)def"
      "/Ordering(";
  text += type == "1" ? "Identity" : "UCS";
  text += ")def/Supplement 0 def end def\n/CMapName/";
  text += name;
  text += " def\n/CMapType ";
  text += type;
  text +=
      " def\n/WMode 0 def\n1 begincodespacerange\n<0000><FFFF>\n"
      "endcodespacerange\n";
  for (std::size_t code = 1; code < code_count;) {
    const std::size_t end = std::min(code_count, code + kCodesInBlock);
    append_integer(text, static_cast<std::int64_t>(end - code));
    text.append(" begin").append(kind).append("\n");
    for (; code < end; ++code) {
      append_code(text, code);
      append_target(text, code);
      text += '\n';
    }
    text.append("end").append(kind).append("\n");
  }
  text += "endcmap\nCMapName currentdict/CMap defineresource pop\nend\nend\n";
  return text;
}

// What the standard forbids as the meaning of a code becomes the sign for an
// unknown character (ISO 14289-1, 7.21.7).
std::string allowed_text(std::string_view text) {
  std::string result;
  for (std::size_t i = 0; i < text.size();) {
    const char32_t code_point = next_code_point(text, i);
    const bool forbidden =
        code_point == 0 || code_point == 0xFEFF || code_point == 0xFFFE;
    append_utf8(result, forbidden ? char32_t{0xFFFD} : code_point);
  }
  return result;
}

std::string to_unicode(const FontParts& parts) {
  return cmap("Sheaf-Text", "2", "bfchar", parts.glyphs.size(),
              [&](std::string& out, std::size_t code) {
                out += '<';
                append_utf16_hex(out, allowed_text(parts.glyphs[code].text));
                out += '>';
              });
}

// Codes are CIDs in a TrueType font; in a CFF font the CIDs are the font's.
std::string code_to_cid(const FontParts& parts) {
  return cmap("Sheaf-Codes", "1", "cidchar", parts.glyphs.size(),
              [&](std::string& out, std::size_t code) {
                out += ' ';
                append_integer(out, parts.subset.names[code]);
              });
}

std::string cid_to_glyph(const FontParts& parts) {
  std::string map;
  for (const std::uint16_t name : parts.subset.names) {
    map += static_cast<char>(name >> 8U);
    map += static_cast<char>(name & 0xFFU);
  }
  return map;
}

std::string widths(const FontParts& parts) {
  std::map<std::size_t, std::int32_t> by_cid;
  const bool by_code = parts.font.outlines() == Outlines::truetype;
  for (std::size_t code = 1; code < parts.glyphs.size(); ++code) {
    by_cid[by_code ? code : parts.subset.names[code]] =
        parts.glyphs[code].width;
  }
  std::string text = "/W[";
  std::size_t next = 0;
  for (const auto& [cid, width] : by_cid) {
    if (next == 0 || cid != next) {
      if (next != 0) text += ']';
      append_integer(text, static_cast<std::int64_t>(cid));
      text += '[';
    } else {
      text += ' ';
    }
    append_integer(text, width);
    next = cid + 1;
  }
  text += next == 0 ? "]" : "]]";
  return text;
}

ObjectId write_descriptor(Objects& objects, Deflater& deflater,
                          const FontParts& parts) {
  const bool is_cff = parts.font.outlines() == Outlines::cff;
  const std::string& program = parts.subset.program;
  std::string file = "/Filter/FlateDecode";
  if (is_cff) {
    file += "/Subtype/CIDFontType0C";
  } else {
    file += "/Length1 ";
    append_integer(file, static_cast<std::int64_t>(program.size()));
  }
  const ObjectId file_id = objects.add_stream(
      std::move(file), deflater.deflate(program, Deflater::Effort::quick));

  const FontProgram& shape = parts.program;
  const FontProgram::Box box = shape.box();
  // Flag 4: it may have letters beyond the standard Latin set.
  std::string text = "/Type/FontDescriptor/Flags 4/FontName/" + parts.name;
  text += "/FontBBox[";
  for (const std::int32_t edge : {box.left, box.bottom, box.right, box.top}) {
    append_integer(text, edge);
    text += ' ';
  }
  text += "]/ItalicAngle ";
  append_integer(text, shape.italic_angle());
  text += "/Ascent ";
  append_integer(text, shape.thousandths(parts.font.ascent()));
  text += "/Descent ";
  append_integer(text, -shape.thousandths(parts.font.descent()));
  text += "/CapHeight ";
  append_integer(text, shape.thousandths(parts.font.cap_height()));
  text += "/StemV ";
  append_integer(text, shape.stem_width());
  text += is_cff ? "/FontFile3 " : "/FontFile2 ";
  append_reference(text, file_id);
  return objects.add_dictionary(std::move(text));
}

}  // namespace

ObjectId write_font(Objects& objects, Deflater& deflater,
                    const FontParts& parts) {
  const bool is_cff = parts.font.outlines() == Outlines::cff;
  std::string cid_font = "/Type/Font/Subtype/";
  cid_font += is_cff ? "CIDFontType0" : "CIDFontType2";
  cid_font += "/BaseFont/" + parts.name;
  cid_font += kSystemInfo;
  cid_font += "/FontDescriptor ";
  append_reference(cid_font, write_descriptor(objects, deflater, parts));
  cid_font += widths(parts);
  std::string font = "/Type/Font/Subtype/Type0/BaseFont/" + parts.name;
  if (is_cff) {
    std::string entries = "/Type/CMap/CMapName/Sheaf-Codes/WMode 0";
    entries += kSystemInfo;
    entries += "/Filter/FlateDecode";
    font += "/Encoding ";
    append_reference(
        font, objects.add_stream(std::move(entries),
                                 deflater.deflate(code_to_cid(parts),
                                                  Deflater::Effort::quick)));
  } else {
    font += "/Encoding/Identity-H";
    cid_font += "/CIDToGIDMap ";
    append_reference(cid_font, objects.add_stream(
                                   "/Filter/FlateDecode",
                                   deflater.deflate(cid_to_glyph(parts),
                                                    Deflater::Effort::quick)));
  }
  font += "/DescendantFonts[";
  append_reference(font, objects.add_dictionary(std::move(cid_font)));
  font += "]/ToUnicode ";
  append_reference(font,
                   objects.add_stream("/Filter/FlateDecode",
                                      deflater.deflate(to_unicode(parts))));
  return objects.add_dictionary(std::move(font));
}

}  // namespace sheaf
