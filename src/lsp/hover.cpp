// `textDocument/hover`: what is known of what stands at a place.

#include "lsp/desk.h"

namespace sheaf::lsp {

Json hover(LanguageServer::Desk& desk, const Json& parameters) {
  const LanguageServer::Desk::Text& open = desk.text_of(parameters);
  const auto found = desk.service.hover(
      desk.path_of(parameters),
      offset_of(open.text, member(parameters, "position"), desk.units));
  if (!found) return nullptr;
  std::string text;
  for (const std::string& line : found->lines) {
    text += (text.empty() ? "" : "\n") + line;
  }
  return {{"contents", {{"kind", "plaintext"}, {"value", std::move(text)}}},
          {"range", to_json(open.text, found->range, desk.units)}};
}

}  // namespace sheaf::lsp
