#pragma once

#include <vector>

#include "driver/marking_desk.h"

namespace sheaf {

/// What is wrong with a record only when it is laid beside its class, its
/// lesson and the other records. All of it is said with the place in the record
/// and a mend where there is one.

/// Codes that the class does not have: an error with the nearest ones, since
/// one learner would get the errors of another.
void report_codes(const MarkedRecord& marked, Diagnostics& diagnostics);

/// Targets that the lesson does not dictate. Of a dictation: an error where it
/// is no word and one that was dictated is near, since that one would count as
/// right; a question where it is a word, among errors; else a note. Elsewhere
/// new words are what is asked for, so only what is no word is asked about.
void report_targets(const MarkedRecord& marked, const Phonics& phonics,
                    Diagnostics& diagnostics);

/// Learners whose own step comes before the lesson's.
void report_steps(const MarkedRecord& marked, Diagnostics& diagnostics);

/// Days outside the school year of the record's class: an error. Where the
/// class file gives none, days half a year or more from all other records:
/// a question. There is no clock in this: which day it is today is never asked.
void report_days(const std::vector<MarkedRecord>& records,
                 Diagnostics& diagnostics);

/// Learners who have two records of one lesson, day and kind. Where both say
/// the same, the second is taken out and counts for nothing; else both count.
void report_repeated(std::vector<MarkedRecord>& records,
                     Diagnostics& diagnostics);

}  // namespace sheaf
