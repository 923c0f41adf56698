#include "pdfua/broken_files.h"

#include <stdexcept>

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFWriter.hh>

namespace pdfua {

namespace {

Break by_bytes(const std::string& clause, int test, const std::string& what,
               const std::string& with) {
  return {{{clause, test}},
          [=](const std::string& good) { return replaced(good, what, with); }};
}

Break content_break(const std::string& clause, int test,
                    const std::string& operators) {
  return breaking(clause, test, [operators](QPDF& pdf) {
    edit_content(pdf, [&](const std::string& content) {
      return content + "/Artifact<</Type/Layout>>BDC " + operators + " EMC\n";
    });
  });
}

QPDFObjectHandle picture(QPDF& pdf, const std::string& kind) {
  QPDFObjectHandle all =
      first_page(pdf).getKey("/Resources").getKey("/XObject");
  for (const auto& [name, object] : all.ditems()) {
    QPDFObjectHandle found = object;
    if (found.getDict().getKey("/Subtype").isNameAndEquals(kind)) return found;
  }
  throw std::logic_error("no picture of the kind " + kind);
}

Break picture_break(const std::string& clause, int test,
                    const std::string& kind, const std::string& key,
                    const std::string& value) {
  return breaking(clause, test, [=](QPDF& pdf) {
    picture(pdf, kind).getDict().replaceKey(key,
                                            QPDFObjectHandle::parse(value));
  });
}

Break entry_break(const std::string& clause, int test, bool in_page,
                  const std::string& key, const std::string& value) {
  return breaking(clause, test, [=](QPDF& pdf) {
    (in_page ? first_page(pdf) : pdf.getRoot())
        .replaceKey(key, QPDFObjectHandle::parse(value));
  });
}

QPDFObjectHandle intent(QPDF& pdf) {
  return pdf.getRoot().getKey("/OutputIntents").getArrayItem(0);
}

Break profile_break(const std::string& clause, int test,
                    const std::string& what, const std::string& with) {
  return breaking(clause, test, [=](QPDF& pdf) {
    edit_stream(
        intent(pdf).getKey("/DestOutputProfile"),
        [&](const std::string& data) { return replaced(data, what, with); });
  });
}

QPDFObjectHandle a_font(QPDF& pdf) {
  return first_page(pdf).getKey("/Resources").getKey("/Font").getKey("/F0");
}

// Any user may open it, but not without deciphering it.
std::string encrypted(const std::string& good) {
  QPDF pdf;
  pdf.processMemoryFile("good", good.data(), good.size());
  QPDFWriter writer(pdf);
  writer.setOutputMemory();
  writer.setR6EncryptionParameters("", "owner", true, true, true, true, true,
                                   true, qpdf_r3p_full, true);
  writer.setNewlineBeforeEndstream(true);
  writer.write();
  const auto buffer = writer.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(buffer->getBuffer()),
          buffer->getSize()};
}

void add_intent(QPDF& pdf) {
  QPDFObjectHandle profile = intent(pdf).getKey("/DestOutputProfile");
  const auto data = profile.getStreamData(qpdf_dl_all);
  QPDFObjectHandle other = QPDFObjectHandle::newStream(&pdf, data);
  other.getDict().replaceKey("/N", QPDFObjectHandle::newInteger(3));
  QPDFObjectHandle second = intent(pdf).shallowCopy();
  second.replaceKey("/DestOutputProfile", other);
  pdf.getRoot().getKey("/OutputIntents").appendItem(second);
}

// Resources that the page has from its tree.
void inherit_resources(QPDF& pdf) {
  QPDFObjectHandle page = first_page(pdf);
  page.getKey("/Parent").replaceKey("/Resources", page.getKey("/Resources"));
  page.removeKey("/Resources");
}

}  // namespace

std::vector<Break> archive_breaks() {
  return {
      by_bytes("A-6.1.2", 2, "%\xE2\xE3\xCF\xD3\n", "%none\n"),
      by_bytes("A-6.1.3", 1, "/ID[<", "/Ix[<"),
      {{{"A-6.1.3", 2}}, encrypted},
      {{{"A-6.1.3", 3}},
       [](const std::string& good) { return good + "%more\n"; }},
      // One byte more between the data and the keyword.
      by_bytes("A-6.1.7", 1, "\nendstream", " \nendstream"),
      by_bytes("A-6.1.7", 2, "\nendstream", " endstream"),
      picture_break("A-6.1.7", 3, "/Image", "/FDecodeParms", "<<>>"),
      // libqpdf would put it right, so it must not write this one.
      by_bytes("A-6.1.7", 4, "/DeviceGray/Filter/FlateDecode",
               "/DeviceGray/Filter/LZWDecode  "),
      entry_break("A-6.1.13", 1, true, "/Extra", "2147483648"),
      entry_break("A-6.1.13", 3, true, "/Extra",
                  "(" + std::string(32768, 'a') + ")"),
      entry_break("A-6.1.13", 4, true, "/Extra", "/" + std::string(128, 'a')),
      content_break("A-6.1.13", 8,
                    [] {
                      std::string deep;
                      for (int i = 0; i < 29; ++i) deep += "q ";
                      for (int i = 0; i < 29; ++i) deep += "Q ";
                      return deep;
                    }()),
      entry_break("A-6.1.13", 11, true, "/ArtBox", "[0 0 2 9]"),
      content_break("A-6.2.2", 1, "BX 1 frame EX"),
      breaking("A-6.2.2", 2, inherit_resources),
      profile_break("A-6.2.3", 1, "mntr", "link"),
      breaking("A-6.2.3", 2, add_intent),
      breaking("A-6.2.3", 3,
               [](QPDF& pdf) {
                 intent(pdf).replaceKey("/DestOutputProfileRef",
                                        QPDFObjectHandle::newDictionary());
               }),
      profile_break("A-6.2.4.3", 2, "RGB ", "GRAY"),
      content_break("A-6.2.4.3", 3, "0 0 0 1 k"),
      // What has colours, and a picture with a mask.
      {{{"A-6.2.4.3", 2}, {"A-6.2.4.3", 4}, {"A-6.2.10", 2}},
       [](const std::string& good) {
         return edited(good, [](QPDF& pdf) {
           pdf.getRoot().removeKey("/OutputIntents");
         });
       }},
      picture_break("A-6.2.8", 1, "/Image", "/Alternates", "[]"),
      picture_break("A-6.2.8", 2, "/Image", "/OPI", "<<>>"),
      picture_break("A-6.2.8", 3, "/Image", "/Interpolate", "true"),
      picture_break("A-6.2.9", 1, "/Form", "/PS", "<<>>"),
      breaking("A-6.2.9", 3,
               [](QPDF& pdf) {
                 QPDFObjectHandle stream =
                     QPDFObjectHandle::newStream(&pdf, "showpage");
                 stream.getDict().replaceKey("/Subtype",
                                             QPDFObjectHandle::newName("/PS"));
                 first_page(pdf)
                     .getKey("/Resources")
                     .getKey("/XObject")
                     .replaceKey("/X99", stream);
               }),
      breaking("A-6.2.11.2", 1,
               [](QPDF& pdf) { a_font(pdf).removeKey("/Type"); }),
      breaking("A-6.2.11.2", 3,
               [](QPDF& pdf) { a_font(pdf).removeKey("/BaseFont"); }),
      breaking("A-6.2.11.7.3", 1,
               [](QPDF& pdf) {
                 edit_stream(a_font(pdf).getKey("/ToUnicode"),
                             [](const std::string& map) {
                               return replaced(map, "<0061>", "<E061>");
                             });
               }),
      entry_break("A-6.4.2", 2, false, "/NeedsRendering", "true"),
      entry_break("A-6.5.2", 1, false, "/AA", "<<>>"),
      entry_break("A-6.5.2", 2, true, "/AA", "<<>>"),
      entry_break("A-6.10", 2, true, "/PresSteps", "<<>>"),
      entry_break("A-6.11", 1, false, "/Requirements", "[]"),
  };
}

}  // namespace pdfua
