#include "pdf/document_entries.h"

#include <algorithm>
#include <cstdint>
#include <string_view>

#include "base/utf8.h"
#include "pdf/file_form.h"
#include "pdf/operators.h"

namespace sheaf {

namespace {

void append_xml(std::string& out, std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const char32_t code_point = next_code_point(text, i);
    if (code_point == '&') {
      out += "&amp;";
    } else if (code_point == '<') {
      out += "&lt;";
    } else if (code_point == '>') {
      out += "&gt;";
    } else if (code_point < 0x20 || code_point == 0xFFFE ||
               code_point == 0xFFFF) {
      out += ' ';  // XML has no way to write it
    } else {
      append_utf8(out, code_point);
    }
  }
}

// "dictation 12" is a prefix and a number; "Week" a prefix alone.
struct Label {
  std::string_view prefix;
  std::int64_t number = 0;
  bool has_number = false;
};

Label take_apart(std::string_view text) {
  std::size_t digits = text.size();
  while (digits > 0 && text.size() - digits < 9 && text[digits - 1] >= '0' &&
         text[digits - 1] <= '9') {
    --digits;
  }
  // A number with a zero in front would come out without it.
  while (digits < text.size() && text[digits] == '0') ++digits;
  Label label{text.substr(0, digits), 0, digits < text.size()};
  for (const char c : text.substr(digits)) {
    label.number = label.number * 10 + (c - '0');
  }
  return label;
}

// The mark of PDF/A, and of the property that XMP itself does not know, what
// it is.
constexpr std::string_view kArchival =
    "<rdf:Description rdf:about=\"\""
    " xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\""
    " xmlns:pdfaExtension=\"http://www.aiim.org/pdfa/ns/extension/\""
    " xmlns:pdfaSchema=\"http://www.aiim.org/pdfa/ns/schema#\""
    " xmlns:pdfaProperty=\"http://www.aiim.org/pdfa/ns/property#\">\n"
    "<pdfaid:part>2</pdfaid:part>\n"
    "<pdfaid:conformance>A</pdfaid:conformance>\n"
    "<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType=\"Resource\">\n"
    "<pdfaSchema:schema>PDF/UA</pdfaSchema:schema>\n"
    "<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/"
    "</pdfaSchema:namespaceURI>\n"
    "<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>\n"
    "<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType=\"Resource\">\n"
    "<pdfaProperty:name>part</pdfaProperty:name>\n"
    "<pdfaProperty:valueType>Integer</pdfaProperty:valueType>\n"
    "<pdfaProperty:category>internal</pdfaProperty:category>\n"
    "<pdfaProperty:description>Part of ISO 14289"
    "</pdfaProperty:description>\n"
    "</rdf:li></rdf:Seq></pdfaSchema:property>\n"
    "</rdf:li></rdf:Bag></pdfaExtension:schemas>\n"
    "</rdf:Description>\n";

}  // namespace

std::string shown_title(const FileHead& head) {
  const std::string_view title = head.title;
  const bool blank =
      std::all_of(title.begin(), title.end(), [](char c) { return c == ' '; });
  return blank ? "Worksheets" : head.title;
}

std::string info_entries(const FileHead& head) {
  std::string text(kInfoBegin);
  append_text_string(text, shown_title(head));
  return text + ">>";
}

std::string output_intent_entries(ObjectId profile) {
  std::string text =
      "/Type/OutputIntent/S/GTS_PDFA1/OutputConditionIdentifier(Custom)"
      "/Info(sRGB primaries, gamma 2.2)/DestOutputProfile ";
  append_reference(text, profile);
  return text;
}

std::string metadata(const FileHead& head, bool archival) {
  std::string text =
      "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
      "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
      "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
      "<rdf:Description rdf:about=\"\""
      " xmlns:dc=\"http://purl.org/dc/elements/1.1/\""
      " xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\""
      " xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\">\n"
      "<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">";
  append_xml(text, shown_title(head));
  text +=
      "</rdf:li></rdf:Alt></dc:title>\n"
      "<dc:language><rdf:Bag><rdf:li>";
  append_xml(text, head.language);
  text +=
      "</rdf:li></rdf:Bag></dc:language>\n"
      "<pdf:Producer>Sheaf</pdf:Producer>\n"
      "<pdfuaid:part>1</pdfuaid:part>\n"
      "</rdf:Description>\n";
  if (archival) text += kArchival;
  text +=
      "</rdf:RDF>\n</x:xmpmeta>\n"
      "<?xpacket end=\"r\"?>\n";
  return text;
}

void PageLabels::add(std::string_view text) {
  Label label = take_apart(text);
  if (text.empty()) label = {{}, pages_ + 1, true};
  has_labels_ = has_labels_ || !text.empty();
  const bool goes_on = pages_ > 0 && label.has_number && has_number_ &&
                       label.prefix == prefix_ && label.number == number_ + 1;
  prefix_ = label.prefix;
  number_ = label.number;
  has_number_ = label.has_number;
  const std::int64_t page = pages_++;
  if (goes_on) return;
  append_integer(pieces_, page);
  pieces_ += "<<";
  if (!label.prefix.empty()) {
    pieces_ += "/P";
    append_text_string(pieces_, label.prefix);
  }
  if (label.has_number) {
    pieces_ += "/S/D/St ";
    append_integer(pieces_, label.number);
  }
  pieces_ += ">>";
}

std::string PageLabels::entry() const {
  return has_labels_ ? "/PageLabels<</Nums[" + pieces_ + "]>>" : std::string();
}

std::string catalog_entries(const FileHead& head, const PageLabels& labels,
                            ObjectId metadata, ObjectId structure_root,
                            ObjectId output_intent) {
  std::string text = "/Lang";
  append_text_string(text, head.language);
  text += "/MarkInfo<</Marked true>>";
  text += "/ViewerPreferences<</DisplayDocTitle true/PrintScaling/None/Duplex/";
  text += head.duplex ? "DuplexFlipLongEdge" : "Simplex";
  text += "/PickTrayByPDFSize true>>/Metadata ";
  append_reference(text, metadata);
  text += "/StructTreeRoot ";
  append_reference(text, structure_root);
  text += "/OutputIntents[";
  append_reference(text, output_intent);
  text += ']';
  text += labels.entry();
  return text;
}

}  // namespace sheaf
