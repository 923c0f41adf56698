// Changes that a teacher may want at a place: the mends of messages, and for a
// word to take it out, to put it among the sight words, or to settle how it is
// parted; and words chosen by Sheaf.

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "base/utf8.h"
#include "phonics/explain.h"
#include "service/state.h"
#include "service/text_context.h"
#include "service/word_facts.h"
#include "service/word_offers.h"

namespace sheaf {

namespace {

bool touch(TextRange a, TextRange b) {
  return a.begin <= b.end && b.begin <= a.end;
}

class ActionFinder {
 public:
  ActionFinder(const TextReading& reading, const TextReading* lesson,
               Workspace& ground, const std::string& path, TextRange range)
      : reading_(reading),
        lesson_(lesson == nullptr ? nullptr : &lesson->lesson->analyzed),
        ground_(ground),
        phonics_(ground.phonics()),
        path_(path),
        text_(reading.file->text()),
        range_(range),
        context_(context_at(text_, range.begin)) {}

  std::vector<ServiceAction> take() {
    if (reading_.kind != FileKind::lesson || context_.in_comment) return {};
    if (const auto word = word_here()) {
      if (is_list()) add_take_out(*word);
      add_sight_word(*word);
      add_split(*word);
    }
    add_kept_words();
    add_chosen_words();
    return std::move(found_);
  }

 private:
  void add(std::string title, std::vector<TextEdit> edits) {
    found_.push_back(
        {.title = std::move(title), .files = {{path_, std::move(edits)}}});
  }
  std::string_view part(TextRange range) const {
    return text_.substr(range.begin, range.end - range.begin);
  }
  std::optional<std::string> word_here() const {
    const std::string_view token = part(context_.token);
    const bool named = context_.in_key || !is_word(token);
    constexpr std::string_view kWords[] = {
        "words",   "sentences", "dictate-words", "dictate-sentences",
        "passage", "text",      "sort-words"};
    if (named ||
        std::ranges::find(kWords, context_.inner()) == std::end(kWords)) {
      return std::nullopt;
    }
    return std::string(token);
  }
  bool is_list() const {
    return context_.inner() == "words" || context_.inner() == "dictate-words" ||
           context_.inner() == "sort-words";
  }
  const KeyLine* key(std::string_view name) {
    if (keys_.empty()) keys_ = key_lines(text_);
    const auto found = std::ranges::find_if(keys_, [&](const KeyLine& k) {
      return k.indent == 0 && part(k.name) == name;
    });
    return found == keys_.end() ? nullptr : &*found;
  }

  // With the blank or the comma that parts it from its neighbour.
  void add_take_out(const std::string& word) {
    TextRange range = context_.token;
    const auto is_gap = [&](std::uint32_t at) {
      return at < text_.size() && (text_[at] == ' ' || text_[at] == ',');
    };
    while (is_gap(range.end)) ++range.end;
    const bool last = range.end == text_.size() || text_[range.end] == '\n' ||
                      text_[range.end] == '\r' || text_[range.end] == ']';
    while (last && range.begin > 0 && is_gap(range.begin - 1)) --range.begin;
    // The key keeps its blank.
    if (range.begin > 0 && text_[range.begin - 1] == ':') ++range.begin;
    add(fmt::format("Take {} out", word), {{range, ""}});
  }

  void add_sight_word(const std::string& word) {
    const std::string small = lower_case(word);
    if (lesson_ != nullptr && lesson_->taught.is_sight_word(small)) return;
    const std::string title = fmt::format("Put {} among the sight words", word);
    if (const KeyLine* sight = key("sight-words")) {
      if (sight->lines) return;
      std::uint32_t end = sight->end;
      const std::size_t remark = part({sight->value, sight->end}).find(" #");
      if (remark != std::string_view::npos) {
        end = sight->value + static_cast<std::uint32_t>(remark);
      }
      while (end > sight->value && text_[end - 1] == ' ') --end;
      const bool listed = end > sight->value && text_[end - 1] == ']';
      if (listed) --end;
      const std::string_view gap = end == sight->value ? "" : " ";
      add(title, {{{end, end},
                   fmt::format("{}{}{}", listed && !gap.empty() ? "," : "", gap,
                               small)}});
      return;
    }
    add_line(title, "sight-words: " + small);
  }

  void add_split(const std::string& word) {
    const SeenWord seen = see_word(word, lesson_, phonics_);
    if (seen.word.reading.origin == Reading::Origin::by_hand) return;
    const std::string line = split_line(seen.word.reading);
    const std::string title = fmt::format("Settle how {} is parted", word);
    if (const KeyLine* split = key("split")) {
      const std::string_view value = part({split->value, split->end});
      if (value.starts_with('{')) {
        const std::uint32_t at = split->value + 1;
        add(title, {{{at, at}, line + ", "}});
      } else if (value.empty()) {
        add(title, {{{split->end, split->end}, "\n  " + line}});
      }
      return;
    }
    add_line(title, "split:\n  " + line);
  }

  // What Sheaf chose because the lesson leaves it open, to be kept.
  void add_kept_words() {
    if (reading_.lesson == nullptr) return;
    for (const FilledKey& filled : reading_.lesson->filled) {
      if (filled.key != "words" && filled.key != "dictate-words") continue;
      add(fmt::format("Keep the {} that Sheaf chose",
                      filled.key == "words" ? "words" : "words to dictate"),
          line_edit(
              fmt::format("{}: {}", filled.key, fmt::join(filled.words, " "))));
    }
  }

  // Where the words or the pattern stand: ten words, for each of several
  // patterns an equal part, in place of those that are there.
  void add_chosen_words() {
    const bool at_words = context_.own == "words";
    if (!at_words && (context_.own != "pattern" || key("words") != nullptr)) {
      return;
    }
    constexpr std::size_t kWords = 10;
    std::vector<std::string> words;
    std::vector<PatternId> patterns;
    const auto all =
        words_for(text_, lesson_, ground_, kWords, LeaveOut::nothing);
    for (const OfferedWord& word : all) {
      if (patterns.empty() || patterns.back() != word.pattern) {
        patterns.push_back(word.pattern);
      }
    }
    for (const PatternId pattern : patterns) {
      std::size_t left = kWords / patterns.size();
      for (const OfferedWord& word : all) {
        if (word.pattern != pattern || left == 0) continue;
        words.push_back(word.word.reading->word);
        --left;
      }
    }
    if (words.empty()) return;
    const std::string line = fmt::format("{}", fmt::join(words, " "));
    const KeyLine* there = key("words");
    if (there == nullptr)
      return add_line("Choose words for me", "words: " + line);
    // Words that go on over lines are the teacher's to take out.
    std::uint32_t next = static_cast<std::uint32_t>(text_.size());
    for (const KeyLine& other : keys_) {
      if (other.begin > there->begin) next = std::min(next, other.begin);
    }
    if (part({there->end, next}).find_first_not_of(" \r\n") !=
        std::string_view::npos) {
      return;
    }
    const std::uint32_t begin = there->name.end + 1;
    std::uint32_t end = there->end;
    const std::size_t remark = part({begin, end}).find(" #");
    if (remark != std::string_view::npos) {
      end = begin + static_cast<std::uint32_t>(remark);
    }
    add("Choose words for me", {{{begin, end}, " " + line}});
  }

  // A line of its own behind the words, or behind the pattern.
  std::vector<TextEdit> line_edit(const std::string& line) {
    for (const std::string_view name : {"words", "pattern"}) {
      const KeyLine* behind = key(name);
      if (behind == nullptr) continue;
      // The value may go on below.
      std::uint32_t end = behind->end;
      for (const KeyLine& other : keys_) {
        if (other.begin > behind->begin && other.indent == 0) {
          end = other.begin - 1;
          break;
        }
      }
      const bool last = end == behind->end && &keys_.back() == behind;
      if (last) end = static_cast<std::uint32_t>(text_.size());
      while (end > behind->end &&
             (text_[end - 1] == '\n' || text_[end - 1] == '\r')) {
        --end;
      }
      return {{{end, end}, "\n" + line}};
    }
    const auto end = static_cast<std::uint32_t>(text_.size());
    const bool open = end > 0 && text_[end - 1] != '\n';
    return {{{end, end}, (open ? "\n" : "") + line + "\n"}};
  }
  void add_line(const std::string& title, const std::string& line) {
    add(title, line_edit(line));
  }

  const TextReading& reading_;
  const AnalyzedLesson* lesson_;
  Workspace& ground_;
  const Phonics& phonics_;
  const std::string& path_;
  std::string_view text_;
  TextRange range_;
  TextContext context_;
  std::vector<KeyLine> keys_;
  std::vector<ServiceAction> found_;
};

}  // namespace

std::vector<ServiceAction> Service::actions(const std::string& path,
                                            TextRange range) {
  std::vector<ServiceAction> actions;
  const std::vector<ServiceMessage> messages = this->messages(path);
  for (std::size_t i = 0; i < messages.size(); ++i) {
    const ServiceMessage& message = messages[i];
    if (message.path != path || !message.range ||
        !touch(*message.range, range)) {
      continue;
    }
    for (const ServiceFix& fix : message.fixes) {
      actions.push_back(
          {fix.label, fix.files, static_cast<int>(i), fix.certain});
    }
  }
  State& found = state(path);
  if (found.now->file == nullptr) return actions;
  for (ServiceAction& action :
       ActionFinder(*found.now, found.with_lesson(), *ground_, path, range)
           .take()) {
    actions.push_back(std::move(action));
  }
  return actions;
}

}  // namespace sheaf
