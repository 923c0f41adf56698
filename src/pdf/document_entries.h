#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "pdf/objects.h"
#include "pdf/pdf_writer.h"

namespace sheaf {

/// The page labels of a document (ISO 32000-1, 12.4.2), made page by page.
class PageLabels {
 public:
  /// The label of the next page; empty: its number.
  void add(std::string_view label);
  /// The tree of labels as an entry of the catalog: runs of pages that count on
  /// are one piece of it. Empty where no page has a label.
  std::string entry() const;

 private:
  std::string pieces_;
  // The label before: what stands in front of its number, and the number.
  std::string prefix_;
  std::int64_t number_ = 0;
  bool has_number_ = false;
  std::int64_t pages_ = 0;
  bool has_labels_ = false;
};

/// What the catalog says of a whole document besides its pages and tags
/// (ISO 32000-1, 7.7.2): language, title shown, printing, labels of pages.
std::string catalog_entries(const FileHead& head, const PageLabels& labels,
                            ObjectId metadata, ObjectId structure_root,
                            ObjectId output_intent);

/// The title that stands in the window and in the metadata; never empty, as
/// the standard asks for one.
std::string shown_title(const FileHead& head);

/// The dictionary with title and maker (ISO 32000-1, 14.3.3). It is also the
/// mark by which `read_own_pdf` knows the file again.
std::string info_entries(const FileHead& head);

/// What the colours of the file mean, as PDF/A wants it said (ISO 32000-1,
/// 14.11.5; ISO 19005-2, 6.2.3). `profile` is a stream.
std::string output_intent_entries(ObjectId profile);

/// The metadata stream's text (XMP), with the mark of PDF/UA (ISO 14289-1,
/// clause 5) and, if the file is to be kept, of PDF/A-2a (ISO 19005-2, 6.6.4)
/// with the description of the former that it asks for (6.6.2.3).
std::string metadata(const FileHead& head, bool archival);

}  // namespace sheaf
