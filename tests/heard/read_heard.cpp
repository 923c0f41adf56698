#include <algorithm>

#include "heard/heard.h"
#include "heard/marked_content.h"
#include "pdfua/structure.h"

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFOutlineDocumentHelper.hh>

namespace heard {

namespace {

using pdfua::StructureElement;

std::string text_at(QPDFObjectHandle dictionary, const char* key) {
  if (!dictionary.isDictionary()) return {};
  QPDFObjectHandle value = dictionary.getKey(key);
  return value.isString() ? value.getUTF8Value() : "";
}

int span(QPDFObjectHandle element, const char* key) {
  QPDFObjectHandle value = pdfua::attribute(element, "/Table", key);
  return value.isInteger() ? std::max(1, value.getIntValueAsInt()) : 1;
}

Element told(const StructureElement& element, const MarkedContents& contents) {
  QPDFObjectHandle object = element.object;
  Element made;
  made.type = element.type;
  made.language = text_at(object, "/Lang");
  made.columns = span(object, "/ColSpan");
  made.rows = span(object, "/RowSpan");
  QPDFObjectHandle scope = pdfua::attribute(object, "/Table", "/Scope");
  if (scope.isName()) made.scope = scope.getName().substr(1);
  for (const pdfua::StructureKid& kid : element.order) {
    if (kid.element) {
      made.kids.push_back({{}, {told(*kid.element, contents)}});
      continue;
    }
    const MarkedContent content = contents.of(kid.page, kid.mcid);
    made.has_drawing |= content.has_drawing;
    if (!content.text.empty()) made.kids.push_back({content.text, {}});
  }
  // What stands for the element is said in place of all that it holds.
  for (const char* key : {"/ActualText", "/Alt"}) {
    if (!object.hasKey(key)) continue;
    made.kids = {{text_at(object, key), {}}};
    made.is_replaced = true;
    break;
  }
  return made;
}

void add_bookmarks(std::vector<QPDFOutlineObjectHelper> level,
                   const std::string& above,
                   std::vector<std::string>& bookmarks) {
  for (QPDFOutlineObjectHelper& one : level) {
    const std::string path =
        above.empty() ? one.getTitle() : above + " > " + one.getTitle();
    bookmarks.push_back(path);
    add_bookmarks(one.getKids(), path, bookmarks);
  }
}

}  // namespace

Document read(const std::string& bytes) {
  QPDF pdf;
  pdf.setSuppressWarnings(true);
  pdf.processMemoryFile("PDF", bytes.data(), bytes.size());
  pdfua::Report unused;
  const pdfua::StructureTree tree(pdf, unused);
  const MarkedContents contents(pdf);
  Document document;
  document.title = text_at(pdf.getTrailer().getKey("/Info"), "/Title");
  document.language = text_at(pdf.getRoot(), "/Lang");
  add_bookmarks(QPDFOutlineDocumentHelper(pdf).getTopLevelOutlines(), "",
                document.bookmarks);
  for (const StructureElement& element : tree.elements()) {
    if (!element.parent) document.elements.push_back(told(element, contents));
  }
  return document;
}

}  // namespace heard
