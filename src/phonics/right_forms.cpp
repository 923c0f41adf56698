#include "phonics/right_forms.h"

#include <algorithm>
#include <array>
#include <set>

#include "base/nearest.h"
#include "phonics/derive.h"
#include "phonics/ending_rules.h"
#include "phonics/word_endings.h"

namespace sheaf {
namespace {

// A step from one spelling to the other weighs as much as this much rarity. An
// irregular form may look quite different (went), which counts as two steps.
constexpr int kStep = 25;
constexpr int kMostSteps = 4;
constexpr int kStepsToIrregular = 2;
constexpr std::size_t kLongestWord = 40;

// How an ending may come to be written.
struct Written {
  Ending ending;
  std::string_view text;
};
constexpr std::array kWritten = {
    Written{Ending::s, "es"},      Written{Ending::s, "s"},
    Written{Ending::ed, "ed"},     Written{Ending::ed, "d"},
    Written{Ending::ing, "ing"},   Written{Ending::er, "er"},
    Written{Ending::er, "r"},      Written{Ending::est, "est"},
    Written{Ending::est, "st"},    Written{Ending::ly, "ly"},
    Written{Ending::ly, "ally"},   Written{Ending::y, "y"},
    Written{Ending::y, "ey"},      Written{Ending::ful, "ful"},
    Written{Ending::ful, "full"},  Written{Ending::less, "less"},
    Written{Ending::ness, "ness"}, Written{Ending::ment, "ment"},
};

// What may have stood before the ending, whatever was done to it.
std::set<std::string> bases_before(const std::string& stem, Ending ending) {
  std::set<std::string> bases = {stem, stem + "e"};
  const std::string shorter = stem.substr(0, stem.size() - 1);
  const char last = stem.back();
  const bool doubled = stem.size() > 1 && stem[stem.size() - 2] == last;
  if (doubled) bases.insert({shorter, shorter + "e"});             // comming
  if (last == 'i') bases.insert({shorter + "y", shorter + "ey"});  // monkies
  if (last == 'k') bases.insert(shorter);
  if (last == 'v') bases.insert({shorter + "f", shorter + "fe"});
  if (ending == Ending::ing) {
    bases.insert(stem + "y");                       // studing
    if (last == 'y') bases.insert(shorter + "ie");  // dieing is plain
  }
  if (ending == Ending::ly) bases.insert({stem + "l", stem + "le"});
  return bases;
}

struct Candidate {
  RightForm form;
  int cost = 0;
};

class Finder {
 public:
  Finder(std::string_view wrong, const Lexicon& lexicon)
      : wrong_(wrong), lexicon_(lexicon) {}

  std::vector<RightForm> run() {
    for (const Written& written : kWritten) {
      if (wrong_.size() < written.text.size() + 2 ||
          !wrong_.ends_with(written.text)) {
        continue;
      }
      const std::string stem(
          wrong_.substr(0, wrong_.size() - written.text.size()));
      for (const std::string& base : bases_before(stem, written.ending)) {
        try_base(base, written.ending);
      }
    }
    std::ranges::stable_sort(candidates_, {}, &Candidate::cost);
    std::vector<RightForm> forms;
    for (Candidate& c : candidates_) {
      if (std::ranges::find(forms, c.form.word, &RightForm::word) ==
          forms.end()) {
        forms.push_back(std::move(c.form));
      }
    }
    return forms;
  }

 private:
  void try_base(const std::string& base, Ending ending) {
    const std::uint32_t place = lexicon_.find(base);
    if (base.size() < 2 || place == kNoWord) return;
    for (const WordRecord& record : lexicon_.readings(place)) {
      const bool met = record.everyday ||
                       (record.tier > 0 && record.tier <= kLargestBaseList);
      if (record.name || !met ||
          !label_takes(lexicon_.label(record.label), ending)) {
        continue;
      }
      for (const EndedWord& form : put_ending_on(
               base, ending, traits_of(record, lexicon_.inventory()))) {
        if (form.spelling != wrong_) add(base, ending, form);
      }
      return;
    }
  }

  void add(const std::string& base, Ending ending, const EndedWord& form) {
    const auto head = lexicon_.head(form.spelling);
    if (!head || head->name) return;
    int steps = kStepsToIrregular;
    if (form.ending != Ending::none) {
      steps = edit_distance(wrong_, form.spelling, kMostSteps);
      if (steps > kMostSteps) return;
    }
    candidates_.push_back({{form.spelling, base, ending},
                           steps * kStep + (head->everyday ? 0 : head->tier)});
  }

  std::string_view wrong_;
  const Lexicon& lexicon_;
  std::vector<Candidate> candidates_;
};

}  // namespace

std::vector<RightForm> right_forms(std::string_view wrong,
                                   const Lexicon& lexicon) {
  if (wrong.size() > kLongestWord) return {};
  return Finder(wrong, lexicon).run();
}

}  // namespace sheaf
