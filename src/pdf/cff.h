#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sheaf {

/// The character identifier (CID) of each glyph in a CFF font program, which
/// is how a PDF names glyphs there: the glyph's number itself, or what the
/// font's own table says if it is keyed by CIDs (Adobe Technical Note 5176,
/// "charsets"). Nothing where the program is damaged.
std::optional<std::vector<std::uint16_t>> cff_glyph_cids(
    std::string_view program, std::size_t glyph_count);

/// The program with `added` units put to the width of every glyph (Note 5176,
/// 15: the widths in its glyphs count from two numbers of each Private DICT).
/// Nothing where it is damaged or not as HarfBuzz writes it.
std::optional<std::string> cff_with_widths(std::string_view program,
                                           std::int32_t added);

}  // namespace sheaf
