// What is known of what stands at a place: a word, a pattern, a key, a sheet.

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "base/utf8.h"
#include "service/key_facts.h"
#include "service/state.h"
#include "service/text_context.h"
#include "service/word_facts.h"
#include "sheets/sheet.h"

namespace sheaf {

namespace {

std::string_view part(std::string_view text, TextRange range) {
  return text.substr(range.begin, range.end - range.begin);
}

std::optional<Hover> about_key(const TextReading& reading,
                               const TextContext& context,
                               std::string_view text) {
  const std::string_view name = part(text, context.token);
  const auto keys = keys_below(reading.kind, context.above);
  const auto key = std::ranges::find(keys, name, &KeyFact::name);
  if (key == keys.end()) return std::nullopt;
  Hover hover{context.token,
              {fmt::format("`{}`: {}", key->name, key->meaning)}};
  if (!key->example.empty()) hover.lines.push_back("as in " + key->example);
  if (!key->choices.empty()) {
    hover.lines.push_back(
        fmt::format("one of: {}", fmt::join(key->choices, ", ")));
  }
  if (!key->fallback.empty()) {
    hover.lines.push_back("without it: " + key->fallback);
  }
  return hover;
}

std::optional<Hover> about_sheet(std::string_view name, TextRange range) {
  const SheetKind* kind = find_sheet_kind(name);
  if (kind == nullptr) return std::nullopt;
  Hover hover{range, {fmt::format("`{}`: {}", kind->name, kind->summary)}};
  if (!kind->direction.empty()) {
    hover.lines.push_back(fmt::format("to the {}: {}",
                                      kind->for_teacher ? "teacher" : "learner",
                                      kind->direction));
  }
  return hover;
}

// The name of a pattern that holds the place; a name may have several words,
// and one may stand for several patterns.
std::optional<Hover> about_pattern(const Phonics& phonics,
                                   std::string_view text, std::uint32_t begin,
                                   std::uint32_t end, std::uint32_t at) {
  const std::string_view value = text.substr(begin, end - begin);
  for (const PatternName& name : phonics.find_patterns(value)) {
    const TextRange range{begin + static_cast<std::uint32_t>(name.begin),
                          begin + static_cast<std::uint32_t>(name.end)};
    if (at < range.begin || at > range.end) continue;
    Hover hover{range, {}};
    if (name.meant) {
      hover.lines = lines_about(*name.meant, phonics);
    } else if (!name.could_be.empty()) {
      hover.lines.push_back(fmt::format("`{}` may be:", part(text, range)));
      for (const PatternId id : name.could_be) {
        const Pattern& p = phonics.patterns()[id];
        hover.lines.push_back(
            fmt::format("`{}`: {}, as in {}", p.id, p.name, p.example));
      }
    }
    if (!hover.lines.empty()) return hover;
  }
  return std::nullopt;
}

bool holds_patterns(const TextReading& reading, const TextContext& context) {
  const std::string_view key = context.inner();
  return reading.kind == FileKind::sequence
             ? key == "patterns" || key == "taught"
             : key == "pattern" || key == "taught";
}

bool is_about_words(const TextReading& reading, const TextContext& context) {
  if (reading.kind == FileKind::sentences) return true;
  constexpr std::string_view kOther[] = {
      "title",  "sequence", "step",   "layout",  "days",  "minutes",
      "set",    "seed",     "review", "author",  "group", "licence",
      "accent", "count",    "pick",   "notation"};
  return !context.in_key &&
         std::ranges::find(kOther, context.inner()) == std::end(kOther);
}

}  // namespace

std::optional<Hover> Service::hover(const std::string& path, std::uint32_t at) {
  State& found = state(path);
  const TextReading& reading = *found.now;
  if (reading.file == nullptr) return std::nullopt;
  const std::string_view text = reading.file->text();
  const TextContext context = context_at(text, at);
  if (context.in_comment) return std::nullopt;
  const std::string_view token = part(text, context.token);
  if (token.empty()) return std::nullopt;
  if (reading.kind == FileKind::layout && context.top() == "sheets" &&
      context.above.size() <= 1) {
    if (auto sheet = about_sheet(token, context.token)) return sheet;
  }
  if (context.in_key) {
    if (auto key = about_key(reading, context, text)) return key;
  }
  const Phonics& phonics = ground_->phonics();
  if (!context.in_key && holds_patterns(reading, context)) {
    // All of the line's value.
    const std::size_t line = text.rfind('\n', at == 0 ? 0 : at - 1);
    std::size_t begin = line == std::string_view::npos ? 0 : line + 1;
    if (!context.own.empty()) begin = text.find(':', begin) + 1;
    const std::size_t end =
        std::min(text.find_first_of("\r\n#", at), text.size());
    return about_pattern(phonics, text, static_cast<std::uint32_t>(begin),
                         static_cast<std::uint32_t>(end), at);
  }
  if (!is_word(token) || !is_about_words(reading, context)) {
    return std::nullopt;
  }
  const TextReading* lesson = found.with_lesson();
  return Hover{
      context.token,
      lines_about(see_word(
          token, lesson == nullptr ? nullptr : &lesson->lesson->analyzed,
          phonics))};
}

}  // namespace sheaf
