// `textDocument/documentSymbol`: the parts of a file.

#include "lsp/desk.h"

namespace sheaf::lsp {

namespace {

Json symbol_json(const Symbol& symbol, std::string_view text, Units units) {
  constexpr int kProperty = 7;  // SymbolKind of the protocol
  Json parts = Json::array();
  for (const Symbol& part : symbol.parts) {
    parts.push_back(symbol_json(part, text, units));
  }
  return {{"name", symbol.name},
          {"detail", symbol.detail},
          {"kind", kProperty},
          {"range", to_json(text, symbol.range, units)},
          {"selectionRange", to_json(text, symbol.name_range, units)},
          {"children", std::move(parts)}};
}

}  // namespace

Json document_symbol(LanguageServer::Desk& desk, const Json& parameters) {
  const LanguageServer::Desk::Text& open = desk.text_of(parameters);
  Json symbols = Json::array();
  for (const Symbol& symbol : desk.service.symbols(desk.path_of(parameters))) {
    symbols.push_back(symbol_json(symbol, open.text, desk.units));
  }
  return symbols;
}

}  // namespace sheaf::lsp
