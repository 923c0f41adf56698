#include "pdf/font_tables.h"

#include <algorithm>

namespace sheaf {

namespace {

std::size_t read_u32(std::string_view bytes, std::size_t at) {
  return std::size_t{read_u16(bytes, at)} << 16U | read_u16(bytes, at + 2);
}

}  // namespace

std::uint32_t read_u16(std::string_view bytes, std::size_t at) {
  if (bytes.size() < 2 || at > bytes.size() - 2) return 0;
  return static_cast<unsigned char>(bytes[at]) << 8U |
         static_cast<unsigned char>(bytes[at + 1]);
}

std::int32_t read_i16(std::string_view bytes, std::size_t at) {
  return static_cast<std::int16_t>(read_u16(bytes, at));
}

FontTables::FontTables(const Font& font)
    : FontTables(
          std::string_view(reinterpret_cast<const char*>(font.bytes().data()),
                           font.bytes().size())) {}

FontTables::FontTables(std::string_view file) : file_(file) {
  // A collection begins with a list of fonts, of which Sheaf takes the first.
  if (file_.substr(0, 4) == "ttcf") directory_ = read_u32(file_, 12);
  metrics_ = table("hmtx");
  metric_count_ = read_u16(table("hhea"), 34);
  locations_ = table("loca");
  has_long_locations_ = read_u16(table("head"), 50) != 0;
}

std::string_view FontTables::table(std::string_view tag) const {
  const std::uint32_t count = read_u16(file_, directory_ + 4);
  for (std::uint32_t i = 0; i < count; ++i) {
    const std::size_t record = directory_ + 12 + 16 * std::size_t{i};
    if (record + 16 > file_.size()) break;
    if (file_.substr(record, 4) != tag) continue;
    const std::size_t begin = read_u32(file_, record + 8);
    const std::size_t length = read_u32(file_, record + 12);
    if (begin >= file_.size()) return {};
    return file_.substr(begin, std::min(length, file_.size() - begin));
  }
  return {};
}

std::int32_t FontTables::advance(std::uint32_t glyph) const {
  if (metric_count_ == 0) return 0;
  // The last advance holds for all glyphs after it.
  const std::uint32_t row = std::min(glyph, metric_count_ - 1);
  return static_cast<std::int32_t>(read_u16(metrics_, std::size_t{row} * 4));
}

// Table "loca": where each glyph begins, and so where the one before it ends.
bool FontTables::has_outline(std::uint32_t glyph) const {
  const std::size_t at = std::size_t{glyph} * (has_long_locations_ ? 4 : 2);
  return has_long_locations_
             ? read_u32(locations_, at) < read_u32(locations_, at + 4)
             : read_u16(locations_, at) < read_u16(locations_, at + 2);
}

}  // namespace sheaf
