#include <exception>
#include <fstream>
#include <iostream>
#include <sstream>
#include <stdexcept>

#include "heard/heard.h"

// pdf_heard FILE [HEADING]: prints a PDF as a screen reader tells it, all of it
// or the parts under one heading of level 1. Exit code 3: it cannot be read, or
// has no such heading.
int main(int count, char** arguments) {
  try {
    if (count < 2 || count > 3) {
      throw std::runtime_error("usage: pdf_heard FILE [HEADING]");
    }
    std::ifstream file(arguments[1], std::ios::binary);
    if (!file) throw std::runtime_error("the file cannot be read");
    std::ostringstream bytes;
    bytes << file.rdbuf();
    const std::string heading = count == 3 ? arguments[2] : "";
    const std::string text = heard::as_text(heard::read(bytes.str()), heading);
    if (text.empty()) throw std::runtime_error("no heading " + heading);
    std::cout << text;
    return 0;
  } catch (const std::exception& error) {
    std::cerr << "pdf_heard: " << error.what() << '\n';
    return 3;
  }
}
