#pragma once

#include <string_view>

#include "layout/block.h"
#include "sheets/sheet.h"

namespace sheaf {

/// Looks for what does not fit the paper, so that nothing is cut off or
/// printed over something else without a word: large letters, wide margins,
/// a long word. Each fault is reported at the word in the lesson if it is one,
/// else where the layout asks for the sheet.
class FitCheck {
 public:
  FitCheck(const PlannedSheet& sheet, const Lesson& lesson,
           Diagnostics& diagnostics)
      : sheet_(sheet), lesson_(lesson), diagnostics_(diagnostics) {}

  /// Whether the margins and the sheet's head leave room for a body at all.
  bool check_body(const Rect& body);
  /// Texts that the sheet found wider than their place, and blocks that are
  /// taller than a page. To be called before the blocks are taken.
  void check_blocks(Composer& composer);
  /// Marks where printers do not print.
  void check_pages(const std::vector<Page>& pages);

 private:
  void report(Span span, std::string text, std::string_view help);
  void report_wide(const std::string& text);
  bool report_long_list(const Block& block);

  const PlannedSheet& sheet_;
  const Lesson& lesson_;
  Diagnostics& diagnostics_;
  bool list_is_long_ = false;  ///< reported, so that nothing else is to blame
};

}  // namespace sheaf
