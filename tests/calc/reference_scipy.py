"""Prints the values of reference.txt whose source is SciPy. Run: python3 tests/calc/reference_scipy.py

Made with SciPy 1.10.1. The data are invented where no source is named beside them in reference.txt.
"""
import numpy as np
from scipy import integrate, optimize, stats


def show(name, *values):
    print(name, *("%.12g" % v for v in values))


for share, df in [(.975, 1), (.975, 2), (.975, 10), (.95, 3), (.995, 34), (.9, 2.5)]:
    show("t %g %g" % (share, df), stats.t.ppf(share, df))
for share in (.9, .975, .9999):
    show("normal %g" % share, stats.norm.ppf(share))
for share, df in [(.025, 1), (.025, 19), (.975, 19), (.975, 99), (.5, 3)]:
    show("chi_square %g %g" % (share, df), stats.chi2.ppf(share, df))

# Mean and standard deviation of the range of n standard normal values: d2 and d3 of the control charts.
for n in range(2, 11):
    cdf = stats.norm.cdf
    d2 = integrate.quad(lambda x: 1 - cdf(x)**n - (1 - cdf(x))**n, -8, 8, epsabs=1e-12)[0]
    square = 2 * integrate.dblquad(
        lambda x, y: 1 - cdf(y)**n - (1 - cdf(x))**n + (cdf(y) - cdf(x))**n,
        -8, 8, lambda y: -8, lambda y: y, epsabs=1e-8)[0]
    d3 = np.sqrt(square - d2 * d2)
    show("constants %d: d2 d3 A2 D3 D4" % n, d2, d3, 3 / d2 / np.sqrt(n), max(0, 1 - 3 * d3 / d2), 1 + 3 * d3 / d2)

for name, temperature, minutes in [("muffin", [55, 58, 61], [62.2, 40.1, 16.5]),
                                   ("egg batter", [52, 55, 58, 61], [53.19, 20.45, 6.95, 1.60])]:
    line = stats.linregress(temperature, np.log10(minutes))
    t = stats.t.ppf(.975, len(temperature) - 2)
    low, high = line.slope - t * line.stderr, line.slope + t * line.stderr
    show("dz %s: z z_lower -1/upper slope, D at 58" % name, -1 / line.slope, -1 / low, -1 / high,
         10**(line.intercept + 58 * line.slope))

minute = np.array([0, 10, 20, 30, 45, 60, 80, 100.])
core = np.array([92.1, 76.4, 64.6, 55.2, 45.3, 38.4, 32.0, 28.3])
for name, known_room, start in (("room 22", 22., [90, .02]), ("room fitted", None, [90, .02, 20])):
    def room_of(p):
        return p[2] if known_room is None else known_room

    def curve(p, x):
        return room_of(p) + (p[0] - room_of(p)) * np.exp(-p[1] * x)

    def gradient(p, x):
        left = np.exp(-p[1] * x)
        return np.array([left, -(p[0] - room_of(p)) * x * left] + ([1 - left] if known_room is None else []))

    p = optimize.least_squares(lambda q: curve(q, minute) - core, start, xtol=1e-15, ftol=1e-15, gtol=1e-15,
                               method="lm").x
    df = len(core) - len(p)
    s2 = ((curve(p, minute) - core)**2).sum() / df
    jacobian = np.array([gradient(p, x) for x in minute])
    covariance = np.linalg.inv(jacobian.T @ jacobian) * s2
    target, t = 35., stats.t.ppf(.975, df)
    best = np.log((p[0] - room_of(p)) / (target - room_of(p))) / p[1]

    def half(x):
        return t * np.sqrt(s2 + gradient(p, x) @ covariance @ gradient(p, x))

    early = optimize.brentq(lambda x: curve(p, x) - half(x) - target, best / 2, best)
    late = optimize.brentq(lambda x: curve(p, x) + half(x) - target, best, 2 * best)
    show("cooldown %s: start k sd k_se minute earliest latest, room" % name, p[0], p[1], np.sqrt(s2),
         np.sqrt(covariance[1, 1]), best, early, late, room_of(p))

n, cp, cpk = 30, 1.2, 1.1
show("cp limits", *(cp * np.sqrt(stats.chi2.ppf(q, n - 1) / (n - 1)) for q in (.025, .975)))
wide = stats.norm.ppf(.975) * np.sqrt(1 / (9 * n) + cpk**2 / (2 * (n - 1)))
show("cpk limits", cpk - wide, cpk + wide)

day = np.arange(1, 13.)
value = np.array([93.1, 93.4, 93.0, 93.8, 94.1, 93.9, 94.4, 94.6, 94.3, 95.0, 95.2, 95.1])
line, t = stats.linregress(day, value), stats.t.ppf(.975, 10)
s = np.sqrt(((value - line.intercept - line.slope * day)**2).sum() / 10)
sxx = ((day - day.mean())**2).sum()


def prediction(x):
    return t * s * np.sqrt(1 + 1 / 12 + (x - day.mean())**2 / sxx)


show("trend: slope lower upper, reaches 97, early", line.slope, line.slope - t * line.stderr,
     line.slope + t * line.stderr, (97 - line.intercept) / line.slope,
     optimize.brentq(lambda x: line.intercept + line.slope * x + prediction(x) - 97, 12, 40))
show("prediction at 15", *(line.intercept + line.slope * 15 + sign * prediction(15) for sign in (-1, 1)))

friction = np.array([24.1, 23.8, 24.9, 25.2, 24.4])
show("summary: mean sd lower upper", friction.mean(), friction.std(ddof=1),
     *stats.t.interval(.95, 4, friction.mean(), stats.sem(friction)))
