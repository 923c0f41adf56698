#include "sheets/sound_mouth.h"

#include <algorithm>
#include <map>
#include <memory>
#include <optional>
#include <set>

#include "base/shuffle.h"
#include "phonics/phonics.h"
#include "phonics/sound_making.h"
#include "sheets/mouth_shapes.h"
#include "sheets/pattern_card.h"
#include "sheets/sound_sort.h"

namespace sheaf {

namespace {

using Sounds = std::vector<Phoneme>;

// Short words that children know, with what is said in them.
struct KnownWord {
  Reading reading;
  Sounds sounds;
  bool first = false;
  bool regular = true;  // no grapheme of it says what it seldom says
};

std::vector<KnownWord> known_words(const AnalyzedLesson& lesson) {
  std::vector<KnownWord> words;
  lesson.phonics->each_word(
      Phonics::kCommonList, lesson.conventions,
      [&](const Reading& reading, const WordInfo& info) {
        // Children's words come before all others.
        if (!info.everyday && !info.first) return false;
        if (info.name || reading.syllables() != 1) return true;
        KnownWord word{.reading = reading, .first = info.first};
        for (const Unit& unit : reading.units) {
          word.sounds.insert(word.sounds.end(), unit.phonemes.begin(),
                             unit.phonemes.end());
          word.regular = word.regular && !unit.irregular;
        }
        words.push_back(std::move(word));
        return true;
      });
  // Those that are known sooner come first, and of them those that are spelled
  // as expected: not aisle and eye where mile and tie would do.
  std::ranges::stable_sort(words, {}, [](const KnownWord& word) {
    return (word.first ? 0 : 2) + (word.regular ? 0 : 1);
  });
  return words;
}

// Where one sound stands among others, each once only.
std::optional<std::size_t> only_place(const Sounds& all, const Sounds& part) {
  std::optional<std::size_t> place;
  for (std::size_t i = 0; i + part.size() <= all.size(); ++i) {
    if (!std::equal(part.begin(), part.end(),
                    all.begin() + static_cast<std::ptrdiff_t>(i))) {
      continue;
    }
    if (place) return std::nullopt;
    place = i;
  }
  return place;
}

bool says(const KnownWord& word, const Sounds& sound) {
  return has_sound(word.reading, sound) && only_place(word.sounds, sound);
}

// The sounds of the lesson that can be shown, with what they are spelled by.
std::vector<SoundMouth::Sound> sounds_of_lesson(const AnalyzedLesson& lesson) {
  std::vector<SoundMouth::Sound> sounds;
  for (std::size_t i = 0; i < lesson.patterns.size(); ++i) {
    const LessonPattern& pattern = lesson.patterns[i];
    if (!pattern_card(lesson, i).is_sound() || pattern.graphemes.empty() ||
        pattern.sound.empty() || !pattern.one_sound ||
        !has_mouth_shape(pattern.sound)) {
      continue;
    }
    const bool known = std::ranges::any_of(
        sounds, [&](const auto& s) { return s.phonemes == pattern.sound; });
    if (known) continue;
    SoundMouth::Sound sound{.phonemes = pattern.sound,
                            .grapheme = pattern.graphemes.front()};
    if (const int key = lesson.key_words[i]; key >= 0) {
      const AnalyzedWord& word = lesson.words[static_cast<std::size_t>(key)];
      sound.word = word.reading.word;
      sound.can_be_read = true;
      sound.span = word.spelling.span;
    }
    sounds.push_back(std::move(sound));
  }
  return sounds;
}

// What is taken for a sound, the likeliest first.
std::vector<Sounds> taken_for(const Sounds& sound) {
  if (sound.size() > 1 && sound[1] == Phoneme::r) {
    std::vector<Sounds> all = {
        {Phoneme::ao, Phoneme::r}, {Phoneme::aa, Phoneme::r}, {Phoneme::er}};
    std::erase(all, sound);
    return all;
  }
  const Phoneme last = sound.back();
  std::vector<Sounds> all;
  for (const Phoneme p : making_of(last).beside) all.push_back({p});
  return all;
}

// The commonest spelling of a sound that was taught, and a word with it: with a
// picture, that can be read, and spelled as expected.
void find_spelling(const SheetInput& in, const std::vector<KnownWord>& words,
                   SoundMouth::Sound& sound) {
  std::map<std::string, int> counts;
  const auto unit_of = [&](const KnownWord& word) -> const Unit* {
    for (std::size_t i = 0; i < word.reading.units.size(); ++i) {
      const Unit& unit = word.reading.units[i];
      if (unit.phonemes == sound.phonemes && !unit.irregular &&
          in.lesson.taught.is_taught(word.reading, i)) {
        return &unit;
      }
    }
    return nullptr;
  };
  for (const KnownWord& word : words) {
    if (const Unit* unit = unit_of(word)) ++counts[unit->grapheme];
  }
  const auto most = std::ranges::max_element(
      counts, {}, [](const auto& entry) { return entry.second; });
  if (most != counts.end()) sound.grapheme = most->first;
  int best = -1;
  for (const KnownWord& word : words) {
    if (!says(word, sound.phonemes)) continue;
    const Unit* unit = unit_of(word);
    const bool right = unit != nullptr && unit->grapheme == sound.grapheme;
    const bool read = right && in.lesson.taught.is_decodable(word.reading);
    // Short ones with a letter a sound, but for this one, before others.
    const bool plain =
        word.reading.units.size() <= 4 &&
        std::ranges::all_of(word.reading.units, [&](const Unit& u) {
          return &u == unit || u.grapheme.size() == 1;
        });
    // It is heard best where the word begins with it.
    const bool begins = only_place(word.sounds, sound.phonemes) == 0U;
    const int worth = (read ? 24 : 0) + (word.regular ? 12 : 0) +
                      (in.pictures.is_clear(word.reading.word) ? 6 : 0) +
                      (in.pictures.has(word.reading.word) ? 3 : 0) +
                      (right ? 2 : 0) + (plain ? 1 : 0) + (begins ? 1 : 0);
    if (worth <= best) continue;
    best = worth;
    sound.word = word.reading.word;
    sound.can_be_read = read;
  }
}

// Pairs of words that differ by these two sounds alone.
struct Pair {
  std::array<const KnownWord*, 2> words;
};

std::vector<Pair> pairs_of(const std::vector<KnownWord>& words, const Sounds& a,
                           const Sounds& b) {
  std::map<Sounds, const KnownWord*> by_sounds;
  for (const KnownWord& word : words) by_sounds.emplace(word.sounds, &word);
  std::vector<Pair> pairs;
  std::set<Sounds> seen;
  for (const KnownWord& word : words) {
    if (!says(word, a) || only_place(word.sounds, b)) continue;
    const auto at = static_cast<std::ptrdiff_t>(*only_place(word.sounds, a));
    Sounds other(word.sounds.begin(), word.sounds.begin() + at);
    other.insert(other.end(), b.begin(), b.end());
    other.insert(
        other.end(),
        word.sounds.begin() + at + static_cast<std::ptrdiff_t>(a.size()),
        word.sounds.end());
    const auto found = by_sounds.find(other);
    if (found == by_sounds.end() || !seen.insert(word.sounds).second) continue;
    if (!says(*found->second, b)) continue;
    pairs.push_back({{&word, found->second}});
  }
  // Both known soon before others.
  std::ranges::stable_partition(pairs, [](const Pair& p) {
    return p.words[0]->first && p.words[1]->first;
  });
  return pairs;
}

// Words with one of the sounds and nothing of the other, which no item has.
void fill_items(std::vector<SoundMouth::Item>& items,
                const std::vector<KnownWord>& words,
                const std::array<SoundMouth::Sound, 2>& sounds,
                std::size_t most) {
  for (const KnownWord& word : words) {
    if (items.size() >= most) return;
    const auto ones = std::ranges::count(items, 1, &SoundMouth::Item::sound);
    const int wanted =
        2 * static_cast<std::size_t>(ones) < items.size() ? 1 : 0;
    const auto& its = sounds[static_cast<std::size_t>(wanted)].phonemes;
    const auto& others = sounds[static_cast<std::size_t>(1 - wanted)].phonemes;
    if (!says(word, its) || has_sound(word.reading, others)) continue;
    const bool used = std::ranges::any_of(items, [&](const auto& item) {
      return item.word == word.reading.word || item.other == word.reading.word;
    });
    if (!used) items.push_back({.word = word.reading.word, .sound = wanted});
  }
}

std::vector<SoundMouth::Item> items_of(
    const SheetInput& in, const std::vector<KnownWord>& words,
    const std::array<SoundMouth::Sound, 2>& sounds) {
  const auto most = static_cast<std::size_t>(in.options.count("items"));
  Random random(text_hash("sound-mouth", in.lesson.seed));
  std::vector<SoundMouth::Item> items;
  // As many of the one as of the other, within one.
  int turn = static_cast<int>(random.below(2));
  for (const Pair& pair :
       pairs_of(words, sounds[0].phonemes, sounds[1].phonemes)) {
    if (items.size() >= most) break;
    const auto sound = static_cast<std::size_t>(turn);
    items.push_back({.word = pair.words[sound]->reading.word,
                     .sound = turn,
                     .other = pair.words[1 - sound]->reading.word});
    turn = 1 - turn;
  }
  std::size_t before = 0;
  do {
    before = items.size();
    fill_items(items, words, sounds, most);
  } while (items.size() > before && items.size() < most);
  shuffle(items, random);
  return items;
}

// Whether learners would meet both sounds: some accents have only one of them.
bool is_said(const std::vector<KnownWord>& words, const Sounds& sound) {
  constexpr std::ptrdiff_t kEnough = 4;
  return std::ranges::count_if(words, [&](const KnownWord& word) {
           return says(word, sound);
         }) >= kEnough;
}

SoundMouth find_sound_mouth(const SheetInput& in) {
  SoundMouth content;
  std::vector<SoundMouth::Sound> sounds = sounds_of_lesson(in.lesson);
  if (sounds.empty()) {
    content.missing = "its pattern is about no one sound";
    return content;
  }
  const std::vector<KnownWord> words = known_words(in.lesson);
  content.sounds[0] = sounds[0];
  if (sounds.size() > 1) {
    content.sounds[1] = sounds[1];
  } else {
    for (const Sounds& near : taken_for(sounds[0].phonemes)) {
      if (!is_said(words, near)) continue;
      content.sounds[1].phonemes = near;
      find_spelling(in, words, content.sounds[1]);
      break;
    }
    if (content.sounds[1].phonemes.empty()) {
      content.missing = "no sound is often taken for its sound";
      return content;
    }
  }
  content.items = items_of(in, words, content.sounds);
  return content;
}

}  // namespace

std::string SoundMouth::label(int sound) const {
  const Sound& its = sounds[static_cast<std::size_t>(sound)];
  const Sound& other = sounds[static_cast<std::size_t>(1 - sound)];
  if (its.grapheme.empty()) return "other";
  if (its.grapheme != other.grapheme) return its.grapheme;
  return its.can_be_read ? its.word : "other";
}

const SoundMouth& sound_mouth(const SheetInput& in) {
  auto& kept = in.memory.sound_mouths[in.options.count("items")];
  if (kept == nullptr) {
    kept = std::make_shared<const SoundMouth>(find_sound_mouth(in));
  }
  return *kept;
}

}  // namespace sheaf
