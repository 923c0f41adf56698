// `textDocument/inlayHint`: graphemes behind words, and when they can be read.

#include "lsp/desk.h"

namespace sheaf::lsp {

Json inlay_hint(LanguageServer::Desk& desk, const Json& parameters) {
  const LanguageServer::Desk::Text& open = desk.text_of(parameters);
  Json hints = Json::array();
  for (const Inlay& inlay : desk.service.inlays(
           desk.path_of(parameters),
           range_of(open.text, member(parameters, "range"), desk.units))) {
    hints.push_back({{"position", position_of(open.text, inlay.at, desk.units)},
                     {"label", inlay.text},
                     {"tooltip", inlay.more},
                     {"paddingLeft", true}});
  }
  return hints;
}

}  // namespace sheaf::lsp
