#include "input/record_attempts.h"

#include <fmt/format.h>

#include <optional>

#include "base/utf8.h"
#include "input/record_learners.h"

namespace sheaf {

namespace {

constexpr int kLongestAttempt = 500;
constexpr std::size_t kMostAttempts = 300;
constexpr std::string_view kLeftBlank = ".";

// A key as a text of its own; the file may have written it in quotes.
PlacedText text_of_key(const Spanned<std::string>& key) {
  const bool as_it_stands = key.span.text() == key.value;
  const std::uint32_t first = key.span.begin + (as_it_stands ? 0 : 1);
  return {key.value, key.span, {{0, first}}};
}

std::optional<Attempt> attempt_of(const PlacedText& target,
                                  const PlacedText& written,
                                  const Span& place_of_blank,
                                  std::string_view key, Diagnostics& d) {
  Attempt attempt{target.squeezed(), written.squeezed()};
  if (is_too_long(attempt.target, kLongestAttempt, key, d) ||
      is_too_long(attempt.written, kLongestAttempt, key, d)) {
    return std::nullopt;
  }
  attempt.blank =
      attempt.written.text() == kLeftBlank || attempt.written.text().empty();
  if (attempt.blank) attempt.written = PlacedText("", place_of_blank, {});
  return attempt;
}

std::optional<Attempt> read_named(const ValueEntry& entry, std::string_view key,
                                  Diagnostics& d) {
  const Value& value = entry.value;
  if (value.kind == Value::Kind::text) {
    return attempt_of(text_of_key(entry.key), value.text, value.span, key, d);
  }
  const bool nothing = value.kind == Value::Kind::nothing;
  d.error(nothing ? diagnostic::missing_value : diagnostic::wrong_value,
          value.span,
          fmt::format("there is {} after {}, where the learner's writing "
                      "should be",
                      describe(value.kind), as_written(entry.key.value)),
          "write what the learner wrote, or `.` where it was left blank");
  return std::nullopt;
}

// `fis`, or with its word `fish=fis`; a colon does as well, for whoever writes
// it as in a key.
void read_alone(const PlacedText& one, std::string_view key,
                std::vector<Attempt>& into, Diagnostics& d) {
  const std::size_t sign = one.text().find_first_of("=:");
  if (sign != std::string::npos && sign > 0) {
    const PlacedText written = one.slice(sign + 1, one.text().size());
    auto attempt = attempt_of(one.slice(0, sign), written, one.span(), key, d);
    if (!attempt) return;
    if (!attempt->target.text().empty()) into.push_back(*std::move(attempt));
    return;
  }
  if (one.text() == kLeftBlank) {
    d.error(diagnostic::wrong_value, one.span(),
            "a `.` alone does not say which word was left blank",
            "write the word before it, as in `ship=.`");
    return;
  }
  if (auto attempt = attempt_of({}, one, one.span(), key, d)) {
    into.push_back(*std::move(attempt));
  }
}

void add_list(const PlacedText& text, std::string_view key,
              std::vector<Attempt>& into, Diagnostics& d) {
  const std::string_view all = text.text();
  for (std::size_t at = 0; at <= all.size();) {
    const std::size_t end = std::min(all.find_first_of(",\n", at), all.size());
    const PlacedText one = text.slice(at, end).squeezed();
    at = end + 1;
    if (one.text().empty()) continue;
    if (into.size() == kMostAttempts) {
      d.error(diagnostic::too_many, one.span(),
              fmt::format("{} has more than {} attempts after it",
                          as_written(key), kMostAttempts),
              "take some out");
      return;
    }
    read_alone(one, key, into, d);
  }
}

void read_keys_of(const ValueEntry& learner, std::vector<Attempt>& into,
                  Diagnostics& d) {
  for (const ValueEntry& entry : learner.value.entries) {
    if (report_joined_key(entry, d)) continue;
    if (auto attempt = read_named(entry, learner.key.value, d)) {
      into.push_back(*std::move(attempt));
    }
  }
}

void read_learner_wrong(const Field& field, const ValueEntry& learner,
                        std::vector<Attempt>& into, Diagnostics& d) {
  const std::string& key = learner.key.value;
  switch (learner.value.kind) {
    case Value::Kind::nothing:
      return;
    case Value::Kind::text:
      add_list(learner.value.text, key, into, d);
      return;
    case Value::Kind::keys:
      read_keys_of(learner, into, d);
      return;
    case Value::Kind::list:
      break;
  }
  for (const Value& item : learner.value.items) {
    if (item.kind == Value::Kind::text) {
      add_list(item.text, key, into, d);
    } else if (item.kind == Value::Kind::keys) {
      read_keys_of({learner.key, item}, into, d);
    } else {
      report_wrong_kind({key, item, field.example}, d);
    }
  }
}

}  // namespace

std::vector<OfLearner<Attempt>> read_wrong(const Field& field, Diagnostics& d) {
  return read_learners<Attempt>(
      field, d, [&](const ValueEntry& learner, std::vector<Attempt>& into) {
        read_learner_wrong(field, learner, into, d);
      });
}

std::vector<OfLearner<Attempt>> read_written(const Field& field,
                                             Diagnostics& d) {
  return read_learners<Attempt>(
      field, d, [&](const ValueEntry& learner, std::vector<Attempt>& into) {
        if (learner.value.kind == Value::Kind::keys) {
          read_keys_of(learner, into, d);
        } else {
          report_wrong_kind({learner.key.value, learner.value, field.example},
                            d);
        }
      });
}

std::vector<Attempt> read_attempt_list(const PlacedText& text,
                                       std::string_view key, Diagnostics& d) {
  std::vector<Attempt> attempts;
  add_list(text, key, attempts, d);
  return attempts;
}

}  // namespace sheaf
