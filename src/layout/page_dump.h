#pragma once

#include <string>

#include "layout/page.h"

namespace sheaf {

/// Pages as text, for people and for tests: the element tree, then a line for
/// each mark in drawing order, in points with three decimals.
std::string dump_pages(const Document& document);

}  // namespace sheaf
