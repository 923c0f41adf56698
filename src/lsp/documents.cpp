// Texts that are opened, changed and closed, and what is said of them.

#include <map>

#include "base/error.h"
#include "lsp/desk.h"

namespace sheaf {

namespace {

// Behind a byte order mark, as the service counts.
std::string without_mark(std::string text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.erase(0, 3);
  return text;
}

// The numbers of the protocol. A remark about the file as a whole is a hint: it
// would stand at the first line, about which it says nothing.
int severity_of(const ServiceMessage& message) {
  switch (message.severity) {
    case Severity::error:
      return 1;
    case Severity::warning:
      return 2;
    case Severity::note:
      break;
  }
  return message.range ? 3 : 4;
}

// Where the machine fails, the client is told, and the server goes on.
std::vector<ServiceMessage> messages_about(LanguageServer::Desk& desk,
                                           const std::string& path) {
  try {
    return desk.service.messages(path);
  } catch (const MachineError& error) {
    constexpr int kErrorMessage = 1;
    desk.send(
        {{"jsonrpc", "2.0"},
         {"method", "window/showMessage"},
         {"params", {{"type", kErrorMessage}, {"message", error.what()}}}});
    return {};
  }
}

void put_in(LanguageServer::Desk& desk, const std::string& path,
            LanguageServer::Desk::Text& text) {
  desk.service.change(path, text.text);
  // What is said of one file may rest on any other.
  for (auto& [other, open] : desk.open) open.told = false;
}

}  // namespace

std::string LanguageServer::Desk::path_of(const Json& parameters) const {
  const Json& uri = member(member(parameters, "textDocument"), "uri");
  if (!uri.is_string()) {
    throw RequestFault{kWrongParameters, "which text? It has no URI"};
  }
  return path_of_uri(uri.get_ref<const std::string&>());
}

LanguageServer::Desk::Text& LanguageServer::Desk::text_of(
    const Json& parameters) {
  const auto found = open.find(path_of(parameters));
  if (found == open.end()) {
    throw RequestFault{kWrongParameters, "this text was not opened"};
  }
  return found->second;
}

std::string LanguageServer::Desk::any_text(const std::string& path) {
  if (const auto found = open.find(path); found != open.end()) {
    return found->second.text;
  }
  return service.text(path).value_or("");
}

Json LanguageServer::Desk::edits_of(const std::vector<FileEdits>& files) {
  Json changes = Json::object();
  for (const FileEdits& file : files) {
    const std::string text = any_text(file.path);
    Json& edits = changes[open.contains(file.path) ? open[file.path].uri
                                                   : uri_of_path(file.path)];
    for (const TextEdit& edit : file.edits) {
      edits.push_back({{"range", to_json(text, edit.range, units)},
                       {"newText", edit.replacement}});
    }
  }
  return {{"changes", std::move(changes)}};
}

namespace lsp {

void did_open(LanguageServer::Desk& desk, const Json& parameters) {
  const Json& document = member(parameters, "textDocument");
  const Json& text = member(document, "text");
  if (!text.is_string()) return;
  const std::string path = desk.path_of(parameters);
  LanguageServer::Desk::Text& open = desk.open[path];
  open.uri = member(document, "uri").get<std::string>();
  open.text = without_mark(text.get<std::string>());
  const Json& version = member(document, "version");
  open.version = version.is_number_integer() ? version.get<std::int64_t>() : 0;
  put_in(desk, path, open);
}

void did_change(LanguageServer::Desk& desk, const Json& parameters) {
  LanguageServer::Desk::Text& open = desk.text_of(parameters);
  for (const Json& change : member(parameters, "contentChanges")) {
    const Json& text = member(change, "text");
    if (!text.is_string()) continue;
    const Json& range = member(change, "range");
    if (range.is_object()) {
      const TextRange at = range_of(open.text, range, desk.units);
      open.text.replace(at.begin, at.end - at.begin,
                        text.get_ref<const std::string&>());
    } else {
      open.text = without_mark(text.get<std::string>());
    }
  }
  const Json& version = member(member(parameters, "textDocument"), "version");
  if (version.is_number_integer()) open.version = version.get<std::int64_t>();
  put_in(desk, desk.path_of(parameters), open);
}

// Nothing is said any more of a text that nobody looks at.
void did_close(LanguageServer::Desk& desk, const Json& parameters) {
  const std::string path = desk.path_of(parameters);
  const auto found = desk.open.find(path);
  if (found == desk.open.end()) return;
  std::set<std::string> spoken_of = found->second.spoken_of;
  spoken_of.insert(found->second.uri);
  desk.open.erase(found);
  desk.service.close(path);
  for (const std::string& uri : spoken_of) {
    desk.send({{"jsonrpc", "2.0"},
               {"method", "textDocument/publishDiagnostics"},
               {"params", {{"uri", uri}, {"diagnostics", Json::array()}}}});
  }
  for (auto& [other, open] : desk.open) open.told = false;
}

void did_change_files(LanguageServer::Desk& desk, const Json&) {
  desk.service.look_again();
  for (auto& [path, open] : desk.open) open.told = false;
}

Json diagnostic_of(LanguageServer::Desk& desk, const ServiceMessage& message,
                   std::string_view text) {
  // The protocol has one text; a mend that is said stands below.
  std::string said = message.text;
  if (!message.help.empty()) said += "\n" + message.help;
  Json diagnostic = {
      {"range", to_json(text, message.range.value_or(TextRange{}), desk.units)},
      {"severity", severity_of(message)},
      {"code", message.name},
      {"source", "sheaf"},
      {"message", std::move(said)}};
  Json related = Json::array();
  for (const ServiceMessage::Remark& remark : message.remarks) {
    if (!remark.range) continue;
    related.push_back({{"location",
                        {{"uri", uri_of_path(remark.path)},
                         {"range", to_json(desk.any_text(remark.path),
                                           *remark.range, desk.units)}}},
                       {"message", remark.text}});
  }
  if (!related.empty()) diagnostic["relatedInformation"] = std::move(related);
  return diagnostic;
}

void publish(LanguageServer::Desk& desk) {
  for (auto& [path, open] : desk.open) {
    if (open.told) continue;
    open.told = true;
    std::map<std::string, Json> by_uri;
    by_uri[open.uri] = Json::array();
    for (const std::string& uri : open.spoken_of) by_uri[uri] = Json::array();
    open.spoken_of.clear();
    for (const ServiceMessage& message : messages_about(desk, path)) {
      const bool own = message.path == path;
      // A file that is open itself speaks for itself.
      if (!own && desk.open.contains(message.path)) continue;
      const std::string uri = own ? open.uri : uri_of_path(message.path);
      if (!own) open.spoken_of.insert(uri);
      Json& list = by_uri.try_emplace(uri, Json::array()).first->second;
      list.push_back(diagnostic_of(
          desk, message, own ? open.text : desk.any_text(message.path)));
    }
    for (auto& [uri, list] : by_uri) {
      Json parameters = {{"uri", uri}};
      if (uri == open.uri) parameters["version"] = open.version;
      parameters["diagnostics"] = std::move(list);
      desk.send({{"jsonrpc", "2.0"},
                 {"method", "textDocument/publishDiagnostics"},
                 {"params", std::move(parameters)}});
    }
  }
}

}  // namespace lsp

}  // namespace sheaf
