#include "preview/free_type.h"

#include <new>
#include <string>

#include "base/error.h"

namespace sheaf {

void check_free_type(FT_Error error, const char* what) {
  if (error == FT_Err_Ok) return;
  if (error == FT_Err_Out_Of_Memory) throw std::bad_alloc();
  throw MachineError(std::string("a page cannot be drawn: ") + what);
}

FtOwner<FT_Library> open_free_type() {
  FT_Library library = nullptr;
  check_free_type(FT_Init_FreeType(&library), "FreeType does not start");
  return FtOwner<FT_Library>(library);
}

}  // namespace sheaf
