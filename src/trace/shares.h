#pragma once
// How much of the suspect lots (the start of a forward trace) is in each lot that they reached. Inside the
// layer only; `forward` in trace.h hands the results out.
//
// Let u be the uses into lot L, m(u) the mass of a use, f(u) the lot used. Lots of packaging never enter the
// sums below.
//
//   share_expected(L) = sum m(u) x share_expected(f(u)) / sum m(u)            a mass fraction of all inputs,
//   water included
//     A start lot has 1, a lot outside the trace 0. A lot made from one lot only has that lot's share,
//     weighed or not. Unknown when a use out of a reached lot has no mass, or a share in the sum is unknown.
//     A use without a mass out of a lot that was not reached is left out: the share is then of the weighed
//     inputs, never too small.
//
//   suspect_mg(L) = sum m(u) x d(f(u)),   d(L) = suspect_mg(L) / M(L),   d = 1 for a start lot
//     M(L) is the made mass where it is known and smaller than the inputs, else the inputs: water leaves in
//     the oven and flour does not, so a kilogram of bread holds more of it than a kilogram of dough. Shares
//     of inputs alone hide a tenth.
//
//   share_largest(L) = min(1, most(L) / N(L)),   most(L) = sum q(u)
//     q(u) = m(u) x share_largest(f(u))                          out of doughs, goods and received lots:
//     ratios multiply q(u) = min(m(u), max(most(f(u)), m(u) x share_largest(f(u))))      out of a vessel's
//     blend: a draw may be nothing but
//            the suspect, as far as the suspect in the blend suffices; the second term counts when more was
//            drawn than was filled (scales drift)
//     Where a use states its largest mass (part of a draw from a vessel), that stands for m(u) in q(u).
//     Without m(u): all of the suspect that was in f(u), or 1 for the whole share when that is unknown; racks
//     and packs, which lose nothing, then have the largest share among the lots they were made from. N(L) is
//     M(L), with possible uses of lots outside the trace left out of the inputs: they may not be in it. It is
//     known for every lot reached through food, and never below share_expected.
//
// A lot that only packaging reached has no share at all. Masses are mg; numbers are doubles, with an error
// near 1e-15 a level.
#include <vector>

#include "trace/network.h"

namespace peelbook::trace {

// `order` holds the reached nodes, each after all it was made from; `results` the same lots in the same
// order. A node of `starts` has depth 0 in results.
void add_shares(const Network& network, const Arrows& inputs, const std::vector<Node>& order, std::vector<Reached>& results);

}  // namespace peelbook::trace
