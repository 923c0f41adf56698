// `initialize` and `shutdown`: what the server can do, and the end.

#include <algorithm>

#include "lsp/desk.h"

namespace sheaf::lsp {

Json initialize(LanguageServer::Desk& desk, const Json& parameters) {
  const Json& encodings =
      member(member(member(parameters, "capabilities"), "general"),
             "positionEncodings");
  if (encodings.is_array() &&
      std::ranges::find(encodings, Json("utf-8")) != encodings.end()) {
    desk.units = Units::utf8;
  }
  desk.initialized = true;
  Json capabilities = {
      {"positionEncoding", desk.units == Units::utf8 ? "utf-8" : "utf-16"},
      {"textDocumentSync", {{"openClose", true}, {"change", 2}}},
      {"hoverProvider", true},
      {"completionProvider", {{"triggerCharacters", {":", " ", "-"}}}},
      {"codeActionProvider",
       {{"codeActionKinds", {"quickfix", "refactor", "source.fixAll"}}}},
      {"documentSymbolProvider", true},
      {"inlayHintProvider", true},
      {"documentFormattingProvider", true}};
  return {{"capabilities", std::move(capabilities)},
          {"serverInfo", {{"name", "sheaf"}, {"version", SHEAF_VERSION}}}};
}

Json shutdown(LanguageServer::Desk& desk, const Json&) {
  desk.shut_down = true;
  return nullptr;
}

}  // namespace sheaf::lsp
