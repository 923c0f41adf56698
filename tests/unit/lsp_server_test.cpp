// The protocol: what a client sends, and what comes back.

#include <gtest/gtest.h>

#include <fmt/format.h>

#include "files/disk_files.h"
#include "json/json.h"
#include "lsp/language_server.h"
#include "lsp/transport.h"

namespace sheaf::test {
namespace {

constexpr const char* kUri = "file:///desk/my%20lesson.yaml";

class Protocol : public testing::Test {
 protected:
  // The last answer to a request; null where there was none.
  Json ask(const std::string& method, const Json& parameters) {
    const Json message = {{"jsonrpc", "2.0"},
                          {"id", ++id_},
                          {"method", method},
                          {"params", parameters}};
    return send(message);
  }
  Json send(const Json& message) {
    Json last;
    for (const std::string& text : server_.handle(message.dump())) {
      const Json sent = Json::parse(text);
      if (sent.contains("id")) {
        last = sent;
      } else {
        told_ = sent;
      }
    }
    return last;
  }
  void tell(const std::string& method, const Json& parameters) {
    send({{"jsonrpc", "2.0"}, {"method", method}, {"params", parameters}});
  }
  Json initialize(const Json& encodings = Json::array()) {
    return ask(
        "initialize",
        {{"capabilities", {{"general", {{"positionEncodings", encodings}}}}}});
  }
  void open(const std::string& text) {
    tell("textDocument/didOpen", {{"textDocument",
                                   {{"uri", kUri},
                                    {"languageId", "yaml"},
                                    {"version", 1},
                                    {"text", text}}}});
  }
  static Json at(int line, int character) {
    return {{"textDocument", {{"uri", kUri}}},
            {"position", {{"line", line}, {"character", character}}}};
  }

  Service service_{disk(), SHEAF_SHIPPED};
  LanguageServer server_{service_};
  Json told_;  // the last notification

 private:
  int id_ = 0;
};

TEST_F(Protocol, BeginsWithWhatTheServerCanDo) {
  EXPECT_EQ(ask("textDocument/hover", at(0, 0))["error"]["code"], -32002);
  const Json answer = initialize();
  const Json& can = answer["result"]["capabilities"];
  EXPECT_EQ(can["positionEncoding"], "utf-16");
  EXPECT_EQ(can["textDocumentSync"]["change"], 2);
  EXPECT_TRUE(can["hoverProvider"]);
  EXPECT_EQ(ask("no/such", nullptr)["error"]["code"], -32601);
}

TEST_F(Protocol, TellsOfMistakesAndThatTheyAreMended) {
  initialize();
  open("pattern: sh\nwords: ship fihs dish shed\n");
  ASSERT_EQ(told_["method"], "textDocument/publishDiagnostics");
  EXPECT_EQ(told_["params"]["uri"], kUri);
  Json found;
  for (const Json& one : told_["params"]["diagnostics"]) {
    if (one["code"] == "unknown-word") found = one;
  }
  ASSERT_FALSE(found.is_null()) << told_.dump(1);
  EXPECT_EQ(found["range"]["start"], (Json{{"line", 1}, {"character", 12}}));
  EXPECT_EQ(found["range"]["end"], (Json{{"line", 1}, {"character", 16}}));
  tell("textDocument/didChange",
       {{"textDocument", {{"uri", kUri}, {"version", 2}}},
        {"contentChanges",
         {{{"range",
            {{"start", {{"line", 1}, {"character", 14}}},
             {"end", {{"line", 1}, {"character", 16}}}}},
           {"text", "sh"}}}}});
  EXPECT_EQ(told_["params"]["version"], 2);
  for (const Json& one : told_["params"]["diagnostics"]) {
    EXPECT_NE(one["code"], "unknown-word");
  }
  tell("textDocument/didClose", {{"textDocument", {{"uri", kUri}}}});
  EXPECT_TRUE(told_["params"]["diagnostics"].empty());
}

// An emoji counts two in UTF-16 and four in UTF-8.
TEST_F(Protocol, CountsAsTheClientDoes) {
  const std::string text = "title: 🐟é\npattern: sh\nwords: ship\n";
  initialize();
  open(text);
  const Json symbols = ask("textDocument/documentSymbol",
                           {{"textDocument", {{"uri", kUri}}}})["result"];
  EXPECT_EQ(symbols[0]["range"]["end"], (Json{{"line", 0}, {"character", 10}}));
  Service service(disk(), SHEAF_SHIPPED);
  LanguageServer other(service);
  const auto send = [&](const Json& message) {
    Json last;
    for (const std::string& sent : other.handle(message.dump())) {
      const Json json = Json::parse(sent);
      if (json.contains("id")) last = json;
    }
    return last;
  };
  const Json answer =
      send({{"id", 1},
            {"method", "initialize"},
            {"params",
             {{"capabilities",
               {{"general", {{"positionEncodings", {"utf-8", "utf-16"}}}}}}}}});
  EXPECT_EQ(answer["result"]["capabilities"]["positionEncoding"], "utf-8");
  send({{"method", "textDocument/didOpen"},
        {"params",
         {{"textDocument", {{"uri", kUri}, {"version", 1}, {"text", text}}}}}});
  const Json bytes = send({{"id", 2},
                           {"method", "textDocument/documentSymbol"},
                           {"params", {{"textDocument", {{"uri", kUri}}}}}});
  EXPECT_EQ(bytes["result"][0]["range"]["end"],
            (Json{{"line", 0}, {"character", 13}}));
}

TEST_F(Protocol, AnswersHoverCompletionActionsHintsAndFormatting) {
  initialize();
  open("pattern: sh\nwords:   ship chef\nlayuot: week\n");
  const Json hover = ask("textDocument/hover", at(1, 10))["result"];
  EXPECT_TRUE(hover["contents"]["value"].get<std::string>().starts_with(
      "`ship`: sh i p"));
  const Json actions =
      ask("textDocument/codeAction",
          {{"textDocument", {{"uri", kUri}}},
           {"range",
            {{"start", {{"line", 2}, {"character", 1}}},
             {"end", {{"line", 2}, {"character", 1}}}}},
           {"context", {{"diagnostics", Json::array()}}}})["result"];
  ASSERT_FALSE(actions.empty());
  EXPECT_EQ(actions[0]["title"], "layuot is now layout");
  EXPECT_EQ(actions[0]["edit"]["changes"][kUri][0]["newText"], "layout");
  const Json edits = ask("textDocument/formatting",
                         {{"textDocument", {{"uri", kUri}}}})["result"];
  ASSERT_EQ(edits.size(), 1U);
  EXPECT_EQ(edits[0]["newText"],
            "pattern: sh\nwords: ship chef\nlayuot: week\n");
  const Json items =
      ask("textDocument/completion", at(1, 18))["result"]["items"];
  EXPECT_FALSE(items.empty());
  open("pattern: sh\nwords: ship\n");
  const Json hints =
      ask("textDocument/inlayHint",
          {{"textDocument", {{"uri", kUri}}},
           {"range",
            {{"start", {{"line", 0}, {"character", 0}}},
             {"end", {{"line", 9}, {"character", 0}}}}}})["result"];
  ASSERT_EQ(hints.size(), 1U);
  EXPECT_EQ(hints[0]["label"], "sh·i·p");
}

// A client that can be asked tells of files that change behind it.
TEST_F(Protocol, FollowsFilesThatAreNotOpen) {
  ask("initialize", Json::parse(R"({"capabilities": {"workspace":
      {"didChangeWatchedFiles": {"dynamicRegistration": true}}}})"));
  const Json asked =
      send({{"method", "initialized"}, {"params", Json::object()}});
  EXPECT_EQ(asked["method"], "client/registerCapability");
  EXPECT_TRUE(send({{"id", "sheaf-files"}, {"result", nullptr}}).is_null());
  open("pattern: sh\nwords: ship\n");
  told_ = nullptr;
  tell("workspace/didChangeWatchedFiles", {{"changes", Json::array()}});
  EXPECT_EQ(told_["method"], "textDocument/publishDiagnostics");
}

// Nothing that is sent ends the server.
TEST_F(Protocol, OutlivesWhatIsWrong) {
  EXPECT_EQ(Json::parse(server_.handle("{").front())["error"]["code"], -32700);
  server_.handle("[]");
  server_.handle("7");
  server_.handle("{\"id\": {}, \"method\": 7}");
  initialize();
  for (const char* method :
       {"textDocument/hover", "textDocument/completion",
        "textDocument/codeAction", "textDocument/documentSymbol",
        "textDocument/inlayHint", "textDocument/formatting"}) {
    for (const char* parameters :
         {"null", "[]", "7", "{}", R"({"textDocument": 3})",
          R"({"textDocument": {"uri": "file:///no"}})",
          R"({"textDocument": {"uri": "file:///desk/my%20lesson.yaml"},
              "position": {"line": -4, "character": "x"},
              "range": {"start": 9}})"}) {
      EXPECT_TRUE(ask(method, Json::parse(parameters)).contains("error"));
    }
  }
  open("pattern: sh\nwords: ship\n");
  ask("textDocument/hover", at(1000000, 1000000));
  ask("textDocument/completion", at(1, 1000000));
  tell("textDocument/didChange", Json::parse("{}"));
  tell("textDocument/didChange",
       {{"textDocument", {{"uri", kUri}}}, {"contentChanges", 7}});
  EXPECT_FALSE(ask("textDocument/hover", at(1, 8))["result"].is_null());
}

TEST_F(Protocol, EndsAsItShould) {
  initialize();
  EXPECT_TRUE(ask("shutdown", nullptr)["result"].is_null());
  EXPECT_EQ(ask("textDocument/hover", at(0, 0))["error"]["code"], -32600);
  tell("exit", nullptr);
  EXPECT_TRUE(server_.ended());
  EXPECT_EQ(server_.exit_code(), 0);
}

TEST(Transport, TakesMessagesInPieces) {
  MessageReader reader;
  const std::string two = framed("{\"a\": 1}") + framed("{}");
  std::vector<std::string> found;
  for (const char c : two) {
    reader.add({&c, 1});
    while (const auto message = reader.next()) found.push_back(*message);
  }
  EXPECT_EQ(found, (std::vector<std::string>{"{\"a\": 1}", "{}"}));
  reader.add("Content-Type: x\r\ncontent-length: 2\r\n\r\n[]");
  EXPECT_EQ(reader.next(), "[]");
}

TEST(Transport, RefusesWhatIsTooLongOrHasNoLength) {
  for (const std::string& bytes :
       {std::string("Content-Length: 99999999999\r\n\r\n"),
        std::string("Content-Length: -1\r\n\r\n"),
        std::string("Content-Length: 99999999999999999999999\r\n\r\n"),
        std::string("Content-Length:\r\n\r\n"), std::string("Hello\r\n\r\n"),
        std::string(5000, 'x')}) {
    MessageReader reader;
    reader.add(bytes);
    EXPECT_FALSE(reader.next());
    EXPECT_FALSE(reader.fault().empty()) << bytes.substr(0, 40);
  }
}

}  // namespace
}  // namespace sheaf::test
