#pragma once

#include <memory>
#include <string>

#include "service/service.h"

namespace sheaf {

/// The pages of a lesson in a browser on the same machine, which follow every
/// change. It listens on the loopback address alone, at a port that the system
/// chooses; whoever does not know the token in the address is refused, and so
/// is whoever calls the machine by another name. It ends with its owner.
class LivePage {
 public:
  /// Begins to serve `path`, a lesson. From then on `service` belongs to it:
  /// nobody else may call it. Throws MachineError where it cannot listen.
  LivePage(Service& service, std::string path);
  ~LivePage();

  /// Where to look: http://127.0.0.1:PORT/TOKEN/
  const std::string& address() const;
  /// Files may be others now: reads them again and tells whoever looks.
  void changed();

 private:
  struct Server;
  std::unique_ptr<Server> server_;
};

}  // namespace sheaf
