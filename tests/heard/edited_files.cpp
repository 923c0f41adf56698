#include "heard/edited_files.h"

#include "pdfua/broken_files.h"

#include <qpdf/QPDF.hh>

namespace heard {

std::string with_replacement(const std::string& file, const std::string& type,
                             const std::string& text) {
  return pdfua::edited(file, [&](QPDF& pdf) {
    pdfua::find_element(pdf, type).replaceKey(
        "/ActualText", QPDFObjectHandle::newUnicodeString(text));
  });
}

std::string with_content_in_form(const std::string& file) {
  return pdfua::edited(file, [](QPDF& pdf) {
    QPDFObjectHandle page = pdfua::first_page(pdf);
    QPDFObjectHandle form = page.getKey("/Contents").copyStream();
    QPDFObjectHandle entries = form.getDict();
    entries.replaceKey("/Type", QPDFObjectHandle::newName("/XObject"));
    entries.replaceKey("/Subtype", QPDFObjectHandle::newName("/Form"));
    entries.replaceKey("/BBox", page.getKey("/MediaBox"));
    entries.replaceKey("/Resources", page.getKey("/Resources"));
    page.replaceKey("/Resources", QPDFObjectHandle::parse("<</XObject<<>>>>"));
    page.getKey("/Resources").getKey("/XObject").replaceKey("/All", form);
    page.replaceKey("/Contents",
                    QPDFObjectHandle::newStream(&pdf, "q /All Do Q\n"));
  });
}

}  // namespace heard
