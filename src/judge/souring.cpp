// pH that must have fallen so far in time: a leaven, a rye dough. The same proof as staged cooling
// (calc/cooling.h): between readings the pH is taken to fall, so a target was crossed after the last reading
// above it and not later than the first reading at or below it, and the verdict follows from these bounds
// alone.
#include "judge/by_unit.h"
#include "judge/cooling_proof.h"
#include "judge/limits.h"

namespace peelbook::judge {

Judged judge_souring(const plan::Point& point, const plan::SouringLimit& limit, const Facts& facts) {
    return judge_falling(point, falling_limit(limit), facts, souring_assumption);
}

}  // namespace peelbook::judge
