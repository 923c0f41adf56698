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
  const Json& watched =
      member(member(member(parameters, "capabilities"), "workspace"),
             "didChangeWatchedFiles");
  desk.tells_of_files = member(watched, "dynamicRegistration") == true;
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

// Lessons name sequences, layouts and pictures: the client is asked to tell of
// those that change without being opened.
void initialized(LanguageServer::Desk& desk, const Json&) {
  if (!desk.tells_of_files) return;
  const Json watchers =
      Json::array({{{"globPattern", "**/*.{yaml,yml,txt,png,jpg,jpeg}"}}});
  desk.send(
      {{"jsonrpc", "2.0"},
       {"id", "sheaf-files"},
       {"method", "client/registerCapability"},
       {"params",
        {{"registrations",
          Json::array({{{"id", "sheaf-files"},
                        {"method", "workspace/didChangeWatchedFiles"},
                        {"registerOptions", {{"watchers", watchers}}}}})}}}});
}

Json shutdown(LanguageServer::Desk& desk, const Json&) {
  desk.shut_down = true;
  return nullptr;
}

}  // namespace sheaf::lsp
