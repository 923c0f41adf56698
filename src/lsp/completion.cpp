// `textDocument/completion`: what may stand at a place.

#include <fmt/format.h>

#include "lsp/desk.h"

namespace sheaf::lsp {

namespace {

// The numbers of the protocol (CompletionItemKind).
int kind_of(Completion::Kind kind) {
  switch (kind) {
    case Completion::Kind::key:
    case Completion::Kind::option:
      return 10;  // property
    case Completion::Kind::pattern:
      return 21;  // constant
    case Completion::Kind::word:
      return 1;  // text
    case Completion::Kind::sheet:
      return 9;  // module
    case Completion::Kind::file:
      return 17;
    case Completion::Kind::value:
    case Completion::Kind::step:
      break;
  }
  return 12;  // value
}

}  // namespace

Json completion(LanguageServer::Desk& desk, const Json& parameters) {
  const LanguageServer::Desk::Text& open = desk.text_of(parameters);
  Json items = Json::array();
  for (const Completion& one : desk.service.completions(
           desk.path_of(parameters),
           offset_of(open.text, member(parameters, "position"), desk.units))) {
    Json item = {{"label", one.label},
                 {"kind", kind_of(one.kind)},
                 {"detail", one.detail},
                 // As Sheaf orders them, the best first.
                 {"sortText", fmt::format("{:04}", items.size())},
                 {"textEdit",
                  {{"range", to_json(open.text, one.range, desk.units)},
                   {"newText", one.text}}}};
    if (!one.more.empty()) item["documentation"] = one.more;
    items.push_back(std::move(item));
  }
  return {{"isIncomplete", false}, {"items", std::move(items)}};
}

}  // namespace sheaf::lsp
