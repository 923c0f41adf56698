// `textDocument/formatting`: a text with its lines put in order.

#include "lsp/desk.h"

namespace sheaf::lsp {

Json formatting(LanguageServer::Desk& desk, const Json& parameters) {
  const LanguageServer::Desk::Text& open = desk.text_of(parameters);
  const std::string tidy = desk.service.formatted(desk.path_of(parameters));
  Json edits = Json::array();
  if (tidy != open.text) {
    const TextRange all{0, static_cast<std::uint32_t>(open.text.size())};
    edits.push_back(
        {{"range", to_json(open.text, all, desk.units)}, {"newText", tidy}});
  }
  return edits;
}

}  // namespace sheaf::lsp
