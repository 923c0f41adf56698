#include "pdfua/content.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>
#include <set>
#include <vector>

#include <qpdf/QPDFPageDocumentHelper.hh>

namespace pdfua {

namespace {

// A sequence between BDC or BMC and EMC.
struct Sequence {
  std::string tag;
  bool is_artifact = false;
  bool is_tagged = false;  // an element of the tree owns it
  bool has_language = false;
  bool has_text = false;  // /ActualText
};

const std::set<std::string>& painting_operators() {
  static const std::set<std::string> all = {"S", "s",  "f", "F",  "f*",
                                            "B", "B*", "b", "b*", "sh"};
  return all;
}

// The least move that one of the readers in tests/readers takes for a blank is
// a tenth of an em: poppler's, by its minWordBreakSpace (TextOutputDev.cc, from
// memory); found so with pdftotext 22.12.
constexpr double kMostInAWord = 100;

// Latin letters; a mark on a letter is placed by numbers of its own.
bool is_letter(char16_t c) {
  return (c >= u'A' && c <= u'Z') || (c >= u'a' && c <= u'z') ||
         (c >= 0xC0 && c < 0x300 && c != 0xD7 && c != 0xF7);
}

}  // namespace

// One content stream: a page's, or that of a form painted on it, which stands
// in the sequences and the graphics state of the page.
class ContentChecker::Walker : public QPDFObjectHandle::ParserCallbacks {
 public:
  Walker(ContentChecker& checker, const QPDFObjectHandle& page,
         const QPDFObjectHandle& resources)
      : checker_(checker), page_(page), resources_(resources) {}

  void inherit(const Walker& outer) {
    sequences_ = outer.sequences_;
    inherited_ = sequences_.size();
    state_ = outer.state_;
    depth_ = outer.depth_ + 1;
  }

  void handleObject(QPDFObjectHandle object) override {
    if (object.isInlineImage()) {
      item("an inline image");
    } else if (object.isOperator()) {
      operate(object.getOperatorValue());
      operands_.clear();
    } else {
      operands_.push_back(object);
    }
  }
  void handleEOF() override {}
  bool has_tags() const { return has_tags_; }

 private:
  struct State {
    FontChecker* font = nullptr;
    int mode = 0;
    // The first four numbers of the matrix from here to points.
    std::array<double, 4> matrix{1, 0, 0, 1};
  };

  // Puts a matrix before the current one (ISO 32000-1, 8.3.4).
  void transform(std::vector<QPDFObjectHandle> numbers) {
    if (numbers.size() != 6) return;
    std::array<double, 4> m{};
    for (std::size_t i = 0; i < 4; ++i) {
      if (!numbers[i].isNumber()) return;
      m[i] = numbers[i].getNumericValue();
    }
    const std::array<double, 4> old = state_.matrix;
    state_.matrix = {
        m[0] * old[0] + m[1] * old[2], m[0] * old[1] + m[1] * old[3],
        m[2] * old[0] + m[3] * old[2], m[2] * old[1] + m[3] * old[3]};
  }

  void operate(const std::string& name) {
    if (name == "q") {
      saved_.push_back(state_);
    } else if (name == "Q" && !saved_.empty()) {
      state_ = saved_.back();
      saved_.pop_back();
    } else if (name == "cm") {
      transform(operands_);
    } else if (name == "Tf" && operands_.size() == 2) {
      QPDFObjectHandle font = resource("/Font", operands_[0]);
      state_.font = font.isDictionary() ? &checker_.font(font) : nullptr;
    } else if (name == "Tr" && operands_.size() == 1) {
      state_.mode = operands_[0].getIntValueAsInt();
    } else if (name == "Tj" || name == "'" || name == "\"") {
      if (!operands_.empty()) text(operands_.back());
    } else if (name == "TJ" && operands_.size() == 1) {
      text_array(operands_[0]);
    } else if (name == "BMC" || name == "BDC") {
      begin();
    } else if (name == "EMC") {
      if (sequences_.size() > inherited_) sequences_.pop_back();
    } else if (name == "Do" && operands_.size() == 1) {
      paint(resource("/XObject", operands_[0]));
    } else if (painting_operators().count(name) > 0) {
      item("a drawing");
    }
  }

  QPDFObjectHandle resource(const char* kind, QPDFObjectHandle name) {
    QPDFObjectHandle all = resources_.getKey(kind);
    if (!all.isDictionary() || !name.isName()) {
      return QPDFObjectHandle::newNull();
    }
    return all.getKey(name.getName());
  }

  void begin() {
    if (operands_.empty() || !operands_[0].isName()) return;
    Sequence next;
    next.tag = operands_[0].getName().substr(1);
    QPDFObjectHandle properties = QPDFObjectHandle::newNull();
    if (operands_.size() > 1) {
      properties = operands_[1].isName() ? resource("/Properties", operands_[1])
                                         : operands_[1];
    }
    bool outer_tagged = false, outer_artifact = false, language = false;
    for (const Sequence& outer : sequences_) {
      outer_tagged |= outer.is_tagged;
      outer_artifact |= outer.is_artifact;
      language |= outer.has_language;
    }
    next.is_artifact = next.tag == "Artifact";
    next.has_language = language;
    if (properties.isDictionary()) read_properties(properties, next);
    Report& report = checker_.report_;
    if (next.is_artifact) check_artifact(properties, report);
    report.require(!next.is_artifact || !outer_tagged, "7.1", 1,
                   "an artifact inside tagged content");
    report.require(!next.is_tagged || !outer_artifact, "7.1", 2,
                   "tagged content inside an artifact");
    sequences_.push_back(next);
  }

  static void check_artifact(QPDFObjectHandle properties, Report& report) {
    const auto is = [&](const char* key,
                        std::initializer_list<const char*> names) {
      return properties.isDictionary() &&
             std::any_of(names.begin(), names.end(), [&](const char* name) {
               return properties.getKey(key).isNameAndEquals(name);
             });
    };
    report.require(
        is("/Type", {"/Pagination", "/Layout", "/Page", "/Background"}), "own",
        11, "an artifact that does not say its type");
    report.require(!is("/Type", {"/Pagination"}) ||
                       is("/Subtype", {"/Header", "/Footer", "/Watermark"}),
                   "own", 12,
                   "furniture that is neither header, footer nor watermark");
  }

  void read_properties(QPDFObjectHandle properties, Sequence& sequence) {
    Report& report = checker_.report_;
    QPDFObjectHandle mcid = properties.getKey("/MCID");
    if (mcid.isInteger()) {
      has_tags_ = true;
      const StructureElement* owner =
          checker_.tree_.owner(page_, mcid.getIntValueAsInt());
      sequence.is_tagged = owner != nullptr;
      if (owner && owner->has_language) sequence.has_language = true;
    }
    QPDFObjectHandle language = properties.getKey("/Lang");
    if (language.isString()) {
      sequence.has_language = true;
      report.require(is_language_tag(language.getUTF8Value()), "7.2", 29,
                     "a language in the content that is no language tag");
    }
    sequence.has_text = properties.hasKey("/ActualText");
    if (sequence.tag != "Span") return;
    const bool known = sequence.has_language || checker_.document_has_language_;
    report.require(!properties.hasKey("/ActualText") || known, "7.2", 30,
                   "/ActualText in the content has no language");
    report.require(!properties.hasKey("/Alt") || known, "7.2", 31,
                   "/Alt in the content has no language");
    report.require(!properties.hasKey("/E") || known, "7.2", 32,
                   "/E in the content has no language");
  }

  // Something that leaves a mark.
  void item(const std::string& what) {
    bool marked = false;
    for (const Sequence& sequence : sequences_) {
      marked |= sequence.is_tagged || sequence.is_artifact;
    }
    checker_.report_.require(marked, "7.1", 3,
                             what + " is neither tagged nor an artifact");
  }

  void text(QPDFObjectHandle string) {
    if (!string.isString() || string.getStringValue().empty()) return;
    item("a text");
    bool language = checker_.document_has_language_;
    for (const Sequence& sequence : sequences_) {
      language |= sequence.has_language;
    }
    checker_.report_.require(language, "7.2", 34,
                             "a text in no known language");
    if (!state_.font) return;
    const bool has_text =
        std::any_of(sequences_.begin(), sequences_.end(),
                    [](const Sequence& sequence) { return sequence.has_text; });
    checker_.report_.require(
        has_text || !state_.font->shows_private_use(string.getStringValue()),
        "A-6.2.11.7.3", 1, "a character of the private use area without text");
    state_.font->show(string.getStringValue(), state_.mode);
  }

  void text_array(QPDFObjectHandle array) {
    if (!array.isArray()) return;
    char16_t before = 0;
    double move = 0;
    for (QPDFObjectHandle part : array.aitems()) {
      if (part.isNumber()) move -= part.getNumericValue();
      if (!part.isString()) continue;
      text(part);
      if (!state_.font) continue;
      const std::string bytes = part.getStringValue();
      const bool in_a_word =
          is_letter(before) && is_letter(state_.font->first_character(bytes));
      checker_.report_.require(!in_a_word || move <= kMostInAWord, "own", 41,
                               "a word falls apart by " +
                                   std::to_string(static_cast<int>(move)) +
                                   " thousandths of an em");
      before = state_.font->last_character(bytes);
      move = 0;
    }
  }

  void paint(QPDFObjectHandle object) {
    if (!object.isStream()) return;
    QPDFObjectHandle dictionary = object.getDict();
    if (!dictionary.getKey("/Subtype").isNameAndEquals("/Form")) {
      item("an image");
      note_image(object);
      return;
    }
    checker_.report_.require(!dictionary.hasKey("/Ref"), "7.20", 1,
                             "a reference XObject");
    if (depth_ > 20) return;
    QPDFObjectHandle own = dictionary.getKey("/Resources");
    Walker inner(checker_, page_, own.isDictionary() ? own : resources_);
    inner.inherit(*this);
    if (dictionary.getKey("/Matrix").isArray()) {
      inner.transform(dictionary.getKey("/Matrix").getArrayAsVector());
    }
    object.parseAsContents(&inner);
    if (!inner.has_tags()) return;
    const int times = ++checker_.tagged_forms_[object.getObjGen()];
    checker_.report_.require(times < 2, "7.20", 2,
                             "tags in a form that is painted twice");
  }

  // How many pixels the image has beyond what its place needs; that of its
  // largest place counts.
  void note_image(QPDFObjectHandle image) {
    const auto beyond = [&](const char* key, double x, double y) {
      QPDFObjectHandle pixels = image.getDict().getKey(key);
      if (!pixels.isInteger()) return 0.0;
      return pixels.getIntValueAsInt() - kMostDots * std::hypot(x, y) / 72;
    };
    const auto& m = state_.matrix;
    const double here =
        std::max(beyond("/Width", m[0], m[1]), beyond("/Height", m[2], m[3]));
    const auto [place, is_new] =
        checker_.pixels_beyond_.try_emplace(image.getObjGen(), here);
    if (!is_new) place->second = std::min(place->second, here);
  }
  // 300 dots an inch and a little for rounding.
  static constexpr double kMostDots = 310;

  ContentChecker& checker_;
  QPDFObjectHandle page_, resources_;
  std::vector<QPDFObjectHandle> operands_;
  std::vector<Sequence> sequences_;
  std::size_t inherited_ = 0;
  State state_;
  std::vector<State> saved_;
  bool has_tags_ = false;
  int depth_ = 0;
};

ContentChecker::ContentChecker(QPDF& pdf, StructureTree& tree,
                               bool document_has_language, Report& report)
    : pdf_(pdf),
      tree_(tree),
      document_has_language_(document_has_language),
      report_(report) {}

ContentChecker::~ContentChecker() = default;

FontChecker& ContentChecker::font(const QPDFObjectHandle& font) {
  auto& known = fonts_[font.getObjGen()];
  if (!known) known = std::make_unique<FontChecker>(font, report_);
  return *known;
}

void ContentChecker::check() {
  for (QPDFPageObjectHelper& page :
       QPDFPageDocumentHelper(pdf_).getAllPages()) {
    QPDFObjectHandle object = page.getObjectHandle();
    Walker walker(*this, object, page.getAttribute("/Resources", false));
    page.parseContents(&walker);
  }
  for (const auto& [id, font] : fonts_) font->finish();
  for (const auto& [id, pixels] : pixels_beyond_) {
    report_.require(pixels <= 1, "own", 21,
                    "an image with more than 310 dots an inch");
  }
}

}  // namespace pdfua
