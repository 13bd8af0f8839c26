"""python tests/crosscheck/calendar_file.py THOU SHEET...: the plan's calendar file, read back by PyPI's `icalendar`, says
what the plan for programs says of the same sheet: events, stops, days to order by, dated parts."""

import datetime
import json
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

    dated = [s for s in plan["stops"] if s["date"]]
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
        found = calendar.walk("VTODO")
        assert not calendar.errors and len(found) == len(plan["findings"]) > 0, (found, plan["findings"])
        assert len({str(entry["UID"]) for entry in found}) == len(found)
        for finding, entry in zip(plan["findings"], found):
            assert not entry.errors and entry["STATUS"] == "NEEDS-ACTION", entry
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
    assert min(entries) > 3, entries
    print(f"  {asked} to-dos and {sum(entries)} entries of {len(entries)} calendars read back by icalendar {icalendar.__version__}")


main()
