// SHA-256 and the chain.
#include <catch2/catch.hpp>

#include "record/entry.h"

using namespace peelbook::record;

// FIPS 180-4, the examples that NIST publishes with it: the empty message, one block, two blocks, one million
// 'a'.
TEST_CASE("SHA-256 gives the digests of FIPS 180-4") {
    CHECK(to_hex(sha256("")) == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    CHECK(to_hex(sha256("abc")) == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(to_hex(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")) ==
          "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    CHECK(to_hex(sha256(std::string(1'000'000, 'a'))) == "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST_CASE("A chained hash is the SHA-256 over the hash before and the bytes") {
    const Hash before = sha256("abc");
    const std::string joined(before.begin(), before.end());
    CHECK(chained(before, "body") == sha256(joined + "body"));
    CHECK(chained(no_hash, "body") == sha256(std::string(32, '\0') + "body"));
}
