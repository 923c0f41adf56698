#pragma once

#include <string_view>

namespace sheaf {

/// What a file begins and ends with when Sheaf has written it: put there by
/// `FileWriter` and `info_entries`, known again by `read_own_pdf`.

/// The second line tells programs that look for text that this is none
/// (ISO 32000-1, 7.5.2).
inline constexpr std::string_view kPdfHeader = "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n";
/// The entries of the first object, which stands in the file unpacked.
inline constexpr std::string_view kInfoBegin = "<</Producer(Sheaf)/Title";
/// The last object, the cross-reference stream: its size stands between these.
inline constexpr std::string_view kLastObject = "<</Type/XRef/Size ";
inline constexpr std::string_view kLastEntries =
    "/W[1 4 2]/Filter/FlateDecode"
    "/DecodeParms<</Predictor 12/Columns 7>>/Root ";

}  // namespace sheaf
