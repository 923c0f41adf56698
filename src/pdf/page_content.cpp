#include "pdf/page_content.h"

#include <algorithm>
#include <string_view>
#include <variant>

#include "pdf/operators.h"
#include "pdf/word_spaces.h"

namespace sheaf {

namespace {

// A dash of no length with round ends is a dot; with square ends it would be
// nothing at all.
bool has_round_ends(const Stroke& stroke) {
  const bool dotted = stroke.dash.on == Length() && stroke.dash.off > Length();
  return stroke.round_ends || dotted;
}

// What a reader skips, by its type (ISO 32000-1, 14.8.2.2.2).
std::string_view artifact(ElementId element) {
  if (element == kPageHeader) {
    return "/Artifact<</Type/Pagination/Subtype/Header>>BDC\n";
  }
  if (element == kPageFooter) {
    return "/Artifact<</Type/Pagination/Subtype/Footer>>BDC\n";
  }
  return "/Artifact<</Type/Layout>>BDC\n";
}

}  // namespace

PageContent::PageContent(StructureTree& tree, TextOperators& texts,
                         PictureSet& pictures)
    : tree_(tree), texts_(texts), pictures_(pictures) {}

const std::string& PageContent::write(const Page& page, std::uint32_t index,
                                      ElementId shift) {
  out_.clear();
  used_.clear();
  state_ = {};
  height_ = page.size.height;
  page_ = index;
  shift_ = shift;
  const std::vector<bool> spaces = find_word_spaces(page, tree_, shift);
  for (std::size_t i = 0; i < page.marks.size(); ++i) {
    space_after_ = spaces[i];
    std::visit([this](const auto& kind) { write(kind); }, page.marks[i]);
  }
  end_content();
  // Some readers complain of a stream without any content.
  if (out_.empty()) out_ = "\n";
  return out_;
}

void PageContent::belong_to(ElementId element_of_part) {
  const ElementId element =
      is_artifact(element_of_part) ? element_of_part : element_of_part + shift_;
  if (is_open_ && element == element_) return;
  end_content();
  if (is_artifact(element)) {
    out_ += artifact(element);
  } else {
    out_ += '/';
    out_ += structure_type(tree_.role(element));
    out_ += "<</MCID ";
    append_integer(out_, tree_.add_content(element, page_));
    const std::string_view replacement = tree_.replacement(element);
    if (!replacement.empty()) {
      // All of it stands for the first piece, nothing for the others.
      const bool is_first = replaced_.insert(element).second;
      std::string stated(is_first ? replacement : std::string_view());
      if (is_first && tree_.has_space_after(element)) stated += ' ';
      out_ += "/ActualText";
      append_text_string(out_, stated);
    }
    out_ += ">>BDC\n";
  }
  element_ = element;
  is_open_ = true;
  is_in_figure_ = !is_artifact(element) && tree_.is_in_figure(element);
}

void PageContent::end_content() {
  end_strokes();
  if (is_open_) out_ += "EMC\n";
  is_open_ = false;
}

void PageContent::end_strokes() {
  if (is_stroking_) out_ += "S\n";
  is_stroking_ = false;
}

void PageContent::set_fill(Ink ink) {
  if (ink == state_.fill) return;
  append_grey(out_, ink);
  out_ += " g\n";
  state_.fill = ink;
}

void PageContent::set_stroke(const Stroke& stroke) {
  Stroke& now = state_.stroke;
  if (stroke.width != now.width) {
    append_length(out_, stroke.width);
    out_ += " w\n";
  }
  if (stroke.ink != now.ink) {
    append_grey(out_, stroke.ink);
    out_ += " G\n";
  }
  if (!(stroke.dash == now.dash)) {
    out_ += '[';
    if (stroke.dash.on != Length() || stroke.dash.off != Length()) {
      append_operand(out_, stroke.dash.on);
      append_length(out_, stroke.dash.off);
    }
    out_ += "]0 d\n";
  }
  const bool round = has_round_ends(stroke);
  if (round != now.round_ends) out_ += round ? "1 J\n" : "0 J\n";
  now = stroke;
  now.round_ends = round;
}

// Opens a path for strokes, or goes on with the one that waits: many lines of
// one kind are painted with one operator.
void PageContent::begin_stroke(const Stroke& stroke) {
  Stroke wanted = stroke;
  wanted.round_ends = has_round_ends(stroke);
  if (is_stroking_ && wanted == state_.stroke) return;
  end_strokes();
  set_stroke(wanted);
  is_stroking_ = true;
}

template <typename AppendShape>
void PageContent::paint(bool filled, Ink fill, bool stroked,
                        const Stroke& stroke, AppendShape append_shape) {
  if (!filled && !stroked) return;
  if (!filled) {
    begin_stroke(stroke);
    append_shape();
    return;
  }
  end_strokes();
  set_fill(fill);
  if (stroked) set_stroke(stroke);
  append_shape();
  out_ += stroked ? "B\n" : "f\n";
}

void PageContent::append_point(Point point) {
  append_operand(out_, point.x);
  append_operand(out_, height_ - point.y);
}

void PageContent::note_used(std::size_t number) {
  if (std::find(used_.begin(), used_.end(), number) == used_.end()) {
    used_.push_back(number);
  }
}

void PageContent::cover(Point a, Point b, Length margin) {
  if (!is_in_figure_) return;
  const auto [left, right] = std::minmax(a.x, b.x);
  const auto [top, bottom] = std::minmax(a.y, b.y);
  tree_.cover(element_, page_,
              {left - margin, height_ - bottom - margin,
               right - left + margin * 2, bottom - top + margin * 2});
}

void PageContent::write(const GlyphMark& mark) {
  const ShapedText& shape = *mark.run.shape;
  if (shape.glyphs.empty()) return;
  belong_to(mark.element);
  end_strokes();
  if (!is_artifact(element_)) tree_.label(element_, shape.text);
  set_fill(mark.ink);
  out_ += "BT\n";
  append_point(mark.at);
  out_ += "Td\n";
  texts_.append(out_, mark.run, state_.text, space_after_);
  out_ += "ET\n";
  if (!is_in_figure_) return;
  const InkSpan ink = ink_of(mark.run, 0, shape.text.size());
  const Font& face = *shape.font;
  cover({mark.at.x + ink.left,
         mark.at.y - at_size(face, mark.run.size, face.ascent())},
        {mark.at.x + ink.right,
         mark.at.y + at_size(face, mark.run.size, face.descent())},
        Length());
}

void PageContent::write(const LineMark& mark) {
  belong_to(mark.element);
  begin_stroke(mark.stroke);
  append_point(mark.from);
  out_ += "m\n";
  append_point(mark.to);
  out_ += "l\n";
  cover(mark.from, mark.to, mark.stroke.width / 2);
}

void PageContent::write(const RectMark& mark) {
  belong_to(mark.element);
  paint(mark.filled, mark.fill, mark.stroked, mark.stroke, [&] {
    append_point({mark.rect.x, mark.rect.bottom()});
    append_operand(out_, mark.rect.width);
    append_length(out_, mark.rect.height);
    out_ += " re\n";
  });
  cover({mark.rect.x, mark.rect.y}, {mark.rect.right(), mark.rect.bottom()},
        mark.stroked ? mark.stroke.width / 2 : Length());
}

void PageContent::write(const DotMark& mark) {
  belong_to(mark.element);
  if (mark.hollow && mark.ring < mark.diameter) {
    end_strokes();
    const std::size_t number =
        pictures_.use(Ring{mark.diameter, mark.ring, mark.ink});
    note_used(number);
    PictureSet::append_ring(out_, number,
                            {mark.centre.x, height_ - mark.centre.y});
  } else {
    // A line of no length with round ends: the reader's own circle, in a
    // fifth of the bytes.
    begin_stroke({mark.diameter, mark.ink, {}, true});
    append_point(mark.centre);
    out_ += "m\n";
    append_point(mark.centre);
    out_ += "l\n";
  }
  cover(mark.centre, mark.centre, mark.diameter / 2);
}

void PageContent::write(const PathMark& mark) {
  belong_to(mark.element);
  paint(mark.filled, mark.fill, mark.stroked, mark.stroke, [&] {
    append_path(out_, mark.path,
                [&](Point point) { append_point(mark.at + point); });
  });
  if (!is_in_figure_) return;
  const Length margin = mark.stroked ? mark.stroke.width / 2 : Length();
  for (const PathStep& step : mark.path) {
    if (step.kind == PathStep::Kind::close) continue;
    cover(mark.at + step.to, mark.at + step.to, margin);
  }
}

void PageContent::write(const PictureMark& mark) {
  belong_to(mark.element);
  end_strokes();
  const auto* jpeg = std::get_if<JpegImage>(&mark.picture->image);
  if (jpeg && jpeg->components == 4) has_ink_colours_ = true;
  const Rect& box = mark.box;
  const std::size_t number =
      pictures_.use(*mark.picture, {box.width, box.height}, mark.grey);
  note_used(number);
  pictures_.append_painting(
      out_, number, {box.x, height_ - box.bottom(), box.width, box.height});
  cover({box.x, box.y}, {box.right(), box.bottom()}, Length());
}

}  // namespace sheaf
