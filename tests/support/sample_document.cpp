#include "support/sample_document.h"
#include "files/disk_files.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <map>

#include "base/shuffle.h"

namespace sheaf::testing_support {

namespace {

Length pt(double value) { return Length::from_pt(value); }

// A pen that writes one page from the top down.
class PageWriter {
 public:
  PageWriter(DocumentMaker& maker, Document& document, Page& page)
      : maker_(maker), document_(document), page_(page) {}

  ElementId element(Role role, ElementId parent) {
    return document_.add({role, parent});
  }
  ElementId figure(ElementId parent, std::string alternative) {
    return document_.add({Role::figure, parent, std::move(alternative)});
  }
  ElementId header(Scope scope, ElementId row) {
    return document_.add({Role::header_cell, row, {}, scope});
  }
  void text(ElementId element, std::string_view words, double x, double y,
            double size, FontRole role = FontRole::regular) {
    page_.marks.push_back(GlyphMark{
        maker_.run(words, size, role), {pt(x), pt(y)}, kBlack, element});
  }
  ElementId say(Role role, ElementId parent, std::string_view words, double x,
                double y, double size, FontRole font = FontRole::regular) {
    const ElementId id = element(role, parent);
    text(id, words, x, y, size, font);
    return id;
  }
  void line(double x1, double y1, double x2, double y2, Stroke stroke,
            ElementId element = kDecoration) {
    page_.marks.push_back(
        LineMark{{pt(x1), pt(y1)}, {pt(x2), pt(y2)}, stroke, element});
  }
  template <typename AnyMark>
  void mark(AnyMark mark) {
    page_.marks.push_back(std::move(mark));
  }

 private:
  DocumentMaker& maker_;
  Document& document_;
  Page& page_;
};

constexpr std::array<const char*, 32> kWords = {
    "boat",  "coat",  "float", "groan",  "loaf",  "moat",  "oak",   "oats",
    "roast", "soak",  "toast", "throat", "coach", "cloak", "croak", "foam",
    "goal",  "goat",  "load",  "loan",   "poach", "road",  "roam",  "soap",
    "toad",  "boast", "coast", "coal",   "moan",  "oath",  "roach", "shoal"};

constexpr std::array<const char*, 8> kSentences = {
    "The goat sat on the road in the rain.",
    "A toad can float on a big log.",
    "Soak the oats and then toast the loaf.",
    "The coach ran up the coast road.",
    "Load the coal and go down the road.",
    "The loaf on the oak shelf is still hot.",
    "I left my coat and my soap on the boat.",
    "The moan from the moat made him groan."};

// An outline in a box of 2000 by 2000 units.
Path house(std::int64_t unit = 1) {
  const auto at = [unit](int x, int y) {
    return Point{Length::from_mils(x * unit), Length::from_mils(y * unit)};
  };
  Path path;
  const auto add = [&](PathStep::Kind kind, Point to, Point control1 = {},
                       Point control2 = {}) {
    path.push_back({kind, to, control1, control2});
  };
  add(PathStep::Kind::move, at(1000, 200));
  add(PathStep::Kind::line, at(1900, 1000));
  add(PathStep::Kind::line, at(1700, 1000));
  add(PathStep::Kind::line, at(1700, 1800));
  add(PathStep::Kind::line, at(300, 1800));
  add(PathStep::Kind::line, at(300, 1000));
  add(PathStep::Kind::line, at(100, 1000));
  add(PathStep::Kind::close, {});
  add(PathStep::Kind::move, at(800, 1800));
  add(PathStep::Kind::line, at(1200, 1800));
  add(PathStep::Kind::line, at(1200, 1300));
  add(PathStep::Kind::curve, at(800, 1300), at(1200, 1000), at(800, 1000));
  add(PathStep::Kind::close, {});
  return path;
}

void furniture(PageWriter& page, std::size_t number) {
  page.text(kDecoration, "Name", 43, 60, 12);
  page.line(80, 62, 320, 62, {pt(0.75)});
  page.text(kDecoration, "Date", 340, 60, 12);
  page.line(376, 62, 560, 62, {pt(0.75)});
  page.text(kDecoration, "day 1 \u00B7 page " + std::to_string(number), 43, 752,
            9);
}

// A word with a touch mark under each letter, over a faint dotted line.
void word_with_marks(DocumentMaker& maker, PageWriter& page, ElementId parent,
                     const char* word, double x, double y) {
  const GlyphRun run = maker.run(word, 36);
  const ElementId id = page.element(Role::paragraph, parent);
  page.mark(GlyphMark{run, {pt(x), pt(y)}, kBlack, id});
  page.mark(LineMark{{pt(x), pt(y + 18)},
                     {pt(x) + width_of(run), pt(y + 18)},
                     {pt(1), 120, {Length(), pt(4)}, true}});
  for (std::size_t i = 0; i < run.shape->text.size(); ++i) {
    const InkSpan ink = ink_of(run, i, i + 1);
    page.mark(DotMark{{pt(x) + ink.middle(), pt(y + 18)}, pt(7)});
  }
}

// A row of a table: a number, a word, boxes to write into.
void box_row(PageWriter& page, ElementId table, int number, const char* word,
             double y) {
  const ElementId row = page.element(Role::table_row, table);
  const ElementId head = page.header(Scope::row, row);
  page.text(head, std::to_string(number), 43, y + 26, 14);
  page.say(Role::data_cell, row, word, 70, y + 26, 20);
  const ElementId boxes = page.element(Role::data_cell, row);
  const ElementId figure =
      page.figure(boxes, std::string("four empty boxes for ") + word);
  for (int box = 0; box < 4; ++box) {
    RectMark rect;
    rect.rect = {pt(200 + 62.0 * box), pt(y), pt(62), pt(36)};
    rect.stroke = {pt(1)};
    rect.element = figure;
    page.mark(rect);
    page.mark(DotMark{
        {pt(231 + 62.0 * box), pt(y - 8)}, pt(5), true, pt(1), kBlack, figure});
  }
}

}  // namespace

DocumentMaker::DocumentMaker(const std::string& fonts_folder)
    : library_(disk(), fonts_folder) {}

const Font& DocumentMaker::font(FontRole role) {
  return *library_.find("Andika", role);
}

GlyphRun DocumentMaker::run(std::string_view text, double size, FontRole role) {
  return run(font(role), text, size);
}

GlyphRun DocumentMaker::run(const Font& font, std::string_view text,
                            double size) {
  return {&shaper_.shape(font, text), pt(size), {}, {}};
}

const Picture& DocumentMaker::add(Picture picture) {
  pictures_.push_back(std::move(picture));
  return pictures_.back();
}

const Picture& DocumentMaker::drawing(const std::string& name) {
  for (const Picture& picture : pictures_) {
    if (picture.name == name) return picture;
  }
  LineDrawing drawing;
  drawing.box = {Length::from_mils(2000), Length::from_mils(2000)};
  drawing.path = house();
  return add({name, drawing});
}

const Picture& DocumentMaker::pixels(int width, int height, bool colour,
                                     bool alpha) {
  PixelImage image;
  image.width = width;
  image.height = height;
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const auto grey = static_cast<std::uint8_t>((x * 7 + y * 5) % 256);
      image.rgb.insert(image.rgb.end(),
                       {grey, colour ? std::uint8_t{80} : grey, grey});
      if (alpha) image.alpha.push_back(x < y ? 0 : 255);
    }
  }
  return add({"pattern", image});
}

Document DocumentMaker::one_of_everything() {
  Document document;
  document.title = "Week 3: \u201Cthe long o\u201D";
  document.language = "en-US";
  document.pages.resize(1);
  document.pages[0].size = {pt(612), pt(792)};
  document.pages[0].label = "discover 1";
  document.outline = {{"Discover \U0001F41F", 0}};
  PageWriter page(*this, document, document.pages[0]);
  furniture(page, 1);
  const ElementId section = page.element(Role::section, kDocumentElement);
  page.say(Role::heading1, section, "Look and say", 43, 100, 20,
           FontRole::bold);
  const ElementId first = page.element(Role::paragraph, section);
  page.text(first, "Mark the ", 43, 130, 14);
  const ElementId span = document.add(
      {.role = Role::span, .parent = first, .language = "fr"});
  const GlyphRun cafe = run("caf\u00E9", 14);
  const Length at = pt(43) + width_of(run("Mark the ", 14));
  page.mark(GlyphMark{cafe, {at, pt(130)}, kBlack, span});
  page.mark(GlyphMark{run(" and the moon: mo\u035Eon, m\u0103n.", 14),
                      {at + width_of(cafe), pt(130)},
                      kBlack,
                      first});

  page.say(Role::heading2, section, "Write", 43, 165, 16, FontRole::bold);
  const ElementId list = page.element(Role::list, section);
  for (int i = 0; i < 3; ++i) {
    const double y = 190 + 24.0 * i;
    const ElementId item = page.element(Role::list_item, list);
    page.say(Role::list_label, item, std::to_string(i + 1) + ".", 43, y, 14);
    page.say(Role::list_body, item, kWords[i], 70, y, 14);
    page.line(140, y + 2, 400, y + 2, {pt(0.5), 90, {pt(3), pt(2)}});
  }

  const ElementId table = page.element(Role::table, section);
  const ElementId head = page.element(Role::table_row, table);
  const auto header = [&](Scope scope, ElementId row, const char* words,
                          double x, double y) {
    page.text(page.header(scope, row), words, x, y, 12, FontRole::bold);
  };
  header(Scope::column, head, "word", 43, 280);
  header(Scope::column, head, "sounds", 140, 280);
  const ElementId row = page.element(Role::table_row, table);
  header(Scope::row, row, "goat", 43, 300);
  page.say(Role::data_cell, row, "3", 140, 300, 12);

  const ElementId pictures = page.element(Role::paragraph, section);
  const auto figure = [&](const Picture& picture, double x,
                          const char* alternative) {
    page.mark(PictureMark{&picture,
                          {pt(x), pt(330), pt(80), pt(60)},
                          page.figure(pictures, alternative)});
  };
  figure(drawing("house"), 43, "a house with a door");
  figure(drawing("house"), 143, "the same house");
  figure(pixels(30, 20, true, true), 243, "a pattern of stripes");
  figure(pixels(20, 20, false, false), 343, "a grey pattern");

  word_with_marks(*this, page, section, "toad", 60, 450);
  const ElementId shapes =
      page.figure(section, "two boxes, one of them shaded");
  page.mark(RectMark{
      {pt(60), pt(500), pt(60), pt(40)}, true, 200, true, {pt(1)}, shapes});
  page.mark(RectMark{{pt(130), pt(500), pt(60), pt(40)},
                     false,
                     kWhite,
                     true,
                     {pt(1), kBlack, {pt(3), pt(3)}},
                     shapes});
  page.mark(DotMark{{pt(220), pt(520)}, pt(12), true, pt(1.5), kBlack, shapes});
  page.mark(PathMark{
      house(10), {pt(250), pt(500)}, true, 128, true, {pt(0.5)}, shapes});
  page.line(280, 520, 330, 520, {pt(8), kBlack, {}, true}, shapes);
  return document;
}

Document DocumentMaker::worksheet(std::size_t pages, unsigned seed) {
  Document document;
  document.title = "Worksheets";
  document.pages.reserve(pages);
  Random random(seed);
  const auto word = [&] { return kWords[random.below(kWords.size())]; };
  for (std::size_t i = 0; i < pages; ++i) {
    document.pages.push_back({{pt(612), pt(792)}, {}, {}});
    document.pages.back().label = "sheet " + std::to_string(i + 1);
    if (i % 8 == 0) {
      document.outline.push_back({"Sheet " + std::to_string(i / 8 + 1),
                                  static_cast<std::uint32_t>(i)});
    }
    PageWriter page(*this, document, document.pages.back());
    furniture(page, i + 1);
    const ElementId section = page.element(Role::section, kDocumentElement);
    page.say(Role::heading1, section, "Read, tap and write", 43, 95, 20,
             FontRole::bold);
    page.say(Role::paragraph, section,
             "Touch each mark and say the sound. Then say the word.", 43, 118,
             14);
    for (int w = 0; w < 6; ++w) {
      const int row = w / 3;
      word_with_marks(*this, page, section, word(), 60 + 180.0 * (w % 3),
                      165 + 60.0 * row);
    }
    const ElementId table = page.element(Role::table, section);
    for (int r = 0; r < 5; ++r) {
      box_row(page, table, r + 1, word(), 280 + 52.0 * r);
    }
    for (int p = 0; p < 3; ++p) {
      const char* name = word();
      const ElementId picture = page.figure(section, name);
      page.mark(PictureMark{&drawing(name),
                            {pt(480), pt(270 + 84.0 * p), pt(76), pt(76)},
                            picture});
    }
    const ElementId words = page.element(Role::list, section);
    for (int w = 0; w < 9; ++w) {
      const ElementId item = page.element(Role::list_item, words);
      page.say(Role::list_body, item, word(), 43 + 58.0 * w, 545, 14);
    }
    const ElementId list = page.element(Role::list, section);
    for (int s = 0; s < 5; ++s) {
      const double y = 570 + 36.0 * s;
      const ElementId item = page.element(Role::list_item, list);
      page.say(Role::list_label, item, std::to_string(s + 1) + ".", 43, y, 14);
      page.say(Role::list_body, item,
               kSentences[random.below(kSentences.size())], 70, y, 14);
      page.line(70, y + 10, 560, y + 10, {pt(0.5), 140, {pt(2), pt(2)}});
      page.line(70, y + 20, 560, y + 20, {pt(0.75)});
    }
  }
  return document;
}

std::string text_in_order(const Document& document) {
  std::string text;
  for (const Page& page : document.pages) {
    for (const Mark& mark : page.marks) {
      const auto* glyphs = std::get_if<GlyphMark>(&mark);
      if (!glyphs) continue;
      if (!text.empty() && text.back() != ' ') text += ' ';
      text += glyphs->run.shape->text;
    }
  }
  return text;
}

namespace {

// What stands in an element: a kid, or a stretch of its own text, by where it
// first comes on the pages.
struct Piece {
  std::size_t place;
  ElementId kid;  // 0: text
  std::string text;
};

constexpr std::size_t kNowhere = ~std::size_t{0};

class TreeTeller {
 public:
  explicit TreeTeller(const Document& document) : document_(document) {
    std::size_t place = 0;
    for (const Page& page : document.pages) {
      ElementId last = kDecoration;
      for (const Mark& mark : page.marks) {
        const ElementId id =
            std::visit([](const auto& m) { return m.element; }, mark);
        ++place;
        if (id != kDecoration) {
          if (id != last) own_[id].push_back({place, 0, {}});
          if (const auto* glyphs = std::get_if<GlyphMark>(&mark)) {
            own_[id].back().text += glyphs->run.shape->text;
          }
        }
        last = id;
      }
    }
  }

  std::size_t first_place(ElementId id) const {
    std::size_t first = kNowhere;
    if (const auto own = own_.find(id); own != own_.end()) {
      first = own->second.front().place;
    }
    for (ElementId kid = id + 1; kid <= document_.elements.size(); ++kid) {
      if (document_.element(kid).parent == id) {
        first = std::min(first, first_place(kid));
      }
    }
    return first;
  }

  void tell(std::string& out, ElementId id, std::size_t depth) const {
    static const std::map<Role, const char*> names = {
        {Role::document, "Document"},
        {Role::section, "Sect"},
        {Role::heading1, "H1"},
        {Role::heading2, "H2"},
        {Role::heading3, "H3"},
        {Role::paragraph, "P"},
        {Role::list, "L"},
        {Role::list_item, "LI"},
        {Role::list_label, "Lbl"},
        {Role::list_body, "LBody"},
        {Role::table, "Table"},
        {Role::table_row, "TR"},
        {Role::header_cell, "TH"},
        {Role::data_cell, "TD"},
        {Role::figure, "Figure"},
        {Role::span, "Span"}};
    out.append(2 * depth, ' ').append(names.at(document_.element(id).role));
    out += '\n';
    std::vector<Piece> pieces;
    std::size_t last = 0;
    for (ElementId kid = id + 1; kid <= document_.elements.size(); ++kid) {
      if (document_.element(kid).parent != id) continue;
      // Kids keep their order; one without a place follows the one before it.
      const std::size_t place = first_place(kid);
      last = std::max(last, place == kNowhere ? last : place);
      pieces.push_back({last, kid, {}});
    }
    if (const auto own = own_.find(id); own != own_.end()) {
      pieces.insert(pieces.end(), own->second.begin(), own->second.end());
    }
    std::stable_sort(
        pieces.begin(), pieces.end(),
        [](const Piece& a, const Piece& b) { return a.place < b.place; });
    for (const Piece& piece : pieces) {
      if (piece.kid != 0) {
        tell(out, piece.kid, depth + 1);
      } else if (!piece.text.empty()) {
        out.append(2 * depth + 2, ' ').append("\"" + piece.text + "\"\n");
      }
    }
  }

 private:
  const Document& document_;
  std::map<ElementId, std::vector<Piece>> own_;
};

}  // namespace

std::string tree_in_order(const Document& document) {
  std::string text;
  TreeTeller(document).tell(text, kDocumentElement, 0);
  return text;
}

std::vector<PlacedGlyph> placed_glyphs(const Page& page) {
  std::vector<PlacedGlyph> all;
  for (const Mark& mark : page.marks) {
    const auto* glyphs = std::get_if<GlyphMark>(&mark);
    if (!glyphs) continue;
    const GlyphRun& run = glyphs->run;
    for (std::size_t i = 0; i < run.shape->glyphs.size(); ++i) {
      const ShapedGlyph& glyph = run.shape->glyphs[i];
      const Font& font = *run.shape->font;
      const Length x = glyphs->at.x + pen_before(run, i) +
                       at_size(font, run.size, glyph.x_offset);
      const Length y = glyphs->at.y - at_size(font, run.size, glyph.y_offset);
      all.push_back({run.shape->text.substr(glyph.text_begin,
                                            glyph.text_end - glyph.text_begin),
                     x.pt(), y.pt()});
    }
  }
  return all;
}

}  // namespace sheaf::testing_support
