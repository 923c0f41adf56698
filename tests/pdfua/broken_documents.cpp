#include "pdfua/broken_files.h"

#include <qpdf/QPDF.hh>

namespace pdfua {

namespace {

void edit_metadata(QPDF& pdf, const std::string& what,
                   const std::string& with) {
  edit_stream(pdf.getRoot().getKey("/Metadata"), [&](const std::string& xmp) {
    return replaced(xmp, what, with);
  });
}

Break metadata_break(int test, const std::string& with) {
  return breaking("5", test, [with](QPDF& pdf) {
    edit_metadata(pdf, "<pdfuaid:part>1</pdfuaid:part>", with);
  });
}

// A property that no schema of the file describes, which PDF/A forbids.
Break with_undescribed(Break broken) {
  broken.rules.emplace_back("A-6.6.2.3", 7);
  return broken;
}

constexpr char kOtherPrefix[] =
    " xmlns:ua=\"http://www.aiim.org/pdfua/ns/id/\">";

}  // namespace

std::vector<Break> document_breaks() {
  return {
      metadata_break(1, ""),
      metadata_break(2, "<pdfuaid:part>2</pdfuaid:part>"),
      metadata_break(3, std::string("<ua:part") + kOtherPrefix + "1</ua:part>"),
      with_undescribed(metadata_break(
          4, std::string("<pdfuaid:part>1</pdfuaid:part><ua:amd") +
                 kOtherPrefix + "2005</ua:amd>")),
      with_undescribed(metadata_break(
          5, std::string("<pdfuaid:part>1</pdfuaid:part><ua:corr") +
                 kOtherPrefix + "2005</ua:corr>")),
      {{{"6.1", 1}},
       [](const std::string& good) {
         return replaced(good, "%PDF-1.7", "%PDF-1.9");
       }},
      breaking("6.2", 1,
               [](QPDF& pdf) {
                 pdf.getRoot()
                     .getKey("/MarkInfo")
                     .replaceKey("/Marked", QPDFObjectHandle::newBool(false));
               }),
      breaking("7.1", 4,
               [](QPDF& pdf) {
                 pdf.getRoot()
                     .getKey("/MarkInfo")
                     .replaceKey("/Suspects", QPDFObjectHandle::newBool(true));
               }),
      breaking("7.1", 8,
               [](QPDF& pdf) { pdf.getRoot().removeKey("/Metadata"); }),
      breaking("7.1", 9,
               [](QPDF& pdf) {
                 edit_metadata(pdf, "<dc:title>", "<dc:subject>");
                 edit_metadata(pdf, "</dc:title>", "</dc:subject>");
               }),
      breaking("7.1", 10,
               [](QPDF& pdf) {
                 pdf.getRoot()
                     .getKey("/ViewerPreferences")
                     .removeKey("/DisplayDocTitle");
               }),
      breaking("7.2", 2,
               [](QPDF& pdf) {
                 move_language_down(pdf, QPDFObjectHandle::newNull());
                 state_title_language(pdf);
               }),
      breaking("7.2", 33,
               [](QPDF& pdf) {
                 move_language_down(pdf, QPDFObjectHandle::newNull());
                 pdf.getRoot().removeKey("/Outlines");
               }),
      breaking("7.2", 29,
               [](QPDF& pdf) {
                 pdf.getRoot().replaceKey(
                     "/Lang", QPDFObjectHandle::newString("American English"));
               }),
  };
}

}  // namespace pdfua
