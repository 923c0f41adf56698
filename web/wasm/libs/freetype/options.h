/* FreeType's own choices, less web fonts, which are packed with zlib. */
#include <freetype/config/ftoption.h>
#undef FT_CONFIG_OPTION_USE_ZLIB
