// What may stand at a place: keys, patterns, words that have the pattern and
// can be read, sheets, options, layouts, files, steps and codes.

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "analysis/pattern_names.h"
#include "base/utf8.h"
#include "input/class_file.h"
#include "phonics/explain.h"
#include "service/key_facts.h"
#include "service/state.h"
#include "service/text_context.h"
#include "service/word_offers.h"
#include "sheets/sheet.h"

namespace sheaf {

namespace {

constexpr std::size_t kMostWords = 40;

using Kind = Completion::Kind;

class Completer {
 public:
  Completer(const TextReading& reading, const TextReading* lesson,
            Workspace& ground, const std::string& path, std::uint32_t at)
      : reading_(reading),
        lesson_(lesson == nullptr ? nullptr : &lesson->lesson->analyzed),
        ground_(ground),
        folder_(FilePath(path).parent_path()),
        text_(reading.file->text()),
        context_(context_at(text_, at)) {
    // What stands behind the place is kept.
    context_.token.end = std::min(context_.token.end, at);
    context_.token.begin = std::min(context_.token.begin, at);
  }

  std::vector<Completion> take() {
    if (context_.in_comment) return {};
    if (context_.in_lines) {
      if (context_.inner() == "sentences" ||
          context_.inner() == "dictate-sentences") {
        add_words();
      }
    } else if (reading_.kind == FileKind::record &&
               (context_.inner() == "absent" ||
                (context_.above.size() == 1 &&
                 (context_.top() == "wrong" || context_.top() == "written" ||
                  context_.top() == "writing" ||
                  context_.top() == "part-two") &&
                 (context_.in_key || context_.may_be_key)))) {
      add_codes();
    } else if (context_.in_key ||
               (context_.may_be_key &&
                !keys_below(reading_.kind, context_.above).empty())) {
      add_keys();
      if (context_.in_item && context_.top() == "sheets") add_sheets();
    } else {
      add_values();
    }
    return std::move(found_);
  }

 private:
  void add(Kind kind, std::string label, std::string text, std::string detail,
           std::string more = "", bool whole_piece = false) {
    found_.push_back({kind, std::move(label),
                      whole_piece ? context_.piece : context_.token,
                      std::move(text), std::move(detail), std::move(more)});
  }

  void add_keys() {
    const std::vector<std::string> top = top_keys(text_);
    for (const KeyFact& key : keys_below(reading_.kind, context_.above)) {
      const bool there = context_.above.empty() && key.name != context_.own &&
                         std::ranges::find(top, key.name) != top.end();
      if (there) continue;
      const bool opens = key.example.ends_with(':');
      const bool has_colon = !context_.own.empty();
      add(Kind::key, key.name,
          has_colon ? key.name : key.name + (opens ? ":" : ": "), key.meaning,
          key.example.empty() ? "" : "as in " + key.example);
    }
  }

  void add_sheets() {
    for (const SheetKind* kind : sheet_kinds()) {
      add(Kind::sheet, std::string(kind->name), std::string(kind->name),
          std::string(kind->summary),
          kind->for_teacher ? "for the teacher" : "for the learner");
    }
  }

  void add_patterns() {
    for (const Pattern& p : ground_.phonics().patterns().all()) {
      add(Kind::pattern, std::string(p.id), std::string(p.id),
          std::string(p.name), fmt::format("as in {}", p.example), true);
    }
  }

  // Files of a kind in the folder, and layouts that come with Sheaf.
  void add_files(FileKind kind) {
    for (const FilePath& file : yaml_files(ground_.files(), folder_)) {
      constexpr std::size_t kLargest = std::size_t{1} << 20U;
      const SourceFile text(file.string(),
                            ground_.files().read(file, kLargest));
      if (likely_kind(text) != kind) continue;
      add(Kind::file, file.filename().string(), file.filename().string(),
          std::string(describe(kind)), "", true);
    }
  }
  void add_layouts() {
    std::set<std::string> names;
    for (const FilePath& folder :
         {folder_ / "layouts", ground_.shipped() / "layouts"}) {
      for (const FilePath& file : yaml_files(ground_.files(), folder)) {
        names.insert(file.stem().string());
      }
    }
    for (const std::string& name : names) {
      add(Kind::file, name, name, "a layout", "", true);
    }
  }

  // Codes of the class that a record names, beside it or in the folder above.
  void add_codes() {
    for (const KeyLine& key : key_lines(text_)) {
      if (text_.substr(key.name.begin, key.name.end - key.name.begin) !=
          "class") {
        continue;
      }
      const std::string name(text_.substr(key.value, key.end - key.value));
      for (const FilePath& folder : {folder_, folder_.parent_path()}) {
        if (!ground_.files().is_file(folder / name)) continue;
        constexpr std::size_t kLargest = std::size_t{1} << 20U;
        const SourceFile file(name,
                              ground_.files().read(folder / name, kLargest));
        Diagnostics unheard;
        const ClassFile pupils = read_class(file, unheard);
        if (unheard.has_errors()) return;
        for (const LearnerEntry& learner : pupils.learners) {
          add(Kind::value, learner.code.value.text(), learner.code.value.text(),
              learner.group.value);
        }
        return;
      }
    }
  }

  void add_steps() {
    if (lesson_ == nullptr) return;
    for (const Taught::Step& step : lesson_->taught.steps()) {
      std::string patterns;
      for (const PatternId id : step.patterns) {
        patterns += (patterns.empty() ? "" : ", ") +
                    std::string(lesson_->phonics->patterns()[id].name);
      }
      const std::string number = fmt::format("{}", step.number);
      add(Kind::step, number, number, patterns.empty() ? "practice" : patterns,
          step.name, true);
    }
  }

  // Words with the lesson's patterns, those that are there left out.
  void add_words();
  void add_values();

  const TextReading& reading_;
  const AnalyzedLesson* lesson_;
  Workspace& ground_;
  FilePath folder_;
  std::string_view text_;
  TextContext context_;
  std::vector<Completion> found_;
};

void Completer::add_words() {
  const Phonics& phonics = ground_.phonics();
  for (const OfferedWord& word :
       words_for(text_, lesson_, ground_, kMostWords, LeaveOut::there)) {
    add(Kind::word, word.word.reading->word, word.word.reading->word,
        graphemes_text(*word.word.reading),
        fmt::format("{}{}", phonics.patterns()[word.pattern].name,
                    word.word.picture ? "; has a picture" : ""));
  }
}

void Completer::add_values() {
  const std::string_view key = context_.inner();
  const bool lesson = reading_.kind == FileKind::lesson;
  if (reading_.kind == FileKind::sequence &&
      (key == "patterns" || key == "taught")) {
    add_patterns();
  } else if (lesson && (key == "pattern" || key == "taught")) {
    add_patterns();
  } else if (lesson && (key == "words" || key == "dictate-words" ||
                        key == "key-word" || key == "same-sound" ||
                        key == "sentences" || key == "dictate-sentences")) {
    add_words();
  } else if (key == "layout") {
    add_layouts();
  } else if (key == "sequence") {
    add_files(FileKind::sequence);
  } else if (key == "lesson") {
    add_files(FileKind::lesson);
  } else if (key == "class") {
    add_files(FileKind::learners);
  } else if (key == "step") {
    add_steps();
  } else if (key == "extra" ||
             (context_.in_item && context_.top() == "sheets")) {
    add_sheets();
  } else {
    for (const KeyFact& fact : keys_below(reading_.kind, context_.above)) {
      if (fact.name != key) continue;
      for (const std::string& choice : fact.choices) {
        add(Kind::value, choice, choice,
            choice == fact.fallback ? "as it comes" : "");
      }
    }
  }
}

}  // namespace

std::vector<Completion> Service::completions(const std::string& path,
                                             std::uint32_t at) {
  State& found = state(path);
  if (found.now->file == nullptr) return {};
  return Completer(*found.now, found.with_lesson(), *ground_, path, at).take();
}

}  // namespace sheaf
