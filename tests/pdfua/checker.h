#pragma once

#include <string>

#include "pdfua/report.h"

namespace pdfua {

/// Checks the rules of rules.tsv, pdfa_rules.tsv and own_rules.tsv on a PDF
/// file: the parts of PDF/UA-1 and of PDF/A-2a that a program can judge, and of
/// those the part that bears on documents without links, forms or attachments.
/// Reads with libqpdf and FreeType, which share no code with the writer. Throws
/// std::runtime_error where the file cannot be read at all.
Report check(const std::string& bytes);

/// The same for the rules of own_rules.tsv, where we ask for more than the
/// standard does.
Report check_own(const std::string& bytes);

}  // namespace pdfua
