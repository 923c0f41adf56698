#pragma once

#include <span>
#include <string>
#include <utility>
#include <vector>

#include "analysis/analyzed_lesson.h"
#include "layout/frame.h"
#include "packet/check_fit.h"
#include "packet/packet.h"
#include "sheets/sheet.h"

namespace sheaf {

/// What all sheets of one packet are made with. It refers to all of it and
/// owns nothing.
struct Bindery {
  const AnalyzedLesson& lesson;
  const LessonPictures& pictures;
  const Style& style;
  Shaper& shaper;
  const PacketFor& whom;
  SheetMemory& memory;
  bool has_script;  ///< the layout's teacher pages
  Week& week;
  int ear_items;  ///< see SheetInput
};

SheetInput sheet_input(const Bindery& b, const OptionValues& options,
                       std::span<const PlannedSheet> packet);

/// What stands around a sheet of the packet.
FrameText frame_text(const Bindery& b, const PlannedSheet& sheet,
                     std::span<const PlannedSheet> packet);

/// The place in a file that asks for the sheet. Where no layout does
/// (`--only`), the lesson itself does.
Span asked_for(const Bindery& b, const PlannedSheet& sheet);

/// One sheet's frame and what stands in it: `fill` adds the blocks. Where it
/// adds none there are no pages, and the document is left as it was.
template <typename Fill>
std::vector<Page> compose_framed(const Bindery& b, const Style& style,
                                 const FrameText& frame, const Span& asked_for,
                                 FitCheck& fit, Document& document, Fill fill) {
  const std::size_t before = document.elements.size();
  const ElementId section = document.add(
      {.role = Role::section, .parent = kDocumentElement, .span = asked_for});
  document.source = b.lesson.lesson->file;
  Composer outer(b.shaper, style, document, section, style.body_size());
  const Rect body = body_inside(style, outer, frame);
  if (!fit.check_body(body)) return {};
  Composer composer(b.shaper, style, document, section,
                    {body.width, body.height});
  const From from(composer, asked_for);
  const FrameElements elements = add_frame_elements(composer, frame);
  fill(composer);
  fit.check_blocks(composer);
  std::vector<Block> blocks = composer.take();
  if (blocks.empty()) {
    document.elements.resize(before);
    return {};
  }
  if (!style.fills_tints) outline_tints(blocks, style.guide_weight);
  std::vector<Page> pages = paginate(std::move(blocks), body, style.paper);
  draw_frame(pages, composer, frame, elements);
  fit.check_pages(pages);
  return pages;
}

}  // namespace sheaf
