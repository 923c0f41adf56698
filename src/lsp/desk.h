#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "json/json.h"
#include "lsp/language_server.h"
#include "lsp/places.h"

namespace sheaf {

/// A fault that the client is told, with a number of the protocol.
struct RequestFault {
  int code = 0;
  std::string text;
};
inline constexpr int kParseFault = -32700;
inline constexpr int kNoRequest = -32600;
inline constexpr int kNoMethod = -32601;
inline constexpr int kWrongParameters = -32602;
inline constexpr int kInternalFault = -32603;
inline constexpr int kNotInitialized = -32002;

/// What a server knows between messages.
struct LanguageServer::Desk {
  explicit Desk(Service& of) : service(of) {}

  Service& service;
  Units units = Units::utf16;
  bool initialized = false, shut_down = false, ended = false;
  bool tells_of_files = false;  ///< the client can be asked to
  struct Text {
    std::string uri, text;
    std::int64_t version = 0;
    bool told = false;  ///< what there is to say of it was sent
    /// The files that were spoken of besides, by URI.
    std::set<std::string> spoken_of;
  };
  std::map<std::string, Text> open;  ///< by path
  std::vector<Json> to_send;

  void send(Json message) { to_send.push_back(std::move(message)); }
  /// The text that a request is about; throws RequestFault where it was never
  /// opened.
  Text& text_of(const Json& parameters);
  std::string path_of(const Json& parameters) const;
  /// The text of a file, open or not, for counting in it.
  std::string any_text(const std::string& path);
  Json edits_of(const std::vector<FileEdits>& files);
};

/// Each method of the protocol has a function in a file of its own: requests
/// give a result, notifications none.
using Request = Json (*)(LanguageServer::Desk&, const Json& parameters);
using Notification = void (*)(LanguageServer::Desk&, const Json& parameters);

namespace lsp {
Json initialize(LanguageServer::Desk& desk, const Json& parameters);
Json shutdown(LanguageServer::Desk& desk, const Json& parameters);
Json hover(LanguageServer::Desk& desk, const Json& parameters);
Json completion(LanguageServer::Desk& desk, const Json& parameters);
Json code_action(LanguageServer::Desk& desk, const Json& parameters);
Json document_symbol(LanguageServer::Desk& desk, const Json& parameters);
Json inlay_hint(LanguageServer::Desk& desk, const Json& parameters);
Json formatting(LanguageServer::Desk& desk, const Json& parameters);
void initialized(LanguageServer::Desk& desk, const Json& parameters);
void did_open(LanguageServer::Desk& desk, const Json& parameters);
void did_change(LanguageServer::Desk& desk, const Json& parameters);
void did_close(LanguageServer::Desk& desk, const Json& parameters);
void did_change_files(LanguageServer::Desk& desk, const Json& parameters);
/// Sends what there is to say of texts that changed.
void publish(LanguageServer::Desk& desk);
/// A message as the protocol has it.
Json diagnostic_of(LanguageServer::Desk& desk, const ServiceMessage& message,
                   std::string_view text);
}  // namespace lsp

/// A member of an object, or null.
inline const Json& member(const Json& object, const char* key) {
  static const Json kNothing;
  if (!object.is_object()) return kNothing;
  const auto found = object.find(key);
  return found == object.end() ? kNothing : *found;
}

}  // namespace sheaf
