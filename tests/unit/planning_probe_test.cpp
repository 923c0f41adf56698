// Forms of a probe: alike in what is counted, and without a word in common.

#include "planning/probe_words.h"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "input/sequence.h"
#include "phonics/carriers.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

Taught taught_by(const char* path, int step) {
  // Messages point into the file.
  static std::map<std::string, std::unique_ptr<SourceFile>> files;
  auto& file = files[path];
  if (file == nullptr) {
    file = std::make_unique<SourceFile>(path, disk().read(path, 1U << 20U));
  }
  Diagnostics d;
  const SequenceFile sequence = read_sequence(*file, d);
  const int last = static_cast<int>(sequence.steps.size()) - 1;
  Taught taught =
      taught_at(sequence, step < 0 ? last : step, shared_phonics(), d);
  EXPECT_EQ(d.error_count(), 0) << to_text(d);
  return taught;
}

ProbeForms forms_at(const Taught& taught, const ProbeQuery& query) {
  const Conventions conventions;
  return probe_forms({shared_phonics(), conventions, taught, nullptr, nullptr},
                     query);
}

void expect_alike(const ProbeForms& probe, const ProbeQuery& query) {
  ASSERT_EQ(probe.forms.size(), query.forms);
  std::set<std::string> all;
  for (const auto& form : probe.forms) {
    ASSERT_EQ(form.size(), query.words);
    int sequences = 0;
    for (std::size_t i = 0; i < form.size(); ++i) {
      // Letters and one more, counted here by itself.
      sequences += static_cast<int>(form[i].word.size()) + 1;
      EXPECT_EQ(form[i].pattern, probe.forms[0][i].pattern);
      EXPECT_TRUE(all.insert(form[i].word).second) << form[i].word;
      EXPECT_FALSE(query.leave_out.contains(form[i].word)) << form[i].word;
      const Reading reading = shared_phonics().read(form[i].word, {}).front();
      EXPECT_NE(reading.find(form[i].pattern), nullptr) << form[i].word;
      EXPECT_FALSE(carrier_of(shared_phonics(), reading, {}).empty())
          << form[i].word;
      for (std::size_t k = 0; k < i; ++k) {
        EXPECT_FALSE(is_same_word(form[k].word, form[i].word))
            << form[k].word << " " << form[i].word;
      }
    }
    EXPECT_EQ(sequences, probe.letter_sequences);
  }
}

TEST(ProbeForms, AreAlikeForEveryStepThatHasWords) {
  for (const int step : {11, 20, -1}) {
    const Taught taught = taught_by(SHEAF_YEAR, step);
    for (const std::uint64_t seed : {1U, 7U, 99U}) {
      ProbeQuery query{.words = 15, .forms = 8, .seed = seed, .leave_out = {}};
      const ProbeForms probe = forms_at(taught, query);
      expect_alike(probe, query);
      // Words of these forms are no words of the next.
      for (const auto& form : probe.forms) {
        for (const ProbeWord& word : form) query.leave_out.insert(word.word);
      }
      expect_alike(forms_at(taught, query), query);
    }
  }
}

// All patterns that Sheaf has, in the order in which they are taught.
TEST(ProbeForms, AreAlikeInEveryPartOfTheTeachingOrder) {
  for (const int step : {20, 60, -1}) {
    const ProbeQuery query{.words = 20, .forms = 10, .leave_out = {}};
    expect_alike(forms_at(taught_by(SHEAF_TEACHING_ORDER, step), query), query);
  }
}

TEST(ProbeForms, AreTakenFromAllOverTheSteps) {
  const Taught taught = taught_by(SHEAF_YEAR, -1);
  const ProbeForms probe = forms_at(taught, {.leave_out = {}});
  std::set<int> steps;
  int first = 1000, last = 0;
  for (const ProbeWord& word : probe.forms[0]) {
    steps.insert(word.step);
    first = std::min(first, word.step);
    last = std::max(last, word.step);
  }
  const int count = static_cast<int>(taught.steps().size());
  EXPECT_EQ(steps.size(), probe.forms[0].size()) << "a word a step";
  EXPECT_LT(first, count / 6);
  EXPECT_GE(last, count - count / 6);
  // Nobody fails at the first word.
  EXPECT_EQ(probe.forms[0].front().step, first);
}

TEST(ProbeForms, AreTheSameForTheSameSeed) {
  const Taught taught = taught_by(SHEAF_YEAR, -1);
  const auto words = [&](std::uint64_t seed) {
    std::string text;
    for (const auto& form :
         forms_at(taught, {.seed = seed, .leave_out = {}}).forms) {
      for (const ProbeWord& word : form) text += word.word + " ";
    }
    return text;
  };
  EXPECT_EQ(words(1), words(1));
  EXPECT_NE(words(1), words(2));
}

TEST(ProbeForms, AreShorterWhereThereAreTooFewWords) {
  const Taught taught = taught_by(SHEAF_YEAR, 0);
  const ProbeForms probe =
      forms_at(taught, {.words = 30, .forms = 26, .leave_out = {}});
  ASSERT_EQ(probe.forms.size(), 26U);
  EXPECT_LT(probe.forms[0].size(), 30U);
}

}  // namespace
}  // namespace sheaf
