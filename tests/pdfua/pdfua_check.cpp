#include <exception>
#include <fstream>
#include <iostream>
#include <sstream>

#include "pdfua/checker.h"

// pdfua_check FILE...: says which rules of PDF/UA-1 and of PDF/A-2a each file
// breaks. Exit code
// 0: none, 1: some, 3: a file cannot be read.
int main(int count, char** arguments) {
  int status = 0;
  for (int i = 1; i < count; ++i) {
    std::ifstream file(arguments[i], std::ios::binary);
    std::ostringstream bytes;
    bytes << file.rdbuf();
    try {
      if (!file) throw std::runtime_error("cannot be read");
      const pdfua::Report report = pdfua::check(bytes.str());
      for (const auto& [rule, entry] : report.entries()) {
        std::cout << arguments[i] << ": " << rule.first << '-' << rule.second
                  << ": " << entry.first;
        if (entry.count > 1) std::cout << " (" << entry.count << " places)";
        std::cout << '\n';
        if (status == 0) status = 1;
      }
      if (report.entries().empty()) {
        std::cout << arguments[i]
                  << ": PDF/UA-1 and PDF/A-2a: no rule broken\n";
      }
    } catch (const std::exception& error) {
      std::cerr << arguments[i] << ": " << error.what() << '\n';
      status = 3;
    }
  }
  return status;
}
