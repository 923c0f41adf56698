#include "names/marked_files.h"

#include <algorithm>
#include <cctype>
#include <iterator>

#include "names/breaker.h"

namespace sheaf::test {

namespace {

// Invented, and unlike any word: no four letters of them in a row stand in an
// English word, so that a piece is known again.
constexpr std::string_view kFirst = "wyzhkemb";
constexpr std::string_view kLast = "xolvjint";

constexpr std::string_view kLesson =
    "pattern: sh\nwords: ship shed fish dish brush shop wish rush\n"
    "dictate-sentences:\n  - The fish is in the dish.\n";
constexpr std::string_view kSequence =
    "steps:\n  - short a, short i\n  - {name: week 2, patterns: sh}\n";

constexpr std::string_view kClass =
    "# Room 4\n"
    "title: Room 4\n"
    "school-year: 2026-01-05 to 2026-07-16\n"
    "no-school: 2026-02-16\n"
    "goal-date: 2026-06-18\n"
    "lesson: lesson.yaml\n"
    "layout: week\n"
    "sequence: sequence.yaml\n"
    "step: week 2\n"
    "groups:\n"
    "  Tuesday: {line-size: 8 mm, spacing: wide}\n"
    "learners:\n"
    "  B7:\n"
    "    group: Tuesday\n"
    "    amount: 4\n"
    "    review-words: ship shed\n"
    "  C3: {from: 2026-01-05, until: 2026-07-01, goal: 70}\n"
    "  D1:\n"
    "    accent: british\n"
    "    confuses: th/f, v/w\n"
    "    speech: no-ed\n"
    "    extra: trace\n"
    "    picture-names: left-out\n";

constexpr std::string_view kPlainClass =
    "lesson: lesson.yaml\nlearners: [B7, C3, D1]  # three\n";

constexpr std::string_view kRecord =
    "# Friday\n"
    "date: 2026-03-12\n"
    "lesson: lesson.yaml\n"
    "kind: dictation\n"
    "class: class.yaml\n"
    "marked: all\n"
    "absent: D1\n"
    "note: The first one.\n"
    "wrong:\n"
    "  B7: {ship: sip, dish: bish}\n"
    "  C3:\n"
    "    fish: fis\n"
    "    The fish is in the dish.: The fis is in the dis.\n";

constexpr std::string_view kRecords =
    "lesson: lesson.yaml\n"
    "class: class.yaml\n"
    "records:\n"
    "  - date: 2026-03-12\n"
    "    marked: B7, C3\n"
    "    written:\n"
    "      B7: {ship: ship, fish: fis}\n"
    "      C3: {shed: shed, dish: .}\n"
    "  - date: 2026-03-16\n"
    "    marked: all\n"
    "    wrong:\n"
    "      B7: sip fis\n"
    "      C3:\n"
    "        - rus\n"
    "        - ship=sip\n"
    "  - date: 2026-03-19\n"
    "    kind: writing\n"
    "    marked: all\n"
    "    writing:\n"
    "      B7: {sh: 2/3}\n"
    "      C3:\n"
    "        sh: 3/3\n"
    "  - date: 2026-03-26\n"
    "    marked: not yet\n";

constexpr std::string_view kJournal =
    "# Monday\n"
    "on sunday we went to the shop\n"
    "My fis is in a dish. I wisht for a brush!\n"
    "\n"
    "Then we had to rus home.\n";

// As `review` writes it.
constexpr std::string_view kPlan =
    "sheaf: 1\n"
    "title: Room 4\n"
    "lesson: ../lesson.yaml\n"
    "groups:\n"
    "  Tuesday:\n"
    "    spacing: wide\n"
    "learners:\n"
    "  B7:\n"
    "    group: Tuesday\n"
    "    review-words: ship, shed\n"
    "  C3:\n"
    "    lesson: check.yaml\n"
    "    review-words: fish\n";

constexpr std::string_view kCheck =
    "pattern: sh\nwords: ship shed fish\nlayout: quick-check\n";

std::string name_in_a_form(Breaker& breaker) {
  std::string first(kFirst), last(kLast);
  const auto capital = [](std::string& word) {
    word[0] =
        static_cast<char>(std::toupper(static_cast<unsigned char>(word[0])));
  };
  switch (breaker.below(8)) {
    case 0:
      return first;
    case 1:
      capital(first), capital(last);
      return first + " " + last;
    case 2:
      return "\xC3\x89" + first;  // an accented letter before it
    case 3:
      capital(first);
      return first + "'s";
    case 4:
      capital(first), capital(last);
      return last + ", " + first;
    case 5:
      capital(first);
      return first + ": 7";
    case 6:
      capital(first);
      return first + "-" + last + ".yaml";
    default:
      capital(first);
      return first;
  }
}

struct Token {
  std::size_t begin, end;
};

std::vector<Token> tokens_of(const std::string& text) {
  std::vector<Token> tokens;
  const auto in_token = [](char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-' ||
           c == '.' || c == '/';
  };
  for (std::size_t at = 0; at < text.size();) {
    if (!in_token(text[at])) {
      ++at;
      continue;
    }
    std::size_t end = at;
    while (end < text.size() && in_token(text[end])) ++end;
    tokens.push_back({at, end});
    at = end;
  }
  return tokens;
}

// Puts the name somewhere and says where it is.
std::size_t put_name(std::string& text, Breaker& breaker) {
  const std::string name = name_in_a_form(breaker);
  const std::vector<Token> tokens = tokens_of(text);
  const Token token = tokens[breaker.below(tokens.size())];
  const std::size_t begin = Breaker::line_begin(text, token.begin);
  const std::size_t end = Breaker::line_end(text, token.begin);
  const std::string indent(text.find_first_not_of(" -", begin) - begin, ' ');
  switch (breaker.below(9)) {
    case 0:
      text.insert(token.begin, name + " ");
      return token.begin;
    case 1:
      text.insert(end, " " + name);
      return end;
    case 2:
      text.insert(end, "  # " + name);
      return end;
    case 3:
      text.insert(begin, indent + name + "\n");
      return begin;
    case 4:
      text.insert(begin, indent + name + ": ship\n");
      return begin;
    case 5:
      text.insert(begin, indent + "- " + name + "\n");
      return begin;
    default:
      text.replace(token.begin, token.end - token.begin, name);
      return token.begin;
  }
}

bool holds(std::string_view text, std::string_view name) {
  constexpr std::size_t kPiece = 4;
  for (std::size_t at = 0; at + kPiece <= name.size(); ++at) {
    if (text.find(name.substr(at, kPiece)) != std::string_view::npos) {
      return true;
    }
  }
  return false;
}

std::string as_utf16(std::string_view name) {
  std::string wide;
  for (const char c : name) (wide += '\0') += c;
  return wide;
}

std::string as_figures(std::string_view bytes) {
  constexpr std::string_view kFigures = "0123456789abcdef";
  std::string figures;
  for (const char c : bytes) {
    figures += kFigures[static_cast<unsigned char>(c) >> 4U];
    figures += kFigures[static_cast<unsigned char>(c) & 15U];
  }
  return figures;
}

}  // namespace

FileSet whole_files() {
  FileSet files;
  files["lesson.yaml"] = kLesson;
  files["sequence.yaml"] = kSequence;
  files["class.yaml"] = kClass;
  files["plain-class.yaml"] = kPlainClass;
  files["records/friday.yaml"] = kRecord;
  files["records/term.yaml"] = kRecords;
  files["journal.txt"] = kJournal;
  files["plan/class.yaml"] = kPlan;
  files["plan/check.yaml"] = kCheck;
  return files;
}

std::vector<std::vector<std::string>> commands_for(const std::string& file) {
  const std::vector<std::string> review = {
      "review", "--class",    "class.yaml", "--records", "records",
      "--week", "2026-04-06", "--out",      "next"};
  std::vector<std::vector<std::string>> commands;
  // What a learner wrote looks like a list of sentences to `check`.
  if (file != "journal.txt") {
    commands = {
        {"check", file}, {"check", "--json", file}, {"check", "--fix", file}};
  }
  const auto add = [&](std::vector<std::vector<std::string>> more) {
    std::ranges::move(more, std::back_inserter(commands));
  };
  if (file == "journal.txt") {
    add({{"writing", file, "--taught", "sh"},
         {"writing", file, "--sequence", "sequence.yaml", "--learner", "B7"},
         {"writing", file, "--taught", "sh", "--json"},
         {"mark", "--pairs", file},
         {"mark", "--pairs", file, "--json"}});
  } else if (file.starts_with("records/")) {
    add({{"mark", file, "--pdf", "marks.pdf"},
         {"mark", "--json", file},
         {"mark", "--csv", "records"},
         {"progress", "records", "--pdf", "progress.pdf"},
         {"progress", file, "--for", "home", "--pdf", "home.pdf"},
         {"progress", file, "--for", "meeting", "--pdf", "meeting.pdf"},
         {"progress", file, "--json"},
         review,
         {"week", "."},
         {"place", file},
         {"forget", "B7", "--records", "records"}});
  } else {
    add({{"build", "--class", file, "--only", "sound-boxes", "--out", "pages"},
         {"build", "--class", file, "--only", "dictation", "--out", "pages",
          "--deps", "needed"},
         {"review", "--class", file, "--records", "records", "--week",
          "2026-04-06", "--out", "next"},
         {"mark", "records/friday.yaml", "--pdf", "marks.pdf"},
         {"progress", "records", "--pdf", "progress.pdf"},
         {"week", ".", "--class", file, "--pdf", "week.pdf"},
         {"record", "lesson.yaml", "--class", file, "--date", "2026-03-13"},
         {"forget", "B7", "--records", "records", "--class", file}});
  }
  return commands;
}

MarkedRun marked_run(std::uint64_t number) {
  static constexpr std::string_view kMarked[] = {
      "class.yaml",          "class.yaml",          "plain-class.yaml",
      "records/friday.yaml", "records/friday.yaml", "records/term.yaml",
      "records/term.yaml",   "journal.txt",         "plan/class.yaml"};
  std::mt19937_64 random(number * 0x9E3779B97F4A7C15U + 1);
  Breaker breaker(random);
  MarkedRun run{whole_files(), std::string(breaker.one_of(kMarked)), {}};
  std::string& text = run.files[run.marked];
  const std::size_t mark = put_name(text, breaker);
  for (std::size_t left = breaker.below(4); left > 0; --left) {
    breaker.break_once(text, mark);
  }
  const auto commands = commands_for(run.marked);
  run.arguments = breaker.one_of(commands);
  return run;
}

bool shows_name(std::string_view text) {
  static const std::vector<std::string> kForms = [] {
    std::vector<std::string> forms;
    for (const std::string_view name : {kFirst, kLast}) {
      forms.emplace_back(name);
      forms.push_back(as_figures(name));
      forms.push_back(as_figures(as_utf16(name)));
    }
    return forms;
  }();
  std::string small(text);
  for (char& c : small) {
    c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  if (holds(small, kFirst) || holds(small, kLast)) return true;
  for (const std::string& form : kForms) {
    if (small.find(form) != std::string::npos) return true;
  }
  // Every other byte.
  return small.find(as_utf16(kFirst.substr(0, 4))) != std::string::npos ||
         small.find(as_utf16(kFirst.substr(4))) != std::string::npos ||
         small.find(as_utf16(kLast.substr(0, 4))) != std::string::npos ||
         small.find(as_utf16(kLast.substr(4))) != std::string::npos;
}

}  // namespace sheaf::test
