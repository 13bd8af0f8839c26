"""python tests/crosscheck/calendar_file.py THOU SHEET...: the plan's calendar file, read back by PyPI's `icalendar`, says
what the plan for programs says of the same sheet: events, stops and what comes round again, days to order by, dated
parts; the turns within the season are counted here once more, and an engine's files out of a book are taken in one after
another as a calendar does it."""

import datetime
import json
import math
import pathlib
import shutil
import subprocess
import sys
import tempfile

import icalendar

FOOT = "Planning figures. Makers, sanctioning body, local codes and licensed practice come first."
ROUND = datetime.date(2000, 1, 1)


def run(program, sheet, form, more=()):
    return subprocess.run([program, "plan", sheet, *more, "--format", form], check=True, capture_output=True).stdout


def day(text):
    return datetime.date.fromisoformat(text)


def compare(program, sheet):
    """Gives how many entries were compared."""
    plan = json.loads(run(program, sheet, "json"))
    calendar = icalendar.Calendar.from_ical(run(program, sheet, "ics"))
    assert not calendar.errors and calendar["VERSION"] == "2.0" and "PRODID" in calendar, calendar.errors
    today = day(plan["as-of"])
    found = {"event": [], "stop": [], "order": [], "dated part": []}
    uids = set()
    for entry in calendar.walk("VEVENT"):
        assert not entry.errors, entry.errors
        (kind,) = entry["CATEGORIES"].cats if hasattr(entry["CATEGORIES"], "cats") else [entry["CATEGORIES"]]
        first, last = entry.decoded("DTSTART"), entry.decoded("DTEND") - datetime.timedelta(days=1)
        assert type(first) is datetime.date and first <= last, entry
        stamp = entry.decoded("DTSTAMP")
        assert stamp == datetime.datetime.combine(today, datetime.time(), datetime.timezone.utc), stamp
        assert entry["SEQUENCE"] == (today - ROUND).days, entry["SEQUENCE"]
        assert entry["UID"] not in uids, entry["UID"]
        uids.add(entry["UID"])
        assert entry["DESCRIPTION"].split("\n")[-1] == FOOT, entry["DESCRIPTION"]
        summary = str(entry["SUMMARY"]).removeprefix(f"{plan['engine']}: ")
        found[str(kind)].append((summary, first, last, str(entry.get("LOCATION", "")), str(entry["DESCRIPTION"])))

    wanted = [(e["name"], day(e["first"]), day(e["last"]), e["at"] or "") for e in plan["events"]]
    assert [e[:4] for e in found["event"]] == wanted, (found["event"], wanted)

    check_turns(plan)
    again = {}
    for turn in plan["again"]:
        again.setdefault((turn["date"], turn["before"]), []).append(turn["rule"])
    service_hours = {s["rule"]: s["hours"] for s in plan["services"]}
    dated = []
    for stop in (s for s in plan["stops"] if s["date"]):
        more = again.pop((stop["date"], stop["before"]), []) if stop["before"] else []
        dated.append({**stop, "services": stop["services"] + more})
    dated += [{"date": date, "before": before, "services": rules} for (date, before), rules in sorted(again.items())]
    for stop in dated:
        stop["days"] = max(1, math.ceil(sum(service_hours[rule] for rule in stop["services"]) / 8 - 1e-9))
    assert len(found["stop"]) == len(dated), (len(found["stop"]), len(dated))
    cautions = {s["rule"]: s["caution"] for s in plan["services"] if s["caution"]}
    for stop, (summary, first, last, _, words) in zip(dated, found["stop"]):
        assert (f"before {stop['before']}" in summary) == bool(stop["before"]), summary
        if stop["before"]:
            # the days of work end on the day before the event, and start no sooner than the plan
            assert last == max(day(stop["date"]) - datetime.timedelta(days=1), today), (summary, last)
            assert first == max(last - datetime.timedelta(days=stop["days"] - 1), today), (summary, first)
        else:
            assert first == max(day(stop["date"]), today), (summary, first)
            assert (last - first).days == stop["days"] - 1, summary
        assert words.count("\n- ") + words.startswith("- ") == len(stop["services"]), words
        for rule in stop["services"]:
            assert cautions.get(rule, "") in words, (rule, words)

    orders = [(o["part"], max(day(o["by"]), today)) for o in plan["orders"] if o["by"]]
    assert [(s.split(" ", 1)[1].removeprefix("out "), f) for s, f, *_ in found["order"]] == orders, found["order"]

    with open(sheet, encoding="utf-8") as file:
        stamps = [day(c["until"]) for c in json.load(file).get("certificates", [])]
    assert [f for _, f, *_ in found["dated part"]] == stamps, found["dated part"]
    return len(uids)


def check_turns(plan):
    """What is done at a stop starts again at the event after it: the turns within the season, counted event by event for
    what has no meter but passes or events."""
    events = {e["name"]: n for n, e in enumerate(plan["events"])}
    meters = {}
    for s in plan["services"]:
        if s["used"] is not None:
            meters.setdefault(s["rule"], {})[s["meter"]] = s["nominal"]
    for stop in plan["stops"]:
        for rule in stop["services"]:
            if stop["before"] is None or len(meters[rule]) != 1 or not set(meters[rule]) <= {"passes", "events"}:
                continue
            ((meter, life),) = meters[rule].items()
            weights = [1 if meter == "events" else e["most"] for e in plan["events"]]
            if not any(weights):
                continue
            wanted, start = [], events[stop["before"]]
            run, n = 0, start
            while n < len(weights):
                if run + weights[n] <= life + 1e-6:
                    run, n = run + weights[n], n + 1
                elif n == start:
                    # it comes round within that event
                    break
                else:
                    wanted.append(plan["events"][n]["name"])
                    run, start = 0, n
            turns = [t["before"] for t in plan["again"] if t["rule"] == rule]
            assert turns == wanted, (rule, turns, wanted)


def no_ghosts(program, sheets, folder):
    """The engine's files out of a book, one after the other into one calendar. Gives how many entries moved or went."""
    samples = pathlib.Path(sheets[0]).parent
    book = ("--book", str(pathlib.Path(folder) / "client.book"))
    path = pathlib.Path(folder) / "client.json"
    sheet = json.loads((samples / "bracket.json").read_text(encoding="utf-8"))
    for file in samples.glob("*.csv"):
        shutil.copy(file, folder)
    client, changed = {}, 0

    def struck(name):
        sheet["calendar"] = [e for e in sheet["calendar"] if e["name"] != name]

    def postponed():
        sheet["calendar"][2].update({"date": "2026-08-08", "last-date": "2026-08-09"})

    steps = [
        ("2026-06-26", lambda: None, []),
        ("2026-07-06", postponed, [["9 passes", "--event", "E1", "--day", "2026-07-05"]]),
        ("2026-07-20", lambda: struck("E4"), [["7 passes", "--day", "2026-07-18"], ["did", "spark-plugs", "--day", "2026-07-19"]]),
        ("2026-08-20", lambda: struck("E9"), [["20 passes", "--day", "2026-08-10"], ["did", "oil", "--day", "2026-08-19"]]),
        ("2026-09-15", lambda: struck("E7"), [["over-rev", "7950 rpm", "--day", "2026-09-12"]]),
        ("2026-09-16", lambda: sheet["engine"].update({"job": "26-099"}), []),
    ]
    for today, change, lines in steps:
        change()
        path.write_text(json.dumps(sheet), encoding="utf-8")
        call = ("book", "add", str(path), "--engine", "0417", "--day", today, *book)
        subprocess.run([program, *call], check=True, capture_output=True)
        for line in lines:
            call = ("log", "add", "0417", *line, "--sure", *book)
            subprocess.run([program, *call], check=True, capture_output=True)
        calendar = icalendar.Calendar.from_ical(run(program, "0417", "ics", (*book, "--on", today)))
        assert not calendar.errors, calendar.errors
        file = {str(e["UID"]): e for e in [*calendar.walk("VEVENT"), *calendar.walk("VTODO")]}
        for uid, entry in file.items():
            assert not entry.errors, entry.errors
            known = client.get(uid)
            rank = lambda e: (e["SEQUENCE"], e.decoded("DTSTAMP"))  # noqa: E731
            if known is None or rank(entry) > rank(known):
                changed += known is not None
                client[uid] = entry
        alive = lambda e: e["STATUS"] not in ("CANCELLED", "COMPLETED")  # noqa: E731
        ahead = lambda e: "DTEND" not in e or e.decoded("DTEND") > day(today)  # noqa: E731
        shown = {uid for uid, e in client.items() if alive(e) and ahead(e)}
        wanted = {uid for uid, e in file.items() if alive(e) and ahead(e)}
        assert shown == wanted, (today, shown ^ wanted)
        for uid in wanted:
            for key in ("SUMMARY", "DESCRIPTION", "DTSTART"):
                assert client[uid].get(key) == file[uid].get(key), (today, uid, key)
    assert changed > 20, changed
    return changed


def reminders(program, sheet):
    """Each reminder rings at eight in the morning of the day that was asked for."""
    calendar = icalendar.Calendar.from_ical(run(program, sheet, "ics", ("--remind", "7,0")))
    count = 0
    for entry in calendar.walk("VEVENT"):
        alarms = entry.walk("VALARM")
        event = str(entry["CATEGORIES"].cats[0]) == "event"
        assert len(alarms) == (0 if event else 2), entry
        midnight = datetime.datetime.combine(entry.decoded("DTSTART"), datetime.time())
        rings = sorted(midnight + alarm.decoded("TRIGGER") for alarm in alarms)
        wanted = [midnight + datetime.timedelta(days=-7, hours=8), midnight + datetime.timedelta(hours=8)]
        assert rings == ([] if event else wanted), rings
        assert all(a["ACTION"] == "DISPLAY" and a["DESCRIPTION"] == entry["SUMMARY"] for a in alarms)
        count += len(alarms)
    assert count > 0
    return count


def to_dos(program, sheets, folder):
    """What a log asks to look at, from the sample log in a book. Gives how many."""
    samples = pathlib.Path(sheets[0]).parent
    book = ("--book", str(pathlib.Path(folder) / "shop.book"))
    for name in ("bracket", "street", "all-out"):
        subprocess.run([program, "book", "add", str(samples / f"{name}.json"), *book], check=True, capture_output=True)
    log = samples / "seasons" / "nine-mile.jsonl"
    subprocess.run([program, "log", "import", str(log), "--day-is-right", *book], check=True, capture_output=True)
    count = 0
    for on in ("2027-08-05", "2027-09-10"):
        more = (*book, "--on", on)
        plan = json.loads(run(program, "0417", "json", more))
        calendar = icalendar.Calendar.from_ical(run(program, "0417", "ics", more))
        found = [entry for entry in calendar.walk("VTODO") if entry["STATUS"] == "NEEDS-ACTION"]
        assert not calendar.errors and len(found) == len(plan["findings"]) > 0, (found, plan["findings"])
        assert len({str(entry["UID"]) for entry in found}) == len(found)
        for finding, entry in zip(plan["findings"], found):
            assert not entry.errors, entry
            assert str(entry["SUMMARY"]).endswith(finding["title"]), (entry["SUMMARY"], finding)
            assert finding["to-do"] in entry["DESCRIPTION"] and finding["entry"] in entry["DESCRIPTION"], entry
            assert entry["PRIORITY"] == {"stop": 1, "look": 5, "told": 9}[finding["weight"]], entry
            ahead = [day(e["first"]) for e in plan["events"]]
            due = entry.decoded("DUE") if "DUE" in entry else None
            assert due == (ahead[0] if ahead and finding["weight"] != "told" else None), (due, ahead)
            count += 1
    return count


def awkward(sheet, folder):
    """The sheet with names that have to be escaped, folded and told apart, beside copies of the files it names."""
    source = pathlib.Path(sheet)
    for file in source.parent.glob("*.csv"):
        shutil.copy(file, folder)
    plan = json.loads(source.read_text(encoding="utf-8"))
    names = ["Night; north, gate 4\\B", "night north gate 4 B", "Größe \N{HEAVY CHECK MARK} " * 12, 'a "quoted": one', "a\\nb"]
    for event, name in zip(plan["calendar"], names):
        event["name"], event["at"] = name.strip(), f"{name}, {name}".strip()
    target = pathlib.Path(folder) / "awkward.json"
    target.write_text(json.dumps(plan), encoding="utf-8")
    return str(target)


def main():
    program, *sheets = sys.argv[1:]
    with tempfile.TemporaryDirectory() as folder:
        with_events = next(s for s in sheets if '"calendar": [' in pathlib.Path(s).read_text(encoding="utf-8"))
        entries = [compare(program, sheet) for sheet in [*sheets, awkward(with_events, folder)]]
        asked = to_dos(program, sheets, folder)
        changed = no_ghosts(program, sheets, folder)
        rung = reminders(program, with_events)
    assert min(entries) > 3, entries
    print(f"  {asked} to-dos and {sum(entries)} entries of {len(entries)} calendars, {changed} changes of a calendar and {rung} reminders read back by icalendar {icalendar.__version__}")


main()
