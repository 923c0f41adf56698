// Compiles the word list that Sheaf ships: Festival's CMU dictionary, the
// SCOWL lists (which words are common, which are names), WordNet (classes and
// meanings of words) and Sheaf's own data, into one file that the program maps
// into memory.

#include <cstdio>
#include <cstring>
#include <exception>
#include <map>
#include <string>

#include <fmt/format.h>

#include "base/error.h"
#include "files/disk_files.h"
#include "lexicon/lexicon_writer.h"

namespace {

void usage() {
  fmt::print(stderr,
             "usage: sheaf-lexicon --dictionary FILE --scowl DIR --wordnet DIR "
             "--data DIR --out FILE [--left-out FILE]\n");
}

}  // namespace

int main(int argc, char** argv) {
  std::map<std::string, std::string> given;
  for (int i = 1; i + 1 < argc; i += 2) given[argv[i]] = argv[i + 1];
  for (const char* name :
       {"--dictionary", "--scowl", "--wordnet", "--data", "--out"}) {
    if (!given.contains(name)) {
      usage();
      return 2;
    }
  }
  try {
    const std::string report =
        sheaf::build_lexicon(sheaf::disk(),
                             {given["--dictionary"], given["--scowl"],
                              given["--wordnet"], given["--data"]},
                             given["--out"], given["--left-out"]);
    fmt::print("{}", report);
  } catch (const std::exception& e) {
    fmt::print(stderr, "sheaf-lexicon: {}\n", e.what());
    return 3;
  }
  return 0;
}
