#pragma once
#include "fold/ledger.h"
#include "site/site.h"

namespace peelbook::site {

struct Site::Impl {
    std::filesystem::path folder;
    Clock& clock;
    Files& files;
    mutable fold::Ledger ledger;
};

}  // namespace peelbook::site
