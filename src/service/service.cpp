#include "service/service.h"

#include <fmt/format.h>

#include <algorithm>

#include "analysis/lesson_size.h"
#include "base/error.h"
#include "input/layout_file.h"
#include "packet/layout_plan.h"
#include "service/state.h"

namespace sheaf {

namespace {

void read_text(TextReading& reading, const std::string& path,
               const LessonRequest& request) {
  reading.file = &reading.workspace.open(path);
  reading.kind = likely_kind(*reading.file);
  switch (reading.kind) {
    case FileKind::lesson:
      reading.lesson =
          prepare_text(reading.workspace, request, *reading.file,
                       FilePath(path).parent_path(), reading.diagnostics);
      break;
    case FileKind::layout: {
      const LayoutFile layout =
          read_layout_file(*reading.file, reading.diagnostics);
      if (!reading.diagnostics.has_errors()) {
        plan_layout(layout, reading.diagnostics);
      }
      break;
    }
    default:
      reading.other = check_file(reading.workspace, request, path);
  }
}

// So large that two of them take more memory than there is to be.
bool is_large(const TextReading& reading) {
  constexpr std::size_t kManyPages = 300;
  constexpr std::size_t kManyWords = 5000;
  const Packet& packet = reading.packet;
  return packet.learner.pages.size() + packet.teacher.pages.size() >
             kManyPages ||
         (reading.lesson != nullptr &&
          size_of(reading.lesson->analyzed).words > kManyWords);
}

}  // namespace

const TextReading* Service::State::with_lesson() const {
  return now->lesson != nullptr ? now.get() : whole.get();
}

TextReading* Service::State::with_pages() const {
  return now->has_pages() ? now.get() : paged.get();
}

TextReading& read_now(Service::State& state, const std::string& path,
                      const Workspace& ground, const LessonRequest& request) {
  if (state.fresh) return *state.now;
  // What was good before is kept until something better is there.
  if (state.now != nullptr && is_large(*state.now)) {
    state.now.reset();
  } else if (state.now != nullptr && state.now->has_pages()) {
    state.paged = std::move(state.now);
    state.whole.reset();
  } else if (state.now != nullptr && state.now->lesson != nullptr) {
    state.whole = std::move(state.now);
  }
  state.now = std::make_unique<TextReading>(ground);
  try {
    read_text(*state.now, path, request);
  } catch (const MachineError& error) {
    state.now->fault = error.what();
  }
  state.fresh = true;
  if (state.now->lesson != nullptr) state.whole.reset();
  return *state.now;
}

void compose(TextReading& reading, const LessonRequest& request) {
  if (reading.composed || reading.lesson == nullptr) return;
  const PreparedLesson& lesson = *reading.lesson;
  reading.packet = make_packet(lesson.analyzed, lesson.layout, *lesson.pictures,
                               lesson.style, reading.workspace.shaper(),
                               request.only, reading.diagnostics);
  reading.composed = true;
}

std::vector<PageOf> all_pages(const Packet& packet) {
  std::vector<PageOf> pages;
  for (const Document* document : {&packet.learner, &packet.teacher}) {
    for (const Page& page : document->pages) pages.push_back({document, &page});
  }
  return pages;
}

Service::Service(const Files& below, FilePath shipped, LessonRequest request)
    : files_(&below),
      shipped_(std::move(shipped)),
      request_(std::move(request)),
      ground_(std::make_unique<Workspace>(files_, shipped_)) {}
Service::~Service() = default;

void Service::change(const std::string& path, std::string text) {
  files_.put(path, std::move(text));
  look_again();
}

void Service::close(const std::string& path) {
  files_.forget(path);
  states_.erase(path);
  look_again();
}

// A file may name any other.
void Service::look_again() {
  for (auto& [path, state] : states_) state->fresh = false;
}

void Service::set_request(LessonRequest request) {
  request_ = std::move(request);
  look_again();
}

Service::State& Service::state(const std::string& path) {
  auto& state = states_[path];
  if (state == nullptr) state = std::make_unique<State>();
  read_now(*state, path, *ground_, request_);
  return *state;
}

Service::State& Service::state_with_pages(const std::string& path) {
  State& found = state(path);
  compose(*found.now, request_);
  if (found.now->has_pages()) found.paged.reset();
  return found;
}

std::optional<std::string> Service::text(const std::string& path) {
  const TextReading& reading = *state(path).now;
  if (reading.file == nullptr) return std::nullopt;
  return reading.file->text();
}

std::vector<ServiceMessage> Service::messages(const std::string& path,
                                              bool with_pages) {
  const TextReading& reading =
      *(with_pages ? state_with_pages(path) : state(path)).now;
  if (reading.file != nullptr) {
    return messages_of(reading.found(), *reading.file);
  }
  return {{.name = "machine", .path = path, .text = reading.fault}};
}

ServicePages Service::pages(const std::string& path) {
  State& found = state_with_pages(path);
  ServicePages pages;
  const TextReading* shown = found.with_pages();
  if (shown != found.now.get()) {
    pages.stale = shown != nullptr;
    const auto messages = found.now->found().sorted();
    const auto error =
        std::ranges::find(messages, Severity::error, &Diagnostic::severity);
    if (!found.now->fault.empty()) pages.why = found.now->fault;
    if (error != messages.end()) pages.why = (*error)->text;
  }
  if (shown == nullptr) return pages;
  for (const PageOf& page : all_pages(shown->packet)) {
    pages.pages.push_back({.label = page.page->label,
                           .teacher = page.document == &shown->packet.teacher,
                           .size = page.page->size,
                           .look = look_of(*page.page)});
  }
  return pages;
}

PreviewImage Service::draw(const std::string& path, std::size_t page,
                           const PreviewOptions& options) {
  const TextReading* shown = state_with_pages(path).with_pages();
  const std::vector<PageOf> pages =
      shown == nullptr ? std::vector<PageOf>() : all_pages(shown->packet);
  if (page >= pages.size()) {
    throw NoSuchPage(fmt::format("there is no page {}", page + 1));
  }
  return draw_page(*pages[page].page, options);
}

MadePackets Service::packets(const std::string& path) {
  const TextReading& reading = *state(path).now;
  if (reading.file == nullptr) throw MachineError(reading.fault);
  // Made anew, as `build` makes them, so that nothing can differ.
  Workspace workspace(*ground_);
  return make_lesson_packets(workspace, request_, workspace.open(path),
                             FilePath(path).parent_path(), false);
}

}  // namespace sheaf
