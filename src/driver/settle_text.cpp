#include "driver/settle_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>
#include <string_view>

#include "base/utf8.h"
#include "driver/sort_words.h"
#include "phonics/explain.h"
#include "planning/lesson_text.h"

namespace sheaf {

namespace {

// Keys that are written anew or left out, as what they leave open is settled.
constexpr std::array<std::string_view, 19> kWrittenAnew = {
    "words",       "pick",       "review",        "key-word",    "same-sound",
    "other-sound", "sort-words", "dictate-words", "split",       "pictures",
    "days",        "minutes",    "set",           "conventions", "accent",
    "count",       "notation",   "layout",        "seed"};

std::size_t line_begin(std::string_view text, std::size_t at) {
  const std::size_t end = text.rfind('\n', at == 0 ? 0 : at - 1);
  return at == 0 || end == std::string_view::npos ? 0 : end + 1;
}

std::string without_returns(std::string_view text) {
  std::string plain(text);
  std::erase(plain, '\r');
  return plain;
}

std::string in_quotes(std::string_view text) {
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') quoted += '\\';
    quoted += c;
  }
  return quoted + "\"";
}

// A key with words, in lines that a person can read.
std::string words_line(std::string_view key,
                       const std::vector<std::string>& words) {
  constexpr std::size_t kWidth = 78;
  std::string text(key);
  text += ':';
  std::size_t width = text.size();
  for (const std::string& word : words) {
    if (width + 1 + word.size() > kWidth) {
      text += "\n ";
      width = 1;
    }
    text += ' ' + word;
    width += 1 + word.size();
  }
  return text + "\n";
}

std::vector<std::string> spellings(const std::vector<AnalyzedWord>& words) {
  std::vector<std::string> list;
  for (const AnalyzedWord& word : words) list.push_back(word.spelling.value);
  return list;
}

class Settler {
 public:
  Settler(const PreparedLesson& prepared,
          const std::vector<std::pair<std::string, std::string>>& pictures,
          const SettledParts& parts)
      : prepared_(prepared),
        lesson_(prepared.lesson),
        analyzed_(prepared.analyzed),
        source_(prepared.lesson.file->text()),
        pictures_(pictures),
        parts_(parts) {}

  std::optional<std::string> run(std::string& why) {
    if (!add_typed(why)) return std::nullopt;
    add_words();
    add_chosen_texts();
    add_order();
    add_conventions();
    add_splits();
    add_pictures();
    add_file("sequence", prepared_.sequence_file, "sequence: none\n");
    add_file("layout", prepared_.layout_file, "");
    return std::move(text_);
  }

 private:
  bool is_kept(std::string_view key) const {
    if (key == "sequence" || key == "layout") {
      return (key == "sequence" ? prepared_.sequence_file
                                : prepared_.layout_file) == lesson_.file;
    }
    return std::ranges::find(kWrittenAnew, key) == kWrittenAnew.end() &&
           std::ranges::find(prepared_.filled, key, &FilledKey::key) ==
               prepared_.filled.end();
  }

  // The remarks at the top, and each key whose text can stay.
  bool add_typed(std::string& why) {
    std::vector<std::size_t> begins;
    for (const Spanned<std::string>& key : lesson_.keys) {
      begins.push_back(line_begin(source_, key.span.begin));
      const bool alone =
          key.span.begin == begins.back() &&
          (begins.size() < 2 || begins[begins.size() - 2] < begins.back());
      if (alone) continue;
      why = fmt::format(
          "{} is not at the start of a line; a lesson can be settled only if "
          "each key starts a line",
          sheaf::quoted(key.value));
      return false;
    }
    for (const std::string_view line : lines_of(source_.substr(0, begins[0]))) {
      if (line.starts_with('#')) text_ += fmt::format("{}\n", line);
    }
    text_ += fmt::format(
        "# Settled by Sheaf {}: every choice is written out, and this version "
        "makes the\n# same pages of it anywhere.\n",
        SHEAF_VERSION);
    begins.push_back(source_.size());
    for (std::size_t i = 0; i < lesson_.keys.size(); ++i) {
      if (!is_kept(lesson_.keys[i].value)) continue;
      std::string block =
          without_returns(source_.substr(begins[i], begins[i + 1] - begins[i]));
      if (!block.ends_with('\n')) block += '\n';
      text_ += block;
    }
    return true;
  }

  static std::vector<std::string_view> lines_of(std::string_view text) {
    std::vector<std::string_view> lines;
    while (!text.empty()) {
      const std::size_t end = std::min(text.find('\n'), text.size());
      std::string_view line = text.substr(0, end);
      if (line.ends_with('\r')) line.remove_suffix(1);
      lines.push_back(line);
      text.remove_prefix(std::min(end + 1, text.size()));
    }
    return lines;
  }

  void add_words() {
    text_ += words_line("words", spellings(analyzed_.words));
    if (lesson_.key_word.given()) {
      text_ += fmt::format("key-word: {}\n", lesson_.key_word.value);
    } else if (analyzed_.key_words.size() == 1 &&
               analyzed_.key_words.front() >= 0) {
      const auto key = static_cast<std::size_t>(analyzed_.key_words.front());
      text_ +=
          fmt::format("key-word: {}\n", analyzed_.words[key].spelling.value);
    }
    if (!analyzed_.dictate_words.empty()) {
      text_ += words_line("dictate-words", spellings(analyzed_.dictate_words));
    }
    if (!analyzed_.sort_words.empty()) {
      text_ += words_line("sort-words", spellings(analyzed_.sort_words));
    }
    add_sort("same-sound", lesson_.same_sound);
    add_sort("other-sound", lesson_.other_sound);
  }

  // Sentences and a passage that Sheaf chose.
  void add_chosen_texts() {
    for (const FilledKey& filled : prepared_.filled) {
      if (filled.key == "passage") {
        text_ += passage_text(lesson_.passage);
      } else if (filled.key == "sentences") {
        text_ += sentences_text(filled.key, lesson_.sentences);
      } else if (filled.key == "dictate-sentences") {
        text_ += sentences_text(filled.key, lesson_.dictate_sentences);
      }
    }
  }

  void add_sort(std::string_view key, const std::vector<PlacedWord>& written) {
    std::vector<std::string> words;
    for (const PlacedWord& word : written) words.push_back(word.value);
    if (words.empty() && parts_.sort_words) {
      const SortWords sort = picture_sort_words(prepared_);
      words = key == "same-sound" ? sort.same : sort.other;
    }
    if (!words.empty()) text_ += words_line(key, words);
  }

  void add_order() {
    text_ += fmt::format("days: {}\nminutes: {}\nset: {}\nseed: {}\n",
                         lesson_.days.value, lesson_.minutes.value,
                         lesson_.set.value, seed_text(analyzed_.seed));
  }

  void add_conventions() {
    const Conventions& all = analyzed_.conventions;
    text_ += fmt::format("accent: {}\nnotation: {}\nconventions:\n",
                         convention_value(all, "accent"),
                         convention_value(all, "notation"));
    for (const ConventionSwitch& s : convention_switches()) {
      text_ += fmt::format("  {}: {}\n", s.name, all.*s.setting ? s.on : s.off);
    }
  }

  void add_splits() {
    std::set<std::string> seen;
    std::string lines;
    for (const auto* words :
         {&analyzed_.words, &analyzed_.sort_words, &analyzed_.dictate_words}) {
      for (const AnalyzedWord& word : *words) {
        const bool typed = word.reading.origin == Reading::Origin::by_hand ||
                           !word.reading.parted.empty();
        if (!parts_.splits && !typed) continue;
        if (!seen.insert(word.reading.word).second) continue;
        lines += "  " +
                 split_line(word.reading,
                            analyzed_.phonics->read(word.reading.word,
                                                    analyzed_.conventions)) +
                 "\n";
      }
    }
    // Splits of words in sentences.
    for (const LessonSplit& split : lesson_.splits) {
      if (!seen.insert(split.word.value).second) continue;
      lines += "  " + split_as_typed(split) + "\n";
    }
    if (!lines.empty()) text_ += "split:\n" + lines;
  }

  // fire-side
  static std::string divided_as_typed(const LessonSplit& split) {
    const std::string& word = split.word.value;
    std::string text;
    std::size_t letters = 0;
    for (std::size_t at = 0; at < word.size();) {
      const std::size_t begin = at;
      const char32_t c = next_code_point(word, at);
      if (c == '-') continue;
      const bool divided =
          std::ranges::find(split.division, letters) != split.division.end();
      if (c != '\'' && c != 0x2019) {
        if (divided) text += '-';
        ++letters;
      }
      text.append(word, begin, at - begin);
    }
    return text;
  }

  static std::string split_as_typed(const LessonSplit& split) {
    std::string line = split.word.value + ":";
    if (!split.division.empty()) {
      return line + " " + divided_as_typed(split);
    }
    for (const LessonSplit::Part& part : split.parts) {
      line += part.begins_beat ? " - " : " ";
      line += part.grapheme.value;
      if (part.sound) line += "=/" + part.sound->value + "/";
    }
    return line;
  }

  void add_pictures() {
    if (pictures_.empty()) return;
    text_ += "pictures:\n";
    for (const auto& [word, picture] : pictures_) {
      text_ += fmt::format("  {}: {}\n", word, in_quotes(picture));
    }
  }

  // What stands in another file, two spaces in.
  void add_file(std::string_view key, const SourceFile* file,
                std::string_view without) {
    if (file == lesson_.file) return;  // it stands there as it was typed
    if (file == nullptr) {
      text_ += without;
      return;
    }
    text_ += fmt::format("{}:\n", key);
    for (const std::string_view line : lines_of(file->text())) {
      if (line == "---" || line.starts_with("# yaml-language-server")) continue;
      text_ += line.empty() ? "\n" : fmt::format("  {}\n", line);
    }
  }

  const PreparedLesson& prepared_;
  const Lesson& lesson_;
  const AnalyzedLesson& analyzed_;
  std::string_view source_;
  const std::vector<std::pair<std::string, std::string>>& pictures_;
  const SettledParts& parts_;
  std::string text_;
};

}  // namespace

std::optional<std::string> settled_text(
    const PreparedLesson& lesson,
    const std::vector<std::pair<std::string, std::string>>& pictures,
    const SettledParts& parts, std::string& why) {
  return Settler(lesson, pictures, parts).run(why);
}

}  // namespace sheaf
