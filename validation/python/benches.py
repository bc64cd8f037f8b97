"""Invented rebuilds for judging a scheduler: one person, a few tools, joints with working times.

Not a recipe: `assembly.py` and the planning study draw from it. The numbers come from splitmix64, so
that a seed means the same bench everywhere and always. Seeds from 1000 on are for tuning; those below
are only ever reported on.

A bench is steps with durations, rules, resources with absences, and what each step holds; everything in
seconds. Each rule is [kind, first, then, seconds], named as the crate's `Ask`.
"""

MINUTE = 60
DAY = 24 * 60 * MINUTE


class Dice:
    def __init__(self, seed):
        self.state = seed

    def draw(self):
        mask = (1 << 64) - 1
        self.state = (self.state + 0x9E3779B97F4A7C15) & mask
        z = self.state
        z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & mask
        z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & mask
        return z ^ (z >> 31)

    def below(self, count):
        return self.draw() % count

    def between(self, low, high):
        return low + self.below(high - low + 1)

    def one_in(self, count):
        return self.below(count) == 0


def evenings(days):
    """Away but from 18:00 to 22:00 on weekdays and 9:00 to 17:00 at week's end with an hour's lunch.
    The origin is a Monday 18:00."""
    there = []
    for day in range(days):
        midnight = day * DAY - 18 * 60 * MINUTE
        spans = [(9, 13), (14, 17)] if day % 7 in (5, 6) else [(18, 22)]
        there += [(midnight + a * 60 * MINUTE, midnight + b * 60 * MINUTE) for a, b in spans]
    ends = [end for _, end in there]
    return [[end, begin, 1] for end, (begin, _) in zip(ends, there[1:])]


def bench(seed, count, calendar):
    """A bench of so many steps: chains of preparing, pressing, measuring, sealing and closing."""
    dice = Dice(seed * 1_000_003 + count * 7 + int(calendar))
    steps, rules, demands = [], [], []
    tools = 2

    def step(low, high, tool=None):
        steps.append(MINUTE // 2 * dice.between(2 * low, 2 * high))
        number = len(steps) - 1
        demands.append([number, 0, 1])
        if tool is not None:
            demands.append([number, tool, 1])
        return number

    def after(first, then, lag=0):
        rules.append(["after", first, then, lag])

    ends = []
    while len(steps) < count:
        room = count - len(steps)
        # A joint is sealed in one go: degreased, spread, closed, torqued, and its cure comes after.
        if room >= 4 and dice.one_in(4):
            degrease, spread = step(5, 15), step(3, 8)
            close, torque = step(5, 12), step(8, 20, 1 + dice.below(tools))
            after(degrease, spread)
            rules.append(["start_within", degrease, spread, MINUTE * dice.between(20, 60)])
            after(spread, close)
            skin = steps[close] + MINUTE * dice.between(2, 10)
            rules.append(["finished_within", spread, close, skin])
            after(close, torque)
            rules.append(["start_within", close, torque, MINUTE * dice.between(10, 30)])
            first, last = degrease, torque
            cure = MINUTE * dice.between(60, 24 * 60)
        else:
            length = min(room, dice.between(2, 5))
            chain = [
                step(3, 40, 1 + dice.below(tools) if dice.one_in(3) else None)
                for _ in range(length)
            ]
            for one, other in zip(chain, chain[1:]):
                after(one, other, MINUTE * dice.between(15, 120) if dice.one_in(5) else 0)
            first, last = chain[0], chain[-1]
            cure = MINUTE * dice.between(60, 12 * 60) if dice.one_in(4) else 0
        # It stands on up to two of the last few chains, each with its cure over.
        for _ in range(dice.below(3)):
            if ends:
                before, lag = ends[-1 - dice.below(min(len(ends), 6))]
                after(before, first, lag)
        if dice.one_in(8):
            rules.append(["not_before", first, first, MINUTE * dice.between(30, 60 * count // 8)])
        ends.append((last, cure))
    away = evenings(7 * (2 + count // 10)) if calendar else []
    resources = [{"capacity": 1, "away": away}]
    resources += [{"capacity": 1, "away": []} for _ in range(tools)]
    return {
        "seed": seed,
        "steps": steps,
        "rules": rules,
        "resources": resources,
        "demands": demands,
    }
