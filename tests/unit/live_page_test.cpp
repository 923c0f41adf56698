// The pages in a browser: who is let in, and that they follow.

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <sys/socket.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <thread>

#include "files/disk_files.h"
#include "json/json.h"
#include "live/live_page.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;

struct Answer {
  int code = 0;
  std::string head, body;
};

class Live : public testing::Test {
 protected:
  Live() {
    fs::create_directories(folder_);
    write("pattern: sh\nwords: ship fish dish shed\n");
    page_ = std::make_unique<LivePage>(service_, path());
    const std::string& address = page_->address();
    const std::size_t host = std::string("http://").size();
    const std::size_t slash = address.find('/', host);
    host_ = address.substr(host, slash - host);
    token_ = address.substr(slash);
    port_ = std::stoi(host_.substr(host_.find(':') + 1));
  }
  ~Live() override { fs::remove_all(folder_); }

  std::string path() const { return (folder_ / "lesson.yaml").string(); }
  void write(const std::string& text) const { std::ofstream(path()) << text; }

  // Whole, for the server closes behind an answer.
  Answer ask(const std::string& target, const std::string& method = "GET",
             const std::string& host = "") const {
    const int socket = ::socket(AF_INET, SOCK_STREAM, 0);
    sockaddr_in name{};
    name.sin_family = AF_INET;
    name.sin_port = htons(static_cast<std::uint16_t>(port_));
    ::inet_pton(AF_INET, "127.0.0.1", &name.sin_addr);
    Answer answer;
    if (::connect(socket, reinterpret_cast<sockaddr*>(&name), sizeof name) ==
        0) {
      const std::string request =
          method + " " + target +
          " HTTP/1.1\r\nHost: " + (host.empty() ? host_ : host) +
          "\r\nConnection: close\r\n\r\n";
      ::send(socket, request.data(), request.size(), MSG_NOSIGNAL);
      std::string all;
      char buffer[65536];
      for (ssize_t size = 0;
           (size = ::recv(socket, buffer, sizeof buffer, 0)) > 0;) {
        all.append(buffer, static_cast<std::size_t>(size));
      }
      if (all.size() > 12) answer.code = std::stoi(all.substr(9, 3));
      const std::size_t end = all.find("\r\n\r\n");
      if (end != std::string::npos) {
        answer.head = all.substr(0, end);
        answer.body = all.substr(end + 4);
      }
    }
    ::close(socket);
    return answer;
  }
  Json state(const std::string& query = "") const {
    return Json::parse(ask(token_ + "state" + query).body);
  }

  fs::path folder_ =
      fs::temp_directory_path() / ("sheaf-live-" + std::to_string(::getpid()));
  Service service_{disk(), SHEAF_SHIPPED};
  std::unique_ptr<LivePage> page_;
  std::string host_, token_;
  int port_ = 0;
};

TEST_F(Live, LetsInOnlyWhoKnowsTheAddress) {
  EXPECT_TRUE(host_.starts_with("127.0.0.1:"));
  EXPECT_EQ(token_.size(), 34U);
  const Answer page = ask(token_);
  EXPECT_EQ(page.code, 200);
  EXPECT_NE(page.head.find("default-src 'none'"), std::string::npos);
  for (const char* target :
       {"/", "/state", "/00000000000000000000000000000000/", "//", "/../"}) {
    EXPECT_EQ(ask(target).code, 403) << target;
  }
  std::string near = token_;
  near[5] = near[5] == '0' ? '1' : '0';
  EXPECT_EQ(ask(near).code, 403);
  for (const char* host : {"evil.example", "127.0.0.1", "localhost"}) {
    EXPECT_EQ(ask(token_, "GET", host).code, 403) << host;
  }
  EXPECT_EQ(ask(token_, "POST").code, 405);
  EXPECT_EQ(ask(token_ + "no-such").code, 404);
}

TEST_F(Live, ShowsPagesMessagesAndWhereTheyComeFrom) {
  const Json now = state();
  EXPECT_EQ(now["file"], "lesson.yaml");
  ASSERT_GT(now["pages"].size(), 5U);
  const Answer image = ask(token_ + "image?page=0&dpi=40");
  EXPECT_EQ(image.code, 200);
  EXPECT_TRUE(image.body.starts_with("\x89PNG"));
  for (const char* wrong : {"image?page=999", "image?page=0&dpi=1",
                            "image?page=0&dpi=100000", "image?page=-1&dpi=x"}) {
    EXPECT_NE(ask(token_ + wrong).code, 500) << wrong;
  }
  EXPECT_EQ(ask(token_ + "image?page=999").code, 404);
  // On this page stand words of the list.
  std::size_t page = 0;
  while (now["pages"][page]["label"] != "discovery 1") ++page;
  Json place = Json::object();
  for (int y = 80; y < 700 && place.value("file", "") != "lesson.yaml";
       y += 20) {
    place = Json::parse(ask(token_ + "place?page=" + std::to_string(page) +
                            "&x=170&y=" + std::to_string(y))
                            .body);
    if (!place.is_object()) place = Json::object();
  }
  EXPECT_EQ(place["line"], 2);
  EXPECT_EQ(place["text"], "words: ship fish dish shed");
  EXPECT_EQ(ask(token_ + "place?page=999&x=nan&y=1e999").body, "null");
}

TEST_F(Live, FollowsTheTextAndTheCursor) {
  const Json before = state();
  const std::string after =
      "?after=" + std::to_string(before["number"].get<int>());
  std::thread editor([&] {
    std::this_thread::sleep_for(std::chrono::milliseconds(50));
    write("pattern: sh\nwords: ship fish dish shed fihs\n");
    page_->changed();
  });
  // It waits until there is something to be told.
  const Json changed = state(after);
  editor.join();
  EXPECT_GT(changed["number"], before["number"]);
  EXPECT_NE(changed["messages"].dump().find("fihs"), std::string::npos);
  EXPECT_EQ(ask(token_ + "cursor?line=2", "POST").code, 200);
  const Json here = state();
  EXPECT_EQ(here["cursor"]["line"], 2);
  EXPECT_FALSE(here["cursor"]["pages"].empty());
  ask(token_ + "cursor?line=2000000000", "POST");
  EXPECT_FALSE(state().contains("cursor"));
}

TEST_F(Live, KeepsTheLastGoodPages) {
  const std::size_t pages = state()["pages"].size();
  write("pattern: [sh\n");
  page_->changed();
  const Json now = state();
  EXPECT_TRUE(now["stale"]);
  EXPECT_EQ(now["pages"].size(), pages);
  EXPECT_FALSE(now["why"].get<std::string>().empty());
}

TEST_F(Live, EndsWithItsOwner) {
  std::thread waiting([&] { ask(token_ + "state?after=1"); });
  std::this_thread::sleep_for(std::chrono::milliseconds(50));
  page_.reset();
  waiting.join();
  EXPECT_EQ(ask(token_).code, 0);
}

}  // namespace
}  // namespace sheaf::test
