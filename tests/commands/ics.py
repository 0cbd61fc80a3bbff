"""Reads calendar files with two independent parsers and prints what each of them found, as JSON."""

import json
import sys

import icalendar
import vobject


def by_icalendar(data):
    calendar = icalendar.Calendar.from_ical(data)
    events = []
    for component in calendar.walk():
        if component.errors:
            sys.exit(f"icalendar: {component.errors}")
    for event in calendar.walk("VEVENT"):
        categories = event.get("CATEGORIES")
        events.append({
            "uid": str(event["UID"]),
            "sequence": int(event["SEQUENCE"]),
            "first": event.decoded("DTSTART").isoformat(),
            "end": event.decoded("DTEND").isoformat(),
            "status": str(event["STATUS"]),
            "summary": str(event["SUMMARY"]),
            "description": str(event["DESCRIPTION"]),
            "houses": [str(c) for c in categories.cats] if categories else [],
        })
    return events


def by_vobject(data):
    calendars = list(vobject.readComponents(data.decode("utf-8")))
    if len(calendars) != 1:
        sys.exit(f"vobject: {len(calendars)} calendars")
    calendars[0].validate(raiseException=True)
    events = []
    for event in calendars[0].vevent_list:
        event.validate(raiseException=True)
        events.append({
            "uid": event.uid.value,
            "sequence": int(event.sequence.value),
            "first": event.dtstart.value.isoformat(),
            "end": event.dtend.value.isoformat(),
            "status": event.status.value,
            "summary": event.summary.value,
            "description": event.description.value,
            "houses": list(event.categories.value) if "categories" in event.contents else [],
        })
    return events


files = [open(name, "rb").read() for name in sys.argv[1:]]
print(json.dumps({"icalendar": [by_icalendar(f) for f in files], "vobject": [by_vobject(f) for f in files]}))
