#pragma once

#include <string>
#include <string_view>

#include "marking/advice.h"
#include "marking/mark_attempt.h"
#include "marking/mark_sentence.h"
#include "marking/scores.h"

namespace sheaf {

/// Stands wherever scores are printed.
inline constexpr std::string_view kScoreCaution =
    "Scores describe how these words went and nothing else. They do not "
    "screen for or diagnose anything: qualified professionals and local "
    "policy decide about that.";

/// A cause in a teacher's words: "sound kept, spelled in a way used there".
std::string_view cause_words(Cause cause);

/// What went wrong in a word, grapheme by grapheme: "ai written a_e:
/// plausible, sound kept ...; e left over". Empty where nothing did.
std::string faults_text(const MarkedAttempt& attempt);

/// The attempt with those of its faults alone that follow how the learner
/// speaks, and with the others alone, for places where they are told apart.
MarkedAttempt with_speech_alone(const MarkedAttempt& attempt);
MarkedAttempt without_speech(const MarkedAttempt& attempt);
bool has_speech(const MarkedAttempt& attempt);

/// The same for a word of a sentence, which may be missing or not one word.
std::string faults_text(MarkedWord::Kind kind, const MarkedAttempt& attempt);

/// Said of a word that stands in an attempt at a sentence and not in it.
inline constexpr std::string_view kNotDictatedWord =
    "a word that was not dictated";

/// Causes with their counts, the commonest first: "near sound 3, doubling 1".
std::string causes_text(const CauseCounts& counts, std::size_t most = 4);
/// Those errors that follow how the learner speaks, which are counted apart:
/// "follows how they speak: 3". Empty where there are none.
std::string speech_text(const CauseCounts& counts);

/// Those who are not there yet and what is next for each: "K2 (back to the
/// sounds), M5 (another set)". Empty where all are.
std::string not_yet_text(const Advice& advice, const SessionScores& scores);

/// A kind of record as pages say it, "check after weeks", and as files do,
/// "retention".
std::string_view kind_words(Record::Kind kind);
std::string_view kind_name(Record::Kind kind);

}  // namespace sheaf
