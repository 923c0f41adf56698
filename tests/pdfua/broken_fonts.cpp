#include "pdfua/broken_files.h"

#include <qpdf/QPDF.hh>

namespace pdfua {

namespace {

QPDFObjectHandle font(QPDF& pdf) {
  return first_page(pdf).getKey("/Resources").getKey("/Font").getKey("/F0");
}

QPDFObjectHandle cid_font(QPDF& pdf) {
  return font(pdf).getKey("/DescendantFonts").getArrayItem(0);
}

// Another glyph for code 1.
void map_first_code(QPDF& pdf, unsigned glyph) {
  edit_stream(cid_font(pdf).getKey("/CIDToGIDMap"), [&](std::string map) {
    map.at(2) = static_cast<char>(glyph >> 8U);
    map.at(3) = static_cast<char>(glyph & 0xFFU);
    return map;
  });
}

// An encoding that says the same as Identity-H, but for what is passed.
void embed_encoding(QPDF& pdf, const std::string& ordering,
                    const std::string& mode, const std::string& more) {
  QPDFObjectHandle stream = QPDFObjectHandle::newStream(
      &pdf, "begincmap " + more +
                " /WMode 0 def 1 begincodespacerange <0000><FFFF> "
                "endcodespacerange 1 begincidrange <0000><FFFF> 0 endcidrange "
                "endcmap");
  stream.getDict().replaceKey("/WMode", QPDFObjectHandle::parse(mode));
  stream.getDict().replaceKey(
      "/CIDSystemInfo", QPDFObjectHandle::parse("<</Registry(Adobe)/Ordering(" +
                                                ordering + ")/Supplement 0>>"));
  font(pdf).replaceKey("/Encoding", pdf.makeIndirectObject(stream));
}

}  // namespace

std::vector<Break> font_breaks() {
  return {
      breaking("7.21.3.1", 1,
               [](QPDF& pdf) { embed_encoding(pdf, "Japan1", "0", ""); }),
      breaking("7.21.3.2", 1,
               [](QPDF& pdf) {
                 // Only codes that the missing map did not lead elsewhere may
                 // stay: none is shown.
                 cid_font(pdf).removeKey("/CIDToGIDMap");
                 edit_content(pdf, [](const std::string&) {
                   return std::string(
                       "/Artifact<</Type/Layout>>BDC BT/F0 9 Tf()Tj ET EMC\n");
                 });
               }),
      breaking("7.21.3.3", 1,
               [](QPDF& pdf) {
                 font(pdf).replaceKey("/Encoding",
                                      QPDFObjectHandle::newName("/Own-H"));
               }),
      breaking("7.21.3.3", 2,
               [](QPDF& pdf) { embed_encoding(pdf, "Identity", "1", ""); }),
      breaking("7.21.3.3", 3,
               [](QPDF& pdf) {
                 embed_encoding(pdf, "Identity", "0", "/Own-H usecmap");
               }),
      breaking(
          "7.21.4.1", 1,
          [](QPDF& pdf) {
            cid_font(pdf).getKey("/FontDescriptor").removeKey("/FontFile2");
          }),
      breaking("7.21.4.1", 2, [](QPDF& pdf) { map_first_code(pdf, 0xFF00); }),
      breaking("7.21.4.2", 2,
               [](QPDF& pdf) {
                 cid_font(pdf)
                     .getKey("/FontDescriptor")
                     .replaceKey("/CIDSet", pdf.makeIndirectObject(
                                                QPDFObjectHandle::newStream(
                                                    &pdf, "\xF0")));
               }),
      breaking("7.21.5", 1,
               [](QPDF& pdf) {
                 QPDFObjectHandle widths =
                     cid_font(pdf).getKey("/W").getArrayItem(1);
                 widths.setArrayItem(
                     0, QPDFObjectHandle::newInteger(
                            widths.getArrayItem(0).getIntValue() + 2));
               }),
      // All of them: a dictionary for wide spacing over a program without it.
      breaking("7.21.5", 1,
               [](QPDF& pdf) {
                 QPDFObjectHandle all = cid_font(pdf).getKey("/W");
                 for (int i = 1; i < all.getArrayNItems(); i += 2) {
                   QPDFObjectHandle widths = all.getArrayItem(i);
                   for (int j = 0; j < widths.getArrayNItems(); ++j) {
                     widths.setArrayItem(
                         j, QPDFObjectHandle::newInteger(
                                widths.getArrayItem(j).getIntValue() + 90));
                   }
                 }
               }),
      breaking("7.21.7", 1,
               [](QPDF& pdf) { font(pdf).removeKey("/ToUnicode"); }),
      breaking("7.21.7", 2,
               [](QPDF& pdf) {
                 edit_stream(font(pdf).getKey("/ToUnicode"),
                             [](std::string text) {
                               const std::size_t at = text.find("<0001><");
                               return text.replace(at, 13, "<0001><FEFF>\n");
                             });
               }),
      breaking("7.21.8", 1,
               [](QPDF& pdf) {
                 // Shown invisibly, so that no width is compared.
                 map_first_code(pdf, 0);
                 edit_content(pdf, [](const std::string& content) {
                   return "3 Tr\n" + content;
                 });
               }),
  };
}

}  // namespace pdfua
