#include "marking/error_examples.h"

#include <algorithm>
#include <set>

namespace sheaf {

namespace {

using CauseSet = std::multiset<Cause>;

CauseSet causes_of(const MarkedAttempt& attempt) {
  CauseSet causes;
  for (const MarkedGrapheme& g : attempt.graphemes) {
    if (g.result != GraphemeResult::correct) causes.insert(g.cause);
  }
  for (const ExtraLetter& extra : attempt.extra) causes.insert(extra.cause);
  causes.erase(Cause::none);
  return causes;
}

CauseExamples& entry_of(std::vector<CauseExamples>& all, Cause cause) {
  const auto known = std::ranges::find(all, cause, &CauseExamples::cause);
  if (known != all.end()) return *known;
  all.push_back({.cause = cause, .count = 0, .examples = {}});
  return all.back();
}

void add_example(CauseExamples& entry, const ErrorExample& example,
                 std::size_t most) {
  const bool known = std::ranges::any_of(
      entry.examples,
      [&](const ErrorExample& one) { return one.target == example.target; });
  if (!known && entry.examples.size() < most) entry.examples.push_back(example);
}

}  // namespace

std::vector<CauseExamples> error_examples(const Sessions& sessions,
                                          const LearnerCode& code,
                                          std::size_t most) {
  std::vector<const SessionResult*> latest_first;
  for (const SessionResult& session : sessions) {
    if (session.kind != Record::Kind::probe) latest_first.push_back(&session);
  }
  std::ranges::stable_sort(latest_first, std::ranges::greater{},
                           &SessionResult::date);
  std::vector<CauseExamples> all;
  for (const SessionResult* session : latest_first) {
    const LearnerResult* learner = session->find(code);
    if (learner == nullptr) continue;
    for (const SessionWord& word : learner->words) {
      if (word.kind != MarkedWord::Kind::matched || word.attempt.blank) {
        continue;
      }
      const CauseSet causes = causes_of(word.attempt);
      for (const Cause cause : causes) {
        CauseExamples& entry = entry_of(all, cause);
        ++entry.count;
        add_example(entry,
                    {word.attempt.target, word.attempt.written, session->date},
                    most);
      }
    }
  }
  std::ranges::stable_sort(all, std::ranges::greater{}, &CauseExamples::count);
  return all;
}

}  // namespace sheaf
