// The steps are common practice, no source; the wording is ours.

#include "sheets/script_discovery.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "layout/numbered_steps.h"
#include "layout/text_block.h"
#include "sheets/script_pattern.h"

namespace sheaf {

using namespace literals;

void add_discovery_steps(const SheetInput& in, Composer& c) {
  const auto sheet = std::ranges::find_if(in.packet, [](const PlannedSheet& s) {
    return s.kind->name == "discovery";
  });
  if (sheet == in.packet.end()) return;
  const bool contrast = in.lesson.patterns.size() > 1;
  const bool is_told = sheet->options.choice("answer") == "told";
  const bool is_written = !is_told && sheet->options.count("lines") > 0;
  std::vector<std::string> steps = {
      "Point to each word and say it; learners say it after you. The sheet "
      "does not name the pattern, nor do you yet."};
  std::string together =
      contrast ? "Look at the first two together: “Do they belong together? "
                 "What do you see, what do you hear?”"
               : "Look at the first two together: “What do you see in both? "
                 "What do you hear in both?”";
  if (is_told) {
    together += contrast ? " Learners give each kind a colour."
                         : " Learners colour it there, then in every word.";
  }
  steps.push_back(std::move(together));
  std::string end =
      is_told ? "Each tells someone what is the same, to the eye and to "
                "the ear, and ticks the rings."
      : is_written
          ? "Each writes what is the same, to the eye and to the ear, "
            "and reads it to someone."
          : "Learners say what is the same, to the eye and to the ear.";
  if (const auto told = what_is_told(in); !told.empty()) {
    end += fmt::format(" What to listen for: “{}”", fmt::join(told, " "));
  }
  steps.push_back(std::move(end));
  add_subheading(c, c.style().teacher_size, "What do you notice?", 4_mm);
  add_numbered_steps(c, c.style().teacher_text(), steps);
}

}  // namespace sheaf
