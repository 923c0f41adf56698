#include "pdfua/checker.h"

#include <stdexcept>

#include "pdfua/archive.h"
#include "pdfua/content.h"
#include "pdfua/structure.h"
#include "pdfua/xmp.h"
#include "support/pattern.h"

#include <qpdf/QPDF.hh>

namespace pdfua {

namespace {

constexpr char kUaSpace[] = "http://www.aiim.org/pdfua/ns/id/";

void check_header(const std::string& bytes, Report& report) {
  static const sheaf::testing_support::Pattern header(
      "^%PDF-1\\.[0-7](\r\n|\r|\n)");
  report.require(!header.in(bytes.substr(0, 16)).empty(), "6.1", 1,
                 "the first line is not %PDF-1.0 to %PDF-1.7");
}

void check_metadata(QPDFObjectHandle catalog, bool has_language,
                    Report& report) {
  QPDFObjectHandle stream = catalog.getKey("/Metadata");
  const bool is_metadata =
      stream.isStream() &&
      stream.getDict().getKey("/Type").isNameAndEquals("/Metadata") &&
      stream.getDict().getKey("/Subtype").isNameAndEquals("/XML");
  report.require(is_metadata, "7.1", 8, "the catalog has no metadata");
  if (!is_metadata) return;
  const auto data = stream.getStreamData(qpdf_dl_all);
  const Xmp xmp = read_xmp(
      {reinterpret_cast<const char*>(data->getBuffer()), data->getSize()});
  report.require(xmp.has_title, "7.1", 9, "the metadata has no title");
  report.require(!xmp.has_default_language || has_language, "7.2", 33,
                 "metadata in no known language");
  const Xmp::Property* part = xmp.find(kUaSpace, "part");
  report.require(part != nullptr, "5", 1, "the metadata does not say PDF/UA");
  if (part) {
    report.require(part->value == "1", "5", 2, "not part 1 of PDF/UA");
  }
  const auto prefix = [&](const char* name, int test) {
    const Xmp::Property* property = xmp.find(kUaSpace, name);
    report.require(!property || property->prefix == "pdfuaid", "5", test,
                   std::string("the prefix of ") + name);
  };
  prefix("part", 3);
  prefix("amd", 4);
  prefix("corr", 5);
}

bool is_true(QPDFObjectHandle dictionary, const char* key) {
  if (!dictionary.isDictionary()) return false;
  QPDFObjectHandle value = dictionary.getKey(key);
  return value.isBool() && value.getBoolValue();
}

void check_catalog(QPDFObjectHandle catalog, bool has_language,
                   Report& report) {
  QPDFObjectHandle marks = catalog.getKey("/MarkInfo");
  report.require(is_true(marks, "/Marked"), "6.2", 1, "not marked as tagged");
  report.require(!is_true(marks, "/Suspects"), "7.1", 4, "suspect tags");
  report.require(
      is_true(catalog.getKey("/ViewerPreferences"), "/DisplayDocTitle"), "7.1",
      10, "the title is not shown");
  QPDFObjectHandle outline = catalog.getKey("/Outlines");
  report.require(!outline.isDictionary() || has_language, "7.2", 2,
                 "an outline in no known language");
  if (!has_language) return;
  report.require(is_language_tag(catalog.getKey("/Lang").getUTF8Value()), "7.2",
                 29, "the document's language is no language tag");
}

}  // namespace

Report check(const std::string& bytes) {
  Report report;
  check_header(bytes, report);
  QPDF pdf;
  pdf.setSuppressWarnings(true);
  pdf.processMemoryFile("PDF", bytes.data(), bytes.size());
  QPDFObjectHandle catalog = pdf.getRoot();
  const bool has_language = catalog.getKey("/Lang").isString() &&
                            !catalog.getKey("/Lang").getStringValue().empty();
  check_metadata(catalog, has_language, report);
  check_catalog(catalog, has_language, report);
  StructureTree tree(pdf, report);
  report.require(tree.exists(), "7.1", 11, "there is no structure tree");
  check_structure(tree, has_language, report);
  check_tables(tree, report);
  check_headings(tree, report);
  ContentChecker(pdf, tree, has_language, report).check();
  check_archive(bytes, pdf, report);
  return report;
}

}  // namespace pdfua
