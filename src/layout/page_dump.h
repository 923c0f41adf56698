#pragma once

#include <string>

#include "layout/page.h"

namespace sheaf {

/// Pages as text, for people and for tests: the element tree, then a line for
/// each mark in drawing order, in points with three decimals. An element that
/// comes from another place than the one that it is in says from where:
/// `@4:8` is line 4, column 8 of the lesson, `@week.yaml:5:5` of another file.
std::string dump_pages(const Document& document);

}  // namespace sheaf
