#include "reports/report_document.h"

#include <algorithm>

#include <array>

#include <fmt/format.h>

#include "layout/frame.h"
#include "layout/heard.h"
#include "layout/heard_text.h"
#include "layout/strokes.h"
#include "layout/table.h"
#include "layout/text_block.h"
#include "marking/score_words.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kPad = 1_mm;
constexpr Length kWidestCell = 44_mm;
constexpr Length kHeadingSize = 18_pt;
constexpr double kLeading = 1.3;

TextStyle small_text(const Composer& c, bool bold = false) {
  TextStyle style = c.style().teacher_text(bold);
  style.leading = 1.2;
  return style;
}

// One table: cells [begin, end) of every row.
class GridTable {
 public:
  GridTable(Composer& c, Length head_width, Length cell, std::size_t begin,
            std::size_t end)
      : c_(c),
        head_width_(head_width),
        cell_(cell),
        begin_(begin),
        end_(end),
        table_(c.add(Role::table)) {}

  void add_head(const std::string& corner,
                const std::vector<std::string>& heads) {
    const TextStyle bold = small_text(c_, true);
    Block& block = c_.block(bold.line_height() + kPad, 2_mm);
    block.keep_with_next = true;
    block.shade({Length(), Length(), width(), block.height}, kHeadGround);
    const ElementId row = c_.add(Role::table_row, table_);
    const Length base = kPad / 2 + baseline_in_line(bold);
    draw_text(c_, block, bold, corner, {kPad, base}, add_head_cell(c_, row));
    for (std::size_t i = begin_; i < end_; ++i) {
      const ElementId head = add_head_cell(c_, row);
      const std::string heard = heard_text(heads[i]);
      draw_centred(c_, block, bold, heads[i], {middle(i), base},
                   heard == heads[i] ? head : add_heard(c_, head, heard));
    }
    head_ = repeated_head(block);
  }

  void add_row(const GridRow& row) {
    const TextStyle text = small_text(c_);
    bool two = false;
    for (std::size_t i = begin_; i < end_; ++i) {
      two = two || !row.cells[i].below.empty();
    }
    const auto names =
        break_lines(c_, small_text(c_, true), row.head, head_width_ - 2 * kPad);
    const std::size_t lines =
        std::max(names.size(), std::size_t{two ? 2U : 1U});
    Block& block =
        c_.block(text.line_height() * static_cast<std::int64_t>(lines) + kPad);
    block.head = head_;
    const ElementId element = c_.add(Role::table_row, table_);
    const ElementId name = add_head_cell(c_, element, Scope::row);
    Length y = kPad / 2 + baseline_in_line(text);
    for (const TextLine& line : names) {
      draw_line(c_, block, line, {kPad, y}, name);
      y += text.line_height();
    }
    for (std::size_t i = begin_; i < end_; ++i) {
      draw_cell(block, row.cells[i], i, add_data_cell(c_, element));
    }
    block.line({Length(), block.height}, {width(), block.height},
               thin_stroke(c_.style()));
  }

 private:
  Length width() const {
    return head_width_ + cell_ * static_cast<std::int64_t>(end_ - begin_);
  }
  Length middle(std::size_t i) const {
    return head_width_ + cell_ * static_cast<std::int64_t>(i - begin_) +
           cell_ / 2;
  }

  void draw_cell(Block& block, const GridCell& cell, std::size_t i,
                 ElementId element) {
    const Rect inside{middle(i) - cell_ / 2 + 0.4_mm, 0.4_mm, cell_ - 0.8_mm,
                      block.height - 0.8_mm};
    if (cell.ground != kWhite) {
      block.shade(inside, cell.ground);
      block.frame(inside, cell.heavy_frame
                              ? Stroke{.width = c_.style().box_weight * 3 / 2}
                              : thin_stroke(c_.style()));
    }
    if (cell.few) {
      block.frame(inside,
                  {.width = c_.style().guide_weight, .dash = {1_mm, 0.8_mm}});
    }
    const TextStyle text = small_text(c_);
    const std::int64_t lines = cell.below.empty() ? 1 : 2;
    Length y = (block.height - text.line_height() * lines) / 2 +
               baseline_in_line(text);
    const ElementId figure =
        cell.heard.empty() ? element : add_heard(c_, element, cell.heard);
    if (!cell.figure.empty()) {
      draw_centred(c_, block, text, cell.figure, {middle(i), y}, figure);
    } else if (figure != element) {
      // Nothing can be heard where nothing is drawn; clear of the rules.
      block.shade({inside.x + kPad, inside.y + kPad, inside.width - 2 * kPad,
                   inside.height - 2 * kPad},
                  kWhite, figure);
    }
    if (!cell.below.empty()) {
      draw_centred(c_, block, text, cell.below,
                   {middle(i), y + text.line_height()}, element);
    }
  }

  Composer& c_;
  Length head_width_, cell_;
  std::size_t begin_, end_;
  ElementId table_;
  std::shared_ptr<const Block> head_;
};

// The style and the frame of a report, and the pages that come of it.
struct Made {
  std::vector<Page> pages;
  Style style;
};

Made make_report(const ReportMaker& maker, const ReportHead& head,
                 Document& document,
                 const std::function<void(Composer&)>& compose) {
  Made made{.pages = {}, .style = maker.style};
  FrameText frame;
  frame.sheet = head.heading;
  frame.title = head.title;
  if (head.bookmark != frame.sheet) frame.heard_heading = head.bookmark;
  frame.direction = head.caution.empty() ? kScoreCaution : head.caution;
  frame.code = head.code;
  frame.for_teacher = head.for_teacher;
  // Much has to stand on one page, and none of it is read aloud.
  Style& style = made.style;
  style.teacher_size = style.text_size = head.text_size;
  // The title beside the heading is smaller than it, and still no smaller than
  // the text.
  style.heading_size = std::max(kHeadingSize, scaled(head.text_size, 1 / 0.7));
  style.leading = kLeading;
  style.has_name_line = false;
  const ElementId section = document.add({Role::section, kDocumentElement});
  Composer outer(maker.shaper, style, document, section, style.body_size());
  const Rect body = body_inside(style, outer, frame);
  Composer composer(maker.shaper, style, document, section,
                    {body.width, body.height});
  const FrameElements elements = add_frame_elements(composer, frame);
  compose(composer);
  made.pages = paginate(composer.take(), body, style.paper);
  draw_frame(made.pages, composer, frame, elements);
  return made;
}

}  // namespace

bool fits_one_page(const ReportMaker& maker, const ReportHead& head,
                   const std::function<void(Composer&)>& compose) {
  Document tried;
  return make_report(maker, head, tried, compose).pages.size() <= 1;
}

Length room_left(Composer& c) {
  Length used;
  for (const Block& block : c.blocks()) {
    used += block.height + block.space_before;
  }
  return c.body().height - used;
}

std::string short_date(const Date& date) {
  constexpr std::array<std::string_view, 12> kMonths = {
      "Jan", "Feb", "Mar", "Apr", "May", "Jun",
      "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const auto month = static_cast<std::size_t>(std::clamp(date.month, 1, 12));
  return fmt::format("{} {}", date.day, kMonths[month - 1]);
}

void add_report(const ReportMaker& maker, ReportHead head,
                const std::function<void(Composer&)>& compose) {
  Document& document = maker.document;
  Made made = make_report(maker, head, document, compose);
  document.outline.push_back(
      {std::move(head.bookmark),
       static_cast<std::uint32_t>(document.pages.size())});
  for (Page& page : made.pages) document.pages.push_back(std::move(page));
}

std::vector<TextPiece> with_counts(const TextStyle& style,
                                   std::string_view text) {
  std::vector<TextPiece> pieces;
  std::string plain;  // what is gathered for the next piece without counts
  const auto end_plain = [&] {
    if (!plain.empty()) pieces.push_back({std::move(plain), style});
    plain.clear();
  };
  while (!text.empty()) {
    const std::size_t blank = std::min(text.find(' '), text.size());
    const std::size_t end = std::min(blank + 1, text.size());
    std::string heard = heard_count(text.substr(0, blank));
    if (heard.empty()) {
      plain += text.substr(0, end);
    } else {
      end_plain();
      pieces.push_back({.text = std::string(text.substr(0, end)),
                        .style = style,
                        .heard = std::move(heard)});
    }
    text.remove_prefix(end);
  }
  end_plain();
  return pieces;
}

void add_report_heading(Composer& c, std::string_view text) {
  add_subheading(c, c.style().teacher_size, text, 4_mm);
}

void add_grid(Composer& c, const std::string& corner,
              const std::vector<std::string>& heads,
              const std::vector<GridRow>& rows, Length head_width,
              Length least_cell) {
  const Length room = c.width() - head_width;
  const auto fit =
      static_cast<std::size_t>(std::max<std::int64_t>(1, room / least_cell));
  const std::size_t tables = (heads.size() + fit - 1) / fit;
  const std::size_t each =
      tables == 0 ? 0 : (heads.size() + tables - 1) / tables;
  for (std::size_t begin = 0; begin < heads.size(); begin += each) {
    const std::size_t end = std::min(begin + each, heads.size());
    const Length cell = std::min(
        kWidestCell,
        room / static_cast<std::int64_t>(std::max<std::size_t>(each, 1)));
    GridTable table(c, head_width, cell, begin, end);
    table.add_head(corner, heads);
    for (const GridRow& row : rows) table.add_row(row);
  }
}

}  // namespace sheaf
