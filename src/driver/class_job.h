#pragma once

#include <deque>
#include <memory>
#include <string>
#include <vector>

#include "driver/workspace.h"
#include "input/class_file.h"
#include "marking/review_cards.h"
#include "packet/shared_cuts.h"
#include "packet/shared_memory.h"

namespace sheaf {

/// One learner of a class with everything that makes the pages. `prepared`
/// belongs to the job and is shared by all who have the same lesson and
/// layout.
struct LearnerJob {
  LearnerCode code;
  Span place;  ///< of the code in the class file
  const PreparedLesson* prepared = nullptr;
  AnalyzedLesson lesson;
  /// Words of the list to work on; 0: all.
  int amount = 0;
  /// Some of the words to review are this learner's alone.
  bool own_words = false;
  LayoutPlan layout;
  Style style;
  /// The same for learners whose pages have the same answers, but for words to
  /// review that are theirs alone.
  std::string teacher_key;
  /// Of all who have the same words to work on.
  std::shared_ptr<SharedMemory> shared;
  /// What the records say, if they are read; the job's.
  const CardEvidence* cards = nullptr;
};

/// The packets of a class, ready to be composed.
struct ClassJob {
  ClassFile class_file;
  std::deque<std::unique_ptr<PreparedLesson>> prepared;
  std::vector<LearnerJob> learners;
  std::unique_ptr<const CardEvidence> cards;  ///< null: no records are read
};

/// Takes a class file and the lessons and layouts that it names through all
/// stages up to composing, for all learners or those who are asked for.
/// Nothing comes back if an error was found. A message about a lesson that
/// several learners share is given once.
std::unique_ptr<ClassJob> prepare_class(Workspace& workspace,
                                        const ClassRequest& request,
                                        const std::string& path,
                                        Diagnostics& diagnostics);

/// Counts the pages that one run makes for a class. More than a printer does in
/// a day are a mistake in a lesson or a layout, and would take too long.
class PagesOfRun {
 public:
  static constexpr std::size_t kMost = 8000;

  /// Adds the pages of a learner. Where there are too many with these, reports
  /// it at the learner and returns false; then nothing more is to be composed.
  bool add(const LearnerJob& learner, std::size_t pages,
           Diagnostics& diagnostics);

 private:
  std::size_t pages_ = 0;
};

/// Composes a learner's packet, or the teacher's pages for all `learners` who
/// share the key of the first of them: the sheets `only`, or all. Words to
/// review that are one learner's alone stand in one table. Without `cut_leaf`
/// the learner's cards stand elsewhere.
Document compose_learner(Shaper& shaper, const LearnerJob& learner,
                         const std::vector<std::string>& only,
                         Diagnostics& diagnostics, bool cut_leaf = true);
/// The learner's packet as a whole, with the days of its sheets; its teacher's
/// pages are not made.
Packet compose_learners_packet(Shaper& shaper, const LearnerJob& learner,
                               Diagnostics& diagnostics);
Document compose_teacher(Shaper& shaper,
                         const std::vector<const LearnerJob*>& learners,
                         const std::vector<std::string>& only,
                         Diagnostics& diagnostics);

/// Leaves with the cards of those learners who can share some, which saves
/// paper and cuts; those learners' packets are then composed without.
SharedCuts compose_shared_cuts(Shaper& shaper, const ClassJob& job,
                               const std::vector<std::string>& only,
                               Diagnostics& diagnostics);

/// Learners with the same answers, in the order of the class.
std::vector<std::vector<const LearnerJob*>> by_teacher_key(const ClassJob& job);

/// Adds what is not among `diagnostics` yet, by name, place and text.
void add_unheard(const Diagnostics& more, Diagnostics& diagnostics);

}  // namespace sheaf
