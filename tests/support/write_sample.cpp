#include <clocale>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <locale>

#include "pdf/pdf_writer.h"
#include "support/sample_document.h"

namespace {

// Decimal commas and points between thousands, as a careless program would
// print them.
class Commas : public std::numpunct<char> {
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\3"; }
};

}  // namespace

// write_sample KIND PDF TREE: writes a sample document, and the order in which
// a reader should tell it. Heeds the locale of its surroundings, so that a test
// can see that the PDF does not.
int main(int count, char** arguments) {
  if (count != 4) return 2;
  std::setlocale(LC_ALL, "");
  std::locale::global(std::locale(std::locale(), new Commas));
  sheaf::testing_support::DocumentMaker maker(SHEAF_FONTS);
  const std::string kind = arguments[1];
  const sheaf::Document document =
      kind == "everything" ? maker.one_of_everything() : maker.worksheet(12, 3);
  std::ofstream(arguments[2], std::ios::binary) << sheaf::write_pdf(document);
  std::ofstream(arguments[3])
      << sheaf::testing_support::tree_in_order(document);
  return 0;
}
