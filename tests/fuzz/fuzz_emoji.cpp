// Text as the emoji that a lesson names for a word.

#include <algorithm>

#include "files/disk_files.h"
#include "fuzz_images.h"
#include "pictures/picture_book.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data,
                                      std::size_t size) {
  using sheaf::fuzz::must_hold;
  static sheaf::FontLibrary fonts(sheaf::disk(), SHEAF_FONTS);
  sheaf::PictureBook book(fonts);
  const std::string text(reinterpret_cast<const char*>(data), size);
  std::string why;
  const sheaf::Picture* picture = book.find_emoji(text, "word", why);
  must_hold((picture != nullptr) == why.empty());
  if (!picture) return 0;
  const auto& drawing = std::get<sheaf::LineDrawing>(picture->image);
  must_hold(!drawing.path.empty());
  must_hold(std::all_of(drawing.path.begin(), drawing.path.end(),
                        [&](const sheaf::PathStep& step) {
                          return step.to.x <= drawing.box.width * 2 &&
                                 step.to.y <= drawing.box.height * 2;
                        }));
  return 0;
}
