"""Recipe of data/assembly.json: plans for hands and tools by CP-SAT, by another road than the crate's.

Every step is an interval of fixed size, every resource a cumulative constraint with its absences as
intervals that hold it, every rule a linear inequality; the finish is minimised by a clause-learning
solver. Critical paths and chances come from numpy's own beta law.

Prints one JSON document. To record it again:

    python assembly.py > ../data/assembly.json

With the word `study` it prints instead what the planning study needs: benches of `benches.py`, each with
what the solver found, how far it came, and in what time.

    python assembly.py study SECONDS WORKERS SEEDS COUNT...

Seconds throughout.
"""

import json
import platform
import sys
import time

import numpy as np
import ortools
from ortools.sat.python import cp_model

import benches

EXACT = "whole numbers, proved best by both"
DRAWN = "two samples of tens of thousands each"


def case(name, recipe, given, expect, within):
    return {"name": name, "recipe": recipe, "given": given, "expect": expect, "within": within}


def gone(resource):
    """Absences without overlaps, and never more away than there is."""
    times = sorted({time for begin, end, _ in resource["away"] for time in (begin, end)})
    for begin, end in zip(times, times[1:]):
        units = sum(u for a, b, u in resource["away"] if a <= begin < b)
        if units:
            yield begin, end, min(units, resource["capacity"])


def solve(bench, seconds=60.0, workers=1):
    """The solver's word on a bench: status, finish, bound, when the first and the last answer came."""
    model = cp_model.CpModel()
    lasts = bench["steps"]
    horizon = sum(lasts) + sum(abs(rule[3]) for rule in bench["rules"])
    horizon += max([0] + [away[1] for r in bench["resources"] for away in r["away"]])
    starts = [model.new_int_var(0, horizon, "") for _ in lasts]
    spans = [model.new_fixed_size_interval_var(s, d, "") for s, d in zip(starts, lasts)]
    finish = model.new_int_var(0, horizon, "")
    for start, last in zip(starts, lasts):
        model.add(finish >= start + last)
    for kind, first, then, value in bench["rules"]:
        begins, ends = starts[then], starts[first] + lasts[first]
        if kind == "after":
            model.add(begins >= ends + value)
        elif kind == "start_within":
            model.add(begins <= ends + value)
        elif kind == "finished_within":
            model.add(begins + lasts[then] <= ends + value)
        elif kind == "start_within_start":
            model.add(begins <= starts[first] + value)
        elif kind == "together":
            model.add(begins == starts[first])
        elif kind == "not_before":
            model.add(starts[first] >= value)
        elif kind == "finished_by":
            model.add(ends <= value)
        else:
            raise ValueError(kind)
    for number, resource in enumerate(bench["resources"]):
        held = [(spans[step], units) for step, r, units in bench["demands"] if r == number]
        held += [
            (model.new_fixed_size_interval_var(begin, end - begin, ""), units)
            for begin, end, units in gone(resource)
        ]
        model.add_cumulative([h for h, _ in held], [u for _, u in held], resource["capacity"])
    model.minimize(finish)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = workers
    solver.parameters.random_seed = 1
    begun = time.perf_counter()

    class First(cp_model.CpSolverSolutionCallback):
        at, value = None, None

        def on_solution_callback(self):
            if self.at is None:
                self.at = time.perf_counter() - begun
                self.value = int(self.objective_value)

    first = First()
    status = solver.solve(model, first)
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    return {
        "status": solver.status_name(status),
        "finish": int(solver.objective_value) if found else None,
        "bound": int(solver.best_objective_bound),
        "seconds": time.perf_counter() - begun,
        "first": first.value,
        "first_seconds": first.at,
    }


def best(name, bench):
    found = solve(bench)
    if found["status"] not in ("OPTIMAL", "INFEASIBLE"):
        raise RuntimeError(f"{name}: {found}")
    return case(
        name,
        "cp_model.CpSolver, one worker, to the end",
        bench,
        {"finish": found["finish"]},
        {"because": EXACT},
    )


def resource(capacity):
    return {"capacity": capacity, "away": []}


def nozzle(clearance=10, cure=1440, back=60):
    """The joint of a nozzle, in minutes; the times are invented."""
    steps = [15, 20, 15, clearance, 12, 5, 8, 12, 10, 25, 30]
    rules = [
        ["after", 1, 3, 0],
        ["after", 2, 3, 0],
        ["after", 3, 5, 0],
        ["after", 4, 5, 0],
        ["start_within", 4, 5, 30],
        ["after", 5, 6, 0],
        ["finished_within", 5, 6, 10],
        ["after", 6, 7, 0],
        ["start_within", 6, 7, 15],
        ["after", 7, 8, 0],
        ["start_within", 7, 8, 20],
        ["after", 7, 9, 0],
        ["after", 0, 9, cure],
        ["after", 8, 10, cure],
        ["after", 9, 10, 0],
        ["finished_by", 1, 1, back],
        ["finished_by", 2, 2, back],
    ]
    demands = [[step, 0, 1] for step in range(len(steps))] + [[1, 1, 1], [2, 1, 1]]
    return {
        "steps": [60 * step for step in steps],
        "rules": [[kind, first, then, 60 * value] for kind, first, then, value in rules],
        "resources": [resource(1), resource(1)],
        "demands": demands,
    }


def joints(most, hands):
    """Two joints, the second spread at most so long after the first; seconds."""
    rules = [
        ["after", 0, 1, 0],
        ["finished_within", 0, 1, 10],
        ["after", 2, 3, 0],
        ["finished_within", 2, 3, 10],
        ["start_within_start", 2, 0, 0],
    ]
    if most is not None:
        rules.append(["start_within_start", 0, 2, most])
    return {
        "steps": [5, 8, 5, 8],
        "rules": rules,
        "resources": [resource(hands)],
        "demands": [[step, 0, 1] for step in range(4)],
    }


def crowd(seed):
    """Small and crowded: several of each resource, some away, every kind of rule."""
    dice = benches.Dice(seed)
    count = dice.between(5, 9)
    capacities = [dice.between(1, 3), dice.between(1, 2)]
    away = [
        [[at, at + dice.between(1, 12), dice.between(1, 2)] for at in [dice.below(20), dice.below(50)]]
        for _ in capacities
    ]
    kinds = ["after", "after", "after", "start_within", "finished_within", "start_within_start"]
    rules = []
    for _ in range(dice.between(2, 8)):
        one, other = dice.below(count), dice.below(count)
        if one == other:
            continue
        first, then = min(one, other), max(one, other)
        kind = kinds[dice.below(len(kinds))]
        rules.append([kind, first, then, dice.below(14) + (8 if kind == "finished_within" else 0)])
    if dice.one_in(3):
        step = dice.below(count)
        rules.append(["finished_by", step, step, dice.between(12, 40)])
    return {
        "seed": seed,
        "steps": [dice.between(0, 9) for _ in range(count)],
        "rules": rules,
        "resources": [
            {"capacity": capacity, "away": gone} for capacity, gone in zip(capacities, away)
        ],
        "demands": [[s, 0, dice.between(1, capacities[0])] for s in range(count)]
        + [[s, 1, 1] for s in range(count) if dice.one_in(3)],
    }


def schedules():
    yield best("nozzle", nozzle())
    yield best("nozzle, both cures an hour", nozzle(cure=60))
    yield best("nozzle, long check", nozzle(clearance=25))
    yield best("nozzle, press back at 35", nozzle(back=35))
    yield best("nozzle, press back at 34", nozzle(back=34))
    for most, hands in [(12, 1), (12, 2), (13, 1), (None, 1)]:
        yield best(f"two joints within {most}, {hands} at hand", joints(most, hands))
    for seed in range(1, 41):
        yield best(f"crowd {seed}", crowd(seed))
    # With absences the solver may take minutes; these it proves in a second.
    for seed in range(1, 6):
        yield best(f"bench {seed} of 12 steps", benches.bench(seed, 12, False))
        yield best(f"bench {seed} of 30 steps", benches.bench(seed, 30, False))
        yield best(f"bench {seed} of 8 steps, evenings", benches.bench(seed, 8, True))


def beta(dice, least, likely, most, count):
    peak = 4 * (likely - least) / (most - least)
    return least + (most - least) * dice.beta(1 + peak, 5 - peak, count)


def chances():
    """Two paths of two steps each, and a step after both; three durations of each."""
    dice = np.random.default_rng(1)
    steps = [[600, 900, 2400], [300, 400, 500], [900, 1000, 1900], [100, 300, 800], [60, 120, 600]]
    drawn = [beta(dice, *step, 200_000) for step in steps]
    finish = np.maximum(drawn[0] + drawn[1], drawn[2] + drawn[3]) + drawn[4]
    times = [1800, 2000, 2200, 2500]
    yield case(
        "two paths",
        "numpy.random.Generator.beta, 200 000 draws of every step",
        {"steps": steps, "after": [[0, 1], [2, 3], [1, 4], [3, 4]], "times_s": times},
        {
            "mean_s": float(finish.mean()),
            "shares": [float((finish <= at).mean()) for at in times],
        },
        # Half of one over the root of 20 000 draws is 0.0035, and four of these 0.014.
        {"share": 0.014, "mean": 0.01, "because": DRAWN},
    )


def study(seconds, workers, seeds, counts):
    rows = []
    for count in counts:
        for calendar in [False, True]:
            for seed in range(1, seeds + 1):
                bench = benches.bench(seed, count, calendar)
                rows.append({"bench": bench, "found": solve(bench, seconds, workers)})
    print(json.dumps(rows))


def main():
    if sys.argv[1:2] == ["study"]:
        seconds, workers, seeds, *counts = sys.argv[2:]
        study(float(seconds), int(workers), int(seeds), [int(count) for count in counts])
        return
    print(
        json.dumps(
            {
                "recipe": "python/assembly.py",
                "libraries": {
                    "python": ".".join(platform.python_version_tuple()[:2]),
                    "numpy": np.__version__,
                    "ortools": ortools.__version__,
                },
                "schedules": list(schedules()),
                "chances": list(chances()),
            },
            indent=1,
        )
    )


if __name__ == "__main__":
    main()
