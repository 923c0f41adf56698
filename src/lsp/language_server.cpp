#include "lsp/language_server.h"

#include <fmt/format.h>

#include <array>
#include <new>

#include "base/error.h"
#include "lsp/desk.h"

namespace sheaf {

namespace {

struct RequestRow {
  std::string_view method;
  Request answer;
};
constexpr std::array kRequests = {
    RequestRow{"initialize", lsp::initialize},
    RequestRow{"shutdown", lsp::shutdown},
    RequestRow{"textDocument/hover", lsp::hover},
    RequestRow{"textDocument/completion", lsp::completion},
    RequestRow{"textDocument/codeAction", lsp::code_action},
    RequestRow{"textDocument/documentSymbol", lsp::document_symbol},
    RequestRow{"textDocument/inlayHint", lsp::inlay_hint},
    RequestRow{"textDocument/formatting", lsp::formatting}};

struct NotificationRow {
  std::string_view method;
  Notification take;
};
constexpr std::array kNotifications = {
    NotificationRow{"initialized", lsp::initialized},
    NotificationRow{"textDocument/didOpen", lsp::did_open},
    NotificationRow{"textDocument/didChange", lsp::did_change},
    NotificationRow{"textDocument/didClose", lsp::did_close},
    NotificationRow{"workspace/didChangeWatchedFiles", lsp::did_change_files}};

Json fault_json(const Json& id, const RequestFault& fault) {
  return {{"jsonrpc", "2.0"},
          {"id", id},
          {"error", {{"code", fault.code}, {"message", fault.text}}}};
}

Json answer_to(LanguageServer::Desk& desk, const std::string& method,
               const Json& parameters) {
  if (!desk.initialized && method != "initialize") {
    throw RequestFault{kNotInitialized, "`initialize` comes first"};
  }
  if (desk.shut_down) throw RequestFault{kNoRequest, "it was shut down"};
  for (const RequestRow& row : kRequests) {
    if (row.method == method) return row.answer(desk, parameters);
  }
  throw RequestFault{kNoMethod, fmt::format("no `{}` here", method)};
}

void take(LanguageServer::Desk& desk, const std::string& method,
          const Json& parameters) {
  if (method == "exit") desk.ended = true;
  if (!desk.initialized || desk.shut_down) return;
  for (const NotificationRow& row : kNotifications) {
    if (row.method == method) row.take(desk, parameters);
  }
}

// What a message calls for; every fault becomes an answer.
void handle_message(LanguageServer::Desk& desk, const Json& message) {
  const Json& method = member(message, "method");
  const bool is_request = message.is_object() && message.contains("id");
  if (!method.is_string()) {
    // An answer has no method; we ask one thing and need no answer.
    if (!message.is_object() || !is_request) {
      desk.send(fault_json(nullptr, {kNoRequest, "this is no message"}));
    }
    return;
  }
  const Json id = is_request ? member(message, "id") : Json();
  try {
    const Json& parameters = member(message, "params");
    if (!is_request) {
      take(desk, method.get<std::string>(), parameters);
      return;
    }
    Json result = answer_to(desk, method.get<std::string>(), parameters);
    desk.send({{"jsonrpc", "2.0"}, {"id", id}, {"result", std::move(result)}});
  } catch (const RequestFault& fault) {
    if (is_request) desk.send(fault_json(id, fault));
  } catch (const MachineError& error) {
    if (is_request) desk.send(fault_json(id, {kInternalFault, error.what()}));
  } catch (const Json::exception&) {
    if (is_request) {
      desk.send(fault_json(
          id, {kWrongParameters, "the parameters are not as they should be"}));
    }
  }
}

std::vector<std::string> taken(LanguageServer::Desk& desk) {
  std::vector<std::string> texts;
  for (const Json& message : desk.to_send) {
    texts.push_back(dumped(message));
  }
  desk.to_send.clear();
  return texts;
}

}  // namespace

LanguageServer::LanguageServer(Service& service)
    : desk_(std::make_unique<Desk>(service)) {}
LanguageServer::~LanguageServer() = default;

std::vector<std::string> LanguageServer::handle(std::string_view message,
                                                bool more) {
  const Json json = Json::parse(message, nullptr, false);
  if (json.is_discarded()) {
    desk_->send(fault_json(nullptr, {kParseFault, "this is not JSON"}));
  } else {
    handle_message(*desk_, json);
  }
  if (!more) lsp::publish(*desk_);
  return taken(*desk_);
}

std::vector<std::string> LanguageServer::settle() {
  lsp::publish(*desk_);
  return taken(*desk_);
}

bool LanguageServer::ended() const { return desk_->ended; }
int LanguageServer::exit_code() const { return desk_->shut_down ? 0 : 1; }

}  // namespace sheaf
