#pragma once

#include <string>

namespace sheaf {

/// A colour profile that says what the grey and the red, green and blue of a
/// file mean: the primaries of sRGB (IEC 61966-2-1) and a gamma of 2.2. Made
/// after the profile specification ICC.1:2001-04 (version 2.4) for a display
/// device: a header, a matrix and one curve. 500 bytes or so.
std::string colour_profile();

}  // namespace sheaf
