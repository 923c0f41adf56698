#include "heard/heard.h"

#include <algorithm>
#include <set>

namespace heard {

namespace {

// Words apart by single spaces, none at the ends.
std::string tidy(const std::string& text) {
  std::string result;
  for (const char c : text) {
    const bool space = c == ' ' || c == '\n' || c == '\t' || c == '\r';
    if (space && (result.empty() || result.back() == ' ')) continue;
    result += space ? ' ' : c;
  }
  if (!result.empty() && result.back() == ' ') result.pop_back();
  return result;
}

bool ends_a_sentence(const std::string& text) {
  return !text.empty() && std::string(".!?:").find(text.back()) != text.npos;
}

void add_text(const Element& element, bool with_blocks, std::string& text) {
  for (const Element::Kid& kid : element.kids) {
    if (kid.element.empty()) {
      text += kid.text;
      continue;
    }
    const Element& inner = kid.element.front();
    if (inner.type == "Figure") {
      const std::string picture = tidy(text_of(inner));
      text += picture.empty() ? " picture without words. "
                              : " picture: " + picture +
                                    (ends_a_sentence(picture) ? " " : ". ");
    } else if (!is_block(inner)) {
      add_text(inner, with_blocks, text);
    } else if (with_blocks) {
      text += ' ';
      add_text(inner, with_blocks, text);
      text += ' ';
    }
  }
}

int count_kids(const Element& element, const std::string& type) {
  return static_cast<int>(std::count_if(
      element.kids.begin(), element.kids.end(), [&](const Element::Kid& kid) {
        return !kid.element.empty() && kid.element.front().type == type;
      }));
}

std::string counted(int count, const std::string& one) {
  return std::to_string(count) + " " + one + (count == 1 ? "" : "s");
}

void add_rows(const Element& element, std::vector<const Element*>& rows) {
  for (const Element::Kid& kid : element.kids) {
    if (kid.element.empty()) continue;
    const Element& inner = kid.element.front();
    if (inner.type == "TR") {
      rows.push_back(&inner);
    } else if (inner.type[0] == 'T') {
      add_rows(inner, rows);
    }
  }
}

std::string announced_table(const Element& table) {
  std::vector<const Element*> rows;
  add_rows(table, rows);
  int columns = 0;
  if (!rows.empty()) {
    for (const Element::Kid& kid : rows.front()->kids) {
      if (!kid.element.empty()) columns += kid.element.front().columns;
    }
  }
  return "table, " + counted(static_cast<int>(rows.size()), "row") + ", " +
         counted(columns, "column");
}

std::string announced_cell(const Element& cell) {
  std::string name = "cell";
  if (cell.type == "TH") {
    name = cell.scope == "Column" ? "column head"
           : cell.scope == "Row"  ? "row head"
           : cell.scope == "Both" ? "row and column head"
                                  : "head of nothing";
  }
  if (cell.columns > 1) name += ", " + counted(cell.columns, "column");
  if (cell.rows > 1) name += ", " + counted(cell.rows, "row");
  return name;
}

std::string label_of(const Element& item) {
  for (const Element::Kid& kid : item.kids) {
    if (!kid.element.empty() && kid.element.front().type == "Lbl") {
      return tidy(text_of(kid.element.front()));
    }
  }
  return {};
}

// Lists, rows and their like have no words of their own; "" is not announced
// at all.
std::string announced(const Element& element) {
  const std::string& type = element.type;
  if (const int level = heading_level(element)) {
    return "heading " + std::to_string(level);
  }
  if (type == "P") return "paragraph";
  if (type == "L")
    return "list of " + std::to_string(count_kids(element, "LI"));
  if (type == "LI") {
    const std::string label = label_of(element);
    return label.empty() ? "item" : "item " + label;
  }
  if (type == "Table") return announced_table(element);
  if (type == "TR") return "row";
  if (type == "TH" || type == "TD") return announced_cell(element);
  if (type == "Figure") return "picture";
  if (type == "Caption") return "caption";
  if (type == "Note") return "note";
  if (type == "BlockQuote") return "quotation";
  return {};
}

bool is_group(const std::string& type) {
  static const std::set<std::string> groups = {"L", "Table", "TR"};
  return groups.count(type) > 0;
}

void add_lines(const Element& element, int depth, std::vector<Line>& lines);

void add_blocks(const Element& element, int depth, std::vector<Line>& lines) {
  for (const Element::Kid& kid : element.kids) {
    if (kid.element.empty()) continue;
    const Element& inner = kid.element.front();
    if (is_block(inner) && inner.type != "Lbl") add_lines(inner, depth, lines);
  }
}

// An item is one line: its label, and the text of its body.
void add_item(const Element& item, int depth, std::vector<Line>& lines) {
  const Element* body = &item;
  for (const Element::Kid& kid : item.kids) {
    if (!kid.element.empty() && kid.element.front().type == "LBody") {
      body = &kid.element.front();
    }
  }
  lines.push_back({&item, depth, announced(item), own_text_of(*body)});
  add_blocks(*body, depth + 1, lines);
}

void add_lines(const Element& element, int depth, std::vector<Line>& lines) {
  if (element.type == "LI") return add_item(element, depth, lines);
  const std::string name = announced(element);
  if (name.empty()) {
    // A group that is not announced, with words of its own or pictures that
    // stand between its blocks.
    for (const Element::Kid& kid : element.kids) {
      if (kid.element.empty()) {
        lines.push_back({&element, depth, "text", tidy(kid.text)});
      } else if (is_block(kid.element.front()) ||
                 kid.element.front().type == "Figure") {
        add_lines(kid.element.front(), depth, lines);
      } else {
        lines.push_back({&kid.element.front(), depth, "text",
                         own_text_of(kid.element.front())});
      }
    }
    return;
  }
  lines.push_back({&element, depth, name,
                   is_group(element.type) ? "" : own_text_of(element)});
  if (element.type != "Figure") add_blocks(element, depth + 1, lines);
}

}  // namespace

bool is_block(const Element& element) {
  static const std::set<std::string> inline_types = {
      "Span", "Quote", "Reference", "BibEntry", "Code",
      "Link", "Annot", "Formula",   "Form",     "Figure"};
  return inline_types.count(element.type) == 0;
}

int heading_level(const Element& element) {
  const std::string& type = element.type;
  const bool is_heading =
      type.size() == 2 && type[0] == 'H' && type[1] >= '1' && type[1] <= '6';
  return is_heading ? type[1] - '0' : 0;
}

std::string text_of(const Element& element) {
  std::string text;
  add_text(element, true, text);
  return tidy(text);
}

std::string own_text_of(const Element& element) {
  std::string text;
  add_text(element, false, text);
  return tidy(text);
}

std::vector<Line> lines_of(const Document& document) {
  std::vector<Line> lines;
  for (const Element& element : document.elements) {
    add_lines(element, 0, lines);
  }
  return lines;
}

std::string as_text(const Document& document, const std::string& heading) {
  std::string text;
  if (heading.empty()) {
    text =
        "title: " + document.title + "\nlanguage: " + document.language + "\n";
    for (const std::string& bookmark : document.bookmarks) {
      text += "bookmark: " + bookmark + "\n";
    }
  }
  bool is_wanted = heading.empty();
  for (const Line& line : lines_of(document)) {
    const bool is_top = heading_level(*line.element) == 1;
    if (is_top && !heading.empty()) is_wanted = line.text == heading;
    if (!is_wanted) continue;
    if (is_top && !text.empty()) text += '\n';
    text += std::string(static_cast<std::size_t>(line.depth) * 2, ' ');
    text += line.announced;
    if (!line.element->language.empty()) {
      text += ", in " + line.element->language;
    }
    if (!is_group(line.element->type)) {
      // "item 1. Say": a label with a full stop needs no colon.
      text += line.announced.back() == '.' ? " " : ": ";
      text += line.text.empty() ? "(nothing)" : line.text;
    }
    text += '\n';
  }
  return text;
}

}  // namespace heard
