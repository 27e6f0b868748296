#pragma once
// The picture of a trace, for a file of its own and for a sheet of a workbook.
#include <string>

#include "base/workbook.h"
#include "cli/frame/context.h"
#include "site/site.h"

namespace peelbook::cli {

// Refused when Graphviz is not installed.
Result<Sheet> genealogy_sheet(const site::Site& site, const site::TraceAnswer& answer);

// Refused: a name that ends in neither .svg nor .png, a file that is there already, no Graphviz.
Check write_genealogy(Context& context, const site::Site& site, const site::TraceAnswer& answer, const std::string& name);

}  // namespace peelbook::cli
