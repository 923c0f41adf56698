// The functions that the module exports. Whoever calls puts a request into
// memory that `sheaf_alloc` gave, and a file's bytes into what `sheaf_room`
// gave, hands over where they are, and reads the answer with `sheaf_answer` and
// `sheaf_part` before the next call. Nothing is thrown over the border but a
// trap, after which an instance is not used again.
//
// These two give null where there is no memory; each other function that can
// fail gives 0, or a number of exit_codes.h.

#include <cstdio>
#include <cstdlib>
#include <exception>
#include <iostream>
#include <memory>
#include <new>
#include <string>
#include <utility>
#include <vector>

#include "base/error.h"
#include "cli/exit_codes.h"
#include "cli/run.h"
#include "json/json.h"
#include "machine.h"
#include "web/web_desk.h"

#define SHEAF_EXPORT(name) extern "C" __attribute__((export_name(#name), used))

namespace sheaf {
namespace {

std::unique_ptr<WebDesk> desk;
WebAnswer answer;
std::string arriving;

WebDesk& open_desk() {
  if (desk == nullptr) desk = std::make_unique<WebDesk>(memory(), kShipped);
  return *desk;
}

// The service is there from the first question on; before, files are only put.
template <class Work>
int guarded(Work work) {
  try {
    answer = {};
    return work();
  } catch (const std::bad_alloc&) {
    answer = {
        R"({"fault": "there is not enough memory to go on", "spent": true})",
        {}};
  } catch (const std::exception& fault) {
    answer = {dumped({{"fault", fault.what()}, {"spent", true}}), {}};
  }
  return kMachineFault;
}

std::string text_of(const char* bytes, std::size_t size) {
  return {bytes, size};
}

}  // namespace
}  // namespace sheaf

SHEAF_EXPORT(sheaf_alloc) void* sheaf_alloc(std::size_t size) {
  return std::malloc(size == 0 ? 1 : size);
}
SHEAF_EXPORT(sheaf_free) void sheaf_free(void* bytes) { std::free(bytes); }

// Where the next file's bytes go, or null. They are the file's own from then
// on: memory that has grown for a copy never shrinks again.
SHEAF_EXPORT(sheaf_room) void* sheaf_room(std::size_t size) {
  using sheaf::arriving;
  const int code = sheaf::guarded([&] {
    arriving = {};
    arriving.resize(size);
    return 0;
  });
  return code == 0 ? arriving.data() : nullptr;
}

// The file in that room is there from now on, or in place of another.
SHEAF_EXPORT(sheaf_put)
int sheaf_put(const char* path, std::size_t path_size) {
  return sheaf::guarded([&] {
    const std::string name = sheaf::text_of(path, path_size);
    std::string bytes = std::exchange(sheaf::arriving, {});
    if (sheaf::desk != nullptr) {
      sheaf::desk->put(name, std::move(bytes));
    } else {
      sheaf::memory().put(name, std::move(bytes));
    }
    return 0;
  });
}

SHEAF_EXPORT(sheaf_remove)
int sheaf_remove(const char* path, std::size_t path_size) {
  return sheaf::guarded([&] {
    const std::string name = sheaf::text_of(path, path_size);
    if (sheaf::desk != nullptr) {
      sheaf::desk->remove(name);
    } else {
      sheaf::memory().forget(name);
    }
    return 0;
  });
}

// Answers a request (see src/web/web_desk.h).
SHEAF_EXPORT(sheaf_ask)
int sheaf_ask(const char* request, std::size_t size) {
  return sheaf::guarded([&] {
    sheaf::answer = sheaf::open_desk().ask({request, size});
    return 0;
  });
}

// Runs a command: a JSON list of arguments, without the program's name. What it
// says goes to the streams of WASI; what it wrote is the answer, a list of
// paths with a part for each. The exit code.
SHEAF_EXPORT(sheaf_run)
int sheaf_run(const char* request, std::size_t size) {
  return sheaf::guarded([&] {
    using sheaf::Json;
    const Json list =
        Json::parse(std::string_view(request, size), nullptr, false);
    if (!list.is_array()) throw sheaf::MachineError("no list of arguments");
    std::vector<std::string> words{"sheaf"};
    for (const Json& word : list) {
      words.push_back(word.is_string() ? word.get<std::string>() : "");
    }
    std::vector<char*> arguments;
    for (std::string& word : words) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    // The input of the last run was read to its end; this one has another.
    std::clearerr(stdin);
    std::cin.clear();
    const auto before = sheaf::memory().all();
    const int code =
        sheaf::run_command(static_cast<int>(words.size()), arguments.data());
    Json written = Json::array(), gone = Json::array();
    const auto after = sheaf::memory().all();
    for (const auto& [path, bytes] : before) {
      if (!after.contains(path)) gone.push_back(path);
    }
    for (const auto& [path, bytes] : after) {
      const auto known = before.find(path);
      if (known != before.end() &&
          (known->second == bytes || *known->second == *bytes)) {
        continue;
      }
      written.push_back(path);
      sheaf::answer.parts.push_back(*bytes);
    }
    sheaf::answer.json = sheaf::dumped(
        {{"written", std::move(written)}, {"gone", std::move(gone)}});
    return code;
  });
}

// The answer to the last call, and its parts.
SHEAF_EXPORT(sheaf_answer) const char* sheaf_answer() {
  return sheaf::answer.json.data();
}
SHEAF_EXPORT(sheaf_answer_size) std::size_t sheaf_answer_size() {
  return sheaf::answer.json.size();
}
SHEAF_EXPORT(sheaf_parts) std::size_t sheaf_parts() {
  return sheaf::answer.parts.size();
}
SHEAF_EXPORT(sheaf_part) const char* sheaf_part(std::size_t index) {
  return index < sheaf::answer.parts.size() ? sheaf::answer.parts[index].data()
                                            : nullptr;
}
SHEAF_EXPORT(sheaf_part_size) std::size_t sheaf_part_size(std::size_t index) {
  return index < sheaf::answer.parts.size() ? sheaf::answer.parts[index].size()
                                            : 0;
}
