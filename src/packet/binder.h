#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "layout/page.h"

namespace sheaf {

/// Puts the pages of one sheet after another into a document. A page that will
/// be cut begins a leaf, and the page behind it stays blank.
class Binder {
 public:
  /// `on_paper`: pages have backs.
  Binder(Document& document, bool on_paper)
      : document_(document), on_paper_(on_paper) {}

  /// `name` labels the pages, `title` is the bookmark.
  void add_sheet(std::string_view name, std::string_view title,
                 std::vector<Page> pages);
  /// What is cut out is an outer leaf, which comes off without unstapling: the
  /// last one; or the first, where the last would leave the back of a page
  /// blank that is not cut. `first_element` is the first of its elements; all
  /// after it are its own too.
  void add_cut_leaf(std::string_view name, std::string_view title,
                    std::vector<Page> pages, ElementId first_element);

 private:
  std::string bookmark(std::string_view title);
  bool last_needs_blank_back() const;
  void start_leaf(Size size);

  Document& document_;
  bool on_paper_;
  std::map<std::string, int, std::less<>> sheets_;
};

}  // namespace sheaf
