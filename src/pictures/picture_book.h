#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "pictures/picture.h"
#include "pictures/picture_words.h"
#include "text/font_library.h"

namespace sheaf {

/// The pictures that come with Sheaf: of the table of words, and any other
/// picture of the picture font that a lesson names. All have one scale, so
/// that their lines are of one weight when they are printed at one size.
/// Outlines are made when first asked for; the book owns them, and pages hold
/// plain pointers. Any thread may ask.
class PictureBook {
 public:
  /// `fonts` must outlive the book. Its picture font is opened when the first
  /// picture of it is asked for; that throws MachineError where it is missing.
  explicit PictureBook(FontLibrary& fonts);
  ~PictureBook();

  /// The picture that stands for a word; null where the table has none.
  const Picture* find(std::string_view word);

  /// The picture of an emoji that a lesson names for `word`, which becomes the
  /// picture's name. Null where it cannot be used, with the reason in `why`
  /// ("it shows letters").
  const Picture* find_emoji(std::string_view emoji, std::string_view word,
                            std::string& why);

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace sheaf
