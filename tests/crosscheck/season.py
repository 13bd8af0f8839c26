"""python tests/crosscheck/season.py THOU SCENARIO: types a season of two engines into a book day by day, and works out anew,
from the scenario's own lines, what the program counts: runs and passes a part by pandas, costs, dates, survival figures
by lifelines and scipy, the calendar by icalendar."""

import datetime
import json
import math
import pathlib
import re
import shlex
import subprocess
import sys
import tempfile
import tomllib

import icalendar
import pandas
import scipy.stats
from lifelines import KaplanMeierFitter
from lifelines.statistics import logrank_test

ROOT = pathlib.Path(__file__).parents[2]
LAST = "2026-10-18"


def flat(text):
    return " ".join(text.split())


class Shop:
    def __init__(self, program, scenario, folder):
        self.program, self.folder, self.scenario = program, pathlib.Path(folder), scenario
        self.book = str(self.folder / "season.book")
        self.ids, self.lines, self.pages = {}, [], 0
        samples = ROOT / "sample-builds"
        for engine in scenario["engine"]:
            sheet = json.loads((ROOT / engine["sheet"]).read_text(encoding="utf-8"))
            sheet["calendar"] = engine["calendar"]
            engine["costs"] = sheet["costs"]
            path = self.folder / f"{engine['name']}.json"
            path.write_text(json.dumps(sheet), encoding="utf-8")
            for file in samples.glob("*.csv"):
                (self.folder / file.name).write_bytes(file.read_bytes())
            self.run("book", "add", str(path), "--day", engine["day"])

    def run(self, *args):
        call = [self.program, *args, "--book", self.book]
        done = subprocess.run(call, capture_output=True, text=True)
        assert done.returncode == 0, (args, done.stdout, done.stderr)
        return done.stdout

    def json(self, *args):
        return json.loads(self.run(*args, "--format", "json"))

    def type(self):
        for day in self.scenario["day"]:
            for line in day.get("typed", []):
                words = line.get("log") or line["book"]
                for name, entry in self.ids.items():
                    words = words.replace(f"{{{name}}}", entry)
                words = shlex.split(words)
                where = ["log", "add"] if "log" in line else ["book"]
                told = self.run(*where, *words, "--day", day["on"])
                if "named" in line:
                    self.ids[line["named"]] = re.search(r"settled (\w+)", flat(told))[1]
                self.lines.append((day["on"], where[0], words))


def option(words, name):
    return words[words.index(name) + 1] if name in words else None


def table(shop):
    """The scenario's lines as rows: day, engine, passes, event, part and its number."""
    rows = []
    for day, kind, words in shop.lines:
        if kind != "log":
            continue
        engine, what = words[0], words[1]
        passes = 0
        if match := re.fullmatch(r"(\d+)p", what):
            passes = int(match[1])
        elif what == "pass":
            passes = 1
        elif len(words) > 2 and words[2] == "passes":
            passes = int(what)
        calendar = next(e["calendar"] for e in shop.scenario["engine"] if e["name"] == engine)
        held = [e["name"] for e in calendar if e["date"] <= day <= e.get("last-date", e["date"])]
        rows.append({
            "day": day, "engine": engine, "passes": passes, "event": held[0] if held and passes else None,
            "what": what if what in ("fitted", "removed", "did") else "ran" if passes else "other",
            "serial": option(words, "--serial"), "failed": "--failed" in words, "maker": option(words, "--maker"),
            "cost": float(option(words, "--cost") or 0), "hours": float(option(words, "--hours") or 0),
            "service": words[2] if what == "did" else None,
        })
    return pandas.DataFrame(rows)


def runs(shop, rows):
    """What the engines ran by each of the chosen days."""
    count = 0
    for on in sorted({day["on"] for day in shop.scenario["day"]}):
        till = rows[rows.day <= on]
        for engine, own in till.groupby("engine"):
            plan = shop.json("plan", engine, "--on", on)
            services = {(s["rule"], s["meter"]): s for s in plan["services"]}
            done = own[(own.what == "did") & (own.service == "oil")]
            since = own.loc[done.index[-1] + 1 :] if len(done) else own
            oil = services["freshen/oil", "passes"]
            assert oil["used"] == since.passes.sum(), (engine, on, oil["used"], since.passes.sum())
            count += 1
    for engine, own in rows.groupby("engine"):
        head = flat(shop.run("plan", engine, "--on", LAST))
        wanted = f"{own.passes.sum()} passes, {own.event.nunique()} events since the freshen"
        assert wanted in head, (wanted, head[:300])
    assert rows.groupby("engine").event.nunique().sum() == 25
    return count


def parts(rows):
    """Passes that each set came to, its maker, and whether it failed."""
    lives = []
    for at, fitted in rows[rows.what == "fitted"].iterrows():
        own = rows[(rows.engine == fitted.engine) & (rows.index > at)]
        out = own[(own.what == "removed") & (own.serial == fitted.serial)]
        span = own.loc[: out.index[0]] if len(out) else own
        lives.append({
            "serial": fitted.serial, "maker": fitted.maker, "engine": fitted.engine, "passes": span.passes.sum(),
            "failed": bool(len(out) and out.iloc[0].failed), "in": not len(out),
        })
    return pandas.DataFrame(lives)


def survival(shop, lives):
    """Kaplan and Meier's figures, and the log-rank test where it is made."""
    count = 0
    for by in ("maker", "engine", "shop"):
        page = shop.json("book", "lives", "valve springs", "--by", by, "--on", LAST)
        groups = {"the shop": lives} if by == "shop" else dict(list(lives.groupby(by)))
        assert {g["name"] for g in page["groups"]} == set(groups), page
        for group in page["groups"]:
            own = groups[group["name"]]
            fit = KaplanMeierFitter().fit(own.passes, own.failed)
            assert (group["failed"], group["sound"]) == (own.failed.sum(), (~own.failed).sum()), group
            for step in group["steps"]:
                wanted = float(fit.survival_function_at_times(step["at"]).iloc[0])
                assert abs(step["good"] - wanted) < 1e-12, (group, wanted)
                at = fit.event_table.loc[step["at"]]
                assert (step["running"], step["failed"]) == (at.at_risk, at.observed), (step, at)
                count += 1
        if page["test"]:
            one, two = groups.values()
            wanted = logrank_test(one.passes, two.passes, one.failed, two.failed)
            assert abs(page["test"]["chi-square"] - wanted.test_statistic) < 1e-9, (page["test"], wanted)
            assert abs(page["test"]["chance"] - scipy.stats.chi2.sf(wanted.test_statistic, 1)) < 1e-9, page["test"]
            count += 1
    return count


def money(shop, rows):
    """Bought, worked, paid and owed, from the lines."""
    page = shop.json("book", "money", "--on", LAST)
    accounts = {a["engine"]: a for a in page["accounts"]}
    for engine in shop.scenario["engine"]:
        own, hour = rows[rows.engine == engine["name"]], engine["costs"]["hour"]
        kept = [words for _, kind, words in shop.lines if kind == "book" and words[1] == engine["name"]]
        charged = [words for words in kept if words[0] == "charge"]
        bought = own.cost.sum() + sum(float(words[2]) for words in charged)
        hours = own.hours.sum() + sum(float(option(words, "--hours") or 0) for words in charged)
        paid = sum(float(words[2]) for words in kept if words[0] == "paid")
        budget = sum(float(words[2]) for words in kept if words[0] == "budget")
        spent = bought + hours * hour
        got = accounts[engine["name"]]
        wanted = {"bought": bought, "hours": hours, "work": hours * hour, "paid": paid, "owed": spent - paid, "budget-left": budget - spent}
        for name, value in wanted.items():
            assert abs(got[name] - value) < 1e-9, (engine["name"], name, got[name], value)
    return len(accounts)


def dates(shop, lives):
    """Days to order by, the age of the set that is in, and the chances of an event more."""
    count = 0
    for engine in shop.scenario["engine"]:
        for on in ("2026-07-06", "2026-08-09", "2026-09-07"):
            plan = shop.json("plan", engine["name"], "--on", on)
            day = datetime.date.fromisoformat
            for order in plan["orders"]:
                if not order["by"]:
                    continue
                # what is late is wanted today; its day to order by is that of the event all the same
                first = {e["name"]: e["date"] for e in engine["calendar"]}
                ready = first.get(order["wanted"]["before"], order["wanted"]["date"])
                wanted = day(ready) - datetime.timedelta(days=order["days"] + order["work-days"])
                if order["away"] and order["away"]["misses"]:
                    # too late for that event, as is said; then it goes out when it can
                    assert wanted < day(order["by"]) and order["away"]["misses"] == order["wanted"]["before"], order
                    continue
                late = max(0, (day(on) - wanted).days)
                assert day(order["by"]) == wanted, (on, order)
                assert order["late-days"] == late, (on, order, late)
                count += 1
            hours = {s["rule"]: s["hours"] for s in plan["services"]}
            for stop in plan["stops"]:
                least = max(hours[rule] for rule in stop["services"])
                assert stop["hours"] >= least - 1e-9 and stop["days"] == max(1, math.ceil(stop["hours"] / 8 - 1e-9)), stop
        own = lives[(lives.engine == engine["name"]) & lives["in"]].iloc[-1]
        springs = next(s for s in shop.json("plan", engine["name"], "--on", LAST)["services"] if s["rule"] == "freshen/springs")
        assert springs["serial"] == own.serial, (springs["serial"], own)
        # passes with pulls and over-revs among them count as no less than they are
        assert springs["used"] >= own.passes, (springs["used"], own)
    return count


def calendar(shop):
    """Every event that is ahead, once, on its days."""
    count = 0
    for engine in shop.scenario["engine"]:
        for on in ("2026-07-06", "2026-09-07"):
            text = subprocess.run(
                [shop.program, "plan", engine["name"], "--on", on, "--format", "ics", "--book", shop.book], check=True, capture_output=True
            ).stdout
            assert max(len(line) for line in text.split(b"\r\n")) <= 75
            read = icalendar.Calendar.from_ical(text)
            assert not read.errors
            got = set()
            for entry in read.walk("VEVENT"):
                if str(entry["CATEGORIES"].cats[0]) != "event" or str(entry["STATUS"]) == "CANCELLED":
                    continue
                last = entry.decoded("DTEND") - datetime.timedelta(days=1)
                name = str(entry["SUMMARY"]).removeprefix(f"{engine['name']}: ")
                got.add((name, entry.decoded("DTSTART").isoformat(), last.isoformat()))
            ahead = [e for e in engine["calendar"] if e.get("last-date", e["date"]) >= on]
            wanted = {(e["name"], e["date"], e.get("last-date", e["date"])) for e in ahead}
            assert got == wanted, (got ^ wanted)
            count += len(got)
    return count


def main():
    program, path = sys.argv[1:]
    scenario = tomllib.loads(pathlib.Path(path).read_text(encoding="utf-8"))
    with tempfile.TemporaryDirectory() as folder:
        shop = Shop(program, scenario, folder)
        shop.type()
        rows = table(shop)
        lives = parts(rows)
        counted = [
            f"{runs(shop, rows)} counts of runs", f"{len(lives)} sets", f"{survival(shop, lives)} survival figures",
            f"{money(shop, rows)} accounts", f"{dates(shop, lives)} days to order by", f"{calendar(shop)} entries of a calendar",
        ]
    print(f"  {len(rows)} lines of 25 events worked out anew: {', '.join(counted)}")


main()
