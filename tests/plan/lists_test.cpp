// Every member of every struct of a plan stands in the list of its fields. The reference is the compiler: into how many values a
// struct can be initialized.
#include "plan/lists.h"

#include <catch2/catch.hpp>

using namespace peelbook;
using namespace peelbook::plan;

namespace {

struct Anything {
    template <class T> operator T&() const;
};

template <class T, class... Values> constexpr std::size_t members_of() {
    if constexpr (requires { T{Values{}..., Anything{}}; })
        return members_of<T, Values..., Anything>();
    else
        return sizeof...(Values);
}

// Counts the fields that a struct lists, and looks into the structs among them.
class Lister : public MembersOnly<Lister> {
  public:
    template <class T, class... Form> void operator()(T& member, const Form&...) {
        ++listed_;
        look(member);
    }

    template <class T> static void check() {
        Lister lister;
        T object{};
        fields(lister, object);
        ++checked;
        INFO(__PRETTY_FUNCTION__);  // names T
        CHECK(lister.listed_ == members_of<T>());
    }
    static inline int checked = 0;

  private:
    template <class T> static void look(T&) {
        if constexpr (std::is_class_v<T> && !std::same_as<T, std::string>) check<T>();
    }
    template <class T> static void look(std::vector<T>&) {
        if constexpr (std::is_class_v<T> && !std::same_as<T, std::string>) check<T>();
    }
    template <class T> static void look(std::optional<T>&) {
        T one{};
        look(one);
    }
    static void look(Limit&) {
        each_kind([](const auto& kind) { check<std::remove_cvref_t<decltype(kind)>>(); });
    }

    std::size_t listed_ = 0;
};

}  // namespace

TEST_CASE("every member of every struct of a plan stands in its list") {
    STATIC_REQUIRE(members_of<Place>() == 2);
    STATIC_REQUIRE(members_of<FormulaItem>() == 5);
    STATIC_REQUIRE(members_of<YesNoLimit>() == 0);
    Lister::check<Plan>();
    CHECK(Lister::checked > 30);
}
