// People and partners as they change: what is not stated stays, who left signs nothing, and goods to nobody's customer are asked about.
#include <catch2/catch.hpp>

#include "cli/walk.h"

using namespace peelbook;
using namespace peelbook::cli;

namespace {

class House : public Walk {
  public:
    House() { open_bakery(); }
    std::string told(const std::string& sql) { return must("ask --csv \"" + sql + "\"").out; }
};

}  // namespace

TEST_CASE("rule 68: a partner: what is not stated stays, and - takes a field away") {
    House walk;
    walk.must("partner CAFE-1 --email cafe@example.test");
    const std::string where = "SELECT name, roles, phone, email, address FROM partner WHERE code = 'CAFE-1'";
    CHECK(walk.told(where) == "name,roles,phone,email,address\r\nCorner Cafe,customer,+00 555 0100,cafe@example.test,\r\n");
    CHECK(walk.must("partner CAFE-1 --address '1 Square'").out ==
          "recorded 11  partner CAFE-1, Corner Cafe, customer at 2026-11-16 03:00\n");
    CHECK(walk.must("partner CAFE-1 --phone '+00 555 0199' --email -").out ==
          "recorded 12  partner CAFE-1, Corner Cafe, customer at 2026-11-16 03:00\n"
          "next: phone was +00 555 0100\nnext: email was cafe@example.test\n");
    CHECK(walk.must("partner CAFE-1 --role customer,carrier").has("next: role was customer\n"));
    CHECK(walk.told(where) == "name,roles,phone,email,address\r\nCorner Cafe,customer carrier,+00 555 0199,,1 Square\r\n");
    // The entry says the whole, so that it can be read without those before it.
    const Said entry = walk.must("entry 13");
    CHECK(entry.has("phone    +00 555 0199\n"));
    CHECK(walk.run("partner CAFE-9 --phone 1").err ==
          "refused: partner 'CAFE-9' without a name\nwanted: a partner in the book, or the name and roles of a new one\n"
          "next: check the code; for a new partner add --name \"...\" and --role\nnearest: CAFE-1\n");
    CHECK(walk.run("partner NEW-1 'New Cafe'").err ==
          "refused: no role for NEW-1\nwanted: supplier, customer, carrier or authority\nnext: add --role\n");
    CHECK(walk.run("partner CAFE-1 --name -").err.starts_with("refused: no name for CAFE-1\n"));
    CHECK(walk.must("partner --list").has("CAFE-1   Corner Cafe  customer carrier"));
    CHECK(walk.must("verify --derived").has("nothing wrong"));
}

TEST_CASE("rule 68: a person changes role, leaves and comes back; who left signs nothing") {
    House walk;
    walk.must("receive salt --from MILL-1 --lot S-1 --mass 50kg --free --code S-1 --by RS");
    CHECK(walk.must("person RS --role baker").out ==
          "recorded 11  person RS, Rosa Stein, baker at 2026-11-16 03:00\nnext: role was store\n");
    CHECK(walk.run("receive salt --from MILL-1 --lot S-2 --mass 50kg --free --code S-2 --by RS")
              .err.starts_with("refused: 'receive' by RS, role baker\n"));
    walk.must("count S-1 50kg --why 'all there' --by RS");

    walk.at("2026-11-17T03:00+00:00");
    CHECK(walk.must("person RS --left").has("person RS, Rosa Stein, baker, left at 2026-11-17 03:00\n"));
    const std::string gone =
        "refused: initials RS: Rosa Stein left on 2026-11-17 03:00\nwanted: a person who is here\n"
        "next: sign with your own; when they are here again: peelbook person RS --back\n";
    CHECK(walk.run("count S-1 50kg --why 'all there' --by RS").err == gone);
    CHECK(walk.run("count S-1 50kg --why 'all there' --at '2026-11-16 23:00' --by RS").err == gone);
    CHECK(walk.run("amend 10 mass=40kg --why 'read wrong' --by RS").err == gone);
    CHECK(walk.run("undo --by RS").err == gone);
    CHECK(walk.must("person --list").has("RS        Rosa Stein   baker    2026-11-17 03:00\n"));
    walk.at("2026-11-18T03:00+00:00");
    CHECK(walk.must("person RS --role store").has("next: still left; when they are here again: peelbook person RS --back\n"));
    CHECK(walk.told("SELECT left_ms FROM person WHERE initials = 'RS'") == "left_ms\r\n1794884400000\r\n");  // of the 17th
    // What somebody signed with is nobody else's.
    CHECK(walk.run("person RS 'Rolf Sand' --role baker").err ==
          "refused: initials 'RS', which are Rosa Stein's\nwanted: initials that nobody has\nnext: choose others\n");
    CHECK(walk.must("person RS --back").has("person RS, Rosa Stein, store, back at 2026-11-18 03:00\n"));
    walk.must("receive salt --from MILL-1 --lot S-2 --mass 50kg --free --code S-2 --by RS");
    CHECK(walk.run("person RS --left --back").err.starts_with("refused: --left and --back\n"));
    CHECK(walk.run("person RZ --left").err ==
          "refused: initials 'RZ', which nobody has\nwanted: a person in the book, or the name and role of a new one\n"
          "next: check the initials; for a new person add --name \"...\" and --role\n");
    CHECK(walk.must("verify --derived").has("nothing wrong"));
}

TEST_CASE("rule 68: the last person who may record people cannot leave, nor take a role that may not") {
    House walk;
    walk.must("person QA --left");  // quality may, by the starter plan
    CHECK(walk.run("person AB --left").err ==
          "refused: Ada Brandt leaving, after which nobody may record people\nwanted: one person at least who may\n"
          "next: give another person such a role first: peelbook person INITIALS --role ...\n");
    CHECK(walk.run("person AB --role baker").err.starts_with("refused: Ada Brandt as baker, after which nobody may record people\n"));
    walk.must("person MK --role manager");
    walk.must("person AB --left");
    CHECK(walk.run("person AB --back").code == 2);  // AB signs nothing, not even that
    walk.must("person AB --back --by MK");
}

TEST_CASE("rule 68: goods to who is no customer are asked about: the role is added, or a reason given") {
    House walk;
    walk.must("receive salt --from MILL-1 --lot S-1 --mass 50kg --free --code S-1 --by RS");
    CHECK(walk.run("ship S-1 --to DAIRY-1 --mass 1kg --by RS").err ==
          "refused: goods to DAIRY-1, Hill Dairy, who is no customer but supplier, carrier\nwanted: a customer, or the reason\n"
          "next: check the code; add the role: peelbook partner DAIRY-1 --role supplier,carrier,customer; or add --why \"...\"\n");
    CHECK(walk.run("ship S-1 --way van --to DAIRY-1 --mass 1kg --by RS").code == 2);
    walk.must("ship S-1 --to DAIRY-1 --mass 1kg --why 'lent for a day' --by RS");
    CHECK(walk.told("SELECT partner, mass_mg, why FROM move") == "partner,mass_mg,why\r\nDAIRY-1,1000000,lent for a day\r\n");
    walk.must("partner DAIRY-1 --role supplier,carrier,customer");
    walk.must("ship S-1 --to DAIRY-1 --mass 1kg --by RS");
    walk.must("ship S-1 --to CAFE-1 --mass 1kg --by RS");
}
