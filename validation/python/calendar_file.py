"""What icalendar reads in a calendar file that this program wrote.

    python calendar_file.py TEXT

takes the file's text and prints one JSON document: what stands in the calendar and in each of its events,
as that library understands it, with all that it found wrong.
"""

import json
import platform
import sys
from importlib import metadata

import icalendar
from icalendar.parser import unescape_backslash


def alarm(component):
    return {
        "action": str(component["ACTION"]),
        "description": str(component["DESCRIPTION"]),
        "days": component.decoded("TRIGGER").total_seconds() / 86400,
    }


def event(component):
    end = component.get("DTEND")
    return {
        "uid": str(component["UID"]),
        "stamped": component.decoded("DTSTAMP").isoformat(),
        "sequence": int(component["SEQUENCE"]),
        "start": component.decoded("DTSTART").isoformat(),
        "end": end and end.dt.isoformat(),
        "summary": str(component["SUMMARY"]),
        "description": str(component.get("DESCRIPTION", "")),
        "status": str(component.get("STATUS", "")),
        "transparent": str(component["TRANSP"]) == "TRANSPARENT",
        "alarms": [alarm(inner) for inner in component.walk("VALARM")],
    }


def main():
    calendar = icalendar.Calendar.from_ical(sys.argv[1])
    wrong = [str(fault) for component in calendar.walk() for fault in component.errors]
    document = {
        "made_by": {"icalendar": metadata.version("icalendar"), "python": platform.python_version()},
        "version": str(calendar["VERSION"]),
        "program": str(calendar["PRODID"]),
        # RFC 7986 makes it text, and the library takes it for a property it does not know.
        "name": unescape_backslash(str(calendar["NAME"])),
        "events": [event(component) for component in calendar.walk("VEVENT")],
        "wrong": wrong,
    }
    json.dump(document, sys.stdout, indent=1)


main()
