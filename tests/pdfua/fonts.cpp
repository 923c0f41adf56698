#include "pdfua/fonts.h"

#include <cmath>

#include "support/pattern.h"

#include <ft2build.h>
#include FT_FREETYPE_H
#include <qpdf/QUtil.hh>

namespace pdfua {

namespace {

std::string stream_bytes(QPDFObjectHandle stream) {
  const auto data = stream.getStreamData(qpdf_dl_all);
  return {reinterpret_cast<const char*>(data->getBuffer()), data->getSize()};
}

bool is_subset_name(const std::string& name) {
  static const sheaf::testing_support::Pattern tag("/[A-Z]{6}\\+.*");
  return !tag.of(name).empty();
}

std::string name_of(QPDFObjectHandle font) {
  QPDFObjectHandle name = font.getKey("/BaseFont");
  return name.isName() ? name.getName() : "/?";
}

}  // namespace

// The font program as FreeType reads it.
struct FontChecker::Program {
  explicit Program(std::string font_bytes) : bytes(std::move(font_bytes)) {
    if (FT_Init_FreeType(&library) != 0) return;
    const auto* data = reinterpret_cast<const FT_Byte*>(bytes.data());
    if (FT_New_Memory_Face(library, data, static_cast<FT_Long>(bytes.size()), 0,
                           &face) != 0) {
      face = nullptr;
    }
  }
  ~Program() {
    if (face) FT_Done_Face(face);
    if (library) FT_Done_FreeType(library);
  }
  Program(const Program&) = delete;
  Program& operator=(const Program&) = delete;

  // Advance in thousandths of an em; nothing where the glyph is not there.
  std::optional<double> width(std::uint32_t glyph) const {
    if (!face || glyph >= static_cast<std::uint32_t>(face->num_glyphs) ||
        FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE | FT_LOAD_NO_HINTING)) {
      return std::nullopt;
    }
    return 1000.0 * static_cast<double>(face->glyph->metrics.horiAdvance) /
           face->units_per_EM;
  }
  std::string bytes;
  FT_Library library = nullptr;
  FT_Face face = nullptr;
};

FontChecker::FontChecker(QPDFObjectHandle font, Report& report)
    : font_(font), report_(report), name_(name_of(font)) {
  is_composite_ = font.getKey("/Subtype").isNameAndEquals("/Type0");
  descriptor_ = font.getKey("/FontDescriptor");
  if (is_composite_) read_composite();
  QPDFObjectHandle text = font.getKey("/ToUnicode");
  if (text.isStream()) to_unicode_ = read_cmap(stream_bytes(text));
}

FontChecker::~FontChecker() = default;

void FontChecker::read_composite() {
  QPDFObjectHandle descendants = font_.getKey("/DescendantFonts");
  if (!descendants.isArray() || descendants.getArrayNItems() != 1) {
    is_readable_ = false;
    return;
  }
  cid_font_ = descendants.getArrayItem(0);
  descriptor_ = cid_font_.getKey("/FontDescriptor");
  read_encoding();
  QPDFObjectHandle map = cid_font_.getKey("/CIDToGIDMap");
  if (map.isStream()) cid_to_glyph_ = stream_bytes(map);
  if (cid_font_.getKey("/DW").isNumber()) {
    default_width_ = cid_font_.getKey("/DW").getNumericValue();
  }
  QPDFObjectHandle widths = cid_font_.getKey("/W");
  const int count = widths.isArray() ? widths.getArrayNItems() : 0;
  for (int i = 0; i + 1 < count;) {
    const int first = widths.getArrayItem(i).getIntValueAsInt();
    QPDFObjectHandle next = widths.getArrayItem(i + 1);
    if (next.isArray()) {
      std::uint32_t cid = static_cast<std::uint32_t>(first);
      for (QPDFObjectHandle width : next.aitems()) {
        widths_[cid++] = width.getNumericValue();
      }
      i += 2;
    } else if (i + 2 < count) {
      for (int cid = first; cid <= next.getIntValueAsInt(); ++cid) {
        widths_[static_cast<std::uint32_t>(cid)] =
            widths.getArrayItem(i + 2).getNumericValue();
      }
      i += 3;
    } else {
      break;
    }
  }
  for (const char* key : {"/FontFile", "/FontFile2", "/FontFile3"}) {
    QPDFObjectHandle file = descriptor_.isDictionary()
                                ? descriptor_.getKey(key)
                                : QPDFObjectHandle::newNull();
    if (file.isStream())
      program_ = std::make_unique<Program>(stream_bytes(file));
  }
}

void FontChecker::read_encoding() {
  QPDFObjectHandle encoding = font_.getKey("/Encoding");
  if (encoding.isName()) {
    const std::string name = encoding.getName().substr(1);
    is_identity_ = name == "Identity-H" || name == "Identity-V";
    report_.require(is_predefined_cmap(name), "7.21.3.3", 1,
                    "the CMap " + name + " is not embedded");
    is_readable_ = is_identity_;
    return;
  }
  is_identity_ = false;
  is_readable_ = encoding.isStream();
  if (!is_readable_) return;
  encoding_ = read_cmap(stream_bytes(encoding));
  QPDFObjectHandle mode = encoding.getDict().getKey("/WMode");
  const int stated = mode.isInteger() ? mode.getIntValueAsInt() : 0;
  report_.require(encoding_.writing_mode.value_or(0) == stated, "7.21.3.3", 2,
                  "two writing modes in one CMap");
  report_.require(encoding_.used.empty() || is_predefined_cmap(encoding_.used),
                  "7.21.3.3", 3, "a CMap refers to " + encoding_.used);
  check_system_info(encoding.getDict());
}

// A CMap whose system information is not stated cannot be compared with it.
void FontChecker::check_system_info(QPDFObjectHandle encoding) {
  QPDFObjectHandle of_map = encoding.getKey("/CIDSystemInfo");
  QPDFObjectHandle of_font = cid_font_.getKey("/CIDSystemInfo");
  if (of_map.isArray() && of_map.getArrayNItems() > 0) {
    of_map = of_map.getArrayItem(0);
  }
  const auto same = [&](const char* key) {
    return of_map.isDictionary() && of_font.isDictionary() &&
           of_map.getKey(key).unparse() == of_font.getKey(key).unparse();
  };
  report_.require(same("/Registry") && same("/Ordering") && same("/Supplement"),
                  "7.21.3.1", 1, "the CMap of " + name_ + " is for other CIDs");
}

std::size_t FontChecker::code_size() const {
  if (!is_composite_) return 1;
  return is_identity_ ? 2 : static_cast<std::size_t>(encoding_.code_bytes);
}

bool FontChecker::shows_private_use(const std::string& bytes) const {
  const std::size_t size = code_size();
  if (!to_unicode_ || size != 2) return false;
  for (std::size_t i = 0; i + size <= bytes.size(); i += size) {
    const std::uint32_t code = static_cast<unsigned char>(bytes[i]) << 8U |
                               static_cast<unsigned char>(bytes[i + 1]);
    const auto found = to_unicode_->texts.find(code);
    if (found == to_unicode_->texts.end()) continue;
    for (const char16_t unit : found->second) {
      // Planes 15 and 16 are private as well.
      if ((unit >= 0xE000 && unit < 0xF900) ||
          (unit >= 0xDB80 && unit < 0xDC00))
        return true;
    }
  }
  return false;
}

std::u16string FontChecker::text_at(const std::string& bytes,
                                    std::size_t at) const {
  std::uint32_t code = 0;
  for (std::size_t b = 0; b < code_size(); ++b) {
    code = code << 8U | static_cast<unsigned char>(bytes[at + b]);
  }
  if (!to_unicode_) return {};
  const auto found = to_unicode_->texts.find(code);
  return found == to_unicode_->texts.end() ? std::u16string() : found->second;
}

char16_t FontChecker::first_character(const std::string& bytes) const {
  if (bytes.size() < code_size()) return 0;
  const std::u16string text = text_at(bytes, 0);
  return text.empty() ? u'\0' : text.front();
}

char16_t FontChecker::last_character(const std::string& bytes) const {
  if (bytes.size() < code_size()) return 0;
  const std::u16string text = text_at(bytes, bytes.size() - code_size());
  return text.empty() ? u'\0' : text.back();
}

std::vector<std::uint32_t> FontChecker::codes_of(
    const std::string& bytes) const {
  const std::size_t size = code_size();
  std::vector<std::uint32_t> codes;
  for (std::size_t i = 0; i + size <= bytes.size(); i += size) {
    std::uint32_t code = 0;
    for (std::size_t b = 0; b < size; ++b) {
      code = code << 8U | static_cast<unsigned char>(bytes[i + b]);
    }
    codes.push_back(code);
  }
  return codes;
}

void FontChecker::show(const std::string& bytes, int mode) {
  if (mode != 3) is_rendered_ = true;
  for (const std::uint32_t code : codes_of(bytes)) ++shown_[{code, mode}];
}

std::string FontChecker::text_of(const std::string& bytes) const {
  std::string utf16 = "\xFE\xFF";  // as libqpdf knows it
  for (const std::uint32_t code : codes_of(bytes)) {
    std::u16string text = u"\uFFFD";
    if (to_unicode_ && to_unicode_->texts.count(code) > 0) {
      text = to_unicode_->texts.at(code);
    }
    for (const char16_t unit : text) {
      utf16 += static_cast<char>(unit >> 8U);
      utf16 += static_cast<char>(unit & 0xFFU);
    }
  }
  return QUtil::utf16_to_utf8(utf16);
}

std::optional<std::uint32_t> FontChecker::cid_of(std::uint32_t code) const {
  if (is_identity_) return code;
  const auto found = encoding_.cids.find(code);
  if (found == encoding_.cids.end()) return 0;
  return found->second;
}

std::optional<std::uint32_t> FontChecker::glyph_of(std::uint32_t cid) const {
  if (!cid_to_glyph_.empty()) {
    const std::size_t at = std::size_t{2} * cid;
    if (at + 1 >= cid_to_glyph_.size()) return std::nullopt;
    return static_cast<unsigned char>(cid_to_glyph_[at]) << 8U |
           static_cast<unsigned char>(cid_to_glyph_[at + 1]);
  }
  // FreeType takes CIDs for the glyphs of a bare CFF program keyed by them.
  return cid;
}

double FontChecker::stated_width(std::uint32_t cid) const {
  const auto found = widths_.find(cid);
  return found == widths_.end() ? default_width_ : found->second;
}

void FontChecker::check_glyph(std::uint32_t code, int mode) {
  const std::optional<std::uint32_t> cid = cid_of(code);
  if (!cid || !program_) return;
  const std::optional<std::uint32_t> glyph = glyph_of(*cid);
  const std::string place =
      " (" + name_ + ", code " + std::to_string(code) + ")";
  report_.require(!glyph || *glyph != 0, "7.21.8", 1,
                  "the glyph .notdef is shown" + place);
  if (mode == 3) return;
  const std::optional<double> width =
      glyph ? program_->width(*glyph) : std::nullopt;
  report_.require(width.has_value(), "7.21.4.1", 2,
                  "a glyph is not in the font" + place);
  report_.require(!width || std::abs(*width - stated_width(*cid)) <= 1,
                  "7.21.5", 1, "a width differs from the font's" + place);
}

void FontChecker::check_text(std::uint32_t code) {
  const std::string place =
      " (" + name_ + ", code " + std::to_string(code) + ")";
  if (!is_composite_ && !font_.getKey("/Encoding").isNull()) return;
  if (!to_unicode_ || to_unicode_->texts.count(code) == 0) {
    report_.fault("7.21.7", 1, "a code has no text" + place);
    return;
  }
  for (const char16_t unit : to_unicode_->texts.at(code)) {
    report_.require(unit != 0 && unit != 0xFEFF && unit != 0xFFFE, "7.21.7", 2,
                    "a code stands for no character" + place);
  }
}

// Bit 7 of the first byte is CID 0, and so on.
void FontChecker::check_cid_set() {
  if (!descriptor_.isDictionary() || !is_subset_name(name_)) return;
  QPDFObjectHandle stream = descriptor_.getKey("/CIDSet");
  if (!stream.isStream() || !program_ || !program_->face) return;
  const std::string bits = stream_bytes(stream);
  const std::size_t count =
      cid_to_glyph_.empty()
          ? static_cast<std::size_t>(program_->face->num_glyphs)
          : cid_to_glyph_.size() / 2;
  for (std::size_t cid = 0; cid < count; ++cid) {
    const bool listed =
        cid / 8 < bits.size() &&
        (static_cast<unsigned char>(bits[cid / 8]) >> (7 - cid % 8) & 1) != 0;
    report_.require(listed, "7.21.4.2", 2,
                    "a CID of " + name_ + " is not in its CIDSet");
  }
}

void FontChecker::finish() {
  const bool is_type3 = font_.getKey("/Subtype").isNameAndEquals("/Type3");
  bool has_file = false;
  for (const char* key : {"/FontFile", "/FontFile2", "/FontFile3"}) {
    if (descriptor_.isDictionary() && descriptor_.hasKey(key)) has_file = true;
  }
  report_.require(is_type3 || has_file || !is_rendered_, "7.21.4.1", 1,
                  "the font " + name_ + " is not embedded");
  if (is_composite_) {
    const bool needs_map =
        has_file && cid_font_.isDictionary() &&
        cid_font_.getKey("/Subtype").isNameAndEquals("/CIDFontType2");
    report_.require(!needs_map || cid_font_.hasKey("/CIDToGIDMap"), "7.21.3.2",
                    1, name_ + " has no CIDToGIDMap");
    check_cid_set();
  }
  for (const auto& [shown, count] : shown_) {
    if (is_composite_ && is_readable_) check_glyph(shown.first, shown.second);
    check_text(shown.first);
  }
}

}  // namespace pdfua
