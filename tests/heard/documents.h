#pragma once

#include <filesystem>
#include <ostream>
#include <set>
#include <stdexcept>
#include <string>
#include <vector>

#include "golden_files.h"
#include "heard/heard_rules.h"
#include "support/run_program.h"

namespace sheaf::test {

/// A document that is listened to: how it is made, and its golden
/// tests/heard/NAME.txt.
struct HeardCase {
  std::string name;
  std::string call;   ///< with OUT for the folder of its PDF files
  std::string sheet;  ///< the one sheet that it is there for, or ""
};

/// Names a case in the messages of its test.
inline void PrintTo(const HeardCase& one, std::ostream* out) {
  *out << one.name;
}

inline std::filesystem::path heard_folder() {
  return project() / "tests/heard";
}

inline void replace_first(std::string& text, const std::string& what,
                          const std::string& with) {
  const std::size_t at = text.find(what);
  if (at != std::string::npos) text.replace(at, what.size(), with);
}

/// One for each golden of a sheet, then those of documents.tsv.
inline std::vector<HeardCase> heard_cases() {
  std::vector<HeardCase> cases;
  for (const auto& file : files_below(goldens(), {".yaml"})) {
    const std::string name = file.stem().string();
    if (!name.starts_with("sheet-")) continue;
    std::string call = line_with(read(file), "# run: ");
    const std::size_t only = call.find("--only ");
    if (only == std::string::npos) continue;
    std::string sheet = call.substr(only + 7);
    sheet = sheet.substr(0, sheet.find_first_of(" \n"));
    replace_first(call, "dump pages", "build");
    replace_first(call, "FILE", file.filename().string());
    cases.push_back({name, call + " --out OUT", sheet});
  }
  const auto table = (heard_folder() / "documents.tsv").string();
  for (const auto& row : heard::read_table(table)) {
    cases.push_back({row.at(0), row.at(1), ""});
  }
  return cases;
}

/// Rule, document and what is found, of each row of known.tsv: what breaks a
/// rule on purpose. Throws where one has no reason.
using KnownFaults = std::set<std::vector<std::string>>;
inline KnownFaults known_faults() {
  KnownFaults known;
  for (const auto& row :
       heard::read_table((heard_folder() / "known.tsv").string())) {
    if (row.size() != 4 || row[3].empty()) {
      throw std::runtime_error("an exception without a reason: " + row[0]);
    }
    known.insert({row[0], row[1], row[2]});
  }
  return known;
}

/// The rule, for known.tsv, that a speech program says a text as it is meant.
inline constexpr char kSaidRule[] = "said";

struct HeardFile {
  std::string name;
  std::string bytes;
};

/// The PDF files of a document. Throws where the call fails.
inline std::vector<HeardFile> files_of(const HeardCase& one) {
  const testing_support::TemporaryFolder folder;
  const std::filesystem::path out =
      std::filesystem::path(folder.path()) / "pages";
  std::filesystem::create_directory(out);
  std::string call = one.call;
  replace_first(call, "OUT", out.string());
  const Outcome outcome = run(call, folder.path());
  // Marks give 1 where something is to be said of a record.
  if (outcome.exit_code > 1) {
    throw std::runtime_error(one.name + ": " + outcome.messages);
  }
  std::vector<HeardFile> files;
  for (const auto& file : files_below(out, {".pdf"})) {
    files.push_back(
        {std::filesystem::relative(file, out).generic_string(), read(file)});
  }
  if (files.empty()) throw std::runtime_error(one.name + ": no pages");
  return files;
}

}  // namespace sheaf::test
