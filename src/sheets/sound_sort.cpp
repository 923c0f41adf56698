#include "sheets/sound_sort.h"

#include <algorithm>
#include <cstdlib>
#include <set>

#include "analysis/word_games.h"
#include "base/shuffle.h"
#include "phonics/alike.h"
#include "phonics/near_sounds.h"
#include "pictures/picture_words.h"

namespace sheaf {

namespace {

bool holds(const Reading& reading, const std::vector<Phoneme>& sound,
           bool near) {
  for (const Unit& unit : reading.units) {
    for (const Phoneme p : unit.phonemes) {
      for (const Phoneme s : sound) {
        if (near ? are_near(p, s) : p == s) return true;
      }
    }
  }
  return false;
}

// A word that may have a picture, with its row in the table if it has one.
struct Candidate {
  std::string_view word;
  const PictureWord* row;
  int beside = 0;  // how far its length is from what is usual
  std::shared_ptr<const Reading> reading = nullptr;  // once it was asked for
};

class Chooser {
 public:
  Chooser(const SheetInput& in, bool by_voice) : in_(in), by_voice_(by_voice) {}

  SoundSort choose(int count) {
    add_columns();
    if (!sort_.missing.empty()) return std::move(sort_);
    const int columns = static_cast<int>(sort_.columns.size());
    const int others = std::max(2, count * 2 / 5);
    const int each = std::max(2, (count - others) / (columns - 1));
    for (int i = 0; i + 1 < columns; ++i) fill_sound(i, each);
    fill_others(columns - 1, others);
    check_columns();
    if (!sort_.missing.empty()) return std::move(sort_);
    for (const SoundSort::Item& item : sort_.items) {
      sort_.chosen.emplace_back(item.word, item.column);
    }
    take_keys();
    take_models();
    Random random(text_hash("picture-sort", in_.lesson.seed));
    shuffle(sort_.items, random);
    return std::move(sort_);
  }

 private:
  const Pattern& about(std::size_t index) const {
    return in_.lesson.phonics->patterns()[in_.lesson.patterns[index].id];
  }

  void add_columns() {
    for (std::size_t i = 0; i < in_.lesson.patterns.size(); ++i) {
      const std::vector<Phoneme>& sound = in_.lesson.patterns[i].sound;
      if (sound.empty() || !in_.lesson.patterns[i].one_sound) continue;
      // An ending is more than its sound: shirt has no -ed that says /t/.
      if (about(i).family == "suffixes") {
        sort_.missing = "its pattern is an ending";
        return;
      }
      const bool known =
          std::ranges::any_of(sort_.columns, [&](const SoundSort::Column& c) {
            return is_one_sound(c.sound, sound);
          });
      if (known) continue;
      SoundSort::Column column{.sound = sound};
      const int key = in_.lesson.key_words[i];
      if (key >= 0) {
        column.key_word =
            in_.lesson.words[static_cast<std::size_t>(key)].reading.word;
        column.key_picture = in_.pictures.find(column.key_word);
      }
      sort_.columns.push_back(std::move(column));
    }
    if (sort_.columns.empty()) {
      sort_.missing = "its pattern is not about one sound";
      return;
    }
    sort_.columns.push_back({});
    for (const SoundSort::Column& c : sort_.columns) {
      used_.insert(c.key_word);
    }
  }

  // Whether the word has the sound of herd without stress, as mirror has, where
  // the key words have it with stress: to many ears that is not the same.
  bool is_weak_er(const Reading& reading,
                  const std::vector<Phoneme>& sound) const {
    if (sound != std::vector{Phoneme::er}) return false;
    const auto has = [&](const Reading& word, bool stressed) {
      return std::ranges::any_of(word.units, [&](const Unit& unit) {
        return is_one_sound(unit.phonemes, sound) && unit.stressed == stressed;
      });
    };
    const bool taught_strong = std::ranges::any_of(
        in_.lesson.words,
        [&](const AnalyzedWord& word) { return has(word.reading, true); });
    return taught_strong && has(reading, false);
  }

  // Whether many say the word with the sound that it is not taught with, or
  // hear no difference: dog with the vowel of saw, father with short o. The key
  // would contradict an ear.
  bool is_in_doubt(const Reading& reading,
                   const std::vector<Phoneme>& sound) const {
    if (is_weak_er(reading, sound)) return true;
    if (in_.lesson.conventions.accent != Accent::general_american) return false;
    using P = Phoneme;
    return std::ranges::any_of(reading.units, [&](const Unit& unit) {
      const bool short_o = unit.phonemes == std::vector{P::oh};
      return (sound == std::vector{P::ao} && short_o &&
              unit.listed == std::vector{P::ao}) ||
             (sound == std::vector{P::oh} &&
              unit.phonemes == std::vector{P::aa}) ||
             (sound == std::vector{P::aa} && short_o);
    });
  }

  // The column whose sound the word has; the last for none, -1 for several and
  // for what is in doubt.
  int column_of(const Reading& reading) const {
    int found = static_cast<int>(sort_.columns.size()) - 1;
    bool any = false;
    for (std::size_t i = 0; i + 1 < sort_.columns.size(); ++i) {
      if (is_in_doubt(reading, sort_.columns[i].sound)) return -1;
      if (!has_sound(reading, sort_.columns[i].sound)) continue;
      if (any) return -1;
      any = true;
      found = static_cast<int>(i);
    }
    return found;
  }

  // Adds a word if it has a picture not shown yet and belongs to the column.
  // The picture is asked for last: outlines are made when they are first seen.
  bool add(Candidate& candidate, int column) {
    if (used_.contains(candidate.word)) return false;
    const PictureWord* row = candidate.row;
    if (row != nullptr && sources_.contains(row->source)) return false;
    if (column_of(reading(candidate)) != column) return false;
    const Picture* picture =
        by_voice_ ? nullptr : in_.pictures.find(candidate.word);
    if (picture == nullptr && !by_voice_) return false;
    std::string word(candidate.word);
    used_.insert(word);
    if (row != nullptr) sources_.insert(row->source);
    sort_.items.push_back(
        {std::move(word), picture, *candidate.reading, column});
    return true;
  }

  // Most words of the table are never asked for: reading one takes longer than
  // all else that is done with it.
  const Reading& reading(Candidate& candidate) const {
    if (candidate.reading == nullptr) {
      candidate.reading = in_.lesson.phonics->first_units(
          candidate.word, in_.lesson.conventions);
    }
    return *candidate.reading;
  }
  bool add(std::string_view word, int column) {
    Candidate candidate{word, find_picture_word(word)};
    return add(candidate, column);
  }

  // Clear pictures of the table in mixed order, words of one syllable first. As
  // words that are only heard, all of the table, those as long as the lesson's
  // words first: length must not give the column away.
  std::vector<Candidate>& table_words() {
    if (!table_.empty()) return table_;
    for (const PictureWord& row : picture_words()) {
      if (row.clear || by_voice_) table_.push_back({row.word, &row});
    }
    Random random(text_hash("pictures", in_.lesson.seed));
    shuffle(table_, random);
    const int usual = by_voice_ ? usual_syllables() : 1;
    for (Candidate& c : table_) {
      const int off = std::abs(in_.lesson.phonics->syllables(c.word) - usual);
      c.beside = by_voice_ ? off : std::min(1, off);
    }
    std::ranges::stable_sort(table_, {}, &Candidate::beside);
    return table_;
  }

  // The middle one of how many syllables the lesson's words have.
  int usual_syllables() const {
    std::vector<int> counts;
    for (const AnalyzedWord& word : in_.lesson.words) {
      counts.push_back(word.reading.syllables());
    }
    if (counts.empty()) return 1;
    std::ranges::sort(counts);
    return counts[counts.size() / 2];
  }

  void fill_sound(int column, int count) {
    int left = count;
    for (const auto& word : in_.lesson.lesson->same_sound) {
      if (left > 0 && add(word.value, column)) --left;
    }
    for (const AnalyzedWord& word : in_.lesson.words) {
      const bool may = by_voice_ || in_.pictures.is_clear(word.reading.word);
      if (left > 0 && may && add(word.reading.word, column)) {
        --left;
      }
    }
    for (Candidate& word : table_words()) {
      if (left > 0 && add(word, column)) --left;
    }
  }

  void fill_others(int column, int count) {
    int left = count;
    for (const auto& word : in_.lesson.lesson->other_sound) {
      if (left > 0 && add(word.value, column)) --left;
    }
    const bool near_first = in_.lesson.lesson->set.value > 1;
    if (near_first) {
      for (const std::string& word : near_words()) {
        if (left > 0 && add(word, column)) --left;
      }
    }
    for (const bool near : {near_first, !near_first}) {
      for (Candidate& word : table_words()) {
        if (left <= 0) return;
        if (is_near(reading(word)) == near && add(word, column)) --left;
      }
    }
  }

  // Words that differ from one with the sound in that sound alone.
  std::vector<std::string> near_words() const {
    constexpr std::size_t kMost = 12;
    std::vector<std::string> words;
    const WordGames* games = in_.lesson.games.get();
    if (games == nullptr || !games->near_pairs) return words;
    const auto may = [&](std::string_view word) {
      return by_voice_ || in_.pictures.is_clear(word);
    };
    for (const NearPair& pair : games->near_pairs(in_.lesson, may, kMost)) {
      const std::string& word = pair.other.reading.word;
      if (may(word)) words.push_back(word);
    }
    return words;
  }

  bool is_near(const Reading& reading) const {
    return std::ranges::any_of(sort_.columns, [&](const SoundSort::Column& c) {
      return holds(reading, c.sound, true);
    });
  }

  void check_columns() {
    for (std::size_t i = 0; i < sort_.columns.size(); ++i) {
      const auto words = std::ranges::count(sort_.items, static_cast<int>(i),
                                            &SoundSort::Item::column);
      if (words < 2) {
        sort_.missing = by_voice_ ? "there are too few words with its sound"
                                  : "there are too few pictures for its sound";
        return;
      }
    }
  }

  // A key word without a picture gives way to a word of its column that has
  // one: a learner who cannot read must see what the column is for.
  void take_keys() {
    for (std::size_t i = 0; i + 1 < sort_.columns.size(); ++i) {
      SoundSort::Column& column = sort_.columns[i];
      if (column.key_picture != nullptr) continue;
      if (by_voice_ && !column.key_word.empty()) continue;
      const auto first = std::ranges::find(sort_.items, static_cast<int>(i),
                                           &SoundSort::Item::column);
      column.key_word = first->word;
      column.key_picture = first->picture;
      sort_.items.erase(first);
    }
  }

  // The first of each column that has some to spare is shown in its place, and
  // one of a sound at least.
  void take_models() {
    const auto count = [&](int column) {
      return std::ranges::count(sort_.items, column, &SoundSort::Item::column);
    };
    const int sounds = static_cast<int>(sort_.columns.size()) - 1;
    int fullest = 0;
    bool shows_sound = false;
    for (int column = 0; column <= sounds; ++column) {
      if (column < sounds && count(column) > count(fullest)) fullest = column;
      if (count(column) < 3) continue;
      take_model(column);
      shows_sound |= column < sounds;
    }
    if (!shows_sound && count(fullest) > 1) take_model(fullest);
    std::ranges::stable_sort(sort_.models, {}, &SoundSort::Item::column);
  }

  void take_model(int column) {
    const auto first =
        std::ranges::find(sort_.items, column, &SoundSort::Item::column);
    sort_.models.push_back(std::move(*first));
    sort_.items.erase(first);
  }

  const SheetInput& in_;
  bool by_voice_;
  SoundSort sort_;
  std::set<std::string, std::less<>> used_;
  std::set<std::string_view> sources_;
  std::vector<Candidate> table_;
};

}  // namespace

bool has_sound(const Reading& reading, const std::vector<Phoneme>& sound) {
  return std::ranges::any_of(reading.units, [&](const Unit& unit) {
    return is_one_sound(unit.phonemes, sound);
  });
}

const SoundSort& sound_sort(const SheetInput& in, int count) {
  auto& kept = in.memory.sound_sorts[count];
  if (kept == nullptr) {
    kept = std::make_shared<const SoundSort>(Chooser(in, false).choose(count));
  }
  return *kept;
}

const SoundSort& heard_sort(const SheetInput& in, int count) {
  auto& kept = in.memory.heard_sorts[count];
  if (kept == nullptr) {
    kept = std::make_shared<const SoundSort>(Chooser(in, true).choose(count));
  }
  return *kept;
}

}  // namespace sheaf
