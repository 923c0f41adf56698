#include "live/view.h"

#include <fmt/format.h>

#include <algorithm>

#include "json/json.h"

namespace sheaf {

namespace {

// Some weeks of pages; then all are drawn again.
constexpr std::size_t kMostImages = 200;

std::string_view severity_name(Severity severity) {
  switch (severity) {
    case Severity::error:
      return "error";
    case Severity::warning:
      return "warning";
    case Severity::note:
      break;
  }
  return "note";
}

std::string file_name(const std::string& path) {
  return FilePath(path).filename().string();
}

}  // namespace

void View::look_again() {
  service_.look_again();
  state_.reset();
  ++number_;
}

void View::set_cursor(int line) {
  cursor_ = line;
  state_.reset();
  ++number_;
}

const std::string& View::state() {
  if (!state_) state_ = made_state();
  return *state_;
}

std::string View::made_state() {
  const ServicePages shown = service_.pages(path_);
  Json pages = Json::array();
  for (const ServicePages::Page& page : shown.pages) {
    pages.push_back({{"label", page.label},
                     {"look", fmt::format("{:016x}", page.look)},
                     {"width", page.size.width.pt()},
                     {"height", page.size.height.pt()},
                     {"teacher", page.teacher}});
  }
  Json messages = Json::array();
  for (const ServiceMessage& message : service_.messages(path_)) {
    Json one = {{"severity", severity_name(message.severity)},
                {"text", message.text},
                {"help", message.help},
                {"file", file_name(message.path)}};
    const auto text =
        message.range ? service_.text(message.path) : std::nullopt;
    if (text) {
      const SourceFile file(message.path, *text);
      const SourceFile::Place place = file.place_of(message.range->begin);
      one["line"] = place.line;
      one["column"] = place.column;
    }
    messages.push_back(std::move(one));
  }
  Json state = {{"number", number_},         {"file", file_name(path_)},
                {"stale", shown.stale},      {"why", shown.why},
                {"pages", std::move(pages)}, {"messages", std::move(messages)}};
  const auto text = cursor_ > 0 ? service_.text(path_) : std::nullopt;
  if (text && std::ranges::count(*text, '\n') + 1 >= cursor_) {
    const SourceFile file(path_, *text);
    const std::string_view line = file.line(cursor_);
    const std::uint32_t begin = file.line_begin(cursor_);
    const TextRange range{begin,
                          begin + static_cast<std::uint32_t>(line.size())};
    state["cursor"] = {{"line", cursor_},
                       {"text", line},
                       {"pages", service_.pages_of(path_, range)}};
  }
  return dumped(state);
}

std::optional<std::string> View::image(std::size_t page, int dpi) {
  const ServicePages shown = service_.pages(path_);
  if (page >= shown.pages.size() || dpi < kLeastDpi || dpi > 300) {
    return std::nullopt;
  }
  const std::string key =
      fmt::format("{:016x} {}", shown.pages[page].look, dpi);
  if (const auto found = images_.find(key); found != images_.end()) {
    return found->second;
  }
  if (images_.size() >= kMostImages) images_.clear();
  return images_[key] = write_png(service_.draw(path_, page, {.dpi = dpi}));
}

std::string View::place(std::size_t page, double x, double y) {
  const auto found =
      service_.at_point(path_, page, {Length::from_pt(x), Length::from_pt(y)});
  const auto text = found ? service_.text(found->path) : std::nullopt;
  if (!text) return "null";
  const SourceFile file(found->path, *text);
  const SourceFile::Place place = file.place_of(found->range.begin);
  return dumped(
      {{"file", file_name(found->path)},
       {"line", place.line},
       {"column", place.column},
       {"text", file.line(place.line)},
       {"part", text->substr(found->range.begin,
                             found->range.end - found->range.begin)}});
}

}  // namespace sheaf
