#pragma once

#include <map>
#include <string>

#include "json/json.h"
#include "service/service.h"
#include "web/utf16_text.h"

namespace sheaf {

/// Answers of the service as JSON. Texts are read once an answer, as places in
/// them are counted.
class AnswerMaker {
 public:
  explicit AnswerMaker(Service& service) : service_(service) {}

  const Utf16Text& text(const std::string& path);
  /// `{"from": 0, "to": 4}`.
  Json range(const std::string& path, TextRange range);
  Json range(const std::string& path, const std::optional<TextRange>& range);
  /// Counted the other way round.
  TextRange bytes(const std::string& path, std::uint32_t from,
                  std::uint32_t to);

  Json message(const ServiceMessage& message);
  Json action(const ServiceAction& action);
  Json completion(const std::string& path, const Completion& completion);
  Json outline(const std::string& path, const Symbol& symbol);
  Json edits(const std::string& path, const std::vector<TextEdit>& edits);
  Json field(const std::string& path, const FormField& field);

 private:
  Json file_edits(const std::vector<FileEdits>& files);
  Json line_of(const std::string& path, const std::optional<TextRange>& range);

  Service& service_;
  std::map<std::string, Utf16Text> texts_;
};

Json to_json(const ServicePages& pages);
Json to_json(const PatternEntry& pattern);

}  // namespace sheaf
