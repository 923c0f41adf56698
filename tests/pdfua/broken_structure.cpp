#include "pdfua/broken_files.h"

#include <qpdf/QPDF.hh>

namespace pdfua {

namespace {

QPDFObjectHandle name(const std::string& text) {
  return QPDFObjectHandle::newName("/" + text);
}

// Makes elements from a line such as "Table(TR(TH TD:r2))": names, kids in
// brackets, and after a colon a span of rows (r) or columns (c), an unknown
// header (h) or a bad language (l).
class Planter {
 public:
  Planter(QPDF& pdf, const std::string& plan) : pdf_(pdf), plan_(plan) {}

  void plant(QPDFObjectHandle parent) {
    QPDFObjectHandle kids = parent.getKey("/K");
    while (at_ < plan_.size() && plan_[at_] != ')') {
      if (plan_[at_] == ' ') {
        ++at_;
        continue;
      }
      kids.appendItem(element(parent));
    }
  }

 private:
  QPDFObjectHandle element(QPDFObjectHandle parent) {
    std::string type;
    while (at_ < plan_.size() && std::isalnum(plan_[at_])) type += plan_[at_++];
    QPDFObjectHandle made =
        pdf_.makeIndirectObject(QPDFObjectHandle::newDictionary());
    made.replaceKey("/S", name(type));
    made.replaceKey("/P", parent);
    made.replaceKey("/K", QPDFObjectHandle::newArray());
    if (at_ < plan_.size() && plan_[at_] == ':') attributes(made);
    if (at_ < plan_.size() && plan_[at_] == '(') {
      ++at_;
      plant(made);
      ++at_;
    }
    return made;
  }

  void attributes(QPDFObjectHandle element) {
    const char kind = plan_.at(++at_);
    ++at_;
    QPDFObjectHandle table = QPDFObjectHandle::newDictionary();
    table.replaceKey("/O", name("Table"));
    if (kind == 'l') {
      element.replaceKey("/Lang", QPDFObjectHandle::newString("en_US"));
      return;
    }
    if (kind == 'h') {
      QPDFObjectHandle headers = QPDFObjectHandle::newArray();
      headers.appendItem(QPDFObjectHandle::newString("nobody"));
      table.replaceKey("/Headers", headers);
    } else {
      table.replaceKey(kind == 'r' ? "/RowSpan" : "/ColSpan",
                       QPDFObjectHandle::newInteger(plan_.at(at_++) - '0'));
    }
    element.replaceKey("/A", table);
  }

  QPDF& pdf_;
  std::string plan_;
  std::size_t at_ = 0;
};

Break planting(const std::string& clause, int test, const std::string& plan) {
  return breaking(clause, test, [plan](QPDF& pdf) {
    Planter(pdf, plan).plant(find_element(pdf, "Sect"));
  });
}

// A text of an element that stands in no known language.
Break speechless(int test, const std::string& key) {
  return breaking("7.2", test, [key](QPDF& pdf) {
    QPDFObjectHandle silent = find_element(pdf, "Figure").getKey("/P");
    silent.replaceKey(key, QPDFObjectHandle::newString("words"));
    move_language_down(pdf, silent);
    state_title_language(pdf);
    pdf.getRoot().removeKey("/Outlines");
  });
}

void rename(QPDF& pdf, const std::string& from, const std::string& to) {
  find_element(pdf, from).replaceKey("/S", name(to));
}

void add_roles(QPDF& pdf, const std::string& dictionary) {
  pdf.getRoot()
      .getKey("/StructTreeRoot")
      .replaceKey("/RoleMap", QPDFObjectHandle::parse(dictionary));
}

std::vector<Break> tree_breaks() {
  return {
      breaking("7.1", 5, [](QPDF& pdf) { rename(pdf, "P", "Blurb"); }),
      breaking("7.1", 6,
               [](QPDF& pdf) {
                 rename(pdf, "P", "Blurb");
                 add_roles(pdf, "<</Blurb/Puff/Puff/Blurb>>");
               }),
      breaking("7.1", 7, [](QPDF& pdf) { add_roles(pdf, "<</P/Span>>"); }),
      breaking("7.1", 12,
               [](QPDF& pdf) { find_element(pdf, "H1").removeKey("/P"); }),
      speechless(21, "/ActualText"),
      speechless(22, "/Alt"),
      speechless(23, "/E"),
      planting("7.2", 29, "P:l"),
      planting("7.3", 1, "Figure"),
      breaking("own", 22,
               [](QPDF& pdf) {
                 find_element(pdf, "Figure")
                     .replaceKey("/Alt", QPDFObjectHandle::newString(
                                             "a picture to sort"));
               }),
      planting("7.4.2", 1, "H4"),
      breaking("7.4.4", 1,
               [](QPDF& pdf) {
                 rename(pdf, "H1", "H");
                 rename(pdf, "H2", "H");
               }),
      {{{"7.4.4", 2}, {"7.4.4", 3}},
       [](const std::string& good) {
         return edited(good, [](QPDF& pdf) {
           Planter(pdf, "H").plant(find_element(pdf, "Sect"));
         });
       }},
  };
}

}  // namespace

std::vector<Break> structure_breaks() {
  std::vector<Break> all = tree_breaks();
  const struct {
    int test;
    const char* plan;
  } plans[] = {
      {3, "Table(P TR(TH))"},
      {4, "TR(TH)"},
      {5, "THead(TR(TH))"},
      {6, "TBody(TR(TH))"},
      {7, "TFoot(TR(TH))"},
      {8, "TH"},
      {9, "TD"},
      {10, "Table(TR(TH P))"},
      {11, "Table(THead(TR(TH)) THead(TR(TH)) TBody(TR(TH)))"},
      {12, "Table(TFoot(TR(TH)) TFoot(TR(TH)) TBody(TR(TH)))"},
      {13, "Table(TFoot(TR(TH)))"},
      {14, "Table(THead(TR(TH)))"},
      {15, "Table(TR(TH TH:r2 TH) TR(TH:c2))"},
      {16, "Table(TR(TH) Caption TR(TH))"},
      {17, "LI(LBody)"},
      {18, "LBody"},
      {19, "L(P LI(LBody))"},
      {20, "L(LI(P))"},
      {36, "Table(THead(P) TBody(TR(TH)))"},
      {37, "Table(TBody(P))"},
      {38, "Table(TFoot(P) TBody(TR(TH)))"},
      {39, "Table(Caption TR(TH) Caption)"},
      {40, "L(LI(LBody) Caption)"},
      {41, "Table(TR(TH:r2))"},
      {42, "Table(TR(TH TH) TR(TH))"},
      {43, "Table(TR(TH) TR(TH TH))"},
  };
  for (const auto& [test, plan] : plans) {
    all.push_back(planting("7.2", test, plan));
  }
  all.push_back(planting("7.5", 1, "Table(TR(TH TD))"));
  all.push_back(planting("7.5", 2, "Table(TR(TH TD:h))"));
  return all;
}

}  // namespace pdfua
