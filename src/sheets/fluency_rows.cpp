#include "sheets/fluency_rows.h"

#include <fmt/format.h>

#include <algorithm>

#include "analysis/taught_words.h"
#include "base/shuffle.h"
#include "sheets/phrases.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace {

using Part = FluencyPart;
using Item = FluencyPart::Item;

constexpr std::size_t kFewestItems = 4;
constexpr std::size_t kFewestPhrases = 4;
constexpr std::size_t kMostGraphemes = 12;

// Items in mixed order, to be gone through again and again.
class Deck {
 public:
  Deck(std::vector<Item> items, std::string_view salt, std::uint64_t seed)
      : items_(std::move(items)), random_(text_hash(salt, seed)) {
    shuffle(items_, random_);
  }
  void begin_again() {
    shuffle(items_, random_);
    at_ = 0;
  }
  // Whether something else than this is left.
  bool has_other(std::string_view than) const {
    return std::any_of(items_.begin() + static_cast<std::ptrdiff_t>(at_),
                       items_.end(),
                       [&](const Item& item) { return item.text != than; });
  }
  // The next that is not the one before it.
  const Item& next(std::string_view before) {
    const auto place = items_.begin() + static_cast<std::ptrdiff_t>(at_);
    std::iter_swap(place,
                   std::find_if(place, items_.end(), [&](const Item& item) {
                     return item.text != before;
                   }));
    return items_[at_++];
  }

 private:
  std::vector<Item> items_;
  Random random_;
  std::size_t at_ = 0;
};

// One of the week's and one of those before in turn, whichever first, until
// both are gone through; then again.
std::vector<Item> mixed(std::vector<Item> fresh, std::vector<Item> before,
                        std::size_t count, std::string_view salt,
                        std::uint64_t seed) {
  if (fresh.size() + before.size() < kFewestItems) return {};
  Deck own(std::move(fresh), salt, seed);
  Deck other(std::move(before), salt, seed + 1);
  Random random(text_hash(salt, seed + 2));
  std::vector<Item> items;
  bool own_first = true;
  while (items.size() < count) {
    const std::string last = items.empty() ? "" : items.back().text;
    if (!own.has_other(last) && !other.has_other(last)) {
      own.begin_again();
      other.begin_again();
    }
    const bool first_of_pair = items.size() % 2 == 0;
    if (first_of_pair) own_first = random.below(2) == 0;
    const bool wants_own = own_first == first_of_pair;
    const bool take_own =
        wants_own ? own.has_other(last) : !other.has_other(last);
    items.push_back((take_own ? own : other).next(last));
  }
  return items;
}

void add_once(std::vector<Item>& items, Item item) {
  if (std::ranges::find(items, item.text, &Item::text) == items.end()) {
    items.push_back(std::move(item));
  }
}

bool can_be_read(const AnalyzedWord& word) {
  return word.standing.kind != WordStanding::Kind::not_yet;
}

// Graphemes: those of the week, then those of the warm-up and of words that can
// be read.
void fill_sounds(const SheetInput& in, std::size_t count, Part& part) {
  std::vector<Item> fresh, before;
  for (const LessonPattern& pattern : in.lesson.patterns) {
    const Pattern& about = in.lesson.phonics->patterns()[pattern.id];
    if (about.teaches.empty()) continue;
    for (const std::string& grapheme : pattern.graphemes) {
      add_once(fresh,
               {.text = grapheme, .fresh = true, .from = pattern.written.span});
    }
  }
  const auto add = [&](const std::string& grapheme) {
    const bool known =
        std::ranges::find(fresh, grapheme, &Item::text) != fresh.end();
    if (!known && before.size() < kMostGraphemes) {
      add_once(before, {.text = grapheme});
    }
  };
  for (const WarmUp::Item& item : in.lesson.warm_up.to_say) add(item.grapheme);
  const auto add_words = [&](bool single) {
    for (const AnalyzedWord& word : in.lesson.words) {
      if (!can_be_read(word)) continue;
      for (const Unit& unit : word.reading.units) {
        if ((unit.grapheme.size() == 1) == single) add(unit.grapheme);
      }
    }
  };
  add_words(false);
  add_words(true);
  // About a third of the row, though the week has one of them or two.
  const std::size_t different = fresh.size();
  for (std::size_t i = 0; different > 0 && fresh.size() * 2 < before.size();
       ++i) {
    fresh.push_back(fresh[i % different]);
  }
  part.items = mixed(std::move(fresh), std::move(before), count, "sounds",
                     in.lesson.seed);
  if (part.items.empty()) part.missing = "there are too few";
}

void fill_words(const SheetInput& in, std::size_t count, Part& part) {
  std::vector<Item> fresh, before;
  for (const AnalyzedWord& word : in.lesson.words) {
    if (!word.has_pattern() || !can_be_read(word)) continue;
    add_once(
        fresh,
        {.text = word.reading.word, .fresh = true, .from = word.spelling.span});
  }
  for (const AnalyzedWord& word : taught_words(in.lesson, count / 2)) {
    add_once(before, {.text = word.reading.word});
  }
  part.items = mixed(std::move(fresh), std::move(before), count, "words",
                     in.lesson.seed);
  if (part.items.empty()) part.missing = "there are too few that can be read";
}

bool can_be_read(const AnalyzedSentence& sentence, const Phrase& phrase) {
  for (std::size_t i = phrase.first; i <= phrase.last; ++i) {
    const AnalyzedSentence::Part& part = sentence.words[i];
    if (!part.sight_word && !can_be_read(part.word)) return false;
  }
  return true;
}

void fill_phrases(const SheetInput& in, std::size_t count, Part& part) {
  std::vector<Item> fresh, before;
  for (const auto* texts :
       {&in.lesson.sentences, &in.lesson.passage.paragraphs}) {
    for (const AnalyzedSentence& sentence : *texts) {
      for (const Phrase& phrase :
           safe_phrases(sentence, in.lesson.phonics->meanings())) {
        if (!can_be_read(sentence, phrase)) continue;
        bool has_pattern = false;
        for (std::size_t k = phrase.first; k <= phrase.last; ++k) {
          has_pattern |= sentence.words[k].word.has_pattern();
        }
        add_once(has_pattern ? fresh : before,
                 {.text = phrase.text,
                  .count = static_cast<int>(phrase.last - phrase.first + 1),
                  .fresh = has_pattern,
                  .from = sentence.text.span()});
      }
    }
  }
  if (fresh.size() + before.size() < kFewestPhrases) {
    part.missing = "the sentences hold too few that can stand alone";
    return;
  }
  count = std::min(count, fresh.size() + before.size());
  part.items = mixed(std::move(fresh), std::move(before), count, "phrases",
                     in.lesson.seed);
}

void fill_sentences(const SheetInput& in, std::size_t count, Part& part) {
  for (const AnalyzedSentence& sentence : in.lesson.sentences) {
    part.items.push_back({.text = sentence.text.text(),
                          .count = static_cast<int>(sentence.words.size()),
                          .fresh = sentence.pattern_words() > 0,
                          .from = sentence.text.span()});
  }
  Random random(text_hash("fluency sentences", in.lesson.seed));
  shuffle(part.items, random);
  if (part.items.size() > count) part.items.resize(count);
  if (part.items.empty()) part.missing = "the lesson has none";
}

}  // namespace

std::string_view part_name(FluencyPart::Kind kind) {
  switch (kind) {
    case Part::Kind::sounds:
      return "Sounds";
    case Part::Kind::words:
      return "Words";
    case Part::Kind::phrases:
      return "Phrases";
    case Part::Kind::sentences:
      break;
  }
  return "Sentences";
}

int items_for_rows(FluencyPart::Kind kind, int rows) {
  switch (kind) {
    case Part::Kind::sounds:
      return 8 * rows;
    case Part::Kind::words:
      return 5 * rows;
    case Part::Kind::phrases:
      return 2 * rows;
    case Part::Kind::sentences:
      break;
  }
  return rows;
}

std::vector<FluencyPart> fluency_parts(const SheetInput& in) {
  struct Filler {
    std::string_view option;
    Part::Kind kind;
    void (*fill)(const SheetInput&, std::size_t, Part&);
  };
  constexpr Filler kFillers[] = {
      {"sound-rows", Part::Kind::sounds, fill_sounds},
      {"word-rows", Part::Kind::words, fill_words},
      {"phrase-rows", Part::Kind::phrases, fill_phrases},
      {"sentence-rows", Part::Kind::sentences, fill_sentences}};
  std::vector<FluencyPart> parts;
  for (const Filler& filler : kFillers) {
    const int rows = in.options.count(filler.option);
    if (rows == 0) continue;
    Part& part = parts.emplace_back();
    part.kind = filler.kind;
    part.rows = rows;
    const int count = items_for_rows(filler.kind, rows);
    filler.fill(in, static_cast<std::size_t>(count), part);
  }
  return parts;
}

// How errors are counted is common practice, no source; the wording is ours.
ScriptLines fluency_script(const SheetInput& in, const DayStep&) {
  const int minutes = in.options.count("minutes");
  const int readings = in.options.count("readings");
  const std::string time =
      minutes == 1 ? "one minute" : fmt::format("{} minutes", minutes);
  ScriptLines lines = {
      {Lead::show, "one part of the page, the others covered."},
      {Lead::say,
       "“Read along the rows, row after row. Read well, not fast. If one does "
       "not come, I say it and you go on. At the end of the part, begin it "
       "again.”"},
      {Lead::act,
       fmt::format("Time {}. On a copy of the page, strike through each one "
                   "that was read wrong, was left out or was said by you after "
                   "three seconds. One that the learner mended counts as "
                   "right, and so does one said in the learner’s own accent.",
                   time)},
      {Lead::act,
       fmt::format("The number at the end of a row is how many stand up to "
                   "there. Take that of the last whole row, add what was read "
                   "of the next, take the errors off. A sound{} counts as one, "
                   "a phrase as its words. The learner colours a bar up to "
                   "the number.",
                   in.options.count("word-rows") > 0 ? " or a word" : "")}};
  if (readings > 1) {
    lines.push_back(
        {Lead::act,
         fmt::format("Say together what was struck through, then read the same "
                     "part again, {} times in all: on one day, or on several.",
                     readings)});
  }
  lines.push_back({Lead::wait,
                   "three seconds before you say a word. Say nothing of how "
                   "fast others read."});
  lines.push_back(
      {Lead::done_when,
       fmt::format(
           "{} coloured and the learner has said what changed. The "
           "bars say how these rows were read and nothing else: they "
           "are held against the learner’s own only.",
           readings == 1 ? "a bar is" : fmt::format("{} bars are", readings))});
  return lines;
}

}  // namespace sheaf
