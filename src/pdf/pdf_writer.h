#pragma once

#include <cstddef>
#include <memory>
#include <string>

#include "layout/page.h"

namespace sheaf {

class PdfFile;

/// What is said of a file as a whole.
struct FileHead {
  std::string title;
  std::string language = "en-US";
  /// Printed on both sides, turned on the long edge.
  bool duplex = true;
};

/// The document as a tagged PDF 1.7 file in the shape of PDF/UA-1
/// (ISO 14289-1) and PDF/A-2a (ISO 19005-2; not said of a file with a picture
/// in printing inks, CMYK, as its profile is for screens): structure tree,
/// alternative text, language, title, embedded subset fonts that give back
/// their text exactly. The same document gives the same bytes on every machine.
/// A span's alternative is the text that it stands for: what is read and copied
/// instead of letters set wide apart; any other element's is a description.
/// Throws MachineError where a library fails; never returns part of a file.
std::string write_pdf(const Document& document);

/// The same for many documents in one file, each a section of it. What is
/// added is written at once, and none of it is needed any more but the fonts,
/// shaped texts and pictures that its pages name: those must live until
/// `finish`. So a job for the printer takes little more memory than its file.
class PdfWriter {
 public:
  explicit PdfWriter(FileHead head);
  ~PdfWriter();
  PdfWriter(const PdfWriter&) = delete;
  PdfWriter& operator=(const PdfWriter&) = delete;

  /// Adds all pages of a document with its elements and its outline; its own
  /// title and language are not heeded. Throws as `write_pdf`.
  void add(const Document& section);
  std::size_t page_count() const;
  /// Ends the file and gives it up; to be called once.
  std::string finish();

 private:
  std::unique_ptr<PdfFile> file_;
};

}  // namespace sheaf
