#include <gtest/gtest.h>

#include <filesystem>

#include "analysis/analyzed_lesson.h"
#include "analysis/lesson_conventions.h"
#include "base/source.h"
#include "pictures/picture_words.h"
#include "planning/fill_lesson.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

const Conventions kUsual;

bool pictured(std::string_view word) {
  const PictureWord* row = find_picture_word(word);
  return row != nullptr && row->clear;
}

constexpr const char* kSequence =
    "taught: s_z, plural_s, plural_z\n"
    "steps:\n"
    "  - patterns: short_i\n"
    "    sight-words: the a\n"
    "  - patterns: short_o\n"
    "  - patterns: short_a\n"
    "  - patterns: short_u\n"
    "  - patterns: short_e\n"
    "  - patterns: sh\n"
    "  - patterns: oa\n"
    "    name: boats\n";

// A lesson taken as far as its analysis.
struct Planned {
  explicit Planned(const std::string& text,
                   const std::string& sequence = kSequence)
      : lesson_file("lesson.yaml", text),
        sequence_file("sequence.yaml", sequence) {
    lesson = read_lesson(lesson_file, diagnostics);
    steps = read_sequence(sequence_file, diagnostics);
    inherit_conventions(steps, lesson);
    Taught taught = find_taught(lesson, sequence.empty() ? nullptr : &steps,
                                shared_phonics(), diagnostics);
    const SearchGround source{shared_phonics(), kUsual, taught, nullptr,
                              pictured};
    filled = fill_lesson(lesson, source, diagnostics);
    analyzed = analyze(lesson, shared_phonics(), std::move(taught), pictured,
                       diagnostics);
  }

  int count(const DiagnosticName& name) const {
    int found = 0;
    for (const Diagnostic* d : diagnostics.sorted()) found += d->name == &name;
    return found;
  }

  SourceFile lesson_file, sequence_file;
  Diagnostics diagnostics;
  Lesson lesson;
  SequenceFile steps;
  std::vector<FilledKey> filled;
  AnalyzedLesson analyzed;
};

TEST(Taught, TellsDecodableSightAndNotYet) {
  const Planned p(
      "pattern: sh\nwords: ship shed\n"
      "sentences: |\n  The ship is on the road.\n");
  const auto& words = p.analyzed.sentences.front().words;
  using Kind = WordStanding::Kind;
  EXPECT_EQ(words[0].word.standing.kind, Kind::sight_word);
  EXPECT_EQ(words[1].word.standing.kind, Kind::decodable);
  EXPECT_EQ(words[2].word.standing.kind, Kind::decodable);  // s as /z/
  EXPECT_EQ(words[5].word.standing.kind, Kind::not_yet);
  EXPECT_NE(to_text(p.diagnostics)
                .find("`road` is not decodable yet: `oa` as /oh/ is taught in "
                      "step 7 (boats)"),
            std::string::npos)
      << to_text(p.diagnostics);
  EXPECT_EQ(p.diagnostics.error_count(), 0);
}

// The quick look by graphemes alone passes over no word that can be read.
TEST(Taught, TheQuickLookRefusesNothingDecodable) {
  const Planned p("pattern: oa\nwords: boat\ntaught: drop_e, a_e, ing, ed_t\n");
  const Taught& taught = p.analyzed.taught;
  int decodable = 0, refused = 0;
  int n = 0;
  shared_phonics().each_word(
      10, kUsual, [&](const Reading& r, const WordInfo&) {
        if (++n % 3 != 0) return true;
        Reading units = r;
        units.places.clear();
        const bool may_be = taught.may_be_decodable(units);
        decodable += taught.is_decodable(r) ? 1 : 0;
        refused += may_be ? 0 : 1;
        EXPECT_TRUE(may_be || !taught.is_decodable(r)) << r.word;
        return true;
      });
  EXPECT_GT(decodable, 100);
  EXPECT_GT(refused, decodable);
}

TEST(Taught, StrictMakesItAnError) {
  const Planned p("pattern: sh\nstrict: yes\nwords: ship road\n");
  EXPECT_EQ(p.count(diagnostic::not_yet_taught), 1);
  EXPECT_EQ(p.diagnostics.error_count(), 1);
}

TEST(Taught, WithoutASequenceNothingIsNotYet) {
  const Planned p("pattern: sh\nwords: ship seashore\n", "");
  EXPECT_EQ(p.count(diagnostic::not_yet_taught), 0);
  EXPECT_FALSE(p.analyzed.taught.known());
}

TEST(Taught, GroupsMayStandAtDifferentSteps) {
  const std::string words = "words: ship toad\n";
  const Planned early("pattern: sh\nstep: 6\n" + words);
  const Planned late("pattern: sh\nstep: boats\n" + words);
  EXPECT_EQ(early.count(diagnostic::not_yet_taught), 1);
  EXPECT_EQ(late.count(diagnostic::not_yet_taught), 0);
}

TEST(Taught, ASentenceReadAndDictatedIsReported) {
  const Planned p(
      "pattern: sh\nwords: ship\nsentences: |\n  A big ship!\n"
      "dictate-sentences: |\n  a big ship\n");
  EXPECT_EQ(p.count(diagnostic::read_and_dictated), 1);
}

TEST(Fill, OneLineIsEnough) {
  const Planned p("pattern: oa\n");
  EXPECT_EQ(p.analyzed.words.size(), 10U);
  for (const AnalyzedWord& w : p.analyzed.words) {
    EXPECT_TRUE(w.has_pattern()) << w.spelling.value;
    EXPECT_EQ(w.standing.kind, WordStanding::Kind::decodable);
  }
  EXPECT_EQ(p.count(diagnostic::words_chosen), 1);
  EXPECT_EQ(p.diagnostics.error_count(), 0);
}

TEST(Fill, PickSaysHowMany) {
  EXPECT_EQ(Planned("pattern: sh\npick: 6\n").analyzed.words.size(), 6U);
  const Planned more("pattern: sh\npick: 6\nwords: ship shop\n");
  EXPECT_EQ(more.analyzed.words.size(), 6U);
  EXPECT_EQ(more.analyzed.words.front().spelling.value, "ship");
}

TEST(Fill, ASecondSetHasOtherWords) {
  const Planned one("pattern: sh\n"), two("pattern: sh\nset: 2\n");
  std::set<std::string> first;
  for (const auto& w : one.analyzed.words) first.insert(w.spelling.value);
  EXPECT_EQ(two.analyzed.words.size(), 10U);
  for (const auto& w : two.analyzed.words) {
    EXPECT_FALSE(first.contains(w.spelling.value)) << w.spelling.value;
  }
}

TEST(Fill, ASecondSetHasOtherSentencesAndAnotherPassage) {
  const Planned one("pattern: oa\n", ""), two("pattern: oa\nset: 2\n", "");
  const auto texts = [](const std::vector<AnalyzedSentence>& sentences) {
    std::set<std::string> all;
    for (const auto& sentence : sentences) all.insert(sentence.text.text());
    return all;
  };
  for (const auto list :
       {&AnalyzedLesson::sentences, &AnalyzedLesson::dictate_sentences}) {
    const auto first = texts(one.analyzed.*list);
    for (const std::string& text : texts(two.analyzed.*list)) {
      EXPECT_FALSE(first.contains(text)) << text;
    }
  }
  EXPECT_EQ(two.analyzed.sentences.size(), 6U);
  EXPECT_FALSE(two.analyzed.passage.empty());
  EXPECT_NE(one.analyzed.passage.title.text(),
            two.analyzed.passage.title.text());
}

TEST(Fill, TakesThePassageNearestInLengthAndSaysSo) {
  const Planned near("pattern: oa\npassage: 60\n", "");
  EXPECT_EQ(near.count(diagnostic::not_enough_sentences), 0);
  const Planned far("pattern: oa\npassage: 400\n", "");
  EXPECT_EQ(far.count(diagnostic::not_enough_sentences), 1);
  EXPECT_FALSE(far.analyzed.passage.empty());
  const auto words = [](const Planned& planned) {
    std::size_t count = 0;
    for (const auto& paragraph : planned.analyzed.passage.paragraphs) {
      count += paragraph.words.size();
    }
    return count;
  };
  EXPECT_GT(words(far), words(near));
}

TEST(Fill, DictationHasPractisedNewAndReviewWords) {
  const Planned p("pattern: sh\nwords: ship shed shop shell fish\n");
  const auto& words = p.analyzed.dictate_words;
  ASSERT_EQ(words.size(), 10U);
  EXPECT_EQ(words[0].spelling.value, "ship");
  EXPECT_EQ(words[3].spelling.value, "shell");
  for (std::size_t i = 4; i < 8; ++i) EXPECT_TRUE(words[i].has_pattern());
  for (std::size_t i = 8; i < 10; ++i) EXPECT_FALSE(words[i].has_pattern());
  EXPECT_EQ(Planned("pattern: sh\nwords: ship shed\nreview: 5\n")
                .analyzed.dictate_words.size(),
            2U + 4U + 5U);
}

TEST(Fill, SaysWhenThereAreTooFewWords) {
  const Planned p("pattern: oa\npick: 100\n");
  EXPECT_EQ(p.count(diagnostic::not_enough_words), 1);
}

TEST(Review, ComesBackAfterGrowingGaps) {
  const Planned without("pattern: oa", "");
  EXPECT_EQ(without.analyzed.taught.due_steps(), std::vector<int>());
  const Planned usual("pattern: oa\nstep: boats");
  EXPECT_EQ(usual.analyzed.taught.due_steps(), (std::vector<int>{5, 4, 2}));
  const Planned own("pattern: oa\nstep: boats",
                    "review-weeks: 1, 3, 6\n" + std::string(kSequence));
  EXPECT_EQ(own.analyzed.taught.due_steps(), (std::vector<int>{5, 3, 0}));
}

TEST(Review, WeeksMustGrow) {
  const Planned planned("pattern: oa\nstep: boats",
                        "review-weeks: 2, 2\n" + std::string(kSequence));
  EXPECT_EQ(planned.count(diagnostic::wrong_value), 1);
}

TEST(WarmUp, TakesWhatIsDueAndCanBeRead) {
  const Planned planned("pattern: oa\nstep: boats");
  const WarmUp& warm_up = planned.analyzed.warm_up;
  ASSERT_FALSE(warm_up.to_say.empty());
  EXPECT_EQ(warm_up.to_say.front().grapheme, "sh") << "of the week before";
  ASSERT_EQ(warm_up.words.size(), 4U);
  for (const AnalyzedWord& word : warm_up.words) {
    EXPECT_TRUE(planned.analyzed.taught.is_decodable(word.reading))
        << word.reading.word;
    EXPECT_FALSE(word.has_pattern()) << word.reading.word;
  }
  EXPECT_TRUE(Planned("pattern: oa", "").analyzed.warm_up.empty());
}

TEST(Conventions, OfASequenceHoldForItsLessons) {
  const Planned planned("pattern: oa\nstep: boats",
                        "conventions: {x: one}\n" + std::string(kSequence));
  EXPECT_TRUE(planned.analyzed.conventions.x_one);
  const Planned own("pattern: oa\nstep: boats\nconventions: {x: two}",
                    "conventions: {x: one}\n" + std::string(kSequence));
  EXPECT_FALSE(own.analyzed.conventions.x_one);
}

}  // namespace
}  // namespace sheaf
