#include "second_files.h"

#include <algorithm>
#include <cctype>
#include <fstream>
#include <stdexcept>

namespace sheaf::term {

namespace {

std::string code_of(std::string text) {
  for (char& c : text) c = static_cast<char>(std::toupper(c));
  return text;
}

// What stands after "key: ", if the line begins with it behind its blanks.
bool after(const std::string& line, const std::string& key, std::string& rest) {
  const std::size_t begin = line.find_first_not_of(" -");
  if (begin == std::string::npos ||
      line.compare(begin, key.size() + 1, key + ":") != 0) {
    return false;
  }
  rest = line.substr(std::min(line.size(), begin + key.size() + 2));
  return true;
}

// "{shut: sut, "It is a shop.": "It is a sop."}": parted at commas and colons
// outside of quotes.
Attempts attempts_in(const std::string& braces) {
  Attempts all;
  std::string key, part;
  bool quoted = false;
  for (const char c : braces) {
    if (c == '"') {
      quoted = !quoted;
    } else if (!quoted && c == ':') {
      key = part;
      part.clear();
    } else if (!quoted && (c == ',' || c == '}')) {
      if (!key.empty()) all[key] = part;
      key.clear();
      part.clear();
    } else if (!quoted && (c == '{' || (c == ' ' && part.empty()))) {
      continue;
    } else {
      part += c;
    }
  }
  return all;
}

}  // namespace

Words lines_of(const std::string& path) {
  std::ifstream in(path);
  if (!in) throw std::runtime_error("no file " + path);
  Words lines;
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

Words words_of(const std::string& text) {
  Words words;
  std::string word;
  for (const char c : text + " ") {
    if (std::isalnum(static_cast<unsigned char>(c)) != 0) {
      word += c;
    } else if (!word.empty()) {
      words.push_back(word);
      word.clear();
    }
  }
  return words;
}

std::string small(std::string text) {
  for (char& c : text) c = static_cast<char>(std::tolower(c));
  return text;
}

TermLesson lesson_in(const std::string& path) {
  TermLesson lesson;
  bool in_sentences = false;
  for (const std::string& line : lines_of(path)) {
    std::string rest;
    if (in_sentences && line.starts_with("  ")) {
      lesson.sentences.push_back(line.substr(2));
    } else if (after(line, "pattern", rest)) {
      lesson.patterns = words_of(rest);
    } else if (after(line, "words", rest)) {
      lesson.listed = words_of(rest);
    } else if (after(line, "sight-words", rest)) {
      lesson.sight = words_of(rest);
    } else if (after(line, "dictate-words", rest)) {
      lesson.dictated = words_of(rest);
    } else if (line.starts_with("dictate-sentences")) {
      in_sentences = true;
    }
  }
  return lesson;
}

std::vector<TermSession> sessions_in(const std::string& path) {
  std::vector<TermSession> sessions;
  bool writing = false;
  for (const std::string& line : lines_of(path)) {
    std::string rest;
    if (after(line, "date", rest)) {
      sessions.emplace_back().date = rest;
      writing = false;
      continue;
    }
    if (sessions.empty()) continue;
    TermSession& session = sessions.back();
    if (after(line, "lesson", rest)) {
      session.lesson = rest;
    } else if (after(line, "kind", rest)) {
      session.kind = rest;
    } else if (after(line, "absent", rest)) {
      for (const std::string& code : words_of(rest)) {
        session.absent.insert(code_of(code));
      }
    } else if (line == "    writing:") {
      writing = true;
    } else if (line.starts_with("      ")) {
      const std::size_t colon = line.find(':');
      const std::string code = code_of(line.substr(6, colon - 6));
      const Attempts attempts = attempts_in(line.substr(colon + 1));
      if (!writing) {
        session.wrong[code] = attempts;
        continue;
      }
      for (const auto& [pattern, count] : attempts) {
        const std::size_t slash = count.find('/');
        session.writing[code][pattern] = {std::stoi(count.substr(0, slash)),
                                          std::stoi(count.substr(slash + 1))};
      }
    }
  }
  return sessions;
}

}  // namespace sheaf::term
