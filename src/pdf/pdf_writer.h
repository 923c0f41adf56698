#pragma once

#include <string>

#include "layout/page.h"

namespace sheaf {

/// The document as a tagged PDF 1.7 file in the shape of PDF/UA-1
/// (ISO 14289-1): structure tree, alternative text, language, title, embedded
/// subset fonts that give back their text exactly. The same document gives the
/// same bytes on every machine. A span's alternative is the text that it stands
/// for: what is read and copied instead of letters set wide apart; any other
/// element's is a description. Throws MachineError where a library fails;
/// never returns part of a file.
std::string write_pdf(const Document& document);

}  // namespace sheaf
