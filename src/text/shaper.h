#pragma once

#include <memory>
#include <string_view>

#include "text/font.h"

namespace sheaf {

/// Turns text into glyphs with HarfBuzz and keeps every result: a week's
/// packet shapes the same words many times. Ligatures that would join
/// graphemes (fl, fi) are off. One thread. References stay good as long as the
/// shaper lives.
class Shaper {
 public:
  Shaper();
  ~Shaper();
  Shaper(const Shaper&) = delete;
  Shaper& operator=(const Shaper&) = delete;

  /// `features` in HarfBuzz's notation, parted by commas ("ss01"), or empty.
  const ShapedText& shape(const Font& font, std::string_view text,
                          std::string_view features = {});

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace sheaf
