#include "base/private_text.h"

#include <algorithm>
#include <iterator>

#include "base/learner_keys.h"
#include "base/nearest.h"
#include "base/utf8.h"

namespace sheaf {

namespace {

constexpr int kLongestCode = 12;
constexpr int kMostCodeLetters = 3;

// Keys of these files, and values that are one of a few: layouts too.
constexpr std::string_view kFormWords[] = {"absent",
                                           "accent",
                                           "all",
                                           "american",
                                           "amount",
                                           "australian",
                                           "board",
                                           "british",
                                           "check",
                                           "class",
                                           "cm",
                                           "confuses",
                                           "date",
                                           "days",
                                           "dictation",
                                           "extra",
                                           "from",
                                           "general-american",
                                           "goal",
                                           "goal-date",
                                           "group",
                                           "groups",
                                           "in",
                                           "ink-saver",
                                           "kind",
                                           "large-print",
                                           "layout",
                                           "learners",
                                           "left-out",
                                           "lesson",
                                           "line-size",
                                           "marked",
                                           "middle-years",
                                           "mm",
                                           "no",
                                           "no-school",
                                           "normal",
                                           "not",
                                           "note",
                                           "numbered",
                                           "older-learners",
                                           "part-two",
                                           "picture-names",
                                           "probe",
                                           "pt",
                                           "quick-check",
                                           "records",
                                           "retention",
                                           "review-weeks",
                                           "review-words",
                                           "said",
                                           "school-year",
                                           "scottish",
                                           "sequence",
                                           "sheaf",
                                           "spacing",
                                           "speech",
                                           "step",
                                           "title",
                                           "to",
                                           "transfer",
                                           "until",
                                           "week",
                                           "wide",
                                           "wider",
                                           "writing",
                                           "written",
                                           "wrong",
                                           "yaml",
                                           "yes",
                                           "yet"};

// Keys that lessons, layouts and sequences do not have.
constexpr std::string_view kTellingKeys[] = {
    "learners", "groups", "wrong",   "written",   "writing",   "marked",
    "absent",   "date",   "records", "no-school", "goal-date", "class"};
// Keys that files about learners do not have. Under one of them a word may
// stand that is such a key, as in `split: {date: d a_e t}`.
constexpr std::string_view kOtherKeys[] = {"pattern", "words", "steps",
                                           "sheets"};

bool is_ascii_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}
bool is_figure(char c) { return c >= '0' && c <= '9'; }

// Bytes that are not ASCII count as letters: what they are is not asked.
bool is_of_word(char c) {
  return is_ascii_letter(c) || is_figure(c) || c == '-' || c == '\'' ||
         c == '_' || static_cast<unsigned char>(c) >= 0x80U;
}

bool word_may_be_name(std::string_view word) {
  if (std::ranges::all_of(
          word, [](char c) { return is_figure(c) || c == '-' || c == '_'; })) {
    return false;
  }
  return !is_form_word(word) && !is_learner_code(word);
}

// Calls `word` and `other` with the parts of a text, in their order.
template <typename Word, typename Other>
void for_parts(std::string_view text, Word word, Other other) {
  for (std::size_t at = 0; at < text.size();) {
    std::size_t end = at + 1;
    const bool inside = is_of_word(text[at]);
    while (end < text.size() && is_of_word(text[end]) == inside) ++end;
    inside ? word(text.substr(at, end - at)) : other(text.substr(at, end - at));
    at = end;
  }
}

struct LineHead {
  std::string key;        // in small letters
  std::string_view rest;  // of the line, behind the key and blanks
  bool first = false;     // nothing stands before it
};

LineHead head_of(std::string_view line) {
  LineHead head;
  const std::size_t before =
      std::min(line.find_first_not_of(" \t-\"'{[,?"), line.size());
  head.first = before == 0;
  std::size_t end = before;
  for (; end < line.size() && (is_ascii_letter(line[end]) || line[end] == '-');
       ++end) {
    const char c = line[end];
    head.key += c >= 'A' && c <= 'Z' ? static_cast<char>(c + ('a' - 'A')) : c;
  }
  line.remove_prefix(end);
  line.remove_prefix(std::min(line.find_first_not_of(" \t\"'"), line.size()));
  head.rest = line;
  return head;
}

// A slip of the hand is still the key, if a colon follows.
bool is_telling(const LineHead& head) {
  constexpr std::size_t kLong = 6;
  if (head.key.empty()) return false;
  const bool colon = head.rest.starts_with(':');
  const bool end = head.rest.empty() || head.rest.front() == '=' ||
                   head.rest.front() == '[' || head.rest.front() == '{';
  for (const std::string_view key : kTellingKeys) {
    if (head.key == key && (colon || (end && key.size() >= kLong))) return true;
    // A lesson may have a `group`.
    if (colon && key.size() >= kLong && key != "groups" &&
        edit_distance(head.key, key, 1) <= 1) {
      return true;
    }
  }
  return false;
}

bool is_one_of(std::string_view text, const auto& list) {
  return std::ranges::find(list, text) != std::end(list);
}

// A class or a record by what it is called and where it lies.
bool is_called_so(std::string_view name) {
  std::string small = lower_case(name);
  for (char& c : small) {
    if (c == '\\') c = '/';
  }
  if (small.find("records/") != std::string::npos) return true;
  std::string_view file = small;
  file.remove_prefix(file.find_last_of('/') + 1);
  bool so = false;
  for_parts(
      file.substr(0, file.find('.')),
      [&](std::string_view word) {
        while (!word.empty()) {
          const std::string_view part =
              word.substr(0, word.find_first_of("-_"));
          so = so || part == "class" || part == "pupils" ||
               part.starts_with("record");
          word.remove_prefix(std::min(part.size() + 1, word.size()));
        }
      },
      [](std::string_view) {});
  return so;
}

}  // namespace

bool is_learner_code(std::string_view text) {
  if (text.empty() || text.size() > std::size_t{4} * kLongestCode ||
      count_characters(text) > kLongestCode) {
    return false;
  }
  bool joint = true;
  int letters = 0, capitals = 0, figures = 0;
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = next_code_point(text, at);
    if (c == '-' && joint) return false;
    joint = c == '-';
    if (is_latin_letter(c)) {
      ++letters;
      capitals += is_upper_case(c) ? 1 : 0;
    } else if (c >= '0' && c <= '9') {
      ++figures;
    } else if (!joint) {
      return false;
    }
  }
  if (joint || letters > kMostCodeLetters) return false;
  return figures > 0 || capitals == letters;
}

bool is_form_word(std::string_view word) { return is_one_of(word, kFormWords); }

bool may_be_name(std::string_view text) {
  bool may_be = false;
  for_parts(
      text,
      [&](std::string_view word) { may_be = may_be || word_may_be_name(word); },
      [](std::string_view) {});
  return may_be;
}

std::string without_names(std::string_view text) {
  std::string result;
  for_parts(
      text,
      [&](std::string_view word) {
        result += word_may_be_name(word) ? std::string_view("…") : word;
      },
      [&](std::string_view other) { result += other; });
  return result;
}

int count_words(std::string_view text) {
  int count = 0;
  for_parts(
      text, [&](std::string_view) { ++count; }, [](std::string_view) {});
  return count;
}

bool is_about_learners(std::string_view name, std::string_view text) {
  bool telling = false;
  std::size_t others = 0;
  while (!text.empty()) {
    const std::string_view line = text.substr(0, text.find_first_of("\r\n"));
    const LineHead head = head_of(line);
    if (is_telling(head)) {
      if (head.first) return true;
      telling = true;
    }
    if (head.first && head.rest.starts_with(':') &&
        is_one_of(head.key, kOtherKeys)) {
      ++others;
    }
    text.remove_prefix(std::min(line.size() + 1, text.size()));
  }
  // One such key may be a slip in a file about learners.
  return (telling && others == 0) || (others < 2 && is_called_so(name));
}

}  // namespace sheaf
