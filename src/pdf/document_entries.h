#pragma once

#include <string>
#include <vector>

#include "layout/page.h"
#include "pdf/objects.h"

namespace sheaf {

/// What the catalog says of a whole document besides its pages and tags
/// (ISO 32000-1, 7.7.2): language, title shown, printing, labels of pages.
std::string catalog_entries(const Document& document, ObjectId metadata,
                            ObjectId structure_root);

/// The title that stands in the window and in the metadata; never empty, as
/// the standard asks for one.
std::string document_title(const Document& document);

/// The metadata stream's text (XMP), with the mark of PDF/UA (ISO 14289-1,
/// clause 5).
std::string metadata(const Document& document);

/// The tree of page labels: runs of pages that count on are one entry. Empty
/// where no page has a label.
std::string page_labels(const std::vector<Page>& pages);

}  // namespace sheaf
