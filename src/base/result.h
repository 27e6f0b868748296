#pragma once
// Three classes of trouble, kept apart:
//   assert / std::logic_error  our own bug;
//   Result<T> holding a Refusal  an expected "no": bad input, a broken rule. Nothing was written. Exit code 2.
//   Damaged, MachineFailed       exceptions that end the command: exit codes 3 and 4.
// A broken critical limit is none of these: it is data (judge/verdict.h).
//
//   Result<Mass> mass = parse_mass("90kg");
//   if (!mass) return mass.refusal();
//   use(*mass);
#include <cassert>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace peelbook {

// What a person is told when the program will not do a thing. Every field is one plain sentence or phrase.
struct Refusal {
    std::string given;                 // what was typed or found, quoted: "flour lot 'F-12'"
    std::string wanted;                // what would be right, or why it cannot be: "a lot that is in the book"
    std::string next;                  // what to do now: "receive it first, or check the code"
    std::vector<std::string> nearest;  // known names close to the one given, best first; may be empty
};

template <class T> class [[nodiscard]] Result {
  public:
    Result(T value) : held_(std::in_place_index<0>, std::move(value)) {}
    Result(Refusal refusal) : held_(std::in_place_index<1>, std::move(refusal)) {}

    bool ok() const { return held_.index() == 0; }
    explicit operator bool() const { return ok(); }

    T& value() & {
        assert(ok());
        return std::get<0>(held_);
    }
    const T& value() const& {
        assert(ok());
        return std::get<0>(held_);
    }
    T&& value() && {
        assert(ok());
        return std::get<0>(std::move(held_));
    }
    T& operator*() & { return value(); }
    const T& operator*() const& { return value(); }
    T&& operator*() && { return std::move(*this).value(); }
    T* operator->() { return &value(); }
    const T* operator->() const { return &value(); }

    const Refusal& refusal() const {
        assert(!ok());
        return std::get<1>(held_);
    }

  private:
    std::variant<T, Refusal> held_;
};

// A check that yields nothing but may refuse. Read like a Result: true means "go on".
//
//   if (auto checked = check_code("lot", code); !checked) return checked.refusal();
class [[nodiscard]] Check {
  public:
    Check() = default;  // goes on
    Check(Refusal refusal) : refusal_(std::move(refusal)) {}

    bool ok() const { return !refusal_; }
    explicit operator bool() const { return ok(); }
    const Refusal& refusal() const {
        assert(!ok());
        return *refusal_;
    }

  private:
    std::optional<Refusal> refusal_;
};

// The book contradicts itself or its guards are gone (exit code 3). `what()` names the first wrong entry or row.
struct Damaged : std::runtime_error {
    using std::runtime_error::runtime_error;
};

// Disk full, no permission, not a book at all (exit code 4). `what()` says what failed and what to do.
struct MachineFailed : std::runtime_error {
    using std::runtime_error::runtime_error;
};

}  // namespace peelbook
