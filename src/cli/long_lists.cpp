#include "cli/long_lists.h"

#include <string_view>
#include <utility>

namespace sheaf {

namespace {
constexpr std::string_view kSignBegin = R"("\u0001)";
}  // namespace

std::string as_one_line(const Json& json) {
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

void LongLists::List::push_back(const Json& value) {
  text_ += text_.empty() ? '[' : ',';
  text_ += as_one_line(value);
}

std::string LongLists::List::take() {
  if (text_.empty()) text_ = "[";
  text_ += ']';
  return std::move(text_);
}

Json LongLists::sign_for(std::string printed) {
  values_.push_back(std::move(printed));
  return "\x01" + std::to_string(values_.size() - 1);
}

std::string LongLists::printed(const Json& document) {
  const std::string frame = as_one_line(document);
  std::string text;
  std::size_t done = 0;
  for (std::size_t at = 0;
       (at = frame.find(kSignBegin, at)) != std::string::npos;) {
    text.append(frame, done, at - done);
    std::string& value = values_[static_cast<std::size_t>(
        std::stoul(frame.substr(at + kSignBegin.size(), 12)))];
    text += value;
    value = {};
    at = done = frame.find('"', at + kSignBegin.size()) + 1;
  }
  return text.append(frame, done);
}

}  // namespace sheaf
