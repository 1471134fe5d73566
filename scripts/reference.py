#!/usr/bin/env python3
"""Computes the reference values that the tests of the drawing compare with, from formulas alone: nothing of the program is used.

  python3 scripts/reference.py

Tests that name this file: core/src/draw/schedule/covered/test.rs, order/test.rs and gap_draw/test.rs.
"""

import math
from functools import lru_cache


def covered(kinds, cues, slack, longest):
    """How many sequences have each kind floor(n/k) - s to ceil(n/k) + s times and no run above `longest`; and how often the
    guesser who names the most likely next one wins. By recursion over (counts of the other kinds, count of the last, its run)."""
    least, most = max(cues // kinds - slack, 0), -(-cues // kinds) + slack
    longest = longest or cues

    def following(others, last, run):
        """Each kind that may come next: how many alike there are, and the state after it."""
        if last is not None and run < longest and last < most:
            yield 1, (others, last + 1, run + 1)
        for count in sorted(set(others)):
            if count < most:
                rest = list(others)
                rest.remove(count)
                if last is not None:
                    rest.append(last)
                yield others.count(count), (tuple(sorted(rest)), count + 1, 1)

    @lru_cache(maxsize=None)
    def completions(others, last, run, left):
        if left == 0:
            return int(all(count >= least for count in others) and (last is None or last >= least))
        return sum(alike * completions(*state, left - 1) for alike, state in following(others, last, run))

    @lru_cache(maxsize=None)
    def wins(others, last, run, left):
        """The expected number of right guesses from here on."""
        whole = completions(others, last, run, left)
        if left == 0 or whole == 0:
            return 0.0
        best, later = 0.0, 0.0
        for alike, state in following(others, last, run):
            share = completions(*state, left - 1) / whole
            if share:
                best = max(best, share)
                later += alike * share * wins(*state, left - 1)
        return best + later

    start = ((0,) * kinds, None, 0, cues)
    return completions(*start), wins(*start) / cues


def open_order(kinds, longest):
    """The share of right guesses in the long run, where each kind is drawn evenly among those that the longest run allows.
    The run is 1, 2, ... with weights 1, 1/k, 1/k^2, ...; at the longest, one kind fewer is left."""
    weights = [kinds**-run for run in range(longest)]
    at_longest = weights[-1] / sum(weights)
    return (1 - at_longest) / kinds + at_longest / (kinds - 1)


def flat(rate, least=5.0, width=10.0):
    """Quantiles of the exponential distribution cut off to a range, its mean, SD, entropy, hazards, best windows."""
    fall = rate / width
    kept = 1 - math.exp(-rate)
    quantile = lambda p: least - math.log(1 - p * kept) / fall
    mean = least + 1 / fall - width * math.exp(-rate) / kept
    square = 2 / fall**2 - math.exp(-rate) * (width**2 + 2 * width / fall) / kept
    sd = math.sqrt(square - (mean - least) ** 2)
    bits = (math.log(kept / fall) + fall * (mean - least)) / math.log(2)
    hazard = lambda p: fall * math.exp(-fall * (quantile(p) - least)) / kept / (1 - p)
    windows = [(1 - math.exp(-fall * w)) / kept for w in (0.2, 0.5, 1.0)]
    return [quantile(p) for p in (0.05, 0.25, 0.5, 0.75, 0.95)], (mean, sd, bits), [hazard(p) for p in (0, 0.5, 0.9)], windows


def main():
    print("exactly balanced: kinds, longest run, cues, count")
    for kinds, longest, cues in [(4, 1, 12), (4, 2, 12), (4, 0, 12), (8, 1, 16), (8, 2, 16), (4, 1, 20), (4, 2, 20), (2, 2, 12), (2, 3, 12), (2, 2, 20), (2, 3, 20)]:
        print(kinds, longest, cues, covered(kinds, cues, 0, longest)[0])
    print("pairs without neighbors alike:", [covered(kinds, 2 * kinds, 0, 1)[0] for kinds in range(1, 7)])
    print("covered: kinds, cues, slack, longest run, guess rate")
    for kinds, cues, slack, longest in [(4, 12, 1, 2), (8, 40, 2, 2), (4, 12, 0, 1), (4, 12, 0, 2), (8, 16, 0, 1), (8, 16, 0, 2), (4, 24, 0, 1), (4, 24, 0, 2)]:
        print(kinds, cues, slack, longest, f"{covered(kinds, cues, slack, longest)[1]:.3f}")
    print("open: kinds, longest run, guess rate")
    for kinds, longest in [(2, 2), (2, 3), (2, 4), (3, 2), (4, 1), (4, 2), (4, 3), (8, 1), (8, 2), (8, 3)]:
        print(kinds, longest, f"{open_order(kinds, longest):.4f}")
    print("flat, 5 to 15 s: rate; quantiles; mean, SD, bits; hazards at 5 s, 50 %, 90 %; best windows of 0.2, 0.5, 1 s")
    for rate in (1.0, 1.5, 2.0):
        quantiles, of_all, hazards, windows = flat(rate)
        print(rate, [f"{q:.4f}" for q in quantiles], [f"{v:.3f}" for v in of_all], [f"{h:.3f}" for h in hazards], [f"{w:.3f}" for w in windows])


if __name__ == "__main__":
    main()
