// `sheaf place`: the step at which learners begin, by what they wrote in a
// placement check, and what it rests on.

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/requests.h"
#include "cli/verbs.h"
#include "driver/marking_desk.h"
#include "files/disk_files.h"
#include "marking/likely_range.h"
#include "marking/place_learner.h"
#include "marking/score_words.h"

namespace sheaf {

namespace {

using PlaceKind = PlacedLearner::Kind;

// One record of a check, with what says which step is which.
struct PlacementRecord {
  const MarkedRecord& marked;
  PlacementCheck check;
  const std::vector<Taught::Step>& steps;
  const PatternCatalogue& catalogue;

  // "step 9, sh"; a step for practice has its number alone.
  std::string step_text(std::size_t step) const {
    std::string text = step_name(steps[step]);
    std::string names;
    for (const PatternId id : steps[step].patterns) {
      names += (names.empty() ? "" : " and ") + std::string(catalogue[id].name);
    }
    return names.empty() ? text + " (practice)" : text + ", " + names;
  }
  std::string rung_text(std::size_t rung) const {
    return step_text(check.rungs()[rung].step);
  }
};

// "2/3, likely 34 to 91%".
std::string count_text(const Share& share) {
  return fmt::format("{}/{}, {}", share.right, share.of, likely_text(share));
}

std::string range_text(const PlacementRecord& of, const PlacedLearner& placed) {
  const auto name = [&](std::size_t step) {
    return step < of.steps.size() ? fmt::format("{}", of.steps[step].number)
                                  : std::string("the end");
  };
  return placed.low == placed.high
             ? fmt::format("step {} alone", name(placed.low))
             : fmt::format("step {} to {}", name(placed.low),
                           name(placed.high));
}

// What was asked, from low to high: "step 9, sh 3/3".
std::string asked_text(const PlacementRecord& of, const PlacedLearner& placed) {
  std::string text;
  for (const PlacedLearner::RungCount& count : placed.counts) {
    text += fmt::format("{}{} {}/{}", text.empty() ? "" : "; ",
                        of.check.rungs()[count.rung].number, count.share.right,
                        count.share.of);
  }
  return text;
}

void print_revisits(const PlacementRecord& of, const PlacedLearner& placed) {
  if (placed.revisit.empty()) return;
  fmt::print("    revisit:\n");
  for (const PlacedLearner::Revisit& one : placed.revisit) {
    fmt::print("      {}: {}\n", of.catalogue[one.pattern].name,
               count_text(one.share));
  }
}

void print_placed(const PlacementRecord& of, const PlacedLearner& placed) {
  const std::string code = placed.code.text();
  switch (placed.kind) {
    case PlaceKind::absent:
      fmt::print("{}: nothing written\n", code);
      return;
    case PlaceKind::part_two_next:
      fmt::print(
          "{}: part one alone is too little; dictate part two from step {}, "
          "and write `part-two: {{{}: {}}}` into the record\n",
          code, of.check.rungs()[placed.part_two].number, code,
          of.check.rungs()[placed.part_two].number);
      break;
    case PlaceKind::step:
      if (placed.step == of.steps.size()) {
        fmt::print("{}: knows what was asked up to the last step\n", code);
      } else {
        fmt::print("{}: begin at {}\n", code, of.step_text(placed.step));
      }
      fmt::print("    how sure: {}, nine times in ten\n",
                 range_text(of, placed));
      break;
    case PlaceKind::patchy:
      fmt::print(
          "{}: patchy, so there is no one step to begin at: steps that are "
          "known lie above others that are not\n    gaps, the lowest first:\n",
          code);
      for (const PlacedLearner::RungCount& gap : placed.gaps) {
        fmt::print("      {}: {}\n", of.rung_text(gap.rung),
                   count_text(gap.share));
      }
      break;
  }
  fmt::print("    right of what was asked, by step: {}\n",
             asked_text(of, placed));
  print_revisits(of, placed);
}

// JSON with nothing in it but codes, ids and figures.
std::string share_json(const Share& share) {
  const ShareRange range = score_range(share, kNineInTen);
  return fmt::format(
      R"("right": {}, "of": {}, "likely": {{"low": {:.0f}, "high": {:.0f}}})",
      share.right, share.of, 100 * range.low, 100 * range.high);
}

std::string rungs_json(const PlacementRecord& of,
                       const std::vector<PlacedLearner::RungCount>& counts) {
  std::vector<std::string> rows;
  for (const PlacedLearner::RungCount& count : counts) {
    rows.push_back(fmt::format("\n        {{\"step\": {}, {}}}",
                               of.check.rungs()[count.rung].number,
                               share_json(count.share)));
  }
  return fmt::format("[{}]", fmt::join(rows, ","));
}

// A step's number; null behind the last.
std::string step_json(const PlacementRecord& of, std::size_t step) {
  return step < of.steps.size() ? fmt::format("{}", of.steps[step].number)
                                : "null";
}

std::string placed_json(const PlacementRecord& of,
                        const PlacedLearner& placed) {
  constexpr std::string_view kNames[] = {"absent", "part-two-next", "step",
                                         "patchy"};
  std::string json = fmt::format(
      "    {{\n      \"learner\": \"{}\",\n      \"date\": "
      "\"{}\",\n      \"result\": \"{}\"",
      placed.code.text(), date_text(of.marked.session.date),
      kNames[static_cast<std::size_t>(placed.kind)]);
  const auto add = [&](std::string_view key, const std::string& value) {
    json += fmt::format(",\n      \"{}\": {}", key, value);
  };
  if (placed.kind == PlaceKind::part_two_next) {
    add("part_two",
        fmt::format("{}", of.check.rungs()[placed.part_two].number));
  }
  if (placed.kind == PlaceKind::step) {
    add("step", step_json(of, placed.step));
    add("likely_low", step_json(of, placed.low));
    add("likely_high", step_json(of, placed.high));
  }
  add("asked", rungs_json(of, placed.counts));
  if (placed.kind == PlaceKind::patchy) {
    add("gaps", rungs_json(of, placed.gaps));
  }
  std::vector<std::string> revisits;
  for (const PlacedLearner::Revisit& revisit : placed.revisit) {
    revisits.push_back(fmt::format("\n        {{\"pattern\": \"{}\", {}}}",
                                   of.catalogue[revisit.pattern].id,
                                   share_json(revisit.share)));
  }
  add("revisit", fmt::format("[{}]", fmt::join(revisits, ",")));
  return json + "\n    }";
}

}  // namespace

int run_place(const CommandLine& line) {
  Workspace workspace(disk(), shipped_folder());
  std::vector<std::string> faults;
  MarkingDesk desk(workspace, marking_request(line), faults);
  if (!print_faults(faults)) return kWrongCommandLine;
  Diagnostics diagnostics;
  std::vector<MarkedRecord> records = desk.mark(line.arguments, diagnostics);
  print(diagnostics);
  if (diagnostics.has_errors()) return kFaultsInFiles;
  // A folder may hold records of the weeks as well.
  std::erase_if(records, [](const MarkedRecord& marked) {
    return marked.lesson == nullptr || !marked.lesson->lesson.placement.given();
  });
  keep_learners(records, codes_given(line.marking.learners));
  if (records.empty() || !keep_marked(records)) {
    fmt::print(stderr,
               "sheaf place: no record of a placement check tells of {}; "
               "`sheaf placement` writes such a check, `sheaf record` a form\n",
               line.marking.learners.empty() ? "anyone" : "these learners");
    return kFaultsInFiles;
  }
  std::vector<std::string> all;
  for (const MarkedRecord& marked : records) {
    const AnalyzedLesson& lesson = marked.lesson->analyzed;
    const PlacementRecord of{marked, PlacementCheck(lesson),
                             lesson.taught.steps(), desk.phonics().patterns()};
    if (!line.json) {
      fmt::print("{}, {}\n", date_text(marked.session.date),
                 printable(marked.path));
    }
    for (const LearnerResult& learner : marked.session.learners) {
      const PlacedLearner placed = place_learner(
          marked.session, learner, of.check, of.steps, of.catalogue);
      if (line.json) {
        all.push_back(placed_json(of, placed));
      } else {
        print_placed(of, placed);
      }
    }
    if (!line.json) fmt::print("\n");
  }
  if (line.json) {
    fmt::print("{{\n  \"learners\": [\n{}\n  ]\n}}\n", fmt::join(all, ",\n"));
  } else {
    fmt::print("{}\n", kScoreCaution);
  }
  return kDone;
}

}  // namespace sheaf
