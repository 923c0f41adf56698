#include "pdfua/broken_files.h"

#include "support/pattern.h"

#include <qpdf/QPDF.hh>

namespace pdfua {

namespace {

// A text stated in the content, in no known language.
Break speechless_span(int test, const std::string& key) {
  return breaking("7.2", test, [key](QPDF& pdf) {
    move_language_down(pdf, QPDFObjectHandle::newNull());
    state_title_language(pdf);
    pdf.getRoot().removeKey("/Outlines");
    edit_content(pdf, [&](const std::string& content) {
      return content + "/Artifact<</Type/Layout>>BDC/Span<<" + key +
             "(words)>>BDC 0 0 m 9 9 l S EMC EMC\n";
    });
  });
}

QPDFObjectHandle form(QPDF& pdf) {
  return first_page(pdf).getKey("/Resources").getKey("/XObject").getKey("/X0");
}

// An image of that many dots on an inch of the first page.
void paint_on_an_inch(QPDF& pdf, int dots) {
  QPDFObjectHandle image = QPDFObjectHandle::newStream(
      &pdf, std::string(static_cast<std::size_t>(dots), '\x80'));
  image.replaceDict(QPDFObjectHandle::parse(
      "<</Type/XObject/Subtype/Image/ColorSpace/DeviceGray/BitsPerComponent 8"
      "/Height 1/Width " +
      std::to_string(dots) + ">>"));
  first_page(pdf)
      .getKey("/Resources")
      .getKey("/XObject")
      .replaceKey("/Fine", image);
  edit_content(pdf, [](const std::string& content) {
    return content +
           "/Artifact<</Type/Layout>>BDC q 72 0 0 72 0 0 cm/Fine Do Q EMC\n";
  });
}

}  // namespace

std::vector<Break> content_breaks() {
  return {
      breaking("own", 21, [](QPDF& pdf) { paint_on_an_inch(pdf, 312); }),
      breaking("7.1", 1,
               [](QPDF& pdf) {
                 edit_content(pdf, [](const std::string& content) {
                   return replaced(
                       content, "<</MCID 0>>BDC",
                       "<</MCID 0>>BDC /Artifact<</Type/Layout>>BDC EMC");
                 });
               }),
      breaking("7.1", 2,
               [](QPDF& pdf) {
                 edit_content(pdf, [](const std::string& content) {
                   return "/Artifact<</Type/Layout>>BDC\n" + content + "EMC\n";
                 });
               }),
      breaking("7.1", 3,
               [](QPDF& pdf) {
                 edit_content(pdf, [](const std::string& content) {
                   return content + "0 0 m 9 9 l S\n";
                 });
               }),
      breaking("7.1", 11,
               [](QPDF& pdf) {
                 pdf.getRoot().removeKey("/StructTreeRoot");
                 edit_content(pdf, [](const std::string& content) {
                   return sheaf::testing_support::Pattern(
                              "/[A-Za-z0-9]+<</MCID [0-9]+>>BDC")
                       .replace(content, "/Artifact<</Type/Layout>>BDC");
                 });
               }),
      speechless_span(30, "/ActualText"),
      speechless_span(31, "/Alt"),
      speechless_span(32, "/E"),
      breaking("7.2", 34,
               [](QPDF& pdf) {
                 move_language_down(pdf, find_element(pdf, "H1"));
                 state_title_language(pdf);
                 pdf.getRoot().removeKey("/Outlines");
               }),
      breaking("own", 41,
               [](QPDF& pdf) {
                 edit_content(pdf, [](const std::string& content) {
                   return content +
                          "/Artifact<</Type/Layout>>BDC BT/F0 9 "
                          "Tf[<0001>-101<0002>]TJ ET "
                          "EMC\n";
                 });
               }),
      breaking("7.20", 1,
               [](QPDF& pdf) {
                 form(pdf).getDict().replaceKey(
                     "/Ref", QPDFObjectHandle::newDictionary());
               }),
      breaking("7.20", 2,
               [](QPDF& pdf) {
                 edit_stream(form(pdf), [](const std::string& content) {
                   return "/P<</MCID 0>>BDC\n" + content + "EMC\n";
                 });
               }),
  };
}

}  // namespace pdfua
