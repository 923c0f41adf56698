// The two verbs that go on while somebody writes, as they are really run:
// `watch` over a folder on the disk, `lsp` over pipes as an editor has it. They
// show no name either, and obey no name of a file.

#include <gtest/gtest.h>

#include <csignal>
#include <filesystem>

#include "base/utf8.h"
#include "json/json.h"
#include "lsp/transport.h"
#include "names/marked_files.h"
#include "names/odd_files.h"
#include "support/run_program.h"
#include "support/running_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::RunningProgram;
using testing_support::TemporaryFolder;

void put(const TemporaryFolder& folder, const std::string& name,
         const std::string& text) {
  fs::create_directories(fs::path(folder.path() + "/" + name).parent_path());
  folder.write(name, text);
}

void put_all(const TemporaryFolder& folder, const FileSet& files) {
  for (const auto& [name, text] : files) put(folder, name, text);
}

std::size_t count_of(const std::string& text, std::string_view part) {
  std::size_t count = 0;
  for (std::size_t at = 0; (at = text.find(part, at)) != std::string::npos;
       at += part.size()) {
    ++count;
  }
  return count;
}

// As an editor writes the place of a file.
std::string uri_of(const std::string& path) {
  static constexpr std::string_view kFigures = "0123456789ABCDEF";
  std::string uri = "file://";
  for (const char c : path) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) != 0 || c == '/' || c == '-' || c == '.') {
      uri += c;
    } else {
      uri += '%';
      uri += kFigures[byte >> 4U];
      uri += kFigures[byte & 15U];
    }
  }
  return uri;
}

// A language server with an editor at the other end of its pipes.
class Editor {
 public:
  explicit Editor(const std::string& folder)
      : server_({SHEAF_PROGRAM, "lsp"}, folder) {
    ask("initialize", {{"capabilities", Json::object()}});
    tell("initialized", Json::object());
  }

  // Opens a text as that of a file and returns all that is said of it.
  std::string said_of(const std::string& path, const std::string& text) {
    const std::string uri = uri_of(path);
    tell("textDocument/didOpen", {{"textDocument",
                                   {{"uri", uri},
                                    {"languageId", "yaml"},
                                    {"version", ++version_},
                                    {"text", text}}}});
    const Json told = wait_for([&](const Json& message) {
      return message.value("method", "") == "textDocument/publishDiagnostics" &&
             message["params"].value("version", -1) == version_;
    });
    std::string said;
    for (const Json& one : told_) add_messages(one, said);
    told_.clear();
    if (told.is_null()) return said + " nothing more came of it";
    const Json& list = told["params"]["diagnostics"];
    some_ += list.empty() ? 0 : 1;
    const Json actions =
        ask("textDocument/codeAction",
            {{"textDocument", {{"uri", uri}}},
             {"range",
              {{"start", {{"line", 0}, {"character", 0}}},
               {"end", {{"line", count_of(text, "\n")}, {"character", 0}}}}},
             {"context", {{"diagnostics", list}}}});
    for (const Json& action : actions["result"]) {
      said += action.value("title", "") + "\n";
    }
    ask("textDocument/hover", {{"textDocument", {{"uri", uri}}},
                               {"position", {{"line", 1}, {"character", 2}}}});
    tell("textDocument/didClose", {{"textDocument", {{"uri", uri}}}});
    return said;
  }

  // Of how many texts something was said.
  int some() const { return some_; }

  int close() {
    ask("shutdown", nullptr);
    tell("exit", nullptr);
    return server_.end();
  }
  const std::string& messages() const { return server_.messages(); }

 private:
  static void add_messages(const Json& told, std::string& said) {
    if (!told.contains("params")) return;
    for (const Json& one : told["params"].value("diagnostics", Json::array())) {
      said += one.value("message", "") + "\n";
      for (const Json& more : one.value("relatedInformation", Json::array())) {
        said += more.value("message", "") + "\n";
      }
    }
    said += told["params"].value("message", "") + "\n";
  }

  // An editor knows characters only: for a bad byte it has U+FFFD.
  void send(const Json& message) {
    server_.write(
        framed(message.dump(-1, ' ', false, Json::error_handler_t::replace)));
  }
  void tell(const std::string& method, const Json& parameters) {
    send({{"jsonrpc", "2.0"}, {"method", method}, {"params", parameters}});
  }
  Json ask(const std::string& method, const Json& parameters) {
    const int id = ++id_;
    send({{"jsonrpc", "2.0"},
          {"id", id},
          {"method", method},
          {"params", parameters}});
    return wait_for(
        [&](const Json& message) { return message.value("id", -1) == id; });
  }
  // Reads on to the first message that is wanted; keeps all that came.
  Json wait_for(const std::function<bool(const Json&)>& wanted) {
    Json found;
    server_.read_until([&] {
      reader_.add(server_.results().substr(read_));
      read_ = server_.results().size();
      while (const auto message = reader_.next()) {
        const Json one = Json::parse(*message);
        told_.push_back(one);
        if (!wanted(one)) continue;
        found = one;
        return true;
      }
      return false;
    });
    return found;
  }

  RunningProgram server_;
  MessageReader reader_;
  std::size_t read_ = 0;  // bytes that the reader was given
  std::vector<Json> told_;
  int id_ = 0, version_ = 0, some_ = 0;
};

// A run of `watch`, which is told of each save by what it says at its end.
class Watch {
 public:
  Watch(std::vector<std::string> arguments, const std::string& folder)
      : program_(command(std::move(arguments)), folder) {}

  // Whether it has built, or tried, once more.
  bool has_waited() {
    const std::size_t wanted = ++built_;
    return program_.read_until([&] {
      return count_of(program_.results(), "waiting for the next save") >=
             wanted;
    });
  }
  int end() { return program_.end(SIGINT); }
  std::string said() const { return program_.results() + program_.messages(); }

 private:
  static std::vector<std::string> command(std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), {SHEAF_PROGRAM, "watch"});
    return arguments;
  }

  RunningProgram program_;
  std::size_t built_ = 0;
};

bool is_watched(const MarkedRun& run) {
  return run.marked == "class.yaml" || run.marked == "plain-class.yaml";
}

TEST(LiveRuns, ShowNoNameToAnEditor) {
  const TemporaryFolder folder;
  put_all(folder, whole_files());
  Editor editor(folder.path());
  constexpr std::uint64_t kRuns = 2000;
  for (std::uint64_t number = 1; number <= kRuns; ++number) {
    const MarkedRun run = marked_run(number);
    if (run.marked == "journal.txt") continue;
    const std::string said = editor.said_of(folder.path() + "/" + run.marked,
                                            run.files.at(run.marked));
    EXPECT_FALSE(shows_name(said))
        << "run " << number << ", " << run.marked << "\n"
        << said << "----\n"
        << run.files.at(run.marked);
  }
  EXPECT_GT(editor.some(), 500);
  EXPECT_EQ(editor.close(), 0);
  EXPECT_FALSE(shows_name(editor.messages())) << editor.messages();
}

TEST(LiveRuns, ShowNoNameWhileAClassIsWatched) {
  const TemporaryFolder folder;
  put_all(folder, whole_files());
  Watch watch(
      {"--class", "class.yaml", "--only", "sound-boxes", "--out", "pages"},
      folder.path());
  ASSERT_TRUE(watch.has_waited()) << watch.said();
  int saved = 0;
  for (std::uint64_t number = 1; saved < 40; ++number) {
    const MarkedRun run = marked_run(number);
    if (!is_watched(run)) continue;
    ++saved;
    put(folder, "class.yaml", run.files.at(run.marked));
    ASSERT_TRUE(watch.has_waited()) << "run " << number << watch.said();
  }
  watch.end();
  const std::string said = watch.said();
  EXPECT_FALSE(shows_name(said)) << said;
  EXPECT_GT(count_of(said, "error: "), 10U);
}

TEST(LiveRuns, ObeyNoNameOfAFile) {
  const TemporaryFolder folder;
  const FileSet files = whole_files();
  put_all(folder, files);
  const std::string odd = kOddName + ".yaml";
  const std::string bad = "pattern: sh\nwords: sh1p\n";
  put(folder, odd, files.at("lesson.yaml"));

  Watch watch({odd, "--only", "sound-boxes", "--out", kOddName}, folder.path());
  ASSERT_TRUE(watch.has_waited()) << printable(watch.said());
  for (const std::string& text : {bad, files.at("lesson.yaml")}) {
    put(folder, odd, text);
    ASSERT_TRUE(watch.has_waited()) << printable(watch.said());
  }
  watch.end();
  EXPECT_EQ(obeyed(watch.said()), "");
  EXPECT_GE(count_of(watch.said(), printable(kOddName)), 3U) << watch.said();
  EXPECT_EQ(count_of(watch.said(), "not built"), 1U) << watch.said();

  Editor editor(folder.path());
  const std::string path = folder.path() + "/" + odd;
  std::string said = editor.said_of(path, bad);
  EXPECT_NE(said.find("sh1p"), std::string::npos) << said;
  said += editor.said_of(path,
                         "layout: \""
                         "x\\e[31m\\u202E"
                         ".yaml\"\n"
                         "pattern: sh\nwords: ship\n");
  said += editor.said_of(path,
                         "sequence: \"a\\nb.yaml\"\nstep: \"\\x9B\"\n"
                         "pattern: sh\nwords: ship\n");
  EXPECT_EQ(obeyed(said), "") << printable(said);
  EXPECT_EQ(editor.close(), 0);
  EXPECT_EQ(obeyed(editor.messages()), "");
}

}  // namespace
}  // namespace sheaf::test
