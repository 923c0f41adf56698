#pragma once

#include <string>

#include "pdfua/report.h"

#include <qpdf/QPDF.hh>

namespace pdfua {

/// The rules of pdfa_rules.tsv (ISO 19005-2, level A), but that on characters,
/// and our own on what the file says of itself.
void check_archive(const std::string& bytes, QPDF& pdf, Report& report);

/// Those of them on metadata. `packet` is the text of the metadata stream.
void check_archive_metadata(const std::string& packet, QPDF& pdf,
                            Report& report);

}  // namespace pdfua
