#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include "limit_files.h"

namespace sheaf::bench {

namespace {

namespace fs = std::filesystem;

constexpr int kLearners = 100;          // class_file.cpp
constexpr std::size_t kAttempts = 300;  // record_attempts.cpp, of a learner

std::string read(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path.string());
  return {std::istreambuf_iterator<char>(file), {}};
}

// A record of the check that `placement` has made, in which each learner wrote
// as many words wrong as a record takes.
void write_placement_record(const std::string& folder) {
  std::istringstream lines(read(fs::path(folder) / "placement.yaml"));
  std::vector<std::string> words;
  bool part_two = false;
  for (std::string line; std::getline(lines, line);) {
    part_two = part_two || line.find("part-two:") != std::string::npos;
    const std::size_t colon = line.find(": ");
    if (!part_two || !line.starts_with("    ") || colon == std::string::npos) {
      continue;
    }
    std::istringstream parts(line.substr(colon + 2));
    for (std::string word; parts >> word;) words.push_back(word);
  }
  std::string text =
      "date: 2026-09-04\nlesson: ../placement.yaml\nclass: ../class.yaml\n"
      "kind: retention\nmarked: all\nwrong:\n";
  for (int i = 0; i < kLearners; ++i) {
    text += "  L" + std::to_string(i) + ": {";
    for (std::size_t w = 0; w < std::min(words.size(), kAttempts); ++w) {
      text += (w > 0 ? ", " : "") + words[w] + ": " + words[w] + "x";
    }
    text += "}\n";
  }
  fs::create_directories(fs::path(folder) / "places");
  std::ofstream(fs::path(folder) / "places" / "record.yaml") << text;
}

std::vector<std::string> with_json(std::vector<std::string> call) {
  call.insert(call.begin() + 1, "--json");
  return call;
}

std::string framed(const std::string& json) {
  return "Content-Length: " + std::to_string(json.size()) + "\r\n\r\n" + json;
}

std::string as_json_text(const std::string& text) {
  std::string json = "\"";
  for (const char c : text) {
    if (c == '\n') {
      json += "\\n";
    } else {
      if (c == '"' || c == '\\') json += '\\';
      json += c;
    }
  }
  return json + '"';
}

// An editor opens a file of the folder, writes a letter, and asks about it.
std::vector<std::string> editing(const std::string& folder,
                                 const std::string& name) {
  const std::string uri = as_json_text("file://" + folder + "/" + name);
  const std::string which = R"("textDocument":{"uri":)" + uri;
  const auto ask = [](int id, const std::string& method,
                      const std::string& parameters) {
    return framed(R"({"jsonrpc":"2.0","id":)" + std::to_string(id) +
                  R"(,"method":")" + method + R"(","params":)" + parameters +
                  "}");
  };
  const auto tell = [](const std::string& method,
                       const std::string& parameters) {
    return framed(R"({"jsonrpc":"2.0","method":")" + method + R"(","params":)" +
                  parameters + "}");
  };
  std::vector<std::string> input = {
      ask(1, "initialize", R"({"capabilities":{}})"),
      tell("textDocument/didOpen",
           "{" + which + R"(,"languageId":"yaml","version":1,"text":)" +
               as_json_text(read(fs::path(folder) / name)) + "}}")};
  input.push_back(tell(
      "textDocument/didChange",
      "{" + which +
          R"(,"version":2},"contentChanges":[{"range":{"start":{"line":0,)"
          R"("character":0},"end":{"line":0,"character":0}},"text":"#"}]})"));
  const std::string at = "{" + which +
                         R"(},"position":{"line":2,"character":9)"
                         "}}";
  input.push_back(ask(2, "textDocument/hover", at));
  input.push_back(ask(3, "textDocument/completion", at));
  input.push_back(ask(4, "textDocument/documentSymbol", "{" + which + "}}"));
  input.push_back(ask(5, "textDocument/formatting",
                      "{" + which + R"(},"options":{"tabSize":2}})"));
  input.push_back(ask(6, "shutdown", "null") + tell("exit", "null"));
  return input;
}

}  // namespace

std::vector<LimitRun> limit_runs(const std::string& folder) {
  const auto with = [](std::string name, std::vector<std::string> call) {
    return LimitRun{std::move(name), std::move(call)};
  };
  const auto after = [](std::string name, std::vector<std::string> call,
                        std::function<void(const std::string&)> before) {
    return LimitRun{std::move(name), std::move(call), std::move(before)};
  };
  // An editor with a file open.
  const auto edited = [&](std::string name, const std::string& file) {
    return LimitRun{.name = std::move(name),
                    .arguments = {"lsp"},
                    .input = editing(folder, file)};
  };
  const auto watched = [](std::string name, std::vector<std::string> call,
                          std::string file) {
    return LimitRun{.name = std::move(name),
                    .arguments = std::move(call),
                    .saved = std::move(file)};
  };
  std::vector<std::string> many_words = {"word"}, to_block = {"block"};
  std::istringstream listed(read(fs::path(folder) / "journal.txt"));
  for (std::string word; listed >> word;) {
    if (word.ends_with('.')) word.pop_back();
    many_words.push_back(word);
    to_block.push_back(word);
  }
  return {
      with("a lesson: pages", {"build", "lesson.yaml"}),
      with("a lesson: check", {"check", "lesson.yaml"}),
      with("a lesson: check as JSON", {"check", "--json", "lesson.yaml"}),
      with("a lesson: preview", {"preview", "lesson.yaml"}),
      with("a lesson: settled", {"settle", "lesson.yaml"}),
      with("a lesson: dump of pages", {"dump", "pages", "lesson.yaml"}),
      with("a lesson: sentences kept", {"keep", "lesson.yaml"}),
      with("a lesson: dump of words", {"dump", "words", "lesson.yaml"}),
      with("a lesson: dump of it", {"dump", "lesson", "lesson.yaml"}),
      with("a lesson: drafted again", {"check", "--fix", "lesson.yaml"}),
      with("a lesson of short words: pages", {"build", "more/dense.yaml"}),
      with("a lesson of short words: check as JSON",
           {"check", "--json", "more/dense.yaml"}),
      edited("a lesson: a change in an editor", "lesson.yaml"),
      watched("a lesson: watched, one save", {"watch", "lesson.yaml"},
              "lesson.yaml"),
      with("200 sheets: pages", {"build", "many-sheets.yaml"}),
      with("12 passages of a lesson: refused",
           {"build", "more/many-passages.yaml"}),
      with("200 sheets: listed", {"layouts"}),
      with("100 learners: pages",
           {"build", "--class", "class.yaml", "--out", "pages"}),
      with("100 learners, a lesson: pages",
           {"build", "--class", "big-class.yaml", "--out", "pages"}),
      with("100 learners, 150 words: pages",
           {"build", "--class", "more/large-class.yaml", "--out", "pages"}),
      with("100 learners, 150 words: one sheet",
           {"build", "--class", "more/large-class.yaml", "--only",
            "sound-boxes", "--out", "pages"}),
      with("100 learners, 200 sheets: pages",
           {"build", "--class", "class.yaml", "--layout", "many", "--out",
            "pages"}),
      with("100 learners, 200 sheets: one sheet",
           {"build", "--class", "class.yaml", "--layout", "many", "--only",
            "sound-boxes", "--out", "pages"}),
      with("2 learners, a lesson: pages",
           {"build", "--class", "two-learners.yaml", "--out", "pages"}),
      with("100 learners: dump of pages",
           {"dump", "pages", "--class", "class.yaml"}),
      with("100 learners, a lesson: check", {"check", "big-class.yaml"}),
      edited("100 learners: a change in an editor", "class.yaml"),
      watched("100 learners: watched, one save",
              {"watch", "--class", "class.yaml", "--only", "sound-boxes"},
              "class.yaml"),
      with("100 learners: check", {"check", "class.yaml"}),
      with("100 learners: form", {"record", "lesson.yaml", "--class",
                                  "big-class.yaml", "--date", "2026-03-12"}),
      with("200 steps: check", {"check", "sequence.yaml"}),
      with("200 steps: words", {"find", "sh", "--sequence", "sequence.yaml"}),
      with("200 steps: draft",
           {"draft", "sh", "--sequence", "sequence.yaml", "--step", "200"}),
      with("200 steps: 26 forms of a probe",
           {"probe", "sequence.yaml", "--count", "30", "--forms", "26"}),
      with("200 steps: placement", {"placement", "sequence.yaml"}),
      with("a placement check: pages", {"build", "placement.yaml"}),
      after("a placement check, 100 learners: place", {"place", "places"},
            write_placement_record),
      with("a placement check: form", {"record", "placement.yaml", "--class",
                                       "class.yaml", "--date", "2026-09-05"}),
      edited("200 steps: a change in an editor", "sequence.yaml"),
      with("10,000 sentences: check", {"check", "sentences.txt"}),
      with("10,000 sentences: found",
           {"find", "sh", "--sentences", "--own", "sentences.txt"}),
      with("165 records: check", {"check", "records/records.yaml"}),
      with("165 records: mark", {"mark", "records"}),
      with("165 records: mark as JSON", {"mark", "--json", "records"}),
      with("165 records: mark as a table", {"mark", "--csv", "records"}),
      with("165 records: mark on pages",
           {"mark", "records", "--pdf", "marks.pdf"}),
      with("165 records: progress", {"progress", "records"}),
      with("165 records: progress as JSON", {"progress", "--json", "records"}),
      with("165 records: progress on pages",
           {"progress", "records", "--pdf", "progress.pdf"}),
      with("165 records: progress for home",
           {"progress", "records", "--for", "home", "--pdf", "home.pdf"}),
      with("165 records: progress for a meeting",
           {"progress", "records", "--for", "meeting", "--pdf", "meeting.pdf"}),
      with("165 records: review",
           {"review", "--class", "class.yaml", "--records", "records", "--week",
            "2027-07-05", "--out", "plan"}),
      with("165 records: week", {"week", "."}),
      with("165 records: week on a page", {"week", ".", "--pdf", "week.pdf"}),
      with("165 records: forget", {"forget", "L1", "--records", "records"}),
      with("165 records: forget for good",
           {"forget", "L2", "--records", "records", "--class", "class.yaml",
            "--yes"}),
      edited("165 records: a change in an editor", "records/records.yaml"),
      with("512 KiB of pairs", {"mark", "--pairs", "pairs.txt"}),
      with("512 KiB of pairs as JSON",
           {"mark", "--json", "--pairs", "pairs.txt"}),
      with("2,500 words of writing",
           {"writing", "journal.txt", "--sequence", "sequence.yaml"}),
      with("2,500 words of writing as JSON",
           {"writing", "--json", "journal.txt", "--taught", "sh"}),
      with("every picture word", {"pictures", "--pdf", "pictures.pdf"}),
      with("2,500 words looked up", many_words),
      with("2,500 words looked up as JSON", with_json(many_words)),
      with("2,500 words blocked, beside 20,000", to_block),
      with("every sheet listed", {"sheets"}),
      with("every pattern listed", {"patterns"}),
      with("every way of speaking listed", {"speech"}),
      with("every message explained", {"explain"}),
      with("a schema", {"schema", "lesson"}),
      with("the manual page", {"manual"}),
      with("completions", {"completions", "bash"}),
  };
}

}  // namespace sheaf::bench
