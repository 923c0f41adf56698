#include "layout/frame.h"

#include <fmt/format.h>

#include "layout/heard.h"
#include "layout/text_block.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kNameRow = 10_mm;     // learner's pages only
constexpr Length kAfterHeader = 5_mm;  // between the frame and the body
constexpr Length kFooter = 8_mm;
constexpr Ink kFooterInk = 60;

struct HeaderPlan {
  Length heading_top;
  Length direction_top;
  Length direction_left;
  Length height;
  std::vector<TextLine> direction;
};

Length icon_side(const Style& style) { return scaled(style.text_size, 1.45); }

bool has_name_row(const Style& style, const FrameText& text) {
  return style.has_name_line && !text.for_teacher;
}

HeaderPlan plan_header(const Style& style, Composer& composer,
                       const FrameText& text) {
  HeaderPlan plan;
  plan.heading_top = has_name_row(style, text) ? kNameRow : Length();
  const TextStyle heading = style.text(style.heading_size, true);
  plan.direction_top = plan.heading_top + heading.line_height();
  const TextStyle direction =
      text.for_teacher ? style.teacher_text() : style.learner_text();
  if (text.action != Action::none) {
    plan.direction_left = icon_side(style) + 3_mm;
  }
  plan.direction = break_lines(composer, direction, text.direction,
                               style.body().width - plan.direction_left);
  plan.height = plan.direction_top +
                direction.line_height() *
                    static_cast<std::int64_t>(plan.direction.size()) +
                kAfterHeader;
  return plan;
}

// A part of an element that is said in its own words; on later pages it is
// header as all the frame.
ElementId heard_in(Composer& composer, ElementId element, std::string text) {
  return is_artifact(element) ? element
                              : add_heard(composer, element, std::move(text));
}

// What stands at the right of the heading.
std::string title_text(const FrameText& text) {
  if (!text.for_teacher) return text.title;
  return text.title.empty() ? "for the teacher"
                            : text.title + " · for the teacher";
}

// A label with a line to write on; what is known already stands on the line.
// It is heard as "Name B7" or "Name blank".
void draw_fill_in_line(Block& block, Composer& composer, const Style& style,
                       std::string_view label, std::string_view known,
                       Length left, Length right, ElementId element) {
  const TextStyle text = style.text(style.text_size);
  const Length base = 6.5_mm;
  const Length width =
      draw_text(composer, block, text, label, {left, base}, element);
  const Length start = left + width + 2_mm;
  block.line(
      {start, base}, {right, base}, {.width = style.box_weight},
      known.empty() ? heard_in(composer, element, "blank") : kDecoration);
  if (known.empty()) return;
  draw_text(composer, block, style.text(style.text_size, true), known,
            {start + 2_mm, base - 1_mm}, element);
}

Block draw_header(Composer& composer, const FrameText& text,
                  const HeaderPlan& plan, const FrameElements& elements) {
  const Style& style = composer.style();
  const Length width = style.body().width;
  Block block;
  if (has_name_row(style, text)) {
    draw_fill_in_line(block, composer, style, "Name", text.learner, Length(),
                      width * 62 / 100, elements.name);
    draw_fill_in_line(block, composer, style, "Date", {}, width * 66 / 100,
                      width, elements.date);
  }
  const TextStyle heading = style.text(style.heading_size, true);
  const Length base = plan.heading_top + baseline_in_line(heading);
  draw_text(composer, block, heading, text.sheet, {Length(), base},
            text.heard_heading.empty()
                ? elements.heading
                : heard_in(composer, elements.heading, text.heard_heading));
  if (const std::string right = title_text(text); !right.empty()) {
    const TextStyle small = style.text(
        text.for_teacher ? scaled(style.heading_size, 0.7)
                         : style.at_least(scaled(style.heading_size, 0.7)));
    const GlyphRun run = composer.shape(small, right);
    const bool two_parts = text.for_teacher && !text.title.empty();
    block.glyphs(run, {width - width_of(run), base},
                 two_parts ? heard_in(composer, elements.title,
                                      text.title + ", for the teacher")
                           : elements.title,
                 kFooterInk);
  }
  const TextStyle direction =
      text.for_teacher ? style.teacher_text() : style.learner_text();
  Length y = plan.direction_top + baseline_in_line(direction);
  for (const TextLine& line : plan.direction) {
    draw_line(composer, block, line, {plan.direction_left, y},
              elements.direction);
    y += direction.line_height();
  }
  if (text.action != Action::none) {
    const Length side = icon_side(style);
    const Length middle = plan.direction_top + direction.line_height() / 2;
    draw_action(block, text.action, {Length(), middle - side / 2}, side);
  }
  return block;
}

Block draw_footer(Composer& composer, const FrameText& text, std::size_t page,
                  std::size_t pages) {
  const Style& style = composer.style();
  TextStyle small = style.text(style.footer_size);
  small.ink = kFooterInk;
  Block block;
  std::string left = text.sheet;
  if (!text.day.empty()) left = text.day + " · " + left;
  const std::string right =
      fmt::format("{} of {} · {}{}", page, pages,
                  text.learner.empty() ? "" : text.learner + " · ", text.code);
  draw_text(composer, block, small, left, {}, kPageFooter);
  const GlyphRun run = composer.shape(small, right);
  block.glyphs(run, {style.body().width - width_of(run), Length()}, kPageFooter,
               kFooterInk);
  return block;
}

void append(std::vector<Mark>& marks, Block block, Point at) {
  for (Mark& mark : block.marks) {
    shift(mark, at);
    marks.push_back(std::move(mark));
  }
}

}  // namespace

Rect body_inside(const Style& style, Composer& composer,
                 const FrameText& text) {
  const Rect all = style.body();
  const HeaderPlan plan = plan_header(style, composer, text);
  return {all.x, all.y + plan.height, all.width,
          all.height - plan.height - kFooter};
}

FrameElements add_frame_elements(Composer& composer, const FrameText& text) {
  FrameElements elements;
  elements.heading = composer.add(Role::heading1);
  if (!title_text(text).empty()) {
    elements.title = composer.add(Role::paragraph);
  }
  if (has_name_row(composer.style(), text)) {
    elements.name = composer.add(Role::paragraph);
    elements.date = composer.add(Role::paragraph);
  }
  if (!text.direction.empty()) {
    elements.direction = composer.add(Role::paragraph);
  }
  return elements;
}

void draw_frame(std::vector<Page>& pages, Composer& composer,
                const FrameText& text, const FrameElements& elements) {
  const Rect all = composer.style().body();
  const HeaderPlan plan = plan_header(composer.style(), composer, text);
  constexpr FrameElements kHeard = {kPageHeader, kPageHeader, kPageHeader,
                                    kPageHeader, kPageHeader};
  for (std::size_t i = 0; i < pages.size(); ++i) {
    Page& page = pages[i];
    std::vector<Mark> marks;
    const FrameElements& own = i == 0 ? elements : kHeard;
    // The backs of cards have nothing on them but the cards.
    if (!page.is_back) {
      append(marks, draw_header(composer, text, plan, own), {all.x, all.y});
    }
    marks.insert(marks.end(), std::make_move_iterator(page.marks.begin()),
                 std::make_move_iterator(page.marks.end()));
    append(marks, draw_footer(composer, text, i + 1, pages.size()),
           {all.x, all.bottom() - 1.5_mm});
    page.marks = std::move(marks);
  }
}

}  // namespace sheaf
