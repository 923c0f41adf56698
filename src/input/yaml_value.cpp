#include "input/yaml_value.h"

#include <sstream>

#include "input/raw_text.h"
#include "input/yaml_builder.h"
#include "input/yaml_faults.h"
#include "input/yaml_line_faults.h"
#include "input/yaml_places.h"

#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

namespace sheaf {

namespace {

std::size_t place_of(const YAML::Mark& mark) {
  return mark.pos < 0 ? 0 : static_cast<std::size_t>(mark.pos);
}

}  // namespace

Value read_yaml(const SourceFile& file, Diagnostics& diagnostics,
                std::size_t limit) {
  const auto source = check_raw_text(file, limit, diagnostics);
  if (!source) return {};
  const std::size_t first = skip_blank(*source, 0);
  // Instructions to the library itself, which it would follow without a word.
  if (first < source->size() && (*source)[first] == '%') {
    explain_special_sign(file, *source, first, diagnostics);
    return {};
  }
  ValueBuilder builder(file, *source, diagnostics);
  try {
    std::istringstream stream(*source);
    YAML::Parser parser(stream);
    while (parser.HandleNextDocument(builder)) {
    }
  } catch (const FileRefused&) {
    return {};
  } catch (const YAML::Exception& fault) {
    explain_stop(file, builder.stop(place_of(fault.mark), fault.msg),
                 diagnostics);
    return {};
  }
  return builder.take();
}

}  // namespace sheaf
