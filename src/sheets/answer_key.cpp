// The teacher's key: for every sheet of the packet that has answers, the same
// filled in, in small.

#include "layout/block.h"
#include "layout/text_block.h"
#include "sheets/own_words.h"
#include "sheets/sheet.h"

namespace sheaf::answer_key_sheet {
namespace {

using namespace literals;

void compose(const SheetInput& in, Composer& c) {
  for (const PlannedSheet& sheet : in.packet) {
    if (sheet.kind->answers == nullptr) continue;
    const From from(c, sheet.span);
    add_subheading(c, c.style().teacher_size, sheet.kind->title, 5_mm);
    sheet.kind->answers(input_of(in, sheet), c);
  }
  // The script has them, where there is one.
  if (!in.has_script) add_own_words(in, c);
  save_pages(c.blocks(), c.body().height, 0.5);
}

std::string missing(const SheetInput& in) {
  for (const PlannedSheet& sheet : in.packet) {
    if (sheet.kind->answers != nullptr) return "";
  }
  return "no sheet of the packet has answers";
}

const SheetKind kKind = {
    .name = "answer-key",
    .title = "Answer key",
    .summary = "every sheet that has answers, filled in",
    .for_teacher = true,
    .missing = missing,
    .compose = compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::answer_key_sheet
