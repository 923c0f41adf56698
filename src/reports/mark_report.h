#pragma once

#include <span>
#include <string>

#include "marking/scores.h"
#include "reports/report_document.h"

namespace sheaf {

/// One record's marks on pages: scores of each learner and of the group, what
/// comes next and why, and every word that went wrong with what lies behind.
void add_mark_report(const ReportMaker& maker, const SessionResult& session,
                     std::span<const PatternId> patterns,
                     const PatternCatalogue& catalogue, std::string code);

}  // namespace sheaf
