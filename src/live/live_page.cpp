#include "live/live_page.h"

#include <event2/buffer.h>
#include <event2/event.h>
#include <event2/http.h>
#include <event2/keyvalq_struct.h>
#include <event2/thread.h>
#include <fmt/format.h>
#include <netinet/in.h>

#include <algorithm>
#include <atomic>
#include <charconv>
#include <random>
#include <thread>
#include <vector>

#include "base/error.h"
#include "live/view.h"

namespace sheaf {

namespace {

constexpr const char* kLoopback = "127.0.0.1";

template <typename T, auto Free>
struct Freed {
  void operator()(T* thing) const { Free(thing); }
};
template <typename T, auto Free>
using Owned = std::unique_ptr<T, Freed<T, Free>>;

// 128 bits from the system, as letters and figures.
std::string new_token() {
  std::random_device random;
  std::string token;
  for (int i = 0; i < 4; ++i) token += fmt::format("{:08x}", random());
  return token;
}

// What follows ? in an address.
class Query {
 public:
  explicit Query(const char* text) {
    if (text != nullptr) ::evhttp_parse_query_str(text, &fields_);
  }
  ~Query() { ::evhttp_clear_headers(&fields_); }
  Query(const Query&) = delete;
  Query& operator=(const Query&) = delete;

  template <typename T>
  std::optional<T> number(const char* name) const {
    const char* const text = ::evhttp_find_header(&fields_, name);
    if (text == nullptr) return std::nullopt;
    T value{};
    const char* const end = text + std::char_traits<char>::length(text);
    const auto [at, fault] = std::from_chars(text, end, value);
    if (fault != std::errc() || at != end) return std::nullopt;
    return value;
  }

 private:
  mutable evkeyvalq fields_{};
};

}  // namespace

struct LivePage::Server {
  Server(Service& service, std::string path)
      : view(service, std::move(path)), token(new_token()) {
    listen();
    thread = std::thread([this] { ::event_base_dispatch(base.get()); });
  }
  ~Server() {
    ending = true;
    wake();
    thread.join();
    // Who waits is told nothing; the connections end with the server.
    for (evhttp_request* request : waiting) {
      ::evhttp_connection_set_closecb(::evhttp_request_get_connection(request),
                                      nullptr, nullptr);
    }
    waiting.clear();
    http.reset();
  }
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  void listen();
  // From any thread.
  void wake() const { ::event_active(on_signal.get(), EV_READ, 0); }
  void woken();
  void answer(evhttp_request* request);
  void answer_about(evhttp_request* request, std::string_view name,
                    const Query& query);
  bool is_for_us(evhttp_request* request) const;
  void send(evhttp_request* request, std::string_view type,
            std::string_view bytes);
  void send_state(evhttp_request* request) {
    send(request, "application/json", view.state());
  }
  void tell_waiting();
  void wait_for_change(evhttp_request* request);

  View view;
  std::string token;
  std::string host, address;
  std::atomic<bool> ending = false, dirty = false;
  Owned<event_base, ::event_base_free> base;
  Owned<event, ::event_free> on_signal;
  Owned<evhttp, ::evhttp_free> http;
  std::vector<evhttp_request*> waiting;  // for another state
  std::thread thread;
};

void LivePage::Server::listen() {
  static const bool threads = ::evthread_use_pthreads() == 0;
  base.reset(::event_base_new());
  if (!threads || !base) {
    throw MachineError(
        "the pages cannot be served: the system does not let "
        "anything listen");
  }
  on_signal.reset(::event_new(
      base.get(), -1, EV_READ | EV_PERSIST,
      [](evutil_socket_t, short, void* self) {
        static_cast<Server*>(self)->woken();
      },
      this));
  // It keeps the loop alive where nobody asks for anything.
  constexpr timeval kDay{86400, 0};
  ::event_add(on_signal.get(), &kDay);
  http.reset(::evhttp_new(base.get()));
  ::evhttp_set_allowed_methods(http.get(), EVHTTP_REQ_GET | EVHTTP_REQ_POST);
  ::evhttp_set_max_headers_size(http.get(), 16 << 10);
  ::evhttp_set_max_body_size(http.get(), 4 << 10);
  ::evhttp_set_timeout(http.get(), 60);
  ::evhttp_set_gencb(
      http.get(),
      [](evhttp_request* request, void* self) {
        static_cast<Server*>(self)->answer(request);
      },
      this);
  evhttp_bound_socket* const bound =
      ::evhttp_bind_socket_with_handle(http.get(), kLoopback, 0);
  sockaddr_in name{};
  socklen_t size = sizeof name;
  if (bound == nullptr ||
      ::getsockname(::evhttp_bound_socket_get_fd(bound),
                    reinterpret_cast<sockaddr*>(&name), &size) != 0) {
    throw MachineError(
        "the pages cannot be served: the system lets no port "
        "be opened");
  }
  const int port = ntohs(name.sin_port);
  host = fmt::format("{}:{}", kLoopback, port);
  address = fmt::format("http://{}/{}/", host, token);
}

void LivePage::Server::woken() {
  if (ending) {
    ::event_base_loopbreak(base.get());
    return;
  }
  if (!dirty.exchange(false)) return;
  view.look_again();
  tell_waiting();
}

void LivePage::Server::tell_waiting() {
  std::vector<evhttp_request*> all;
  all.swap(waiting);
  for (evhttp_request* request : all) {
    ::evhttp_connection_set_closecb(::evhttp_request_get_connection(request),
                                    nullptr, nullptr);
    send_state(request);
  }
}

// The answer is kept until there is something new, or whoever asked is gone.
void LivePage::Server::wait_for_change(evhttp_request* request) {
  constexpr std::size_t kMostWaiting = 64;
  if (waiting.size() >= kMostWaiting) return send_state(request);
  waiting.push_back(request);
  ::evhttp_connection_set_closecb(
      ::evhttp_request_get_connection(request),
      [](evhttp_connection* gone, void* self) {
        std::erase_if(static_cast<Server*>(self)->waiting,
                      [&](evhttp_request* one) {
                        return ::evhttp_request_get_connection(one) == gone;
                      });
      },
      this);
}

// A page of another site that has the machine's number under a name of its own
// sends that name.
bool LivePage::Server::is_for_us(evhttp_request* request) const {
  const char* const named =
      ::evhttp_find_header(::evhttp_request_get_input_headers(request), "Host");
  return named != nullptr && host == named;
}

void LivePage::Server::send(evhttp_request* request, std::string_view type,
                            std::string_view bytes) {
  evkeyvalq* const headers = ::evhttp_request_get_output_headers(request);
  const std::string typed(type);
  ::evhttp_add_header(headers, "Content-Type", typed.c_str());
  ::evhttp_add_header(headers, "Cache-Control", "no-store");
  ::evhttp_add_header(headers, "X-Content-Type-Options", "nosniff");
  ::evhttp_add_header(headers, "Referrer-Policy", "no-referrer");
  ::evhttp_add_header(headers, "Cross-Origin-Resource-Policy", "same-origin");
  ::evhttp_add_header(headers, "Content-Security-Policy",
                      "default-src 'none'; img-src 'self'; style-src 'self'; "
                      "script-src 'self'; connect-src 'self'; "
                      "base-uri 'none'; form-action 'none'; "
                      "frame-ancestors 'none'");
  evbuffer* const body = ::evhttp_request_get_output_buffer(request);
  ::evbuffer_add(body, bytes.data(), bytes.size());
  ::evhttp_send_reply(request, HTTP_OK, "OK", nullptr);
}

void LivePage::Server::answer(evhttp_request* request) {
  const evhttp_uri* const uri = ::evhttp_request_get_evhttp_uri(request);
  const char* const path =
      uri == nullptr ? nullptr : ::evhttp_uri_get_path(uri);
  const std::string own = "/" + token + "/";
  if (!is_for_us(request) || path == nullptr ||
      !std::string_view(path).starts_with(own)) {
    ::evhttp_send_error(request, 403, "not for you");
    return;
  }
  try {
    answer_about(request, std::string_view(path).substr(own.size()),
                 Query(::evhttp_uri_get_query(uri)));
  } catch (const MachineError& error) {
    ::evhttp_send_error(request, 500, "it cannot be read");
  } catch (const std::bad_alloc&) {
    ::evhttp_send_error(request, 503, "no memory");
  }
}

void LivePage::Server::answer_about(evhttp_request* request,
                                    std::string_view name, const Query& query) {
  const bool post = ::evhttp_request_get_command(request) == EVHTTP_REQ_POST;
  if (post && name == "cursor") {
    view.set_cursor(query.number<int>("line").value_or(0));
    tell_waiting();
    return send(request, "text/plain", "");
  }
  if (post) return ::evhttp_send_error(request, 405, "only to be read");
  if (name.empty()) {
    return send(request, "text/html; charset=utf-8", page_html());
  }
  if (name == "page.css") return send(request, "text/css", page_css());
  if (name == "page.js") return send(request, "text/javascript", page_js());
  if (name == "state") {
    const auto after = query.number<std::uint64_t>("after");
    return after == view.number() ? wait_for_change(request)
                                  : send_state(request);
  }
  const std::size_t page = query.number<std::size_t>("page").value_or(0);
  if (name == "image") {
    const auto png = view.image(page, query.number<int>("dpi").value_or(96));
    if (png) return send(request, "image/png", *png);
  }
  if (name == "place") {
    return send(request, "application/json",
                view.place(page, query.number<double>("x").value_or(0),
                           query.number<double>("y").value_or(0)));
  }
  ::evhttp_send_error(request, 404, "nothing here");
}

LivePage::LivePage(Service& service, std::string path)
    : server_(std::make_unique<Server>(service, std::move(path))) {}
LivePage::~LivePage() = default;

const std::string& LivePage::address() const { return server_->address; }

void LivePage::changed() {
  server_->dirty = true;
  server_->wake();
}

}  // namespace sheaf
