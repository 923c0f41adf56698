#include "sheets/card_records.h"

#include <fmt/format.h>

#include <algorithm>

#include "marking/review_cards.h"

namespace sheaf {

namespace {

using Standing = CardRecord::Standing;

const LearnerProgress* learner_of(const SheetInput& in,
                                  const LearnerCode& code) {
  const auto learner =
      std::ranges::find(in.cards->now, code, &LearnerProgress::code);
  return learner == in.cards->now.end() ? nullptr : &*learner;
}

std::vector<LearnerCode> codes_of_pages(const SheetInput& in) {
  std::vector<LearnerCode> codes;
  for (const std::string& text : in.learners) {
    if (auto code = LearnerCode::read(text)) codes.push_back(*std::move(code));
  }
  return codes;
}

Standing standing_of(const PatternProgress& progress) {
  switch (progress.state) {
    case ProgressState::check_again:
      return Standing::slipped;
    case ProgressState::practising:
      return Standing::not_there;
    case ProgressState::go_on:
      return Standing::on_the_way;
    case ProgressState::secure:
      break;
  }
  return Standing::secure;
}

// The least of the card's patterns that the records know of.
std::optional<Standing> standing_of(const LearnerProgress& learner,
                                    const DeckCard& card) {
  std::optional<Standing> least;
  for (const PatternId pattern : card.patterns) {
    const PatternProgress* progress = learner.find(pattern);
    if (progress == nullptr) continue;
    least = std::min(least.value_or(Standing::secure), standing_of(*progress));
  }
  return least;
}

std::string_view standing_text(std::optional<Standing> standing) {
  if (!standing) return "no record";
  switch (*standing) {
    case Standing::slipped:
      return "slipped";
    case Standing::not_there:
      return "not there yet";
    case Standing::on_the_way:
      return "on the way";
    case Standing::secure:
      break;
  }
  return "secure";
}

struct LearnersStanding {
  std::string code;
  std::optional<Standing> standing;
};

// Learners who stand alike together, those who need the card most first.
std::string text_of(const std::vector<LearnersStanding>& learners) {
  constexpr std::optional<Standing> kOrder[] = {
      Standing::slipped, Standing::not_there, Standing::on_the_way,
      Standing::secure, std::nullopt};
  std::string text;
  for (const auto& standing : kOrder) {
    std::string codes;
    std::size_t count = 0;
    for (const LearnersStanding& learner : learners) {
      if (learner.standing != standing) continue;
      codes += (codes.empty() ? "" : ", ") + learner.code;
      ++count;
    }
    if (count == 0) continue;
    if (count == learners.size()) return std::string(standing_text(standing));
    text += fmt::format("{}{} {}", text.empty() ? "" : "; ", codes,
                        standing_text(standing));
  }
  return text;
}

bool has_move(const std::vector<CardMove>& moves, const DeckCard& card,
              const LearnerCode& code) {
  return std::ranges::any_of(moves, [&](const CardMove& move) {
    return std::ranges::find(card.patterns, move.pattern) !=
               card.patterns.end() &&
           std::ranges::find(move.codes, code) != move.codes.end();
  });
}

}  // namespace

std::vector<CardRecord> card_records(const SheetInput& in,
                                     const std::vector<DeckCard>& cards) {
  std::vector<PatternId> patterns;
  for (const LessonPattern& pattern : in.lesson.patterns) {
    patterns.push_back(pattern.id);
  }
  std::vector<ComingLesson> group;
  for (LearnerCode& code : codes_of_pages(in)) {
    group.push_back({std::move(code), patterns});
  }
  const CardMoves moves = card_moves(group, *in.cards);
  std::vector<CardRecord> records;
  for (const DeckCard& card : cards) {
    CardRecord record;
    std::vector<LearnersStanding> standings;
    for (const ComingLesson& coming : group) {
      const LearnerProgress* learner = learner_of(in, coming.code);
      const std::optional<Standing> own =
          learner == nullptr ? std::nullopt : standing_of(*learner, card);
      standings.push_back({coming.code.text(), own});
      record.known += own ? 1 : 0;
      record.weak += own && *own <= Standing::not_there ? 1 : 0;
      record.on_the_way += own == Standing::on_the_way ? 1 : 0;
      if (has_move(moves.in, card, coming.code)) {
        record.in.push_back(coming.code.text());
      } else if (own == Standing::secure &&
                 has_move(moves.out, card, coming.code)) {
        record.out.push_back(coming.code.text());
      }
    }
    record.secure_for_all =
        !standings.empty() &&
        std::ranges::all_of(standings, [](const LearnersStanding& learner) {
          return learner.standing == Standing::secure;
        });
    if (record.known > 0) record.text = text_of(standings);
    records.push_back(std::move(record));
  }
  return records;
}

std::optional<Date> latest_record(const SheetInput& in) {
  std::optional<Date> latest;
  if (in.cards == nullptr) return latest;
  for (const LearnerCode& code : codes_of_pages(in)) {
    const LearnerProgress* learner = learner_of(in, code);
    if (learner == nullptr) continue;
    for (const SequencePoint& point : learner->sequences) {
      latest = std::max(latest.value_or(point.date), point.date);
    }
  }
  return latest;
}

}  // namespace sheaf
