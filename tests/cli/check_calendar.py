"""The calendar of a plan, from outside: JSON, screen and iCalendar file say the same, by python3-icalendar (RFC 5545); chores stand in the
order of the trade, each with a day that is still to come, a reason and a source.

usage: check_calendar.py PROGRAM
"""
import datetime
import json
import pathlib
import subprocess
import sys
import tempfile

import icalendar

from arithmetic import Checks, feedstock_rows

check = Checks()
EXAMPLES = pathlib.Path(__file__).resolve().parents[2] / "examples"
YARDS = ["leaves-only", "clippings-only", "fed-bin", "quarter-acre", "spring-yard", "december-hoop", "lawn-order", "front-lawn", "clinic-strip", "tumbler", "school-field"]
DAYS = ["2026-11-28", "2027-04-01", "2027-07-01", "2028-02-29"]
ORDER = ["soil-sample", "by-the-result", "screwdriver", "order", "mark-lines", "topdress"]  # of a lawn, by the trade


def run(program, *arguments):
    done = subprocess.run([program, *map(str, arguments)], capture_output=True, text=True, timeout=120)
    check(done.returncode in (0, 1), f"{arguments}: {done.stderr}")
    return done.stdout


def day(text):
    return datetime.date.fromisoformat(text)


def check_file(where, path, calendar):
    data = path.read_bytes()
    check(b"\n" not in data.replace(b"\r\n", b""), f"{where}: lines end with CRLF")
    check(all(len(line) <= 75 for line in data.split(b"\r\n")), f"{where}: a line of more than 75 bytes")
    parsed = icalendar.Calendar.from_ical(data)
    check(str(parsed["VERSION"]) == "2.0" and parsed["PRODID"], f"{where}: {parsed}")
    events = parsed.walk("VEVENT")
    check(len(events) == len(calendar), f"{where}: {len(events)} events for {len(calendar)} chores")
    check(len({str(event["UID"]) for event in events}) == len(events), f"{where}: an UID twice")
    for event, chore in zip(events, calendar):
        whose = ["", "", " (second pile)", " (third pile)", " (fourth pile)", " (fifth pile)"][min(chore["pile"] or 0, 5)]
        said = str(event["DESCRIPTION"])
        check(str(event["SUMMARY"]) == chore["title"] + whose and len(chore["title"]) <= 30, f"{where}: {event['SUMMARY']} is not {chore['title']}")
        check(chore["chore"][1:] in said, f"{where}: {said} does not say {chore['chore']}")
        for amount in chore["amounts"]:
            check(feedstock_rows()[amount["id"]]["name"] in said, f"{where}: {said} without {amount['id']}")
        check(str(event["DESCRIPTION"]).find(f"Why: {chore['why']} ({chore['source']}).") > 0, f"{where}: {event['DESCRIPTION']}")
        check(event["DTSTART"].dt == day(chore["from"]), f"{where}: {event['DTSTART'].dt} is not {chore['from']}")
        last = event["DTEND"].dt - datetime.timedelta(days=1)
        if chore["every_days"]:
            rule = event["RRULE"]
            check(rule["FREQ"] == ["DAILY"] and rule["INTERVAL"] == [chore["every_days"]] and rule["UNTIL"] == [day(chore["to"])], f"{where}: {rule}")
            check(last == day(chore["from"]), f"{where}: a chore of one day again and again: {last}")
        else:
            check(last == day(chore["to"]), f"{where}: {last} is not {chore['to']}")
    check((b"DTSTAMP:" in data) == bool(calendar), f"{where}: no stamp")


def check_chores(where, today, calendar, answer):
    ids = [chore["id"] for chore in calendar]
    whose = [(chore["id"], chore["pile"], chore["from"]) for chore in calendar]
    check(len(set(whose)) == len(whose), f"{where}: {whose}")
    for chore in calendar:
        check(day(today) <= day(chore["from"]) <= day(chore["to"]), f"{where}: {chore}")
        check(chore["why"] and chore["source"] and chore["chore"], f"{where}: {chore}")
    check([chore["from"] for chore in calendar] == sorted(chore["from"] for chore in calendar), f"{where}: out of order")
    at = {chore["id"]: chore for chore in calendar}
    lawn = [at[one] for one in ORDER if one in at]
    for before, after in zip(lawn, lawn[1:]):
        check(day(before["from"]) <= day(after["from"]), f"{where}: {before['id']} after {after['id']}")
    hold = answer["topdress"] and answer["topdress"]["spreading"]["phosphorus"] == "hold"
    check(("ask-extension" in at) == bool(hold), f"{where}: {ids}")
    check(not (hold and {"topdress", "order", "mark-lines"} & set(at)), f"{where}: spreads on a lawn that is held")
    if answer["topdress"] and not hold:
        check("topdress" in at and "mark-lines" in at, f"{where}: {ids}")
        wants_test = answer["topdress"]["spreading"]["phosphorus"] != "go" or answer["topdress"]["soil_test"]["too_old"]
        check(("soil-sample" in at) == bool(wants_test), f"{where}: {ids}")
        if wants_test:
            check(day(at["topdress"]["from"]) - day(at["soil-sample"]["from"]) >= datetime.timedelta(days=42), f"{where}: spreads before the result")
    for pile in {chore["pile"] for chore in calendar} - {None}:
        of = {chore["id"]: chore for chore in calendar if chore["pile"] == pile}
        if "cure" in of:
            check(of["cure"]["to"] == of["test"]["from"] and day(of["test"]["to"]) <= day(of["screen"]["from"]), f"{where}: {of}")
            for work in {"turn", "rotate", "squeeze", "feed"} & set(of):
                check(day(of[work]["to"]) <= day(of["cure"]["to"]), f"{where}: {work} after it cures: {of}")


def main():
    program = sys.argv[1]
    with tempfile.TemporaryDirectory() as folder:
        for name in YARDS:
            for today in DAYS:
                where, path = f"{name} on {today}", pathlib.Path(folder) / "chores.ics"
                answer = json.loads(run(program, "plan", EXAMPLES / f"{name}.toml", "--today", today, "--json", "--calendar", path, "--force"))
                check_chores(where, today, answer["calendar"], answer)
                check_file(where, path, answer["calendar"])
        screen = " ".join(run(program, "plan", EXAMPLES / "front-lawn.toml", "--today", "2027-07-01", "--why").split())
        check("The calendar" in screen and "Sep 1 to Sep 30: Mow short" in screen, screen)
        path.write_text("mine")
        done = subprocess.run([program, "plan", str(EXAMPLES / "front-lawn.toml"), "--calendar", str(path)], capture_output=True, text=True, timeout=60)
        check(done.returncode == 2 and path.read_text() == "mine", f"{done}")
    print("\n".join(check.failures[:20]))
    print(f"{check.count} checks of calendars, {len(check.failures)} failures")
    return 1 if check.failures else 0


if __name__ == "__main__":
    sys.exit(main())
