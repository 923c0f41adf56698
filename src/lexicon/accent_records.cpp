#include "lexicon/accent_records.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>

#include <fmt/format.h>

#include "lexicon/accent_rules.h"
#include "lexicon/bath_vowels.h"
#include "phonics/aligner.h"
#include "phonics/alike.h"
#include "phonics/derive.h"
#include "phonics/hand_split.h"
#include "phonics/table_text.h"

namespace sheaf {
namespace {

using Records = std::vector<WordRecord>;

// Shorter words stand in too many others by chance.
constexpr std::size_t kShortestStem = 4;
constexpr std::size_t kShortestPart = 3;
constexpr int kLargestPartList = 50;

// Words are made from words that were made from others: unhurried.
constexpr int kMostRounds = 3;

// What may stand before and behind a word that others are made of, besides
// words.
constexpr std::string_view kPrefixes[] = {
    "af",    "anti",  "auto",  "co",   "con",   "counter", "de",    "dis",
    "en",    "fore",  "im",    "in",   "inter", "mal",     "micro", "mis",
    "multi", "non",   "out",   "over", "post",  "pre",     "re",    "semi",
    "sub",   "super", "trans", "un",   "under", "up"};
constexpr std::string_view kSuffixes[] = {
    "age",  "al",   "able", "ably", "ade", "an",  "ary", "ate",  "ation",
    "ed",   "en",   "er",   "ery",  "es",  "est", "ful", "ing",  "ion",
    "ise",  "ish",  "ism",  "ist",  "ity", "ive", "ize", "less", "ly",
    "ment", "ness", "or",   "ous",  "ry",  "s",   "th",  "y"};

std::string letters_of(std::string_view spelling) {
  std::string letters;
  for (const char c : spelling) {
    if (c >= 'a' && c <= 'z') letters += c;
  }
  return letters;
}

// Where the words of accents differ from General American: the segments from
// `begin` on, of which so many take the place of so many.
struct Change {
  std::size_t begin = 0, listed_end = 0, own_end = 0;
};

Change change_between(const Segments& listed, const Segments& own) {
  Change change;
  while (change.begin < listed.size() && change.begin < own.size() &&
         listed[change.begin] == own[change.begin]) {
    ++change.begin;
  }
  change.listed_end = listed.size();
  change.own_end = own.size();
  while (change.listed_end > change.begin && change.own_end > change.begin &&
         listed[change.listed_end - 1] == own[change.own_end - 1]) {
    --change.listed_end;
    --change.own_end;
  }
  return change;
}

class AccentMaker {
 public:
  AccentMaker(const LexiconSources& sources, WordTable& table,
              LexiconReport& report)
      : sources_(sources),
        table_(table),
        report_(report),
        inventory_(table.correspondences) {
    for (const WordRecord& record : table.records) {
      listed_[record.spelling].push_back(record);
    }
  }

  void run() {
    for (const auto& [word, rows] : sources_.accents) add_rows(word, rows);
    for (int round = 0; round < kMostRounds; ++round) {
      const std::map<std::string, Records> bases = own_;
      for (const auto& [word, records] : listed_) {
        if (!sources_.accents.contains(word) && !own_.contains(word)) {
          derive(word, records, bases);
        }
      }
      if (own_.size() == bases.size()) break;
    }
    for (const auto& [word, records] : listed_) apply_rules(word, records);
    put_in();
  }

 private:
  // ---- rows ----------------------------------------------------------------
  void add_rows(const std::string& word, std::span<const AccentRow> rows) {
    const auto found = listed_.find(word);
    if (found == listed_.end()) {
      report_.faults.push_back(
          fmt::format("accent_words.tsv: `{}` is no word of the list", word));
      return;
    }
    for (const AccentRow& row : rows) {
      if (row.pronunciation.phonemes.empty()) continue;
      WordRecord record = found->second.front();
      record.segments = lay_out(word, row.pronunciation);
      record.stress = row.pronunciation.stress;
      record.accents = row.accents;
      record.origin = Reading::Origin::supplement;
      record.label = label_number(row.pronunciation.label);
      if (record.segments.empty()) {
        report_.faults.push_back(fmt::format(
            "accent_words.tsv: `{}` cannot be laid against its sounds", word));
        continue;
      }
      if (syllable_count(record.segments, inventory_) == 1) record.stress = 1;
      record.bath = bath_vowels(sources_, record, inventory_);
      own_[word].push_back(std::move(record));
    }
  }

  Segments lay_out(const std::string& word, const Pronunciation& said) const {
    const std::string letters = letters_of(word);
    if (!said.graphemes.empty()) {
      return align_by_hand(inventory_, letters, split_at(said.graphemes, ' '),
                           said.phonemes);
    }
    AlignTask task;
    task.letters = letters;
    task.phonemes = said.phonemes;
    return align(inventory_, task);
  }

  int label_number(const std::string& label) {
    const auto found = std::ranges::find(table_.labels, label);
    if (found != table_.labels.end()) {
      return static_cast<int>(found - table_.labels.begin());
    }
    table_.labels.push_back(label);
    return static_cast<int>(table_.labels.size()) - 1;
  }

  // ---- words made of others ------------------------------------------------
  void derive(const std::string& word, const Records& records,
              const std::map<std::string, Records>& bases) {
    if (is_form_of_plain(word)) return;
    if (derive_inflected(word, records, bases)) return;
    const std::string letters = letters_of(word);
    for (std::size_t begin = 0; begin + kShortestStem <= letters.size();
         ++begin) {
      if (!may_stand_before(letters.substr(0, begin))) continue;
      for (std::size_t end = letters.size(); end >= begin + kShortestStem;
           --end) {
        const auto base = bases.find(letters.substr(begin, end - begin));
        if (base == bases.end() || base->first == word ||
            !may_stand_behind(std::string_view(letters).substr(end))) {
          continue;
        }
        if (splice(word, records, base->first, base->second, begin)) return;
      }
    }
  }

  // A form of a word that the table says all accents have alike.
  bool is_form_of_plain(const std::string& word) const {
    const EndingAnalysis ending =
        take_off_ending(word, [&](const EndingAnalysis& a) {
          const bool plain =
              sources_.accents.contains(a.base) && !own_.contains(a.base);
          return plain ? 0 : -1;
        });
    return static_cast<bool>(ending);
  }

  bool is_plain_word(std::string_view word) const {
    const auto found = sources_.lists.find(std::string(word));
    return word.size() >= kShortestPart && found != sources_.lists.end() &&
           !found->second.name && found->second.tier <= kLargestPartList;
  }

  bool may_stand_before(std::string_view part) const {
    return part.empty() || is_plain_word(part) ||
           std::ranges::find(kPrefixes, part) != std::ranges::end(kPrefixes);
  }

  // A word, or endings one behind the other.
  bool may_stand_behind(std::string_view part) const {
    if (part.empty() || is_plain_word(part)) return true;
    return std::ranges::any_of(kSuffixes, [&](std::string_view suffix) {
      return part.starts_with(suffix) &&
             may_stand_behind(part.substr(suffix.size()));
    });
  }

  // A regular form of a word with readings of its own.
  bool derive_inflected(const std::string& word, const Records& records,
                        const std::map<std::string, Records>& bases) {
    if (sources_.not_inflected.contains(word)) return false;
    bool done = false;
    take_off_ending(word, [&](const EndingAnalysis& a) {
      if (done || a.base.size() < 2) return -1;
      const auto base = bases.find(a.base);
      if (base == bases.end()) return -1;
      done = splice(word, records, base->first, base->second, 0) ||
             put_ending_on(word, records, a, base->second);
      return done ? 0 : -1;
    });
    return done;
  }

  // Puts the segments that accents have in the place of those that America has,
  // where the word has the latter from letter `at` on.
  bool splice(const std::string& word, const Records& records,
              const std::string& base, const Records& own, std::size_t at) {
    const Records& listed = listed_.at(base);
    if (records.front().name != listed.front().name) return false;  // Galahad
    Records all;
    for (const WordRecord& accent : own) {
      auto made = first_spliced(records, listed, accent, at);
      if (made) all.push_back(std::move(*made));
    }
    return add(word, base, std::move(all));
  }

  std::optional<WordRecord> first_spliced(const Records& records,
                                          const Records& listed,
                                          const WordRecord& accent,
                                          std::size_t at) const {
    for (const WordRecord& base : listed) {
      // The noun progress is not the verb.
      const bool labelled = base.label != 0 && accent.label != 0;
      if (labelled && base.label != accent.label) continue;
      for (const WordRecord& record : records) {
        auto made = spliced(record, base, accent, at);
        if (made) return made;
      }
    }
    return std::nullopt;
  }

  std::optional<WordRecord> spliced(const WordRecord& record,
                                    const WordRecord& listed,
                                    const WordRecord& accent,
                                    std::size_t at) const {
    const Change change = change_between(listed.segments, accent.segments);
    const auto first = std::ranges::find(
        record.segments, at,
        [](const auto& s) { return static_cast<std::size_t>(s.begin); });
    const auto skip = static_cast<std::size_t>(first - record.segments.begin());
    if (skip + change.listed_end > record.segments.size()) return std::nullopt;
    const auto moved = [&](Segment s) {
      s.begin = static_cast<std::uint8_t>(s.begin + at);
      if (s.split_e >= 0) s.split_e = static_cast<std::int8_t>(s.split_e + at);
      return s;
    };
    for (std::size_t i = 0; i < change.listed_end; ++i) {
      if (!are_alike(moved(listed.segments[i]), record.segments[skip + i])) {
        return std::nullopt;
      }
    }
    // courageous has another stress, and so another vowel, than courage; the
    // second word of a compound may have lost its own.
    const Segments before(record.segments.begin(), first);
    const int syllables_before = syllable_count(before, inventory_);
    const Segments own(listed.segments.begin(),
                       listed.segments.begin() +
                           static_cast<std::ptrdiff_t>(change.listed_end));
    const unsigned mask = (1U << syllable_count(own, inventory_)) - 1;
    const unsigned part = whole_stress(record, syllables_before);
    const bool lost = at > 0 && (part & mask) == 0;
    if (!lost && (part & mask) != (listed.stress & mask)) return std::nullopt;

    WordRecord made = record;
    made.segments.assign(record.segments.begin(),
                         first + static_cast<std::ptrdiff_t>(change.begin));
    for (std::size_t i = change.begin; i < change.own_end; ++i) {
      made.segments.push_back(moved(accent.segments[i]));
    }
    made.segments.insert(made.segments.end(),
                         first + static_cast<std::ptrdiff_t>(change.listed_end),
                         record.segments.end());
    made.accents = accent.accents;
    const int was = syllable_count(listed.segments, inventory_);
    const int is = syllable_count(accent.segments, inventory_);
    const unsigned low = record.stress & ((1U << syllables_before) - 1);
    const unsigned middle = lost ? 0 : accent.stress;
    made.stress =
        static_cast<std::uint16_t>(low | middle << syllables_before |
                                   part >> was << (syllables_before + is));
    return made;
  }

  // The same grapheme with one sound, as far as the word list keeps it apart.
  bool are_alike(const Segment& a, const Segment& b) const {
    return a.begin == b.begin && a.split_e == b.split_e &&
           inventory_[a.id].grapheme() == inventory_[b.id].grapheme() &&
           std::ranges::equal(inventory_[a.id].phonemes(),
                              inventory_[b.id].phonemes(), same_sound);
  }

  static unsigned whole_stress(const WordRecord& record, int syllables) {
    return static_cast<unsigned>(record.stress) >> syllables;
  }

  // scheduling, moustaches: where the ending changes the base's own graphemes.
  bool put_ending_on(const std::string& word, const Records& records,
                     const EndingAnalysis& analysis, const Records& own) {
    const auto make = [&](const WordRecord& base) {
      return derive_record(word, letters_of(word), analysis, base,
                           table_.labels[static_cast<std::size_t>(base.label)],
                           inventory_);
    };
    const auto sounds = [&](const WordRecord& record) {
      return phonemes_of(record.segments, inventory_);
    };
    Records all;
    for (const WordRecord& base : own) {
      // Only where America has the regular form of the same reading too.
      const bool regular = std::ranges::any_of(
          listed_.at(analysis.base), [&](const WordRecord& listed) {
            const bool labelled = listed.label != 0 && base.label != 0;
            if (labelled && listed.label != base.label) return false;
            const auto made = make(listed);
            return made &&
                   std::ranges::any_of(records, [&](const WordRecord& record) {
                     return std::ranges::equal(sounds(*made), sounds(record),
                                               same_sound);
                   });
          });
      if (!regular) continue;
      auto made = make(base);
      if (!made) continue;
      made->accents = base.accents;
      made->tier = records.front().tier;
      made->everyday = records.front().everyday;
      made->name = records.front().name;
      all.push_back(std::move(*made));
    }
    return add(word, analysis.base, std::move(all));
  }

  // False where the word has nothing of its own after all: progressive.
  bool add(const std::string& word, const std::string& base, Records made) {
    const Records& listed = listed_.at(word);
    const bool same = std::ranges::all_of(made, [&](const WordRecord& record) {
      return std::ranges::any_of(listed, [&](const WordRecord& other) {
        return record.segments == other.segments &&
               record.stress == other.stress;
      });
    });
    if (same) return false;
    for (WordRecord& record : made) {
      record.bath = bath_vowels(sources_, record, inventory_);
      report_.accents.push_back(
          fmt::format("= {} < {}: {}", word, base, text_of(record)));
      own_[word].push_back(std::move(record));
    }
    return true;
  }

  // ---- rules ---------------------------------------------------------------
  void apply_rules(const std::string& word, const Records& records) {
    std::uint8_t has = 0;
    const auto found = own_.find(word);
    if (found == own_.end() && sources_.accents.contains(word)) return;
    if (found != own_.end()) {
      // What accents have of their own is changed too: evolutionary.
      Records own;
      for (const WordRecord& record : found->second) {
        has |= record.accents;
        for (WordRecord& other : by_rule(record, record.accents)) {
          own.push_back(std::move(other));
        }
      }
      found->second = std::move(own);
    }
    const auto rest = static_cast<std::uint8_t>(kEveryAccent & ~has);
    Records made;
    bool changed = false;
    for (const WordRecord& record : records) {
      for (WordRecord& other : by_rule(record, rest)) {
        changed = changed || other.segments != record.segments;
        made.push_back(std::move(other));
      }
    }
    if (!changed) return;
    for (WordRecord& record : made) {
      report_.accents.push_back(fmt::format("~ {}: {}", word, text_of(record)));
      own_[word].push_back(std::move(record));
    }
  }

  // A reading as the rules make it for these accents: one where they agree.
  Records by_rule(const WordRecord& record, std::uint8_t accents) const {
    Records made;
    for (const Accent accent :
         {Accent::british, Accent::scottish, Accent::australian}) {
      const std::uint8_t bit = accent_bit(accent);
      if ((accents & bit) == 0) continue;
      auto other = say_outside_america(record, accent, inventory_);
      if (!other) other = record;
      const auto same =
          std::ranges::find(made, other->segments, &WordRecord::segments);
      if (same != made.end()) {
        same->accents |= bit;
      } else {
        other->accents = bit;
        made.push_back(std::move(*other));
      }
    }
    return made;
  }

  // ---- all of it -----------------------------------------------------------
  std::string text_of(const WordRecord& record) const {
    std::string text = std::to_string(record.accents);
    for (const Segment& s : record.segments) {
      const Correspondence& unit = inventory_[s.id];
      text += fmt::format(" {}=", unit.grapheme());
      for (const Phoneme p : unit.phonemes()) text += phoneme_name(p);
    }
    return text;
  }

  void put_in() {
    Records all;
    for (WordRecord& record : table_.records) {
      if (record.bath != 0) {
        report_.accents.push_back(
            fmt::format("% {} {}", record.spelling, record.bath));
      }
      const bool last = !record.more;
      const std::string word = record.spelling;
      all.push_back(std::move(record));
      const auto found = own_.find(word);
      if (!last || found == own_.end()) continue;
      for (WordRecord& own : found->second) {
        all.back().varies = true;
        own.more = false;
        all.push_back(std::move(own));
      }
    }
    table_.records = std::move(all);
  }

  const LexiconSources& sources_;
  WordTable& table_;
  LexiconReport& report_;
  const Inventory inventory_;
  std::map<std::string, Records> listed_;
  std::map<std::string, Records> own_;
};

}  // namespace

void add_accent_records(const LexiconSources& sources, WordTable& table,
                        LexiconReport& report) {
  AccentMaker(sources, table, report).run();
}

}  // namespace sheaf
