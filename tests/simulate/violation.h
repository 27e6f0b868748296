#pragma once
#include <string>

#include "base/instant.h"

namespace peelbook::simulate {

struct Violation {
    std::string key;       // which property, act and state: what is shrunk keeps it
    std::string told;      // in words, for whoever reads it
    std::size_t line = 0;  // of the history, from 0
    Instant at{};          // when what is owed was asked
    int retold = 0;        // of a record that is told otherwise (simulate/variants.h): its line; 0: the history as it stands
};

}  // namespace peelbook::simulate
