#include "sheets/script_lines.h"

#include "layout/numbered_steps.h"
#include "layout/text_block.h"

namespace sheaf {

namespace {

std::string_view lead_text(Lead lead) {
  switch (lead) {
    case Lead::show:
      return "Show";
    case Lead::say:
      return "Say";
    case Lead::wait:
      return "Wait for";
    case Lead::done_when:
      return "Done when";
    case Lead::act:
      break;
  }
  return "Do";
}

}  // namespace

void add_script_lines(Composer& composer, const ScriptLines& lines) {
  std::vector<LabelledText> texts;
  for (const ScriptLine& line : lines) {
    texts.push_back({std::string(lead_text(line.lead)), line.text});
  }
  add_labelled_texts(composer, composer.style().teacher_text(),
                     composer.style().teacher_text(true), texts,
                     lead_text(Lead::done_when));
}

}  // namespace sheaf
