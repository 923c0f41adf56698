#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "driver/make_placement.h"
#include "driver/workspace.h"
#include "marking/place_learner.h"
#include "simulated_year.h"

namespace sheaf::bench {

/// How likely a learner is to have a word of a step right, an index.
using RightAt = std::function<double(std::size_t step)>;

/// The placement check of a sequence, given to learners of whom we know the
/// truth. The check is made, read and analyzed as `placement` and `place` do
/// it; what a learner writes goes through a record's text, and is read and
/// marked as that of a class is. Throws std::logic_error where a file of the
/// simulation has errors.
class PlacementTrial {
 public:
  PlacementTrial(Workspace& workspace, const FilePath& sequence);

  /// One learner: the teacher follows the printed rules.
  PlacedLearner place(const RightAt& right_at, Random& random,
                      const PlacementModel& model = {}) const;

  const std::vector<Taught::Step>& steps() const {
    return plan_.analyzed.taught.steps();
  }
  const std::vector<DictatedItem>& items() const { return items_; }
  const PlacementCheck& check() const { return *check_; }
  const MadePlacement& made() const { return made_; }
  /// Of the learner placed last: words that were dictated.
  std::size_t words_dictated() const { return dictated_; }
  /// What a learner writes who misses the word's new part.
  const std::vector<std::string>& missed() const { return missed_; }

 private:
  std::string misspelled(std::size_t word) const;
  SessionResult marked(const std::string& record_text) const;

  Workspace& workspace_;
  MadePlacement made_;
  std::unique_ptr<SourceFile> file_;
  Lesson lesson_;
  LessonPlan plan_;
  std::unique_ptr<PlacementCheck> check_;
  std::unique_ptr<SoundSpellings> spellings_;
  std::vector<DictatedItem> items_;
  std::vector<std::string> missed_;
  mutable std::size_t dictated_ = 0;
};

}  // namespace sheaf::bench
