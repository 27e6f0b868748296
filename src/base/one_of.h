#pragma once
// For what holds of a few types of a variant and is said once for them: template <OneOf<Held, Released> S>
// void operator()(const S&). A visitor names all its types so; one that takes whatever is left would take in
// silence what was added later.
#include <concepts>

namespace peelbook {

template <class T, class... Types>
concept OneOf = (std::same_as<T, Types> || ...);

}  // namespace peelbook
