// The steps are common practice, no source; the wording is ours.

#include "sheets/listening_sort.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "layout/text_block.h"
#include "phonics/explain.h"
#include "sheets/word_parts.h"

namespace sheaf {
namespace {

using namespace literals;

// What the teacher says while the words that are done already are looked at.
std::string think_aloud(const SheetInput& in, const ListeningSort& content) {
  std::string text;
  for (std::size_t i = 0; i < content.done; ++i) {
    const SoundSort::Item& item = *content.items[i];
    const auto column = static_cast<std::size_t>(item.column);
    const std::vector<Phoneme>& sound = content.sort->columns[column].sound;
    text += fmt::format(
        " “Number {}: {}. {}, so {} stands under {}.”", i + 1, item.word,
        sound.empty() ? "I listen, and our sound is not in it"
                      : fmt::format("I hear {}", said(in.lesson, sound)),
        i + 1, content.head(column));
  }
  return text;
}

}  // namespace

std::string ListeningSort::head(std::size_t column) const {
  const std::size_t sounds = sort->columns.size() - 1;
  if (sort->columns[column].sound.empty()) {
    return sounds == 1 ? "another sound" : "left over";
  }
  return sounds == 1 ? "our sound" : fmt::format("sound {}", column + 1);
}

ListeningSort listening_sort(const SheetInput& in) {
  const int count = in.options.count("words");
  ListeningSort content;
  content.sort = in.options.flag("pictures") ? &sound_sort(in, count)
                                             : &heard_sort(in, count);
  if (!content.sort->missing.empty()) return content;
  for (const auto& item : content.sort->models) content.items.push_back(&item);
  content.done = content.items.size();
  for (const auto& item : content.sort->items) content.items.push_back(&item);
  return content;
}

ScriptLines listening_sort_script(const SheetInput& in, const DayStep&) {
  const ListeningSort content = listening_sort(in);
  if (content.items.empty()) return {};
  ScriptLines lines;
  std::string keys;
  for (const SoundSort::Column& column : content.sort->columns) {
    if (column.sound.empty() || column.key_word.empty()) continue;
    keys += fmt::format("{}{} as in {}", keys.empty() ? "" : ", ",
                        said(in.lesson, column.sound), column.key_word);
  }
  if (!keys.empty()) {
    lines.push_back(
        {Lead::say,
         fmt::format("what is listened for: {}. Learners say it.", keys)});
  }
  if (content.done > 0) {
    lines.push_back(
        {Lead::show, "what is done on the sheet:" + think_aloud(in, content)});
  }
  lines.push_back(
      {Lead::act,
       in.options.flag("pictures")
           ? "Name each picture with its number. Learners say the word, "
             "listen, and write the number in its column. No letters yet: the "
             "ear decides."
           : "Say each number and its word, twice. Learners say the word, "
             "listen, and write the number in its column. No word is written: "
             "the ear decides."});
  lines.push_back({Lead::wait,
                   "the word said aloud before a number is "
                   "written. If they doubt: “Say it again. Hold "
                   "our sound. Is it there?”"});
  lines.push_back({Lead::done_when,
                   "each column was said down and every word of it belongs, as "
                   "in the key."});
  return lines;
}

void add_listening_sort_words(const SheetInput& in, Composer& c) {
  const ListeningSort content = listening_sort(in);
  if (content.items.empty()) return;
  const TextStyle text = c.style().teacher_text();
  std::vector<TextPiece> words = {{"To say: ", c.style().teacher_text(true)}};
  for (std::size_t i = 0; i < content.items.size(); ++i) {
    const bool last = i + 1 == content.items.size();
    words.push_back({fmt::format("{}\u00A0{}{}", i + 1, content.items[i]->word,
                                 last ? "." : ", "),
                     text});
  }
  add_paragraph(c, words, {.space_before = 1.5_mm, .whole = true});
}

}  // namespace sheaf
