#include "driver/keep_sentences.h"

#include <fmt/format.h>

#include <algorithm>
#include <deque>
#include <optional>
#include <set>

#include "base/error.h"
#include "driver/planning_ground.h"
#include "files/output_files.h"
#include "input/file_kind.h"
#include "input/sentence_file.h"
#include "phonics/sentence_bank.h"
#include "planning/own_sentences.h"

namespace sheaf {

namespace {

constexpr int kMostTries = 100;
constexpr std::string_view kHead =
    "# Sentences of your own. Sheaf takes them before those that it comes "
    "with.\n"
    "# One sentence on each line; a line that begins with # is a comment.\n";

using Keys = std::set<std::string, std::less<>>;

Keys bank_keys(const SentenceBank& bank) {
  Keys keys;
  for (std::size_t i = 0; i < bank.size(); ++i) {
    if (bank.is_sentence(i)) keys.insert(sentence_key(bank.sentence(i).text));
  }
  return keys;
}

// How the lines of a text end: as its first one does.
std::string_view line_end_of(std::string_view text) {
  const std::size_t at = text.find_first_of("\r\n");
  if (at == std::string_view::npos || text[at] == '\n') return "\n";
  return text.substr(at, 2) == "\r\n" ? "\r\n" : "\r";
}

int lines_of(std::string_view text, std::string_view end) {
  int lines = 0;
  for (std::size_t at = text.find(end); at != std::string_view::npos;
       at = text.find(end, at + end.size())) {
    ++lines;
  }
  return lines;
}

// One file, and what lessons want to put into it.
struct Wanted {
  KeptSentences kept;
  std::vector<std::string> sentences;
};

class Keeper {
 public:
  Keeper(Workspace& workspace, KeepResult& result)
      : workspace_(workspace),
        result_(result),
        bank_(bank_keys(workspace.phonics().bank())) {}

  // Where the file changes at the same time, what is there then counts.
  void keep(Wanted& wanted) {
    const KeptSentences clean = wanted.kept;
    for (int tries = 1;; ++tries) {
      try {
        wanted.kept = clean;
        add_to_file(wanted);
        return;
      } catch (const FileChanged&) {
        if (tries == kMostTries) throw;
      }
    }
  }

 private:
  void add_to_file(Wanted& wanted) {
    Files& files = workspace_.files();
    const FilePath& target = wanted.kept.target;
    std::optional<std::string> before;
    if (files.own_status(target).kind != Standing::none) {
      before = files.read(target, kLargestSentenceFile);
    }
    const SourceFile& file =
        result_.texts.emplace_back(target.string(), before.value_or(""));
    Diagnostics diagnostics;
    const SentenceFile there =
        read_sentence_file(file, TellSlips::no, diagnostics);
    if (diagnostics.has_errors()) {
      wanted.kept.file_is_good = false;
      result_.faults.push_back(std::move(diagnostics));
      return;
    }
    Keys keys;
    for (const PlacedText& sentence : there.sentences) {
      keys.insert(sentence_key(sentence.text()));
    }
    const std::string more =
        new_lines(wanted, keys, line_end_of(before.value_or("")));
    if (more.empty()) return;
    write(target, before, more);
  }

  std::string new_lines(Wanted& wanted, Keys& keys,
                        std::string_view line_end) const {
    std::string lines;
    for (const std::string& sentence : wanted.sentences) {
      const std::string key = sentence_key(sentence);
      if (keys.contains(key)) {
        ++wanted.kept.there;
      } else if (bank_.contains(key)) {
        ++wanted.kept.in_bank;
      } else if (sentence_in_line(sentence) != sentence) {
        wanted.kept.unfit.push_back(sentence);
      } else {
        keys.insert(key);
        lines += sentence;
        lines += line_end;
        ++wanted.kept.added;
      }
    }
    return lines;
  }

  void write(const FilePath& target, const std::optional<std::string>& before,
             const std::string& more) {
    std::string text = before ? *before : std::string(kHead);
    const std::string_view line_end = line_end_of(text);
    if (!text.empty() && text.back() != '\n' && text.back() != '\r') {
      text += line_end;
    }
    text += more;
    if (text.size() > kLargestSentenceFile ||
        lines_of(text, line_end) > kMostSentenceLines) {
      throw MachineError(fmt::format(
          "with these sentences {} would be longer than {} lines or {} kB, so "
          "none is added; name another file after `--to`",
          target.string(), kMostSentenceLines, kLargestSentenceFile >> 10U));
    }
    const auto output = workspace_.files().write();
    if (before) {
      output->rewrite(target, text, *before);
    } else {
      output->add_new(target, text);
    }
    output->finish();
  }

  Workspace& workspace_;
  KeepResult& result_;
  Keys bank_;
};

// What the teacher wrote under a key; nothing where Sheaf chose it.
void take_own(const PreparedLesson& lesson, std::string_view key,
              const std::vector<LessonLine>& lines,
              std::vector<std::string>& sentences) {
  if (std::ranges::find(lesson.filled, key, &FilledKey::key) !=
      lesson.filled.end()) {
    return;
  }
  for (const LessonLine& line : lines) sentences.push_back(line.text());
}

}  // namespace

KeepResult keep_sentences(Workspace& workspace, const LessonRequest& request,
                          const std::vector<std::string>& lessons,
                          const FilePath& to) {
  KeepResult result;
  std::vector<Wanted> all;
  for (const std::string& path : lessons) {
    const FileKind kind = likely_kind(workspace.open(path));
    if (kind != FileKind::lesson) {
      result.others.emplace_back(path, describe(kind));
      continue;
    }
    Diagnostics diagnostics;
    const auto lesson = prepare(workspace, request, path, diagnostics);
    if (lesson == nullptr || diagnostics.has_errors()) {
      result.faults.push_back(std::move(diagnostics));
      continue;
    }
    const FilePath target =
        to.empty() ? FilePath(path).parent_path() / kSentencesFile : to;
    auto wanted = std::ranges::find_if(
        all, [&](const Wanted& one) { return one.kept.target == target; });
    if (wanted == all.end()) {
      wanted = all.insert(all.end(), {.kept = {.target = target}});
    }
    ++wanted->kept.lessons;
    take_own(*lesson, "sentences", lesson->lesson.sentences, wanted->sentences);
    take_own(*lesson, "dictate-sentences", lesson->lesson.dictate_sentences,
             wanted->sentences);
  }
  Keeper keeper(workspace, result);
  for (Wanted& wanted : all) {
    keeper.keep(wanted);
    result.files.push_back(std::move(wanted.kept));
  }
  return result;
}

}  // namespace sheaf
