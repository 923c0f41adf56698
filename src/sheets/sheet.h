#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "analysis/analyzed_lesson.h"
#include "base/options.h"
#include "layout/action_icon.h"
#include "layout/block.h"
#include "layout/cut_leaf.h"
#include "pictures/lesson_pictures.h"
#include "sheets/script_lines.h"
#include "sheets/week.h"

namespace sheaf {

struct SheetKind;
struct CardEvidence;
struct SoundMouth;
struct SoundSort;
class CueRules;
class SoundSpellings;
struct ChainWord;
struct EarDay;
struct NearPair;

/// What several sheets of a packet work out alike, kept so that it is done
/// once.
struct SheetMemory {
  std::map<int, std::shared_ptr<const SoundSort>> sound_sorts;
  std::map<int, std::shared_ptr<const SoundSort>> heard_sorts;
  std::map<int, std::shared_ptr<const SoundMouth>> sound_mouths;
  std::shared_ptr<const SoundSpellings> sound_spellings;
  std::shared_ptr<const CueRules> cue_rules;
  /// By the most words, without made-up ones and with them.
  std::map<std::pair<int, bool>, std::shared_ptr<const std::vector<ChainWord>>>
      chains;
  std::map<int, std::shared_ptr<const std::vector<NearPair>>> near_pairs;
  /// By days, and items of a kind.
  std::map<std::pair<int, int>, std::shared_ptr<const std::vector<EarDay>>>
      ear_days;
};

/// One sheet of a packet as it was planned: which kind, with which options, on
/// which day.
struct PlannedSheet {
  const SheetKind* kind = nullptr;
  OptionValues options;
  int day = 1;       ///< 0 for one that the week does not plan: more practice
  int last_day = 0;  ///< the last of those that share it; `day` for one alone
  Span span = {};    ///< where the layout asks for it, if it does
};

/// Everything a sheet is made from: the same input gives the same sheet.
struct SheetInput {
  const AnalyzedLesson& lesson;
  const OptionValues& options;
  const LessonPictures& pictures;
  SheetMemory& memory;
  /// The learner's sheets of this packet in order, for teacher's sheets that
  /// speak of them.
  std::span<const PlannedSheet> packet;
  /// The codes of the learners of a class whom the pages are for; may be none.
  std::span<const std::string> learners = {};
  /// The teacher's pages have a script, which says what to dictate words in.
  bool has_script = false;
  /// The days of the packet. Where sheets are still being chosen, it has its
  /// days and no steps.
  const Week* week = nullptr;
  /// The layout's `voice` is plain: directions are as to older learners, and no
  /// small picture stands beside them.
  bool plain_voice = false;
  /// How many items of each kind a day has on the page for work by ear, without
  /// letters; 0 where the layout has no such page.
  int ear_items = 0;
  /// How learners stood by their records before the latest week and after it;
  /// null where no records are read.
  const CardEvidence* cards = nullptr;
};

/// The input of a sheet of the packet, for teacher's sheets that speak of it:
/// the same but for the options.
SheetInput input_of(const SheetInput& input, const PlannedSheet& sheet);

/// How many days the packet is planned for.
int days_of_week(const SheetInput& input);

/// Whether the learner gets a sheet of this name in the packet.
bool has_sheet(const SheetInput& input, std::string_view name);

/// What a learner is told to do, in words and as a small picture.
struct Direction {
  std::string_view text;
  Action action = Action::none;
};

/// A kind of sheet. Each stands in one file of this folder, which adds it to
/// the table with a static `SheetRegistration`; nothing else needs an edit.
struct SheetKind {
  std::string_view name;   ///< as layouts write it: "sound-boxes"
  std::string_view title;  ///< printed at its head
  /// One short sentence to the learner (or the teacher), printed under it.
  std::string_view direction;
  /// The same as a small picture.
  Action action = Action::none;
  /// Where its options or the lesson ask for another direction. May be null,
  /// and may give back an empty one for the usual.
  Direction (*other_direction)(const SheetInput&) = nullptr;
  std::string_view summary;  ///< one line for the manual
  bool for_teacher = false;
  /// Cut up after printing: begins on an odd page, its back stays blank.
  bool cut = false;
  /// What it is in a day's work; of no matter for teacher's sheets.
  DayPart part = DayPart::learn;
  /// Comes back every day from `first_day` on (reading and checks apart, see
  /// `plan_days`), with a share of its words or all of them again. One that is
  /// not daily has no day before `first_day`, if the week has that day.
  bool daily = false;
  int first_day = 1;
  int minutes = 0;                  ///< what it usually takes on one day
  std::string_view materials = {};  ///< beside the sheet itself
  OptionTable options = {};
  /// Whether the sheet's own entry in the layout keeps it for other lessons: it
  /// is left out then and nobody is told. May be null.
  bool (*not_meant)(const SheetInput&) = nullptr;
  /// Why this lesson has nothing for it, as the end of "left out: "; empty if
  /// it has. May be null: always possible.
  std::string (*missing)(const SheetInput&) = nullptr;
  /// Adds its blocks; none where all of it is on the leaf to cut.
  void (*compose)(const SheetInput&, Composer&) = nullptr;
  /// What a step of the week goes through, in a few words for the plan: "words
  /// 1 to 4". Null, or empty: all of it.
  std::string (*share)(const SheetInput&, const DayStep&) = nullptr;
  /// What the teacher shows, says, does and waits for, and what counts as done,
  /// for one step of the week. Its input is the sheet's own.
  ScriptLines (*script)(const SheetInput&, const DayStep&) = nullptr;
  /// Adds what the lines speak of, below them: a table of words. Once, on the
  /// first of its days. May be null.
  void (*script_extra)(const SheetInput&, Composer&) = nullptr;
  /// Whether its options ask for cards, and the cards: they stand on a leaf
  /// that all sheets of the packet share. Null where nothing is cut out.
  bool (*has_cards)(const SheetInput&) = nullptr;
  CutSet (*cards)(const SheetInput&, Composer&) = nullptr;
  /// The same, filled in, for the answer key. Null where nothing is right or
  /// wrong.
  void (*answers)(const SheetInput&, Composer&) = nullptr;
};

/// All kinds, by name.
std::span<const SheetKind* const> sheet_kinds();
const SheetKind* find_sheet_kind(std::string_view name);

class SheetRegistration {
 public:
  explicit SheetRegistration(const SheetKind& kind);
};

}  // namespace sheaf
