#include <set>

#include "pdfua/archive.h"
#include "pdfua/xmp.h"
#include "support/pattern.h"

namespace pdfua {

namespace {

using sheaf::testing_support::Pattern;

constexpr char kIdentification[] = "http://www.aiim.org/pdfa/ns/id/";
constexpr char kExtension[] = "http://www.aiim.org/pdfa/ns/extension/";
constexpr char kSchema[] = "http://www.aiim.org/pdfa/ns/schema#";
constexpr char kProperty[] = "http://www.aiim.org/pdfa/ns/property#";
constexpr char kRdf[] = "http://www.w3.org/1999/02/22-rdf-syntax-ns#";
constexpr char kDublinCore[] = "http://purl.org/dc/elements/1.1/";
constexpr char kPdf[] = "http://ns.adobe.com/pdf/1.3/";

// Namespaces that XMP or PDF/A itself describes, as far as Sheaf might use
// them.
const std::set<std::string>& known_spaces() {
  static const std::set<std::string> known = {
      kRdf,    "adobe:ns:meta/", kDublinCore,
      kPdf,    kExtension,       kIdentification,
      kSchema, kProperty,        "http://ns.adobe.com/xap/1.0/"};
  return known;
}

void check_identification(const Xmp& xmp, Report& report) {
  const Xmp::Property* part = xmp.find(kIdentification, "part");
  const Xmp::Property* level = xmp.find(kIdentification, "conformance");
  report.require(part && level, "A-6.6.4", 1,
                 "the metadata does not say PDF/A");
  if (!part || !level) return;
  report.require(part->value == "2", "A-6.6.4", 2, "not part 2 of PDF/A");
  report.require(level->value == "A", "A-6.6.4", 3, "not level A of PDF/A");
  report.require(part->prefix == "pdfaid" && level->prefix == "pdfaid",
                 "A-6.6.4", 4, "the prefix of the identification");
}

bool has_field(const Xmp& xmp, const char* space, const char* name,
               const char* prefix) {
  for (const Xmp::Property& element : xmp.elements) {
    if (element.space == space && element.name == name) {
      return element.prefix == prefix;
    }
  }
  return false;
}

// Reads one extension schema, which is as many as Sheaf writes.
void check_extension(const Xmp& xmp, Report& report) {
  for (std::size_t i = 0; i < xmp.elements.size(); ++i) {
    const Xmp::Property& element = xmp.elements[i];
    if (element.space != kExtension) continue;
    const bool has_bag = i + 1 < xmp.elements.size() &&
                         xmp.elements[i + 1].space == kRdf &&
                         xmp.elements[i + 1].name == "Bag";
    report.require(has_bag && element.prefix == "pdfaExtension", "A-6.6.2.3", 2,
                   "the list of extension schemas");
  }
  for (const char* name : {"schema", "namespaceURI", "prefix", "property"}) {
    report.require(has_field(xmp, kSchema, name, "pdfaSchema"), "A-6.6.2.3", 3,
                   std::string("an extension schema: ") + name);
  }
  for (const char* name : {"name", "valueType", "category", "description"}) {
    report.require(has_field(xmp, kProperty, name, "pdfaProperty"), "A-6.6.2.3",
                   4, std::string("a property of a schema: ") + name);
  }
  for (const Xmp::Property& element : xmp.elements) {
    if (element.space != kProperty || element.name != "category") continue;
    report.require(element.value == "internal" || element.value == "external",
                   "A-6.6.2.3", 4, "a category of " + element.value);
  }
}

void check_properties(const Xmp& xmp, Report& report) {
  std::string space;
  std::set<std::string> described;
  for (const Xmp::Property& element : xmp.elements) {
    if (element.space == kSchema && element.name == "namespaceURI") {
      space = element.value;
    }
    if (element.space == kProperty && element.name == "name") {
      described.insert(space + element.value);
    }
  }
  for (const Xmp::Property& property : xmp.properties) {
    if (property.prefix == "xmlns") continue;  // names a namespace
    report.require(known_spaces().count(property.space) > 0 ||
                       described.count(property.space + property.name) > 0,
                   "A-6.6.2.3", 7,
                   "nothing describes the property " + property.name);
  }
}

std::string from_xml(std::string text) {
  for (const auto& [written, meant] :
       {std::pair{"&lt;", "<"}, {"&gt;", ">"}, {"&amp;", "&"}}) {
    text = Pattern(written).replace(text, meant);
  }
  return text;
}

}  // namespace

void check_archive_metadata(const std::string& packet, QPDF& pdf,
                            Report& report) {
  const std::string head = packet.substr(0, packet.find("?>"));
  report.require(head.find(" bytes=") == std::string::npos, "A-6.6.2.1", 2,
                 "the metadata's header has bytes");
  report.require(head.find(" encoding=") == std::string::npos, "A-6.6.2.1", 3,
                 "the metadata's header has an encoding");
  const Xmp xmp = read_xmp(packet);
  check_identification(xmp, report);
  check_extension(xmp, report);
  check_properties(xmp, report);

  QPDFObjectHandle info = pdf.getTrailer().getKey("/Info");
  const auto stated = [&](const char* key) {
    return info.isDictionary() && info.getKey(key).isString()
               ? info.getKey(key).getUTF8Value()
               : std::string();
  };
  const Xmp::Property* producer = xmp.find(kPdf, "Producer");
  report.require((!xmp.has_title || stated("/Title") == from_xml(xmp.title)) &&
                     stated("/Producer") == (producer ? producer->value : ""),
                 "own", 13, "the information differs from the metadata");
}

}  // namespace pdfua
