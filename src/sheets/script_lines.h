#pragma once

#include <string>
#include <vector>

namespace sheaf {

class Composer;

/// How a line of the teacher's script begins, so that somebody who stands in
/// finds what to do at a glance.
enum class Lead {
  show,      ///< what learners look at
  say,       ///< what is said to them
  act,       ///< what is done, by the teacher or by them
  wait,      ///< what to wait for, and what to do if it does not come
  done_when  ///< what counts as done
};

struct ScriptLine {
  Lead lead = Lead::act;
  std::string text;
};
using ScriptLines = std::vector<ScriptLine>;

/// Adds lines as a list, their leads in bold at the left.
void add_script_lines(Composer& composer, const ScriptLines& lines);

}  // namespace sheaf
