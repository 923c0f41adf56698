// `textDocument/codeAction`: mends of messages, and other changes at a place.

#include <algorithm>

#include "lsp/desk.h"

namespace sheaf::lsp {

namespace {

// Whether the client wants this kind; it may ask for a kind or all below it.
bool is_wanted(const Json& only, std::string_view kind) {
  if (!only.is_array()) return true;
  return std::ranges::any_of(only, [&](const Json& one) {
    if (!one.is_string()) return false;
    const std::string& wanted = one.get_ref<const std::string&>();
    return kind == wanted || kind.starts_with(wanted + ".");
  });
}

// All mends that cannot change what the teacher meant, at one go; those that
// overlap one before are left.
Json certain_mends(LanguageServer::Desk& desk, const std::string& path,
                   const std::vector<ServiceMessage>& messages) {
  FileEdits all{path, {}};
  for (const ServiceMessage& message : messages) {
    for (const ServiceFix& fix : message.fixes) {
      if (!fix.certain) continue;
      for (const FileEdits& file : fix.files) {
        if (file.path != path) continue;
        all.edits.insert(all.edits.end(), file.edits.begin(), file.edits.end());
      }
    }
  }
  std::ranges::stable_sort(
      all.edits, {}, [](const TextEdit& edit) { return edit.range.begin; });
  std::vector<TextEdit> kept;
  for (TextEdit& edit : all.edits) {
    if (!kept.empty() && edit.range.begin < kept.back().range.end) continue;
    if (!kept.empty() && edit.range == kept.back().range) continue;
    kept.push_back(std::move(edit));
  }
  if (kept.empty()) return nullptr;
  return {{"title", "Mend all that is certain"},
          {"kind", "source.fixAll.sheaf"},
          {"edit", desk.edits_of({{path, std::move(kept)}})}};
}

}  // namespace

Json code_action(LanguageServer::Desk& desk, const Json& parameters) {
  const LanguageServer::Desk::Text& open = desk.text_of(parameters);
  const std::string path = desk.path_of(parameters);
  const Json& only = member(member(parameters, "context"), "only");
  const TextRange range =
      range_of(open.text, member(parameters, "range"), desk.units);
  const std::vector<ServiceMessage> messages = desk.service.messages(path);
  Json actions = Json::array();
  for (const ServiceAction& action : desk.service.actions(path, range)) {
    const bool mend = action.message >= 0;
    const std::string_view kind = mend ? "quickfix" : "refactor";
    if (!is_wanted(only, kind)) continue;
    Json one = {{"title", action.title}, {"kind", kind}};
    if (mend) {
      const ServiceMessage& message =
          messages[static_cast<std::size_t>(action.message)];
      one["diagnostics"] =
          Json::array({diagnostic_of(desk, message, open.text)});
      if (action.certain) one["isPreferred"] = true;
    }
    one["edit"] = desk.edits_of(action.files);
    actions.push_back(std::move(one));
  }
  if (is_wanted(only, "source.fixAll.sheaf")) {
    if (Json all = certain_mends(desk, path, messages); !all.is_null()) {
      actions.push_back(std::move(all));
    }
  }
  return actions;
}

}  // namespace sheaf::lsp
