#include "layout/page_dump.h"

#include <fmt/format.h>

#include "text/font.h"

namespace sheaf {

namespace {

constexpr std::string_view kRoleNames[] = {
    "document",    "section",   "heading1", "heading2",
    "heading3",    "paragraph", "list",     "list-item",
    "list-label",  "list-body", "table",    "table-row",
    "header-cell", "data-cell", "figure",   "span"};

std::string number(Length value) {
  const std::int64_t mils = value.mils();
  const std::int64_t whole = mils < 0 ? -mils : mils;
  return fmt::format("{}{}.{:03}", mils < 0 ? "-" : "", whole / 1000,
                     whole % 1000);
}

std::string point(Point p) {
  return fmt::format("{},{}", number(p.x), number(p.y));
}

std::string rect(const Rect& r) {
  return fmt::format("{},{} {}x{}", number(r.x), number(r.y), number(r.width),
                     number(r.height));
}

std::string stroke(const Stroke& s) {
  std::string text = fmt::format("w{} ink{}", number(s.width), s.ink);
  if (s.dash != Dash{}) {
    text += fmt::format(" dash{}/{}", number(s.dash.on), number(s.dash.off));
  }
  if (s.round_ends) text += " round";
  return text;
}

std::string owner(ElementId element) {
  if (element == kPageHeader) return "-header";
  if (element == kPageFooter) return "-footer";
  return element == kDecoration ? "-" : fmt::format("#{}", element);
}

struct MarkText {
  std::string operator()(const GlyphMark& m) const {
    std::string text = fmt::format(
        "text {} {} {} {}pt \"{}\"", owner(m.element), point(m.at),
        m.run.shape->font->name(), number(m.run.size), m.run.shape->text);
    if (m.ink != kBlack) text += fmt::format(" ink{}", m.ink);
    return text;
  }
  std::string operator()(const LineMark& m) const {
    return fmt::format("line {} {} {} {}", owner(m.element), point(m.from),
                       point(m.to), stroke(m.stroke));
  }
  std::string operator()(const RectMark& m) const {
    std::string text =
        fmt::format("rect {} {}", owner(m.element), rect(m.rect));
    if (m.filled) text += fmt::format(" fill{}", m.fill);
    if (m.stroked) text += " " + stroke(m.stroke);
    return text;
  }
  std::string operator()(const DotMark& m) const {
    return fmt::format("{} {} {} d{}", m.hollow ? "ring" : "dot",
                       owner(m.element), point(m.centre), number(m.diameter));
  }
  std::string operator()(const PathMark& m) const {
    std::string text = fmt::format("path {} {}", owner(m.element), point(m.at));
    for (const PathStep& s : m.path) {
      switch (s.kind) {
        case PathStep::Kind::move:
          text += " M" + point(s.to);
          break;
        case PathStep::Kind::line:
          text += " L" + point(s.to);
          break;
        case PathStep::Kind::curve:
          text += fmt::format(" C{} {} {}", point(s.control1),
                              point(s.control2), point(s.to));
          break;
        case PathStep::Kind::close:
          text += " Z";
          break;
      }
    }
    if (m.filled) text += fmt::format(" fill{}", m.fill);
    if (m.stroked) text += " " + stroke(m.stroke);
    return text;
  }
  std::string operator()(const PictureMark& m) const {
    return fmt::format("picture {} {} \"{}\"{}", owner(m.element), rect(m.box),
                       m.picture->name, m.grey ? " grey" : "");
  }
};

std::string place_text(const Document& document, const Span& span) {
  const SourceFile::Place place = span.file->place_of(span.begin);
  std::string_view name = span.file->name();
  name.remove_prefix(name.rfind('/') + 1);
  return span.file == document.source
             ? fmt::format("@{}:{}", place.line, place.column)
             : fmt::format("@{}:{}:{}", name, place.line, place.column);
}

void dump_elements(const Document& document, std::string& text) {
  std::vector<int> depth(document.elements.size() + 1, 0);
  for (std::size_t i = 0; i < document.elements.size(); ++i) {
    const Element& e = document.elements[i];
    const auto id = static_cast<ElementId>(i + 1);
    depth[id] = e.parent == 0 ? 0 : depth[e.parent] + 1;
    text += fmt::format("{:{}}#{} {}", "", 2 * depth[id], id,
                        kRoleNames[static_cast<int>(e.role)]);
    if (e.parent + 1 != id && e.parent != 0) {
      text += fmt::format(" in #{}", e.parent);
    }
    if (e.scope == Scope::row) text += " scope=row";
    if (e.scope == Scope::column) text += " scope=column";
    if (e.columns != 1) text += fmt::format(" columns={}", e.columns);
    if (e.rows != 1) text += fmt::format(" rows={}", e.rows);
    if (!e.language.empty()) text += " lang=" + e.language;
    if (!e.alternative.empty()) text += " alt=\"" + e.alternative + "\"";
    if (e.span &&
        (e.parent == 0 || document.element(e.parent).span != e.span)) {
      text += " " + place_text(document, e.span);
    }
    text += "\n";
  }
}

}  // namespace

std::string dump_pages(const Document& document) {
  std::string text = fmt::format("title \"{}\" language {}\n", document.title,
                                 document.language);
  dump_elements(document, text);
  for (std::size_t i = 0; i < document.pages.size(); ++i) {
    const Page& page = document.pages[i];
    text += fmt::format("page {} \"{}\" {}x{}\n", i + 1, page.label,
                        number(page.size.width), number(page.size.height));
    for (const Mark& mark : page.marks) {
      text += "  " + std::visit(MarkText{}, mark) + "\n";
    }
  }
  return text;
}

}  // namespace sheaf
