// Many people write at once: 8 processes, each opening the site anew for every command as the program does,
// 200 mixed commands each. Nobody sees an error, and every acknowledged command stands once in an intact
// chain.
#include <sys/wait.h>

#include <fstream>
#include <set>

#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

constexpr int writers = 8, commands = 200;

// The n-th command of a writer: a batch of its own, and lots that all share.
record::Statement command(int writer, int n) {
    const std::string batch = "W" + std::to_string(writer) + "-" + std::to_string(n / 5);
    switch (n % 5) {
        case 0: {
            record::Started s;
            s.lot = batch;
            s.product = "loaf";
            return s;
        }
        case 1:
            return Bakery::used(batch, "WF-1", "1kg");
        case 2:
            return Bakery::used(batch, "water", "600g");
        case 3:
            return Bakery::reading(batch, "core", "96C");
        default:
            return Bakery::metal(true);
    }
}

// Exit code of a writer: 0 when every command was acknowledged; its receipts are in `receipts`.
int write_all(const std::filesystem::path& folder, int writer, const std::filesystem::path& receipts) {
    SystemClock clock;
    DiskFiles files;
    std::ofstream out(receipts);
    for (int n = 0; n < commands; ++n) {
        const std::string token = std::to_string(writer) + "/" + std::to_string(n);
        auto site = Site::open(folder, clock, files);
        if (!site) return 1;
        const auto receipt = (*site)->record({command(writer, n), "MK", {}, token, false, ""});
        if (!receipt) {
            out << "refused: " << told(receipt.refusal()) << "\n";
            return 2;
        }
        out << receipt->seq << " " << token << "\n";
    }
    return 0;
}

}  // namespace

TEST_CASE("8 processes x 200 mixed commands: all 1,600 acknowledged once each, in an intact chain") {
    Bakery b;
    b.clock.set(SystemClock().now());  // the writers run by the true clock
    b.did(Bakery::calibrated(true));
    b.receive("WF-1", "wheat-flour", "5000kg");
    const Seq before = b.site->status().entries;
    b.site.reset();
    std::vector<pid_t> people;
    for (int writer = 0; writer < writers; ++writer) {
        const pid_t child = ::fork();
        REQUIRE(child >= 0);
        if (child == 0) {
            int code = 3;
            try {
                code = write_all(b.folder, writer, b.folder / ("receipts-" + std::to_string(writer)));
            } catch (const std::exception& error) {
                std::ofstream(b.folder / ("error-" + std::to_string(writer))) << error.what();
            }
            ::_exit(code);
        }
        people.push_back(child);
    }
    for (int writer = 0; writer < writers; ++writer) {
        int status = 0;
        REQUIRE(::waitpid(people[static_cast<std::size_t>(writer)], &status, 0) == people[static_cast<std::size_t>(writer)]);
        INFO("writer " << writer << ": " << b.files.read(b.folder / ("error-" + std::to_string(writer))).value_or(""));
        CHECK((WIFEXITED(status) && WEXITSTATUS(status) == 0));
    }
    auto site = Site::open(b.folder, b.clock, b.files);
    REQUIRE(site.ok());
    b.site = std::move(*site);
    std::set<Seq> seqs;
    for (int writer = 0; writer < writers; ++writer) {
        std::ifstream receipts(b.folder / ("receipts-" + std::to_string(writer)));
        Seq seq = 0;
        std::string token;
        int n = 0;
        while (receipts >> seq >> token) {
            CHECK(token == std::to_string(writer) + "/" + std::to_string(n++));
            CHECK(seqs.insert(seq).second);
            const auto entry = b.site->entry(seq);
            REQUIRE(entry.ok());
            CHECK(entry->token == token);
            CHECK(record::kind_of(entry->payload).name == record::kind_of(command(writer, n - 1)).name);
        }
        CHECK(n == commands);
    }
    CHECK(seqs.size() == static_cast<std::size_t>(writers * commands));
    // Besides the commands only the water lot, which the program wrote before the first use of water.
    CHECK(b.site->status().entries == before + writers * commands + 1);
    CHECK(b.ask("SELECT used_mg FROM stock JOIN lot ON lot.id = stock.lot WHERE code = 'WF-1'").front() == "320000000");
    CHECK(b.faults() == "");
}
