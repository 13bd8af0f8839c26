"""Holds the mechanics against other people's libraries over random inputs.

A check is a generator of cases for one function of the mechanics: `Case(args, expected, scale)`. All its cases go to the
`mechanics-cases` program in one file; what comes back is compared with what the library said. The difference of a value is
taken relative to its `scale`, by default the expected value itself; a check gives another scale where a value passes
through zero. The tolerance is what both sides' arithmetic can be off, and `why` says how it was come by.
"""

from __future__ import annotations

import json
import math
import os
import subprocess
import sys
import tempfile
import time
import traceback
from dataclasses import dataclass, field
from typing import Callable, Iterable

import numpy as np

SEED = 20_260_701
AT_LEAST = 1_000


@dataclass
class Case:
    """One call: arguments as JSON, what must come back, and what a difference is measured against."""

    args: list
    expected: object
    scale: object = None


@dataclass
class Check:
    subject: str
    function: str
    library: str
    tolerance: float
    why: str
    cases: Callable[[np.random.Generator], Iterable[Case]]


@dataclass
class Outcome:
    check: Check
    count: int = 0
    worst: float = 0.0
    seconds: float = 0.0
    misses: list[str] = field(default_factory=list)
    missed: int = 0


REGISTRY: list[Check] = []


def check(function: str, library: str, tolerance: float, why: str, subject: str | None = None):
    """Registers a generator of cases as the check of `function`, which is named `subject.what`."""

    def register(cases):
        REGISTRY.append(Check(subject or function.split(".")[0], function, library, tolerance, why, cases))
        return cases

    return register


def _number(value):
    """Floats as the shortest text that reads back the same: not every reader of JSON rounds its numbers exactly."""
    if isinstance(value, (np.floating, np.integer)):
        value = value.item()
    if isinstance(value, np.ndarray):
        return [_number(v) for v in value.tolist()]
    if isinstance(value, (list, tuple)):
        return [_number(v) for v in value]
    if isinstance(value, float) and not math.isfinite(value):
        raise ValueError("an argument is not finite")
    return repr(value) if isinstance(value, float) else value


def call(program: str, function: str, many: list[list]) -> list[list[float] | str]:
    """What the mechanics make of every set of arguments: a list of numbers, or the message of a refusal."""
    with tempfile.TemporaryDirectory() as folder:
        name = os.path.join(folder, "cases.jsonl")
        with open(name, "w", encoding="utf-8") as file:
            for args in many:
                file.write(json.dumps({"function": function, "args": _number(args)}) + "\n")
        done = subprocess.run([program, name], capture_output=True, text=True, check=False)
    if done.returncode != 0:
        raise RuntimeError(f"{function}: {done.stderr.strip()[:400]}")
    lines = done.stdout.splitlines()
    if len(lines) != len(many):
        raise RuntimeError(f"{function}: {len(many)} cases, {len(lines)} answers")
    return [json.loads(line) for line in lines]


def difference(got: float, expected: float, scale: float) -> float:
    """Relative difference; both not a number, or both the same infinity, is none."""
    if math.isnan(got) or math.isnan(expected):
        return 0.0 if math.isnan(got) and math.isnan(expected) else math.inf
    if got == expected:
        return 0.0
    return abs(got - expected) / abs(scale) if scale else math.inf


def _list(value) -> list[float]:
    return [float(v) for v in value] if isinstance(value, (list, tuple, np.ndarray)) else [float(value)]


def run(program: str, index: int) -> Outcome:
    """Runs one check; its random numbers depend on its name alone, so that a new check moves no other."""
    one = REGISTRY[index]
    outcome = Outcome(one)
    start = time.perf_counter()
    try:
        rng = np.random.default_rng([SEED, *one.function.encode(), *one.library.encode()])
        cases = list(one.cases(rng))
        answers = call(program, one.function, [case.args for case in cases])
        for case, got in zip(cases, answers):
            _compare(outcome, case, got)
        outcome.count = len(cases)
    except Exception:  # a check that breaks is a miss like any other, told with the rest
        outcome.missed += 1
        outcome.misses.append(f"{one.function}: {traceback.format_exc(limit=-1).strip()[-600:]}")
    outcome.seconds = time.perf_counter() - start
    return outcome


def _compare(outcome: Outcome, case: Case, got) -> None:
    one = outcome.check
    if isinstance(got, str) or isinstance(case.expected, str):
        # a refusal is expected by a part of its message
        agreed = isinstance(got, str) and isinstance(case.expected, str) and case.expected in got
        worst = 0.0 if agreed else math.inf
    else:
        expected = _list(case.expected)
        scale = expected if case.scale is None else _list(case.scale)
        if len(scale) == 1:
            scale *= len(expected)
        worst = math.inf
        if len(got) == len(expected) == len(scale):
            worst = max(difference(g, e, s) for g, e, s in zip(got, expected, scale))
    outcome.worst = max(outcome.worst, worst)
    if worst > one.tolerance:
        outcome.missed += 1
        if len(outcome.misses) < 3:
            outcome.misses.append(
                f"{one.function}({json.dumps(_number(case.args))[:600]})\n      is {got}, {one.library} says "
                f"{case.expected}: off {worst:.2e}, allowed {one.tolerance:.0e}"
            )


def report(outcomes: list[Outcome], out=sys.stdout) -> bool:
    """The table; true if everything agrees and every subject has cases enough."""
    good = True
    per_subject: dict[str, int] = {}
    print(f"  {'function':42} {'cases':>6} {'worst':>8} {'allowed':>8}  {'library':22} {'s':>5}", file=out)
    for outcome in outcomes:
        one = outcome.check
        per_subject[one.subject] = per_subject.get(one.subject, 0) + outcome.count
        mark = "  " if not outcome.missed else "! "
        print(
            f"{mark}{one.function:42} {outcome.count:6} {outcome.worst:8.1e} {one.tolerance:8.1e}  {one.library:22} "
            f"{outcome.seconds:5.1f}",
            file=out,
        )
    for outcome in outcomes:
        if outcome.missed:
            good = False
            print(f"\n{outcome.check.function}: {outcome.missed} of {outcome.count} cases disagree", file=out)
            print(f"    allowed because: {outcome.check.why}", file=out)
            for miss in outcome.misses:
                print(f"    {miss}", file=out)
    short = {s: n for s, n in per_subject.items() if n < AT_LEAST}
    for subject, count in short.items():
        good = False
        print(f"\n{subject}: {count} cases, at least {AT_LEAST} are wanted", file=out)
    total = sum(per_subject.values())
    print(f"\n{len(per_subject)} subjects, {len(outcomes)} functions, {total} cases", file=out)
    return good
