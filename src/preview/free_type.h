#pragma once

#include <memory>

#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_OUTLINE_H
#include FT_STROKER_H

namespace sheaf {

/// FreeType's objects with owners, and its errors as exceptions.

struct FtDelete {
  void operator()(FT_Library library) const { FT_Done_FreeType(library); }
  void operator()(FT_Face face) const { FT_Done_Face(face); }
  void operator()(FT_Stroker stroker) const { FT_Stroker_Done(stroker); }
};
template <typename Handle>
using FtOwner = std::unique_ptr<std::remove_pointer_t<Handle>, FtDelete>;

/// Throws std::bad_alloc where memory is lacking, and MachineError for every
/// other error: "a page cannot be drawn: WHAT".
void check_free_type(FT_Error error, const char* what);

FtOwner<FT_Library> open_free_type();

}  // namespace sheaf
