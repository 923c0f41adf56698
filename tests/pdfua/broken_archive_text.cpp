#include "pdfua/broken_files.h"

#include <qpdf/QPDF.hh>

namespace pdfua {

namespace {

Break metadata_break(const std::string& clause, int test,
                     const std::string& what, const std::string& with) {
  return breaking(clause, test, [=](QPDF& pdf) {
    edit_stream(pdf.getRoot().getKey("/Metadata"), [&](const std::string& xmp) {
      return replaced(xmp, what, with);
    });
  });
}

Break artifact_break(int test, const std::string& properties) {
  return breaking("own", test, [properties](QPDF& pdf) {
    edit_content(pdf, [&](const std::string& content) {
      return content + "/Artifact" + properties + " 0 0 m 9 9 l S EMC\n";
    });
  });
}

}  // namespace

std::vector<Break> archive_text_breaks() {
  return {
      metadata_break("A-6.6.2.1", 2, "<?xpacket ", "<?xpacket bytes=\"9\" "),
      metadata_break("A-6.6.2.1", 3, "<?xpacket ",
                     "<?xpacket encoding=\"UTF-8\" "),
      metadata_break("A-6.6.2.3", 2, "<pdfaExtension:schemas><rdf:Bag>",
                     "<pdfaExtension:schemas><rdf:Seq>"),
      metadata_break("A-6.6.2.3", 3,
                     "<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>", ""),
      metadata_break("A-6.6.2.3", 4, ">internal<", ">ours<"),
      metadata_break("A-6.6.2.3", 7, "<pdf:Producer>",
                     "<pdfuaid:rev>2014</pdfuaid:rev><pdf:Producer>"),
      metadata_break("A-6.6.4", 1, "<pdfaid:part>2</pdfaid:part>", ""),
      metadata_break("A-6.6.4", 2, "<pdfaid:part>2", "<pdfaid:part>3"),
      metadata_break("A-6.6.4", 3, "<pdfaid:conformance>A",
                     "<pdfaid:conformance>U"),
      metadata_break("A-6.6.4", 4, "<pdfaid:part>2</pdfaid:part>",
                     "<a:part xmlns:a=\"http://www.aiim.org/pdfa/ns/id/\">2"
                     "</a:part>"),
      artifact_break(11, " BMC"),
      artifact_break(11, "<</Type/Other>>BDC"),
      artifact_break(12, "<</Type/Pagination>>BDC"),
      metadata_break("own", 13, "<pdf:Producer>Sheaf", "<pdf:Producer>Another"),
  };
}

}  // namespace pdfua
