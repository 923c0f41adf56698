// The steps are common practice, no source; the wording is ours.

#include "sheets/listening_sort.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "layout/numbered_steps.h"
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
    return sounds == 1 ? "another sound" : "none of these";
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

void add_listening_sort_steps(const SheetInput& in, Composer& c) {
  const auto sheet = std::ranges::find_if(in.packet, [](const PlannedSheet& s) {
    return s.kind->name == "listening-sort";
  });
  if (sheet == in.packet.end()) return;
  const bool pictures = sheet->options.flag("pictures");
  const ListeningSort content = listening_sort(
      {in.lesson, sheet->options, in.pictures, in.memory, in.packet});
  if (content.items.empty()) return;
  add_subheading(c, c.style().teacher_size, "The sort by ear", 4_mm);
  std::vector<std::string> steps;
  std::string keys;
  for (const SoundSort::Column& column : content.sort->columns) {
    if (column.sound.empty() || column.key_word.empty()) continue;
    keys += fmt::format("{}{} as in {}", keys.empty() ? "" : ", ",
                        said(in.lesson, column.sound), column.key_word);
  }
  if (!keys.empty()) {
    steps.push_back(
        fmt::format("Say what is listened for: {}. Learners say it.", keys));
  }
  if (content.done > 0) {
    steps.push_back(fmt::format("Do together what is done on the sheet:{}",
                                think_aloud(in, content)));
  }
  steps.emplace_back(
      pictures ? "Name each picture with its number. Learners say the word, "
                 "listen, and write the number in its column. No letters yet: "
                 "the ear decides."
               : "Say each number and its word, twice. Learners say the word, "
                 "listen, and write the number in its column. No word is "
                 "written: the ear decides.");
  steps.emplace_back(
      "Say each column down and listen for a word that does not belong.");
  add_numbered_steps(c, c.style().teacher_text(), steps);
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
