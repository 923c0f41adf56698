#include "pdfua/archive.h"

#include <algorithm>
#include <cstdint>
#include <set>
#include <vector>

#include <qpdf/QPDFPageDocumentHelper.hh>

namespace pdfua {

namespace {

std::string stream_text(QPDFObjectHandle stream) {
  const auto data = stream.getStreamData(qpdf_dl_all);
  return {reinterpret_cast<const char*>(data->getBuffer()), data->getSize()};
}

// ---- the file, byte by byte
// --------------------------------------------------

void check_frame(const std::string& bytes, Report& report) {
  const std::size_t line = bytes.find('\n');
  bool has_comment =
      line != std::string::npos && bytes.substr(line + 1, 1) == "%";
  for (std::size_t i = 2; i < 6 && has_comment; ++i) {
    has_comment = line + i < bytes.size() &&
                  static_cast<unsigned char>(bytes[line + i]) > 127;
  }
  report.require(has_comment, "A-6.1.2", 2, "no comment of high bytes");
  const std::size_t end = bytes.rfind("%%EOF");
  const std::string rest =
      end == std::string::npos ? "none" : bytes.substr(end + 5);
  report.require(rest.empty() || rest == "\n" || rest == "\r" || rest == "\r\n",
                 "A-6.1.3", 3, "something follows the end of the file");
}

// Streams whose length stands in their own dictionary, as all do here.
void check_stream_frames(const std::string& bytes, Report& report) {
  const std::string begin = "stream";
  for (std::size_t at = bytes.find(begin); at != std::string::npos;
       at = bytes.find(begin, at + 1)) {
    const std::size_t dictionary = bytes.rfind("<<", at);
    const std::size_t close = bytes.find_last_not_of(" \r\n", at - 1);
    if (dictionary == std::string::npos || close == std::string::npos ||
        bytes.compare(close - 1, 2, ">>") != 0) {
      continue;
    }
    const std::size_t object = bytes.rfind(" obj", at);
    const std::size_t key = bytes.rfind("/Length ", at);
    if (object == std::string::npos || key == std::string::npos || key < object)
      continue;
    std::size_t data = at + begin.size();
    const bool has_end =
        bytes[data] == '\n' || bytes.compare(data, 2, "\r\n") == 0;
    data += bytes[data] == '\r' ? 2 : 1;
    const std::size_t length = std::stoul(bytes.substr(key + 8, 12));
    const std::size_t last = bytes.find("endstream", data);
    const bool ends_with_line =
        last != std::string::npos &&
        (bytes[last - 1] == '\n' || bytes[last - 1] == '\r');
    report.require(has_end && ends_with_line, "A-6.1.7", 2,
                   "no end of line around a stream");
    if (!ends_with_line || !has_end) return;
    const bool is_long_enough =
        bytes.compare(data + length, 10, "\nendstream") == 0 ||
        bytes.compare(data + length, 11, "\r\nendstream") == 0;
    report.require(is_long_enough, "A-6.1.7", 1,
                   "a stream is not as long as it says");
    at = is_long_enough ? data + length : last;
    at += begin.size() + 4;
  }
}

// ---- objects
// -----------------------------------------------------------------

void check_value(QPDFObjectHandle value, Report& report) {
  if (value.isInteger()) {
    const long long number = value.getIntValue();
    report.require(number <= INT32_MAX && number >= INT32_MIN, "A-6.1.13", 1,
                   "the number " + std::to_string(number));
  } else if (value.isString()) {
    report.require(value.getStringValue().size() <= 32767, "A-6.1.13", 3,
                   "a string of more than 32767 bytes");
  } else if (value.isName()) {
    report.require(value.getName().size() <= 128, "A-6.1.13", 4,
                   "a name of more than 127 bytes");
  } else if (value.isArray()) {
    for (const QPDFObjectHandle& item : value.aitems()) {
      if (!item.isIndirect()) check_value(item, report);
    }
  } else if (value.isDictionary()) {
    for (const auto& [key, item] : value.ditems()) {
      check_value(QPDFObjectHandle::newName(key), report);
      if (!QPDFObjectHandle(item).isIndirect()) check_value(item, report);
    }
  }
}

void check_filters(QPDFObjectHandle dictionary, Report& report) {
  static const std::set<std::string> good = {
      "/ASCIIHexDecode", "/ASCII85Decode", "/FlateDecode", "/RunLengthDecode",
      "/CCITTFaxDecode", "/JBIG2Decode",   "/DCTDecode",   "/JPXDecode"};
  QPDFObjectHandle filter = dictionary.getKey("/Filter");
  std::vector<QPDFObjectHandle> filters;
  if (filter.isArray()) filters = filter.getArrayAsVector();
  if (filter.isName()) filters = {filter};
  for (QPDFObjectHandle& one : filters) {
    report.require(one.isName() && good.count(one.getName()) > 0, "A-6.1.7", 4,
                   "the filter " + one.unparse());
  }
}

void check_stream(QPDFObjectHandle dictionary, Report& report) {
  for (const char* key : {"/F", "/FFilter", "/FDecodeParms"}) {
    report.require(!dictionary.hasKey(key), "A-6.1.7", 3,
                   std::string("a stream with ") + key);
  }
  check_filters(dictionary, report);
  QPDFObjectHandle kind = dictionary.getKey("/Subtype");
  const auto lacks = [&](const char* key, const char* clause, int test) {
    report.require(!dictionary.hasKey(key), clause, test,
                   std::string("an XObject with ") + key);
  };
  if (kind.isNameAndEquals("/Image")) {
    lacks("/Alternates", "A-6.2.8", 1);
    lacks("/OPI", "A-6.2.8", 2);
    QPDFObjectHandle smooth = dictionary.getKey("/Interpolate");
    report.require(!smooth.isBool() || !smooth.getBoolValue(), "A-6.2.8", 3,
                   "an image that is to be interpolated");
  } else if (kind.isNameAndEquals("/Form")) {
    lacks("/OPI", "A-6.2.9", 1);
    lacks("/PS", "A-6.2.9", 1);
    report.require(!dictionary.getKey("/Subtype2").isNameAndEquals("/PS"),
                   "A-6.2.9", 1, "a form that is PostScript");
  }
  report.require(!kind.isNameAndEquals("/PS"), "A-6.2.9", 3,
                 "a PostScript XObject");
}

void check_objects(QPDF& pdf, Report& report) {
  for (QPDFObjectHandle object : pdf.getAllObjects()) {
    if (object.isStream()) {
      check_value(object.getDict(), report);
      check_stream(object.getDict(), report);
    } else {
      check_value(object, report);
    }
    // A reader knows a font by where it stands; here by what only fonts have.
    if (!object.isDictionary()) continue;
    const bool is_font =
        object.hasKey("/DescendantFonts") || object.hasKey("/CIDSystemInfo");
    if (!is_font) continue;
    report.require(object.getKey("/Type").isNameAndEquals("/Font"),
                   "A-6.2.11.2", 1, "a font that does not say it is one");
    report.require(object.getKey("/BaseFont").isName(), "A-6.2.11.2", 3,
                   "a font without a name");
  }
}

// ---- colours
// -----------------------------------------------------------------

// The colours that the output intent is for: "RGB ", "CMYK", "GRAY"; empty
// where there is none.
std::string intended_colours(QPDFObjectHandle catalog, Report& report) {
  QPDFObjectHandle intents = catalog.getKey("/OutputIntents");
  std::string colours;
  std::set<QPDFObjGen> profiles;
  if (!intents.isArray()) return colours;
  for (QPDFObjectHandle intent : intents.aitems()) {
    report.require(!intent.hasKey("/DestOutputProfileRef"), "A-6.2.3", 3,
                   "an output intent with DestOutputProfileRef");
    QPDFObjectHandle profile = intent.getKey("/DestOutputProfile");
    if (!profile.isStream()) continue;
    profiles.insert(profile.getObjGen());
    const std::string data = stream_text(profile);
    if (data.size() < 128) continue;
    const std::string device = data.substr(12, 4);
    const std::string space = data.substr(16, 4);
    report.require(
        (device == "prtr" || device == "mntr") &&
            (space == "RGB " || space == "CMYK" || space == "GRAY") &&
            data[8] < 5,
        "A-6.2.3", 1, "a profile of " + device + " " + space);
    if (intent.getKey("/S").isNameAndEquals("/GTS_PDFA1")) colours = space;
  }
  report.require(profiles.size() < 2, "A-6.2.3", 2,
                 "output intents with different profiles");
  return colours;
}

void check_colour(const std::string& space, const std::string& intended,
                  Report& report) {
  if (space == "/DeviceRGB") {
    report.require(intended == "RGB ", "A-6.2.4.3", 2, "DeviceRGB");
  } else if (space == "/DeviceCMYK") {
    report.require(intended == "CMYK", "A-6.2.4.3", 3, "DeviceCMYK");
  } else if (space == "/DeviceGray") {
    report.require(!intended.empty(), "A-6.2.4.3", 4, "DeviceGray");
  }
}

// ---- content
// -----------------------------------------------------------------

// ISO 32000-1, annex A.
const std::set<std::string>& operators() {
  static const std::set<std::string> all = {
      "b",  "B",  "b*", "B*", "BDC", "BI", "BMC", "BT",  "BX",  "c",  "cm",
      "CS", "cs", "d",  "d0", "d1",  "Do", "DP",  "EI",  "EMC", "ET", "EX",
      "f",  "F",  "f*", "G",  "g",   "gs", "h",   "i",   "ID",  "j",  "J",
      "K",  "k",  "l",  "m",  "M",   "MP", "n",   "q",   "Q",   "re", "RG",
      "rg", "ri", "s",  "S",  "SC",  "sc", "SCN", "scn", "sh",  "T*", "Tc",
      "Td", "TD", "Tf", "Tj", "TJ",  "TL", "Tm",  "Tr",  "Ts",  "Tw", "Tz",
      "v",  "w",  "W",  "W*", "y",   "'",  "\""};
  return all;
}

class Operators : public QPDFObjectHandle::ParserCallbacks {
 public:
  Operators(const std::string& intended, Report& report)
      : intended_(intended), report_(report) {}
  void handleObject(QPDFObjectHandle object) override {
    if (!object.isOperator()) {
      check_value(object, report_);
      return;
    }
    const std::string name = object.getOperatorValue();
    report_.require(operators().count(name) > 0, "A-6.2.2", 1,
                    "the operator " + name);
    if (name == "q") ++depth_;
    if (name == "Q") --depth_;
    report_.require(depth_ <= 28, "A-6.1.13", 8, "q nested more than 28 deep");
    if (name == "rg" || name == "RG") colour("/DeviceRGB");
    if (name == "k" || name == "K") colour("/DeviceCMYK");
    if (name == "g" || name == "G") colour("/DeviceGray");
  }
  void handleEOF() override {}

 private:
  void colour(const char* space) { check_colour(space, intended_, report_); }
  std::string intended_;
  Report& report_;
  int depth_ = 0;
};

void check_boxes(QPDFObjectHandle page, Report& report) {
  for (const char* key :
       {"/MediaBox", "/CropBox", "/TrimBox", "/BleedBox", "/ArtBox"}) {
    QPDFObjectHandle box = page.getKey(key);
    if (!box.isRectangle()) continue;
    const QPDFObjectHandle::Rectangle r = box.getArrayAsRectangle();
    const auto fits = [](double size) { return size >= 3 && size <= 14400; };
    report.require(fits(r.urx - r.llx) && fits(r.ury - r.lly), "A-6.1.13", 11,
                   std::string("the size of ") + key);
  }
}

void check_pages(QPDF& pdf, const std::string& intended, Report& report) {
  for (QPDFPageObjectHelper& helper :
       QPDFPageDocumentHelper(pdf).getAllPages()) {
    QPDFObjectHandle page = helper.getObjectHandle();
    report.require(page.hasKey("/Resources"), "A-6.2.2", 2,
                   "a page without resources of its own");
    report.require(!page.hasKey("/AA"), "A-6.5.2", 2, "a page with actions");
    report.require(!page.hasKey("/PresSteps"), "A-6.10", 2,
                   "a page with steps of a show");
    check_boxes(page, report);
    Operators content(intended, report);
    helper.parseContents(&content);
    QPDFObjectHandle objects =
        helper.getAttribute("/Resources", false).getKey("/XObject");
    if (!objects.isDictionary()) continue;
    for (const auto& [name, object] : objects.ditems()) {
      QPDFObjectHandle drawn = object;
      QPDFObjectHandle dictionary = drawn.getDict();
      if (dictionary.getKey("/Subtype").isNameAndEquals("/Form")) {
        Operators inner(intended, report);
        drawn.parseAsContents(&inner);
      }
      QPDFObjectHandle space = dictionary.getKey("/ColorSpace");
      if (space.isName()) check_colour(space.getName(), intended, report);
      const bool has_blending_space = page.getKey("/Group").isDictionary() &&
                                      page.getKey("/Group").hasKey("/CS");
      report.require(!dictionary.hasKey("/SMask") || !intended.empty() ||
                         has_blending_space,
                     "A-6.2.10", 2, "a transparent image in unknown colours");
    }
  }
}

}  // namespace

void check_archive(const std::string& bytes, QPDF& pdf, Report& report) {
  check_frame(bytes, report);
  check_stream_frames(bytes, report);
  QPDFObjectHandle identifier = pdf.getTrailer().getKey("/ID");
  report.require(identifier.isArray() && identifier.getArrayNItems() == 2,
                 "A-6.1.3", 1, "the file has no ID");
  report.require(!pdf.isEncrypted(), "A-6.1.3", 2, "the file is encrypted");
  check_objects(pdf, report);
  QPDFObjectHandle catalog = pdf.getRoot();
  report.require(!catalog.hasKey("/NeedsRendering"), "A-6.4.2", 2,
                 "the catalog has NeedsRendering");
  report.require(!catalog.hasKey("/AA"), "A-6.5.2", 1,
                 "the catalog has actions");
  report.require(!catalog.hasKey("/Requirements"), "A-6.11", 1,
                 "the catalog has Requirements");
  check_pages(pdf, intended_colours(catalog, report), report);
  QPDFObjectHandle metadata = catalog.getKey("/Metadata");
  if (metadata.isStream()) {
    check_archive_metadata(stream_text(metadata), pdf, report);
  }
}

}  // namespace pdfua
