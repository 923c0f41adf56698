#include "heard/marked_content.h"

#include <set>
#include <vector>

#include <qpdf/QPDFPageDocumentHelper.hh>

namespace heard {

namespace {

// A sequence between BDC or BMC and EMC.
struct Sequence {
  int mcid = -1;
  bool is_artifact = false;
  bool is_replaced = false;  // by an /ActualText of its own
};

bool paints(const std::string& name) {
  static const std::set<std::string> all = {"S",  "s", "f",  "F",  "f*", "B",
                                            "B*", "b", "b*", "sh", "Do"};
  return all.count(name) > 0;
}

}  // namespace

// One content stream: a page's, or that of a form painted on it.
class MarkedContents::Walker : public QPDFObjectHandle::ParserCallbacks {
 public:
  Walker(MarkedContents& contents, QPDFObjGen page,
         const QPDFObjectHandle& resources)
      : contents_(contents), page_(page), resources_(resources) {}

  void handleObject(QPDFObjectHandle object) override {
    if (object.isInlineImage()) {
      draw();
    } else if (object.isOperator()) {
      operate(object.getOperatorValue());
      operands_.clear();
    } else {
      operands_.push_back(object);
    }
  }
  void handleEOF() override {}

 private:
  void operate(const std::string& name) {
    if (name == "q") {
      saved_.push_back(font_);
    } else if (name == "Q" && !saved_.empty()) {
      font_ = saved_.back();
      saved_.pop_back();
    } else if (name == "Tf" && operands_.size() == 2) {
      QPDFObjectHandle font = resource("/Font", operands_[0]);
      font_ = font.isDictionary() ? &contents_.font(font) : nullptr;
    } else if (name == "Tj" || name == "'" || name == "\"") {
      if (!operands_.empty()) show(operands_.back());
    } else if (name == "TJ" && operands_.size() == 1) {
      if (!operands_[0].isArray()) return;
      for (const QPDFObjectHandle& part : operands_[0].aitems()) show(part);
    } else if (name == "BMC" || name == "BDC") {
      begin();
    } else if (name == "EMC") {
      if (sequences_.size() > inherited_) sequences_.pop_back();
    } else if (paints(name)) {
      draw();
      if (name == "Do" && operands_.size() == 1) paint_form();
    }
  }

  QPDFObjectHandle resource(const char* kind, QPDFObjectHandle name) {
    QPDFObjectHandle all = resources_.getKey(kind);
    if (!all.isDictionary() || !name.isName()) {
      return QPDFObjectHandle::newNull();
    }
    return all.getKey(name.getName());
  }

  // The content that what is drawn now belongs to; null inside an artifact.
  MarkedContent* content() {
    int mcid = -1;
    for (const Sequence& sequence : sequences_) {
      if (sequence.is_artifact) return nullptr;
      if (sequence.mcid >= 0) mcid = sequence.mcid;
    }
    return mcid < 0 ? nullptr : &contents_.contents_[{page_, mcid}];
  }

  void begin() {
    if (operands_.empty() || !operands_[0].isName()) return;
    bool already_replaced = false;
    for (const Sequence& sequence : sequences_) {
      already_replaced |= sequence.is_replaced;
    }
    QPDFObjectHandle properties = QPDFObjectHandle::newNull();
    if (operands_.size() > 1) {
      properties = operands_[1].isName() ? resource("/Properties", operands_[1])
                                         : operands_[1];
    }
    Sequence next;
    next.is_artifact = operands_[0].isNameAndEquals("/Artifact");
    QPDFObjectHandle replacement = QPDFObjectHandle::newNull();
    if (properties.isDictionary()) {
      if (properties.getKey("/MCID").isInteger()) {
        next.mcid = properties.getKey("/MCID").getIntValueAsInt();
      }
      replacement = properties.getKey("/ActualText");
    }
    next.is_replaced = replacement.isString();
    sequences_.push_back(next);
    MarkedContent* now = content();
    if (now && next.is_replaced && !already_replaced) {
      now->text += replacement.getUTF8Value();
    }
  }

  void show(QPDFObjectHandle string) {
    MarkedContent* now = content();
    if (!string.isString() || !font_ || !now) return;
    for (const Sequence& sequence : sequences_) {
      if (sequence.is_replaced) return;
    }
    now->text += font_->text_of(string.getStringValue());
  }

  void draw() {
    if (MarkedContent* now = content()) now->has_drawing = true;
  }

  // Text in a form is heard where the form is painted.
  void paint_form() {
    constexpr int kDeepest = 8;
    QPDFObjectHandle form = resource("/XObject", operands_[0]);
    if (!form.isStream() || depth_ >= kDeepest ||
        !form.getDict().getKey("/Subtype").isNameAndEquals("/Form")) {
      return;
    }
    QPDFObjectHandle own = form.getDict().getKey("/Resources");
    Walker inner(contents_, page_, own.isDictionary() ? own : resources_);
    inner.sequences_ = sequences_;
    inner.inherited_ = sequences_.size();
    inner.depth_ = depth_ + 1;
    QPDFObjectHandle::parseContentStream(form, &inner);
  }

  MarkedContents& contents_;
  QPDFObjGen page_;
  QPDFObjectHandle resources_;
  std::vector<QPDFObjectHandle> operands_;
  std::vector<Sequence> sequences_;
  std::size_t inherited_ = 0;
  pdfua::FontChecker* font_ = nullptr;
  std::vector<pdfua::FontChecker*> saved_;
  int depth_ = 0;
};

MarkedContents::MarkedContents(QPDF& pdf) {
  for (QPDFPageObjectHelper& page : QPDFPageDocumentHelper(pdf).getAllPages()) {
    Walker walker(*this, page.getObjectHandle().getObjGen(),
                  page.getAttribute("/Resources", false));
    page.parseContents(&walker);
  }
}

MarkedContents::~MarkedContents() = default;

MarkedContent MarkedContents::of(QPDFObjGen page, int mcid) const {
  const auto found = contents_.find({page, mcid});
  return found == contents_.end() ? MarkedContent() : found->second;
}

pdfua::FontChecker& MarkedContents::font(const QPDFObjectHandle& font) {
  auto& known = fonts_[font.getObjGen()];
  if (!known) known = std::make_unique<pdfua::FontChecker>(font, unused_);
  return *known;
}

}  // namespace heard
