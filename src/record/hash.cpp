#include <sodium.h>

#include "record/entry.h"
#include "record/hasher.h"

namespace peelbook::record {
namespace {

static_assert(std::tuple_size_v<Hash> == crypto_hash_sha256_BYTES);

const unsigned char* bytes_of(std::string_view text) { return reinterpret_cast<const unsigned char*>(text.data()); }

}  // namespace

Hash sha256(std::string_view bytes) {
    Hash hash;
    crypto_hash_sha256(hash.data(), bytes_of(bytes), bytes.size());
    return hash;
}

Hash chained(const Hash& before, std::string_view body) {
    crypto_hash_sha256_state state;
    crypto_hash_sha256_init(&state);
    crypto_hash_sha256_update(&state, before.data(), before.size());
    crypto_hash_sha256_update(&state, bytes_of(body), body.size());
    Hash hash;
    crypto_hash_sha256_final(&state, hash.data());
    return hash;
}

static_assert(sizeof(crypto_hash_sha256_state) == sizeof(Hasher));

Hasher::Hasher() : state_{} { crypto_hash_sha256_init(reinterpret_cast<crypto_hash_sha256_state*>(state_.data())); }

void Hasher::add(std::string_view part) {
    crypto_hash_sha256_update(reinterpret_cast<crypto_hash_sha256_state*>(state_.data()), bytes_of(part), part.size());
}

std::string Hasher::hex() {
    Hash hash;
    crypto_hash_sha256_final(reinterpret_cast<crypto_hash_sha256_state*>(state_.data()), hash.data());
    return to_hex(hash);
}

std::string to_hex(const Hash& hash) {
    constexpr char digits[] = "0123456789abcdef";
    std::string hex;
    hex.reserve(2 * hash.size());
    for (const std::uint8_t byte : hash) {
        hex += digits[byte >> 4];
        hex += digits[byte & 15];
    }
    return hex;
}

}  // namespace peelbook::record
