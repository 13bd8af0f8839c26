"""Ring gaps of an invented shop, in Python. The figures are invented."""

from json import loads
from math import isfinite, isnan, sqrt
from pathlib import Path

from componentize_py_types import Err
from wit_world import exports
from wit_world.exports import pack

# read while the component is made: a pack has no files when it runs
MANIFEST = Path(__file__).with_name("manifest.json").read_text(encoding="utf-8")

USE, ADDER, BORE, BORES, MATERIAL, CARD, CLOSING, POWER = range(8)  # the manifest's `facts`
TOP_GAP = 0  # the manifest's `rules`
STREET, ALL_OUT, IRON = 0, 2, 0
CROSSED = 2  # the reason that the limits cross: the last of a window rule's `reasons`


class Pack(exports.Pack):
    def describe(self) -> str:
        return MANIFEST

    def assess(self, ask: list[int], facts: pack.Facts) -> pack.Answer:
        answer = pack.Answer([], [], [], [], [], [])
        for rule in ask:
            assess = top_gap if rule == TOP_GAP else plain_iron
            try:
                state, reason = assess(rule, Facts(facts.starts, facts.values), answer)
            except Exception as error:
                raise in_words(rule, error) from error
            answer.outcomes.append(pack.Outcome(rule, state, reason))
        return answer


def in_words(rule: int, error: Exception) -> Err:
    """The contract's own error, whose words the user reads and sends: an exception that is not caught has none."""
    at = error.__traceback__
    while at.tb_next:
        at = at.tb_next
    place = f"{at.tb_frame.f_code.co_name}, line {at.tb_lineno}"
    return Err(f"rule {loads(MANIFEST)['rules'][rule]['id']}: {type(error).__name__}: {error} ({place})")


class Facts:
    def __init__(self, starts: list[int], values: list[float]):
        self.starts, self.values = starts, values

    def all(self, fact: int) -> list[float]:
        return self.values[self.starts[fact] : self.starts[fact + 1]]

    def get(self, fact: int) -> float | None:
        """The first value that is there."""
        return next((v for v in self.all(fact) if not isnan(v)), None)

    def choice(self, fact: int) -> int | None:
        """A choice's number, None where the sheet has none that the manifest lists."""
        value = self.get(fact)
        return int(value) if value is not None and value >= 0 else None


def top_gap(rule: int, facts: Facts, answer: pack.Answer) -> tuple[pack.State, int]:
    bore = facts.get(BORE)
    if bore is None or not 0.05 <= bore <= 0.16:
        return pack.State.CANNOT_SAY, 0
    use = facts.choice(USE)
    if use is None:
        return pack.State.CANNOT_SAY, 1
    per_bore = gap_over_bore(use, facts)
    card, closing = facts.get(CARD), facts.get(CLOSING)

    windows, numbers = [], []
    read = [bore if isnan(b) else b for b in facts.all(BORES)]
    for place, b in enumerate(read) if read else [(None, bore)]:
        if card is not None:
            low = card * b
            limits, text, args = (low, low, low, low * 1.5), 1, [card * 1000.0]
        else:
            low = per_bore * b
            if closing is not None and closing > low:
                low = closing
            high = low + 0.001 * b
            limits, text, args = (closing, low, (low + high) / 2.0, high), 0, [per_bore * 1000.0, float(use)]
        if not hold_together(limits):
            return pack.State.CANNOT_SAY, CROSSED
        at = len(answer.numbers) + len(numbers)
        levels = (pack.Level.WARN, pack.Level.NOTE)
        windows.append(pack.Window(rule, 0, place, *limits, None, *levels, False, text, at))
        numbers += args
    answer.windows += windows
    answer.numbers += numbers
    return pack.State.ANSWERED, 0


def gap_over_bore(use: int, facts: Facts) -> float:
    base = [0.004, 0.0045, 0.0055][use]
    material = [1.0, 1.05, 1.1][facts.choice(MATERIAL) or 0]
    if not facts.choice(ADDER):
        return base * material
    with_adder = (base + 0.001) * material
    power = facts.get(POWER)
    return with_adder * sqrt(power / 75000.0) if power is not None and power > 75000.0 else with_adder


def hold_together(limits: tuple[float | None, ...]) -> bool:
    """Limits are numbers in rising order; one that is not would cost the pack its whole answer."""
    there = [limit for limit in limits if limit is not None]
    return all(map(isfinite, there)) and all(a <= b for a, b in zip(there, there[1:]))


def plain_iron(rule: int, facts: Facts, answer: pack.Answer) -> tuple[pack.State, int]:
    material = facts.choice(MATERIAL)
    if material is None:
        return pack.State.CANNOT_SAY, 0
    adder, use, power = facts.choice(ADDER) or 0, facts.choice(USE), facts.get(POWER)
    if adder == 0 and use == STREET:
        return pack.State.NOT_APPLICABLE, 1
    if material != IRON or (adder == 0 and use != ALL_OUT):
        return pack.State.CLEAR, 0
    level = pack.Level.WARN
    if adder == 0:
        level, text, args = pack.Level.NOTE, 2, []
    elif power is None:
        text, args = 1, [float(adder)]
    else:
        text, args = 0, [float(adder), power]
    answer.findings.append(pack.Finding(rule, level, None, text, len(answer.numbers)))
    answer.numbers += args
    return pack.State.ANSWERED, 0
