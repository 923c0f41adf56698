#pragma once

#include <optional>
#include <string_view>

#include "text/font.h"

namespace sheaf {

/// The form of the letter a: as handwritten, a bowl with a stem, or as in most
/// books, with a bow above the bowl. With one storey, g has one too.
enum class LetterShapes { single_storey, two_storey };

/// The features with which the face draws that form, in HarfBuzz's notation:
/// none if it does so anyway, else `ss01` if that is what the face means by it;
/// nothing where it has no such form. Told from the outlines, since `ss01` has
/// another meaning in every typeface. `face` has the letters a and g.
std::optional<std::string_view> features_for(const Font& face,
                                             LetterShapes shapes);

}  // namespace sheaf
