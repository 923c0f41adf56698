#pragma once

#include <memory>
#include <string>
#include <vector>

namespace sheaf::testing_support {

/// A PDF file as libqpdf reads it. Kept apart from libqpdf's own headers, which
/// clang 16 takes in C++17 only.
class PdfFile {
 public:
  explicit PdfFile(const std::string& bytes);
  ~PdfFile();

  std::size_t page_count() const;

  /// What stands at the end of a path of keys from the catalog, or from a page
  /// ("/ViewerPreferences/Duplex"), in PDF's own notation; "null" if nothing.
  std::string catalog(const std::string& path) const;
  std::string page(std::size_t index, const std::string& path) const;
  /// The stream that a path from a page leads to: unpacked, and as it is.
  std::string page_stream(std::size_t index, const std::string& path) const;
  std::string raw_page_stream(std::size_t index, const std::string& path) const;

  struct Outline {
    std::string title;
    int page;  ///< -1: none of this file
  };
  std::vector<Outline> outline() const;
  /// The label of a page: its prefix and number.
  std::string label(int page) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace sheaf::testing_support
