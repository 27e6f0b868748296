#pragma once
#include "site/ledger.h"
#include "site/site.h"

namespace peelbook::site {

struct Site::Impl {
    std::filesystem::path folder;
    Clock& clock;
    Files& files;
    mutable Ledger ledger;
};

}  // namespace peelbook::site
