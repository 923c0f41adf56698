// What follows how a learner speaks: plausible, never right, counted apart, and
// cued by meaning.

#include "marking/learner_speech.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <tuple>

#include "marking/error_cue.h"
#include "marking/score_words.h"
#include "unit/marking_data.h"

namespace sheaf {
namespace {

LearnerSpeech speech_of(std::string_view name) {
  LearnerSpeech speech;
  EXPECT_TRUE(add_variety(name, speech)) << name;
  return speech;
}

MarkedAttempt mark_as(std::string_view name, std::string_view target,
                      std::string_view written) {
  MarkingOptions options = ground().options;
  options.speech = speech_of(name);
  return mark_attempt(ground().spellings,
                      ground().phonics.read(target, Conventions{}), written,
                      options);
}

int follows(const MarkedAttempt& attempt) {
  int count = 0;
  for (const MarkedGrapheme& g : attempt.graphemes) {
    if (g.cause == Cause::own_speech) {
      EXPECT_EQ(g.result, GraphemeResult::plausible) << attempt.written;
      ++count;
    }
  }
  for (const ExtraLetter& extra : attempt.extra) {
    count += extra.cause == Cause::own_speech ? 1 : 0;
  }
  return count;
}

// The example of each row is an error that follows it, and does not without it.
TEST(SpeechVarieties, HoldWhatTheirExampleShows) {
  EXPECT_GE(speech_varieties().size(), 30U);
  for (const SpeechVariety& one : speech_varieties()) {
    const std::size_t colon = one.example.find(": ");
    ASSERT_NE(colon, std::string_view::npos) << one.name;
    const std::string target(one.example.substr(0, colon));
    const std::string written(one.example.substr(colon + 2));
    const MarkedAttempt marked = mark_as(one.name, target, written);
    EXPECT_EQ(follows(marked), 1) << one.name << " " << labels_text(marked);
    EXPECT_FALSE(marked.right) << one.name;
    EXPECT_EQ(follows(ground().mark(target, written)), 0) << one.name;
    EXPECT_GT(one.source.size(), 10U) << one.name;
    EXPECT_FALSE(one.about.empty()) << one.name;
  }
}

// Every word of a rule is understood.
TEST(SpeechVarieties, HaveRulesThatDoSomething) {
  for (const SpeechVariety& one : speech_varieties()) {
    const LearnerSpeech speech = speech_of(one.name);
    EXPECT_TRUE(!speech.confusions.empty() || speech.no_cluster_end ||
                speech.no_ed || speech.no_s || speech.no_h ||
                speech.vowel_before_s)
        << one.name;
    for (const std::string_view word : split_at(one.rule, ' ')) {
      LearnerSpeech unread;
      constexpr std::string_view kWords[] = {
          "start", "end", "nasal", "cluster", "ed", "s", "h", "before-s"};
      EXPECT_TRUE(std::ranges::find(kWords, word) != std::end(kWords) ||
                  read_confusion(word, unread) || add_variety(word, unread))
          << one.name << ": " << word;
    }
  }
  LearnerSpeech speech;
  EXPECT_FALSE(add_variety("martian", speech));
  EXPECT_FALSE(add_variety("", speech));
}

struct SpeechCase {
  const char *variety, *target, *written;
  int follow;
};

TEST(SpeechVarieties, ReachNoFurtherThanTheySay) {
  constexpr SpeechCase kCases[] = {
      {"no-ed", "jumped", "jump", 1},   // the ending alone
      {"no-ed", "landed", "land", 0},   // a beat of its own is heard
      {"no-ed", "hand", "han", 0},      // no ending
      {"no-ed", "liked", "like", 1},    // the e of the base stays
      {"no-ed", "jumped", "jumpt", 0},  // written as it sounds
      {"no-s", "cats", "cat", 1},        {"no-s", "gas", "ga", 0},
      {"cluster", "hand", "han", 1},     {"cluster", "fast", "fas", 1},
      {"cluster", "hat", "ha", 0},       {"cluster", "stop", "sop", 0},
      {"cluster", "jumped", "jump", 0},  {"end-voice", "bed", "bet", 1},
      {"end-voice", "dip", "tip", 0},    {"l-w", "ball", "baw", 1},
      {"e-i-before-n", "pen", "pin", 1}, {"e-i-before-n", "pet", "pit", 0},
      {"before-s", "stop", "estop", 1},  {"before-s", "sit", "esit", 0},
      {"no-h", "hat", "at", 1},          {"no-h", "that", "tat", 0},
      {"th-f", "mother", "muvver", 1},
  };
  for (const SpeechCase& one : kCases) {
    const MarkedAttempt marked = mark_as(one.variety, one.target, one.written);
    EXPECT_EQ(follows(marked), one.follow)
        << one.variety << " " << one.target << " " << one.written << " "
        << labels_text(marked) << " " << faults_text(marked);
    EXPECT_FALSE(marked.right);
  }
  // What is right stays right, whoever wrote it.
  for (const SpeechVariety& one : speech_varieties()) {
    EXPECT_TRUE(mark_as(one.name, "jumped", "jumped").right);
    EXPECT_EQ(follows(mark_as(one.name, "hand", "hand")), 0);
  }
  // Nothing is plausible of a word that was left blank.
  EXPECT_EQ(follows(mark_as("no-h", "h", "")), 0);
}

TEST(SpeechVarieties, AreCuedByMeaning) {
  const auto cue = [](const char* variety, const char* target,
                      const char* written) {
    return first_cue(ground().read(target), mark_as(variety, target, written),
                     nullptr, Conventions{});
  };
  EXPECT_EQ(cue("no-ed", "jumped", "jump").text,
            "“It has happened already, so it ends in ed, whatever we hear.” "
            "Show ed.");
  for (const auto& [variety, target, written] :
       {std::tuple{"no-s", "cats", "cat"},
        {"cluster", "hand", "han"},
        {"th-f", "think", "fink"}}) {
    const ErrorCue said = cue(variety, target, written);
    EXPECT_EQ(said.kind, CueKind::speech) << target;
    // By meaning, not by the mouth, and without the wrong spelling.
    EXPECT_EQ(said.text.find("mouth"), std::string::npos) << said.text;
    EXPECT_EQ(said.text.find("“" + std::string(written)), std::string::npos);
    EXPECT_FALSE(said.text.empty());
  }
}

TEST(SpeechVarieties, AreCountedApart) {
  CauseCounts counts{};
  counts[static_cast<std::size_t>(Cause::own_speech)] = 3;
  EXPECT_EQ(causes_text(counts), "follows how they speak: 3");
  counts[static_cast<std::size_t>(Cause::left_out)] = 2;
  EXPECT_EQ(causes_text(counts),
            "left out 2; apart from these, follows how they speak: 3");
}

}  // namespace
}  // namespace sheaf
