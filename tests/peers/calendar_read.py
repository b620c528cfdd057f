"""Reads a calendar with icalendar (PyPI) and answers its events as JSON."""

import json
import sys
from datetime import date, datetime, timezone

from icalendar import Calendar


def moment(prop):
    if prop is None:
        return None
    value = prop.dt
    if isinstance(value, datetime) and value.tzinfo is not None:
        return value.astimezone(timezone.utc).strftime("%Y-%m-%dT%H:%M:%SZ")
    assert isinstance(value, (date, datetime))
    return value.strftime("%Y-%m-%dT%H:%M:%S")


problem = json.load(sys.stdin)
calendar = Calendar.from_ical(problem["text"])
events = []
for event in calendar.walk("VEVENT"):
    events.append(
        {
            "uid": str(event["UID"]),
            "summary": str(event["SUMMARY"]),
            "description": str(event["DESCRIPTION"]) if "DESCRIPTION" in event else "",
            "begins": moment(event.get("DTSTART")),
            "ends": moment(event.get("DTEND")),
            "alarms": len(event.walk("VALARM")),
        }
    )
errors = [str(e) for component in calendar.walk() for e in component.errors]
json.dump({"version": str(calendar["VERSION"]), "events": events, "errors": errors}, sys.stdout)
