// The reader of what is heard, and for each of our own rules a document that
// breaks it, and one that nearly does.

#include "heard/heard.h"

#include <gtest/gtest.h>

#include <functional>
#include <set>

#include "heard/edited_files.h"
#include "heard/heard_rules.h"
#include "pdf/pdf_writer.h"
#include "support/sample_document.h"

namespace heard {
namespace {

using sheaf::ElementId;
using sheaf::Role;
using sheaf::testing_support::DocumentMaker;

sheaf::Length pt(double points) { return sheaf::Length::from_pt(points); }

// A PDF file of one page, put together piece by piece.
class Small {
 public:
  Small() : maker_(SHEAF_FONTS) {
    document_.title = "Small";
    document_.language = "en-GB";
    document_.pages.push_back({{pt(612), pt(792)}, {}, {}});
    section_ = add({.role = Role::section, .parent = sheaf::kDocumentElement});
  }

  void call(const std::string& title) { document_.title = title; }
  ElementId add(sheaf::Element element) {
    return document_.add(std::move(element));
  }
  ElementId in_section(Role role, const std::string& text = {}) {
    const ElementId id = add({.role = role, .parent = section_});
    if (!text.empty()) write(id, text);
    return id;
  }
  ElementId in(ElementId parent, Role role, const std::string& text = {},
               const std::string& alternative = {}) {
    const ElementId id =
        add({.role = role, .parent = parent, .alternative = alternative});
    if (!text.empty()) write(id, text);
    return id;
  }
  void write(ElementId element, const std::string& text) {
    y_ += 20;
    document_.pages[0].marks.push_back(
        sheaf::GlyphMark{maker_.run(text, 14), at(), sheaf::kBlack, element});
  }
  void draw(ElementId element) {
    y_ += 20;
    document_.pages[0].marks.push_back(
        sheaf::RectMark{{at().x, at().y, pt(9), pt(9)},
                        false,
                        sheaf::kWhite,
                        true,
                        {pt(1)},
                        element});
  }
  // Items of which "" has nothing in it.
  void list(const std::vector<std::string>& items) {
    const ElementId list = in_section(Role::list);
    for (const std::string& item : items) {
      in(in(list, Role::list_item), Role::list_body, item);
    }
  }
  // A table of rows of cells; the first row is of heads, "" is empty.
  void table(const std::vector<std::vector<std::string>>& rows) {
    const ElementId table = in_section(Role::table);
    bool is_head = true;
    for (const auto& cells : rows) {
      const ElementId row = in(table, Role::table_row);
      for (const std::string& cell : cells) {
        const ElementId id =
            add({.role = is_head ? Role::header_cell : Role::data_cell,
                 .parent = row,
                 .scope = is_head ? sheaf::Scope::column : sheaf::Scope::none});
        if (!cell.empty()) write(id, cell);
      }
      is_head = false;
    }
  }

  std::string file() const { return sheaf::write_pdf(document_); }
  std::string told() const { return as_text(read(file())); }
  // The rules that it breaks, each once, in the order of the page.
  std::string broken() const {
    Knowledge knowledge;
    knowledge.words = {"ship", "shipping", "snail", "the",  "hit",
                       "no",   "nothing",  "note",  "into", "fish"};
    knowledge.everyday = {"the", "hit", "ship", "note", "nothing"};
    knowledge.signs = {{"/", ""}, {"·", ""}, {"–", " – "}};
    std::string rules;
    std::set<std::string> seen;
    for (const Fault& fault : faults_of(read(file()), knowledge)) {
      if (!seen.insert(fault.rule).second) continue;
      rules += (rules.empty() ? "" : " ") + fault.rule;
    }
    return rules;
  }

 private:
  sheaf::Point at() const { return {pt(40), pt(y_)}; }

  DocumentMaker maker_;
  sheaf::Document document_;
  ElementId section_;
  double y_ = 40;
};

std::string without_head(const std::string& told) {
  return told.substr(told.find("\n\n") + 2);
}

TEST(Heard, TellsOneOfEverything) {
  DocumentMaker maker(SHEAF_FONTS);
  EXPECT_EQ(as_text(read(sheaf::write_pdf(maker.one_of_everything()))),
            R"(title: Week 3: “the long o”
language: en-US
bookmark: Discover 🐟

heading 1: Look and say
paragraph: Mark the café and the moon: mo͞on, măn.
heading 2: Write
list of 3
  item 1. boat
  item 2. coat
  item 3. float
table, 2 rows, 2 columns
  row
    column head: word
    column head: sounds
  row
    row head: goat
    cell: 3
paragraph: picture: a house with a door. picture: the same house. picture: a pattern of stripes. picture: a grey pattern.
paragraph: toad
picture: two boxes, one of them shaded
)");
}

TEST(Heard, SaysWhatStandsForMarks) {
  Small small;
  small.in_section(Role::heading1, "Boxes");
  const ElementId line = small.in_section(Role::paragraph, "Name ");
  small.draw(small.in(line, Role::span, {}, "blank"));
  const ElementId item =
      small.in(small.in_section(Role::list), Role::list_item);
  const ElementId body = small.in(item, Role::list_body);
  small.draw(small.in(body, Role::figure, {}, "ship"));
  const ElementId boxes = small.in(body, Role::span, {}, "3 empty boxes");
  small.draw(boxes);
  small.write(boxes, "sh i p");
  EXPECT_EQ(without_head(small.told()),
            "heading 1: Boxes\n"
            "paragraph: Name blank\n"
            "list of 1\n"
            "  item: picture: ship. 3 empty boxes\n");
}

TEST(Heard, LeavesOutArtifacts) {
  Small small;
  small.in_section(Role::heading1, "Page");
  const ElementId line = small.in_section(Role::paragraph, "Name");
  small.write(sheaf::kDecoration, "between");
  small.write(line, "Date");
  small.write(sheaf::kPageFooter, "page 1 of 2");
  EXPECT_EQ(without_head(small.told()),
            "heading 1: Page\nparagraph: Name Date\n");
}

TEST(Heard, TellsSpansOfCellsAndEmptyOnes) {
  Small small;
  small.in_section(Role::heading1, "Table");
  const ElementId table = small.in_section(Role::table);
  const ElementId head = small.in(table, Role::table_row);
  small.write(small.add({.role = Role::header_cell,
                         .parent = head,
                         .scope = sheaf::Scope::column,
                         .columns = 2}),
              "Both");
  const ElementId row = small.in(table, Role::table_row);
  small.in(row, Role::data_cell, "one");
  small.in(row, Role::data_cell);
  EXPECT_EQ(without_head(small.told()),
            "heading 1: Table\n"
            "table, 2 rows, 2 columns\n"
            "  row\n"
            "    column head, 2 columns: Both\n"
            "  row\n"
            "    cell: one\n"
            "    cell: (nothing)\n");
}

TEST(Heard, SaysAnElementsReplacementInPlaceOfAllInIt) {
  Small small;
  small.in_section(Role::heading1, "Page");
  const ElementId line = small.in_section(Role::paragraph, "the ");
  small.in(line, Role::span, "sh i p");
  EXPECT_EQ(without_head(as_text(
                read(with_replacement(small.file(), "P", "the whole line")))),
            "heading 1: Page\nparagraph: the whole line\n");
}

TEST(Heard, ReadsTextInForms) {
  Small small;
  small.in_section(Role::heading1, "Page");
  small.in_section(Role::paragraph, "in a form");
  EXPECT_EQ(as_text(read(with_content_in_form(small.file()))), small.told());
}

TEST(Heard, TellsOnePartByItsHeading) {
  Small small;
  small.in_section(Role::heading1, "First");
  small.in_section(Role::paragraph, "one");
  small.in_section(Role::heading1, "Second");
  small.in_section(Role::paragraph, "two");
  EXPECT_EQ(as_text(read(small.file()), "Second"),
            "heading 1: Second\nparagraph: two\n");
  EXPECT_EQ(as_text(read(small.file()), "Third"), "");
}

// A document, and the rules that it breaks.
struct Case {
  const char* broken;
  std::function<void(Small&)> fill;
};

std::function<void(Small&)> saying(const std::string& text) {
  return [text](Small& s) { s.in_section(Role::paragraph, text); };
}

std::function<void(Small&)> picture(const std::string& words) {
  return [words](Small& s) {
    s.draw(s.in(s.in_section(Role::paragraph), Role::figure, {}, words));
  };
}

TEST(HeardRules, HaveEachACounterExample) {
  const std::vector<Case> cases = {
      {"", picture("a ship")},
      {"", picture("3 empty boxes, one for a sound")},
      {"figure-without-words", picture(" ")},
      {"generic-picture", picture("a picture to sort")},
      {"generic-picture", picture("the key picture, crossed out")},
      {"generic-picture", picture("Image")},
      {"picture-twice", picture("a picture of a fish")},
      {"picture-twice", picture("picture: fish")},
      {"", picture("key picture: fish")},
      {"bad-sign", [](Small& s) { s.call("/sh/: script"); }},

      {"",
       [](Small& s) {
         s.table({{"a", "b"}, {"c", ""}, {"", "d"}});
       }},
      {"empty-cell",
       [](Small& s) {
         s.table({{"a", "b"}, {"c", ""}});
       }},
      {"empty-cell",
       [](Small& s) {
         s.table({{"a", "b"}, {"c", "d"}, {"", ""}});
       }},
      {"",
       [](Small& s) {
         s.table({{"a", "b"}, {"c", "blank"}, {"blank", "blank"}});
       }},

      {"empty-item",
       [](Small& s) {
         s.list({"ship", ""});
       }},
      {"empty-item", [](Small& s) { s.in_section(Role::paragraph); }},
      {"empty-item",  // with its number, but nothing to do
       [](Small& s) {
         const ElementId item = s.in(s.in_section(Role::list), Role::list_item);
         s.in(item, Role::list_label, "1.");
         s.in(item, Role::list_body);
       }},
      {"",
       [](Small& s) {
         s.list({"a line to write on", "ship"});
       }},

      {"heading-alone",
       [](Small& s) {
         s.in_section(Role::heading1, "My writing");
         s.in_section(Role::heading2, "My sentences");
         s.in_section(Role::heading2, "Check");
         s.in_section(Role::paragraph, "It begins with a capital.");
       }},
      {"heading-alone",
       [](Small& s) { s.in_section(Role::heading1, "My writing"); }},
      {"",
       [](Small& s) {
         s.in_section(Role::heading1, "My writing");
         s.in_section(Role::heading2, "My sentences");
         s.in_section(Role::paragraph, "4 lines to write on");
       }},

      {"drawn-and-silent",
       [](Small& s) {
         s.draw(s.in(s.in_section(Role::paragraph, "here "), Role::span));
       }},
      {"", [](Small& s) { s.draw(s.in_section(Role::paragraph, "drawn")); }},

      {"run-together", saying("NameDate")},
      {"run-together", saying("the 26secure words")},
      {"run-together", saying("week26")},
      {"run-together", saying("Thehita!")},
      {"run-together", saying("box+es=nothingnote")},
      {"run-together", saying("one word.Another one")},
      {"run-together", saying("ai (rain, sail)right")},
      {"run-together",  // two words of the page
       [](Small& s) {
         s.in_section(Role::paragraph, "fish snail");
         s.in_section(Role::paragraph, "fishsnail");
       }},
      {"", saying("B7 read 14pt on the 2nd, A4, at 3.5 mm, by 6VR9, 7b")},
      {"", saying("shipping into nothing")},
      {"", saying("snale, pante and chran")},  // as learners write
      {"", saying("fish + ing = fishing")},

      {"bad-sign", saying("It says /sh/.")},
      {"bad-sign", saying("ship · fish")},
      {"bad-sign", saying("pages 1–2")},
      {"", saying("ship – it has sh")},

      {"lone-sign", saying("here is a , let it be seen!")},
      {"lone-sign", saying("It ends with . or ? or !")},
      {"", saying("here is a blank, let it be seen!")},

      {"heading-twice",
       [](Small& s) {
         for (int i = 0; i < 2; ++i) {
           s.in_section(Role::heading1, "Sound boxes");
           s.in_section(Role::paragraph, "Tap the sounds.");
         }
       }},
      {"",
       [](Small& s) {
         s.in_section(Role::heading1, "Sound boxes");
         s.in_section(Role::heading2, "Sound boxes");
         s.in_section(Role::paragraph, "Tap the sounds.");
       }},
  };
  std::set<std::string> shown;
  for (std::size_t i = 0; i < cases.size(); ++i) {
    Small small;
    cases[i].fill(small);
    EXPECT_EQ(small.broken(), cases[i].broken) << "case " << i << "\n"
                                               << small.told();
    shown.insert(cases[i].broken);
  }
  for (const std::string& rule : rule_names()) {
    EXPECT_TRUE(shown.contains(rule)) << rule;
  }
}

}  // namespace
}  // namespace heard
