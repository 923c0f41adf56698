#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/options.h"

namespace sheaf {

/// When a pattern counts as learned. All are settable (`progress_option_table`)
/// because research agrees on no number. Those of "secure" and "check again"
/// were chosen by simulation (`make calibrate`, docs/decisions.md): of learners
/// who have 80% right in the long run few are ever called secure, and of those
/// who have 95% nearly all are.
struct ProgressRules {
  /// Go on from 80%: the rule of a published study of teaching with dyslexia
  /// (van Rijthoven, thesis, chapter 3). Criteria in use range from 80 to 100%
  /// (an article for teachers that cites the research; low weight).
  int go_on_percent = 80;
  /// Days that are "the week" for going on.
  int week_days = 7;
  /// Secure: so few misses in the latest so many chances, whole days at a time.
  /// Calibrated.
  int secure_misses = 2;
  int secure_chances = 25;
  /// The same over a longer time, or over all there is of it, leaving out the
  /// days before `secure_later_days`: without this, a pattern that is seen very
  /// often is called secure by luck sooner or later. It holds for staying
  /// secure too. Calibrated.
  int long_misses = 5;
  int long_chances = 54;
  /// "In three sessions on end" (the same article).
  int secure_days = 3;
  /// Words never practised show the pattern and not the list. That words
  /// carried over to dictated sentences is known (Bogart 1998); four is ours.
  int secure_new_words = 4;
  /// Two weeks: gaps must grow with the time that it shall last (Cepeda et al.
  /// 2006, 2008); the number is ours.
  int secure_later_days = 14;
  /// No longer secure: so many misses in so many chances on end. Calibrated.
  int lost_misses = 3;
  int lost_chances = 12;
  /// Nor where it was not seen for longer than this: the longest gap of
  /// `ReviewRules`. Ours.
  int unseen_weeks = 8;
};

/// The rules as options of a file, for checking and for the manual.
OptionTable progress_option_table();
ProgressRules progress_rules(const OptionValues& values);

/// What a state asks for, in words for teachers.
struct RuleText {
  std::string name;  ///< "Secure"
  std::string text;  ///< a sentence without the name, small first letter
};

/// Of every state, and of the range that stands beside counts.
std::vector<RuleText> rule_texts(const ProgressRules& rules);

/// The same in two lines, for pages.
std::string rules_in_brief(const ProgressRules& rules);

}  // namespace sheaf
