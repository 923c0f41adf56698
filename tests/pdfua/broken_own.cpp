#include "pdfua/broken_files.h"

#include <qpdf/QPDF.hh>

namespace pdfua {

// Each is an edit of a file that keeps all of our own rules.
std::vector<Break> own_breaks() {
  return {
      breaking("own", 31,
               [](QPDF& pdf) {
                 pdf.getRoot().replaceKey("/Lang",
                                          QPDFObjectHandle::newString("en"));
               }),
      breaking("own", 32,
               [](QPDF& pdf) {
                 pdf.getTrailer().getKey("/Info").replaceKey(
                     "/Title", QPDFObjectHandle::newString("  "));
               }),
      breaking("own", 33,
               [](QPDF& pdf) {
                 // A second entry after the first, of the same title.
                 QPDFObjectHandle first =
                     pdf.getRoot().getKey("/Outlines").getKey("/First");
                 QPDFObjectHandle second =
                     pdf.makeIndirectObject(first.shallowCopy());
                 second.replaceKey("/Prev", first);
                 second.removeKey("/Next");
                 first.replaceKey("/Next", second);
                 pdf.getRoot().getKey("/Outlines").replaceKey("/Last", second);
               }),
  };
}

std::string with_region(const std::string& good) {
  return edited(good, [](QPDF& pdf) {
    pdf.getRoot().replaceKey("/Lang", QPDFObjectHandle::newString("en-US"));
  });
}

}  // namespace pdfua
