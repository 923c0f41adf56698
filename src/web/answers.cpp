#include "web/answers.h"

#include <fmt/format.h>

namespace sheaf {

namespace {

std::string_view severity_name(Severity severity) {
  switch (severity) {
    case Severity::error:
      return "error";
    case Severity::warning:
      return "warning";
    default:
      return "note";
  }
}

std::string_view kind_name(Completion::Kind kind) {
  switch (kind) {
    case Completion::Kind::key:
      return "key";
    case Completion::Kind::pattern:
      return "pattern";
    case Completion::Kind::word:
      return "word";
    case Completion::Kind::sheet:
      return "sheet";
    case Completion::Kind::option:
      return "option";
    case Completion::Kind::file:
      return "file";
    case Completion::Kind::step:
      return "step";
    default:
      return "value";
  }
}

}  // namespace

const Utf16Text& AnswerMaker::text(const std::string& path) {
  const auto known = texts_.find(path);
  if (known != texts_.end()) return known->second;
  return texts_.emplace(path, service_.text(path).value_or("")).first->second;
}

Json AnswerMaker::range(const std::string& path, TextRange range) {
  const Utf16Text& in = text(path);
  return {{"from", in.units(range.begin)}, {"to", in.units(range.end)}};
}

Json AnswerMaker::range(const std::string& path,
                        const std::optional<TextRange>& range) {
  return range ? this->range(path, *range) : Json();
}

TextRange AnswerMaker::bytes(const std::string& path, std::uint32_t from,
                             std::uint32_t to) {
  const Utf16Text& in = text(path);
  return {in.byte(from), in.byte(to)};
}

Json AnswerMaker::line_of(const std::string& path,
                          const std::optional<TextRange>& range) {
  return range ? Json(text(path).line(range->begin)) : Json();
}

Json AnswerMaker::edits(const std::string& path,
                        const std::vector<TextEdit>& edits) {
  Json list = Json::array();
  for (const TextEdit& edit : edits) {
    Json one = range(path, edit.range);
    one["insert"] = edit.replacement;
    list.push_back(std::move(one));
  }
  return list;
}

Json AnswerMaker::file_edits(const std::vector<FileEdits>& files) {
  Json list = Json::array();
  for (const FileEdits& file : files) {
    list.push_back(
        {{"path", file.path}, {"edits", edits(file.path, file.edits)}});
  }
  return list;
}

Json AnswerMaker::message(const ServiceMessage& message) {
  Json remarks = Json::array();
  for (const auto& remark : message.remarks) {
    remarks.push_back({{"path", remark.path},
                       {"range", range(remark.path, remark.range)},
                       {"line", line_of(remark.path, remark.range)},
                       {"text", remark.text}});
  }
  Json fixes = Json::array();
  for (const ServiceFix& fix : message.fixes) {
    fixes.push_back({{"label", fix.label},
                     {"certain", fix.certain},
                     {"files", file_edits(fix.files)}});
  }
  return {{"severity", severity_name(message.severity)},
          {"name", message.name},
          {"path", message.path},
          {"range", range(message.path, message.range)},
          {"line", line_of(message.path, message.range)},
          {"column", message.range
                         ? Json(text(message.path).column(message.range->begin))
                         : Json()},
          {"text", message.text},
          {"help", message.help},
          {"remarks", std::move(remarks)},
          {"fixes", std::move(fixes)}};
}

Json AnswerMaker::action(const ServiceAction& action) {
  return {{"title", action.title},
          {"files", file_edits(action.files)},
          {"message", action.message},
          {"certain", action.certain}};
}

Json AnswerMaker::completion(const std::string& path,
                             const Completion& completion) {
  return {{"kind", kind_name(completion.kind)},
          {"label", completion.label},
          {"range", range(path, completion.range)},
          {"text", completion.text},
          {"detail", completion.detail},
          {"more", completion.more}};
}

Json AnswerMaker::outline(const std::string& path, const Symbol& symbol) {
  Json parts = Json::array();
  for (const Symbol& part : symbol.parts) parts.push_back(outline(path, part));
  return {{"name", symbol.name},
          {"detail", symbol.detail},
          {"range", range(path, symbol.range)},
          {"nameRange", range(path, symbol.name_range)},
          {"parts", std::move(parts)}};
}

Json AnswerMaker::field(const std::string& path, const FormField& field) {
  return {{"key", field.key},           {"present", field.present},
          {"text", field.text},         {"lines", field.lines},
          {"editable", field.editable}, {"range", range(path, field.range)}};
}

Json to_json(const ServicePages& pages) {
  Json list = Json::array();
  for (const ServicePages::Page& page : pages.pages) {
    list.push_back({{"label", page.label},
                    {"teacher", page.teacher},
                    {"width", page.size.width.pt()},
                    {"height", page.size.height.pt()},
                    {"look", fmt::format("{:016x}", page.look)}});
  }
  return {
      {"pages", std::move(list)}, {"stale", pages.stale}, {"why", pages.why}};
}

Json to_json(const PatternEntry& pattern) {
  return {{"id", pattern.id},         {"name", pattern.name},
          {"family", pattern.family}, {"remark", pattern.remark},
          {"terms", pattern.terms},   {"rule", pattern.rule}};
}

}  // namespace sheaf
