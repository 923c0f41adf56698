#pragma once

#include "marking/growth.h"
#include "marking/progress.h"
#include "marking/sessions.h"
#include "reports/report_document.h"

namespace sheaf {

/// One page for whoever is at home with a learner, in plain words at 14 pt:
/// what is secure, what is being practised, one picture of growth, two things
/// to do. No states, no counts of words that they rest on, nobody else.
/// `sessions` give the words to practise with.
void add_home_report(const ReportMaker& maker, const LearnerProgress& learner,
                     const Growth& growth, const Sessions& sessions,
                     const PatternCatalogue& catalogue);

}  // namespace sheaf
