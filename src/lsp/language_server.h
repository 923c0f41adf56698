#pragma once

#include <map>
#include <memory>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "service/service.h"

namespace sheaf {

/// The Language Server Protocol 3.17 (Microsoft) over a service: messages as
/// JSON in, messages as JSON out. Whoever owns it moves the bytes. A request
/// that cannot be answered gets an error of the protocol; nothing that a client
/// sends ends the program but `exit`.
class LanguageServer {
 public:
  struct Desk;

  /// `service` must outlive it.
  explicit LanguageServer(Service& service);
  ~LanguageServer();

  /// What one message calls for, in the order of sending. While `more` is
  /// coming, messages about a changed text wait for `settle`.
  std::vector<std::string> handle(std::string_view message, bool more = false);
  /// What is left to be said of changed texts.
  std::vector<std::string> settle();
  bool ended() const;
  /// 0 where the client said `shutdown` before `exit`.
  int exit_code() const;

 private:
  std::unique_ptr<Desk> desk_;
};

}  // namespace sheaf
