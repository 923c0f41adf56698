#include "web/web_desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "base/error.h"
#include "web/answers.h"

namespace sheaf {

namespace {

/// A request that is none.
struct Misasked {
  std::string why;
};

/// What somebody asks, with what it must have.
class Request {
 public:
  explicit Request(std::string_view text)
      : asked_(Json::parse(text, nullptr, false)) {
    if (!asked_.is_object()) throw Misasked{"it is not an object"};
  }

  std::string text(const char* key) const {
    const auto found = asked_.find(key);
    if (found == asked_.end() || !found->is_string()) {
      throw Misasked{fmt::format("it has no text `{}`", key)};
    }
    return found->get<std::string>();
  }
  std::uint32_t count(const char* key) const {
    const double value = number(key);
    if (value < 0 || value > std::numeric_limits<std::uint32_t>::max()) {
      throw Misasked{fmt::format("`{}` is out of range", key)};
    }
    return static_cast<std::uint32_t>(value);
  }
  double number(const char* key) const {
    const auto found = asked_.find(key);
    if (found == asked_.end() || !found->is_number()) {
      throw Misasked{fmt::format("it has no number `{}`", key)};
    }
    return found->get<double>();
  }

 private:
  Json asked_;
};

// A page's point; what lies far outside is no point.
double place_on_page(const Request& request, const char* key) {
  constexpr double kFarthest = 100'000;
  return std::clamp(request.number(key), -kFarthest, kFarthest);
}

template <class List, class Make>
Json list_of(const List& items, Make make) {
  Json list = Json::array();
  for (const auto& item : items) list.push_back(make(item));
  return list;
}

WebAnswer draw(Service& service, const Request& request) {
  const int dpi =
      std::clamp(static_cast<int>(request.number("dpi")), kLeastDpi, kMostDpi);
  const PreviewImage image =
      service.draw(request.text("path"), request.count("page"), {.dpi = dpi});
  return {dumped({{"width", image.width},
                  {"height", image.height},
                  {"colour", image.colour}}),
          {{image.pixels.begin(), image.pixels.end()}}};
}

WebAnswer packets(Service& service, const Request& request) {
  MadePackets made = service.packets(request.text("path"));
  WebAnswer answer;
  Json names = Json::array();
  for (PacketFile& file : made.files) {
    names.push_back(file.name.generic_string());
    answer.parts.push_back(std::move(file.bytes));
  }
  answer.json = dumped({{"files", std::move(names)},
                        {"learnerPages", made.learner_pages},
                        {"teacherPages", made.teacher_pages},
                        {"errors", made.diagnostics.error_count()}});
  return answer;
}

// The first line of each layout is a remark that says what it is for.
Json layouts(const Files& files, const FilePath& shipped) {
  Json list = Json::array();
  for (const FilePath& file : yaml_files(files, shipped / "layouts")) {
    const std::string text = files.read(file, std::size_t{1} << 20U);
    std::string about = text.substr(0, text.find('\n'));
    about.erase(0, std::min(about.find_first_not_of("# "), about.size()));
    list.push_back({{"name", file.stem().string()}, {"about", about}});
  }
  return list;
}

// Answers with places in a text.
Json about_places(Service& service, const std::string& what,
                  const std::string& path, const Request& request) {
  AnswerMaker make(service);
  if (what == "messages") {
    return list_of(service.messages(path), [&](const ServiceMessage& message) {
      return make.message(message);
    });
  }
  if (what == "outline") {
    return list_of(service.symbols(path), [&](const Symbol& symbol) {
      return make.outline(path, symbol);
    });
  }
  if (what == "form") {
    return list_of(service.form(path), [&](const FormField& field) {
      return make.field(path, field);
    });
  }
  if (what == "form-edits") {
    return make.edits(path, service.form_edits(path, request.text("key"),
                                               request.text("text")));
  }
  if (what == "hover" || what == "completions") {
    const std::uint32_t at = make.text(path).byte(request.count("at"));
    if (what == "completions") {
      return list_of(service.completions(path, at),
                     [&](const Completion& offer) {
                       return make.completion(path, offer);
                     });
    }
    const auto hover = service.hover(path, at);
    if (!hover) return nullptr;
    return {{"range", make.range(path, hover->range)}, {"lines", hover->lines}};
  }
  if (what == "at-point") {
    const auto place =
        service.at_point(path, request.count("page"),
                         {Length::from_pt(place_on_page(request, "x")),
                          Length::from_pt(place_on_page(request, "y"))});
    if (!place) return nullptr;
    return {{"path", place->path},
            {"range", make.range(place->path, place->range)},
            {"line", make.text(place->path).line(place->range.begin)}};
  }
  const TextRange range =
      make.bytes(path, request.count("from"), request.count("to"));
  if (what == "actions") {
    return list_of(
        service.actions(path, range),
        [&](const ServiceAction& action) { return make.action(action); });
  }
  if (what == "inlays") {
    return list_of(service.inlays(path, range), [&](const Inlay& inlay) {
      return Json{{"at", make.text(path).units(inlay.at)},
                  {"text", inlay.text},
                  {"more", inlay.more}};
    });
  }
  if (what == "pages-of") return service.pages_of(path, range);
  throw Misasked{fmt::format("nothing is called `{}`", what)};
}

WebAnswer answer(Service& service, Files& files, const FilePath& shipped,
                 const Request& request) {
  const std::string what = request.text("do");
  if (what == "patterns") {
    return {dumped(list_of(service.patterns(),
                           [](const PatternEntry& p) { return to_json(p); })),
            {}};
  }
  if (what == "version") return {dumped("sheaf " SHEAF_VERSION), {}};
  if (what == "layouts") return {dumped(layouts(files, shipped)), {}};
  if (what == "options") {
    service.set_request({.layout = "",
                         .paper = request.text("paper"),
                         .only = {},
                         .allowed_folders = {}});
    return {"{}", {}};
  }
  if (what == "draw") return draw(service, request);
  if (what == "packets") return packets(service, request);

  const std::string path = request.text("path");
  if (what == "change") {
    service.change(path, request.text("text"));
    return {"{}", {}};
  }
  if (what == "close") {
    service.close(path);
    return {"{}", {}};
  }
  if (what == "pages") return {dumped(to_json(service.pages(path))), {}};
  if (what == "formatted") return {dumped(service.formatted(path)), {}};
  return {dumped(about_places(service, what, path, request)), {}};
}

}  // namespace

void WebDesk::put(const std::string& path, std::string bytes) {
  files_.put(path, std::move(bytes));
  service_.look_again();
}

void WebDesk::remove(const std::string& path) {
  files_.forget(path);
  service_.look_again();
}

WebAnswer WebDesk::ask(std::string_view request) {
  try {
    return answer(service_, files_, shipped_, Request(request));
  } catch (const Misasked& fault) {
    return {dumped({{"fault", "a request that is none: " + fault.why}}), {}};
  } catch (const NoSuchPage& fault) {
    return {dumped({{"fault", fault.what()}}), {}};
  } catch (const MachineError& fault) {
    return {dumped({{"fault", fault.what()}, {"spent", true}}), {}};
  }
}

}  // namespace sheaf
