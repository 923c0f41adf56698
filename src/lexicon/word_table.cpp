#include "lexicon/word_table.h"

#include <algorithm>
#include <map>
#include <optional>
#include <span>
#include <tuple>

#include <fmt/format.h>

#include "lexicon/accent_records.h"
#include "lexicon/bath_vowels.h"
#include "lexicon/compound_words.h"
#include "lexicon/derived_words.h"
#include "lexicon/list_repairs.h"
#include "lexicon/listed_forms.h"
#include "lexicon/repairs.h"
#include "lexicon/tidy_sounds.h"
#include "lexicon/word_families.h"
#include "phonics/endings.h"
#include "phonics/hand_split.h"
#include "phonics/table_text.h"
#include "phonics/unit_rules.h"

namespace sheaf {
namespace {

constexpr std::size_t kLongestWord = 40;
// Rarer words are derived when they are asked for.
constexpr int kLargestDerivedList = 50;

std::string letters_of(std::string_view spelling) {
  std::string letters;
  for (const char c : spelling) {
    if (c >= 'a' && c <= 'z') letters += c;
  }
  return letters;
}

// A reading on its way into the table.
struct Draft {
  std::string spelling;
  const Pronunciation* source = nullptr;
  Reading::Origin origin = Reading::Origin::lexicon;
  TrainingWord word;
};

class TableMaker {
 public:
  TableMaker(LexiconSources& sources, LexiconReport& report)
      : sources_(sources), report_(report) {}

  WordTable run() {
    drop_wrong_forms(sources_);
    choose_words();
    std::vector<TrainingWord> words;
    for (const Draft& draft : drafts_) words.push_back(draft.word);
    table_.correspondences = sources_.correspondences;
    train(table_.correspondences, words);
    inventory_ = Inventory(table_.correspondences);
    table_.labels.emplace_back();
    for (const Draft& draft : drafts_) add_record(draft);
    align_compounds(table_.records, inventory_,
                    [&](const std::string& word) { return is_common(word); });
    derive_words();
    put_in_order();
    // Forms of rare words would tell more of endings than of graphemes.
    table_.steps = count_steps(table_.records);
    add_listed_forms();
    put_in_order();
    link_readings();
    add_accent_records(sources_, table_, report_);
    return std::move(table_);
  }

 private:
  const ScowlWord* listed(const std::string& word) const {
    const auto found = sources_.lists.find(word);
    return found == sources_.lists.end() ? nullptr : &found->second;
  }

  bool wanted(const std::string& word) const {
    if (sources_.everyday.contains(word)) return true;
    return listed(word) != nullptr;
  }

  void choose_words() {
    for (const auto& [word, readings] : sources_.supplement) {
      for (const Pronunciation& p : readings) {
        add_draft(word, p, Reading::Origin::supplement);
      }
    }
    for (const auto& [word, readings] : sources_.dictionary) {
      if (sources_.supplement.contains(word) || !wanted(word) ||
          comes_from_supplement(word)) {
        continue;
      }
      for (const Pronunciation& p : readings) {
        add_draft(word, p, Reading::Origin::lexicon);
      }
    }
  }

  // What our own list says of a word holds for its regular forms.
  bool comes_from_supplement(const std::string& word) const {
    for (const Ending ending : {Ending::es, Ending::s, Ending::ed, Ending::ing,
                                Ending::ly, Ending::er, Ending::est}) {
      for (const EndingAnalysis& a : possible_bases(word, ending)) {
        const ScowlWord* base = listed(a.base);
        const bool compares = ending == Ending::er || ending == Ending::est;
        if (compares && a.joint != Joint::y_to_i) continue;
        if (sources_.supplement.contains(a.base) && a.base.size() > 2 && base &&
            !base->name) {
          return true;
        }
      }
    }
    return false;
  }

  void add_draft(const std::string& word, const Pronunciation& p,
                 Reading::Origin origin) {
    Draft draft{word, &p, origin, {}};
    draft.word.letters = letters_of(word);
    if (draft.word.letters.size() > kLongestWord) return;
    draft.word.phonemes = origin == Reading::Origin::lexicon
                              ? tidy_sounds(draft.word.letters, p)
                              : p.phonemes;
    find_ending_ed(draft.word);
    drafts_.push_back(std::move(draft));
  }

  // -ed is an ending where a known word stands before it and the sounds are
  // those of the ending. Where the base ends in a vowel spelled with e (agree,
  // tie) the e stays with the vowel, and d alone is added.
  void find_ending_ed(TrainingWord& word) const {
    std::string_view letters = word.letters;
    std::span<const Phoneme> p = word.phonemes;
    bool more = false;  // something stands behind the ending: markedly
    for (const std::string_view tail : {"ly", "ness"}) {
      const std::size_t sounds = tail == "ly" ? 2 : 3;
      if (letters.ends_with(tail) && p.size() > sounds + 2 &&
          letters.substr(0, letters.size() - tail.size()).ends_with("ed")) {
        letters.remove_suffix(tail.size());
        p = p.first(p.size() - sounds);
        more = true;
      }
    }
    if (p.size() < 2 || (p.back() != Phoneme::d && p.back() != Phoneme::t)) {
      return;
    }
    std::vector<EndingAnalysis> all = possible_bases(letters, Ending::ed);
    // The dictionary has words that the rules do not make: coiffed.
    for (EndingAnalysis& a : conceivable_bases(letters, Ending::ed)) {
      if (a.joint == Joint::doubled) all.push_back(std::move(a));
    }
    for (const EndingAnalysis& a : all) {
      if (!is_known_base(a.base, std::string(letters))) continue;
      if (is_ending_ed(a, p, more)) {
        word.ending_ed = static_cast<int>(letters.size()) - 2;
      }
      return;
    }
  }

  // Whether the last sounds are those of the ending.
  static bool is_ending_ed(const EndingAnalysis& a, std::span<const Phoneme> p,
                           bool more) {
    const char end = a.base.back() == 'e' ? a.base[a.base.size() - 2] : '\0';
    const Phoneme before = p[p.size() - 2];
    const bool vowel_with_e =
        a.joint == Joint::dropped_e && is_vowel_letter(end) && is_vowel(before);
    if (vowel_with_e || a.joint == Joint::y_to_i) return false;
    const bool after_t_or_d = a.base.ends_with('t') || a.base.ends_with('d') ||
                              a.base.ends_with("te") || a.base.ends_with("de");
    const bool extra_beat = (before == Phoneme::ax || before == Phoneme::ih) &&
                            p.back() == Phoneme::d;
    if (more && extra_beat) return true;  // supposedly
    if (after_t_or_d != extra_beat) return false;
    // "moped": a vowel before the d, where the base ends in a consonant.
    const char last = a.joint == Joint::dropped_e ? end : a.base.back();
    const bool ends_in_vowel =
        is_vowel_letter(last) || last == 'w' || last == 'r';
    return after_t_or_d || !is_vowel(before) || ends_in_vowel;
  }

  bool is_known_base(const std::string& base, const std::string& word) const {
    const ScowlWord* entry = listed(base);
    if (base.size() > 1 && entry && !entry->name) {
      // "need" is not made from the rare "nee".
      const ScowlWord* whole = listed(word);
      const int tier = whole && !whole->name ? whole->tier : 70;
      return entry->tier <= std::max(tier, 35) + 5;
    }
    // The lists have "unwashed" but no verb to it.
    for (const std::string_view prefix :
         {"un", "re", "dis", "mis", "mal", "pre", "over", "under", "out", "in",
          "im", "en", "be", "fore", "afore", "inter", "super", "semi"}) {
      if (base.starts_with(prefix) && base.size() > prefix.size() + 2 &&
          is_known_base(base.substr(prefix.size()), word)) {
        return true;
      }
    }
    // wholehearted, oldfashioned
    for (std::size_t at = 3; at + 3 < base.size(); ++at) {
      if (is_common(base.substr(0, at)) && is_common(base.substr(at))) {
        return true;
      }
    }
    return false;
  }

  bool is_common(const std::string& word) const {
    const ScowlWord* entry = listed(word);
    return entry && !entry->name && entry->tier <= 40;
  }

  // Correspondences that only the dictionary has give way to ours.
  void repair(WordRecord& record) const {
    repair_segments(letters_of(record.spelling), inventory_, record.stress,
                    record.segments);
  }

  void add_record(const Draft& draft) {
    WordRecord record;
    record.spelling = draft.spelling;
    record.stress = draft.source->stress;
    record.origin = draft.origin;
    record.label = label_number(draft.source->label);
    record.segments =
        draft.source->graphemes.empty()
            ? align(inventory_, draft.word.task())
            : align_by_hand(inventory_, draft.word.letters,
                            split_at(draft.source->graphemes, ' '),
                            draft.word.phonemes);
    if (record.segments.empty()) {
      if (draft.origin == Reading::Origin::supplement) {
        report_.faults.push_back(fmt::format(
            "`{}` cannot be laid against its sounds", draft.spelling));
      }
      report_.not_aligned.push_back(draft.spelling);
      return;
    }
    if (draft.source->graphemes.empty()) repair(record);
    if (draft.origin == Reading::Origin::lexicon) {
      repair_by_lists(sources_, inventory_, record);
    }
    mark_listed(record);
    // A word of one beat bears its stress when it is said by itself.
    if (syllable_count(record.segments, inventory_) == 1) record.stress = 1;
    table_.records.push_back(std::move(record));
  }

  void mark_listed(WordRecord& record) const {
    const ScowlWord* entry = listed(record.spelling);
    const auto rare = sources_.rare.find(record.spelling);
    if (entry == nullptr && rare != sources_.rare.end()) entry = &rare->second;
    if (entry != nullptr) {
      record.tier = entry->tier;
      record.name = entry->name;
      record.british = !entry->american;
      record.also_name = entry->also_name && !entry->name;
    }
    record.everyday = sources_.everyday.contains(record.spelling);
    record.first = sources_.first.contains(record.spelling);
    record.bath = bath_vowels(sources_, record, inventory_);
  }

  // Words of the lists that no source has, or not as their base has it.
  void derive_words() {
    std::map<std::string, WordDeriver::Records> known;
    for (const WordRecord& record : table_.records) {
      known[record.spelling].push_back(record);
    }
    const std::map<std::string, WordDeriver::Records> strays =
        take_out_strays(known);
    WordDeriver deriver(
        inventory_,
        [&](const std::string& word) {
          const auto found = known.find(word);
          return found == known.end() ? nullptr : &found->second;
        },
        [&](const std::string& word) { return plain_tier(word); },
        [&](const WordRecord& record) { return table_.labels[record.label]; },
        [&](const std::string& word) {
          return !sources_.not_compound.contains(word);
        });
    const auto make = [&](const std::string& word) {
      if (known.contains(word)) return;
      WordDeriver::Records records = deriver.make(word);
      const auto stray = strays.find(word);
      if (records.empty() && stray != strays.end()) records = stray->second;
      if (records.empty()) report_.unknown.push_back(word);
      for (WordRecord record : records) {
        mark_listed(record);
        table_.records.push_back(std::move(record));
      }
    };
    for (const auto& [word, entry] : sources_.lists) {
      if (!entry.name && entry.tier <= kLargestDerivedList) make(word);
    }
    for (const std::string& word : sources_.everyday) make(word);
  }

  void add_listed_forms() {
    std::map<std::string, WordDeriver::Records> known;
    for (const WordRecord& record : table_.records) {
      known[record.spelling].push_back(record);
    }
    each_listed_form(
        sources_, inventory_, std::move(known),
        [&](const WordRecord& record) { return table_.labels[record.label]; },
        [&](const WordDeriver::Records& records) {
          for (WordRecord record : records) {
            mark_listed(record);
            table_.records.push_back(std::move(record));
          }
        });
  }

  int plain_tier(const std::string& word) const {
    const ScowlWord* entry = listed(word);
    return entry && !entry->name ? entry->tier : 0;
  }

  // Takes regular forms that the dictionary says otherwise than their base out
  // of what is known, so that they are made anew.
  std::map<std::string, WordDeriver::Records> take_out_strays(
      std::map<std::string, WordDeriver::Records>& known) {
    const auto is_common = [&](const std::string& word) {
      const int tier = plain_tier(word);
      return tier > 0 && tier <= kLargestDerivedList;
    };
    const std::set<std::string> words = stray_forms(
        {known, inventory_,
         [&](const WordRecord& record) { return table_.labels[record.label]; },
         is_common,
         [&](const std::string& word) {
           return is_common(word) &&
                  known.at(word).front().origin == Reading::Origin::lexicon &&
                  !sources_.not_inflected.contains(word);
         }});
    std::map<std::string, WordDeriver::Records> strays;
    for (const std::string& word : words) {
      strays.insert(known.extract(word));
    }
    std::erase_if(table_.records, [&](const WordRecord& record) {
      return strays.contains(record.spelling);
    });
    return strays;
  }

  int label_number(const std::string& label) {
    const auto found = std::ranges::find(table_.labels, label);
    if (found == table_.labels.end()) {
      table_.labels.push_back(label);
      return static_cast<int>(table_.labels.size()) - 1;
    }
    return static_cast<int>(found - table_.labels.begin());
  }

  void put_in_order() {
    // Readings stay in the order in which their source has them.
    std::ranges::stable_sort(table_.records, {}, [](const WordRecord& r) {
      const int rank = r.everyday ? 0 : r.tier == 0 ? 99 : r.tier;
      return std::tuple<int, std::string_view>(rank, r.spelling);
    });
    const auto same = [](const WordRecord& a, const WordRecord& b) {
      return a.spelling == b.spelling && a.segments == b.segments &&
             a.stress == b.stress;
    };
    const auto rest = std::ranges::unique(table_.records, same);
    table_.records.erase(rest.begin(), rest.end());
  }

  void link_readings() {
    for (std::size_t i = 0; i < table_.records.size(); ++i) {
      WordRecord& record = table_.records[i];
      record.more = i + 1 < table_.records.size() &&
                    table_.records[i + 1].spelling == record.spelling;
      report_.words += record.more ? 0 : 1;
    }
    report_.readings = static_cast<int>(table_.records.size());
  }

  LexiconSources& sources_;
  LexiconReport& report_;
  std::vector<Draft> drafts_;
  WordTable table_;
  Inventory inventory_;
};

}  // namespace

WordTable make_word_table(LexiconSources sources, LexiconReport& report) {
  return TableMaker(sources, report).run();
}

}  // namespace sheaf
