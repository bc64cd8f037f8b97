"""Recipe of data/lives.json: fits of lives, chances and the cheapest age, by the libraries reliability and lifelines.

Records by their source where there is one: `handbook` is the e-Handbook of NIST and SEMATECH, 8.4.1.3; `journal` is
doi 10.1080/00224065.1997.11979730; `weibull-a` and `weibull-b` are C.5 and figure 2-5 of The New Weibull Handbook;
`inspections` are made up.

Prints one JSON document. To record it again:

    python lives.py > ../data/lives.json

Times in hours, in the units of the source where they are not.
"""

import contextlib
import json
import os
import platform
import sys
import warnings

os.environ.setdefault("MPLBACKEND", "Agg")

import lifelines  # noqa: E402
import numpy as np  # noqa: E402
import reliability  # noqa: E402
from reliability.Distributions import Competing_Risks_Model, Exponential_Distribution, Weibull_Distribution  # noqa: E402
from reliability.Fitters import Fit_Weibull_2P  # noqa: E402
from reliability.Repairable_systems import optimal_replacement_time  # noqa: E402

RECORDS = {
    "handbook": ([54, 187, 216, 240, 244, 335, 361, 373, 375, 386], [500] * 10),
    "journal": ([45, 46, 34, 45, 32, 24, 58, 79, 56, 63, 34, 50], [23, 24, 57, 78, 76, 85, 51, 59]),
    "weibull-a": ([1500, 2250, 4000, 4300, 7000], [1750, 5000]),
    "weibull-b": ([30, 49, 82, 90, 96], [10, 45, 100]),
}
INSPECTIONS = [(0, 40), (20, 60), (40, 60), (40, 80), (60, 100), (0, 60), (60, 80), (60, None), (80, None), (100, None)]


def case(name, recipe, given, expect, relative, because):
    within = {"relative": relative, "because": because}
    return {"name": name, "recipe": recipe, "given": given, "expect": expect, "within": within}


def as_given(failed, good):
    return [["failed", float(age)] for age in failed] + [["good", float(age)] for age in good]


def fits():
    for name, (failed, good) in RECORDS.items():
        given = {"records": as_given(failed, good)}
        found = Fit_Weibull_2P(
            failures=failed, right_censored=good, show_probability_plot=False, print_results=False, method="MLE"
        )
        yield case(
            name,
            "reliability.Fitters.Fit_Weibull_2P",
            given,
            {
                "shape": found.beta,
                "scale": found.alpha,
                "log_likelihood": found.loglik,
                "shape_error": found.beta_SE / found.beta,
                "scale_error": found.alpha_SE / found.alpha,
            },
            2e-5,
            "its optimizer stops where the likelihood hardly moves",
        )
        ages, seen = failed + good, [1] * len(failed) + [0] * len(good)
        found = lifelines.WeibullFitter().fit(ages, seen)
        yield case(name, "lifelines.WeibullFitter", given, by_lifelines(found), 2e-5, "as above")
    ages = np.array([(low, np.inf if high is None else high) for low, high in INSPECTIONS], float)
    found = lifelines.WeibullFitter().fit_interval_censoring(ages[:, 0], ages[:, 1])
    records = [
        ["good", float(low)] if high is None else ["between", float(low), float(high)] for low, high in INSPECTIONS
    ]
    yield case(
        "inspections",
        "lifelines.WeibullFitter.fit_interval_censoring",
        {"records": records},
        by_lifelines(found),
        2e-5,
        "as above",
    )


def by_lifelines(found):
    errors = found.summary["se(coef)"]
    return {
        "shape": found.rho_,
        "scale": found.lambda_,
        "log_likelihood": found.log_likelihood_,
        "shape_error": errors["rho_"] / found.rho_,
        "scale_error": errors["lambda_"] / found.lambda_,
    }


def left(law, at):
    # One value alone comes back as no array.
    return float(np.atleast_1d(law.SF(xvals=np.array([at]), show_plot=False))[0])


def chances():
    for shape, scale, ruin in [(2.2, 120.0, 0.001875), (3.0, 400.0, 0.001875), (0.7, 150.0, 0.01)]:
        wears = Weibull_Distribution(alpha=scale, beta=shape)
        model = Competing_Risks_Model([wears, Exponential_Distribution(Lambda=ruin)])
        for age, more in [(60.0, 50.0), (200.0, 50.0)]:
            yield case(
                f"shape {shape}, scale {scale}, at {age}, {more} more",
                "reliability.Distributions.Competing_Risks_Model",
                {"life": [shape, scale, ruin], "age": age, "more": more},
                {"through": left(model, age + more) / left(model, age), "worn": left(wears, age + more) / left(wears, age)},
                1e-9,
                "rounding, and powers of small numbers",
            )


def costs():
    for shape, scale, planned, failed in [(2.5, 1000.0, 1.0, 5.0), (2.2, 120.0, 53.0, 203.0), (3.0, 400.0, 268.0, 418.0)]:
        found = optimal_replacement_time(
            cost_PM=planned, cost_CM=failed, weibull_alpha=scale, weibull_beta=shape, q=0, show_time_plot=False,
            show_ratio_plot=False, print_results=False,
        )  # fmt: skip
        for what, value, relative, because in [
            ("rate", found.min_cost, 1e-6, "it takes the best of a grid of ages, and a least value is flat"),
            ("at", found.ORT, 5e-4, "it takes the best of a grid of ages"),
        ]:
            yield case(
                f"{what} at shape {shape}, scale {scale}, ends {planned} and {failed}",
                "reliability.Repairable_systems.optimal_replacement_time",
                {"life": [shape, scale, 0.0], "cost": [planned, failed]},
                {what: float(value)},
                relative,
                because,
            )


PARTS = {"fits": fits, "chances": chances, "costs": costs}


def main():
    warnings.simplefilter("ignore")
    # What the libraries say on the way is no part of the document.
    with contextlib.redirect_stdout(sys.stderr):
        parts = {name: list(part()) for name, part in PARTS.items()}
    document = {
        "recipe": "python/lives.py",
        "libraries": {
            "python": ".".join(platform.python_version_tuple()[:2]),
            "lifelines": lifelines.__version__,
            "reliability": reliability.__version__,
        },
        **parts,
    }
    print(json.dumps(document, indent=1))


if __name__ == "__main__":
    main()
