// What teachers call patterns, against lists written before the search was:
// tests/data/pattern_names.tsv and contrast_words.tsv say where they are from.

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "phonics/pattern_terms.h"
#include "phonics/phonics.h"
#include "phonics/table_text.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

using Ids = std::vector<std::string>;

const Phonics& phonics() { return shared_phonics(); }

std::string id_of(PatternId id) {
  return std::string(phonics().patterns()[id].id);
}

Ids ids_in(std::string_view text) {
  Ids ids;
  for (const std::string_view id : split_at(text, ' ')) {
    if (!id.empty()) ids.emplace_back(id);
  }
  return ids;
}

// What came of a name, in the terms of the list.
struct Answer {
  std::string leads;
  Ids ids;
};

Answer answer_to(std::string_view typed) {
  const auto names = phonics().find_patterns(typed);
  Answer answer;
  const bool all_meant = std::ranges::all_of(
      names, [](const PatternName& name) { return name.meant.has_value(); });
  if (all_meant) {
    answer.leads = names.size() == 1 ? "one" : "both";
    for (const PatternName& name : names) {
      answer.ids.push_back(id_of(*name.meant));
    }
    return answer;
  }
  const auto unclear = std::ranges::find_if(
      names, [](const PatternName& name) { return !name.meant; });
  answer.leads = unclear->is_group ? "group" : "near";
  for (const PatternId id : unclear->could_be) answer.ids.push_back(id_of(id));
  for (const std::string_view name : unclear->nearest) {
    answer.ids.emplace_back(name);
  }
  return answer;
}

bool is_as_wanted(const Answer& answer, const std::string& leads,
                  const Ids& ids) {
  if (leads == "none") return answer.leads == "near" || answer.leads == "group";
  if (leads == "near") {
    return answer.leads == "near" && !answer.ids.empty() &&
           answer.ids.front() == ids.front() &&
           std::ranges::all_of(ids, [&](const std::string& id) {
             return std::ranges::find(answer.ids, id) != answer.ids.end();
           });
  }
  if (leads == "group") {
    return answer.leads == "group" && answer.ids.front() == ids.front() &&
           std::set(answer.ids.begin(), answer.ids.end()) ==
               std::set(ids.begin(), ids.end());
  }
  return answer.leads == leads && answer.ids == ids;
}

std::string joined(const Ids& ids) {
  std::string text;
  for (const std::string& id : ids) text += " " + id;
  return text;
}

TEST(PatternNames, LeadWhereATeacherMeans) {
  const std::string text = test_data("pattern_names.tsv");
  int rows = 0, right = 0;
  for (const TableRow& row : table_rows(text)) {
    if (row.cells[0] == "typed") continue;
    ++rows;
    const Answer answer = answer_to(row.cells[0]);
    const std::string leads(row.cell(1));
    const Ids ids = ids_in(row.cell(2));
    if (is_as_wanted(answer, leads, ids)) {
      ++right;
      continue;
    }
    ADD_FAILURE() << row.cells[0] << ": " << answer.leads << joined(answer.ids)
                  << "\nwanted: " << leads << joined(ids);
  }
  EXPECT_GE(rows, 80);
  RecordProperty("right", right);
  RecordProperty("rows", rows);
}

TEST(PatternNames, AreWholeInTheTables) {
  const auto& catalogue = phonics().patterns();
  std::set<std::string_view> families, terms;
  for (const Pattern& pattern : catalogue.all()) {
    families.insert(pattern.family);
    EXPECT_FALSE(pattern.family.empty()) << pattern.id;
    // The word by which a teacher is to know it has it.
    const Reading reading =
        phonics().read(pattern.example, Conventions{}).front();
    EXPECT_NE(reading.find(catalogue.id_of(pattern)), nullptr)
        << pattern.id << ": " << pattern.example;
    EXPECT_NE(reading.origin, Reading::Origin::guess) << pattern.example;
    // Each is found by its own id and name.
    for (const std::string_view name : {pattern.id, pattern.name}) {
      const Answer answer = answer_to(name);
      EXPECT_EQ(answer.leads, "one") << name;
      EXPECT_EQ(answer.ids, Ids{std::string(pattern.id)}) << name;
    }
  }
  for (const PatternTerm& term : pattern_terms()) {
    EXPECT_TRUE(families.contains(term.family)) << term.terms[0];
    EXPECT_FALSE(term.source.empty()) << term.terms[0];
    for (const std::string_view name : term.terms) {
      EXPECT_TRUE(terms.insert(name).second) << name << " stands there twice";
      EXPECT_EQ(find_pattern_term(name), &term) << name;
      // A name goes before a term.
      if (const auto exact = catalogue.find_exact(name)) {
        EXPECT_EQ(term.ids, std::vector{catalogue[*exact].id}) << name;
      }
    }
    for (const std::string_view id : term.ids) {
      EXPECT_NE(catalogue.by_id(id), nullptr) << id;
    }
  }
}

// Whatever is typed, something comes back that makes sense.
TEST(PatternNames, MayBeAnything) {
  for (const char* typed :
       {"",         " ",        "/",
        "//",       "///",      "/ /",
        ",",        "and",      "vs",
        "and and",  "sh and",   "/sh",
        "sh/",      "(",        "()",
        "sh ()",    "as in",    " as in cow",
        "ow as in", "=",        "ch=/k/",
        "\xFF\xFE", "\xCC\x81", "sh, ch, sh, ch, sh, ch, sh, ch, sh, ch"}) {
    const auto names = phonics().find_patterns(typed);
    ASSERT_FALSE(names.empty()) << typed;
    for (const PatternName& name : names) {
      EXPECT_LE(name.begin, name.end) << typed;
      EXPECT_LE(name.end, std::string_view(typed).size()) << typed;
      if (name.is_group) {
        EXPECT_GT(name.could_be.size(), 1U) << typed;
      }
    }
  }
  EXPECT_FALSE(phonics().find_patterns(std::string(100000, 'x'))[0].meant);
  std::string many;
  for (int i = 0; i < 20000; ++i) many += "sh ow ";
  EXPECT_FALSE(phonics().find_patterns(many)[0].meant);
}

TEST(Contrasts, KnowWhichWordsShowTheRule) {
  const auto& catalogue = phonics().patterns();
  const std::string text = test_data("contrast_words.tsv");
  int words = 0;
  for (const TableRow& row : table_rows(text)) {
    if (row.cells[0] == "pattern") continue;
    const Pattern* pattern = catalogue.by_id(row.cells[0]);
    const Pattern* other = catalogue.by_id(row.cell(1));
    ASSERT_TRUE(pattern && other) << row.line;
    const PatternId id = catalogue.id_of(*pattern);
    const PatternId against[] = {catalogue.id_of(*other)};
    EXPECT_TRUE(has_contrast_rule(catalogue, id, against)) << row.line;
    for (const bool shows : {true, false}) {
      for (const std::string& word : ids_in(row.cell(shows ? 2 : 3))) {
        if (word == "-") continue;
        ++words;
        const Reading reading = phonics().read(word, Conventions{}).front();
        EXPECT_NE(reading.find(id), nullptr) << word << ": " << pattern->id;
        EXPECT_EQ(phonics().fit_of(reading, id, against),
                  shows ? ContrastFit::shows : ContrastFit::breaks)
            << word << ": " << pattern->id << " against " << other->id;
      }
    }
  }
  EXPECT_GT(words, 80);
}

}  // namespace
}  // namespace sheaf
