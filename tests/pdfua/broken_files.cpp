#include "pdfua/broken_files.h"

#include <stdexcept>

#include "support/pattern.h"

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFWriter.hh>

namespace pdfua {

namespace {

// Calls `visit` for every element in reading order until it returns true.
bool walk(QPDFObjectHandle element,
          const std::function<bool(QPDFObjectHandle)>& visit) {
  if (!element.isDictionary() || !element.hasKey("/S")) return false;
  if (visit(element)) return true;
  QPDFObjectHandle kids = element.getKey("/K");
  if (!kids.isArray()) return walk(kids, visit);
  for (QPDFObjectHandle kid : kids.aitems()) {
    if (walk(kid, visit)) return true;
  }
  return false;
}

QPDFObjectHandle tree_top(QPDF& pdf) {
  return pdf.getRoot().getKey("/StructTreeRoot").getKey("/K");
}

bool is_above(QPDFObjectHandle upper, QPDFObjectHandle lower) {
  while (lower.isDictionary()) {
    if (lower.getObjGen() == upper.getObjGen()) return true;
    lower = lower.getKey("/P");
  }
  return false;
}

}  // namespace

std::string edited(const std::string& good,
                   const std::function<void(QPDF&)>& edit) {
  QPDF pdf;
  pdf.processMemoryFile("good", good.data(), good.size());
  edit(pdf);
  QPDFWriter writer(pdf);
  writer.setOutputMemory();
  writer.setStaticID(true);
  writer.write();
  const auto buffer = writer.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(buffer->getBuffer()),
          buffer->getSize()};
}

Break breaking(const std::string& clause, int test,
               std::function<void(QPDF&)> edit) {
  return {{{clause, test}}, [edit = std::move(edit)](const std::string& good) {
            return edited(good, edit);
          }};
}

QPDFObjectHandle first_page(QPDF& pdf) {
  return QPDFPageDocumentHelper(pdf).getAllPages().at(0).getObjectHandle();
}

QPDFObjectHandle find_element(QPDF& pdf, const std::string& type) {
  QPDFObjectHandle found = QPDFObjectHandle::newNull();
  walk(tree_top(pdf), [&](QPDFObjectHandle element) {
    if (!element.getKey("/S").isNameAndEquals("/" + type)) return false;
    found = element;
    return true;
  });
  if (found.isNull()) throw std::logic_error("no element " + type);
  return found;
}

void edit_stream(QPDFObjectHandle stream,
                 const std::function<std::string(std::string)>& change) {
  const auto data = stream.getStreamData(qpdf_dl_all);
  const std::string old(reinterpret_cast<const char*>(data->getBuffer()),
                        data->getSize());
  stream.replaceStreamData(change(old), QPDFObjectHandle::newNull(),
                           QPDFObjectHandle::newNull());
}

void edit_content(QPDF& pdf,
                  const std::function<std::string(std::string)>& change) {
  edit_stream(first_page(pdf).getKey("/Contents"), change);
}

std::string replaced(std::string text, const std::string& what,
                     const std::string& with) {
  const std::size_t at = text.find(what);
  if (at == std::string::npos) throw std::logic_error("no " + what);
  return text.replace(at, what.size(), with);
}

void move_language_down(QPDF& pdf, QPDFObjectHandle silent) {
  pdf.getRoot().removeKey("/Lang");
  walk(tree_top(pdf), [&](QPDFObjectHandle element) {
    if (!is_above(element, silent)) {
      element.replaceKey("/Lang", QPDFObjectHandle::newString("en"));
    }
    return false;
  });
  edit_content(pdf, [](const std::string& content) {
    return sheaf::testing_support::Pattern("/Artifact<<")
        .replace(content, "/Artifact<</Lang(en)");
  });
}

void state_title_language(QPDF& pdf) {
  edit_stream(pdf.getRoot().getKey("/Metadata"), [](const std::string& xmp) {
    return replaced(xmp, "x-default", "en");
  });
}

}  // namespace pdfua
