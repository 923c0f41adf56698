// How a record is written: by `sheaf record`, as a form or as it was typed.

#include "cli/record_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace sheaf {

namespace {

// What may stand in a list of attempts with nothing around it.
bool is_plain_attempt(const std::string& text) {
  return !text.empty() && std::ranges::all_of(text, [](unsigned char c) {
    return std::isalnum(c) != 0 || c == '\'' || c == ' ' || c >= 0x80;
  });
}

std::string written_text(const Attempt& attempt) {
  return attempt.blank ? "." : attempt.written.text();
}

}  // namespace

std::string as_key(const std::string& text) {
  const bool plain =
      text.find_first_of(":#{}[],&*!|>'\"%@`?-~\t") == std::string::npos;
  if (plain) return text;
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') quoted += '\\';
    quoted += c;
  }
  return quoted + "\"";
}

std::string as_file_name(const std::string& name) {
  const bool plain = std::ranges::all_of(name, [](unsigned char c) {
    return std::isalnum(c) != 0 || c == '/' || c == '.' || c == '_' || c == '-';
  });
  return plain && !name.starts_with('-') ? name : as_key(name);
}

std::string head_text(const RecordHead& head) {
  return fmt::format("sheaf: 1\ndate: {}\nlesson: {}\nkind: {}\nclass: {}\n",
                     head.date, as_file_name(head.lesson), head.kind,
                     as_file_name(head.class_file));
}

FilePath name_beside(const FilePath& target, int number) {
  return target.parent_path() /
         fmt::format("{}-{}.yaml", target.stem().string(), number);
}

std::string dictated_lines(const TaughtFile& lesson) {
  std::string words, sentences;
  for (const DictatedItem& item : lesson.items) {
    if (item.sentence) {
      sentences += fmt::format("#   {}\n", as_key(item.text));
    } else {
      words += (words.empty() ? "" : " ") + item.text;
    }
  }
  std::string text;
  if (!words.empty()) text += fmt::format("#   {}\n", words);
  return text + sentences;
}

std::string wrong_line(const LearnerCode& code,
                       std::span<const Attempt> attempts) {
  std::string list, keys;
  bool plain = true;
  for (const Attempt& attempt : attempts) {
    const std::string& target = attempt.target.text();
    const std::string written = written_text(attempt);
    plain = plain && is_plain_attempt(target) &&
            (attempt.blank || is_plain_attempt(written));
    list += fmt::format("{}{}={}", list.empty() ? "" : ", ", target, written);
    // Signs of a word that the file would read as its own are kept by quotes.
    keys += fmt::format("\n    - {{{}: {}}}", as_key(target), as_key(written));
  }
  if (attempts.empty()) return fmt::format("  {}:\n", code.text());
  return plain ? fmt::format("  {}: {}\n", code.text(), list)
               : fmt::format("  {}:{}\n", code.text(), keys);
}

}  // namespace sheaf
