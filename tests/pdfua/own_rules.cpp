#include <set>

#include "pdfua/checker.h"
#include "support/pattern.h"

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFOutlineDocumentHelper.hh>

namespace pdfua {

namespace {

std::string text_at(QPDFObjectHandle dictionary, const char* key) {
  if (!dictionary.isDictionary()) return {};
  QPDFObjectHandle value = dictionary.getKey(key);
  return value.isString() ? value.getUTF8Value() : "";
}

void check_outline(std::vector<QPDFOutlineObjectHelper> level, int depth,
                   Report& report) {
  constexpr int kDeepest = 50;
  if (depth > kDeepest) return;
  std::set<std::string> titles;
  for (QPDFOutlineObjectHelper& entry : level) {
    report.require(titles.insert(entry.getTitle()).second, "own", 33,
                   "two bookmarks " + entry.getTitle());
    check_outline(entry.getKids(), depth + 1, report);
  }
}

}  // namespace

Report check_own(const std::string& bytes) {
  static const sheaf::testing_support::Pattern with_region(
      "[a-z]{2,3}(-[A-Z][a-z]{3})?-([A-Z]{2}|[0-9]{3})(-.*)?");
  Report report;
  QPDF pdf;
  pdf.setSuppressWarnings(true);
  pdf.processMemoryFile("PDF", bytes.data(), bytes.size());
  const std::string language = text_at(pdf.getRoot(), "/Lang");
  report.require(!with_region.of(language).empty(), "own", 31,
                 "the language " + language + " has no region");
  const std::string title = text_at(pdf.getTrailer().getKey("/Info"), "/Title");
  report.require(title.find_first_not_of(" \t") != std::string::npos, "own", 32,
                 "the document has no title");
  check_outline(QPDFOutlineDocumentHelper(pdf).getTopLevelOutlines(), 0,
                report);
  return report;
}

}  // namespace pdfua
