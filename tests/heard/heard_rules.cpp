#include "heard/heard_rules.h"

#include <algorithm>
#include <cctype>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>

#include "support/pattern.h"

namespace heard {

namespace {

using sheaf::testing_support::Pattern;

bool is_letter(char c) { return std::isalpha(static_cast<unsigned char>(c)); }

std::string lower(std::string text) {
  for (char& c : text) {
    c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return text;
}

// Runs of letters, lower case.
std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  std::string word;
  for (const char c : text + ' ') {
    if (is_letter(c)) {
      word += c;
    } else if (!word.empty()) {
      words.push_back(lower(word));
      word.clear();
    }
  }
  return words;
}

std::vector<std::string> tokens_of(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> tokens;
  for (std::string token; stream >> token;) tokens.push_back(token);
  return tokens;
}

// Whether words only say that there is a picture, and what it is for, but not
// what it shows.
bool is_generic(const std::string& text) {
  static const std::set<std::string> kinds = {
      "picture", "pictures", "image", "drawing", "figure", "photo", "icon"};
  static const std::set<std::string> empty = {
      "a",    "an",  "the",  "of",      "to",     "for",     "that",   "is",
      "in",   "and", "with", "this",    "here",   "it",      "word",   "words",
      "key",  "our", "sort", "crossed", "out",    "laid",    "cut",    "name",
      "card", "see", "week", "already", "sounds", "pattern", "learner"};
  bool names_a_kind = false;
  for (const std::string& word : words_of(text)) {
    if (kinds.count(word) > 0) {
      names_a_kind = true;
    } else if (empty.count(word) == 0) {
      return false;
    }
  }
  return names_a_kind;
}

// Numbers that letters may follow or stand before: 2nd, 14pt, week 26b; codes
// of learners and files are in capitals.
bool is_number_with_letters(const std::string& token) {
  static const Pattern allowed(
      "[0-9]+(st|nd|rd|th|s|[a-z]|mm|cm|pt)?|[A-Z]+[0-9]+|[0-9A-Z]+");
  return !allowed.of(token).empty();
}

class Finder {
 public:
  Finder(const Document& document, const Knowledge& knowledge)
      : document_(document), knowledge_(knowledge), lines_(lines_of(document)) {
    for (const Line& line : lines_) {
      for (const std::string& token : tokens_of(line.text)) {
        std::string bare;
        for (const char c : token) {
          if (is_letter(c)) bare += c;
        }
        if (!bare.empty()) heard_.insert(lower(bare));
      }
    }
  }

  std::vector<Fault> find() {
    check_text(document_.title);
    for (const std::string& bookmark : document_.bookmarks) {
      check_text(bookmark);
    }
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      const Line& line = lines_[i];
      if (heading_level(*line.element) == 1) {
        place_ = line.text;
        if (++headings_[line.text] == 2) fault("heading-twice", line.text);
      }
      check_text(line.text);
      const std::string& type = line.element->type;
      const int level = heading_level(*line.element);
      const bool has_words = type == "P" || type == "LI" || level > 0;
      const bool has_parts =
          i + 1 < lines_.size() && lines_[i + 1].depth > line.depth;
      if (has_words && line.text.empty() && !has_parts) {
        fault("empty-item", line.announced);
      }
      if (level > 0 && is_alone(i)) fault("heading-alone", line.text);
      if (type == "Table") check_table(*line.element);
      if (type == "Figure") check_figure(*line.element);
      check_kids(*line.element);
    }
    return faults_;
  }

 private:
  void fault(const std::string& rule, const std::string& found) {
    faults_.push_back({rule, place_, found});
  }

  // Whether nothing comes below a heading before the next that is not lower.
  bool is_alone(std::size_t heading) const {
    if (heading + 1 == lines_.size()) return true;
    const int next = heading_level(*lines_[heading + 1].element);
    return next > 0 && next <= heading_level(*lines_[heading].element);
  }

  void check_figure(const Element& figure) {
    const std::string text = text_of(figure);
    if (text.empty()) fault("figure-without-words", "");
    static const Pattern called("^((a|the) )?picture(:| of| to) ");
    if (is_generic(text)) {
      fault("generic-picture", text);
    } else if (!called.in(lower(text)).empty()) {
      fault("picture-twice", text);
    }
  }

  // A cell may be empty where there is no value. A row or column without a word
  // below its head is there to be written in, and a listener must hear that.
  void check_table(const Element& table) {
    std::vector<const Element*> rows;
    collect_rows(table, rows);
    std::map<std::size_t, bool> says_something;  // by column
    std::map<std::size_t, std::size_t> empty;
    std::map<std::pair<std::size_t, std::size_t>, bool> taken;
    for (std::size_t row = 0; row < rows.size(); ++row) {
      std::size_t column = 0, cells = 0, silent = 0;
      for (const Element::Kid& kid : rows[row]->kids) {
        if (kid.element.empty()) continue;
        const Element& cell = kid.element.front();
        while (taken.count({row, column}) > 0) ++column;
        for (int r = 0; r < cell.rows; ++r) {
          for (int c = 0; c < cell.columns; ++c) {
            taken[{row + static_cast<std::size_t>(r),
                   column + static_cast<std::size_t>(c)}] = true;
          }
        }
        const bool is_silent = text_of(cell).empty();
        if (cell.type == "TD") {
          ++cells;
          silent += is_silent;
          says_something[column] |= !is_silent;
          empty[column] += is_silent;
        } else if (is_silent && row > 0) {
          fault("empty-cell", "a head in row " + std::to_string(row + 1));
        }
        column += static_cast<std::size_t>(cell.columns);
      }
      if (cells > 0 && cells == silent) {
        fault("empty-cell", "all of row " + std::to_string(row + 1));
      }
    }
    for (const auto& [column, count] : empty) {
      if (says_something[column]) continue;
      fault("empty-cell", "all of column " + std::to_string(column + 1));
    }
  }

  static void collect_rows(const Element& element,
                           std::vector<const Element*>& rows) {
    for (const Element::Kid& kid : element.kids) {
      if (kid.element.empty()) continue;
      const Element& inner = kid.element.front();
      if (inner.type == "TR") {
        rows.push_back(&inner);
      } else if (is_block(inner)) {
        collect_rows(inner, rows);
      }
    }
  }

  // Inline elements; blocks have lines of their own.
  void check_kids(const Element& element) {
    // Figures say what is drawn in them.
    if (element.has_drawing && element.type != "Figure" &&
        text_of(element).empty()) {
      fault("drawn-and-silent", element.type);
    }
    for (const Element::Kid& kid : element.kids) {
      if (kid.element.empty()) continue;
      const Element& inner = kid.element.front();
      const bool has_line =
          is_block(inner) && inner.type != "Lbl" && inner.type != "LBody";
      if (has_line || is_line_of_its_own(inner)) continue;
      if (inner.type == "Figure") check_figure(inner);
      check_kids(inner);
    }
  }

  // A picture that stands between blocks is told as a line.
  bool is_line_of_its_own(const Element& element) const {
    return std::any_of(lines_.begin(), lines_.end(), [&](const Line& line) {
      return line.element == &element;
    });
  }

  void check_text(const std::string& text) {
    const bool has_sign = std::any_of(
        knowledge_.signs.begin(), knowledge_.signs.end(),
        [&](const Sign& sign) {
          const std::string left =
              sign.allowed.empty() ? text
                                   : Pattern(sign.allowed).replace(text, " ");
          return left.find(sign.sign) != std::string::npos;
        });
    if (has_sign) fault("bad-sign", text);
    for (const std::string& token : tokens_of(text)) {
      if (token.find_first_not_of(".,;:!?") == std::string::npos) {
        fault("lone-sign", text);
      }
      if (is_run_together(token)) fault("run-together", token);
    }
  }

  bool is_run_together(const std::string& token) const {
    static const Pattern case_changes("[a-z][A-Z]");
    static const Pattern sentence_goes_on("[a-z][.!?:;,][A-Za-z]{2}");
    static const Pattern bracket_goes_on("[)\\]][A-Za-z]|”[A-Za-z]");
    static const Pattern mixed("[0-9][A-Za-z]|[A-Za-z][0-9]");
    static const Pattern edges("^[^A-Za-z0-9]+|[^A-Za-z0-9]+$");
    const std::string bare = edges.replace(token, "");
    if (!case_changes.in(bare).empty() || !sentence_goes_on.in(bare).empty() ||
        !bracket_goes_on.in(bare).empty()) {
      return true;
    }
    if (!mixed.in(bare).empty()) {
      // Parts of dates, ranges and file names one by one.
      static const Pattern part("[A-Za-z0-9]+");
      for (const Pattern::Match& match : part.all_in(bare)) {
        const std::string& one = match[0];
        if (!mixed.in(one).empty() && !is_number_with_letters(one)) return true;
      }
    }
    const std::vector<std::string> words = words_of(bare);
    return std::any_of(
        words.begin(), words.end(),
        [&](const std::string& word) { return is_several_words(word); });
  }

  // Letters that are no word of English, but that words make: of everyday ones
  // or of those that stand alone in the document. What learners wrote is no
  // word either; so the parts are whole words of three letters and more, or
  // such as "of".
  bool is_several_words(const std::string& letters) const {
    constexpr std::size_t kShortest = 5;
    if (letters.size() < kShortest || knowledge_.words.count(letters) > 0) {
      return false;
    }
    std::vector<bool> parts_up_to(letters.size() + 1);
    parts_up_to[0] = true;
    for (std::size_t end = 1; end <= letters.size(); ++end) {
      for (std::size_t start = 0; start < end; ++start) {
        if (parts_up_to[start] && is_part(letters.substr(start, end - start))) {
          parts_up_to[end] = true;
        }
      }
    }
    return parts_up_to[letters.size()];
  }

  bool is_part(const std::string& word) const {
    static const std::set<std::string> small = {
        "a",  "am", "an", "as", "at", "be", "by", "do", "go",
        "he", "if", "in", "is", "it", "me", "my", "no", "of",
        "on", "or", "so", "to", "up", "us", "we"};
    if (word.size() < 3) return small.count(word) > 0;
    return knowledge_.everyday.count(word) > 0 ||
           (heard_.count(word) > 0 && knowledge_.words.count(word) > 0);
  }

  const Document& document_;
  const Knowledge& knowledge_;
  std::vector<Line> lines_;
  std::set<std::string> heard_;  // words that stand alone somewhere
  std::map<std::string, int> headings_;
  std::string place_;
  std::vector<Fault> faults_;
};

}  // namespace

const std::vector<std::string>& rule_names() {
  static const std::vector<std::string> names = {"figure-without-words",
                                                 "generic-picture",
                                                 "picture-twice",
                                                 "empty-cell",
                                                 "empty-item",
                                                 "heading-alone",
                                                 "drawn-and-silent",
                                                 "run-together",
                                                 "lone-sign",
                                                 "bad-sign",
                                                 "heading-twice"};
  return names;
}

std::vector<Fault> faults_of(const Document& document,
                             const Knowledge& knowledge) {
  return Finder(document, knowledge).find();
}

std::vector<std::vector<std::string>> read_table(const std::string& path) {
  std::ifstream file(path);
  if (!file) throw std::runtime_error("cannot read " + path);
  std::vector<std::vector<std::string>> rows;
  bool is_head = true;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.rfind("# ", 0) == 0) continue;
    if (is_head) {
      is_head = false;
      continue;
    }
    std::vector<std::string> cells(1);
    for (const char c : line) {
      if (c == '\t') {
        cells.emplace_back();
      } else {
        cells.back() += c;
      }
    }
    rows.push_back(cells);
  }
  return rows;
}

std::vector<Sign> read_signs(const std::string& path) {
  std::vector<Sign> signs;
  for (const auto& row : read_table(path)) {
    if (row.size() != 3) throw std::runtime_error("three columns: " + row[0]);
    signs.push_back({row[0], row[1]});
  }
  return signs;
}

}  // namespace heard
