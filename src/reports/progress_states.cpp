#include "reports/progress_states.h"

#include <fmt/format.h>

#include "layout/text_block.h"
#include "marking/likely_range.h"
#include "reports/report_document.h"

namespace sheaf {

namespace {

using namespace literals;

TextStyle tight(const Composer& c, bool bold = false) {
  TextStyle style = c.style().teacher_text(bold);
  style.leading = 1.2;
  return style;
}

}  // namespace

PatternList patterns_of(const LearnerProgress& learner, ProgressState state) {
  PatternList patterns;
  for (const PatternProgress& p : learner.patterns) {
    if (p.state == state) patterns.push_back(&p);
  }
  return patterns;
}

void add_states_in_brief(Composer& c, std::string_view lead,
                         const PatternList& patterns,
                         const PatternCatalogue& catalogue) {
  if (patterns.empty()) return;
  const TextStyle text = tight(c);
  const TextStyle bold = tight(c, true);
  std::vector<TextPiece> pieces = {{std::string(lead) + " ", bold}};
  for (const PatternProgress* p : patterns) {
    if (pieces.size() > 1) pieces.push_back({"; ", text});
    pieces.push_back({column_title(catalogue[p->pattern]) + " ", bold});
    append(pieces, with_counts(text, fmt::format("{}/{}, ", p->window.right,
                                                 p->window.of)));
    pieces.push_back({.text = likely_short(p->window),
                      .style = text,
                      .heard = likely_text(p->window)});
    pieces.push_back({", " + short_date(p->last), text});
  }
  pieces.push_back({".", text});
  add_paragraph(c, pieces, {.space_before = 1.5_mm});
}

void add_needed(Composer& c, const PatternList& patterns, bool all,
                const PatternCatalogue& catalogue) {
  const TextStyle text = tight(c);
  const TextStyle bold = tight(c, true);
  std::vector<TextPiece> needed, lists;
  const auto add = [&](std::vector<TextPiece>& pieces, std::string_view lead,
                       const PatternProgress& p, const std::string& what) {
    pieces.push_back(pieces.empty() ? TextPiece{std::string(lead), bold}
                                    : TextPiece{"; ", text});
    pieces.push_back({column_title(catalogue[p.pattern]) + " ", bold});
    append(pieces, with_counts(text, what));
  };
  for (const PatternProgress* p : patterns) {
    if (by_heart(*p)) {
      add(lists,
          "Perhaps known by heart, with words of the list and new ones: ", *p,
          fmt::format("{}/{} and {}/{}", p->listed.right, p->listed.of,
                      p->new_words.right, p->new_words.of));
    } else if (all && p->state != ProgressState::practising) {
      add(needed, "Still needed: ", *p, p->needed);
    }
  }
  for (std::vector<TextPiece>* pieces : {&needed, &lists}) {
    if (pieces->empty()) continue;
    pieces->push_back({".", text});
    add_paragraph(c, *pieces, {.space_before = 1.5_mm});
  }
}

void add_known_before(Composer& c, const LearnerProgress& learner,
                      const PatternCatalogue& catalogue) {
  const std::string before = known_before_text(learner, catalogue);
  if (before.empty()) return;
  add_paragraph(
      c, with_counts(tight(c), fmt::format("{}: {}.", kKnownBefore, before)),
      {.space_before = 1.5_mm});
}

void add_speech(Composer& c, std::string_view text) {
  std::string line = fmt::format("{}.", text);
  if (line[0] >= 'a' && line[0] <= 'z') {
    line[0] = static_cast<char>(line[0] - 'a' + 'A');
  }
  add_paragraph(c, with_counts(tight(c), line), {.space_before = 1.5_mm});
}

void add_rules(Composer& c, const ProgressRules& rules) {
  add_paragraph(c, tight(c), rules_in_brief(rules), {.space_before = 1.5_mm});
}

}  // namespace sheaf
