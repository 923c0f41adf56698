#include "lexicon/lexicon_writer.h"

#include <algorithm>
#include <set>
#include <span>
#include <vector>

#include <fmt/format.h>

#include "base/error.h"
#include "base/utf8.h"
#include "files/memory_files.h"
#include "lexicon/bank_writer.h"
#include "lexicon/carrier_writer.h"
#include "lexicon/meaning_writer.h"
#include "lexicon/pattern_words.h"
#include "lexicon/sound_alike_index.h"
#include "lexicon/word_table.h"
#include "phonics/lexicon_file.h"
#include "phonics/pattern_index.h"
#include "phonics/table_text.h"

namespace sheaf {
namespace {

// Larger than any of the sources.
constexpr std::size_t kLargestSource = std::size_t{256} << 20U;

std::string read_file(const Files& files, const std::string& path) {
  return files.read(path, kLargestSource);
}

std::set<std::string> read_words(const Files& files, const std::string& path) {
  std::set<std::string> words;
  const std::string text = read_file(files, path);
  for (const std::string_view line : split_at(text, '\n')) {
    if (line.starts_with('#')) continue;
    for (const std::string_view word : split_at(line, ' ')) {
      if (!word.empty()) words.emplace(word);
    }
  }
  return words;
}

// The words of the first list are everyday words too, and what is for later is
// none, wherever else it stands.
void read_everyday(const Files& files, const std::string& data,
                   LexiconSources& sources) {
  sources.everyday = read_words(files, data + "/everyday_words.txt");
  sources.first = read_words(files, data + "/first_words.txt");
  sources.everyday.insert(sources.first.begin(), sources.first.end());
  for (const std::string& word : read_words(files, data + "/later_words.txt")) {
    sources.everyday.erase(word);
    sources.first.erase(word);
  }
}

std::string as_lines(const std::set<std::string>& words) {
  std::string text;
  for (const std::string& word : words) {
    text += (text.empty() ? "" : "\n") + word;
  }
  return text;
}

// "neck+lace" as the lexicon looks it up; see Lexicon::listed_compound.
std::string compound_entry(const std::string& word) {
  const std::size_t plus = word.find('+');
  if (plus == std::string::npos || plus == 0 || plus + 1 == word.size()) {
    throw MachineError(
        fmt::format("compounds.txt: `{}` is not two words with a +", word));
  }
  const std::string first = word.substr(0, plus);
  return fmt::format("={}{}={}", first, word.substr(plus + 1), first);
}

constexpr int kTiers[] = {10, 20, 35, 40, 50, 55, 60, 70};

// Names and words with capitals count up to the same size as plain words.
constexpr std::string_view kLists[] = {
    "english-words",        "american-words",        "british-words",
    "english-upper",        "american-upper",        "british-upper",
    "english-proper-names", "american-proper-names", "english-contractions"};

// Rare words and rarer spellings, which made-up words must not be.
constexpr int kRareTiers[] = {10, 20, 35, 40, 50, 55, 60, 70, 80};
// The largest lists have so much that only forms of known words are taken.
constexpr int kAllTiers[] = {10, 20, 35, 40, 50, 55, 60, 70, 80, 95};
constexpr std::string_view kRareLists[] = {
    "english-words",          "american-words",  "british-words",
    "variant_1-words",        "variant_2-words", "variant_3-words",
    "british_variant_1-words"};

constexpr std::string_view kFormLists[] = {
    "english-words",   "american-words", "british-words",
    "british_z-words", "english-upper",  "english-proper-names"};
constexpr std::string_view kVariantLists[] = {
    "variant_1-words", "variant_2-words", "british_variant_1-words",
    "british_variant_2-words"};
// No variant counts as a common word, whatever the size of its list.
constexpr int kVariantTier = 80;

template <typename Lists, typename Tiers>
WordLists read_word_lists(const Files& files, const std::string& folder,
                          const Lists& names, const Tiers& tiers) {
  WordLists lists;
  int found = 0;
  for (const std::string_view list : names) {
    for (const int tier : tiers) {
      const std::string path = fmt::format("{}/{}.{}", folder, list, tier);
      if (!files.is_file(path)) continue;
      ++found;
      const std::string text = read_file(files, path);
      const bool american =
          list.starts_with("english") || list.starts_with("american");
      add_word_list(text, tier, american, lists);
    }
  }
  if (found == 0) {
    throw MachineError(fmt::format("there are no word lists in `{}`", folder));
  }
  return lists;
}

// The words of all lists that have no record, as made-up words must not be
// they either.
std::vector<std::uint8_t> spelled_set(const Files& files,
                                      const std::string& folder,
                                      const WordTable& table) {
  std::set<std::string_view> known;
  for (const WordRecord& record : table.records) known.insert(record.spelling);
  HashSet spelled;
  const auto add = [&](const WordLists& lists) {
    for (const auto& [word, listed] : lists) {
      const std::string plain = lower_case(word);
      if (!known.contains(plain)) spelled.add(spelled_hash(plain));
    }
  };
  add(read_word_lists(files, folder, kLists, kTiers));
  add(read_word_lists(files, folder, kRareLists, kRareTiers));
  return spelled.bytes();
}

HomophoneWords homophone_words(const Files& files, const LexiconPaths& paths) {
  const auto read = [&](std::string_view list) {
    return read_word_lists(files, paths.scowl, std::span(&list, 1), kTiers);
  };
  const WordLists american = read("american-words");
  const WordLists british = read("british-words");
  const WordLists both = read("english-words");
  HomophoneWords words;
  for (const auto& [word, listed] : american) {
    if (!british.contains(word) && !both.contains(word)) {
      words.american.insert(word);
    }
  }
  for (const auto& [word, listed] : british) {
    if (!american.contains(word) && !both.contains(word)) {
      words.british.insert(word);
    }
  }
  for (const std::string& word :
       read_words(files, paths.data + "/homophone_words.txt")) {
    if (word.starts_with('-')) {
      words.not_met.insert(word.substr(1));
    } else {
      words.met.insert(word);
    }
  }
  return words;
}

std::vector<std::uint8_t> bytes_of(std::string_view text) {
  return {text.begin(), text.end()};
}

template <typename T>
std::vector<std::uint8_t> bytes_of(const std::vector<T>& items) {
  const auto* data = reinterpret_cast<const std::uint8_t*>(items.data());
  return {data, data + items.size() * sizeof(T)};
}

std::vector<std::uint32_t> make_index(const WordTable& table,
                                      std::span<const std::uint32_t> places) {
  std::size_t words = 0;
  const auto is_last = [](const WordRecord& r) { return !r.more && !r.varies; };
  for (const WordRecord& record : table.records) words += is_last(record);
  std::vector<std::uint32_t> index(words + words / 3 + 1, kNoWord);
  bool first = true;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    if (first) {
      std::size_t slot = word_slot(table.records[i].spelling, index.size());
      while (index[slot] != kNoWord) slot = (slot + 1) % index.size();
      index[slot] = places[i];
    }
    first = is_last(table.records[i]);
  }
  return index;
}

// The text files of a folder, in the order of their names.
std::vector<BankSource> bank_files(const Files& files,
                                   const std::string& folder) {
  std::vector<BankSource> sources;
  for (const FilePath& path : files.list(folder)) {
    if (path.extension() != ".txt") continue;
    sources.push_back(
        {path.filename().string(), read_file(files, path.string())});
  }
  return sources;
}

// The words that teachers are likely to write, and all everyday ones; their
// forms are found from their bases.
MeantWords meant_words(const WordTable& table,
                       std::span<const std::uint32_t> places) {
  constexpr int kLargestMeantList = 50;
  MeantWords words;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const WordRecord& record = table.records[i];
    if (record.name || record.accents != 0) continue;
    if (!record.everyday &&
        (record.tier == 0 || record.tier > kLargestMeantList)) {
      continue;
    }
    words.try_emplace(record.spelling, places[i]);
  }
  return words;
}

// Whatever is there was made by the last build.
void write_file(Files& files, const std::string& path,
                std::span<const std::uint8_t> bytes) {
  constexpr OwnForm kBuilt = {.is_own = [](const OpenFile&) { return true; },
                              .can_be_made_again = true};
  const auto output = files.write();
  output->add(path, {reinterpret_cast<const char*>(bytes.data()), bytes.size()},
              kBuilt, {});
  output->finish();
}

}  // namespace

std::string build_lexicon(Files& files, const LexiconPaths& paths,
                          const std::string& out,
                          const std::string& debug_list) {
  LexiconSources sources;
  sources.dictionary = read_festlex(read_file(files, paths.dictionary));
  sources.lists = read_word_lists(files, paths.scowl, kLists, kTiers);
  sources.rare = read_word_lists(files, paths.scowl, kFormLists, kAllTiers);
  for (auto [word, entry] :
       read_word_lists(files, paths.scowl, kVariantLists, kAllTiers)) {
    entry.tier = std::max(entry.tier, kVariantTier);
    sources.rare.try_emplace(word, entry);
  }
  std::string fault;
  sources.correspondences = read_correspondences(
      read_file(files, paths.data + "/correspondences.tsv"), fault);
  if (!fault.empty()) throw MachineError("correspondences.tsv, " + fault);
  sources.supplement =
      read_supplement(read_file(files, paths.data + "/supplement.tsv"), fault);
  if (!fault.empty()) throw MachineError("supplement.tsv, " + fault);
  read_everyday(files, paths.data, sources);
  sources.bath = read_words(files, paths.data + "/bath_words.txt");
  sources.accents = read_accent_words(
      read_file(files, paths.data + "/accent_words.tsv"), fault);
  if (!fault.empty()) throw MachineError("accent_words.tsv, " + fault);
  sources.not_inflected = read_words(files, paths.data + "/not_inflected.txt");
  sources.not_prefixed = read_words(files, paths.data + "/not_prefixed.txt");
  sources.not_compound = read_words(files, paths.data + "/not_compound.txt");
  LexiconReport report;
  const WordTable table = make_word_table(std::move(sources), report);
  if (!report.faults.empty()) {
    std::string text = "the word list:";
    for (const std::string& problem : report.faults) text += "\n  " + problem;
    throw MachineError(text);
  }

  std::vector<std::uint8_t> words;
  std::vector<std::uint32_t> places;
  const Inventory inventory(table.correspondences);
  for (const WordRecord& record : table.records) {
    places.push_back(static_cast<std::uint32_t>(words.size()));
    encode_record(record, inventory, words);
  }
  std::string labels;
  for (const std::string& label : table.labels) {
    labels += (labels.empty() && label.empty() ? "" : "\n") + label;
  }
  std::vector<std::vector<std::uint8_t>> sections(kSectionCount);
  const auto section = [&](Section which) -> std::vector<std::uint8_t>& {
    return sections[static_cast<int>(which)];
  };
  section(Section::correspondences) = bytes_of(table.correspondences);
  section(Section::words) = std::move(words);
  section(Section::word_index) = bytes_of(make_index(table, places));
  section(Section::labels) = bytes_of(std::string_view(labels));
  section(Section::patterns) = bytes_of(
      std::string_view(read_file(files, paths.data + "/patterns.tsv")));
  section(Section::not_inflected) = bytes_of(std::string_view(
      as_lines(read_words(files, paths.data + "/not_inflected.txt"))));
  section(Section::not_prefixed) = bytes_of(std::string_view(
      as_lines(read_words(files, paths.data + "/not_prefixed.txt"))));
  std::set<std::string> compounds =
      read_words(files, paths.data + "/not_compound.txt");
  for (const std::string& word :
       read_words(files, paths.data + "/compounds.txt")) {
    compounds.insert(compound_entry(word));
  }
  section(Section::not_compound) =
      bytes_of(std::string_view(as_lines(compounds)));
  section(Section::guesses) = bytes_of(table.steps);
  section(Section::spelled) = spelled_set(files, paths.scowl, table);
  // The last sections are made by reading words from the others.
  const std::string kDraft = "draft";
  MemoryFiles drafts;
  const std::vector<std::uint8_t> draft = lexicon_file_bytes(sections);
  drafts.put(kDraft, {draft.begin(), draft.end()});
  const PatternSections indexed = index_patterns(drafts, kDraft);
  section(Section::sound_alikes) = bytes_of(
      index_sound_alikes(drafts, kDraft, homophone_words(files, paths)));
  section(Section::pattern_words) = bytes_of(indexed.pattern_words);
  section(Section::pattern_accents) = indexed.pattern_accents;
  section(Section::said) = indexed.said;
  section(Section::said_elsewhere) = indexed.said_elsewhere;
  const BankSections bank =
      index_bank(drafts, kDraft, bank_files(files, paths.data + "/sentences"),
                 bank_files(files, paths.data + "/passages"));
  section(Section::bank_texts) = bytes_of(std::string_view(bank.texts));
  section(Section::bank_records) = bytes_of(bank.records);
  section(Section::bank_words) = bytes_of(bank.words);
  section(Section::bank_spellings) = bytes_of(std::string_view(bank.spellings));
  section(Section::bank_patterns) = bank.patterns;
  const CarrierSections carriers = index_carriers(
      drafts, kDraft,
      {"carriers.txt", read_file(files, paths.data + "/carriers.txt")});
  section(Section::carrier_texts) = bytes_of(std::string_view(carriers.texts));
  section(Section::carriers) = bytes_of(carriers.records);
  const MeaningSections meanings =
      read_meanings(files, paths.wordnet, meant_words(table, places));
  section(Section::senses) = bytes_of(meanings.senses);
  section(Section::concepts) = bytes_of(meanings.concepts);
  section(Section::opposites) = bytes_of(meanings.opposites);
  const std::vector<std::uint8_t> bytes = lexicon_file_bytes(sections);
  write_file(files, out, bytes);
  if (!debug_list.empty()) {
    std::string text;
    for (const std::string& w : report.not_aligned) text += w + "\n";
    for (const std::string& w : report.unknown) text += "? " + w + "\n";
    for (const std::string& line : report.accents) text += line + "\n";
    write_file(files, debug_list, bytes_of(std::string_view(text)));
  }
  return fmt::format("{} words, {} readings, {} not aligned, {} bytes\n",
                     report.words, report.readings, report.not_aligned.size(),
                     bytes.size());
}

}  // namespace sheaf
