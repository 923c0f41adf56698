#pragma once

#include <functional>
#include <string>
#include <vector>

#include "pdfua/report.h"

class QPDF;
class QPDFObjectHandle;

namespace pdfua {

/// A way to break one rule: an edit of a good file, and the rules that then
/// fail. They are more than one only where two rules state the same fault.
struct Break {
  std::vector<Rule> rules;
  std::function<std::string(const std::string& good)> apply;
};

std::vector<Break> document_breaks();
std::vector<Break> structure_breaks();
std::vector<Break> content_breaks();
std::vector<Break> font_breaks();
/// Of the rules of own_rules.tsv, which a file `with_region` keeps.
std::vector<Break> own_breaks();

/// The file in a language of which the region is known.
std::string with_region(const std::string& good);
std::vector<Break> archive_breaks();       // of PDF/A
std::vector<Break> archive_text_breaks();  // of its metadata, and our own

/// The file after an edit, written by libqpdf.
std::string edited(const std::string& good,
                   const std::function<void(QPDF&)>& edit);

/// A break of one rule by an edit.
Break breaking(const std::string& clause, int test,
               std::function<void(QPDF&)> edit);

QPDFObjectHandle first_page(QPDF& pdf);
/// The first structure element of a type in reading order.
QPDFObjectHandle find_element(QPDF& pdf, const std::string& type);
/// Changes the operators of the first page.
void edit_content(QPDF& pdf,
                  const std::function<std::string(std::string)>& change);
void edit_stream(QPDFObjectHandle stream,
                 const std::function<std::string(std::string)>& change);
std::string replaced(std::string text, const std::string& what,
                     const std::string& with);

/// Takes away the document's language and states it on every element instead
/// but `silent` and those above it, and on artifacts.
void move_language_down(QPDF& pdf, QPDFObjectHandle silent);
/// Makes the title's language a stated one, so that it needs no default.
void state_title_language(QPDF& pdf);

}  // namespace pdfua
