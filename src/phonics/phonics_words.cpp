#include <algorithm>
#include <set>
#include <string>

#include "base/utf8.h"
#include "phonics/pattern_index.h"
#include "phonics/pattern_rule.h"
#include "phonics/phonics_impl.h"
#include "phonics/why_not.h"
#include "phonics/word_facts.h"

namespace sheaf {

namespace {

WordInfo info_of(const WordRecord& record) {
  return {record.tier, record.everyday, record.first,
          record.name, record.british,  record.also_name};
}

}  // namespace

std::optional<WordInfo> Phonics::info(std::string_view word) const {
  // Most words are plain letters already, and are looked up as they stand.
  const bool plain =
      std::ranges::all_of(word, [](char c) { return c >= 'a' && c <= 'z'; });
  const auto head = plain ? impl_->lexicon.head(word)
                          : impl_->lexicon.head(map_letters(word).spelling);
  if (!head) return std::nullopt;
  return WordInfo{head->tier, head->everyday, head->first,
                  head->name, head->british,  head->also_name};
}

void Phonics::each_word(
    int largest_list, const Conventions& conventions,
    const std::function<bool(const Reading&, const WordInfo&)>& call) const {
  std::string last;
  const Lexicon& spoken = impl_->lexicon_for(conventions);
  spoken.each([&](const WordRecord& record) {
    if (!record.everyday && (record.tier == 0 || record.tier > largest_list)) {
      return false;
    }
    if (record.spelling == last) return true;  // a further reading
    last = record.spelling;
    const LetterMap map = map_letters(record.spelling);
    Reading reading = impl_->make(record.spelling, map, record, conventions);
    impl_->find_patterns(reading, map, spoken);
    return call(reading, info_of(record));
  });
}

std::vector<std::string> Phonics::words_with(PatternId pattern,
                                             std::size_t count) const {
  std::vector<std::string> words;
  each_word(kCommonList, Conventions{},
            [&](const Reading& reading, const WordInfo& word) {
              if (!word.name && reading.find(pattern) != nullptr) {
                words.push_back(reading.word);
              }
              return words.size() < count;
            });
  return words;
}

namespace {

// Accents are indexed as they are by themselves: with the a of bath or the y of
// tune set otherwise, any of the words may have the pattern.
unsigned indexed_accents(const Conventions& conventions) {
  const Accent accent = conventions.accent;
  const bool usual =
      speech_of(conventions) == speech_of(conventions_for(accent));
  return usual ? index_bit(accent) : kAllIndexed;
}

int count_phonemes(const WordRecord& record, const Inventory& inventory) {
  int count = 0;
  for (const Segment& segment : record.segments) {
    count += inventory[segment.id].sound_count;
  }
  return count;
}

}  // namespace

const std::vector<PatternWord>& Phonics::pattern_words(
    PatternId pattern, const Conventions& conventions) const {
  const std::lock_guard lock(impl_->memo_lock);
  const auto [entry, is_new] = impl_->words_of.try_emplace(
      pattern * impl_->lexicons.size() + impl_->speech_number(conventions));
  if (is_new) entry->second = impl_->list_words(pattern, conventions, false);
  return entry->second;
}

const std::vector<PatternWord>& Phonics::everyday_pattern_words(
    PatternId pattern, const Conventions& conventions) const {
  const std::lock_guard lock(impl_->memo_lock);
  const auto [entry, is_new] = impl_->everyday_words_of.try_emplace(
      pattern * impl_->lexicons.size() + impl_->speech_number(conventions));
  if (is_new) entry->second = impl_->list_words(pattern, conventions, true);
  return entry->second;
}

const std::vector<EverydayWord>& Phonics::everyday_words(
    const Conventions& conventions) const {
  const std::lock_guard lock(impl_->memo_lock);
  return impl_->everyday(conventions).words;
}

const Phonics::Impl::EverydayList& Phonics::Impl::everyday(
    const Conventions& conventions) const {
  const auto [entry, is_new] =
      everyday_of.try_emplace(speech_number(conventions));
  if (is_new) {
    entry->second =
        list_everyday(lexicon_for(conventions), indexed_accents(conventions));
  }
  return entry->second;
}

std::vector<PatternWord> Phonics::Impl::list_words(
    PatternId pattern, const Conventions& conventions,
    bool only_everyday) const {
  const Lexicon& spoken = lexicon_for(conventions);
  const unsigned accents = indexed_accents(conventions);
  const EverydayList& known = everyday(conventions);
  std::vector<PatternWord> words;
  const PatternEntries entries =
      entries_of(file.records<std::uint32_t>(Section::pattern_words),
                 file.section(Section::pattern_accents), pattern);
  std::uint32_t last = kNoWord;
  auto place = known.places.begin();
  for (std::size_t i = 0; i < entries.packed.size(); ++i) {
    if ((entries.accents[i] & accents) == 0) continue;
    const PatternIndexEntry entry = unpack_entry(entries.packed[i]);
    if (entry.word == last) continue;
    last = entry.word;
    // Everyday words have been read already.
    place = std::lower_bound(place, known.places.end(), entry.word);
    if (place != known.places.end() && *place == entry.word) {
      const EverydayWord& word =
          known.words[static_cast<std::size_t>(place - known.places.begin())];
      words.push_back({word.word, word.info, word.phonemes, word.syllables,
                       entry.place, entry.twice, entry.later, word.readings,
                       entry.weak, entry.unsure, entry.twin, entry.affix});
      continue;
    }
    if (only_everyday && !spoken.head(entry.word).everyday) break;
    const auto record = spoken.record(entry.word);
    if (!record) continue;
    words.push_back({record->spelling, info_of(*record),
                     count_phonemes(*record, lexicon.inventory()),
                     syllable_count(record->segments, lexicon.inventory()),
                     entry.place, entry.twice, entry.later, record->more,
                     entry.weak, entry.unsure, entry.twin, entry.affix});
  }
  return words;
}

Phonics::Impl::EverydayList Phonics::Impl::list_everyday(
    const Lexicon& spoken, unsigned accents) const {
  struct Found {
    bool any = false, later = false, unsure = false;
  };
  std::vector<Found> found;  // by where the word stands
  const auto index = file.records<std::uint32_t>(Section::pattern_words);
  const auto bits = file.section(Section::pattern_accents);
  for (std::size_t pattern = 0; pattern < catalogue.all().size(); ++pattern) {
    const PatternEntries entries =
        entries_of(index, bits, static_cast<PatternId>(pattern));
    std::uint32_t last = kNoWord;
    for (std::size_t i = 0; i < entries.packed.size(); ++i) {
      if ((entries.accents[i] & accents) == 0) continue;
      const PatternIndexEntry entry = unpack_entry(entries.packed[i]);
      if (entry.word == last) continue;
      last = entry.word;
      // Everyday words stand before all others.
      if (!spoken.head(entry.word).everyday) break;
      if (entry.word >= found.size()) found.resize(entry.word + 1);
      Found& word = found[entry.word];
      word.any = true;
      word.later |= entry.later;
      word.unsure |= entry.unsure;
    }
  }
  EverydayList list;
  const auto count =
      static_cast<std::size_t>(std::ranges::count(found, true, &Found::any));
  list.words.reserve(count);
  list.places.reserve(count);
  for (std::size_t at = 0; at < found.size(); ++at) {
    if (!found[at].any) continue;
    const auto place = static_cast<std::uint32_t>(at);
    const auto record = spoken.record(place);
    if (!record) continue;
    EverydayWord word{
        .word = record->spelling,
        .info = info_of(*record),
        .phonemes = count_phonemes(*record, lexicon.inventory()),
        .syllables = syllable_count(record->segments, lexicon.inventory()),
        .correspondences = {},
        .later = found[at].later,
        .unsure = found[at].unsure,
        .readings = record->more};
    if (word.syllables == 1) {
      word.correspondences.reserve(record->segments.size());
      for (const Segment& segment : record->segments) {
        word.correspondences.push_back(segment.id);
      }
    }
    list.words.push_back(std::move(word));
    list.places.push_back(place);
  }
  return list;
}

bool Phonics::is_said_like_a_word(std::span<const Phoneme> phonemes,
                                  const Conventions& conventions) const {
  const std::uint32_t hash = said_hash(phonemes);
  if (is_in_hash_set(impl_->file.section(Section::said), hash)) return true;
  return speech_of(conventions) != Speech{} &&
         is_in_hash_set(impl_->file.section(Section::said_elsewhere), hash);
}

bool Phonics::is_listed(std::string_view word) const {
  const std::string plain = lower_case(word);
  return knows(plain) || is_in_hash_set(impl_->file.section(Section::spelled),
                                        spelled_hash(plain));
}

std::vector<NearMiss> Phonics::near_misses(PatternId pattern,
                                           std::size_t count) const {
  // Those that look closely like it first, one word for each reason, whatever
  // its graphemes or its base.
  std::vector<NearMiss> first, again, loose;
  std::set<std::string> reasons, loose_reasons;
  each_word(kCommonList, Conventions{},
            [&](const Reading& reading, const WordInfo& word) {
              // Not bus's for ss.
              const bool plain =
                  reading.word.find_first_of("'-") == std::string::npos;
              if (word.name || !plain || reading.find(pattern) != nullptr) {
                return true;
              }
              const WordFacts facts = find_facts(
                  reading, map_letters(reading.word), impl_->lexicon);
              const Likeness likeness =
                  likeness_to(reading, facts, impl_->catalogue, pattern);
              if (likeness == Likeness::none) return true;
              NearMiss miss{reading.word,
                            explain_why_not(reading, facts, impl_->catalogue,
                                            pattern, Conventions{})};
              const bool is_loose = likeness == Likeness::loose;
              const bool is_new = (is_loose ? loose_reasons : reasons)
                                      .insert(miss.why_not.substr(
                                          0, miss.why_not.find_first_of("(`")))
                                      .second;
              if (is_loose) {
                if (is_new && loose.size() < count)
                  loose.push_back(std::move(miss));
              } else if (is_new) {
                first.push_back(std::move(miss));
              } else if (again.size() < count) {
                again.push_back(std::move(miss));
              }
              return first.size() < count;
            });
  for (std::vector<NearMiss>* more : {&again, &loose}) {
    for (NearMiss& miss : *more) {
      if (first.size() < count) first.push_back(std::move(miss));
    }
  }
  return first;
}

}  // namespace sheaf
