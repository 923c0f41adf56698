// `sheaf schema KIND`: what a file may hold, as a JSON Schema (draft 07, which
// editors know best), so that they complete and check while one types. Made
// from the tables that check the files. A schema forgives more than Sheaf does:
// what it cannot say, such as which words have the pattern, is left to
// `sheaf check`.

#include <fmt/format.h>

#include "base/diagnostics.h"
#include "cli/exit_codes.h"
#include "cli/verbs.h"
#include "input/class_file.h"
#include "input/lesson_keys.h"
#include "input/record_file.h"
#include "input/sequence.h"
#include "layout/style.h"
#include "sheets/sheet.h"

namespace sheaf {

namespace {

// Text for JSON; ours has no signs below a space.
std::string text(std::string_view plain) {
  std::string result = "\"";
  for (const char c : plain) {
    if (c == '"' || c == '\\') result += '\\';
    result += c;
  }
  return result + "\"";
}

// Members of an object, one a line, those of inner objects further in.
class Members {
 public:
  explicit Members(int depth) : depth_(depth) {}
  void add(std::string_view name, std::string_view value) {
    result_ += fmt::format("{}\n{:{}}{}: {}", result_.empty() ? "" : ",", "",
                           2 * depth_ + 2, text(name), value);
  }
  std::string take() const {
    return fmt::format("{{{}\n{:{}}}}", result_, "", 2 * depth_);
  }

 private:
  int depth_;
  std::string result_;
};

std::string object(const Members& properties, std::string_view about,
                   std::string_view more = "") {
  return fmt::format(
      "{{{}\"type\": \"object\", \"additionalProperties\": false{}, "
      "\"properties\": {}}}",
      about.empty() ? "" : fmt::format("\"description\": {}, ", text(about)),
      more, properties.take());
}

// What a key takes, by its example: a number, pairs, or words and lines.
std::string key_schema(const KeyNote& key) {
  const std::size_t colon = key.example.find(": ");
  const std::string_view value = key.example.substr(colon + 2);
  const bool is_number =
      value.find_first_not_of("0123456789") == std::string_view::npos;
  const std::string_view type =
      is_number                ? R"("type": ["integer", "string"])"
      : value.starts_with('{') ? R"("type": "object")"
      : value.starts_with('[') ? R"("type": "array")"
                               : R"("type": ["string", "array", "number"])";
  return fmt::format(
      "{{\"description\": {}, {}, \"examples\": [{}]}}",
      text(fmt::format("{}, as in {}", key.meaning, key.example)), type,
      is_number ? value : text(value));
}

void add_keys(Members& members, const std::vector<KeyNote>& keys) {
  for (const KeyNote& key : keys) members.add(key.name, key_schema(key));
}

std::string choices(std::string_view words) {
  std::string list;
  while (!words.empty()) {
    const std::size_t end = std::min(words.find(' '), words.size());
    list += (list.empty() ? "" : ", ") + text(words.substr(0, end));
    words.remove_prefix(std::min(end + 1, words.size()));
  }
  return list;
}

std::string option_schema(const OptionSpec& option) {
  std::string about(option.help);
  if (!option.least.empty()) {
    about += fmt::format(" ({} to {})", option.least, option.most);
  }
  std::string type;
  std::string fallback = text(option.fallback);
  switch (option.kind) {
    case OptionSpec::Kind::length:
      type =
          R"("type": "string", "pattern": "^[0-9]+([.][0-9]+)? ?(mm|cm|in|pt)$")";
      break;
    case OptionSpec::Kind::count:
      type = fmt::format(R"("type": "integer", "minimum": {}, "maximum": {})",
                         option.least, option.most);
      fallback = option.fallback;
      break;
    case OptionSpec::Kind::number:
      type = fmt::format(R"("type": "number", "minimum": {}, "maximum": {})",
                         option.least, option.most);
      fallback = option.fallback;
      break;
    case OptionSpec::Kind::flag:
      type = R"("enum": ["yes", "no", true, false])";
      break;
    case OptionSpec::Kind::choice:
      type = fmt::format("\"enum\": [{}]", choices(option.choices));
      break;
    case OptionSpec::Kind::letters:
      type = R"("type": "string", "pattern": "^[A-Za-z_ ]*$")";
      break;
    case OptionSpec::Kind::text:
      type = R"("type": "string")";
      break;
  }
  return fmt::format("{{\"description\": {}, {}, \"default\": {}}}",
                     text(about), type, fallback);
}

std::string layout_properties() {
  Members properties(1);
  properties.add("sheaf",
                 R"({"description": "version of the format", "const": 1})");
  for (const OptionSpec& option : page_options()) {
    properties.add(option.name, option_schema(option));
  }
  std::string names;
  Members kinds(6);
  for (const SheetKind* kind : sheet_kinds()) {
    names += (names.empty() ? "" : ", ") + text(kind->name);
    Members options(7);
    for (const OptionSpec& option : kind->options) {
      options.add(option.name, option_schema(option));
    }
    kinds.add(kind->name, object(options, kind->summary));
  }
  properties.add(
      "sheets",
      fmt::format("{{\"description\": \"the sheets in their order, each with "
                  "options of its own\", \"type\": \"array\", \"items\": "
                  "{{\"anyOf\": [{{\"enum\": [{}]}}, {}]}}}}",
                  names, object(kinds, "", ", \"maxProperties\": 1")));
  return properties.take();
}

std::string lesson_properties() {
  Members properties(1);
  // The two may stand in the lesson itself.
  const std::string_view both = R"("type": ["string", "object"])";
  for (const KeyNote& key : notes_of(kLessonKeys)) {
    const bool own = key.name == "layout" || key.name == "sequence";
    std::string schema = key_schema(key);
    if (own) {
      const std::string_view text_only =
          R"("type": ["string", "array", "number"])";
      schema.replace(schema.find(text_only), text_only.size(), both);
    }
    properties.add(key.name, schema);
  }
  return properties.take();
}

std::string class_properties() {
  Members learner(3);
  add_keys(learner, learner_keys());
  Members properties(1);
  properties.add("sheaf",
                 R"({"description": "version of the format", "const": 1})");
  add_keys(properties, class_keys());
  add_keys(properties, learner_keys());
  properties.add("groups",
                 fmt::format("{{\"description\": \"groups by name, with their "
                             "settings\", \"type\": \"object\", "
                             "\"additionalProperties\": {}}}",
                             object(learner, "a group")));
  add_keys(learner, learner_own_keys());
  properties.add(
      "learners",
      fmt::format("{{\"description\": \"learners by initials or code, with "
                  "their settings\", \"type\": [\"object\", \"array\", "
                  "\"string\"], \"additionalProperties\": {{\"anyOf\": "
                  "[{{\"type\": \"null\"}}, {}]}}}}",
                  object(learner, "a learner")));
  return properties.take();
}

std::string sequence_properties() {
  Members properties(1);
  Members step(4);
  add_keys(step, step_keys());
  for (const KeyNote& key : sequence_keys()) {
    if (key.name != "steps") properties.add(key.name, key_schema(key));
  }
  properties.add(
      "steps",
      fmt::format("{{\"description\": \"the steps in the order of teaching\", "
                  "\"type\": \"array\", \"items\": {{\"anyOf\": [{{\"type\": "
                  "\"string\"}}, {}]}}}}",
                  object(step, "a step")));
  return properties.take();
}

// The errors of a learner may be a text, a list or keys; the kind is one of
// four.
void add_record_keys(Members& members) {
  for (const KeyNote& key : record_keys()) {
    std::string schema = key_schema(key);
    const auto put = [&](std::string_view type, std::string_view instead) {
      const std::size_t at = schema.find(type);
      if (at != std::string::npos) schema.replace(at, type.size(), instead);
    };
    if (key.name == "wrong") {
      put(R"("type": "object")",
          R"("type": "object", "additionalProperties": {"type": ["string", )"
          R"("array", "object", "number", "boolean", "null"]})");
    } else if (key.name == "kind") {
      put(R"("type": ["string", "array", "number"])",
          R"("enum": ["dictation", "transfer", "retention", "writing"])");
    }
    members.add(key.name, schema);
  }
}

std::string record_properties() {
  Members properties(1);
  properties.add("sheaf",
                 R"({"description": "version of the format", "const": 1})");
  add_record_keys(properties);
  Members record(4);
  add_record_keys(record);
  properties.add(
      "records",
      fmt::format("{{\"description\": \"several records, which take what they "
                  "leave out from the file's own keys\", \"type\": \"array\", "
                  "\"items\": {}}}",
                  object(record, "a record")));
  return properties.take();
}

struct FileSchema {
  std::string_view name, title, required;
  std::string (*properties)();
};
constexpr FileSchema kSchemas[] = {
    {"lesson", "A lesson for Sheaf", "pattern", lesson_properties},
    {"layout", "A layout for Sheaf", "sheets", layout_properties},
    {"class", "A class for Sheaf", "learners", class_properties},
    {"sequence", "A sequence for Sheaf", "steps", sequence_properties},
    {"record", "A record for Sheaf", "", record_properties},
};

}  // namespace

int run_schema(const CommandLine& line) {
  const std::string& wanted = line.arguments.front();
  std::vector<std::string_view> names;
  for (const FileSchema& schema : kSchemas) {
    names.push_back(schema.name);
    if (schema.name != wanted) continue;
    Members members(0);
    members.add("$schema", text("http://json-schema.org/draft-07/schema#"));
    members.add("title", text(schema.title));
    members.add("type", text("object"));
    if (schema.name == "lesson") {
      // A check of where to begin has no pattern of its own.
      members.add(
          "anyOf",
          R"([{"required": ["pattern"]}, {"required": ["placement"]}])");
    } else if (!schema.required.empty()) {
      members.add("required", fmt::format("[{}]", text(schema.required)));
    }
    members.add("additionalProperties", "false");
    members.add("properties", schema.properties());
    fmt::print("{}\n", members.take());
    return kDone;
  }
  fmt::print(stderr,
             "sheaf: there is no schema for {}; choose `lesson`, `layout`, "
             "`class`, `sequence` or `record`\n",
             sheaf::quoted(wanted));
  return kWrongCommandLine;
}

}  // namespace sheaf
